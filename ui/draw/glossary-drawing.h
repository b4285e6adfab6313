/* glossary-drawing.h: a term's spot, lit on a plain drawing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The drawings are of no engine in particular: a rod, a piston cut along its pin, a rod on stand and
 * scale, a scale, two cylinders in a V from the front, weights on a line, a force in a turn.
 */
#pragma once

#include "glossary.h"
#include "style.h"

G_BEGIN_DECLS

/**
 * tg_glossary_drawing_draw:
 * @spot: TG_SPOT_NONE: nothing is drawn
 *
 * Made for 240 × 150 and more, in px of ordinary text 13 high.  Nothing is drawn outside @area and the
 * cairo state is restored.
 */
void tg_glossary_drawing_draw (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *style);

/* The bounding box of what is lit, without stroke widths; all 0 for TG_SPOT_NONE. */
TgRect tg_glossary_drawing_lit (TgRect area, TgGlossarySpot spot, const TgStyle *style);

/* (transfer full): for those who do not see it: "A connecting rod; lit: small end"; "" for none */
char *tg_glossary_drawing_words (TgGlossarySpot spot);

G_END_DECLS
