/* replay-page.h: the journal of a job, entry by entry, with what was known and what was true then
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_REPLAY_PAGE (tg_replay_page_get_type ())
G_DECLARE_FINAL_TYPE (TgReplayPage, tg_replay_page, TG, REPLAY_PAGE, GtkBox)

/* Property "session": (nullable) */
GtkWidget *tg_replay_page_new (void);

/* Goes to the entry with this index; nothing is appended. */
void tg_replay_page_show (TgReplayPage *page, guint index);

/* Index of the entry that is shown; 0 where there is none. */
guint tg_replay_page_index (TgReplayPage *page);

void tg_replay_page_focus (TgReplayPage *page);

G_END_DECLS
