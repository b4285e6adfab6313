/* journal-page.h: everything that was done, day by day
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_JOURNAL_PAGE (tg_journal_page_get_type ())
G_DECLARE_FINAL_TYPE (TgJournalPage, tg_journal_page, TG, JOURNAL_PAGE, GtkBox)

GtkWidget *tg_journal_page_new (void);

/* TgJournalPage:session: (nullable) */

/* Selects the line of event @index, if it is shown. */
void tg_journal_page_select (TgJournalPage *self, guint index);

/* Strikes out the selected event, or takes its strike back; FALSE if nothing was done. */
gboolean tg_journal_page_toggle_strike (TgJournalPage *self);

/* Appends what stands in the note's entry; FALSE if it is empty or was refused. */
gboolean tg_journal_page_add_note (TgJournalPage *self);

/* The lines as the list has them. */
GListModel *tg_journal_page_get_lines (TgJournalPage *self);

G_END_DECLS
