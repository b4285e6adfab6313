/* test-crankpins.c: placings of sets against full enumeration, GLPK, cases by hand and laws
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>

#include "crankpins-oracle.h"
#include "crankpins.h"

static const TgCrankpinsLimits no_limits = { 0 };

/* Both objectives, and the very placing, on everything that is small. */
static void
test_enumeration (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (101);
  guint found = 0, none = 0, tied = 0;

  for (guint round = 0; round < 12060; round++)
    {
      TgCrankpinsProblem problem;
      TgCrankpinsPlacing best = { 0 };
      TgCrankpinsResult result;
      guint pins = round < 12000 ? 1 + round % 3 : 4;

      oracle_draw_engine (random, pins, g_rand_int_range (random, 0, 30), &problem);
      if (g_rand_int_range (random, 0, 4) > 0)
        oracle_draw_today (random, &problem);
      for (guint i = 0; i < 2 * pins; i++)
        if (g_rand_int_range (random, 0, 12) == 0)
          problem.set[i].today = -1;
      if (g_rand_int_range (random, 0, 4) > 0)
        oracle_draw_bounds (random, &problem);
      tg_crankpins_solve (&problem, &no_limits, &result);
      if (!oracle_enumerate (&problem, &best))
        {
          g_assert_cmpint (result.status, ==, TG_CRANKPINS_NONE_EXISTS);
          none++;
          continue;
        }
      g_assert_cmpint (result.status, ==, TG_CRANKPINS_OPTIMAL);
      g_assert_cmpuint (result.proved, ==, TG_CRANKPINS_STAGES);
      g_assert_cmpint (result.placing.spread, ==, best.spread);
      g_assert_cmpint (result.lower_bound, ==, best.spread);
      g_assert_cmpuint (result.placing.changes, ==, best.changes);
      for (guint b = 0; b < 2 * pins; b++)
        g_assert_cmpuint (result.placing.set[b], ==, best.set[b]);
      found++;
      tied += best.changes > 0 && pins > 2;
    }
  g_test_message ("found %u (%u with changes on three pins or more), none %u", found, tied, none);
  g_assert_cmpuint (tied, >, 1000);
  g_assert_cmpuint (none, >, 1000);
}

static void
test_oracle (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (202);
  guint equal = 0, none = 0;

  for (guint round = 0; round < 60; round++)
    {
      TgCrankpinsProblem problem;
      TgCrankpinsResult result;
      TgMass spread;

      oracle_draw_engine (random, 4 + round % 2, g_rand_int_range (random, 5, 200), &problem);
      oracle_draw_bounds (random, &problem);
      if (!oracle_place (&problem, 100, &spread))
        continue;
      tg_crankpins_solve (&problem, &no_limits, &result);
      if (spread >= 0)
        g_assert_cmpint (result.placing.spread, ==, spread);
      g_assert_cmpint (result.status, ==,
                       spread >= 0 ? TG_CRANKPINS_OPTIMAL : TG_CRANKPINS_NONE_EXISTS);
      equal += spread >= 0;
      none += spread < 0;
    }
  g_test_message ("equal %u, none exists %u, of 60", equal, none);
  g_assert_cmpuint (equal, >, 24);
  g_assert_cmpuint (none, >, 0);
}

/* Without bound sets the lightest with the heaviest, the second lightest with the second heaviest,
 * … has the smallest spread; for the exchange argument see crankpins-search.c, for the order Hardy,
 * Littlewood and Pólya, "Inequalities", chapter X (from memory).  Every pin keeps one set, and as
 * many as the window allows keep both.  Few nodes: what is not given up can be paired. */
static void
test_unbound (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (303);

  for (guint round = 0; round < 120; round++)
    {
      TgCrankpinsProblem problem;
      TgCrankpinsResult result;
      guint pins = 1 + round % TG_CRANKPINS_MAX_PINS;
      TgMass low, high;

      oracle_draw_engine (random, pins, round % 2 == 0 ? 8 : 3000, &problem);
      oracle_draw_today (random, &problem);
      tg_crankpins_solve (&problem, &no_limits, &result);
      oracle_pair_opposite (&problem, (1u << 2 * pins) - 1, &low, &high);
      g_assert_cmpuint (result.proved, ==, TG_CRANKPINS_STAGES);
      g_assert_cmpint (result.placing.spread, ==, high - low);
      g_assert_cmpuint (result.nodes, <, 5000);
      if (pins <= 8)
        g_assert_cmpuint (result.placing.changes, ==,
                          pins - oracle_most_pins_kept (&problem, low, high));
    }
}

/* Sets less bound: never a larger spread. */
static void
test_freedom (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (404);
  guint evener = 0;

  for (guint round = 0; round < 200; round++)
    {
      TgCrankpinsProblem problem;
      TgCrankpinsResult bound, freer;
      guint pins = 3 + round % 6;

      oracle_draw_engine (random, pins, 400, &problem);
      oracle_draw_today (random, &problem);
      oracle_draw_bounds (random, &problem);
      tg_crankpins_solve (&problem, &no_limits, &bound);
      for (guint i = 0; i < 3; i++)
        problem.set[g_rand_int_range (random, 0, (int) (2 * pins))].bores = TG_CRANKPINS_ANY_BORE;
      tg_crankpins_solve (&problem, &no_limits, &freer);
      if (bound.status == TG_CRANKPINS_NONE_EXISTS)
        continue;
      g_assert_cmpint (freer.status, ==, TG_CRANKPINS_OPTIMAL);
      g_assert_cmpint (freer.placing.spread, <=, bound.placing.spread);
      evener += freer.placing.spread < bound.placing.spread;
    }
  g_assert_cmpuint (evener, >, 40);
}

/* Sets and pins in another order, bores renumbered, every weight mirrored: the same figures. */
static void
test_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (505);

  for (guint round = 0; round < 100; round++)
    {
      TgCrankpinsProblem problem, other;
      TgCrankpinsResult a, b;
      guint pins = 2 + round % 8, n = 2 * pins;

      oracle_draw_engine (random, pins, round % 2 == 0 ? 10 : 500, &problem);
      oracle_draw_today (random, &problem);
      oracle_draw_bounds (random, &problem);
      other = problem;
      for (guint p = 0; p < pins; p++)
        for (guint side = 0; side < 2; side++)
          other.bore[pins - 1 - p][1 - side] = n - 1 - problem.bore[p][side];
      for (guint i = 0; i < n; i++)
        {
          TgCrankpinsSet *set = &other.set[n - 1 - i];

          *set = (TgCrankpinsSet){ .weight = 5000 - problem.set[i].weight,
                                   .today = (int) n - 1 - problem.set[i].today };
          for (guint bore = 0; bore < n; bore++)
            if (problem.set[i].bores >> bore & 1)
              set->bores |= 1u << (n - 1 - bore);
        }
      tg_crankpins_solve (&problem, &no_limits, &a);
      tg_crankpins_solve (&other, &no_limits, &b);
      g_assert_cmpint (a.status, ==, b.status);
      if (a.status == TG_CRANKPINS_NONE_EXISTS)
        continue;
      g_assert_cmpint (a.placing.spread, ==, b.placing.spread);
      g_assert_cmpuint (a.placing.changes, ==, b.placing.changes);
    }
}

/* Stopped after any number of nodes: a bound that nothing beats and a placing that holds.  The same
 * limit gives the same result. */
static void
test_stopped (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (606);
  guint feasible = 0, partly = 0;

  for (guint round = 0; round < 200; round++)
    {
      TgCrankpinsProblem problem;
      TgCrankpinsLimits limits = { .nodes = (guint64) g_rand_int_range (random, 1, 300) };
      TgCrankpinsResult stopped, again, whole;

      oracle_draw_engine (random, 3 + round % 7, 500, &problem);
      oracle_draw_today (random, &problem);
      oracle_draw_bounds (random, &problem);
      tg_crankpins_solve (&problem, &limits, &stopped);
      tg_crankpins_solve (&problem, &limits, &again);
      tg_crankpins_solve (&problem, &no_limits, &whole);
      g_assert_cmpmem (&stopped, sizeof stopped, &again, sizeof again);
      g_assert_cmpuint (stopped.nodes, <=, limits.nodes);
      g_assert_true ((stopped.status == TG_CRANKPINS_NONE_EXISTS) ==
                     (whole.status == TG_CRANKPINS_NONE_EXISTS));
      if (whole.status == TG_CRANKPINS_NONE_EXISTS)
        continue;
      g_assert_true (tg_crankpins_evaluate (&problem, &stopped.placing));
      g_assert_cmpint (stopped.lower_bound, <=, whole.placing.spread);
      g_assert_cmpint (stopped.placing.spread, >=, whole.placing.spread);
      g_assert_true ((stopped.status == TG_CRANKPINS_OPTIMAL) == (stopped.proved >= 1));
      if (stopped.proved >= 1)
        g_assert_cmpint (stopped.placing.spread, ==, whole.placing.spread);
      if (stopped.proved >= 2)
        g_assert_cmpuint (stopped.placing.changes, ==, whole.placing.changes);
      feasible += stopped.status == TG_CRANKPINS_FEASIBLE;
      partly += stopped.proved == 1 || stopped.proved == 2;
    }
  g_test_message ("stopped before a proof %u, after one %u", feasible, partly);
  g_assert_cmpuint (feasible, >, 20);
  g_assert_cmpuint (partly, >, 20);
}

static gboolean
stop_at_once (gpointer data)
{
  (*(guint *) data)++;
  return TRUE;
}

static void
test_should_stop (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (707);
  guint asked = 0;
  TgCrankpinsLimits limits = { .should_stop = stop_at_once, .data = &asked };
  TgCrankpinsProblem problem;
  TgCrankpinsResult result;

  oracle_draw_engine (random, 8, 500, &problem);
  oracle_draw_today (random, &problem);
  for (guint i = 0; i < 8; i++)
    problem.set[i].bores = 1u << problem.set[i].today;
  tg_crankpins_solve (&problem, &limits, &result);
  g_assert_cmpuint (asked, ==, 1);
  g_assert_cmpuint (result.nodes, ==, 0);
  g_assert_cmpint (result.status, ==, TG_CRANKPINS_FEASIBLE);
  g_assert_true (tg_crankpins_evaluate (&problem, &result.placing));
  g_assert_cmpint (result.lower_bound, <, result.placing.spread);
}

/* By hand, an invented V engine of six: bores 0 and 3, 1 and 4, 2 and 5 share a pin.  Today the pins
 * carry 1205, 1213 and 1212 g; opposite pairing gives 601 + 611, 602 + 609, 603 + 604: spread 5 g. */
static void
test_six (void)
{
  const TgMass gram[] = { 601, 602, 603, 604, 611, 609 };
  TgCrankpinsProblem problem = { .n_pins = 3, .bore = { { 0, 3 }, { 1, 4 }, { 2, 5 } } };
  TgCrankpinsResult result;

  for (guint i = 0; i < 6; i++)
    problem.set[i] = (TgCrankpinsSet){ .weight = gram[i] * TG_MASS_G,
                                       .bores = TG_CRANKPINS_ANY_BORE,
                                       .today = (int) i };
  tg_crankpins_solve (&problem, &no_limits, &result);
  g_assert_cmpint (result.placing.spread, ==, 5 * TG_MASS_G);
  g_assert_cmpint (result.placing.lightest, ==, 1207 * TG_MASS_G);
  /* closed ring of three pairs: each pin keeps one, none keeps both */
  g_assert_cmpuint (result.placing.changes, ==, 3);
  g_assert_cmpuint (result.proved, ==, 3);

  /* the heavy ones stay: 611 at pin 1, 609 at pin 2; 601, 602 join them, 603 and 604 the rest */
  problem.set[4].bores = 1u << 4;
  problem.set[5].bores = 1u << 5;
  tg_crankpins_solve (&problem, &no_limits, &result);
  g_assert_cmpint (result.placing.spread, ==, 5 * TG_MASS_G);
  g_assert_cmpuint (result.placing.set[1], ==, 0);
  g_assert_cmpuint (result.placing.set[2], ==, 1);

  /* all but the two of pin 0 stay: 1205 or, turned round, the same */
  for (guint i = 1; i < 6; i++)
    if (i != 3)
      problem.set[i].bores = 1u << i;
  tg_crankpins_solve (&problem, &no_limits, &result);
  g_assert_cmpint (result.placing.spread, ==, 8 * TG_MASS_G);
  g_assert_cmpuint (result.placing.changes, ==, 0);

  /* two that want the same bore */
  problem.set[0].bores = 1u << 1;
  tg_crankpins_solve (&problem, &no_limits, &result);
  g_assert_cmpint (result.status, ==, TG_CRANKPINS_NONE_EXISTS);
}

static void
test_rules (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1);
  TgCrankpinsPlacing placing = { .set = { 3, 2, 1, 0 } };
  TgCrankpinsProblem problem;

  oracle_draw_engine (random, 2, 0, &problem);
  g_assert_true (tg_crankpins_evaluate (&problem, &placing));
  g_assert_cmpint (placing.sum[1], ==, 2000);
  placing.set[0] = 2;
  g_assert_false (tg_crankpins_evaluate (&problem, &placing));
  placing.set[0] = 4;
  g_assert_false (tg_crankpins_evaluate (&problem, &placing));
  placing.set[0] = 3;
  problem.set[0].weight += 7;
  problem.set[0].today = 0;
  problem.set[1].today = 2;
  problem.set[3].bores = 1u << 2;
  g_assert_false (tg_crankpins_evaluate (&problem, &placing));
  g_assert_cmpint (placing.spread, ==, 7);
  g_assert_cmpuint (placing.changes, ==, 1);
}

/* The largest engines, sets bound in part: the spread is proved.  A limit of nodes is the same on
 * every machine. */
static void
test_largest (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (808);

  for (guint round = 0; round < 16; round++)
    {
      TgCrankpinsLimits limits = { .nodes = 100000 };
      TgCrankpinsProblem problem;
      TgCrankpinsResult result;

      oracle_draw_engine (random, TG_CRANKPINS_MAX_PINS, 5000, &problem);
      oracle_draw_today (random, &problem);
      for (guint i = 0; i < TG_CRANKPINS_MAX_SETS; i++)
        if (i % 4 < round % 4)
          problem.set[i].bores = 1u << problem.set[i].today;
      tg_crankpins_solve (&problem, &limits, &result);
      g_test_message ("spread %d, changes %u, proved %u, nodes %u", (int) result.placing.spread,
                      result.placing.changes, result.proved, (guint) result.nodes);
      g_assert_cmpint (result.status, ==, TG_CRANKPINS_OPTIMAL);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/crankpins/enumeration", test_enumeration);
  g_test_add_func ("/crankpins/oracle", test_oracle);
  g_test_add_func ("/crankpins/unbound", test_unbound);
  g_test_add_func ("/crankpins/freedom", test_freedom);
  g_test_add_func ("/crankpins/relabelled", test_relabelled);
  g_test_add_func ("/crankpins/stopped", test_stopped);
  g_test_add_func ("/crankpins/should-stop", test_should_stop);
  g_test_add_func ("/crankpins/six", test_six);
  g_test_add_func ("/crankpins/rules", test_rules);
  g_test_add_func ("/crankpins/largest", test_largest);
  return g_test_run ();
}
