/* test-effect-drawing.c: a part with one place lit, and the arrows at its ends
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "effect-drawing.h"

#include <glib.h>

#include "library.h"
#include "picture.h"

static const TgRect sizes[] = {
  { 10, 10, 3, 3 },     { 10, 10, 60, 40 },  { 10, 10, 290, 136 },
  { 10, 10, 320, 300 }, { 10, 10, 80, 300 },
};

static const TgColor paper = { 0.2, 0.9, 0.7 };

static Picture *
draw (const TgDesign *design, TgRect area, const TgEffectDrawing *how, const TgStyle *style)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  paper);

  tg_effect_drawing_draw (picture->cr, area, design, how, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

/* Ink stays inside at every size, for every design that has an outline. */
static void
test_inside (void)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  const TgStyle styles[] = { tg_style_light (), tg_style_dark () };

  for (guint d = 0; d < library->designs->len; d++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
        {
          const TgDesign *design = g_ptr_array_index (library->designs, d);
          const TgEffectDrawing how = { 0, TG_FIGURE_SMALL_END, TRUE, { -1.14, 0.14 } };
          Picture *picture = draw (design, sizes[i], &how, &styles[s]);

          g_assert_true (picture_unchanged_outside (picture, sizes[i], paper));
          if (sizes[i].width >= 60)
            g_assert_false (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper));
          picture_free (picture);
        }
}

/* What is lit, which end is meant and which way each end moves can be seen. */
static void
test_differs (void)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  const TgDesign *design = tg_library_find_design (library, "rod-i");
  const TgStyle style = tg_style_light ();
  const TgEffectDrawing hows[] = {
    { -1, TG_FIGURE_WHOLE, FALSE, { 0, 0 } },       { 0, TG_FIGURE_WHOLE, FALSE, { 0, 0 } },
    { 7, TG_FIGURE_WHOLE, FALSE, { 0, 0 } },        { -1, TG_FIGURE_SMALL_END, FALSE, { 0, 0 } },
    { -1, TG_FIGURE_BIG_END, FALSE, { 0, 0 } },     { 0, TG_FIGURE_WHOLE, TRUE, { -1.14, 0.14 } },
    { 0, TG_FIGURE_WHOLE, TRUE, { -1.14, -0.14 } }, { 0, TG_FIGURE_WHOLE, TRUE, { 0.14, -1.14 } },
  };

  for (guint a = 0; a < G_N_ELEMENTS (hows); a++)
    for (guint b = 0; b < a; b++)
      {
        Picture *one = draw (design, sizes[2], &hows[a], &style);
        Picture *other = draw (design, sizes[2], &hows[b], &style);

        g_test_message ("%u and %u", a, b);
        g_assert_cmpuint (picture_differing (one, other, 40), >, 25);
        picture_free (one);
        picture_free (other);
      }
}

static void
test_words (void)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  const TgDesign *rod = tg_library_find_design (library, "rod-i");
  const TgDesign *piston = tg_library_find_design (library, "piston-full");
  const TgEffectDrawing both = { 0, TG_FIGURE_BIG_END, TRUE, { -1.14, 0.14 } };
  const TgEffectDrawing none = { -1, TG_FIGURE_WHOLE, FALSE, { 0, 0 } };
  g_autofree char *words = tg_effect_drawing_words (rod, &both);
  g_autofree char *plain = tg_effect_drawing_words (piston, &none);

  g_assert_cmpstr (words, ==,
                   "Rod, small-end pad lit, big end lit; small end −1.14 g, big end +0.14 g");
  g_assert_cmpstr (plain, ==, "Piston");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/effect-drawing/inside", test_inside);
  g_test_add_func ("/effect-drawing/differs", test_differs);
  g_test_add_func ("/effect-drawing/words", test_words);
  return g_test_run ();
}
