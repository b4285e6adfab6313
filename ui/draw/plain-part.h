/* plain-part.h: the parts that are only weighed, as plain schematic outlines
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pins, ring packs, clip pairs and bearing pairs have no dimensions and no zones; their pictures are
 * signs, the same for every job.  Rods and pistons are in outline.h.
 */
#pragma once

#include "outline.h"

G_BEGIN_DECLS

/* mm of the sign, everything that tg_plain_part_draw() fills, without stroke widths; it stands on the
 * lower edge. */
TgRect tg_plain_part_bounds (TgPartKind kind);

/* @line: stroke width on the target */
void tg_plain_part_draw (
    cairo_t *cr, TgPartKind kind, const TgView *view, const TgStyle *style, double line);

/* In the middle of @area, no larger than suits the size of text.  Nothing is drawn outside @area and
 * the cairo state is restored. */
void tg_plain_part_draw_in (cairo_t *cr, TgRect area, TgPartKind kind, const TgStyle *style);

G_END_DECLS
