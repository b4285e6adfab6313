/* design.c: part designs and their zones, see design.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Positions of rod places, L = centre distance, measured from the big-end centre towards the small
 * end: pads lie beyond the eyes by half their height, bolt bosses reach from the joint face (at 0)
 * along the rod on one side and along the cap on the other.  A place's position is the centre of
 * the box that the outline shows for it; the true lever arm of a zone is learned from passes.
 */
#include "design.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "error.h"
#include "storable.h"
#include "word.h"
#include "number.h"

TG_DEFINE_WORDS (TgPartKind, part_kind, "rod", "piston", "pin", "rings", "clips", "bearings")
TG_DEFINE_WORDS (TgMetal, metal, "steel", "aluminium", "titanium", "iron")
TG_DEFINE_WORDS (TgBeam, beam, "i", "h")
TG_DEFINE_WORDS (TgSkirt, skirt, "full", "slipper")
TG_DEFINE_WORDS (TgStanding, standing, "free", "with-care", "never")
TG_DEFINE_WORDS (TgUse, use, "default", "yes", "no")
TG_DEFINE_WORDS (TgPlace,
                 place,
                 "small-end-pad",
                 "small-end-sides",
                 "beam",
                 "beam-edges",
                 "big-end-shoulders",
                 "bolt-seats",
                 "cap-shoulders",
                 "cap-pad",
                 "cap-back",
                 "pin-boss-feet",
                 "skirt-foot",
                 "crown-underside",
                 "crown-top",
                 "ring-lands",
                 "pin-bore",
                 "skirt-face")

#define ROD(field) offsetof (TgRodDims, field)
static const TgField rod_fields[] = {
  { "centres", "Centre distance", "mm", 20, 2000, ROD (centres) },
  { "big-bore", "Big-end bore", "mm", 5, 1000, ROD (big_bore) },
  { "big-outer", "Big end, over the eye", "mm", 6, 1500, ROD (big_outer) },
  { "small-bore", "Small-end bore", "mm", 3, 500, ROD (small_bore) },
  { "small-outer", "Small end, over the eye", "mm", 4, 800, ROD (small_outer) },
  { "beam-big", "Beam width at the big end", "mm", 2, 1000, ROD (beam_big) },
  { "beam-small", "Beam width at the small end", "mm", 2, 1000, ROD (beam_small) },
  { "shoulder-span", "Across the bolt bosses", "mm", 6, 1500, ROD (shoulder_span) },
  { "shoulder", "Bolt bosses, rod side", "mm", 1, 500, ROD (shoulder) },
  { "cap-shoulder", "Bolt bosses, cap side", "mm", 1, 500, ROD (cap_shoulder) },
  { "cap-pad", "Cap pad height", "mm", 0, 200, ROD (cap_pad) },
  { "cap-pad-width", "Cap pad width", "mm", 0, 500, ROD (cap_pad_width) },
  { "small-pad", "Small-end pad height", "mm", 0, 200, ROD (small_pad) },
  { "small-pad-width", "Small-end pad width", "mm", 0, 500, ROD (small_pad_width) },
};

#define PISTON(field) offsetof (TgPistonDims, field)
static const TgField piston_fields[] = {
  { "bore", "Piston diameter", "mm", 10, 1000, PISTON (bore) },
  { "height", "Height", "mm", 5, 1500, PISTON (height) },
  { "compression-height", "Compression height", "mm", 3, 1000, PISTON (compression_height) },
  { "pin", "Pin bore", "mm", 3, 500, PISTON (pin) },
  { "crown", "Crown thickness", "mm", 1, 200, PISTON (crown) },
  { "ring-belt", "Crown to last ring land", "mm", 2, 800, PISTON (ring_belt) },
  { "boss-outer", "Pin boss diameter", "mm", 4, 800, PISTON (boss_outer) },
  { "boss-gap", "Between the pin bosses", "mm", 2, 800, PISTON (boss_gap) },
  { "skirt-wall", "Skirt thickness", "mm", 0.5, 100, PISTON (skirt_wall) },
};

#define ZONE(field) offsetof (TgZone, field)
static const TgField zone_fields[] = {
  { "offset", "Moved along the rod", "mm", -500, 500, ZONE (offset_mm) },
  { "area", "Area of one side", "mm²", 0, 100000, ZONE (area_mm2) },
  { "depth", "Permitted depth", "mm", 0, 50, ZONE (depth_mm) },
  { "preference", "Cost per gram", "", 0.01, 1000, ZONE (preference) },
};

gboolean
tg_part_kind_has_outline (TgPartKind kind)
{
  return kind == TG_PART_ROD || kind == TG_PART_PISTON;
}

const char *
tg_part_kind_label (TgPartKind kind)
{
  static const char *const labels[TG_N_PART_KINDS] = { "rod",       "piston",    "pin",
                                                       "ring pack", "clip pair", "bearing pair" };

  g_return_val_if_fail ((guint) kind < TG_N_PART_KINDS, NULL);

  return labels[kind];
}

const char *
tg_part_kind_plural (TgPartKind kind)
{
  static const char *const labels[TG_N_PART_KINDS] = {
    "rods", "pistons", "pins", "ring packs", "clip pairs", "bearing pairs"
  };

  g_return_val_if_fail ((guint) kind < TG_N_PART_KINDS, NULL);

  return labels[kind];
}

const TgField *
tg_design_rod_fields (guint *n)
{
  *n = G_N_ELEMENTS (rod_fields);
  return rod_fields;
}

const TgField *
tg_design_piston_fields (guint *n)
{
  *n = G_N_ELEMENTS (piston_fields);
  return piston_fields;
}

const TgField *
tg_design_zone_fields (guint *n)
{
  *n = G_N_ELEMENTS (zone_fields);
  return zone_fields;
}

TgZone *
tg_zone_new (void)
{
  TgZone *zone = g_new0 (TgZone, 1);

  zone->id = g_strdup ("");
  zone->name = g_strdup ("");
  zone->reason = g_strdup ("");
  zone->preference = 1;
  return zone;
}

TgZone *
tg_zone_copy (const TgZone *zone)
{
  TgZone *copy = g_memdup2 (zone, sizeof *zone);

  copy->id = g_strdup (zone->id);
  copy->name = g_strdup (zone->name);
  copy->reason = g_strdup (zone->reason);
  return copy;
}

void
tg_zone_free (TgZone *zone)
{
  g_free (zone->id);
  g_free (zone->name);
  g_free (zone->reason);
  g_free (zone);
}

TgDesign *
tg_design_new (TgPartKind kind)
{
  TgDesign *design = g_new0 (TgDesign, 1);

  design->id = g_strdup ("");
  design->name = g_strdup ("");
  design->material = g_strdup ("");
  design->kind = kind;
  design->zones = g_ptr_array_new_with_free_func ((GDestroyNotify) tg_zone_free);
  return design;
}

static gpointer
copy_zone (gconstpointer zone, gpointer data G_GNUC_UNUSED)
{
  return tg_zone_copy (zone);
}

TgDesign *
tg_design_copy (const TgDesign *design)
{
  TgDesign *copy = g_memdup2 (design, sizeof *design);

  copy->id = g_strdup (design->id);
  copy->name = g_strdup (design->name);
  copy->material = g_strdup (design->material);
  copy->zones = g_ptr_array_copy (design->zones, copy_zone, NULL);
  g_ptr_array_set_free_func (copy->zones, (GDestroyNotify) tg_zone_free);
  return copy;
}

void
tg_design_free (TgDesign *design)
{
  g_free (design->id);
  g_free (design->name);
  g_free (design->material);
  g_ptr_array_unref (design->zones);
  g_free (design);
}

static gboolean
fields_equal (const TgField *fields, guint n, gconstpointer a, gconstpointer b)
{
  for (guint i = 0; i < n; i++)
    if (tg_field_get (&fields[i], a) < tg_field_get (&fields[i], b) ||
        tg_field_get (&fields[i], a) > tg_field_get (&fields[i], b))
      return FALSE;
  return TRUE;
}

static gboolean
zone_equal (const TgZone *a, const TgZone *b)
{
  return strcmp (a->id, b->id) == 0 && strcmp (a->name, b->name) == 0 &&
         strcmp (a->reason, b->reason) == 0 && a->place == b->place && a->standing == b->standing &&
         a->use == b->use && a->capacity == b->capacity &&
         fields_equal (zone_fields, G_N_ELEMENTS (zone_fields), a, b);
}

gboolean
tg_design_equal (const TgDesign *a, const TgDesign *b)
{
  if (strcmp (a->id, b->id) != 0 || strcmp (a->name, b->name) != 0 || a->kind != b->kind)
    return FALSE;
  if (!tg_part_kind_has_outline (a->kind))
    return TRUE;
  if (strcmp (a->material, b->material) != 0 || a->metal != b->metal || a->density < b->density ||
      a->density > b->density || a->zones->len != b->zones->len)
    return FALSE;
  if (a->kind == TG_PART_ROD
          ? a->beam != b->beam || a->fracture_split != b->fracture_split ||
                !fields_equal (rod_fields, G_N_ELEMENTS (rod_fields), &a->rod, &b->rod)
          : a->skirt != b->skirt ||
                !fields_equal (piston_fields, G_N_ELEMENTS (piston_fields), &a->piston, &b->piston))
    return FALSE;
  for (guint i = 0; i < a->zones->len; i++)
    if (!zone_equal (tg_design_zone (a, i), tg_design_zone (b, i)))
      return FALSE;
  return TRUE;
}

TgZone *
tg_design_find_zone (const TgDesign *design, const char *zone_id, guint *index)
{
  for (guint i = 0; i < design->zones->len; i++)
    {
      TgZone *zone = tg_design_zone (design, i);

      if (strcmp (zone->id, zone_id) == 0)
        {
          if (index)
            *index = i;
          return zone;
        }
    }
  return NULL;
}

gboolean
tg_zone_usable (const TgZone *zone)
{
  switch (zone->standing)
    {
    case TG_STANDING_FREE:
      return zone->use != TG_USE_NO;
    case TG_STANDING_WITH_CARE:
      return zone->use == TG_USE_YES;
    case TG_STANDING_NEVER:
    default:
      return FALSE;
    }
}

gboolean
tg_place_is_pair (TgPlace place)
{
  switch (place)
    {
    case TG_PLACE_SMALL_END_SIDES:
    case TG_PLACE_BEAM_EDGES:
    case TG_PLACE_BIG_END_SHOULDERS:
    case TG_PLACE_BOLT_SEATS:
    case TG_PLACE_CAP_SHOULDERS:
    case TG_PLACE_PIN_BOSS_FEET:
    case TG_PLACE_SKIRT_FOOT:
    case TG_PLACE_RING_LANDS:
    case TG_PLACE_PIN_BORE:
    case TG_PLACE_SKIRT_FACE:
      return TRUE;
    default:
      return FALSE;
    }
}

TgPartKind
tg_place_kind (TgPlace place)
{
  return place < TG_PLACE_PIN_BOSS_FEET ? TG_PART_ROD : TG_PART_PISTON;
}

double
tg_design_zone_position (const TgDesign *design, const TgZone *zone)
{
  const TgRodDims *rod = &design->rod;
  double place = 0;

  switch (zone->place)
    {
    case TG_PLACE_SMALL_END_PAD:
      place = rod->centres + (rod->small_outer + rod->small_pad) / 2;
      break;
    case TG_PLACE_SMALL_END_SIDES:
      place = rod->centres;
      break;
    case TG_PLACE_BEAM:
    case TG_PLACE_BEAM_EDGES:
      place = rod->centres / 2;
      break;
    case TG_PLACE_BIG_END_SHOULDERS:
      place = rod->shoulder / 2;
      break;
    case TG_PLACE_BOLT_SEATS:
      place = rod->shoulder;
      break;
    case TG_PLACE_CAP_SHOULDERS:
      place = -rod->cap_shoulder / 2;
      break;
    case TG_PLACE_CAP_PAD:
      place = -(rod->big_outer + rod->cap_pad) / 2;
      break;
    case TG_PLACE_CAP_BACK:
      place = -rod->big_outer / 2;
      break;
    default:
      return 0;
    }
  return place + zone->offset_mm;
}

double
tg_design_zone_length (const TgDesign *design, const TgZone *zone)
{
  const TgRodDims *rod = &design->rod;

  switch (zone->place)
    {
    case TG_PLACE_SMALL_END_PAD:
      return rod->small_pad;
    case TG_PLACE_SMALL_END_SIDES:
      return rod->small_outer / 2;
    case TG_PLACE_BEAM:
    case TG_PLACE_BEAM_EDGES:
      return MAX (0, rod->centres - (rod->big_outer + rod->small_outer) / 2);
    case TG_PLACE_BIG_END_SHOULDERS:
      return rod->shoulder;
    case TG_PLACE_CAP_SHOULDERS:
      return rod->cap_shoulder;
    case TG_PLACE_CAP_PAD:
      return rod->cap_pad;
    case TG_PLACE_CAP_BACK:
    case TG_PLACE_BOLT_SEATS:
      return 5; /* what is skimmed there at most; common practice, no published source */
    default:
      return 0;
    }
}

static double
area_cm2 (const TgZone *zone)
{
  return zone->area_mm2 * (tg_place_is_pair (zone->place) ? 2 : 1) / 100;
}

double
tg_design_zone_capacity_g (const TgDesign *design, const TgZone *zone)
{
  if (zone->capacity > 0)
    return tg_mass_to_g (zone->capacity);
  return area_cm2 (zone) * (zone->depth_mm / 10) * design->density;
}

double
tg_design_zone_depth_mm (const TgDesign *design, const TgZone *zone, double grams)
{
  double area = area_cm2 (zone);

  if (area <= 0 || design->density <= 0)
    return 0;
  return grams / (area * design->density) * 10;
}

static gboolean
refuse (GError **error, const TgDesign *design, const char *what)
{
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "design “%s”: %s", design->id, what);
  return FALSE;
}

static gboolean
check_fields (const TgDesign *design,
              const char *thing,
              const TgField *fields,
              guint n,
              gconstpointer base,
              GError **error)
{
  for (guint i = 0; i < n; i++)
    {
      double value = tg_field_get (&fields[i], base);

      if (!isfinite (value) || value < fields[i].min || value > fields[i].max)
        {
          g_autofree char *shown = tg_number_format_short (value);
          g_autofree char *min = tg_number_format_short (fields[i].min);
          g_autofree char *max = tg_number_format_short (fields[i].max);

          g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                       "design “%s”%s: %s is %s%s%s, possible is %s to %s", design->id, thing,
                       fields[i].name, shown, fields[i].unit[0] ? " " : "", fields[i].unit, min,
                       max);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
check_rod (const TgDesign *design, GError **error)
{
  const TgRodDims *rod = &design->rod;

  if (!check_fields (design, "", rod_fields, G_N_ELEMENTS (rod_fields), rod, error))
    return FALSE;
  if (rod->big_bore >= rod->big_outer)
    return refuse (error, design, "the big-end bore is not smaller than its eye");
  if (rod->small_bore >= rod->small_outer)
    return refuse (error, design, "the small-end bore is not smaller than its eye");
  if (rod->centres <= (rod->big_outer + rod->small_outer) / 2)
    return refuse (error, design, "the two eyes overlap at this centre distance");
  return TRUE;
}

static gboolean
check_piston (const TgDesign *design, GError **error)
{
  const TgPistonDims *piston = &design->piston;

  if (!check_fields (design, "", piston_fields, G_N_ELEMENTS (piston_fields), piston, error))
    return FALSE;
  if (piston->pin >= piston->boss_outer)
    return refuse (error, design, "the pin bore is not smaller than its boss");
  if (piston->compression_height >= piston->height)
    return refuse (error, design, "the pin axis lies below the skirt");
  if (piston->crown >= piston->ring_belt || piston->ring_belt > piston->height)
    return refuse (error, design, "the ring belt does not lie between crown and skirt");
  if (piston->boss_gap >= piston->bore)
    return refuse (error, design, "the bosses stand wider apart than the piston");
  return TRUE;
}

static gboolean
check_zone (const TgDesign *design, const TgZone *zone, GError **error)
{
  g_autofree char *thing = g_strdup_printf (", zone “%s”", zone->id);

  if (!tg_storable_check (zone->name, TG_STORABLE_NAME, "name of a zone", error) ||
      !tg_storable_check (zone->reason, TG_STORABLE_TEXT, "reason of a zone", error))
    return FALSE;
  if (!check_fields (design, thing, zone_fields, G_N_ELEMENTS (zone_fields), zone, error))
    return FALSE;
  if (zone->capacity < 0 || zone->capacity > TG_MASS_MAX)
    return refuse (error, design, "a zone's capacity is out of range");
  if (tg_place_kind (zone->place) != design->kind)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "design “%s”%s: a %s has no place “%s”",
                   design->id, thing, tg_part_kind_to_word (design->kind),
                   tg_place_to_word (zone->place));
      return FALSE;
    }
  if (zone->standing != TG_STANDING_FREE && zone->reason[0] == '\0')
    return refuse (error, design, "a zone with care or never needs a reason");
  if (zone->standing == TG_STANDING_NEVER && zone->use == TG_USE_YES)
    return refuse (error, design, "a zone that is never ground cannot be opted in");
  if ((zone->place == TG_PLACE_CAP_PAD && design->rod.cap_pad <= 0) ||
      (zone->place == TG_PLACE_SMALL_END_PAD && design->rod.small_pad <= 0))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "design “%s”%s: this design has no such pad",
                   design->id, thing);
      return FALSE;
    }
  return TRUE;
}

gboolean
tg_design_check (const TgDesign *design, GError **error)
{
  if (!tg_storable_check (design->name, TG_STORABLE_NAME, "name of a design", error) ||
      !tg_storable_check (design->material, TG_STORABLE_NAME, "name of a material", error))
    return FALSE;
  if (!tg_part_kind_has_outline (design->kind))
    return design->zones->len == 0 || refuse (error, design, "only rods and pistons have zones");
  if (!isfinite (design->density) || design->density < 0.5 || design->density > 25)
    return refuse (error, design, "the density lies outside 0.5 to 25 g/cm³");
  if (design->zones->len > TG_DESIGN_MAX_ZONES)
    return refuse (error, design, "more than 16 zones");
  if (design->kind == TG_PART_ROD ? !check_rod (design, error) : !check_piston (design, error))
    return FALSE;
  if (design->zones->len > TG_DESIGN_MAX_ZONES)
    return refuse (error, design, "more than 16 zones");
  for (guint i = 0; i < design->zones->len; i++)
    {
      const TgZone *zone = tg_design_zone (design, i);
      guint first;

      if (!check_zone (design, zone, error))
        return FALSE;
      tg_design_find_zone (design, zone->id, &first);
      if (first != i)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE,
                       "design “%s”: two zones are called “%s”", design->id, zone->id);
          return FALSE;
        }
    }
  return TRUE;
}
