/* outline.c: views, and which file draws which kind of part, see outline.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "outline.h"

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
