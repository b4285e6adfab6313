/* bobweight-view.h: the bobweight of each crankpin, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_BOBWEIGHT_VIEW (tg_bobweight_view_get_type ())
G_DECLARE_FINAL_TYPE (TgBobweightView, tg_bobweight_view, TG, BOBWEIGHT_VIEW, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_bobweight_view_new (void);

/* Puts the keyboard where work begins. */
void tg_bobweight_view_focus (TgBobweightView *view);

G_END_DECLS
