/* reading-entry.h: the field for the next reading
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

/* What is on the scale. */
typedef enum
{
  TG_READING_OF_PART,    /* the slot's part: what is due */
  TG_READING_OF_NOTHING, /* nothing: its zero */
  TG_READING_OF_WEIGHT,  /* the check weight of the setup */
} TgReadingOf;

#define TG_TYPE_READING_ENTRY (tg_reading_entry_get_type ())
G_DECLARE_FINAL_TYPE (TgReadingEntry, tg_reading_entry, TG, READING_ENTRY, GtkBox)

/**
 * Property "session": TgSession, nullable.
 *
 * TgReadingEntry::taken: the reading of a part is on disk and the field is empty again.
 * TgReadingEntry::asks: it asks for something else than before, see tg_reading_entry_asks().
 */
GtkWidget *tg_reading_entry_new (void);

void tg_reading_entry_set_session (TgReadingEntry *entry, TgSession *session);

/* What the next reading is of. What was typed for another slot stays, its question goes. */
void tg_reading_entry_set_slot (TgReadingEntry *entry, TgSlot slot);
TgSlot tg_reading_entry_slot (TgReadingEntry *entry);

/**
 * tg_reading_entry_ask:
 *
 * Asks for the empty scale or the check weight; once it is there, or with Escape, the reading that
 * was due is asked for again, with what was typed for it.
 */
void tg_reading_entry_ask (TgReadingEntry *entry, TgReadingOf what);
TgReadingOf tg_reading_entry_asks (TgReadingEntry *entry);

void tg_reading_entry_focus (TgReadingEntry *entry);

G_END_DECLS
