/* import-form.h: how a table is written: what was found out, and what the person says instead
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "table-import.h"

G_BEGIN_DECLS

#define TG_TYPE_IMPORT_FORM (tg_import_form_get_type ())
G_DECLARE_FINAL_TYPE (TgImportForm, tg_import_form, TG, IMPORT_FORM, GtkBox)

/**
 * TgImportForm::changed:
 * The person said something about the table.
 */

/* A new table of this name: nothing is said about it yet. */
void tg_import_form_reset (TgImportForm *self, const char *name);

/* Shows what was found, or said; @import is NULL if nothing could be read. */
void tg_import_form_show (TgImportForm *self, const TgTableImport *import);

/* Puts what the person said into @options; with another separator the columns are others, and what was
 * said of them goes. */
void tg_import_form_apply (TgImportForm *self, TgTableOptions *options);

/* (lends): the name of the table */
const char *tg_import_form_get_name (TgImportForm *self);

G_END_DECLS
