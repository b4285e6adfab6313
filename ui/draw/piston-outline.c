/* piston-outline.c: a piston cut along its pin, to its dimensions
 *
 * The cut goes through the pin axis, so that crown, ring lands, both bosses with the pin bore and
 * the foot of the skirt can all be seen and pointed at.  Cut metal has the metal's colour, what lies
 * behind the cut is darker.  A full skirt reaches down at the outer wall; a slipper skirt is cut
 * away beside the bosses, so that its bearing part shows behind them.  What the dimensions do not
 * say (grooves, fillets, width of a slipper) is chosen to look right and carries no meaning for the
 * reckoning.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "outline.h"

#include <math.h>

/* Lengths that follow from the dimensions; all x from the axis, all y from the crown. */
typedef struct
{
  double B, H;
  double wall;      /* skirt thickness */
  double gap;       /* inner face of a boss */
  double outer;     /* outer face of a boss */
  double skirt;     /* outer edge of the skirt: B or, for a slipper, less */
  double foot;      /* underside of the bosses */
  double axis, pin; /* pin axis, pin radius */
  double crown, belt;
} Piston;

static Piston
measure (const TgDesign *design)
{
  const TgPistonDims *dims = &design->piston;
  Piston p = { .B = dims->bore / 2,
               .H = dims->height,
               .axis = dims->compression_height,
               .pin = dims->pin / 2,
               .belt = dims->ring_belt };

  p.wall = MIN (dims->skirt_wall, 0.3 * p.B);
  p.gap = CLAMP (dims->boss_gap / 2, 0.1 * p.B, 0.75 * p.B);
  p.crown = MIN (dims->crown, 0.8 * p.axis);
  p.foot = MIN (p.axis + dims->boss_outer / 2, 0.94 * p.H);
  p.outer = p.B;
  p.skirt = p.B;
  if (design->skirt == TG_SKIRT_SLIPPER)
    {
      p.outer = MAX (0.72 * p.B, p.gap + 0.18 * p.B);
      p.skirt = MIN (p.outer + 0.12 * p.B, 0.97 * p.B);
    }
  return p;
}

TgRect
tg_piston_outline_bounds (const TgPistonDims *dims)
{
  return (TgRect){ -dims->bore / 2, 0, dims->bore, dims->height };
}

static TgShape
skirt_foot (const Piston *p, TgSkirt skirt)
{
  double high = MIN (0.1 * p->H, 0.7 * (p->H - p->foot));

  if (skirt == TG_SKIRT_FULL)
    return tg_shape_box (-p->B + 0.4 * p->wall, p->H - high, -p->B + p->wall + 0.16 * p->B, p->H);
  return tg_shape_box (-0.97 * p->skirt, p->H - high, -0.97 * p->skirt + 0.3 * p->B, p->H);
}

static TgShape
skirt_face (const Piston *p, TgSkirt skirt)
{
  double from = p->belt + 0.1 * (p->H - p->belt), to = p->H - 0.22 * (p->H - p->belt);

  if (skirt == TG_SKIRT_FULL)
    return tg_shape_box (-p->B, from, -p->B + MAX (0.8 * p->wall, 0.05 * p->B), to);
  return tg_shape_box (-p->skirt, from, -p->outer - 0.01 * p->B, to);
}

void
tg_piston_outline_zone (const TgDesign *design, const TgZone *zone, TgShape sides[2])
{
  Piston p = measure (design);
  TgShape *a = &sides[0];
  double thin = p.foot - p.axis - p.pin;

  switch (zone->place)
    {
    case TG_PLACE_PIN_BOSS_FEET:
      *a = tg_shape_box (-p.outer + (p.outer < p.B ? 0 : p.wall),
                         p.foot - MAX (0.75 * thin, 0.03 * p.H), -p.gap, p.foot);
      break;
    case TG_PLACE_SKIRT_FOOT:
      *a = skirt_foot (&p, design->skirt);
      break;
    case TG_PLACE_CROWN_UNDERSIDE:
      *a = tg_shape_box (-0.8 * p.gap, 0.5 * p.crown, 0.8 * p.gap, p.crown);
      break;
    case TG_PLACE_CROWN_TOP:
      *a = tg_shape_box (-0.78 * p.B, 0, 0.78 * p.B, 0.38 * p.crown);
      break;
    case TG_PLACE_RING_LANDS:
      *a = tg_shape_box (-p.B, 0.04 * p.belt, -0.88 * p.B, p.belt);
      break;
    case TG_PLACE_PIN_BORE:
      *a = tg_shape_box (-p.outer, p.axis - p.pin, -p.gap, p.axis + p.pin);
      break;
    case TG_PLACE_SKIRT_FACE:
    default:
      *a = skirt_face (&p, design->skirt);
      break;
    }
  sides[1] = tg_shape_mirror_x (a);
}

/* Adds (x, y) to the left half of an outline; its mirror is added at the other end. */
static void
add (TgShape *shape, double *radii, double x, double y, double radius)
{
  shape->p[shape->n] = (TgPoint){ x, y };
  radii[shape->n++] = radius;
}

static void
mirror_half (TgShape *shape, double *radii)
{
  guint half = shape->n;

  for (guint i = 0; i < half; i++)
    {
      TgPoint p = shape->p[half - 1 - i];

      add (shape, radii, -p.x, p.y, radii[half - 1 - i]);
    }
}

static void
path (cairo_t *cr, const TgView *view, const TgShape *shape, double radius, const double *radii)
{
  cairo_save (cr);
  tg_view_apply (cr, view);
  tg_shape_path (cr, shape, radius, radii);
  cairo_restore (cr);
}

static void
fill_and_stroke (cairo_t *cr, TgColor fill, TgColor ink, double line)
{
  tg_set_color (cr, fill);
  cairo_fill_preserve (cr);
  tg_set_color (cr, ink);
  cairo_set_line_width (cr, line);
  cairo_stroke (cr);
}

/* The cut metal: outside down the left, inside back up to the middle of the crown. */
static void
section (const Piston *p, TgSkirt skirt, TgShape *shape, double *radii)
{
  double chamfer = 0.03 * p->B, boss = 0.06 * p->B;

  shape->n = 0;
  add (shape, radii, -p->B, 0, chamfer);
  if (skirt == TG_SKIRT_FULL)
    {
      add (shape, radii, -p->B, p->H, 0.3 * p->wall);
      add (shape, radii, -p->B + p->wall, p->H, 0.3 * p->wall);
      add (shape, radii, -p->B + p->wall, p->foot, boss);
      add (shape, radii, -p->gap, p->foot, 0.7 * boss);
    }
  else
    {
      add (shape, radii, -p->B, p->belt, 0.5 * chamfer);
      add (shape, radii, -p->outer, p->belt, 2 * boss);
      add (shape, radii, -p->outer, p->foot, 0.7 * boss);
      add (shape, radii, -p->gap, p->foot, 0.7 * boss);
    }
  add (shape, radii, -p->gap, p->crown, MIN (3 * boss, 0.6 * p->gap));
  mirror_half (shape, radii);
}

/* The skirt behind the cut. */
static void
behind (const Piston *p, TgSkirt skirt, TgShape *shape, double *radii)
{
  shape->n = 0;
  if (skirt == TG_SKIRT_FULL)
    {
      add (shape, radii, -p->B + 0.5 * p->wall, p->crown / 2, 0);
      add (shape, radii, -p->B + 0.5 * p->wall, p->H - 0.25 * p->wall, 0);
      add (shape, radii, -0.3 * p->gap, p->H - 0.25 * p->wall, 0);
    }
  else
    {
      double arch = MIN (0.55 * (p->H - p->foot), 0.12 * p->H);

      add (shape, radii, -p->skirt, p->crown / 2, 0);
      add (shape, radii, -p->skirt, p->H, 0.06 * p->B);
      add (shape, radii, -p->skirt + 0.42 * p->B, p->H, arch);
      add (shape, radii, -p->skirt + 0.42 * p->B + arch, p->H - arch, arch);
    }
  mirror_half (shape, radii);
}

static void
draw_pin_bore (cairo_t *cr, const Piston *p, const TgView *view, const TgStyle *style, double line)
{
  TgShape bore = tg_shape_box (-p->outer, p->axis - p->pin, -p->gap, p->axis + p->pin);
  TgShape other = tg_shape_mirror_x (&bore);
  TgPoint a = tg_view_point (view, (TgPoint){ -0.97 * p->B, p->axis });
  TgPoint b = tg_view_point (view, (TgPoint){ 0.97 * p->B, p->axis });
  const double axis[] = { 8 * line, 2 * line, 1.5 * line, 2 * line };

  path (cr, view, &bore, 0, NULL);
  fill_and_stroke (cr, style->ground, style->ink, 0.8 * line);
  path (cr, view, &other, 0, NULL);
  fill_and_stroke (cr, style->ground, style->ink, 0.8 * line);
  if (p->pin * view->scale < 6)
    return;
  tg_set_color (cr, tg_color_mix (style->metal, style->ink, 0.6));
  cairo_set_line_width (cr, 0.5 * line);
  cairo_set_dash (cr, axis, 4, 0);
  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

void
tg_piston_outline_draw (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line)
{
  Piston p = measure (design);
  TgColor shade = tg_color_mix (style->metal, style->ink, style->dark ? 0.16 : 0.14);
  TgShape shape;
  double radii[TG_SHAPE_MAX];

  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  behind (&p, design->skirt, &shape, radii);
  path (cr, view, &shape, 0, radii);
  fill_and_stroke (cr, shade, style->ink, 0.8 * line);
  section (&p, design->skirt, &shape, radii);
  path (cr, view, &shape, 0, radii);
  fill_and_stroke (cr, style->metal, style->ink, line);
  draw_pin_bore (cr, &p, view, style, line);
  cairo_restore (cr);
}

/* Two compression grooves and a wider one for oil, as shares of the ring belt: top and height. */
static const double grooves[][2] = { { 0.24, 0.1 }, { 0.47, 0.1 }, { 0.7, 0.17 } };

void
tg_piston_outline_draw_grooves (
    cairo_t *cr, const TgDesign *design, const TgView *view, const TgStyle *style, double line)
{
  Piston p = measure (design);
  double deep = 0.085 * p.B;

  if (0.1 * p.belt * view->scale < 1)
    return;
  cairo_save (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  for (guint i = 0; i < G_N_ELEMENTS (grooves); i++)
    {
      double top = grooves[i][0] * p.belt, bottom = top + grooves[i][1] * p.belt;

      for (int side = -1; side <= 1; side += 2)
        {
          TgPoint outer = tg_view_point (view, (TgPoint){ side * p.B, top });
          TgPoint inner = tg_view_point (view, (TgPoint){ side * (p.B - deep), bottom });
          double past = side * line;

          tg_set_color (cr, style->ground);
          cairo_rectangle (cr, MIN (inner.x, outer.x + past), outer.y,
                           fabs (outer.x + past - inner.x), inner.y - outer.y);
          cairo_fill (cr);
          tg_set_color (cr, style->ink);
          cairo_set_line_width (cr, 0.7 * line);
          cairo_move_to (cr, outer.x + 0.5 * past, outer.y);
          cairo_line_to (cr, inner.x, outer.y);
          cairo_line_to (cr, inner.x, inner.y);
          cairo_line_to (cr, outer.x + 0.5 * past, inner.y);
          cairo_stroke (cr);
        }
    }
  cairo_restore (cr);
}
