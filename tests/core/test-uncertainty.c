/* test-uncertainty.c: uncertainty budgets, conformance and the spread of a set
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * "Read": the figures were read in a copy of the source; "from memory": they were not, but agree
 * with what is computed from the inputs.
 */
#include <glib.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "statistics.h"
#include "uncertainty.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static TgUncertainty
exactly (double u)
{
  return (TgUncertainty){ u, INFINITY };
}

static double
normal (GRand *random)
{
  return tg_statistics_normal_quantile (g_rand_double_range (random, 1e-15, 1));
}

/* EA-4/02, example S2, calibration of a weight of 10 kg (read): standard 45 mg (k = 2), its drift
 * ±15 mg, observed difference 14.2 mg, eccentricity and air ±10 mg each: u 29.1 mg, U 58 mg.  With
 * the text's own pooled 25 mg over three (from memory): 29.3 and 59. */
static void
test_ea_weight (void)
{
  TgUncertaintyComponent parts[] = {
    { 45 / 2.0, INFINITY, 1 },
    { tg_uncertainty_of_interval (15), INFINITY, 1 },
    { 14.1987, INFINITY, 1 },
    { tg_uncertainty_of_interval (10), INFINITY, 1 },
    { tg_uncertainty_of_interval (10), INFINITY, -1 },
  };
  TgUncertainty all = tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));

  NEAR (all.u, 29.1465, 5e-4);
  NEAR (2 * all.u, 58, 0.5);
  g_assert_true (isinf (all.freedom));
  NEAR (tg_uncertainty_expanded (all, 0.9545), 2 * 29.1465, 5e-3);
  parts[2].u = 25 / sqrt (3);
  all = tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));
  NEAR (all.u, 29.3, 0.05);
  NEAR (2 * all.u, 59, 0.6);
}

/* JCGM 100:2008, H.1, end gauge (read): 25 nm (ν 18), 9.7 (25.6), 2.9 (50), 16.6 (2): u 32 nm, ν
 * 16.7, taken as 16; k99 2.92; U99 93 nm. */
static void
test_gum_end_gauge (void)
{
  const TgUncertaintyComponent parts[] = {
    { 25, 18, 1 },
    { 9.7, 25.6, 1 },
    { 0.58e-6, 50, -50.000623e6 * 0.1 },  /* difference of expansion coefficients */
    { 0.029, 2, -50.000623e6 * 11.5e-6 }, /* difference of temperatures */
  };
  TgUncertainty all = tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));

  NEAR (parts[2].u * fabs (parts[2].sensitivity), 2.9, 0.05);
  NEAR (parts[3].u * fabs (parts[3].sensitivity), 16.6, 0.1);
  NEAR (all.u, 32, 0.5);
  NEAR (all.freedom, 16.7, 0.1);
  NEAR (tg_uncertainty_coverage (all.freedom, 0.99), 2.92, 5e-3);
  NEAR (tg_uncertainty_expanded (all, 0.99), 93, 0.5);
}

/* JCGM 100:2008, table G.2: ν 16 (read), 4 and 9 (recomputed). */
static void
test_coverage (void)
{
  static const struct
  {
    double freedom, level, k;
  } cases[] = {
    { 16, 0.95, 2.12 },   { 16, 0.9545, 2.17 }, { 16, 0.99, 2.92 },   { 16.99, 0.95, 2.12 },
    { 4, 0.95, 2.776 },   { 4, 0.9545, 2.869 }, { 9, 0.95, 2.262 },   { 9, 0.9545, 2.320 },
    { 0.3, 0.95, 12.71 }, { 1, 0.95, 12.71 },   { 1e9, 0.95, 1.960 }, { INFINITY, 0.95, 1.960 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    NEAR (tg_uncertainty_coverage (cases[i].freedom, cases[i].level), cases[i].k,
          cases[i].k > 12                                ? 5e-3
          : cases[i].k * 100 == round (cases[i].k * 100) ? 5e-3
                                                         : 6e-4);
  /* a whole number that rounding brought just below itself stays whole */
  NEAR (tg_uncertainty_coverage (16 - 1e-13, 0.95), tg_uncertainty_coverage (16, 0.95), 1e-12);
}

/* JCGM 100:2008, F.2.2.1 (from memory): u = 0.29 d; OIML R 111-1:2004, C.6.4 (from memory): 0.41 d. */
static void
test_resolution (void)
{
  TgUncertaintyScale scale = { .step = 0.1, .repeatability = 0.06, .freedom = 9, .displays = 2 };
  TgUncertainty one, sixteen;

  NEAR (tg_uncertainty_of_resolution (0.1, 1), 0.029, 5e-4);
  NEAR (tg_uncertainty_of_resolution (0.1, 1), 0.0288675, 1e-7);
  NEAR (tg_uncertainty_of_resolution (0.1, 2), 0.0408248, 1e-7);

  one = tg_uncertainty_of_mean (&scale, 1);
  sixteen = tg_uncertainty_of_mean (&scale, 16);
  NEAR (one.u, sqrt (0.06 * 0.06 + 0.01 / 6), 1e-12);
  NEAR (one.freedom, 9 * pow (one.u / 0.06, 4), 1e-9);
  NEAR (sixteen.u, sqrt (0.015 * 0.015 + 0.01 / 6), 1e-12);
  scale.repeatability = 0;
  NEAR (tg_uncertainty_of_mean (&scale, 5).u, 0.0408248, 1e-7);
  g_assert_true (isinf (tg_uncertainty_of_mean (&scale, 5).freedom));
}

/* Difference of an unknown between two readings of a standard, by way of the drift correction. */
static double
against_standard (double before, double after, double t_after, const double *unknown, guint n)
{
  TgUncertaintyCheck first = { 0, before, 0 }, last = { t_after, after, 0 };
  double sum = 0;

  for (guint i = 0; i < n; i++)
    {
      TgUncertaintyDrift drift;

      g_assert_true (tg_uncertainty_drift (&first, &last, i + 1, &drift));
      sum += unknown[i] + drift.correction;
    }
  return sum / n;
}

/* EA-4/02, example S2: three rounds standard, unknown, unknown, standard (readings from memory),
 * their mean 0.020 g (read).  Then OIML R 111-1 ABA and ABBA cycles with drift made up: 0.02 a
 * reading in a straight line on a true difference of 0.37 is removed without rest. */
static void
test_drift_schemes (void)
{
  double sum = 0;

  sum += against_standard (0.010, 0.015, 3, (const double[]){ 0.020, 0.025 }, 2);
  sum += against_standard (0.025, 0.020, 3, (const double[]){ 0.050, 0.055 }, 2);
  sum += against_standard (0.025, 0.020, 3, (const double[]){ 0.045, 0.040 }, 2);
  NEAR (sum / 3, 0.020, 1e-12);

  NEAR (against_standard (0, 0.04, 2, (const double[]){ 0.39 }, 1), 0.37, 1e-12);
  NEAR (against_standard (0, 0.06, 3, (const double[]){ 0.39, 0.41 }, 2), 0.37, 1e-12);
}

static void
test_drift_uncertainty (void)
{
  TgUncertaintyCheck before = { 100, 0.1, 0.03 }, after = { 200, -0.1, 0.04 };
  TgUncertaintyDrift drift = { 9, 9 };

  g_assert_false (tg_uncertainty_drift (&before, &after, 99, &drift));
  g_assert_false (tg_uncertainty_drift (&before, &after, 201, &drift));
  NEAR (drift.u, 9, 1e-300);
  g_assert_true (tg_uncertainty_drift (&before, &after, 175, &drift));
  NEAR (drift.correction, 0.05, 1e-12);
  /* at three quarters 0.2² × 3/16 / 3; a quarter of 0.03 and three quarters of 0.04 */
  NEAR (drift.u, sqrt (0.0025 + 0.0075 * 0.0075 + 0.03 * 0.03), 1e-12);
  /* half-way rectangular: half the change is 0.1, so 0.1²/3 (JCGM 100, 4.3.7) */
  g_assert_true (tg_uncertainty_drift (&before, &after, 150, &drift));
  NEAR (drift.u, sqrt (0.01 / 3 + 0.015 * 0.015 + 0.02 * 0.02), 1e-12);
  g_assert_true (tg_uncertainty_drift (&before, &after, 100, &drift));
  NEAR (drift.correction, -0.1, 1e-12);
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*before->time < after->time*");
  g_assert_false (tg_uncertainty_drift (&after, &before, 150, &drift));
  g_test_assert_expected_messages ();
}

/* A scale whose error goes anywhere without turning back: the correction is within k = 2 of the
 * truth as often as a normal error would be, and right on average. */
static void
test_drift_simulated (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (5);
  guint held = 0, rounds = 4000;
  double sum = 0;

  for (guint i = 0; i < rounds; i++)
    {
      double bend = exp (normal (random)), change = g_rand_double_range (random, -1, 1);
      double time = g_rand_double (random), truth = change * pow (time, bend);
      TgUncertaintyCheck before = { 0, 0.02 * normal (random), 0.02 };
      TgUncertaintyCheck after = { 1, change + 0.02 * normal (random), 0.02 };
      TgUncertaintyDrift drift;

      g_assert_true (tg_uncertainty_drift (&before, &after, time, &drift));
      held += fabs (truth + drift.correction) <= 2 * drift.u;
      sum += truth + drift.correction;
    }
  g_assert_cmpuint (held, >, rounds * 94 / 100);
  NEAR (sum / rounds, 0, 0.02);
}

/* JCGM 106:2012, breakdown voltage of a Zener diode (from memory): limit −5.40 V, −5.47 ± 0.05 V:
 * 0.92. */
static void
test_conformance (void)
{
  TgUncertainty u = exactly (0.05);

  NEAR (tg_uncertainty_conformance (-5.47, u, -INFINITY, -5.40), 0.92, 5e-3);
  NEAR (tg_uncertainty_conformance (-5.47, u, -INFINITY, -5.40), 0.91924, 1e-5);
  NEAR (tg_uncertainty_conformance (-5.40, u, -INFINITY, -5.40), 0.5, 1e-12);
  NEAR (tg_uncertainty_conformance (5.47, u, 5.40, INFINITY), 0.91924, 1e-5);
  /* two-sided: ± 2 u and ± u */
  NEAR (tg_uncertainty_conformance (0, exactly (1), -2, 2), 0.9545, 5e-5);
  NEAR (tg_uncertainty_conformance (3, exactly (1), 4, 5), 0.135905, 1e-6);
  /* ν 4: twice t(0.975) */
  NEAR (tg_uncertainty_conformance (0, (TgUncertainty){ 1, 4 }, -2.776, 2.776), 0.95, 1e-4);

  g_assert_cmpint (tg_uncertainty_judge (-5.47, u, -INFINITY, -5.40, 0.95), ==,
                   TG_UNCERTAINTY_UNPROVEN);
  g_assert_cmpint (tg_uncertainty_judge (-5.49, u, -INFINITY, -5.40, 0.95), ==, TG_UNCERTAINTY_IN);
  g_assert_cmpint (tg_uncertainty_judge (-5.39, u, -INFINITY, -5.40, 0.95), ==, TG_UNCERTAINTY_OUT);
}

/* ILAC-G8:09/2019 (read): w = U at k = 2 keeps false acceptance below 2.5 % (2.275 %); w = 0: up to
 * 50 %.  JCGM 106: 1.64 u for 5 % (from memory). */
static void
test_guard_band (void)
{
  TgUncertainty u = exactly (0.05);
  double w = tg_uncertainty_guard_band (u, 1 - 0.02275);

  NEAR (w, 0.1, 1e-5);
  NEAR (1 - tg_uncertainty_conformance (1 - w, u, -INFINITY, 1), 0.02275, 1e-9);
  NEAR (1 - tg_uncertainty_conformance (1, u, -INFINITY, 1), 0.5, 1e-12);
  NEAR (tg_uncertainty_guard_band (u, 0.95), 1.645 * 0.05, 1e-4);
}

static double
equal_set (guint n, double freedom, double tolerance)
{
  static const double values[24] = { 0 };
  double u[24];

  for (guint i = 0; i < n; i++)
    u[i] = 1;
  return tg_uncertainty_spread_probability (&(TgUncertaintySet){ values, u, n, freedom },
                                            tolerance);
}

/* Equal readings give the studentised range: tables of R's mathematics library.  Its own error is
 * about 1e-4 at 2 and 3 degrees of freedom; at n = 2 the exact value is Student's t. */
static void
test_studentised_range (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "published", "studentised-range.txt",
                                                 NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;
  guint checked = 0;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    {
      guint n;
      double freedom, q, probability;

      if (sscanf (lines[i], "%u %lf %lf %lf", &n, &freedom, &q, &probability) != 4)
        continue;
      NEAR (equal_set (n, freedom, q), probability, freedom < 5 ? 2e-4 : 1e-7);
      if (n == 2)
        NEAR (equal_set (n, freedom, q), 2 * tg_statistics_t_cdf (q / G_SQRT2, freedom) - 1, 1e-9);
      checked++;
    }
  g_assert_cmpuint (checked, ==, 540);
}

/* Printed tables of the studentised range at 0.95 (Pearson and Hartley; from memory). */
static void
test_provable_tables (void)
{
  static const struct
  {
    gsize n;
    double freedom, q;
  } cases[] = {
    { 2, INFINITY, 2.77 }, { 3, INFINITY, 3.31 },  { 4, INFINITY, 3.63 },  { 5, INFINITY, 3.86 },
    { 8, INFINITY, 4.29 }, { 10, INFINITY, 4.47 }, { 20, INFINITY, 5.01 }, { 3, 10, 3.88 },
    { 4, 20, 3.96 },       { 5, 10, 4.65 },        { 8, 20, 4.77 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    NEAR (tg_uncertainty_provable_spread (cases[i].n, (TgUncertainty){ 0.04, cases[i].freedom },
                                          0.95),
          0.04 * cases[i].q, 0.04 * 6e-3);
}

/* Two parts: the difference of two normal values, in closed form. */
static void
test_spread_of_two (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (2);

  for (guint i = 0; i < 300; i++)
    {
      double values[2] = { g_rand_double_range (random, -1, 1),
                           g_rand_double_range (random, -1, 1) };
      double u[2] = { g_rand_double_range (random, 0.02, 0.5),
                      g_rand_double_range (random, 0.02, 0.5) };
      double tolerance = g_rand_double_range (random, 0.05, 2);
      double freedom = i % 3 ? (double) INFINITY : g_rand_double_range (random, 1, 60);
      TgUncertaintySet set = { values, u, 2, freedom };
      TgUncertainty both = { hypot (u[0], u[1]), freedom };

      NEAR (tg_uncertainty_spread_probability (&set, tolerance),
            tg_uncertainty_conformance (values[0] - values[1], both, -tolerance, tolerance), 1e-9);
    }
}

/* Sets with readings and u of their own against counting: true values drawn about the readings. */
static void
test_spread_counted (void)
{
  static const double values[] = { 540.0, 540.12, 540.31, 540.2, 539.98 };
  static const double u[] = { 0.05, 0.12, 0.05, 0.2, 0.03 };
  g_autoptr (GRand) random = g_rand_new_with_seed (4);
  TgUncertaintySet set = { values, u, 5, INFINITY };
  guint kept = 0, rounds = 40000;

  for (guint i = 0; i < rounds; i++)
    {
      double low = INFINITY, high = -INFINITY;

      for (guint k = 0; k < 5; k++)
        {
          double truth = values[k] + u[k] * normal (random);

          low = MIN (low, truth);
          high = MAX (high, truth);
        }
      kept += high - low <= 0.5;
    }
  NEAR (tg_uncertainty_spread_probability (&set, 0.5), kept / (double) rounds, 0.009);
}

/* Laws: nothing hangs on where the set lies, in which order, or in which unit; more room or less u
 * never hurts; one part has no spread. */
static void
test_spread_laws (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (6);

  for (guint round = 0; round < 100; round++)
    {
      guint n = (guint) g_rand_int_range (random, 2, 9);
      double a[8], b[8], u[8], v[8], smaller[8], tolerance = g_rand_double_range (random, 0.2, 1.5);
      double p;

      for (guint i = 0; i < n; i++)
        {
          a[i] = g_rand_double (random);
          u[i] = g_rand_double_range (random, 0.02, 0.3);
          b[n - 1 - i] = 10 * a[i] + 5000;
          v[n - 1 - i] = 10 * u[i];
        }
      p = tg_uncertainty_spread_probability (&(TgUncertaintySet){ a, u, n, INFINITY }, tolerance);
      NEAR (tg_uncertainty_spread_probability (&(TgUncertaintySet){ b, v, n, INFINITY },
                                               10 * tolerance),
            p, 1e-9);
      g_assert_cmpfloat (tg_uncertainty_spread_probability (
                             &(TgUncertaintySet){ a, u, n, INFINITY }, tolerance * 1.1),
                         >=, p);
      for (guint i = 0; i < n; i++)
        smaller[i] = 1e-3;
      p = tg_uncertainty_judge_spread (&(TgUncertaintySet){ a, smaller, n, INFINITY }, 0.01, 0.95)
              .spread;
      NEAR (tg_uncertainty_spread_probability (&(TgUncertaintySet){ a, smaller, n, INFINITY },
                                               p + 0.01),
            1, 1e-6);
      if (p > 0.01)
        NEAR (tg_uncertainty_spread_probability (&(TgUncertaintySet){ a, smaller, n, INFINITY },
                                                 p - 0.01),
              0, 1e-6);
    }
  NEAR (tg_uncertainty_spread_probability (
            &(TgUncertaintySet){ (double[]){ 5 }, (double[]){ 1 }, 1, 3 }, 0.1),
        1, 1e-300);
}

static void
test_judge_spread (void)
{
  static const double u[] = { 0.04, 0.04, 0.04, 0.04 };
  static const double near[] = { 612.3, 612.3, 612.4, 612.3 },
                      edge[] = { 612.3, 612.3, 612.7, 612.3 };
  static const double far[] = { 612.3, 612.3, 612.9, 612.3 };
  TgUncertaintySpread result;

  result = tg_uncertainty_judge_spread (&(TgUncertaintySet){ near, u, 4, INFINITY }, 0.5, 0.95);
  g_assert_cmpint (result.verdict, ==, TG_UNCERTAINTY_IN);
  NEAR (result.spread, 0.1, 1e-9);
  result = tg_uncertainty_judge_spread (&(TgUncertaintySet){ edge, u, 4, INFINITY }, 0.5, 0.95);
  g_assert_cmpint (result.verdict, ==, TG_UNCERTAINTY_UNPROVEN);
  g_assert_cmpfloat (result.probability, >, 0.5);
  result = tg_uncertainty_judge_spread (&(TgUncertaintySet){ far, u, 4, INFINITY }, 0.5, 0.95);
  g_assert_cmpint (result.verdict, ==, TG_UNCERTAINTY_OUT);
  g_assert_cmpfloat (result.probability, <, 0.05);
}

/* Whoever keeps to the limit has proven it: no set of that spread is below the level, and the set
 * that the limit comes from is at it.  Two parts: tolerance − limit is the guard band of one
 * difference, 1.645 √2 u, where the other side of the band is far off. */
static void
test_spread_limit (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (7);
  double limit;

  g_assert_true (tg_uncertainty_spread_limit (2, exactly (0.04), 0.5, 0.95, &limit));
  NEAR (0.5 - limit, 1.644854 * G_SQRT2 * 0.04, 1e-6);

  for (guint round = 0; round < 60; round++)
    {
      guint n = (guint) g_rand_int_range (random, 2, 9);
      TgUncertainty uncertainty = { 0.05, round % 4 ? (double) INFINITY : 12 };
      double values[8], u[8], least = INFINITY;

      g_assert_true (tg_uncertainty_spread_limit (n, uncertainty, 0.4, 0.95, &limit));
      for (guint i = 0; i < n; i++)
        {
          values[i] = i == 0 ? 0 : i == 1 ? limit : limit * g_rand_double (random);
          u[i] = 0.05;
        }
      g_assert_cmpfloat (tg_uncertainty_spread_probability (
                             &(TgUncertaintySet){ values, u, n, uncertainty.freedom }, 0.4),
                         >=, 0.95 - 1e-6);
      for (guint k = 1; k < n; k++)
        {
          for (guint i = 0; i < n; i++)
            values[i] = i < k ? 0 : limit;
          least = MIN (least, tg_uncertainty_spread_probability (
                                  &(TgUncertaintySet){ values, u, n, uncertainty.freedom }, 0.4));
        }
      NEAR (least, 0.95, 1e-5);
    }
}

/* What the scale can prove is where the limit is 0. */
static void
test_limit_meets_provable (void)
{
  for (gsize n = 2; n <= 24; n += 11)
    for (double freedom = 8; freedom < 1e9; freedom *= 1e8)
      {
        TgUncertainty uncertainty = { 0.03, freedom };
        double least = tg_uncertainty_provable_spread (n, uncertainty, 0.95), limit = -1;

        g_assert_false (tg_uncertainty_spread_limit (n, uncertainty, least * 0.999, 0.95, &limit));
        NEAR (limit, -1, 1e-300);
        g_assert_true (tg_uncertainty_spread_limit (n, uncertainty, least * 1.001, 0.95, &limit));
        g_assert_cmpfloat (limit, <, 0.1 * least);
      }
}

static void
test_repeats_needed (void)
{
  TgUncertaintyScale scale = { .step = 0.1, .repeatability = 0.1, .freedom = 30, .displays = 2 };
  guint before = 0;

  /* with n → ∞ readings u is d/√6, and eight parts need 4.29 of that: 0.175 g */
  g_assert_cmpuint (tg_uncertainty_repeats_needed (&scale, 8, 0.17, 0.95), ==, 0);
  for (double tolerance = 1; tolerance > 0.2; tolerance -= 0.02)
    {
      guint repeats = tg_uncertainty_repeats_needed (&scale, 8, tolerance, 0.95);

      if (repeats == 0)
        break;
      g_assert_cmpuint (repeats, >=, before);
      before = repeats;
      g_assert_cmpfloat (
          tg_uncertainty_provable_spread (8, tg_uncertainty_of_mean (&scale, repeats), 0.95), <=,
          tolerance + 1e-6);
      if (repeats > 1)
        g_assert_cmpfloat (
            tg_uncertainty_provable_spread (8, tg_uncertainty_of_mean (&scale, repeats - 1), 0.95),
            >, tolerance - 1e-6);
    }
  g_assert_cmpuint (before, >, 5);
}

/* The bench itself: sets whose true spread is just too large are called IN at most as often as the
 * level allows, whatever the others weigh; sets well within are called IN nearly always. */
static void
test_false_acceptance (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (9);
  guint wrong = 0, right = 0, rounds = 3000;

  for (guint i = 0; i < rounds; i++)
    {
      double truth[6], values[6], u[6];
      TgUncertaintySet set = { values, u, 6, INFINITY };

      for (guint k = 0; k < 6; k++)
        {
          truth[k] = k == 0 ? 0 : k == 1 ? 0.5 : 0.25 + 0.05 * g_rand_double (random);
          values[k] = truth[k] + 0.05 * normal (random);
          u[k] = 0.05;
        }
      wrong += tg_uncertainty_judge_spread (&set, 0.5, 0.95).verdict == TG_UNCERTAINTY_IN;
      values[0] += 0.25;
      values[1] -= 0.25;
      right += tg_uncertainty_judge_spread (&set, 0.5, 0.95).verdict == TG_UNCERTAINTY_IN;
    }
  g_test_message ("called in: %.2f %% of the sets at the limit, %.1f %% of the even ones",
                  100.0 * wrong / rounds, 100.0 * right / rounds);
  /* 5 % of 3000 is 150, one standard deviation of the count is 12 */
  g_assert_cmpuint (wrong, <=, 150 + 36);
  g_assert_cmpuint (wrong, >=, 75);
  g_assert_cmpuint (right, >=, rounds * 95 / 100);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/uncertainty/ea-weight", test_ea_weight);
  g_test_add_func ("/uncertainty/gum-end-gauge", test_gum_end_gauge);
  g_test_add_func ("/uncertainty/coverage", test_coverage);
  g_test_add_func ("/uncertainty/resolution", test_resolution);
  g_test_add_func ("/uncertainty/drift-schemes", test_drift_schemes);
  g_test_add_func ("/uncertainty/drift-uncertainty", test_drift_uncertainty);
  g_test_add_func ("/uncertainty/drift-simulated", test_drift_simulated);
  g_test_add_func ("/uncertainty/conformance", test_conformance);
  g_test_add_func ("/uncertainty/guard-band", test_guard_band);
  g_test_add_func ("/uncertainty/studentised-range", test_studentised_range);
  g_test_add_func ("/uncertainty/provable-tables", test_provable_tables);
  g_test_add_func ("/uncertainty/spread-of-two", test_spread_of_two);
  g_test_add_func ("/uncertainty/spread-counted", test_spread_counted);
  g_test_add_func ("/uncertainty/spread-laws", test_spread_laws);
  g_test_add_func ("/uncertainty/judge-spread", test_judge_spread);
  g_test_add_func ("/uncertainty/spread-limit", test_spread_limit);
  g_test_add_func ("/uncertainty/limit-meets-provable", test_limit_meets_provable);
  g_test_add_func ("/uncertainty/repeats-needed", test_repeats_needed);
  g_test_add_func ("/uncertainty/false-acceptance", test_false_acceptance);
  return g_test_run ();
}
