/* review-why.c: how a figure comes about, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: every figure is one that the review has worked out.
 */
#include <math.h>

#include "number.h"
#include "reason.h"
#include "review-private.h"

/* Where the doubt about one figure comes from. */
static char *
known_from (const TgReview *review, const TgWeight *weight, TgFigure figure)
{
  const TgScaleReview *scale = &review->scale;
  const TgRepeatability *repeat =
      &scale->repeatability[figure == TG_FIGURE_WHOLE ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND];
  guint n = weight->n[TG_WAY_ANY] + weight->n[TG_WAY_MARK_UP] + weight->n[TG_WAY_MARK_DOWN];
  g_autofree char *deviation = tg_number_format (repeat->deviation_g, 3);
  g_autofree char *step = tg_number_format (repeat->rounding_u_g, 3);
  GString *from = g_string_new (NULL);

  if (weight->basis == TG_WEIGHT_ESTIMATED)
    {
      g_string_append (from, "at 95 %: what the last reading left open, and what a pass may take");
      return g_string_free (from, FALSE);
    }
  g_string_append_printf (from, "at 95 %%: %u reading%s, of which one scatters by %s g (%s)", n,
                          n == 1 ? "" : "s", deviation,
                          repeat->assumed ? "half a step, until readings are repeated"
                                          : "as repeats have shown");
  if (repeat->rounding_u_g > repeat->deviation_g / 10)
    g_string_append_printf (from, "; rounding to the step leaves %s g", step);
  g_string_append (from, scale->last_zero < 0 ? "; the zero was never checked and is not in it"
                                              : "; the zero between its checks is in it");
  if (scale->wander_g > 0)
    g_string_append (from, ", and how the check weight comes and goes");
  return g_string_free (from, FALSE);
}

static void
why_known (const TgReview *review, GPtrArray *why, const TgPartReview *part, TgFigure figure)
{
  const TgWeight *weight = &part->weight[figure];
  g_autofree char *around = tg_review_plus_minus (review, weight->expanded_g);
  g_autofree char *label = g_strdup_printf ("%s known to",
                                            tg_figure_label (part->design->kind, figure));
  g_autofree char *from = NULL;

  if (weight->basis == TG_WEIGHT_NONE)
    return;
  from = known_from (review, weight, figure);
  tg_terms_add (why, label, g_strdup_printf ("%s g", around), from);
}

void
tg_review_why_weight (const TgReview *review,
                      GPtrArray *why,
                      const TgPartReview *part,
                      TgFigure figure)
{
  const TgWeight *weight = &part->weight[figure];
  const char *label = tg_figure_label (part->design->kind, figure);
  g_autofree char *now = g_strdup_printf ("%s now", label);
  g_autofree char *mean = tg_review_grams (review, weight->mean_g);
  g_autofree char *remark = NULL;

  if (weight->basis == TG_WEIGHT_ESTIMATED)
    remark = g_strdup ("reckoned: metal came off since it was read");
  else if (weight->n[TG_WAY_MARK_UP] > 0 && weight->n[TG_WAY_MARK_DOWN] > 0)
    {
      g_autofree char *up = tg_review_grams (review, weight->way_g[TG_WAY_MARK_UP]);
      g_autofree char *down = tg_review_grams (review, weight->way_g[TG_WAY_MARK_DOWN]);

      remark = g_strdup_printf ("mean of mark up %s and mark down %s", up, down);
    }
  else if (weight->n[TG_WAY_ANY] == 0 && weight->has_turn)
    remark = g_strdup ("one way up, corrected by half of what the two ways differed last");
  else
    remark = g_strdup (weight->n[TG_WAY_ANY] > 1 ? "mean of its readings" : "as read");
  tg_terms_add (why, now, g_strdup_printf ("%s g", mean), remark);
  why_known (review, why, part, figure);
}

void
tg_review_why_verdict (GPtrArray *why, const TgWeight *weight)
{
  g_autofree char *chance = tg_review_percent (weight->probability);

  if (weight->judged && weight->verdict != TG_UNCERTAINTY_OUT)
    tg_terms_add (why, "inside its band", g_strdup_printf ("%s %%", chance),
                  weight->verdict == TG_UNCERTAINTY_IN
                      ? "the chance of it: proven, as it is 95 % or more"
                      : "the chance of it: not proven, as it is less than 95 %");
}

/* What is weighed against the band together with the figure. */
static void
why_carried (const TgReview *review, GPtrArray *why, const TgPartReview *part, guint row)
{
  TgWeight sum = tg_review_row_sum (review, part, row);
  double own_g = part->weight[tg_review_row_figure (part->design->kind, row)].mean_g;
  double planned_g = tg_review_row_planned_g (review, part, row);
  g_autofree char *with = tg_review_grams (review, sum.mean_g - own_g);
  g_autofree char *together = tg_review_grams (review, sum.mean_g);
  g_autofree char *planned = tg_review_grams (review, planned_g);
  g_autofree char *words = tg_review_row_words (review, part, row);
  const char *label = tg_review_row_label (review, part->design->kind, row);

  if (words[0] == '\0' || sum.basis == TG_WEIGHT_NONE)
    return;
  tg_terms_add (why, "goes with it", g_strdup_printf ("%s g", with), words);
  tg_terms_add (why, label, g_strdup_printf ("%s g", together), "together, as it is now");
  if (fabs (planned_g - sum.mean_g) > TG_REVIEW_TINY_G)
    tg_terms_add (why, label, g_strdup_printf ("%s g", planned),
                  "when the small end has come to its plan");
}

void
tg_review_why_row (const TgReview *review, GPtrArray *why, const TgPartReview *part, guint row)
{
  TgFigure figure = tg_review_row_figure (part->design->kind, row);
  const TgBandReview *band;
  TgBand b;
  g_autofree char *label = NULL;
  g_autofree char *lo = NULL;
  g_autofree char *hi = NULL;
  g_autofree char *tolerance = NULL;
  g_autofree char *remark = NULL;

  /* the second row of a piston is the same figure again */
  if (part->design->kind == TG_PART_ROD || row == 0)
    tg_review_why_weight (review, why, part, figure);
  if (!part->in_work)
    return;
  b = tg_review_row_band (review, part->design->kind, row);
  band = &review->bands[b];
  if (!band->known)
    return;
  why_carried (review, why, part, row);
  label = g_strdup_printf ("band of the %s", tg_setup_band_label (review->setup, b));
  lo = tg_review_grams (review, band->target_g);
  hi = tg_review_grams (review, band->target_g + band->tolerance_g);
  tolerance = tg_review_grams (review, band->tolerance_g);
  remark = g_strdup_printf ("target%s, and target + tolerance %s g",
                            band->decided ? " as decided" : " with the least metal over the set",
                            tolerance);
  tg_terms_add (why, label, g_strdup_printf ("%s to %s g", lo, hi), remark);
  tg_review_why_verdict (why, &part->weight[figure]);
}

/* One zone of the plan: what its grams do to the figures, lever arms included. */
static void
why_amount (const TgReview *review, GPtrArray *why, const TgPartReview *part, guint z)
{
  const TgZoneReview *zone = tg_part_review_zone (part, z);
  g_autofree char *label = g_strdup_printf ("off the %s", zone->zone->name);
  g_autofree char *grams = tg_review_grams (review, zone->amount_g);
  g_autofree char *remark = NULL;

  if (part->design->kind == TG_PART_ROD)
    {
      double length = part->design->rod.centres;
      double small = tg_review_effect (part, TG_FIGURE_SMALL_END, z);
      double big = tg_review_effect (part, TG_FIGURE_BIG_END, z);

      g_autofree char *arm = tg_number_format (zone->lever.lever * length, 1);
      g_autofree char *whole = tg_number_format (length, 1);
      g_autofree char *at_small = tg_number_format_signed (-small * zone->amount_g, 2);
      g_autofree char *at_big = tg_number_format_signed (-big * zone->amount_g, 2);

      remark = g_strdup_printf (
          "lever arm %s mm of %s mm from the big end%s: small end %s g, big end %s g", arm, whole,
          zone->lever.freedom > 0 ? ", as passes have shown" : "", at_small, at_big);
    }
  else
    remark = g_strdup (tg_place_is_pair (zone->zone->place) ? "half on each side" : "");
  tg_terms_add (why, label, g_strdup_printf ("%s g", grams), remark);
}

static void
why_after (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    {
      g_autofree char *label = g_strdup_printf (
          "%s then", tg_review_row_label (review, part->design->kind, row));
      g_autofree char *grams = tg_number_format (part->plan.after_g[row], 2);

      tg_terms_add (why, label, g_strdup_printf ("%s g", grams),
                    part->plan.violation_g[row] == 0 ? "inside its band" : "as near as it comes");
    }
}

static void
why_depth (GPtrArray *why, const TgPartReview *part, const TgZoneReview *zone)
{
  guint sides = tg_place_is_pair (zone->zone->place) ? 2 : 1;
  g_autofree char *grams = tg_number_format (zone->amount_g, 2);
  g_autofree char *area = tg_number_format (zone->zone->area_mm2, 0);
  g_autofree char *density = tg_number_format (part->design->density, 2);
  g_autofree char *depth = tg_number_format (zone->depth_mm, 2);
  g_autofree char *remark = NULL;

  if (zone->depth_mm <= 0)
    return;
  remark = g_strdup_printf ("%s g / (%s%s mm² × %s g/cm³)", grams, sides == 2 ? "2 × " : "", area,
                            density);
  tg_terms_add (why, sides == 2 ? "depth on each side" : "depth", g_strdup_printf ("%s mm", depth),
                remark);
}

void
tg_review_why_amounts (const TgReview *review, GPtrArray *why, guint index, guint z)
{
  const TgPartReview *part = tg_review_part (review, index);
  const TgZoneReview *zone = tg_part_review_zone (part, z);

  if (zone->zone->standing != TG_STANDING_FREE)
    tg_terms_add (why, zone->zone->standing == TG_STANDING_NEVER ? "never here" : "with care",
                  g_strdup (""), zone->zone->reason);
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    {
      TgFigure figure = tg_review_row_figure (part->design->kind, row);

      if (part->weight[figure].basis == TG_WEIGHT_NONE)
        return;
      tg_review_why_row (review, why, part, row);
    }
  for (guint other = 0; other < part->zones->len; other++)
    if (tg_part_review_zone (part, other)->amount_g > 0)
      why_amount (review, why, part, other);
  if (part->to_come_off_g > 0)
    why_after (review, why, part);
  why_depth (why, part, zone);
  if (part->plan.status == TG_PLAN_READY && part->to_come_off_g > 0)
    {
      g_autofree char *step = tg_mass_format_exact (review->setup->resolution);

      tg_terms_add (why, "steps of the scale", g_strdup_printf ("%s g", step),
                    "amounts come in whole steps and were checked again after rounding");
    }
}

GPtrArray *
tg_review_why_zone (const TgReview *review, guint part, guint zone)
{
  GPtrArray *why = tg_terms_new ();

  tg_review_why_amounts (review, why, part, zone);
  tg_reason_close (why, TG_REASON_ZONE);
  return why;
}

/* What a pass takes, and how sure it is not to take too much. */
void
tg_review_why_pass (const TgReview *review, const TgNext *next)
{
  const TgPartReview *part = tg_review_part (review, next->slot.part);
  TgTool tool = review->tool[part->design->metal];
  guint n;
  TgLeverLearningMethod method = tg_review_method (review, tool, part->design->metal, next->effort,
                                                   &n);
  double ratio = tg_lever_learning_ratio (&method, TG_REVIEW_LEVEL, NULL, NULL);
  const char *unit = next->effort == TG_EFFORT_STROKES   ? "g a stroke"
                     : next->effort == TG_EFFORT_SECONDS ? "g a second"
                                                         : "of what is wanted";
  g_autofree char *takes = tg_number_format (ratio, ratio < 0.1 ? 3 : 2);
  g_autofree char *scatter = tg_number_format (100 * method.scatter, 0);
  g_autofree char *chance = tg_number_format_short (review->setup->overshoot_percent);
  g_autofree char *learned =
      n > 0
          ? g_strdup_printf ("%s, from %u pass%s, give or take %s %%", tg_tool_label (tool), n,
                             n == 1 ? "" : "es", scatter)
          : g_strdup_printf ("no pass has been weighed yet; give or take %s %% is taken", scatter);
  g_autofree char *pass = tg_review_grams (review, next->pass_g);

  tg_terms_add (next->why, "a pass takes", g_strdup_printf ("%s %s", takes, unit), learned);
  tg_terms_add (next->why, "this pass", g_strdup_printf ("%s g", pass),
                "the chance of taking too much stays below the setting");
  tg_terms_add (next->why, "chance of an overshoot", g_strdup_printf ("%s %%", chance),
                "as set for this job");
}
