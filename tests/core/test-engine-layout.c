/* test-engine-layout.c: where an engine's cylinders and crank throws stand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the layouts do to the engine is held to the handbook's table in test-dynamics.c.
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "engine-layout.h"
#include "error.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static TgEngineLayout
make (TgEngineSpec spec)
{
  g_autoptr (GError) error = NULL;
  TgEngineLayout layout;
  gboolean made;

  spec.spacing_mm = 100;
  made = tg_engine_layout_make (&spec, &layout, &error);
  g_assert_no_error (error);
  g_assert_true (made);
  made = tg_engine_layout_check (&layout, &error);
  g_assert_no_error (error);
  g_assert_true (made);
  return layout;
}

/* Throws modulo 360° against the usual cranks, pin by pin.  In-line eight: Dynamics of Mechanical
 * Systems (2002), table 15.10.2.  In-line five: from the firing order 1-2-4-5-3 at 144°, as a
 * technical site on car engines prints it, which gives throws 0 216 144 72 288.  The others are common
 * practice: in-line four and flat V8 0 180 180 0, six 0 120 240 240 120 0, cross-plane 0 90 270 180. */
static void
test_throws (void)
{
  static const struct
  {
    TgEngineSpec spec;
    guint n, rods;
    double throws[8];
  } cases[] = {
    { { .kind = TG_ENGINE_SINGLE }, 1, 1, { 0 } },
    { { .kind = TG_ENGINE_TWIN_360 }, 2, 1, { 0, 0 } },
    { { .kind = TG_ENGINE_TWIN_180 }, 2, 1, { 0, 180 } },
    { { .kind = TG_ENGINE_V_TWIN, .bank_angle_deg = 52 }, 2, 2, { 0 } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 3 }, 3, 1, { 0, 120, 240 } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 4 }, 4, 1, { 0, 180, 180, 0 } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 6 }, 6, 1, { 0, 120, 240, 240, 120, 0 } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 8 }, 8, 1, { 0, 90, 270, 180, 180, 270, 90, 0 } },
    { { .kind = TG_ENGINE_V8_CROSS, .bank_angle_deg = 90 }, 8, 2, { 0, 90, 270, 180 } },
    { { .kind = TG_ENGINE_V8_FLAT, .bank_angle_deg = 90 }, 8, 2, { 0, 180, 180, 0 } },
    { { .kind = TG_ENGINE_V12, .bank_angle_deg = 60 }, 12, 2, { 0, 120, 240, 240, 120, 0 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgEngineLayout layout = make (cases[i].spec);

      g_assert_cmpuint (layout.n, ==, cases[i].n);
      g_assert_cmpuint (layout.n_pins, ==, cases[i].n / cases[i].rods);
      for (guint k = 0; k < layout.n; k++)
        {
          g_assert_cmpuint (layout.cylinders[k].pin, ==, k / cases[i].rods);
          NEAR (remainder (layout.cylinders[k].throw_deg - cases[i].throws[k / cases[i].rods], 360),
                0, 1e-9);
        }
    }
}

/* The five: 0 216 144 72 288 or what is the same engine seen from its other end, mirrored or turned:
 * the steps from throw to throw are all of one of the two kinds, up to sign and order. */
static void
test_five (void)
{
  static const double usual[5] = { 0, 216, 144, 72, 288 };
  TgEngineLayout layout = make ((TgEngineSpec){ .kind = TG_ENGINE_INLINE, .cylinders = 5 });
  gboolean found = FALSE;

  for (int mirrored = -1; mirrored <= 1; mirrored += 2)
    for (int back = 0; back <= 1; back++)
      {
        double first = mirrored * layout.cylinders[back ? 4 : 0].throw_deg;
        gboolean same = TRUE;

        for (guint k = 0; k < 5; k++)
          {
            double got = mirrored * layout.cylinders[back ? 4 - k : k].throw_deg - first;

            same = same && fabs (remainder (got - usual[k], 360)) < 1e-9;
          }
        found = found || same;
      }
  g_assert_true (found);
}

/* Pin offsets for even firing: 30° at a 90° V6, 60° at a 60° V6, 0 at 120° (common practice, also
 * described by a magazine's technical school on engine smoothness); 18° at a 90° V10, 0 at 72°; 12° at
 * a 72° V12 and 0 at 60° (common practice, no published source). */
static void
test_pin_offsets (void)
{
  static const struct
  {
    TgEngineKind kind;
    double bank, offset;
  } cases[] = {
    { TG_ENGINE_V6, 90, 30 },       { TG_ENGINE_V6, 60, 60 },     { TG_ENGINE_V6, 120, 0 },
    { TG_ENGINE_V8_CROSS, 90, 0 },  { TG_ENGINE_V8_FLAT, 90, 0 }, { TG_ENGINE_V10, 72, 0 },
    { TG_ENGINE_V10, 90, 18 },      { TG_ENGINE_V12, 60, 0 },     { TG_ENGINE_V12, 72, 12 },
    { TG_ENGINE_V8_CROSS, 60, 30 }, { TG_ENGINE_V_TWIN, 90, 90 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgEngineSpec spec = { .kind = cases[i].kind, .bank_angle_deg = cases[i].bank };
      TgEngineLayout shared = make (spec);
      TgEngineLayout split;

      spec.split_pins = TRUE;
      split = make (spec);
      g_assert_true (tg_engine_layout_fires_evenly (&split));
      g_assert_true (tg_engine_layout_fires_evenly (&shared) == (cases[i].offset == 0));
      g_assert_cmpuint (split.n_pins, ==, cases[i].offset == 0 ? split.n / 2 : split.n);
      for (guint k = 0; k < split.n; k += 2)
        NEAR (fabs (split.cylinders[k + 1].throw_deg - split.cylinders[k].throw_deg),
              cases[i].offset, 1e-9);
    }
}

static void
test_even_firing (void)
{
  static const guint rows[] = { 3, 4, 5, 6, 8 };
  TgEngineLayout layout;

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      layout = make ((TgEngineSpec){ .kind = TG_ENGINE_INLINE, .cylinders = rows[i] });
      g_assert_true (tg_engine_layout_fires_evenly (&layout));
      layout.cylinders[1].throw_deg += 1e-4;
      g_assert_false (tg_engine_layout_fires_evenly (&layout));
    }
  for (guint n = 2; n <= 6; n += 2)
    {
      layout = make ((TgEngineSpec){ .kind = TG_ENGINE_BOXER, .cylinders = n, .offset_mm = 30 });
      g_assert_true (tg_engine_layout_fires_evenly (&layout));
      g_assert_cmpuint (layout.n_pins, ==, n);
      /* pistons of a pair are at top dead centre together, on opposite throws */
      for (guint i = 0; i < n; i += 2)
        {
          NEAR (layout.cylinders[i].bank_deg, -90, 1e-12);
          NEAR (layout.cylinders[i + 1].bank_deg, 90, 1e-12);
          NEAR (fabs (remainder (layout.cylinders[i + 1].throw_deg - layout.cylinders[i].throw_deg,
                                 360)),
                180, 1e-9);
        }
    }
  layout = make ((TgEngineSpec){ .kind = TG_ENGINE_TWIN_360 });
  g_assert_true (tg_engine_layout_fires_evenly (&layout));
  layout = make ((TgEngineSpec){ .kind = TG_ENGINE_TWIN_180 });
  g_assert_false (tg_engine_layout_fires_evenly (&layout));
  /* four at top dead centre at once: only two of them could fire in their turn */
  layout = make ((TgEngineSpec){ .kind = TG_ENGINE_INLINE, .cylinders = 4 });
  for (guint i = 0; i < 4; i++)
    layout.cylinders[i].throw_deg = 0;
  g_assert_false (tg_engine_layout_fires_evenly (&layout));
}

/* The crank's middle is the middle of the bores; spacing and offset come out as they went in. */
static void
test_positions (void)
{
  TgEngineSpec spec = { .kind = TG_ENGINE_V8_CROSS, .bank_angle_deg = 90, .offset_mm = 22 };
  TgEngineLayout layout = make (spec);
  double sum = 0;

  for (guint i = 0; i < layout.n; i++)
    sum += layout.cylinders[i].position_mm;
  NEAR (sum, 0, 1e-9);
  NEAR (layout.cylinders[0].position_mm, -150 - 11, 1e-9);
  NEAR (layout.cylinders[7].position_mm, 150 + 11, 1e-9);
  for (guint i = 2; i < layout.n; i++)
    NEAR (layout.cylinders[i].position_mm - layout.cylinders[i - 2].position_mm, 100, 1e-9);
  for (guint i = 0; i < layout.n; i += 2)
    {
      NEAR (layout.cylinders[i + 1].position_mm - layout.cylinders[i].position_mm, 22, 1e-9);
      NEAR (layout.cylinders[i].bank_deg, -45, 1e-12);
      NEAR (layout.cylinders[i + 1].bank_deg, 45, 1e-12);
    }
}

static void
test_refused_specs (void)
{
  static const TgEngineSpec cases[] = {
    { .kind = TG_ENGINE_INLINE, .cylinders = 7, .spacing_mm = 90 },
    { .kind = TG_ENGINE_INLINE, .cylinders = 2, .spacing_mm = 90 },
    { .kind = TG_ENGINE_INLINE, .cylinders = 4, .spacing_mm = 0 },
    { .kind = TG_ENGINE_INLINE, .cylinders = 4, .spacing_mm = NAN },
    { .kind = TG_ENGINE_INLINE, .cylinders = 4, .spacing_mm = INFINITY },
    { .kind = TG_ENGINE_TWIN_180, .spacing_mm = -1 },
    { .kind = TG_ENGINE_BOXER, .cylinders = 8, .spacing_mm = 90, .offset_mm = 30 },
    { .kind = TG_ENGINE_BOXER, .cylinders = 4, .spacing_mm = 90, .offset_mm = 0 },
    { .kind = TG_ENGINE_BOXER, .cylinders = 4, .spacing_mm = 90, .offset_mm = 90 },
    { .kind = TG_ENGINE_V6, .bank_angle_deg = 0, .spacing_mm = 90 },
    { .kind = TG_ENGINE_V6, .bank_angle_deg = 181, .spacing_mm = 90 },
    { .kind = TG_ENGINE_V6, .bank_angle_deg = NAN, .spacing_mm = 90 },
    { .kind = TG_ENGINE_V6, .bank_angle_deg = 60, .spacing_mm = 90, .offset_mm = -1 },
    { .kind = TG_ENGINE_V_TWIN, .bank_angle_deg = 60, .offset_mm = NAN },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      TgEngineLayout layout = { .n = 99 };

      g_assert_false (tg_engine_layout_make (&cases[i], &layout, &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
      g_assert_cmpuint (layout.n, ==, 99);
    }
}

static void
refused (const TgEngineLayout *layout, TgError code, const char *named)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (tg_engine_layout_check (layout, &error));
  g_assert_error (error, TG_ERROR, (int) code);
  g_assert_nonnull (strstr (error->message, named));
}

static void
test_refused_layouts (void)
{
  const TgEngineLayout good = make (
      (TgEngineSpec){ .kind = TG_ENGINE_V8_CROSS, .bank_angle_deg = 90, .offset_mm = 20 });
  TgEngineLayout bad = good;

  bad.n = 0;
  refused (&bad, TG_ERROR_RANGE, "Cylinders");
  bad.n = TG_ENGINE_LAYOUT_MAX + 1;
  refused (&bad, TG_ERROR_RANGE, "25");
  bad = good, bad.n_pins = 9;
  refused (&bad, TG_ERROR_RANGE, "Crankpins");
  bad = good, bad.n_pins = 5;
  refused (&bad, TG_ERROR_RANGE, "Crankpin: 5");
  bad = good, bad.cylinders[7].pin = 4;
  refused (&bad, TG_ERROR_RANGE, "Cylinder 8, crankpin");
  bad = good, bad.cylinders[3].throw_deg += 1;
  refused (&bad, TG_ERROR_RANGE, "Cylinders 3 and 4 share crankpin 2");
  bad = good, bad.cylinders[3].throw_deg += 360;
  g_assert_true (tg_engine_layout_check (&bad, NULL));
  bad = good, bad.cylinders[4].position_mm = bad.cylinders[2].position_mm;
  refused (&bad, TG_ERROR_DUPLICATE, "Cylinders 3 and 5");
  bad = good, bad.cylinders[1].bank_deg = 181;
  refused (&bad, TG_ERROR_RANGE, "Cylinder 2, bank");
  bad = good, bad.cylinders[1].throw_deg = NAN;
  refused (&bad, TG_ERROR_RANGE, "Cylinder 2, crank throw");
  bad = good, bad.cylinders[1].position_mm = INFINITY;
  refused (&bad, TG_ERROR_RANGE, "Cylinder 2, position");
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/engine-layout/throws", test_throws);
  g_test_add_func ("/engine-layout/five", test_five);
  g_test_add_func ("/engine-layout/pin-offsets", test_pin_offsets);
  g_test_add_func ("/engine-layout/even-firing", test_even_firing);
  g_test_add_func ("/engine-layout/positions", test_positions);
  g_test_add_func ("/engine-layout/refused-specs", test_refused_specs);
  g_test_add_func ("/engine-layout/refused-layouts", test_refused_layouts);
  return g_test_run ();
}
