/* mass.c: parse and print masses, see mass.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Typed readings are read digit by digit, because strtod would take exponents, hexadecimals and
 * infinities, and because a person's "12..4" must be asked about and not half understood.
 */
#include "mass.h"

#include <math.h>
#include <string.h>

#include "error.h"
#include "storable.h"

static gboolean
fail (GError **error, int code, const char *what, const char *text)
{
  g_autofree char *shown = tg_storable_shorten (text);

  g_set_error (error, TG_ERROR, code, "“%s” %s", shown, what);
  return FALSE;
}

#define MINUS "\u2212"

/* Steps over a sign; -1 for a minus. */
static int
take_sign (const char **text, gboolean plus)
{
  if (g_str_has_prefix (*text, MINUS))
    {
      *text += strlen (MINUS);
      return -1;
    }
  if (**text == '-' || (plus && **text == '+'))
    return *(*text)++ == '-' ? -1 : 1;
  return 1;
}

static gboolean
parse (const char *text, gboolean below_zero, TgMass *mass, GError **error)
{
  const char *p = text + strspn (text, " \t");
  TgMass value = 0;
  guint digits = 0, decimals = 0;
  gboolean point = FALSE;
  int sign = take_sign (&p, below_zero);

  for (; g_ascii_isdigit (*p) || ((*p == '.' || *p == ',') && !point); p++)
    {
      if (!g_ascii_isdigit (*p))
        {
          point = TRUE;
          continue;
        }
      digits++;
      if (point && ++decimals > 3)
        return fail (error, TG_ERROR_SYNTAX, "is finer than a milligram", text);
      value = value * 10 + (*p - '0');
      if (value > TG_MASS_MAX)
        return fail (error, TG_ERROR_RANGE, "is heavier than any part of an engine", text);
    }
  p += strspn (p, " \t");
  if (*p == 'g')
    p++;
  p += strspn (p, " \t");
  if (*p != '\0' || digits == 0)
    return fail (error, TG_ERROR_SYNTAX, "is not a weight in grams", text);
  for (; decimals < 3; decimals++)
    value *= 10;
  if (value > TG_MASS_MAX)
    return fail (error, TG_ERROR_RANGE, "is heavier than any part of an engine", text);
  if (sign < 0 && value != 0 && !below_zero)
    return fail (error, TG_ERROR_RANGE, "is below zero", text);

  *mass = sign * value;
  return TRUE;
}

gboolean
tg_mass_parse (const char *text, TgMass *mass, GError **error)
{
  g_return_val_if_fail (text != NULL && mass != NULL, FALSE);

  return parse (text, FALSE, mass, error);
}

gboolean
tg_mass_parse_signed (const char *text, TgMass *mass, GError **error)
{
  g_return_val_if_fail (text != NULL && mass != NULL, FALSE);

  return parse (text, TRUE, mass, error);
}

char *
tg_mass_format (TgMass mass, guint decimals)
{
  static const TgMass scale[] = { 1000, 100, 10, 1 };
  static const TgMass power[] = { 1, 10, 100, 1000 };
  TgMass size, units;

  g_return_val_if_fail (decimals <= 3, NULL);

  size = ABS (mass);
  units = (size + scale[decimals] / 2) / scale[decimals];
  if (decimals == 0)
    return g_strdup_printf ("%s%" G_GINT64_FORMAT, mass < 0 && units ? "-" : "", units);
  return g_strdup_printf ("%s%" G_GINT64_FORMAT ".%0*" G_GINT64_FORMAT,
                          mass < 0 && units ? "-" : "", units / power[decimals], (int) decimals,
                          units % power[decimals]);
}

char *
tg_mass_format_exact (TgMass mass)
{
  return tg_mass_format (mass, tg_mass_decimals (mass));
}

guint
tg_mass_decimals (TgMass resolution)
{
  if (resolution % 1000 == 0)
    return 0;
  if (resolution % 100 == 0)
    return 1;
  return resolution % 10 == 0 ? 2 : 3;
}

TgMass
tg_mass_from_g (double grams)
{
  g_return_val_if_fail (isfinite (grams) && fabs (grams) <= tg_mass_to_g (TG_MASS_MAX), 0);

  return llround (grams * 1000.0);
}
