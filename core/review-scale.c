/* review-scale.c: what the journal says of the scale
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every reading is freed of the zero error that the zero checks of its day show, in a straight line
 * from one check to the next; after the last one the error stands as it was left.  Before the first
 * one the scale is taken to have been at zero at the first reading of the day.
 *
 * Then the readings that repeat one another (one part, one figure, one way up, no pass between) give
 * the repeatability, pooled over the set: ends on the stand and whole parts on the scale apart, since
 * a bearing on a stand repeats less well.  Repeats between different zero checks differ by the errors
 * of those checks, too; that share is reckoned and left out, so that it does not count twice.
 *
 * Where fewer than MIN_FREEDOM repeats are there, half a step is taken, known to about a third
 * (JCGM 100, G.4.2: that is ν = 4).  Our choice; common practice, no published source.
 *
 * Not here: a scale that reads wrong by a factor.  It does so for all parts alike; what its check
 * weight shows to come and go is in wander_g.
 */
#include <math.h>

#include "review-private.h"
#include "rounding.h"

#define MIN_FREEDOM 4

/* -- zero ------------------------------------------------------------------------------------ */

typedef struct
{
  TgReviewBench *bench;
  const TgJob *job;
  gboolean known; /* a zero check was made on this day */
  TgStamp stamp;
  gboolean fresh;  /* the last check was followed by setting to zero, or is the first of the day */
  double left_g;   /* the error as the last check left it */
  GArray *pending; /* guint: events since */
} ZeroWalk;

/* The readings since the last check, with the error that it left. */
static void
close_open (ZeroWalk *walk)
{
  const TgReviewSpan span = { .open = TRUE, .fresh = walk->fresh };
  int index = -1;

  if (walk->known && walk->pending->len > 0)
    {
      index = (int) walk->bench->spans->len;
      g_array_append_val (walk->bench->spans, span);
    }
  for (guint i = 0; i < walk->pending->len; i++)
    {
      TgReviewReading *reading = &walk->bench->readings[g_array_index (walk->pending, guint, i)];

      reading->value_g -= walk->known ? walk->left_g : 0;
      reading->span = index;
    }
  g_array_set_size (walk->pending, 0);
}

/* The readings between two checks of one day. */
static void
close_span (ZeroWalk *walk, TgStamp stamp, double error_g)
{
  const TgReviewSpan span = { .change_g = error_g - walk->left_g, .fresh = walk->fresh };
  double length = (double) (stamp.seconds - walk->stamp.seconds);

  for (guint i = 0; i < walk->pending->len; i++)
    {
      guint event = g_array_index (walk->pending, guint, i);
      TgReviewReading *reading = &walk->bench->readings[event];
      double since = (double) (tg_job_event (walk->job, event)->stamp.seconds -
                               walk->stamp.seconds);

      reading->share = length > 0 ? CLAMP (since / length, 0, 1) : 0.5;
      reading->span = (int) walk->bench->spans->len;
      reading->value_g -= walk->left_g + reading->share * span.change_g;
    }
  g_array_append_val (walk->bench->spans, span);
  g_array_set_size (walk->pending, 0);
}

static void
take_zero (ZeroWalk *walk, const TgEvent *event)
{
  double error_g = tg_mass_to_g (event->mass);

  if (!walk->known && walk->pending->len > 0)
    {
      walk->stamp = tg_job_event (walk->job, g_array_index (walk->pending, guint, 0))->stamp;
      walk->left_g = 0;
      walk->fresh = TRUE;
    }
  if (walk->known || walk->pending->len > 0)
    close_span (walk, event->stamp, error_g);
  walk->fresh = event->set_back || !walk->known;
  walk->known = TRUE;
  walk->stamp = event->stamp;
  walk->left_g = event->set_back ? 0 : error_g;
}

static TgSupport
support_of (const TgEvent *event)
{
  return event->kind == TG_EVENT_WEIGHING ? tg_review_support (event->figure) : TG_SUPPORT_SCALE;
}

static void
free_of_zero (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  ZeroWalk walk = { .bench = bench, .job = job };
  gint64 day = G_MININT64;

  walk.pending = g_array_new (FALSE, FALSE, sizeof (guint));
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      bench->readings[i] = (TgReviewReading){ tg_mass_to_g (event->mass), 0, -1,
                                              support_of (event) };
      if (review->struck[i])
        continue;
      if (tg_stamp_day (event->stamp) != day)
        {
          close_open (&walk);
          walk.known = FALSE;
          day = tg_stamp_day (event->stamp);
        }
      if (event->kind == TG_EVENT_ZERO)
        take_zero (&walk, event);
      else if (event->kind == TG_EVENT_WEIGHING || event->kind == TG_EVENT_CHECK_WEIGHT)
        g_array_append_val (walk.pending, i);
    }
  close_open (&walk);
  g_array_unref (walk.pending);
}

/* -- repeats ---------------------------------------------------------------------------------- */

/**
 * Pool: of readings that repeat one another
 * @squares: about their means
 * @zero: how much of @squares is owed to zero errors that the readings do not share
 */
typedef struct
{
  double squares;
  double freedom;
  TgReviewZeroPart zero;
} Pool;

/* The readings of one figure and way up since the last pass. */
static void
pool_repeats (Pool *pool, const TgReviewBench *bench, GArray *repeats)
{
  TgReviewSquares squares = tg_review_squares (bench, (TgReviewUse *) repeats->data, repeats->len);

  if (repeats->len > 1)
    {
      pool->squares += squares.squares;
      pool->freedom += repeats->len - 1;
      pool->zero.looks += squares.zero.looks;
      pool->zero.path_g2 += squares.zero.path_g2;
    }
  g_array_set_size (repeats, 0);
}

typedef GArray *OfPart[TG_N_FIGURES][TG_N_WAYS];

static void
pool_part (Pool pools[TG_N_SUPPORTS], const TgReviewBench *bench, OfPart repeats)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    for (guint way = 0; way < TG_N_WAYS; way++)
      if (repeats[f][way])
        pool_repeats (&pools[tg_review_support (f)], bench, repeats[f][way]);
}

static void
add_repeat (OfPart repeats, const TgEvent *event, guint index)
{
  const TgReviewUse use = { index, 1 };
  GArray **slot = &repeats[event->figure][event->way];

  if (!*slot)
    *slot = g_array_new (FALSE, FALSE, sizeof (TgReviewUse));
  g_array_append_val (*slot, use);
}

static void
free_repeats (OfPart repeats)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    for (guint way = 0; way < TG_N_WAYS; way++)
      g_clear_pointer (&repeats[f][way], g_array_unref);
}

static void
pool_events (TgReview *review,
             const TgJob *job,
             const TgReviewBench *bench,
             Pool pools[TG_N_SUPPORTS])
{
  g_autofree OfPart *repeats = g_new0 (OfPart, review->parts->len);

  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      int part = bench->part_of[i];

      if (part < 0 || review->struck[i])
        continue;
      if (event->kind == TG_EVENT_WEIGHING)
        add_repeat (repeats[part], event, i);
      else if (event->kind == TG_EVENT_PASS || event->kind == TG_EVENT_REPLACE)
        pool_part (pools, bench, repeats[part]);
    }
  for (guint i = 0; i < review->parts->len; i++)
    {
      pool_part (pools, bench, repeats[i]);
      free_repeats (repeats[i]);
    }
}

typedef struct
{
  Pool own[TG_N_SUPPORTS];
  Pool all;
  double step_g;
  guint n_looks;
} Pools;

/* The repeats on both supports together where one alone has too few. */
static const Pool *
pool_of (const Pools *pools, TgSupport support)
{
  return pools->own[support].freedom >= MIN_FREEDOM ? &pools->own[support] : &pools->all;
}

/* Of @pool less what its zero errors explain.  Those are few and the same in many readings, so what
 * is left is known less well than so many repeats let expect (Satterthwaite).  With @same the looks at
 * the zero scatter as the readings of this pool do, so what they add tells of the same scatter. */
static TgUncertainty
own_scatter (const Pool *pool, double zero_u_g, guint n_looks, gboolean same)
{
  double looks = pool->zero.looks * zero_u_g * zero_u_g;
  double zero = MAX (0, looks + pool->zero.path_g2), rest = MAX (0, pool->squares - zero);
  double telling = rest + (same ? looks : 0);
  double below = rest * rest / pool->freedom + zero * zero / MAX (n_looks, 1.0);

  return (TgUncertainty){ sqrt (rest / pool->freedom),
                          zero > 0 && below > 0
                              ? CLAMP (telling * telling / below, 1, pool->freedom)
                              : pool->freedom };
}

static TgRepeatability
repeatability_of (const Pools *pools, TgSupport support, double zero_u_g)
{
  const Pool *pool = pool_of (pools, support);
  gboolean same = pool == pool_of (pools, TG_SUPPORT_SCALE);
  double step_g = pools->step_g;
  TgRepeatability result = { .deviation_g = step_g / 2, .freedom = MIN_FREEDOM };
  double sigma;

  result.assumed = pool->freedom < MIN_FREEDOM;
  if (!result.assumed)
    {
      TgUncertainty scatter = own_scatter (pool, zero_u_g, pools->n_looks, same);

      result.deviation_g = scatter.u;
      result.freedom = scatter.freedom;
    }
  sigma = tg_rounding_sigma (result.deviation_g, step_g);
  result.rounding_u_g = sqrt (tg_rounding_lasting_variance (sigma, step_g));
  return result;
}

TgRepeatability
tg_review_assumed_repeatability (TgMass step)
{
  const Pools none = { .step_g = tg_mass_to_g (step) };

  return repeatability_of (&none, TG_SUPPORT_SCALE, 0);
}

static void
pool_all (TgReview *review, const TgJob *job, const TgReviewBench *bench, Pools *pools)
{
  *pools = (Pools){ .step_g = tg_mass_to_g (review->setup->resolution),
                    .n_looks = bench->spans->len > 1 ? bench->spans->len - 1 : 1 };
  pool_events (review, job, bench, pools->own);
  for (guint i = 0; i < TG_N_SUPPORTS; i++)
    {
      pools->all.squares += pools->own[i].squares;
      pools->all.freedom += pools->own[i].freedom;
      pools->all.zero.looks += pools->own[i].zero.looks;
      pools->all.zero.path_g2 += pools->own[i].zero.path_g2;
    }
}

/* One look at the empty scale is as good as one reading on it. */
static double
look_u_g (const Pools *pools, double zero_u_g)
{
  TgRepeatability direct = repeatability_of (pools, TG_SUPPORT_SCALE, zero_u_g);

  return hypot (direct.deviation_g, direct.rounding_u_g);
}

/* The u of a look that explains the repeats, which hold errors of looks themselves: by halving. */
static double
find_look_u_g (const Pools *pools)
{
  double low = 0, high = look_u_g (pools, 0);

  for (guint i = 0; i < 30; i++)
    {
      double middle = (low + high) / 2;

      if (look_u_g (pools, middle) > middle)
        low = middle;
      else
        high = middle;
    }
  return high;
}

/* How far the zero went itself, less what two looks differ by. */
static void
reckon_spans (TgReviewBench *bench)
{
  double squares = 0;
  guint n = 0;

  for (guint i = 0; i < bench->spans->len; i++)
    {
      TgReviewSpan *span = &g_array_index (bench->spans, TgReviewSpan, i);

      span->went_g2 = MAX (0,
                           span->change_g * span->change_g - 2 * bench->zero_u_g * bench->zero_u_g);
      squares += span->open ? 0 : span->went_g2;
      n += span->open ? 0 : 1;
    }
  bench->open_u_g = n > 0 ? sqrt (squares / n / 3) : 0;
}

/* Twice, since what looks at the zero are good for tells how far the zero went, and the other way
 * round; the first time it went as far as was read. */
static void
find_repeatability (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  Pools pools;

  for (guint round = 0; round < 2; round++)
    {
      reckon_spans (bench);
      pool_all (review, job, bench, &pools);
      bench->zero_u_g = find_look_u_g (&pools);
    }
  reckon_spans (bench);
  for (guint i = 0; i < TG_N_SUPPORTS; i++)
    {
      review->scale.repeatability[i] = repeatability_of (&pools, i, bench->zero_u_g);
      bench->repeats[i] = pool_of (&pools, i)->freedom;
    }
}

/* -- the whole -------------------------------------------------------------------------------- */

static void
find_parts (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  g_autoptr (GHashTable) index_of = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint i = 0; i < review->parts->len; i++)
    g_hash_table_insert (index_of, tg_review_part (review, i)->part->id, GUINT_TO_POINTER (i + 1));
  for (guint i = 0; i < review->n_events; i++)
    {
      const char *id = tg_job_event (job, i)->part;

      bench->part_of[i] = id[0] ? (int) GPOINTER_TO_UINT (g_hash_table_lookup (index_of, id)) - 1
                                : -1;
    }
}

TgReviewBench *
tg_review_bench_new (TgReview *review, const TgJob *job)
{
  TgReviewBench *bench = g_new0 (TgReviewBench, 1);

  bench->readings = g_new (TgReviewReading, review->n_events + 1);
  bench->part_of = g_new (int, review->n_events + 1);
  bench->spans = g_array_new (FALSE, FALSE, sizeof (TgReviewSpan));
  bench->wander_freedom = 1;
  find_parts (review, job, bench);
  free_of_zero (review, job, bench);
  find_repeatability (review, job, bench);
  tg_review_judge_checks (review, job, bench);
  return bench;
}

void
tg_review_bench_free (TgReviewBench *bench)
{
  g_free (bench->readings);
  g_free (bench->part_of);
  g_array_unref (bench->spans);
  g_free (bench);
}
