/* setup.c: what a job starts from, see setup.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A refinement is applied to a copy of what it touches and checked there, so that a refused value
 * leaves no trace.
 */
#include "setup.h"

#include <math.h>
#include <string.h>

#include "error.h"
#include "storable.h"
#include "word.h"
#include "number.h"

TG_DEFINE_WORDS (TgLayout, layout, "inline", "vee", "boxer", "other")
TG_DEFINE_WORDS (TgFigure, figure, "small-end", "big-end", "whole")
TG_DEFINE_WORDS (TgBand, band, "rod-small", "rod-big", "piston")

static const TgField overshoot_field = {
  "overshoot", "Chance of an overshoot", "%", 0.1, 20, G_STRUCT_OFFSET (TgSetup, overshoot_percent)
};

static void
part_free (TgPart *part)
{
  g_free (part->id);
  g_free (part->name);
  g_free (part);
}

TgSetup *
tg_setup_new (void)
{
  TgSetup *setup = g_new0 (TgSetup, 1);

  setup->name = g_strdup ("");
  setup->scale = g_strdup ("");
  setup->check_class = TG_CHECK_WEIGHT_M1;
  setup->repeats = TG_SETUP_REPEATS;
  setup->overshoot_percent = TG_SETUP_OVERSHOOT_PERCENT;
  setup->designs = g_ptr_array_new_with_free_func ((GDestroyNotify) tg_design_free);
  setup->parts = g_ptr_array_new_with_free_func ((GDestroyNotify) part_free);
  return setup;
}

TgSetup *
tg_setup_copy (const TgSetup *setup)
{
  TgSetup *copy = tg_setup_new ();

  g_free (copy->name);
  copy->name = g_strdup (setup->name);
  copy->layout = setup->layout;
  copy->cylinders = setup->cylinders;
  copy->resolution = setup->resolution;
  copy->capacity = setup->capacity;
  g_free (copy->scale);
  copy->scale = g_strdup (setup->scale);
  copy->check_weight = setup->check_weight;
  copy->check_class = setup->check_class;
  copy->repeats = setup->repeats;
  copy->overshoot_percent = setup->overshoot_percent;
  memcpy (copy->tolerance, setup->tolerance, sizeof setup->tolerance);
  for (guint i = 0; i < setup->designs->len; i++)
    tg_setup_add_design (copy, tg_design_copy (g_ptr_array_index (setup->designs, i)));
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      tg_setup_add_part (copy, part->id, part->name, tg_setup_find_design (copy, part->design->id),
                         part->bore);
    }
  return copy;
}

static gboolean
same_scale (const TgSetup *a, const TgSetup *b)
{
  return a->resolution == b->resolution && a->capacity == b->capacity &&
         strcmp (a->scale, b->scale) == 0 && a->check_weight == b->check_weight &&
         a->check_class == b->check_class && a->repeats == b->repeats &&
         a->overshoot_percent == b->overshoot_percent;
}

gboolean
tg_setup_equal (const TgSetup *a, const TgSetup *b)
{
  if (strcmp (a->name, b->name) != 0 || a->layout != b->layout || a->cylinders != b->cylinders ||
      !same_scale (a, b) || memcmp (a->tolerance, b->tolerance, sizeof a->tolerance) != 0 ||
      a->designs->len != b->designs->len || a->parts->len != b->parts->len)
    return FALSE;
  for (guint i = 0; i < a->designs->len; i++)
    if (!tg_design_equal (g_ptr_array_index (a->designs, i), g_ptr_array_index (b->designs, i)))
      return FALSE;
  for (guint i = 0; i < a->parts->len; i++)
    {
      const TgPart *x = tg_setup_part (a, i), *y = tg_setup_part (b, i);

      if (strcmp (x->id, y->id) != 0 || strcmp (x->name, y->name) != 0 || x->bore != y->bore ||
          strcmp (x->design->id, y->design->id) != 0)
        return FALSE;
    }
  return TRUE;
}

void
tg_setup_free (TgSetup *setup)
{
  g_free (setup->name);
  g_free (setup->scale);
  g_ptr_array_unref (setup->parts);
  g_ptr_array_unref (setup->designs);
  g_free (setup);
}

void
tg_setup_add_design (TgSetup *setup, TgDesign *design)
{
  g_ptr_array_add (setup->designs, design);
}

TgPart *
tg_setup_add_part (TgSetup *setup, const char *id, const char *name, TgDesign *design, guint bore)
{
  TgPart *part = g_new0 (TgPart, 1);

  part->id = g_strdup (id);
  part->name = g_strdup (name);
  part->design = design;
  part->bore = bore;
  g_ptr_array_add (setup->parts, part);
  return part;
}

void
tg_setup_add_set (TgSetup *setup, TgDesign *design)
{
  gboolean rod = design->kind == TG_PART_ROD;

  for (guint bore = 1; bore <= setup->cylinders; bore++)
    {
      g_autofree char *id = g_strdup_printf ("%s-%u", rod ? "rod" : "piston", bore);
      g_autofree char *name = g_strdup_printf ("%s %u", rod ? "Rod" : "Piston", bore);

      tg_setup_add_part (setup, id, name, design, bore);
    }
}

TgDesign *
tg_setup_find_design (const TgSetup *setup, const char *id)
{
  for (guint i = 0; i < setup->designs->len; i++)
    {
      TgDesign *design = g_ptr_array_index (setup->designs, i);

      if (strcmp (design->id, id) == 0)
        return design;
    }
  return NULL;
}

TgPart *
tg_setup_find_part (const TgSetup *setup, const char *id, guint *index)
{
  for (guint i = 0; i < setup->parts->len; i++)
    {
      TgPart *part = tg_setup_part (setup, i);

      if (strcmp (part->id, id) == 0)
        {
          if (index)
            *index = i;
          return part;
        }
    }
  return NULL;
}

gboolean
tg_setup_has_kind (const TgSetup *setup, TgPartKind kind)
{
  for (guint i = 0; i < setup->parts->len; i++)
    if (tg_setup_part (setup, i)->design->kind == kind)
      return TRUE;
  return FALSE;
}

static gboolean
check_range (GError **error, const char *what, TgMass mass, TgMass min, TgMass max)
{
  g_autofree char *shown = NULL, *from = NULL, *to = NULL;

  if (mass >= min && mass <= max)
    return TRUE;
  shown = tg_mass_format_exact (mass);
  from = tg_mass_format_exact (min);
  to = tg_mass_format_exact (max);
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%s is %s g, possible is %s to %s g", what, shown,
               from, to);
  return FALSE;
}

static gboolean
check_id (const char *id, const char *what, GError **error)
{
  g_autofree char *shown = NULL;

  if (id[0] != '\0' && !strpbrk (id, ".\t\n\r") &&
      tg_storable_check (id, TG_STORABLE_ID, "identifier", NULL))
    return TRUE;
  shown = tg_storable_shorten (id);
  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” cannot be the identifier of a %s", shown,
               what);
  return FALSE;
}

static gboolean
refuse_parts (const TgSetup *setup, GError **error)
{
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "the job has %u parts, possible is 1 to %d",
               setup->parts->len, 2 * TG_MAX_CYLINDERS);
  return FALSE;
}

static gboolean
check_parts (const TgSetup *setup, GError **error)
{
  if (setup->parts->len > 2 * TG_MAX_CYLINDERS)
    return refuse_parts (setup, error);
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);
      guint first;

      if (!check_id (part->id, "part", error) ||
          !tg_storable_check (part->name, TG_STORABLE_NAME, "name of a part", error))
        return FALSE;
      tg_setup_find_part (setup, part->id, &first);
      if (first != i)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "two parts are called “%s”", part->id);
          return FALSE;
        }
      if (part->bore < 1 || part->bore > setup->cylinders)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                       "part “%s” belongs to bore %u of %u cylinders", part->id, part->bore,
                       setup->cylinders);
          return FALSE;
        }
    }
  return TRUE;
}

static gboolean
check_designs (const TgSetup *setup, GError **error)
{
  if (setup->designs->len > 2 * TG_MAX_CYLINDERS)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "the job has %u designs, possible is up to %d",
                   setup->designs->len, 2 * TG_MAX_CYLINDERS);
      return FALSE;
    }
  for (guint i = 0; i < setup->designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (setup->designs, i);

      if (!check_id (design->id, "design", error) || !tg_design_check (design, error))
        return FALSE;
      if (tg_setup_find_design (setup, design->id) != design)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "two designs are called “%s”",
                       design->id);
          return FALSE;
        }
      for (guint j = 0; j < design->zones->len; j++)
        if (!check_id (tg_design_zone (design, j)->id, "zone", error))
          return FALSE;
    }
  return TRUE;
}

static gboolean
check_resolution (TgMass mass, GError **error)
{
  return check_range (error, "the step of the scale", mass, 1, 100 * TG_MASS_G);
}

static gboolean
check_capacity (TgMass mass, GError **error)
{
  return mass == 0 ||
         check_range (error, "the capacity of the scale", mass, TG_MASS_G, TG_MASS_MAX);
}

static gboolean
check_check_weight (TgMass mass, GError **error)
{
  return mass == 0 || check_range (error, "the check weight", mass, 1, TG_MASS_MAX);
}

static gboolean
check_repeats (guint repeats, GError **error)
{
  if (repeats >= 1 && repeats <= TG_SETUP_MAX_REPEATS)
    return TRUE;
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%u readings of each; possible is 1 to %d", repeats,
               TG_SETUP_MAX_REPEATS);
  return FALSE;
}

static gboolean
check_tolerance (TgBand band, TgMass mass, GError **error)
{
  g_autofree char *what = g_strdup_printf ("the tolerance of the %s", tg_band_label (band));

  return check_range (error, what, mass, 0, 1000 * TG_MASS_G);
}

static gboolean
check_scale (const TgSetup *setup, GError **error)
{
  if (!check_resolution (setup->resolution, error) || !check_capacity (setup->capacity, error) ||
      !tg_storable_check (setup->scale, TG_STORABLE_NAME, "name of the scale", error) ||
      !check_check_weight (setup->check_weight, error) || !check_repeats (setup->repeats, error))
    return FALSE;
  for (guint band = 0; band < TG_N_BANDS; band++)
    if (!check_tolerance (band, setup->tolerance[band], error))
      return FALSE;
  return TRUE;
}

static gboolean
check_overshoot (double percent, GError **error)
{
  g_autofree char *shown = NULL;

  if (percent >= overshoot_field.min && percent <= overshoot_field.max)
    return TRUE;
  shown = tg_number_format_short (percent);
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
               "a chance of an overshoot of %s %%; possible is 0.1 to 20", shown);
  return FALSE;
}

gboolean
tg_setup_check_so_far (const TgSetup *setup, GError **error)
{
  if (!tg_storable_check (setup->name, TG_STORABLE_NAME, "name of the job", error))
    return FALSE;
  if (setup->cylinders < 1 || setup->cylinders > TG_MAX_CYLINDERS)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%u cylinders; possible is 1 to %d",
                   setup->cylinders, TG_MAX_CYLINDERS);
      return FALSE;
    }
  return check_overshoot (setup->overshoot_percent, error) && check_scale (setup, error) &&
         check_designs (setup, error) && check_parts (setup, error);
}

gboolean
tg_setup_check (const TgSetup *setup, GError **error)
{
  if (!tg_setup_check_so_far (setup, error))
    return FALSE;
  return setup->parts->len > 0 || refuse_parts (setup, error);
}

gboolean
tg_band_of (TgPartKind kind, TgFigure figure, TgBand *band)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (tg_band_kind (b) == kind && tg_band_figure (b) == figure)
      {
        *band = b;
        return TRUE;
      }
  return FALSE;
}

TgPartKind
tg_band_kind (TgBand band)
{
  return band == TG_BAND_PISTON ? TG_PART_PISTON : TG_PART_ROD;
}

TgFigure
tg_band_figure (TgBand band)
{
  switch (band)
    {
    case TG_BAND_ROD_SMALL:
      return TG_FIGURE_SMALL_END;
    case TG_BAND_ROD_BIG:
      return TG_FIGURE_BIG_END;
    case TG_BAND_PISTON:
    default:
      return TG_FIGURE_WHOLE;
    }
}

const char *
tg_figure_label (TgPartKind kind, TgFigure figure)
{
  static const char *const labels[TG_N_FIGURES] = { "small end", "big end", "whole" };

  g_return_val_if_fail ((guint) figure < TG_N_FIGURES, NULL);

  return kind == TG_PART_PISTON ? "weight" : labels[figure];
}

const char *
tg_band_label (TgBand band)
{
  static const char *const labels[TG_N_BANDS] = { "small ends", "big ends", "pistons" };

  g_return_val_if_fail ((guint) band < TG_N_BANDS, NULL);

  return labels[band];
}

/* -- values by path -------------------------------------------------------------------------- */

typedef enum
{
  SPOT_TEXT,   /* text */
  SPOT_MASS,   /* mass */
  SPOT_NUMBER, /* number, field */
  SPOT_REPEATS,
  SPOT_CHECK_CLASS,
  SPOT_METAL,
  SPOT_USE,
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
      spot->label = "Most that may come off, g";
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
    { "resolution", "Step of the scale, g", SPOT_MASS, NULL, &setup->resolution },
    { "capacity", "Capacity of the scale, g", SPOT_MASS, NULL, &setup->capacity },
    { "scale", "Name of the scale", SPOT_TEXT, &setup->scale, NULL },
    { "check-weight", "Check weight, g", SPOT_MASS, NULL, &setup->check_weight },
    { "check-class", "Class of the check weight", SPOT_CHECK_CLASS, NULL, NULL },
    { "repeats", "Readings of each", SPOT_REPEATS, NULL, NULL },
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
  return spot_field (spot, &overshoot_field, 1, setup, name);
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
      spot->label = "Tolerance, g";
      return TRUE;
    }
  if (n < 2 || n > 3 || !(spot->design = tg_setup_find_design (target, steps[0])))
    return FALSE;
  if (n == 2)
    return spot_design (spot, steps[1]);
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
  if (!check_repeats ((guint) read, error))
    return FALSE;
  *repeats = (guint) read;
  return TRUE;
}

static gboolean
spot_write (TgSetup *setup, const Spot *spot, const char *value, GError **error)
{
  g_autofree char *shown = NULL;

  switch (spot->kind)
    {
    case SPOT_TEXT:
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
    }
  shown = tg_storable_shorten (value);
  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” is not possible here", shown);
  return FALSE;
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
    return check_resolution (mass, error);
  if (spot->mass == &setup->capacity)
    return check_capacity (mass, error);
  if (spot->mass == &setup->check_weight)
    return check_check_weight (mass, error);
  for (guint band = 0; band < TG_N_BANDS; band++)
    if (spot->mass == &setup->tolerance[band])
      return check_tolerance (band, mass, error);
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

  g_return_val_if_fail (setup && path && value, FALSE);

  if (!spot_find (setup, path, &spot))
    return refuse_path (error, path);
  switch (spot.kind)
    {
    case SPOT_TEXT:
      return tg_storable_check (value, TG_STORABLE_NAME, "name", error);
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
      return g_strdup (*spot->text);
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

char *
tg_setup_describe (const TgSetup *setup, const char *path)
{
  Spot spot;
  const char *unit;

  if (!spot_find (setup, path, &spot))
    return g_strdup (path);
  unit = spot.field && spot.field->unit[0] ? spot.field->unit : NULL;
  if (!spot.design && g_str_has_prefix (path, "tolerance."))
    return g_strdup_printf ("Tolerance of the %s, g",
                            tg_band_label (tg_word_find (band_words, TG_N_BANDS, path + 10)));
  return g_strdup_printf ("%s%s%s%s%s%s%s", spot.design ? spot.design->name : "",
                          spot.design ? ": " : "", spot.zone ? spot.zone->name : "",
                          spot.zone ? ": " : "", spot.label, unit ? ", " : "", unit ? unit : "");
}
