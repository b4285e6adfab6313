/* debrief-page.h: how a practice job was done
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_DEBRIEF_PAGE (tg_debrief_page_get_type ())
G_DECLARE_FINAL_TYPE (TgDebriefPage, tg_debrief_page, TG, DEBRIEF_PAGE, GtkBox)

/* Property "session": (nullable) */
GtkWidget *tg_debrief_page_new (void);

G_END_DECLS
