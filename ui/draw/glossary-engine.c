/* glossary-engine.c: two cylinders in a V with one of their spots, see glossary-drawing-private.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-drawing-private.h"
#include "glossary-drawing-private.h"

#include <math.h>

/* In crank radii. */
#define PISTON_HEIGHT 0.9
#define RING 0.44
#define WEIGHT 0.62
#define GAP 0.35 /* radians, half of that between the halves of a bobweight */

/* @along the bank's axis from the crank's middle, @aside of it. */
static TgPoint
at_bank (const TgEngineFrontPlaces *e, guint bank, double along, double aside)
{
  double a = e->bank_deg[bank] * G_PI / 180;

  return (TgPoint){ e->x + along * sin (a) + aside * cos (a),
                    e->y - along * cos (a) + aside * sin (a) };
}

/* A box on the axis of a bank. */
static TgPoint
add_on_bank (
    cairo_t *cr, const TgEngineFrontPlaces *e, guint bank, double from, double to, double half)
{
  TgShape box = tg_shape_quad (at_bank (e, bank, from, -half), at_bank (e, bank, to, -half),
                               at_bank (e, bank, to, half), at_bank (e, bank, from, half));

  tg_shape_path (cr, &box, 0, NULL);
  return box.center;
}

static void
add_half_rings (cairo_t *cr, TgPoint center, double inner, double outer, double middle)
{
  for (guint i = 0; i < 2; i++)
    {
      TgShape half = tg_shape_sector (center.x, center.y, inner, outer, middle + i * G_PI,
                                      G_PI / 2 - GAP);

      tg_shape_path (cr, &half, 0, NULL);
    }
}

/* The web between crankshaft and crankpin, round at both ends. */
static TgPoint
add_throw (cairo_t *cr, const TgEngineFrontPlaces *e, TgPoint pin)
{
  double angle = atan2 (pin.y - e->y, pin.x - e->x), half = 0.3 * e->r;

  cairo_new_sub_path (cr);
  cairo_arc (cr, pin.x, pin.y, half, angle - G_PI / 2, angle + G_PI / 2);
  cairo_arc (cr, e->x, e->y, half, angle + G_PI / 2, angle + 1.5 * G_PI);
  cairo_close_path (cr);
  return (TgPoint){ (pin.x + e->x) / 2, (pin.y + e->y) / 2 };
}

static TgPoint
add_spot (cairo_t *cr, const TgEngineFrontPlaces *e, TgGlossarySpot spot, double line)
{
  double a = e->throw_deg * G_PI / 180, piston = e->inner + 1.2 * e->r;
  TgPoint pin = { e->x + e->r * sin (a), e->y - e->r * cos (a) };
  TgPoint from = at_bank (e, 0, e->inner + 0.3 * e->r, 0);
  TgPoint to = at_bank (e, 0, e->inner + 2.3 * e->r, 0);

  switch ((int) spot)
    {
    case TG_SPOT_CYLINDER:
      return add_on_bank (cr, e, 0, e->inner, e->outer, e->half);
    case TG_SPOT_BANK:
      return add_on_bank (cr, e, 1, e->inner, e->outer, e->half);
    case TG_SPOT_STROKE:
      tg_glossary_add_arrow (cr, from, to, 2 * line);
      return (TgPoint){ (from.x + to.x) / 2, (from.y + to.y) / 2 };
    case TG_SPOT_RECIPROCATING:
      return add_on_bank (cr, e, 0, piston, piston + PISTON_HEIGHT * e->r, 0.9 * e->half);
    case TG_SPOT_ROTATING:
      tg_glossary_add_ring (cr, pin, e->pin, RING * e->r);
      return (TgPoint){ pin.x + (e->pin + RING * e->r) / 2, pin.y };
    case TG_SPOT_BOBWEIGHT:
      add_half_rings (cr, pin, e->pin, WEIGHT * e->r, a);
      return (TgPoint){ pin.x + (e->pin + WEIGHT * e->r) / 2 * cos (a),
                        pin.y + (e->pin + WEIGHT * e->r) / 2 * sin (a) };
    case TG_SPOT_THROW:
      return add_throw (cr, e, pin);
    case TG_SPOT_CRANKPIN:
    default:
      tg_glossary_add_ring (cr, pin, 0, e->pin);
      return pin;
    }
}

TgPoint
tg_glossary_engine_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  const TgEngineLayout layout = { .n = 2,
                                  .n_pins = 1,
                                  .cylinders = { { -30, 75, -10, 0 }, { 30, 75, 10, 0 } } };
  TgEngineDrawing engine = { .layout = &layout, .stroke_mm = 90, .rod_mm = 131 };
  TgPlot *plot = tg_plot_new (area, quiet);
  TgEngineFrontPlaces places;
  TgPoint at = { area.x + area.width / 2, area.y + area.height / 2 };

  tg_engine_front_draw (cr, plot, area, &engine);
  cairo_new_path (cr);
  if (tg_engine_front_places (plot, area, &engine, &places))
    at = add_spot (cr, &places, spot, quiet->line);
  tg_plot_free (plot);
  return at;
}
