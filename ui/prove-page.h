/* prove-page.h: what the evenness is worth, and paper that others can work from
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "paper-view.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_PROVE_PAGE (tg_prove_page_get_type ())
G_DECLARE_FINAL_TYPE (TgProvePage, tg_prove_page, TG, PROVE_PAGE, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_prove_page_new (void);

/* Puts the keyboard where work begins. */
void tg_prove_page_focus (TgProvePage *page);

/* (lends): made now if this is the first time */
TgPaperView *tg_prove_page_paper (TgProvePage *page);

/* (lends): the one that is shown */
const char *tg_prove_page_view (TgProvePage *page);

/* @view: "engine", "forces", "bobweight", "paper" */
void tg_prove_page_show (TgProvePage *page, const char *view);

G_END_DECLS
