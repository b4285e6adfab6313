/* glossary-bench.c: stand and scale with one of their spots, see glossary-drawing-private.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glossary-drawing-private.h"

#include <string.h>

#include "bench-drawing.h"
#include "text.h"

static TgPoint
middle_of (TgRect rect)
{
  return (TgPoint){ rect.x + rect.width / 2, rect.y + rect.height / 2 };
}

/* --- a rod on stand and scale ---------------------------------------------------------------- */

TgPoint
tg_glossary_stand_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  g_autoptr (TgDesign) design = tg_design_new (TG_PART_ROD);
  TgBenchPlaces places;
  TgRect lit;

  design->rod = (TgRodDims){ 150, 56, 74, 24, 36, 30, 20, 88, 22, 20, 6, 18, 5, 14 };
  tg_bench_drawing_draw (cr, area, design, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, quiet);
  cairo_new_path (cr);
  if (!tg_bench_drawing_places (area, design, TG_FIGURE_SMALL_END, quiet, &places))
    return middle_of (area);
  lit = spot == TG_SPOT_MARK ? places.mark : places.stand;
  if (spot == TG_SPOT_MARK)
    tg_glossary_add_ring (cr, middle_of (lit), 0, 0.75 * lit.width);
  else
    {
      cairo_move_to (cr, lit.x + lit.width / 2, lit.y);
      cairo_line_to (cr, lit.x + lit.width, lit.y + lit.height);
      cairo_line_to (cr, lit.x, lit.y + lit.height);
      cairo_close_path (cr);
    }
  return middle_of (lit);
}

/* --- a scale --------------------------------------------------------------------------------- */

#define SHOWN "247.1"
#define SHOWN_WEIGHT "200.0"

/* Where the parts of the scale lie in @area. */
typedef struct
{
  TgRect plate, body, display, digits, last, weight;
  TgText text;
} Scale;

static void
place_scale (Scale *scale, TgRect area, const char *shown, const TgStyle *style)
{
  /* with room for a weight on the plate */
  double width = MIN (area.width, 1.7 * area.height), high = 0.4 * width;
  double x = area.x + (area.width - width) / 2, y = area.y + area.height - high;
  double digits, digits_high, most, most_high;
  g_autofree char *most_of_it = g_strndup (shown, strlen (shown) - 1);

  scale->plate = (TgRect){ x, y, width, 0.18 * high };
  scale->body = (TgRect){ x + 0.06 * width, y + 0.18 * high, 0.88 * width, 0.82 * high };
  scale->display = (TgRect){ x + 0.16 * width, y + 0.32 * high, 0.68 * width, 0.54 * high };
  scale->text = (TgText){ .font = style->font, .size = 0.36 * high };
  tg_text_measure (&scale->text, shown, &digits, &digits_high);
  tg_text_measure (&scale->text, most_of_it, &most, &most_high);
  scale->digits = (TgRect){ scale->display.x + (scale->display.width - digits) / 2 - 0.06 * width,
                            scale->display.y + (scale->display.height - digits_high) / 2, digits,
                            digits_high };
  scale->last = scale->digits;
  scale->last.x += most;
  scale->last.width -= most;
  scale->weight = (TgRect){ x + 0.38 * width, y - 0.42 * high, 0.24 * width, 0.42 * high };
}

static void
add_box (cairo_t *cr, TgRect rect, double radius)
{
  TgShape box = tg_shape_box (rect.x, rect.y, rect.x + rect.width, rect.y + rect.height);

  tg_shape_path (cr, &box, radius, NULL);
}

/* A cylinder with its knob. */
static void
add_weight (cairo_t *cr, TgRect rect)
{
  double knob = 0.3 * rect.height;

  add_box (cr, (TgRect){ rect.x, rect.y + knob, rect.width, rect.height - knob }, 2);
  add_box (cr, (TgRect){ rect.x + 0.3 * rect.width, rect.y, 0.4 * rect.width, knob }, 2);
}

static void
finish (cairo_t *cr, TgColor fill, const TgStyle *quiet)
{
  tg_color_set (cr, fill);
  cairo_fill_preserve (cr);
  tg_color_set (cr, quiet->ink);
  cairo_set_line_width (cr, quiet->line);
  cairo_stroke (cr);
}

static void
draw_scale (cairo_t *cr, const Scale *scale, const char *shown, const TgStyle *quiet)
{
  const TgRect *digits = &scale->digits;

  add_box (cr, scale->body, 6);
  finish (cr, quiet->metal, quiet);
  add_box (cr, scale->plate, 3);
  finish (cr, quiet->metal, quiet);
  add_box (cr, scale->display, 3);
  finish (cr, quiet->ground, quiet);
  tg_text_draw (cr, &scale->text, shown, digits->x, digits->y, quiet->ink);
  tg_text_draw (cr, &scale->text, "g", digits->x + digits->width + 0.3 * scale->text.size,
                digits->y, quiet->ink);
  cairo_new_path (cr);
}

TgPoint
tg_glossary_scale_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  const char *shown = spot == TG_SPOT_CHECK_WEIGHT ? SHOWN_WEIGHT : SHOWN;
  Scale scale;

  place_scale (&scale, area, shown, quiet);
  draw_scale (cr, &scale, shown, quiet);
  switch ((int) spot)
    {
    case TG_SPOT_READING:
      add_box (cr, scale.digits, 2);
      return (TgPoint){ scale.digits.x, middle_of (scale.digits).y };
    case TG_SPOT_SCALE_STEP:
      add_box (cr, scale.last, 2);
      return (TgPoint){ middle_of (scale.last).x, scale.last.y + scale.last.height };
    case TG_SPOT_CHECK_WEIGHT:
      add_weight (cr, scale.weight);
      return middle_of (scale.weight);
    case TG_SPOT_SCALE:
    default:
      add_box (cr, scale.body, 6);
      add_box (cr, scale.plate, 3);
      return middle_of (scale.plate);
    }
}
