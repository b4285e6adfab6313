/* test-part-drawing.c: rods and pistons on the canvas
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fixture.h"
#include "part-drawing.h"
#include "part-layout.h"
#include "picture.h"

static const TgRect sizes[] = {
  { 0, 0, 40, 20 },   { 0, 0, 90, 36 },   { 0, 0, 36, 90 },   { 0, 0, 360, 120 },
  { 0, 0, 360, 300 }, { 0, 0, 360, 640 }, { 0, 0, 640, 400 }, { 0, 0, 1200, 800 },
  { 0, 0, 7, 5 },     { 0, 0, 900, 60 },
};

static TgStyle
style (guint i)
{
  switch (i)
    {
    case 0:
      return tg_style_light ();
    case 1:
      return tg_style_dark ();
    case 2:
      return tg_style_print ();
    default:
      return tg_style_high_contrast (tg_style_light ());
    }
}

typedef void (*Check) (const TgDesign *design,
                       const TgPartReview *part,
                       TgRect area,
                       const TgPartDrawing *how,
                       const TgStyle *style);

/* Every design, state, size and style, with and without labels. */
static void
for_all (Check check, guint n_styles)
{
  for (guint d = 0; d < FIXTURE_N_DESIGNS; d++)
    for (guint state = 0; state < FIXTURE_N_STATES; state++)
      {
        g_autoptr (TgDesign) design = fixture_design ((FixtureDesign) d);
        TgPartReview *part = fixture_part (NULL, design, (FixtureState) state);

        for (guint k = 0; k < G_N_ELEMENTS (sizes) * n_styles * 2; k++)
          {
            TgRect area = sizes[k % G_N_ELEMENTS (sizes)];
            guint variant = k / G_N_ELEMENTS (sizes);
            TgStyle s = style (variant / 2);
            TgPartDrawing how = { .full_g = 1.3, .labels = variant % 2, .selected = (int) state };

            area.x = 12;
            area.y = 12;
            check (design, part, area, &how, &s);
          }
        fixture_part_free (part);
      }
}

static void
check_ink (const TgDesign *design G_GNUC_UNUSED,
           const TgPartReview *part,
           TgRect area,
           const TgPartDrawing *how,
           const TgStyle *s)
{
  TgColor paper = { 0.2, 0.9, 0.7 };
  Picture *picture = picture_new ((int) area.width + 24, (int) area.height + 24, paper);

  tg_part_drawing_draw (picture->cr, area, part, how, s);
  g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
  g_assert_false (cairo_has_current_point (picture->cr));
  g_assert_true (picture_unchanged_outside (picture, area, paper));
  g_assert_false (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper));
  /* nothing was cut off at the edge either */
  if (area.width >= 40)
    g_assert_true (picture_unchanged_outside (
        picture, (TgRect){ area.x + 1, area.y + 1, area.width - 2, area.height - 2 }, paper));
  picture_free (picture);
}

static void
test_ink (void)
{
  for_all (check_ink, 4);
}

static gboolean
within (TgRect inner, TgRect outer)
{
  return inner.x >= outer.x && inner.y >= outer.y &&
         inner.x + inner.width <= outer.x + outer.width &&
         inner.y + inner.height <= outer.y + outer.height;
}

static gboolean
apart (TgRect a, TgRect b)
{
  return a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y ||
         b.y + b.height <= a.y;
}

static void
check_labels (const TgDesign *design G_GNUC_UNUSED,
              const TgPartReview *part,
              TgRect area,
              const TgPartDrawing *how,
              const TgStyle *s)
{
  g_autoptr (TgPartLayout) layout = tg_part_layout_new (area, part, NULL, how, s);

  g_assert_true (within (layout->outline, area));
  if (!how->labels)
    g_assert_cmpuint (layout->labels->len, ==, 0);
  if (layout->dimension.shown)
    g_assert_true (within (layout->dimension.rect, area));
  for (guint i = 0; i < layout->labels->len; i++)
    {
      const TgLabel *label = tg_part_layout_label (layout, i);

      g_assert_true (within (label->rect, area));
      g_assert_true (apart (label->rect, layout->outline));
      g_assert_true (tg_part_layout_zone_at (layout, label->rect.x + 1, label->rect.y + 1) ==
                     (int) label->zone);
      if (layout->dimension.shown)
        g_assert_true (apart (label->rect, layout->dimension.rect));
      for (guint j = 0; j < i; j++)
        g_assert_true (apart (label->rect, tg_part_layout_label (layout, j)->rect));
    }
}

static void
test_labels (void)
{
  for_all (check_labels, 4);
}

/* Each amount stands somewhere, in halves for a pair, and its depth in a large rectangle. */
static void
check_amounts (const TgDesign *design G_GNUC_UNUSED,
               const TgPartReview *part,
               TgRect area,
               const TgPartDrawing *how,
               const TgStyle *s)
{
  g_autoptr (TgPartLayout) layout = NULL;

  if (!how->labels || area.width < 640)
    return;
  if (area.height < 300)
    return;
  layout = tg_part_layout_new (area, part, NULL, how, s);
  for (guint i = 0; i < part->zones->len; i++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, i);
      guint sides = tg_place_is_pair (zone->zone->place) ? 2 : 1, amounts = 0, depths = 0;
      g_autofree char *amount = tg_part_label_grams (zone->amount_g / sides);
      g_autofree char *depth = tg_part_label_millimetres (zone->depth_mm);

      if (tg_part_layout_zone (layout, i)->inside)
        {
          g_assert_cmpstr (tg_part_layout_zone (layout, i)->inside, ==, amount);
          amounts = sides;
        }
      for (guint j = 0; j < layout->labels->len; j++)
        {
          const TgLabel *label = tg_part_layout_label (layout, j);

          if (label->zone != i)
            continue;
          amounts += label->head && g_str_equal (label->head, amount);
          depths += label->line && strstr (label->line, depth);
        }
      g_assert_cmpuint (amounts, ==, zone->amount_g > 0 ? sides : 0);
      g_assert_cmpuint (depths, ==, zone->amount_g > 0 ? sides : 0);
    }
}

static void
test_amounts (void)
{
  for_all (check_amounts, 2);
}

static void
check_hits (const TgDesign *design,
            const TgPartReview *part,
            TgRect area,
            const TgPartDrawing *how,
            const TgStyle *s)
{
  g_autoptr (TgPartLayout) layout = tg_part_layout_new (area, part, NULL, how, s);

  for (guint i = 0; i < design->zones->len; i++)
    for (guint side = 0; side < tg_part_layout_zone (layout, i)->n; side++)
      {
        TgPoint c = tg_part_layout_zone (layout, i)->side[side].center;

        g_assert_cmpint (tg_part_drawing_zone_at (area, part, how, s, c.x, c.y), ==, (int) i);
      }
  g_assert_cmpint (tg_part_drawing_zone_at (area, part, how, s, area.x - 30, area.y - 30), ==, -1);
}

static void
test_hits (void)
{
  for_all (check_hits, 1);
}

/* The box of a rod's zone is centred where the statics have it, except the back of the cap, which is
 * skimmed from outside: its outer face lies there. */
static void
test_positions (void)
{
  for (guint d = 0; d < FIXTURE_FULL_PISTON; d++)
    {
      g_autoptr (TgDesign) design = fixture_design ((FixtureDesign) d);

      for (guint offset = 0; offset < 2; offset++)
        for (guint i = 0; i < design->zones->len; i++)
          {
            TgZone *zone = tg_design_zone (design, i);
            TgShape sides[2];
            guint n;

            zone->offset_mm = 3.0 * offset;
            n = tg_outline_zone (design, zone, sides);
            g_assert_cmpuint (n, ==, tg_place_is_pair (zone->place) ? 2 : 1);
            for (guint s = 0; s < n; s++)
              {
                TgRect box = tg_shape_bounds (&sides[s]);
                double want = tg_design_zone_position (design, zone);
                double is = zone->place == TG_PLACE_CAP_BACK ? box.x : box.x + box.width / 2;

                g_assert_cmpfloat_with_epsilon (is, want, 0.1);
                g_assert_true (tg_shape_contains (&sides[s], sides[s].center.x, sides[s].center.y));
              }
          }
    }
}

/* The outline keeps the proportions of the dimensions. */
static void
test_proportions (void)
{
  g_autoptr (TgDesign) rod = fixture_design (FIXTURE_LONG_ROD);
  g_autoptr (TgDesign) piston = fixture_design (FIXTURE_FULL_PISTON);
  TgRect r = tg_outline_bounds (rod), p = tg_outline_bounds (piston);

  /* 16 + 58 + 420 + 35 + 14 along, 150 across */
  g_assert_cmpfloat_with_epsilon (r.width, 543, 1e-9);
  g_assert_cmpfloat_with_epsilon (r.height, 150, 1e-9);
  g_assert_cmpfloat_with_epsilon (p.width, 86, 1e-9);
  g_assert_cmpfloat_with_epsilon (p.height, 68, 1e-9);
}

static void
test_orientation (void)
{
  g_autoptr (TgDesign) design = fixture_design (FIXTURE_I_ROD);
  TgStyle s = tg_style_light ();

  for (guint labels = 0; labels < 2; labels++)
    {
      TgPartDrawing how = { .full_g = 1, .labels = labels, .selected = -1 };
      g_autoptr (TgPartLayout)
          wide = tg_part_layout_new ((TgRect){ 0, 0, 640, 400 }, NULL, design, &how, &s);
      g_autoptr (TgPartLayout)
          tall = tg_part_layout_new ((TgRect){ 0, 0, 360, 700 }, NULL, design, &how, &s);

      g_assert_false (wide->view.upright);
      g_assert_true (tall->view.upright);
    }
}

/* Equal scales make parts comparable, but never larger than their rectangle. */
static void
test_scale (void)
{
  g_autoptr (TgDesign) small = fixture_design (FIXTURE_I_ROD);
  g_autoptr (TgDesign) large = fixture_design (FIXTURE_LONG_ROD);
  TgStyle s = tg_style_light ();
  TgPartDrawing how = { .full_g = 1, .selected = -1, .mm_scale = 0.5 };
  TgRect area = { 0, 0, 300, 120 };
  g_autoptr (TgPartLayout) a = tg_part_layout_new (area, NULL, small, &how, &s);
  g_autoptr (TgPartLayout) b = tg_part_layout_new (area, NULL, large, &how, &s);
  g_autoptr (TgPartLayout) c = NULL;

  g_assert_cmpfloat_with_epsilon (a->view.scale, 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (b->view.scale, 0.5, 1e-9);
  how.mm_scale = 50;
  c = tg_part_layout_new (area, NULL, large, &how, &s);
  g_assert_true (within (c->outline, area));
}

/* More grams, more contrast: read back from the drawn zone. */
static void
test_shading (void)
{
  for (guint k = 0; k < 4; k++)
    {
      g_autoptr (TgDesign) design = fixture_design (FIXTURE_I_ROD);
      TgPartReview *part = fixture_part (NULL, design, FIXTURE_GRINDING);
      TgRect area = { 0, 0, 400, 200 };
      TgPartDrawing how = { .full_g = 2, .selected = -1 };
      TgStyle s = style (k);
      g_autoptr (TgPartLayout) layout = tg_part_layout_new (area, part, NULL, &how, &s);
      double before = 0;

      for (guint step = 1; step <= 20; step++)
        {
          Picture *picture = picture_new (400, 200, s.ground);
          TgPoint c = tg_part_layout_zone (layout, 1)->side[0].center;
          TgColor want = tg_style_shade (&s, step / 20.0), is;

          g_array_index (part->zones, TgZoneReview, 1).amount_g = 0.1 * step;
          tg_part_drawing_draw (picture->cr, area, part, &how, &s);
          is = picture_pixel (picture, (int) c.x, (int) c.y);
          g_assert_cmpfloat_with_epsilon (is.r, want.r, 2.0 / 255);
          g_assert_cmpfloat_with_epsilon (is.g, want.g, 2.0 / 255);
          g_assert_cmpfloat_with_epsilon (is.b, want.b, 2.0 / 255);
          g_assert_cmpfloat (tg_color_contrast (is, s.ground), >, before);
          before = tg_color_contrast (is, s.ground);
          picture_free (picture);
        }
      fixture_part_free (part);
    }
}

/* States differ by form, not only by colour: their black-and-white pictures differ. */
static void
test_states_differ (void)
{
  g_autoptr (TgDesign) design = fixture_design (FIXTURE_LONG_ROD);
  TgZone *zone = tg_design_zone (design, 1);
  TgRect area = { 0, 0, 640, 300 };
  TgPartDrawing how = { .full_g = 1, .selected = -1 };
  TgStyle s = tg_style_print ();
  Picture *pictures[4];

  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    {
      static const TgStanding standing[] = { TG_STANDING_FREE, TG_STANDING_FREE,
                                             TG_STANDING_WITH_CARE, TG_STANDING_NEVER };
      TgPartReview *part;

      zone->standing = standing[i];
      part = fixture_part (NULL, design, i == 1 ? FIXTURE_DONE : FIXTURE_FRESH);
      g_assert_cmpfloat (part->to_come_off_g, ==, 0);
      pictures[i] = picture_new (640, 300, s.ground);
      tg_part_drawing_draw (pictures[i]->cr, area, part, &how, &s);
      for (guint j = 0; j < i; j++)
        g_assert_cmpuint (picture_differing (pictures[i], pictures[j], 40), >, 40);
      fixture_part_free (part);
    }
  for (guint i = 0; i < G_N_ELEMENTS (pictures); i++)
    picture_free (pictures[i]);
}

static void
test_full (void)
{
  TgReview *review;
  g_autoptr (TgJob) job = fixture_job (4, FALSE, 1, &review);

  /* FIXTURE_BUSY: 0.2 + 2 × 0.35 on the third zone */
  g_assert_cmpfloat_with_epsilon (tg_part_drawing_full_g (review), 0.9, 1e-9);
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      for (guint j = 0; j < part->zones->len; j++)
        g_array_index (part->zones, TgZoneReview, j).amount_g = 0;
    }
  /* one step of the scale */
  g_assert_cmpfloat_with_epsilon (tg_part_drawing_full_g (review), 0.1, 1e-9);
  fixture_review_free (review);
}

static void
test_words (void)
{
  static const struct
  {
    double grams;
    const char *words;
  } cases[] = { { 0.25, "0.25 g" },   { 0.5, "0.5 g" },       { 3, "3.0 g" },
                { 0.005, "0.005 g" }, { 0.123456, "0.12 g" }, { 12.3, "12.3 g" } };
  g_autofree char *thin = tg_part_label_millimetres (0.004);
  g_autofree char *deep = tg_part_label_millimetres (0.114);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *words = tg_part_label_grams (cases[i].grams);

      g_assert_cmpstr (words, ==, cases[i].words);
    }
  g_assert_cmpstr (thin, ==, "under 0.01 mm");
  g_assert_cmpstr (deep, ==, "0.11 mm");
}

static void
random_dims (GRand *rand, const TgField *fields, guint n, gpointer base, double unit)
{
  for (guint i = 0; i < n; i++)
    *tg_field_ptr (&fields[i], base) = CLAMP (unit * exp (g_rand_double_range (rand, -2.5, 1.2)),
                                              fields[i].min, fields[i].max);
}

/* Odd proportions that the checks of the core allow: no fault, no ink outside. */
static void
test_odd_dimensions (void)
{
  GRand *rand = g_rand_new_with_seed (20180801);
  TgColor paper = { 0.2, 0.9, 0.7 };
  TgStyle s = tg_style_light ();
  guint drawn = 0;

  for (guint i = 0; i < 40000 && drawn < 150; i++)
    {
      g_autoptr (TgDesign) design = fixture_design ((FixtureDesign) (i % FIXTURE_N_DESIGNS));
      guint n;
      const TgField *fields = design->kind == TG_PART_ROD ? tg_design_rod_fields (&n)
                                                          : tg_design_piston_fields (&n);
      TgRect area = { 10, 10, 300, 180 };
      TgPartReview *part;

      random_dims (
          rand, fields, n,
          design->kind == TG_PART_ROD ? (gpointer) &design->rod : (gpointer) &design->piston, 60);
      if (!tg_design_check (design, NULL))
        continue;
      drawn++;
      part = fixture_part (NULL, design, FIXTURE_BUSY);
      for (int labels = 0; labels < 2; labels++)
        {
          TgPartDrawing how = { .full_g = 1, .labels = labels, .selected = 0 };
          Picture *picture = picture_new (320, 200, paper);
          g_autoptr (TgPartLayout) layout = tg_part_layout_new (area, part, NULL, &how, &s);

          tg_part_drawing_draw (picture->cr, area, part, &how, &s);
          g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
          g_assert_true (picture_unchanged_outside (picture, area, paper));
          g_assert_true (isfinite (layout->view.scale) && layout->view.scale > 0);
          g_assert_true (within (layout->outline, area));
          picture_free (picture);
        }
      fixture_part_free (part);
    }
  g_assert_cmpuint (drawn, ==, 150);
  g_rand_free (rand);
}

static void
test_legend (void)
{
  TgColor paper = { 0.2, 0.9, 0.7 };

  for (guint i = 0; i < G_N_ELEMENTS (sizes); i++)
    for (guint k = 0; k < 4; k++)
      {
        TgStyle s = style (k);
        TgRect area = { 12, 12, sizes[i].width, sizes[i].height };
        Picture *picture = picture_new ((int) area.width + 24, (int) area.height + 24, paper);

        tg_part_drawing_draw_legend (picture->cr, area, 1.2, 1, &s);
        g_assert_cmpint (cairo_status (picture->cr), ==, CAIRO_STATUS_SUCCESS);
        g_assert_true (picture_unchanged_outside (picture, area, paper));
        if (area.width >= 360)
          g_assert_false (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper));
        picture_free (picture);
      }
}

/* ── reference pictures ────────────────────────────────────────────────────────────────────── */

static const struct
{
  const char *name;
  FixtureDesign design;
  FixtureState state;
  int width, height;
  gboolean labels;
  gboolean dark;
} references[] = {
  { "i-rod-grinding", FIXTURE_I_ROD, FIXTURE_GRINDING, 640, 400, TRUE, FALSE },
  { "i-rod-upright", FIXTURE_I_ROD, FIXTURE_BUSY, 300, 560, TRUE, FALSE },
  { "h-rod-dark", FIXTURE_H_ROD, FIXTURE_GRINDING, 640, 400, TRUE, TRUE },
  { "long-rod-done", FIXTURE_LONG_ROD, FIXTURE_DONE, 640, 240, TRUE, FALSE },
  { "full-piston", FIXTURE_FULL_PISTON, FIXTURE_GRINDING, 560, 360, TRUE, FALSE },
  { "slipper-piston", FIXTURE_SLIPPER_PISTON, FIXTURE_FRESH, 560, 360, TRUE, TRUE },
  { "i-rod-small", FIXTURE_I_ROD, FIXTURE_GRINDING, 90, 36, FALSE, FALSE },
  { "slipper-piston-small", FIXTURE_SLIPPER_PISTON, FIXTURE_GRINDING, 90, 36, FALSE, FALSE },
};

static void
test_reference (gconstpointer data)
{
  guint i = GPOINTER_TO_UINT (data);
  g_autoptr (TgDesign) design = fixture_design (references[i].design);
  TgPartReview *part = fixture_part (NULL, design, references[i].state);
  TgStyle s = references[i].dark ? tg_style_dark () : tg_style_light ();
  TgPartDrawing how = { .full_g = 1, .labels = references[i].labels, .selected = -1 };
  Picture *picture = picture_new (references[i].width, references[i].height, s.ground);

  tg_part_drawing_draw (picture->cr, (TgRect){ 0, 0, references[i].width, references[i].height },
                        part, &how, &s);
  picture_compare (picture, references[i].name);
  picture_free (picture);
  fixture_part_free (part);
}

/* Where nothing is to come off there is no ramp; here the ramp alone would have room. */
static void
test_legend_of_nothing (void)
{
  TgColor paper = { 0.2, 0.9, 0.7 };
  TgStyle s = tg_style_light ();

  for (guint most = 0; most < 2; most++)
    {
      Picture *picture = picture_new (60, 40, paper);

      tg_part_drawing_draw_legend (picture->cr, (TgRect){ 0, 0, 60, 40 }, most, 1, &s);
      g_assert_true (picture_unchanged_outside (picture, (TgRect){ 0, 0, 0, 0 }, paper) ==
                     (most == 0));
      picture_free (picture);
    }
}

static void
test_reference_legend (void)
{
  TgStyle s = tg_style_light ();
  Picture *picture = picture_new (180, 110, s.ground);

  tg_part_drawing_draw_legend (picture->cr, (TgRect){ 0, 0, 180, 110 }, 1, 1, &s);
  picture_compare (picture, "legend");
  picture_free (picture);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/part-drawing/ink", test_ink);
  g_test_add_func ("/part-drawing/labels", test_labels);
  g_test_add_func ("/part-drawing/amounts", test_amounts);
  g_test_add_func ("/part-drawing/hits", test_hits);
  g_test_add_func ("/part-drawing/legend-of-nothing", test_legend_of_nothing);
  g_test_add_func ("/part-drawing/positions", test_positions);
  g_test_add_func ("/part-drawing/proportions", test_proportions);
  g_test_add_func ("/part-drawing/orientation", test_orientation);
  g_test_add_func ("/part-drawing/scale", test_scale);
  g_test_add_func ("/part-drawing/shading", test_shading);
  g_test_add_func ("/part-drawing/states-differ", test_states_differ);
  g_test_add_func ("/part-drawing/full", test_full);
  g_test_add_func ("/part-drawing/words", test_words);
  g_test_add_func ("/part-drawing/odd-dimensions", test_odd_dimensions);
  g_test_add_func ("/part-drawing/legend", test_legend);
  for (guint i = 0; i < G_N_ELEMENTS (references); i++)
    {
      g_autofree char *path = g_strconcat ("/part-drawing/reference/", references[i].name, NULL);

      g_test_add_data_func (path, GUINT_TO_POINTER (i), test_reference);
    }
  g_test_add_func ("/part-drawing/reference/legend", test_reference_legend);
  return g_test_run ();
}
