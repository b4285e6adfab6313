/* test-plot.c: days side by side, round ticks, texts that keep clear of each other
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>

#include "picture.h"
#include "plot.h"

#define DAY 86400

static TgPlot *
new_plot (double width, double height)
{
  TgStyle style = tg_style_light ();

  double pad = 1.5 * style.line;

  /* what may be written on begins at 10, 10 */
  return tg_plot_new ((TgRect){ 10 - pad, 10 - pad, width + 2 * pad, height + 2 * pad }, &style);
}

/* Ticks are 1, 2 or 5 times a power of ten apart, and three to five of them lie on the axis. */
static void
test_ticks (void)
{
  g_autoptr (TgPlot) plot = new_plot (300, 200);
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (guint i = 0; i < 2000; i++)
    {
      double low = g_rand_double_range (random, -500, 500);
      double high = low + pow (10, g_rand_double_range (random, -3, 3));
      TgPlotScale scale = tg_plot_scale_new (plot, (TgRect){ 0, 0, 300, 200 }, low, high);
      double first = ceil (scale.low / scale.tick - 1e-9), n;
      double mantissa = scale.tick / pow (10, floor (log10 (scale.tick) + 1e-9));

      n = floor (scale.high / scale.tick + 1e-9) - first + 1;
      g_assert_cmpfloat (scale.low, <=, low);
      g_assert_cmpfloat (scale.high, >=, high);
      g_assert_cmpfloat (n, >=, 3);
      g_assert_cmpfloat (n, <=, 5);
      g_assert_true (fabs (mantissa - 1) < 1e-9 || fabs (mantissa - 2) < 1e-9 ||
                     fabs (mantissa - 5) < 1e-9);
      /* as many decimals as the tick has */
      g_assert_cmpfloat (fabs (scale.tick * pow (10, scale.decimals) -
                               round (scale.tick * pow (10, scale.decimals))),
                         <, 1e-9);
      if (scale.decimals > 0)
        g_assert_cmpfloat (scale.tick, <, 1);
      /* no more room than one tick beyond either end */
      g_assert_cmpfloat (scale.high - scale.low, <=, 1.09 * (high - low) + 2 * scale.tick);
    }
}

static void
test_y (void)
{
  g_autoptr (TgPlot) plot = new_plot (300, 200);
  TgPlotScale scale = tg_plot_scale_new (plot, (TgRect){ 0, 20, 300, 100 }, 1, 2);

  g_assert_cmpfloat_with_epsilon (tg_plot_y (&scale, scale.high), 20, 1e-9);
  g_assert_cmpfloat_with_epsilon (tg_plot_y (&scale, scale.low), 120, 1e-9);
  g_assert_cmpfloat (tg_plot_y (&scale, 2), <, tg_plot_y (&scale, 1));
}

/* Days side by side whatever lies between them, entries in order and inside their day. */
static void
test_days (void)
{
  g_autoptr (TgPlot) plot = new_plot (300, 200);
  const TgStamp stamps[] = { { 0, 0 },
                             { 60, 0 },
                             { 120, 0 },
                             { 40 * DAY, 0 },
                             { 41 * DAY, 0 },
                             { 41 * DAY + 5, 0 },
                             { 41 * DAY + 9000, 0 } };
  const guint n[] = { 3, 1, 3 };
  double end = 50;

  tg_plot_place_days (plot, stamps, G_N_ELEMENTS (stamps), 50, 300);
  g_assert_cmpuint (plot->days->len, ==, 3);
  g_assert_cmpuint (plot->x->len, ==, G_N_ELEMENTS (stamps));
  for (guint d = 0; d < 3; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);

      g_assert_cmpuint (day->n, ==, n[d]);
      g_assert_cmpfloat (day->x, >=, end);
      end = day->x + day->width;
      for (guint i = day->first; i < day->first + day->n; i++)
        {
          g_assert_cmpfloat (tg_plot_x (plot, i), >, day->x);
          g_assert_cmpfloat (tg_plot_x (plot, i), <, end);
          if (i > 0)
            g_assert_cmpfloat (tg_plot_x (plot, i) - tg_plot_x (plot, i - 1), >=,
                               plot->step - 1e-9);
        }
    }
  g_assert_cmpfloat_with_epsilon (end, 300, 1e-9);
  /* more entries, more room; but a day with one has room for its name */
  g_assert_cmpfloat (g_array_index (plot->days, TgPlotDay, 0).width, >,
                     1.5 * g_array_index (plot->days, TgPlotDay, 1).width);
  g_assert_cmpfloat (g_array_index (plot->days, TgPlotDay, 1).width, >,
                     tg_plot_text_width (plot, "11 Feb", FALSE));
}

/* The day is that of the clock that wrote the stamp. */
static void
test_midnight (void)
{
  g_autoptr (TgPlot) plot = new_plot (300, 200);
  /* 23:59 and 00:01 in UTC are one evening two hours west of it */
  const TgStamp west[] = { { DAY - 60, -120 }, { DAY + 60, -120 } };
  const TgStamp here[] = { { DAY - 60, 0 }, { DAY + 60, 0 } };
  g_autoptr (TgPlot) other = new_plot (300, 200);

  tg_plot_place_days (plot, west, 2, 50, 300);
  g_assert_cmpuint (plot->days->len, ==, 1);
  tg_plot_place_days (other, here, 2, 50, 300);
  g_assert_cmpuint (other->days->len, ==, 2);
}

static void
test_write (void)
{
  g_autoptr (TgPlot) plot = new_plot (200, 60);
  TgColor ink = plot->style.ink;
  double width = tg_plot_text_width (plot, "target", FALSE);

  g_assert_true (tg_plot_write (plot, "target", FALSE, ink, 10, 10, 0));
  /* over it, and too close behind it */
  g_assert_false (tg_plot_write (plot, "x", FALSE, ink, 15, 10, 0));
  g_assert_false (tg_plot_write (plot, "x", FALSE, ink, 10 + width + 1, 10, 0));
  g_assert_true (tg_plot_write (plot, "x", FALSE, ink, 10 + width + plot->size, 10, 0));
  g_assert_true (tg_plot_write (plot, "x", FALSE, ink, 15, 10 + plot->row, 0));
  /* out of the picture on each side */
  g_assert_false (tg_plot_write (plot, "target", FALSE, ink, 209, 40, 0));
  g_assert_false (tg_plot_write (plot, "target", FALSE, ink, 11, 40, 1));
  g_assert_false (tg_plot_write (plot, "target", FALSE, ink, 100, 9, 0));
  g_assert_false (tg_plot_write (plot, "target", FALSE, ink, 100, 68, 0));
  g_assert_true (tg_plot_write (plot, "target", FALSE, ink, 210, 40, 1));
  g_assert_cmpuint (plot->texts->len, ==, 4);
}

static void
test_sentence (void)
{
  g_autoptr (TgPlot) plot = new_plot (200, 60);
  TgRect narrow = { 20, 10, 70, 60 }, low = { 110, 10, 40, 8 };
  const TgPlotText *text;

  g_assert_true (tg_plot_write_sentence (plot, "Nothing weighed yet.", plot->style.quiet, narrow));
  text = &g_array_index (plot->texts, TgPlotText, 0);
  g_assert_cmpfloat (text->rect.height, >, 1.8 * plot->row);
  g_assert_false (tg_plot_write_sentence (plot, "Nothing weighed yet.", plot->style.quiet, low));
}

static void
test_shorten (void)
{
  g_autoptr (TgPlot) plot = new_plot (200, 60);
  const char *name = "Schaftfuß über dem Bund";
  g_autofree char *whole = tg_plot_shorten (plot, name, 1000);
  g_autofree char *cut = tg_plot_shorten (plot, name, 90);
  g_autofree char *none = tg_plot_shorten (plot, name, 20);

  g_assert_cmpstr (whole, ==, name);
  g_assert_true (g_str_has_suffix (cut, "…"));
  g_assert_true (g_utf8_validate (cut, -1, NULL));
  g_assert_cmpfloat (tg_plot_text_width (plot, cut, FALSE), <=, 90);
  g_assert_null (none);
}

/* Dot, ring and cross can be told apart without colour. */
static void
test_marks_differ (void)
{
  TgStyle style = tg_style_print ();
  Picture *pictures[3];

  for (guint m = 0; m < 3; m++)
    {
      g_autoptr (TgPlot) plot = tg_plot_new ((TgRect){ 0, 0, 20, 20 }, &style);

      plot->step = 100;
      plot->size = 30;
      pictures[m] = picture_new (20, 20, style.ground);
      tg_plot_draw_mark (pictures[m]->cr, plot, (TgPlotMark) m, 10, 10, style.accent);
    }
  for (guint a = 0; a < 3; a++)
    for (guint b = 0; b < a; b++)
      g_assert_cmpuint (picture_differing (pictures[a], pictures[b], 60), >, 30);
  for (guint m = 0; m < 3; m++)
    picture_free (pictures[m]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/plot/ticks", test_ticks);
  g_test_add_func ("/plot/y", test_y);
  g_test_add_func ("/plot/days", test_days);
  g_test_add_func ("/plot/midnight", test_midnight);
  g_test_add_func ("/plot/write", test_write);
  g_test_add_func ("/plot/sentence", test_sentence);
  g_test_add_func ("/plot/shorten", test_shorten);
  g_test_add_func ("/plot/marks-differ", test_marks_differ);
  return g_test_run ();
}
