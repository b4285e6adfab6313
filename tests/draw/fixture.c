/* fixture.c: designs and a review put together by hand, see fixture.h
 *
 * The review here is made up, not computed: the drawings must show whatever they are given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fixture.h"

typedef struct
{
  const char *id, *name, *reason;
  TgPlace place;
  TgStanding standing;
  double area, depth;
} ZoneLine;

#define CARE "thin here: measure first"
#define NEVER_BEAM "it carries the load"

static const ZoneLine i_zones[] = {
  { "small-pad", "small-end pad", "", TG_PLACE_SMALL_END_PAD, TG_STANDING_FREE, 160, 3 },
  { "shoulders", "big-end shoulders", "", TG_PLACE_BIG_END_SHOULDERS, TG_STANDING_FREE, 140, 1 },
  { "cap-pad", "cap pad", "", TG_PLACE_CAP_PAD, TG_STANDING_FREE, 300, 4 },
  { "sides", "small-end sides", CARE, TG_PLACE_SMALL_END_SIDES, TG_STANDING_WITH_CARE, 120, 0.3 },
  { "cap-shoulders", "cap shoulders", CARE, TG_PLACE_CAP_SHOULDERS, TG_STANDING_WITH_CARE, 110,
    0.5 },
  { "beam", "beam", NEVER_BEAM, TG_PLACE_BEAM, TG_STANDING_NEVER, 0, 0 },
  { "bolt-seats", "bolt seats", "they must stay flat", TG_PLACE_BOLT_SEATS, TG_STANDING_NEVER, 0,
    0 },
};

static const ZoneLine h_zones[] = {
  { "shoulders", "big-end shoulders", "", TG_PLACE_BIG_END_SHOULDERS, TG_STANDING_FREE, 140, 1 },
  { "sides", "small-end sides", "", TG_PLACE_SMALL_END_SIDES, TG_STANDING_FREE, 120, 0.5 },
  { "cap-back", "cap back", "it keeps the bore round", TG_PLACE_CAP_BACK, TG_STANDING_NEVER, 0, 0 },
  { "edges", "beam edges", "cracks start at edges", TG_PLACE_BEAM_EDGES, TG_STANDING_NEVER, 0, 0 },
  { "beam", "beam", NEVER_BEAM, TG_PLACE_BEAM, TG_STANDING_NEVER, 0, 0 },
};

static const ZoneLine long_zones[] = {
  { "small-pad", "small-end pad", "", TG_PLACE_SMALL_END_PAD, TG_STANDING_FREE, 900, 3 },
  { "cap-pad", "cap pad", "", TG_PLACE_CAP_PAD, TG_STANDING_FREE, 1500, 4 },
};

static const ZoneLine piston_zones[] = {
  { "boss-feet", "pin-boss feet", "", TG_PLACE_PIN_BOSS_FEET, TG_STANDING_FREE, 210, 1.5 },
  { "skirt-foot", "skirt foot", "", TG_PLACE_SKIRT_FOOT, TG_STANDING_FREE, 260, 0.8 },
  { "underside", "crown underside", CARE, TG_PLACE_CROWN_UNDERSIDE, TG_STANDING_WITH_CARE, 700,
    0.4 },
  { "top", "crown top", "it sets the compression", TG_PLACE_CROWN_TOP, TG_STANDING_NEVER, 0, 0 },
  { "lands", "ring lands", "the rings need them", TG_PLACE_RING_LANDS, TG_STANDING_NEVER, 0, 0 },
  { "bore", "pin bore", "the pin runs in it", TG_PLACE_PIN_BORE, TG_STANDING_NEVER, 0, 0 },
  { "face", "skirt face", "it runs in the bore", TG_PLACE_SKIRT_FACE, TG_STANDING_NEVER, 0, 0 },
};

static void
add_zones (TgDesign *design, const ZoneLine *lines, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      TgZone *zone = tg_zone_new ();

      g_free (zone->id);
      g_free (zone->name);
      g_free (zone->reason);
      zone->id = g_strdup (lines[i].id);
      zone->name = g_strdup (lines[i].name);
      zone->reason = g_strdup (lines[i].reason);
      zone->place = lines[i].place;
      zone->standing = lines[i].standing;
      zone->area_mm2 = lines[i].area;
      zone->depth_mm = lines[i].depth;
      g_ptr_array_add (design->zones, zone);
    }
}

static const TgRodDims i_rod = { .centres = 152,
                                 .big_bore = 54,
                                 .big_outer = 70,
                                 .small_bore = 23,
                                 .small_outer = 37,
                                 .beam_big = 34,
                                 .beam_small = 23,
                                 .shoulder_span = 84,
                                 .shoulder = 21,
                                 .cap_shoulder = 17,
                                 .cap_pad = 9,
                                 .cap_pad_width = 26,
                                 .small_pad = 7,
                                 .small_pad_width = 18 };

static const TgRodDims h_rod = { .centres = 145,
                                 .big_bore = 50,
                                 .big_outer = 64,
                                 .small_bore = 22,
                                 .small_outer = 34,
                                 .beam_big = 30,
                                 .beam_small = 24,
                                 .shoulder_span = 80,
                                 .shoulder = 24,
                                 .cap_shoulder = 20 };

static const TgRodDims long_rod = { .centres = 420,
                                    .big_bore = 90,
                                    .big_outer = 116,
                                    .small_bore = 45,
                                    .small_outer = 70,
                                    .beam_big = 62,
                                    .beam_small = 44,
                                    .shoulder_span = 150,
                                    .shoulder = 40,
                                    .cap_shoulder = 32,
                                    .cap_pad = 16,
                                    .cap_pad_width = 50,
                                    .small_pad = 14,
                                    .small_pad_width = 40 };

static const TgPistonDims piston = { .bore = 86,
                                     .height = 68,
                                     .compression_height = 36,
                                     .pin = 22,
                                     .crown = 9,
                                     .ring_belt = 22,
                                     .boss_outer = 36,
                                     .boss_gap = 30,
                                     .skirt_wall = 4.5 };

TgDesign *
fixture_design (FixtureDesign which)
{
  static const char *const id[] = { "i", "h", "long", "full", "slipper" };
  TgDesign *design = tg_design_new (which < FIXTURE_FULL_PISTON ? TG_PART_ROD : TG_PART_PISTON);

  g_free (design->id);
  design->id = g_strdup (id[which]);
  design->density = which < FIXTURE_FULL_PISTON ? 7.85 : 2.7;
  switch (which)
    {
    case FIXTURE_I_ROD:
      design->rod = i_rod;
      add_zones (design, i_zones, G_N_ELEMENTS (i_zones));
      break;
    case FIXTURE_H_ROD:
      design->rod = h_rod;
      design->beam = TG_BEAM_H;
      add_zones (design, h_zones, G_N_ELEMENTS (h_zones));
      break;
    case FIXTURE_LONG_ROD:
      design->rod = long_rod;
      add_zones (design, long_zones, G_N_ELEMENTS (long_zones));
      break;
    case FIXTURE_FULL_PISTON:
    case FIXTURE_SLIPPER_PISTON:
    default:
      design->piston = piston;
      design->skirt = which == FIXTURE_FULL_PISTON ? TG_SKIRT_FULL : TG_SKIRT_SLIPPER;
      add_zones (design, piston_zones, G_N_ELEMENTS (piston_zones));
      break;
    }
  return design;
}

static void
set_zone (TgZoneReview *review, const TgDesign *design, FixtureState state, guint nth)
{
  static const double grinding[] = { 0.3, 0.5 };

  switch (state)
    {
    case FIXTURE_GRINDING:
      if (nth < G_N_ELEMENTS (grinding))
        review->amount_g = grinding[nth];
      else
        review->passes = 1;
      break;
    case FIXTURE_BUSY:
      review->amount_g = 0.2 + 0.35 * nth;
      review->passes = nth;
      break;
    case FIXTURE_DONE:
      review->passes = 2;
      break;
    case FIXTURE_FRESH:
    default:
      break;
    }
  review->taken_g = 0.4 * review->passes;
  review->at_most_g = review->amount_g + 0.1;
  review->depth_mm = tg_design_zone_depth_mm (design, review->zone, review->amount_g);
}

TgPartReview *
fixture_part (const TgPart *part, const TgDesign *design, FixtureState state)
{
  TgPartReview *review = g_new0 (TgPartReview, 1);
  guint usable = 0;

  review->part = part;
  review->design = design;
  review->pieces = 1;
  review->in_work = part && part->bore > 0;
  review->state = state == FIXTURE_FRESH || state == FIXTURE_DONE ? TG_STATE_EVEN
                                                                  : TG_STATE_TO_GRIND;
  review->history = g_array_new (FALSE, FALSE, sizeof (TgHistoryPoint));
  review->pass_history = g_array_new (FALSE, FALSE, sizeof (TgHistoryPass));
  review->zones = g_array_new (FALSE, TRUE, sizeof (TgZoneReview));
  for (guint i = 0; i < design->zones->len; i++)
    {
      TgZoneReview zone = { .zone = tg_design_zone (design, i) };

      if (tg_zone_usable (zone.zone))
        set_zone (&zone, design, state, usable++);
      review->to_come_off_g += zone.amount_g;
      g_array_append_val (review->zones, zone);
    }
  review->weight[TG_FIGURE_SMALL_END] = (TgWeight){ .basis = TG_WEIGHT_READ,
                                                    .mean_g = 171.6 + 0.1 * state };
  review->weight[TG_FIGURE_BIG_END] = (TgWeight){ .basis = TG_WEIGHT_ESTIMATED,
                                                  .mean_g = 412.3 + 0.1 * state };
  review->weight[TG_FIGURE_WHOLE] = (TgWeight){ .basis = TG_WEIGHT_READ,
                                                .mean_g = design->kind == TG_PART_ROD ? 584
                                                                                      : 318.4 };
  return review;
}

void
fixture_part_free (TgPartReview *part)
{
  g_array_unref (part->zones);
  g_array_unref (part->history);
  g_array_unref (part->pass_history);
  g_free (part);
}

static TgSetup *
new_setup (guint cylinders, gboolean long_names)
{
  static const FixtureDesign kinds[] = { FIXTURE_I_ROD, FIXTURE_SLIPPER_PISTON };
  TgSetup *setup = tg_setup_new ();

  g_free (setup->name);
  setup->name = g_strdup (
      long_names
          ? "Harbour launch with the replacement crankshaft, sixteen cylinders, second set of "
            "rods and the pistons from the spare block, to be ready before the regatta"
          : "Harbour launch");
  setup->cylinders = cylinders;
  setup->resolution = 100;
  for (guint b = 0; b < TG_N_BANDS; b++)
    setup->tolerance[b] = 200;
  for (guint k = 0; k < G_N_ELEMENTS (kinds); k++)
    {
      TgDesign *design = fixture_design (kinds[k]);

      if (long_names)
        {
          TgZone *zone = tg_design_zone (design, 1);

          g_free (zone->name);
          zone->name = g_strdup (
              "shoulders on both sides of the joint, outer faces only, as marked");
        }
      tg_setup_add_design (setup, design);
      tg_setup_add_set (setup, design, 0);
    }
  for (guint i = 0; long_names && i < setup->parts->len; i++)
    {
      TgPart *part = tg_setup_part (setup, i);
      g_autofree char *name = g_steal_pointer (&part->name);

      part->name = g_strdup_printf ("%s, Donaudampfschifffahrtsgesellschaftsvorratslager shelf %u",
                                    name, i);
    }
  return setup;
}

static void
fill_review (TgReview *review)
{
  for (guint i = 0; i < review->setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (review->setup, i);

      g_ptr_array_add (review->parts,
                       fixture_part (part, part->design, (FixtureState) (i % FIXTURE_N_STATES)));
    }
  for (guint b = 0; b < TG_N_BANDS; b++)
    review->bands[b] = (TgBandReview){ .present = TRUE,
                                       .known = TRUE,
                                       .target_g = b == TG_BAND_PISTON      ? 318.4
                                                   : b == TG_BAND_ROD_SMALL ? 171.3
                                                                            : 412.1,
                                       .tolerance_g = 0.2,
                                       .lightest_g = 171.3,
                                       .heaviest_g = 172.8,
                                       .spread_g = 1.5,
                                       .n_parts = review->setup->cylinders,
                                       .n_weighed = review->setup->cylinders,
                                       .n_in = 2 };
}

TgJob *
fixture_job (guint cylinders, gboolean long_names, guint events, TgReview **review)
{
  TgJob *job = tg_job_new (new_setup (cylinders, long_names));
  TgReview *made = g_new0 (TgReview, 1);

  for (guint i = 0; i < events; i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *id = g_strdup_printf ("note-%u", i);
      TgEvent event = tg_event_blank (TG_EVENT_NOTE);

      event.id = id;
      event.text = "an entry";
      /* 2026-03-07T19:42:07+01:00 and an hour for each */
      event.stamp = (TgStamp){ 1772908927 + 3600 * (gint64) i, 60 };
      tg_job_append (job, &event, &error);
      g_assert_no_error (error);
    }
  made->setup = tg_setup_copy (tg_job_setup (job));
  made->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) fixture_part_free);
  made->scale.checks = g_array_new (FALSE, FALSE, sizeof (TgScaleCheck));
  made->scale.last_zero = made->scale.last_weight = -1;
  made->methods = g_array_new (FALSE, FALSE, sizeof (TgMethodReview));
  made->n_events = events;
  made->paired = -1;
  fill_review (made);
  *review = made;
  return job;
}

void
fixture_review_free (TgReview *review)
{
  g_ptr_array_unref (review->parts);
  g_array_unref (review->scale.checks);
  g_array_unref (review->methods);
  tg_setup_free (review->setup);
  g_free (review);
}
