/* review-reason-plan.c: why a plan cannot be met, and what the ways out cost, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: the figures are those of the plan (review-plan.c) and of the ways out (review-decisions.c).
 */
#include <math.h>

#include "number.h"
#include "reason.h"
#include "review-private.h"
#include "review-reason.h"

void
tg_reason_add_missed (const TgReview *review, GPtrArray *why, guint index, guint row)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgPartKind kind = part->design->kind;
  const TgBandReview *band = &review->bands[tg_review_row_band (review, kind, row)];
  gboolean light = part->plan.violation_g[row] < 0;
  double edge_g = light ? band->target_g : band->target_g + band->tolerance_g;
  double left_g = tg_review_capacity_g (part, tg_review_row_figure (kind, row));

  tg_review_why_row (review, why, part, row);
  tg_reason_add_grams (review, why, "by the nearest plan", part->plan.after_g[row],
                       "the plan that misses the bands by the least");
  tg_terms_add (why, light ? "below the band" : "above the band",
                light ? tg_reason_difference (edge_g, part->plan.after_g[row], "g",
                                              tg_reason_decimals (review))
                      : tg_reason_difference (part->plan.after_g[row], edge_g, "g",
                                              tg_reason_decimals (review)),
                light ? "lower edge less the weight" : "the weight less the upper edge");
  if (!light)
    tg_reason_add_grams (review, why, "zones can still take", left_g,
                         "off this figure, those that may be used, to their limits");
}

/* -- findings --------------------------------------------------------------------------------- */

static void
why_fine (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, (guint) finding->part);
  g_autofree char *step = tg_mass_format_exact (review->setup->resolution);

  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    tg_review_why_row (review, why, part, row);
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      g_autofree char *label = g_strdup_printf ("off the %s", zone->zone->name);

      if (zone->amount_g > 0)
        tg_reason_add (why, label, zone->amount_g, 3, "without rounding to whole steps");
    }
  tg_terms_add (why, "step of the scale", g_strdup_printf ("%s g", step), "");
  tg_reason_close (why, TG_REASON_FINE);
}

static void
why_tolerance (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  g_autofree char *label = g_strdup_printf ("tolerance of the %s",
                                            tg_setup_band_label (review->setup, finding->band));
  g_autofree char *tolerance = tg_mass_format_exact (tg_mass_from_g (finding->held.of));
  g_autofree char *step = tg_mass_format_exact (review->setup->resolution);
  g_autofree char *two = tg_mass_format_exact (2 * review->setup->resolution);

  tg_terms_add (why, label, g_strdup_printf ("%s g", tolerance), "");
  tg_terms_add (why, "two steps", g_strdup_printf ("2 × %s = %s g", step, two), "");
  tg_terms_add (why, "short of them by",
                tg_reason_difference (finding->held.against, finding->held.of, "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_close (why, TG_REASON_TOLERANCE);
}

static void
why_over_capacity (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, (guint) finding->part);

  tg_review_why_weight (review, why, part, finding->figure);
  tg_reason_add_grams (review, why, "capacity", finding->held.against, "of the scale, as set up");
  tg_terms_add (why, "over it by",
                tg_reason_difference (finding->held.of, finding->held.against, "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_close (why, TG_REASON_OVER_CAPACITY);
}

static void
why_zone_never (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, (guint) finding->part);
  const TgZoneReview *zone = tg_part_review_zone (part, finding->zone);
  g_autofree char *passes = g_strdup_printf ("in %u pass%s", zone->passes,
                                             zone->passes == 1 ? "" : "es");
  g_autofree char *label = g_strdup_printf ("taken off the %s", zone->zone->name);

  tg_reason_add_grams (review, why, label, zone->taken_g, passes);
  tg_terms_add (why, "may give", g_strdup ("0 g"), zone->zone->reason);
  tg_reason_close (why, TG_REASON_ZONE_NEVER);
}

static void
why_zone_exceeded (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, (guint) finding->part);
  const TgZoneReview *zone = tg_part_review_zone (part, finding->zone);
  guint sides = tg_place_is_pair (zone->zone->place) ? 2 : 1;
  g_autofree char *area = tg_number_format_short (zone->zone->area_mm2);
  g_autofree char *depth = tg_number_format_short (zone->zone->depth_mm);
  g_autofree char *density = tg_number_format (part->design->density, 2);
  g_autofree char *label = g_strdup_printf ("taken off the %s", zone->zone->name);
  g_autofree char *sum = g_strdup_printf ("%s%s mm² × %s mm × %s g/cm³", sides == 2 ? "2 × " : "",
                                          area, depth, density);
  g_autofree char *passes = g_strdup_printf ("in %u pass%s, as readings have shown", zone->passes,
                                             zone->passes == 1 ? "" : "es");

  tg_reason_add_grams (review, why, label, finding->held.of, passes);
  tg_reason_add_grams (review, why, "may give", finding->held.against, sum);
  tg_terms_add (why, "more by",
                tg_reason_difference (finding->held.of, finding->held.against, "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_add_held (why, &finding->held, "g", "of one reading on the stand");
  tg_reason_close (why, TG_REASON_ZONE_EXCEEDED);
}

void
tg_reason_of_plan (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  switch (finding->code)
    {
    case TG_FINDING_FINE:
      why_fine (review, why, finding);
      break;
    case TG_FINDING_TOLERANCE:
      why_tolerance (review, why, finding);
      break;
    case TG_FINDING_OVER_CAPACITY:
      why_over_capacity (review, why, finding);
      break;
    case TG_FINDING_ZONE_NEVER:
      why_zone_never (review, why, finding);
      break;
    case TG_FINDING_ZONE_EXCEEDED:
      why_zone_exceeded (review, why, finding);
      break;
    case TG_FINDING_TOO_LIGHT:
    case TG_FINDING_OUT_OF_REACH:
      tg_reason_add_missed (review, why, (guint) finding->part, finding->row);
      tg_reason_close (why, finding->code == TG_FINDING_TOO_LIGHT ? TG_REASON_TOO_LIGHT
                                                                  : TG_REASON_OUT_OF_REACH);
      break;
    case TG_FINDING_TURN:
    case TG_FINDING_CLOSURE:
    case TG_FINDING_KEPT:
    case TG_FINDING_OUTLIER:
    case TG_FINDING_ZERO:
    case TG_FINDING_CHECK_WEIGHT:
    case TG_FINDING_LEVER:
    default:
      break;
    }
}

/* -- decisions -------------------------------------------------------------------------------- */

GPtrArray *
tg_review_why_decision (const TgReview *review, const TgDecision *decision)
{
  GPtrArray *why = tg_terms_new ();

  g_return_val_if_fail (review != NULL && decision != NULL && decision->part >= 0, why);

  tg_reason_add_missed (review, why, (guint) decision->part, decision->row);
  tg_reason_close (why, decision->code == TG_FINDING_TOO_LIGHT ? TG_REASON_TOO_LIGHT
                                                               : TG_REASON_OUT_OF_REACH);
  return why;
}

GPtrArray *
tg_review_why_choice (const TgReview *review, const TgChoice *choice)
{
  GPtrArray *why;

  g_return_val_if_fail (review != NULL && choice != NULL, tg_terms_new ());

  if (choice->why)
    return g_ptr_array_ref (choice->why);
  why = tg_terms_new ();
  tg_reason_add_grams (review, why, "by today’s plan", choice->today_g,
                       "still to come off the whole set");
  if (choice->extra)
    {
      tg_reason_add_grams (review, why, "this way", choice->then_g,
                           "would have to come off the whole set");
      tg_terms_add (
          why, "costs",
          tg_reason_difference (choice->then_g, choice->today_g, "g", tg_reason_decimals (review)),
          choice->then_g < choice->today_g ? "less metal: nothing is lost by it" : "");
    }
  tg_reason_close (why, choice->extra ? TG_REASON_CHOICE : TG_REASON_CHOICE_PIECE);
  return why;
}
