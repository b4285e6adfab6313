/* odd-card.h: which one part, replaced, would save the most grinding on the others
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

#define TG_TYPE_ODD_CARD (tg_odd_card_get_type ())
G_DECLARE_FINAL_TYPE (TgOddCard, tg_odd_card, TG, ODD_CARD, GtkBox)

/* Reckons anew, some milliseconds; hidden if nothing is to be said. */
void tg_odd_card_show (TgOddCard *card, const TgReview *review);

G_END_DECLS
