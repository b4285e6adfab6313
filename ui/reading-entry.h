/* reading-entry.h: the field for the next reading
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_READING_ENTRY (tg_reading_entry_get_type ())
G_DECLARE_FINAL_TYPE (TgReadingEntry, tg_reading_entry, TG, READING_ENTRY, GtkBox)

/**
 * Property "session": TgSession, nullable.
 *
 * TgReadingEntry::taken: the reading is on disk and the field is empty again.
 */
GtkWidget *tg_reading_entry_new (void);

void tg_reading_entry_set_session (TgReadingEntry *entry, TgSession *session);

/* What the next reading is of. What was typed for another slot stays, its question goes. */
void tg_reading_entry_set_slot (TgReadingEntry *entry, TgSlot slot);
TgSlot tg_reading_entry_slot (TgReadingEntry *entry);

void tg_reading_entry_focus (TgReadingEntry *entry);

G_END_DECLS
