/* even-card.h: the whole set is even: as read, as far as it is proven, and what would prove it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_EVEN_CARD (tg_even_card_get_type ())
G_DECLARE_FINAL_TYPE (TgEvenCard, tg_even_card, TG, EVEN_CARD, GtkBox)

/* Nothing unless the set of @session (nullable) is even.  Reckons anew only after an event. */
void tg_even_card_show (TgEvenCard *card, TgSession *session);

G_END_DECLS
