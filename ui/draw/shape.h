/* shape.h: small closed polygons: boxes, quads, parts of a ring
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

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

G_END_DECLS
