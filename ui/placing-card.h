/* placing-card.h: what a shelf of spares offers, and how crankpins that carry two rods are loaded
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_PLACING_CARD (tg_placing_card_get_type ())
G_DECLARE_FINAL_TYPE (TgPlacingCard, tg_placing_card, TG, PLACING_CARD, GtkBox)

/* Reckons anew, some tens of milliseconds at the most; hidden if nothing is to be said.  @session is
 * kept: a choice that is pressed is appended to it. */
void tg_placing_card_show (TgPlacingCard *card, TgSession *session);

/**
 * TgPlacingCard::leave:
 * What has the focus is about to go: the page takes it elsewhere.
 */

G_END_DECLS
