/* match-page.h: which part goes with which
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "match-desk.h"

G_BEGIN_DECLS

#define TG_TYPE_MATCH_PAGE (tg_match_page_get_type ())
G_DECLARE_FINAL_TYPE (TgMatchPage, tg_match_page, TG, MATCH_PAGE, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_match_page_new (void);

/* (lends): what it works on */
TgMatchDesk *tg_match_page_desk (TgMatchPage *page);

/* Puts the keyboard into the bars, or onto the way on where there are none. */
void tg_match_page_focus (TgMatchPage *page);

G_END_DECLS
