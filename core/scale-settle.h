/* scale-settle.h: one reading for each time the load comes to rest
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A scale sends many lines while one part lies on it.  This hands on one of them: when the load
 * stands, and not again before it was taken off or another one stands there.  A hand that leans on the
 * load for a moment makes no other load of it.
 */
#pragma once

#include <glib.h>

#include "scale-pattern.h"

G_BEGIN_DECLS

/* Where a scale does not say that it has settled: equal readings in a row that are waited for. */
#define TG_SCALE_SETTLE_IN_A_ROW 4
/* A load that comes to rest more steps than this away from the one before is another one; within as
 * many of zero the scale is empty.  Common practice, no published source. */
#define TG_SCALE_SETTLE_STEPS 5

/**
 * TgScaleSettle: a plain value
 * @step: of the scale
 * @in_a_row: equal readings to wait for when lines do not say that the load stands; 0 for a scale
 *   that sends a line only when its key is pressed: every line then is a reading of its own
 * @armed: the next rest is handed on: the scale was empty, or showed less than half of what was
 *   handed on last, which is off it even where a rest that was not tared stays on
 * @last: the reading before, @run times in a row
 * @handed: what was handed on last
 */
typedef struct
{
  TgMass step;
  guint in_a_row;
  gboolean armed;
  TgMass last;
  guint run;
  TgMass handed;
} TgScaleSettle;

/* @step > 0 */
TgScaleSettle tg_scale_settle_new (TgMass step, guint in_a_row);

/**
 * tg_scale_settle_feed:
 * @reading: of the next line
 * @mass: (out): untouched unless TRUE
 *
 * Lines that are no reading break a row and change nothing else.  An empty scale and a weight below
 * zero are never handed on.
 *
 * Returns: TRUE if the load has come to rest with @mass on it.
 */
gboolean tg_scale_settle_feed (TgScaleSettle *settle, const TgScaleReading *reading, TgMass *mass);

G_END_DECLS
