/* history-layout.h: what one picture of a part's history shows and where it lies
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Private to this folder.
 */
#pragma once

#include "plot.h"
#include "review.h"

G_BEGIN_DECLS

/* How much the lane of the passes says: marks, then amounts, then zones. */
typedef enum
{
  TG_HISTORY_LANE_NONE,
  TG_HISTORY_LANE_MARKS,
  TG_HISTORY_LANE_AMOUNTS,
  TG_HISTORY_LANE_ZONES,
} TgHistoryLane;

/**
 * TgHistoryEntry: of the time axis: a point or a pass, the other is NULL
 */
typedef struct
{
  TgStamp stamp;
  const TgHistoryPoint *point;
  const TgHistoryPass *pass;
} TgHistoryEntry;

/**
 * TgHistoryPanel: one figure
 * @banded: the part itself has to lie from @low_g to @high_g
 * @head: y of its head line; the lane and the plot follow below
 */
typedef struct
{
  TgFigure figure;
  gboolean banded;
  double low_g, high_g;
  guint n_points, n_passes;
  double head;
  TgPlotScale scale;
} TgHistoryPanel;

/**
 * TgHistoryLayout:
 * @entries: (element-type TgHistoryEntry): in order of time, as in @plot
 * @said: by every lane
 */
typedef struct
{
  TgPlot *plot;
  const TgReview *review;
  const TgPartReview *part;
  GArray *entries;
  TgHistoryPanel panels[2];
  guint n_panels;
  TgHistoryLane said;
} TgHistoryLayout;

TgHistoryLayout *
tg_history_layout_new (TgRect area, const TgReview *review, guint part, const TgStyle *style);
void tg_history_layout_free (TgHistoryLayout *layout);

/* FALSE if there is no room; only with entries. */
gboolean tg_history_layout_place (TgHistoryLayout *layout);

static inline const TgHistoryEntry *
tg_history_entry (const TgHistoryLayout *layout, guint i)
{
  return &g_array_index (layout->entries, TgHistoryEntry, i);
}

/* The piece that entry @i belongs to. */
guint tg_history_layout_piece (const TgHistoryLayout *layout, guint i);
/* Entry @i is a point, or a pass, of panel @p. */
gboolean tg_history_layout_is_point (const TgHistoryLayout *layout, guint i, guint p);
gboolean tg_history_layout_is_pass (const TgHistoryLayout *layout, guint i, guint p);

/* y of the upper edge of the triangles of the passes. */
double tg_history_layout_triangle (const TgHistoryLayout *layout, guint p);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgHistoryLayout, tg_history_layout_free)

G_END_DECLS
