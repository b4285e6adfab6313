/* outline.c: shapes, views and what rods and pistons share, see outline.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "outline.h"

#include <math.h>

TgPoint
tg_view_point (const TgView *view, TgPoint mm)
{
  if (view->upright)
    return (TgPoint){ view->x + view->scale * mm.y, view->y - view->scale * mm.x };
  return (TgPoint){ view->x + view->scale * mm.x, view->y + view->scale * mm.y };
}

TgShape
tg_view_shape (const TgView *view, const TgShape *mm)
{
  TgShape shape = { .n = mm->n, .center = tg_view_point (view, mm->center) };

  for (guint i = 0; i < mm->n; i++)
    shape.p[i] = tg_view_point (view, mm->p[i]);
  return shape;
}

void
tg_view_apply (cairo_t *cr, const TgView *view)
{
  cairo_matrix_t matrix;

  if (view->upright)
    cairo_matrix_init (&matrix, 0, -view->scale, view->scale, 0, view->x, view->y);
  else
    cairo_matrix_init (&matrix, view->scale, 0, 0, view->scale, view->x, view->y);
  cairo_transform (cr, &matrix);
}

static TgRect
join (TgRect a, TgRect b)
{
  double x0 = MIN (a.x, b.x), y0 = MIN (a.y, b.y);

  return (TgRect){ x0, y0, MAX (a.x + a.width, b.x + b.width) - x0,
                   MAX (a.y + a.height, b.y + b.height) - y0 };
}

TgRect
tg_outline_bounds (const TgDesign *design)
{
  TgRect bounds = design->kind == TG_PART_ROD ? tg_rod_outline_bounds (&design->rod)
                                              : tg_piston_outline_bounds (&design->piston);

  for (guint i = 0; i < design->zones->len; i++)
    {
      TgShape sides[2];
      guint n = tg_outline_zone (design, tg_design_zone (design, i), sides);

      for (guint s = 0; s < n; s++)
        bounds = join (bounds, tg_shape_bounds (&sides[s]));
    }
  return bounds;
}

guint
tg_outline_zone (const TgDesign *design, const TgZone *zone, TgShape sides[2])
{
  if (design->kind == TG_PART_ROD)
    tg_rod_outline_zone (design, zone, sides);
  else
    tg_piston_outline_zone (design, zone, sides);
  return tg_place_is_pair (zone->place) ? 2 : 1;
}

void
tg_outline_draw (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line)
{
  if (design->kind == TG_PART_ROD)
    tg_rod_outline_draw (cr, design, view, style, line);
  else
    tg_piston_outline_draw (cr, design, view, style, line);
}

void
tg_outline_draw_over (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line)
{
  if (design->kind == TG_PART_PISTON)
    tg_piston_outline_draw_grooves (cr, design, view, style, line);
}

TgShape
tg_shape_quad (TgPoint a, TgPoint b, TgPoint c, TgPoint d)
{
  return (TgShape){ .n = 4,
                    .p = { a, b, c, d },
                    .center = { (a.x + b.x + c.x + d.x) / 4, (a.y + b.y + c.y + d.y) / 4 } };
}

TgShape
tg_shape_box (double x0, double y0, double x1, double y1)
{
  return tg_shape_quad ((TgPoint){ x0, y0 }, (TgPoint){ x1, y0 }, (TgPoint){ x1, y1 },
                        (TgPoint){ x0, y1 });
}

TgShape
tg_shape_sector (double x, double y, double inner, double outer, double mid, double half)
{
  const guint steps = TG_SHAPE_MAX / 2;
  double radius = (inner + outer) / 2;
  TgShape shape = { .n = 2 * steps, .center = { x + radius * cos (mid), y + radius * sin (mid) } };

  for (guint i = 0; i < steps; i++)
    {
      double angle = mid - half + 2 * half * i / (steps - 1);

      shape.p[i] = (TgPoint){ x + outer * cos (angle), y + outer * sin (angle) };
      shape.p[2 * steps - 1 - i] = (TgPoint){ x + inner * cos (angle), y + inner * sin (angle) };
    }
  return shape;
}

TgShape
tg_shape_mirror_y (const TgShape *shape)
{
  TgShape mirror = *shape;

  for (guint i = 0; i < shape->n; i++)
    mirror.p[i].y = -shape->p[i].y;
  mirror.center.y = -shape->center.y;
  return mirror;
}

TgShape
tg_shape_mirror_x (const TgShape *shape)
{
  TgShape mirror = *shape;

  for (guint i = 0; i < shape->n; i++)
    mirror.p[i].x = -shape->p[i].x;
  mirror.center.x = -shape->center.x;
  return mirror;
}

gboolean
tg_shape_contains (const TgShape *shape, double x, double y)
{
  gboolean inside = FALSE;

  for (guint i = 0, j = shape->n - 1; i < shape->n; j = i++)
    {
      TgPoint a = shape->p[i], b = shape->p[j];

      if ((a.y > y) != (b.y > y) && x < (b.x - a.x) * (y - a.y) / (b.y - a.y) + a.x)
        inside = !inside;
    }
  return inside;
}

double
tg_shape_distance (const TgShape *shape, double x, double y)
{
  double least = G_MAXDOUBLE;

  if (tg_shape_contains (shape, x, y))
    return 0;
  for (guint i = 0, j = shape->n - 1; i < shape->n; j = i++)
    {
      double dx = shape->p[i].x - shape->p[j].x, dy = shape->p[i].y - shape->p[j].y;
      double length2 = dx * dx + dy * dy;
      double t = length2 > 0 ? ((x - shape->p[j].x) * dx + (y - shape->p[j].y) * dy) / length2 : 0;

      t = CLAMP (t, 0, 1);
      least = MIN (least, hypot (x - shape->p[j].x - t * dx, y - shape->p[j].y - t * dy));
    }
  return least;
}

double
tg_shape_area (const TgShape *shape)
{
  double twice = 0;

  for (guint i = 0, j = shape->n - 1; i < shape->n; j = i++)
    twice += shape->p[j].x * shape->p[i].y - shape->p[i].x * shape->p[j].y;
  return fabs (twice) / 2;
}

TgRect
tg_shape_bounds (const TgShape *shape)
{
  double x0 = shape->p[0].x, y0 = shape->p[0].y, x1 = x0, y1 = y0;

  for (guint i = 1; i < shape->n; i++)
    {
      x0 = MIN (x0, shape->p[i].x);
      y0 = MIN (y0, shape->p[i].y);
      x1 = MAX (x1, shape->p[i].x);
      y1 = MAX (y1, shape->p[i].y);
    }
  return (TgRect){ x0, y0, x1 - x0, y1 - y0 };
}

/* The corner b between a and c: a line to where the fillet starts, then its arc as one Bézier. */
static void
corner (cairo_t *cr, TgPoint a, TgPoint b, TgPoint c, double radius)
{
  double ax = a.x - b.x, ay = a.y - b.y, cx = c.x - b.x, cy = c.y - b.y;
  double la = hypot (ax, ay), lc = hypot (cx, cy);
  double cosine, half, cut, pull;

  if (la <= 0 || lc <= 0 || radius <= 0)
    {
      cairo_line_to (cr, b.x, b.y);
      return;
    }
  cosine = CLAMP ((ax * cx + ay * cy) / (la * lc), -1, 1);
  half = acos (cosine) / 2;
  if (half > 0.49 * G_PI || half < 0.05)
    {
      cairo_line_to (cr, b.x, b.y);
      return;
    }
  cut = MIN (radius / tan (half), MIN (la, lc) / 2);
  /* Length of the Bézier handles for an arc of angle π − 2 half. */
  pull = 4.0 / 3.0 * tan ((G_PI - 2 * half) / 4) * cut * tan (half);
  cairo_line_to (cr, b.x + ax / la * cut, b.y + ay / la * cut);
  cairo_curve_to (cr, b.x + ax / la * (cut - pull), b.y + ay / la * (cut - pull),
                  b.x + cx / lc * (cut - pull), b.y + cy / lc * (cut - pull), b.x + cx / lc * cut,
                  b.y + cy / lc * cut);
}

void
tg_shape_path (cairo_t *cr, const TgShape *shape, double radius, const double *radii)
{
  guint n = shape->n;

  cairo_new_sub_path (cr);
  for (guint i = 0; i < n; i++)
    corner (cr, shape->p[(i + n - 1) % n], shape->p[i], shape->p[(i + 1) % n],
            radii ? radii[i] : radius);
  cairo_close_path (cr);
}

void
tg_set_color (cairo_t *cr, TgColor color)
{
  cairo_set_source_rgb (cr, color.r, color.g, color.b);
}

TgColor
tg_color_mix (TgColor a, TgColor b, double share)
{
  return (TgColor){ a.r + (b.r - a.r) * share, a.g + (b.g - a.g) * share,
                    a.b + (b.b - a.b) * share };
}
