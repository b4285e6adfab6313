/* review-scale.c: what the journal says of the scale
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Three things, in this order.  Every reading is freed of the zero error that the zero checks of its
 * day show, in a straight line from one check to the next; after the last one, and before the first,
 * the error of that check stands as it was left.  Then the readings that repeat one another (one
 * part, one figure, one way up, no pass between) give the repeatability, pooled over the set: ends
 * on the stand and whole parts on the scale apart, since a bearing on a stand repeats less well.
 * Last, every check is held against what the scale explains.
 *
 * Where fewer than MIN_FREEDOM repeats are there, half a step is taken, known to about a third
 * (JCGM 100, G.4.2: that is ν = 4).  Our choice; common practice, no published source.
 *
 * Not here: a scale that reads wrong by a factor.  It does so for all parts alike; what its check
 * weight shows to come and go is in wander_g.
 */
#include <math.h>

#include "rounding.h"
#include "review-private.h"
#include "statistics.h"

#define MIN_FREEDOM 4
#define WANDER_DOUBT 0.05

/* -- zero ------------------------------------------------------------------------------------ */

typedef struct
{
  TgReviewBench *bench;
  const TgJob *job;
  gboolean known; /* a zero check was made on this day */
  TgStamp stamp;
  double left_g;   /* the error as the last check left it */
  GArray *pending; /* guint: events since */
} ZeroWalk;

/* The readings since the last check, with the error that it left. */
static void
close_open (ZeroWalk *walk)
{
  const TgReviewSpan span = { .open = TRUE };
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
  const TgReviewSpan span = { .change_g = error_g - walk->left_g };
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

  if (walk->known)
    close_span (walk, event->stamp, error_g);
  else
    close_open (walk);
  walk->known = TRUE;
  walk->stamp = event->stamp;
  walk->left_g = event->set_back ? 0 : error_g;
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

      bench->readings[i] = (TgReviewReading){ tg_mass_to_g (event->mass), 0, -1 };
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
  review->scale.zero_left_g = walk.known ? walk.left_g : 0;
  g_array_unref (walk.pending);
}

/* How far the zero goes after a check that no other follows: as far as it went between the others. */
static void
reckon_open_spans (TgReviewBench *bench)
{
  double squares = 0;
  guint n = 0;

  for (guint i = 0; i < bench->spans->len; i++)
    {
      const TgReviewSpan *span = &g_array_index (bench->spans, TgReviewSpan, i);

      squares += span->open ? 0 : span->change_g * span->change_g;
      n += span->open ? 0 : 1;
    }
  bench->open_u_g = n > 0 ? sqrt (squares / n / 3) : 0;
}

/* -- repeats ---------------------------------------------------------------------------------- */

/* Readings that repeat one another; Welford's recurrence. */
typedef struct
{
  guint n;
  double mean_g;
  double squares;
} Repeats;

typedef struct
{
  double squares;
  double freedom;
} Pool;

static void
pool_repeats (Pool *pool, Repeats *repeats)
{
  if (repeats->n > 1)
    {
      pool->squares += repeats->squares;
      pool->freedom += repeats->n - 1;
    }
  *repeats = (Repeats){ 0 };
}

static TgSupport
support_of (guint figure)
{
  return figure == TG_FIGURE_WHOLE ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND;
}

static void
pool_part (Pool pools[TG_N_SUPPORTS], Repeats repeats[TG_N_FIGURES][TG_N_WAYS])
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    for (guint way = 0; way < TG_N_WAYS; way++)
      pool_repeats (&pools[support_of (f)], &repeats[f][way]);
}

static void
add_repeat (Repeats *repeats, double value_g)
{
  double off = value_g - repeats->mean_g;

  repeats->n++;
  repeats->mean_g += off / repeats->n;
  repeats->squares += off * (value_g - repeats->mean_g);
}

static void
pool_all (TgReview *review, const TgJob *job, const TgReviewBench *bench, Pool pools[TG_N_SUPPORTS])
{
  typedef Repeats OfPart[TG_N_FIGURES][TG_N_WAYS];
  g_autofree OfPart *repeats = g_new0 (OfPart, review->parts->len);

  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      int part = bench->part_of[i];

      if (part < 0 || review->struck[i])
        continue;
      if (event->kind == TG_EVENT_WEIGHING)
        add_repeat (&repeats[part][event->figure][event->way], bench->readings[i].value_g);
      else if (event->kind == TG_EVENT_PASS || event->kind == TG_EVENT_REPLACE)
        pool_part (pools, repeats[part]);
    }
  for (guint i = 0; i < review->parts->len; i++)
    pool_part (pools, repeats[i]);
}

static TgRepeatability
repeatability_of (const Pool *own, const Pool *all, double step_g)
{
  const Pool *pool = own->freedom >= MIN_FREEDOM ? own : all;
  TgRepeatability result = { .deviation_g = step_g / 2, .freedom = MIN_FREEDOM };
  double sigma;

  result.assumed = pool->freedom < MIN_FREEDOM;
  if (!result.assumed)
    {
      result.deviation_g = sqrt (pool->squares / pool->freedom);
      result.freedom = pool->freedom;
    }
  sigma = tg_rounding_sigma (result.deviation_g, step_g);
  result.rounding_u_g = sqrt (tg_rounding_lasting_variance (sigma, step_g));
  return result;
}

TgRepeatability
tg_review_assumed_repeatability (TgMass step)
{
  const Pool none = { 0 };

  return repeatability_of (&none, &none, tg_mass_to_g (step));
}

static void
find_repeatability (TgReview *review, const TgJob *job, const TgReviewBench *bench)
{
  Pool pools[TG_N_SUPPORTS] = { 0 }, all;
  double step_g = tg_mass_to_g (review->setup->resolution);

  pool_all (review, job, bench, pools);
  all.squares = pools[0].squares + pools[1].squares;
  all.freedom = pools[0].freedom + pools[1].freedom;
  for (guint i = 0; i < TG_N_SUPPORTS; i++)
    review->scale.repeatability[i] = repeatability_of (&pools[i], &all, step_g);
}

/* -- checks ----------------------------------------------------------------------------------- */

static TgScaleCheck
judge_check (const TgReview *review, const TgEvent *event, guint index, double value_g, double u_g)
{
  TgScaleCheck check = { .stamp = event->stamp, .event = index };
  double mpe_mg = 0;
  TgCheckWeight judged;

  check.zero = event->kind == TG_EVENT_ZERO;
  check.set_back = event->set_back;
  check.nominal = event->nominal;
  if (!check.zero)
    check.mpe_known = tg_check_weight_mpe_mg (event->nominal, review->setup->check_class, &mpe_mg);
  judged = tg_check_weight_judge (tg_mass_from_g (value_g), event->nominal, mpe_mg,
                                  review->setup->resolution, u_g);
  check.error_g = judged.error_g;
  check.doubtful_g = judged.doubtful_g;
  check.off_g = judged.off_g;
  check.verdict = judged.verdict;
  return check;
}

static void
judge_checks (TgReview *review, const TgJob *job, const TgReviewBench *bench)
{
  TgScaleReview *scale = &review->scale;

  scale->last_zero = scale->last_weight = -1;
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      TgScaleCheck check;

      if (review->struck[i])
        continue;
      scale->readings_since_zero += event->kind == TG_EVENT_WEIGHING;
      if (event->kind != TG_EVENT_ZERO && event->kind != TG_EVENT_CHECK_WEIGHT)
        continue;
      check = judge_check (review, event, i, bench->readings[i].value_g, bench->zero_u_g);
      if (check.zero)
        {
          scale->last_zero = (int) scale->checks->len;
          scale->readings_since_zero = 0;
        }
      else
        scale->last_weight = (int) scale->checks->len;
      g_array_append_val (scale->checks, check);
    }
}

/* What the check weight shows to come and go beyond repeats: the variance between looks less that
 * within, if a test of the variance says that there is any (analysis of variance, JCGM 100, H.5), for
 * one gram of load. */
static void
find_wander (TgReview *review, TgReviewBench *bench)
{
  Repeats looks = { 0 };
  double within = bench->zero_u_g * bench->zero_u_g, load_g = 0, freedom;

  for (guint i = 0; i < review->scale.checks->len; i++)
    {
      const TgScaleCheck *check = &g_array_index (review->scale.checks, TgScaleCheck, i);

      if (check->zero)
        continue;
      add_repeat (&looks, check->error_g / tg_mass_to_g (check->nominal));
      load_g += tg_mass_to_g (check->nominal);
    }
  if (looks.n < 3)
    return;
  load_g /= looks.n;
  within /= load_g * load_g;
  freedom = looks.n - 1;
  if (tg_statistics_chi2_upper (looks.squares / within, freedom) >= WANDER_DOUBT)
    return;
  bench->wander_freedom = freedom;
  review->scale.wander_g = sqrt (looks.squares / freedom - within);
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
  const TgRepeatability *direct = &review->scale.repeatability[TG_SUPPORT_SCALE];

  bench->readings = g_new (TgReviewReading, review->n_events + 1);
  bench->part_of = g_new (int, review->n_events + 1);
  bench->spans = g_array_new (FALSE, FALSE, sizeof (TgReviewSpan));
  bench->wander_freedom = 1;
  find_parts (review, job, bench);
  free_of_zero (review, job, bench);
  reckon_open_spans (bench);
  find_repeatability (review, job, bench);
  bench->zero_u_g = hypot (direct->deviation_g, direct->rounding_u_g);
  judge_checks (review, job, bench);
  find_wander (review, bench);
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

/* -- how well a figure is known --------------------------------------------------------------- */

/* Errors that the readings share because they lie between the same two zero checks.  Readings come
 * in order of time. */
static double
zero_variance (const TgReviewBench *bench, const TgReviewUse *uses, guint n)
{
  double variance = 0;

  for (guint i = 0; i < n;)
    {
      int span_index = bench->readings[uses[i].event].span;
      const TgReviewSpan *span;
      double before = 0, after = 0, early = 0;

      if (span_index < 0)
        {
          i++;
          continue;
        }
      span = &g_array_index (bench->spans, TgReviewSpan, span_index);
      for (; i < n && bench->readings[uses[i].event].span == span_index; i++)
        {
          double share = bench->readings[uses[i].event].share, weight = uses[i].weight;

          variance += weight * weight *
                          tg_uncertainty_drift_covariance (span->change_g, share, share) +
                      2 * weight * (1 - share) * early * span->change_g * span->change_g / 3;
          early += weight * share;
          before += weight * (1 - share);
          after += weight * share;
        }
      variance += (before * before + after * after) * bench->zero_u_g * bench->zero_u_g;
      if (span->open)
        variance += before * before * bench->open_u_g * bench->open_u_g;
    }
  return variance;
}

TgUncertainty
tg_review_use_u (const TgReview *review,
                 const TgReviewBench *bench,
                 TgSupport support,
                 const TgReviewUse *uses,
                 guint n,
                 double load_g)
{
  const TgRepeatability *repeat = &review->scale.repeatability[support];
  double squares = 0;
  TgUncertaintyComponent parts[3];

  for (guint i = 0; i < n; i++)
    squares += uses[i].weight * uses[i].weight;
  parts[0] = (TgUncertaintyComponent){ repeat->deviation_g, repeat->freedom, sqrt (squares) };
  parts[1] = (TgUncertaintyComponent){ sqrt (zero_variance (bench, uses, n)), INFINITY, 1 };
  parts[2] = (TgUncertaintyComponent){ review->scale.wander_g, bench->wander_freedom, load_g };
  return tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));
}
