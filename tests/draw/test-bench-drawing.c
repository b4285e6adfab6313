/* test-bench-drawing.c: a part on scale and stand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "bench-drawing.h"
#include "fixture.h"
#include "picture.h"
#include "plain-part.h"

static const TgRect sizes[] = {
  { 12, 12, 7, 5 },     { 12, 12, 40, 20 },   { 12, 12, 90, 36 },  { 12, 12, 328, 190 },
  { 12, 12, 360, 640 }, { 12, 12, 640, 400 }, { 12, 12, 900, 60 }, { 12, 12, 60, 900 },
};

static const struct
{
  TgFigure figure;
  TgWay way;
} slots[] = {
  { TG_FIGURE_SMALL_END, TG_WAY_MARK_UP }, { TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN },
  { TG_FIGURE_BIG_END, TG_WAY_MARK_UP },   { TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN },
  { TG_FIGURE_WHOLE, TG_WAY_ANY },
};

static const TgColor paper = { 0.2, 0.9, 0.7 };

static Picture *
draw (const TgDesign *design, TgRect area, guint slot, const TgStyle *style, TgColor ground)
{
  Picture *picture = picture_new ((int) (area.x * 2 + area.width), (int) (area.y * 2 + area.height),
                                  ground);

  tg_bench_drawing_draw (picture->cr, area, design, slots[slot].figure, slots[slot].way, style);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  return picture;
}

/* Ink stays inside at every size, nothing is cut off at the edge, and there is some. */
static void
check_ink (const TgDesign *design, const TgStyle *style)
{
  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint slot = 0; slot < G_N_ELEMENTS (slots); slot++)
      {
        TgRect area = sizes[i];
        Picture *picture = draw (design, area, slot, style, paper);

        g_assert_true (picture_unchanged_outside (picture, area, paper));
        if (area.width >= 90)
          g_assert_true (picture_unchanged_outside (
              picture, (TgRect){ area.x + 1, area.y + 1, area.width - 2, area.height - 2 }, paper));
        if (area.width >= 40)
          g_assert_false (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper));
        picture_free (picture);
      }
}

/* Of a part that is only weighed no dimension is known. */
static TgDesign *
plain_design (TgPartKind kind)
{
  TgDesign *design = tg_design_new (kind);

  memset (&design->rod, 0, sizeof design->rod);
  memset (&design->piston, 0, sizeof design->piston);
  return design;
}

static void
test_ink (void)
{
  const TgStyle styles[] = { tg_style_light (), tg_style_dark (), tg_style_print (),
                             tg_style_high_contrast (tg_style_light ()) };

  for (guint d = 0; d < FIXTURE_N_DESIGNS; d++)
    for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
      {
        g_autoptr (TgDesign) design = fixture_design ((FixtureDesign) d);

        check_ink (design, &styles[s]);
      }
  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    for (guint s = 0; s < G_N_ELEMENTS (styles); s++)
      {
        g_autoptr (TgDesign) design = plain_design (kind);

        check_ink (design, &styles[s]);
      }
}

/* Every family has a sign of its own, in the list as on the scale. */
static void
test_signs_differ (void)
{
  TgStyle style = tg_style_light ();
  TgRect large = { 0, 0, 640, 400 }, small = { 0, 0, 84, 38 };
  Picture *on_scale[TG_N_PART_KINDS], *alone[TG_N_PART_KINDS];

  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    {
      g_autoptr (TgDesign) design = plain_design (kind);

      on_scale[kind] = draw (design, large, G_N_ELEMENTS (slots) - 1, &style, style.ground);
      alone[kind] = picture_new (84, 38, style.ground);
      tg_plain_part_draw_in (alone[kind]->cr, small, kind, &style);
      g_assert_false (
          picture_unchanged_outside (alone[kind], (TgRect){ 0, 0, 0, 0 }, style.ground));
      for (guint other = TG_PART_PIN; other < kind; other++)
        {
          g_assert_cmpuint (picture_differing (on_scale[kind], on_scale[other], 40), >, 400);
          g_assert_cmpuint (picture_differing (alone[kind], alone[other], 40), >, 100);
        }
    }
  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    {
      picture_free (on_scale[kind]);
      picture_free (alone[kind]);
    }
}

/* Alone a sign stays in its place as well, whatever the size. */
static void
test_sign_stays_inside (void)
{
  TgStyle style = tg_style_light ();

  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
      {
        TgRect area = sizes[i];
        Picture *picture = picture_new ((int) (area.x * 2 + area.width),
                                        (int) (area.y * 2 + area.height), paper);

        tg_plain_part_draw_in (picture->cr, area, kind, &style);
        g_assert_true (picture_unchanged_outside (picture, area, paper));
        if (area.width >= 40)
          g_assert_true (picture_unchanged_outside (
              picture, (TgRect){ area.x + 1, area.y + 1, area.width - 2, area.height - 2 }, paper));
        picture_free (picture);
      }
}

/* What the person has to do differently is drawn differently: end, face and support. */
static void
test_slots_differ (void)
{
  g_autoptr (TgDesign) design = fixture_design (FIXTURE_I_ROD);
  TgStyle style = tg_style_light ();
  TgRect area = { 0, 0, 640, 400 };
  Picture *pictures[G_N_ELEMENTS (slots)];

  for (guint i = 0; i < G_N_ELEMENTS (slots); i++)
    pictures[i] = draw (design, area, i, &style, style.ground);
  for (guint i = 0; i < G_N_ELEMENTS (slots); i++)
    for (guint j = 0; j < i; j++)
      g_assert_cmpuint (picture_differing (pictures[i], pictures[j], 40), >, 120);
  for (guint i = 0; i < G_N_ELEMENTS (slots); i++)
    picture_free (pictures[i]);
}

/* Columns of the picture in which there is accent colour in its lower third: the scale. */
static double
middle_of_scale (Picture *picture, TgColor accent)
{
  double sum = 0;
  guint n = 0;

  for (int x = 0; x < picture->width; x++)
    for (int y = picture->height * 2 / 3; y < picture->height; y++)
      {
        TgColor c = picture_pixel (picture, x, y);

        if (fabs (c.r - accent.r) + fabs (c.g - accent.g) + fabs (c.b - accent.b) < 0.05)
          {
            sum += x;
            n++;
          }
      }
  g_assert_cmpuint (n, >, 100);
  return sum / n;
}

/* The scale stands under the end that is weighed: the big end is left, the small end right. */
static void
test_scale_under_its_end (void)
{
  const FixtureDesign rods[] = { FIXTURE_I_ROD, FIXTURE_H_ROD, FIXTURE_LONG_ROD };
  TgStyle style = tg_style_light ();
  TgRect area = { 0, 0, 640, 400 };

  for (guint i = 0; i < G_N_ELEMENTS (rods); i++)
    {
      g_autoptr (TgDesign) design = fixture_design (rods[i]);
      Picture *small = draw (design, area, 0, &style, style.ground);
      Picture *big = draw (design, area, 2, &style, style.ground);

      g_assert_cmpfloat (middle_of_scale (small, style.accent), >, 400);
      g_assert_cmpfloat (middle_of_scale (big, style.accent), <, 300);
      picture_free (small);
      picture_free (big);
    }
}

static const struct
{
  const char *name;
  FixtureDesign design;
  guint slot;
  int width, height;
  gboolean dark;
} references[] = {
  { "bench-small-up", FIXTURE_I_ROD, 0, 640, 400, FALSE },
  { "bench-big-down-dark", FIXTURE_H_ROD, 3, 640, 400, TRUE },
  { "bench-narrow", FIXTURE_LONG_ROD, 1, 328, 190, FALSE },
  { "bench-whole", FIXTURE_I_ROD, 4, 560, 300, FALSE },
  { "bench-piston", FIXTURE_SLIPPER_PISTON, 4, 560, 300, FALSE },
};

static void
test_sign_reference (gconstpointer data)
{
  TgPartKind kind = GPOINTER_TO_UINT (data);
  g_autofree char *name = g_strconcat ("bench-", tg_part_kind_to_word (kind), NULL);
  g_autoptr (TgDesign) design = plain_design (kind);
  TgStyle style = kind == TG_PART_CLIPS ? tg_style_dark () : tg_style_light ();
  Picture *picture = draw (design, (TgRect){ 0, 0, 360, 220 }, G_N_ELEMENTS (slots) - 1, &style,
                           style.ground);

  picture_compare (picture, name);
  picture_free (picture);
}

static void
test_reference (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (TgDesign) design = fixture_design (references[i].design);
  TgStyle style = references[i].dark ? tg_style_dark () : tg_style_light ();
  TgRect area = { 0, 0, references[i].width, references[i].height };
  Picture *picture = draw (design, area, references[i].slot, &style, style.ground);

  picture_compare (picture, references[i].name);
  picture_free (picture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/bench-drawing/ink", test_ink);
  g_test_add_func ("/bench-drawing/slots-differ", test_slots_differ);
  g_test_add_func ("/bench-drawing/scale-under-its-end", test_scale_under_its_end);
  g_test_add_func ("/bench-drawing/signs-differ", test_signs_differ);
  g_test_add_func ("/bench-drawing/sign-stays-inside", test_sign_stays_inside);
  for (guint kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    {
      g_autofree char *path = g_strconcat ("/bench-drawing/reference/bench-",
                                           tg_part_kind_to_word (kind), NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (kind), test_sign_reference);
    }
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/bench-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  return g_test_run ();
}
