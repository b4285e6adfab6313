/* engine-view.h: the engine: layout, stroke, speed, drawn from the front and the side
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_ENGINE_VIEW (tg_engine_view_get_type ())
G_DECLARE_FINAL_TYPE (TgEngineView, tg_engine_view, TG, ENGINE_VIEW, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_engine_view_new (void);

/* Puts the keyboard where work begins. */
void tg_engine_view_focus (TgEngineView *view);

G_END_DECLS
