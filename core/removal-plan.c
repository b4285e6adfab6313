/* removal-plan.c: where one part loses how much, see removal-plan.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Symbols: m_j grams off zone j, a_rj effect, c_j capacity, p_j cost, fall_r = Σ a_rj m_j, which
 * has to come into [weight - hi, weight - lo].
 *
 * 1. The linear programme gives the least cost, and its prices say which amounts and falls are the
 *    same in every optimal plan (complementary slackness).  What remains free is the choice among
 *    plans of equal cost.  With equal costs on a rod that is the rule: an effect's two rows sum to
 *    1, so the metal is the sum of both falls, wherever it comes from.
 * 2. Among those, the smallest set of zones that does it, and of these the one with the smallest
 *    largest share t = m_j / c_j.  The falls that a set of zones can reach with shares up to t are
 *    a centrally symmetric polygon (zonotope) with sides along the zones' effects.  It meets the
 *    box of wanted falls if and only if no line along a side of either separates them, so
 *      t = max over normals n of  min over box (n·fall) / Σ_j c_j max (0, n·a_j)
 *    which a depth-first search over sets adds up zone by zone, with the best still possible sum
 *    as bound.
 * 3. Whole steps of the scale: step-search.c.
 * 4. Unreachable: the programme with two slacks per row has the least sum of violations, then the
 *    least metal; the bands widened to what it reached then go through 1 and 2.
 *
 * The search of 2 looks at sets, 2^16 at most, in the order of their size; the bound leaves few.
 * It does not look further among plans with the same zones and the same largest share.
 */
#include "removal-plan.h"

#include <math.h>
#include <string.h>

#include "step-search.h"

#define IN_BAND_G 1e-9
#define NOTHING_G 1e-9  /* smaller amounts are none */
#define TIE_G 1e-10     /* geometry of ties */
#define EVEN 1e-9       /* shares that count as equal */
#define NODES_BETTER 60 /* sub-problems spent on a cheaper plan in whole steps than the first */
#define NODES_ANY 250   /* sub-problems spent on finding one */
#define MAX_NORMALS (2 * TG_PLAN_MAX_ZONES + 4)
#define INF ((double) INFINITY)

/* The wanted falls. */
typedef struct
{
  double lo[TG_PLAN_MAX_ROWS];
  double hi[TG_PLAN_MAX_ROWS];
} Box;

typedef struct
{
  guint n; /* zones to choose from */
  guint zone[TG_PLAN_MAX_ZONES];
  guint n_normals;
  double need[MAX_NORMALS];
  double reach[TG_PLAN_MAX_ZONES][MAX_NORMALS];
  /* the sum of the r largest reaches among the zones from i on */
  double top[TG_PLAN_MAX_ZONES + 1][TG_PLAN_MAX_ZONES + 1][MAX_NORMALS];
  gboolean any_share; /* some zone is used up in every plan */
  gboolean found;
  double limit; /* a set must do with a smaller share */
  double share;
  guint set; /* bit i: zone[i] */
} Ties;

TgSimplex *
tg_removal_plan_workspace (void)
{
  return tg_simplex_new (TG_PLAN_MAX_ROWS + TG_PLAN_MAX_ZONES + 1,
                         TG_PLAN_MAX_ZONES + 2 * TG_PLAN_MAX_ROWS + 1);
}

static double
fall_of (const TgPlanPart *part, guint row, const double *amount)
{
  double fall = 0;

  for (guint j = 0; j < part->n_zones; j++)
    fall += part->effect[row][j] * amount[j];
  return fall;
}

static void
load_part (TgSimplex *lp, const TgPlanPart *part, const Box *box, guint extra_cols)
{
  tg_simplex_reset (lp, part->n_rows, part->n_zones + extra_cols);
  for (guint j = 0; j < part->n_zones; j++)
    {
      tg_simplex_set_column (lp, j, 0, part->capacity_g[j]);
      for (guint r = 0; r < part->n_rows; r++)
        tg_simplex_set_coefficient (lp, r, j, part->effect[r][j]);
    }
  for (guint r = 0; r < part->n_rows; r++)
    tg_simplex_set_row (lp, r, box->lo[r], box->hi[r]);
}

static void
take_values (const TgSimplex *lp, const TgPlanPart *part, double *amount)
{
  for (guint j = 0; j < part->n_zones; j++)
    {
      amount[j] = CLAMP (tg_simplex_value (lp, j), 0, part->capacity_g[j]);
      if (amount[j] < NOTHING_G)
        amount[j] = 0;
    }
}

/* Adds ±(n0, n1), of length 1, where the box is not met by doing nothing. */
static void
add_normals (Ties *ties, const TgPlanPart *part, const Box *box, double n0, double n1)
{
  double length = hypot (n0, n1);

  if (length < 1e-12)
    return;
  for (int sign = -1; sign <= 1; sign += 2)
    {
      double n[2] = { sign * n0 / length, sign * n1 / length };
      double need = 0;
      guint k = ties->n_normals;

      for (guint r = 0; r < part->n_rows; r++)
        if (n[r] != 0)
          need += n[r] * (n[r] > 0 ? box->lo[r] : box->hi[r]);
      if (need <= TIE_G)
        continue;
      ties->need[k] = need - TIE_G;
      for (guint i = 0; i < ties->n; i++)
        {
          guint j = ties->zone[i];
          double along = n[0] * part->effect[0][j];

          if (part->n_rows > 1)
            along += n[1] * part->effect[1][j];
          ties->reach[i][k] = along > 0 ? along * part->capacity_g[j] : 0;
        }
      ties->n_normals++;
    }
}

static void
fill_normals (Ties *ties, const TgPlanPart *part, const Box *box)
{
  add_normals (ties, part, box, 1, 0);
  if (part->n_rows == 1)
    return;
  add_normals (ties, part, box, 0, 1);
  for (guint i = 0; i < ties->n; i++)
    {
      guint j = ties->zone[i];

      add_normals (ties, part, box, part->effect[1][j], -part->effect[0][j]);
    }
}

static void
fill_top (Ties *ties)
{
  for (guint k = 0; k < ties->n_normals; k++)
    {
      double sorted[TG_PLAN_MAX_ZONES];

      for (guint m = 0; m <= ties->n; m++)
        {
          guint i = ties->n - m; /* the m zones from i on */
          guint at = m;
          double sum = 0;

          if (m > 0)
            {
              double reach = ties->reach[i][k];

              for (at = m - 1; at > 0 && sorted[at - 1] < reach; at--)
                sorted[at] = sorted[at - 1];
              sorted[at] = reach;
            }
          ties->top[i][0][k] = 0;
          for (guint r = 1; r <= ties->n; r++)
            {
              if (r <= m)
                sum += sorted[r - 1];
              ties->top[i][r][k] = sum;
            }
        }
    }
}

/* The share that is needed to get everywhere with @reach; INF if it is not below the limit. */
static double
share_of (const Ties *ties, const double *reach)
{
  double share = 0;

  for (guint k = 0; k < ties->n_normals; k++)
    {
      if (ties->need[k] > ties->limit * reach[k])
        return INF;
      share = MAX (share, ties->need[k] / reach[k]);
    }
  return share;
}

/* Chooses @left more zones from @from on. */
static void
choose_zones (Ties *ties, guint from, guint left, guint set, const double *reach)
{
  for (guint i = from; i + left <= ties->n; i++)
    {
      double sum[MAX_NORMALS];

      if (ties->found && ties->any_share)
        return;
      if (left > 1)
        for (guint k = 0; k < ties->n_normals; k++)
          if (ties->need[k] > ties->limit * (reach[k] + ties->top[i][left][k]))
            return;
      for (guint k = 0; k < ties->n_normals; k++)
        sum[k] = reach[k] + ties->reach[i][k];
      if (left > 1)
        choose_zones (ties, i + 1, left - 1, set | 1u << i, sum);
      else
        {
          double share = share_of (ties, sum);

          if (share == INF)
            continue;
          ties->found = TRUE;
          ties->share = share;
          ties->limit = share - EVEN;
          ties->set = set | 1u << i;
        }
    }
}

/* Puts the amounts of the chosen set into @amount: least share t with m_j ≤ t c_j. */
static gboolean
spread_over (
    TgSimplex *lp, const TgPlanPart *part, const Ties *ties, const Box *box, double *amount)
{
  guint zone[TG_PLAN_MAX_ZONES];
  guint n = 0;

  for (guint i = 0; i < ties->n; i++)
    if (ties->set & 1u << i)
      zone[n++] = ties->zone[i];
  tg_simplex_reset (lp, part->n_rows + n, n + 1);
  tg_simplex_set_column (lp, n, ties->any_share ? 1 : 0, 1);
  tg_simplex_set_cost (lp, n, 1);
  for (guint r = 0; r < part->n_rows; r++)
    tg_simplex_set_row (lp, r, box->lo[r], box->hi[r]);
  for (guint i = 0; i < n; i++)
    {
      tg_simplex_set_column (lp, i, 0, part->capacity_g[zone[i]]);
      tg_simplex_set_row (lp, part->n_rows + i, -INF, 0);
      tg_simplex_set_coefficient (lp, part->n_rows + i, i, 1);
      tg_simplex_set_coefficient (lp, part->n_rows + i, n, -part->capacity_g[zone[i]]);
      for (guint r = 0; r < part->n_rows; r++)
        tg_simplex_set_coefficient (lp, r, i, part->effect[r][zone[i]]);
    }
  if (tg_simplex_solve (lp) != TG_SIMPLEX_OPTIMAL)
    return FALSE;
  for (guint i = 0; i < ties->n; i++)
    amount[ties->zone[i]] = 0;
  for (guint i = 0; i < n; i++)
    amount[zone[i]] = CLAMP (tg_simplex_value (lp, i), 0, part->capacity_g[zone[i]]);
  return TRUE;
}

/* @lp holds an optimum, @amount its values: of all optimal plans, put the preferred one there. */
static void
break_ties (TgSimplex *lp, const TgPlanPart *part, const Box *wanted, double *amount)
{
  static const double nothing[MAX_NORMALS];
  Box box = *wanted;
  Ties ties;
  guint used = 0;

  ties.n = ties.n_normals = ties.set = 0;
  ties.any_share = ties.found = FALSE;
  ties.limit = 1 + EVEN;
  for (guint r = 0; r < part->n_rows; r++)
    if (tg_simplex_row_forced (lp, r))
      box.lo[r] = box.hi[r] = tg_simplex_activity (lp, r);
  for (guint j = 0; j < part->n_zones; j++)
    if (!tg_simplex_column_forced (lp, j))
      {
        ties.zone[ties.n++] = j;
        used += amount[j] > 0;
      }
    else if (amount[j] > 0)
      {
        ties.any_share = TRUE;
        for (guint r = 0; r < part->n_rows; r++)
          {
            box.lo[r] -= part->effect[r][j] * amount[j];
            box.hi[r] -= part->effect[r][j] * amount[j];
          }
      }
  if (used == 0 || ties.n == 1)
    return; /* nothing to choose */
  fill_normals (&ties, part, &box);
  fill_top (&ties);
  for (guint size = 1; size <= used && !ties.found; size++)
    choose_zones (&ties, 0, size, 0, nothing);
  if (ties.found)
    spread_over (lp, part, &ties, &box, amount);
}

static gboolean
solve_cheapest (TgSimplex *lp, const TgPlanPart *part, const Box *box)
{
  load_part (lp, part, box, 0);
  for (guint j = 0; j < part->n_zones; j++)
    tg_simplex_set_cost (lp, j, part->cost[j]);
  return tg_simplex_solve (lp) == TG_SIMPLEX_OPTIMAL;
}

static gboolean
solve_exact (TgSimplex *lp, const TgPlanPart *part, const Box *box, double *amount, double *cost)
{
  if (!solve_cheapest (lp, part, box))
    return FALSE;
  *cost = tg_simplex_objective (lp);
  take_values (lp, part, amount);
  break_ties (lp, part, box, amount);
  return TRUE;
}

/* Widens @box to the least sum of violations and, with it, the least cost. */
static gboolean
widen (TgSimplex *lp, const TgPlanPart *part, Box *box)
{
  guint n = part->n_zones;

  load_part (lp, part, box, 2 * part->n_rows);
  for (guint r = 0; r < part->n_rows; r++)
    for (guint k = 0; k < 2; k++)
      {
        tg_simplex_set_coefficient (lp, r, n + 2 * r + k, k == 0 ? 1 : -1);
        tg_simplex_set_cost (lp, n + 2 * r + k, 1);
      }
  if (tg_simplex_solve (lp) != TG_SIMPLEX_OPTIMAL)
    return FALSE;
  tg_simplex_hold (lp);
  for (guint j = 0; j < n; j++)
    tg_simplex_set_cost (lp, j, part->cost[j]);
  if (tg_simplex_solve (lp) != TG_SIMPLEX_OPTIMAL)
    return FALSE;
  for (guint r = 0; r < part->n_rows; r++)
    {
      double fall = tg_simplex_activity (lp, r) - tg_simplex_value (lp, n + 2 * r) +
                    tg_simplex_value (lp, n + 2 * r + 1);

      box->lo[r] = fmin (box->lo[r], fall);
      box->hi[r] = fmax (box->hi[r], fall);
    }
  return TRUE;
}

/* Fills everything that follows from the amounts. */
static void
finish (const TgPlanPart *part, const double *lo_g, const double *hi_g, TgRemovalPlan *plan)
{
  plan->total_g = plan->cost = 0;
  for (guint j = 0; j < part->n_zones; j++)
    {
      plan->total_g += plan->amount_g[j];
      plan->cost += part->cost[j] * plan->amount_g[j];
    }
  for (guint r = 0; r < part->n_rows; r++)
    {
      double after = part->weight_g[r] - fall_of (part, r, plan->amount_g);

      plan->after_g[r] = after;
      plan->violation_g[r] = after > hi_g[r] + IN_BAND_G   ? after - hi_g[r]
                             : after < lo_g[r] - IN_BAND_G ? after - lo_g[r]
                                                           : 0;
    }
}

static gboolean
in_bands (const TgPlanPart *part, const TgRemovalPlan *plan)
{
  for (guint r = 0; r < part->n_rows; r++)
    if (plan->violation_g[r] != 0)
      return FALSE;
  return TRUE;
}

static Box
wanted_falls (const TgPlanPart *part, const double *lo_g, const double *hi_g)
{
  Box box = { .lo = { 0 } };

  for (guint r = 0; r < part->n_rows; r++)
    {
      box.lo[r] = part->weight_g[r] - hi_g[r];
      box.hi[r] = part->weight_g[r] - lo_g[r];
    }
  return box;
}

/* Puts @plan in whole steps; FALSE, with @plan untouched, if no such plan was found. */
static gboolean
round_plan (
    TgSimplex *lp, const TgPlanPart *part, const Box *box, double step_g, TgRemovalPlan *plan)
{
  TgStepSearch search = { .part = part, .step_g = step_g, .nodes = NODES_BETTER };
  guint all = (1u << part->n_zones) - 1, used = 0;
  double bound = tg_step_search_round_up (&search, all, plan->least_cost);

  for (guint r = 0; r < part->n_rows; r++)
    {
      search.fall_lo[r] = box->lo[r];
      search.fall_hi[r] = box->hi[r];
    }
  for (guint j = 0; j < part->n_zones; j++)
    if (plan->amount_g[j] > 0)
      used |= 1u << j;
  tg_step_search_run (&search, lp, used, bound);
  if (used != all && (!search.found || search.cost > bound + IN_BAND_G))
    {
      search.nodes = search.found ? NODES_BETTER : NODES_ANY;
      tg_step_search_run (&search, lp, all, bound);
    }
  if (!search.found)
    return FALSE;
  for (guint j = 0; j < part->n_zones; j++)
    plan->amount_g[j] = search.steps[j] * step_g;
  return TRUE;
}

void
tg_removal_plan_solve (TgSimplex *lp,
                       const TgPlanPart *part,
                       const double *lo_g,
                       const double *hi_g,
                       double step_g,
                       TgRemovalPlan *plan)
{
  Box box, wide;
  double cost = 0;

  g_return_if_fail (part->n_rows >= 1 && part->n_rows <= TG_PLAN_MAX_ROWS);
  g_return_if_fail (part->n_zones <= TG_PLAN_MAX_ZONES);
  g_return_if_fail (step_g >= 0);

  memset (plan, 0, sizeof *plan);
  finish (part, lo_g, hi_g, plan);
  plan->status = in_bands (part, plan) ? TG_PLAN_READY : TG_PLAN_UNREACHABLE;
  if (plan->status == TG_PLAN_READY || part->n_zones == 0)
    return;
  box = wide = wanted_falls (part, lo_g, hi_g);
  if (!solve_exact (lp, part, &box, plan->amount_g, &cost) && widen (lp, part, &wide))
    solve_exact (lp, part, &wide, plan->amount_g, &cost);
  finish (part, lo_g, hi_g, plan);
  if (!in_bands (part, plan))
    return;
  plan->least_cost = cost;
  plan->status = TG_PLAN_FINE;
  if (step_g > 0 && !round_plan (lp, part, &box, step_g, plan))
    return;
  plan->status = TG_PLAN_READY;
  finish (part, lo_g, hi_g, plan);
}

double
tg_removal_plan_least_cost (TgSimplex *lp,
                            const TgPlanPart *part,
                            const double *lo_g,
                            const double *hi_g)
{
  Box box = wanted_falls (part, lo_g, hi_g);
  gboolean inside = TRUE;

  for (guint r = 0; r < part->n_rows; r++)
    inside = inside && box.lo[r] <= IN_BAND_G && box.hi[r] >= -IN_BAND_G;
  if (inside)
    return 0;
  if (part->n_zones == 0 || !solve_cheapest (lp, part, &box))
    return INF;
  return tg_simplex_objective (lp);
}

double
tg_removal_plan_headroom_g (const TgPlanPart *part,
                            const TgRemovalPlan *plan,
                            guint zone,
                            const double *lo_g)
{
  double room = INF;

  g_return_val_if_fail (zone < part->n_zones, 0);

  for (guint r = 0; r < part->n_rows; r++)
    if (part->effect[r][zone] > 1e-12)
      room = fmin (room, (plan->after_g[r] - lo_g[r]) / part->effect[r][zone]);
  if (room == INF)
    room = part->capacity_g[zone] - plan->amount_g[zone];
  return fmax (room, 0);
}
