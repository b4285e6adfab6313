/* engine-fixture.h: engines and curves to draw
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "engine-drawing.h"

G_BEGIN_DECLS

typedef enum
{
  ENGINE_ONE,
  ENGINE_TWIN,
  ENGINE_V_TWIN,
  ENGINE_NARROW_V_TWIN, /* 12° */
  ENGINE_INLINE_FOUR,
  ENGINE_INLINE_EIGHT,
  ENGINE_V6,
  ENGINE_V6_SPLIT,
  ENGINE_V8,
  ENGINE_V10,
  ENGINE_V12,
  ENGINE_BOXER,
  ENGINE_BOXER_SIX,
  ENGINE_RADIAL, /* nine on one crankpin */
  ENGINE_UNEVEN, /* free: places that are anything but even, angles with fractions */
  ENGINE_SPREAD, /* free: 24 banks */
  ENGINE_LONG,   /* free: 24 in a row */
  N_ENGINES
} EngineCase;

/* Numbers are invented. @layout has to live as long as what is given back. */
TgEngineDrawing engine_fixture (EngineCase which, TgEngineLayout *layout);

G_END_DECLS
