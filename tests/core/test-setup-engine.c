/* test-setup-engine.c: the engine that a setup describes, with its bores numbered
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Free forces and couples: the table of usual layouts in Bosch, Automotive Handbook, chapter
 * "Reciprocating-piston engines" (from memory), each computed anew here as a sum over the cylinders of
 * the angles of the crank throws; the 270° twin is not in that table and is computed only.
 */
#include <math.h>
#include <string.h>

#include "error.h"
#include "fixture.h"

static TgSetup *
engine_setup (TgLayout layout, guint cylinders)
{
  TgSetup *setup = fixture_setup (cylinders, TRUE, FALSE);

  setup->layout = layout;
  return setup;
}

static void
set (TgSetup *setup, const char *path, const char *value)
{
  g_autoptr (GError) error = NULL;

  tg_setup_set (setup, path, value, &error);
  g_assert_no_error (error);
}

/* Size of the sum of one order over an inline engine, in units of one cylinder's: of forces, and of
 * couples about the middle in spacings of 1 mm. */
static void
sums (const TgEngineLayout *layout, guint order, double *force, double *couple)
{
  double re = 0, im = 0, couple_re = 0, couple_im = 0;

  for (guint i = 0; i < layout->n; i++)
    {
      double angle = order * layout->cylinders[i].throw_deg * G_PI / 180;

      re += cos (angle);
      im += sin (angle);
      couple_re += layout->cylinders[i].position_mm * cos (angle);
      couple_im += layout->cylinders[i].position_mm * sin (angle);
    }
  *force = hypot (re, im);
  *couple = hypot (couple_re, couple_im);
}

static void
assert_sums (TgSetup *setup, const double expected[4])
{
  g_autoptr (GError) error = NULL;
  TgEngineLayout layout;

  tg_setup_engine_layout (setup, &layout, &error);
  g_assert_no_error (error);
  for (guint order = 1; order <= 2; order++)
    {
      double force, couple;

      sums (&layout, order, &force, &couple);
      g_assert_cmpfloat_with_epsilon (force, expected[order - 1], 1e-3);
      if (!isnan (expected[order + 1]))
        g_assert_cmpfloat_with_epsilon (couple, expected[order + 1], 1e-3);
    }
}

static void
test_kind (void)
{
  static const struct
  {
    TgLayout layout;
    guint cylinders;
    int kind; /* -1: none is usual */
  } cases[] = {
    { TG_LAYOUT_INLINE, 1, TG_ENGINE_SINGLE },
    { TG_LAYOUT_INLINE, 2, TG_ENGINE_TWIN_360 },
    { TG_LAYOUT_INLINE, 4, TG_ENGINE_INLINE },
    { TG_LAYOUT_INLINE, 7, -1 },
    { TG_LAYOUT_VEE, 2, TG_ENGINE_V_TWIN },
    { TG_LAYOUT_VEE, 6, TG_ENGINE_V6 },
    { TG_LAYOUT_VEE, 8, TG_ENGINE_V8_CROSS },
    { TG_LAYOUT_VEE, 10, TG_ENGINE_V10 },
    { TG_LAYOUT_VEE, 12, TG_ENGINE_V12 },
    { TG_LAYOUT_VEE, 16, -1 },
    { TG_LAYOUT_BOXER, 4, TG_ENGINE_BOXER },
    { TG_LAYOUT_BOXER, 8, -1 },
    { TG_LAYOUT_OTHER, 4, -1 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgSetup) setup = engine_setup (cases[i].layout, cases[i].cylinders);
      g_autoptr (GError) error = NULL;
      TgEngineKind kind;
      TgEngineLayout layout;

      g_assert_cmpint (tg_setup_engine_kind (setup, &kind), ==, cases[i].kind >= 0);
      g_assert_cmpint (tg_setup_engine_layout (setup, &layout, &error), ==, cases[i].kind >= 0);
      if (cases[i].kind >= 0)
        g_assert_cmpint (kind, ==, cases[i].kind);
      else
        g_assert_error (error, TG_ERROR, TG_ERROR_UNKNOWN);
    }
}

static void
test_firing_order (void)
{
  static const struct
  {
    guint cylinders;
    const char *order;
    double sums[4]; /* force 1st, 2nd; couple 1st, 2nd */
  } cases[] = {
    { 3, "1-3-2", { 0, 0, 1.7321, 1.7321 } },     { 4, "1-3-4-2", { 0, 4, 0, 0 } },
    { 5, "1-2-4-5-3", { 0, 0, 0.4490, 4.9798 } }, { 5, "1-5-2-3-4", { 0, 0, 4.9798, 0.4490 } },
    { 6, "1-5-3-6-2-4", { 0, 0, 0, 0 } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_INLINE, cases[i].cylinders);
      TgEngineLayout layout;

      set (setup, "engine.order", cases[i].order);
      assert_sums (setup, cases[i].sums);
      g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
      g_assert_true (tg_setup_order_is_even (setup, &layout));
    }
}

/* Angle of the crank, 0 to below 360, at which a bore stands at its upper dead centre. */
static double
dead_centre (const TgEngineCylinder *cylinder)
{
  double angle = fmod (cylinder->bank_deg - cylinder->throw_deg, 360);

  return angle < -1e-6 ? angle + 360 : angle;
}

/* Orders of engines with two banks, numbered as their makers number them: from memory, no published source
 * at hand.  Dead centres are reckoned here anew. */
static void
test_two_banks (void)
{
  static const char along[] = "1-2-3-4-5-6-7-8", by_bank[] = "1-5-2-6-3-7-4-8",
                    other_way[] = "2-1-4-3-6-5-8-7", six[] = "1-4-2-5-3-6";
  static const struct
  {
    const char *kind;
    guint cylinders;
    const char *numbering, *order, *extra, *value;
    gboolean even;
  } cases[] = {
    { "v8-cross", 8, other_way, "1-8-4-3-6-5-7-2", NULL, NULL, TRUE },
    { "v8-cross", 8, other_way, "1-8-7-2-6-5-4-3", NULL, NULL, TRUE },
    { "v8-cross", 8, by_bank, "1-3-7-2-6-5-4-8", NULL, NULL, TRUE },
    { "v8-cross", 8, by_bank, "1-5-4-2-6-3-7-8", NULL, NULL, TRUE },
    { "v8-cross", 8, by_bank, "1-5-4-8-6-3-7-2", NULL, NULL, TRUE },
    { "v8-cross", 8, by_bank, "1-5-3-7-4-8-2-6", NULL, NULL, FALSE }, /* of a flat-plane crank */
    { "v8-flat", 8, by_bank, "1-5-3-7-4-8-2-6", NULL, NULL, TRUE },
    { "v8-flat", 8, by_bank, "1-5-4-8-6-3-7-2", NULL, NULL, FALSE }, /* of a cross-plane crank */
    { "v6", 6, six, "1-4-2-5-3-6", "engine.bank-angle", "120", TRUE },
    { "v6", 6, six, "1-4-3-6-2-5", "engine.bank-angle", "120", TRUE },
    { "v6", 6, six, "1-4-3-6-2-5", "engine.split-pins", "yes", TRUE },
    { "v6", 6, six, "1-4-3-6-2-5", NULL, NULL, FALSE }, /* 90°, one pin for two rods */
    { "v10", 10, "1-6-2-7-3-8-4-9-5-10", "1-6-5-10-2-7-3-8-4-9", "engine.bank-angle", "72", TRUE },
    { "v12", 12, "1-7-2-8-3-9-4-10-5-11-6-12", "1-12-5-8-3-10-6-7-2-11-4-9", "engine.bank-angle",
      "60", TRUE },
    { "boxer", 4, "1-3-2-4", "1-4-3-2", NULL, NULL, TRUE },
    { "boxer", 4, "2-1-4-3", "1-3-2-4", NULL, NULL, TRUE },
    { "boxer", 6, six, "1-6-2-4-3-5", NULL, NULL, TRUE },
    { "boxer", 6, "1-2-3-4-5-6", "1-6-2-4-3-5", NULL, NULL, FALSE }, /* would part the pairs */
    { "v8-cross", 8, along, "1-2-7-8-4-5-6-3", NULL, NULL, TRUE },
  };

  for (guint c = 0; c < G_N_ELEMENTS (cases); c++)
    {
      g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_VEE, cases[c].cylinders);
      guint n = cases[c].cylinders, bores[TG_ENGINE_LAYOUT_MAX], order[TG_ENGINE_LAYOUT_MAX];
      TgEngineLayout made, layout;
      gboolean even = TRUE;

      set (setup, "engine.kind", cases[c].kind);
      set (setup, "engine.numbering", cases[c].numbering);
      if (cases[c].extra)
        set (setup, cases[c].extra, cases[c].value);
      g_assert_true (tg_setup_engine_layout (setup, &made, NULL));
      set (setup, "engine.order", cases[c].order);
      g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
      g_assert_true (tg_engine_layout_check (&layout, NULL));
      g_assert_true (tg_engine_read_numbers (cases[c].order, n, order, NULL));
      g_assert_true (tg_engine_read_numbers (cases[c].numbering, n, bores, NULL));
      for (guint k = 0; k < n; k++)
        {
          double first = dead_centre (&layout.cylinders[order[0] - 1]);
          double here = dead_centre (&layout.cylinders[order[k] - 1]);

          even &= fabs (remainder (here - first - k * 720.0 / n, 360)) < 1e-6;
          /* only the throws follow from the order */
          g_assert_cmpuint (layout.cylinders[k].pin, ==, made.cylinders[k].pin);
          g_assert_cmpfloat (layout.cylinders[k].bank_deg, ==, made.cylinders[k].bank_deg);
          g_assert_cmpfloat (layout.cylinders[k].position_mm, ==, made.cylinders[k].position_mm);
          if (!cases[c].even)
            g_assert_cmpfloat (layout.cylinders[k].throw_deg, ==, made.cylinders[k].throw_deg);
        }
      for (guint i = 0; i < n; i += 2)
        {
          guint a = bores[i] - 1, b = bores[i + 1] - 1;

          g_assert_cmpfloat (
              fabs (remainder (layout.cylinders[a].throw_deg - layout.cylinders[b].throw_deg -
                                   made.cylinders[a].throw_deg + made.cylinders[b].throw_deg,
                               360)),
              <, 1e-6);
        }
      g_test_message ("%s %s %s", cases[c].kind, cases[c].numbering, cases[c].order);
      g_assert_cmpint (even, ==, cases[c].even);
      g_assert_cmpint (tg_setup_order_is_even (setup, &layout), ==, cases[c].even);
    }
}

/* 1-3-4-2 fires at 0, 180, 360 and 540°: throws of 0, 180, 180 and 0. */
static void
test_throws (void)
{
  static const double throws[] = { 0, 180, 180, 0 };
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_INLINE, 4);
  TgEngineLayout layout;

  set (setup, "engine.order", "1-3-4-2");
  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  for (guint i = 0; i < 4; i++)
    g_assert_cmpfloat_with_epsilon (remainder (layout.cylinders[i].throw_deg - throws[i], 360), 0,
                                    1e-9);
}

static void
test_twin_270 (void)
{
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_INLINE, 2);

  set (setup, "engine.kind", "twin-270");
  assert_sums (setup, (const double[]){ 1.4142, 0, 0.7071, 1 });
}

/* A V8 numbered along the crank, bank after bank, and as its owner says. */
static void
test_numbering (void)
{
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_VEE, 8);
  TgEngineLayout layout;

  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  g_assert_cmpuint (layout.cylinders[0].pin, ==, layout.cylinders[1].pin);
  g_assert_cmpfloat (layout.cylinders[0].bank_deg, <, layout.cylinders[1].bank_deg);

  set (setup, "crankpins", "banks");
  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  g_assert_cmpuint (layout.cylinders[0].pin, ==, layout.cylinders[4].pin);
  g_assert_cmpfloat (layout.cylinders[0].bank_deg, ==, layout.cylinders[3].bank_deg);

  set (setup, "engine.numbering", "2-1-4-3-6-5-8-7");
  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  g_assert_cmpuint (layout.cylinders[0].pin, ==, layout.cylinders[1].pin);
  g_assert_cmpfloat (layout.cylinders[1].bank_deg, <, layout.cylinders[0].bank_deg);
}

/* A cross-plane crank numbered along it cannot fire evenly from 1 to 8 in turn. */
static void
test_order_uneven (void)
{
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_VEE, 8);
  TgEngineLayout layout;

  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  g_assert_true (tg_setup_order_is_even (setup, &layout)); /* none was said */
  set (setup, "engine.order", "1-2-3-4-5-6-7-8");
  g_assert_true (tg_setup_engine_layout (setup, &layout, NULL));
  g_assert_false (tg_setup_order_is_even (setup, &layout));
}

static void
test_rod_length (void)
{
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_INLINE, 4);
  g_autoptr (TgSetup) pistons = fixture_setup (4, FALSE, TRUE);

  g_assert_cmpfloat (tg_setup_rod_mm (setup), ==, 150);
  set (setup, "engine.rod-length", "151.5");
  g_assert_cmpfloat (tg_setup_rod_mm (setup), ==, 151.5);
  g_assert_cmpfloat (tg_setup_rod_mm (pistons), ==, 0);
}

/* A refused value leaves no trace. */
static void
test_refused (void)
{
  static const struct
  {
    const char *path;
    const char *value;
  } cases[] = {
    { "engine.kind", "v8-cross" },
    { "engine.kind", "rotary" },
    { "engine.order", "1-3-4" },
    { "engine.order", "1-3-3-2" },
    { "engine.order", "1-3-4-2-5" },
    { "engine.numbering", "1-2-3-5" },
    { "engine.free", "0:0:0" },
    { "engine.factor", "120" },
    { "engine.stroke", "-1" },
    { "engine.split-pins", "maybe" },
    { "engine.speed", "50001" },
    { "engine.grade", "0" },
    { "engine.nothing", "1" },
    { "engine.rod-facing", "1234567890123456789012345678901234567890123456789012345678901" },
  };
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_INLINE, 4);
  g_autoptr (TgSetup) before = tg_setup_copy (setup);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL, checked = NULL;

      g_assert_false (tg_setup_set (setup, cases[i].path, cases[i].value, &error));
      g_assert_nonnull (error);
      g_assert_false (tg_setup_check_value (setup, cases[i].path, cases[i].value, &checked));
      g_assert_nonnull (checked);
      g_assert_true (tg_setup_equal (setup, before));
    }
}

/* Every value can be set, read back, described, and told apart. */
static void
test_paths (void)
{
  static const struct
  {
    const char *path;
    const char *value;
  } cases[] = {
    { "engine.kind", "inline" },
    { "engine.kind", "by-layout" },
    { "engine.factor", "52.5" },
    { "engine.factor", "by-layout" },
    { "engine.split-pins", "yes" },
    { "engine.order", "1-3-4-2" },
    { "engine.numbering", "4-3-2-1" },
    { "engine.bank-angle", "60" },
    { "engine.spacing", "100" },
    { "engine.offset", "18.5" },
    { "engine.stroke", "86.4" },
    { "engine.rod-length", "150.2" },
    { "engine.speed", "7200" },
    { "engine.oil", "5" },
    { "engine.other-rotating", "1.5" },
    { "engine.other-reciprocating", "2.5" },
    { "engine.crank-mass", "21" },
    { "engine.grade", "6.3" },
    { "engine.share", "2" },
    { "engine.piston-facing", "front" },
    { "engine.rod-facing", "exhaust" },
    { "engine.clips-facing", "down" },
    { "engine.free", "0:0:-1.5:1 0:180:-0.5:2 0:180:0.5:3 0:0:1.5:4" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_INLINE, 4);
      g_autoptr (TgSetup) copy = NULL;
      g_autofree char *got = NULL, *words = tg_setup_describe (setup, cases[i].path);

      g_assert_cmpstr (words, !=, cases[i].path);
      g_assert_true (tg_setup_check_value (setup, cases[i].path, cases[i].value, NULL));
      copy = tg_setup_copy (setup);
      set (setup, cases[i].path, cases[i].value);
      got = tg_setup_get (setup, cases[i].path);
      g_assert_cmpstr (got, ==, cases[i].value);
      g_assert_cmpint (tg_setup_equal (setup, copy), ==, strcmp (cases[i].value, "by-layout") == 0);
    }
}

/* The longest that can be said of a free layout still fits an event. */
static void
test_long_free (void)
{
  g_autoptr (TgSetup) setup = engine_setup (TG_LAYOUT_OTHER, 24);
  TgEngineLayout layout = { .n = 24, .n_pins = 24 }, read;
  g_autofree char *text = NULL;
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  for (guint i = 0; i < 24; i++)
    layout.cylinders[i] = (TgEngineCylinder){ -179.123456789012 + i, -719.123456789012 + i,
                                              -876.123456789012 + 20 * i, i };
  text = tg_engine_format_free (&layout);
  job = tg_job_new (g_steal_pointer (&setup));
  event.path = "engine.free";
  event.value = text;
  fixture_append (job, event);
  event.path = "engine.kind";
  event.value = "free";
  fixture_append (job, event);
  review = tg_review_new (job);
  g_assert_true (tg_setup_engine_layout (review->setup, &read, NULL));
  for (guint i = 0; i < 24; i++)
    {
      g_assert_cmpfloat (read.cylinders[i].bank_deg, ==, layout.cylinders[i].bank_deg);
      g_assert_cmpfloat (read.cylinders[i].throw_deg, ==, layout.cylinders[i].throw_deg);
      g_assert_cmpfloat (read.cylinders[i].position_mm, ==, layout.cylinders[i].position_mm);
      g_assert_cmpuint (read.cylinders[i].pin, ==, i);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/setup-engine/kind", test_kind);
  g_test_add_func ("/setup-engine/firing-order", test_firing_order);
  g_test_add_func ("/setup-engine/two-banks", test_two_banks);
  g_test_add_func ("/setup-engine/throws", test_throws);
  g_test_add_func ("/setup-engine/twin-270", test_twin_270);
  g_test_add_func ("/setup-engine/numbering", test_numbering);
  g_test_add_func ("/setup-engine/order-uneven", test_order_uneven);
  g_test_add_func ("/setup-engine/rod-length", test_rod_length);
  g_test_add_func ("/setup-engine/refused", test_refused);
  g_test_add_func ("/setup-engine/paths", test_paths);
  g_test_add_func ("/setup-engine/long-free", test_long_free);
  return g_test_run ();
}
