/* journal-row.h: one line of the journal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_JOURNAL_ROW (tg_journal_row_get_type ())
G_DECLARE_FINAL_TYPE (TgJournalRow, tg_journal_row, TG, JOURNAL_ROW, GtkBox)

GtkWidget *tg_journal_row_new (void);

/* The heading of a day: its name and what was done on it. */
void tg_journal_row_show_day (TgJournalRow *self, const char *label, const char *summary);

/**
 * tg_journal_row_show_event:
 * @struck: (nullable): when and by whom it was struck out; the sentence is struck through
 */
void tg_journal_row_show_event (TgJournalRow *self,
                                const char *time,
                                const char *sentence,
                                const char *who,
                                const char *struck);

G_END_DECLS
