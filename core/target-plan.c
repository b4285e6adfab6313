/* target-plan.c: common targets for a set of parts, see target-plan.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Symbols: w_ir weight of part i in row r, a effects, m amounts, T_r target, tol_r tolerance:
 *
 *   minimise Σ p m   subject to   w_ir - tol_r ≤ T_r + Σ_j a_irj m_ij ≤ w_ir,   0 ≤ m ≤ c
 *
 * Weights are taken relative to the lightest of their row, so that the programme works on a few
 * grams.  Among the optimal solutions the one with the highest targets is taken, and whole targets
 * beside it are tried with the real plans of the parts.
 *
 * Unreachable: two slacks per row, least sum of violations, then least metal, then highest targets.
 */
#include "target-plan.h"

#include <math.h>
#include <string.h>

#define SAME 1e-9
#define INF ((double) INFINITY)
#define N_NEIGHBOURS 9
#define FINEST_G 0.001 /* a TgMass is a whole number of these */

typedef enum
{
  STRICT,
  ELASTIC,   /* two slack columns for each row, at the end */
  TOLERANCE, /* one column more: the tolerance of a row */
} Form;

/* Whole targets, with the least cost of every part there. */
typedef struct
{
  double target[TG_PLAN_MAX_ROWS];
  double *bound;
  double sum;
} Candidate;

static guint
first_zone (const TgTargetProblem *problem, guint part)
{
  guint col = problem->parts[0].n_rows;

  for (guint i = 0; i < part; i++)
    col += problem->parts[i].n_zones;
  return col;
}

static double
base_of (const TgTargetProblem *problem, guint row)
{
  double least = problem->parts[0].weight_g[row];

  if (problem->fixed[row])
    return problem->target_g[row];
  for (guint i = 1; i < problem->n_parts; i++)
    least = fmin (least, problem->parts[i].weight_g[row]);
  return least;
}

static void
load_zones (TgSimplex *lp, const TgPlanPart *part, guint col, guint row)
{
  for (guint j = 0; j < part->n_zones; j++)
    {
      tg_simplex_set_column (lp, col + j, 0, part->capacity_g[j]);
      for (guint r = 0; r < part->n_rows; r++)
        tg_simplex_set_coefficient (lp, row + r, col + j, part->effect[r][j]);
    }
}

static void
load_slacks (TgSimplex *lp, guint row, guint col)
{
  for (guint k = 0; k < 2; k++)
    {
      tg_simplex_set_coefficient (lp, row, col + k, k == 0 ? 1 : -1);
      tg_simplex_set_cost (lp, col + k, 1);
    }
}

/* Columns: targets, zones part by part, extra ones by @form. Row i × n_rows + r: part i, row r. */
static TgSimplex *
load_set (const TgTargetProblem *problem, Form form)
{
  guint n_rows = problem->parts[0].n_rows;
  guint rows = problem->n_parts * n_rows;
  guint cols = first_zone (problem, problem->n_parts);
  guint more = form == ELASTIC ? 2 * rows : form == TOLERANCE ? 1 : 0;
  guint extra_rows = form == TOLERANCE ? problem->n_parts : 0;
  TgSimplex *lp = tg_simplex_new (rows + extra_rows, cols + more);
  guint col = n_rows;

  tg_simplex_reset (lp, rows + extra_rows, cols + more);
  for (guint r = 0; r < n_rows; r++)
    if (problem->fixed[r])
      tg_simplex_set_column (lp, r, 0, 0);
    else
      tg_simplex_set_column (lp, r, -INF, INF);
  for (guint i = 0; i < problem->n_parts; i++)
    {
      const TgPlanPart *part = &problem->parts[i];

      load_zones (lp, part, col, i * n_rows);
      col += part->n_zones;
      for (guint r = 0; r < n_rows; r++)
        {
          guint row = i * n_rows + r;
          double hi = part->weight_g[r] - base_of (problem, r);

          tg_simplex_set_coefficient (lp, row, r, 1);
          tg_simplex_set_row (lp, row, hi - problem->tolerance_g[r], hi);
          if (form == ELASTIC)
            load_slacks (lp, row, cols + 2 * row);
        }
    }
  return lp;
}

static void
set_metal_costs (TgSimplex *lp, const TgTargetProblem *problem)
{
  guint col = problem->parts[0].n_rows;

  for (guint i = 0; i < problem->n_parts; i++)
    for (guint j = 0; j < problem->parts[i].n_zones; j++)
      tg_simplex_set_cost (lp, col++, problem->parts[i].cost[j]);
}

/* Of all optimal solutions of @lp takes the highest targets. */
static void
highest_targets (TgSimplex *lp, const TgTargetProblem *problem, double *target)
{
  guint n_rows = problem->parts[0].n_rows;
  double found[TG_PLAN_MAX_ROWS];

  for (guint r = 0; r < n_rows; r++)
    found[r] = tg_simplex_value (lp, r);
  tg_simplex_hold (lp);
  for (guint r = 0; r < n_rows; r++)
    tg_simplex_set_cost (lp, r, -1);
  if (tg_simplex_solve (lp) == TG_SIMPLEX_OPTIMAL)
    for (guint r = 0; r < n_rows; r++)
      found[r] = tg_simplex_value (lp, r);
  for (guint r = 0; r < n_rows; r++)
    target[r] = problem->fixed[r] ? problem->target_g[r] : base_of (problem, r) + found[r];
}

static gboolean
solve_strict (const TgTargetProblem *problem, double *target, double *cost)
{
  g_autoptr (TgSimplex) lp = load_set (problem, STRICT);

  set_metal_costs (lp, problem);
  if (tg_simplex_solve (lp) != TG_SIMPLEX_OPTIMAL)
    return FALSE;
  *cost = tg_simplex_objective (lp);
  highest_targets (lp, problem, target);
  return TRUE;
}

double
tg_target_plan_least_cost (const TgTargetProblem *problem)
{
  g_autoptr (TgSimplex) lp = load_set (problem, STRICT);

  set_metal_costs (lp, problem);
  return tg_simplex_solve (lp) == TG_SIMPLEX_OPTIMAL ? tg_simplex_objective (lp) : INF;
}

static double
solve_elastic (const TgTargetProblem *problem, double *target)
{
  g_autoptr (TgSimplex) lp = load_set (problem, ELASTIC);
  double violation;

  if (tg_simplex_solve (lp) != TG_SIMPLEX_OPTIMAL)
    {
      for (guint r = 0; r < problem->parts[0].n_rows; r++)
        target[r] = base_of (problem, r);
      return 0;
    }
  violation = tg_simplex_objective (lp);
  tg_simplex_hold (lp);
  set_metal_costs (lp, problem);
  if (tg_simplex_solve (lp) == TG_SIMPLEX_OPTIMAL)
    highest_targets (lp, problem, target);
  return violation;
}

static void
plan_part (const TgTargetProblem *problem,
           TgSimplex *lp,
           guint i,
           const double *target,
           double step_g,
           TgRemovalPlan *plan)
{
  double hi[TG_PLAN_MAX_ROWS] = { 0 };

  for (guint r = 0; r < problem->parts[i].n_rows; r++)
    hi[r] = target[r] + problem->tolerance_g[r];
  tg_removal_plan_solve (lp, &problem->parts[i], target, hi, step_g, plan);
}

/* Least cost of every part at @target into @bound; returns their sum. */
static double
bound_parts (const TgTargetProblem *problem, TgSimplex *lp, const double *target, double *bound)
{
  double sum = 0;

  for (guint i = 0; i < problem->n_parts && isfinite (sum); i++)
    {
      double hi[TG_PLAN_MAX_ROWS] = { 0 };

      for (guint r = 0; r < problem->parts[i].n_rows; r++)
        hi[r] = target[r] + problem->tolerance_g[r];
      bound[i] = tg_removal_plan_least_cost (lp, &problem->parts[i], target, hi);
      sum += bound[i];
    }
  return sum;
}

/* Cost of the set at @target if every part is READY and it stays below @limit, else INFINITY.
 * @bound: least cost by part.  @suspect is looked at first; the part that fails becomes it. */
static double
ready_cost (const TgTargetProblem *problem,
            TgSimplex *lp,
            const double *target,
            double limit,
            const double *bound,
            guint *suspect)
{
  double cost = 0;
  guint first = *suspect;

  for (guint i = 0; i < problem->n_parts; i++)
    cost += bound[i];
  for (guint n = 0; n < problem->n_parts && cost <= limit; n++)
    {
      guint i = n == 0 ? first : n <= first ? n - 1 : n;
      TgRemovalPlan plan;

      plan_part (problem, lp, i, target, problem->step_g, &plan);
      if (plan.status != TG_PLAN_READY)
        {
          *suspect = i;
          return INF;
        }
      cost += plan.cost - bound[i];
    }
  return cost <= limit ? cost : INF;
}

/* Sum of violations of the set at @target. */
static double
violation_at (const TgTargetProblem *problem, TgSimplex *lp, const double *target)
{
  double sum = 0;

  for (guint i = 0; i < problem->n_parts; i++)
    {
      TgRemovalPlan plan;

      plan_part (problem, lp, i, target, 0, &plan);
      for (guint r = 0; r < problem->parts[i].n_rows; r++)
        sum += fabs (plan.violation_g[r]);
    }
  return sum;
}

/* The @n-th whole target beside @exact; FALSE if it repeats one (fixed rows). */
static gboolean
neighbour (const TgTargetProblem *problem, const double *exact, guint n, double *target)
{
  static const int away[] = { 0, -1, 1 };
  guint pick[2] = { n % 3, n / 3 };

  for (guint r = 0; r < 2; r++)
    {
      if (r >= problem->parts[0].n_rows || problem->fixed[r])
        {
          if (pick[r] != 0)
            return FALSE;
          target[r] = r < problem->parts[0].n_rows ? problem->target_g[r] : 0;
        }
      else
        {
          double whole = floor (exact[r] / problem->step_g + 1e-7);

          target[r] = (whole + away[pick[r]]) * problem->step_g;
        }
    }
  return TRUE;
}

/* TRUE if @a with @cost_a goes before @b with @cost_b. */
static gboolean
better (const double *a, double cost_a, const double *b, double cost_b)
{
  double higher = a[0] + a[1] - b[0] - b[1];

  if (fabs (cost_a - cost_b) > SAME)
    return cost_a < cost_b;
  return higher > SAME || (higher > -SAME && a[0] > b[0] + SAME);
}

/* The whole targets beside @exact, the one with the lowest bound first. */
static guint
sorted_neighbours (const TgTargetProblem *problem,
                   TgSimplex *lp,
                   const double *exact,
                   Candidate *candidates)
{
  guint n = 0;

  for (guint k = 0; k < N_NEIGHBOURS; k++)
    {
      Candidate c = { .bound = g_new (double, problem->n_parts), .sum = INF };
      guint at = n;

      if (neighbour (problem, exact, k, c.target))
        c.sum = bound_parts (problem, lp, c.target, c.bound);
      if (!isfinite (c.sum))
        {
          g_free (c.bound);
          continue;
        }
      for (; at > 0 && candidates[at - 1].sum > c.sum + SAME; at--)
        candidates[at] = candidates[at - 1];
      candidates[at] = c;
      n++;
    }
  return n;
}

/* The whole targets beside @exact with the cheapest plans in whole steps go to @best and their cost
 * is returned.  INFINITY if no plans do: then @best gets those of the lowest bound, and @within
 * tells whether there are any. */
static double
best_neighbour (const TgTargetProblem *problem,
                TgSimplex *lp,
                const double *exact,
                double *best,
                gboolean *within)
{
  Candidate candidates[N_NEIGHBOURS];
  guint n = sorted_neighbours (problem, lp, exact, candidates);
  double best_cost = INF;
  guint suspect = 0;

  *within = n > 0;
  if (n > 0)
    memcpy (best, candidates[0].target, sizeof candidates[0].target);
  for (guint k = 0; k < n && candidates[k].sum <= best_cost + SAME; k++)
    {
      const Candidate *c = &candidates[k];
      double cost = ready_cost (problem, lp, c->target, best_cost + SAME, c->bound, &suspect);

      if (isfinite (cost) && (!isfinite (best_cost) || better (c->target, cost, best, best_cost)))
        {
          best_cost = cost;
          memcpy (best, c->target, sizeof c->target);
        }
    }
  for (guint k = 0; k < n; k++)
    g_free (candidates[k].bound);
  return best_cost;
}

/* @exact with the free rows put down to whole 0.001 g. */
static void
put_down (const TgTargetProblem *problem, const double *exact, double *target)
{
  for (guint r = 0; r < problem->parts[0].n_rows; r++)
    target[r] = problem->fixed[r] ? exact[r] : floor (exact[r] / FINEST_G + 1e-6) * FINEST_G;
}

/* Reachable: chooses the targets; FALSE if some part cannot be planned in whole steps there. */
static gboolean
choose_targets (const TgTargetProblem *problem,
                TgSimplex *lp,
                const double *exact,
                double least_cost,
                double *target)
{
  double found[TG_PLAN_MAX_ROWS] = { 0 };
  gboolean within;
  double cost;

  memcpy (target, exact, sizeof found);
  if (problem->step_g <= 0)
    return TRUE;
  cost = best_neighbour (problem, lp, exact, found, &within);
  if (least_cost <= SAME && cost > SAME)
    {
      double down[TG_PLAN_MAX_ROWS] = { 0 };

      put_down (problem, exact, down);
      if (violation_at (problem, lp, down) <= 0)
        memcpy (target, down, sizeof down);
      return TRUE;
    }
  if (within)
    memcpy (target, found, sizeof found);
  return isfinite (cost);
}

/* Unreachable: whole targets if they are as near as @exact. */
static void
choose_nearest (const TgTargetProblem *problem,
                TgSimplex *lp,
                const double *exact,
                double violation,
                double *target)
{
  memcpy (target, exact, sizeof (double) * TG_PLAN_MAX_ROWS);
  if (problem->step_g <= 0)
    return;
  for (guint n = 0; n < N_NEIGHBOURS; n++)
    {
      double whole[TG_PLAN_MAX_ROWS];

      if (neighbour (problem, exact, n, whole) &&
          violation_at (problem, lp, whole) <= violation + SAME)
        {
          memcpy (target, whole, sizeof whole);
          return;
        }
    }
}

static void
take_plans (const TgTargetProblem *problem,
            TgSimplex *lp,
            TgRemovalPlan *plans,
            TgTargetPlan *result)
{
  double worst = 0;

  for (guint i = 0; i < problem->n_parts; i++)
    {
      plan_part (problem, lp, i, result->target_g, problem->step_g, &plans[i]);
      result->cost += plans[i].cost;
      result->total_g += plans[i].total_g;
      for (guint r = 0; r < problem->parts[i].n_rows; r++)
        if (fabs (plans[i].violation_g[r]) > worst + SAME)
          {
            worst = fabs (plans[i].violation_g[r]);
            result->worst_part = i;
            result->worst_row = r;
          }
    }
}

void
tg_target_plan_solve (const TgTargetProblem *problem, TgRemovalPlan *plans, TgTargetPlan *result)
{
  g_autoptr (TgSimplex) lp = NULL;
  double exact[TG_PLAN_MAX_ROWS] = { 0 };
  double least = 0;

  g_return_if_fail (problem->n_parts > 0);

  lp = tg_removal_plan_workspace ();
  memset (result, 0, sizeof *result);
  if (!solve_strict (problem, exact, &least))
    {
      result->violation_g = solve_elastic (problem, exact);
      if (result->violation_g > SAME)
        {
          result->status = TG_PLAN_UNREACHABLE;
          choose_nearest (problem, lp, exact, result->violation_g, result->target_g);
          take_plans (problem, lp, plans, result);
          return;
        }
      result->violation_g = 0;
    }
  result->least_cost = least;
  result->status = choose_targets (problem, lp, exact, least, result->target_g) ? TG_PLAN_READY
                                                                                : TG_PLAN_FINE;
  take_plans (problem, lp, plans, result);
}

double
tg_target_plan_least_tolerance_g (const TgTargetProblem *problem, guint row)
{
  g_autoptr (TgSimplex) lp = NULL;
  guint n_rows = problem->parts[0].n_rows;
  guint tolerance = first_zone (problem, problem->n_parts);
  guint rows = problem->n_parts * n_rows;

  g_return_val_if_fail (row < n_rows, -1);

  lp = load_set (problem, TOLERANCE);
  tg_simplex_set_column (lp, tolerance, problem->tolerance_g[row], INF);
  tg_simplex_set_cost (lp, tolerance, 1);
  for (guint i = 0; i < problem->n_parts; i++)
    {
      const TgPlanPart *part = &problem->parts[i];
      guint col = first_zone (problem, i);
      double hi = part->weight_g[row] - base_of (problem, row);

      /* T + fall ≤ w, and T + fall + tolerance ≥ w in a row of its own */
      tg_simplex_set_row (lp, i * n_rows + row, -INF, hi);
      tg_simplex_set_row (lp, rows + i, hi, INF);
      tg_simplex_set_coefficient (lp, rows + i, row, 1);
      tg_simplex_set_coefficient (lp, rows + i, tolerance, 1);
      for (guint j = 0; j < part->n_zones; j++)
        tg_simplex_set_coefficient (lp, rows + i, col + j, part->effect[row][j]);
    }
  return tg_simplex_solve (lp) == TG_SIMPLEX_OPTIMAL ? tg_simplex_value (lp, tolerance) : -1;
}
