/* report.c: a review in words, see report.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "report.h"

#include <math.h>
#include <string.h>

#include "csv.h"
#include "review-private.h"
#include "number.h"

/* -- text -------------------------------------------------------------------------------------- */

static void
add_findings (GString *out, const TgReview *review)
{
  static const char *const marks[] = { "note", "doubt", "problem" };

  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      g_string_append_printf (out, "  %s: %s%s%s\n", marks[finding->severity], finding->text,
                              finding->advice[0] ? " " : "", finding->advice);
    }
}

static void
add_bands (GString *out, const TgReview *review)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      const TgBandReview *band = &review->bands[b];
      g_autofree char *tolerance = tg_review_grams (review, band->tolerance_g);
      g_autofree char *spread = tg_review_grams (review, band->spread_g);
      g_autofree char *target = tg_review_grams (review, band->target_g);
      g_autofree char *top = tg_review_grams (review, band->target_g + band->tolerance_g);

      if (!band->present)
        continue;
      g_string_append_printf (out, "%s: %u of %u weighed, spread %s g, tolerance %s g",
                              tg_setup_band_label (review->setup, b), band->n_weighed,
                              band->n_parts, spread, tolerance);
      if (band->known)
        g_string_append_printf (out, ", target %s g (up to %s g, %s), %u inside", target, top,
                                band->decided ? "decided" : "least metal", band->n_in);
      if (band->even)
        g_string_append (out, band->proven ? ", even, proven" : ", even, not proven");
      g_string_append (out, "\n");
    }
}

/* What the readings prove of each band, or will. */
static void
add_proofs (GString *out, const TgReview *review)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      g_autoptr (TgProof) proof = NULL;

      if (!review->bands[b].present)
        continue;
      proof = tg_review_proof (review, b);
      if (proof->text[0])
        g_string_append_printf (out, "  proof: %s\n", proof->text);
    }
}

static void
add_next (GString *out, const TgReview *review)
{
  const TgNext *next = review->next;

  if (review->done)
    g_string_append_printf (out, "next: the set is %s. %s\n", next->large, next->detail);
  else
    g_string_append_printf (out, "next: %s – %s%s%s\n", next->title, next->large,
                            next->kind == TG_NEXT_GRIND ? " " : ". ", next->detail);
  if (next->kind != TG_NEXT_DECIDE)
    return;
  for (guint d = 0; d < review->decisions->len; d++)
    {
      const TgDecision *decision = g_ptr_array_index (review->decisions, d);

      for (guint i = 0; i < decision->choices->len; i++)
        {
          const TgChoice *choice = g_ptr_array_index (decision->choices, i);

          g_string_append_printf (out, "  choice: %s – ", choice->title);
          if (!choice->extra)
            g_string_append (out, "the cost hangs on the piece. ");
          else if (choice->cost_g < TG_REVIEW_TINY_G)
            g_string_append (out, "no more metal comes off. ");
          else
            {
              g_autofree char *cost = tg_number_format (choice->cost_g, 2);

              g_string_append_printf (out, "%s g more over the set. ", cost);
            }
          g_string_append_printf (out, "%s\n", choice->detail);
        }
    }
}

char *
tg_report_check (const TgReview *review)
{
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, "%s: %s\n", review->setup->name, review->standing);
  for (guint i = 0; i < review->days->len; i++)
    {
      const TgDay *day = g_ptr_array_index (review->days, i);
      g_autofree char *removed = tg_number_format (day->removed_g, 2);

      g_string_append_printf (
          out, "  %s: %u weighings, %u passes (%s g), %u decisions, %u struck out\n", day->label,
          day->weighings, day->passes, removed, day->decisions, day->struck);
    }
  add_bands (out, review);
  add_proofs (out, review);
  add_findings (out, review);
  add_next (out, review);
  return g_string_free (out, FALSE);
}

static double
expanded_of (const TgWeight *weight)
{
  const TgUncertainty u = { weight->u_g, weight->freedom };

  return weight->basis == TG_WEIGHT_NONE ? 0 : tg_uncertainty_expanded (u, TG_REVIEW_LEVEL);
}

static void
add_weight (GString *out, const TgReview *review, const TgPartReview *part, TgFigure figure)
{
  const TgWeight *weight = &part->weight[figure];
  g_autofree char *mean = tg_review_grams (review, weight->mean_g);
  g_autofree char *around = tg_review_plus_minus (review, weight->expanded_g);

  if (weight->basis == TG_WEIGHT_NONE)
    g_string_append_printf (out, "  %s –", tg_figure_label (part->design->kind, figure));
  else
    g_string_append_printf (out, "  %s %s%s g %s g", tg_figure_label (part->design->kind, figure),
                            weight->basis == TG_WEIGHT_ESTIMATED ? "about " : "", mean, around);
  if (weight->judged)
    g_string_append_printf (out, " (%s)", tg_weight_verdict_label (weight));
}

/* TRUE if parts can change places, so that a name does not say where one sits. */
static gboolean
parts_move (const TgReview *review)
{
  gboolean move = review->paired >= 0;

  for (guint i = 0; i < review->parts->len; i++)
    move |= tg_review_part (review, i)->part->bore == 0 ||
            !tg_part_kind_has_outline (tg_review_part (review, i)->design->kind);
  return move;
}

static void
add_part (GString *out, const TgReview *review, const TgPartReview *part, gboolean bores)
{
  g_string_append (out, part->part->name);
  if (part->part->bore == 0)
    g_string_append (out, ", spare");
  else if (bores)
    g_string_append_printf (out, ", bore %u", part->part->bore);
  g_string_append (out, part->frozen ? " (left as it is):" : ":");
  if (part->design->kind == TG_PART_ROD)
    {
      add_weight (out, review, part, TG_FIGURE_SMALL_END);
      add_weight (out, review, part, TG_FIGURE_BIG_END);
    }
  else
    add_weight (out, review, part, TG_FIGURE_WHOLE);
  g_string_append_printf (out, "  %s\n", tg_part_review_label (part));
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      g_autofree char *grams = tg_review_grams (review, zone->amount_g);
      g_autofree char *depth = tg_number_format (zone->depth_mm, 2);

      if (zone->amount_g <= 0)
        continue;
      g_string_append_printf (out, "    %s g off the %s", grams, zone->zone->name);
      if (zone->depth_mm > 0)
        g_string_append_printf (out, ", %s mm%s", depth,
                                tg_place_is_pair (zone->zone->place) ? " on each side" : "");
      g_string_append (out, "\n");
    }
}

/* What is weighed together at a bore: a piston, or a rod's big end, and what is carried with it. */
static void
add_sum (GString *out, const TgReview *review, guint index, TgFigure figure)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgWeight sum = tg_review_row_sum (review, part, (guint) tg_part_review_row (part, figure));
  g_autofree char *carried = tg_review_carried_words (review, index, figure);
  g_autofree char *grams = tg_review_grams (review, sum.mean_g);
  g_autofree char *around = tg_review_plus_minus (review, expanded_of (&sum));

  g_string_append_printf (out, "bore %u: %s%s%s%s", part->part->bore, part->part->name,
                          figure == TG_FIGURE_BIG_END ? " (big end)" : "", carried[0] ? ", " : "",
                          carried);
  if (sum.basis == TG_WEIGHT_NONE)
    g_string_append (out, ": not all there, or not all weighed\n");
  else
    g_string_append_printf (out, ": %s%s g %s g\n",
                            sum.basis == TG_WEIGHT_ESTIMATED ? "about " : "", grams, around);
}

static void
add_sums (GString *out, const TgReview *review)
{
  for (guint b = 0; b < review->sets->len; b++)
    {
      const TgSetReview *set = &g_array_index (review->sets, TgSetReview, b);
      int piston = set->part[TG_PART_PISTON], rod = set->part[TG_PART_ROD];

      if (piston >= 0 && tg_review_part (review, (guint) piston)->carried[0].any)
        add_sum (out, review, (guint) piston, TG_FIGURE_WHOLE);
      if (rod >= 0 && tg_review_part (review, (guint) rod)->carried[1].any)
        add_sum (out, review, (guint) rod, TG_FIGURE_BIG_END);
    }
}

/* What a pairing has to keep. */
static void
add_rules (GString *out, const TgReview *review)
{
  for (guint r = 0; r < review->rules->len; r++)
    {
      const TgRuleReview *rule = &g_array_index (review->rules, TgRuleReview, r);
      TgEvent event = tg_event_blank (TG_EVENT_RULE);
      g_autofree char *words = NULL;

      event.rule = rule->rule;
      event.part = tg_setup_part (review->setup, rule->part)->id;
      event.other = tg_setup_part (review->setup, rule->other)->id;
      event.bore = rule->bore;
      event.on = TRUE;
      words = tg_report_event (review, &event);
      g_string_append_printf (out, "rule: %s\n", words);
    }
}

char *
tg_report_plan (const TgReview *review)
{
  GString *out = g_string_new (NULL);
  gboolean bores = parts_move (review);

  g_string_append_printf (out, "%s: %s\n", review->setup->name, review->standing);
  add_bands (out, review);
  add_proofs (out, review);
  g_string_append (out, "± holds the true weight in 95 of 100 cases\n");
  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      g_autofree char *metal = tg_number_format (review->least_metal_g[kind], 2);

      if (!tg_part_kind_has_outline (kind) || !tg_setup_has_kind (review->setup, kind))
        continue;
      if (review->feasible[kind])
        g_string_append_printf (out, "%s: %s g still to come off the set\n",
                                tg_part_kind_plural (kind), metal);
      else
        g_string_append_printf (out, "%s: the set cannot become even like this\n",
                                tg_part_kind_plural (kind));
    }
  add_sums (out, review);
  add_rules (out, review);
  for (guint i = 0; i < review->parts->len; i++)
    add_part (out, review, tg_review_part (review, i), bores);
  add_findings (out, review);
  add_next (out, review);
  return g_string_free (out, FALSE);
}

/* -- CSV --------------------------------------------------------------------------------------- */

static const char *
basis_word (TgWeightBasis basis)
{
  return basis == TG_WEIGHT_NONE ? "none" : basis == TG_WEIGHT_ESTIMATED ? "reckoned" : "read";
}

/* Columns: row name figure state weight_g basis target_g tolerance_g spread_g inside parts grams_g
 * depth_mm at_most_g after_g feasible decided u_g expanded_g probability verdict bore */
#define HEADER                                                                                     \
  "row,name,figure,state,weight_g,basis,target_g,tolerance_g,spread_g,inside,parts,grams_g,"       \
  "depth_mm,at_most_g,after_g,feasible,decided,u_g,expanded_g,probability,verdict,bore\r\n"
#define N_KNOWN 4 /* u_g to verdict */
#define N_BORE 1

static void
csv_if_known (GString *out, gboolean known, double number, guint decimals)
{
  if (known)
    tg_csv_add_number (out, number, decimals);
  else
    tg_csv_add_blank (out, 1);
}

/* How well a figure is known, and whether it is proven to lie in its band. */
static void
csv_known (GString *out, const TgWeight *weight)
{
  if (weight->basis == TG_WEIGHT_NONE)
    {
      tg_csv_add_blank (out, N_KNOWN);
      return;
    }
  tg_csv_add_number (out, weight->u_g, 4);
  tg_csv_add_number (out, weight->expanded_g, 4);
  csv_if_known (out, weight->judged, weight->probability, 4);
  tg_csv_add_field (out, tg_weight_verdict_label (weight));
}

static void
csv_set (GString *out, const TgReview *review, TgPartKind kind)
{
  tg_csv_add_field (out, "set");
  tg_csv_add_field (out, tg_part_kind_to_word (kind));
  tg_csv_add_blank (out, 9);
  tg_csv_add_number (out, review->least_metal_g[kind], 3);
  tg_csv_add_blank (out, 3);
  tg_csv_add_field (out, review->feasible[kind] ? "yes" : "no");
  tg_csv_add_blank (out, 1 + N_KNOWN + N_BORE);
  tg_csv_end_row (out);
}

static void
csv_band (GString *out, const TgReview *review, TgBand b)
{
  const TgBandReview *band = &review->bands[b];

  tg_csv_add_field (out, "band");
  tg_csv_add_field (out, tg_band_to_word (b));
  tg_csv_add_field (out, tg_figure_to_word (tg_band_figure (b)));
  tg_csv_add_field (out, band->even ? "even" : "");
  tg_csv_add_blank (out, 2);
  csv_if_known (out, band->known, band->target_g, 3);
  tg_csv_add_number (out, band->tolerance_g, 3);
  tg_csv_add_number (out, band->spread_g, 3);
  tg_csv_add_count (out, band->n_in);
  tg_csv_add_count (out, band->n_parts);
  tg_csv_add_blank (out, 4);
  tg_csv_add_field (out, review->feasible[tg_band_kind (b)] ? "yes" : "no");
  tg_csv_add_field (out, band->decided ? "yes" : "no");
  tg_csv_add_blank (out, 2);
  csv_if_known (out, band->even, band->probability, 4);
  tg_csv_add_field (out, !band->even ? "" : band->proven ? "proven" : "not proven");
  tg_csv_add_blank (out, N_BORE);
  tg_csv_end_row (out);
}

static void
csv_bore (GString *out, const TgPartReview *part)
{
  if (part->part->bore > 0)
    tg_csv_add_count (out, part->part->bore);
  else
    tg_csv_add_blank (out, 1);
}

static void
csv_part (GString *out, const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);

  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      const TgWeight *weight = &part->weight[f];
      int row = tg_part_review_row (part, f);
      double target_g = tg_review_own_target_g (review, index, f);

      if (weight->basis == TG_WEIGHT_NONE && row < 0)
        continue;
      tg_csv_add_field (out, "part");
      tg_csv_add_field (out, part->part->name);
      tg_csv_add_field (out, tg_figure_to_word (f));
      tg_csv_add_field (out, tg_state_label (part->state));
      if (weight->basis == TG_WEIGHT_NONE)
        tg_csv_add_blank (out, 1);
      else
        tg_csv_add_number (out, weight->mean_g, 3);
      tg_csv_add_field (out, basis_word (weight->basis));
      csv_if_known (out, isfinite (target_g), target_g, 3);
      tg_csv_add_blank (out, 4);
      tg_csv_add_number (out, part->to_come_off_g, 3);
      tg_csv_add_blank (out, 2);
      csv_if_known (out,
                    row >= 0 && part->in_work && part->state != TG_STATE_UNWEIGHED &&
                        part->state != TG_STATE_WAITING,
                    part->plan.after_g[MAX (row, 0)], 3);
      tg_csv_add_field (out, !part->in_work                             ? ""
                             : part->plan.status == TG_PLAN_UNREACHABLE ? "no"
                                                                        : "yes");
      tg_csv_add_field (out, part->frozen ? "left as it is" : "");
      csv_known (out, weight);
      csv_bore (out, part);
      tg_csv_end_row (out);
    }
}

/* A sum that is weighed against a band, if anything is carried with that figure. */
static void
csv_sum (GString *out, const TgReview *review, const TgPartReview *part)
{
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    {
      const TgBandReview *band =
          &review->bands[tg_review_row_band (review, part->design->kind, row)];
      TgFigure figure = tg_review_row_figure (part->design->kind, row);
      TgWeight sum;

      if (!part->carried[row].any)
        continue;
      sum = tg_review_row_sum (review, part, row);
      tg_csv_add_field (out, "sum");
      tg_csv_add_field (out, part->part->name);
      tg_csv_add_field (out, tg_figure_to_word (figure));
      tg_csv_add_blank (out, 1);
      csv_if_known (out, sum.basis != TG_WEIGHT_NONE, sum.mean_g, 3);
      tg_csv_add_field (out, basis_word (sum.basis));
      csv_if_known (out, band->known, band->target_g, 3);
      tg_csv_add_blank (out, 10);
      csv_if_known (out, sum.basis != TG_WEIGHT_NONE, sum.u_g, 4);
      csv_if_known (out, sum.basis != TG_WEIGHT_NONE, expanded_of (&sum), 4);
      tg_csv_add_blank (out, 2);
      csv_bore (out, part);
      tg_csv_end_row (out);
    }
}

static void
csv_zones (GString *out, const TgPartReview *part)
{
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);

      if (!tg_zone_usable (zone->zone))
        continue;
      tg_csv_add_field (out, "zone");
      tg_csv_add_field (out, part->part->name);
      tg_csv_add_field (out, zone->zone->id);
      tg_csv_add_field (out, zone->amount_g > 0 ? "to grind" : zone->passes > 0 ? "finished" : "");
      tg_csv_add_blank (out, 7);
      tg_csv_add_number (out, zone->amount_g, 3);
      tg_csv_add_number (out, zone->depth_mm, 3);
      tg_csv_add_number (out, zone->at_most_g, 3);
      tg_csv_add_blank (out, 3 + N_KNOWN);
      csv_bore (out, part);
      tg_csv_end_row (out);
    }
}

char *
tg_report_plan_csv (const TgReview *review)
{
  GString *out = g_string_new (HEADER);

  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (tg_part_kind_has_outline (kind) && tg_setup_has_kind (review->setup, kind))
      csv_set (out, review, kind);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present)
      csv_band (out, review, b);
  for (guint i = 0; i < review->parts->len; i++)
    csv_part (out, review, i);
  for (guint i = 0; i < review->parts->len; i++)
    csv_sum (out, review, tg_review_part (review, i));
  for (guint i = 0; i < review->parts->len; i++)
    csv_zones (out, tg_review_part (review, i));
  return g_string_free (out, FALSE);
}
