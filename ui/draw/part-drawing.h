/* part-drawing.h: schematic rods and pistons with their zones
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One function serves the window, the printed sheet and the tests.  Nothing is drawn outside the
 * given rectangle and the cairo state is restored.
 */
#pragma once

#include "review.h"
#include "style.h"

G_BEGIN_DECLS

/**
 * TgPartDrawing: how to draw
 * @full_g: grams that get the darkest shade, > 0 (tg_part_drawing_full_g())
 * @labels: amounts, depths, reasons and the centre distance are written; needs a large rectangle
 * @selected: zone that is singled out, or -1
 * @mm_scale: px per mm, or 0 to fit the rectangle; equal scales make parts comparable
 */
typedef struct
{
  double full_g;
  gboolean labels;
  int selected;
  double mm_scale;
} TgPartDrawing;

/* The largest amount on any zone of the review, at least one step of the scale. */
double tg_part_drawing_full_g (const TgReview *review);

void tg_part_drawing_draw (cairo_t *cr,
                           TgRect area,
                           const TgPartReview *part,
                           const TgPartDrawing *how,
                           const TgStyle *style);

/* A design without amounts, for the choice in a new job. */
void tg_part_drawing_draw_design (cairo_t *cr,
                                  TgRect area,
                                  const TgDesign *design,
                                  const TgPartDrawing *how,
                                  const TgStyle *style);

/* Index of the zone of the same drawing that lies at x, y, or -1. */
int tg_part_drawing_zone_at (TgRect area,
                             const TgPartReview *part,
                             const TgPartDrawing *how,
                             const TgStyle *style,
                             double x,
                             double y);

/* The same for the legend: 0 where nothing is to come off. */
double tg_part_drawing_legend_g (const TgReview *review);

/* Legend: the ramp with its grams up to @most_g, none where that is 0; "never here", "finished". */
void tg_part_drawing_draw_legend (
    cairo_t *cr, TgRect area, double most_g, guint decimals, const TgStyle *style);

G_END_DECLS
