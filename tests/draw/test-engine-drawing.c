/* test-engine-drawing.c: engines from the front and along the crank
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The angles of the usual cranks are common practice, no published source; dimensions are invented.
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "engine-drawing.h"
#include "engine-fixture.h"
#include "picture.h"

static const TgRect sizes[] = {
  { 12, 12, 7, 5 },     { 12, 12, 60, 40 },   { 12, 12, 40, 300 },  { 12, 12, 500, 60 },
  { 12, 12, 300, 180 }, { 12, 12, 240, 420 }, { 12, 12, 640, 300 },
};

static const TgColor paper = { 0.2, 0.9, 0.7 };

static Picture *
draw (const TgEngineDrawing *engine,
      TgEngineDrawingView view,
      TgRect area,
      const TgStyle *style,
      TgColor ground)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  ground);

  tg_engine_drawing_draw (picture->cr, area, engine, view, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

static TgPlot *
plot_of (const TgEngineDrawing *engine, TgEngineDrawingView view, TgRect area, const TgStyle *style)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  style->ground);
  TgPlot *plot = tg_engine_drawing_plot (picture->cr, area, engine, view, style);

  picture_free (picture);
  return plot;
}

static guint
count_texts (const TgPlot *plot, const char *text)
{
  guint n = 0;

  for (guint i = 0; i < plot->texts->len; i++)
    n += strcmp (g_array_index (plot->texts, TgPlotText, i).text, text) == 0;
  return n;
}

static const TgPlotText *
find_text (const TgPlot *plot, const char *text)
{
  for (guint i = 0; i < plot->texts->len; i++)
    if (strcmp (g_array_index (plot->texts, TgPlotText, i).text, text) == 0)
      return &g_array_index (plot->texts, TgPlotText, i);
  g_error ("“%s” was not written", text);
}

/* Ink stays inside at every size, no text lies over another, and there is some of both. */
static void
test_ink (void)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_high_contrast (tg_style_print ()) };

  for (guint c = 0; c < N_ENGINES; c++)
    for (guint v = 0; v <= TG_ENGINE_DRAWING_ALONG; v++)
      for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
        for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
          {
            TgEngineLayout layout;
            TgEngineDrawing engine = engine_fixture ((EngineCase) c, &layout);
            TgRect area = sizes[i];
            TgRect inner = { area.x + 1, area.y + 1, area.width - 2, area.height - 2 };
            Picture *picture = draw (&engine, v, area, &styles[s], paper);
            g_autoptr (TgPlot) plot = plot_of (&engine, v, area, &styles[s]);

            picture_check_apart (plot);
            g_assert_true (picture_unchanged_outside (picture, inner, paper));
            if (area.width >= 240 && area.height >= 180)
              {
                g_assert_false (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper));
                g_assert_cmpuint (plot->texts->len, >=, 2);
              }
            picture_free (picture);
          }
}

/* Type that is twice as large. */
static void
test_large_type (void)
{
  TgStyle style = tg_style_light ();

  style.text_size *= 2;
  for (guint c = 0; c < N_ENGINES; c++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      {
        TgEngineLayout layout;
        TgEngineDrawing engine = engine_fixture ((EngineCase) c, &layout);
        g_autoptr (TgPlot) plot = plot_of (&engine, TG_ENGINE_DRAWING_BOTH, sizes[i], &style);

        picture_check_apart (plot);
      }
}

/* Every bore and every crankpin has its number in a view along the crank of ordinary size. */
static void
test_numbers (void)
{
  const TgStyle style = tg_style_light ();
  const TgRect area = { 0, 0, 640, 300 };

  for (guint c = 0; c < ENGINE_RADIAL; c++)
    {
      TgEngineLayout layout;
      TgEngineDrawing engine = engine_fixture ((EngineCase) c, &layout);
      g_autoptr (TgPlot) plot = plot_of (&engine, TG_ENGINE_DRAWING_ALONG, area, &style);

      for (guint i = 1; i <= layout.n; i++)
        {
          g_autofree char *number = g_strdup_printf ("%u", i);

          g_assert_cmpuint (count_texts (plot, number), ==, i <= layout.n_pins ? 2 : 1);
        }
    }
}

/* What is written: bank angle, spacing, order and offset, each where it is known only. */
static void
test_words (void)
{
  const TgStyle style = tg_style_light ();
  const TgRect area = { 0, 0, 640, 300 };
  TgEngineLayout layout;
  TgEngineDrawing engine = engine_fixture (ENGINE_V8, &layout);
  g_autoptr (TgPlot) plot = plot_of (&engine, TG_ENGINE_DRAWING_BOTH, area, &style);
  g_autoptr (TgPlot) bare = NULL;
  g_autofree char *words = tg_engine_drawing_words (&engine);

  g_assert_cmpuint (count_texts (plot, "90°"), ==, 1);
  g_assert_cmpuint (count_texts (plot, "112 mm"), ==, 1);
  g_assert_cmpuint (count_texts (plot, "from the front"), ==, 1);
  g_assert_cmpuint (count_texts (plot, "along the crank"), ==, 1);
  g_assert_cmpuint (
      count_texts (plot, "V8, cross-plane · firing order 1-8-4-3-6-5-7-2 · banks 24 mm offset"), ==,
      1);
  g_assert_cmpstr (words, ==,
                   "V8, cross-plane, 8 cylinders. Bores 1, 3, 5, 7 at −45°. Bores 2, 4, 6, 8 at "
                   "45°. Crankpin 3 at −90°. Crankpin 1 at 0°. Crankpin 2 at 90°. Crankpin 4 at "
                   "180°. Firing order 1-8-4-3-6-5-7-2.");
  engine.spacing_mm = engine.offset_mm = 0;
  engine.order = "";
  bare = plot_of (&engine, TG_ENGINE_DRAWING_BOTH, area, &style);
  g_assert_cmpuint (count_texts (bare, "112 mm"), ==, 0);
  g_assert_cmpuint (count_texts (bare, "V8, cross-plane"), ==, 1);
}

/* The throws of a cross-plane crank stand where their angles say: clockwise from the top. */
static void
test_where (void)
{
  const TgStyle style = tg_style_light ();
  TgEngineLayout layout;
  TgEngineDrawing engine = engine_fixture (ENGINE_V8, &layout);
  g_autoptr (TgPlot)
      plot = plot_of (&engine, TG_ENGINE_DRAWING_FRONT, (TgRect){ 0, 0, 400, 400 }, &style);
  g_autoptr (TgPlot)
      along = plot_of (&engine, TG_ENGINE_DRAWING_ALONG, (TgRect){ 0, 0, 400, 300 }, &style);
  TgRect top = find_text (plot, "1")->rect, right = find_text (plot, "2")->rect;
  TgRect left = find_text (plot, "3")->rect, bottom = find_text (plot, "4")->rect;

  g_assert_cmpfloat (top.y, <, right.y);
  g_assert_cmpfloat_with_epsilon (right.y, left.y, 0.5);
  g_assert_cmpfloat (right.y, <, bottom.y);
  g_assert_cmpfloat (left.x, <, top.x);
  g_assert_cmpfloat (top.x, <, right.x);
  g_assert_cmpfloat_with_epsilon (top.x, bottom.x, 0.5);
  g_assert_cmpfloat (find_text (plot, "1, 3, 5, 7")->rect.x, <, left.x);
  g_assert_cmpfloat (find_text (plot, "2, 4, 6, 8")->rect.x, >, right.x);
  /* bores 5 to 8 have their numbers once; the lesser bank is below, and the second stands off */
  g_assert_cmpfloat (find_text (along, "7")->rect.y, >, find_text (along, "8")->rect.y);
  g_assert_cmpfloat (find_text (along, "8")->rect.x, >, find_text (along, "7")->rect.x);
  g_assert_cmpfloat (find_text (along, "5")->rect.x, <, find_text (along, "6")->rect.x);
}

/* On paper, without colour, the banks do not look alike. */
static void
test_banks_differ (void)
{
  const TgStyle style = tg_style_print ();
  TgEngineLayout layout;
  TgEngineDrawing engine = engine_fixture (ENGINE_BOXER, &layout);
  const TgRect area = { 0, 0, 400, 240 };
  Picture *picture = draw (&engine, TG_ENGINE_DRAWING_FRONT, area, &style, style.ground);
  guint dark[2] = { 0, 0 };

  for (int y = 0; y < picture->height; y++)
    for (int x = 0; x < picture->width; x++)
      dark[x >= 200] += tg_color_luminance (picture_pixel (picture, x, y)) < 0.4;
  g_assert_cmpuint (dark[1], >, dark[0] + 80);
  picture_free (picture);
}

static const struct
{
  const char *name;
  EngineCase which;
  TgEngineDrawingView view;
  int width, height;
  enum
  {
    LIGHT,
    DARK,
    PRINT,
    CONTRAST
  } look;
} references[] = {
  { "engine-v8", ENGINE_V8, TG_ENGINE_DRAWING_BOTH, 640, 300, LIGHT },
  { "engine-inline-print", ENGINE_INLINE_FOUR, TG_ENGINE_DRAWING_BOTH, 480, 220, PRINT },
  { "engine-boxer-dark", ENGINE_BOXER, TG_ENGINE_DRAWING_BOTH, 320, 420, DARK },
  { "engine-radial-contrast", ENGINE_RADIAL, TG_ENGINE_DRAWING_FRONT, 300, 260, CONTRAST },
  { "engine-long-print", ENGINE_LONG, TG_ENGINE_DRAWING_ALONG, 500, 180, PRINT },
};

static void
test_reference (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_light ()) };
  const TgStyle *style = &styles[references[i].look];
  TgRect area = { 0, 0, references[i].width, references[i].height };
  TgEngineLayout layout;
  TgEngineDrawing engine = engine_fixture (references[i].which, &layout);
  Picture *picture = draw (&engine, references[i].view, area, style, style->ground);

  picture_compare (picture, references[i].name);
  picture_free (picture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/engine-drawing/ink", test_ink);
  g_test_add_func ("/engine-drawing/large-type", test_large_type);
  g_test_add_func ("/engine-drawing/numbers", test_numbers);
  g_test_add_func ("/engine-drawing/words", test_words);
  g_test_add_func ("/engine-drawing/where", test_where);
  g_test_add_func ("/engine-drawing/banks-differ", test_banks_differ);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/engine-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  return g_test_run ();
}
