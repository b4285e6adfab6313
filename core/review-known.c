/* review-known.c: how well a figure is known that is reckoned from readings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A figure is a sum of readings, each with a weight: a mean, the difference of two means, what small
 * and big end are more than the whole.  Readings err on their own, as the scale repeats; and together,
 * by the looks at the zero that they were corrected with and by the way the zero went between two
 * looks (tg_uncertainty_drift_covariance()).
 *
 * Not here: what rounding does to a mean that repeats do not average out; review-weights.c adds it.
 */
#include <math.h>

#include "review-private.h"

TgSupport
tg_review_support (TgFigure figure)
{
  return figure == TG_FIGURE_WHOLE ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND;
}

/* How much of the looks before and after it hangs on one span, and what its path is good for. */
typedef struct
{
  double before;
  double after;
  double path_g2;
} SpanPart;

/* The uses from *i on that lie in one span; *i goes behind them. */
static SpanPart
span_part (const TgReviewBench *bench, const TgReviewUse *uses, guint n, guint *i)
{
  int index = bench->readings[uses[*i].event].span;
  const TgReviewSpan *span = &g_array_index (bench->spans, TgReviewSpan, index);
  SpanPart part = { 0 };

  for (; *i < n && bench->readings[uses[*i].event].span == index; (*i)++)
    {
      double share = bench->readings[uses[*i].event].share, weight = uses[*i].weight;

      part.path_g2 += span->went_g2 *
                      (weight * weight * tg_uncertainty_drift_covariance (1, share, share) +
                       2 * weight * (1 - share) * part.after / 3);
      part.before += weight * (1 - share);
      part.after += weight * share;
    }
  if (span->open)
    part.path_g2 += part.before * part.before * bench->open_u_g * bench->open_u_g;
  return part;
}

TgReviewZeroPart
tg_review_zero_part (const TgReviewBench *bench, const TgReviewUse *uses, guint n)
{
  TgReviewZeroPart zero = { 0 };
  double after = 0;
  int last = -1;

  for (guint i = 0; i < n;)
    {
      int index = bench->readings[uses[i].event].span;
      SpanPart part;

      if (index < 0)
        {
          i++;
          continue;
        }
      part = span_part (bench, uses, n, &i);
      zero.path_g2 += part.path_g2;
      /* the look between two spans counts for both */
      if (last >= 0 && index == last + 1 &&
          !g_array_index (bench->spans, TgReviewSpan, index).fresh)
        part.before += after;
      else
        zero.looks += after * after;
      zero.looks += part.before * part.before;
      after = part.after;
      last = index;
    }
  zero.looks += after * after;
  return zero;
}

TgUncertainty
tg_review_zero_u (const TgReview *review,
                  const TgReviewBench *bench,
                  const TgReviewUse *uses,
                  guint n,
                  double path_freedom)
{
  const TgRepeatability *direct = &review->scale.repeatability[TG_SUPPORT_SCALE];
  TgReviewZeroPart zero = tg_review_zero_part (bench, uses, n);
  const TgUncertaintyComponent parts[] = {
    { direct->deviation_g, direct->freedom, sqrt (zero.looks) },
    { direct->rounding_u_g, INFINITY, sqrt (zero.looks) },
    { sqrt (zero.path_g2), path_freedom, 1 },
  };

  return tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));
}

TgReviewSquares
tg_review_squares (const TgReviewBench *bench, TgReviewUse *uses, guint n)
{
  TgReviewSquares result = { 0 };
  TgReviewZeroPart shared;
  double mean = 0;

  for (guint i = 0; i < n; i++)
    mean += bench->readings[uses[i].event].value_g / n;
  for (guint i = 0; i < n; i++)
    {
      double off = bench->readings[uses[i].event].value_g - mean;
      TgReviewZeroPart own;

      uses[i].weight = 1;
      own = tg_review_zero_part (bench, &uses[i], 1);
      result.squares += off * off;
      result.zero.looks += own.looks;
      result.zero.path_g2 += own.path_g2;
      uses[i].weight = 1.0 / n;
    }
  shared = tg_review_zero_part (bench, uses, n);
  result.zero.looks -= n * shared.looks;
  result.zero.path_g2 -= n * shared.path_g2;
  return result;
}

TgUncertainty
tg_review_use_u (const TgReview *review,
                 const TgReviewBench *bench,
                 const TgReviewUse *uses,
                 guint n,
                 double load_g,
                 double path_freedom)
{
  const TgRepeatability *stand = &review->scale.repeatability[TG_SUPPORT_STAND];
  const TgRepeatability *direct = &review->scale.repeatability[TG_SUPPORT_SCALE];
  TgReviewZeroPart zero = tg_review_zero_part (bench, uses, n);
  double squares[TG_N_SUPPORTS] = { 0 };

  for (guint i = 0; i < n; i++)
    squares[bench->readings[uses[i].event].support] += uses[i].weight * uses[i].weight;
  const TgUncertaintyComponent parts[] = {
    { review->scale.wander_g, bench->wander_freedom, load_g },
    { stand->deviation_g, stand->freedom, sqrt (squares[TG_SUPPORT_STAND]) },
    /* a look at the zero scatters as the readings on the scale do, and is known by them */
    { direct->deviation_g, direct->freedom, sqrt (squares[TG_SUPPORT_SCALE] + zero.looks) },
    { direct->rounding_u_g, INFINITY, sqrt (zero.looks) },
    { sqrt (zero.path_g2), path_freedom, 1 },
  };

  return tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));
}

/* -- figures ----------------------------------------------------------------------------------- */

static int
compare_uses (gconstpointer a, gconstpointer b)
{
  guint x = ((const TgReviewUse *) a)->event, y = ((const TgReviewUse *) b)->event;

  return x < y ? -1 : x > y;
}

void
tg_review_sort_uses (GArray *uses)
{
  g_array_sort (uses, compare_uses);
}

/* How much of the mean hangs on each reading, times @sign. */
static void
add_mean (GArray *uses,
          const TgReviewBench *bench,
          const TgWeight *weight,
          const GArray *readings,
          double sign)
{
  gboolean any = weight->n[TG_WAY_ANY] > 0;
  guint ways = !any && weight->n[TG_WAY_MARK_UP] > 0 && weight->n[TG_WAY_MARK_DOWN] > 0 ? 2 : 1;

  for (guint i = 0; i < readings->len; i++)
    {
      guint event = g_array_index (readings, guint, i);
      TgWay way = bench->readings[event].way;
      const TgReviewUse use = { event,
                                any && way != TG_WAY_ANY ? 0 : sign / weight->n[way] / ways };

      g_array_append_val (uses, use);
    }
}

/* An end that was read one way up is corrected by half of what the two ways differed by before. */
static double
half_turn_u_g (const TgWeight *weight)
{
  gboolean one_way = weight->n[TG_WAY_ANY] == 0 &&
                     (weight->n[TG_WAY_MARK_UP] == 0 || weight->n[TG_WAY_MARK_DOWN] == 0);

  return one_way && weight->has_turn ? weight->turn_u_g / 2 : 0;
}

TgUncertainty
tg_review_mean_u (const TgReview *review,
                  const TgReviewBench *bench,
                  const TgWeight *weight,
                  const GArray *readings)
{
  g_autoptr (GArray) uses = g_array_new (FALSE, FALSE, sizeof (TgReviewUse));
  TgUncertainty mean;

  add_mean (uses, bench, weight, readings, 1);
  mean = tg_review_use_u (review, bench, (const TgReviewUse *) uses->data, uses->len,
                          weight->mean_g, INFINITY);
  mean.u = hypot (mean.u, half_turn_u_g (weight));
  return mean;
}

void
tg_review_reckon_turn (const TgReview *review,
                       const TgReviewBench *bench,
                       TgWeight *weight,
                       const GArray *readings)
{
  g_autoptr (GArray) uses = g_array_new (FALSE, FALSE, sizeof (TgReviewUse));
  TgUncertainty turn;

  if (weight->n[TG_WAY_MARK_UP] == 0 || weight->n[TG_WAY_MARK_DOWN] == 0)
    return;
  for (guint i = 0; i < readings->len; i++)
    {
      guint event = g_array_index (readings, guint, i);
      TgWay way = bench->readings[event].way;
      const TgReviewUse use = { event, (way == TG_WAY_MARK_UP ? 1.0 : -1.0) / weight->n[way] };

      g_array_append_val (uses, use);
    }
  turn = tg_review_use_u (review, bench, (const TgReviewUse *) uses->data, uses->len,
                          weight->mean_g * G_SQRT2, TG_REVIEW_JUMP_FREEDOM);
  weight->turn_u_g = turn.u;
  weight->turn_freedom = turn.freedom;
}

/* What errs alike in all three figures, because they were read between the same looks at the zero,
 * counts once; the step of the display does what it likes to each. */
void
tg_review_reckon_closure (const TgReview *review,
                          const TgReviewBench *bench,
                          TgPartReview *part,
                          GArray *const readings[TG_N_FIGURES])
{
  g_autoptr (GArray) uses = g_array_new (FALSE, FALSE, sizeof (TgReviewUse));
  double load_g = 0, steps_g2 = 0, turns_g2 = 0, random;
  TgUncertainty closure;

  part->closure_g = 0;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      const TgWeight *weight = &part->weight[f];
      double sign = f == TG_FIGURE_WHOLE ? -1 : 1, turn_u_g = half_turn_u_g (weight);
      double step_u_g = review->scale.repeatability[tg_review_support (f)].rounding_u_g;

      add_mean (uses, bench, weight, readings[f], sign);
      part->closure_g += sign * weight->mean_g;
      load_g = hypot (load_g, weight->mean_g);
      steps_g2 += step_u_g * step_u_g;
      turns_g2 += turn_u_g * turn_u_g;
    }
  tg_review_sort_uses (uses);
  closure = tg_review_use_u (review, bench, (const TgReviewUse *) uses->data, uses->len, load_g,
                             TG_REVIEW_JUMP_FREEDOM);
  random = hypot (closure.u, sqrt (turns_g2));
  part->closure_u_g = hypot (random, sqrt (steps_g2));
  part->closure_freedom = closure.freedom * pow (part->closure_u_g / MAX (random, 1e-12), 4);
}
