/* scale-page.h: the scale that everything hangs on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "scale-link.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SCALE_PAGE (tg_scale_page_get_type ())
G_DECLARE_FINAL_TYPE (TgScalePage, tg_scale_page, TG, SCALE_PAGE, GtkWidget)

/* Properties "session": TgSession, "link": TgScaleLink, both nullable */
GtkWidget *tg_scale_page_new (void);

/* Puts the keyboard into the first field. */
void tg_scale_page_focus (TgScalePage *page);

/* The next time into the field of the value at @path. */
void tg_scale_page_want_field (TgScalePage *page, const char *path);

G_END_DECLS
