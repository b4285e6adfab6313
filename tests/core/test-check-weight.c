/* test-check-weight.c: classes of weights and the verdict on a scale
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>

#include "check-weight.h"
#include "statistics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static const TgMass nominals_g[] = { 1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10000 };

static double
mpe_mg (TgMass grams, const char *word)
{
  TgCheckWeightClass weight_class = TG_CHECK_WEIGHT_E1;
  double mpe = -1;

  g_assert_true (tg_check_weight_class_from_word (word, &weight_class));
  g_assert_cmpstr (tg_check_weight_class_to_word (weight_class), ==, word);
  g_assert_true (tg_check_weight_mpe_mg (grams * TG_MASS_G, weight_class, &mpe));
  return mpe;
}

/* OIML R 111-1:2004, table 1; lines read in a printed copy. */
static void
test_published (void)
{
  static const char *const classes[] = { "E2", "F1", "F2", "M1", "M2", "M3" };
  static const struct
  {
    TgMass grams;
    double mpe[6];
  } lines[] = {
    { 1, { 0.03, 0.10, 0.3, 1.0, 3.0, 10 } },  { 2, { 0.04, 0.12, 0.4, 1.2, 4.0, 12 } },
    { 5, { 0.05, 0.16, 0.5, 1.6, 5.0, 16 } },  { 10, { 0.06, 0.20, 0.6, 2.0, 6.0, 20 } },
    { 20, { 0.08, 0.25, 0.8, 2.5, 8.0, 25 } }, { 50, { 0.10, 0.3, 1.0, 3.0, 10, 30 } },
    { 100, { 0.16, 0.5, 1.6, 5.0, 16, 50 } },  { 200, { 0.3, 1.0, 3.0, 10, 30, 100 } },
    { 500, { 0.8, 2.5, 8.0, 25, 80, 250 } },   { 1000, { 1.6, 5.0, 16, 50, 160, 500 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (lines); i++)
    for (guint k = 0; k < 6; k++)
      NEAR (mpe_mg (lines[i].grams, classes[k]), lines[i].mpe[k], 1e-12);
  NEAR (mpe_mg (1, "E1"), 0.010, 1e-12);
  NEAR (mpe_mg (100, "E1"), 0.05, 1e-12);
  NEAR (mpe_mg (1000, "E1"), 0.5, 1e-12);
}

/* What the standard builds its table on: a class is about a third of the next, the error grows with
 * the weight, and from 100 g on it is a fixed share of it. */
static void
test_regular (void)
{
  for (guint i = 0; i < G_N_ELEMENTS (nominals_g); i++)
    {
      double smaller = 0;

      for (guint k = 0; k < TG_N_CHECK_WEIGHT_CLASSES; k++)
        {
          const char *word = tg_check_weight_class_to_word ((TgCheckWeightClass) k);
          double mpe = mpe_mg (nominals_g[i], word);

          if (k > 0)
            {
              g_assert_cmpfloat (mpe / smaller, >=, 3 - 1e-9);
              g_assert_cmpfloat (mpe / smaller, <=, 10 / 3.0 + 1e-9);
            }
          if (i > 0)
            g_assert_cmpfloat (mpe, >, mpe_mg (nominals_g[i - 1], word));
          if (nominals_g[i] >= 1000)
            NEAR (mpe / mpe_mg (nominals_g[i] / 10, word), 10, 1e-9);
          smaller = mpe;
        }
    }
}

static void
test_no_such_line (void)
{
  TgCheckWeightClass weight_class = TG_CHECK_WEIGHT_M2;
  double mpe = -1;

  g_assert_false (tg_check_weight_mpe_mg (300 * TG_MASS_G, TG_CHECK_WEIGHT_M1, &mpe));
  g_assert_false (tg_check_weight_mpe_mg (0, TG_CHECK_WEIGHT_M1, &mpe));
  g_assert_false (tg_check_weight_mpe_mg (500, TG_CHECK_WEIGHT_M1, &mpe));
  g_assert_false (tg_check_weight_mpe_mg (-200 * TG_MASS_G, TG_CHECK_WEIGHT_M1, &mpe));
  NEAR (mpe, -1, 1e-300);
  g_assert_false (tg_check_weight_class_from_word ("m1", &weight_class));
  g_assert_false (tg_check_weight_class_from_word ("", &weight_class));
  g_assert_cmpint (weight_class, ==, TG_CHECK_WEIGHT_M2);
  g_test_expect_message (NULL, G_LOG_LEVEL_CRITICAL, "*TG_N_CHECK_WEIGHT_CLASSES*");
  g_assert_false (tg_check_weight_mpe_mg (TG_MASS_G, (TgCheckWeightClass) 7, &mpe));
  g_test_assert_expected_messages ();
}

/* By hand: 500 g of M1, ±25 mg, so u 14.4 mg; the scale 0.1 g with u 0.041 g: together 0.0433, limits
 * 0.087 and 0.130 g, on steps 0.1 and 0.2 g. */
static void
test_judge (void)
{
  static const struct
  {
    double reading_g;
    TgCheckWeightVerdict verdict;
  } cases[] = {
    { 500.0, TG_CHECK_WEIGHT_FITS },     { 500.1, TG_CHECK_WEIGHT_FITS },
    { 499.9, TG_CHECK_WEIGHT_FITS },     { 500.2, TG_CHECK_WEIGHT_DOUBTFUL },
    { 499.8, TG_CHECK_WEIGHT_DOUBTFUL }, { 500.3, TG_CHECK_WEIGHT_OFF },
    { 499.7, TG_CHECK_WEIGHT_OFF },      { 0.1, TG_CHECK_WEIGHT_OFF },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgCheckWeight result = tg_check_weight_judge (tg_mass_from_g (cases[i].reading_g),
                                                    500 * TG_MASS_G, mpe_mg (500, "M1"), 100,
                                                    tg_uncertainty_of_resolution (0.1, 2));

      NEAR (result.error_g, cases[i].reading_g - 500, 1e-9);
      NEAR (result.u_g, 0.0433, 5e-5);
      NEAR (result.doubtful_g, 0.1, 1e-12);
      NEAR (result.off_g, 0.2, 1e-12);
      g_assert_cmpint (result.verdict, ==, cases[i].verdict);
    }
  /* a coarse weight on a fine scale: its own class is all the limit there is */
  NEAR (tg_check_weight_judge (1, 500 * TG_MASS_G, mpe_mg (500, "M3"), 10, 0.005).doubtful_g, 0.29,
        1e-9);
}

/* A right scale with a good weight alarms as seldom as 3 u promise; one that is out by 5 u is caught. */
static void
test_alarms (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);
  guint alarms = 0, caught = 0, rounds = 4000;

  for (guint i = 0; i < rounds; i++)
    {
      double weight = 200 + 0.010 * g_rand_double_range (random, -1, 1);
      double noise = tg_statistics_normal_quantile (g_rand_double_range (random, 1e-12, 1));
      TgMass reading = 10 * (TgMass) round ((weight + 0.012 * noise) * 100);
      double u = hypot (0.012, tg_uncertainty_of_resolution (0.01, 1));
      TgCheckWeight result = tg_check_weight_judge (reading, 200 * TG_MASS_G, 10, 10, u);

      alarms += result.verdict == TG_CHECK_WEIGHT_OFF;
      result = tg_check_weight_judge (reading + 80, 200 * TG_MASS_G, 10, 10, u);
      caught += result.verdict == TG_CHECK_WEIGHT_OFF;
    }
  g_assert_cmpuint (alarms, <=, rounds * 4 / 1000);
  g_assert_cmpuint (caught, >=, rounds * 95 / 100);
}

/* Two readings of the same weight give the drift between them, whatever the weight itself is out. */
static void
test_as_check (void)
{
  TgUncertaintyCheck before = tg_check_weight_as_check (200030, 200000, 0.01, 60);
  TgUncertaintyCheck after = tg_check_weight_as_check (200130, 200000, 0.01, 120);
  TgUncertaintyDrift drift;

  NEAR (before.error, 0.03, 1e-12);
  g_assert_true (tg_uncertainty_drift (&before, &after, 90, &drift));
  NEAR (drift.correction, -0.08, 1e-12);
  NEAR (drift.u, sqrt (0.05 * 0.05 / 3 + 2 * 0.005 * 0.005), 1e-12);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/check-weight/published", test_published);
  g_test_add_func ("/check-weight/regular", test_regular);
  g_test_add_func ("/check-weight/no-such-line", test_no_such_line);
  g_test_add_func ("/check-weight/judge", test_judge);
  g_test_add_func ("/check-weight/alarms", test_alarms);
  g_test_add_func ("/check-weight/as-check", test_as_check);
  return g_test_run ();
}
