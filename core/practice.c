/* practice.c: what is said of a practice job, see practice.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice.h"

#include <string.h>

#include "error.h"
#include "number.h"
#include "storable.h"

#define AT(member) G_STRUCT_OFFSET (TgPractice, member)

static const TgField fields[] = {
  { "spread", "Spread of the parts", "g", 0, 20, AT (spread_g) },
  { "scatter", "Scatter from lay to lay", "g", 0, 5, AT (faults.scatter_g) },
  { "flicker", "Flicker of the display", "g", 0, 5, AT (faults.flicker_g) },
  { "drift", "Drift of the zero", "g", 0, 5, AT (faults.drift_g) },
  { "catch", "A bearing that catches", "g", 0, 20, AT (faults.catch_g) },
  { "catch-share", "Share of ends that catch", "", 0, 1, AT (faults.catch_share) },
  { "touch", "A rod that touches", "g", 0, 20, AT (faults.touch_g) },
  { "touch-share", "Share of lays that touch", "", 0, 1, AT (faults.touch_share) },
  { "hand", "Scatter of the hand", "", 0, 0.5, AT (faults.hand) },
  { "gain", "Adjustment of the scale", "", -0.01, 0.01, AT (faults.gain) },
};

void
tg_practice_init (TgPractice *practice)
{
  *practice = (TgPractice){ .seed = g_strdup (""), .lesson = g_strdup ("") };
}

void
tg_practice_clear (TgPractice *practice)
{
  g_clear_pointer (&practice->seed, g_free);
  g_clear_pointer (&practice->lesson, g_free);
}

void
tg_practice_copy (const TgPractice *from, TgPractice *to)
{
  tg_practice_clear (to);
  *to = *from;
  to->seed = g_strdup (from->seed);
  to->lesson = g_strdup (from->lesson);
}

void
tg_practice_set (TgPractice *practice, const char *seed)
{
  practice->on = TRUE;
  g_free (practice->seed);
  practice->seed = g_strdup (seed);
}

gboolean
tg_practice_equal (const TgPractice *a, const TgPractice *b)
{
  if (a->on != b->on || strcmp (a->seed, b->seed) != 0 || strcmp (a->lesson, b->lesson) != 0)
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (tg_field_get (&fields[i], a) != tg_field_get (&fields[i], b))
      return FALSE;
  return TRUE;
}

const TgField *
tg_practice_fields (guint *n)
{
  *n = G_N_ELEMENTS (fields);
  return fields;
}

double *
tg_practice_number (TgPractice *practice, const char *name)
{
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    if (strcmp (fields[i].name, name) == 0)
      return tg_field_ptr (&fields[i], practice);
  return NULL;
}

gboolean
tg_practice_check (const TgPractice *practice, GError **error)
{
  if (!practice->on)
    return TRUE;
  if (practice->seed[0] == '\0')
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_SYNTAX, "a practice job without a seed");
      return FALSE;
    }
  if (!tg_storable_check (practice->seed, TG_STORABLE_NAME, "seed of the practice", error) ||
      !tg_storable_check (practice->lesson, TG_STORABLE_ID, "name of the lesson", error))
    return FALSE;
  for (guint i = 0; i < G_N_ELEMENTS (fields); i++)
    {
      double value = tg_field_get (&fields[i], practice);
      g_autofree char *shown = NULL;
      g_autofree char *min = NULL;
      g_autofree char *max = NULL;

      if (value >= fields[i].min && value <= fields[i].max)
        continue;
      shown = tg_number_format_short (value);
      min = tg_number_format_short (fields[i].min);
      max = tg_number_format_short (fields[i].max);
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                   "“%s” of the practice is %s, possible is %s to %s", fields[i].name, shown, min,
                   max);
      return FALSE;
    }
  return TRUE;
}

/* -- how hard ------------------------------------------------------------------------------------ */

TgPracticeFaults
tg_practice_level_faults (TgPracticeLevel level, double step_g)
{
  TgPracticeFaults faults = { 0 };

  if (level == TG_PRACTICE_USUAL)
    faults = (TgPracticeFaults){ .scatter_g = 0.5 * step_g,
                                 .flicker_g = 0.2 * step_g,
                                 .drift_g = 0.1 * step_g,
                                 .catch_g = 8 * step_g,
                                 .catch_share = 0.1,
                                 .touch_g = 12 * step_g,
                                 .touch_share = 0.03,
                                 .hand = 0.12 };
  else if (level == TG_PRACTICE_STUBBORN)
    faults = (TgPracticeFaults){ .scatter_g = 0.8 * step_g,
                                 .flicker_g = 0.4 * step_g,
                                 .drift_g = 0.25 * step_g,
                                 .catch_g = 8 * step_g,
                                 .catch_share = 0.3,
                                 .touch_g = 12 * step_g,
                                 .touch_share = 0.12,
                                 .hand = 0.2,
                                 .gain = 0.0004 };
  return faults;
}

const char *
tg_practice_level_label (TgPracticeLevel level)
{
  static const char *const labels[TG_N_PRACTICE_LEVELS] = { "honest", "usual", "stubborn" };

  g_return_val_if_fail ((guint) level < TG_N_PRACTICE_LEVELS, NULL);

  return labels[level];
}

const char *
tg_practice_level_words (TgPracticeLevel level)
{
  static const char *const words[TG_N_PRACTICE_LEVELS] = {
    "The scale shows what is there, and a pass takes what it took before.",
    "Readings scatter, the zero creeps, a bearing catches now and then.",
    "The bearings catch often, rods touch the stand, the zero wanders, and no two passes are "
    "alike.",
  };

  g_return_val_if_fail ((guint) level < TG_N_PRACTICE_LEVELS, NULL);

  return words[level];
}
