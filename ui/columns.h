/* columns.h: lays children out in as many equal columns as fit
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_COLUMNS (tg_columns_get_type ())
G_DECLARE_FINAL_TYPE (TgColumns, tg_columns, TG, COLUMNS, GtkWidget)

/**
 * TgColumns:column-width:
 * px, least width of a column, 160 by default; with less room there is one column.
 *
 * TgColumns:max-columns:
 * no more columns than this, 0 (the default): as many as fit.
 *
 * TgColumns:spacing:
 * px between columns and rows, 12 by default.
 */

GtkWidget *tg_columns_new (int column_width);

/* Takes @child as the last one. */
void tg_columns_append (TgColumns *self, GtkWidget *child);

G_END_DECLS
