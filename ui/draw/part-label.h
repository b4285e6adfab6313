/* part-label.h: what is said about a zone, and what gives way first
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Private to this folder and its tests.
 */
#pragma once

#include "review.h"
#include "shape.h"
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

TgZoneLook tg_part_label_look (const TgZone *zone, const TgZoneReview *review);

/**
 * tg_part_label_add:
 * @labels: (element-type TgLabel)
 * @review: (nullable): NULL for a design without amounts, whose free zones are named
 * @turn: counts the pairs that had one label so far
 */
void tg_part_label_add (
    GArray *labels, guint index, const TgZone *zone, const TgZoneReview *review, guint *turn);
void tg_part_label_clear (gpointer label);

/* Share of its size without labels that the part must keep for the least important words on show. */
double tg_part_label_needed_share (const GArray *labels);

/* Takes away the least important words. FALSE when nothing was left. */
gboolean tg_part_label_drop (GArray *labels, const TgPartReview *part);

/* Fills in the sizes of head, line and rect. */
void tg_part_label_measure (TgLabel *label, const TgStyle *style);

/* The texts of a label's parts, so that measuring and drawing agree. */
TgText tg_part_label_head_text (const TgStyle *style);
TgText tg_part_label_line_text (const TgStyle *style, double width, TgAlign align);

/* (transfer full): "0.25 g", with as many decimals as the amount has, at least one, at most three */
char *tg_part_label_grams (double grams);
/* (transfer full): "0.11 mm"; "under 0.01 mm" */
char *tg_part_label_millimetres (double mm);

G_END_DECLS
