/* sheet.c: the grind sheet on paper, see sheet.h
 *
 * A page is a column of blocks: head, summary (first page only), then one block for each part that is
 * ground to a band, never broken over two pages.  Every block is measured by the same function that draws it, with no
 * context to draw on, so that pages and heights cannot disagree.  Texts are wrapped, never cut.
 * Everything is black on white; shades only repeat what is written beside them.
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
#include "text.h"

#define MARGIN 42.0
#define GAP 7.0
#define CAUTION                                                                                    \
  "The engine maker's manual, local rules and licensed practice come first. Where this sheet and " \
  "the manual disagree, do not grind. Wear eye and dust protection; weigh after every pass."

/* Where the next thing goes; @cr is NULL while only measuring. */
typedef struct
{
  cairo_t *cr;
  const TgJob *job;
  const TgReview *review;
  TgPaper paper;
  TgStyle style;
  guint decimals;
  double full_g;
  double left, width;
} Sheet;

static Sheet
sheet_on (cairo_t *cr, const TgJob *job, const TgReview *review, TgPaper paper)
{
  return (Sheet){ .cr = cr,
                  .job = job,
                  .review = review,
                  .paper = paper,
                  .style = tg_style_print (),
                  .decimals = tg_mass_decimals (MAX (review->setup->resolution, 1)),
                  .full_g = tg_part_drawing_full_g (review),
                  .left = MARGIN,
                  .width = paper.width_pt - 2 * MARGIN };
}

/* ── words and lines ───────────────────────────────────────────────────────────────────────── */

/* Writes @words into a column and returns its height. */
static double
words_in (const Sheet *sheet,
          const char *words,
          double x,
          double y,
          double width,
          double size,
          gboolean bold,
          TgAlign align,
          TgColor color)
{
  TgText text = {
    .font = sheet->style.font, .size = size, .bold = bold, .width = width, .align = align
  };
  double height;

  tg_text_measure (&text, words, NULL, &height);
  if (sheet->cr)
    tg_text_draw (sheet->cr, &text, words, x, y, color);
  return height;
}

static double
cell (const Sheet *sheet, const char *words, double x, double y, double width)
{
  return words_in (sheet, words, x, y, width, 8, FALSE, TG_ALIGN_LEFT, sheet->style.ink);
}

static double
heading (const Sheet *sheet, const char *words, double x, double y, double width)
{
  return words_in (sheet, words, x, y, width, 7, FALSE, TG_ALIGN_LEFT, sheet->style.quiet);
}

static void
rule (const Sheet *sheet, double y, double width)
{
  if (!sheet->cr)
    return;
  tg_color_set (sheet->cr, sheet->style.ink);
  cairo_set_line_width (sheet->cr, width);
  cairo_move_to (sheet->cr, sheet->left, y);
  cairo_line_to (sheet->cr, sheet->left + sheet->width, y);
  cairo_stroke (sheet->cr);
}

static void
empty_box (const Sheet *sheet, TgRect box)
{
  if (!sheet->cr)
    return;
  tg_color_set (sheet->cr, sheet->style.ink);
  cairo_set_line_width (sheet->cr, 0.7);
  cairo_rectangle (sheet->cr, box.x, box.y, box.width, box.height);
  cairo_stroke (sheet->cr);
}

static char *
grams (const Sheet *sheet, double g)
{
  g_autofree char *number = tg_mass_format (tg_mass_from_g (g), sheet->decimals);

  return g_strconcat (number, " g", NULL);
}

/* ── head, summary, foot ───────────────────────────────────────────────────────────────────── */

static char *
as_of (const TgJob *job)
{
  guint n = tg_job_n_events (job);
  g_autofree char *day = NULL, *time = NULL;

  if (n == 0)
    return g_strdup ("nothing recorded yet");
  day = tg_stamp_format_day (tg_job_event (job, n - 1)->stamp);
  time = tg_stamp_format_time (tg_job_event (job, n - 1)->stamp);
  return g_strdup_printf ("as recorded up to %s, %s", day, time);
}

static double
head (const Sheet *sheet, double y, guint page, guint n_pages)
{
  g_autofree char *pages = g_strdup_printf ("page %u of %u", page + 1, n_pages);
  g_autofree char *date = as_of (sheet->job);
  double side = 80, name_width = sheet->width - side - 12;
  double h = words_in (sheet, sheet->review->setup->name, sheet->left, y, name_width, 14, TRUE,
                       TG_ALIGN_LEFT, sheet->style.ink);

  words_in (sheet, pages, sheet->left + sheet->width - side, y + 5, side, 8, FALSE, TG_ALIGN_RIGHT,
            sheet->style.ink);
  y += h + 1;
  words_in (sheet, "Grind sheet", sheet->left, y, 60, 8, TRUE, TG_ALIGN_LEFT, sheet->style.ink);
  y += words_in (sheet, date, sheet->left + 62, y, sheet->width - 62, 8, FALSE, TG_ALIGN_LEFT,
                 sheet->style.quiet);
  y += 4;
  rule (sheet, y, 1.2);
  return y + GAP;
}

static double
caution (const Sheet *sheet, double y)
{
  return words_in (sheet, CAUTION, sheet->left, y, sheet->width, 7.5, FALSE, TG_ALIGN_LEFT,
                   sheet->style.ink);
}

/* Lowest y that blocks may reach; the caution stands below. */
static double
bottom (const Sheet *sheet)
{
  Sheet dry = *sheet;

  dry.cr = NULL;
  return sheet->paper.height_pt - MARGIN - caution (&dry, 0) - 4 - GAP;
}

static void
foot (const Sheet *sheet)
{
  double y = bottom (sheet) + GAP;

  rule (sheet, y, 0.5);
  caution (sheet, y + 4);
}

static const double summary_share[] = { 0, 0.16, 0.38, 0.52, 0.68, 0.84 };
#define N_SUMMARY G_N_ELEMENTS (summary_share)

static double
summary_line (const Sheet *sheet, const char *const words[N_SUMMARY], double y, gboolean title)
{
  double most = 0;

  for (guint i = 0; i < N_SUMMARY; i++)
    {
      double x = sheet->left + summary_share[i] * sheet->width;
      double next = i + 1 < N_SUMMARY ? summary_share[i + 1] : 1;
      double width = (next - summary_share[i]) * sheet->width - 6;
      double h = title ? heading (sheet, words[i], x, y, width)
                       : cell (sheet, words[i], x, y, width);

      most = MAX (most, h);
    }
  return most + 2;
}

static char *
band_words (const Sheet *sheet, double low_g, double tolerance_g)
{
  g_autofree char *low = tg_mass_format (tg_mass_from_g (low_g), sheet->decimals);
  g_autofree char *high = grams (sheet, low_g + tolerance_g);

  return g_strdup_printf ("%s to %s", low, high);
}

static double
summary_band (const Sheet *sheet, TgBand band, double y)
{
  const TgBandReview *b = &sheet->review->bands[band];
  g_autofree char *target = b->known ? band_words (sheet, b->target_g, b->tolerance_g)
                                     : g_strdup ("not known yet");
  g_autofree char *tolerance = grams (sheet, b->tolerance_g);
  g_autofree char *spread = b->n_weighed > 1 ? grams (sheet, b->spread_g) : g_strdup ("–");
  g_autofree char *weighed = g_strdup_printf ("%u of %u", b->n_weighed, b->n_parts);
  g_autofree char *in = b->even ? g_strdup_printf ("all %u, even", b->n_parts)
                                : g_strdup_printf ("%u of %u", b->n_in, b->n_parts);
  const char *const words[N_SUMMARY] = {
    tg_setup_band_label (sheet->review->setup, band), target, tolerance, spread, weighed, in
  };

  return summary_line (sheet, words, y, FALSE);
}

static double
summary (const Sheet *sheet, double y)
{
  static const char *const title[N_SUMMARY] = {
    "", "every one between", "permitted spread", "spread now", "weighed", "in the band"
  };

  y += summary_line (sheet, title, y, TRUE);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (sheet->review->bands[b].present)
      y += summary_band (sheet, (TgBand) b, y);
  y += 2;
  if (sheet->cr)
    tg_part_drawing_draw_legend (sheet->cr, (TgRect){ sheet->left, y, sheet->width, 20 },
                                 sheet->full_g, MAX (sheet->decimals, 1), &sheet->style);
  y += 20 + 3;
  rule (sheet, y, 0.5);
  return y + GAP;
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
part_title (const Sheet *sheet, const TgPartReview *part, double y)
{
  g_autofree char *words = state_words (part);
  g_autofree char *state = part->frozen ? g_strconcat (words, "; kept as it is", NULL)
                                        : g_steal_pointer (&words);
  /* a pairing moves parts: then the name does not tell the bore */
  g_autofree char *bore = g_strdup_printf ("%s, bore %u", part->part->name, part->part->bore);
  double half = 0.5 * sheet->width, mark = is_done (part) ? 15 : 0;
  double name = words_in (sheet, sheet->review->paired >= 0 ? bore : part->part->name, sheet->left,
                          y, half - 8, 11, TRUE, TG_ALIGN_LEFT, sheet->style.ink);
  double h = words_in (sheet, state, sheet->left + half, y + 2, half - mark, 8.5, TRUE,
                       TG_ALIGN_RIGHT, sheet->style.ink);

  if (sheet->cr && mark > 0)
    {
      TgRect box = { sheet->left + sheet->width - 10, y + 2, 10, 10 };

      empty_box (sheet, box);
      tg_mark_tick (sheet->cr, (TgPoint){ box.x + 5, box.y + 5 }, 8, &sheet->style, 1);
    }
  return MAX (name, h + 2) + 3;
}

static char *
weight_words (const Sheet *sheet, const TgWeight *weight)
{
  g_autofree char *mean = NULL;

  if (weight->basis == TG_WEIGHT_NONE)
    return g_strdup ("–");
  mean = grams (sheet, weight->mean_g);
  return weight->basis == TG_WEIGHT_ESTIMATED ? g_strdup_printf ("about %s", mean)
                                              : g_steal_pointer (&mean);
}

/* What the part itself has to lie between; with others in the sum each has its own. */
static char *
own_band_words (const Sheet *sheet, guint index, TgFigure figure, TgBand band)
{
  double low_g = tg_review_own_target_g (sheet->review, index, figure);

  if (!tg_setup_has_band (sheet->review->setup, band))
    return g_strdup ("any, with the piston");
  return isnan (low_g) ? g_strdup ("–")
                       : band_words (sheet, low_g, sheet->review->bands[band].tolerance_g);
}

/* What counts together with a figure, in quiet type below it. */
static double
company (const Sheet *sheet, guint index, TgFigure figure, double x, double y, double width)
{
  g_autofree char *names = tg_review_carried_words (sheet->review, index, figure);
  g_autofree char *words = g_strconcat ("with ", names, NULL);

  return names[0] ? heading (sheet, words, x, y, width) + 3 : 0;
}

/* Present weights, their band and an empty box for the next reading. */
static double
part_figures (const Sheet *sheet, guint index, double x, double y, double width)
{
  const TgPartReview *part = tg_review_part (sheet->review, index);
  const double at[] = { 0, 0.19 * width, 0.475 * width, 0.77 * width };
  double start = y;

  heading (sheet, "now", x + at[1], y, at[2] - at[1] - 4);
  heading (sheet, "between", x + at[2], y, at[3] - at[2] - 4);
  y += heading (sheet, "next reading, g", x + at[3], y, width - at[3]) + 2;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      TgBand band;

      /* whole rods need not become even */
      if (tg_band_of (part->design->kind, (TgFigure) f, &band))
        {
          g_autofree char *now = weight_words (sheet, &part->weight[f]);
          g_autofree char *between = own_band_words (sheet, index, (TgFigure) f, band);
          double h = cell (sheet, tg_figure_label (part->design->kind, (TgFigure) f), x, y + 3,
                           at[1] - 2);

          h = MAX (h, words_in (sheet, now, x + at[1], y + 3, at[2] - at[1] - 4, 8, TRUE,
                                TG_ALIGN_LEFT, sheet->style.ink));
          h = MAX (h, cell (sheet, between, x + at[2], y + 3, at[3] - at[2] - 4));
          empty_box (sheet, (TgRect){ x + at[3], y, width - at[3], 15 });
          y += MAX (19, h + 5);
          y += company (sheet, index, (TgFigure) f, x + at[1], y - 3, width - at[1]);
        }
    }
  return y - start;
}

static const double zone_share[] = { 0, 0.35, 0.51, 0.67, 0.84, 1 };

static double
zone_line (const Sheet *sheet, const TgZoneReview *zone, double x, double y, double width)
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
      double h = words_in (sheet, words[i], x + zone_share[i] * width, y, w, 8, i == 1,
                           TG_ALIGN_LEFT, sheet->style.ink);

      height = MAX (height, h);
    }
  return height + 2;
}

static double
part_zones (const Sheet *sheet, const TgPartReview *part, double x, double y, double width)
{
  static const char *const title[] = { "grind here", "take off", "each side", "depth", "at most" };
  double start = y, h = 0;

  if (part->to_come_off_g <= 0)
    return 0;
  for (guint i = 0; i < G_N_ELEMENTS (title); i++)
    h = heading (sheet, title[i], x + zone_share[i] * width, y,
                 (zone_share[i + 1] - zone_share[i]) * width - 4);
  y += h + 1;
  for (guint i = 0; i < part->zones->len; i++)
    if (tg_part_review_zone (part, i)->amount_g > 0)
      y += zone_line (sheet, tg_part_review_zone (part, i), x, y, width);
  return y - start;
}

static double
part_block (const Sheet *sheet, guint index, double y)
{
  const TgPartReview *part = tg_review_part (sheet->review, index);
  gboolean done = is_done (part);
  double draw_width = (done ? 0.28 : 0.48) * sheet->width, draw_height = done ? 42 : 118;
  double x = sheet->left + draw_width + 14, width = sheet->width - draw_width - 14, below;
  double title = part_title (sheet, part, y);

  below = part_figures (sheet, index, x, y + title, width) + 4;
  below += part_zones (sheet, part, x, y + title + below, width);
  if (sheet->cr)
    {
      TgStyle style = sheet->style;
      TgPartDrawing how = { .full_g = sheet->full_g, .labels = !done, .selected = -1 };

      style.text_size = 7;
      tg_part_drawing_draw (sheet->cr, (TgRect){ sheet->left, y + title, draw_width, draw_height },
                            part, &how, &style);
    }
  y += title + MAX (below, draw_height) + 5;
  rule (sheet, y, 0.4);
  return y + GAP;
}

/* ── pages ─────────────────────────────────────────────────────────────────────────────────── */

/* (transfer full) (element-type guint): the parts in work: rods, then pistons, by bore. */
static GArray *
parts_in_work (const TgReview *review)
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

/* Lays every block out; draws those of @page if there is a context. Returns the number of pages. */
static guint
walk (const Sheet *sheet, guint page, guint n_pages)
{
  g_autoptr (GArray) parts = parts_in_work (sheet->review);
  Sheet dry = *sheet;
  guint at = 0;
  double y, top;

  dry.cr = NULL;
  top = head (&dry, MARGIN, 0, 1);
  if (sheet->cr && page == 0)
    summary (sheet, top);
  y = summary (&dry, top);
  for (guint i = 0; i < parts->len; i++)
    {
      guint part = g_array_index (parts, guint, i);
      double end = part_block (&dry, part, y);

      if (end - GAP > bottom (sheet) && y > top)
        {
          at++;
          y = top;
          end = part_block (&dry, part, y);
        }
      if (sheet->cr && at == page)
        part_block (sheet, part, y);
      y = end;
    }
  if (sheet->cr)
    {
      head (sheet, MARGIN, page, n_pages);
      foot (sheet);
    }
  return at + 1;
}

guint
tg_sheet_n_pages (const TgJob *job, const TgReview *review, TgPaper paper)
{
  Sheet sheet = sheet_on (NULL, job, review, paper);

  return walk (&sheet, 0, 0);
}

void
tg_sheet_draw_page (
    cairo_t *cr, const TgJob *job, const TgReview *review, TgPaper paper, guint page)
{
  Sheet sheet = sheet_on (cr, job, review, paper);
  guint n_pages = tg_sheet_n_pages (job, review, paper);

  g_return_if_fail (page < n_pages);

  cairo_save (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 0, 0, paper.width_pt, paper.height_pt);
  cairo_fill (cr);
  walk (&sheet, page, n_pages);
  cairo_restore (cr);
}
