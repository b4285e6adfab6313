/* test-setup.c: what a job starts from, its values by path, its limits
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "error.h"
#include "library.h"
#include "setup.h"
#include "storable.h"

static TgSetup *
bench_setup (void)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  TgSetup *setup = tg_setup_new ();
  static const char *const ids[] = { "rod-i", "piston-full" };

  g_free (setup->name);
  setup->name = g_strdup ("Bench");
  setup->cylinders = 4;
  setup->resolution = 100;
  setup->capacity = 2000 * TG_MASS_G;
  for (guint band = 0; band < TG_N_BANDS; band++)
    setup->tolerance[band] = 500;
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      TgDesign *design = tg_design_copy (tg_library_find_design (library, ids[i]));

      tg_setup_add_design (setup, design);
      tg_setup_add_set (setup, design, 0);
    }
  return setup;
}

/* Parts of every kind, two spare pins and a spare bearing pair. */
static TgSetup *
full_setup (void)
{
  TgSetup *setup = bench_setup ();

  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    {
      TgDesign *design = tg_design_new (kind);

      g_free (design->id);
      design->id = g_strdup_printf ("my-%s", tg_part_kind_to_word (kind));
      tg_setup_add_design (setup, design);
      tg_setup_add_set (setup, design, kind == TG_PART_PIN ? 2 : kind == TG_PART_BEARINGS ? 1 : 0);
    }
  return setup;
}

static void
test_good (void)
{
  g_autoptr (TgSetup) setup = bench_setup ();
  g_autoptr (GError) error = NULL;

  g_assert_true (tg_setup_check (setup, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (setup->parts->len, ==, 8);
  g_assert_cmpstr (tg_setup_find_part (setup, "rod-3", NULL)->name, ==, "Rod 3");
  g_assert_cmpuint (tg_setup_find_part (setup, "piston-4", NULL)->bore, ==, 4);
  g_assert_null (tg_setup_find_part (setup, "rod-5", NULL));
  g_assert_true (tg_setup_has_kind (setup, TG_PART_PISTON));
}

static void
break_cylinders (TgSetup *setup)
{
  setup->cylinders = 25;
}

static void
break_no_cylinders (TgSetup *setup)
{
  setup->cylinders = 0;
}

static void
break_crankpins (TgSetup *setup)
{
  setup->sharing = TG_SHARING_BANKS;
  setup->cylinders = 5;
}

static void
break_resolution (TgSetup *setup)
{
  setup->resolution = 0;
}

static void
break_capacity (TgSetup *setup)
{
  setup->capacity = 999;
}

static void
break_tolerance (TgSetup *setup)
{
  setup->tolerance[TG_BAND_PISTON] = -1;
}

static void
break_no_parts (TgSetup *setup)
{
  g_ptr_array_set_size (setup->parts, 0);
}

/* Spares until there are @n parts. */
static void
fill_up (TgSetup *setup, guint n)
{
  for (guint i = setup->parts->len; i < n; i++)
    {
      g_autofree char *id = g_strdup_printf ("more-%u", i);

      tg_setup_add_part (setup, id, "", g_ptr_array_index (setup->designs, 0), 0);
    }
}

static void
break_many_parts (TgSetup *setup)
{
  fill_up (setup, TG_MAX_PARTS + 1);
}

static void
break_many_designs (TgSetup *setup)
{
  for (guint i = setup->designs->len; i <= 2 * TG_MAX_CYLINDERS; i++)
    {
      TgDesign *design = tg_design_new (TG_PART_PIN);

      g_free (design->id);
      design->id = g_strdup_printf ("pin-%u", i);
      tg_setup_add_design (setup, design);
    }
}

static void
break_plain_zone (TgSetup *setup)
{
  TgDesign *design = tg_design_new (TG_PART_PIN);

  g_free (design->id);
  design->id = g_strdup ("pins");
  g_ptr_array_add (design->zones,
                   tg_zone_copy (tg_design_zone (g_ptr_array_index (setup->designs, 0), 0)));
  tg_setup_add_design (setup, design);
}

static void
break_bore (TgSetup *setup)
{
  tg_setup_part (setup, 0)->bore = 5;
}

static void
break_part_twice (TgSetup *setup)
{
  tg_setup_add_part (setup, "rod-1", "", g_ptr_array_index (setup->designs, 0), 1);
}

static void
break_part_dot (TgSetup *setup)
{
  tg_setup_add_part (setup, "rod.9", "", g_ptr_array_index (setup->designs, 0), 1);
}

static void
break_part_name (TgSetup *setup)
{
  tg_setup_add_part (setup, "rod-9", "\x01", g_ptr_array_index (setup->designs, 0), 1);
}

static void
break_design_twice (TgSetup *setup)
{
  tg_setup_add_design (setup, tg_design_copy (g_ptr_array_index (setup->designs, 0)));
}

static void
break_zone_twice (TgSetup *setup)
{
  TgDesign *design = g_ptr_array_index (setup->designs, 0);

  g_ptr_array_add (design->zones, tg_zone_copy (tg_design_zone (design, 0)));
}

static void
break_zone_kind (TgSetup *setup)
{
  tg_design_zone (g_ptr_array_index (setup->designs, 0), 0)->place = TG_PLACE_SKIRT_FACE;
}

static void
break_eyes (TgSetup *setup)
{
  ((TgDesign *) g_ptr_array_index (setup->designs, 0))->rod.centres = 50;
}

static void
break_density (TgSetup *setup)
{
  ((TgDesign *) g_ptr_array_index (setup->designs, 0))->density = 0.1 / 0.0;
}

static void
break_name (TgSetup *setup)
{
  g_free (setup->name);
  setup->name = g_strdup ("\xff");
}

static void
break_long_name (TgSetup *setup)
{
  g_free (setup->name);
  setup->name = g_strnfill (TG_STORABLE_NAME + 1, 'n');
}

static void
test_bad (void)
{
  static const struct
  {
    void (*spoil) (TgSetup *setup);
    int code;
    const char *says;
  } rows[] = {
    { break_cylinders, TG_ERROR_RANGE, "25 cylinders" },
    { break_no_cylinders, TG_ERROR_RANGE, "0 cylinders" },
    { break_crankpins, TG_ERROR_RANGE, "even number of cylinders, not 5" },
    { break_resolution, TG_ERROR_RANGE, "step of the scale is 0 g" },
    { break_capacity, TG_ERROR_RANGE, "capacity of the scale is 0.999 g" },
    { break_tolerance, TG_ERROR_RANGE, "tolerance of the pistons is -0.001 g" },
    { break_no_parts, TG_ERROR_RANGE, "0 parts" },
    { break_many_parts, TG_ERROR_RANGE, "601 parts" },
    { break_many_designs, TG_ERROR_RANGE, "49 designs" },
    { break_plain_zone, TG_ERROR_RANGE, "“pins”: only rods and pistons have zones" },
    { break_bore, TG_ERROR_RANGE, "“rod-1” belongs to bore 5 of 4" },
    { break_part_twice, TG_ERROR_DUPLICATE, "two parts are called “rod-1”" },
    { break_part_dot, TG_ERROR_SYNTAX, "“rod.9”" },
    { break_part_name, TG_ERROR_SYNTAX, "control character (U+0001)" },
    { break_design_twice, TG_ERROR_DUPLICATE, "two designs are called “rod-i”" },
    { break_zone_twice, TG_ERROR_DUPLICATE, "two zones are called “small-pad”" },
    { break_zone_kind, TG_ERROR_RANGE, "a rod has no place “skirt-face”" },
    { break_eyes, TG_ERROR_RANGE, "eyes overlap" },
    { break_density, TG_ERROR_RANGE, "density" },
    { break_name, TG_ERROR_SYNTAX, "not UTF-8" },
    { break_long_name, TG_ERROR_RANGE, "201 bytes" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TgSetup) setup = bench_setup ();
      g_autoptr (GError) error = NULL;

      rows[i].spoil (setup);
      g_assert_false (tg_setup_check (setup, &error));
      g_test_message ("%s", error->message);
      g_assert_error (error, TG_ERROR, rows[i].code);
      g_assert_nonnull (strstr (error->message, rows[i].says));
    }
}

static void
test_so_far (void)
{
  g_autoptr (TgSetup) setup = bench_setup ();

  break_no_parts (setup);
  g_assert_true (tg_setup_check_so_far (setup, NULL));
  g_assert_false (tg_setup_check (setup, NULL));
}

/* Sets @path to @value and reads it back, then the old value, then that nothing else changed. */
static void
assert_sets (TgSetup *setup, const char *path, const char *value)
{
  g_autoptr (TgSetup) before = tg_setup_copy (setup);
  g_autoptr (GError) error = NULL;
  g_autofree char *old = tg_setup_get (setup, path);
  g_autofree char *now = NULL;
  g_autofree char *label = tg_setup_describe (setup, path);

  g_test_message ("%s", label);
  g_assert_nonnull (old);
  g_assert_cmpstr (label, !=, path);
  g_assert_true (tg_setup_check_value (setup, path, value, &error));
  g_assert_true (tg_setup_set (setup, path, value, &error));
  g_assert_no_error (error);
  now = tg_setup_get (setup, path);
  g_assert_cmpstr (now, ==, value);
  g_assert_cmpint (tg_setup_equal (setup, before), ==, strcmp (old, value) == 0);
  g_assert_true (tg_setup_set (setup, path, old, &error));
  g_assert_no_error (error);
  g_assert_true (tg_setup_equal (setup, before));
}

/* A value near the present one, so that the part stays possible. */
static void
assert_sets_fields (TgSetup *setup, const char *prefix, const TgField *fields, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      g_autofree char *path = g_strdup_printf ("%s.%s", prefix, fields[i].name);
      g_autofree char *present = tg_setup_get (setup, path);
      char value[TG_STORABLE_NUMBER_SIZE];

      tg_storable_format_number (g_ascii_strtod (present, NULL) + 0.125, value);
      assert_sets (setup, path, value);
    }
}

static void
test_every_path (void)
{
  static const char *const plain[][2] = {
    { "name", "Other name" },
    { "resolution", "0.05" },
    { "capacity", "5000" },
    { "capacity", "0" },
    { "scale", "Kitchen scale" },
    { "scale", "" },
    { "check-weight", "200" },
    { "check-weight", "0" },
    { "check-class", "F1" },
    { "repeats", "3" },
    { "overshoot", "0.5" },
    { "tolerance.rod-small", "0.25" },
    { "tolerance.rod-big", "0" },
    { "tolerance.piston", "1000" },
    { "rod-i.material", "Steel 4130" },
    { "rod-i.metal", "titanium" },
    { "rod-i.density", "4.43" },
    { "piston-full.density", "2.6875" },
    { "rod-i.cap-pad.use", "no" },
    { "rod-i.beam-edges.use", "yes" },
    { "rod-i.beam.use", "no" },
    { "rod-i.cap-pad.capacity", "3.5" },
    { "piston-full.boss-feet.capacity", "1.25" },
    { "sum.pin", "no" },
    { "sum.rings", "no" },
    { "sum.clips", "no" },
    { "sum.bearings", "no" },
    { "sum.rod", "only" },
    { "sum.rod", "both" },
    { "crankpins", "neighbours" },
    { "crankpins", "banks" },
  };
  g_autoptr (TgSetup) setup = full_setup ();
  guint n;
  const TgField *fields;

  for (guint i = 0; i < G_N_ELEMENTS (plain); i++)
    assert_sets (setup, plain[i][0], plain[i][1]);
  fields = tg_design_rod_fields (&n);
  assert_sets_fields (setup, "rod-i", fields, n);
  fields = tg_design_piston_fields (&n);
  assert_sets_fields (setup, "piston-full", fields, n);
  fields = tg_design_zone_fields (&n);
  assert_sets_fields (setup, "rod-i.cap-pad", fields, n);
  assert_sets_fields (setup, "piston-full.skirt-foot", fields, n);
}

static void
test_refused (void)
{
  static const struct
  {
    const char *path;
    const char *value;
    int code;
    gboolean by_itself; /* refused whatever the other values are */
  } rows[] = {
    { "nothing", "1", TG_ERROR_UNKNOWN, TRUE },
    { "", "1", TG_ERROR_UNKNOWN, TRUE },
    { "rod-i", "1", TG_ERROR_UNKNOWN, TRUE },
    { "rod-i.colour", "1", TG_ERROR_UNKNOWN, TRUE },
    { "rod-i.crown", "7", TG_ERROR_UNKNOWN, TRUE },
    { "rod-i.cap-pad.colour", "1", TG_ERROR_UNKNOWN, TRUE },
    { "rod-i.roof.area", "1", TG_ERROR_UNKNOWN, TRUE },
    { "rod-i.cap-pad.area.more", "1", TG_ERROR_UNKNOWN, TRUE },
    { "tolerance.crank", "1", TG_ERROR_UNKNOWN, TRUE },
    { "scale", "\x02", TG_ERROR_SYNTAX, TRUE },
    { "check-weight", "-1", TG_ERROR_RANGE, TRUE },
    { "check-class", "f1", TG_ERROR_SYNTAX, TRUE },
    { "repeats", "0", TG_ERROR_RANGE, TRUE },
    { "repeats", "21", TG_ERROR_RANGE, TRUE },
    { "repeats", "many", TG_ERROR_SYNTAX, TRUE },
    { "overshoot", "0", TG_ERROR_RANGE, TRUE },
    { "overshoot", "50", TG_ERROR_RANGE, TRUE },
    { "overshoot", "rarely", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "long", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "nan", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "inf", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "0x96", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "150 mm", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "150,5", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.centres", "5000", TG_ERROR_RANGE, TRUE },
    { "rod-i.centres", "50", TG_ERROR_RANGE, FALSE },
    { "rod-i.big-bore", "74", TG_ERROR_RANGE, FALSE },
    { "rod-i.cap-pad", "0", TG_ERROR_RANGE, FALSE },
    { "rod-i.metal", "wood", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.material", "\x02", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.cap-pad.use", "maybe", TG_ERROR_SYNTAX, TRUE },
    { "rod-i.beam.use", "yes", TG_ERROR_RANGE, TRUE },
    { "rod-i.cap-pad.capacity", "-1", TG_ERROR_RANGE, TRUE },
    { "piston-full.compression-height", "62", TG_ERROR_RANGE, FALSE },
    { "resolution", "0", TG_ERROR_RANGE, TRUE },
    { "resolution", "fine", TG_ERROR_SYNTAX, TRUE },
    { "capacity", "0.5", TG_ERROR_RANGE, TRUE },
    { "tolerance.piston", "1000.001", TG_ERROR_RANGE, TRUE },
    { "sum", "yes", TG_ERROR_UNKNOWN, TRUE },
    { "sum.piston", "no", TG_ERROR_SYNTAX, TRUE },
    { "sum.crank", "no", TG_ERROR_UNKNOWN, TRUE },
    { "sum.pin.more", "no", TG_ERROR_UNKNOWN, TRUE },
    { "sum.pin", "", TG_ERROR_SYNTAX, TRUE },
    { "sum.pin", "only", TG_ERROR_SYNTAX, TRUE },
    { "sum.rod", "yes", TG_ERROR_SYNTAX, TRUE },
    { "crankpins", "", TG_ERROR_SYNTAX, TRUE },
    { "crankpins", "shared", TG_ERROR_SYNTAX, TRUE },
    { "crankpins.more", "own", TG_ERROR_UNKNOWN, TRUE },
    { "my-pin.density", "7.85", TG_ERROR_UNKNOWN, TRUE },
    { "my-pin.material", "Steel", TG_ERROR_UNKNOWN, TRUE },
    { "my-pin.metal", "steel", TG_ERROR_UNKNOWN, TRUE },
    { "my-rings.crown", "5", TG_ERROR_UNKNOWN, TRUE },
  };
  g_autoptr (TgSetup) setup = full_setup ();
  g_autoptr (TgSetup) before = NULL;

  /* a value that ten digits cannot hold: putting it back must be exact */
  ((TgDesign *) g_ptr_array_index (setup->designs, 0))->rod.centres = 150 + 1.0 / 3;
  ((TgDesign *) g_ptr_array_index (setup->designs, 0))->rod.big_bore = 56 + 1.0 / 7;
  before = tg_setup_copy (setup);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_test_message ("%s = %s", rows[i].path, rows[i].value);
      g_assert_cmpint (tg_setup_check_value (setup, rows[i].path, rows[i].value, NULL), ==,
                       !rows[i].by_itself);
      g_assert_false (tg_setup_set (setup, rows[i].path, rows[i].value, &error));
      g_assert_error (error, TG_ERROR, rows[i].code);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_true (tg_setup_equal (setup, before));
    }
}

/* Law: a copy is equal and stands on its own; every single change makes it unequal. */
static void
test_copy (void)
{
  g_autoptr (TgSetup) setup = bench_setup ();
  g_autoptr (TgSetup) copy = tg_setup_copy (setup);

  g_assert_true (tg_setup_equal (setup, copy));
  g_assert_true (tg_setup_part (copy, 0)->design != tg_setup_part (setup, 0)->design);
  g_assert_true (tg_setup_part (copy, 0)->design == g_ptr_array_index (copy->designs, 0));
  tg_setup_part (copy, 2)->bore = 1;
  g_assert_false (tg_setup_equal (setup, copy));
  tg_setup_part (copy, 2)->bore = 3;
  g_assert_true (tg_setup_equal (setup, copy));
  ((TgDesign *) g_ptr_array_index (copy->designs, 0))->fracture_split = TRUE;
  g_assert_false (tg_setup_equal (setup, copy));
  ((TgDesign *) g_ptr_array_index (copy->designs, 0))->fracture_split = FALSE;
  copy->layout = TG_LAYOUT_VEE;
  g_assert_false (tg_setup_equal (setup, copy));
  copy->layout = setup->layout;
  copy->left_out[TG_PART_CLIPS] = TRUE;
  g_assert_false (tg_setup_equal (setup, copy));
  copy->left_out[TG_PART_CLIPS] = FALSE;
  copy->small_ends = TG_SMALL_ENDS_SUM;
  g_assert_false (tg_setup_equal (setup, copy));
  copy->small_ends = TG_SMALL_ENDS_APART;
  copy->sharing = TG_SHARING_BANKS;
  g_assert_false (tg_setup_equal (setup, copy));
  copy->sharing = TG_SHARING_OWN;
  g_assert_true (tg_setup_equal (setup, copy));
  g_ptr_array_set_size (((TgDesign *) g_ptr_array_index (copy->designs, 1))->zones, 2);
  g_assert_false (tg_setup_equal (setup, copy));
}

/* A design may be called as a group of values is. */
static void
test_design_called_tolerance (void)
{
  g_autoptr (TgSetup) setup = bench_setup ();
  TgDesign *design = g_ptr_array_index (setup->designs, 0);
  g_autofree char *label = NULL;

  g_free (design->id);
  design->id = g_strdup ("tolerance");
  assert_sets (setup, "tolerance.centres", "151");
  assert_sets (setup, "tolerance.rod-small", "0.25");
  label = tg_setup_describe (setup, "nothing");
  g_assert_cmpstr (label, ==, "nothing");
  g_free (label);
  label = tg_setup_describe (setup, "tolerance.centres");
  g_assert_cmpstr (label, ==, "I-beam rod with pads: Centre distance, mm");
}

/* The same for what is in the sum; what a file of before said of such a design it says still. */
static void
test_design_called_sum (void)
{
  g_autoptr (TgSetup) setup = full_setup ();
  TgDesign *design = g_ptr_array_index (setup->designs, 1);

  g_free (design->id);
  design->id = g_strdup ("sum");
  assert_sets (setup, "sum.pin", "21.5"); /* mm */
  assert_sets (setup, "sum.height", "61");
  assert_sets (setup, "sum.rings", "no");
  assert_sets (setup, "sum.rod", "only");
}

static void
test_labels (void)
{
  static const char *const rows[][2] = {
    { "sum.rod", "Small ends in the sum with their pistons" },
    { "sum.pin", "Pins in the sum" },
    { "sum.rings", "Ring packs in the sum" },
    { "sum.clips", "Clip pairs in the sum" },
    { "sum.bearings", "Bearing pairs in the sum" },
  };
  g_autoptr (TgSetup) setup = full_setup ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autofree char *label = tg_setup_describe (setup, rows[i][0]);

      g_assert_cmpstr (label, ==, rows[i][1]);
    }
}

/* -- sums ------------------------------------------------------------------------------------ */

#define KIND(kind) (1u << TG_PART_##kind)
#define ALL_KINDS ((1u << TG_N_PART_KINDS) - 1)

/* What is carried in a sum, by what there is and what is left out of it. */
static void
test_sums (void)
{
  static const struct
  {
    guint kinds, left_out;
    TgSmallEnds small_ends;
    guint in_sum;
    gboolean has_small;
    const char *big, *piston;
  } rows[] = {
    { KIND (ROD) | KIND (PISTON), 0, TG_SMALL_ENDS_APART, 0, TRUE, "big ends", "pistons" },
    { KIND (ROD) | KIND (PISTON), 0, TG_SMALL_ENDS_BOTH, KIND (ROD) | KIND (PISTON), TRUE,
      "big ends", "piston sets" },
    { KIND (ROD) | KIND (PISTON), 0, TG_SMALL_ENDS_SUM, KIND (ROD) | KIND (PISTON), FALSE,
      "big ends", "piston sets" },
    { KIND (ROD), 0, TG_SMALL_ENDS_SUM, 0, TRUE, "big ends", "pistons" },
    { KIND (PISTON), 0, TG_SMALL_ENDS_SUM, 0, FALSE, "big ends", "pistons" },
    { KIND (PISTON) | KIND (PIN), 0, TG_SMALL_ENDS_APART, KIND (PISTON) | KIND (PIN), FALSE,
      "big ends", "piston sets" },
    { KIND (PISTON) | KIND (PIN), KIND (PIN), TG_SMALL_ENDS_APART, 0, FALSE, "big ends",
      "pistons" },
    { KIND (ROD) | KIND (PIN), 0, TG_SMALL_ENDS_APART, 0, TRUE, "big ends", "pistons" },
    { KIND (ROD) | KIND (BEARINGS), 0, TG_SMALL_ENDS_APART, KIND (BEARINGS), TRUE,
      "big ends with bearings", "pistons" },
    { KIND (ROD) | KIND (BEARINGS), KIND (BEARINGS), TG_SMALL_ENDS_APART, 0, TRUE, "big ends",
      "pistons" },
    { KIND (PISTON) | KIND (BEARINGS), 0, TG_SMALL_ENDS_APART, 0, FALSE, "big ends", "pistons" },
    { ALL_KINDS, 0, TG_SMALL_ENDS_APART, ALL_KINDS & ~KIND (ROD), TRUE, "big ends with bearings",
      "piston sets" },
    { ALL_KINDS, 0, TG_SMALL_ENDS_SUM, ALL_KINDS, FALSE, "big ends with bearings", "piston sets" },
    { ALL_KINDS, KIND (RINGS) | KIND (CLIPS), TG_SMALL_ENDS_BOTH,
      ALL_KINDS & ~KIND (RINGS) & ~KIND (CLIPS), TRUE, "big ends with bearings", "piston sets" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TgSetup) setup = full_setup ();

      g_test_message ("row %u", i);
      for (guint p = setup->parts->len; p-- > 0;)
        if (!(rows[i].kinds & 1u << tg_setup_part (setup, p)->design->kind))
          g_ptr_array_remove_index (setup->parts, p);
      setup->small_ends = rows[i].small_ends;
      for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
        setup->left_out[kind] = (rows[i].left_out & 1u << kind) != 0;
      for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
        g_assert_cmpint (tg_setup_in_sum (setup, kind), ==, (rows[i].in_sum & 1u << kind) != 0);
      g_assert_cmpint (tg_setup_has_band (setup, TG_BAND_ROD_SMALL), ==, rows[i].has_small);
      g_assert_cmpint (tg_setup_has_band (setup, TG_BAND_ROD_BIG), ==,
                       (rows[i].kinds & KIND (ROD)) != 0);
      g_assert_cmpint (tg_setup_has_band (setup, TG_BAND_PISTON), ==,
                       (rows[i].kinds & KIND (PISTON)) != 0);
      g_assert_cmpstr (tg_setup_band_label (setup, TG_BAND_ROD_SMALL), ==, "small ends");
      g_assert_cmpstr (tg_setup_band_label (setup, TG_BAND_ROD_BIG), ==, rows[i].big);
      g_assert_cmpstr (tg_setup_band_label (setup, TG_BAND_PISTON), ==, rows[i].piston);
    }
}

/* Every bore is on one crankpin. */
static void
test_crankpins (void)
{
  static const struct
  {
    TgSharing sharing;
    guint bores[4][2];
  } rows[] = {
    { TG_SHARING_NEIGHBOURS, { { 1, 2 }, { 3, 4 }, { 5, 6 }, { 7, 8 } } },
    { TG_SHARING_BANKS, { { 1, 5 }, { 2, 6 }, { 3, 7 }, { 4, 8 } } },
  };
  g_autoptr (TgSetup) setup = bench_setup ();

  setup->cylinders = 8;
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint pin = 0; pin < 4; pin++)
      {
        guint bores[2];

        setup->sharing = rows[i].sharing;
        tg_setup_crankpin (setup, pin, bores);
        g_assert_cmpuint (bores[0], ==, rows[i].bores[pin][0]);
        g_assert_cmpuint (bores[1], ==, rows[i].bores[pin][1]);
      }
}

/* -- places ---------------------------------------------------------------------------------- */

static void
test_spares (void)
{
  g_autoptr (TgSetup) setup = full_setup ();
  g_autoptr (GError) error = NULL;

  g_assert_true (tg_setup_check (setup, &error));
  g_assert_no_error (error);
  g_assert_cmpuint (setup->parts->len, ==, 6 * 4 + 3);
  g_assert_cmpstr (tg_setup_find_part (setup, "pin-5", NULL)->name, ==, "Pin 5");
  g_assert_cmpuint (tg_setup_find_part (setup, "pin-4", NULL)->bore, ==, 4);
  g_assert_cmpuint (tg_setup_find_part (setup, "pin-6", NULL)->bore, ==, 0);
  g_assert_cmpstr (tg_setup_find_part (setup, "rings-2", NULL)->name, ==, "Rings 2");
  g_assert_cmpstr (tg_setup_find_part (setup, "clips-1", NULL)->name, ==, "Clips 1");
  g_assert_cmpstr (tg_setup_find_part (setup, "bearings-5", NULL)->name, ==, "Bearings 5");
  g_assert_cmpstr (tg_setup_at_bore (setup, TG_PART_RINGS, 3)->id, ==, "rings-3");
  g_assert_cmpstr (tg_setup_at_bore (setup, TG_PART_PIN, 0)->id, ==, "pin-5");
  g_assert_null (tg_setup_at_bore (setup, TG_PART_RINGS, 0));
}

static void
test_place (void)
{
  g_autoptr (TgSetup) setup = full_setup ();
  g_autoptr (GError) error = NULL;
  g_autofree char *before = tg_setup_places (setup, KIND (PIN) | KIND (RINGS));
  g_autofree char *none = tg_setup_places (setup, 0);
  g_autofree char *after = NULL;
  const char *wanted = "pin-1:2 pin-2:1 pin-3:0 pin-4:4 pin-5:3 pin-6:0";

  g_assert_cmpstr (none, ==, "");
  g_assert_cmpstr (before, ==,
                   "pin-1:1 pin-2:2 pin-3:3 pin-4:4 pin-5:0 pin-6:0 "
                   "rings-1:1 rings-2:2 rings-3:3 rings-4:4");
  g_assert_true (tg_setup_check_places (setup, wanted, &error));
  g_assert_cmpuint (tg_setup_find_part (setup, "pin-1", NULL)->bore, ==, 1);
  g_assert_true (tg_setup_place (setup, wanted, &error));
  g_assert_no_error (error);
  after = tg_setup_places (setup, KIND (PIN));
  g_assert_cmpstr (after, ==, wanted);
  g_assert_cmpuint (tg_setup_find_part (setup, "rings-2", NULL)->bore, ==, 2);
  /* any order will do, and a bore may be left empty */
  g_assert_true (tg_setup_place (setup, "pin-6:1 pin-5:0 pin-4:0 pin-3:0 pin-2:0 pin-1:0", &error));
  g_assert_no_error (error);
  g_assert_cmpstr (tg_setup_at_bore (setup, TG_PART_PIN, 1)->id, ==, "pin-6");
  g_assert_null (tg_setup_at_bore (setup, TG_PART_PIN, 2));
  g_assert_true (tg_setup_place (setup, before, &error));
  g_assert_cmpuint (tg_setup_find_part (setup, "pin-1", NULL)->bore, ==, 1);
}

static void
test_place_refused (void)
{
  static const struct
  {
    const char *places;
    int code;
    const char *says;
  } rows[] = {
    { "", TG_ERROR_SYNTAX, "places nothing" },
    { " ", TG_ERROR_SYNTAX, "“” is not a part and its bore" },
    { "rings-1:1 rings-2:2 rings-3:3 rings-4:4 ", TG_ERROR_SYNTAX, "is not a part" },
    { "rings-1:1  rings-2:2 rings-3:3 rings-4:4", TG_ERROR_SYNTAX, "is not a part" },
    { "rings-1:1,rings-2:2", TG_ERROR_UNKNOWN, "no part “rings-1:1,rings-2”" },
    { "rings-1", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-1:", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-1:-1", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-1:+1", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-1:1.0", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-1:one", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-1:5", TG_ERROR_RANGE, "“rings-1” at bore 5 of 4" },
    { "rings-1:4294967297", TG_ERROR_SYNTAX, "“rings-1” is not a part and its bore" },
    { "rings-9:1", TG_ERROR_UNKNOWN, "no part “rings-9”" },
    { ":1", TG_ERROR_UNKNOWN, "no part “”" },
    { "Rings-1:1", TG_ERROR_UNKNOWN, "no part “Rings-1”" },
    { "rings%2D1:1", TG_ERROR_UNKNOWN, "no part “rings%2D1”" },
    { "rings-1:1 rings-2:1 rings-3:3 rings-4:4", TG_ERROR_DUPLICATE, "two ring packs at bore 1" },
    { "rings-1:1 rings-2:2 rings-1:3 rings-4:4", TG_ERROR_DUPLICATE, "“rings-1” twice" },
    { "rings-1:1 rings-2:2 rings-3:3", TG_ERROR_RANGE, "leaves out part “rings-4”" },
    { "rings-1:1 rings-2:2 rings-3:3 rings-4:4 pin-1:1", TG_ERROR_RANGE,
      "leaves out part “pin-2”" },
  };
  g_autoptr (TgSetup) setup = full_setup ();
  g_autoptr (TgSetup) before = tg_setup_copy (setup);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL, checked = NULL;

      g_test_message ("%s", rows[i].places);
      g_assert_false (tg_setup_place (setup, rows[i].places, &error));
      g_assert_error (error, TG_ERROR, rows[i].code);
      g_assert_nonnull (strstr (error->message, rows[i].says));
      g_assert_true (tg_setup_equal (setup, before));
      g_assert_false (tg_setup_check_places (setup, rows[i].places, &checked));
      g_assert_error (checked, TG_ERROR, rows[i].code);
    }
}

/* Law: where the parts are can be said and put back, whatever they are called; and what is said has
 * nothing that XML would have to write longer. */
static void
test_place_any_name (void)
{
  static const char *const pieces[] = { "a", " ", ":", "%", "%20", "&", "\"", "<", "é", "連",
                                        "7", "-", "/", "~", "+",   ";", "'",  ">", "_", "🔧" };
  g_autoptr (GRand) rand = g_rand_new_with_seed (41);

  for (guint round = 0; round < 300; round++)
    {
      g_autoptr (TgSetup) setup = full_setup ();
      g_autoptr (TgSetup) moved = NULL;
      g_autoptr (GError) error = NULL;
      g_autofree char *places = NULL;

      for (guint i = 0; i < setup->parts->len; i++)
        {
          GString *id = g_string_new (NULL);

          for (gint n = g_rand_int_range (rand, 1, 8); n > 0; n--)
            g_string_append (id, pieces[g_rand_int_range (rand, 0, G_N_ELEMENTS (pieces))]);
          g_string_append_printf (id, "%u", i);
          g_free (tg_setup_part (setup, i)->id);
          tg_setup_part (setup, i)->id = g_string_free (id, FALSE);
        }
      g_assert_true (tg_setup_check (setup, &error));
      moved = tg_setup_copy (setup);
      for (guint i = 0; i < moved->parts->len; i++)
        {
          TgPart *part = tg_setup_part (moved, i);

          part->bore = part->bore > 0 ? moved->cylinders + 1 - part->bore : 0;
        }
      places = tg_setup_places (moved, ALL_KINDS);
      g_assert_null (strpbrk (places, "&<>\"'\t\n\r"));
      g_assert_true (g_utf8_validate (places, -1, NULL));
      g_assert_true (tg_setup_place (setup, places, &error));
      g_assert_no_error (error);
      g_assert_true (tg_setup_equal (setup, moved));
    }
}

/* As many parts as there may be, with long names, can be checked, copied and paired. */
static void
test_limit (void)
{
  g_autoptr (TgSetup) setup = full_setup ();
  g_autoptr (TgSetup) copy = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *places = NULL;

  fill_up (setup, TG_MAX_PARTS);
  for (guint i = 0; i < setup->parts->len; i++)
    {
      TgPart *part = tg_setup_part (setup, i);

      g_free (part->id);
      part->id = g_strdup_printf ("%055u", i);
    }
  g_assert_true (tg_setup_check (setup, &error));
  g_assert_no_error (error);
  copy = tg_setup_copy (setup);
  g_assert_true (tg_setup_equal (setup, copy));
  places = tg_setup_places (setup, ALL_KINDS);
  g_assert_true (tg_storable_check (places, TG_STORABLE_PLACES, "places", &error));
  g_assert_true (tg_setup_place (copy, places, &error));
  g_assert_no_error (error);
  g_assert_true (tg_setup_equal (setup, copy));
}

static void
test_bands (void)
{
  for (guint band = 0; band < TG_N_BANDS; band++)
    {
      TgBand back;

      g_assert_true (
          tg_band_of (tg_band_kind ((TgBand) band), tg_band_figure ((TgBand) band), &back));
      /* a piston's weight is shown against the band of the sum */
      g_assert_cmpuint (back, ==, band == TG_BAND_PISTON_ALONE ? TG_BAND_PISTON : band);
    }
  g_assert_false (tg_band_of (TG_PART_ROD, TG_FIGURE_WHOLE, &(TgBand){ 0 }));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/setup/good", test_good);
  g_test_add_func ("/setup/bad", test_bad);
  g_test_add_func ("/setup/so-far", test_so_far);
  g_test_add_func ("/setup/every-path", test_every_path);
  g_test_add_func ("/setup/refused", test_refused);
  g_test_add_func ("/setup/copy", test_copy);
  g_test_add_func ("/setup/design-called-tolerance", test_design_called_tolerance);
  g_test_add_func ("/setup/design-called-sum", test_design_called_sum);
  g_test_add_func ("/setup/labels", test_labels);
  g_test_add_func ("/setup/sums", test_sums);
  g_test_add_func ("/setup/crankpins", test_crankpins);
  g_test_add_func ("/setup/spares", test_spares);
  g_test_add_func ("/setup/place", test_place);
  g_test_add_func ("/setup/place-refused", test_place_refused);
  g_test_add_func ("/setup/place-any-name", test_place_any_name);
  g_test_add_func ("/setup/limit", test_limit);
  g_test_add_func ("/setup/bands", test_bands);
  return g_test_run ();
}
