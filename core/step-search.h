/* step-search.h: a plan in whole steps of the scale
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Amounts are k_j × step with whole k_j.  Find the cheapest that bring every fall (weight before
 * minus weight after) into its band.
 */
#pragma once

#include <glib.h>

#include "removal-plan.h"

G_BEGIN_DECLS

/**
 * TgStepSearch:
 * @fall_lo, @fall_hi: by row, in g: the band of Σ effect × amount
 * @step_g: > 0
 * @found: steps and cost are a plan; one that is put in beforehand is only replaced by a better
 * @cost: Σ cost × amount
 * @steps: by zone
 * @nodes: sub-problems that may still be looked at; 0 after the search: it was cut short, the plan
 *   may not be the cheapest, or there may be one that was not found
 */
typedef struct
{
  const TgPlanPart *part;
  double fall_lo[TG_PLAN_MAX_ROWS];
  double fall_hi[TG_PLAN_MAX_ROWS];
  double step_g;
  gboolean found;
  double cost;
  guint steps[TG_PLAN_MAX_ZONES];
  guint nodes;
} TgStepSearch;

/**
 * tg_step_search_run:
 * @lp: work space as for tg_removal_plan_solve()
 * @zones: bit j: zone j may be used
 * @lower_bound: no plan is cheaper than this
 *
 * Exact for one or two zones; for more, exact unless @nodes runs out.  Ties go to fewer zones, then
 * to the smallest largest share of a zone's capacity, as far as they are met.
 */
void tg_step_search_run (TgStepSearch *search, TgSimplex *lp, guint zones, double lower_bound);

/* The least cost that a plan in whole steps over @zones can have if none is cheaper than @cost. */
double tg_step_search_round_up (const TgStepSearch *search, guint zones, double cost);

G_END_DECLS
