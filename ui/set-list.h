/* set-list.h: all parts at a glance, each as its own small shaded outline
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SET_LIST (tg_set_list_get_type ())
G_DECLARE_FINAL_TYPE (TgSetList, tg_set_list, TG, SET_LIST, GtkBox)

/**
 * Properties:
 * "session": TgSession, nullable; the list shows and sets its part
 * "strip": bores from left to right in a strip that scrolls, instead of from top to bottom
 *
 * TgSetList::chosen: the person picked a part with the pointer
 */
GtkWidget *tg_set_list_new (void);

void tg_set_list_set_session (TgSetList *list, TgSession *session);
void tg_set_list_set_strip (TgSetList *list, gboolean strip);

/* Puts the keyboard to the part in work. */
void tg_set_list_focus (TgSetList *list);

G_END_DECLS
