/* forces-drawing.c: forces and couples as plots, see forces-drawing.h
 *
 * Lines on a ground of round ticks, with a legend above that shows each line as it is drawn.  Of the
 * locus both axes have the same scale and the same ticks, and the engine's middle stands at 0.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "forces-drawing.h"

#include <math.h>

#include "number.h"

typedef struct
{
  const TgForcesDrawing *forces;
  TgPlot *plot;
  TgPlotScale up, across; /* of across, the rectangle's width stands for its height */
  TgRect rect;            /* of the lines */
} Ground;

/* --- ranges ---------------------------------------------------------------------------------- */

static double
largest (const TgForcesDrawing *forces, gboolean across)
{
  double most = 0;

  for (guint l = 0; l < forces->n; l++)
    {
      const TgBalanceCurve *curve = forces->lines[l].curve;

      for (guint i = 0; i < curve->n; i++)
        most = MAX (most, fabs (across ? curve->x[i] : curve->y[i]));
    }
  return most;
}

static gboolean
is_nothing (const TgForcesDrawing *forces)
{
  gboolean locus = forces->plot == TG_FORCES_LOCUS;

  return largest (forces, FALSE) < TG_FORCES_NOTHING &&
         (!locus || largest (forces, TRUE) < TG_FORCES_NOTHING);
}

static double
x_of (const Ground *ground, double value)
{
  return ground->rect.x + ground->rect.width * (value - ground->across.low) /
                              (ground->across.high - ground->across.low);
}

static double
y_of (const Ground *ground, double value)
{
  return tg_plot_y (&ground->up, value);
}

/* Both axes: as much on every side as fills the rectangle to one scale. */
static void
scale_locus (Ground *ground)
{
  const TgForcesDrawing *forces = ground->forces;
  double x = largest (forces, TRUE), y = largest (forces, FALSE);
  double per_px = 1.08 * MAX (2 * x / ground->rect.width, 2 * y / ground->rect.height);
  double half = per_px * ground->rect.height / 2;

  ground->up = tg_plot_scale_new (ground->plot, ground->rect, -half / 1.08, half / 1.08);
  ground->up.low = -half;
  ground->up.high = half;
  ground->across = ground->up;
  ground->across.high = per_px * ground->rect.width / 2;
  ground->across.low = -ground->across.high;
}

static void
scale_over (Ground *ground)
{
  const TgForcesDrawing *forces = ground->forces;
  const TgRect rect = ground->rect;
  double most = largest (forces, FALSE);

  ground->up = tg_plot_scale_new (ground->plot, rect, forces->plot == TG_FORCES_SPEED ? 0 : -most,
                                  most);
  if (forces->plot == TG_FORCES_SPEED)
    {
      double speed = largest (forces, TRUE);
      TgRect lying = { 0, 0, 1, rect.width / 3.2 };

      ground->up.low = 0;
      ground->across = tg_plot_scale_new (ground->plot, lying, 0, speed > 0 ? speed : 1);
      ground->across.low = 0;
      ground->across.high = speed > 0 ? speed : 1;
      ground->across.decimals = 0;
    }
  else
    ground->across = (TgPlotScale){ .low = 0,
                                    .high = 360,
                                    .tick = rect.width > 16 * ground->plot->size ? 90 : 180 };
}

static void
scale (Ground *ground)
{
  if (ground->forces->plot == TG_FORCES_LOCUS)
    scale_locus (ground);
  else
    scale_over (ground);
}

/* --- legend ---------------------------------------------------------------------------------- */

static void
set_look (cairo_t *cr, const TgPlot *plot, TgForcesLook look)
{
  double u = plot->line;
  const double dots[] = { 1.2 * u, 2.2 * u }, dashes[] = { 6 * u, 3 * u };

  cairo_set_dash (cr, NULL, 0, 0);
  switch (look)
    {
    case TG_FORCES_BEFORE:
      tg_color_set (cr, plot->style.ink);
      cairo_set_line_width (cr, 1.7 * u);
      cairo_set_dash (cr, dots, 2, 0);
      break;
    case TG_FORCES_THEN:
      tg_color_set (cr, plot->style.good);
      cairo_set_line_width (cr, 1.8 * u);
      cairo_set_dash (cr, dashes, 2, 0);
      break;
    case TG_FORCES_OWN:
      tg_color_set (cr, plot->style.quiet);
      cairo_set_line_width (cr, 0.9 * u);
      break;
    case TG_FORCES_NOW:
    default:
      tg_color_set (cr, plot->style.accent);
      cairo_set_line_width (cr, 2.4 * u);
      break;
    }
}

/* Line by line from the left; returns the height that was taken. */
static double
draw_legend (cairo_t *cr, Ground *ground)
{
  TgPlot *plot = ground->plot;
  double left = plot->area.x, right = left + plot->area.width, x = left, y = plot->area.y;
  double sample = 2 * plot->size, gap = 0.4 * plot->size;

  for (guint l = 0; l < ground->forces->n; l++)
    {
      const TgForcesLine *line = &ground->forces->lines[l];
      double width = sample + gap + tg_plot_text_width (plot, line->name, FALSE);

      if (x > left && x + width > right)
        {
          x = left;
          y += 1.1 * plot->row;
        }
      if (!tg_plot_write (plot, line->name, FALSE, plot->style.ink, x + sample + gap, y, 0))
        continue;
      cairo_save (cr);
      set_look (cr, plot, line->look);
      cairo_new_path (cr);
      cairo_move_to (cr, x, y + plot->row / 2);
      cairo_line_to (cr, x + sample, y + plot->row / 2);
      cairo_stroke (cr);
      cairo_restore (cr);
      x += width + 1.2 * plot->size;
    }
  return y + plot->row - plot->area.y + 0.35 * plot->size;
}

/* --- axes ------------------------------------------------------------------------------------ */

static double
first_tick (const TgPlotScale *scale)
{
  return ceil (scale->low / scale->tick - 1e-9) * scale->tick;
}

static char *
tick_figure (const TgPlotScale *scale, double value, const char *unit)
{
  g_autofree char *number = tg_number_format (fabs (value) < scale->tick / 2 ? 0 : value,
                                              scale->decimals);

  return g_strconcat (number, unit, NULL);
}

static double
figures_width (const Ground *ground)
{
  double width = 0;

  for (double v = first_tick (&ground->up); v <= ground->up.high + 1e-9 * ground->up.tick;
       v += ground->up.tick)
    {
      g_autofree char *figure = tick_figure (&ground->up, v, "");

      width = MAX (width, tg_plot_text_width (ground->plot, figure, FALSE));
    }
  return width;
}

static void
grid_line (
    cairo_t *cr, const Ground *ground, gboolean zero, double x0, double y0, double x1, double y1)
{
  const TgStyle *style = &ground->plot->style;

  cairo_set_source_rgba (cr, style->ink.r, style->ink.g, style->ink.b, zero ? 0.6 : 0.2);
  cairo_set_line_width (cr, (zero ? 0.8 : 0.6) * ground->plot->line);
  cairo_new_path (cr);
  cairo_move_to (cr, x0, y0);
  cairo_line_to (cr, x1, y1);
  cairo_stroke (cr);
}

static void
draw_up_axis (cairo_t *cr, Ground *ground)
{
  TgPlot *plot = ground->plot;
  const TgRect *rect = &ground->rect;

  for (double v = first_tick (&ground->up); v <= ground->up.high + 1e-9 * ground->up.tick;
       v += ground->up.tick)
    {
      g_autofree char *figure = tick_figure (&ground->up, v, "");
      double y = y_of (ground, v);

      grid_line (cr, ground, fabs (v) < ground->up.tick / 2, rect->x, y, rect->x + rect->width, y);
      tg_plot_write (plot, figure, FALSE, plot->style.quiet, rect->x - 0.4 * plot->size,
                     y - plot->row / 2, 1);
    }
}

static void
draw_across_axis (cairo_t *cr, Ground *ground)
{
  TgPlot *plot = ground->plot;
  const TgRect *rect = &ground->rect;
  const char *unit = ground->forces->plot == TG_FORCES_ANGLE ? "°" : "";
  double bottom = rect->y + rect->height;

  for (double v = first_tick (&ground->across);
       v <= ground->across.high + 1e-9 * ground->across.tick; v += ground->across.tick)
    {
      g_autofree char *figure = tick_figure (&ground->across, v, unit);
      double x = x_of (ground, v), half = tg_plot_text_width (plot, figure, FALSE) / 2;

      grid_line (cr, ground, fabs (v) < ground->across.tick / 2, x, rect->y, x, bottom);
      x = CLAMP (x, plot->area.x + half, plot->area.x + plot->area.width - half);
      tg_plot_write (plot, figure, FALSE, plot->style.quiet, x, bottom + 0.2 * plot->size, 0.5);
    }
}

/* What the axes are: the upper one over its figures, the other one below its own. */
static void
write_axes (Ground *ground, double top)
{
  static const char *const across[] = { "across", "crank angle", "speed in 1/min" };
  static const char *const up[] = { "up", "", "largest in a turn" };
  TgForcesPlot kind = ground->forces->plot;
  TgPlot *plot = ground->plot;
  const TgRect *rect = &ground->rect;
  const char *unit = ground->forces->unit;
  g_autofree char *upward = up[kind][0] ? g_strconcat (up[kind], ", ", unit, NULL)
                                        : g_strconcat ("in ", unit, NULL);
  g_autofree char *sideways = kind == TG_FORCES_LOCUS ? g_strconcat (across[kind], ", ", unit, NULL)
                                                      : g_strdup (across[kind]);

  tg_plot_write (plot, upward, FALSE, plot->style.quiet, plot->area.x, top, 0);
  tg_plot_write (plot, sideways, FALSE, plot->style.quiet, rect->x + rect->width,
                 rect->y + rect->height + 0.2 * plot->size + 1.05 * plot->row, 1);
}

/* --- lines ----------------------------------------------------------------------------------- */

static void
draw_mark (cairo_t *cr, const Ground *ground)
{
  const TgPlot *plot = ground->plot;
  double x = x_of (ground, ground->forces->marked_rpm),
         bottom = ground->rect.y + ground->rect.height;
  double dash[] = { 3 * plot->line, 2 * plot->line }, half = 0.35 * plot->size;

  if (ground->forces->plot != TG_FORCES_SPEED || ground->forces->marked_rpm <= 0 ||
      ground->forces->marked_rpm > ground->across.high)
    return;
  cairo_save (cr);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_new_path (cr);
  cairo_move_to (cr, x, ground->rect.y);
  cairo_line_to (cr, x, bottom);
  cairo_stroke (cr);
  cairo_move_to (cr, x, ground->rect.y + 0.7 * plot->size);
  cairo_line_to (cr, x - half, ground->rect.y);
  cairo_line_to (cr, x + half, ground->rect.y);
  cairo_close_path (cr);
  cairo_fill (cr);
  cairo_restore (cr);
}

static void
draw_line (cairo_t *cr, const Ground *ground, const TgForcesLine *line)
{
  const TgBalanceCurve *curve = line->curve;
  double reach = 0;

  cairo_save (cr);
  set_look (cr, ground->plot, line->look);
  cairo_new_path (cr);
  for (guint i = 0; i < curve->n; i++)
    {
      double x = x_of (ground, curve->x[i]), y = y_of (ground, curve->y[i]);

      reach = MAX (reach, hypot (x - x_of (ground, 0), y - y_of (ground, 0)));
      cairo_line_to (cr, x, y);
    }
  /* a locus of hardly any size is still to be seen: a dot at 0 */
  if (ground->forces->plot == TG_FORCES_LOCUS && reach < ground->plot->line)
    {
      cairo_new_path (cr);
      cairo_arc (cr, x_of (ground, 0), y_of (ground, 0), 1.8 * ground->plot->line, 0, 2 * G_PI);
      cairo_fill (cr);
    }
  else
    cairo_stroke (cr);
  cairo_restore (cr);
}

/* --- all of it ------------------------------------------------------------------------------- */

static void
draw_all (cairo_t *cr, Ground *ground)
{
  TgPlot *plot = ground->plot;
  const TgRect area = plot->area;
  double legend = draw_legend (cr, ground), head = legend + 1.2 * plot->row;
  double foot = 2.05 * plot->row + 0.4 * plot->size, left;

  if (is_nothing (ground->forces))
    {
      tg_plot_write_sentence (
          plot, ground->forces->nothing, plot->style.quiet,
          (TgRect){ area.x, area.y + legend, area.width, MAX (0, area.height - legend) });
      return;
    }
  if (area.height < head + foot + 2 * plot->row || area.width < 8 * plot->size)
    return;
  ground->rect = (TgRect){ area.x, area.y + head, area.width, area.height - head - foot };
  scale (ground);
  left = figures_width (ground) + 0.6 * plot->size;
  if (left > 0.5 * area.width)
    return;
  ground->rect.x += left;
  ground->rect.width -= left + 0.4 * plot->size;
  scale (ground);
  draw_up_axis (cr, ground);
  draw_across_axis (cr, ground);
  write_axes (ground, area.y + legend);
  draw_mark (cr, ground);
  for (guint l = 0; l < ground->forces->n; l++)
    draw_line (cr, ground, &ground->forces->lines[l]);
}

TgPlot *
tg_forces_drawing_plot (cairo_t *cr,
                        TgRect area,
                        const TgForcesDrawing *forces,
                        const TgStyle *style)
{
  Ground ground = { .forces = forces };

  g_return_val_if_fail (forces && forces->n <= TG_FORCES_MAX_LINES, NULL);

  if (area.width < 4 || area.height < 4)
    return NULL;
  ground.plot = tg_plot_new (area, style);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  draw_all (cr, &ground);
  tg_plot_draw_texts (cr, ground.plot);
  cairo_restore (cr);
  return ground.plot;
}

void
tg_forces_drawing_draw (cairo_t *cr,
                        TgRect area,
                        const TgForcesDrawing *forces,
                        const TgStyle *style)
{
  TgPlot *plot = tg_forces_drawing_plot (cr, area, forces, style);

  g_clear_pointer (&plot, tg_plot_free);
}
