/* engine-table.h: a free layout, cylinder by cylinder
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_ENGINE_TABLE (tg_engine_table_get_type ())
G_DECLARE_FINAL_TYPE (TgEngineTable, tg_engine_table, TG, ENGINE_TABLE, GtkBox)

/* (nullable): a row for each cylinder: bank, throw, place and crankpin. */
void tg_engine_table_set_session (TgEngineTable *table, TgSession *session);

/* (transfer full): the layout to begin with as TgEngine.free: the one that is in force, or a row of
 * cylinders with a crankpin each. */
char *tg_engine_table_start (const TgSetup *setup);

G_END_DECLS
