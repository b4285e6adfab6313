/* next-panel.h: the one next instruction, and the field for the reading that follows it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_NEXT_PANEL (tg_next_panel_get_type ())
G_DECLARE_FINAL_TYPE (TgNextPanel, tg_next_panel, TG, NEXT_PANEL, GtkBox)

/* Properties "session": TgSession, "link": TgScaleLink, both nullable; the panel is about the
 * session's part. */
GtkWidget *tg_next_panel_new (void);

void tg_next_panel_set_session (TgNextPanel *panel, TgSession *session);

/* Puts the keyboard into the field; FALSE while something is to be decided first. */
gboolean tg_next_panel_focus (TgNextPanel *panel);

G_END_DECLS
