/* pairing-view.h: the bars of a pairing, one of which is picked
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "pairing-bars.h"

G_BEGIN_DECLS

#define TG_TYPE_PAIRING_VIEW (tg_pairing_view_get_type ())
G_DECLARE_FINAL_TYPE (TgPairingView, tg_pairing_view, TG, PAIRING_VIEW, GtkWidget)

/**
 * TgPairingView:row:
 * The row that is picked, by mouse, finger, Up, Down, Home or End; 0 by default. Notifies.
 *
 * TgPairingView::picked:
 * A row was clicked or touched, maybe the same again.
 *
 * TgPairingView::entered:
 * Enter was pressed: the keyboard wants to go on to the parts of the row.
 */
GtkWidget *tg_pairing_view_new (void);

/* @bars: (transfer full) (nullable) */
void tg_pairing_view_show (TgPairingView *view, TgPairingBars *bars);

guint tg_pairing_view_row (TgPairingView *view);
void tg_pairing_view_set_row (TgPairingView *view, guint row);

G_END_DECLS
