/* bore-card.h: the bore that is picked: its parts, and what holds them together
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "match-desk.h"

G_BEGIN_DECLS

#define TG_TYPE_BORE_CARD (tg_bore_card_get_type ())
G_DECLARE_FINAL_TYPE (TgBoreCard, tg_bore_card, TG, BORE_CARD, GtkBox)

/* @bore: from 1, of what is on show on the desk */
void tg_bore_card_show (TgBoreCard *card, TgMatchDesk *desk, guint bore);

G_END_DECLS
