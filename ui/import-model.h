/* import-model.h: the rows of a previewed table as a list
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "table-import.h"

G_BEGIN_DECLS

#define TG_TYPE_IMPORT_LINE (tg_import_line_get_type ())
G_DECLARE_FINAL_TYPE (TgImportLine, tg_import_line, TG, IMPORT_LINE, GObject)

/* (lends): valid until the model gets another preview */
const TgTableRow *tg_import_line_get_row (TgImportLine *self);

#define TG_TYPE_IMPORT_MODEL (tg_import_model_get_type ())
G_DECLARE_FINAL_TYPE (TgImportModel, tg_import_model, TG, IMPORT_MODEL, GObject)

TgImportModel *tg_import_model_new (void);

/**
 * tg_import_model_set:
 * @import: (nullable): must live until the next call
 * @only_problems: leave out the rows that can be read
 *
 * Lines are made when they are looked at, so that a table may be long.
 */
void tg_import_model_set (TgImportModel *self, const TgTableImport *import, gboolean only_problems);

G_END_DECLS
