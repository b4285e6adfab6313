/* import-row.h: one row of a previewed table: what it gives, and its cells
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"
#include "table-import.h"

G_BEGIN_DECLS

/* Characters: the columns of the rows stand below those of TgImportColumns. */
#define TG_IMPORT_LINE_CHARS 4
#define TG_IMPORT_GIVES_CHARS 27
#define TG_IMPORT_CELL_CHARS 15

#define TG_TYPE_IMPORT_ROW (tg_import_row_get_type ())
G_DECLARE_FINAL_TYPE (TgImportRow, tg_import_row, TG, IMPORT_ROW, GtkBox)

GtkWidget *tg_import_row_new (void);

/* @n_columns: cells that are shown, empty ones too */
void tg_import_row_show (TgImportRow *self,
                         const TgTableRow *row,
                         const TgReview *review,
                         guint n_columns);

G_END_DECLS
