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

static const char *
zone_name (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);
  const TgZone *zone = part ? tg_design_find_zone (part->design, event->zone, NULL) : NULL;

  return zone ? zone->name : event->zone;
}

static const char *
part_name (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);

  return part ? part->name : event->part;
}

static char *
weighing_words (const TgReview *review, const TgEvent *event)
{
  const TgPart *part = tg_setup_find_part (review->setup, event->part, NULL);
  g_autofree char *mass = tg_mass_format (
      event->mass,
      MAX (tg_mass_decimals (event->mass), tg_mass_decimals (review->setup->resolution)));
  gboolean rod = part && part->design->kind == TG_PART_ROD;

  return g_strdup_printf ("%s%s%s%s%s: %s g%s%s", part_name (review, event), rod ? ", " : "",
                          rod ? tg_figure_label (TG_PART_ROD, event->figure) : "",
                          event->way != TG_WAY_ANY ? ", " : "", tg_way_label (event->way), mass,
                          event->kept ? " (asked, and kept)" : "",
                          event->sent ? " (by cable)" : "");
}

static char *
check_words (const TgReview *review, const TgEvent *event)
{
  guint decimals = MAX (tg_mass_decimals (event->mass),
                        tg_mass_decimals (review->setup->resolution));
  g_autofree char *mass = tg_number_format_signed (tg_mass_to_g (event->mass), decimals);
  g_autofree char *shown = tg_mass_format (event->mass, decimals);
  g_autofree char *nominal = tg_mass_format_exact (event->nominal);

  const char *cable = event->sent ? " (by cable)" : "";

  if (event->kind == TG_EVENT_CHECK_WEIGHT)
    return g_strdup_printf ("Check weight of %s g: %s g%s", nominal, shown, cable);
  return g_strdup_printf ("Empty scale: %s g%s%s", mass,
                          event->mass != 0 && event->set_back ? ", then set to zero" : "", cable);
}

static char *
pass_words (const TgReview *review, const TgEvent *event)
{
  g_autofree char *mass = tg_mass_format_exact (event->mass);
  g_autofree char *words = tg_effort_words (event->effort, event->count);
  g_autofree char *effort = words[0] ? g_strconcat (", ", words, NULL) : g_strdup ("");

  if (event->mass == 0)
    return g_strdup_printf ("%s: pass on the %s, %s%s", part_name (review, event),
                            zone_name (review, event), tg_tool_label (event->tool), effort);
  return g_strdup_printf ("%s: pass on the %s, %s g wanted, %s%s", part_name (review, event),
                          zone_name (review, event), mass, tg_tool_label (event->tool), effort);
}

static char *
target_words (const TgEvent *event)
{
  g_autofree char *mass = tg_mass_format_exact (event->mass);

  if (event->automatic)
    return g_strdup_printf ("Target of the %s: the program's choice again",
                            tg_band_label (event->band));
  return g_strdup_printf ("Target of the %s: %s g", tg_band_label (event->band), mass);
}

static char *
plain_words (const TgReview *review, const TgEvent *event)
{
  g_autofree char *path = NULL;
  char *unit;

  switch (event->kind)
    {
    case TG_EVENT_FREEZE:
      return g_strdup_printf ("%s: %s", part_name (review, event),
                              event->on ? "left as it is" : "may be ground again");
    case TG_EVENT_REPLACE:
      return g_strdup_printf ("%s: another piece takes its place", part_name (review, event));
    case TG_EVENT_SET:
      path = tg_setup_describe (review->setup, event->path);
      unit = g_strrstr (path, ", ");
      if (!unit)
        return g_strdup_printf ("%s: %s", path, event->value);
      *unit = '\0';
      return g_strdup_printf ("%s: %s %s", path, event->value, unit + 2);
    case TG_EVENT_STRIKE:
      return g_strdup ("An entry struck out");
    case TG_EVENT_NOTE:
      return event->part[0] ? g_strdup_printf ("%s: %s", part_name (review, event), event->text)
                            : g_strdup (event->text);
    default:
      return g_strdup ("");
    }
}

char *
tg_report_event (const TgReview *review, const TgEvent *event)
{
  g_autofree char *words = NULL;

  switch (event->kind)
    {
    case TG_EVENT_WEIGHING:
      words = weighing_words (review, event);
      break;
    case TG_EVENT_PASS:
      words = pass_words (review, event);
      break;
    case TG_EVENT_TARGET:
      words = target_words (event);
      break;
    case TG_EVENT_ZERO:
    case TG_EVENT_CHECK_WEIGHT:
      words = check_words (review, event);
      break;
    default:
      words = plain_words (review, event);
      break;
    }
  if (event->text[0] && event->kind != TG_EVENT_NOTE)
    return g_strdup_printf ("%s – %s", words, event->text);
  return g_steal_pointer (&words);
}

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
                              tg_band_label (b), band->n_weighed, band->n_parts, spread, tolerance);
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

static void
add_part (GString *out, const TgReview *review, const TgPartReview *part)
{
  g_string_append_printf (out, "%s%s:", part->part->name, part->frozen ? " (left as it is)" : "");
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

char *
tg_report_plan (const TgReview *review)
{
  GString *out = g_string_new (NULL);

  g_string_append_printf (out, "%s: %s\n", review->setup->name, review->standing);
  add_bands (out, review);
  add_proofs (out, review);
  g_string_append (out, "± holds the true weight in 95 of 100 cases\n");
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (tg_setup_has_kind (review->setup, kind) && review->feasible[kind])
      {
        g_autofree char *metal = tg_number_format (review->least_metal_g[kind], 2);

        g_string_append_printf (out, "%s: %s g still to come off the set\n",
                                kind == TG_PART_ROD ? "rods" : "pistons", metal);
      }
    else if (tg_setup_has_kind (review->setup, kind))
      g_string_append_printf (out, "%s: the set cannot become even like this\n",
                              kind == TG_PART_ROD ? "rods" : "pistons");
  for (guint i = 0; i < review->parts->len; i++)
    add_part (out, review, tg_review_part (review, i));
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
 * depth_mm at_most_g after_g feasible decided u_g expanded_g probability verdict */
#define HEADER                                                                                     \
  "row,name,figure,state,weight_g,basis,target_g,tolerance_g,spread_g,inside,parts,grams_g,"       \
  "depth_mm,at_most_g,after_g,feasible,decided,u_g,expanded_g,probability,verdict\r\n"
#define N_KNOWN 4 /* of the last columns */

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
  if (weight->judged)
    tg_csv_add_number (out, weight->probability, 4);
  else
    tg_csv_add_blank (out, 1);
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
  tg_csv_add_blank (out, 1 + N_KNOWN);
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
  if (band->known)
    tg_csv_add_number (out, band->target_g, 3);
  else
    tg_csv_add_blank (out, 1);
  tg_csv_add_number (out, band->tolerance_g, 3);
  tg_csv_add_number (out, band->spread_g, 3);
  tg_csv_add_count (out, band->n_in);
  tg_csv_add_count (out, band->n_parts);
  tg_csv_add_blank (out, 4);
  tg_csv_add_field (out, review->feasible[tg_band_kind (b)] ? "yes" : "no");
  tg_csv_add_field (out, band->decided ? "yes" : "no");
  tg_csv_add_blank (out, 2);
  if (band->even)
    tg_csv_add_number (out, band->probability, 4);
  else
    tg_csv_add_blank (out, 1);
  tg_csv_add_field (out, !band->even ? "" : band->proven ? "proven" : "not proven");
  tg_csv_end_row (out);
}

static void
csv_part (GString *out, const TgReview *review, const TgPartReview *part)
{
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      const TgWeight *weight = &part->weight[f];
      int row = tg_part_review_row (part, f);
      TgBand b;

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
      if (row >= 0 && tg_band_of (part->design->kind, f, &b) && review->bands[b].known)
        tg_csv_add_number (out, review->bands[b].target_g, 3);
      else
        tg_csv_add_blank (out, 1);
      tg_csv_add_blank (out, 4);
      tg_csv_add_number (out, part->to_come_off_g, 3);
      tg_csv_add_blank (out, 2);
      if (row >= 0 && part->state != TG_STATE_UNWEIGHED && part->state != TG_STATE_WAITING)
        tg_csv_add_number (out, part->plan.after_g[row], 3);
      else
        tg_csv_add_blank (out, 1);
      tg_csv_add_field (out, part->plan.status == TG_PLAN_UNREACHABLE ? "no" : "yes");
      tg_csv_add_field (out, part->frozen ? "left as it is" : "");
      csv_known (out, weight);
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
      tg_csv_end_row (out);
    }
}

char *
tg_report_plan_csv (const TgReview *review)
{
  GString *out = g_string_new (HEADER);

  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (tg_setup_has_kind (review->setup, kind))
      csv_set (out, review, kind);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present)
      csv_band (out, review, b);
  for (guint i = 0; i < review->parts->len; i++)
    csv_part (out, review, tg_review_part (review, i));
  for (guint i = 0; i < review->parts->len; i++)
    csv_zones (out, tg_review_part (review, i));
  return g_string_free (out, FALSE);
}
