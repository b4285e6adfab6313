/* glossary-parts.c: a rod and a piston with one of their spots, see glossary-drawing-private.h
 *
 * Dimensions are those of no maker; the outlines and most spots are those of the drawings of a job.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glossary-drawing-private.h"

#include "outline.h"

static const TgRodDims rod_dims = {
  .centres = 140,
  .big_bore = 56,
  .big_outer = 76,
  .small_bore = 22,
  .small_outer = 36,
  .beam_big = 30,
  .beam_small = 20,
  .shoulder_span = 92,
  .shoulder = 22,
  .cap_shoulder = 20,
  .cap_pad = 7,
  .cap_pad_width = 20,
  .small_pad = 6,
  .small_pad_width = 16,
};

static const TgPistonDims piston_dims = {
  .bore = 86,
  .height = 66,
  .compression_height = 38,
  .pin = 20,
  .crown = 9,
  .ring_belt = 25,
  .boss_outer = 36,
  .boss_gap = 30,
  .skirt_wall = 5,
};

/* What the rings fill: as shares of the ring belt, top and height, as the grooves are drawn. */
static const double rings[][2] = { { 0.24, 0.1 }, { 0.47, 0.1 }, { 0.7, 0.17 } };
#define RING_DEPTH 0.085
#define PIN_REACH 0.76 /* of the piston's radius */
#define CLIP 2.2       /* mm, radius of its wire */
#define SHELL 4.0      /* mm */
#define ARROW 2.0      /* strokes */

static TgView
fit (TgRect area, TgRect mm)
{
  TgView view = { .scale = MIN (area.width / mm.width, area.height / mm.height) };

  view.x = area.x + area.width / 2 - view.scale * (mm.x + mm.width / 2);
  view.y = area.y + area.height / 2 - view.scale * (mm.y + mm.height / 2);
  return view;
}

static TgPoint
add_shape (cairo_t *cr, const TgView *view, const TgShape *mm)
{
  TgShape shape = tg_view_shape (view, mm);

  tg_shape_path (cr, &shape, 0, NULL);
  return shape.center;
}

/* @box and the same on the other side of the axis. */
static TgPoint
add_pair (cairo_t *cr, const TgView *view, const TgShape *box, gboolean across_x)
{
  TgShape other = across_x ? tg_shape_mirror_x (box) : tg_shape_mirror_y (box);

  add_shape (cr, view, &other);
  return add_shape (cr, view, box);
}

static TgPoint
add_place (cairo_t *cr, const TgView *view, const TgDesign *design, TgPlace place)
{
  TgZone *zone = tg_zone_new ();
  TgShape sides[2];
  TgPoint at = { 0, 0 };
  guint n;

  zone->place = place;
  n = tg_outline_zone (design, zone, sides);
  for (guint i = n; i > 0; i--)
    at = add_shape (cr, view, &sides[i - 1]);
  tg_zone_free (zone);
  return at;
}

static TgPoint
add_frame (cairo_t *cr, const TgView *view, TgRect mm)
{
  TgShape box = tg_shape_box (mm.x, mm.y, mm.x + mm.width, mm.y + mm.height);
  TgShape frame = tg_view_shape (view, &box);

  tg_shape_path (cr, &frame, 8, NULL);
  return (TgPoint){ frame.center.x, frame.p[0].y };
}

static TgPoint
add_distance (cairo_t *cr, const TgView *view, TgPoint from, TgPoint to, double line)
{
  TgPoint a = tg_view_point (view, from), b = tg_view_point (view, to);

  tg_glossary_add_arrow (cr, a, b, ARROW * line);
  return (TgPoint){ (a.x + b.x) / 2, (a.y + b.y) / 2 };
}

/* --- a rod ----------------------------------------------------------------------------------- */

static TgPoint
add_ring (cairo_t *cr, const TgView *view, double x, double inner, double outer)
{
  TgPoint center = tg_view_point (view, (TgPoint){ x, 0 });
  TgPoint at = tg_view_point (view, (TgPoint){ x, -(inner + outer) / 2 });

  tg_glossary_add_ring (cr, center, view->scale * inner, view->scale * outer);
  return at;
}

static TgPoint
add_cap (cairo_t *cr, const TgView *view, const TgRodDims *rod)
{
  double half = rod->shoulder_span / 2, bore = rod->big_bore / 2;
  double back = -rod->big_outer / 2 - rod->cap_pad;
  TgPoint center = tg_view_point (view, (TgPoint){ 0, 0 });
  TgShape shape = { .n = 8,
                    .p = { { 0, -bore },
                           { 0, -half },
                           { -rod->cap_shoulder, -half },
                           { back, -rod->cap_pad_width / 2 },
                           { back, rod->cap_pad_width / 2 },
                           { -rod->cap_shoulder, half },
                           { 0, half },
                           { 0, bore } } };
  TgShape cap = tg_view_shape (view, &shape);

  cairo_new_sub_path (cr);
  for (guint i = 0; i < cap.n; i++)
    cairo_line_to (cr, cap.p[i].x, cap.p[i].y);
  cairo_arc (cr, center.x, center.y, view->scale * bore, G_PI / 2, 1.5 * G_PI);
  cairo_close_path (cr);
  return tg_view_point (view, (TgPoint){ -rod->cap_shoulder / 2, -0.9 * half });
}

static TgPoint
add_beam (cairo_t *cr, const TgView *view, const TgRodDims *rod)
{
  double from = rod->big_outer / 2, to = rod->centres - rod->small_outer / 2;
  double a = rod->beam_big / 2, b = rod->beam_small / 2;
  TgShape beam = tg_shape_quad ((TgPoint){ from, -a }, (TgPoint){ to, -b }, (TgPoint){ to, b },
                                (TgPoint){ from, a });

  return add_shape (cr, view, &beam);
}

/* Places that a job's drawing knows as zones. */
static TgPlace
rod_place (TgGlossarySpot spot)
{
  switch ((int) spot)
    {
    case TG_SPOT_BEAM_EDGE:
      return TG_PLACE_BEAM_EDGES;
    case TG_SPOT_SMALL_END_PAD:
      return TG_PLACE_SMALL_END_PAD;
    case TG_SPOT_SMALL_END_SIDE:
      return TG_PLACE_SMALL_END_SIDES;
    case TG_SPOT_BIG_END_SHOULDER:
      return TG_PLACE_BIG_END_SHOULDERS;
    case TG_SPOT_BOLT_SEAT:
      return TG_PLACE_BOLT_SEATS;
    case TG_SPOT_CAP_SHOULDER:
      return TG_PLACE_CAP_SHOULDERS;
    case TG_SPOT_CAP_PAD:
      return TG_PLACE_CAP_PAD;
    case TG_SPOT_CAP_BACK:
    default:
      return TG_PLACE_CAP_BACK;
    }
}

static TgPoint
add_rod_spot (
    cairo_t *cr, const TgView *view, const TgDesign *design, TgGlossarySpot spot, double line)
{
  const TgRodDims *rod = &design->rod;
  TgShape joint = tg_shape_box (-1.2, -rod->shoulder_span / 2, 1.2, -rod->big_bore / 2);

  switch ((int) spot)
    {
    case TG_SPOT_ROD:
      return add_frame (cr, view, tg_rod_outline_bounds (rod));
    case TG_SPOT_SMALL_END:
      return add_ring (cr, view, rod->centres, rod->small_bore / 2, rod->small_outer / 2);
    case TG_SPOT_BIG_END:
      return add_ring (cr, view, 0, rod->big_bore / 2, rod->big_outer / 2);
    case TG_SPOT_CAP:
      return add_cap (cr, view, rod);
    case TG_SPOT_CAP_JOINT:
      return add_pair (cr, view, &joint, FALSE);
    case TG_SPOT_BEAM:
      return add_beam (cr, view, rod);
    case TG_SPOT_BEARING_SHELL:
      return add_ring (cr, view, 0, rod->big_bore / 2 - SHELL, rod->big_bore / 2);
    case TG_SPOT_CENTRE_DISTANCE:
      return add_distance (cr, view, (TgPoint){ 0, 0 }, (TgPoint){ rod->centres, 0 }, line);
    case TG_SPOT_LEVER_ARM:
      return add_distance (cr, view, (TgPoint){ 0, 0 }, (TgPoint){ 0.6 * rod->centres, 0 }, line);
    default:
      return add_place (cr, view, design, rod_place (spot));
    }
}

TgPoint
tg_glossary_rod_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  g_autoptr (TgDesign) design = tg_design_new (TG_PART_ROD);
  TgView view;

  design->rod = rod_dims;
  view = fit (area, tg_rod_outline_bounds (&rod_dims));
  tg_rod_outline_draw (cr, design, &view, quiet, quiet->line);
  cairo_new_path (cr);
  return add_rod_spot (cr, &view, design, spot, quiet->line);
}

/* --- a piston -------------------------------------------------------------------------------- */

static TgShape
pin_box (void)
{
  const TgPistonDims *p = &piston_dims;
  double reach = PIN_REACH * p->bore / 2;

  return tg_shape_box (-reach, p->compression_height - p->pin / 2, reach,
                       p->compression_height + p->pin / 2);
}

static TgPoint
add_rings (cairo_t *cr, const TgView *view)
{
  const TgPistonDims *p = &piston_dims;
  TgPoint at = { 0, 0 };

  for (guint i = G_N_ELEMENTS (rings); i > 0; i--)
    {
      double top = rings[i - 1][0] * p->ring_belt, high = rings[i - 1][1] * p->ring_belt;
      TgShape box = tg_shape_box (-p->bore / 2, top, -(1 - RING_DEPTH) * p->bore / 2, top + high);

      at = add_pair (cr, view, &box, TRUE);
    }
  return at;
}

/* Above and below the pin, at both of its ends: a ring of wire that is cut. */
static TgPoint
add_clips (cairo_t *cr, const TgView *view)
{
  const TgPistonDims *p = &piston_dims;
  double x = PIN_REACH * p->bore / 2 + CLIP;
  TgPoint at = { 0, 0 };

  for (int side = 1; side >= -1; side -= 2)
    for (int edge = 1; edge >= -1; edge -= 2)
      {
        at = tg_view_point (
            view, (TgPoint){ side * x, p->compression_height + edge * (p->pin / 2 - CLIP / 2) });
        tg_glossary_add_ring (cr, at, 0, view->scale * CLIP);
      }
  return at;
}

static void
finish_quiet (cairo_t *cr, const TgStyle *quiet)
{
  tg_color_set (cr, tg_color_mix (quiet->metal, quiet->ground, 0.4));
  cairo_fill_preserve (cr);
  tg_color_set (cr, quiet->ink);
  cairo_set_line_width (cr, 0.8 * quiet->line);
  cairo_stroke (cr);
}

static void
draw_piston (cairo_t *cr, const TgView *view, const TgDesign *design, const TgStyle *quiet)
{
  TgShape pin = pin_box ();

  tg_piston_outline_draw (cr, design, view, quiet, quiet->line);
  tg_piston_outline_draw_grooves (cr, design, view, quiet, quiet->line);
  cairo_new_path (cr);
  add_shape (cr, view, &pin);
  finish_quiet (cr, quiet);
  add_rings (cr, view);
  finish_quiet (cr, quiet);
  add_clips (cr, view);
  finish_quiet (cr, quiet);
}

/* Boxes of the left half that no zone has. */
static TgShape
piston_box (TgGlossarySpot spot)
{
  const TgPistonDims *p = &piston_dims;
  double B = p->bore / 2, gap = p->boss_gap / 2, boss = p->boss_outer / 2;

  if (spot == TG_SPOT_SKIRT)
    return tg_shape_box (-B, p->ring_belt, -B + p->skirt_wall, p->height);
  return tg_shape_box (-B + p->skirt_wall, p->compression_height - boss, -gap,
                       p->compression_height + boss);
}

static TgPoint
add_piston_spot (
    cairo_t *cr, const TgView *view, const TgDesign *design, TgGlossarySpot spot, double line)
{
  const TgPistonDims *p = &design->piston;
  TgShape box = piston_box (spot);

  switch ((int) spot)
    {
    case TG_SPOT_PISTON:
      return add_frame (cr, view, tg_piston_outline_bounds (p));
    case TG_SPOT_CROWN:
      box = tg_shape_box (-p->bore / 2, 0, p->bore / 2, p->crown);
      return add_shape (cr, view, &box);
    case TG_SPOT_SKIRT:
    case TG_SPOT_PIN_BOSS:
      return add_pair (cr, view, &box, TRUE);
    case TG_SPOT_SKIRT_FOOT:
      return add_place (cr, view, design, TG_PLACE_SKIRT_FOOT);
    case TG_SPOT_PIN_BOSS_FOOT:
      return add_place (cr, view, design, TG_PLACE_PIN_BOSS_FEET);
    case TG_SPOT_PIN_BORE:
      return add_place (cr, view, design, TG_PLACE_PIN_BORE);
    case TG_SPOT_PIN:
      box = pin_box ();
      return add_shape (cr, view, &box);
    case TG_SPOT_CLIP:
      return add_clips (cr, view);
    case TG_SPOT_RING_LAND:
      return add_place (cr, view, design, TG_PLACE_RING_LANDS);
    case TG_SPOT_RING_PACK:
      return add_rings (cr, view);
    case TG_SPOT_COMPRESSION_HEIGHT:
    default:
      return add_distance (cr, view, (TgPoint){ 0, 0 }, (TgPoint){ 0, p->compression_height },
                           line);
    }
}

TgPoint
tg_glossary_piston_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  g_autoptr (TgDesign) design = tg_design_new (TG_PART_PISTON);
  TgView view;

  design->piston = piston_dims;
  view = fit (area, tg_piston_outline_bounds (&piston_dims));
  draw_piston (cr, &view, design, quiet);
  cairo_new_path (cr);
  return add_piston_spot (cr, &view, design, spot, quiet->line);
}
