/* document-weigh.c: an empty sheet to write readings on by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * In the order of the bench: all small ends, all big ends, then what is weighed as a whole, and whole
 * rods last, as a cross-check.  As many boxes as the job asks for readings.
 */
#include "document-private.h"

#include "number.h"

#define BOX_HEIGHT 16.0
#define BOXES_IN_A_ROW 4
#define NAME_SHARE 0.2
#define SPARE_LINES 4

/* An end has both ways up in one row; of what is weighed as a whole two parts share it. */
typedef struct
{
  guint part;
  int beside; /* another part; -1: none */
  TgFigure figure;
  gboolean first; /* of its group: names stand above it */
} Row;

static const char caution[] = "Write down what the display shows, before it is judged. Zero and "
                              "check weight before the first and "
                              "after the last reading. Weigh every rod with its own cap, bolts and "
                              "nuts, clean, dry and as warm as "
                              "the room. The scale’s and the engine maker’s manuals come first.";

static double
intro (const TgPage *page, G_GNUC_UNUSED gconstpointer data, double y)
{
  const TgSetup *setup = page->review->setup;
  g_autofree char *step = tg_mass_format_exact (setup->resolution);
  g_autofree char *scale = g_strdup_printf ("Scale: %s, step %s g",
                                            setup->scale[0] ? setup->scale : "not named", step);
  g_autofree char *weight = tg_mass_format_exact (setup->check_weight);
  g_autofree char *check = setup->check_weight > 0 ? g_strdup_printf ("%s g shows", weight)
                                                   : g_strdup ("check weight shows");
  static const char *const names[] = { "date", "who", "temperature, °C" };
  double third = page->width / 3, half = page->width / 2, height = 0;

  y += tg_page_cell (page, scale, page->left, y, page->width) + 2;
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      double own = tg_page_blank (page, names[i], page->left + i * third, y, third);

      height = MAX (height, own);
    }
  y += height;
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *empty = g_strdup_printf ("%s: empty scale shows", i ? "after" : "before");
      g_autofree char *loaded = g_strdup_printf ("%s: %s", i ? "after" : "before", check);

      tg_page_blank (page, empty, page->left, y, half);
      y += tg_page_blank (page, loaded, page->left + half, y, half);
    }
  y += 4;
  tg_page_rule (page, y, 0.5);
  return y + TG_PAGE_GAP;
}

static double
group_head (const TgPage *page, const Row *row, double y)
{
  const TgPartReview *part = tg_review_part (page->review, row->part);
  g_autofree char *plural = g_strdup (tg_part_kind_plural (part->design->kind));
  g_autofree char *title = row->figure == TG_FIGURE_SMALL_END ? g_strdup ("Small ends, g")
                           : row->figure == TG_FIGURE_BIG_END ? g_strdup ("Big ends, g")
                           : part->design->kind == TG_PART_ROD
                               ? g_strdup ("Whole rods, g (cross-check)")
                               : g_strdup_printf ("%c%s, g", g_ascii_toupper (plural[0]),
                                                  plural + 1);
  double left = page->left + NAME_SHARE * page->width, half = (1 - NAME_SHARE) / 2 * page->width;
  double height = tg_page_words (page, title, page->left, y, page->width, 10, TRUE, TG_ALIGN_LEFT,
                                 page->style.ink) +
                  2;

  if (row->figure == TG_FIGURE_WHOLE)
    return height;
  tg_page_heading (page, "mark up", left, y + height, half);
  return height + tg_page_heading (page, "mark down", left + half, y + height, half) + 2;
}

/* @n boxes in @width, as many lines of them as it takes; their height. */
static double
boxes (const TgPage *page, guint n, double x, double y, double width)
{
  guint across = MIN (n, BOXES_IN_A_ROW);
  double each = MIN (72, (width - 8) / across);

  for (guint i = 0; i < n; i++)
    tg_page_box (
        page, (TgRect){ x + (i % across) * each, y + (i / across) * BOX_HEIGHT, each, BOX_HEIGHT });
  return ((n + across - 1) / across) * BOX_HEIGHT;
}

static double
lines_to_spare (const TgPage *page, double y)
{
  y += tg_page_words (page, "Notes", page->left, y, page->width, 10, TRUE, TG_ALIGN_LEFT,
                      page->style.ink);
  for (guint i = 0; i < SPARE_LINES; i++)
    {
      y += 20;
      tg_page_rule (page, y, 0.4);
    }
  return y + TG_PAGE_GAP;
}

/* A name and its boxes in half the page. */
static double
one_part (const TgPage *page, guint index, double x, double y)
{
  double name_width = NAME_SHARE * page->width, half = page->width / 2;
  double name = tg_page_cell (page, tg_review_part (page->review, index)->part->name, x, y + 3,
                              name_width - 6);
  double height = boxes (page, page->review->setup->repeats, x + name_width, y, half - name_width);

  return MAX (name + 5, height);
}

/* A name and the boxes of both ways up. */
static double
both_ways (const TgPage *page, guint index, double y)
{
  double left = page->left + NAME_SHARE * page->width, half = (1 - NAME_SHARE) / 2 * page->width;
  double name = tg_page_cell (page, tg_review_part (page->review, index)->part->name, page->left,
                              y + 3, NAME_SHARE * page->width - 6);
  double height = boxes (page, page->review->setup->repeats, left, y, half);

  boxes (page, page->review->setup->repeats, left + half, y, half);
  return MAX (name + 5, height);
}

static double
block (const TgPage *page, gconstpointer data, guint index, double y)
{
  const TgDocument *document = data;
  const Row *row;
  double height;

  if (index == document->rows->len)
    return lines_to_spare (page, y);
  row = &g_array_index (document->rows, Row, index);
  if (row->first || y <= page->top)
    y += group_head (page, row, y);
  if (row->figure != TG_FIGURE_WHOLE)
    height = both_ways (page, row->part, y);
  else
    height = one_part (page, row->part, page->left, y);
  if (row->beside >= 0)
    {
      double right = one_part (page, (guint) row->beside, page->left + page->width / 2, y);

      height = MAX (height, right);
    }
  y += height + 2;
  return index + 1 == document->rows->len || g_array_index (document->rows, Row, index + 1).first
             ? y + TG_PAGE_GAP
             : y;
}

/* Whole figures run down the left half, then down the right one. */
static void
add_group (TgDocument *document, TgPartKind kind, TgFigure figure)
{
  g_autoptr (GArray) parts = g_array_new (FALSE, FALSE, sizeof (guint));
  guint n_rows;

  for (guint i = 0; i < document->review->parts->len; i++)
    if (tg_review_part (document->review, i)->design->kind == kind)
      g_array_append_val (parts, i);
  n_rows = figure == TG_FIGURE_WHOLE ? (parts->len + 1) / 2 : parts->len;
  for (guint i = 0; i < n_rows; i++)
    {
      Row row = { g_array_index (parts, guint, i), -1, figure, i == 0 };

      if (figure == TG_FIGURE_WHOLE && n_rows + i < parts->len)
        row.beside = (int) g_array_index (parts, guint, n_rows + i);
      g_array_append_val (document->rows, row);
    }
}

void
tg_document_fill_weigh (TgDocument *document)
{
  document->rows = g_array_new (FALSE, FALSE, sizeof (Row));
  add_group (document, TG_PART_ROD, TG_FIGURE_SMALL_END);
  add_group (document, TG_PART_ROD, TG_FIGURE_BIG_END);
  for (TgPartKind kind = TG_PART_PISTON; kind < TG_N_PART_KINDS; kind++)
    add_group (document, kind, TG_FIGURE_WHOLE);
  add_group (document, TG_PART_ROD, TG_FIGURE_WHOLE);
  document->content.caution = caution;
  document->content.n = document->rows->len + 1;
  document->content.intro = intro;
  document->content.block = block;
}
