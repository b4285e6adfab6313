/* glossary-plots.c: weights on a line and a force in a turn, see glossary-drawing-private.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glossary-drawing-private.h"

#include <math.h>

#include "text.h"

static void
write_quiet (cairo_t *cr, const char *text, double x, double y, double share, const TgStyle *quiet)
{
  TgText how = { .font = quiet->font, .size = 0.9 * quiet->text_size };
  double width, height;

  tg_text_measure (&how, text, &width, &height);
  tg_text_draw (cr, &how, text, x - share * width, y - height, quiet->quiet);
}

static void
stroke_line (cairo_t *cr, TgPoint from, TgPoint to, const TgStyle *quiet)
{
  tg_color_set (cr, quiet->ink);
  cairo_set_line_width (cr, quiet->line);
  cairo_move_to (cr, from.x, from.y);
  cairo_line_to (cr, to.x, to.y);
  cairo_stroke (cr);
}

/* --- weights on a line ----------------------------------------------------------------------- */

/* Shares of the width: where the band lies, and the parts; the last one is still to be ground. */
#define TARGET 0.34
#define UPPER 0.6
#define TOO_LIGHT 0.16
#define PLUS_MINUS 0.055
static const double parts[] = { 0.4, 0.55, 0.46, 0.86 };
#define N_PARTS G_N_ELEMENTS (parts)

static TgPoint
part_at (TgRect line, guint i)
{
  return (TgPoint){ line.x + parts[i] * line.width,
                    line.y + line.height * (0.3 + 0.6 * i / (N_PARTS - 1)) };
}

static TgPoint
add_between (cairo_t *cr, TgRect line, double from, double to, double y, double width)
{
  TgPoint a = { line.x + from * line.width, y }, b = { line.x + to * line.width, y };

  tg_glossary_add_arrow (cr, a, b, width);
  return (TgPoint){ (a.x + b.x) / 2, y };
}

static void
draw_weights (cairo_t *cr, TgRect line, double radius, const TgStyle *quiet)
{
  double bottom = line.y + line.height, left = line.x + TARGET * line.width;

  tg_color_set (cr, tg_color_mix (quiet->ground, quiet->metal, 0.7));
  cairo_rectangle (cr, left, line.y, (UPPER - TARGET) * line.width, line.height);
  cairo_fill (cr);
  for (guint i = 0; i < 2; i++)
    {
      double x = line.x + (i ? UPPER : TARGET) * line.width;

      stroke_line (cr, (TgPoint){ x, line.y }, (TgPoint){ x, bottom }, quiet);
    }
  stroke_line (cr, (TgPoint){ line.x, bottom }, (TgPoint){ line.x + line.width, bottom }, quiet);
  for (guint i = 0; i < N_PARTS; i++)
    {
      TgPoint at = part_at (line, i);

      cairo_new_path (cr);
      tg_glossary_add_ring (cr, at, 0, radius);
      tg_color_set (cr, quiet->ink);
      cairo_fill (cr);
    }
}

static TgPoint
add_weights_spot (cairo_t *cr, TgRect line, TgGlossarySpot spot, double radius, double stroke)
{
  double left = line.x + TARGET * line.width, wide = (UPPER - TARGET) * line.width;
  double top = line.y + 0.12 * line.height;
  TgPoint at;

  switch ((int) spot)
    {
    case TG_SPOT_TARGET:
      cairo_rectangle (cr, left - stroke, line.y, 2 * stroke, line.height);
      return (TgPoint){ left, line.y };
    case TG_SPOT_TOLERANCE:
      return add_between (cr, line, TARGET, UPPER, top, stroke);
    case TG_SPOT_SPREAD:
      return add_between (cr, line, parts[0], parts[N_PARTS - 1], top, stroke);
    case TG_SPOT_PLUS_MINUS:
      at = part_at (line, 1);
      return add_between (cr, line, parts[1] - PLUS_MINUS, parts[1] + PLUS_MINUS, at.y, stroke);
    case TG_SPOT_OVERSHOOT:
      at = (TgPoint){ line.x + TOO_LIGHT * line.width, line.y + 0.6 * line.height };
      tg_glossary_add_ring (cr, at, 0, 1.4 * radius);
      return at;
    case TG_SPOT_TO_COME_OFF:
      at = part_at (line, N_PARTS - 1);
      return add_between (cr, line, UPPER, parts[N_PARTS - 1], at.y, stroke);
    case TG_SPOT_BAND:
    default:
      cairo_rectangle (cr, left, line.y, wide, line.height);
      return (TgPoint){ left + wide / 2, line.y + 0.08 * line.height };
    }
}

TgPoint
tg_glossary_weights_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  double row = 1.5 * quiet->text_size, pad = 0.03 * area.width;
  TgRect line = { area.x + pad, area.y + 4, area.width - 2 * pad, area.height - row - 4 };
  double bottom = area.y + area.height;

  draw_weights (cr, line, 0.3 * quiet->text_size, quiet);
  write_quiet (cr, "lighter", line.x, bottom, 0, quiet);
  write_quiet (cr, "heavier", line.x + line.width, bottom, 1, quiet);
  cairo_new_path (cr);
  return add_weights_spot (cr, line, spot, 0.3 * quiet->text_size, 2 * quiet->line);
}

/* --- a force in a turn ----------------------------------------------------------------------- */

#define STEPS 72
static const double amplitudes[] = { 0.85, 0.4 };

static TgPoint
wave_at (TgRect area, guint order, guint step)
{
  double turned = (double) step / STEPS;

  return (TgPoint){ area.x + turned * area.width,
                    area.y + area.height / 2 -
                        amplitudes[order - 1] * area.height / 2 * cos (2 * G_PI * order * turned) };
}

static void
add_wave (cairo_t *cr, TgRect area, guint order, double width)
{
  cairo_new_sub_path (cr);
  for (guint i = 0; i <= STEPS; i++)
    {
      TgPoint at = wave_at (area, order, i);

      cairo_line_to (cr, at.x, at.y - width / 2);
    }
  for (guint i = STEPS + 1; i > 0 && width > 0; i--)
    {
      TgPoint at = wave_at (area, order, i - 1);

      cairo_line_to (cr, at.x, at.y + width / 2);
    }
  if (width > 0)
    cairo_close_path (cr);
}

TgPoint
tg_glossary_turn_scene (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *quiet)
{
  guint order = spot == TG_SPOT_SECOND_ORDER ? 2 : 1;
  double row = 1.5 * quiet->text_size, pad = 0.04 * area.width;
  TgRect plot = { area.x + pad, area.y, area.width - 2 * pad, area.height - row };
  double middle = plot.y + plot.height / 2;

  stroke_line (cr, (TgPoint){ plot.x, plot.y }, (TgPoint){ plot.x, plot.y + plot.height }, quiet);
  stroke_line (cr, (TgPoint){ plot.x, middle }, (TgPoint){ plot.x + plot.width, middle }, quiet);
  for (guint i = 1; i <= 2; i++)
    {
      cairo_new_path (cr);
      add_wave (cr, plot, i, 0);
      tg_color_set (cr, quiet->ink);
      cairo_stroke (cr);
    }
  write_quiet (cr, "one turn of the crank", plot.x + plot.width / 2, area.y + area.height, 0.5,
               quiet);
  cairo_new_path (cr);
  add_wave (cr, plot, order, 2 * quiet->line);
  return wave_at (plot, order, order == 1 ? STEPS / 8 : STEPS / 2);
}
