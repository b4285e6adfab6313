/* test-glossary-drawing.c: every spot is lit, inside the drawing, and none like another
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "glossary-drawing.h"
#include "picture.h"

static const TgRect sizes[] = { { 10, 10, 264, 190 }, { 10, 10, 340, 210 }, { 10, 10, 300, 150 } };

static Picture *
draw (TgRect area, TgGlossarySpot spot, const TgStyle *style)
{
  Picture *picture = picture_new ((int) (area.width + 2 * area.x), (int) (area.height + 2 * area.y),
                                  style->ground);

  tg_glossary_drawing_draw (picture->cr, area, spot, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

/* Ink stays inside, and the spot lies inside. */
static void
test_inside (void)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_light ()) };

  for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      for (TgGlossarySpot spot = TG_SPOT_NONE + 1; spot < TG_N_SPOTS; spot++)
        {
          TgRect area = sizes[i], lit = tg_glossary_drawing_lit (area, spot, &styles[s]);
          Picture *picture = draw (area, spot, &styles[s]);

          g_assert_true (picture_unchanged_outside (picture, area, styles[s].ground));
          g_assert_cmpfloat (lit.width * lit.height, >, 4);
          g_assert_cmpfloat (lit.x, >=, area.x);
          g_assert_cmpfloat (lit.y, >=, area.y);
          g_assert_cmpfloat (lit.x + lit.width, <=, area.x + area.width);
          g_assert_cmpfloat (lit.y + lit.height, <=, area.y + area.height);
          picture_free (picture);
        }
}

/* No two spots are lit alike: there, the pictures differ by more than their names do. */
static void
test_differ (void)
{
  TgStyle style = tg_style_light ();
  Picture *pictures[TG_N_SPOTS];
  TgRect names[2] = { { 0, 0, 0, 0 }, { 0, 0, 0, 0 } };

  /* without the rows that hold the names */
  names[0] = (TgRect){ 0, 0, sizes[0].width + 20, sizes[0].y + 1.7 * style.text_size };
  names[1] = names[0];
  names[1].y = 2 * sizes[0].y + sizes[0].height - names[0].height;
  for (TgGlossarySpot spot = 0; spot < TG_N_SPOTS; spot++)
    {
      pictures[spot] = draw (sizes[0], spot, &style);
      for (guint i = 0; i < 2; i++)
        {
          tg_color_set (pictures[spot]->cr, style.ground);
          cairo_rectangle (pictures[spot]->cr, names[i].x, names[i].y, names[i].width,
                           names[i].height);
          cairo_fill (pictures[spot]->cr);
        }
    }
  for (TgGlossarySpot a = 0; a < TG_N_SPOTS; a++)
    for (TgGlossarySpot b = 0; b < a; b++)
      if (picture_differing (pictures[a], pictures[b], 24) < 30)
        g_error ("%s looks like %s", tg_glossary_spot_to_word (a), tg_glossary_spot_to_word (b));
  for (TgGlossarySpot spot = 0; spot < TG_N_SPOTS; spot++)
    picture_free (pictures[spot]);
}

/* The spot is in the accent, which nothing else of the drawing has. */
static void
test_accent_is_there (void)
{
  TgStyle style = tg_style_light ();

  for (TgGlossarySpot spot = TG_SPOT_NONE + 1; spot < TG_N_SPOTS; spot++)
    {
      TgRect lit = tg_glossary_drawing_lit (sizes[1], spot, &style);
      Picture *picture = draw (sizes[1], spot, &style);
      guint accent = 0;

      for (int y = (int) lit.y - 2; y <= (int) (lit.y + lit.height) + 2; y++)
        for (int x = (int) lit.x - 2; x <= (int) (lit.x + lit.width) + 2; x++)
          {
            TgColor color = picture_pixel (picture, x, y);

            accent += color.b - color.r > 0.2;
          }
      g_assert_cmpuint (accent, >=, 20);
      picture_free (picture);
    }
}

static void
test_none (void)
{
  TgStyle style = tg_style_light ();
  Picture *picture = draw (sizes[0], TG_SPOT_NONE, &style);
  g_autofree char *words = tg_glossary_drawing_words (TG_SPOT_NONE);
  g_autofree char *small_end = tg_glossary_drawing_words (TG_SPOT_SMALL_END);

  g_assert_true (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, style.ground));
  g_assert_cmpstr (words, ==, "");
  g_assert_cmpstr (small_end, ==, "A connecting rod from the side; lit: small end");
  picture_free (picture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/glossary-drawing/inside", test_inside);
  g_test_add_func ("/glossary-drawing/differ", test_differ);
  g_test_add_func ("/glossary-drawing/accent", test_accent_is_there);
  g_test_add_func ("/glossary-drawing/none", test_none);
  return g_test_run ();
}
