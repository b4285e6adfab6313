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

#include "number.h"

/* How much the lane says: marks, then amounts, then zones. */
typedef enum
{
  LANE_NONE,
  LANE_MARKS,
  LANE_AMOUNTS,
  LANE_ZONES,
} Lane;

/**
 * Entry: of the time axis: a point or a pass, the other is NULL
 */
typedef struct
{
  TgStamp stamp;
  const TgHistoryPoint *point;
  const TgHistoryPass *pass;
} Entry;

/**
 * Panel: @head: y of its head line; @lane: height of the passes' lane between it and the plot
 */
typedef struct
{
  TgFigure figure;
  const TgBandReview *band;
  guint n_points, n_passes;
  double head, lane;
  TgPlotScale scale;
} Panel;

typedef struct
{
  TgPlot *plot;
  const TgReview *review;
  const TgPartReview *part;
  GArray *entries;
  Panel panels[2];
  guint n_panels;
  Lane said;
} History;

static const Entry *
entry_at (const History *history, guint i)
{
  return &g_array_index (history->entries, Entry, i);
}

static guint
piece_of (const Entry *entry)
{
  return entry->point ? entry->point->piece : entry->pass->piece;
}

/* The panel of the end that the zone lies nearer to. */
static guint
panel_of_pass (const History *history, const TgHistoryPass *pass)
{
  const TgDesign *design = history->part->design;

  if (history->n_panels < 2)
    return 0;
  return tg_design_zone_position (design, tg_design_zone (design, pass->zone)) >
                 design->rod.centres / 2
             ? 0
             : 1;
}

static gboolean
is_point_of (const Entry *entry, const Panel *panel)
{
  return entry->point && entry->point->figure == panel->figure;
}

/* --- what there is to draw ------------------------------------------------------------------- */

static gboolean
has_panel (const History *history, TgFigure figure)
{
  for (guint p = 0; p < history->n_panels; p++)
    if (history->panels[p].figure == figure)
      return TRUE;
  return FALSE;
}

static void
choose_panels (History *history)
{
  TgPartKind kind = history->part->design->kind;

  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    {
      TgBand band;

      if (tg_band_of (kind, figure, &band))
        history->panels[history->n_panels++] = (Panel){ .figure = figure,
                                                        .band = &history->review->bands[band] };
    }
}

/* Points and passes are in order of time each; a pass comes before a point of the same second. */
static void
merge_entries (History *history)
{
  const GArray *points = history->part->history, *passes = history->part->pass_history;
  guint i = 0, j = 0;

  while (i < points->len || j < passes->len)
    {
      const TgHistoryPoint *point = i < points->len ? &g_array_index (points, TgHistoryPoint, i)
                                                    : NULL;
      const TgHistoryPass *pass = j < passes->len ? &g_array_index (passes, TgHistoryPass, j)
                                                  : NULL;
      gboolean later = pass && (!point || pass->stamp.seconds <= point->stamp.seconds);
      Entry entry = { .stamp = later ? pass->stamp : point->stamp,
                      .point = later ? NULL : point,
                      .pass = later ? pass : NULL };

      if (later)
        j++;
      else
        i++;
      if (entry.pass || has_panel (history, entry.point->figure))
        g_array_append_val (history->entries, entry);
    }
}

static void
count_entries (History *history)
{
  for (guint i = 0; i < history->entries->len; i++)
    {
      const Entry *entry = entry_at (history, i);

      if (entry->pass)
        history->panels[panel_of_pass (history, entry->pass)].n_passes++;
      for (guint p = 0; entry->point && p < history->n_panels; p++)
        history->panels[p].n_points += is_point_of (entry, &history->panels[p]);
    }
}

/* --- where it lies --------------------------------------------------------------------------- */

static double
lane_height (const TgPlot *plot, Lane lane)
{
  const guint rows[] = { 0, 0, 1, 2 };

  if (lane == LANE_NONE)
    return 0;
  return tg_plot_triangle_height (plot) + 0.3 * plot->size + rows[lane] * plot->row;
}

/* What is left for each plot when the lanes say as much as @lane; all plots are equally high. */
static double
plot_height (const History *history, Lane lane)
{
  const TgPlot *plot = history->plot;
  double left = plot->area.height - 1.2 * plot->row;

  for (guint p = 0; p < history->n_panels; p++)
    {
      left -= 1.15 * plot->row + (p > 0 ? 0.5 * plot->row : 0);
      if (history->panels[p].n_passes > 0)
        left -= lane_height (plot, lane);
    }
  return left / history->n_panels;
}

/* Heads, lanes and plots from above; FALSE if there is no room. */
static gboolean
place_panels (History *history)
{
  const TgPlot *plot = history->plot;
  double enough = MAX (2.8 * plot->row, 0.4 * plot->area.height / history->n_panels);
  double y = plot->area.y, height;

  history->said = LANE_ZONES;
  while (history->said > LANE_MARKS && plot_height (history, history->said) < enough)
    history->said--;
  height = plot_height (history, history->said);
  if (height < plot->row)
    return FALSE;
  for (guint p = 0; p < history->n_panels; p++)
    {
      Panel *panel = &history->panels[p];

      y += p > 0 ? 0.5 * plot->row : 0;
      panel->head = y;
      panel->lane = panel->n_passes > 0 ? lane_height (plot, history->said) : 0;
      y += 1.15 * plot->row + panel->lane;
      panel->scale.rect = (TgRect){ .y = y, .height = height };
      y += height;
    }
  return TRUE;
}

static void
widen (double *low, double *high, double value)
{
  *low = MIN (*low, value);
  *high = MAX (*high, value);
}

/* Every error bar and the band are on it, and at least four steps of the scale. */
static void
make_scale (const History *history, Panel *panel)
{
  double low = INFINITY, high = -INFINITY;
  double least = 4 * tg_mass_to_g (history->review->setup->resolution);

  for (guint i = 0; i < history->entries->len; i++)
    if (is_point_of (entry_at (history, i), panel))
      {
        const TgHistoryPoint *point = entry_at (history, i)->point;

        widen (&low, &high, point->mean_g - point->expanded_g);
        widen (&low, &high, point->mean_g + point->expanded_g);
      }
  if (panel->band->known)
    {
      widen (&low, &high, panel->band->target_g);
      widen (&low, &high, panel->band->target_g + panel->band->tolerance_g);
    }
  if (high - low < least)
    {
      double middle = (low + high) / 2;

      low = middle - least / 2;
      high = middle + least / 2;
    }
  panel->scale = tg_plot_scale_new (history->plot, panel->scale.rect, low, high);
}

static gboolean
place (History *history)
{
  TgPlot *plot = history->plot;
  g_autofree TgStamp *stamps = g_new (TgStamp, history->entries->len);
  double figures = 0, left, right = plot->area.x + plot->area.width - 0.3 * plot->size;

  if (!place_panels (history))
    return FALSE;
  for (guint p = 0; p < history->n_panels; p++)
    if (history->panels[p].n_points > 0)
      {
        make_scale (history, &history->panels[p]);
        figures = MAX (figures, tg_plot_scale_width (plot, &history->panels[p].scale));
      }
  left = plot->area.x + figures + 0.8 * plot->size;
  if (right - left < 6 * plot->size)
    return FALSE;
  for (guint i = 0; i < history->entries->len; i++)
    stamps[i] = entry_at (history, i)->stamp;
  tg_plot_place_days (plot, stamps, history->entries->len, left, right);
  return TRUE;
}

/* --- heads ----------------------------------------------------------------------------------- */

/* A piece of the strip and what its edges are, at the right end of the head line. */
static void
draw_key (cairo_t *cr, const History *history, const Panel *panel)
{
  TgPlot *plot = history->plot;
  g_autofree char *low = tg_review_grams (history->review, panel->band->target_g);
  g_autofree char *high = tg_review_grams (history->review,
                                           panel->band->target_g + panel->band->tolerance_g);
  g_autofree char *words = g_strdup_printf ("target %s to %s g", low, high);
  g_autofree char *brief = g_strdup_printf ("%s to %s g", low, high);
  const char *text = words;
  TgPlotScale key = { .low = 0, .high = 1 };
  TgPlot swatch = *plot;

  if (!tg_plot_write (plot, words, FALSE, plot->style.quiet, plot->right, panel->head, 1))
    {
      text = brief;
      if (!tg_plot_write (plot, brief, FALSE, plot->style.quiet, plot->right, panel->head, 1))
        return;
    }
  key.rect = (TgRect){ .y = panel->head + 0.22 * plot->row, .height = 0.56 * plot->row };
  swatch.right = plot->right - tg_plot_text_width (plot, text, FALSE) - 0.4 * plot->size;
  swatch.left = swatch.right - 1.6 * plot->size;
  tg_plot_draw_strip (cr, &swatch, &key, 0, 1);
}

static void
draw_head (cairo_t *cr, const History *history, const Panel *panel)
{
  TgPlot *plot = history->plot;
  const char *figure = tg_figure_label (history->part->design->kind, panel->figure);
  g_autofree char *name = g_strconcat (figure, " in g", NULL);

  tg_plot_write (plot, name, TRUE, plot->style.ink, plot->left, panel->head, 0);
  if (panel->band->known)
    draw_key (cr, history, panel);
}

/* --- points ---------------------------------------------------------------------------------- */

static void
draw_means (cairo_t *cr, const History *history, const Panel *panel)
{
  const TgPlot *plot = history->plot;
  const TgHistoryPoint *last = NULL;

  tg_color_set (cr, plot->style.quiet);
  cairo_set_line_width (cr, 0.8 * plot->line);
  cairo_new_path (cr);
  for (guint i = 0; i < history->entries->len; i++)
    {
      const TgHistoryPoint *point = entry_at (history, i)->point;

      if (!is_point_of (entry_at (history, i), panel))
        continue;
      if (last && last->piece == point->piece)
        cairo_line_to (cr, tg_plot_x (plot, i), tg_plot_y (&panel->scale, point->mean_g));
      else
        cairo_move_to (cr, tg_plot_x (plot, i), tg_plot_y (&panel->scale, point->mean_g));
      last = point;
    }
  cairo_stroke (cr);
}

static void
draw_points (cairo_t *cr, const History *history, const Panel *panel)
{
  const TgPlot *plot = history->plot;

  for (guint i = 0; i < history->entries->len; i++)
    {
      const TgHistoryPoint *point = entry_at (history, i)->point;
      double x = tg_plot_x (plot, i);

      if (!is_point_of (entry_at (history, i), panel))
        continue;
      if (point->expanded_g > 0)
        tg_plot_draw_bar (cr, plot, &panel->scale, x, point->mean_g, point->expanded_g);
      tg_plot_draw_mark (cr, plot, TG_PLOT_DOT, x, tg_plot_y (&panel->scale, point->mean_g),
                         plot->style.accent);
    }
}

/* --- passes and pieces ----------------------------------------------------------------------- */

static double
triangle_top (const History *history, const Panel *panel)
{
  const TgPlot *plot = history->plot;

  return panel->scale.rect.y - tg_plot_triangle_height (plot) - 0.15 * plot->size;
}

/* What a pass took: "−0.3"; after a reading that rose "+0.1". NULL if no reading has shown it. */
static char *
amount_of (const History *history, const TgHistoryPass *pass)
{
  g_autofree char *grams = tg_review_grams (history->review, fabs (pass->taken_g));

  if (!pass->shown)
    return NULL;
  return g_strconcat (pass->taken_g < 0 ? "+" : "−", grams, NULL);
}

static gboolean
is_pass_in (const History *history, guint i, guint p)
{
  const TgHistoryPass *pass = entry_at (history, i)->pass;

  return pass && panel_of_pass (history, pass) == p;
}

/* Every amount of the day has room above its triangle. */
static gboolean
amounts_fit (const History *history, guint p, const TgPlotDay *day)
{
  const TgPlot *plot = history->plot;
  double end = -INFINITY;

  for (guint i = day->first; i < day->first + day->n; i++)
    {
      g_autofree char *amount = is_pass_in (history, i, p)
                                    ? amount_of (history, entry_at (history, i)->pass)
                                    : NULL;
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
write_amounts (const History *history, guint p)
{
  TgPlot *plot = history->plot;
  double y = triangle_top (history, &history->panels[p]) - 1.02 * plot->row;

  for (guint d = 0; d < plot->days->len; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);

      if (!amounts_fit (history, p, day))
        continue;
      for (guint i = day->first; i < day->first + day->n; i++)
        {
          g_autofree char *amount = is_pass_in (history, i, p)
                                        ? amount_of (history, entry_at (history, i)->pass)
                                        : NULL;

          if (amount)
            tg_plot_write (plot, amount, FALSE, plot->style.ink, tg_plot_x (plot, i), y, 0.5);
        }
    }
}

/* Entry @i is the first pass of its day in the panel, or on another zone than the one before. */
static gboolean
names_zone (const History *history, guint p, guint i)
{
  const Entry *entry = entry_at (history, i);

  if (!is_pass_in (history, i, p))
    return FALSE;
  while (i-- > 0)
    {
      const Entry *before = entry_at (history, i);

      if (tg_stamp_day (before->stamp) != tg_stamp_day (entry->stamp))
        return TRUE;
      if (is_pass_in (history, i, p))
        return before->pass->zone != entry->pass->zone;
    }
  return TRUE;
}

/* The zone that was named last before entry @i, or -1. */
static int
zone_named_before (const History *history, guint p, guint i)
{
  while (i-- > 0)
    if (is_pass_in (history, i, p))
      return (int) entry_at (history, i)->pass->zone;
  return -1;
}

/* (transfer full) (nullable): what is said of entry @i in that room.  A name that was there before is
 * said again in full or not at all. */
static char *
zone_words (const History *history, guint p, guint i, double room)
{
  guint zone = entry_at (history, i)->pass->zone;
  const char *name = tg_design_zone (history->part->design, zone)->name;
  gboolean again = zone_named_before (history, p, i) == (int) zone;

  if (again && tg_plot_text_width (history->plot, name, FALSE) > room)
    return NULL;
  return tg_plot_shorten (history->plot, name, room);
}

/* Each name may reach as far as the next one; the last begins further left if it has to. */
static void
write_zones (const History *history, guint p)
{
  TgPlot *plot = history->plot;
  double y = triangle_top (history, &history->panels[p]) - 2.05 * plot->row;
  double end = plot->right;

  for (guint i = history->entries->len; i-- > 0;)
    {
      g_autofree char *name = NULL;
      double x, room;

      if (!names_zone (history, p, i))
        continue;
      /* above the first figure of its amount */
      x = MAX (plot->left, tg_plot_x (plot, i) - plot->size);
      room = end - x;
      if (end == plot->right)
        room = MAX (room, MIN (8 * plot->size, end - plot->left));
      name = zone_words (history, p, i, room);
      if (!name)
        continue;
      x = MIN (x, end - tg_plot_text_width (plot, name, FALSE));
      tg_plot_write (plot, name, FALSE, plot->style.quiet, x, y, 0);
      end = x - 0.6 * plot->size;
    }
}

/* Where there is room: over, left or right of the line, in a head line or in a lane. */
static void
write_new_piece (const History *history, double x)
{
  TgPlot *plot = history->plot;
  const double shares[] = { 0.5, 0, 1 };

  for (guint p = 0; p < history->n_panels; p++)
    for (double y = history->panels[p].head; y + plot->row <= history->panels[p].scale.rect.y;
         y += 1.02 * plot->row)
      for (guint s = 0; s < G_N_ELEMENTS (shares); s++)
        if (tg_plot_write (plot, "new piece", FALSE, plot->style.ink, x, y, shares[s]))
          return;
}

/* Between the entries of two pieces, a line through all panels. */
static void
draw_pieces (cairo_t *cr, const History *history)
{
  TgPlot *plot = history->plot;
  double dash[] = { plot->line, 2 * plot->line };

  cairo_save (cr);
  cairo_set_dash (cr, dash, 2, 0);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, 1.2 * plot->line);
  for (guint i = 1; i < history->entries->len; i++)
    {
      double x = (tg_plot_x (plot, i - 1) + tg_plot_x (plot, i)) / 2;

      if (piece_of (entry_at (history, i - 1)) == piece_of (entry_at (history, i)))
        continue;
      for (guint p = 0; p < history->n_panels; p++)
        {
          const TgRect *rect = &history->panels[p].scale.rect;

          cairo_move_to (cr, x, rect->y);
          cairo_line_to (cr, x, rect->y + rect->height);
        }
      write_new_piece (history, x);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* --- all of it ------------------------------------------------------------------------------- */

static void
draw_panel (cairo_t *cr, const History *history, guint p)
{
  const Panel *panel = &history->panels[p];
  TgPlot *plot = history->plot;
  const TgRect *rect = &panel->scale.rect;

  tg_plot_draw_days (cr, plot, rect->y, rect->y + rect->height);
  if (panel->n_points == 0)
    tg_plot_write_sentence (
        plot, "Not weighed yet.", plot->style.quiet,
        (TgRect){ plot->left, rect->y, plot->right - plot->left, rect->height });
  else
    {
      tg_plot_draw_scale (cr, plot, &panel->scale);
      if (panel->band->known)
        tg_plot_draw_strip (cr, plot, &panel->scale, panel->band->target_g,
                            panel->band->target_g + panel->band->tolerance_g);
      draw_means (cr, history, panel);
      draw_points (cr, history, panel);
    }
  for (guint i = 0; i < history->entries->len; i++)
    if (is_pass_in (history, i, p))
      tg_plot_draw_triangle (cr, plot, tg_plot_x (plot, i), triangle_top (history, panel),
                             entry_at (history, i)->pass->shown);
  if (history->said >= LANE_AMOUNTS)
    write_amounts (history, p);
  if (history->said >= LANE_ZONES)
    write_zones (history, p);
}

static void
draw_history (cairo_t *cr, History *history)
{
  TgPlot *plot = history->plot;
  const TgRect *last;

  if (!place (history))
    return;
  for (guint p = 0; p < history->n_panels; p++)
    draw_head (cr, history, &history->panels[p]);
  for (guint p = 0; p < history->n_panels; p++)
    draw_panel (cr, history, p);
  draw_pieces (cr, history);
  last = &history->panels[history->n_panels - 1].scale.rect;
  tg_plot_draw_time (cr, plot, last->y + last->height);
}

TgPlot *
tg_history_drawing_plot (
    cairo_t *cr, TgRect area, const TgReview *review, guint part, const TgStyle *style)
{
  History history = { .review = review, .part = tg_review_part (review, part) };

  if (area.width < 4 || area.height < 4)
    return NULL;
  history.plot = tg_plot_new (area, style);
  history.entries = g_array_new (FALSE, FALSE, sizeof (Entry));
  choose_panels (&history);
  merge_entries (&history);
  count_entries (&history);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  if (history.entries->len > 0)
    draw_history (cr, &history);
  else
    tg_plot_write_sentence (history.plot, "Nothing weighed yet.", style->quiet, history.plot->area);
  tg_plot_draw_texts (cr, history.plot);
  cairo_restore (cr);
  g_array_unref (history.entries);
  return history.plot;
}

void
tg_history_drawing_draw (
    cairo_t *cr, TgRect area, const TgReview *review, guint part, const TgStyle *style)
{
  TgPlot *plot = tg_history_drawing_plot (cr, area, review, part, style);

  g_clear_pointer (&plot, tg_plot_free);
}
