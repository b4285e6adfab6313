/* test-design.c: zones of a part: where they lie, what they may give, how deep it is
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "design.h"
#include "error.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static TgZone *
add_zone (TgDesign *design, const char *id, TgPlace place, double area, double depth)
{
  TgZone *zone = tg_zone_new ();

  g_free (zone->id);
  zone->id = g_strdup (id);
  zone->place = place;
  zone->area_mm2 = area;
  zone->depth_mm = depth;
  g_ptr_array_add (design->zones, zone);
  return zone;
}

/* A possible steel rod, invented. */
static TgDesign *
rod (void)
{
  TgDesign *design = tg_design_new (TG_PART_ROD);

  design->density = 7.85;
  design->rod = (TgRodDims){ .centres = 150,
                             .big_bore = 52,
                             .big_outer = 66,
                             .small_bore = 22,
                             .small_outer = 32,
                             .beam_big = 26,
                             .beam_small = 20,
                             .shoulder_span = 84,
                             .shoulder = 18,
                             .cap_shoulder = 14,
                             .cap_pad = 6,
                             .cap_pad_width = 18,
                             .small_pad = 4,
                             .small_pad_width = 12 };
  return design;
}

static TgDesign *
piston (void)
{
  TgDesign *design = tg_design_new (TG_PART_PISTON);

  design->density = 2.7;
  design->piston = (TgPistonDims){ .bore = 84,
                                   .height = 62,
                                   .compression_height = 32,
                                   .pin = 22,
                                   .crown = 7,
                                   .ring_belt = 22,
                                   .boss_outer = 34,
                                   .boss_gap = 28,
                                   .skirt_wall = 3 };
  return design;
}

/* Skim of a flat pad, 12 × 18 × 0.5 mm: 108 mm³, in steel of 7.85 g/cm³ 0.848 g.  Volume and mass
 * recomputed; 7.85 g/cm³ for 4340 steel was read in a handbook's data sheet. */
static void
test_skim (void)
{
  g_autoptr (TgDesign) design = rod ();
  TgZone *pad = add_zone (design, "pad", TG_PLACE_CAP_PAD, 12 * 18, 0.5);

  NEAR (tg_design_zone_capacity_g (design, pad), 0.848, 5e-4);
  NEAR (tg_design_zone_depth_mm (design, pad, 0.848), 0.5, 5e-4);
  NEAR (tg_design_zone_depth_mm (design, pad, 0.8478), 0.5, 1e-12);
  /* twice the metal of a pair for the same depth on each side */
  pad->place = TG_PLACE_CAP_SHOULDERS;
  NEAR (tg_design_zone_capacity_g (design, pad), 2 * 0.8478, 1e-12);
  NEAR (tg_design_zone_depth_mm (design, pad, 2 * 0.8478), 0.5, 1e-12);
  /* a lighter metal is cut deeper for the same grams */
  design->density = 7.85 / 2;
  NEAR (tg_design_zone_depth_mm (design, pad, 0.8478), 0.5, 1e-12);
  /* what is stated goes before what follows from area and depth */
  pad->capacity = 1250 * TG_MASS_MG;
  NEAR (tg_design_zone_capacity_g (design, pad), 1.25, 1e-12);
}

static void
test_unknown (void)
{
  g_autoptr (TgDesign) design = rod ();
  TgZone *pad = add_zone (design, "pad", TG_PLACE_CAP_PAD, 0, 0.5);

  g_assert_cmpfloat (tg_design_zone_capacity_g (design, pad), ==, 0);
  g_assert_cmpfloat (tg_design_zone_depth_mm (design, pad, 1), ==, 0);
  pad->area_mm2 = 200;
  pad->depth_mm = 0;
  g_assert_cmpfloat (tg_design_zone_capacity_g (design, pad), ==, 0);
  g_assert_cmpfloat (tg_design_zone_depth_mm (design, pad, 1), >, 0);
}

/* Law: the depth of the whole capacity is the permitted depth, for every place. */
static void
test_depth_of_capacity (void)
{
  for (guint place = 0; place < TG_N_PLACES; place++)
    {
      g_autoptr (TgDesign) design = tg_place_kind (place) == TG_PART_ROD ? rod () : piston ();
      TgZone *zone = add_zone (design, "z", (TgPlace) place, 37 + place, 0.3 + 0.1 * place);
      double capacity = tg_design_zone_capacity_g (design, zone);

      NEAR (tg_design_zone_depth_mm (design, zone, capacity), zone->depth_mm, 1e-12);
      NEAR (tg_design_zone_depth_mm (design, zone, capacity / 4), zone->depth_mm / 4, 1e-12);
    }
}

/* By hand, from the model in core/design.c: centres of the boxes that the outline shows. */
static void
test_positions (void)
{
  static const struct
  {
    TgPlace place;
    double position;
  } cases[] = {
    { TG_PLACE_SMALL_END_PAD, 150 + 16 + 2 },
    { TG_PLACE_SMALL_END_SIDES, 150 },
    { TG_PLACE_BEAM, 75 },
    { TG_PLACE_BEAM_EDGES, 75 },
    { TG_PLACE_BIG_END_SHOULDERS, 9 },
    { TG_PLACE_BOLT_SEATS, 18 },
    { TG_PLACE_CAP_SHOULDERS, -7 },
    { TG_PLACE_CAP_PAD, -33 - 3 },
    { TG_PLACE_CAP_BACK, -33 },
  };
  g_autoptr (TgDesign) design = rod ();
  TgZone *zone = add_zone (design, "z", TG_PLACE_BEAM, 10, 1);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      zone->place = cases[i].place;
      zone->offset_mm = 0;
      NEAR (tg_design_zone_position (design, zone), cases[i].position, 1e-12);
      zone->offset_mm = -2.5;
      NEAR (tg_design_zone_position (design, zone), cases[i].position - 2.5, 1e-12);
    }
}

static void
assert_refused (const TgDesign *design, int code)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (tg_design_check (design, &error));
  g_assert_error (error, TG_ERROR, code);
  g_assert_nonnull (strstr (error->message, design->id));
}

static void
test_density (void)
{
  static const double bad[] = { 0, -7.85, 0.49, 25.1, 7850 };
  static const double good[] = { 2.66, 2.8, 4.43, 7.15, 7.85 };
  g_autoptr (TgDesign) design = rod ();

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GError) error = NULL;

      design->density = good[i];
      g_assert_true (tg_design_check (design, &error));
      g_assert_no_error (error);
    }
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      design->density = bad[i];
      assert_refused (design, TG_ERROR_RANGE);
    }
  design->density = (double) NAN;
  assert_refused (design, TG_ERROR_RANGE);
}

static void
test_check_zones (void)
{
  g_autoptr (TgDesign) design = rod ();
  TgZone *zone = add_zone (design, "pad", TG_PLACE_CAP_PAD, 216, 0.5);

  g_assert_true (tg_design_check (design, NULL));
  design->rod.cap_pad = 0;
  assert_refused (design, TG_ERROR_RANGE);
  design->rod.cap_pad = 6;
  zone->place = TG_PLACE_SKIRT_FOOT;
  assert_refused (design, TG_ERROR_RANGE);
  zone->place = TG_PLACE_CAP_PAD;
  zone->standing = TG_STANDING_WITH_CARE; /* without a reason */
  assert_refused (design, TG_ERROR_RANGE);
  zone->standing = TG_STANDING_FREE;
  zone->preference = 0;
  assert_refused (design, TG_ERROR_RANGE);
  zone->preference = 1;
  zone->area_mm2 = (double) NAN;
  assert_refused (design, TG_ERROR_RANGE);
  zone->area_mm2 = 216;
  zone->capacity = -1;
  assert_refused (design, TG_ERROR_RANGE);
  zone->capacity = 0;
  add_zone (design, "pad", TG_PLACE_BEAM, 1, 1);
  assert_refused (design, TG_ERROR_DUPLICATE);
}

static void
test_check_dimensions (void)
{
  g_autoptr (TgDesign) design = rod ();
  g_autoptr (TgDesign) crown = piston ();

  g_assert_true (tg_design_check (design, NULL));
  design->rod.big_bore = 66;
  assert_refused (design, TG_ERROR_RANGE);
  design->rod.big_bore = 52;
  design->rod.centres = 49; /* half of both eyes: they touch */
  assert_refused (design, TG_ERROR_RANGE);
  design->rod.centres = 150;
  design->rod.small_bore = 40;
  assert_refused (design, TG_ERROR_RANGE);

  g_assert_true (tg_design_check (crown, NULL));
  crown->piston.pin = 34;
  assert_refused (crown, TG_ERROR_RANGE);
  crown->piston.pin = 22;
  crown->piston.compression_height = 62;
  assert_refused (crown, TG_ERROR_RANGE);
}

static void
test_usable (void)
{
  static const struct
  {
    TgStanding standing;
    TgUse use;
    gboolean usable;
  } cases[] = {
    { TG_STANDING_FREE, TG_USE_DEFAULT, TRUE },   { TG_STANDING_FREE, TG_USE_YES, TRUE },
    { TG_STANDING_FREE, TG_USE_NO, FALSE },       { TG_STANDING_WITH_CARE, TG_USE_DEFAULT, FALSE },
    { TG_STANDING_WITH_CARE, TG_USE_YES, TRUE },  { TG_STANDING_WITH_CARE, TG_USE_NO, FALSE },
    { TG_STANDING_NEVER, TG_USE_DEFAULT, FALSE }, { TG_STANDING_NEVER, TG_USE_YES, FALSE },
    { TG_STANDING_NEVER, TG_USE_NO, FALSE },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgZone zone = { .standing = cases[i].standing, .use = cases[i].use };

      g_assert_cmpint (tg_zone_usable (&zone), ==, cases[i].usable);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/design/skim", test_skim);
  g_test_add_func ("/design/unknown", test_unknown);
  g_test_add_func ("/design/depth-of-capacity", test_depth_of_capacity);
  g_test_add_func ("/design/positions", test_positions);
  g_test_add_func ("/design/density", test_density);
  g_test_add_func ("/design/check-zones", test_check_zones);
  g_test_add_func ("/design/check-dimensions", test_check_dimensions);
  g_test_add_func ("/design/usable", test_usable);
  return g_test_run ();
}
