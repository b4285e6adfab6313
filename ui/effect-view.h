/* effect-view.h: a part with one place lit, and what metal off it does to its ends
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "effect-drawing.h"

G_BEGIN_DECLS

#define TG_TYPE_EFFECT_VIEW (tg_effect_view_get_type ())
G_DECLARE_FINAL_TYPE (TgEffectView, tg_effect_view, TG, EFFECT_VIEW, GtkDrawingArea)

/* @design: a rod's or a piston's, copied; NULL: nothing is drawn */
void tg_effect_view_show (TgEffectView *view, const TgDesign *design, const TgEffectDrawing *how);

/* (lends): what is drawn. */
const TgEffectDrawing *tg_effect_view_how (TgEffectView *view);

G_END_DECLS
