/* table-preview.h: the preview of a table in words, for the page and for the terminal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#include "review.h"
#include "table-import.h"

G_BEGIN_DECLS

/* (transfer full): "14 readings" */
char *tg_table_preview_readings (guint n);

/* (transfer full): "14 new readings, 3 known already, 2 rows cannot be read" */
char *tg_table_preview_counts (const TgTableImport *import);

/* (transfer full): how the table is written: "semicolons, decimal comma, with headings" */
char *tg_table_preview_form (const TgTableImport *import);

/* "commas", "semicolons", "tabs" */
const char *tg_table_preview_separator (char separator);

/* (transfer full): "new", "known already", "known already, struck out", "3 new, 2 known already",
 * "cannot be read" */
char *tg_table_preview_status (const TgTableRow *row);

/**
 * tg_table_preview_row:
 * @review: of the job that the preview was made for
 *
 * Returns: (transfer full): the problem, or the readings: "Rod 1, small end, mark up: 171.6 g; small
 *   end, mark down: 171.7 g"
 */
char *tg_table_preview_row (const TgTableRow *row, const TgReview *review);

/* (transfer full): the same in few words: "Rod 1: 171.6 g; 171.7 g" where there are several */
char *tg_table_preview_row_short (const TgTableRow *row, const TgReview *review);

/**
 * tg_table_preview_text:
 * @all: FALSE: only the rows that cannot be read
 *
 * Returns: (transfer full): form, columns, rows and notes, a line each
 */
char *tg_table_preview_text (const TgTableImport *import, const TgReview *review, gboolean all);

G_END_DECLS
