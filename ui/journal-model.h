/* journal-model.h: the journal as a list: days and what was done on them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

#include "session.h"

G_BEGIN_DECLS

/* One line: a day (index into review->days) or an event (index into the job). */
#define TG_TYPE_JOURNAL_LINE (tg_journal_line_get_type ())
G_DECLARE_FINAL_TYPE (TgJournalLine, tg_journal_line, TG, JOURNAL_LINE, GObject)

gboolean tg_journal_line_is_day (TgJournalLine *self);
guint tg_journal_line_get_index (TgJournalLine *self);
/* Index of the event that strikes this one, or -1. */
int tg_journal_line_get_struck_by (TgJournalLine *self);

#define TG_TYPE_JOURNAL_MODEL (tg_journal_model_get_type ())
G_DECLARE_FINAL_TYPE (TgJournalModel, tg_journal_model, TG, JOURNAL_MODEL, GObject)

TgJournalModel *tg_journal_model_new (void);

/**
 * tg_journal_model_update:
 * @session: (nullable)
 * @part: (nullable): id of the only part whose lines are wanted
 *
 * Lines that did not change stay where they are.
 */
void tg_journal_model_update (TgJournalModel *self, TgSession *session, const char *part);

/* Position of the line of event @index, or GTK_INVALID_LIST_POSITION (G_MAXUINT). */
guint tg_journal_model_find_event (TgJournalModel *self, guint index);

G_END_DECLS
