/* review-known.c: how well a figure is known that is reckoned from readings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A figure is a sum of readings, each with a weight: a mean, the difference of two means, what small
 * and big end are more than the whole.  Readings err on their own, as the scale repeats; and together,
 * by the looks at the zero that they were corrected with and by the way the zero went between two
 * looks (tg_uncertainty_drift_covariance()).
 *
 * Not here: what rounding does that repeats do not average out; the callers add it.
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
