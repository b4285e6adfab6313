/* import-columns.h: the heads of a previewed table, each with what stands in the column
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "table-import.h"

G_BEGIN_DECLS

#define TG_TYPE_IMPORT_COLUMNS (tg_import_columns_get_type ())
G_DECLARE_FINAL_TYPE (TgImportColumns, tg_import_columns, TG, IMPORT_COLUMNS, GtkBox)

/**
 * TgImportColumns::chosen (guint column, guint kind):
 * The person says what stands in a column: a TgColumn, TG_COLUMN_GUESS: it is to be found again.
 */

/* Shows titles and kinds as they were chosen or found. */
void tg_import_columns_show (TgImportColumns *self, const TgTableImport *import);

G_END_DECLS
