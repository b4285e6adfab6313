/* cable-panel.h: a scale on a cable is connected, learned and watched
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "scale-link.h"

G_BEGIN_DECLS

#define TG_TYPE_CABLE_PANEL (tg_cable_panel_get_type ())
G_DECLARE_FINAL_TYPE (TgCablePanel, tg_cable_panel, TG, CABLE_PANEL, GtkBox)

/* Property "link": TgScaleLink, nullable */
GtkWidget *tg_cable_panel_new (void);

void tg_cable_panel_set_link (TgCablePanel *panel, TgScaleLink *link);

/* Puts the keyboard on the first thing to choose. */
gboolean tg_cable_panel_focus (TgCablePanel *panel);

G_END_DECLS
