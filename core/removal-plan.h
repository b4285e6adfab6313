/* removal-plan.h: where one part loses how much
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A part has one weight (piston) or two that are coupled (rod: row 0 small end, row 1 big end), and
 * zones that may lose metal.  Find amounts m_j in [0, c_j] with the least Σ p_j m_j so that each
 * weight ends inside its band.  Among equal plans: fewest zones, then the smallest largest share of
 * a zone's capacity (evenest depth), then the lowest zone numbers.
 */
#pragma once

#include <glib.h>

#include "simplex.h"

G_BEGIN_DECLS

#define TG_PLAN_MAX_ZONES 16
#define TG_PLAN_MAX_ROWS 2

/**
 * TgPlanPart:
 * @n_rows: 1 or 2
 * @n_zones: 0 to TG_PLAN_MAX_ZONES, usable zones only
 * @weight_g: by row
 * @effect: by row and zone: grams by which the weight falls for one gram off the zone
 * @capacity_g: by zone: what may still come off, ≥ 0, finite
 * @cost: by zone: per gram, > 0
 *
 * A frozen part is one with no zones.
 */
typedef struct
{
  guint n_rows;
  guint n_zones;
  double weight_g[TG_PLAN_MAX_ROWS];
  double effect[TG_PLAN_MAX_ROWS][TG_PLAN_MAX_ZONES];
  double capacity_g[TG_PLAN_MAX_ZONES];
  double cost[TG_PLAN_MAX_ZONES];
} TgPlanPart;

typedef enum
{
  TG_PLAN_READY,       /* in steps of the scale, every weight ends in its band */
  TG_PLAN_FINE,        /* reachable, but not in whole steps of the scale: amounts are not rounded */
  TG_PLAN_UNREACHABLE, /* no amounts do it: amounts are the least violation's */
} TgPlanStatus;

/**
 * TgRemovalPlan:
 * @amount_g: by zone, ≥ 0
 * @after_g: by row: the weight after these amounts
 * @total_g: Σ amount
 * @cost: Σ cost × amount of the amounts given
 * @least_cost: the exact optimum before rounding (READY and FINE)
 * @violation_g: by row: 0 inside the band, positive: still above it, negative: below it.  For
 *   UNREACHABLE the sum of the absolute values is the least that is possible.
 */
typedef struct
{
  TgPlanStatus status;
  double amount_g[TG_PLAN_MAX_ZONES];
  double after_g[TG_PLAN_MAX_ROWS];
  double total_g;
  double cost;
  double least_cost;
  double violation_g[TG_PLAN_MAX_ROWS];
} TgRemovalPlan;

/**
 * tg_removal_plan_solve:
 * @lp: work space of at least TG_PLAN_MAX_ROWS + TG_PLAN_MAX_ZONES + 1 rows and
 *   TG_PLAN_MAX_ZONES + 2 × TG_PLAN_MAX_ROWS + 1 columns
 * @lo_g, @hi_g: by row: the band, lo ≤ hi
 * @step_g: step of the scale; amounts come in whole steps; 0: no rounding
 * @plan: (out)
 *
 * The plan in whole steps is the cheapest for a part with one or two zones; with more zones the
 * search is bounded, so that a plan may cost a little more than the cheapest, and FINE means that
 * none was found.  A weight counts as in its band within 1e-9 g.
 */
void tg_removal_plan_solve (TgSimplex *lp,
                            const TgPlanPart *part,
                            const double *lo_g,
                            const double *hi_g,
                            double step_g,
                            TgRemovalPlan *plan);

/**
 * tg_removal_plan_least_cost:
 *
 * Returns: the exact least cost alone, without ties and whole steps, INFINITY if out of reach; much
 * less work than a plan.
 */
double tg_removal_plan_least_cost (TgSimplex *lp,
                                   const TgPlanPart *part,
                                   const double *lo_g,
                                   const double *hi_g);

/**
 * tg_removal_plan_headroom_g:
 *
 * How many grams more than planned may come off @zone before a weight falls below its band, all
 * other amounts as planned; ≥ 0.  For the "at most" of an instruction.  What the zone can give does
 * not limit it, unless no weight falls with this zone.
 */
double tg_removal_plan_headroom_g (const TgPlanPart *part,
                                   const TgRemovalPlan *plan,
                                   guint zone,
                                   const double *lo_g);

/* Makes a work space that is large enough. */
TgSimplex *tg_removal_plan_workspace (void);

G_END_DECLS
