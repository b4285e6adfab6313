/* grind-page.h: the set, the part in work and the next instruction
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_GRIND_PAGE (tg_grind_page_get_type ())
G_DECLARE_FINAL_TYPE (TgGrindPage, tg_grind_page, TG, GRIND_PAGE, GtkWidget)

/**
 * Properties "session": TgSession, "link": TgScaleLink, both nullable.
 *
 * Widget actions: "grind.freeze", "grind.replace".
 */
GtkWidget *tg_grind_page_new (void);

void tg_grind_page_set_session (TgGrindPage *page, TgSession *session);

/* Puts the keyboard into the field; to the part in the list while something is to be decided. */
void tg_grind_page_focus (TgGrindPage *page);

G_END_DECLS
