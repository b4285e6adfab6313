/* engine-drawing.h: an engine from the front and along its crank
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "engine-layout.h"
#include "plot.h"

G_BEGIN_DECLS

typedef enum
{
  TG_ENGINE_DRAWING_BOTH,  /* beside each other or one below the other, as there is room */
  TG_ENGINE_DRAWING_FRONT, /* bores and crank throws as angles, from the end of position least */
  TG_ENGINE_DRAWING_ALONG, /* bores, throws and journals along the crank */
} TgEngineDrawingView;

/**
 * TgEngineDrawing: what is drawn; nothing is kept of it
 * @layout: a checked one; cylinder i is numbered i + 1
 * @name: "V8, cross-plane", or NULL
 * @order: firing order "1-3-4-2"; NULL or "" if it was not said
 * @spacing_mm: between the bores of one bank; 0: not known, the bores then stand at equal steps
 * @offset_mm: of the banks; 0: none or not known
 * @stroke_mm, @rod_mm: for the proportions; 0: not known
 */
typedef struct
{
  const TgEngineLayout *layout;
  const char *name;
  const char *order;
  double spacing_mm;
  double offset_mm;
  double stroke_mm;
  double rod_mm;
} TgEngineDrawing;

/**
 * tg_engine_drawing_draw:
 *
 * The crank stands at angle 0.  Where there are two banks, the one of the lesser angle is full and the
 * other hatched, in both views; along the crank they stand on either side of it.  Made for 300 × 180 and
 * more, in px of ordinary text 13 high; what does not fit is left out.  Nothing is drawn outside @area
 * and the cairo state is restored.
 */
void tg_engine_drawing_draw (cairo_t *cr,
                             TgRect area,
                             const TgEngineDrawing *engine,
                             TgEngineDrawingView view,
                             const TgStyle *style);

/* The same; what was written where is for the tests. (transfer full) (nullable): NULL: nothing drawn */
TgPlot *tg_engine_drawing_plot (cairo_t *cr,
                                TgRect area,
                                const TgEngineDrawing *engine,
                                TgEngineDrawingView view,
                                const TgStyle *style);

/* (transfer full): the same in words: kind, banks and their bores, crankpins, order. */
char *tg_engine_drawing_words (const TgEngineDrawing *engine);

G_END_DECLS
