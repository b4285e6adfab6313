/* test-practice-bench.c: the bench to learn on obeys statics, and lies by as much as was set
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Chance is compared with numbers that Python's hashlib and struct gave for the same words (SHA-256 is
 * FIPS 180-4); moments with those of the distributions.  Statics is that of a beam on two supports,
 * reckoned here from the drawing's dimensions: moments about either bore, common knowledge.
 */
#include "practice-bench.h"

#include <math.h>

#include "fixture.h"
#include "practice-random.h"

static const TgPracticeFaults none;

static void
test_random (void)
{
  static const struct
  {
    const char *seed, *what;
    guint64 n;
    double uniform, normal;
  } cases[] = {
    { "autumn class", "small-end", 0, 0.6373319511173512, 0.058910553109848274 },
    { "autumn class", "small-end", 7, 0.44927648179870205, -2.9175400403983764 },
    { "", "x", G_GUINT64_CONSTANT (1) << 40, 0.20651948012346122, 1.0717351831953352 },
  };
  double sum = 0, square = 0, third = 0;
  guint below = 0;
  const guint n = 20000;

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_cmpfloat (tg_practice_uniform (cases[i].seed, cases[i].what, cases[i].n), ==,
                         cases[i].uniform);
      g_assert_cmpfloat (tg_practice_normal (cases[i].seed, cases[i].what, cases[i].n), ==,
                         cases[i].normal);
    }
  g_assert_cmpfloat (tg_practice_uniform ("ab", "c", 1), !=, tg_practice_uniform ("a", "bc", 1));
  for (guint i = 0; i < n; i++)
    {
      double z = tg_practice_normal ("moments", "z", i);

      sum += z;
      square += z * z;
      third += z * z * z;
      below += tg_practice_uniform ("moments", "u", i) < 0.25;
    }
  /* four standard deviations of each mean */
  g_assert_cmpfloat (fabs (sum / n), <, 4 / sqrt (n));
  g_assert_cmpfloat (fabs (square / n - 1), <, 4 * sqrt (2.0 / n));
  g_assert_cmpfloat (fabs (third / n), <, 4 * sqrt (15.0 / n));
  g_assert_cmpfloat (fabs ((double) below / n - 0.25), <, 4 * sqrt (0.25 * 0.75 / n));
}

static double
settled_g (const TgPracticeBench *bench)
{
  return tg_mass_to_g (tg_practice_bench_display (bench, TG_PRACTICE_SETTLED_MS));
}

/* Without faults the display comes to rest at the truth, to half a step. */
static void
test_no_faults (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (4, TRUE, TRUE);
  g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "plain", 1, &none);

  for (guint part = 0; part < setup->parts->len; part++)
    for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
      {
        gboolean rod = tg_setup_part (setup, part)->design->kind == TG_PART_ROD;
        const TgSlot slot = { part, figure,
                              rod && figure != TG_FIGURE_WHOLE ? TG_WAY_MARK_DOWN : TG_WAY_ANY };
        double truth = tg_practice_bench_truth (bench, part, figure);

        if (!rod && figure != TG_FIGURE_WHOLE)
          continue;
        tg_practice_bench_lay (bench, &slot);
        g_assert_cmpfloat (fabs (settled_g (bench) - truth), <=, 0.05 + 1e-9);
        g_assert_cmpfloat (truth, ==, tg_practice_bench_truth_at_first (bench, part, figure));
        /* it starts from what lay there before, and moves on the way */
        g_assert_cmpint (tg_practice_bench_display (bench, 0), !=,
                         tg_practice_bench_display (bench, TG_PRACTICE_SETTLED_MS));
        tg_practice_bench_lay (bench, NULL);
        g_assert_cmpfloat (settled_g (bench), ==, 0);
      }
}

/* One gram off a pad above the small end lifts the big end, as moments about the bores have it. */
static void
test_statics (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (2, TRUE, FALSE);
  g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "statics", 1, &none);
  const TgDesign *design = tg_setup_part (setup, 0)->design;
  double length = design->rod.centres;

  for (guint zone = 0; zone < design->zones->len; zone++)
    {
      double d = tg_design_zone_position (design, tg_design_zone (design, zone));
      double small = tg_practice_bench_truth (bench, 0, TG_FIGURE_SMALL_END);
      double big = tg_practice_bench_truth (bench, 0, TG_FIGURE_BIG_END);
      double whole = tg_practice_bench_truth (bench, 0, TG_FIGURE_WHOLE);
      double moment = small * length; /* about the big-end bore, g mm */
      double grams = tg_practice_bench_grind (bench, 0, zone, TG_TOOL_BELT, 10 + zone);

      g_assert_cmpfloat (grams, >, 0);
      g_assert_cmpfloat_with_epsilon (tg_practice_bench_truth (bench, 0, TG_FIGURE_WHOLE),
                                      whole - grams, 1e-9);
      g_assert_cmpfloat_with_epsilon (tg_practice_bench_truth (bench, 0, TG_FIGURE_SMALL_END) *
                                          length,
                                      moment - grams * d, 1e-7);
      g_assert_cmpfloat_with_epsilon (tg_practice_bench_truth (bench, 0, TG_FIGURE_BIG_END),
                                      big - grams * (1 - d / length), 1e-9);
      g_assert_cmpfloat (tg_practice_bench_taken (bench, 0, zone), ==, grams);
      g_assert_cmpfloat (tg_practice_bench_taken (bench, 1, zone), ==, 0);
    }
  g_assert_cmpfloat (tg_practice_bench_truth (bench, 1, TG_FIGURE_WHOLE), ==,
                     tg_practice_bench_truth_at_first (bench, 1, TG_FIGURE_WHOLE));
}

/* The mean of many lays is the truth, their scatter what was set, on the pan half of it. */
static void
test_scatter (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (1, TRUE, TRUE);
  const TgPracticeFaults faults = { .scatter_g = 0.12 };
  g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "scatter", 1, &faults);
  const guint n = 3000;

  for (guint part = 0; part < 2; part++)
    {
      const TgSlot slot = { part, part ? TG_FIGURE_WHOLE : TG_FIGURE_BIG_END,
                            part ? TG_WAY_ANY : TG_WAY_MARK_UP };
      double truth = tg_practice_bench_truth (bench, part, slot.figure);
      double sum = 0, square = 0, sd = part ? 0.06 : 0.12;

      for (guint i = 0; i < n; i++)
        {
          double off;

          tg_practice_bench_lay (bench, &slot);
          off = settled_g (bench) - truth;
          sum += off;
          square += off * off;
        }
      /* rounding to 0.1 g adds a twelfth of the step squared (JCGM 100, F.2.2.1); its mean stays within
       * a fortieth of a step at 0.6 steps of scatter */
      g_assert_cmpfloat (fabs (sum / n), <, 0.0025 + 4 * sqrt ((sd * sd + 0.01 / 12) / n));
      g_assert_cmpfloat_with_epsilon (sqrt (square / n), sqrt (sd * sd + 0.01 / 12), 0.008);
    }
}

static void
test_drift_and_flicker (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (1, TRUE, FALSE);
  const TgPracticeFaults drifting = { .drift_g = 0.3 }, flickering = { .flicker_g = 0.4 };
  g_autoptr (TgPracticeBench) drifts = tg_practice_bench_new (setup, "drift", 1, &drifting);
  g_autoptr (TgPracticeBench) flickers = tg_practice_bench_new (setup, "flicker", 1, &flickering);
  const TgSlot slot = { 0, TG_FIGURE_BIG_END, TG_WAY_MARK_UP };
  double last = 0, square = 0, flicker = 0, truth;
  const guint n = 2000;

  for (guint i = 0; i < n; i++)
    {
      double now;

      tg_practice_bench_lay (drifts, NULL);
      now = settled_g (drifts);
      square += (now - last) * (now - last);
      last = now;
    }
  g_assert_cmpfloat_with_epsilon (sqrt (square / n), sqrt (0.09 + 2 * 0.01 / 12), 0.02);
  tg_practice_bench_set_zero (drifts);
  g_assert_cmpfloat (settled_g (drifts), ==, 0);

  tg_practice_bench_lay (flickers, &slot);
  truth = tg_practice_bench_truth (flickers, 0, TG_FIGURE_BIG_END);
  for (guint i = 0; i < n; i++)
    {
      guint ms = TG_PRACTICE_SETTLED_MS + 200 * i;
      double now = tg_mass_to_g (tg_practice_bench_display (flickers, ms));

      g_assert_cmpint (tg_practice_bench_display (flickers, ms), ==,
                       tg_practice_bench_display (flickers, ms + 99));
      flicker += (now - truth) * (now - truth);
    }
  g_assert_cmpfloat_with_epsilon (sqrt (flicker / n), sqrt (0.16 + 0.01 / 12), 0.03);
}

/* The bearing catches the same every time; the rod touches now and then. */
static void
test_catch_and_touch (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (24, TRUE, FALSE);
  const TgPracticeFaults faults = { .catch_g = 0.7, .catch_share = 0.25 };
  const TgPracticeFaults touching = { .touch_g = 1.5, .touch_share = 0.1 };
  guint caught = 0, down = 0, touched = 0;
  const guint benches = 20, n = 3000;
  const TgSlot slot = { 3, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  const TgSlot whole = { 3, TG_FIGURE_WHOLE, TG_WAY_ANY };

  for (guint b = 0; b < benches; b++)
    {
      g_autofree char *seed = g_strdup_printf ("bench %u", b);
      g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, seed, 1, &faults);

      for (guint i = 0; i < 24 * 4; i++)
        {
          const TgSlot place = { i / 4, i % 2, i / 2 % 2 ? TG_WAY_MARK_UP : TG_WAY_MARK_DOWN };
          double holds = tg_practice_bench_catches_g (bench, &place);

          g_assert_true (holds == 0 || fabs (holds) == 0.7);
          caught += holds != 0;
          down += holds < 0;
          for (guint twice = 0; twice < 2; twice++)
            {
              tg_practice_bench_lay (bench, &place);
              g_assert_cmpfloat (
                  fabs (settled_g (bench) - holds - tg_practice_bench_truth (bench, i / 4, i % 2)),
                  <=, 0.05 + 1e-9);
            }
        }
      g_assert_cmpfloat (tg_practice_bench_catches_g (bench, &whole), ==, 0);
    }
  g_assert_cmpfloat_with_epsilon (caught / (96.0 * benches), 0.25,
                                  4 * sqrt (0.1875 / (96 * benches)));
  g_assert_cmpfloat_with_epsilon ((double) down / caught, 0.5, 4 * sqrt (0.25 / caught));
  {
    g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "touch", 1, &touching);

    for (guint i = 0; i < n; i++)
      {
        double truth = tg_practice_bench_truth (bench, 3, TG_FIGURE_SMALL_END);

        tg_practice_bench_lay (bench, &slot);
        touched += tg_practice_bench_touches (bench);
        g_assert_cmpfloat (
            fabs (settled_g (bench) - truth + (tg_practice_bench_touches (bench) ? 1.5 : 0)), <=,
            0.05 + 1e-9);
      }
    tg_practice_bench_lay (bench, &whole);
    g_assert_false (tg_practice_bench_touches (bench));
  }
  g_assert_cmpfloat_with_epsilon ((double) touched / n, 0.1, 4 * sqrt (0.09 / n));
}

/* What passes take: on average what the tool takes, scattered as the hand is. */
static void
test_passes (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (1, TRUE, TRUE);
  const TgPracticeFaults faults = { .hand = 0.2 };
  g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "hand", 1, &faults);
  double rate = tg_practice_bench_rate (bench, 1, TG_TOOL_FILE), sum = 0, square = 0;
  const guint n = 2000;

  for (guint i = 0; i < n; i++)
    {
      double share = tg_practice_bench_grind (bench, 1, 0, TG_TOOL_FILE, 2) / (2 * rate);

      sum += share;
      square += (share - 1) * (share - 1);
    }
  g_assert_cmpfloat_with_epsilon (sum / n, 1, 4 * 0.2 / sqrt (n));
  g_assert_cmpfloat_with_epsilon (sqrt (square / n), 0.2, 0.015);
  g_assert_cmpfloat_with_epsilon (tg_practice_bench_truth (bench, 1, TG_FIGURE_WHOLE),
                                  tg_practice_bench_truth_at_first (bench, 1, TG_FIGURE_WHOLE) -
                                      tg_practice_bench_taken (bench, 1, 0),
                                  1e-6);
}

/* What a seed gives is the same everywhere: figures that Python's hashlib and floats gave for the same
 * words and sums. */
static void
test_every_machine (void)
{
  static const double rods[2][2] = { { 291.4569952851843, 552.2032854048141 },
                                     { 289.96777707791307, 553.4410894327177 } };
  static const double pistons[2] = { 481.383244572338, 481.0515919620434 };
  static const struct
  {
    guint ms;
    TgMass shown;
  } moments[] = { { 0, 200 }, { 500, 321300 }, { 1000, 314900 }, { 3000, 290100 } };
  g_autoptr (TgSetup) setup = fixture_setup (2, TRUE, TRUE);
  const TgPracticeFaults faults = {
    .scatter_g = 0.3, .flicker_g = 0.2, .drift_g = 0.25, .gain = 0.001
  };
  g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "every machine", 1.5, &faults);
  const TgSlot slot = { 1, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };

  for (guint i = 0; i < 2; i++)
    {
      g_assert_cmpfloat (tg_practice_bench_truth (bench, i, TG_FIGURE_SMALL_END), ==, rods[i][0]);
      g_assert_cmpfloat (tg_practice_bench_truth (bench, i, TG_FIGURE_BIG_END), ==, rods[i][1]);
      g_assert_cmpfloat (tg_practice_bench_truth (bench, 2 + i, TG_FIGURE_WHOLE), ==, pistons[i]);
    }
  g_assert_cmpfloat (tg_practice_bench_rate (bench, 0, TG_TOOL_BELT), ==, 0.038552599190373245);
  tg_practice_bench_lay (bench, &slot);
  for (guint i = 0; i < G_N_ELEMENTS (moments); i++)
    g_assert_cmpint (tg_practice_bench_display (bench, moments[i].ms), ==, moments[i].shown);
}

/* The same seed and the same deeds give the same bench; another seed another one. */
static void
test_seeds (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (4, TRUE, TRUE);
  const TgPracticeFaults faults = { 0.1, 0.05, 0.05, 0.5, 0.2, 1, 0.1, 0.2, 0 };
  g_autoptr (TgPracticeBench) a = tg_practice_bench_new (setup, "class", 1.2, &faults);
  g_autoptr (TgPracticeBench) b = tg_practice_bench_new (setup, "class", 1.2, &faults);
  g_autoptr (TgPracticeBench) c = tg_practice_bench_new (setup, "other", 1.2, &faults);
  guint differ = 0;

  for (guint i = 0; i < 200; i++)
    {
      const TgSlot slot = { i % 4, i / 4 % 2, TG_WAY_MARK_UP };

      if (i % 17 == 0)
        g_assert_cmpfloat (tg_practice_bench_grind (a, i % 4, 0, TG_TOOL_BELT, 3), ==,
                           tg_practice_bench_grind (b, i % 4, 0, TG_TOOL_BELT, 3));
      tg_practice_bench_lay (a, &slot);
      tg_practice_bench_lay (b, &slot);
      tg_practice_bench_lay (c, &slot);
      g_assert_cmpint (tg_practice_bench_display (a, 3000), ==,
                       tg_practice_bench_display (b, 3000));
      differ += tg_practice_bench_display (a, 3000) != tg_practice_bench_display (c, 3000);
    }
  g_assert_cmpuint (differ, >, 190);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/practice-bench/random", test_random);
  g_test_add_func ("/practice-bench/no-faults", test_no_faults);
  g_test_add_func ("/practice-bench/statics", test_statics);
  g_test_add_func ("/practice-bench/scatter", test_scatter);
  g_test_add_func ("/practice-bench/drift-and-flicker", test_drift_and_flicker);
  g_test_add_func ("/practice-bench/catch-and-touch", test_catch_and_touch);
  g_test_add_func ("/practice-bench/passes", test_passes);
  g_test_add_func ("/practice-bench/every-machine", test_every_machine);
  g_test_add_func ("/practice-bench/seeds", test_seeds);
  return g_test_run ();
}
