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
#include "style.h"

G_BEGIN_DECLS

typedef struct
{
  double x, y;
} TgPoint;

#define TG_SHAPE_MAX 32

/**
 * TgShape: a closed polygon
 * @center: a point inside it, where a leader or a tick sits
 */
typedef struct
{
  guint n;
  TgPoint p[TG_SHAPE_MAX];
  TgPoint center;
} TgShape;

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

/* Shapes. */
TgShape tg_shape_box (double x0, double y0, double x1, double y1);
TgShape tg_shape_quad (TgPoint a, TgPoint b, TgPoint c, TgPoint d);
/* Part of a ring about (x, y), @mid ± @half radians, 0 along x, clockwise on the target. */
TgShape tg_shape_sector (double x, double y, double inner, double outer, double mid, double half);
/* Mirrors across: y → −y (rods) or x → −x (pistons). */
TgShape tg_shape_mirror_y (const TgShape *shape);
TgShape tg_shape_mirror_x (const TgShape *shape);
gboolean tg_shape_contains (const TgShape *shape, double x, double y);
double tg_shape_distance (const TgShape *shape, double x, double y);
double tg_shape_area (const TgShape *shape);
TgRect tg_shape_bounds (const TgShape *shape);

/* Adds the closed polygon to the path, corners rounded by at most @radius (by @radii if not NULL). */
void tg_shape_path (cairo_t *cr, const TgShape *shape, double radius, const double *radii);

void tg_set_color (cairo_t *cr, TgColor color);
/* @a with @share of @b mixed in. */
TgColor tg_color_mix (TgColor a, TgColor b, double share);

G_END_DECLS
