/* import-page.h: readings from a table: shown first, then taken over
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"
#include "table-import.h"

G_BEGIN_DECLS

/* What a table is called that came without a name. */
#define TG_IMPORT_PASTED "pasted table"

#define TG_TYPE_IMPORT_PAGE (tg_import_page_get_type ())
G_DECLARE_FINAL_TYPE (TgImportPage, tg_import_page, TG, IMPORT_PAGE, GtkBox)

/**
 * TgImportPage:session: (nullable)
 *
 * TgImportPage::left:
 * The person is done here, or wants nothing of it.
 */

GtkWidget *tg_import_page_new (void);

/* Previews @text; @source: what the table is called (tg_table_import_new()). */
void tg_import_page_set_text (TgImportPage *self, const char *text, gsize size, const char *source);

/* The same with a file; FALSE: it could not be read, and the page says why. */
gboolean tg_import_page_load (TgImportPage *self, const char *path);

/* The same with the text on the clipboard, from the main loop. */
void tg_import_page_paste (TgImportPage *self);

/* Appends what is new; FALSE: there was nothing, or it could not be saved, and the page says why. */
gboolean tg_import_page_take_over (TgImportPage *self);

/* Forgets the table. */
void tg_import_page_clear (TgImportPage *self);

/* (lends) (nullable): what is shown */
const TgTableImport *tg_import_page_get_import (TgImportPage *self);

G_END_DECLS
