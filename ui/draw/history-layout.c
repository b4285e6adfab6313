/* history-layout.c: what a picture of a part's history shows and where it lies, see history-layout.h
 *
 * Panels are equally high.  Their lanes say as much as leaves the plots a height to be read from:
 * zones give way first, then amounts, so that the two panels of a rod always say the same.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "history-layout.h"

#include <math.h>

/* The panel of the end that the zone lies nearer to. */
static guint
panel_of_pass (const TgHistoryLayout *layout, const TgHistoryPass *pass)
{
  const TgDesign *design = layout->part->design;

  if (layout->n_panels < 2)
    return 0;
  return tg_design_zone_position (design, tg_design_zone (design, pass->zone)) >
                 design->rod.centres / 2
             ? 0
             : 1;
}

guint
tg_history_layout_piece (const TgHistoryLayout *layout, guint i)
{
  const TgHistoryEntry *entry = tg_history_entry (layout, i);

  return entry->point ? entry->point->piece : entry->pass->piece;
}

gboolean
tg_history_layout_is_point (const TgHistoryLayout *layout, guint i, guint p)
{
  const TgHistoryPoint *point = tg_history_entry (layout, i)->point;

  return point && point->figure == layout->panels[p].figure;
}

gboolean
tg_history_layout_is_pass (const TgHistoryLayout *layout, guint i, guint p)
{
  const TgHistoryPass *pass = tg_history_entry (layout, i)->pass;

  return pass && panel_of_pass (layout, pass) == p;
}

/* --- what there is to draw ------------------------------------------------------------------- */

static gboolean
has_panel (const TgHistoryLayout *layout, TgFigure figure)
{
  for (guint p = 0; p < layout->n_panels; p++)
    if (layout->panels[p].figure == figure)
      return TRUE;
  return FALSE;
}

/* The ends of a rod, the weight of every other part. */
static void
choose_panels (TgHistoryLayout *layout, guint part)
{
  gboolean rod = layout->part->design->kind == TG_PART_ROD;

  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    {
      double low_g = tg_review_own_target_g (layout->review, part, figure);
      TgHistoryPanel panel = { .figure = figure, .banded = !isnan (low_g), .low_g = low_g };
      TgBand band;

      if ((figure == TG_FIGURE_WHOLE) == rod)
        continue;
      if (panel.banded && tg_band_of (layout->part->design->kind, figure, &band))
        panel.high_g = low_g + layout->review->bands[band].tolerance_g;
      layout->panels[layout->n_panels++] = panel;
    }
}

/* Points and passes are in order of time each; a pass comes before a point of the same second. */
static void
merge_entries (TgHistoryLayout *layout)
{
  const GArray *points = layout->part->history, *passes = layout->part->pass_history;
  guint i = 0, j = 0;

  while (i < points->len || j < passes->len)
    {
      const TgHistoryPoint *point = i < points->len ? &g_array_index (points, TgHistoryPoint, i)
                                                    : NULL;
      const TgHistoryPass *pass = j < passes->len ? &g_array_index (passes, TgHistoryPass, j)
                                                  : NULL;
      gboolean is_pass = pass && (!point || pass->stamp.seconds <= point->stamp.seconds);
      TgHistoryEntry entry = { .stamp = is_pass ? pass->stamp : point->stamp,
                               .point = is_pass ? NULL : point,
                               .pass = is_pass ? pass : NULL };

      if (is_pass)
        j++;
      else
        i++;
      if (entry.pass || has_panel (layout, entry.point->figure))
        g_array_append_val (layout->entries, entry);
    }
}

static void
count_entries (TgHistoryLayout *layout)
{
  for (guint i = 0; i < layout->entries->len; i++)
    for (guint p = 0; p < layout->n_panels; p++)
      {
        layout->panels[p].n_points += tg_history_layout_is_point (layout, i, p);
        layout->panels[p].n_passes += tg_history_layout_is_pass (layout, i, p);
      }
}

TgHistoryLayout *
tg_history_layout_new (TgRect area, const TgReview *review, guint part, const TgStyle *style)
{
  TgHistoryLayout *layout = g_new0 (TgHistoryLayout, 1);

  layout->review = review;
  layout->part = tg_review_part (review, part);
  layout->plot = tg_plot_new (area, style);
  layout->entries = g_array_new (FALSE, FALSE, sizeof (TgHistoryEntry));
  choose_panels (layout, part);
  merge_entries (layout);
  count_entries (layout);
  return layout;
}

void
tg_history_layout_free (TgHistoryLayout *layout)
{
  g_clear_pointer (&layout->plot, tg_plot_free);
  g_array_unref (layout->entries);
  g_free (layout);
}

/* --- where it lies --------------------------------------------------------------------------- */

static double
lane_height (const TgPlot *plot, TgHistoryLane lane)
{
  const guint rows[] = { 0, 0, 1, 2 };

  if (lane == TG_HISTORY_LANE_NONE)
    return 0;
  return tg_plot_triangle_height (plot) + 0.3 * plot->size + rows[lane] * plot->row;
}

/* What is left for each plot when the lanes say as much as @lane; all plots are equally high. */
static double
plot_height (const TgHistoryLayout *layout, TgHistoryLane lane)
{
  const TgPlot *plot = layout->plot;
  double left = plot->area.height - 1.2 * plot->row;

  for (guint p = 0; p < layout->n_panels; p++)
    {
      left -= 1.15 * plot->row + (p > 0 ? 0.5 * plot->row : 0);
      if (layout->panels[p].n_passes > 0)
        left -= lane_height (plot, lane);
    }
  return left / layout->n_panels;
}

/* Heads, lanes and plots from above; FALSE if there is no room. */
static gboolean
place_panels (TgHistoryLayout *layout)
{
  const TgPlot *plot = layout->plot;
  double enough = MAX (2.8 * plot->row, 0.4 * plot->area.height / layout->n_panels);
  double y = plot->area.y, height;

  layout->said = TG_HISTORY_LANE_ZONES;
  while (layout->said > TG_HISTORY_LANE_MARKS && plot_height (layout, layout->said) < enough)
    layout->said--;
  height = plot_height (layout, layout->said);
  if (height < plot->row)
    return FALSE;
  for (guint p = 0; p < layout->n_panels; p++)
    {
      TgHistoryPanel *panel = &layout->panels[p];

      y += p > 0 ? 0.5 * plot->row : 0;
      panel->head = y;
      y += 1.15 * plot->row + (panel->n_passes > 0 ? lane_height (plot, layout->said) : 0);
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
make_scale (TgHistoryLayout *layout, guint p)
{
  TgHistoryPanel *panel = &layout->panels[p];
  double low = INFINITY, high = -INFINITY;
  double least = 4 * tg_mass_to_g (layout->review->setup->resolution);

  for (guint i = 0; i < layout->entries->len; i++)
    if (tg_history_layout_is_point (layout, i, p))
      {
        const TgHistoryPoint *point = tg_history_entry (layout, i)->point;

        widen (&low, &high, point->mean_g - point->expanded_g);
        widen (&low, &high, point->mean_g + point->expanded_g);
      }
  if (panel->banded)
    {
      widen (&low, &high, panel->low_g);
      widen (&low, &high, panel->high_g);
    }
  if (high - low < least)
    {
      double middle = (low + high) / 2;

      low = middle - least / 2;
      high = middle + least / 2;
    }
  panel->scale = tg_plot_scale_new (layout->plot, panel->scale.rect, low, high);
}

gboolean
tg_history_layout_place (TgHistoryLayout *layout)
{
  TgPlot *plot = layout->plot;
  g_autofree TgStamp *stamps = g_new (TgStamp, layout->entries->len);
  double figures = 0, left, right = plot->area.x + plot->area.width - 0.3 * plot->size;

  if (!place_panels (layout))
    return FALSE;
  for (guint p = 0; p < layout->n_panels; p++)
    if (layout->panels[p].n_points > 0)
      {
        make_scale (layout, p);
        figures = MAX (figures, tg_plot_scale_width (plot, &layout->panels[p].scale));
      }
  left = plot->area.x + figures + 0.8 * plot->size;
  if (right - left < 6 * plot->size)
    return FALSE;
  for (guint i = 0; i < layout->entries->len; i++)
    stamps[i] = tg_history_entry (layout, i)->stamp;
  tg_plot_place_days (plot, stamps, layout->entries->len, left, right);
  return TRUE;
}

double
tg_history_layout_triangle (const TgHistoryLayout *layout, guint p)
{
  const TgPlot *plot = layout->plot;

  return layout->panels[p].scale.rect.y - tg_plot_triangle_height (plot) - 0.15 * plot->size;
}
