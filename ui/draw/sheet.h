/* sheet.h: the grind sheet on paper: every part in work with its outline, zones, grams and depths
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same job gives the same bytes: the date on the sheet is that of the last event.
 */
#pragma once

#include "job.h"
#include "review.h"
#include "style.h"

G_BEGIN_DECLS

typedef struct
{
  double width_pt, height_pt;
} TgPaper;

#define TG_PAPER_A4 ((TgPaper){ 595.276, 841.890 })
#define TG_PAPER_LETTER ((TgPaper){ 612, 792 })

guint tg_sheet_n_pages (const TgJob *job, const TgReview *review, TgPaper paper);

/* Draws page @page (from 0) on a context in points whose origin is the paper's corner. */
void tg_sheet_draw_page (
    cairo_t *cr, const TgJob *job, const TgReview *review, TgPaper paper, guint page);

/**
 * tg_sheet_write:
 * @path: ends in .pdf (all pages), .svg or .png (pages below one another)
 * @error: TG_ERROR_SYNTAX for another ending, TG_ERROR_IO if it cannot be written
 *
 * A file that could not be written whole is not left behind.
 */
gboolean tg_sheet_write (
    const TgJob *job, const TgReview *review, TgPaper paper, const char *path, GError **error);

G_END_DECLS
