/* part-layout.h: where outline, zones, labels and dimension of one drawing lie
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Private to this folder and its tests: drawing and hit testing read the same layout.
 */
#pragma once

#include "outline.h"
#include "part-drawing.h"
#include "part-label.h"

G_BEGIN_DECLS

/**
 * TgZoneLayout:
 * @side: on the target
 * @inside: (nullable): amount that is written in the zone itself
 */
typedef struct
{
  TgZoneLook look;
  double share;
  guint n;
  TgShape side[2];
  char *inside;
} TgZoneLayout;

/**
 * TgDimension: a dimension line with arrows
 * @from: where the extension lines start; @to: where they meet the dimension line
 */
typedef struct
{
  gboolean shown;
  TgPoint from[2], to[2];
  TgRect rect;
  gboolean upright;
  char *text;
} TgDimension;

/**
 * TgPartLayout:
 * @line: stroke width for this size
 * @outline: the part and its zones on the target
 * @zones: (element-type TgZoneLayout)
 * @labels: (element-type TgLabel)
 */
typedef struct
{
  const TgDesign *design;
  TgView view;
  double line;
  gboolean small;
  TgRect outline;
  GArray *zones;
  GArray *labels;
  TgDimension dimension;
} TgPartLayout;

/* @part or, without amounts, @design: the other is NULL. */
TgPartLayout *tg_part_layout_new (TgRect area,
                                  const TgPartReview *part,
                                  const TgDesign *design,
                                  const TgPartDrawing *how,
                                  const TgStyle *style);
void tg_part_layout_free (TgPartLayout *layout);

static inline const TgZoneLayout *
tg_part_layout_zone (const TgPartLayout *layout, guint index)
{
  return &g_array_index (layout->zones, TgZoneLayout, index);
}

static inline const TgLabel *
tg_part_layout_label (const TgPartLayout *layout, guint index)
{
  return &g_array_index (layout->labels, TgLabel, index);
}

int tg_part_layout_zone_at (const TgPartLayout *layout, double x, double y);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPartLayout, tg_part_layout_free)

G_END_DECLS
