/* test-library.c: the materials, designs and cautions that come with the program
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "job-xml.h"
#include "library.h"

static TgLibrary *
load (void)
{
  g_autoptr (GError) error = NULL;
  TgLibrary *library = tg_library_load (&error);

  g_assert_no_error (error);
  return library;
}

/* Densities in g/cm³ at 20 °C, with the limits that the named publication leaves. */
static void
test_densities (void)
{
  static const struct
  {
    const char *id;
    double low, high;
  } rows[] = {
    /* MatWeb, ASM sheet M434AE: 0.284 lb/in³ = 7.861; MIL-HDBK-5J (from memory): 0.283 = 7.833 */
    { "steel-4340", 7.83, 7.87 },
    /* MIL-HDBK-5J (from memory): 0.283 lb/in³; a trader's data sheet: 7.85 */
    { "steel-4130", 7.83, 7.86 },
    /* Metals Handbook Desk Edition, 2nd edition: 7.844 for 0.435 % C; 1045 from memory: 7.87 */
    { "steel-carbon", 7.835, 7.875 },
    /* from memory: about full density; pressed and sintered grades reach 7.25 to 7.45 only */
    { "steel-powder", 7.7, 7.87 },
    /* MIL-HDBK-5J (from memory): 0.160 lb/in³ = 4.429; a trader's data sheet: 0.159 = 4.401 */
    { "titanium-6-4", 4.40, 4.44 },
    /* Aerospace Structural Metals Handbook, as quoted: 2.76 */
    { "aluminium-2618", 2.755, 2.765 },
    /* density chart of a trader: 2.68; from memory: 2.69 */
    { "aluminium-4032", 2.675, 2.695 },
    /* Aluminum Association, nominal densities: 0.101 lb/in³ = 2.796; table value 2.81 */
    { "aluminium-7075", 2.79, 2.815 },
    /* Materials for gravity cast pistons: 2.70 */
    { "aluminium-cast", 2.695, 2.705 },
    /* matmake.com: 6.95 to 7.35 */
    { "iron-grey", 6.95, 7.35 },
    /* matmake.com: 7.15 */
    { "iron-ductile", 7.145, 7.155 },
  };
  g_autoptr (TgLibrary) library = load ();

  g_assert_cmpuint (library->materials->len, ==, G_N_ELEMENTS (rows));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const TgMaterial *material = tg_library_find_material (library, rows[i].id);

      g_assert_nonnull (material);
      g_assert_cmpfloat (material->density, >=, rows[i].low);
      g_assert_cmpfloat (material->density, <=, rows[i].high);
      g_assert_cmpstr (material->source, !=, "");
    }
  g_assert_null (tg_library_find_material (library, "wood"));
}

/* Every zone that may be ground gives an amount that a bench works with; pads leave some height. */
static void
check_zones (const TgDesign *design)
{
  guint never = 0, free_zones = 0;

  for (guint i = 0; i < design->zones->len; i++)
    {
      const TgZone *zone = tg_design_zone (design, i);

      if (zone->standing == TG_STANDING_NEVER)
        {
          g_assert_cmpstr (zone->reason, !=, "");
          never++;
          continue;
        }
      free_zones += zone->standing == TG_STANDING_FREE;
      g_assert_cmpfloat (tg_design_zone_capacity_g (design, zone), >=, 0.5);
      g_assert_cmpfloat (tg_design_zone_capacity_g (design, zone), <=, 6);
      if (zone->place == TG_PLACE_CAP_PAD)
        g_assert_cmpfloat (zone->depth_mm, <, design->rod.cap_pad);
      if (zone->place == TG_PLACE_SMALL_END_PAD)
        g_assert_cmpfloat (zone->depth_mm, <, design->rod.small_pad);
      if (zone->place == TG_PLACE_CROWN_UNDERSIDE)
        g_assert_cmpfloat (zone->depth_mm, <, design->piston.crown / 4);
    }
  g_assert_cmpuint (never, >=, 3);
  g_assert_cmpuint (free_zones, >=, 2);
}

static TgStanding
standing_of (const TgDesign *design, TgPlace place)
{
  for (guint i = 0; i < design->zones->len; i++)
    if (tg_design_zone (design, i)->place == place)
      return tg_design_zone (design, i)->standing;
  g_error ("design “%s” says nothing about %s", design->id, tg_place_to_word (place));
}

static void
test_designs (void)
{
  static const char *const ids[] = { "rod-i",       "rod-i-plain", "rod-h",
                                     "rod-h-plain", "piston-full", "piston-slipper" };
  g_autoptr (TgLibrary) library = load ();

  g_assert_cmpuint (library->designs->len, ==, G_N_ELEMENTS (ids));
  for (guint i = 0; i < G_N_ELEMENTS (ids); i++)
    {
      const TgDesign *design = tg_library_find_design (library, ids[i]);
      gboolean material = FALSE;

      g_assert_nonnull (design);
      g_assert_true (tg_design_check (design, NULL));
      check_zones (design);
      for (guint j = 0; j < library->materials->len; j++)
        {
          const TgMaterial *m = g_ptr_array_index (library->materials, j);

          if (strcmp (m->name, design->material) == 0)
            material = m->metal == design->metal && design->density == m->density;
        }
      g_assert_true (material);
    }
  g_assert_null (tg_library_find_design (library, "crank"));
}

/* Common practice, no published source: what is never ground. */
static void
test_never (void)
{
  static const TgPlace rod[] = { TG_PLACE_BEAM, TG_PLACE_BOLT_SEATS, TG_PLACE_CAP_BACK };
  static const TgPlace piston[] = { TG_PLACE_CROWN_TOP, TG_PLACE_RING_LANDS, TG_PLACE_PIN_BORE,
                                    TG_PLACE_SKIRT_FACE };
  g_autoptr (TgLibrary) library = load ();

  for (guint i = 0; i < library->designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (library->designs, i);
      gboolean is_rod = design->kind == TG_PART_ROD;
      guint n = is_rod ? G_N_ELEMENTS (rod) : G_N_ELEMENTS (piston);

      for (guint j = 0; j < n; j++)
        g_assert_cmpint (standing_of (design, is_rod ? rod[j] : piston[j]), ==, TG_STANDING_NEVER);
      if (is_rod)
        g_assert_cmpint (standing_of (design, TG_PLACE_CAP_SHOULDERS), ==, TG_STANDING_WITH_CARE);
      else
        g_assert_cmpint (standing_of (design, TG_PLACE_CROWN_UNDERSIDE), ==, TG_STANDING_WITH_CARE);
    }
}

/* A new job from the library's designs is a job that can be written and read. */
static void
test_into_job (void)
{
  g_autoptr (TgLibrary) library = load ();
  g_autoptr (TgJob) job = NULL, back = NULL;
  g_autoptr (GError) error = NULL;
  TgSetup *setup = tg_setup_new ();
  GString *text;

  setup->cylinders = 6;
  setup->resolution = 100;
  for (guint i = 0; i < library->designs->len; i++)
    tg_setup_add_design (setup, tg_design_copy (g_ptr_array_index (library->designs, i)));
  tg_setup_add_set (setup, tg_setup_find_design (setup, "rod-i"), 0);
  tg_setup_add_set (setup, tg_setup_find_design (setup, "piston-slipper"), 0);
  g_assert_true (tg_setup_check (setup, &error));
  job = tg_job_new (setup);
  text = tg_job_xml_format (job);
  back = tg_job_xml_parse (text->str, text->len, "new", &error);
  g_string_free (text, TRUE);
  g_assert_no_error (error);
  g_assert_true (tg_setup_equal (setup, tg_job_setup (back)));
}

static void
test_caution_texts (void)
{
  g_autoptr (TgLibrary) library = load ();
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);
  guint first = 0;

  for (guint i = 0; i < library->cautions->len; i++)
    {
      const TgCaution *caution = g_ptr_array_index (library->cautions, i);

      g_assert_true (g_hash_table_add (ids, caution->id));
      g_assert_cmpuint (strlen (caution->ground), >, 10);
      g_assert_cmpuint (strlen (caution->title), >, 3);
      g_assert_cmpuint (g_utf8_strlen (caution->title, -1), <=, 50);
      g_assert_cmpuint (g_utf8_strlen (caution->text, -1), <=, 400);
      g_assert_true (g_str_has_suffix (caution->text, "."));
      g_assert_null (strstr (caution->text, "  "));
      g_assert_null (strchr (caution->text, '\n'));
      first += caution->first;
    }
  g_assert_cmpuint (first, >=, 4);
  g_assert_cmpuint (first, <=, 6);
}

static gboolean
says (const TgLibrary *library, TgStage stage, guint tools, const char *design_id, const char *id)
{
  g_autoptr (GPtrArray) designs = g_ptr_array_new ();
  g_autoptr (GPtrArray) cautions = NULL;

  if (design_id)
    g_ptr_array_add (designs, (gpointer) tg_library_find_design (library, design_id));
  cautions = tg_library_cautions (library, stage, tools, designs);
  for (guint i = 0; i < cautions->len; i++)
    if (strcmp (((TgCaution *) g_ptr_array_index (cautions, i))->id, id) == 0)
      return TRUE;
  return FALSE;
}

static void
test_selection (void)
{
  const guint wheel = 1u << TG_TOOL_WHEEL, file = 1u << TG_TOOL_FILE;
  static const struct
  {
    TgStage stage;
    guint tools;
    const char *design;
    const char *id;
    gboolean said;
  } rows[] = {
    { TG_STAGE_GRIND, 0, "rod-i", "eyes", TRUE },
    { TG_STAGE_WEIGH, 0, "rod-i", "eyes", FALSE },
    { TG_STAGE_GRIND, wheel, "rod-i", "work-rest", TRUE },
    { TG_STAGE_GRIND, file, "rod-i", "work-rest", FALSE },
    { TG_STAGE_GRIND, 0, "rod-i", "work-rest", TRUE },
    { TG_STAGE_GRIND, wheel | file, "rod-i", "work-rest", TRUE },
    { TG_STAGE_GRIND, file, "rod-i", "gloves", FALSE },
    { TG_STAGE_GRIND, wheel, "rod-i", "gloves", TRUE },
    { TG_STAGE_GRIND, wheel, "piston-full", "loaded-wheel", TRUE },
    { TG_STAGE_GRIND, wheel, "rod-i", "loaded-wheel", FALSE },
    { TG_STAGE_GRIND, file, "piston-full", "loaded-wheel", FALSE },
    { TG_STAGE_GRIND, 0, "piston-slipper", "dust-mixed", TRUE },
    { TG_STAGE_GRIND, 0, "rod-h", "dust-aluminium", FALSE },
    { TG_STAGE_GRIND, 0, "piston-full", "dust-titanium", FALSE },
    { TG_STAGE_SETUP, 0, "rod-i-plain", "fracture", TRUE },
    { TG_STAGE_SETUP, 0, "rod-i", "fracture", FALSE },
    { TG_STAGE_BUILD, 0, NULL, "clips", TRUE },
    { TG_STAGE_SETUP, 0, NULL, "manual", TRUE },
    { TG_STAGE_WEIGH, 0, "rod-i", "heat", TRUE },
  };
  g_autoptr (TgLibrary) library = load ();

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("row %u, %s", i, rows[i].id);
      g_assert_cmpint (says (library, rows[i].stage, rows[i].tools, rows[i].design, rows[i].id), ==,
                       rows[i].said);
    }
}

static void
test_stages (void)
{
  g_autoptr (TgLibrary) library = load ();
  g_autoptr (GPtrArray) none = g_ptr_array_new ();

  for (guint stage = 0; stage < TG_N_STAGES; stage++)
    {
      g_autoptr (GPtrArray) cautions = tg_library_cautions (library, (TgStage) stage, 0, none);
      TgStage back;

      g_assert_cmpuint (cautions->len, >=, 2);
      g_assert_true (tg_stage_from_word (tg_stage_to_word ((TgStage) stage), &back));
      g_assert_cmpuint (back, ==, stage);
    }
}

/* Titanium is no metal of the designs, but a person may set it. */
static void
test_titanium (void)
{
  g_autoptr (TgLibrary) library = load ();
  TgDesign *rod = g_ptr_array_index (library->designs, 0);

  rod->metal = TG_METAL_TITANIUM;
  g_assert_true (says (library, TG_STAGE_GRIND, 0, rod->id, "dust-titanium"));
  g_assert_true (says (library, TG_STAGE_GRIND, 0, rod->id, "metal-fire"));
  g_assert_false (says (library, TG_STAGE_GRIND, 0, rod->id, "dust-aluminium"));
}

/* What is only weighed has no metal that could burn. */
static void
test_only_weighed (void)
{
  g_autoptr (TgLibrary) library = load ();
  g_autoptr (TgDesign) pins = tg_design_new (TG_PART_PIN);
  g_autoptr (GPtrArray) designs = g_ptr_array_new ();

  pins->metal = TG_METAL_ALUMINIUM;
  g_ptr_array_add (designs, pins);
  for (guint stage = 0; stage < TG_N_STAGES; stage++)
    {
      g_autoptr (GPtrArray) cautions = tg_library_cautions (library, (TgStage) stage, 0, designs);

      for (guint i = 0; i < cautions->len; i++)
        g_assert_cmpuint (((TgCaution *) g_ptr_array_index (cautions, i))->metals, ==, 0);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/library/densities", test_densities);
  g_test_add_func ("/library/designs", test_designs);
  g_test_add_func ("/library/never", test_never);
  g_test_add_func ("/library/into-job", test_into_job);
  g_test_add_func ("/library/caution-texts", test_caution_texts);
  g_test_add_func ("/library/selection", test_selection);
  g_test_add_func ("/library/stages", test_stages);
  g_test_add_func ("/library/titanium", test_titanium);
  g_test_add_func ("/library/only-weighed", test_only_weighed);
  return g_test_run ();
}
