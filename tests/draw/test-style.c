/* test-style.c: colours, contrast and the shading ramp
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>

#include "mark.h"
#include "ramp.h"
#include "style.h"

#define N_STYLES 6

static TgStyle
style (guint i)
{
  const TgStyle base[] = { tg_style_light (), tg_style_dark (), tg_style_print () };

  return i < 3 ? base[i] : tg_style_high_contrast (base[i - 3]);
}

/* Entries of cividis between those in our table, as published with Matplotlib 3.6.3
 * (lib/matplotlib/_cm_listed.py, _cividis_data); Nuñez, Anderton, Renslow 2018,
 * PLoS ONE 13(7) e0199239. */
static void
test_cividis (void)
{
  static const struct
  {
    int index;
    double r, g, b;
  } published[] = {
    { 0, 0.000000, 0.135112, 0.304751 },   { 7, 0.000000, 0.155377, 0.350500 },
    { 13, 0.000000, 0.170800, 0.393100 },  { 64, 0.263738, 0.307831, 0.422789 },
    { 128, 0.488697, 0.485318, 0.471008 }, { 192, 0.736488, 0.680629, 0.424028 },
    { 201, 0.773486, 0.710373, 0.406422 }, { 255, 0.995737, 0.909344, 0.217772 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (published); i++)
    {
      TgColor c = tg_ramp_cividis (published[i].index / 255.0);

      g_assert_cmpfloat_with_epsilon (c.r, published[i].r, 4.0 / 255);
      g_assert_cmpfloat_with_epsilon (c.g, published[i].g, 4.0 / 255);
      g_assert_cmpfloat_with_epsilon (c.b, published[i].b, 4.0 / 255);
    }
}

/* WCAG 2.1, definitions of relative luminance and contrast ratio: black on white is 21 to 1, and
 * the luminance of a primary is its coefficient.  #767676 as the lightest grey that still has 4.5
 * on white is a figure from memory, found in many accessibility guides. */
static void
test_wcag (void)
{
  const TgColor black = { 0, 0, 0 }, white = { 1, 1, 1 }, green = { 0, 1, 0 };
  const TgColor grey = { 0x76 / 255.0, 0x76 / 255.0, 0x76 / 255.0 };
  const TgColor lighter = { 0x77 / 255.0, 0x77 / 255.0, 0x77 / 255.0 };

  g_assert_cmpfloat_with_epsilon (tg_color_contrast (black, white), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (tg_color_contrast (white, black), 21, 1e-9);
  g_assert_cmpfloat_with_epsilon (tg_color_luminance (green), 0.7152, 1e-9);
  g_assert_cmpfloat (tg_color_contrast (grey, white), >=, 4.5);
  g_assert_cmpfloat (tg_color_contrast (lighter, white), <, 4.5);
}

/* WCAG 2.1, success criterion 1.4.3: at least 4.5 to 1 for text; 1.4.11: 3 to 1 for outlines. */
static void
test_contrast (void)
{
  for (guint i = 0; i < N_STYLES; i++)
    {
      TgStyle s = style (i);

      g_assert_cmpfloat (tg_color_contrast (s.ink, s.ground), >=, 7);
      g_assert_cmpfloat (tg_color_contrast (s.quiet, s.ground), >=, 4.5);
      g_assert_cmpfloat (tg_color_contrast (s.accent, s.ground), >=, 4.5);
      g_assert_cmpfloat (tg_color_contrast (s.good, s.ground), >=, 4.5);
      g_assert_cmpfloat (tg_color_contrast (s.alert, s.ground), >=, 4.5);
      g_assert_cmpfloat (tg_color_contrast (s.ink, s.metal), >=, 4.5);
      g_assert_cmpfloat (tg_color_contrast (s.quiet, s.metal), >=, 3);
    }
}

static void
test_shade (void)
{
  for (guint i = 0; i < N_STYLES; i++)
    {
      TgStyle s = style (i);
      double ground = tg_color_luminance (s.ground), before = -1, contrast = 0;

      for (guint k = 0; k <= 400; k++)
        {
          TgColor c = tg_style_shade (&s, k / 400.0);
          double l = tg_color_luminance (c);

          if (k > 0)
            {
              g_assert_true (s.dark ? l > before : l < before);
              g_assert_cmpfloat (tg_color_contrast (c, s.ground), >, contrast);
            }
          before = l;
          contrast = tg_color_contrast (c, s.ground);
          /* an amount can be read on every shade */
          g_assert_cmpfloat (tg_color_contrast (c, tg_mark_ink_on (c)), >=, 4.5);
        }
      g_assert_cmpfloat (fabs (before - ground), >, 0.5);
    }
}

static void
test_clamp (void)
{
  TgStyle s = tg_style_light ();
  TgColor below = tg_style_shade (&s, -3), zero = tg_style_shade (&s, 0);
  TgColor above = tg_style_shade (&s, 7), one = tg_style_shade (&s, 1);

  g_assert_cmpmem (&below, sizeof below, &zero, sizeof zero);
  g_assert_cmpmem (&above, sizeof above, &one, sizeof one);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/style/cividis", test_cividis);
  g_test_add_func ("/style/wcag", test_wcag);
  g_test_add_func ("/style/contrast", test_contrast);
  g_test_add_func ("/style/shade", test_shade);
  g_test_add_func ("/style/clamp", test_clamp);
  return g_test_run ();
}
