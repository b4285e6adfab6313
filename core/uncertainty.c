/* uncertainty.c: how well a figure is known, and what can be proven with it, see uncertainty.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The chance that a spread is kept is an integral over the lightest true value, done by the
 * trapezoidal rule: its integrand is analytic and falls like a normal density at both ends, where
 * the rule converges faster than any power of its step.  Parts with the same reading and the same u
 * are one group with a count, which keeps the sums for planning short.
 *
 * Not here: correlated readings, other distributions of a single error than normal and rectangular,
 * knowledge about the parts from before they were weighed (JCGM 106, 6.2), consumer's and
 * producer's risk over a production.
 */
#include "uncertainty.h"

#include <math.h>

#include "statistics.h"

/* Standard deviations beyond which nothing is left that matters. */
#define REACH 7.5

TgUncertainty
tg_uncertainty_combine (const TgUncertaintyComponent *components, gsize n)
{
  double variance = 0, below = 0;

  for (gsize i = 0; i < n; i++)
    {
      double u = components[i].sensitivity * components[i].u;

      g_return_val_if_fail (components[i].freedom > 0, ((TgUncertainty){ 0, INFINITY }));
      variance += u * u;
      below += u * u * u * u / components[i].freedom;
    }
  return (TgUncertainty){
    .u = sqrt (variance),
    .freedom = below > 0 ? variance * variance / below : (double) INFINITY,
  };
}

double
tg_uncertainty_coverage (double freedom, double level)
{
  g_return_val_if_fail (freedom > 0 && level > 0 && level < 1, 0);

  /* what rounding took from a whole number is given back */
  return -tg_statistics_t_quantile ((1 - level) / 2, MAX (1, floor (freedom * (1 + 1e-12))));
}

double
tg_uncertainty_expanded (TgUncertainty uncertainty, double level)
{
  return tg_uncertainty_coverage (uncertainty.freedom, level) * uncertainty.u;
}

double
tg_uncertainty_of_interval (double half_width)
{
  return half_width / sqrt (3);
}

double
tg_uncertainty_of_resolution (double step, guint displays)
{
  return step * sqrt (displays / 12.0);
}

TgUncertainty
tg_uncertainty_of_mean (const TgUncertaintyScale *scale, guint n)
{
  TgUncertaintyComponent components[2];

  g_return_val_if_fail (scale->step > 0 && scale->repeatability >= 0 && n > 0,
                        ((TgUncertainty){ 0, INFINITY }));

  components[0] = (TgUncertaintyComponent){ scale->repeatability / sqrt (n), scale->freedom, 1 };
  components[1] = (TgUncertaintyComponent){
    tg_uncertainty_of_resolution (scale->step, scale->displays), INFINITY, 1
  };
  return tg_uncertainty_combine (components, 2);
}

gboolean
tg_uncertainty_drift (const TgUncertaintyCheck *before,
                      const TgUncertaintyCheck *after,
                      double time,
                      TgUncertaintyDrift *drift)
{
  double change = after->error - before->error, share, from_before, from_after;

  g_return_val_if_fail (before->time < after->time && drift != NULL, FALSE);

  if (time < before->time || time > after->time)
    return FALSE;
  share = (time - before->time) / (after->time - before->time);
  from_before = (1 - share) * before->u;
  from_after = share * after->u;
  drift->correction = -(before->error + share * change);
  drift->u = sqrt (tg_uncertainty_drift_covariance (change, share, share) +
                   from_before * from_before + from_after * from_after);
  return TRUE;
}

double
tg_uncertainty_drift_covariance (double change, double earlier, double later)
{
  g_return_val_if_fail (earlier >= 0 && earlier <= later && later <= 1, 0);

  return change * change * earlier * (1 - later) / 3;
}

double
tg_uncertainty_conformance (double value, TgUncertainty uncertainty, double lower, double upper)
{
  double u = uncertainty.u, freedom = uncertainty.freedom, low, high;

  g_return_val_if_fail (u > 0 && freedom > 0 && lower < upper, 0);

  low = (lower - value) / u;
  high = (upper - value) / u;
  if (low > 0) /* both in the upper tail: mirrored, so that nothing cancels */
    return tg_statistics_t_cdf (-low, freedom) - tg_statistics_t_cdf (-high, freedom);
  return tg_statistics_t_cdf (high, freedom) - tg_statistics_t_cdf (low, freedom);
}

TgUncertaintyVerdict
tg_uncertainty_judge (
    double value, TgUncertainty uncertainty, double lower, double upper, double level)
{
  if (value < lower || value > upper)
    return TG_UNCERTAINTY_OUT;
  return tg_uncertainty_conformance (value, uncertainty, lower, upper) >= level
             ? TG_UNCERTAINTY_IN
             : TG_UNCERTAINTY_UNPROVEN;
}

double
tg_uncertainty_guard_band (TgUncertainty uncertainty, double level)
{
  g_return_val_if_fail (level > 0.5 && level < 1, 0);

  return -tg_statistics_t_quantile (1 - level, uncertainty.freedom) * uncertainty.u;
}

/* Parts with the same reading and the same u. */
typedef struct
{
  double value;
  double u;
  double count;
} Group;

static void
integration_limits (
    const Group *groups, gsize n, double tolerance, double scale, double *from, double *to)
{
  double nearest = INFINITY, covered = -INFINITY, last = INFINITY;

  for (gsize i = 0; i < n; i++)
    {
      double reach = REACH * groups[i].u * scale;

      nearest = MIN (nearest, groups[i].value - reach);
      covered = MAX (covered, groups[i].value - tolerance - reach);
      last = MIN (last, groups[i].value + reach);
    }
  *from = MAX (nearest, covered);
  *to = last;
}

/* Density of the event that the lightest is at x and all lie within @tolerance above it. */
static double
lightest_density (const Group *groups, gsize n, double tolerance, double scale, double x)
{
  double product = 1, sum = 0;

  for (gsize i = 0; i < n; i++)
    {
      double u = groups[i].u * scale, count = groups[i].count;
      double low = (x - groups[i].value) / u, high = low + tolerance / u;
      double density = exp (-low * low / 2) / (u * sqrt (2 * G_PI));
      double within = low > 0 ? tg_statistics_normal_cdf (-low) - tg_statistics_normal_cdf (-high)
                              : tg_statistics_normal_cdf (high) - tg_statistics_normal_cdf (low);
      double others = 1;

      for (double k = 1; k < count; k++)
        others *= within;
      sum = sum * others * within + product * count * density * others;
      product *= others * within;
    }
  return sum;
}

/* With every u multiplied by @scale. */
static double
spread_kept (const Group *groups, gsize n, double tolerance, double scale)
{
  double from, to, smallest = INFINITY, parts = 0, step, sum = 0;
  guint steps;

  integration_limits (groups, n, tolerance, scale, &from, &to);
  if (from >= to)
    return 0;
  for (gsize i = 0; i < n; i++)
    {
      smallest = MIN (smallest, groups[i].u * scale);
      parts += groups[i].count;
    }
  /* a product of k normal curves is √k times as narrow as one */
  steps = (guint) CLAMP (ceil ((to - from) / (0.8 * smallest / sqrt (parts))), 8, 20000);
  step = (to - from) / steps;
  for (guint i = 0; i <= steps; i++)
    sum += lightest_density (groups, n, tolerance, scale, from + i * step);
  return MIN (sum * step, 1);
}

/* Averages over σ = s √(ν/χ²); v = ln (χ²/ν) has the density exp (ν/2 (v − e^v)) but for a factor. */
static double
spread_probability (const Group *groups, gsize n, double freedom, double tolerance)
{
  double half = freedom / 2, step, sum = 0, weights = 0;

  if (freedom > 1e6)
    return spread_kept (groups, n, tolerance, 1);
  step = 0.3 / sqrt (MAX (half, 0.5));
  for (int side = -1; side <= 1; side += 2)
    for (guint i = side > 0; TRUE; i++)
      {
        double v = side * (double) i * step, log_weight = half * (v - expm1 (v));
        double weight = exp (log_weight);

        if (log_weight < -30)
          break;
        weights += weight;
        sum += weight * spread_kept (groups, n, tolerance, exp (-v / 2));
      }
  return sum / weights;
}

/* Readings of a display are often the same: such parts are reckoned together. */
static void
add_part (Group *groups, gsize *n, double value, double u)
{
  for (gsize i = 0; i < *n; i++)
    if (groups[i].value == value && groups[i].u == u)
      {
        groups[i].count++;
        return;
      }
  groups[(*n)++] = (Group){ value, u, 1 };
}

double
tg_uncertainty_spread_probability (const TgUncertaintySet *set, double tolerance)
{
  g_autofree Group *groups = g_new (Group, set->n);
  gsize n = 0;

  g_return_val_if_fail (tolerance > 0 && set->freedom > 0, 0);

  for (gsize i = 0; i < set->n; i++)
    {
      g_return_val_if_fail (set->u[i] > 0, 0);
      add_part (groups, &n, set->values[i], set->u[i]);
    }
  return set->n < 2 ? 1 : spread_probability (groups, n, set->freedom, tolerance);
}

TgUncertaintySpread
tg_uncertainty_judge_spread (const TgUncertaintySet *set, double tolerance, double level)
{
  double low = INFINITY, high = -INFINITY;
  TgUncertaintySpread result = { .verdict = TG_UNCERTAINTY_OUT };

  g_return_val_if_fail (set->n > 0, result);

  for (gsize i = 0; i < set->n; i++)
    {
      low = MIN (low, set->values[i]);
      high = MAX (high, set->values[i]);
    }
  result.spread = high - low;
  result.probability = tg_uncertainty_spread_probability (set, tolerance);
  if (result.spread <= tolerance)
    result.verdict = result.probability >= level ? TG_UNCERTAINTY_IN : TG_UNCERTAINTY_UNPROVEN;
  return result;
}

/* @n parts with readings at one of two ends, @n_high of them at the upper. */
typedef struct
{
  gsize n;
  gsize n_high;
  TgUncertainty uncertainty;
  double level;
  double tolerance;
} TwoEnds;

/* How far the probability is above the level. */
static double
two_ends_excess (const TwoEnds *ends, double spread)
{
  const Group groups[] = {
    { 0, ends->uncertainty.u, (double) (ends->n - ends->n_high) },
    { spread, ends->uncertainty.u, (double) ends->n_high },
  };

  return spread_probability (groups, ends->n_high > 0 ? 2 : 1, ends->uncertainty.freedom,
                             ends->tolerance) -
         ends->level;
}

/* The same for equal readings against a tolerance of their own. */
static double
equal_excess (const TwoEnds *ends, double tolerance)
{
  TwoEnds equal = *ends;

  equal.n_high = 0;
  equal.tolerance = tolerance;
  return two_ends_excess (&equal, 0);
}

/* Where the function changes its sign: false position after Dowell and Jarratt (Illinois). */
static double
find_crossing (double (*excess) (const TwoEnds *, double),
               const TwoEnds *ends,
               double low,
               double high)
{
  double at_low = excess (ends, low), at_high = excess (ends, high), x = high;
  int side = 0;

  for (guint i = 0; i < 100 && high - low > 1e-9 * high; i++)
    {
      double at, before = x;

      x = (low * at_high - high * at_low) / (at_high - at_low);
      at = excess (ends, x);
      if ((at > 0) == (at_high > 0))
        {
          high = x;
          at_high = at;
          at_low /= side == 1 ? 2 : 1;
          side = 1;
        }
      else
        {
          low = x;
          at_low = at;
          at_high /= side == -1 ? 2 : 1;
          side = -1;
        }
      if (fabs (x - before) < 1e-8 * high && fabs (at) < 1e-9)
        break;
    }
  return x;
}

gboolean
tg_uncertainty_spread_limit (
    gsize n, TgUncertainty uncertainty, double tolerance, double level, double *limit)
{
  TwoEnds ends = { n, 0, uncertainty, level, tolerance };
  double least = tolerance;

  g_return_val_if_fail (n >= 2 && uncertainty.u > 0 && tolerance > 0, FALSE);

  if (two_ends_excess (&ends, 0) < 0)
    return FALSE;
  /* most are not the worst and need no search */
  for (ends.n_high = n / 2; ends.n_high >= 1; ends.n_high--)
    if (two_ends_excess (&ends, least) < 0)
      least = find_crossing (two_ends_excess, &ends, 0, least);
  *limit = MAX (least, 0);
  return TRUE;
}

double
tg_uncertainty_provable_spread (gsize n, TgUncertainty uncertainty, double level)
{
  TwoEnds ends = { n, 0, { 1, uncertainty.freedom }, level, 0 };
  double low = 0.01, high = 4;

  g_return_val_if_fail (n >= 2 && level >= 0.1 && level < 1, 0);

  while (equal_excess (&ends, high) < 0 && high < 1e6)
    {
      low = high;
      high *= 2;
    }
  return find_crossing (equal_excess, &ends, low, high) * uncertainty.u;
}

guint
tg_uncertainty_repeats_needed (const TgUncertaintyScale *scale,
                               gsize n,
                               double tolerance,
                               double level)
{
  g_return_val_if_fail (n >= 2 && tolerance > 0, 0);

  for (guint repeats = 1; repeats <= TG_UNCERTAINTY_MAX_REPEATS; repeats++)
    {
      TwoEnds ends = { n, 0, tg_uncertainty_of_mean (scale, repeats), level, tolerance };

      if (two_ends_excess (&ends, 0) >= 0)
        return repeats;
    }
  return 0;
}
