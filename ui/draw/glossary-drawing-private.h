/* glossary-drawing-private.h: the scenes of the glossary, one function each
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scene draws itself in the quiet style, leaves the outline of the spot as the path of @cr (even-odd)
 * and returns the point of it that its name is led to.
 */
#pragma once

#include "glossary-drawing.h"
#include "shape.h"

G_BEGIN_DECLS

typedef TgPoint (*TgGlossaryScene) (cairo_t *cr,
                                    TgRect area,
                                    TgGlossarySpot spot,
                                    const TgStyle *quiet);

TgPoint tg_glossary_rod_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);
TgPoint
tg_glossary_piston_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);
TgPoint
tg_glossary_stand_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);
TgPoint
tg_glossary_scale_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);
TgPoint
tg_glossary_engine_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);
TgPoint
tg_glossary_weights_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);
TgPoint
tg_glossary_turn_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet);

/* Adds a line of some width with a head at each end to the path: a distance. */
void tg_glossary_add_arrow (cairo_t *cr, TgPoint from, TgPoint to, double width);

/* Adds a ring, or with @inner 0 a circle. */
void tg_glossary_add_ring (cairo_t *cr, TgPoint center, double inner, double outer);

G_END_DECLS
