/* test-matching-glpk.c: the least total against GLPK, and the search in halves against the plain one
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLPK, the GNU Linear Programming Kit, solves an integer programme of its own (matching-oracle.c).
 */
#include <glib.h>
#include <string.h>

#include "matching-oracle.h"
#include "matching-private.h"
#include "matching.h"

#define OPTIMA 1000
#define MAX_ROUNDS 3000
#define LIMIT_MS 40
#define HALVES_NODES 20000

/* Small ones for the most part, so that GLPK proves them; up to twelve cylinders and five families
 * in between. */
static void
draw (GRand *random, guint round, OracleProblem *o)
{
  gboolean large = round % 8 == 0;
  guint n = (guint) (large ? g_rand_int_range (random, 5, 13) : g_rand_int_range (random, 2, 6));
  guint k = (guint) (large ? g_rand_int_range (random, 2, 6) : g_rand_int_range (random, 2, 5));
  int spread = g_rand_int_range (random, 2, 80);

  oracle_draw_plain (random, n, k, spread, o);
  if (round % 5 == 1)
    oracle_draw_batches (random, 60, o);
  if (round % 5 == 2)
    oracle_draw_spare (random, (guint) g_rand_int_range (random, 0, (int) k), spread, o);
  if (round % 2 == 1)
    oracle_draw_rules (random, o);
  else if (large)
    o->problem.tolerance = g_rand_int_range (random, 0, 12);
}

static void
test_oracle (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (202);
  guint optima = 0, none = 0, out = 0, large = 0;

  for (guint round = 0; round < MAX_ROUNDS && optima < OPTIMA; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .stages = 1 };
      TgMatchingResult result;
      gint64 total = -1;
      OracleVerdict verdict;

      draw (random, round, &o);
      verdict = oracle_solve_matching (&o.problem, LIMIT_MS, &total);
      if (verdict == ORACLE_TIME_OUT)
        {
          out++;
          continue;
        }
      tg_matching_solve (&o.problem, &limits, &result);
      g_assert_cmpint (result.status, ==,
                       verdict == ORACLE_NONE ? TG_MATCHING_NONE_EXISTS : TG_MATCHING_OPTIMAL);
      none += verdict == ORACLE_NONE;
      if (verdict == ORACLE_NONE)
        continue;
      g_assert_cmpint (result.plan.total, ==, total);
      optima++;
      large += o.problem.n_cylinders >= 8;
    }
  g_test_message ("equal %u (%u of eight cylinders and more), none exists %u, GLPK timed out %u",
                  optima, large, none, out);
  g_assert_cmpuint (optima, >=, OPTIMA);
  g_assert_cmpuint (none, >, 20);
}

static void
draw_two_batches (GRand *random, guint round, OracleProblem *o)
{
  guint n = (guint) g_rand_int_range (random, 4, 10), k = (guint) g_rand_int_range (random, 2, 6);

  oracle_draw_plain (random, n, k, g_rand_int_range (random, 3, 20), o);
  if (round % 2 == 0)
    oracle_draw_batches (random, 40, o);
  else
    for (guint f = 0; f < k; f++)
      for (guint i = 0; i < n; i++)
        if (g_rand_boolean (random))
          o->parts[f][i].weight += 15 + 11 * (int) f;
  if (round % 3 == 0)
    oracle_draw_rules (random, o);
}

/* What the search in halves finds is a plan that reaches the goal. */
static void
assert_reached (const TgMatchingSet *set, TgMatchingSearch *search, const TgMatchingGoal *goal)
{
  TgMatchingPlan plan = { 0 };

  tg_matching_set_place (set, search->chosen, &plan);
  g_assert_true (tg_matching_evaluate (set->problem, &plan));
  g_assert_cmpint (plan.floor, >=, goal->floor);
  g_assert_cmpint (plan.total, <=, goal->removal);
}

/* The same answer from the halves and from the plain search, floor by floor down from the bound, and
 * no floor above the bound of the shares has a plan. */
static void
test_halves (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (203);
  guint answers[3] = { 0 }, above = 0;

  for (guint round = 0; round < 300; round++)
    {
      OracleProblem o;
      TgMatchingSet set;
      TgMatchingSearch search;
      TgMatchingLimits limits = { 0 };
      g_autofree TgMatchingShares *shares = NULL;

      draw_two_batches (random, round, &o);
      if (!tg_matching_set_prepare (&o.problem, &set))
        continue;
      shares = tg_matching_shares_new (&set);
      tg_matching_search_init (&search, &set, &limits);
      for (gint64 floor = shares->floor + 2; floor > shares->floor - 4; floor--)
        {
          gint64 all = set.sums.all_high_heavy[set.n];
          gint64 least = MAX (0, all - (gint64) set.n * (floor + set.tolerance));
          TgMatchingGoal goal = { .floor = floor,
                                  .removal = least + g_rand_int_range (random, 0, 30),
                                  .touched = set.n,
                                  .cut = G_MAXINT64 };
          TgMatchingAnswer halves;
          gboolean found;

          tg_matching_search_pause (&search, HALVES_NODES);
          halves = tg_matching_split_decide (&search, shares, &goal);
          tg_matching_search_resume (&search, FALSE);
          answers[halves]++;
          if (halves == TG_MATCHING_YES)
            assert_reached (&set, &search, &goal);
          tg_matching_search_pause (&search, HALVES_NODES);
          found = tg_matching_search_decide (&search, &goal);
          if (tg_matching_search_resume (&search, found) == TG_MATCHING_OPEN)
            continue;
          if (halves != TG_MATCHING_OPEN)
            g_assert_cmpint (halves, ==, found ? TG_MATCHING_YES : TG_MATCHING_NO);
          if (floor > shares->floor)
            g_assert_false (found);
          above += floor > shares->floor;
        }
      tg_matching_search_clear (&search);
    }
  g_test_message ("halves: no %u, yes %u, left open %u", answers[TG_MATCHING_NO],
                  answers[TG_MATCHING_YES], answers[TG_MATCHING_OPEN]);
  g_assert_cmpuint (answers[TG_MATCHING_NO], >, 200);
  g_assert_cmpuint (answers[TG_MATCHING_YES], >, 200);
  g_assert_cmpuint (above, >, 200);
}

/* Sixteen cylinders of two batches at 0.01 g, where local search often misses the best floor: what is
 * called the best has no plan above it. */
static void
test_halves_in_use (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (204);

  for (guint round = 0; round < 10; round++)
    {
      OracleProblem o;
      TgMatchingSet set;
      TgMatchingSearch search;
      TgMatchingLimits limits = { .nodes = 3000000, .stages = 1 };
      TgMatchingResult result;
      TgMatchingGoal goal = { .touched = 16, .cut = G_MAXINT64 };
      g_autofree TgMatchingShares *shares = NULL;

      oracle_draw_plain (random, 16, 4, 100, &o);
      oracle_draw_batches (random, 400, &o);
      tg_matching_solve (&o.problem, &limits, &result);
      g_assert_cmpint (result.status, ==, TG_MATCHING_OPTIMAL);
      g_assert_true (tg_matching_set_prepare (&o.problem, &set));
      shares = tg_matching_shares_new (&set);
      tg_matching_search_init (&search, &set, &limits);
      goal.floor = result.plan.floor + 1;
      goal.removal = result.plan.total - 1;
      g_assert_cmpint (tg_matching_split_decide (&search, shares, &goal), !=, TG_MATCHING_YES);
      tg_matching_search_clear (&search);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/matching-glpk/oracle", test_oracle);
  g_test_add_func ("/matching-glpk/halves", test_halves);
  g_test_add_func ("/matching-glpk/halves-in-use", test_halves_in_use);
  return g_test_run ();
}
