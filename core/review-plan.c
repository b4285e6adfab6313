/* review-plan.c: bands, targets, plans and states
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A target is the lower edge of its band; the upper edge is target + tolerance, and tolerance is the
 * largest permitted spread.  Targets that nobody decided are chosen for the least metal over the
 * set once every part of the kind is weighed.  Decided targets stand, also when a part has gone
 * under them or was replaced.  The search itself is in removal-plan.c and target-plan.c.
 *
 * Where a band is that of a sum, what is carried with a part counts as its weight.  Rods whose small
 * ends have no band of their own are planned together with the piston of their bore: one part with the
 * zones of both, rows the sum and the big end.
 */
#include <math.h>
#include <string.h>

#include "review-private.h"

static gboolean
part_weighed (const TgPartReview *part)
{
  if (part->design->kind != TG_PART_ROD)
    return part->weight[TG_FIGURE_WHOLE].basis != TG_WEIGHT_NONE;
  return part->weight[TG_FIGURE_SMALL_END].basis != TG_WEIGHT_NONE &&
         part->weight[TG_FIGURE_BIG_END].basis != TG_WEIGHT_NONE;
}

void
tg_review_add_zones (TgPlanPart *plan,
                     const TgPartReview *part,
                     const TgFigure *figures,
                     guint *zone_of,
                     const TgZone *allow)
{
  for (guint i = 0; i < part->zones->len && !part->frozen; i++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, i);

      if ((!tg_zone_usable (zone->zone) && (!allow || zone->zone != allow)) ||
          plan->n_zones == TG_PLAN_MAX_ZONES)
        continue;
      if (zone_of)
        zone_of[plan->n_zones] = i;
      plan->capacity_g[plan->n_zones] = zone->left_g;
      plan->cost[plan->n_zones] = zone->zone->preference;
      for (guint row = 0; row < plan->n_rows; row++)
        plan->effect[row][plan->n_zones] = tg_review_effect (part, figures[row], i);
      plan->n_zones++;
    }
}

double
tg_review_capacity_g (const TgPartReview *part, TgFigure figure)
{
  double capacity = 0;

  for (guint z = 0; z < part->zones->len && !part->frozen; z++)
    if (tg_zone_usable (tg_part_review_zone (part, z)->zone))
      capacity += tg_part_review_zone (part, z)->left_g *
                  MAX (0, tg_review_effect (part, figure, z));
  return capacity;
}

double
tg_review_row_planned_g (const TgReview *review, const TgPartReview *part, guint row)
{
  double now_g = tg_review_row_sum (review, part, row).mean_g;

  return now_g + part->carried[row].then_g - part->carried[row].grams;
}

static void
fill_part (TgReviewSet *set, const TgReview *review, guint index, const TgZone *allow)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgPlanPart *plan = &set->parts[set->n];
  TgFigure figures[TG_PLAN_MAX_ROWS];

  memset (plan, 0, sizeof *plan);
  plan->n_rows = tg_review_n_rows (review, set->kind);
  for (guint row = 0; row < plan->n_rows; row++)
    {
      plan->weight_g[row] = tg_review_row_planned_g (review, part, row);
      figures[row] = tg_review_row_figure (set->kind, row);
    }
  tg_review_add_zones (plan, part, figures, set->zone_of[set->n], allow);
  set->index[set->n] = index;
  set->n_own[set->n] = plan->n_zones;
  set->lender[set->n] = -1;
  if (set->kind == TG_PART_ROD && tg_review_joint (review))
    {
      const TgPartReview *piston = tg_review_piston_of (review, part);

      tg_setup_find_part (review->setup, piston->part->id, (guint *) &set->lender[set->n]);
      tg_review_add_zones (plan, piston, figures, set->zone_of[set->n], allow);
    }
  set->n++;
}

/* Weighed, with all that is carried with it. */
static gboolean
can_be_planned (const TgReview *review, const TgPartReview *part)
{
  if (!part->in_work)
    return FALSE;
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    if (tg_review_row_sum (review, part, row).basis == TG_WEIGHT_NONE)
      return FALSE;
  return part_weighed (part);
}

guint
tg_review_planned_rows (const TgReview *review, TgPartKind kind)
{
  return kind == TG_PART_PISTON && tg_review_joint (review) ? 0 : tg_review_n_rows (review, kind);
}

void
tg_review_set_init (
    TgReviewSet *set, const TgReview *review, TgPartKind kind, const TgZone *allow, int without)
{
  TgTargetProblem *problem = &set->problem;

  memset (problem, 0, sizeof *problem);
  set->kind = kind;
  set->n = 0;
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      if (part->design->kind == kind && (int) i != without && can_be_planned (review, part) &&
          tg_review_planned_rows (review, kind) > 0)
        fill_part (set, review, i, allow);
    }
  problem->parts = set->parts;
  problem->n_parts = set->n;
  problem->step_g = tg_mass_to_g (review->setup->resolution);
  for (guint row = 0; row < tg_review_planned_rows (review, kind); row++)
    {
      const TgBandReview *band = &review->bands[tg_review_row_band (review, kind, row)];

      problem->tolerance_g[row] = band->tolerance_g;
      problem->fixed[row] = band->decided;
      problem->target_g[row] = band->target_g;
    }
}

/* The last decision on each band counts. */
static void
read_targets (TgReview *review, const TgJob *job)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      review->bands[b].present = tg_setup_has_band (review->setup, b);
      review->bands[b].tolerance_g = tg_mass_to_g (tg_setup_tolerance (review->setup, b));
    }
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      if (event->kind != TG_EVENT_TARGET || review->struck[i])
        continue;
      review->bands[event->band].decided = !event->automatic;
      review->bands[event->band].target_g = event->automatic ? 0 : tg_mass_to_g (event->mass);
    }
}

/* Row of the part that a band belongs to. */
static guint
band_row (TgBand band)
{
  return band == TG_BAND_ROD_BIG || band == TG_BAND_PISTON_ALONE ? 1 : 0;
}

/* A part that reads less under a decided target than its readings can tell is not too light: the band
 * begins where it is.  So a few more readings of the lightest part do not ask for a decision.  No
 * more than a tenth of the band gives way. */
static void
begin_at_lightest (TgReview *review, TgBand b)
{
  TgBandReview *band = &review->bands[b];
  double decided_g = band->target_g, most = band->tolerance_g / 10;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      TgWeight weight;
      double under;

      if (part->design->kind != tg_band_kind (b) || !part->in_work)
        continue;
      weight = tg_review_row_sum (review, part, band_row (b));
      under = decided_g - weight.mean_g;
      if (weight.basis != TG_WEIGHT_READ || under <= TG_REVIEW_TINY_G ||
          under > MIN (most, 2 * weight.u_g) + TG_REVIEW_TINY_G)
        continue;
      band->target_g = MIN (band->target_g, weight.mean_g);
    }
}

/* What is shown of a plan.  Where nothing makes the part even the solver's amounts are those of the
 * least violation, finer than anybody can weigh: they are shown in whole steps, never more. */
static double
shown_amount_g (const TgRemovalPlan *plan, guint zone, double step_g)
{
  double amount_g = plan->amount_g[zone];

  if (plan->status == TG_PLAN_UNREACHABLE && step_g > 0)
    amount_g = floor (amount_g / step_g + 1e-6) * step_g;
  return amount_g > TG_REVIEW_TINY_G ? amount_g : 0;
}

/* One zone of one plan, at the part that it belongs to. */
static void
store_zone (TgReview *review, const TgReviewSet *set, guint i, guint j, const TgRemovalPlan *plan)
{
  gboolean lent = j >= set->n_own[i];
  TgPartReview *part = g_ptr_array_index (review->parts,
                                          lent ? (guint) set->lender[i] : set->index[i]);
  TgZoneReview *zone = &g_array_index (part->zones, TgZoneReview, set->zone_of[i][j]);
  double lo_g[TG_PLAN_MAX_ROWS] = { 0 };

  for (guint row = 0; row < set->parts[i].n_rows; row++)
    lo_g[row] = review->bands[tg_review_row_band (review, set->kind, row)].target_g;
  zone->amount_g = shown_amount_g (plan, j, set->problem.step_g);
  zone->depth_mm = tg_design_zone_depth_mm (part->design, zone->zone, zone->amount_g);
  zone->at_most_g = MIN (
      zone->left_g, plan->amount_g[j] + tg_removal_plan_headroom_g (&set->parts[i], plan, j, lo_g));
  part->to_come_off_g += zone->amount_g;
  review->least_metal_g[part->design->kind] += zone->amount_g;
}

/* What a plan of rod and piston together means for the piston. */
static void
store_lender (TgReview *review, const TgReviewSet *set, guint i, const TgRemovalPlan *plan)
{
  TgPartReview *piston = g_ptr_array_index (review->parts, (guint) set->lender[i]);

  piston->to_come_off_g = 0;
  piston->plan = (TgRemovalPlan){ .status = plan->status };
  piston->plan.after_g[0] = plan->after_g[0];
  piston->plan.violation_g[0] = plan->violation_g[0];
  if (plan->status == TG_PLAN_UNREACHABLE && fabs (plan->violation_g[0]) <= TG_REVIEW_TINY_G)
    piston->plan.status = TG_PLAN_READY;
  for (guint j = set->n_own[i]; j < set->parts[i].n_zones; j++)
    piston->plan.total_g += plan->amount_g[j];
}

static void
store_plan (TgReview *review, const TgReviewSet *set, guint i, const TgRemovalPlan *plan)
{
  TgPartReview *part = g_ptr_array_index (review->parts, set->index[i]);

  part->plan = *plan;
  part->to_come_off_g = 0;
  if (set->lender[i] >= 0)
    store_lender (review, set, i, plan);
  for (guint j = 0; j < set->parts[i].n_zones; j++)
    store_zone (review, set, i, j, plan);
}

/* Plans against targets that are all decided: each part for itself. */
static void
plan_parts (TgReview *review, TgReviewSet *set)
{
  g_autoptr (TgSimplex) lp = tg_removal_plan_workspace ();
  const TgTargetProblem *problem = &set->problem;
  guint n_rows = tg_review_n_rows (review, set->kind);
  double hi_g[TG_PLAN_MAX_ROWS] = { 0 };

  for (guint row = 0; row < n_rows; row++)
    hi_g[row] = problem->target_g[row] + problem->tolerance_g[row];
  for (guint i = 0; i < set->n; i++)
    {
      TgRemovalPlan plan;

      tg_removal_plan_solve (lp, &set->parts[i], problem->target_g, hi_g, problem->step_g, &plan);
      review->feasible[set->kind] &= plan.status != TG_PLAN_UNREACHABLE;
      store_plan (review, set, i, &plan);
    }
}

/* Targets chosen for the least metal, then the plans against them. */
static void
plan_targets (TgReview *review, TgReviewSet *set)
{
  g_autofree TgRemovalPlan *plans = g_new (TgRemovalPlan, set->n);
  TgTargetPlan result;

  tg_target_plan_solve (&set->problem, plans, &result);
  for (guint row = 0; row < tg_review_n_rows (review, set->kind); row++)
    review->bands[tg_review_row_band (review, set->kind, row)].target_g = result.target_g[row];
  review->feasible[set->kind] = result.status != TG_PLAN_UNREACHABLE;
  for (guint i = 0; i < set->n; i++)
    store_plan (review, set, i, &plans[i]);
}

static void
plan_kind (TgReview *review, TgPartKind kind)
{
  g_autofree TgReviewSet *set = g_new (TgReviewSet, 1);
  guint n_rows = tg_review_planned_rows (review, kind), n_parts = 0;
  gboolean decided = TRUE, known;

  if (n_rows == 0)
    return;
  tg_review_set_init (set, review, kind, NULL, -1);
  for (guint i = 0; i < review->parts->len; i++)
    n_parts += tg_review_part (review, i)->design->kind == kind &&
               tg_review_part (review, i)->in_work;
  for (guint row = 0; row < n_rows; row++)
    decided &= set->problem.fixed[row];
  known = n_parts > 0 && (decided || set->n == n_parts);
  for (guint row = 0; row < n_rows; row++)
    review->bands[tg_review_row_band (review, kind, row)].known = known;
  if (!known || set->n == 0)
    return;
  if (decided)
    plan_parts (review, set);
  else
    plan_targets (review, set);
}

static gboolean
any_estimated (const TgReview *review, const TgPartReview *part)
{
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    if (part->weight[tg_review_row_figure (part->design->kind, row)].basis == TG_WEIGHT_ESTIMATED)
      return TRUE;
  return FALSE;
}

/* Nothing comes off it, but its sum is still too heavy: what goes with it has to come down first. */
static gboolean
waits_for_others (const TgReview *review, const TgPartReview *part)
{
  const TgBandReview *band = &review->bands[TG_BAND_PISTON];

  return part->design->kind == TG_PART_PISTON && part->carried[0].any &&
         tg_review_row_sum (review, part, 0).mean_g >
             band->target_g + band->tolerance_g + TG_REVIEW_TINY_G;
}

static TgState
state_of (const TgReview *review, const TgPartReview *part)
{
  gboolean known = part->in_work && can_be_planned (review, part) &&
                   review->bands[tg_review_row_band (review, part->design->kind, 0)].known;

  if (!part_weighed (part))
    return TG_STATE_UNWEIGHED;
  if (part->pass_open)
    return TG_STATE_WEIGH_AGAIN;
  if (!known)
    return TG_STATE_WAITING;
  if (part->plan.status == TG_PLAN_UNREACHABLE)
    {
      /* A figure that is only reckoned is read before anybody has to decide about it. */
      gboolean reckoned = FALSE;

      for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
        {
          if (part->plan.violation_g[row] >= -TG_REVIEW_TINY_G)
            continue;
          if (tg_review_row_sum (review, part, row).basis == TG_WEIGHT_READ)
            return TG_STATE_TOO_LIGHT;
          reckoned = TRUE;
        }
      return reckoned ? TG_STATE_WEIGH_AGAIN : TG_STATE_OUT_OF_REACH;
    }
  if (part->to_come_off_g > 0)
    return TG_STATE_TO_GRIND;
  if (waits_for_others (review, part))
    return TG_STATE_WAITING;
  return any_estimated (review, part) ? TG_STATE_WEIGH_AGAIN : TG_STATE_EVEN;
}

/* One figure against its band; what is only reckoned is not judged. */
static void
judge_figure (TgBandReview *band, TgWeight *weight, const TgWeight *sum)
{
  const TgUncertainty known = { sum->u_g, sum->freedom };
  double lower = band->target_g - TG_REVIEW_TINY_G;
  double upper = band->target_g + band->tolerance_g + TG_REVIEW_TINY_G;

  if (!band->known || sum->basis != TG_WEIGHT_READ)
    return;
  weight->judged = TRUE;
  weight->verdict = tg_uncertainty_judge (sum->mean_g, known, lower, upper, TG_REVIEW_LEVEL);
  weight->probability = tg_uncertainty_conformance (sum->mean_g, known, lower, upper);
  band->n_in += weight->verdict != TG_UNCERTAINTY_OUT;
  band->n_proven += weight->verdict == TG_UNCERTAINTY_IN;
}

static void
judge_band (TgReview *review, TgBand b)
{
  TgBandReview *band = &review->bands[b];
  TgFigure figure = tg_band_figure (b);
  gboolean all_read = TRUE;

  if (!band->present)
    return;
  for (guint i = 0; i < review->parts->len; i++)
    {
      TgPartReview *part = g_ptr_array_index (review->parts, i);
      TgWeight sum, aside;

      if (part->design->kind != tg_band_kind (b) || !part->in_work)
        continue;
      sum = tg_review_row_sum (review, part, band_row (b));
      band->n_parts++;
      all_read &= sum.basis == TG_WEIGHT_READ;
      if (sum.basis == TG_WEIGHT_NONE)
        continue;
      if (band->n_weighed == 0 || sum.mean_g < band->lightest_g)
        {
          band->lightest_g = sum.mean_g;
          band->lightest = i;
        }
      if (band->n_weighed == 0 || sum.mean_g > band->heaviest_g)
        {
          band->heaviest_g = sum.mean_g;
          band->heaviest = i;
        }
      band->n_weighed++;
      if (b == TG_BAND_PISTON_ALONE)
        judge_figure (band, &aside, &sum);
      else
        judge_figure (band, &part->weight[figure], &sum);
    }
  band->spread_g = band->heaviest_g - band->lightest_g;
  band->even = all_read && band->n_weighed > 0 &&
               band->spread_g <= band->tolerance_g + TG_REVIEW_TINY_G;
}

void
tg_review_plan (TgReview *review, const TgJob *job)
{
  read_targets (review, job);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].decided)
      begin_at_lightest (review, b);
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    review->feasible[kind] = TRUE;
  plan_kind (review, TG_PART_ROD);
  tg_review_carry_planned (review);
  plan_kind (review, TG_PART_PISTON);
  for (guint i = 0; i < review->parts->len; i++)
    {
      TgPartReview *part = g_ptr_array_index (review->parts, i);

      part->state = state_of (review, part);
    }
  for (guint b = 0; b < TG_N_BANDS; b++)
    judge_band (review, b);
}

GArray *
tg_review_take_targets (const TgReview *review, guint part)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  TgPartKind kind = tg_review_part (review, part)->design->kind;
  gboolean joint = tg_review_joint (review);

  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      const TgBandReview *band = &review->bands[b];
      TgEvent event = tg_event_blank (TG_EVENT_TARGET);

      if ((tg_band_kind (b) != kind && !joint) || !band->known || band->decided)
        continue;
      event.band = b;
      event.mass = tg_mass_from_g (band->target_g);
      event.text = "held from the first pass on";
      g_array_append_val (events, event);
    }
  return events;
}
