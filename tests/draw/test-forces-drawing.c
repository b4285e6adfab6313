/* test-forces-drawing.c: forces over a turn, over the speed, and as what they draw
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Curves are invented: ellipses and parabolas.
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "forces-drawing.h"
#include "picture.h"

#define N_POINTS 97

static const TgRect sizes[] = {
  { 12, 12, 7, 5 },     { 12, 12, 60, 40 },   { 12, 12, 60, 300 },  { 12, 12, 500, 70 },
  { 12, 12, 240, 180 }, { 12, 12, 320, 300 }, { 12, 12, 640, 300 },
};

static const TgColor paper = { 0.2, 0.9, 0.7 };

typedef struct
{
  double x[TG_FORCES_MAX_LINES][N_POINTS];
  double y[TG_FORCES_MAX_LINES][N_POINTS];
  TgBalanceCurve curves[TG_FORCES_MAX_LINES];
} Curves;

/* Lines of size 1, 0.6, 0.3 and 0.1 times @size; @slim: of a locus, width over height. */
static TgForcesDrawing
fixture (Curves *curves, TgForcesPlot kind, double size, double slim)
{
  static const double sizes_of[] = { 1, 0.6, 0.3, 0.1 };
  static const char *const names[] = { "the layout’s own", "before", "now", "after the plan" };
  static const TgForcesLook looks[] = { TG_FORCES_OWN, TG_FORCES_BEFORE, TG_FORCES_NOW,
                                        TG_FORCES_THEN };
  TgForcesDrawing forces = { .plot = kind,
                             .unit = "N",
                             .nothing = "No force of its own.",
                             .marked_rpm = 5200,
                             .n = TG_FORCES_MAX_LINES };

  for (guint l = 0; l < TG_FORCES_MAX_LINES; l++)
    {
      for (guint i = 0; i < N_POINTS; i++)
        {
          double share = i / (N_POINTS - 1.0), angle = 2 * G_PI * share;

          curves->x[l][i] = kind == TG_FORCES_LOCUS   ? slim * size * sizes_of[l] * sin (angle)
                            : kind == TG_FORCES_ANGLE ? 360 * share
                                                      : 6500 * share;
          curves->y[l][i] = size * sizes_of[l] *
                            (kind == TG_FORCES_SPEED ? share * share : cos (angle));
        }
      curves->curves[l] = (TgBalanceCurve){ N_POINTS, curves->x[l], curves->y[l] };
      forces.lines[l] = (TgForcesLine){ &curves->curves[l], looks[l], names[l] };
    }
  return forces;
}

static Picture *
draw (const TgForcesDrawing *forces, TgRect area, const TgStyle *style, TgColor ground)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  ground);

  tg_forces_drawing_draw (picture->cr, area, forces, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

static TgPlot *
plot_of (const TgForcesDrawing *forces, TgRect area, const TgStyle *style)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  style->ground);
  TgPlot *plot = tg_forces_drawing_plot (picture->cr, area, forces, style);

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

/* Ink stays inside at every size, for nothing, hardly anything and very much. */
static void
test_ink (void)
{
  const TgStyle style = tg_style_light ();
  const double values[] = { 0, 2e-6, 0.0123, 7.5, 1234, 9.9e9 };

  for (guint k = 0; k <= TG_FORCES_SPEED; k++)
    for (guint v = 0; v < G_N_ELEMENTS (values); v++)
      for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
        {
          Curves curves;
          TgForcesDrawing forces = fixture (&curves, k, values[v], v % 2 ? 0.4 : 3);
          TgRect area = sizes[i];
          TgRect inner = { area.x + 1, area.y + 1, area.width - 2, area.height - 2 };
          Picture *picture = draw (&forces, area, &style, paper);
          g_autoptr (TgPlot) plot = plot_of (&forces, area, &style);

          picture_check_apart (plot);
          g_assert_true (picture_unchanged_outside (picture, inner, paper));
          if (area.width >= 240 && area.height >= 180)
            {
              g_assert_cmpuint (count_texts (plot, "No force of its own."), ==, v == 0);
              g_assert_cmpuint (count_texts (plot, "after the plan"), ==, 1);
              if (v > 0)
                g_assert_cmpuint (plot->texts->len, >=, 8);
            }
          picture_free (picture);
        }
}

static void
test_large_type (void)
{
  TgStyle style = tg_style_print ();

  style.text_size *= 2;
  for (guint k = 0; k <= TG_FORCES_SPEED; k++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      {
        Curves curves;
        TgForcesDrawing forces = fixture (&curves, k, 480, 1);
        g_autoptr (TgPlot) plot = plot_of (&forces, sizes[i], &style);

        picture_check_apart (plot);
      }
}

static void
test_axes (void)
{
  const TgStyle style = tg_style_light ();
  const TgRect area = { 0, 0, 420, 300 };
  static const char *const want[][4] = { { "up, N", "across, N", "200", "−200" },
                                         { "in N", "crank angle", "90°", "360°" },
                                         { "largest in a turn, N", "speed in 1/min", "2000",
                                           "6000" } };

  for (guint k = 0; k <= TG_FORCES_SPEED; k++)
    {
      Curves curves;
      TgForcesDrawing forces = fixture (&curves, k, 480, 0.2);
      g_autoptr (TgPlot) plot = plot_of (&forces, area, &style);

      for (guint i = 0; i < G_N_ELEMENTS (want[k]); i++)
        g_assert_cmpuint (count_texts (plot, want[k][i]), >=, 1);
    }
}

/* A circle is drawn as one, however wide the picture is. */
static void
test_equal_scales (void)
{
  TgStyle style = tg_style_print ();
  const TgRect areas[] = { { 0, 0, 600, 260 }, { 0, 0, 300, 420 } };

  style.accent = (TgColor){ 1, 0, 0 };
  for (guint a = 0; a < G_N_ELEMENTS (areas); a++)
    {
      Curves curves;
      TgForcesDrawing forces = fixture (&curves, TG_FORCES_LOCUS, 100, 1);
      int left = 9999, right = 0, top = 9999, bottom = 0;
      Picture *picture;

      forces.lines[0].look = TG_FORCES_NOW;
      forces.lines[0].name = "";
      forces.n = 1;
      picture = draw (&forces, areas[a], &style, style.ground);
      for (int y = 22; y < picture->height; y++)
        for (int x = 0; x < picture->width; x++)
          {
            TgColor c = picture_pixel (picture, x, y);

            if (c.r < 0.8 || c.g > 0.3)
              continue;
            left = MIN (left, x);
            right = MAX (right, x);
            top = MIN (top, y);
            bottom = MAX (bottom, y);
          }
      g_assert_cmpint (right - left, >, 100);
      g_assert_cmpint (abs ((right - left) - (bottom - top)), <=, 2);
      picture_free (picture);
    }
}

/* On paper, without colour, no two lines look alike. */
static void
test_looks_differ (void)
{
  const TgStyle style = tg_style_print ();
  const TgRect area = { 0, 0, 320, 240 };
  Picture *pictures[4];

  for (guint l = 0; l < 4; l++)
    {
      Curves curves;
      TgForcesDrawing forces = fixture (&curves, TG_FORCES_ANGLE, 100, 1);

      forces.n = 1;
      forces.lines[0].look = (TgForcesLook) l;
      pictures[l] = draw (&forces, area, &style, style.ground);
    }
  for (guint l = 0; l < 4; l++)
    for (guint m = 0; m < l; m++)
      g_assert_cmpuint (picture_differing (pictures[l], pictures[m], 80), >, 60);
  for (guint l = 0; l < 4; l++)
    picture_free (pictures[l]);
}

static const struct
{
  const char *name;
  TgForcesPlot kind;
  double size;
  int width, height, look;
} references[] = {
  { "forces-locus", TG_FORCES_LOCUS, 480, 320, 300, 0 },
  { "forces-angle-print", TG_FORCES_ANGLE, 31, 420, 240, 2 },
  { "forces-speed-dark", TG_FORCES_SPEED, 0.37, 320, 220, 1 },
};

static void
test_reference (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print () };
  const TgStyle *style = &styles[references[i].look];
  Curves curves;
  TgForcesDrawing forces = fixture (&curves, references[i].kind, references[i].size, 0.6);
  Picture *picture = draw (&forces, (TgRect){ 0, 0, references[i].width, references[i].height },
                           style, style->ground);

  picture_compare (picture, references[i].name);
  picture_free (picture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forces-drawing/ink", test_ink);
  g_test_add_func ("/forces-drawing/large-type", test_large_type);
  g_test_add_func ("/forces-drawing/axes", test_axes);
  g_test_add_func ("/forces-drawing/equal-scales", test_equal_scales);
  g_test_add_func ("/forces-drawing/looks-differ", test_looks_differ);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/forces-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  return g_test_run ();
}
