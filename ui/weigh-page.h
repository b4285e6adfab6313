/* weigh-page.h: the set goes over the scale, one reading after the other
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "reading-entry.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_WEIGH_PAGE (tg_weigh_page_get_type ())
G_DECLARE_FINAL_TYPE (TgWeighPage, tg_weigh_page, TG, WEIGH_PAGE, GtkWidget)

/* Properties "session": TgSession, "link": TgScaleLink, both nullable */
GtkWidget *tg_weigh_page_new (void);

void tg_weigh_page_set_session (TgWeighPage *page, TgSession *session);

/* Makes the page ready for a reading of @slot. */
void tg_weigh_page_set_slot (TgWeighPage *page, TgSlot slot);

/* To the first reading that is missing. */
void tg_weigh_page_lead (TgWeighPage *page);

/* Asks for the empty scale or the check weight, then again for what was due. */
void tg_weigh_page_check (TgWeighPage *page, TgReadingOf what);

/* Puts the keyboard into the field. */
void tg_weigh_page_focus (TgWeighPage *page);

G_END_DECLS
