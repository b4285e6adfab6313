/* page.h: the frame of everything that is printed, and the words and lines on it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A page is a column of blocks, never broken over two pages.  Every block is measured by the same
 * function that draws it, with no context to draw on, so that pages and heights cannot disagree.
 * Texts are wrapped, never cut.  Black on white; points throughout.
 */
#pragma once

#include "job.h"
#include "review.h"
#include "style.h"
#include "text.h"

G_BEGIN_DECLS

#define TG_PAGE_MARGIN 42.0
#define TG_PAGE_GAP 7.0

typedef struct
{
  double width_pt, height_pt;
} TgPaper;

#define TG_PAPER_A4 ((TgPaper){ 595.276, 841.890 })
#define TG_PAPER_LETTER ((TgPaper){ 612, 792 })

/**
 * TgPage: where things go
 * @cr: NULL while only measuring
 * @decimals: of the scale
 * @full_g: see tg_part_drawing_full_g()
 * @left, @width: of the column
 * @top: where the first block of a page other than the first stands; a block that finds itself there may
 *   say again what its group is
 */
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
  double top;
} TgPage;

/**
 * TgPageContent: what a document consists of
 * @title: "Grind sheet"
 * @caution: stands at the foot of every page
 * @data: handed to the functions
 * @n: blocks
 * @intro: (nullable): what stands above the blocks of the first page
 * @block: draws block @index at @y, or only measures
 *
 * Both return the y below what they drew.
 */
typedef struct
{
  const char *title;
  const char *caution;
  gconstpointer data;
  guint n;
  double (*intro) (const TgPage *page, gconstpointer data, double y);
  double (*block) (const TgPage *page, gconstpointer data, guint index, double y);
} TgPageContent;

guint tg_page_count (const TgJob *job,
                     const TgReview *review,
                     TgPaper paper,
                     const TgPageContent *content);

/* Page @index, from 0. */
void tg_page_draw (cairo_t *cr,
                   const TgJob *job,
                   const TgReview *review,
                   TgPaper paper,
                   const TgPageContent *content,
                   guint index);

/* --- words and lines; they draw, so none belongs into a macro that looks at it twice; they return the
 * height of what they wrote */

double tg_page_words (const TgPage *page,
                      const char *words,
                      double x,
                      double y,
                      double width,
                      double size,
                      gboolean bold,
                      TgAlign align,
                      TgColor color);

/* Ordinary and quiet small type. */
double tg_page_cell (const TgPage *page, const char *words, double x, double y, double width);
double tg_page_heading (const TgPage *page, const char *words, double x, double y, double width);

/**
 * tg_page_row:
 * @words: (array length=n): NULL for an empty cell
 * @shares: (array length=n): where each cell begins, of the width; a number below 0 is its negative and
 *   sets the cell flush right
 * @title: in the type of headings
 * @bold: in bold type
 */
double tg_page_row (const TgPage *page,
                    const char *const *words,
                    const double *shares,
                    guint n,
                    double y,
                    gboolean title,
                    gboolean bold);

/* Across the column. */
void tg_page_rule (const TgPage *page, double y, double width);
void tg_page_box (const TgPage *page, TgRect box);

/* A line to write on, with its name before it. Returns its height. */
double tg_page_blank (const TgPage *page, const char *name, double x, double y, double width);

/* (transfer full): "246.9 g" */
char *tg_page_grams (const TgPage *page, double g);

G_END_DECLS
