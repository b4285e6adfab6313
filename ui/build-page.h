/* build-page.h: which parts go where, and what has been ticked off
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_BUILD_PAGE (tg_build_page_get_type ())
G_DECLARE_FINAL_TYPE (TgBuildPage, tg_build_page, TG, BUILD_PAGE, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_build_page_new (void);

/* Puts the keyboard where work begins. */
void tg_build_page_focus (TgBuildPage *page);

G_END_DECLS
