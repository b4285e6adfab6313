/* done-list.h: what was done on one part, or lately, each line with its strike-out
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_DONE_LIST (tg_done_list_get_type ())
G_DECLARE_FINAL_TYPE (TgDoneList, tg_done_list, TG, DONE_LIST, GtkBox)

/**
 * Properties:
 * "session": TgSession, nullable
 * "part": index, or -1 for every part
 * "limit": how many entries are shown, newest first
 *
 * TgDoneList::struck: an entry was struck out or put back by its button, on disk
 */
GtkWidget *tg_done_list_new (void);

void tg_done_list_set_session (TgDoneList *list, TgSession *session);
void tg_done_list_set_part (TgDoneList *list, int part);

G_END_DECLS
