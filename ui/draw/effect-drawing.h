/* effect-drawing.h: a part with one place lit, and what metal off it does to its ends
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design.h"
#include "rod-statics.h"
#include "setup.h"
#include "style.h"

G_BEGIN_DECLS

/**
 * TgEffectDrawing: what is lit
 * @zone: index in the design, or -1
 * @end: of a rod: TG_FIGURE_SMALL_END or _BIG_END; TG_FIGURE_WHOLE: neither
 * @moves: an arrow stands at each end of a rod: up where its reading rises, down where it falls
 * @effect: by how much, g
 */
typedef struct
{
  int zone;
  TgFigure end;
  gboolean moves;
  TgRodStatics effect;
} TgEffectDrawing;

/* For rods and pistons; nothing is drawn outside @area, and the cairo state is restored. */
void tg_effect_drawing_draw (cairo_t *cr,
                             TgRect area,
                             const TgDesign *design,
                             const TgEffectDrawing *how,
                             const TgStyle *style);

/* (transfer full): the same for somebody who does not see it: "Rod, cap pad lit; small end −0.12 g, big
 * end +1.12 g" */
char *tg_effect_drawing_words (const TgDesign *design, const TgEffectDrawing *how);

G_END_DECLS
