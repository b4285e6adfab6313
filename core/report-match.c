/* report-match.c: a pairing in words and as a table, see report-match.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "report-match.h"

#include <math.h>
#include <string.h>

#include "csv.h"
#include "number.h"

static gboolean
found (const TgReportMatch *match)
{
  return match->pairing && (match->result.sums.status == TG_MATCHING_OPTIMAL ||
                            match->result.sums.status == TG_MATCHING_FEASIBLE);
}

static char *
grams (const TgPairing *pairing, gint64 steps)
{
  return tg_number_format (tg_pairing_g (pairing, steps), pairing->decimals);
}

/* -- words --------------------------------------------------------------------------------------- */

static void
add_families (GString *out, const TgPairing *pairing)
{
  guint n = pairing->problem.n_families;

  for (guint f = 0; f < n; f++)
    g_string_append_printf (out, "%s%s",
                            f == 0      ? ""
                            : f + 1 < n ? ", "
                                        : " and ",
                            tg_part_kind_plural (pairing->families[f].kind));
}

static void
add_today (GString *out, const TgPairing *pairing)
{
  TgMatchingPlan today;
  g_autofree char *words = NULL;
  g_autofree char *breaks = NULL;

  if (!tg_pairing_today (pairing, &today, NULL))
    {
      g_string_append (out, "Today: not every bore has all its parts.\n");
      return;
    }
  words = tg_pairing_plan_words (pairing, &today);
  breaks = tg_pairing_breaks (pairing, &today);
  g_string_append_printf (out, "Today: %s.%s%s\n", words, breaks ? " " : "", breaks ? breaks : "");
}

static void
add_why (GString *out, const TgReportMatch *match)
{
  g_autoptr (GPtrArray) why = tg_pairing_why (match->pairing, &match->result);

  for (guint i = 0; i < why->len; i++)
    {
      const TgTerm *term = g_ptr_array_index (why, i);

      g_string_append_printf (out, "  %s%s%s%s%s\n", term->label, term->figure[0] ? ": " : "",
                              term->figure, term->remark[0] ? ", " : "", term->remark);
    }
}

static void
add_bore (GString *out, const TgPairing *pairing, const TgMatchingPlan *plan, guint c)
{
  g_autofree char *weight = grams (pairing, plan->weight[c]);
  g_autofree char *off = grams (pairing, plan->removal[c]);

  g_string_append_printf (out, "  Bore %u: ", c + 1);
  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      guint part = plan->part[f][c];
      gboolean moves = pairing->problem.families[f].parts[part].today != (int) c;

      g_string_append_printf (out, "%s%s%s", f ? ", " : "", pairing->families[f].name[part],
                              moves ? " (new here)" : "");
    }
  g_string_append_printf (out, ": %s g", weight);
  if (!pairing->joint && plan->removal[c] > 0)
    g_string_append_printf (out, ", %s g to come off", off);
  g_string_append_c (out, '\n');
}

static void
add_match (GString *out, const TgReportMatch *match)
{
  const TgPairing *pairing = match->pairing;
  g_autofree char *words = NULL;
  g_autofree char *proof = NULL;

  if (!pairing)
    {
      g_string_append_printf (out, "%s\n", match->why_not);
      return;
    }
  g_string_append (out, "Pairing of ");
  add_families (out, pairing);
  g_string_append_printf (out, ", %u bores\n", pairing->problem.n_cylinders);
  add_today (out, pairing);
  proof = tg_pairing_proof_words (pairing, &match->result);
  if (found (match))
    {
      words = tg_pairing_plan_words (pairing, &match->result.sums.plan);
      g_string_append_printf (out, "Found: %s.\n", words);
    }
  g_string_append_printf (out, "%s\n", proof);
  add_why (out, match);
  for (guint c = 0; c < pairing->problem.n_cylinders && found (match); c++)
    add_bore (out, pairing, &match->result.sums.plan, c);
}

static void
add_odd_ones (GString *out, const TgReview *review)
{
  for (TgPartKind kind = TG_PART_ROD; kind <= TG_PART_PISTON; kind++)
    {
      g_autoptr (GPtrArray) odds = tg_pairing_odd_one_out (review, kind);

      for (guint i = 0; i < odds->len; i++)
        g_string_append_printf (out, "%s\n", ((TgPairingOdd *) g_ptr_array_index (odds, i))->words);
    }
}

static void
add_shelf (GString *out, const TgReview *review)
{
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      g_autofree char *why_not = NULL;
      TgChoice *choice = NULL;

      if (tg_setup_has_kind (review->setup, kind))
        choice = tg_pairing_choose (review, kind, &why_not);
      if (!choice)
        continue;
      g_string_append_printf (out, "From the shelf: %s. %s\n", choice->title, choice->detail);
      tg_choice_free (choice);
    }
}

static void
add_crankpins (GString *out, const TgReview *review)
{
  g_autoptr (TgPairingCrankpins) pins = tg_pairing_crankpins (review);
  g_autofree char *spread = NULL;

  if (!pins)
    return;
  spread = tg_review_grams (review, pins->spread_g);
  g_string_append_printf (out, "Crankpins of two rods differ by %s g.\n", spread);
  for (guint pin = 0; pin < pins->n_pins; pin++)
    {
      g_autofree char *sum = tg_review_grams (review, pins->sum_g[pin]);

      g_string_append_printf (out, "  Bores %u and %u: %s g\n", pins->bore[pin][0],
                              pins->bore[pin][1], sum);
    }
  if (pins->choice)
    g_string_append_printf (out, "%s. %s\n", pins->choice->title, pins->choice->detail);
}

char *
tg_report_match (const TgReview *review, const TgReportMatch *matches, guint n)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < n; i++)
    add_match (out, &matches[i]);
  add_odd_ones (out, review);
  add_shelf (out, review);
  add_crankpins (out, review);
  return g_string_free (out, FALSE);
}

/* -- CSV ----------------------------------------------------------------------------------------- */

#define HEADER "row,sum,bore,kind,part,changes,weight_g,off_g,today_off_g,bound_g,status,proved\r\n"

static const char *
status_word (TgMatchingStatus status)
{
  static const char *const words[] = { "optimal", "feasible", "none exists", "unknown" };

  return words[status];
}

/* Steps as exact grams: a step may be finer than what is shown. */
static void
add_grams (GString *out, const TgPairing *pairing, gint64 steps)
{
  tg_csv_add_number (out, tg_pairing_g (pairing, steps), 3);
}

static double
off_g (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  return pairing->joint ? tg_pairing_metal_g (pairing, plan) : tg_pairing_g (pairing, plan->total);
}

static void
csv_off (GString *out, const TgPairing *pairing, const TgMatchingPlan *plan)
{
  double metal_g = plan ? off_g (pairing, plan) : 0;

  if (plan && isfinite (metal_g))
    tg_csv_add_number (out, metal_g, 3);
  else
    tg_csv_add_blank (out, 1);
}

static const char *
sum_word (const TgReportMatch *match)
{
  return match->sum == TG_PAIRING_PISTONS ? "pistons" : "bearings";
}

static void
csv_pairing (GString *out, const TgReportMatch *match)
{
  const TgPairing *pairing = match->pairing;
  const TgPairingResult *result = &match->result;
  TgMatchingPlan today;
  gboolean has_today = tg_pairing_today (pairing, &today, NULL);

  tg_csv_add_field (out, "pairing");
  tg_csv_add_field (out, sum_word (match));
  tg_csv_add_blank (out, 3);
  if (found (match))
    tg_csv_add_count (out, result->sums.plan.changes);
  else
    tg_csv_add_blank (out, 1);
  tg_csv_add_blank (out, 1);
  csv_off (out, pairing, found (match) ? &result->sums.plan : NULL);
  csv_off (out, pairing, has_today ? &today : NULL);
  if (result->joint)
    tg_csv_add_number (out, result->bound_g, 3);
  else
    add_grams (out, pairing, result->sums.lower_bound);
  tg_csv_add_field (out, result->joint ? "searched" : status_word (result->sums.status));
  tg_csv_add_count (out, result->joint ? 0 : result->sums.proved);
  tg_csv_end_row (out);
}

static void
csv_bore (GString *out, const TgReportMatch *match, guint c)
{
  const TgPairing *pairing = match->pairing;
  const TgMatchingPlan *plan = &match->result.sums.plan;

  tg_csv_add_field (out, "set");
  tg_csv_add_field (out, sum_word (match));
  tg_csv_add_count (out, c + 1);
  tg_csv_add_blank (out, 3);
  add_grams (out, pairing, plan->weight[c]);
  if (pairing->joint)
    tg_csv_add_blank (out, 1);
  else
    add_grams (out, pairing, plan->removal[c]);
  tg_csv_add_blank (out, 4);
  tg_csv_end_row (out);
  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      guint number = plan->part[f][c];
      const TgMatchingPart *part = &pairing->problem.families[f].parts[number];

      tg_csv_add_field (out, "part");
      tg_csv_add_field (out, sum_word (match));
      tg_csv_add_count (out, c + 1);
      tg_csv_add_field (out, tg_part_kind_to_word (pairing->families[f].kind));
      tg_csv_add_field (out, pairing->families[f].name[number]);
      tg_csv_add_field (out, part->today == (int) c ? "no" : "yes");
      add_grams (out, pairing, part->weight);
      tg_csv_add_blank (out, 5);
      tg_csv_end_row (out);
    }
}

char *
tg_report_match_csv (const TgReportMatch *matches, guint n)
{
  GString *out = g_string_new (HEADER);

  for (guint i = 0; i < n; i++)
    {
      if (!matches[i].pairing)
        continue;
      csv_pairing (out, &matches[i]);
      for (guint c = 0; c < matches[i].pairing->problem.n_cylinders && found (&matches[i]); c++)
        csv_bore (out, &matches[i], c);
    }
  return g_string_free (out, FALSE);
}
