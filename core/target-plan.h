/* target-plan.h: common targets for a set of parts, for the least metal over the whole set
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One linear programme over all amounts m_ij and the targets T_r: every weight of part i in row r
 * must end in [T_r, T_r + tolerance_r].  A target is the lower edge of the band.
 */
#pragma once

#include <glib.h>

#include "removal-plan.h"

G_BEGIN_DECLS

/**
 * TgTargetProblem:
 * @n_parts: ≥ 1; all parts have the same number of rows
 * @tolerance_g: by row, ≥ 0
 * @fixed: by row: the target is given
 * @target_g: by row, where fixed
 * @step_g: step of the scale; targets that are not fixed and all amounts come in whole steps; 0: no
 *   rounding
 */
typedef struct
{
  guint n_parts;
  const TgPlanPart *parts;
  double tolerance_g[TG_PLAN_MAX_ROWS];
  gboolean fixed[TG_PLAN_MAX_ROWS];
  double target_g[TG_PLAN_MAX_ROWS];
  double step_g;
} TgTargetProblem;

/**
 * TgTargetPlan:
 * @status: READY: every part READY; FINE: reachable, but at every whole target that was looked at
 *   some part only without rounding, or no whole target is within reach; UNREACHABLE: no targets do
 *   it, the targets are those of the least total violation
 * @target_g: by row
 * @least_cost: exact optimum of the programme before rounding (READY and FINE)
 * @cost, @total_g: sums over the parts' plans
 * @violation_g: least possible sum of violations over parts and rows (UNREACHABLE), else 0
 * @worst_part, @worst_row: the largest violation's (UNREACHABLE)
 */
typedef struct
{
  TgPlanStatus status;
  double target_g[TG_PLAN_MAX_ROWS];
  double least_cost;
  double cost;
  double total_g;
  double violation_g;
  guint worst_part;
  guint worst_row;
} TgTargetPlan;

/**
 * tg_target_plan_solve:
 * @plans: (out) (array length=n_parts): each part's plan against the chosen targets
 * @result: (out)
 *
 * Whole targets are looked for beside the highest targets of the exact optimum, one step to either
 * side; the cheapest is taken, of equal ones the highest.  A target stands between two steps only
 * where it has to: in a set that is even already without any metal (readings are means, so its
 * target may be a whole 0.001 g), and where no whole target is within reach (FINE, UNREACHABLE).
 */
void
tg_target_plan_solve (const TgTargetProblem *problem, TgRemovalPlan *plans, TgTargetPlan *result);

/**
 * tg_target_plan_least_cost:
 *
 * Returns: the exact least cost of the set alone, without whole steps, INFINITY if out of reach; much
 * less work than the plan.
 */
double tg_target_plan_least_cost (const TgTargetProblem *problem);

/**
 * tg_target_plan_least_tolerance_g:
 *
 * The smallest tolerance of @row, the other row's as given, with which the set can be made even;
 * at least the given one.  -1 if no tolerance of this row alone does it.
 */
double tg_target_plan_least_tolerance_g (const TgTargetProblem *problem, guint row);

G_END_DECLS
