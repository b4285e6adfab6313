/* test-removal-plan.c: the plan of one part against GLPK, brute force, laws and worked cases
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Objectives and statuses are compared with GLPK's, never plans: optima tie heavily.
 */
#include <glib.h>
#include <glpk.h>
#include <math.h>

#include "plan-oracle.h"
#include "removal-plan.h"
#include "rod-statics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)
#define SAME_COST(a, b) g_assert_cmpfloat_with_epsilon (a, b, 1e-6 * (1 + fabs (b)))

typedef struct
{
  TgPlanPart part;
  double lo[2], hi[2];
} Case;

static void
draw_case (GRand *random, guint max_zones, Case *c)
{
  if (g_rand_int_range (random, 0, 4) == 0)
    oracle_draw_piston (random, max_zones, &c->part);
  else
    oracle_draw_rod (random, max_zones, &c->part);
  oracle_draw_bands (random, &c->part, c->lo, c->hi);
}

static TgRemovalPlan
solve (TgSimplex *lp, const Case *c, double step)
{
  TgRemovalPlan plan;

  tg_removal_plan_solve (lp, &c->part, c->lo, c->hi, step, &plan);
  return plan;
}

static guint
used_zones (const TgRemovalPlan *plan)
{
  guint used = 0;

  for (guint j = 0; j < TG_PLAN_MAX_ZONES; j++)
    used += plan->amount_g[j] > 0;
  return used;
}

/* What every plan must be: amounts possible, figures its own, and a rod loses what its ends lose. */
static void
assert_sound (const Case *c, const TgRemovalPlan *plan)
{
  double total = 0, cost = 0, before = 0, after = 0;

  for (guint j = 0; j < c->part.n_zones; j++)
    {
      g_assert_cmpfloat (plan->amount_g[j], >=, 0);
      g_assert_cmpfloat (plan->amount_g[j], <=, c->part.capacity_g[j] + 1e-7);
      total += plan->amount_g[j];
      cost += plan->amount_g[j] * c->part.cost[j];
    }
  NEAR (plan->total_g, total, 1e-12);
  NEAR (plan->cost, cost, 1e-12);
  for (guint r = 0; r < c->part.n_rows; r++)
    {
      double w = plan->after_g[r];

      before += c->part.weight_g[r];
      after += w;
      if (plan->status == TG_PLAN_UNREACHABLE)
        continue;
      g_assert_cmpfloat (w, >=, c->lo[r] - 1e-9);
      g_assert_cmpfloat (w, <=, c->hi[r] + 1e-9);
      g_assert_cmpfloat (plan->violation_g[r], ==, 0);
    }
  NEAR (after, before - total, 1e-9);
}

static void
assert_whole (const TgRemovalPlan *plan, double step)
{
  for (guint j = 0; j < TG_PLAN_MAX_ZONES; j++)
    NEAR (plan->amount_g[j], floor (plan->amount_g[j] / step + 0.5) * step, 1e-9);
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (4711);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  guint reachable = 0, rounded = 0, fine = 0, unreachable = 0;

  for (guint n = 0; n < 1500; n++)
    {
      Case c;
      TgRemovalPlan exact, whole;
      double expected;
      gboolean feasible;

      draw_case (random, 12, &c);
      feasible = oracle_solve_part (&c.part, ORACLE_COST, c.lo, c.hi, &expected);
      exact = solve (lp, &c, 0);
      whole = solve (lp, &c, 0.1);
      assert_sound (&c, &exact);
      assert_sound (&c, &whole);
      if (!feasible)
        {
          g_assert_cmpint (exact.status, ==, TG_PLAN_UNREACHABLE);
          g_assert_cmpint (whole.status, ==, TG_PLAN_UNREACHABLE);
          g_assert_true (oracle_solve_part (&c.part, ORACLE_VIOLATION, c.lo, c.hi, &expected));
          SAME_COST (fabs (exact.violation_g[0]) + fabs (exact.violation_g[1]), expected);
          unreachable++;
          continue;
        }
      reachable++;
      g_assert_cmpint (exact.status, ==, TG_PLAN_READY);
      SAME_COST (exact.least_cost, expected);
      SAME_COST (exact.cost, expected);
      g_assert_cmpint (whole.status, !=, TG_PLAN_UNREACHABLE);
      SAME_COST (whole.least_cost, expected);
      if (whole.status == TG_PLAN_READY)
        {
          assert_whole (&whole, 0.1);
          g_assert_cmpfloat (whole.cost, >=, whole.least_cost - 1e-9);
        }
      else
        SAME_COST (whole.cost, expected);
      rounded += whole.status == TG_PLAN_READY;
      fine += whole.status == TG_PLAN_FINE;
    }
  g_test_message ("reachable %u (in steps %u, fine %u), unreachable %u", reachable, rounded, fine,
                  unreachable);
  g_assert_cmpuint (reachable, >, 500);
  g_assert_cmpuint (rounded, >, 300);
  g_assert_cmpuint (fine, >, 10);
  g_assert_cmpuint (unreachable, >, 200);
}

/* Least metal of all plans with the least violation: one more gram outside weighs 1000 g of metal. */
static void
test_least_metal_when_unreachable (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (99);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  guint seen = 0;

  for (guint n = 0; n < 600; n++)
    {
      Case c;
      TgRemovalPlan plan;
      double violation, expected;

      draw_case (random, 6, &c);
      if (c.part.n_rows == 2) /* a zone in the middle trades one end's violation for the other's */
        c.part.effect[0][0] = c.part.effect[1][0] = 0.5;
      plan = solve (lp, &c, 0.1);
      if (plan.status != TG_PLAN_UNREACHABLE)
        continue;
      seen++;
      violation = fabs (plan.violation_g[0]) + fabs (plan.violation_g[1]);
      g_assert_true (oracle_solve_part (&c.part, ORACLE_BOTH, c.lo, c.hi, &expected));
      NEAR (ORACLE_WEIGHT * violation + plan.cost, expected, 1e-5);
    }
  g_assert_cmpuint (seen, >, 100);
}

/* Cheapest of all plans in whole steps over two zones, one by one; FALSE if there is none. */
static gboolean
brute_force (const Case *c, double step, double *least)
{
  const TgPlanPart *p = &c->part;
  guint most[2] = { 0, 0 };
  gboolean found = FALSE;

  for (guint j = 0; j < p->n_zones; j++)
    most[j] = (guint) floor (p->capacity_g[j] / step + 1e-9);
  for (guint a = 0; a <= most[0]; a++)
    for (guint b = 0; b <= most[1]; b++)
      {
        double cost = p->cost[0] * step * a + p->cost[1] * step * b;
        gboolean inside = TRUE;

        for (guint r = 0; r < p->n_rows; r++)
          {
            double w = p->weight_g[r] - (p->effect[r][0] * a + p->effect[r][1] * b) * step;

            inside = inside && w >= c->lo[r] - 1e-9 && w <= c->hi[r] + 1e-9;
          }
        if (inside && (!found || cost < *least))
          {
            found = TRUE;
            *least = cost;
          }
      }
  return found;
}

static void
test_whole_steps (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (31);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  guint ready = 0, fine = 0;

  for (guint n = 0; n < 3000; n++)
    {
      Case c;
      TgRemovalPlan plan;
      double least = 0;
      gboolean found;
      double step = n % 2 ? 0.1 : 0.25;

      draw_case (random, 2, &c);
      found = brute_force (&c, step, &least);
      plan = solve (lp, &c, step);
      assert_sound (&c, &plan);
      g_assert_cmpint (plan.status == TG_PLAN_READY, ==, found);
      if (found)
        {
          assert_whole (&plan, step);
          NEAR (plan.cost, least, 1e-9);
          ready++;
        }
      fine += plan.status == TG_PLAN_FINE;
    }
  g_test_message ("ready %u, fine %u", ready, fine);
  g_assert_cmpuint (ready, >, 300);
  g_assert_cmpuint (fine, >, 100);
}

/* More zones than two: GLPK's own integer solver on the same lattice, where it ends in time. */
static gboolean
integer_least (const Case *c, double step, double *least)
{
  glp_prob *lp = glp_create_prob ();
  const TgPlanPart *p = &c->part;
  glp_iocp parameters;
  int status;

  glp_add_cols (lp, (int) p->n_zones);
  glp_add_rows (lp, (int) p->n_rows);
  for (guint j = 0; j < p->n_zones; j++)
    {
      int most = (int) floor (p->capacity_g[j] / step + 1e-9);

      glp_set_col_kind (lp, (int) j + 1, GLP_IV);
      glp_set_col_bnds (lp, (int) j + 1, most > 0 ? GLP_DB : GLP_FX, 0, most);
      glp_set_obj_coef (lp, (int) j + 1, p->cost[j] * step);
    }
  for (guint r = 0; r < p->n_rows; r++)
    {
      int index[TG_PLAN_MAX_ZONES + 1];
      double value[TG_PLAN_MAX_ZONES + 1];

      for (guint j = 0; j < p->n_zones; j++)
        {
          index[j + 1] = (int) j + 1;
          value[j + 1] = p->effect[r][j];
        }
      glp_set_mat_row (lp, (int) r + 1, (int) p->n_zones, index, value);
      glp_set_row_bnds (lp, (int) r + 1, GLP_DB, (p->weight_g[r] - c->hi[r]) / step,
                        (p->weight_g[r] - c->lo[r]) / step);
    }
  glp_init_iocp (&parameters);
  parameters.msg_lev = GLP_MSG_OFF;
  parameters.presolve = GLP_ON;
  parameters.tm_lim = 50;
  glp_intopt (lp, &parameters);
  status = glp_mip_status (lp);
  *least = glp_mip_obj_val (lp);
  glp_delete_prob (lp);
  return status == GLP_OPT;
}

/* The search over more zones is bounded: it must come near GLPK's optimum and mostly reach it. */
static void
test_whole_steps_many_zones (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (77);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  guint both = 0, equal = 0, missed = 0;

  for (guint n = 0; n < 400; n++)
    {
      Case c;
      TgRemovalPlan plan;
      double least = 0;

      oracle_draw_rod (random, 6, &c.part);
      oracle_draw_bands (random, &c.part, c.lo, c.hi);
      for (guint r = 0; r < 2; r++)
        c.lo[r] -= 0.1; /* wide enough for steps of 0.1 g, as a tolerance should be */
      if (c.part.n_zones < 3)
        continue;
      plan = solve (lp, &c, 0.1);
      if (plan.status == TG_PLAN_UNREACHABLE || !integer_least (&c, 0.1, &least))
        continue;
      if (plan.status == TG_PLAN_FINE)
        {
          missed++;
          continue;
        }
      both++;
      g_assert_cmpfloat (plan.cost, >=, least - 1e-6);
      g_assert_cmpfloat (plan.cost, <=, least + 0.5);
      equal += plan.cost <= least + 1e-6;
    }
  g_test_message ("both %u, equal %u, not found %u", both, equal, missed);
  g_assert_cmpuint (both, >, 80);
  g_assert_cmpuint (equal * 100, >=, both * 95);
  g_assert_cmpuint (missed * 50, <=, both);
}

/* The cost over the zones in @set with capacities × @share; FALSE if that cannot do it. */
static gboolean
cost_over (const Case *c, guint set, double share, double *cost)
{
  TgPlanPart part = c->part;

  for (guint j = 0; j < part.n_zones; j++)
    part.capacity_g[j] = set & 1u << j ? part.capacity_g[j] * share : 0;
  return oracle_solve_part (&part, ORACLE_COST, c->lo, c->hi, cost);
}

/* Smallest largest share over @set at cost @least, by bisection; 2 if it cannot do it. */
static double
least_share (const Case *c, guint set, double least)
{
  double low = 0, high = 1, cost;

  if (!cost_over (c, set, 1, &cost) || cost > least + 1e-6)
    return 2;
  while (high - low > 1e-7)
    {
      double share = (low + high) / 2;

      if (cost_over (c, set, share, &cost) && cost <= least + 1e-6)
        high = share;
      else
        low = share;
    }
  return high;
}

static double
share_used (const Case *c, const TgRemovalPlan *plan)
{
  double share = 0;

  for (guint j = 0; j < c->part.n_zones; j++)
    if (plan->amount_g[j] > 0)
      share = fmax (share, plan->amount_g[j] / c->part.capacity_g[j]);
  return share;
}

/* Every set of zones, by GLPK: none that is smaller does it, none of the same size is evener. */
static void
test_ties (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (8);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  guint seen = 0;

  for (guint n = 0; n < 240; n++)
    {
      Case c;
      TgRemovalPlan plan;
      guint fewest = 99;
      double share = 2;

      draw_case (random, 6, &c);
      for (guint j = 0; j < c.part.n_zones; j++)
        {
          c.part.cost[j] = n % 4 ? 1 : 1 + j % 2;
          c.part.capacity_g[j] = fmin (c.part.capacity_g[j], n % 3 ? 6 : 1.5);
        }
      plan = solve (lp, &c, 0);
      if (plan.status != TG_PLAN_READY || plan.cost == 0)
        continue;
      seen++;
      for (guint set = 1; set < 1u << c.part.n_zones; set++)
        {
          guint size = (guint) __builtin_popcount (set);
          double s;

          if (size > fewest)
            continue;
          s = least_share (&c, set, plan.least_cost);
          if (s > 1)
            continue;
          share = size < fewest ? s : fmin (share, s);
          fewest = size;
        }
      g_assert_cmpuint (used_zones (&plan), ==, fewest);
      NEAR (share_used (&c, &plan), share, 1e-4);
    }
  g_assert_cmpuint (seen, >, 80);
}

static Case
piston (guint n_zones, const double *capacity, double weight, double lo, double hi)
{
  Case c = { .part = { .n_rows = 1, .n_zones = n_zones } };

  c.part.weight_g[0] = weight;
  c.lo[0] = lo;
  c.hi[0] = hi;
  for (guint j = 0; j < n_zones; j++)
    {
      c.part.effect[0][j] = c.part.cost[j] = 1;
      c.part.capacity_g[j] = capacity[j];
    }
  return c;
}

/* By hand. */
static void
test_even (void)
{
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  Case c = piston (3, (double[]){ 2, 4, 4 }, 400, 398.5, 399);
  TgRemovalPlan plan = solve (lp, &c, 0);

  /* 1 g: one zone is enough; 1/4 of zone 1 or 2 is evener than 1/2 of zone 0; the lower number */
  NEAR (plan.amount_g[0], 0, 1e-9);
  NEAR (plan.amount_g[1], 1, 1e-9);
  NEAR (plan.amount_g[2], 0, 1e-9);
  /* 5 g: two zones, 5/8 of both 4 g zones */
  c.hi[0] = 395;
  c.lo[0] = 394.5;
  plan = solve (lp, &c, 0);
  NEAR (plan.amount_g[0], 0, 1e-9);
  NEAR (plan.amount_g[1], 2.5, 1e-8);
  NEAR (plan.amount_g[2], 2.5, 1e-8);
  /* 9 g: all three, 9/10 of each */
  c.hi[0] = 391;
  c.lo[0] = 390.5;
  plan = solve (lp, &c, 0);
  NEAR (plan.amount_g[0], 1.8, 1e-8);
  NEAR (plan.amount_g[1], 3.6, 1e-8);
  NEAR (plan.amount_g[2], 3.6, 1e-8);
}

static void
test_by_hand (void)
{
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  Case c = piston (1, (double[]){ 0.75 }, 400.05, 399.5, 399.8);
  TgRemovalPlan plan = solve (lp, &c, 0.1);

  /* 0.25 g wanted, 0.3 g in steps; 0.25 more before it is too light */
  g_assert_cmpint (plan.status, ==, TG_PLAN_READY);
  NEAR (plan.amount_g[0], 0.3, 1e-12);
  NEAR (plan.least_cost, 0.25, 1e-9);
  NEAR (tg_removal_plan_headroom_g (&c.part, &plan, 0, c.lo), 0.25, 1e-9);
  /* in its band already: nothing, not even where no zone is left */
  c.hi[0] = 400.05;
  plan = solve (lp, &c, 0.1);
  g_assert_cmpint (plan.status, ==, TG_PLAN_READY);
  g_assert_cmpfloat (plan.total_g, ==, 0);
  c.part.n_zones = 0;
  plan = solve (lp, &c, 0.1);
  g_assert_cmpint (plan.status, ==, TG_PLAN_READY);
  c.hi[0] = 400;
  plan = solve (lp, &c, 0.1);
  g_assert_cmpint (plan.status, ==, TG_PLAN_UNREACHABLE);
  NEAR (plan.violation_g[0], 0.05, 1e-9);
  /* too light for its band: nothing helps, nothing is taken off */
  c = piston (2, (double[]){ 3, 3 }, 400, 401, 401.5);
  plan = solve (lp, &c, 0.1);
  g_assert_cmpint (plan.status, ==, TG_PLAN_UNREACHABLE);
  NEAR (plan.violation_g[0], -1, 1e-9);
  g_assert_cmpfloat (plan.total_g, ==, 0);
  /* capacity 0.75 g is no whole number of steps: 0.7 g at most, so 0.72 g is fine work only */
  c = piston (1, (double[]){ 0.75 }, 400, 399.0, 399.28);
  plan = solve (lp, &c, 0.1);
  g_assert_cmpint (plan.status, ==, TG_PLAN_FINE);
  NEAR (plan.amount_g[0], 0.72, 1e-9);
}

/*
 * Case W6 (two pads; no published figures, recomputed by hand): centre distance 150 mm, pads 18 mm
 * beyond the small end and 32 mm beyond the big end.  To lose 2 g at the small and 3 g at the big
 * end, [168, -32; -18, 182] / 150 × (2.3, 2.7) = (2, 3): 2.300 g off the small-end pad, 2.700 g off
 * the cap pad.  Taking 2 and 3 g instead loses 1.6 and 3.4 g.
 */
static void
test_two_pads (void)
{
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  TgRodStatics top = tg_rod_statics_effect (150, 168), cap = tg_rod_statics_effect (150, -32);
  Case c = { .part = { .n_rows = 2,
                       .n_zones = 2,
                       .weight_g = { 170, 440 },
                       .effect = { { top.small, cap.small }, { top.big, cap.big } },
                       .capacity_g = { 9, 9 },
                       .cost = { 1, 1 } },
             .lo = { 168, 437 },
             .hi = { 168, 437 } };
  TgRemovalPlan plan = solve (lp, &c, 0.1);

  g_assert_cmpint (plan.status, ==, TG_PLAN_READY);
  NEAR (plan.amount_g[0], 2.3, 1e-9);
  NEAR (plan.amount_g[1], 2.7, 1e-9);
  NEAR (plan.total_g, 5, 1e-9);
  NEAR (2 * top.small + 3 * cap.small, 1.6, 1e-12);
  NEAR (2 * top.big + 3 * cap.big, 3.4, 1e-12);
  /* a target above the reading: metal off the cap pad makes the small end heavier */
  c.lo[0] = c.hi[0] = 170.64;
  c.lo[1] = c.hi[1] = 440 - 3 * cap.big;
  plan = solve (lp, &c, 0.1);
  g_assert_cmpint (plan.status, ==, TG_PLAN_READY);
  NEAR (plan.amount_g[0], 0, 1e-9);
  NEAR (plan.amount_g[1], 3, 1e-9);
}

static void
mirror (Case *c)
{
  for (guint j = 0; j < c->part.n_zones; j++)
    {
      double small = c->part.effect[0][j];

      c->part.effect[0][j] = c->part.effect[1][j];
      c->part.effect[1][j] = small;
    }
  for (guint k = 0; k < 3; k++)
    {
      double *pair = k == 0 ? c->part.weight_g : k == 1 ? c->lo : c->hi;
      double first = pair[0];

      pair[0] = pair[1];
      pair[1] = first;
    }
}

/*
 * By hand: the small end has to lose 1 g and the big end nothing.  Zone 0 in the middle halves its
 * metal between the ends, zone 1 (0.5 g at most) takes 1.2 off the small end and puts 0.2 on the big
 * end.  0.5 g off zone 1 leaves 0.4 g and -0.1 g; 0.2 g off zone 0 heals the big end and leaves 0.3 g
 * outside.  From there to 0.8 g zone 0 only moves the violation from one end to the other.
 */
static void
test_split_violation (void)
{
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();

  for (guint half = 0; half < 2; half++)
    {
      guint other = 1 - half;
      Case c = { .part = { .n_rows = 2, .n_zones = 2, .weight_g = { 160, 430 }, .cost = { 1, 1 } },
                 .lo = { 159, 430 },
                 .hi = { 159, 430 } };
      TgRemovalPlan plan;

      c.part.effect[0][half] = c.part.effect[1][half] = 0.5;
      c.part.effect[0][other] = 1.2;
      c.part.effect[1][other] = -0.2;
      c.part.capacity_g[half] = 5;
      c.part.capacity_g[other] = 0.5;
      for (guint turned = 0; turned < 2; turned++)
        {
          plan = solve (lp, &c, 0.1);
          g_assert_cmpint (plan.status, ==, TG_PLAN_UNREACHABLE);
          NEAR (plan.amount_g[half], 0.2, 1e-8);
          NEAR (plan.amount_g[other], 0.5, 1e-8);
          NEAR (plan.violation_g[turned], 0.3, 1e-8);
          NEAR (plan.violation_g[1 - turned], 0, 1e-8);
          mirror (&c);
        }
    }
}

static void
scale_masses (Case *c, double factor)
{
  for (guint j = 0; j < c->part.n_zones; j++)
    c->part.capacity_g[j] *= factor;
  for (guint r = 0; r < 2; r++)
    {
      c->part.weight_g[r] *= factor;
      c->lo[r] *= factor;
      c->hi[r] *= factor;
    }
}

static void
test_laws (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (5);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  guint seen = 0;

  for (guint n = 0; n < 600; n++)
    {
      Case c, other;
      TgRemovalPlan plan, changed;

      oracle_draw_rod (random, 8, &c.part);
      oracle_draw_bands (random, &c.part, c.lo, c.hi);
      plan = solve (lp, &c, 0);

      /* turning the rod end for end */
      other = c;
      mirror (&other);
      changed = solve (lp, &other, 0);
      g_assert_cmpint (changed.status, ==, plan.status);
      NEAR (changed.cost, plan.cost, 1e-6);
      /* one zone less is never better */
      other = c;
      other.part.capacity_g[n % c.part.n_zones] = 0;
      changed = solve (lp, &other, 0);
      if (plan.status == TG_PLAN_UNREACHABLE)
        g_assert_cmpint (changed.status, ==, TG_PLAN_UNREACHABLE);
      else if (changed.status == TG_PLAN_READY)
        g_assert_cmpfloat (changed.cost, >=, plan.cost - 1e-7);
      if (plan.status == TG_PLAN_UNREACHABLE)
        continue;
      seen++;
      /* a wider band never costs metal */
      other = c;
      other.lo[n % 2] -= 0.05;
      other.hi[1 - n % 2] += 0.07;
      changed = solve (lp, &other, 0);
      g_assert_cmpint (changed.status, ==, TG_PLAN_READY);
      g_assert_cmpfloat (changed.cost, <=, plan.cost + 1e-7);
      /* all masses threefold, the metal threefold */
      other = c;
      scale_masses (&other, 3);
      changed = solve (lp, &other, 0);
      g_assert_cmpint (changed.status, ==, TG_PLAN_READY);
      NEAR (changed.cost, 3 * plan.cost, 1e-6);
    }
  g_assert_cmpuint (seen, >, 150);
}

/* The same input gives the same bytes, with a work space that was used for other things before. */
static void
test_repeatable (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (6);
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();

  for (guint n = 0; n < 100; n++)
    {
      g_autoptr (TgSimplex) fresh = tg_removal_plan_workspace ();
      Case c;
      TgRemovalPlan first, second;

      draw_case (random, 16, &c);
      first = solve (lp, &c, 0.1);
      second = solve (fresh, &c, 0.1);
      g_assert_cmpmem (&first, sizeof first, &second, sizeof second);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  glp_term_out (GLP_OFF);
  g_test_add_func ("/removal-plan/random", test_random);
  g_test_add_func ("/removal-plan/least-metal-when-unreachable", test_least_metal_when_unreachable);
  g_test_add_func ("/removal-plan/whole-steps", test_whole_steps);
  g_test_add_func ("/removal-plan/whole-steps-many-zones", test_whole_steps_many_zones);
  g_test_add_func ("/removal-plan/ties", test_ties);
  g_test_add_func ("/removal-plan/even", test_even);
  g_test_add_func ("/removal-plan/by-hand", test_by_hand);
  g_test_add_func ("/removal-plan/two-pads", test_two_pads);
  g_test_add_func ("/removal-plan/split-violation", test_split_violation);
  g_test_add_func ("/removal-plan/laws", test_laws);
  g_test_add_func ("/removal-plan/repeatable", test_repeatable);
  return g_test_run ();
}
