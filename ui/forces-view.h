/* forces-view.h: what the spread costs: forces and couples, and how even is even enough
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_FORCES_VIEW (tg_forces_view_get_type ())
G_DECLARE_FINAL_TYPE (TgForcesView, tg_forces_view, TG, FORCES_VIEW, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_forces_view_new (void);

/* Puts the keyboard where work begins. */
void tg_forces_view_focus (TgForcesView *view);

G_END_DECLS
