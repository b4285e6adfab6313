/* fixture.c: see fixture.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fixture.h"

#include <math.h>

#include "rod-statics.h"

static void
add_zone (TgDesign *design,
          const char *id,
          TgPlace place,
          TgStanding standing,
          double area_mm2,
          double depth_mm)
{
  TgZone *zone = tg_zone_new ();

  g_free (zone->id);
  g_free (zone->name);
  zone->id = g_strdup (id);
  zone->name = g_strdelimit (g_strdup (id), "-", ' ');
  if (standing != TG_STANDING_FREE)
    {
      g_free (zone->reason);
      zone->reason = g_strdup ("It carries load.");
    }
  zone->place = place;
  zone->standing = standing;
  zone->area_mm2 = area_mm2;
  zone->depth_mm = depth_mm;
  g_ptr_array_add (design->zones, zone);
}

static TgDesign *
new_design (TgPartKind kind, const char *id, const char *material, TgMetal metal, double density)
{
  TgDesign *design = tg_design_new (kind);

  g_free (design->id);
  g_free (design->name);
  g_free (design->material);
  design->id = g_strdup (id);
  design->name = g_strdup (id);
  design->material = g_strdup (material);
  design->metal = metal;
  design->density = density;
  return design;
}

TgDesign *
fixture_rod_design (void)
{
  TgDesign *design = new_design (TG_PART_ROD, "rod", "steel", TG_METAL_STEEL, 7.85);

  design->rod = (TgRodDims) { .centres = 150,
                              .big_bore = 56,
                              .big_outer = 74,
                              .small_bore = 24,
                              .small_outer = 36,
                              .beam_big = 30,
                              .beam_small = 22,
                              .shoulder_span = 88,
                              .shoulder = 18,
                              .cap_shoulder = 16,
                              .cap_pad = 8,
                              .cap_pad_width = 20,
                              .small_pad = 6,
                              .small_pad_width = 16 };
  add_zone (design, "small-pad", TG_PLACE_SMALL_END_PAD, TG_STANDING_FREE, 300, 2);
  add_zone (design, "shoulders", TG_PLACE_BIG_END_SHOULDERS, TG_STANDING_FREE, 120, 2);
  add_zone (design, "cap-pad", TG_PLACE_CAP_PAD, TG_STANDING_FREE, 400, 2);
  add_zone (design, "sides", TG_PLACE_SMALL_END_SIDES, TG_STANDING_WITH_CARE, 200, 1);
  add_zone (design, "beam", TG_PLACE_BEAM, TG_STANDING_NEVER, 0, 0);
  return design;
}

TgDesign *
fixture_piston_design (void)
{
  TgDesign *design = new_design (TG_PART_PISTON, "piston", "aluminium", TG_METAL_ALUMINIUM, 2.7);

  design->piston = (TgPistonDims) { .bore = 90,
                                    .height = 80,
                                    .compression_height = 42,
                                    .pin = 24,
                                    .crown = 8,
                                    .ring_belt = 28,
                                    .boss_outer = 38,
                                    .boss_gap = 36,
                                    .skirt_wall = 4 };
  add_zone (design, "feet", TG_PLACE_PIN_BOSS_FEET, TG_STANDING_FREE, 300, 3);
  add_zone (design, "skirt", TG_PLACE_SKIRT_FOOT, TG_STANDING_WITH_CARE, 200, 1);
  add_zone (design, "crown", TG_PLACE_CROWN_TOP, TG_STANDING_NEVER, 0, 0);
  return design;
}

TgSetup *
fixture_setup (guint cylinders, gboolean rods, gboolean pistons)
{
  TgSetup *setup = tg_setup_new ();

  g_free (setup->name);
  setup->name = g_strdup ("Test bench");
  setup->layout = TG_LAYOUT_INLINE;
  setup->cylinders = cylinders;
  setup->resolution = 100;
  setup->capacity = 5000 * TG_MASS_G;
  for (guint b = 0; b <= TG_BAND_PISTON; b++)
    setup->tolerance[b] = 500;
  if (rods)
    {
      tg_setup_add_design (setup, fixture_rod_design ());
      tg_setup_add_set (setup, tg_setup_find_design (setup, "rod"), 0);
    }
  if (pistons)
    {
      tg_setup_add_design (setup, fixture_piston_design ());
      tg_setup_add_set (setup, tg_setup_find_design (setup, "piston"), 0);
    }
  return setup;
}

void
fixture_add_family (TgSetup *setup, TgPartKind kind, guint spares)
{
  TgDesign *design = tg_design_new (kind);

  g_free (design->id);
  g_free (design->name);
  design->id = g_strdup (tg_part_kind_to_word (kind));
  design->name = g_strdup (tg_part_kind_plural (kind));
  tg_setup_add_design (setup, design);
  tg_setup_add_set (setup, design, spares);
}

void
fixture_append (TgJob *job, TgEvent event)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *id = g_strdup_printf ("e%u", tg_job_n_events (job));

  event.id = id;
  event.who = "tester";
  if (event.stamp.seconds == 0)
    event.stamp = (TgStamp) { 1772900000 + tg_job_n_events (job), 60 };
  tg_job_append (job, &event, &error);
  g_assert_no_error (error);
}

TgEvent
fixture_reading (const char *part, TgFigure figure, TgWay way, double grams)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = part;
  event.figure = figure;
  event.way = way;
  event.mass = tg_mass_from_g (grams);
  return event;
}

void
fixture_weigh (TgJob *job, const char *part, TgFigure figure, TgWay way, double grams)
{
  fixture_append (job, fixture_reading (part, figure, way, grams));
}

void
fixture_weigh_rod (TgJob *job, guint number, double small_g, double big_g)
{
  g_autofree char *part = g_strdup_printf ("rod-%u", number);

  fixture_weigh (job, part, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, small_g);
  fixture_weigh (job, part, TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, small_g);
  fixture_weigh (job, part, TG_FIGURE_BIG_END, TG_WAY_MARK_UP, big_g);
  fixture_weigh (job, part, TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN, big_g);
}

void
fixture_weigh_piston (TgJob *job, guint number, double grams)
{
  g_autofree char *part = g_strdup_printf ("piston-%u", number);

  fixture_weigh (job, part, TG_FIGURE_WHOLE, TG_WAY_ANY, grams);
}

void
fixture_pass (TgJob *job, const char *part, const char *zone, double wanted_g)
{
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = part;
  event.zone = zone;
  event.tool = TG_TOOL_BELT;
  event.mass = tg_mass_from_g (wanted_g);
  fixture_append (job, event);
}

void
fixture_target (TgJob *job, TgBand band, double grams)
{
  TgEvent event = tg_event_blank (TG_EVENT_TARGET);

  event.band = band;
  event.mass = tg_mass_from_g (grams);
  fixture_append (job, event);
}

static double
normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

FixtureBench *
fixture_bench_new (const TgSetup *setup, guint32 seed)
{
  FixtureBench *bench = g_new0 (FixtureBench, 1);

  bench->rand = g_rand_new_with_seed (seed);
  bench->step_g = tg_mass_to_g (setup->resolution);
  bench->parts = g_array_new (FALSE, FALSE, sizeof (FixturePart));
  for (guint i = 0; i < setup->parts->len; i++)
    {
      FixturePart part = { .design = tg_setup_part (setup, i)->design };
      gboolean rod = part.design->kind == TG_PART_ROD;

      part.small_g = rod ? g_rand_double_range (bench->rand, 170, 173) : 0;
      part.big_g = rod ? g_rand_double_range (bench->rand, 410, 414)
                       : g_rand_double_range (bench->rand, 520, 523);
      part.turn_g = rod ? g_rand_double_range (bench->rand, -0.1, 0.1) : 0;
      g_array_append_val (bench->parts, part);
    }
  return bench;
}

void
fixture_bench_free (FixtureBench *bench)
{
  g_rand_free (bench->rand);
  g_array_unref (bench->parts);
  g_free (bench);
}

double
fixture_bench_read (FixtureBench *bench, TgSlot slot)
{
  const FixturePart *part = &g_array_index (bench->parts, FixturePart, slot.part);
  double truth = slot.figure == TG_FIGURE_SMALL_END ? part->small_g : part->big_g;

  if (slot.figure == TG_FIGURE_WHOLE)
    truth = part->small_g + part->big_g;
  if (slot.way != TG_WAY_ANY)
    truth += (slot.way == TG_WAY_MARK_UP ? 0.5 : -0.5) * part->turn_g;
  return round ((truth + bench->noise_g * normal (bench->rand)) / bench->step_g) * bench->step_g;
}

void
fixture_bench_grind (FixtureBench *bench, guint index, guint zone, double wanted_g)
{
  FixturePart *part = &g_array_index (bench->parts, FixturePart, index);
  double taken = wanted_g * (1 + bench->scatter * normal (bench->rand));

  taken = MAX (taken, 0);
  if (part->design->kind == TG_PART_ROD)
    {
      TgRodStatics effect = tg_rod_statics_effect (
          part->design->rod.centres,
          tg_design_zone_position (part->design, tg_design_zone (part->design, zone)));

      part->small_g -= taken * effect.small;
      part->big_g -= taken * effect.big;
    }
  else
    part->big_g -= taken;
}

double
fixture_bench_spread (const FixtureBench *bench, TgBand band)
{
  double least = INFINITY, most = -INFINITY;

  for (guint i = 0; i < bench->parts->len; i++)
    {
      const FixturePart *part = &g_array_index (bench->parts, FixturePart, i);
      double value = band == TG_BAND_ROD_SMALL ? part->small_g : part->big_g;

      if (part->design->kind != tg_band_kind (band))
        continue;
      least = MIN (least, value);
      most = MAX (most, value);
    }
  return most - least;
}
