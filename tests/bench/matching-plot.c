/* matching-plot.c: the picture of the pairing's benchmark, see matching-plot.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "matching-plot.h"

#include <cairo.h>
#include <math.h>

#define LEFT 64.0
#define TOP 78.0
#define PANEL 290.0
#define GAP 26.0
#define UPPER 260.0
#define LOWER 130.0
#define BETWEEN 36.0
#define BOTTOM 52.0
#define LEAST_MS 0.1

typedef struct
{
  cairo_t *cr;
  const char *const *solvers;
  const guint *sizes;
  guint n_sizes;
  double limit_ms;
} Plot;

/* Blue, orange and green that also differ in lightness (Okabe and Ito's palette). */
static const double colours[PLOT_SOLVERS][3] = {
  { 0, 0.447, 0.698 },
  { 0.902, 0.624, 0 },
  { 0, 0.62, 0.451 },
};

static void
text (const Plot *p, double x, double y, double align, const char *words)
{
  cairo_text_extents_t size;

  cairo_text_extents (p->cr, words, &size);
  cairo_move_to (p->cr, x - align * size.x_advance, y);
  cairo_show_text (p->cr, words);
}

static void
grey (const Plot *p, double lightness)
{
  cairo_set_source_rgb (p->cr, lightness, lightness, lightness);
}

static double
place (const Plot *p, double left, guint size)
{
  double least = p->sizes[0], most = p->sizes[p->n_sizes - 1];

  return left + 10 + (PANEL - 20) * (p->sizes[size] - least) / (most - least);
}

static double
height_of_ms (const Plot *p, double ms)
{
  double share = log (MAX (ms, LEAST_MS) / LEAST_MS) / log (p->limit_ms / LEAST_MS);

  return TOP + UPPER * (1 - MIN (share, 1));
}

static double
height_of_share (double share)
{
  return TOP + UPPER + BETWEEN + LOWER * (1 - share);
}

static void
rule (const Plot *p, double left, double y, gboolean named, const char *name)
{
  grey (p, 0.86);
  cairo_set_line_width (p->cr, 1);
  cairo_move_to (p->cr, left, floor (y) + 0.5);
  cairo_line_to (p->cr, left + PANEL, floor (y) + 0.5);
  cairo_stroke (p->cr);
  grey (p, 0.25);
  if (named)
    text (p, left - 8, y + 4, 1, name);
}

static void
draw_grid (const Plot *p, double left, gboolean named)
{
  static const struct
  {
    double ms;
    const char *name;
  } times[] = {
    { 0.1, "0.1 ms" }, { 1, "1 ms" }, { 10, "10 ms" }, { 100, "100 ms" }, { 1000, "1 s" }
  };

  for (guint i = 0; i < G_N_ELEMENTS (times); i++)
    if (times[i].ms <= p->limit_ms)
      rule (p, left, height_of_ms (p, times[i].ms), named, times[i].name);
  rule (p, left, height_of_share (1), named, "100 %");
  rule (p, left, height_of_share (0.5), named, "50 %");
  rule (p, left, height_of_share (0), named, "0 %");
  for (guint i = 0; i < p->n_sizes; i++)
    {
      char name[8];

      g_snprintf (name, sizeof name, "%u", p->sizes[i]);
      if (i % 2 == 0)
        text (p, place (p, left, i), height_of_share (0) + 18, 0.5, name);
    }
}

/* At the limit a time is only known to be longer: a hollow point. Later solvers are drawn first and
 * larger, so that points in one place are all seen. */
static void
draw_point (const Plot *p, double x, double y, guint solver, gboolean hollow)
{
  cairo_new_path (p->cr);
  cairo_arc (p->cr, x, y, 3 + 1.8 * solver, 0, 2 * G_PI);
  if (!hollow)
    {
      cairo_fill (p->cr);
      return;
    }
  cairo_save (p->cr);
  cairo_set_source_rgb (p->cr, 1, 1, 1);
  cairo_fill_preserve (p->cr);
  cairo_restore (p->cr);
  cairo_stroke (p->cr);
}

static void
draw_curve (const Plot *p, double left, guint solver, const PlotColumn *column, gboolean times)
{
  const double *c = colours[solver], *ms = column->ms[solver], *share = column->share[solver];

  if (share[0] < 0)
    return;
  cairo_set_source_rgb (p->cr, c[0], c[1], c[2]);
  cairo_set_line_width (p->cr, 2);
  cairo_new_path (p->cr);
  for (guint i = 0; i < p->n_sizes; i++)
    cairo_line_to (p->cr, place (p, left, i),
                   times ? height_of_ms (p, ms[i]) : height_of_share (share[i]));
  cairo_stroke (p->cr);
  for (guint i = 0; i < p->n_sizes; i++)
    draw_point (p, place (p, left, i), times ? height_of_ms (p, ms[i]) : height_of_share (share[i]),
                solver, times && ms[i] >= 0.99 * p->limit_ms);
}

static void
draw_legend (const Plot *p, const PlotColumn *column)
{
  double x = LEFT;

  for (guint solver = 0; solver < PLOT_SOLVERS; solver++)
    {
      const double *c = colours[solver];
      cairo_text_extents_t size;

      if (column->share[solver][0] < 0)
        continue;
      cairo_set_source_rgb (p->cr, c[0], c[1], c[2]);
      cairo_new_path (p->cr);
      cairo_arc (p->cr, x + 5, 27, 5, 0, 2 * G_PI);
      cairo_fill (p->cr);
      grey (p, 0.15);
      text (p, x + 16, 31, 0, p->solvers[solver]);
      cairo_text_extents (p->cr, p->solvers[solver], &size);
      x += 16 + size.x_advance + 28;
    }
  grey (p, 0.45);
  text (p, x, 31, 0, "median time; hollow: at the limit, not proved");
}

static void
draw_column (const Plot *p, double left, const PlotColumn *column, gboolean first)
{
  grey (p, 0.1);
  cairo_select_font_face (p->cr, "sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_BOLD);
  text (p, left, TOP - 16, 0, column->title);
  cairo_select_font_face (p->cr, "sans-serif", CAIRO_FONT_SLANT_NORMAL, CAIRO_FONT_WEIGHT_NORMAL);
  draw_grid (p, left, first);
  for (guint solver = PLOT_SOLVERS; solver-- > 0;)
    {
      draw_curve (p, left, solver, column, TRUE);
      draw_curve (p, left, solver, column, FALSE);
    }
  grey (p, 0.25);
  text (p, left + PANEL / 2, height_of_share (0) + 38, 0.5, "cylinders");
  text (p, left, height_of_share (1) - 9, 0, "share proved");
}

gboolean
plot_save (const char *path,
           const char *const *solvers,
           const guint *sizes,
           guint n_sizes,
           double limit_ms,
           const PlotColumn *columns,
           guint n_columns)
{
  int width = (int) (LEFT + n_columns * (PANEL + GAP));
  int height = (int) (TOP + UPPER + BETWEEN + LOWER + BOTTOM);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_RGB24, 2 * width, 2 * height);
  Plot p = { cairo_create (surface), solvers, sizes, n_sizes, limit_ms };
  gboolean written;

  cairo_scale (p.cr, 2, 2);
  cairo_set_source_rgb (p.cr, 1, 1, 1);
  cairo_paint (p.cr);
  cairo_set_font_size (p.cr, 13);
  draw_legend (&p, &columns[0]);
  for (guint i = 0; i < n_columns; i++)
    draw_column (&p, LEFT + i * (PANEL + GAP), &columns[i], i == 0);
  cairo_destroy (p.cr);
  written = cairo_surface_write_to_png (surface, path) == CAIRO_STATUS_SUCCESS;
  cairo_surface_destroy (surface);
  return written;
}
