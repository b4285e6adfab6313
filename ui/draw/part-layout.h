/* part-layout.h: where outline, zones, labels and dimension of one drawing lie
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Private to this folder and its tests: drawing and hit testing read the same layout.
 */
#pragma once

#include "outline.h"
#include "part-drawing.h"
#include "text.h"

G_BEGIN_DECLS

typedef enum
{
  TG_ZONE_LOOK_READY, /* usable, nothing to do */
  TG_ZONE_LOOK_WORK,  /* metal still to come off */
  TG_ZONE_LOOK_DONE,  /* passes were made, nothing left to come off */
  TG_ZONE_LOOK_CARE,  /* with care and not opted in, or left alone */
  TG_ZONE_LOOK_NEVER,
} TgZoneLook;

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
 * TgLabel: a text beside the part with a leader to its zone
 * @head: (nullable): amount
 * @line: (nullable): depth, name or state
 * @reason: (nullable): follows @line; @brief: (nullable): a shorter @line for narrow places
 * @rect: the text block
 * @anchor, @end: the leader, from the zone to the block; @dot: it starts with a dot
 */
typedef struct
{
  guint zone;
  guint side;
  TgZoneLook look;
  char *head;
  char *line;
  char *reason;
  char *brief;
  double head_height;
  double line_height;
  TgAlign align;
  TgRect rect;
  TgPoint anchor, end;
  gboolean dot;
} TgLabel;

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

/* The texts of a label's parts, so that measuring and drawing agree. */
TgText tg_part_layout_head_text (const TgStyle *style);
TgText tg_part_layout_line_text (const TgStyle *style, double width, TgAlign align);

/* (transfer full): "0.25 g", with as many decimals as the amount has, at least one, at most three */
char *tg_part_layout_grams (double grams);
/* (transfer full): "0.11 mm"; "under 0.01 mm" */
char *tg_part_layout_millimetres (double mm);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPartLayout, tg_part_layout_free)

G_END_DECLS
