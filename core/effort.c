/* effort.c: how long a pass was, as a person types it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Strokes are counted, time is kept in seconds and typed in minutes, as a clock on the bench shows it.
 */
#include "effort.h"

#include <string.h>

#include "error.h"
#include "storable.h"

#define MAX_DIGITS 7
#define MAX_DECIMALS 3

/* Reads digits, at least one and at most @most; NULL if there are none or too many. */
static const char *
read_digits (const char *text, guint most, guint64 *value, guint *n)
{
  *value = 0;
  for (*n = 0; g_ascii_isdigit (*text) && *n <= most; (*n)++)
    *value = *value * 10 + (guint64) (*text++ - '0');
  return *n >= 1 && *n <= most ? text : NULL;
}

/* Minutes with a decimal mark, or minutes and seconds, as seconds. */
static const char *
read_rest (const char *text, guint64 *seconds)
{
  guint64 rest;
  guint n;
  char mark = *text;

  *seconds *= 60;
  if (mark == ':')
    {
      text = read_digits (text + 1, 2, &rest, &n);
      if (!text || n != 2 || rest > 59)
        return NULL;
      *seconds += rest;
    }
  else if (mark == '.' || mark == ',')
    {
      text = read_digits (text + 1, MAX_DECIMALS, &rest, &n);
      for (; text && n < MAX_DECIMALS; n++)
        rest *= 10;
      *seconds += (rest * 60 + 500) / 1000;
    }
  return text;
}

static gboolean
refuse_form (TgEffort effort, const char *text, GError **error)
{
  g_autofree char *shown = tg_storable_shorten (text);

  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
               effort == TG_EFFORT_STROKES ? "“%s” is not a number of strokes."
                                           : "“%s” is not a time: 1.5 or 1:30 are a minute and a "
                                             "half.",
               shown);
  return FALSE;
}

gboolean
tg_effort_parse (TgEffort effort, const char *text, guint *count, GError **error)
{
  g_autofree char *typed = g_strstrip (g_strdup (text));
  guint64 value;
  guint n;
  const char *end;

  g_return_val_if_fail (effort == TG_EFFORT_STROKES || effort == TG_EFFORT_SECONDS, FALSE);

  end = read_digits (typed, MAX_DIGITS, &value, &n);
  if (end && effort == TG_EFFORT_SECONDS)
    end = read_rest (end, &value);
  if (!end || *end != '\0')
    return refuse_form (effort, text, error);
  if (value < 1 || value > TG_MAX_EFFORT)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_RANGE,
                   value < 1 ? "A pass of nothing cannot be: leave it empty if it was not counted."
                             : "A pass of that length cannot be.");
      return FALSE;
    }
  *count = (guint) value;
  return TRUE;
}

const char *
tg_effort_label (TgEffort effort)
{
  static const char *const labels[TG_N_EFFORTS] = { "", "strokes", "minutes" };

  g_return_val_if_fail ((guint) effort < TG_N_EFFORTS, NULL);

  return labels[effort];
}
