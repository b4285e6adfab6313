/* sheet.c: the grind sheet, see sheet.h
 *
 * A summary on the first page, then one block for each part that is ground to a band.  Everything is black on white; shades only repeat what is written beside them.
 *
 * It does not decide anything: grams, depths and targets are the review's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "sheet.h"

#include <math.h>

#include "mark.h"
#include "part-drawing.h"
#include "part-layout.h"

const char *const tg_sheet_caution =
    "The engine maker's manual, local rules and licensed practice come first. Where this sheet and "
    "the manual disagree, do not grind. Wear eye and dust protection; weigh after every pass.";

static const double summary_share[] = { 0, 0.16, 0.38, 0.52, 0.68, 0.84 };
#define N_SUMMARY G_N_ELEMENTS (summary_share)

static double
summary_line (const TgPage *page, const char *const words[N_SUMMARY], double y, gboolean title)
{
  double most = 0;

  for (guint i = 0; i < N_SUMMARY; i++)
    {
      double x = page->left + summary_share[i] * page->width;
      double next = i + 1 < N_SUMMARY ? summary_share[i + 1] : 1;
      double width = (next - summary_share[i]) * page->width - 6;
      double h = title ? tg_page_heading (page, words[i], x, y, width)
                       : tg_page_cell (page, words[i], x, y, width);

      most = MAX (most, h);
    }
  return most + 2;
}

static char *
band_words (const TgPage *page, double low_g, double tolerance_g)
{
  g_autofree char *low = tg_mass_format (tg_mass_from_g (low_g), page->decimals);
  g_autofree char *high = tg_page_grams (page, low_g + tolerance_g);

  return g_strdup_printf ("%s to %s", low, high);
}

static double
summary_band (const TgPage *page, TgBand band, double y)
{
  const TgBandReview *b = &page->review->bands[band];
  g_autofree char *target = b->known ? band_words (page, b->target_g, b->tolerance_g)
                                     : g_strdup ("not known yet");
  g_autofree char *tolerance = tg_page_grams (page, b->tolerance_g);
  g_autofree char *spread = b->n_weighed > 1 ? tg_page_grams (page, b->spread_g) : g_strdup ("–");
  g_autofree char *weighed = g_strdup_printf ("%u of %u", b->n_weighed, b->n_parts);
  g_autofree char *in = b->even ? g_strdup_printf ("all %u, even", b->n_parts)
                                : g_strdup_printf ("%u of %u", b->n_in, b->n_parts);
  const char *const words[N_SUMMARY] = {
    tg_setup_band_label (page->review->setup, band), target, tolerance, spread, weighed, in
  };

  return summary_line (page, words, y, FALSE);
}

double
tg_sheet_summary (const TgPage *page, double y)
{
  static const char *const title[N_SUMMARY] = {
    "", "every one between", "permitted spread", "spread now", "weighed", "in the band"
  };

  y += summary_line (page, title, y, TRUE);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (page->review->bands[b].present)
      y += summary_band (page, (TgBand) b, y);
  y += 2;
  if (page->cr)
    tg_part_drawing_draw_legend (page->cr, (TgRect){ page->left, y, page->width, 20 },
                                 tg_part_drawing_legend_g (page->review), MAX (page->decimals, 1),
                                 &page->style);
  y += 20 + 3;
  tg_page_rule (page, y, 0.5);
  return y + TG_PAGE_GAP;
}

/* ── one part ──────────────────────────────────────────────────────────────────────────────── */

static gboolean
is_done (const TgPartReview *part)
{
  return part->state == TG_STATE_EVEN;
}

static char *
state_words (const TgPartReview *part)
{
  g_autofree char *off = tg_part_label_grams (part->to_come_off_g);

  switch (part->state)
    {
    case TG_STATE_UNWEIGHED:
      return g_strdup ("not weighed yet");
    case TG_STATE_WAITING:
      return g_strdup ("weighed; the rest of the set is not");
    case TG_STATE_TO_GRIND:
      return g_strdup_printf ("%s to come off", off);
    case TG_STATE_WEIGH_AGAIN:
      return part->to_come_off_g > 0 ? g_strdup_printf ("weigh again; about %s to come off", off)
                                     : g_strdup ("weigh again");
    case TG_STATE_EVEN:
      return g_strdup ("done: nothing to come off");
    case TG_STATE_TOO_LIGHT:
      return g_strdup ("too light: below the band");
    case TG_STATE_OUT_OF_REACH:
    default:
      return g_strdup ("out of reach: its zones cannot give enough");
    }
}

static double
part_title (const TgPage *page, const TgPartReview *part, double y)
{
  g_autofree char *words = state_words (part);
  g_autofree char *state = part->frozen ? g_strconcat (words, "; kept as it is", NULL)
                                        : g_steal_pointer (&words);
  /* a pairing moves parts: then the name does not tell the bore */
  g_autofree char *bore = g_strdup_printf ("%s, bore %u", part->part->name, part->part->bore);
  double half = 0.5 * page->width, mark = is_done (part) ? 15 : 0;
  double name = tg_page_words (page, page->review->paired >= 0 ? bore : part->part->name,
                               page->left, y, half - 8, 11, TRUE, TG_ALIGN_LEFT, page->style.ink);
  double h = tg_page_words (page, state, page->left + half, y + 2, half - mark, 8.5, TRUE,
                            TG_ALIGN_RIGHT, page->style.ink);

  if (page->cr && mark > 0)
    {
      TgRect box = { page->left + page->width - 10, y + 2, 10, 10 };

      tg_page_box (page, box);
      tg_mark_tick (page->cr, (TgPoint){ box.x + 5, box.y + 5 }, 8, &page->style, 1);
    }
  return MAX (name, h + 2) + 3;
}

static char *
weight_words (const TgPage *page, const TgWeight *weight)
{
  g_autofree char *mean = NULL;

  if (weight->basis == TG_WEIGHT_NONE)
    return g_strdup ("–");
  mean = tg_page_grams (page, weight->mean_g);
  return weight->basis == TG_WEIGHT_ESTIMATED ? g_strdup_printf ("about %s", mean)
                                              : g_steal_pointer (&mean);
}

/* What the part itself has to lie between; with others in the sum each has its own. */
static char *
own_band_words (const TgPage *page, guint index, TgFigure figure, TgBand band)
{
  double low_g = tg_review_own_target_g (page->review, index, figure);

  if (!tg_setup_has_band (page->review->setup, band))
    return g_strdup ("any, with the piston");
  return isnan (low_g) ? g_strdup ("–")
                       : band_words (page, low_g, page->review->bands[band].tolerance_g);
}

/* What counts together with a figure, in quiet type below it. */
static double
company (const TgPage *page, guint index, TgFigure figure, double x, double y, double width)
{
  g_autofree char *names = tg_review_carried_words (page->review, index, figure);
  g_autofree char *words = g_strconcat ("with ", names, NULL);

  return names[0] ? tg_page_heading (page, words, x, y, width) + 3 : 0;
}

/* Present weights, their band and an empty box for the next reading. */
static double
part_figures (const TgPage *page, guint index, double x, double y, double width)
{
  const TgPartReview *part = tg_review_part (page->review, index);
  const double at[] = { 0, 0.19 * width, 0.475 * width, 0.77 * width };
  double start = y;

  tg_page_heading (page, "now", x + at[1], y, at[2] - at[1] - 4);
  tg_page_heading (page, "between", x + at[2], y, at[3] - at[2] - 4);
  y += tg_page_heading (page, "next reading, g", x + at[3], y, width - at[3]) + 2;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      TgBand band;

      /* whole rods need not become even */
      if (tg_band_of (part->design->kind, (TgFigure) f, &band))
        {
          g_autofree char *now = weight_words (page, &part->weight[f]);
          g_autofree char *between = own_band_words (page, index, (TgFigure) f, band);
          double h = tg_page_cell (page, tg_figure_label (part->design->kind, (TgFigure) f), x,
                                   y + 3, at[1] - 2);

          double now_h = tg_page_words (page, now, x + at[1], y + 3, at[2] - at[1] - 4, 8, TRUE,
                                        TG_ALIGN_LEFT, page->style.ink);
          double between_h = tg_page_cell (page, between, x + at[2], y + 3, at[3] - at[2] - 4);

          h = MAX (h, MAX (now_h, between_h));
          tg_page_box (page, (TgRect){ x + at[3], y, width - at[3], 15 });
          y += MAX (19, h + 5);
          y += company (page, index, (TgFigure) f, x + at[1], y - 3, width - at[1]);
        }
    }
  return y - start;
}

static const double zone_share[] = { 0, 0.35, 0.51, 0.67, 0.84, 1 };

static double
zone_line (const TgPage *page, const TgZoneReview *zone, double x, double y, double width)
{
  gboolean pair = tg_place_is_pair (zone->zone->place);
  g_autofree char *off = tg_part_label_grams (zone->amount_g);
  g_autofree char *side = pair ? tg_part_label_grams (zone->amount_g / 2) : g_strdup ("–");
  g_autofree char *depth = zone->depth_mm > 0 ? tg_part_label_millimetres (zone->depth_mm)
                                              : g_strdup ("–");
  g_autofree char *most = zone->at_most_g > 0 ? tg_part_label_grams (zone->at_most_g)
                                              : g_strdup ("–");
  const char *const words[] = { zone->zone->name, off, side, depth, most };
  double height = 0;

  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      double w = (zone_share[i + 1] - zone_share[i]) * width - 4;
      double h = tg_page_words (page, words[i], x + zone_share[i] * width, y, w, 8, i == 1,
                                TG_ALIGN_LEFT, page->style.ink);

      height = MAX (height, h);
    }
  return height + 2;
}

static double
part_zones (const TgPage *page, const TgPartReview *part, double x, double y, double width)
{
  static const char *const title[] = { "grind here", "take off", "each side", "depth", "at most" };
  double start = y, h = 0;

  if (part->to_come_off_g <= 0)
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (title); i++)
    h = tg_page_heading (page, title[i], x + zone_share[i] * width, y,
                         (zone_share[i + 1] - zone_share[i]) * width - 4);
  y += h + 1;
  for (guint i = 0; i < part->zones->len; i++)
    if (tg_part_review_zone (part, i)->amount_g > 0)
      y += zone_line (page, tg_part_review_zone (part, i), x, y, width);
  return y - start;
}

double
tg_sheet_part (const TgPage *page, guint index, double y)
{
  const TgPartReview *part = tg_review_part (page->review, index);
  gboolean done = is_done (part);
  double draw_width = (done ? 0.28 : 0.48) * page->width, draw_height = done ? 42 : 118;
  double x = page->left + draw_width + 14, width = page->width - draw_width - 14, below;
  double title = part_title (page, part, y);

  below = part_figures (page, index, x, y + title, width) + 4;
  below += part_zones (page, part, x, y + title + below, width);
  if (page->cr)
    {
      TgStyle style = page->style;
      TgPartDrawing how = { .full_g = page->full_g, .labels = !done, .selected = -1 };

      style.text_size = 7;
      tg_part_drawing_draw (page->cr, (TgRect){ page->left, y + title, draw_width, draw_height },
                            part, &how, &style);
    }
  y += title + MAX (below, draw_height) + 5;
  tg_page_rule (page, y, 0.4);
  return y + TG_PAGE_GAP;
}

GArray *
tg_sheet_parts (const TgReview *review)
{
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (guint));

  for (TgPartKind kind = TG_PART_ROD; kind <= TG_PART_PISTON; kind++)
    for (guint bore = 1; bore <= review->setup->cylinders; bore++)
      for (guint i = 0; i < review->parts->len; i++)
        {
          const TgPartReview *part = tg_review_part (review, i);

          if (part->in_work && part->design->kind == kind && part->part->bore == bore)
            g_array_append_val (parts, i);
        }
  return parts;
}
