/* test-target-plan.c: common targets of a set against GLPK, brute force, laws and cases by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <glpk.h>
#include <math.h>
#include <string.h>

#include "plan-oracle.h"
#include "rod-statics.h"
#include "target-plan.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)
#define SAME_COST(a, b) g_assert_cmpfloat_with_epsilon (a, b, 1e-6 * (1 + fabs (b)))
#define MAX_PARTS 16

typedef struct
{
  TgTargetProblem problem;
  TgPlanPart parts[MAX_PARTS];
} Set;

/* Parts of one design: zones as those of the first, capacities and weights their own. */
static void
draw_set (GRand *random, guint max_parts, guint max_zones, Set *set)
{
  TgTargetProblem *p = &set->problem;
  gboolean pistons = g_rand_int_range (random, 0, 3) == 0;
  double spread = g_rand_double_range (random, 0.3, 5);

  memset (p, 0, sizeof *p);
  p->n_parts = (guint) g_rand_int_range (random, 2, (int) max_parts + 1);
  p->parts = set->parts;
  p->step_g = 0.1;
  for (guint i = 0; i < p->n_parts; i++)
    {
      TgPlanPart *part = &set->parts[i];

      if (i == 0 && pistons)
        oracle_draw_piston (random, max_zones, part);
      else if (i == 0)
        oracle_draw_rod (random, max_zones, part);
      else
        *part = set->parts[0];
      for (guint r = 0; r < part->n_rows; r++)
        part->weight_g[r] = (r == 0 ? 160 : 430) +
                            floor (g_rand_double_range (random, 0, spread) * 20) / 20;
      for (guint j = 0; j < part->n_zones; j++)
        part->capacity_g[j] *= g_rand_double_range (random, 0.5, 1);
    }
  for (guint i = 1; i < p->n_parts; i++)
    if (g_rand_int_range (random, 0, 12) == 0)
      set->parts[i].n_zones = 0;
  for (guint r = 0; r < set->parts[0].n_rows; r++)
    {
      p->tolerance_g[r] = g_rand_int_range (random, 0, 11) / 10.0;
      p->fixed[r] = g_rand_int_range (random, 0, 5) == 0;
      if (p->fixed[r])
        p->target_g[r] = (r == 0 ? 160 : 430) + g_rand_int_range (random, -10, 10) / 10.0;
    }
}

/* The result's own figures hold together, and it is no better than the exact optimum. */
static void
assert_sound (const Set *set, const TgRemovalPlan *plans, const TgTargetPlan *result)
{
  const TgTargetProblem *p = &set->problem;
  double cost = 0, total = 0, violation = 0, worst = 0;

  for (guint i = 0; i < p->n_parts; i++)
    {
      cost += plans[i].cost;
      total += plans[i].total_g;
      for (guint r = 0; r < p->parts[i].n_rows; r++)
        {
          double after = plans[i].after_g[r];

          violation += fabs (plans[i].violation_g[r]);
          worst = fmax (worst, fabs (plans[i].violation_g[r]));
          if (plans[i].status == TG_PLAN_UNREACHABLE)
            continue;
          g_assert_cmpfloat (after, >=, result->target_g[r] - 1e-8);
          g_assert_cmpfloat (after, <=, result->target_g[r] + p->tolerance_g[r] + 1e-8);
        }
      if (result->status == TG_PLAN_READY)
        g_assert_cmpint (plans[i].status, ==, TG_PLAN_READY);
    }
  NEAR (result->cost, cost, 1e-9);
  NEAR (result->total_g, total, 1e-9);
  NEAR (result->violation_g, violation, 1e-6);
  if (result->status == TG_PLAN_UNREACHABLE)
    NEAR (fabs (plans[result->worst_part].violation_g[result->worst_row]), worst, 1e-7);
  else
    g_assert_cmpfloat (result->cost, >=, result->least_cost - 1e-7);
  for (guint r = 0; r < p->parts[0].n_rows; r++)
    if (p->fixed[r])
      g_assert_cmpfloat (result->target_g[r], ==, p->target_g[r]);
}

static gboolean
is_whole (double value, double step)
{
  return fabs (value - floor (value / step + 0.5) * step) < 1e-7;
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (2024);
  guint ready = 0, fine = 0, unreachable = 0;
  double more = 0, least = 0;

  for (guint n = 0; n < 400; n++)
    {
      Set set;
      TgRemovalPlan plans[MAX_PARTS];
      TgTargetPlan result;
      double expected;

      draw_set (random, MAX_PARTS, 8, &set);
      tg_target_plan_solve (&set.problem, plans, &result);
      assert_sound (&set, plans, &result);
      if (!oracle_solve_set (&set.problem, ORACLE_COST, 0, &expected))
        {
          g_assert_cmpint (result.status, ==, TG_PLAN_UNREACHABLE);
          g_assert_true (oracle_solve_set (&set.problem, ORACLE_VIOLATION, 0, &expected));
          SAME_COST (result.violation_g, expected);
          unreachable++;
          continue;
        }
      g_assert_cmpint (result.status, !=, TG_PLAN_UNREACHABLE);
      SAME_COST (result.least_cost, expected);
      ready += result.status == TG_PLAN_READY;
      fine += result.status == TG_PLAN_FINE;
      if (result.status == TG_PLAN_READY)
        {
          least += result.least_cost;
          more += result.cost - result.least_cost;
          for (guint r = 0; r < set.parts[0].n_rows && result.cost > 0; r++)
            g_assert_true (set.problem.fixed[r] || is_whole (result.target_g[r], 0.1));
        }
    }
  g_test_message ("ready %u, fine %u, unreachable %u; whole steps cost %.1f %% more", ready, fine,
                  unreachable, 100 * more / least);
  g_assert_cmpuint (ready, >, 80);
  g_assert_cmpuint (fine, >, 5);
  g_assert_cmpuint (unreachable, >, 80);
}

static void
test_least_tolerance (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (17);
  guint none = 0, wider = 0;

  for (guint n = 0; n < 300; n++)
    {
      Set set;
      double expected, found;
      guint row;

      draw_set (random, 10, 5, &set);
      row = n % set.parts[0].n_rows;
      found = tg_target_plan_least_tolerance_g (&set.problem, row);
      if (!oracle_solve_set (&set.problem, ORACLE_TOLERANCE, row, &expected))
        {
          g_assert_cmpfloat (found, ==, -1);
          none++;
          continue;
        }
      SAME_COST (found, expected);
      if (found > set.problem.tolerance_g[row] + 1e-6)
        {
          TgRemovalPlan plans[MAX_PARTS];
          TgTargetPlan result;

          /* with it the set can be made even, with a little less it cannot */
          wider++;
          set.problem.tolerance_g[row] = found + 1e-6;
          tg_target_plan_solve (&set.problem, plans, &result);
          g_assert_cmpint (result.status, !=, TG_PLAN_UNREACHABLE);
          set.problem.tolerance_g[row] = found - 1e-4;
          tg_target_plan_solve (&set.problem, plans, &result);
          g_assert_cmpint (result.status, ==, TG_PLAN_UNREACHABLE);
        }
    }
  g_test_message ("wider %u, none %u", wider, none);
  g_assert_cmpuint (wider, >, 50);
  g_assert_cmpuint (none, >, 20);
}

static Set
pistons (guint n, const double *weight, double capacity, double tolerance)
{
  Set set = { .problem = { .n_parts = n, .tolerance_g = { tolerance }, .step_g = 0.1 } };

  for (guint i = 0; i < n; i++)
    set.parts[i] = (TgPlanPart){ .n_rows = 1,
                                 .n_zones = 1,
                                 .weight_g = { weight[i] },
                                 .effect = { { 1 } },
                                 .capacity_g = { capacity },
                                 .cost = { 1 } };
  return set;
}

static void
solve (Set *set, TgRemovalPlan *plans, TgTargetPlan *result)
{
  set->problem.parts = set->parts;
  tg_target_plan_solve (&set->problem, plans, result);
  assert_sound (set, plans, result);
}

/* By hand: one weight each, tolerance 0.2 g, so everything comes down to the lightest + 0.2 g. */
static void
test_pistons (void)
{
  TgRemovalPlan plans[MAX_PARTS];
  TgTargetPlan result;
  Set set = pistons (4, (double[]){ 400.0, 400.1, 400.7, 401.0 }, 2, 0.2);

  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_READY);
  NEAR (result.target_g[0], 400.0, 1e-9);
  NEAR (result.least_cost, 0.5 + 0.8, 1e-9);
  NEAR (result.cost, 1.3, 1e-9);
  NEAR (plans[0].total_g, 0, 1e-9);
  NEAR (plans[3].total_g, 0.8, 1e-9);

  /* the heaviest can only give 0.6 g: 400.4 at best, 0.2 outside */
  set.parts[3].capacity_g[0] = 0.6;
  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_UNREACHABLE);
  NEAR (result.violation_g, 0.2, 1e-9);
  NEAR (tg_target_plan_least_tolerance_g (&set.problem, 0), 0.4, 1e-9);

  /* frozen in the middle: nothing changes for the others */
  set = pistons (3, (double[]){ 400.0, 400.1, 400.7 }, 2, 0.2);
  set.parts[1].n_zones = 0;
  solve (&set, plans, &result);
  NEAR (result.target_g[0], 400.0, 1e-9);
  /* frozen and too heavy for the lightest */
  set.parts[2].n_zones = 0;
  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_UNREACHABLE);
  NEAR (result.violation_g, 0.5, 1e-9);

  /* a fixed target below all: every part comes down to it */
  set = pistons (3, (double[]){ 400.0, 400.1, 400.7 }, 2, 0.2);
  set.problem.fixed[0] = TRUE;
  set.problem.target_g[0] = 399;
  solve (&set, plans, &result);
  NEAR (result.cost, 0.8 + 0.9 + 1.5, 1e-9);
  /* a fixed target above the lightest cannot be met, however wide the tolerance */
  set.problem.target_g[0] = 400.05;
  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_UNREACHABLE);
  g_assert_cmpuint (result.worst_part, ==, 0);
  NEAR (plans[0].violation_g[0], -0.05, 1e-9);
  g_assert_cmpfloat (tg_target_plan_least_tolerance_g (&set.problem, 0), ==, -1);
}

/* Means of two readings stand between steps: a set that is even needs no metal for that. */
static void
test_even_already (void)
{
  TgRemovalPlan plans[MAX_PARTS];
  TgTargetPlan result;
  Set set = pistons (2, (double[]){ 400.05, 400.35 }, 2, 0.3);

  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_READY);
  g_assert_cmpfloat (result.total_g, ==, 0);
  NEAR (result.target_g[0], 400.05, 1e-9);
  /* with room for it the target is whole, the highest below the lightest */
  set.parts[1].weight_g[0] = 400.15;
  solve (&set, plans, &result);
  g_assert_cmpfloat (result.total_g, ==, 0);
  NEAR (result.target_g[0], 400.0, 1e-9);
}

/* Tolerance 0 and parts half a step apart: no whole steps make them equal. */
static void
test_fine (void)
{
  TgRemovalPlan plans[MAX_PARTS];
  TgTargetPlan result;
  Set set = pistons (2, (double[]){ 400.05, 400.3 }, 2, 0);

  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_FINE);
  NEAR (result.least_cost, 0.25, 1e-9);
}

/*
 * By hand: two rods of 150 mm whose only zones are the pads of case W6.  Rod A weighs 170 and 440 g,
 * rod B 172 and 443 g; tolerance 0.  Lightest readings as targets cost rod B 5 g and rod A nothing.
 */
static void
test_rods (void)
{
  TgRodStatics top = tg_rod_statics_effect (150, 168), cap = tg_rod_statics_effect (150, -32);
  TgRemovalPlan plans[MAX_PARTS];
  TgTargetPlan result;
  Set set = { .problem = { .n_parts = 2, .step_g = 0.1 } };

  for (guint i = 0; i < 2; i++)
    set.parts[i] = (TgPlanPart){ .n_rows = 2,
                                 .n_zones = 2,
                                 .weight_g = { i ? 172 : 170, i ? 443 : 440 },
                                 .effect = { { top.small, cap.small }, { top.big, cap.big } },
                                 .capacity_g = { 9, 9 },
                                 .cost = { 1, 1 } };
  solve (&set, plans, &result);
  g_assert_cmpint (result.status, ==, TG_PLAN_READY);
  NEAR (result.least_cost, 5, 1e-9);
  NEAR (result.cost, 5, 1e-9);
  NEAR (result.target_g[0], 170, 1e-9);
  NEAR (result.target_g[1], 440, 1e-9);
  NEAR (plans[1].amount_g[0], 2.3, 1e-9);
  NEAR (plans[1].amount_g[1], 2.7, 1e-9);
  NEAR (plans[0].total_g, 0, 1e-9);

  /* Rod B is rod A after 0.6 g off its cap pad, the only zone of both: its small end is heavier than
   * A's, so the targets are B's readings, one of them above the lightest, and A loses the 0.6 g. */
  set.parts[0].weight_g[0] = 170;
  set.parts[0].weight_g[1] = 440;
  set.parts[1].weight_g[0] = 170 - 0.6 * cap.small;
  set.parts[1].weight_g[1] = 440 - 0.6 * cap.big;
  for (guint i = 0; i < 2; i++)
    set.parts[i].capacity_g[0] = 0;
  solve (&set, plans, &result);
  NEAR (result.least_cost, 0.6, 1e-9);
  g_assert_cmpfloat (set.parts[1].weight_g[0], >, 170);
  NEAR (plans[0].amount_g[1], 0.6, 1e-7);
  NEAR (plans[1].total_g, 0, 1e-7);
}

/* Every whole target and every whole amount of two small parts with one zone, one by one. */
static gboolean
brute_force (const Set *set, double *least)
{
  const TgTargetProblem *p = &set->problem;
  double step = p->step_g;
  gboolean found = FALSE;

  for (int t = 1500; t <= 1700; t++)
    {
      double target = p->fixed[0] ? p->target_g[0] : t * step;
      double cost = 0;

      for (guint i = 0; i < p->n_parts; i++)
        {
          const TgPlanPart *part = &set->parts[i];
          double over = part->weight_g[0] - target - p->tolerance_g[0];
          double k = fmax (ceil (over / step - 1e-8), 0);
          double most = part->n_zones ? floor (part->capacity_g[0] / step + 1e-9) : 0;

          if (k > most || part->weight_g[0] - k * step < target - 1e-9)
            cost = (double) INFINITY;
          else
            cost += k * step * part->cost[0];
        }
      if (isfinite (cost) && (!found || cost < *least))
        {
          found = TRUE;
          *least = cost;
        }
    }
  return found;
}

/* One row, one zone: the whole targets beside the optimum hold the best of all whole targets. */
static void
test_whole_targets (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (41);
  guint seen = 0;

  for (guint n = 0; n < 2000; n++)
    {
      Set set;
      TgRemovalPlan plans[MAX_PARTS];
      TgTargetPlan result;
      double least = 0;
      gboolean found;

      draw_set (random, 5, 1, &set);
      if (set.parts[0].n_rows != 1)
        continue;
      seen++;
      found = brute_force (&set, &least);
      tg_target_plan_solve (&set.problem, plans, &result);
      assert_sound (&set, plans, &result);
      if (!found)
        g_assert_true (result.status != TG_PLAN_READY || result.cost == 0);
      else
        {
          g_assert_cmpint (result.status, ==, TG_PLAN_READY);
          g_assert_cmpfloat (result.cost, <=, least + 1e-9);
          g_assert_true (result.cost == 0 || fabs (result.cost - least) < 1e-9);
        }
    }
  g_assert_cmpuint (seen, >, 400);
}

/* The whole targets beside the exact ones, each fixed in turn: none is cheaper than what was chosen,
 * and none that is as cheap is higher. */
static void
test_neighbours (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (29);
  guint seen = 0, aside = 0;

  for (guint n = 0; n < 400; n++)
    {
      Set set, other;
      TgRemovalPlan plans[MAX_PARTS];
      TgTargetPlan exact, chosen, result;
      double highest = 0;

      draw_set (random, 5, 4, &set);
      solve (&set, plans, &chosen);
      if (chosen.status != TG_PLAN_READY || chosen.cost == 0)
        continue;
      other = set;
      other.problem.step_g = 0;
      solve (&other, plans, &exact);
      seen++;
      for (int k = 0; k < 9; k++)
        {
          other = set;
          for (guint r = 0; r < 2; r++)
            {
              double whole = floor (exact.target_g[r] / 0.1 + 1e-7) + (r ? k / 3 : k % 3) - 1;

              other.problem.fixed[r] = TRUE;
              if (!set.problem.fixed[r])
                other.problem.target_g[r] = whole * 0.1;
            }
          solve (&other, plans, &result);
          if (result.status != TG_PLAN_READY)
            continue;
          g_assert_cmpfloat (result.cost, >=, chosen.cost - 1e-8);
          if (result.cost < chosen.cost + 1e-10)
            highest = fmax (highest, result.target_g[0] + result.target_g[1]);
        }
      NEAR (chosen.target_g[0] + chosen.target_g[1], highest, 1e-8);
      for (guint r = 0; r < set.parts[0].n_rows; r++)
        aside += !set.problem.fixed[r] &&
                 fabs (chosen.target_g[r] - floor (exact.target_g[r] / 0.1 + 1e-7) * 0.1) > 0.05;
    }
  g_test_message ("chosen beside the first %u times in %u", aside, seen);
  g_assert_cmpuint (seen, >, 60);
  g_assert_cmpuint (aside, >, 5);
}

static void
test_laws (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (3);
  guint seen = 0;

  for (guint n = 0; n < 300; n++)
    {
      Set set, other;
      TgRemovalPlan plans[MAX_PARTS];
      TgTargetPlan result, changed;
      TgPlanPart first;

      draw_set (random, 6, 5, &set);
      solve (&set, plans, &result);

      /* the order of the parts is nothing to the metal */
      other = set;
      first = other.parts[0];
      other.parts[0] = other.parts[set.problem.n_parts - 1];
      other.parts[set.problem.n_parts - 1] = first;
      solve (&other, plans, &changed);
      NEAR (changed.least_cost, result.least_cost, 1e-6);
      NEAR (changed.violation_g, result.violation_g, 1e-6);
      /* all weights and targets heavier by one figure: the same metal */
      other = set;
      for (guint i = 0; i < set.problem.n_parts; i++)
        other.parts[i].weight_g[0] += 7;
      other.problem.target_g[0] += 7;
      solve (&other, plans, &changed);
      g_assert_cmpint (changed.status == TG_PLAN_UNREACHABLE, ==,
                       result.status == TG_PLAN_UNREACHABLE);
      NEAR (changed.least_cost, result.least_cost, 1e-6);
      if (result.status == TG_PLAN_UNREACHABLE)
        continue;
      seen++;
      /* a wider tolerance never costs metal, a fixed target never saves any */
      other = set;
      other.problem.tolerance_g[n % 2] += 0.13;
      solve (&other, plans, &changed);
      g_assert_cmpint (changed.status, !=, TG_PLAN_UNREACHABLE);
      g_assert_cmpfloat (changed.least_cost, <=, result.least_cost + 1e-7);
      other = set;
      other.problem.fixed[0] = TRUE;
      if (!set.problem.fixed[0])
        other.problem.target_g[0] = result.target_g[0] - 0.1;
      solve (&other, plans, &changed);
      if (changed.status != TG_PLAN_UNREACHABLE)
        g_assert_cmpfloat (changed.least_cost, >=, result.least_cost - 1e-7);
    }
  g_assert_cmpuint (seen, >, 60);
}

/* Where several targets cost the same, none that is higher costs as little. */
static void
test_highest (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (55);
  guint seen = 0;

  for (guint n = 0; n < 300; n++)
    {
      Set set;
      TgRemovalPlan plans[MAX_PARTS];
      TgTargetPlan result, higher;

      draw_set (random, 6, 4, &set);
      set.problem.step_g = 0;
      solve (&set, plans, &result);
      if (result.status == TG_PLAN_UNREACHABLE)
        continue;
      NEAR (result.cost, result.least_cost, 1e-6);
      for (guint r = 0; r < set.parts[0].n_rows; r++)
        {
          Set other = set;

          if (set.problem.fixed[r])
            continue;
          seen++;
          for (guint q = 0; q < 2; q++)
            {
              other.problem.fixed[q] = TRUE;
              other.problem.target_g[q] = result.target_g[q] + (q == r ? 0.01 : 0);
            }
          solve (&other, plans, &higher);
          g_assert_true (higher.status == TG_PLAN_UNREACHABLE ||
                         higher.least_cost > result.least_cost + 1e-7);
        }
    }
  g_assert_cmpuint (seen, >, 100);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  glp_term_out (GLP_OFF);
  g_test_add_func ("/target-plan/random", test_random);
  g_test_add_func ("/target-plan/least-tolerance", test_least_tolerance);
  g_test_add_func ("/target-plan/pistons", test_pistons);
  g_test_add_func ("/target-plan/even-already", test_even_already);
  g_test_add_func ("/target-plan/fine", test_fine);
  g_test_add_func ("/target-plan/rods", test_rods);
  g_test_add_func ("/target-plan/whole-targets", test_whole_targets);
  g_test_add_func ("/target-plan/neighbours", test_neighbours);
  g_test_add_func ("/target-plan/laws", test_laws);
  g_test_add_func ("/target-plan/highest", test_highest);
  return g_test_run ();
}
