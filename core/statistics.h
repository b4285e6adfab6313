/* statistics.h: means, scatter, and the distributions that judge them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Plain arithmetic on doubles of any one unit.  Impossible input is the caller's fault; what the
 * data may well be (too few values, all of them equal) comes back as FALSE.  No result is ever NaN.
 *
 * Accuracy: means and deviations to the digits a double can hold (tests: NIST StRD); probabilities
 * and quantiles to 1e-9 relative or better (tests: GSL).
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * TgStatistics:
 * @n: how many values
 * @mean: their arithmetic mean
 * @deviation: standard deviation with n − 1; 0 for one value
 */
typedef struct
{
  gsize n;
  double mean;
  double deviation;
} TgStatistics;

/**
 * tg_statistics_of:
 * @values: @n finite values
 * @n: 1 or more
 *
 * Two passes: the mean over differences from the first value, then the squares of the residuals,
 * less what their sum shows to be rounding (Chan, Golub, LeVeque 1983).
 */
TgStatistics tg_statistics_of (const double *values, gsize n);

/**
 * tg_statistics_autocorrelation:
 * @lag1: (out): r₁ = Σ (xᵢ − x̄)(xᵢ₋₁ − x̄) / Σ (xᵢ − x̄)², from −1 to 1
 *
 * For values in the order of time: near 1 they drift, near 0 they scatter.
 * Returns: FALSE, @lag1 untouched, for fewer than two values or when all are equal.
 */
gboolean tg_statistics_autocorrelation (const double *values, gsize n, double *lag1);

/**
 * TgStatisticsPooled:
 * @deviation: of one value, from all groups together
 * @freedom: degrees of freedom, Σ (nᵢ − 1)
 */
typedef struct
{
  double deviation;
  gsize freedom;
} TgStatisticsPooled;

/**
 * tg_statistics_pool:
 * @groups: @n_groups summaries of values that scatter alike about means of their own
 *
 * sₚ² = Σ (nᵢ − 1) sᵢ² / Σ (nᵢ − 1) (JCGM 100:2008, H.3.6 and H.5.2.5; common to all handbooks).
 * Returns: FALSE, @pooled untouched, when no group has two values.
 */
gboolean
tg_statistics_pool (const TgStatistics *groups, gsize n_groups, TgStatisticsPooled *pooled);

/**
 * tg_statistics_deviation_limits:
 * @deviation: s ≥ 0
 * @freedom: ν > 0
 * @level: between 0 and 1, for instance 0.95
 * @low: (out): s √(ν / χ²ν((1+level)/2))
 * @high: (out): s √(ν / χ²ν((1−level)/2))
 *
 * How well s is known: limits that hold the true standard deviation with probability @level.
 */
void tg_statistics_deviation_limits (
    double deviation, double freedom, double level, double *low, double *high);

/* Normal distribution. Upper tails are had without loss as tg_statistics_normal_cdf (-z).
 * @p: 1e-300 < p < 1. */
double tg_statistics_normal_cdf (double z);
double tg_statistics_normal_quantile (double p);

/* Student's t. @freedom > 0, INFINITY is the normal distribution. Upper tails by symmetry.
 * @p: 1e-300 < p < 1. */
double tg_statistics_t_cdf (double t, double freedom);
double tg_statistics_t_quantile (double p, double freedom);

/* Chi-squared. @freedom > 0, at most 1e6; @x ≥ 0; 0 < @p < 1. tg_statistics_chi2_upper() is the
 * chance of a value above @x. */
double tg_statistics_chi2_cdf (double x, double freedom);
double tg_statistics_chi2_upper (double x, double freedom);
double tg_statistics_chi2_quantile (double p, double freedom);

typedef enum
{
  TG_STATISTICS_LOWEST,
  TG_STATISTICS_HIGHEST,
  TG_STATISTICS_EITHER, /* whichever is farther from the mean: two-sided */
} TgStatisticsSide;

/**
 * tg_statistics_grubbs_critical:
 * @n: 3 or more
 * @alpha: chance of calling a good value an outlier, 0 < @alpha < 0.5
 *
 * (n−1)/√n · √(t²/(n−2+t²)), t the upper quantile of Student's t with n − 2 degrees of freedom at
 * α/n, two-sided α/(2n) (NIST/SEMATECH e-Handbook 1.3.5.17.1).
 */
double tg_statistics_grubbs_critical (gsize n, double alpha, TgStatisticsSide side);

/**
 * TgStatisticsGrubbs:
 * @index: of the suspected value
 * @g: its distance from the mean in standard deviations
 * @critical: what @g is held against
 * @outlier: @g is above it, and the value lies apart by more than the step explains
 */
typedef struct
{
  gsize index;
  double g;
  double critical;
  gboolean outlier;
} TgStatisticsGrubbs;

/**
 * tg_statistics_grubbs:
 * @step: resolution of the values, 0 for the test as published.  A value that is only one step away
 *   from its nearest neighbour is no outlier whatever @g says: with 171.6 171.6 171.7 the test as
 *   published would reject 171.7, since it takes the rounded values for exact ones.
 *
 * For one outlier in normally distributed values.  With three values it is nearly blind: G cannot
 * exceed (n−1)/√n.
 * Returns: FALSE, @result untouched, for fewer than three values or when all are equal.
 */
gboolean tg_statistics_grubbs (const double *values,
                               gsize n,
                               TgStatisticsSide side,
                               double alpha,
                               double step,
                               TgStatisticsGrubbs *result);

G_END_DECLS
