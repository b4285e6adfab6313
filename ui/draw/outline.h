/* outline.h: the shape of a rod or piston, and where its zones lie on it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything is in the part's own mm.  Rods: x from the big-end centre towards the small end, y
 * across.  Pistons: x across from the axis, y down from the crown.  A TgView carries mm to the
 * target.
 */
#pragma once

#include "design.h"
#include "shape.h"
#include "style.h"

G_BEGIN_DECLS

/**
 * TgView: target = origin + scale × mm; upright rods stand on their big end
 */
typedef struct
{
  double scale;
  double x, y;
  gboolean upright;
} TgView;

TgPoint tg_view_point (const TgView *view, TgPoint mm);
TgShape tg_view_shape (const TgView *view, const TgShape *mm);
/* From here on the path is given in mm; cairo_restore() before stroking. */
void tg_view_apply (cairo_t *cr, const TgView *view);

/* mm, everything that tg_outline_draw() and the zones fill, without stroke widths. */
TgRect tg_outline_bounds (const TgDesign *design);

/**
 * tg_outline_zone:
 * @sides: (out): one shape, or one for each side of a pair
 *
 * Returns: how many shapes, 1 or 2.
 */
guint tg_outline_zone (const TgDesign *design, const TgZone *zone, TgShape sides[2]);

/**
 * tg_outline_draw:
 * @line: stroke width on the target
 *
 * The bare part.  Thin details are left out where they would run together.
 */
void tg_outline_draw (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line);

/* What lies over the zones again: ring grooves. */
void tg_outline_draw_over (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line);

/* One file for each kind of part behind these. */
TgRect tg_rod_outline_bounds (const TgRodDims *rod);
void tg_rod_outline_zone (const TgDesign *design, const TgZone *zone, TgShape sides[2]);
void tg_rod_outline_draw (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line);
TgRect tg_piston_outline_bounds (const TgPistonDims *piston);
void tg_piston_outline_zone (const TgDesign *design, const TgZone *zone, TgShape sides[2]);
void tg_piston_outline_draw (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line);
void tg_piston_outline_draw_grooves (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line);

G_END_DECLS
