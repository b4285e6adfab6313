/* forces-drawing.h: forces and couples over a turn, over the speed, and as what they draw
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "balance.h"
#include "plot.h"

G_BEGIN_DECLS

typedef enum
{
  TG_FORCES_LOCUS, /* what the tip draws in a turn, both axes to the same scale */
  TG_FORCES_ANGLE, /* over the crank angle, 0 to 360° */
  TG_FORCES_SPEED, /* the largest over the speed */
} TgForcesPlot;

/* A look tells lines apart without colour: dotted, thick, dashed, thin. */
typedef enum
{
  TG_FORCES_BEFORE,
  TG_FORCES_NOW,
  TG_FORCES_THEN,
  TG_FORCES_OWN,
} TgForcesLook;

#define TG_FORCES_MAX_LINES 4
/* N or N·m: what is less is drawn as nothing. */
#define TG_FORCES_NOTHING 1e-6

typedef struct
{
  const TgBalanceCurve *curve;
  TgForcesLook look;
  const char *name;
} TgForcesLine;

/**
 * TgForcesDrawing: what is drawn; nothing is kept of it
 * @unit: "N" or "N·m"
 * @nothing: the sentence that stands there if every line is nothing
 * @marked_rpm: of TG_FORCES_SPEED: a mark at this speed; 0: none
 * @lines: the last one lies on top
 */
typedef struct
{
  TgForcesPlot plot;
  const char *unit;
  const char *nothing;
  double marked_rpm;
  guint n;
  TgForcesLine lines[TG_FORCES_MAX_LINES];
} TgForcesDrawing;

/**
 * tg_forces_drawing_draw:
 *
 * Made for 240 × 180 and more, in px of ordinary text 13 high; what does not fit is left out.  Nothing is
 * drawn outside @area and the cairo state is restored.
 */
void tg_forces_drawing_draw (cairo_t *cr,
                             TgRect area,
                             const TgForcesDrawing *forces,
                             const TgStyle *style);

/* The same; what was written where is for the tests. (transfer full) (nullable): NULL: nothing drawn */
TgPlot *tg_forces_drawing_plot (cairo_t *cr,
                                TgRect area,
                                const TgForcesDrawing *forces,
                                const TgStyle *style);

G_END_DECLS
