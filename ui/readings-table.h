/* readings-table.h: every reading of the set in one table
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_READINGS_TABLE (tg_readings_table_get_type ())
G_DECLARE_FINAL_TYPE (TgReadingsTable, tg_readings_table, TG, READINGS_TABLE, GtkBox)

/**
 * Property "session": TgSession, nullable.
 *
 * TgReadingsTable::chosen: (guint part, guint figure): the person picked a cell
 */
GtkWidget *tg_readings_table_new (void);

void tg_readings_table_set_session (TgReadingsTable *table, TgSession *session);

/* Whether the figures may go over several lines, where there is little room. */
void tg_readings_table_set_wrap (TgReadingsTable *table, gboolean wrap);

/* The place that is being read now: its cell is singled out. */
void tg_readings_table_set_slot (TgReadingsTable *table, TgSlot slot);

G_END_DECLS
