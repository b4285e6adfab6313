/* bench-drawing.h: how a part lies on scale and stand for one reading
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "design.h"
#include "event.h"
#include "style.h"

G_BEGIN_DECLS

/**
 * tg_bench_drawing_draw:
 * @figure: an end of a rod: that end on the scale, the other on a stand; the whole: all of it on
 *   the scale, as for every other part
 * @way: which face of a rod is up; TG_WAY_ANY: the mark is not shown
 *
 * No zones and no grams: these belong to grinding.  Nothing is drawn outside @area and the cairo
 * state is restored.
 */
void tg_bench_drawing_draw (cairo_t *cr,
                            TgRect area,
                            const TgDesign *design,
                            TgFigure figure,
                            TgWay way,
                            const TgStyle *style);

/* TgBenchPlaces: where the stand's edge lies, and the mark that is seen from above */
typedef struct
{
  TgRect stand;
  TgRect mark;
} TgBenchPlaces;

/* FALSE where nothing is drawn; @figure is an end of a rod. */
gboolean tg_bench_drawing_places (TgRect area,
                                  const TgDesign *design,
                                  TgFigure figure,
                                  const TgStyle *style,
                                  TgBenchPlaces *places);

G_END_DECLS
