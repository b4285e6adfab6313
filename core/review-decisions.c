/* review-decisions.c: problems that only the person can decide, with what each way out costs
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two problems come here: a part that has gone under its band, and a set whose bands cannot be
 * reached.  Every way out is tried with the same solver that makes the plan, and its cost is the
 * metal that the whole set would lose beyond today's plan.  Ways that do not work are not offered.
 */
#include <math.h>

#include "review-private.h"

/* One kind of parts with its problem, and what today's plan takes. */
typedef struct
{
  TgReview *review;
  TgPartKind kind;
  guint n_rows;
  TgReviewSet set;
  double today_g;
} Case;

static TgBand
row_band (const Case *c, guint row)
{
  return tg_review_row_band (c->review, c->kind, row);
}

static const char *
row_band_label (const Case *c, guint row)
{
  return tg_setup_band_label (c->review->setup, row_band (c, row));
}

/* Steps of the scale at or below, and at or above @grams. */
static double
step_down (double grams, double step)
{
  return floor (grams / step + 1e-6) * step;
}

static double
step_up (double grams, double step)
{
  return ceil (grams / step - 1e-6) * step;
}

static gboolean
try_problem (const TgTargetProblem *problem, TgTargetPlan *result)
{
  g_autofree TgRemovalPlan *plans = g_new (TgRemovalPlan, MAX (problem->n_parts, 1));

  if (problem->n_parts == 0)
    return FALSE;
  tg_target_plan_solve (problem, plans, result);
  return result->status != TG_PLAN_UNREACHABLE;
}

/* @then_g: what the whole set loses with it */
static TgChoice *
add_choice (const Case *c, TgDecision *decision, char *title, char *detail, double then_g)
{
  TgChoice *choice = g_new0 (TgChoice, 1);

  choice->title = title;
  choice->detail = detail;
  choice->today_g = c->today_g;
  choice->then_g = then_g;
  choice->cost_g = MAX (0, then_g - c->today_g);
  choice->extra = TRUE;
  choice->events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  g_ptr_array_add (decision->choices, choice);
  return choice;
}

/* Path and value of an event belong to its choice; other strings are literals or the setup's. */
static void
add_set (TgChoice *choice, const char *path, char *value, const char *reason)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = g_strdup (path);
  event.value = value;
  event.text = reason;
  g_array_append_val (choice->events, event);
}

static void
add_plain (TgChoice *choice, TgEvent event, const char *reason)
{
  event.text = reason;
  event.path = g_strdup ("");
  event.value = g_strdup ("");
  g_array_append_val (choice->events, event);
}

static void
add_target (TgChoice *choice, TgBand band, double target_g, const char *reason)
{
  TgEvent event = tg_event_blank (TG_EVENT_TARGET);

  event.band = band;
  event.mass = tg_mass_from_g (target_g);
  add_plain (choice, event, reason);
}

static void
add_automatic (TgChoice *choice, const Case *c, const char *reason)
{
  for (guint row = 0; row < c->n_rows; row++)
    {
      TgEvent event = tg_event_blank (TG_EVENT_TARGET);

      event.band = row_band (c, row);
      event.automatic = TRUE;
      add_plain (choice, event, reason);
    }
}

static const char *
tolerance_path (TgBand band)
{
  static const char *const paths[TG_N_BANDS] = { "tolerance.rod-small", "tolerance.rod-big",
                                                 "tolerance.piston", "tolerance.piston-alone" };

  return paths[band];
}

/* A job takes neither a target of nothing nor a tolerance beyond all sense, as a slip of a reading by
 * ten would ask for. */
static gboolean
can_be_decided (const Case *c, const TgTargetProblem *problem)
{
  for (guint row = 0; row < c->n_rows; row++)
    {
      g_autofree char *tolerance = NULL;

      if (problem->target_g[row] < tg_mass_to_g (1) && c->set.problem.fixed[row])
        return FALSE;
      if (problem->tolerance_g[row] > tg_mass_to_g (TG_MASS_MAX))
        return FALSE;
      tolerance = tg_mass_format_exact (tg_mass_from_g (problem->tolerance_g[row]));
      if (!tg_setup_check_value (c->review->setup, tolerance_path (row_band (c, row)), tolerance,
                                 NULL))
        return FALSE;
    }
  return TRUE;
}

/* What counts in a row besides the part's own figure. */
static double
carried_g (const Case *c, guint index, guint row)
{
  const TgPartReview *part = tg_review_part (c->review, index);

  return tg_review_row_planned_g (c->review, part, row) -
         part->weight[tg_review_row_figure (c->kind, row)].mean_g;
}

static void
offer_replacement (Case *c, TgDecision *decision, guint index)
{
  const TgPartReview *part = tg_review_part (c->review, index);
  GString *needs = g_string_new (NULL);
  gboolean ends = c->kind == TG_PART_ROD;
  TgEvent event = tg_event_blank (TG_EVENT_REPLACE);
  TgChoice *choice;

  for (guint row = 0; row < (ends ? c->n_rows : 1); row++)
    {
      double least_g = c->set.problem.target_g[row] - carried_g (c, index, row);
      g_autofree char *least = NULL;

      if (!ends && c->n_rows > 1)
        least_g = MAX (least_g, c->set.problem.target_g[1]);
      least = tg_review_grams (c->review, least_g);
      g_string_append_printf (needs, "%s%s%s g%s%s", row ? " and " : "", row ? "" : "at least ",
                              least, ends ? " at the " : "",
                              ends ? tg_figure_label (c->kind, tg_review_row_figure (c->kind, row))
                                   : "");
    }
  choice = add_choice (
      c, decision, g_strdup_printf ("Replace %s", part->part->name),
      g_strdup_printf ("Look for a piece with %s. The others keep their plan; what "
                       "the new piece weighs more is ground off it.",
                       needs->str),
      c->today_g);
  choice->extra = FALSE;
  event.part = part->part->id;
  add_plain (choice, event, "replaced");
  g_string_free (needs, TRUE);
}

/* Where part i stays under a band whatever still comes off it, the target goes down to it, in whole
 * steps. What still comes off beyond one end can make the other heavier, so it is the weight after
 * the plan of the least violation that counts; being foretold and not read, it gets half a step. */
static void
lower_targets (const Case *c, guint i, TgTargetProblem *problem)
{
  const TgPartReview *part = tg_review_part (c->review, c->set.index[i]);

  for (guint row = 0; row < c->n_rows; row++)
    {
      double after_g = part->plan.after_g[row];

      if (part->plan.violation_g[row] >= -TG_REVIEW_TINY_G)
        continue;
      if (fabs (after_g - c->set.parts[i].weight_g[row]) > TG_REVIEW_TINY_G)
        after_g -= problem->step_g / 2;
      problem->target_g[row] = step_down (after_g, problem->step_g);
    }
}

/* "519.6 g", or for rods "small ends 245.8 g and big ends 560.8 g": those that differ from today. */
static char *
list_targets (const Case *c, const TgTargetProblem *problem)
{
  GString *list = g_string_new (NULL);

  for (guint row = 0; row < c->n_rows; row++)
    {
      g_autofree char *grams = NULL;

      if (problem->target_g[row] == c->set.problem.target_g[row])
        continue;
      grams = tg_review_grams (c->review, problem->target_g[row]);
      g_string_append_printf (list, "%s%s%s%s g", list->len ? " and " : "",
                              c->n_rows > 1 ? row_band_label (c, row) : "",
                              c->n_rows > 1 ? " " : "", grams);
    }
  return g_string_free (list, FALSE);
}

static void
hold_targets (const Case *c, TgChoice *choice, const TgTargetProblem *problem, const char *reason)
{
  for (guint row = 0; row < c->n_rows; row++)
    if (problem->target_g[row] != c->set.problem.target_g[row])
      add_target (choice, row_band (c, row), problem->target_g[row], reason);
}

/* The part stays as it is and becomes the lower edge; the others follow as far as they must. */
static gboolean
offer_lower (Case *c, TgDecision *decision, guint i)
{
  TgTargetProblem problem = c->set.problem;
  TgTargetPlan result;
  const char *name = tg_review_part (c->review, c->set.index[i])->part->name;
  g_autofree char *targets = NULL;
  double cost;
  TgChoice *choice;

  lower_targets (c, i, &problem);
  if (!can_be_decided (c, &problem) || !try_problem (&problem, &result))
    return FALSE;
  cost = result.total_g - c->today_g;
  targets = list_targets (c, &problem);
  if (cost <= TG_REVIEW_TINY_G)
    choice = add_choice (c, decision, g_strdup_printf ("Accept %s as it is", name),
                         g_strdup_printf ("The set can stay within its tolerance all the same. New "
                                          "target: %s.",
                                          targets),
                         result.total_g);
  else
    choice = add_choice (c, decision, g_strdup_printf ("Lower the target: %s", targets),
                         g_strdup_printf ("%s stays as it is; the others come down to it as far as "
                                          "the tolerance asks.",
                                          name),
                         result.total_g);
  hold_targets (c, choice, &problem, "lowered after an overshoot");
  return cost <= TG_REVIEW_TINY_G;
}

/* Where the band may begin once it is wide: a held target gives way to parts that their readings cannot
 * tell from it, the more the wider the band. */
static double
lowest_edge (const Case *c, guint row, double target_g)
{
  double edge_g = target_g;

  for (guint j = 0; j < c->set.n; j++)
    {
      TgWeight sum = tg_review_row_sum (c->review, tg_review_part (c->review, c->set.index[j]),
                                        row);

      if (sum.basis == TG_WEIGHT_READ && target_g - sum.mean_g <= 2 * sum.u_g)
        edge_g = MIN (edge_g, sum.mean_g);
    }
  return edge_g;
}

/* Tolerances that the spread needs if part i stays as it is, too light at one end or too heavy at the
 * other, and the others keep their plan. What is foretold and not read gets half a step. */
static void
widen_tolerances (const Case *c, guint i, TgTargetProblem *problem)
{
  for (guint row = 0; row < c->n_rows; row++)
    {
      const TgRemovalPlan *plan = &tg_review_part (c->review, c->set.index[i])->plan;
      double heaviest = plan->after_g[row];

      if (fabs (plan->violation_g[row]) <= TG_REVIEW_TINY_G)
        continue;
      if (fabs (heaviest - c->set.parts[i].weight_g[row]) > TG_REVIEW_TINY_G)
        heaviest += problem->step_g / 2;
      for (guint j = 0; j < c->set.n; j++)
        heaviest = MAX (heaviest, tg_review_part (c->review, c->set.index[j])->plan.after_g[row]);
      heaviest -= lowest_edge (c, row, problem->target_g[row]);
      problem->tolerance_g[row] = MAX (problem->tolerance_g[row],
                                       step_up (heaviest, problem->step_g));
    }
}

/* The part stays as it is, the others keep their plan, the spread grows. */
static void
offer_wider (Case *c, TgDecision *decision, guint i)
{
  TgTargetProblem problem = c->set.problem;
  const TgPartReview *part = tg_review_part (c->review, c->set.index[i]);
  g_autofree char *spread = NULL;
  TgChoice *choice;

  lower_targets (c, i, &problem);
  widen_tolerances (c, i, &problem);
  if (!can_be_decided (c, &problem))
    return;
  choice = add_choice (c, decision, NULL, NULL, c->today_g);
  for (guint row = 0; row < c->n_rows; row++)
    {
      g_autofree char *grams = NULL;
      char *old = spread;

      if (fabs (part->plan.violation_g[row]) <= TG_REVIEW_TINY_G)
        continue;
      grams = tg_review_grams (c->review, problem.tolerance_g[row]);
      spread = g_strdup_printf ("%s%s%s differ by %s g", old ? old : "", old ? " and the " : "",
                                row_band_label (c, row), grams);
      g_free (old);
      add_set (choice, tolerance_path (row_band (c, row)),
               tg_mass_format_exact (tg_mass_from_g (problem.tolerance_g[row])),
               "accepted after an overshoot");
    }
  choice->title = g_strdup_printf ("Accept %s: let the %s", part->part->name, spread);
  choice->detail = g_strdup ("The others keep their plan. The wider tolerance holds for the "
                             "whole set; see that the maker’s manual allows it.");
  hold_targets (c, choice, &problem, "accepted after an overshoot");
}

static void
offer_anew (Case *c, TgDecision *decision)
{
  TgTargetProblem problem = c->set.problem;
  TgTargetPlan result;
  TgChoice *choice;
  gboolean any = FALSE;

  for (guint row = 0; row < c->n_rows; row++)
    {
      any |= problem.fixed[row];
      problem.fixed[row] = FALSE;
    }
  if (!any || !try_problem (&problem, &result))
    return;
  for (guint i = 0; i < decision->choices->len; i++)
    {
      const TgChoice *other = g_ptr_array_index (decision->choices, i);

      if (other->extra && other->cost_g <= MAX (0, result.total_g - c->today_g) + TG_REVIEW_TINY_G)
        return;
    }
  choice = add_choice (c, decision, g_strdup ("Choose the targets anew"),
                       g_strdup ("The program looks for the targets that cost the least metal from "
                                 "where the set is now."),
                       result.total_g);
  add_automatic (choice, c, "chosen anew");
}

static int
cheapest_first (gconstpointer a, gconstpointer b)
{
  const TgChoice *x = *(TgChoice *const *) a, *y = *(TgChoice *const *) b;

  if (x->extra != y->extra)
    return x->extra ? -1 : 1;
  return x->cost_g < y->cost_g ? -1 : x->cost_g > y->cost_g;
}

static TgDecision *
add_decision (Case *c, TgFindingCode code, guint index, guint row, char *title, char *text)
{
  TgDecision *decision = g_new0 (TgDecision, 1);

  decision->code = code;
  decision->part = (int) index;
  decision->row = row;
  decision->band = row_band (c, row);
  decision->title = title;
  decision->text = text;
  decision->choices = tg_choices_new ();
  g_ptr_array_add (c->review->decisions, decision);
  return decision;
}

/* The row that is furthest below its band. */
static guint
lightest_row (const Case *c, const TgPartReview *part)
{
  return c->n_rows > 1 && part->plan.violation_g[1] < part->plan.violation_g[0];
}

static guint
worst_row (const Case *c, const TgPartReview *part)
{
  return c->n_rows > 1 && fabs (part->plan.violation_g[1]) > fabs (part->plan.violation_g[0]);
}

static char *
too_light_text (const Case *c, guint i, guint row)
{
  const TgPartReview *part = tg_review_part (c->review, c->set.index[i]);
  double now_g = c->set.parts[i].weight_g[row], after_g = part->plan.after_g[row];
  g_autofree char *now = tg_review_grams (c->review, now_g);
  g_autofree char *after = tg_review_grams (c->review, after_g);
  g_autofree char *target = tg_review_grams (c->review, c->set.problem.target_g[row]);
  gboolean same = fabs (now_g - after_g) < TG_REVIEW_TINY_G;

  return g_strdup_printf (
      "Its %s is %s g%s%s%s; the target is %s g. Metal does not come back, so this is yours to "
      "decide. The decision can be struck out again like every entry.",
      tg_review_row_label (c->review, c->kind, row), now, same ? "" : ", and ", same ? "" : after,
      same ? "" : " g after what still comes off", target);
}

static void
decide_too_light (Case *c, guint i)
{
  guint index = c->set.index[i];
  const TgPartReview *part = tg_review_part (c->review, index);
  guint row = lightest_row (c, part);
  g_autofree char *short_of = tg_review_grams (c->review, -part->plan.violation_g[row]);
  TgDecision *decision;

  decision = add_decision (c, TG_FINDING_TOO_LIGHT, index, row,
                           g_strdup_printf ("%s is %s g too light", part->part->name, short_of),
                           too_light_text (c, i, row));
  if (!offer_lower (c, decision, i))
    offer_wider (c, decision, i);
  offer_anew (c, decision);
  offer_replacement (c, decision, index);
  g_ptr_array_sort (decision->choices, cheapest_first);
}

static void
offer_tolerance (Case *c, TgDecision *decision)
{
  for (guint row = 0; row < c->n_rows; row++)
    {
      TgBand band = row_band (c, row);
      TgTargetProblem problem = c->set.problem;
      double least = tg_target_plan_least_tolerance_g (&problem, row);
      TgTargetPlan result;
      g_autofree char *grams = NULL;
      TgChoice *choice;

      if (least < 0)
        continue;
      problem.tolerance_g[row] = step_up (least, problem.step_g);
      if (!can_be_decided (c, &problem) || !try_problem (&problem, &result))
        continue;
      grams = tg_review_grams (c->review, problem.tolerance_g[row]);
      choice = add_choice (
          c, decision,
          g_strdup_printf ("Let the %s differ by %s g",
                           tg_setup_band_label (c->review->setup, band), grams),
          g_strdup ("The narrowest tolerance that can be reached with the zones as they are; see "
                    "that the maker’s manual allows it."),
          result.total_g);
      add_set (choice, tolerance_path (band),
               tg_mass_format_exact (tg_mass_from_g (problem.tolerance_g[row])), "out of reach");
    }
}

/* Heaviest minus lightest of a row, as the parts are now, in whole steps. */
static double
row_spread (const Case *c, guint row)
{
  double least = INFINITY, most = -INFINITY;

  for (guint i = 0; i < c->set.n; i++)
    {
      least = MIN (least, c->set.parts[i].weight_g[row]);
      most = MAX (most, c->set.parts[i].weight_g[row]);
    }
  return step_up (most - least, c->set.problem.step_g);
}

/* Where no row's tolerance alone does it: all of them, one after the other made as narrow as the
 * others allow.  With the spreads as they are now and free targets nothing has to come off, so there
 * is always such a way. */
static void
offer_tolerances (Case *c, TgDecision *decision)
{
  TgTargetProblem problem = c->set.problem;
  TgTargetPlan result;
  gboolean anew = FALSE;
  GString *title = g_string_new ("Let the ");
  TgChoice *choice;

  for (guint row = 0; row < c->n_rows; row++)
    problem.tolerance_g[row] = MAX (problem.tolerance_g[row], row_spread (c, row));
  if (!try_problem (&problem, &result))
    {
      anew = TRUE;
      for (guint row = 0; row < c->n_rows; row++)
        problem.fixed[row] = FALSE;
    }
  for (guint row = 0; row < c->n_rows; row++)
    {
      TgTargetProblem narrow = problem;
      double least;

      narrow.tolerance_g[row] = c->set.problem.tolerance_g[row];
      least = tg_target_plan_least_tolerance_g (&narrow, row);
      if (least >= 0)
        problem.tolerance_g[row] = step_up (least, problem.step_g);
    }
  if (!can_be_decided (c, &problem) || !try_problem (&problem, &result))
    {
      g_string_free (title, TRUE);
      return;
    }
  choice = add_choice (c, decision, NULL,
                       g_strdup ("No one tolerance is enough here. Together these are as narrow as "
                                 "the zones allow; see that the maker’s manual allows them."),
                       result.total_g);
  for (guint row = 0; row < c->n_rows; row++)
    {
      TgBand band = row_band (c, row);
      g_autofree char *grams = tg_review_grams (c->review, problem.tolerance_g[row]);

      g_string_append_printf (title, "%s%s differ by %s g", row ? " and the " : "",
                              tg_setup_band_label (c->review->setup, band), grams);
      add_set (choice, tolerance_path (band),
               tg_mass_format_exact (tg_mass_from_g (problem.tolerance_g[row])), "out of reach");
    }
  choice->title = g_string_free (title, FALSE);
  if (anew)
    add_automatic (choice, c, "chosen anew");
}

static void
offer_zones (Case *c, TgDecision *decision, const TgPartReview *part)
{
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZone *zone = tg_part_review_zone (part, z)->zone;
      g_autofree TgReviewSet *set = NULL;
      g_autofree char *path = NULL;
      TgTargetPlan result;
      TgChoice *choice;

      if (zone->standing == TG_STANDING_NEVER || tg_zone_usable (zone))
        continue;
      set = g_new (TgReviewSet, 1);
      tg_review_set_init (set, c->review, c->kind, zone, -1);
      if (!try_problem (&set->problem, &result))
        continue;
      path = g_strdup_printf ("%s.%s.use", part->design->id, zone->id);
      choice = add_choice (c, decision, g_strdup_printf ("Allow the %s", zone->name),
                           g_strdup (zone->reason[0] ? zone->reason : "It was left alone so far."),
                           result.total_g);
      add_set (choice, path, g_strdup ("yes"), "opted in");
    }
}

static void
offer_thaw (const Case *c, TgDecision *decision, const TgPartReview *part)
{
  TgEvent event = tg_event_blank (TG_EVENT_FREEZE);
  TgChoice *choice;

  if (!part->frozen)
    return;
  choice = add_choice (c, decision, g_strdup_printf ("Let %s be ground", part->part->name),
                       g_strdup ("It was left as it is so far; its own zones may give what is "
                                 "missing."),
                       c->today_g);
  choice->extra = FALSE;
  event.part = part->part->id;
  add_plain (choice, event, "may be ground again");
}

static void
offer_odd_one_out (Case *c, TgDecision *decision, guint index)
{
  g_autofree TgReviewSet *set = g_new (TgReviewSet, 1);
  TgTargetPlan result;

  tg_review_set_init (set, c->review, c->kind, NULL, (int) index);
  if (try_problem (&set->problem, &result))
    offer_replacement (c, decision, index);
}

static void
decide_out_of_reach (Case *c, guint i)
{
  guint index = c->set.index[i];
  const TgPartReview *part = tg_review_part (c->review, index);
  guint row = worst_row (c, part);
  double violation = part->plan.violation_g[row];
  g_autofree char *grams = tg_review_grams (c->review, fabs (violation));
  g_autofree char *after = tg_review_grams (c->review, part->plan.after_g[row]);
  const char *figure = tg_review_row_label (c->review, c->kind, row);
  TgDecision *decision;

  decision = add_decision (
      c, TG_FINDING_OUT_OF_REACH, index, row,
      g_strdup_printf ("%s cannot be brought to the others", part->part->name),
      g_strdup_printf ("The nearest that its zones allow is a %s of %s g, %s g too %s.", figure,
                       after, grams, violation > 0 ? "heavy" : "light"));
  offer_tolerance (c, decision);
  offer_zones (c, decision, part);
  offer_thaw (c, decision, part);
  if (c->set.lender[i] >= 0)
    {
      offer_zones (c, decision, tg_review_part (c->review, (guint) c->set.lender[i]));
      offer_thaw (c, decision, tg_review_part (c->review, (guint) c->set.lender[i]));
    }
  offer_anew (c, decision);
  offer_odd_one_out (c, decision, index);
  if (decision->choices->len == 0)
    offer_tolerances (c, decision);
  g_ptr_array_sort (decision->choices, cheapest_first);
}

static void
decide_kind (TgReview *review, TgPartKind kind)
{
  g_autofree Case *c = NULL;
  gboolean decided = TRUE;
  int worst = -1;
  double most = 0;

  if (review->feasible[kind] || tg_review_planned_rows (review, kind) == 0)
    return;
  c = g_new0 (Case, 1);
  c->review = review;
  c->kind = kind;
  c->n_rows = tg_review_planned_rows (review, kind);
  tg_review_set_init (&c->set, review, kind, NULL, -1);
  for (guint row = 0; row < c->n_rows; row++)
    decided &= c->set.problem.fixed[row];
  for (guint i = 0; i < c->set.n; i++)
    {
      c->today_g += tg_review_part (review, c->set.index[i])->to_come_off_g;
      if (c->set.lender[i] >= 0)
        c->today_g += tg_review_part (review, (guint) c->set.lender[i])->to_come_off_g;
    }
  for (guint i = 0; i < c->set.n; i++)
    {
      const TgPartReview *part = tg_review_part (review, c->set.index[i]);
      double size = 0;

      for (guint row = 0; row < c->n_rows; row++)
        size += fabs (part->plan.violation_g[row]);
      if (decided && part->state == TG_STATE_TOO_LIGHT)
        decide_too_light (c, i);
      else if ((part->state == TG_STATE_OUT_OF_REACH || part->state == TG_STATE_TOO_LIGHT) &&
               size > most)
        {
          most = size;
          worst = (int) i;
        }
    }
  if (worst >= 0)
    decide_out_of_reach (c, (guint) worst);
}

void
tg_review_decide (TgReview *review)
{
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    decide_kind (review, kind);
}
