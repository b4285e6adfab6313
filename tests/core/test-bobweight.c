/* test-bobweight.c: what is hung on crankpins: published sums, and the factor from the layout
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "balance-case.h"
#include "bobweight.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static TgBobweight *
bobweight_of (TgJob *job)
{
  g_autoptr (TgReview) review = tg_review_new (job);

  return tg_bobweight_new (review);
}

static void
weigh_whole (TgJob *job, const char *kind, guint number, double grams)
{
  g_autofree char *part = g_strdup_printf ("%s-%u", kind, number);

  fixture_weigh (job, part, TG_FIGURE_WHOLE, TG_WAY_ANY, grams);
}

/* Weights of a V8 sheet in a magazine (2009; its total computed): rings 69.5, piston 583.9, pin 173.6,
 * clips 4.8, small end 162.4 of each cylinder; big ends 459.6, bearings 47.4 and oil 4 g of each
 * crankpin, as printed for one rod; half of what goes up and down: 994.2 g, 1505.2 g in all where the
 * pin carries one of each. */
static void
test_sheet (void)
{
  TgSetup *setup = balance_case_setup ("v-twin", 2, "engine.factor=50 engine.oil=4");
  g_autoptr (TgBobweight) bobweight = NULL;
  g_autoptr (TgJob) job = NULL;

  fixture_add_family (setup, TG_PART_PIN, 0);
  fixture_add_family (setup, TG_PART_RINGS, 0);
  fixture_add_family (setup, TG_PART_CLIPS, 0);
  fixture_add_family (setup, TG_PART_BEARINGS, 0);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 2; i++)
    {
      fixture_weigh_rod (job, i, 162.4, 459.6 / 2);
      fixture_weigh_piston (job, i, 583.9);
      weigh_whole (job, "pin", i, 173.6);
      weigh_whole (job, "rings", i, 69.5);
      weigh_whole (job, "clips", i, 4.8);
      weigh_whole (job, "bearings", i, 47.4 / 2);
    }
  bobweight = bobweight_of (job);
  g_assert_true (bobweight->known);
  g_assert_cmpstr (bobweight->missing, ==, "");
  g_assert_cmpuint (bobweight->n_pins, ==, 1);
  g_assert_cmpuint (bobweight->pins[0].n_rods, ==, 2);
  NEAR (bobweight->pins[0].reciprocating_g, 2 * 994.2, 1e-6);
  NEAR (bobweight->pins[0].rotating_g, 459.6 + 47.4 + 4, 1e-6);
  NEAR (bobweight->pins[0].bobweight_g, 1505.2, 1e-6);
  NEAR (bobweight->pins[0].terms_g[TG_TERM_RINGS], 139, 1e-6);
  g_assert_true (bobweight->weighed[TG_TERM_CLIPS] && bobweight->weighed[TG_TERM_OIL]);
  g_assert_false (bobweight->weighed[TG_TERM_OTHER_ROTATING]);
  g_assert_false (bobweight->by_layout);
  NEAR (bobweight->mean_g, 1505.2, 1e-6);
  g_assert_cmpfloat (bobweight->spread_g, ==, 0);
}

/* A magazine's page on rotating assemblies (2008): big end 621.5 g and bearing pair 45 g, two rods: 1333
 * g turn.  Allowances count for each rod. */
static void
test_rotating (void)
{
  TgSetup *setup = balance_case_setup ("v8-cross", 8,
                                       "engine.factor=by-layout engine.oil=0 "
                                       "engine.other-rotating=45");
  g_autoptr (TgBobweight) bobweight = NULL;
  g_autoptr (TgJob) job = tg_job_new (setup);

  for (guint i = 1; i <= 8; i++)
    {
      fixture_weigh_rod (job, i, 200, 621.5);
      fixture_weigh_piston (job, i, i == 1 ? 508 : 500);
    }
  bobweight = bobweight_of (job);
  g_assert_cmpuint (bobweight->n_pins, ==, 4);
  for (guint pin = 0; pin < 4; pin++)
    NEAR (bobweight->pins[pin].rotating_g, 1333, 1e-6);
  g_assert_true (bobweight->by_layout);
  g_assert_true (bobweight->use == TG_BOBWEIGHT_HUNG);
  g_assert_cmpfloat (bobweight->factor, ==, 0.5);
  /* 8 g more on one piston are 4 g more on the first pin; the mean is taken off all alike, and four pins
   * at right angles cancel that: 4 g at 40 mm stay */
  NEAR (bobweight->spread_g, 4, 1e-6);
  NEAR (bobweight->mean_g, bobweight->pins[1].bobweight_g + 1, 1e-6);
  NEAR (bobweight->unbalance_g_mm, 160, 1e-6);
  g_assert_cmpuint (bobweight->heaviest, ==, 0);
  g_assert_cmpfloat (bobweight->pins[0].expanded_g, >, 0);
}

/* The first order that a share of unit masses leaves: largest and smallest half axis. */
static TgDynamicsEllipse
left_by (const TgEngineLayout *layout, double factor, gboolean couple)
{
  static const TgDynamicsCrank crank = { 40, 160, 3000 };
  TgDynamicsMasses masses = { .counterweight_kg = { 0 } };
  TgDynamicsSums sums;

  for (guint i = 0; i < layout->n; i++)
    {
      masses.reciprocating_kg[i] = 1;
      masses.counterweight_kg[i] = factor;
    }
  tg_dynamics_sums (layout, &crank, &masses, &sums);
  return tg_dynamics_pair_ellipse (couple ? &sums.couple[TG_DYNAMICS_FIRST]
                                          : &sums.force[TG_DYNAMICS_FIRST]);
}

/* No factor from 0 to 1 leaves less than the one that is named; uses as is common practice (no
 * published source): V8 with a cross-plane crank 0.5, inline four and six and flat-plane V8 alone. */
static void
test_factor (void)
{
  static const struct
  {
    const char *kind;
    guint n;
    const char *extra;
    TgBobweightUse use;
  } rows[] = {
    { "single", 1, "", TG_BOBWEIGHT_MAKER },
    { "twin-360", 2, "", TG_BOBWEIGHT_MAKER },
    { "twin-180", 2, "", TG_BOBWEIGHT_MAKER },
    { "twin-270", 2, "", TG_BOBWEIGHT_MAKER },
    { "inline", 3, "", TG_BOBWEIGHT_MAKER },
    { "inline", 4, "", TG_BOBWEIGHT_ALONE },
    { "inline", 5, "", TG_BOBWEIGHT_MAKER },
    { "inline", 6, "", TG_BOBWEIGHT_ALONE },
    { "v-twin", 2, "engine.bank-angle=90", TG_BOBWEIGHT_HUNG },
    { "v-twin", 2, "engine.bank-angle=45", TG_BOBWEIGHT_MAKER },
    { "v6", 6, "engine.bank-angle=90", TG_BOBWEIGHT_HUNG },
    { "v6", 6, "engine.bank-angle=90 engine.split-pins=yes", TG_BOBWEIGHT_MAKER },
    { "v6", 6, "engine.bank-angle=60 engine.split-pins=yes", TG_BOBWEIGHT_HUNG },
    { "v8-cross", 8, "", TG_BOBWEIGHT_HUNG },
    { "v8-flat", 8, "", TG_BOBWEIGHT_ALONE },
    { "v12", 12, "engine.bank-angle=60", TG_BOBWEIGHT_ALONE },
    { "boxer", 4, "engine.offset=30", TG_BOBWEIGHT_ALONE },
    { "boxer", 6, "engine.offset=30", TG_BOBWEIGHT_ALONE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      TgSetup *setup = balance_case_setup (rows[i].kind, rows[i].n, rows[i].extra);
      g_autofree char *ground = NULL;
      TgEngineLayout layout;
      TgBobweightUse use;
      double factor;

      g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
      factor = tg_bobweight_factor (&layout, &use, &ground);
      g_test_message ("%s of %u %s: %g, %s", rows[i].kind, rows[i].n, rows[i].extra, factor,
                      ground);
      g_assert_cmpint (use, ==, rows[i].use);
      g_assert_cmpfloat (factor, ==, use == TG_BOBWEIGHT_ALONE ? 0 : 0.5);
      for (guint couple = 0; couple < 2; couple++)
        {
          double least = left_by (&layout, factor, couple).largest;

          for (guint percent = 0; percent <= 100; percent++)
            g_assert_cmpfloat (left_by (&layout, percent / 100.0, couple).largest, >=,
                               least - 1e-6);
          if (use == TG_BOBWEIGHT_HUNG)
            NEAR (least, 0, 1e-6);
        }
      tg_setup_free (setup);
    }
}

/* (√3 − 1)/2 of an even-fire 90° V6 (trade figure 36.6 %, from memory; computed): the couple that
 * is left rocks in one plane. */
static void
test_one_plane (void)
{
  TgSetup *setup = balance_case_setup ("v6", 6, "engine.split-pins=yes");
  g_autofree char *ground = NULL;
  TgEngineLayout layout;
  TgBobweightUse use;

  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  tg_bobweight_factor (&layout, &use, &ground);
  g_assert_nonnull (strstr (ground, "With 36.6 % it would stay in one plane."));
  NEAR (left_by (&layout, (sqrt (3) - 1) / 2, TRUE).smallest, 0, 1e-6);
  NEAR (left_by (&layout, (sqrt (3) - 1) / 2, TRUE).largest / left_by (&layout, 0.5, TRUE).largest,
        0.897 / 0.4483, 1e-3);
  tg_setup_free (setup);
}

/* What is missing is named, and what is known is summed up all the same. */
static void
test_missing (void)
{
  g_autoptr (TgJob) job = tg_job_new (balance_case_setup ("inline", 3, ""));
  g_autoptr (TgBobweight) bobweight = NULL;

  fixture_weigh_rod (job, 1, 150, 450);
  bobweight = bobweight_of (job);
  g_assert_false (bobweight->known);
  g_assert_cmpstr (bobweight->missing, ==, "Not weighed yet: Piston 1, and 6 more.");
  NEAR (bobweight->pins[0].terms_g[TG_TERM_BIG_ENDS], 450, 1e-6);
  g_assert_cmpstr (tg_bobweight_term_label (TG_TERM_BIG_ENDS), ==, "big ends");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bobweight/sheet", test_sheet);
  g_test_add_func ("/bobweight/rotating", test_rotating);
  g_test_add_func ("/bobweight/factor", test_factor);
  g_test_add_func ("/bobweight/one-plane", test_one_plane);
  g_test_add_func ("/bobweight/missing", test_missing);
  return g_test_run ();
}
