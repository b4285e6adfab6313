/* test-rounding.c: what the step of a display does to repeated readings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lasting variance is held against numerical quadrature of what rounding does to the mean of many
 * readings, intervals against their closed forms, quadrature and a million seeded readings.
 */
#include "rounding.h"

#include <glib.h>
#include <math.h>

#include "statistics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* By how much the mean of very many readings errs where the truth is @truth steps. */
static double
lasting_error (double truth, double sigma)
{
  double mean = 0;

  for (int k = -20; k <= 20; k++)
    {
      double below = (k - 0.5 - truth) / sigma, above = (k + 0.5 - truth) / sigma;

      mean += k * (tg_statistics_normal_cdf (above) - tg_statistics_normal_cdf (below));
    }
  return mean - truth;
}

/* Its square, averaged over truths anywhere within a step (midpoint rule). */
static double
lasting_by_quadrature (double sigma)
{
  const guint n = 4000;
  double sum = 0;

  for (guint i = 0; i < n; i++)
    {
      double error = lasting_error ((i + 0.5) / n - 0.5, sigma);

      sum += error * error;
    }
  return sum / n;
}

static void
test_lasting (void)
{
  static const double sigmas[] = { 0.005, 0.015, 0.019, 0.021, 0.05, 0.1, 0.2, 0.3, 0.5, 0.8 };

  NEAR (tg_rounding_lasting_variance (0, 1), 1 / 12.0, 1e-12);
  NEAR (tg_rounding_lasting_variance (0, 0.1), 0.01 / 12, 1e-14);
  for (guint i = 0; i < G_N_ELEMENTS (sigmas); i++)
    {
      double expected = lasting_by_quadrature (sigmas[i]);

      NEAR (tg_rounding_lasting_variance (sigmas[i], 1), expected, 1e-6);
      NEAR (tg_rounding_lasting_variance (0.1 * sigmas[i], 0.1), expected / 100, 1e-8);
    }
  g_assert_cmpfloat (tg_rounding_lasting_variance (0.6, 1), <, 1e-6);
}

/* Sheppard's correction: from half a step on, s² = σ² + d²/12 (Kendall and Stuart, vol. 1, 3.18; from
 * memory). */
static void
test_sheppard (void)
{
  for (double sigma = 0.5; sigma < 3; sigma += 0.25)
    NEAR (tg_rounding_sigma (sqrt (sigma * sigma + 1 / 12.0), 1), sigma, 1e-5);
  NEAR (tg_rounding_sigma (0, 1), 0, 1e-9);
  for (double sigma = 0.05; sigma < 0.5; sigma += 0.05)
    {
      double shown = sigma * sigma + 1 / 12.0 - lasting_by_quadrature (sigma);

      NEAR (tg_rounding_sigma (sqrt (shown), 1), sigma, 1e-4);
    }
}

/* A mean of n readings errs by s²/n + B: a million readings in means of five. */
static void
test_means (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (5);
  const double sigma = 0.15;
  const guint n = 200000;
  double squares = 0, within = 0;

  for (guint i = 0; i < n; i++)
    {
      double truth = g_rand_double_range (rand, -0.5, 0.5), values[5];
      TgStatistics five;

      for (guint k = 0; k < 5; k++)
        values[k] = round (
            truth + sigma * tg_statistics_normal_quantile (g_rand_double_range (rand, 1e-12, 1)));
      five = tg_statistics_of (values, 5);
      squares += (five.mean - truth) * (five.mean - truth);
      within += five.deviation * five.deviation;
    }
  NEAR (squares / n, within / n / 5 + tg_rounding_lasting_variance (sigma, 1), 4e-4);
  NEAR (tg_rounding_sigma (sqrt (within / n), 1), sigma, 2e-3);
}

/* Rectangular: 0.95 √3 (JCGM 100, 4.3.7 and G.6.5: 1.65); triangular: (1 − √0.05) √6; normal: 1.960,
 * Student's t with 4 degrees of freedom 2.776 (JCGM 100, table G.2). */
static void
test_pure (void)
{
  const TgUncertainty none = { 0, INFINITY }, normal = { 1, INFINITY }, four = { 1, 4 };

  NEAR (tg_rounding_expanded (none, 1, 1, 0.95), 1.645, 5e-4);
  NEAR (tg_rounding_expanded (none, 1, 2, 0.95), 1.902, 5e-4);
  NEAR (tg_rounding_expanded (none, 0.3, 1, 0.99), 0.3 * 0.99 * sqrt (3), 1e-9);
  NEAR (tg_rounding_expanded (normal, 0, 1, 0.95), 1.960, 5e-4);
  NEAR (tg_rounding_expanded (four, 0, 2, 0.95), 2.776, 5e-4);
}

/* The chance that both errors together stay within ± @limit, by Simpson's rule over the bounded one. */
static double
held (TgUncertainty random, double rounding_u, guint displays, double limit)
{
  double half = rounding_u * sqrt (displays == 1 ? 3 : 6), sum = 0;
  const guint n = 2000;

  for (guint i = 0; i <= n; i++)
    {
      double x = -1 + 2.0 * i / n, density = displays == 1 ? 0.5 : 1 - fabs (x);
      double inside = tg_statistics_t_cdf ((limit - x * half) / random.u, random.freedom) -
                      tg_statistics_t_cdf ((-limit - x * half) / random.u, random.freedom);

      sum += (i == 0 || i == n ? 1 : i % 2 ? 4 : 2) * density * inside;
    }
  return sum * 2 / n / 3;
}

static void
test_mixtures (void)
{
  static const double shares[] = { 0.05, 0.15, 0.3,    0.5,   0.7,    0.9,
                                   0.97, 0.99, 0.9955, 0.999, 0.99975 };
  static const double freedoms[] = { 3, 4, 12, 40, INFINITY };

  for (guint displays = 1; displays <= 2; displays++)
    for (guint i = 0; i < G_N_ELEMENTS (shares); i++)
      for (guint k = 0; k < G_N_ELEMENTS (freedoms); k++)
        {
          const TgUncertainty random = { sqrt (1 - shares[i] * shares[i]), freedoms[k] };
          double limit = tg_rounding_expanded (random, shares[i], displays, 0.95);

          /* where one of both is next to nothing it is only added in squares */
          g_assert_cmpfloat (held (random, shares[i], displays, limit), >, 0.9485);
          g_assert_cmpfloat (held (random, shares[i], displays, limit), <, 0.954);
        }
}

/* A million errors, half of the variance from each. */
static void
test_seeded (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (17);
  const guint n = 1000000;
  const TgUncertainty random = { G_SQRT2 / 2, INFINITY };
  double limit = tg_rounding_expanded (random, G_SQRT2 / 2, 1, 0.95);
  guint inside = 0;

  for (guint i = 0; i < n; i++)
    {
      double z = sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
      double error = random.u * (z + g_rand_double_range (rand, -1, 1) * sqrt (3));

      inside += fabs (error) <= limit;
    }
  NEAR ((double) inside / n, 0.95, 1e-3);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/rounding/lasting", test_lasting);
  g_test_add_func ("/rounding/sheppard", test_sheppard);
  g_test_add_func ("/rounding/means", test_means);
  g_test_add_func ("/rounding/pure", test_pure);
  g_test_add_func ("/rounding/mixtures", test_mixtures);
  g_test_add_func ("/rounding/seeded", test_seeded);
  return g_test_run ();
}
