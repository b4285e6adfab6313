/* review-repeats.c: how well readings of this scale repeat
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The readings that repeat one another (one part, one figure, one way up, no pass between) give the
 * repeatability, pooled over the set: ends on the stand and whole parts on the scale apart, since a
 * bearing on a stand repeats less well.
 *
 * Repeats between different zero checks differ by the errors of those checks and by what the zero did
 * between them, too.  That share is reckoned and left out, so that it does not count twice.  Where it
 * is most of it little would be left to be known; then the repeats of two neighbours are taken
 * together, first less first, second less second: the zero does the same to both, and what is left
 * scatters by √2 times one reading.
 *
 * Where fewer than TG_REVIEW_MIN_FREEDOM repeats are there, half a step is taken, known to about a third
 * (JCGM 100, G.4.2: that is ν = 4).  Our choice; common practice, no published source.  If the few
 * repeats, or the differences of the two ways up, which weigh the same, say that the scale is worse
 * than that, they are believed.  Of the differences the median is taken, which a bearing that catches
 * at one end does not move (1.4826 × median of |x| for σ, with 0.37 of the degrees of freedom: Hampel;
 * from memory), from MIN_TURNS ends on.
 */
#include <math.h>
#include <string.h>

#include "review-private.h"
#include "rounding.h"

#define MIN_TURNS 6

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

/* Each repeat for itself, and neighbours together. */
typedef struct
{
  Pool alone;
  Pool paired;
} Family;

/**
 * Repeats:
 * @groups: (element-type GArray of TgReviewUse): readings that repeat one another, 2 or more
 * @turns: (element-type double): first reading mark up less first reading mark down, in size
 * @own: by TgSupport; @all: both supports
 * @n_looks: at the zero, beyond the first
 */
typedef struct
{
  GPtrArray *groups;
  GArray *turns;
  Family own[TG_N_SUPPORTS];
  Family all;
  double step_g;
  guint n_looks;
} Repeats;

/* -- which readings repeat one another --------------------------------------------------------- */

static TgReviewUse *
use_at (const GArray *group, guint i)
{
  return &g_array_index (group, TgReviewUse, i);
}

static double
value_of (const TgReviewBench *bench, const GArray *group, guint i)
{
  return bench->readings[use_at (group, i)->event].value_g;
}

static void
take_part (Repeats *repeats, const TgReviewBench *bench, TgReviewSlots slots)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    if (slots[f][TG_WAY_MARK_UP] && slots[f][TG_WAY_MARK_DOWN])
      {
        double turn_g = fabs (value_of (bench, slots[f][TG_WAY_MARK_UP], 0) -
                              value_of (bench, slots[f][TG_WAY_MARK_DOWN], 0));

        g_array_append_val (repeats->turns, turn_g);
      }
  for (guint f = 0; f < TG_N_FIGURES; f++)
    for (guint way = 0; way < TG_N_WAYS; way++)
      if (slots[f][way] && slots[f][way]->len > 1)
        g_ptr_array_add (repeats->groups, g_array_ref (slots[f][way]));
}

void
tg_review_slots_clear (TgReviewSlots slots)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    for (guint way = 0; way < TG_N_WAYS; way++)
      g_clear_pointer (&slots[f][way], g_array_unref);
}

static void
add_reading (TgReviewSlots slots, const TgEvent *event, guint index)
{
  const TgReviewUse use = { index, 1 };
  GArray **slot = &slots[event->figure][event->way];

  if (!*slot)
    *slot = g_array_new (FALSE, FALSE, sizeof (TgReviewUse));
  g_array_append_val (*slot, use);
}

static int
compare_groups (gconstpointer a, gconstpointer b)
{
  const GArray *x = *(GArray *const *) a, *y = *(GArray *const *) b;

  return use_at (x, 0)->event < use_at (y, 0)->event ? -1 : 1;
}

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

/* Leaves in bench->slots what has been read since the last pass. */
static void
collect (Repeats *repeats, const TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      int part = bench->part_of[i];

      if (part < 0 || review->struck[i])
        continue;
      if (event->kind == TG_EVENT_WEIGHING)
        add_reading (bench->slots[part], event, i);
      else if (event->kind == TG_EVENT_PASS || event->kind == TG_EVENT_REPLACE)
        {
          take_part (repeats, bench, bench->slots[part]);
          tg_review_slots_clear (bench->slots[part]);
        }
    }
  for (guint i = 0; i < bench->n_parts; i++)
    take_part (repeats, bench, bench->slots[i]);
  g_ptr_array_sort (repeats->groups, compare_groups);
  g_array_sort (repeats->turns, compare_doubles);
}

/* -- pooled ------------------------------------------------------------------------------------ */

static void
add_to_pool (Pool *pool, const Pool *more, double factor)
{
  pool->squares += factor * more->squares;
  pool->freedom += more->freedom;
  pool->zero.looks += factor * more->zero.looks;
  pool->zero.path_g2 += factor * more->zero.path_g2;
}

static void
pool_alone (Pool *pool, const TgReviewBench *bench, GArray *group)
{
  TgReviewSquares squares = tg_review_squares (bench, use_at (group, 0), group->len);
  const Pool more = { squares.squares, group->len - 1, squares.zero };

  add_to_pool (pool, &more, 1);
}

/* What the zero does to the sum of so many differences of two neighbours, from @first on. */
static TgReviewZeroPart
zero_of_pair (const TgReviewBench *bench, const GArray *a, const GArray *b, guint first, guint n)
{
  g_autoptr (GArray) uses = g_array_new (FALSE, FALSE, sizeof (TgReviewUse));

  for (guint i = first; i < first + n; i++)
    {
      const TgReviewUse both[] = { { use_at (a, i)->event, 1 }, { use_at (b, i)->event, -1 } };

      g_array_append_vals (uses, both, 2);
    }
  tg_review_sort_uses (uses);
  return tg_review_zero_part (bench, (const TgReviewUse *) uses->data, uses->len);
}

static void
pool_paired (Pool *pool, const TgReviewBench *bench, const GArray *a, const GArray *b)
{
  guint n = MIN (a->len, b->len);
  TgReviewZeroPart sum = zero_of_pair (bench, a, b, 0, n);
  Pool more = { 0, n - 1, { -sum.looks / n, -sum.path_g2 / n } };
  double mean = 0;

  for (guint i = 0; i < n; i++)
    mean += (value_of (bench, a, i) - value_of (bench, b, i)) / n;
  for (guint i = 0; i < n; i++)
    {
      double off = value_of (bench, a, i) - value_of (bench, b, i) - mean;
      TgReviewZeroPart zero = zero_of_pair (bench, a, b, i, 1);

      more.squares += off * off;
      more.zero.looks += zero.looks;
      more.zero.path_g2 += zero.path_g2;
    }
  add_to_pool (pool, &more, 0.5);
}

static void
pool_all (Repeats *repeats, const TgReviewBench *bench)
{
  const GArray *waiting[TG_N_SUPPORTS] = { NULL };

  memset (repeats->own, 0, sizeof repeats->own);
  memset (&repeats->all, 0, sizeof repeats->all);
  for (guint i = 0; i < repeats->groups->len; i++)
    {
      GArray *group = g_ptr_array_index (repeats->groups, i);
      TgSupport support = bench->readings[use_at (group, 0)->event].support;
      Family *own = &repeats->own[support];

      pool_alone (&own->alone, bench, group);
      if (waiting[support] && repeats->n_looks > 0)
        pool_paired (&own->paired, bench, waiting[support], group);
      waiting[support] = waiting[support] ? NULL : group;
    }
  for (guint i = 0; i < TG_N_SUPPORTS; i++)
    {
      add_to_pool (&repeats->all.alone, &repeats->own[i].alone, 1);
      add_to_pool (&repeats->all.paired, &repeats->own[i].paired, 1);
    }
}

/* The repeats on both supports together where one alone has too few. */
static const Family *
family_of (const Repeats *repeats, TgSupport support)
{
  const Family *own = &repeats->own[support];

  return own->alone.freedom >= TG_REVIEW_MIN_FREEDOM ? own : &repeats->all;
}

/* -- repeatability ----------------------------------------------------------------------------- */

/* Of @pool less what its zero errors explain.  Those are few and the same in many readings, so what
 * is left is known less well than so many repeats let expect (Satterthwaite).  With @same the looks at
 * the zero scatter as the readings of this pool do, so what they add tells of the same scatter. */
static TgUncertainty
scatter_of (const Repeats *repeats, const Pool *pool, double zero_u_g, gboolean same)
{
  double looks = pool->zero.looks * zero_u_g * zero_u_g;
  double zero = MAX (0, looks + pool->zero.path_g2), rest = MAX (0, pool->squares - zero);
  double telling = rest + (same ? looks : 0), freedom = pool->freedom;
  double below = rest * rest / freedom + zero * zero / MAX (repeats->n_looks, 1);

  if (zero > 0 && below > 0)
    freedom = CLAMP (telling * telling / below, 1, pool->freedom);
  return (TgUncertainty){ sqrt (rest / pool->freedom), freedom };
}

/* The median of what is shown in steps: those that show the same lie anywhere within half a step of it,
 * evenly. */
static double
median_turn (const Repeats *repeats)
{
  guint n = repeats->turns->len, below = 0, same = 0;
  double middle = g_array_index (repeats->turns, double, n / 2);
  double from = MAX (0, middle - repeats->step_g / 2), to = middle + repeats->step_g / 2;

  for (guint i = 0; i < n; i++)
    {
      double turn = g_array_index (repeats->turns, double, i);

      below += turn < from;
      same += turn >= from && turn <= to;
    }
  return from + (to - from) * CLAMP ((n / 2.0 - below) / same, 0, 1);
}

/* What the two ways up say; nothing where there are too few. */
static TgUncertainty
scatter_of_turns (const Repeats *repeats)
{
  guint n = repeats->turns ? repeats->turns->len : 0;

  if (n < MIN_TURNS)
    return (TgUncertainty){ 0, 1 };
  return (TgUncertainty){ 1.4826 * median_turn (repeats) / G_SQRT2, MAX (3, 0.37 * n) };
}

/* With too few repeats: half a step, or what looks worse. */
static TgUncertainty
assumed_scatter (const Repeats *repeats, const Family *family, double zero_u_g, gboolean same)
{
  const TgUncertainty half_step = { repeats->step_g / 2, TG_REVIEW_MIN_FREEDOM };
  const TgUncertainty few = family->alone.freedom >= 2
                                ? scatter_of (repeats, &family->alone, zero_u_g, same)
                                : half_step;
  const TgUncertainty turns = scatter_of_turns (repeats), all[] = { few, turns };
  TgUncertainty worst = half_step;

  for (guint i = 0; i < G_N_ELEMENTS (all); i++)
    if (tg_uncertainty_expanded (all[i], TG_REVIEW_LEVEL) >
        tg_uncertainty_expanded (worst, TG_REVIEW_LEVEL))
      worst = all[i];
  return worst;
}

static TgRepeatability
repeatability_of (const Repeats *repeats, TgSupport support, double zero_u_g)
{
  const Family *family = family_of (repeats, support);
  gboolean same = family == family_of (repeats, TG_SUPPORT_SCALE);
  gboolean few = family->alone.freedom < TG_REVIEW_MIN_FREEDOM;
  TgUncertainty scatter = few ? assumed_scatter (repeats, family, zero_u_g, same)
                              : scatter_of (repeats, &family->alone, zero_u_g, same);
  TgRepeatability result = { 0 };
  double sigma;

  if (!few && family->paired.freedom > scatter.freedom)
    {
      TgUncertainty paired = scatter_of (repeats, &family->paired, zero_u_g, same);

      scatter = paired.freedom > scatter.freedom ? paired : scatter;
    }
  result.assumed = few && scatter.u == repeats->step_g / 2;
  result.deviation_g = scatter.u;
  result.freedom = scatter.freedom;
  sigma = tg_rounding_sigma (result.deviation_g, repeats->step_g);
  result.rounding_u_g = sqrt (tg_rounding_lasting_variance (sigma, repeats->step_g));
  return result;
}

TgRepeatability
tg_review_assumed_repeatability (TgMass step)
{
  const Repeats none = { .step_g = tg_mass_to_g (step) };

  return repeatability_of (&none, TG_SUPPORT_SCALE, 0);
}

/* One look at the empty scale is as good as one reading on it. */
static double
look_u_g (const Repeats *repeats, double zero_u_g)
{
  TgRepeatability direct = repeatability_of (repeats, TG_SUPPORT_SCALE, zero_u_g);

  return hypot (direct.deviation_g, direct.rounding_u_g);
}

/* The u of a look that explains the repeats, which hold errors of looks themselves: by halving. */
static double
find_look_u_g (const Repeats *repeats)
{
  double low = 0, high = look_u_g (repeats, 0);

  for (guint i = 0; i < 30 && repeats->n_looks > 0; i++)
    {
      double middle = (low + high) / 2;

      if (look_u_g (repeats, middle) > middle)
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

/* What looks at the zero are good for tells how far the zero went, and the other way round; the first
 * time it went as far as was read. */
void
tg_review_find_repeatability (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  Repeats repeats = { .step_g = tg_mass_to_g (review->setup->resolution),
                      .n_looks = bench->spans->len };

  repeats.groups = g_ptr_array_new_with_free_func ((GDestroyNotify) g_array_unref);
  repeats.turns = g_array_new (FALSE, FALSE, sizeof (double));
  collect (&repeats, review, job, bench);
  for (guint round = 0; round < 2; round++)
    {
      reckon_spans (bench);
      pool_all (&repeats, bench);
      bench->zero_u_g = find_look_u_g (&repeats);
    }
  reckon_spans (bench);
  for (guint i = 0; i < TG_N_SUPPORTS; i++)
    {
      TgReviewFamily *family = &bench->family[i];
      const Pool *pool = &family_of (&repeats, i)->alone;
      gboolean same = pool == &family_of (&repeats, TG_SUPPORT_SCALE)->alone;
      TgUncertainty scatter = { 0, 1 };

      review->scale.repeatability[i] = repeatability_of (&repeats, i, bench->zero_u_g);
      if (pool->freedom > 0)
        scatter = scatter_of (&repeats, pool, bench->zero_u_g, same);
      *family = (TgReviewFamily){ pool->freedom, scatter.u * scatter.u * pool->freedom,
                                  scatter.freedom };
    }
  g_ptr_array_unref (repeats.groups);
  g_array_unref (repeats.turns);
}
