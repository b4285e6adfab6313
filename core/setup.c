/* setup.c: what a job starts from, see setup.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a setup must keep stands here; its values by their paths are in setup-set.c.
 */
#include "setup-private.h"

#include <math.h>
#include <string.h>

#include "error.h"
#include "storable.h"
#include "word.h"
#include "number.h"

TG_DEFINE_WORDS (TgLayout, layout, "inline", "vee", "boxer", "other")
TG_DEFINE_WORDS (TgFigure, figure, "small-end", "big-end", "whole")
TG_DEFINE_WORDS (TgBand, band, "rod-small", "rod-big", "piston", "piston-alone")
TG_DEFINE_WORDS (TgSharing, sharing, "own", "neighbours", "banks")
TG_DEFINE_WORDS (TgSmallEnds, small_ends, "no", "only", "both")

const TgField tg_setup_overshoot_field = {
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
  tg_engine_init (&setup->engine);
  tg_practice_init (&setup->practice);
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
  memcpy (copy->left_out, setup->left_out, sizeof setup->left_out);
  copy->small_ends = setup->small_ends;
  copy->pistons_alone = setup->pistons_alone;
  copy->sharing = setup->sharing;
  tg_engine_copy (&setup->engine, &copy->engine);
  tg_practice_copy (&setup->practice, &copy->practice);
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
      memcmp (a->left_out, b->left_out, sizeof a->left_out) != 0 ||
      a->small_ends != b->small_ends || a->sharing != b->sharing ||
      a->pistons_alone != b->pistons_alone || !tg_engine_equal (&a->engine, &b->engine) ||
      !tg_practice_equal (&a->practice, &b->practice) || a->designs->len != b->designs->len ||
      a->parts->len != b->parts->len)
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
  tg_engine_clear (&setup->engine);
  tg_practice_clear (&setup->practice);
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
tg_setup_add_set (TgSetup *setup, TgDesign *design, guint spares)
{
  static const char *const names[TG_N_PART_KINDS] = { "Rod",   "Piston", "Pin",
                                                      "Rings", "Clips",  "Bearings" };

  for (guint i = 1; i <= setup->cylinders + spares; i++)
    {
      g_autofree char *id = g_strdup_printf ("%s-%u", tg_part_kind_to_word (design->kind), i);
      g_autofree char *name = g_strdup_printf ("%s %u", names[design->kind], i);

      tg_setup_add_part (setup, id, name, design, i <= setup->cylinders ? i : 0);
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
               setup->parts->len, TG_MAX_PARTS);
  return FALSE;
}

static gboolean
check_parts (const TgSetup *setup, GError **error)
{
  g_autoptr (GHashTable) ids = g_hash_table_new (g_str_hash, g_str_equal);

  if (setup->parts->len > TG_MAX_PARTS)
    return refuse_parts (setup, error);
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      if (!check_id (part->id, "part", error) ||
          !tg_storable_check (part->name, TG_STORABLE_NAME, "name of a part", error))
        return FALSE;
      if (!g_hash_table_add (ids, part->id))
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "two parts are called “%s”", part->id);
          return FALSE;
        }
      if (part->bore > setup->cylinders)
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

gboolean
tg_setup_check_resolution (TgMass mass, GError **error)
{
  return check_range (error, "the step of the scale", mass, 1, 100 * TG_MASS_G);
}

gboolean
tg_setup_check_capacity (TgMass mass, GError **error)
{
  return mass == 0 ||
         check_range (error, "the capacity of the scale", mass, TG_MASS_G, TG_MASS_MAX);
}

gboolean
tg_setup_check_check_weight (TgMass mass, GError **error)
{
  return mass == 0 || check_range (error, "the check weight", mass, 1, TG_MASS_MAX);
}

gboolean
tg_setup_check_repeats (guint repeats, GError **error)
{
  if (repeats >= 1 && repeats <= TG_SETUP_MAX_REPEATS)
    return TRUE;
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%u readings of each; possible is 1 to %d", repeats,
               TG_SETUP_MAX_REPEATS);
  return FALSE;
}

gboolean
tg_setup_check_tolerance (TgBand band, TgMass mass, GError **error)
{
  g_autofree char *what = g_strdup_printf ("the tolerance of the %s", tg_band_label (band));

  return check_range (error, what, mass, 0, 1000 * TG_MASS_G);
}

static gboolean
check_scale (const TgSetup *setup, GError **error)
{
  if (!tg_setup_check_resolution (setup->resolution, error) ||
      !tg_setup_check_capacity (setup->capacity, error) ||
      !tg_storable_check (setup->scale, TG_STORABLE_NAME, "name of the scale", error) ||
      !tg_setup_check_check_weight (setup->check_weight, error) ||
      !tg_setup_check_repeats (setup->repeats, error))
    return FALSE;
  for (guint band = 0; band < TG_N_BANDS; band++)
    if (!tg_setup_check_tolerance (band, setup->tolerance[band], error))
      return FALSE;
  return TRUE;
}

static gboolean
check_overshoot (double percent, GError **error)
{
  g_autofree char *shown = NULL;

  if (percent >= tg_setup_overshoot_field.min && percent <= tg_setup_overshoot_field.max)
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
  if (setup->sharing != TG_SHARING_OWN && setup->cylinders % 2 != 0)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                   "two rods to a crankpin need an even number of cylinders, not %u",
                   setup->cylinders);
      return FALSE;
    }
  if (setup->pistons_alone && setup->small_ends == TG_SMALL_ENDS_SUM)
    {
      g_set_error_literal (
          error, TG_ERROR, TG_ERROR_RANGE,
          "small ends that are even in the sum only do not go with pistons that are "
          "even by themselves, too");
      return FALSE;
    }
  if (setup->practice.on && !g_str_has_prefix (setup->name, TG_PRACTICE_NAME))
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_RANGE,
                           "the name of a practice job begins with “" TG_PRACTICE_NAME "”");
      return FALSE;
    }
  return check_overshoot (setup->overshoot_percent, error) && check_scale (setup, error) &&
         tg_engine_check (&setup->engine, setup->cylinders, error) &&
         tg_practice_check (&setup->practice, error) && check_designs (setup, error) &&
         check_parts (setup, error);
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
  return band == TG_BAND_PISTON || band == TG_BAND_PISTON_ALONE ? TG_PART_PISTON : TG_PART_ROD;
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
    case TG_BAND_PISTON_ALONE:
    default:
      return TG_FIGURE_WHOLE;
    }
}

const char *
tg_figure_label (TgPartKind kind, TgFigure figure)
{
  static const char *const labels[TG_N_FIGURES] = { "small end", "big end", "whole" };

  g_return_val_if_fail ((guint) figure < TG_N_FIGURES, NULL);

  return kind != TG_PART_ROD ? "weight" : labels[figure];
}

const char *
tg_band_label (TgBand band)
{
  static const char *const labels[TG_N_BANDS] = { "small ends", "big ends", "pistons",
                                                  "pistons by themselves" };

  g_return_val_if_fail ((guint) band < TG_N_BANDS, NULL);

  return labels[band];
}
