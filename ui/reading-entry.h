/* reading-entry.h: the field for the next reading
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "scale-link.h"
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
 * Properties "session": TgSession, "link": TgScaleLink, both nullable.
 *
 * TgReadingEntry::taken: the reading of a part is on disk and the field is empty again.
 * TgReadingEntry::asks: it asks for something else than before, see tg_reading_entry_asks().
 */
GtkWidget *tg_reading_entry_new (void);

void tg_reading_entry_set_session (TgReadingEntry *entry, TgSession *session);

/* While the field is shown, what the scale sends is taken like what is typed. */
void tg_reading_entry_set_link (TgReadingEntry *entry, TgScaleLink *link);

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

/**
 * tg_reading_entry_offer:
 * @sent: the scale sent it, nobody typed it
 *
 * As if @mass were typed and Enter pressed, but never as the answer to a question.
 * Returns: FALSE, with nothing done, while the field is not shown in the window in front or while
 *   somebody is typing in it.
 */
gboolean tg_reading_entry_offer (TgReadingEntry *entry, TgMass mass, gboolean sent);

void tg_reading_entry_focus (TgReadingEntry *entry);

G_END_DECLS
