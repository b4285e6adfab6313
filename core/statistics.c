/* statistics.c: means, scatter, and the distributions that judge them, see statistics.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Student's t and chi-squared come from the incomplete beta and gamma functions: continued fractions by
 * their convergents or by Lentz's method, a series where those are slow (Abramowitz and Stegun 26.5.8,
 * 26.4, 6.5.29, 6.5.31; Press et al., Numerical Recipes, chapter 6).  The factors before them are formed
 * so that large degrees of freedom do not cancel.
 *
 * Quantiles: the logarithm of a probability is a concave function of the logarithm of its argument
 * for each of the tails and centres used here, so that Newton's method in these coordinates runs
 * to the root from anywhere.
 *
 * Not here: other distributions, tests for more than one outlier.
 */
#include "statistics.h"

#include <math.h>

#define TINY 1e-300
/* From here on the first term of the expansion about the normal distribution is good to 1e-9. */
#define NEARLY_NORMAL 1e7

TgStatistics
tg_statistics_of (const double *values, gsize n)
{
  TgStatistics result = { .n = n };
  double sum = 0, residual = 0, squares = 0;

  g_return_val_if_fail (values != NULL && n > 0, result);

  for (gsize i = 0; i < n; i++)
    sum += values[i] - values[0];
  result.mean = values[0] + sum / (double) n;
  for (gsize i = 0; i < n; i++)
    {
      double d = values[i] - result.mean;

      residual += d;
      squares += d * d;
    }
  result.mean += residual / (double) n;
  squares -= residual * residual / (double) n;
  if (n > 1 && squares > 0)
    result.deviation = sqrt (squares / (double) (n - 1));
  return result;
}

gboolean
tg_statistics_autocorrelation (const double *values, gsize n, double *lag1)
{
  TgStatistics all;
  double products = 0, squares = 0;

  g_return_val_if_fail (lag1 != NULL, FALSE);

  if (n < 2)
    return FALSE;
  all = tg_statistics_of (values, n);
  if (all.deviation <= 0)
    return FALSE;
  for (gsize i = 0; i < n; i++)
    {
      double d = values[i] - all.mean;

      squares += d * d;
      if (i > 0)
        products += d * (values[i - 1] - all.mean);
    }
  *lag1 = products / squares;
  return TRUE;
}

gboolean
tg_statistics_pool (const TgStatistics *groups, gsize n_groups, TgStatisticsPooled *pooled)
{
  double squares = 0;
  gsize freedom = 0;

  g_return_val_if_fail (pooled != NULL, FALSE);

  for (gsize i = 0; i < n_groups; i++)
    {
      if (groups[i].n < 2)
        continue;
      squares += (double) (groups[i].n - 1) * groups[i].deviation * groups[i].deviation;
      freedom += groups[i].n - 1;
    }
  if (freedom == 0)
    return FALSE;
  *pooled = (TgStatisticsPooled){ sqrt (squares / (double) freedom), freedom };
  return TRUE;
}

void
tg_statistics_deviation_limits (
    double deviation, double freedom, double level, double *low, double *high)
{
  g_return_if_fail (deviation >= 0 && freedom > 0 && level > 0 && level < 1);

  *low = deviation * sqrt (freedom / tg_statistics_chi2_quantile ((1 + level) / 2, freedom));
  *high = deviation * sqrt (freedom / tg_statistics_chi2_quantile ((1 - level) / 2, freedom));
}

/* What lies beyond an argument ≥ 0, what lies between 0 and it, and the density there. */
typedef struct
{
  double beyond;
  double within;
  double density;
} Parts;

typedef Parts (*PartsFunc) (double x, double freedom);

/* Solves parts.beyond (or within) = p for the argument, starting at @x. */
static double
solve_parts (PartsFunc parts_at, double freedom, gboolean beyond, double p, double x)
{
  double u = log (x);

  for (guint i = 0; i < 200; i++)
    {
      Parts parts = parts_at (exp (u), freedom);
      double value = MAX (beyond ? parts.beyond : parts.within, TINY);
      double slope = exp (u) * parts.density / value;
      double step = log (value / p) / MAX (slope, TINY);

      step = CLAMP (beyond ? step : -step, -3, 3);
      u += step;
      if (fabs (step) < 1e-13)
        break;
    }
  return exp (u);
}

static Parts
normal_parts (double z, G_GNUC_UNUSED double freedom)
{
  return (Parts){
    .beyond = erfc (z * G_SQRT2 / 2) / 2,
    .within = erf (z * G_SQRT2 / 2) / 2,
    .density = exp (-z * z / 2) / sqrt (2 * G_PI),
  };
}

/* ln Γ(x + ½) − ln Γ(x), which tends to ½ ln x. */
static double
gamma_ratio (double x)
{
  double y = 1 / (x * x);

  if (x < 20)
    return lgamma (x + 0.5) - lgamma (x);
  return log (x) / 2 - (1.0 / 8 - (1.0 / 192 - (1.0 / 640 - y * 17 / 14336) * y) * y) / x;
}

/* The continued fraction of the incomplete beta function by its convergents, two in a round, scaled so that
 * the last denominator is 1. */
static double
beta_fraction (double a, double b, double x)
{
  double h = 1 / (1 - (a + b) * x / (a + 1)); /* the last convergent */
  double over = h, under = h;                 /* numerator and denominator of the one before */

  for (guint m = 1; m < 100000; m++)
    {
      double n = a + 2 * m, each = x / ((n - 1) * n * (n + 1));
      double even = m * (b - m) * (n + 1) * each;
      double odd = -(a + m) * (a + b + m) * (n - 1) * each;
      double next_over = h + even * over, next_under = 1 + even * under;
      double scale = 1 / (next_under + odd), last = h;

      h = (next_over + odd * h) * scale;
      over = next_over * scale;
      under = next_under * scale;
      if (fabs (h - last) <= 1e-16 * fabs (h))
        break;
    }
  return h;
}

/* With x = ν/(ν+t²) the two tails together are I_x(ν/2, ½). */
static Parts
t_parts (double t, double freedom)
{
  double a = freedom / 2, square = t * t;
  double log_x = -log1p (square / freedom);           /* of x */
  double log_rest = -log1p (freedom / square);        /* of 1 − x */
  double log_beta = log (G_PI) / 2 - gamma_ratio (a); /* of B(ν/2, ½) */
  double front = exp (a * log_x + log_rest / 2 - log_beta);
  Parts parts;

  parts.density = exp ((a + 0.5) * log_x - log_beta - log (freedom) / 2);
  if (exp (log_x) < (a + 1) / (a + 2.5))
    {
      parts.beyond = front * beta_fraction (a, 0.5, exp (log_x)) / a / 2;
      parts.within = 0.5 - parts.beyond;
    }
  else
    {
      parts.within = front * beta_fraction (0.5, a, exp (log_rest)) / 0.5 / 2;
      parts.beyond = 0.5 - parts.within;
    }
  return parts;
}

/* A point of a distribution that is symmetric about 0. */
static double
symmetric_quantile (PartsFunc parts_at, double freedom, double p)
{
  double tail = MIN (p, 1 - p), sign = p < 0.5 ? -1 : 1;

  if (p == 0.5)
    return 0;
  if (tail < 0.1)
    return sign * solve_parts (parts_at, freedom, TRUE, tail, sqrt (-2 * log (tail)));
  return sign *
         solve_parts (parts_at, freedom, FALSE, fabs (p - 0.5), fabs (p - 0.5) * sqrt (2 * G_PI));
}

double
tg_statistics_normal_cdf (double z)
{
  return erfc (-z * G_SQRT2 / 2) / 2;
}

double
tg_statistics_normal_quantile (double p)
{
  g_return_val_if_fail (p > TINY && p < 1, 0);

  return symmetric_quantile (normal_parts, INFINITY, p);
}

/* Near-normal t: Abramowitz and Stegun 26.7.8 (first term) and 26.7.5. */
double
tg_statistics_t_cdf (double t, double freedom)
{
  Parts parts;

  g_return_val_if_fail (freedom > 0, 0);

  if (t == 0)
    return 0.5;
  if (isinf (t) || (freedom >= NEARLY_NORMAL && fabs (t) > 40))
    return t > 0 ? 1 : 0;
  if (freedom >= NEARLY_NORMAL)
    return tg_statistics_normal_cdf (t - (t * t * t + t) / (4 * freedom));
  parts = t_parts (fabs (t), freedom);
  return t < 0 ? parts.beyond : 0.5 + parts.within;
}

double
tg_statistics_t_quantile (double p, double freedom)
{
  g_return_val_if_fail (p > TINY && p < 1 && freedom > 0, 0);

  if (freedom >= NEARLY_NORMAL)
    {
      double z = tg_statistics_normal_quantile (p);

      return z + (z * z * z + z) / (4 * freedom);
    }
  return symmetric_quantile (t_parts, freedom, p);
}

/* x^a e^−x / Γ(a); for large a by Stirling's series about x = a. */
static double
gamma_front (double a, double x)
{
  double off, y = 1 / (a * a);

  if (a < 20)
    return exp (a * log (x) - x - lgamma (a));
  off = (x - a) / a;
  off = -a * (off - log1p (off));
  return exp (off - (1.0 / 12 - (1.0 / 360 - (1.0 / 1260 - y / 1680) * y) * y) / a) *
         sqrt (a / (2 * G_PI));
}

static double
gamma_series (double a, double x)
{
  double term = 1 / a, sum = term;

  for (guint n = 1; n < 1000000 && term > 1e-17 * sum; n++)
    {
      term *= x / (a + n);
      sum += term;
    }
  return sum;
}

static double
gamma_fraction (double a, double x)
{
  double b = x + 1 - a, c = 1 / TINY, d = 1 / b, h = d;

  for (guint n = 1; n < 1000000; n++)
    {
      double an = -(double) n * (n - a), change;

      b += 2;
      d = 1 / (an * d + b);
      c = b + an / c;
      change = d * c;
      h *= change;
      if (fabs (change - 1) < 1e-16)
        break;
    }
  return h;
}

static Parts
chi2_parts (double x, double freedom)
{
  double a = freedom / 2, half = x / 2, front = gamma_front (a, half);
  Parts parts = { .density = front / x };

  if (half < a + 1)
    {
      parts.within = front * gamma_series (a, half);
      parts.beyond = 1 - parts.within;
    }
  else
    {
      parts.beyond = front * gamma_fraction (a, half);
      parts.within = 1 - parts.beyond;
    }
  return parts;
}

double
tg_statistics_chi2_cdf (double x, double freedom)
{
  g_return_val_if_fail (x >= 0 && freedom > 0, 0);

  return x > 0 ? chi2_parts (x, freedom).within : 0;
}

double
tg_statistics_chi2_upper (double x, double freedom)
{
  g_return_val_if_fail (x >= 0 && freedom > 0, 0);

  return x > 0 ? chi2_parts (x, freedom).beyond : 1;
}

/* Starts from Wilson and Hilferty's cube, near 0 from the first term of the series. */
double
tg_statistics_chi2_quantile (double p, double freedom)
{
  double a = freedom / 2, part = 2 / (9 * freedom), start;

  g_return_val_if_fail (p > TINY && p < 1 && freedom > 0, 0);

  start = 1 - part + tg_statistics_normal_quantile (p) * sqrt (part);
  if (start > 0.3)
    start = freedom * start * start * start;
  else
    start = 2 * exp (MAX ((log (p) + lgamma (a + 1)) / a, -600));
  return solve_parts (chi2_parts, freedom, p > 0.5, p > 0.5 ? 1 - p : p, start);
}

double
tg_statistics_grubbs_critical (gsize n, double alpha, TgStatisticsSide side)
{
  double count = (double) n, t;

  g_return_val_if_fail (n >= 3 && alpha > 0 && alpha < 0.5, 0);

  t = tg_statistics_t_quantile (alpha / count / (side == TG_STATISTICS_EITHER ? 2 : 1), count - 2);
  return (count - 1) / sqrt (count) * sqrt (t * t / (count - 2 + t * t));
}

/* More than one step lies between the value and its nearest neighbour, with room for rounding. */
static gboolean
stands_apart (const double *values, gsize n, gsize index, double step)
{
  for (gsize i = 0; i < n; i++)
    if (i != index && fabs (values[i] - values[index]) < 1.5 * step)
      return FALSE;
  return TRUE;
}

gboolean
tg_statistics_grubbs (const double *values,
                      gsize n,
                      TgStatisticsSide side,
                      double alpha,
                      double step,
                      TgStatisticsGrubbs *result)
{
  TgStatistics all;
  gsize low = 0, high = 0, index;

  g_return_val_if_fail (result != NULL && step >= 0, FALSE);

  if (n < 3)
    return FALSE;
  all = tg_statistics_of (values, n);
  if (all.deviation <= 0)
    return FALSE;
  for (gsize i = 1; i < n; i++)
    {
      low = values[i] < values[low] ? i : low;
      high = values[i] > values[high] ? i : high;
    }
  if (side == TG_STATISTICS_EITHER)
    index = values[high] - all.mean >= all.mean - values[low] ? high : low;
  else
    index = side == TG_STATISTICS_HIGHEST ? high : low;
  result->index = index;
  result->g = fabs (values[index] - all.mean) / all.deviation;
  result->critical = tg_statistics_grubbs_critical (n, alpha, side);
  result->outlier = result->g > result->critical && stands_apart (values, n, index, step);
  return TRUE;
}
