/* history-drawing.c: the weights of one part over the days, see history-drawing.h
 *
 * Each figure has a panel: its name and band in a head line, a lane for the passes, and the plot.  A
 * point stands for a group of readings between two passes, with the error bar that the review gives
 * it.  A pass hangs as a triangle in the panel of the end that its zone lies nearer to, with what it
 * took; it is hollow until a reading has shown that.  Where another piece took the part's place, the
 * line between the points is broken.  Points, passes and replacements of both panels share one time
 * axis, so what a pass did to the other end stands below it.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "history-drawing.h"

#include <math.h>

#include "history-layout.h"

/* --- heads ----------------------------------------------------------------------------------- */

/* A piece of the strip and what its edges are, at the right end of the head line. */
static void
draw_key (cairo_t *cr, const TgHistoryLayout *layout, guint p, double from)
{
  const TgHistoryPanel *panel = &layout->panels[p];
  TgPlot *plot = layout->plot, swatch = *plot;
  g_autofree char *low = tg_review_grams (layout->review, panel->low_g);
  g_autofree char *high = tg_review_grams (layout->review, panel->high_g);
  TgPlotScale key = { .low = 0, .high = 1 };

  for (guint brief = 0; brief < 2; brief++)
    {
      g_autofree char *words = g_strdup_printf ("%s%s to %s g", brief ? "" : "target ", low, high);

      swatch.right = plot->right - tg_plot_text_width (plot, words, FALSE) - 0.4 * plot->size;
      swatch.left = swatch.right - 1.6 * plot->size;
      if (swatch.left < from + 0.6 * plot->size)
        continue;
      tg_plot_write (plot, words, FALSE, plot->style.quiet, plot->right, panel->head, 1);
      key.rect = (TgRect){ .y = panel->head + 0.22 * plot->row, .height = 0.56 * plot->row };
      tg_plot_draw_strip (cr, &swatch, &key, 0, 1);
      return;
    }
}

static void
draw_head (cairo_t *cr, const TgHistoryLayout *layout, guint p)
{
  const TgHistoryPanel *panel = &layout->panels[p];
  TgPlot *plot = layout->plot;
  const char *figure = tg_figure_label (layout->part->design->kind, panel->figure);
  g_autofree char *name = g_strconcat (figure, " in g", NULL);

  tg_plot_write (plot, name, TRUE, plot->style.ink, plot->left, panel->head, 0);
  if (panel->banded)
    draw_key (cr, layout, p, plot->left + tg_plot_text_width (plot, name, TRUE));
}

/* --- points ---------------------------------------------------------------------------------- */

static void
draw_means (cairo_t *cr, const TgHistoryLayout *layout, guint p)
{
  const TgPlot *plot = layout->plot;
  const TgPlotScale *scale = &layout->panels[p].scale;
  const TgHistoryPoint *last = NULL;

  tg_color_set (cr, plot->style.quiet);
  cairo_set_line_width (cr, 0.8 * plot->line);
  cairo_new_path (cr);
  for (guint i = 0; i < layout->entries->len; i++)
    {
      const TgHistoryPoint *point = tg_history_entry (layout, i)->point;

      if (!tg_history_layout_is_point (layout, i, p))
        continue;
      if (last && last->piece == point->piece)
        cairo_line_to (cr, tg_plot_x (plot, i), tg_plot_y (scale, point->mean_g));
      else
        cairo_move_to (cr, tg_plot_x (plot, i), tg_plot_y (scale, point->mean_g));
      last = point;
    }
  cairo_stroke (cr);
}

static void
draw_points (cairo_t *cr, const TgHistoryLayout *layout, guint p)
{
  const TgPlot *plot = layout->plot;
  const TgPlotScale *scale = &layout->panels[p].scale;

  for (guint i = 0; i < layout->entries->len; i++)
    {
      const TgHistoryPoint *point = tg_history_entry (layout, i)->point;
      double x = tg_plot_x (plot, i);

      if (!tg_history_layout_is_point (layout, i, p))
        continue;
      if (point->expanded_g > 0)
        tg_plot_draw_bar (cr, plot, scale, x, point->mean_g, point->expanded_g);
      tg_plot_draw_mark (cr, plot, TG_PLOT_DOT, x, tg_plot_y (scale, point->mean_g),
                         plot->style.accent);
    }
}

/* --- passes and pieces ----------------------------------------------------------------------- */

/* What entry @i took if it is a pass of the panel: "−0.3"; if the part rose "+0.1".  NULL until a
 * reading has shown it. */
static char *
amount_of (const TgHistoryLayout *layout, guint i, guint p)
{
  const TgHistoryPass *pass = tg_history_entry (layout, i)->pass;
  g_autofree char *grams = NULL;

  if (!tg_history_layout_is_pass (layout, i, p) || !pass->shown)
    return NULL;
  grams = tg_review_grams (layout->review, fabs (pass->taken_g));
  return g_strconcat (pass->taken_g < 0 ? "+" : "−", grams, NULL);
}

/* Every amount of the day has room above its triangle. */
static gboolean
amounts_fit (const TgHistoryLayout *layout, guint p, const TgPlotDay *day)
{
  const TgPlot *plot = layout->plot;
  double end = -INFINITY;

  for (guint i = day->first; i < day->first + day->n; i++)
    {
      g_autofree char *amount = amount_of (layout, i, p);
      double half = amount ? tg_plot_text_width (plot, amount, FALSE) / 2 : 0;

      if (!amount)
        continue;
      if (tg_plot_x (plot, i) - half < end + 0.5 * plot->size)
        return FALSE;
      end = tg_plot_x (plot, i) + half;
    }
  return TRUE;
}

/* All of a day or none: one figure over two triangles would be read as their sum. */
static void
write_amounts (const TgHistoryLayout *layout, guint p)
{
  TgPlot *plot = layout->plot;
  double y = tg_history_layout_triangle (layout, p) - 1.02 * plot->row;

  for (guint d = 0; d < plot->days->len; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);

      if (!amounts_fit (layout, p, day))
        continue;
      for (guint i = day->first; i < day->first + day->n; i++)
        {
          g_autofree char *amount = amount_of (layout, i, p);

          if (amount)
            tg_plot_write (plot, amount, FALSE, plot->style.ink, tg_plot_x (plot, i), y, 0.5);
        }
    }
}

/* Entry @i is the first pass of its day in the panel, or on another zone than the one before. */
static gboolean
names_zone (const TgHistoryLayout *layout, guint p, guint i)
{
  const TgHistoryEntry *entry = tg_history_entry (layout, i);

  if (!tg_history_layout_is_pass (layout, i, p))
    return FALSE;
  while (i-- > 0)
    {
      const TgHistoryEntry *before = tg_history_entry (layout, i);

      if (tg_stamp_day (before->stamp) != tg_stamp_day (entry->stamp))
        return TRUE;
      if (tg_history_layout_is_pass (layout, i, p))
        return before->pass->zone != entry->pass->zone;
    }
  return TRUE;
}

/* The zone that was named last before entry @i, or -1. */
static int
zone_named_before (const TgHistoryLayout *layout, guint p, guint i)
{
  while (i-- > 0)
    if (tg_history_layout_is_pass (layout, i, p))
      return (int) tg_history_entry (layout, i)->pass->zone;
  return -1;
}

/* (transfer full) (nullable): what is said of entry @i in that room.  A name that was there before is
 * said again in full or not at all. */
static char *
zone_words (const TgHistoryLayout *layout, guint p, guint i, double room)
{
  guint zone = tg_history_entry (layout, i)->pass->zone;
  const char *name = tg_design_zone (layout->part->design, zone)->name;
  gboolean again = zone_named_before (layout, p, i) == (int) zone;

  if (again && tg_plot_text_width (layout->plot, name, FALSE) > room)
    return NULL;
  return tg_plot_shorten (layout->plot, name, room);
}

/* Each name may reach as far as the next one; the last begins further left if it has to. */
static void
write_zones (const TgHistoryLayout *layout, guint p)
{
  TgPlot *plot = layout->plot;
  double y = tg_history_layout_triangle (layout, p) - 2.05 * plot->row;
  double end = plot->right;

  for (guint i = layout->entries->len; i-- > 0;)
    {
      g_autofree char *name = NULL;
      double x, room;

      if (!names_zone (layout, p, i))
        continue;
      /* above the first figure of its amount */
      x = MAX (plot->left, tg_plot_x (plot, i) - plot->size);
      room = end - x;
      if (end == plot->right)
        room = MAX (room, MIN (8 * plot->size, end - plot->left));
      name = zone_words (layout, p, i, room);
      if (!name)
        continue;
      x = MIN (x, end - tg_plot_text_width (plot, name, FALSE));
      tg_plot_write (plot, name, FALSE, plot->style.quiet, x, y, 0);
      end = x - 0.6 * plot->size;
    }
}

/* Where there is room: over, left or right of the line, in a head line or in a lane. */
static void
write_new_piece (const TgHistoryLayout *layout, double x)
{
  TgPlot *plot = layout->plot;
  const double shares[] = { 0.5, 0, 1 };

  for (guint p = 0; p < layout->n_panels; p++)
    for (double y = layout->panels[p].head; y + plot->row <= layout->panels[p].scale.rect.y;
         y += 1.02 * plot->row)
      for (guint s = 0; s < G_N_ELEMENTS (shares); s++)
        if (tg_plot_write (plot, "new piece", FALSE, plot->style.ink, x, y, shares[s]))
          return;
}

/* Between the entries of two pieces, a line through all panels. */
static void
draw_pieces (cairo_t *cr, const TgHistoryLayout *layout)
{
  TgPlot *plot = layout->plot;
  double dash[] = { plot->line, 2 * plot->line };

  cairo_save (cr);
  cairo_set_dash (cr, dash, 2, 0);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, 1.2 * plot->line);
  for (guint i = 1; i < layout->entries->len; i++)
    {
      double x = (tg_plot_x (plot, i - 1) + tg_plot_x (plot, i)) / 2;

      if (tg_history_layout_piece (layout, i - 1) == tg_history_layout_piece (layout, i))
        continue;
      for (guint p = 0; p < layout->n_panels; p++)
        {
          const TgRect *rect = &layout->panels[p].scale.rect;

          cairo_move_to (cr, x, rect->y);
          cairo_line_to (cr, x, rect->y + rect->height);
        }
      write_new_piece (layout, x);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* --- all of it ------------------------------------------------------------------------------- */

static void
draw_panel (cairo_t *cr, const TgHistoryLayout *layout, guint p)
{
  const TgHistoryPanel *panel = &layout->panels[p];
  TgPlot *plot = layout->plot;
  const TgRect *rect = &panel->scale.rect;

  tg_plot_draw_days (cr, plot, rect->y, rect->y + rect->height);
  if (panel->n_points == 0)
    tg_plot_write_sentence (
        plot, "Not weighed yet.", plot->style.quiet,
        (TgRect){ plot->left, rect->y, plot->right - plot->left, rect->height });
  else
    {
      tg_plot_draw_scale (cr, plot, &panel->scale);
      if (panel->banded)
        tg_plot_draw_strip (cr, plot, &panel->scale, panel->low_g, panel->high_g);
      draw_means (cr, layout, p);
      draw_points (cr, layout, p);
    }
  for (guint i = 0; i < layout->entries->len; i++)
    if (tg_history_layout_is_pass (layout, i, p))
      tg_plot_draw_triangle (cr, plot, tg_plot_x (plot, i), tg_history_layout_triangle (layout, p),
                             tg_history_entry (layout, i)->pass->shown);
  if (layout->said >= TG_HISTORY_LANE_AMOUNTS)
    write_amounts (layout, p);
  if (layout->said >= TG_HISTORY_LANE_ZONES)
    write_zones (layout, p);
}

static void
draw_history (cairo_t *cr, TgHistoryLayout *layout)
{
  TgPlot *plot = layout->plot;
  const TgRect *last;

  if (!tg_history_layout_place (layout))
    return;
  for (guint p = 0; p < layout->n_panels; p++)
    draw_head (cr, layout, p);
  for (guint p = 0; p < layout->n_panels; p++)
    draw_panel (cr, layout, p);
  draw_pieces (cr, layout);
  last = &layout->panels[layout->n_panels - 1].scale.rect;
  tg_plot_draw_time (cr, plot, last->y + last->height);
}

TgPlot *
tg_history_drawing_plot (
    cairo_t *cr, TgRect area, const TgReview *review, guint part, const TgStyle *style)
{
  g_autoptr (TgHistoryLayout) layout = NULL;

  if (area.width < 4 || area.height < 4)
    return NULL;
  layout = tg_history_layout_new (area, review, part, style);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  if (layout->entries->len > 0)
    draw_history (cr, layout);
  else
    tg_plot_write_sentence (layout->plot, "Nothing weighed yet.", style->quiet, layout->plot->area);
  tg_plot_draw_texts (cr, layout->plot);
  cairo_restore (cr);
  return g_steal_pointer (&layout->plot);
}

void
tg_history_drawing_draw (
    cairo_t *cr, TgRect area, const TgReview *review, guint part, const TgStyle *style)
{
  TgPlot *plot = tg_history_drawing_plot (cr, area, review, part, style);

  g_clear_pointer (&plot, tg_plot_free);
}
