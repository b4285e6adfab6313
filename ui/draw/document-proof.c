/* document-proof.c: what the set weighs now, how well that is known, and what is proven
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first page says what holds for the whole set; then a block for each bore with every part that
 * sits there, and last what nobody but a person can say: who signs.
 */
#include "document-private.h"

#include <string.h>

#include "number.h"

static const char caution[] = "± holds the true weight in 95 of 100 cases (JCGM 100). Proven: the "
                              "true figure lies in its band with "
                              "at least that chance (JCGM 106). Weights alone do not make an "
                              "engine safe: the engine maker’s manual, "
                              "local rules and licensed practice come first.";

/* ── the whole set ─────────────────────────────────────────────────────────────────────────── */

static const double band_shares[] = { 0, 0.22, 0.42, 0.57, 0.67 };
#define N_BAND G_N_ELEMENTS (band_shares)

static char *
band_verdict (const TgBandReview *band)
{
  g_autofree char *percent = tg_review_percent (band->probability);

  if (band->n_weighed < band->n_parts)
    return band->n_weighed == 0
               ? g_strdup ("not weighed yet")
               : g_strdup_printf ("open: %u of %u weighed", band->n_weighed, band->n_parts);
  if (!band->even)
    return g_strdup_printf ("not even: %u of %u in the band", band->n_in, band->n_parts);
  return g_strdup_printf ("%s (%s\302\240%%)", band->proven ? "even, proven" : "even, not proven",
                          percent);
}

static double
band_row (const TgPage *page, TgBand which, double y)
{
  const TgBandReview *band = &page->review->bands[which];
  g_autofree char *low = tg_mass_format (tg_mass_from_g (band->target_g), page->decimals);
  g_autofree char *high = tg_page_grams (page, band->target_g + band->tolerance_g);
  g_autofree char *between = band->known ? g_strdup_printf ("%s to %s", low, high)
                                         : g_strdup ("not known yet");
  g_autofree char *permitted = tg_page_grams (page, band->tolerance_g);
  g_autofree char *spread = band->n_weighed > 1 ? tg_page_grams (page, band->spread_g)
                                                : g_strdup ("–");
  g_autofree char *verdict = band_verdict (band);
  const char *const words[N_BAND] = { tg_setup_band_label (page->review->setup, which), between,
                                      permitted, spread, verdict };

  return tg_page_row (page, words, band_shares, N_BAND, y, FALSE, FALSE);
}

/* (transfer full): who made the entries that are in force, each once, in the order of the journal. */
static char *
who_worked (const TgPage *page)
{
  g_autoptr (GPtrArray) names = g_ptr_array_new ();

  for (guint i = 0; i < tg_job_n_events (page->job); i++)
    {
      const char *who = tg_job_event (page->job, i)->who;

      if (who[0] && !page->review->struck[i] &&
          !g_ptr_array_find_with_equal_func (names, who, g_str_equal, NULL))
        g_ptr_array_add (names, (gpointer) who);
    }
  if (names->len == 0)
    return g_strdup ("nobody named");
  g_ptr_array_add (names, NULL);
  return g_strjoinv (", ", (char **) names->pdata);
}

static double
removed_g (const TgReview *review)
{
  double sum = 0;

  for (guint i = 0; i < review->days->len; i++)
    sum += ((const TgDay *) g_ptr_array_index (review->days, i))->removed_g;
  return sum;
}

/* What is known of the scale. */
static double
scale_lines (const TgPage *page, double y)
{
  const TgReview *review = page->review;
  const TgSetup *setup = review->setup;
  const TgScaleReview *scale = &review->scale;
  g_autofree char *step = tg_mass_format_exact (setup->resolution);
  g_autofree char *name = g_strdup_printf ("Scale: %s, step %s g",
                                           setup->scale[0] ? setup->scale : "not named", step);
  g_autofree char *check = NULL;

  y += tg_page_cell (page, name, page->left, y, page->width) + 1;
  if (scale->last_weight >= 0)
    {
      const TgScaleCheck *last = &g_array_index (scale->checks, TgScaleCheck, scale->last_weight);
      g_autofree char *day = tg_stamp_format_day (last->stamp);
      g_autofree char *nominal = tg_mass_format_exact (last->nominal);
      g_autofree char *error = tg_number_format_signed (last->error_g, page->decimals + 1);

      check = g_strdup_printf ("Check weight of %s g on %s: off by %s g", nominal, day, error);
    }
  else
    check = g_strdup ("No check weight was used: weights are as this scale shows them, differences "
                      "between parts do not depend on that.");
  return y + tg_page_cell (page, check, page->left, y, page->width) + 3;
}

static double
force_lines (const TgPage *page, const TgDocument *document, double y)
{
  g_autofree char *words = NULL;
  g_auto (GStrv) lines = NULL;

  if (!document->balance || document->balance->speed_rpm <= 0)
    return y;
  words = tg_balance_words (document->balance, document->balance->speed_rpm);
  y += tg_page_words (page, "What the differences do in the engine", page->left, y, page->width, 9,
                      TRUE, TG_ALIGN_LEFT, page->style.ink) +
       2;
  lines = g_strsplit (words, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    y += tg_page_cell (page, lines[i], page->left, y, page->width) + 1;
  return y + 3;
}

static double
intro (const TgPage *page, gconstpointer data, double y)
{
  static const char *const title[N_BAND] = { "", "every one between", "permitted spread", "spread",
                                             "verdict" };
  g_autofree char *who = who_worked (page);
  g_autofree char *removed = tg_page_grams (page, removed_g (page->review));
  g_autofree char *work = g_strdup_printf ("Entries by: %s. Ground off: %s.", who, removed);

  y += tg_page_row (page, title, band_shares, N_BAND, y, TRUE, FALSE);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (page->review->bands[b].present)
      y += band_row (page, (TgBand) b, y);
  y += 3;
  y = scale_lines (page, y);
  y += tg_page_cell (page, work, page->left, y, page->width) + 4;
  y = force_lines (page, data, y);
  tg_page_rule (page, y, 0.5);
  return y + TG_PAGE_GAP;
}

/* ── one bore ──────────────────────────────────────────────────────────────────────────────── */

#define N_PART 6

static double
figure_row (const TgPage *page, const TgPartReview *part, TgFigure figure, gboolean first, double y)
{
  const TgWeight *weight = &part->weight[figure];
  gboolean known = weight->basis != TG_WEIGHT_NONE;
  g_autofree char *number = known ? tg_review_grams (page->review, weight->mean_g)
                                  : g_strdup ("not weighed");
  g_autofree char *grams = g_strdup_printf (
      "%s%s%s", weight->basis == TG_WEIGHT_ESTIMATED ? "about " : "", number, known ? " g" : "");
  g_autofree char *plus = known ? tg_review_plus_minus (page->review, weight->expanded_g)
                                : g_strdup ("");
  guint n = weight->n[TG_WAY_ANY] + weight->n[TG_WAY_MARK_UP] + weight->n[TG_WAY_MARK_DOWN];
  g_autofree char *readings = n == 1 ? g_strdup ("1 reading") : g_strdup_printf ("%u readings", n);
  const char *const words[N_PART] = { first ? part->part->name : "",
                                      tg_figure_label (part->design->kind, figure),
                                      grams,
                                      plus,
                                      known ? readings : "",
                                      weight->judged ? tg_weight_verdict_label (weight) : "" };
  const double shares[N_PART] = { 0, 0.24, -0.37, 0.54, 0.68, 0.84 };

  return tg_page_row (page, words, shares, N_PART, y, FALSE, FALSE);
}

static double
part_rows (const TgPage *page, guint index, double y)
{
  const TgPartReview *part = tg_review_part (page->review, index);
  gboolean rod = part->design->kind == TG_PART_ROD;

  if (!rod)
    return y + figure_row (page, part, TG_FIGURE_WHOLE, TRUE, y);
  y += figure_row (page, part, TG_FIGURE_SMALL_END, TRUE, y);
  return y + figure_row (page, part, TG_FIGURE_BIG_END, FALSE, y);
}

static double
sum_row (const TgPage *page, const TgSetReview *set, double y)
{
  g_autofree char *number = tg_review_grams (page->review, set->sum_g);
  g_autofree char *grams = g_strconcat (number, " g", NULL);
  g_autofree char *plus = tg_review_plus_minus (page->review, set->expanded_g);
  const char *const words[] = { "together", "set", grams, plus };
  const double shares[] = { 0, 0.24, -0.37, 0.54 };

  return tg_page_row (page, words, shares, G_N_ELEMENTS (words), y, FALSE, TRUE);
}

static double
signatures (const TgPage *page, double y)
{
  double half = page->width / 2;
  double height = tg_page_blank (page, "weighed and ground by", page->left, y + 8, half);

  tg_page_blank (page, "date", page->left + half, y + 8, half);
  y += height + 16;
  height = tg_page_blank (page, "checked by", page->left, y, half);
  tg_page_blank (page, "date", page->left + half, y, half);
  return y + height + TG_PAGE_GAP;
}

static double
block (const TgPage *page, gconstpointer data, guint index, double y)
{
  const TgSetReview *set;
  g_autofree char *title = g_strdup_printf ("Bore %u", index + 1);

  (void) data;
  if (index == page->review->sets->len)
    return signatures (page, y);
  set = &g_array_index (page->review->sets, TgSetReview, index);
  y += tg_page_words (page, title, page->left, y, page->width, 10, TRUE, TG_ALIGN_LEFT,
                      page->style.ink) +
       2;
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (set->part[kind] >= 0)
      y = part_rows (page, (guint) set->part[kind], y);
  if (set->known && tg_setup_in_sum (page->review->setup, TG_PART_PISTON))
    y += sum_row (page, set, y);
  y += 3;
  tg_page_rule (page, y, 0.4);
  return y + TG_PAGE_GAP;
}

void
tg_document_fill_proof (TgDocument *document)
{
  document->balance = tg_balance_new (document->job, document->review);
  document->content.caution = caution;
  document->content.n = document->review->sets->len + 1;
  document->content.intro = intro;
  document->content.block = block;
}
