/* engine-fixture.c: see engine-fixture.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-fixture.h"

static const struct
{
  TgEngineSpec spec;
  const char *order;
} made[ENGINE_RADIAL] = {
  [ENGINE_ONE] = { { TG_ENGINE_SINGLE, 1, 90, FALSE, 100, 0 }, "1" },
  [ENGINE_TWIN] = { { TG_ENGINE_TWIN_270, 2, 90, FALSE, 100, 0 }, "1-2" },
  [ENGINE_V_TWIN] = { { TG_ENGINE_V_TWIN, 2, 45, FALSE, 100, 0 }, "1-2" },
  [ENGINE_NARROW_V_TWIN] = { { TG_ENGINE_V_TWIN, 2, 12, FALSE, 100, 25 }, "" },
  [ENGINE_INLINE_FOUR] = { { TG_ENGINE_INLINE, 4, 90, FALSE, 98, 0 }, "1-3-4-2" },
  [ENGINE_INLINE_EIGHT] = { { TG_ENGINE_INLINE, 8, 90, FALSE, 98, 0 }, "" },
  [ENGINE_V6] = { { TG_ENGINE_V6, 6, 90, FALSE, 110, 20 }, "" },
  [ENGINE_V6_SPLIT] = { { TG_ENGINE_V6, 6, 60, TRUE, 110, 20 }, "1-2-3-4-5-6" },
  [ENGINE_V8] = { { TG_ENGINE_V8_CROSS, 8, 90, FALSE, 112, 24 }, "1-8-4-3-6-5-7-2" },
  [ENGINE_V10] = { { TG_ENGINE_V10, 10, 72, FALSE, 103, 18.5 }, "" },
  [ENGINE_V12] = { { TG_ENGINE_V12, 12, 60, FALSE, 105, 20 }, "1-12-5-8-3-10-6-7-2-11-4-9" },
  [ENGINE_BOXER] = { { TG_ENGINE_BOXER, 4, 90, FALSE, 120, 40 }, "1-3-2-4" },
  [ENGINE_BOXER_SIX] = { { TG_ENGINE_BOXER, 6, 90, FALSE, 118, 50 }, "" },
};

static TgEngineDrawing
make (EngineCase which, TgEngineLayout *layout)
{
  const TgEngineSpec *spec = &made[which].spec;
  g_autoptr (GError) error = NULL;

  tg_engine_layout_make (spec, layout, &error);
  g_assert_no_error (error);
  return (TgEngineDrawing){ .layout = layout,
                            .name = tg_engine_kind_label (spec->kind),
                            .order = made[which].order,
                            .spacing_mm = spec->spacing_mm,
                            .offset_mm = spec->offset_mm,
                            .stroke_mm = 90,
                            .rod_mm = 150 };
}

TgEngineDrawing
engine_fixture (EngineCase which, TgEngineLayout *layout)
{
  TgEngineDrawing engine = { .layout = layout, .name = "free" };
  const double uneven_mm[] = { -300, -299.5, 40, 41, 700 };

  if (which < ENGINE_RADIAL)
    return make (which, layout);
  *layout = (TgEngineLayout){ .n = which == ENGINE_RADIAL ? 9 : which == ENGINE_UNEVEN ? 5 : 24 };
  layout->n_pins = which == ENGINE_RADIAL ? 1 : which == ENGINE_SPREAD ? 12 : layout->n;
  for (guint i = 0; i < layout->n; i++)
    {
      TgEngineCylinder *cylinder = &layout->cylinders[i];

      cylinder->pin = i % layout->n_pins;
      if (which == ENGINE_RADIAL)
        cylinder->bank_deg = i * 40.0 - 160;
      else if (which == ENGINE_UNEVEN)
        *cylinder = (TgEngineCylinder){ i * 17.3 - 40, i * 71.25, uneven_mm[i], i };
      else if (which == ENGINE_SPREAD)
        *cylinder = (TgEngineCylinder){ i * 15.0 - 170, i % 12 * 30.0, i % 12 * 90.0, i % 12 };
      else
        *cylinder = (TgEngineCylinder){ 0, i * 30.0, i * 100.0, i };
    }
  if (which == ENGINE_LONG)
    {
      engine.order = "1-2-3-4-5-6-7-8-9-10-11-12-13-14-15-16-17-18-19-20-21-22-23-24";
      engine.spacing_mm = 100;
    }
  return engine;
}
