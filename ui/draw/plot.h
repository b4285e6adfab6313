/* plot.h: the common ground of the plots: days side by side, round values, texts that keep clear
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Along the time axis entries stand in their order and at equal steps, since a job is a few evenings
 * with days of nothing between them: each day is a block as wide as its entries need, and a break
 * mark stands where days lie between two blocks.
 */
#pragma once

#include "stamp.h"
#include "style.h"

G_BEGIN_DECLS

/**
 * TgPlotText: a text that was written; @width > 0: broken to it and centred
 */
typedef struct
{
  char *text;
  TgRect rect;
  gboolean bold;
  double width;
  TgColor color;
} TgPlotText;

/**
 * TgPlotDay: a block of the time axis with @n entries from @first on
 */
typedef struct
{
  TgStamp stamp;
  guint first, n;
  double x, width;
} TgPlotDay;

/**
 * TgPlot: one picture
 * @area: what may be written on, a little less than what was given
 * @size: of text; @row: height of a line of it; @line: stroke width
 * @left, @right: x of the time axis
 * @days: (element-type TgPlotDay)
 * @x: (element-type double): of each entry
 * @step: least distance of two entries of a day
 * @texts: (element-type TgPlotText): none overlaps another, none leaves @area
 */
typedef struct
{
  TgStyle style;
  TgRect area;
  double size, row, line;
  double left, right;
  GArray *days;
  GArray *x;
  double step;
  GArray *texts;
} TgPlot;

/**
 * TgPlotScale: a value axis; values from @low to @high fill the height of @rect, high ones above
 * @tick: distance of its round ticks, three to five, on a low plot two or three; @decimals: that their figures need
 */
typedef struct
{
  TgRect rect;
  double low, high;
  double tick;
  guint decimals;
} TgPlotScale;

typedef enum
{
  TG_PLOT_DOT,
  TG_PLOT_RING,
  TG_PLOT_CROSS,
} TgPlotMark;

TgPlot *tg_plot_new (TgRect area, const TgStyle *style);
void tg_plot_free (TgPlot *plot);

/* --- texts ----------------------------------------------------------------------------------- */

double tg_plot_text_width (const TgPlot *plot, const char *text, gboolean bold);

/**
 * tg_plot_write:
 * @x, @y: where the text's left edge (@share 0), middle (0.5) or right edge (1) and its top lie
 *
 * Returns: FALSE, and nothing is written, where the text would leave the picture or come too close to
 *   another.
 */
gboolean tg_plot_write (
    TgPlot *plot, const char *text, gboolean bold, TgColor color, double x, double y, double share);

/* A sentence in the middle of @rect, on as many lines as it takes; FALSE where they do not fit. */
gboolean tg_plot_write_sentence (TgPlot *plot, const char *text, TgColor color, TgRect rect);

/* (transfer full): as much of @text as is not wider than @width, with "…" where it was cut; NULL if
 * fewer than eight letters are left. */
char *tg_plot_shorten (const TgPlot *plot, const char *text, double width);

/* What was written, at last. */
void tg_plot_draw_texts (cairo_t *cr, const TgPlot *plot);

/* --- time ------------------------------------------------------------------------------------ */

/**
 * tg_plot_place_days:
 * @stamps: of the entries, in their order; same days stand together
 * @n: > 0
 *
 * Fills in days, x and step between @left and @right.
 */
void tg_plot_place_days (TgPlot *plot, const TgStamp *stamps, guint n, double left, double right);

static inline double
tg_plot_x (const TgPlot *plot, guint entry)
{
  return g_array_index (plot->x, double, entry);
}

/* The ground of each day from @top to @bottom. */
void tg_plot_draw_days (cairo_t *cr, const TgPlot *plot, double top, double bottom);
/* The axis below them, with its break marks, and the days' names under it. */
void tg_plot_draw_time (cairo_t *cr, TgPlot *plot, double y);

/* --- values ---------------------------------------------------------------------------------- */

/* At least @low to @high, a little more where the ends of error bars would touch an edge. */
TgPlotScale tg_plot_scale_new (const TgPlot *plot, TgRect rect, double low, double high);
double tg_plot_y (const TgPlotScale *scale, double value);
/* The widest figure at its ticks. */
double tg_plot_scale_width (const TgPlot *plot, const TgPlotScale *scale);
/* Lines at the ticks, over the days; figures left of them. */
void tg_plot_draw_scale (cairo_t *cr, TgPlot *plot, const TgPlotScale *scale);

/* --- marks ----------------------------------------------------------------------------------- */

/* A quiet strip from @low to @high with its edges: the lower one full, the upper one dashed. */
void tg_plot_draw_strip (
    cairo_t *cr, const TgPlot *plot, const TgPlotScale *scale, double low, double high);

/* Half the size of a point, which gives way where entries are many. */
double tg_plot_mark_size (const TgPlot *plot);
void tg_plot_draw_mark (
    cairo_t *cr, const TgPlot *plot, TgPlotMark mark, double x, double y, TgColor color);
/* Height of the triangle that stands for something the person did. */
double tg_plot_triangle_height (const TgPlot *plot);
/* Its point down at @x; its upper edge at @top. */
void tg_plot_draw_triangle (cairo_t *cr, const TgPlot *plot, double x, double top, gboolean full);
/* From value − @half to value + @half. */
void tg_plot_draw_bar (
    cairo_t *cr, const TgPlot *plot, const TgPlotScale *scale, double x, double value, double half);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPlot, tg_plot_free)

G_END_DECLS
