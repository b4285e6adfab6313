/* setup-set.c: the values of a setup by their paths, see setup.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A refinement is applied to a copy of what it touches and checked there, so that a refused value
 * leaves no trace.
 */
#include <string.h>

#include "error.h"
#include "number.h"
#include "setup-private.h"
#include "storable.h"

typedef enum
{
  SPOT_TEXT,   /* text */
  SPOT_MASS,   /* mass */
  SPOT_NUMBER, /* number, field */
  SPOT_REPEATS,
  SPOT_CHECK_CLASS,
  SPOT_METAL,
  SPOT_USE,
  SPOT_IN_SUM, /* left_out */
  SPOT_SMALL_ENDS,
  SPOT_SHARING,
  SPOT_PISTONS,
  SPOT_ENGINE_KIND,
  SPOT_ENGINE_FACTOR,
  SPOT_ENGINE_SPLIT,
  SPOT_ENGINE_TEXT, /* text, of the engine */
} SpotKind;

/* Where a path leads inside one setup. */
typedef struct
{
  SpotKind kind;
  TgDesign *design;
  TgZone *zone;
  char **text;
  TgMass *mass;
  double *number;
  gboolean *left_out;
  const TgField *field;
  const char *label;
} Spot;

static const TgField density_field = { "density", "Density", "g/cm³",
                                       0.5,       25,        G_STRUCT_OFFSET (TgDesign, density) };

static gboolean
spot_field (Spot *spot, const TgField *fields, guint n, gpointer base, const char *name)
{
  for (guint i = 0; i < n; i++)
    if (strcmp (fields[i].name, name) == 0)
      {
        spot->kind = SPOT_NUMBER;
        spot->field = &fields[i];
        spot->number = tg_field_ptr (&fields[i], base);
        spot->label = fields[i].label;
        return TRUE;
      }
  return FALSE;
}

static gboolean
spot_zone (Spot *spot, const char *field)
{
  guint n;
  const TgField *fields = tg_design_zone_fields (&n);

  spot->kind = SPOT_USE;
  spot->label = "May be ground";
  if (strcmp (field, "use") == 0)
    return TRUE;
  if (strcmp (field, "capacity") == 0)
    {
      spot->kind = SPOT_MASS;
      spot->mass = &spot->zone->capacity;
      spot->label = "Most that may come off";
      return TRUE;
    }
  return spot_field (spot, fields, n, spot->zone, field);
}

static gboolean
spot_design (Spot *spot, const char *field)
{
  TgDesign *design = spot->design;
  guint n;
  const TgField *fields = design->kind == TG_PART_ROD ? tg_design_rod_fields (&n)
                                                      : tg_design_piston_fields (&n);
  gpointer base = design->kind == TG_PART_ROD ? (gpointer) &design->rod : &design->piston;

  if (!tg_part_kind_has_outline (design->kind))
    return FALSE;
  spot->kind = SPOT_TEXT;
  spot->text = &design->material;
  spot->label = "Material";
  if (strcmp (field, "material") == 0)
    return TRUE;
  spot->kind = SPOT_METAL;
  spot->label = "Metal";
  if (strcmp (field, "metal") == 0)
    return TRUE;
  return spot_field (spot, &density_field, 1, design, field) ||
         spot_field (spot, fields, n, base, field);
}

/* What is neither of a band nor of a design. */
static gboolean
spot_top (TgSetup *setup, const char *name, Spot *spot)
{
  const struct
  {
    const char *name;
    const char *label;
    SpotKind kind;
    char **text;
    TgMass *mass;
  } spots[] = {
    { "name", "Name of the job", SPOT_TEXT, &setup->name, NULL },
    { "resolution", "Step of the scale", SPOT_MASS, NULL, &setup->resolution },
    { "capacity", "Capacity of the scale", SPOT_MASS, NULL, &setup->capacity },
    { "scale", "Name of the scale", SPOT_TEXT, &setup->scale, NULL },
    { "check-weight", "Check weight", SPOT_MASS, NULL, &setup->check_weight },
    { "check-class", "Class of the check weight", SPOT_CHECK_CLASS, NULL, NULL },
    { "repeats", "Readings of each", SPOT_REPEATS, NULL, NULL },
    { "crankpins", "Rods on a crankpin", SPOT_SHARING, NULL, NULL },
  };

  for (guint i = 0; i < G_N_ELEMENTS (spots); i++)
    if (strcmp (name, spots[i].name) == 0)
      {
        spot->kind = spots[i].kind;
        spot->label = spots[i].label;
        spot->text = spots[i].text;
        spot->mass = spots[i].mass;
        return TRUE;
      }
  return spot_field (spot, &tg_setup_overshoot_field, 1, setup, name);
}

/* What is carried in a sum: "pin" … "bearings", "rod". */
static gboolean
spot_sum (TgSetup *setup, const char *name, Spot *spot)
{
  TgPartKind kind;

  if (!tg_part_kind_from_word (name, &kind))
    return FALSE;
  spot->design = NULL;
  spot->kind = kind == TG_PART_ROD      ? SPOT_SMALL_ENDS
               : kind == TG_PART_PISTON ? SPOT_PISTONS
                                        : SPOT_IN_SUM;
  spot->left_out = &setup->left_out[kind];
  return TRUE;
}

/* What is said of the crank drive. */
static gboolean
spot_engine (TgSetup *setup, const char *name, Spot *spot)
{
  static const struct
  {
    const char *name;
    const char *label;
    SpotKind kind;
  } spots[] = {
    { "kind", "Layout of the engine", SPOT_ENGINE_KIND },
    { "factor", "Balance factor", SPOT_ENGINE_FACTOR },
    { "split-pins", "Crankpins split for even firing", SPOT_ENGINE_SPLIT },
  };
  guint n;
  const TgField *fields = tg_engine_fields (&n);

  spot->design = NULL;
  for (guint i = 0; i < G_N_ELEMENTS (spots); i++)
    if (strcmp (name, spots[i].name) == 0)
      {
        spot->kind = spots[i].kind;
        spot->label = spots[i].label;
        return TRUE;
      }
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    if (strcmp (name, tg_engine_text_names[i]) == 0)
      {
        spot->kind = SPOT_ENGINE_TEXT;
        spot->label = tg_engine_text_labels[i];
        spot->text = tg_engine_text (&setup->engine, name);
        return TRUE;
      }
  return spot_field (spot, fields, n, &setup->engine, name);
}

static gboolean
spot_find (const TgSetup *setup, const char *path, Spot *spot)
{
  TgSetup *target = (TgSetup *) setup;
  g_auto (GStrv) steps = g_strsplit (path, ".", 4);
  guint n = g_strv_length (steps);
  TgBand band;

  memset (spot, 0, sizeof *spot);
  spot->kind = SPOT_MASS;
  if (n == 1)
    return spot_top (target, path, spot);
  if (n == 2 && strcmp (steps[0], "tolerance") == 0 && tg_band_from_word (steps[1], &band))
    {
      spot->mass = &target->tolerance[band];
      spot->label = "Tolerance";
      return TRUE;
    }
  if (n < 2 || n > 3)
    return FALSE;
  spot->design = tg_setup_find_design (target, steps[0]);
  /* a design may be called "sum" or "engine" */
  if (n == 2)
    return (spot->design && spot_design (spot, steps[1])) ||
           (strcmp (steps[0], "sum") == 0 && spot_sum (target, steps[1], spot)) ||
           (strcmp (steps[0], "engine") == 0 && spot_engine (target, steps[1], spot));
  if (!spot->design)
    return FALSE;
  spot->zone = tg_design_find_zone (spot->design, steps[1], NULL);
  return spot->zone != NULL && spot_zone (spot, steps[2]);
}

static gboolean
read_number (const char *value, const TgField *field, double *number, GError **error)
{
  double read;

  if (!tg_storable_parse_number (value, &read))
    {
      g_autofree char *shown = tg_storable_shorten (value);

      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not a number", shown);
      return FALSE;
    }
  if (read < field->min || read > field->max)
    {
      g_autofree char *shown = tg_number_format_short (read);
      g_autofree char *min = tg_number_format_short (field->min);
      g_autofree char *max = tg_number_format_short (field->max);

      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%s is %s%s%s, possible is %s to %s",
                   field->label, shown, field->unit[0] ? " " : "", field->unit, min, max);
      return FALSE;
    }
  *number = read;
  return TRUE;
}

static gboolean
read_repeats (const char *value, guint *repeats, GError **error)
{
  guint64 read;

  if (!g_ascii_string_to_unsigned (value, 10, 0, 999, &read, NULL))
    {
      g_autofree char *shown = tg_storable_shorten (value);

      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not a number of readings", shown);
      return FALSE;
    }
  if (!tg_setup_check_repeats ((guint) read, error))
    return FALSE;
  *repeats = (guint) read;
  return TRUE;
}

static gboolean
read_yes (const char *value, gboolean *yes)
{
  if (strcmp (value, "yes") != 0 && strcmp (value, "no") != 0)
    return FALSE;
  *yes = value[0] == 'y';
  return TRUE;
}

static gboolean
read_pistons (const char *value, gboolean *both)
{
  if (strcmp (value, "both") != 0 && strcmp (value, "only") != 0)
    return FALSE;
  *both = value[0] == 'b';
  return TRUE;
}

#define BY_LAYOUT "by-layout"

static gboolean
read_engine_kind (const char *value, TgEngine *engine)
{
  gboolean chosen = strcmp (value, BY_LAYOUT) != 0;

  if (chosen && !tg_engine_kind_from_word (value, &engine->kind))
    return FALSE;
  engine->chosen = chosen;
  return TRUE;
}

static gboolean
read_factor (const char *value, double *factor, GError **error)
{
  static const TgField field = { "factor", "Balance factor", "%", 0, 100, 0 };

  if (strcmp (value, BY_LAYOUT) != 0)
    return read_number (value, &field, factor, error);
  *factor = TG_ENGINE_FACTOR_BY_LAYOUT;
  return TRUE;
}

static gboolean
spot_write (TgSetup *setup, const Spot *spot, const char *value, GError **error)
{
  g_autofree char *shown = NULL;
  gboolean yes;

  switch (spot->kind)
    {
    case SPOT_TEXT:
    case SPOT_ENGINE_TEXT:
      g_free (*spot->text);
      *spot->text = g_strdup (value);
      return TRUE;
    case SPOT_REPEATS:
      return read_repeats (value, &setup->repeats, error);
    case SPOT_CHECK_CLASS:
      if (tg_check_weight_class_from_word (value, &setup->check_class))
        return TRUE;
      break;
    case SPOT_MASS:
      return tg_mass_parse (value, spot->mass, error);
    case SPOT_NUMBER:
      return read_number (value, spot->field, spot->number, error);
    case SPOT_METAL:
      if (tg_metal_from_word (value, &spot->design->metal))
        return TRUE;
      break;
    case SPOT_USE:
      if (tg_use_from_word (value, &spot->zone->use))
        return TRUE;
      break;
    case SPOT_IN_SUM:
      if (!read_yes (value, &yes))
        break;
      *spot->left_out = !yes;
      return TRUE;
    case SPOT_PISTONS:
      if (!read_pistons (value, &yes))
        break;
      setup->pistons_alone = yes;
      return TRUE;
    case SPOT_ENGINE_SPLIT:
      if (read_yes (value, &setup->engine.split_pins))
        return TRUE;
      break;
    case SPOT_ENGINE_FACTOR:
      return read_factor (value, &setup->engine.factor_percent, error);
    case SPOT_ENGINE_KIND:
      if (read_engine_kind (value, &setup->engine))
        return TRUE;
      break;
    case SPOT_SHARING:
      if (tg_sharing_from_word (value, &setup->sharing))
        return TRUE;
      break;
    case SPOT_SMALL_ENDS:
      if (tg_small_ends_from_word (value, &setup->small_ends))
        return TRUE;
      break;
    }
  shown = tg_storable_shorten (value);
  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not possible here", shown);
  return FALSE;
}

/* What an engine that is otherwise as in @setup would have @value do. */
static gboolean
check_engine_text (const TgSetup *setup, const char *path, const char *value, GError **error)
{
  TgEngine engine;
  char **text;
  gboolean possible;

  tg_engine_init (&engine);
  text = tg_engine_text (&engine, path + strlen ("engine."));
  g_free (*text);
  *text = g_strdup (value);
  possible = tg_engine_check (&engine, setup->cylinders, error);
  tg_engine_clear (&engine);
  return possible;
}

static gboolean
check_engine_kind (const TgSetup *setup, const char *value)
{
  TgEngine engine;

  return read_engine_kind (value, &engine) &&
         (!engine.chosen || tg_engine_kind_fits (engine.kind, setup->cylinders));
}

static gboolean
refuse_path (GError **error, const char *path)
{
  g_autofree char *shown = tg_storable_shorten (path);

  g_set_error (error, TG_ERROR, TG_ERROR_UNKNOWN, "this job has nothing called “%s”", shown);
  return FALSE;
}

static gboolean
check_mass_value (const TgSetup *setup, const Spot *spot, const char *value, GError **error)
{
  TgMass mass;

  if (!tg_mass_parse (value, &mass, error))
    return FALSE;
  if (spot->mass == &setup->resolution)
    return tg_setup_check_resolution (mass, error);
  if (spot->mass == &setup->capacity)
    return tg_setup_check_capacity (mass, error);
  if (spot->mass == &setup->check_weight)
    return tg_setup_check_check_weight (mass, error);
  for (guint band = 0; band < TG_N_BANDS; band++)
    if (spot->mass == &setup->tolerance[band])
      return tg_setup_check_tolerance (band, mass, error);
  return TRUE;
}

gboolean
tg_setup_check_value (const TgSetup *setup, const char *path, const char *value, GError **error)
{
  g_autofree char *shown = NULL;
  Spot spot;
  double number;
  guint repeats;
  TgCheckWeightClass check_class;
  TgMetal metal;
  TgUse use;
  gboolean yes;
  TgSmallEnds small_ends;
  TgSharing sharing;

  g_return_val_if_fail (setup && path && value, FALSE);

  if (!spot_find (setup, path, &spot))
    return refuse_path (error, path);
  switch (spot.kind)
    {
    case SPOT_TEXT:
      return tg_storable_check (value, TG_STORABLE_NAME, "name", error);
    case SPOT_ENGINE_TEXT:
      return check_engine_text (setup, path, value, error);
    case SPOT_ENGINE_KIND:
      if (check_engine_kind (setup, value))
        return TRUE;
      break;
    case SPOT_ENGINE_FACTOR:
      return read_factor (value, &number, error);
    case SPOT_ENGINE_SPLIT:
      if (read_yes (value, &yes))
        return TRUE;
      break;
    case SPOT_REPEATS:
      return read_repeats (value, &repeats, error);
    case SPOT_CHECK_CLASS:
      if (tg_check_weight_class_from_word (value, &check_class))
        return TRUE;
      break;
    case SPOT_MASS:
      return check_mass_value (setup, &spot, value, error);
    case SPOT_NUMBER:
      return read_number (value, spot.field, &number, error);
    case SPOT_METAL:
      if (tg_metal_from_word (value, &metal))
        return TRUE;
      break;
    case SPOT_USE:
      if (!tg_use_from_word (value, &use))
        break;
      if (use != TG_USE_YES || spot.zone->standing != TG_STANDING_NEVER)
        return TRUE;
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                   "zone “%s” is never ground and cannot be opted in", spot.zone->id);
      return FALSE;
    case SPOT_IN_SUM:
      if (read_yes (value, &yes))
        return TRUE;
      break;
    case SPOT_PISTONS:
      if (read_pistons (value, &yes))
        return TRUE;
      break;
    case SPOT_SHARING:
      if (tg_sharing_from_word (value, &sharing))
        return TRUE;
      break;
    case SPOT_SMALL_ENDS:
      if (tg_small_ends_from_word (value, &small_ends))
        return TRUE;
      break;
    }
  shown = tg_storable_shorten (value);
  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not possible here", shown);
  return FALSE;
}

/* A spot's value that can be put back. */
static char *
spot_read (const TgSetup *setup, const Spot *spot)
{
  char buffer[TG_STORABLE_NUMBER_SIZE];

  switch (spot->kind)
    {
    case SPOT_TEXT:
    case SPOT_ENGINE_TEXT:
      return g_strdup (*spot->text);
    case SPOT_ENGINE_KIND:
      return g_strdup (setup->engine.chosen ? tg_engine_kind_to_word (setup->engine.kind)
                                            : BY_LAYOUT);
    case SPOT_ENGINE_FACTOR:
      return g_strdup (setup->engine.factor_percent == TG_ENGINE_FACTOR_BY_LAYOUT
                           ? BY_LAYOUT
                           : tg_storable_format_number (setup->engine.factor_percent, buffer));
    case SPOT_ENGINE_SPLIT:
      return g_strdup (setup->engine.split_pins ? "yes" : "no");
    case SPOT_REPEATS:
      return g_strdup_printf ("%u", setup->repeats);
    case SPOT_CHECK_CLASS:
      return g_strdup (tg_check_weight_class_to_word (setup->check_class));
    case SPOT_MASS:
      return tg_mass_format_exact (*spot->mass);
    case SPOT_METAL:
      return g_strdup (tg_metal_to_word (spot->design->metal));
    case SPOT_USE:
      return g_strdup (tg_use_to_word (spot->zone->use));
    case SPOT_IN_SUM:
      return g_strdup (*spot->left_out ? "no" : "yes");
    case SPOT_PISTONS:
      return g_strdup (setup->pistons_alone ? "both" : "only");
    case SPOT_SHARING:
      return g_strdup (tg_sharing_to_word (setup->sharing));
    case SPOT_SMALL_ENDS:
      return g_strdup (tg_small_ends_to_word (setup->small_ends));
    case SPOT_NUMBER:
    default:
      return g_strdup (tg_storable_format_number (*spot->number, buffer));
    }
}

gboolean
tg_setup_set (TgSetup *setup, const char *path, const char *value, GError **error)
{
  Spot spot;
  g_autofree char *before = NULL;

  g_return_val_if_fail (setup && path && value, FALSE);

  if (!spot_find (setup, path, &spot))
    return refuse_path (error, path);
  before = spot_read (setup, &spot);
  if (!spot_write (setup, &spot, value, error))
    return FALSE;
  if (tg_setup_check (setup, error))
    return TRUE;
  spot_write (setup, &spot, before, NULL);
  return FALSE;
}

char *
tg_setup_get (const TgSetup *setup, const char *path)
{
  Spot spot;

  return spot_find (setup, path, &spot) ? spot_read (setup, &spot) : NULL;
}

/* (nullable): of the number that stands at @spot */
static const char *
spot_unit (const Spot *spot)
{
  if (spot->kind == SPOT_MASS)
    return "g";
  if (spot->kind == SPOT_ENGINE_FACTOR)
    return "%";
  return spot->field && spot->field->unit[0] ? spot->field->unit : NULL;
}

char *
tg_setup_name (const TgSetup *setup, const char *path, const char **unit)
{
  Spot spot;
  TgBand band;
  TgPartKind kind;

  *unit = NULL;
  if (!spot_find (setup, path, &spot))
    return g_strdup (path);
  *unit = spot_unit (&spot);
  if (!spot.design && g_str_has_prefix (path, "tolerance.") && tg_band_from_word (path + 10, &band))
    return g_strdup_printf ("Tolerance of the %s", tg_setup_band_label (setup, band));
  if (spot.kind == SPOT_PISTONS)
    return g_strdup ("Pistons by themselves and in the sum");
  if (spot.kind == SPOT_SMALL_ENDS)
    return g_strdup ("Small ends in the sum with their pistons");
  if (spot.kind == SPOT_IN_SUM && tg_part_kind_from_word (path + 4, &kind))
    return g_strdup_printf ("%s in the sum", kind == TG_PART_PIN     ? "Pins"
                                             : kind == TG_PART_RINGS ? "Ring packs"
                                             : kind == TG_PART_CLIPS ? "Clip pairs"
                                                                     : "Bearing pairs");
  return g_strdup_printf ("%s%s%s%s%s", spot.design ? spot.design->name : "",
                          spot.design ? ": " : "", spot.zone ? spot.zone->name : "",
                          spot.zone ? ": " : "", spot.label);
}

char *
tg_setup_describe (const TgSetup *setup, const char *path)
{
  const char *unit;
  g_autofree char *name = tg_setup_name (setup, path, &unit);

  return unit ? g_strdup_printf ("%s, %s", name, unit) : g_steal_pointer (&name);
}
