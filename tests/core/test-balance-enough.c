/* test-balance-enough.c: no parts inside the band add more, wherever they sit
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Against every corner of the band: each part at its lower or upper end, 2ⁿ sets, each taken through
 * the loads of dynamics.h over a turn.
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "balance-case.h"

#define RPM BALANCE_CASE_RPM

static double
size (TgDynamicsLoad load, TgBalanceLoad which)
{
  return which == TG_BALANCE_FORCE ? hypot (load.force.x, load.force.y)
                                   : hypot (load.couple.x, load.couple.y);
}

/* The largest load that the corners of bands of these widths make, in kg: of what goes up and down, and
 * of what turns. */
static double
worst_corner (const TgBalance *balance, gboolean turning, TgBalanceLoad which)
{
  guint n = balance->layout.n;
  TgDynamicsCrank crank = balance->crank;
  double most = 0;

  crank.speed_rpm = RPM;
  for (guint set = 0; set < 1u << n; set++)
    {
      TgDynamicsMasses masses = { .counterweight_kg = { 0 } }, spread;

      for (guint i = 0; i < n; i++)
        (turning ? masses.rotating_kg : masses.reciprocating_kg)[i] = set >> i & 1;
      tg_dynamics_spread (&balance->layout, &masses, &spread);
      for (guint angle = 0; angle < 360; angle += turning ? 360 : 1)
        most = MAX (most,
                    size (tg_dynamics_load (&balance->layout, &crank, &spread, angle), which));
    }
  return most;
}

static const struct
{
  const char *kind;
  guint n;
  const char *extra;
} engines[] = {
  { "twin-360", 2, "" },
  { "twin-270", 2, "" },
  { "inline", 3, "" },
  { "inline", 4, "" },
  { "inline", 5, "" },
  { "v-twin", 2, "engine.bank-angle=50" },
  { "v6", 6, "engine.split-pins=yes" },
  { "boxer", 4, "engine.offset=30" },
  { "v8-cross", 8, "" },
  { "v10", 10, "engine.bank-angle=72" },
};

static double
share_of (double allowed, const double *up, const double *round, TgBalanceLoad load)
{
  return allowed / ((up[load] > 1e-9 ? 2 : 0) + (round[load] > 1e-9 ? 1 : 0));
}

/* The bands of the fixture are three that add up: each gets a third of the allowance. */
static void
test_corners (void)
{
  for (guint e = 0; e < G_N_ELEMENTS (engines); e++)
    {
      BalanceCase c;
      g_autoptr (TgBalanceEnough) enough = NULL;
      double up[2], round[2], piston_g, big_g;

      balance_case_even (&c, engines[e].kind, engines[e].n, engines[e].extra);
      enough = tg_balance_enough (c.balance, c.review, RPM);
      for (TgBalanceLoad load = 0; load < TG_BALANCE_N_LOADS; load++)
        {
          up[load] = worst_corner (c.balance, FALSE, load) / 1000;
          round[load] = worst_corner (c.balance, TRUE, load) / 1000;
        }
      /* two rods on one pin differ as they like; then two bands share */
      piston_g = up[TG_BALANCE_FORCE] > 1e-9
                     ? share_of (enough->force, up, round, TG_BALANCE_FORCE) / up[TG_BALANCE_FORCE]
                     : (double) INFINITY;
      big_g = round[TG_BALANCE_FORCE] > 1e-9
                  ? share_of (enough->force, up, round, TG_BALANCE_FORCE) / round[TG_BALANCE_FORCE]
              : up[TG_BALANCE_FORCE] > 1e-9 ? 0
                                            : (double) INFINITY;
      if (enough->has_couple && up[TG_BALANCE_COUPLE] > 1e-9)
        {
          double share = share_of (enough->couple, up, round, TG_BALANCE_COUPLE);

          piston_g = MIN (piston_g, share / up[TG_BALANCE_COUPLE]);
          big_g = MIN (big_g, share / round[TG_BALANCE_COUPLE]);
        }
      g_test_message ("%s of %u: %.3f g of pistons, %.3f g of big ends", engines[e].kind,
                      engines[e].n, piston_g, big_g);
      g_assert_cmpfloat_with_epsilon (enough->tolerance_g[TG_BAND_PISTON], piston_g,
                                      3e-4 * piston_g);
      g_assert_cmpfloat_with_epsilon (enough->tolerance_g[TG_BAND_ROD_SMALL], piston_g,
                                      3e-4 * piston_g);
      g_assert_cmpfloat_with_epsilon (enough->tolerance_g[TG_BAND_ROD_BIG], big_g, 1e-9);
      /* never more than a corner allows */
      g_assert_cmpfloat (enough->tolerance_g[TG_BAND_PISTON], <=, piston_g * (1 + 1e-9));
      g_assert_cmpfloat (enough->tolerance_g[TG_BAND_PISTON_ALONE], ==, 0);
      balance_case_clear (&c);
    }
}

/* Two pistons side by side, 360°: what the one has more the other has less, and no force is left; and
 * 180°: half of the spread at each crankpin, against each other, so T r ω² of what turns.  By hand. */
static void
test_by_hand (void)
{
  BalanceCase c;
  g_autoptr (TgBalanceEnough) together = NULL;
  g_autoptr (TgBalanceEnough) against = NULL;

  balance_case_even (&c, "twin-360", 2, "engine.spacing=0");
  together = tg_balance_enough (c.balance, c.review, RPM);
  g_assert_cmpfloat (together->tolerance_g[TG_BAND_PISTON], ==, 0);
  g_assert_false (together->has_couple);
  balance_case_clear (&c);

  balance_case_even (&c, "twin-180", 2, "engine.spacing=0");
  against = tg_balance_enough (c.balance, c.review, RPM);
  g_assert_true (against->by_force);
  /* 5 % of the largest of 2 F₂ and more over three bands; T of spread makes T r ω² */
  g_assert_cmpfloat_with_epsilon (against->tolerance_g[TG_BAND_ROD_BIG],
                                  against->force / 3 / balance_case_newton (1e-3), 1e-6);
  g_assert_cmpfloat_with_epsilon (
      against->force,
      0.05 * tg_balance_peak (c.balance, TG_BALANCE_NOW, TG_BALANCE_OWN, TG_BALANCE_FORCE, RPM)
                 .largest,
      1e-9);
  balance_case_clear (&c);
}

/* Both grow alike with the speed; an inline six is held against one piston. */
static void
test_compared (void)
{
  BalanceCase c;
  g_autoptr (TgBalanceEnough) slow = NULL;
  g_autoptr (TgBalanceEnough) fast = NULL;

  balance_case_even (&c, "inline", 6, "");
  slow = tg_balance_enough (c.balance, c.review, RPM / 3);
  fast = tg_balance_enough (c.balance, c.review, RPM);
  g_assert_true (fast->of_one_piston && !fast->by_force && fast->couple_of_one_piston);
  g_assert_cmpfloat_with_epsilon (fast->force_of, balance_case_newton (0.55) * 1.25, 1e-6);
  g_assert_cmpfloat_with_epsilon (fast->couple_of, balance_case_newton (0.55) * 1.25 * 0.1, 1e-6);
  for (guint b = 0; b < TG_N_BANDS; b++)
    g_assert_cmpfloat_with_epsilon (slow->tolerance_g[b], fast->tolerance_g[b], 1e-9);
  balance_case_clear (&c);
}

/* Small ends that count in the sum with their pistons take no share of their own. */
static void
test_shared (void)
{
  BalanceCase apart, sum;
  g_autoptr (TgBalanceEnough) three = NULL;
  g_autoptr (TgBalanceEnough) two = NULL;

  balance_case_even (&apart, "inline", 4, "");
  balance_case_even (&sum, "inline", 4, "sum.rod=both");
  three = tg_balance_enough (apart.balance, apart.review, RPM);
  two = tg_balance_enough (sum.balance, sum.review, RPM);
  g_assert_cmpfloat_with_epsilon (2 * two->tolerance_g[TG_BAND_PISTON],
                                  3 * three->tolerance_g[TG_BAND_PISTON], 1e-6);
  g_assert_cmpfloat (two->tolerance_g[TG_BAND_ROD_SMALL], ==, two->tolerance_g[TG_BAND_PISTON]);
  balance_case_clear (&apart);
  balance_case_clear (&sum);
}

/* ISO 21940-11: 9549.3 × 16 × 20 / 6000 = 509.3 g·mm for 20 kg (formula of the standard, computed). */
static void
test_grade (void)
{
  static const double big_g[] = { 0.2, 0, 0, -0.2 };
  BalanceCase c;
  TgBalanceUnbalance left;
  g_autoptr (TgBalanceEnough) enough = NULL;

  balance_case_uneven (&c, "v8-flat", 8, "engine.crank-mass=20 engine.grade=16 engine.factor=50",
                       NULL, (double[]){ 0, 0, 0, 0, 0, 0, 0, 0 });
  g_assert_true (tg_balance_unbalance (c.balance, c.review->setup, TG_BALANCE_NOW, &left));
  g_assert_cmpfloat_with_epsilon (left.permissible_g_mm, 509.3, 0.05);
  g_assert_cmpfloat (left.resultant_g_mm, ==, 0);
  g_assert_cmpfloat (left.grade, ==, 0);
  enough = tg_balance_enough (c.balance, c.review, RPM);
  g_assert_true (enough->by_grade);
  /* half of what goes up and down counts: twice the spread for the same unbalance */
  g_assert_cmpfloat_with_epsilon (enough->grade_tolerance_g[TG_BAND_PISTON],
                                  2 * enough->grade_tolerance_g[TG_BAND_ROD_BIG], 1e-9);
  balance_case_clear (&c);

  /* throws 0 180 180 0: +0.2 and −0.2 g at 40 mm in one direction make no resultant, but a couple of
   * 8 g·mm × 300 mm, in planes 400 mm apart 6 g·mm each */
  balance_case_uneven (&c, "inline", 4, "engine.crank-mass=20", NULL, big_g);
  g_assert_true (tg_balance_unbalance (c.balance, c.review->setup, TG_BALANCE_NOW, &left));
  g_assert_cmpfloat_with_epsilon (left.pins[0].g_mm, 8, 1e-6);
  g_assert_cmpfloat_with_epsilon (left.pins[3].g_mm, -8, 1e-6);
  g_assert_cmpfloat (left.resultant_g_mm, ==, 0);
  g_assert_true (left.has_planes);
  g_assert_cmpfloat_with_epsilon (left.planes_g_mm[0], 6, 1e-6);
  g_assert_cmpfloat_with_epsilon (left.planes_g_mm[1], 6, 1e-6);
  g_assert_cmpfloat_with_epsilon (left.grade, 12 * RPM * G_PI / 30 / 20000, 1e-9);
  g_assert_cmpfloat (left.listed_grade, ==, 0.4);
  balance_case_clear (&c);
}

/* The standard's own example (ISO 1940-1 and 21940-11, from memory; 9549.3 × 2.5 × 3600 / 3000 computed):
 * a rotor of 3600 kg at 3000 1/min and G 2.5 may keep 28.6 kg·mm. */
static void
test_standard (void)
{
  BalanceCase c;
  TgBalanceUnbalance left;

  balance_case_even (&c, "inline", 4, "engine.crank-mass=3600 engine.grade=2.5 engine.speed=3000");
  g_assert_true (tg_balance_unbalance (c.balance, c.review->setup, TG_BALANCE_NOW, &left));
  g_assert_cmpfloat_with_epsilon (left.permissible_g_mm, 28648, 1);
  balance_case_clear (&c);
}

/* The words hold what is asked against what is enough. */
static void
test_words (void)
{
  BalanceCase c;
  g_autoptr (TgBalanceEnough) enough = NULL;
  g_autoptr (TgBalanceEnough) coarse = NULL;

  balance_case_even (&c, "inline", 4, "");
  enough = tg_balance_enough (c.balance, c.review, RPM);
  g_test_message ("%s", enough->words);
  g_assert_true (
      g_str_has_prefix (enough->words, "At 6000 1/min the layout itself shakes with up to "));
  g_assert_nonnull (strstr (enough->words, "The job asks for 0.5 g: "));
  g_assert_null (strstr (enough->words, "The job allows"));
  balance_case_clear (&c);

  balance_case_even (&c, "inline", 4, "tolerance.piston=40 engine.crank-mass=20");
  coarse = tg_balance_enough (c.balance, c.review, RPM);
  g_test_message ("%s", coarse->words);
  g_assert_nonnull (strstr (coarse->words, "The job allows 40.0 g, more than 4.7 g."));
  g_assert_nonnull (strstr (coarse->words, "ISO 21940-11"));
  balance_case_clear (&c);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/balance-enough/corners", test_corners);
  g_test_add_func ("/balance-enough/by-hand", test_by_hand);
  g_test_add_func ("/balance-enough/compared", test_compared);
  g_test_add_func ("/balance-enough/shared", test_shared);
  g_test_add_func ("/balance-enough/grade", test_grade);
  g_test_add_func ("/balance-enough/standard", test_standard);
  g_test_add_func ("/balance-enough/words", test_words);
  return g_test_run ();
}
