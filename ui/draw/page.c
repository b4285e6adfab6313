/* page.c: the frame of everything that is printed, see page.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "page.h"

#include <math.h>

#include "part-drawing.h"

static TgPage
page_on (cairo_t *cr, const TgJob *job, const TgReview *review, TgPaper paper)
{
  return (TgPage){ .cr = cr,
                   .job = job,
                   .review = review,
                   .paper = paper,
                   .style = tg_style_print (),
                   .decimals = tg_mass_decimals (MAX (review->setup->resolution, 1)),
                   .full_g = tg_part_drawing_full_g (review),
                   .left = TG_PAGE_MARGIN,
                   .width = paper.width_pt - 2 * TG_PAGE_MARGIN };
}

/* ── words and lines ───────────────────────────────────────────────────────────────────────── */

/* Writes @words into a column and returns its height. */
double
tg_page_words (const TgPage *page,
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
    .font = page->style.font, .size = size, .bold = bold, .width = width, .align = align
  };
  double height;

  tg_text_measure (&text, words, NULL, &height);
  if (page->cr)
    tg_text_draw (page->cr, &text, words, x, y, color);
  return height;
}

double
tg_page_cell (const TgPage *page, const char *words, double x, double y, double width)
{
  return tg_page_words (page, words, x, y, width, 8, FALSE, TG_ALIGN_LEFT, page->style.ink);
}

double
tg_page_heading (const TgPage *page, const char *words, double x, double y, double width)
{
  return tg_page_words (page, words, x, y, width, 7, FALSE, TG_ALIGN_LEFT, page->style.quiet);
}

void
tg_page_rule (const TgPage *page, double y, double width)
{
  if (!page->cr)
    return;
  tg_color_set (page->cr, page->style.ink);
  cairo_set_line_width (page->cr, width);
  cairo_move_to (page->cr, page->left, y);
  cairo_line_to (page->cr, page->left + page->width, y);
  cairo_stroke (page->cr);
}

void
tg_page_box (const TgPage *page, TgRect box)
{
  if (!page->cr)
    return;
  tg_color_set (page->cr, page->style.ink);
  cairo_set_line_width (page->cr, 0.7);
  cairo_rectangle (page->cr, box.x, box.y, box.width, box.height);
  cairo_stroke (page->cr);
}

double
tg_page_row (const TgPage *page,
             const char *const *words,
             const double *shares,
             guint n,
             double y,
             gboolean title,
             gboolean bold)
{
  double most = 0;

  for (guint i = 0; i < n; i++)
    {
      double from = fabs (shares[i]), to = i + 1 < n ? fabs (shares[i + 1]) : 1;
      double width = (to - from) * page->width - 6;
      TgAlign align = shares[i] < 0 ? TG_ALIGN_RIGHT : TG_ALIGN_LEFT;

      double height;

      if (!words[i])
        continue;
      height = tg_page_words (page, words[i], page->left + from * page->width, y, width,
                              title ? 7 : 8, bold, align,
                              title ? page->style.quiet : page->style.ink);
      most = MAX (most, height);
    }
  return most + 2;
}

double
tg_page_blank (const TgPage *page, const char *name, double x, double y, double width)
{
  double height = tg_page_heading (page, name, x, y + 8, width * 0.45);
  double start = x + width * 0.45 + 4;

  if (page->cr)
    {
      tg_color_set (page->cr, page->style.ink);
      cairo_set_line_width (page->cr, 0.5);
      cairo_move_to (page->cr, start, y + 8 + height);
      cairo_line_to (page->cr, x + width - 6, y + 8 + height);
      cairo_stroke (page->cr);
    }
  return height + 12;
}

char *
tg_page_grams (const TgPage *page, double g)
{
  g_autofree char *number = tg_mass_format (tg_mass_from_g (g), page->decimals);

  return g_strconcat (number, " g", NULL);
}

/* ── head and foot ───────────────────────────────────────────────────────────────────── */

static char *
as_of (const TgJob *job)
{
  guint n = tg_job_n_events (job);
  g_autofree char *day = NULL, *time = NULL;

  if (n == 0)
    return g_strdup (tg_job_setup (job)->practice.on
                         ? "PRACTICE, no real parts – nothing recorded yet"
                         : "nothing recorded yet");
  day = tg_stamp_format_day (tg_job_event (job, n - 1)->stamp);
  time = tg_stamp_format_time (tg_job_event (job, n - 1)->stamp);
  return g_strdup_printf ("%sas recorded up to %s, %s",
                          tg_job_setup (job)->practice.on ? "PRACTICE, no real parts – " : "", day,
                          time);
}

static double
head (const TgPage *page, double y, const TgPageContent *content, guint index, guint n_pages)
{
  g_autofree char *pages = g_strdup_printf ("page %u of %u", index + 1, n_pages);
  g_autofree char *date = as_of (page->job);
  double side = 80, name_width = page->width - side - 12, title_width;
  double h = tg_page_words (page, page->review->setup->name, page->left, y, name_width, 14, TRUE,
                            TG_ALIGN_LEFT, page->style.ink);

  tg_page_words (page, pages, page->left + page->width - side, y + 5, side, 8, FALSE,
                 TG_ALIGN_RIGHT, page->style.ink);
  y += h + 1;
  tg_text_measure (&(TgText){ .font = page->style.font, .size = 8, .bold = TRUE }, content->title,
                   &title_width, NULL);
  title_width = ceil (title_width) + 8;
  tg_page_words (page, content->title, page->left, y, title_width, 8, TRUE, TG_ALIGN_LEFT,
                 page->style.ink);
  y += tg_page_words (page, date, page->left + title_width, y, page->width - title_width, 8, FALSE,
                      TG_ALIGN_LEFT, page->style.quiet);
  y += 4;
  tg_page_rule (page, y, 1.2);
  return y + TG_PAGE_GAP;
}

static double
caution (const TgPage *page, const TgPageContent *content, double y)
{
  return tg_page_words (page, content->caution, page->left, y, page->width, 7.5, FALSE,
                        TG_ALIGN_LEFT, page->style.ink);
}

/* Lowest y that blocks may reach; the caution stands below. */
static double
bottom (const TgPage *page, const TgPageContent *content)
{
  TgPage dry = *page;

  dry.cr = NULL;
  return page->paper.height_pt - TG_PAGE_MARGIN - caution (&dry, content, 0) - 4 - TG_PAGE_GAP;
}

static void
foot (const TgPage *page, const TgPageContent *content)
{
  double y = bottom (page, content) + TG_PAGE_GAP;

  tg_page_rule (page, y, 0.5);
  caution (page, content, y + 4);
}

/* ── pages ─────────────────────────────────────────────────────────────────────────────────── */

/* Lays every block out; draws those of page @index if there is a context. Returns the number of pages. */
static guint
walk (const TgPage *page, const TgPageContent *content, guint index, guint n_pages)
{
  TgPage dry = *page, wet = *page;
  guint at = 0;
  double y, top;

  dry.cr = NULL;
  top = y = head (&dry, TG_PAGE_MARGIN, content, 0, 1);
  dry.top = wet.top = top;
  if (content->intro)
    {
      if (page->cr && index == 0)
        content->intro (&wet, content->data, top);
      y = content->intro (&dry, content->data, top);
    }
  for (guint i = 0; i < content->n; i++)
    {
      double end = content->block (&dry, content->data, i, y);

      if (end - TG_PAGE_GAP > bottom (page, content) && y > top)
        {
          at++;
          y = top;
          end = content->block (&dry, content->data, i, y);
        }
      if (page->cr && at == index)
        content->block (&wet, content->data, i, y);
      y = end;
    }
  if (page->cr)
    {
      head (page, TG_PAGE_MARGIN, content, index, n_pages);
      foot (page, content);
    }
  return at + 1;
}

guint
tg_page_count (const TgJob *job,
               const TgReview *review,
               TgPaper paper,
               const TgPageContent *content)
{
  TgPage page = page_on (NULL, job, review, paper);

  return walk (&page, content, 0, 0);
}

void
tg_page_draw (cairo_t *cr,
              const TgJob *job,
              const TgReview *review,
              TgPaper paper,
              const TgPageContent *content,
              guint index)
{
  TgPage page = page_on (cr, job, review, paper);
  guint n_pages = tg_page_count (job, review, paper, content);

  g_return_if_fail (index < n_pages);

  cairo_save (cr);
  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_rectangle (cr, 0, 0, paper.width_pt, paper.height_pt);
  cairo_fill (cr);
  walk (&page, content, index, n_pages);
  cairo_restore (cr);
}
