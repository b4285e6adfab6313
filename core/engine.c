/* engine.c: what is said of a job's crank drive, see engine.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine.h"

#include <string.h>

#include "error.h"
#include "number.h"
#include "storable.h"

G_STATIC_ASSERT (TG_ENGINE_N_TEXTS == 3 + TG_N_FACINGS);

const char *const tg_engine_text_names[TG_ENGINE_N_TEXTS] = {
  "order", "numbering", "free", "piston-facing", "rod-facing", "clips-facing",
};

const char *const tg_engine_text_labels[TG_ENGINE_N_TEXTS] = {
  "Firing order",       "Cylinders along the crank", "Banks and throws",
  "Piston mark points", "Rod numbers point",         "Gap of the clips stands",
};

#define AT(member) G_STRUCT_OFFSET (TgEngine, member)

static const TgField fields[] = {
  { "bank-angle", "Angle between the banks", "°", 1, 180, AT (bank_angle_deg) },
  { "spacing", "Bore spacing", "mm", 0, 1000, AT (spacing_mm) },
  { "offset", "Offset of the banks", "mm", 0, 1000, AT (offset_mm) },
  { "stroke", "Stroke", "mm", 0, 1000, AT (stroke_mm) },
  { "rod-length", "Rod, centre to centre", "mm", 0, 2000, AT (rod_mm) },
  { "speed", "Highest speed", "1/min", 0, 50000, AT (speed_rpm) },
  { "oil", "Oil on each crankpin", "g", 0, 1000, AT (oil_g) },
  { "other-reciprocating", "Other parts with each piston", "g", 0, 10000,
    AT (other_reciprocating_g) },
  { "other-rotating", "Other parts with each big end", "g", 0, 10000, AT (other_rotating_g) },
  { "crank-mass", "Mass of the crankshaft", "kg", 0, 10000, AT (crank_kg) },
  { "grade", "Balance quality grade G", "mm/s", 0.4, 4000, AT (grade) },
  { "share", "Share of the layout’s own force", "%", 0.1, 100, AT (share_percent) },
};

void
tg_engine_init (TgEngine *engine)
{
  *engine = (TgEngine){ .bank_angle_deg = TG_ENGINE_BANK_DEG,
                        .factor_percent = TG_ENGINE_FACTOR_BY_LAYOUT,
                        .oil_g = TG_ENGINE_OIL_G,
                        .grade = 16,
                        .share_percent = 5 };
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    *tg_engine_text (engine, tg_engine_text_names[i]) = g_strdup ("");
}

void
tg_engine_clear (TgEngine *engine)
{
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    g_clear_pointer (tg_engine_text (engine, tg_engine_text_names[i]), g_free);
}

void
tg_engine_copy (const TgEngine *from, TgEngine *to)
{
  tg_engine_clear (to);
  *to = *from;
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    {
      char **text = tg_engine_text (to, tg_engine_text_names[i]);

      *text = g_strdup (*text);
    }
}

gboolean
tg_engine_equal (const TgEngine *a, const TgEngine *b)
{
  if (a->chosen != b->chosen || (a->chosen && a->kind != b->kind) ||
      a->split_pins != b->split_pins || a->factor_percent != b->factor_percent)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (*tg_field_ptr (&fields[i], (gpointer) a) != *tg_field_ptr (&fields[i], (gpointer) b))
      return FALSE;
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    if (strcmp (*tg_engine_text ((TgEngine *) a, tg_engine_text_names[i]),
                *tg_engine_text ((TgEngine *) b, tg_engine_text_names[i])) != 0)
      return FALSE;
  return TRUE;
}

const TgField *
tg_engine_fields (guint *n)
{
  *n = G_N_ELEMENTS (fields);
  return fields;
}

double *
tg_engine_number (TgEngine *engine, const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (strcmp (fields[i].name, name) == 0)
      return tg_field_ptr (&fields[i], engine);
  return strcmp (name, "factor") == 0 ? &engine->factor_percent : NULL;
}

gboolean
tg_engine_zero_is_unsaid (const char *name)
{
  static const char *const names[] = { "spacing", "offset",     "stroke", "rod-length",
                                       "speed",   "crank-mass", NULL };

  return g_strv_contains (names, name);
}

double
tg_engine_default (const TgField *field)
{
  TgEngine engine;
  double value;

  tg_engine_init (&engine);
  value = *tg_field_ptr (field, &engine);
  tg_engine_clear (&engine);
  return value;
}

char **
tg_engine_text (TgEngine *engine, const char *name)
{
  char **texts[TG_ENGINE_N_TEXTS] = { &engine->order, &engine->numbering, &engine->free };

  for (guint i = 0; i < TG_N_FACINGS; i++)
    texts[3 + i] = &engine->facing[i];
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    if (strcmp (tg_engine_text_names[i], name) == 0)
      return texts[i];
  return NULL;
}

/* -- cylinders by number ------------------------------------------------------------------------ */

gboolean
tg_engine_read_numbers (const char *text, guint n, guint *numbers, GError **error)
{
  g_auto (GStrv) words = g_strsplit (text, "-", (gint) n + 1);
  g_autofree char *shown = tg_storable_shorten (text);
  gboolean seen[TG_ENGINE_LAYOUT_MAX + 1] = { FALSE };
  guint read[TG_ENGINE_LAYOUT_MAX];

  g_return_val_if_fail (n >= 1 && n <= TG_ENGINE_LAYOUT_MAX, FALSE);

  for (guint i = 0; i < n; i++)
    {
      guint64 number;

      if (i >= g_strv_length (words) ||
          !g_ascii_string_to_unsigned (words[i], 10, 1, n, &number, NULL))
        {
          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                       "“%s” does not name the %u cylinders by number, with “-” between them",
                       shown, n);
          return FALSE;
        }
      if (seen[number])
        {
          g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "“%s” names cylinder %u twice", shown,
                       (guint) number);
          return FALSE;
        }
      seen[number] = TRUE;
      read[i] = (guint) number;
    }
  if (g_strv_length (words) > n)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "“%s” names more than %u cylinders", shown, n);
      return FALSE;
    }
  memcpy (numbers, read, n * sizeof *numbers);
  return TRUE;
}

/* -- free layouts ------------------------------------------------------------------------------- */

static gboolean
read_free_cylinder (const char *word, TgEngineCylinder *cylinder)
{
  g_auto (GStrv) numbers = g_strsplit (word, ":", 5);
  double read[3];
  guint64 pin;

  if (g_strv_length (numbers) != 4)
    return FALSE;
  for (guint i = 0; i < 3; i++)
    if (!tg_storable_parse_number (numbers[i], &read[i]))
      return FALSE;
  if (!g_ascii_string_to_unsigned (numbers[3], 10, 1, TG_ENGINE_LAYOUT_MAX, &pin, NULL))
    return FALSE;
  *cylinder = (TgEngineCylinder){ read[0], read[1], read[2], (guint) pin - 1 };
  return TRUE;
}

gboolean
tg_engine_read_free (const char *text, guint cylinders, TgEngineLayout *layout, GError **error)
{
  g_auto (GStrv) words = g_strsplit (text, " ", TG_ENGINE_LAYOUT_MAX + 1);
  TgEngineLayout read = { .n = cylinders };

  g_return_val_if_fail (cylinders >= 1 && cylinders <= TG_ENGINE_LAYOUT_MAX, FALSE);

  if (text[0] == '\0' || g_strv_length (words) != cylinders)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                   "a free layout describes each of the %u cylinders once, as "
                   "BANK:THROW:POSITION:PIN",
                   cylinders);
      return FALSE;
    }
  for (guint i = 0; i < cylinders; i++)
    {
      if (!read_free_cylinder (words[i], &read.cylinders[i]))
        {
          g_autofree char *shown = tg_storable_shorten (words[i]);

          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                       "“%s” does not describe a cylinder as BANK:THROW:POSITION:PIN", shown);
          return FALSE;
        }
      read.n_pins = MAX (read.n_pins, read.cylinders[i].pin + 1);
    }
  if (!tg_engine_layout_check (&read, error))
    return FALSE;
  *layout = read;
  return TRUE;
}

char *
tg_engine_format_free (const TgEngineLayout *layout)
{
  GString *text = g_string_new (NULL);

  for (guint i = 0; i < layout->n; i++)
    {
      const TgEngineCylinder *cylinder = &layout->cylinders[i];
      char bank[TG_STORABLE_NUMBER_SIZE], turn[TG_STORABLE_NUMBER_SIZE];
      char place[TG_STORABLE_NUMBER_SIZE];

      g_string_append_printf (
          text, "%s%s:%s:%s:%u", i ? " " : "", tg_storable_format_number (cylinder->bank_deg, bank),
          tg_storable_format_number (cylinder->throw_deg, turn),
          tg_storable_format_number (cylinder->position_mm, place), cylinder->pin + 1);
    }
  return g_string_free (text, FALSE);
}

/* -- what it must keep -------------------------------------------------------------------------- */

static gboolean
check_field (const TgField *field, double value, GError **error)
{
  g_autofree char *shown = NULL, *min = NULL, *max = NULL;

  if (value >= field->min && value <= field->max)
    return TRUE;
  shown = tg_number_format_short (value);
  min = tg_number_format_short (field->min);
  max = tg_number_format_short (field->max);
  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%s is %s %s, possible is %s to %s", field->label,
               shown, field->unit, min, max);
  return FALSE;
}

static gboolean
check_factor (double percent, GError **error)
{
  static const TgField field = { "factor", "Balance factor", "%", 0, 100, 0 };

  return percent == TG_ENGINE_FACTOR_BY_LAYOUT || check_field (&field, percent, error);
}

static gboolean
check_texts (const TgEngine *engine, GError **error)
{
  for (guint i = 0; i < TG_ENGINE_N_TEXTS; i++)
    {
      const char *text = *tg_engine_text ((TgEngine *) engine, tg_engine_text_names[i]);
      gboolean facing = i >= TG_ENGINE_N_TEXTS - TG_N_FACINGS;

      if (!tg_storable_check (text, facing ? TG_STORABLE_NAME : TG_STORABLE_TEXT,
                              tg_engine_text_labels[i], error))
        return FALSE;
      if (facing && strpbrk (text, "\n\t"))
        {
          g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "%s: one line only",
                       tg_engine_text_labels[i]);
          return FALSE;
        }
      if (facing && g_utf8_strlen (text, -1) > TG_ENGINE_MAX_FACING)
        {
          g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%s: no more than %d characters",
                       tg_engine_text_labels[i], TG_ENGINE_MAX_FACING);
          return FALSE;
        }
    }
  return TRUE;
}

gboolean
tg_engine_check (const TgEngine *engine, guint cylinders, GError **error)
{
  guint numbers[TG_ENGINE_LAYOUT_MAX];
  TgEngineLayout layout;

  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (!check_field (&fields[i], *tg_field_ptr (&fields[i], (gpointer) engine), error))
      return FALSE;
  if (!check_factor (engine->factor_percent, error) || !check_texts (engine, error))
    return FALSE;
  if (engine->chosen && !tg_engine_kind_fits (engine->kind, cylinders))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "an engine “%s” does not have %u cylinders",
                   tg_engine_kind_label (engine->kind), cylinders);
      return FALSE;
    }
  return (engine->order[0] == '\0' ||
          tg_engine_read_numbers (engine->order, cylinders, numbers, error)) &&
         (engine->numbering[0] == '\0' ||
          tg_engine_read_numbers (engine->numbering, cylinders, numbers, error)) &&
         (engine->free[0] == '\0' || tg_engine_read_free (engine->free, cylinders, &layout, error));
}
