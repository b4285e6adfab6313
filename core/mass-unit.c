/* mass-unit.c: units of weight, see mass-unit.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Factors are whole numbers of 10^-6 mg, which every unit here is a whole multiple of, so
 * that a reading in ounces becomes the same milligrams on every machine.
 */
#include "mass-unit.h"

#include <string.h>

#include "word.h"

#define NANO_PER_MG 1000000

/* in 10^-6 mg */
static const gint64 factors[TG_N_MASS_UNITS] = {
  [TG_MASS_UNIT_G] = G_GINT64_CONSTANT (1000000000),
  [TG_MASS_UNIT_KG] = G_GINT64_CONSTANT (1000000000000),
  [TG_MASS_UNIT_MG] = G_GINT64_CONSTANT (1000000),
  [TG_MASS_UNIT_LB] = G_GINT64_CONSTANT (453592370000),
  [TG_MASS_UNIT_OZ] = G_GINT64_CONSTANT (28349523125),
  [TG_MASS_UNIT_GRAIN] = G_GINT64_CONSTANT (64798910),
  [TG_MASS_UNIT_CARAT] = G_GINT64_CONSTANT (200000000),
  [TG_MASS_UNIT_TROY_OZ] = G_GINT64_CONSTANT (31103476800),
  [TG_MASS_UNIT_DWT] = G_GINT64_CONSTANT (1555173840),
};

TG_DEFINE_WORDS (TgMassUnit, mass_unit, "g", "kg", "mg", "lb", "oz", "gr", "ct", "ozt", "dwt")

gboolean
tg_mass_unit_find (const char *text, gsize length, TgMassUnit *unit)
{
  static const struct
  {
    const char *word;
    TgMassUnit unit;
  } also[] = {
    { "gram", TG_MASS_UNIT_G },        { "grams", TG_MASS_UNIT_G },
    { "gm", TG_MASS_UNIT_G },          { "gms", TG_MASS_UNIT_G },
    { "kgs", TG_MASS_UNIT_KG },        { "kilogram", TG_MASS_UNIT_KG },
    { "kilograms", TG_MASS_UNIT_KG },  { "milligram", TG_MASS_UNIT_MG },
    { "milligrams", TG_MASS_UNIT_MG }, { "lbs", TG_MASS_UNIT_LB },
    { "pound", TG_MASS_UNIT_LB },      { "pounds", TG_MASS_UNIT_LB },
    { "ounce", TG_MASS_UNIT_OZ },      { "ounces", TG_MASS_UNIT_OZ },
    { "gn", TG_MASS_UNIT_GRAIN },      { "grn", TG_MASS_UNIT_GRAIN },
    { "grain", TG_MASS_UNIT_GRAIN },   { "grains", TG_MASS_UNIT_GRAIN },
    { "carat", TG_MASS_UNIT_CARAT },   { "carats", TG_MASS_UNIT_CARAT },
    { "tozt", TG_MASS_UNIT_TROY_OZ },
  };

  for (guint i = 0; i < TG_N_MASS_UNITS; i++)
    if (strlen (mass_unit_words[i]) == length &&
        g_ascii_strncasecmp (mass_unit_words[i], text, length) == 0)
      {
        *unit = (TgMassUnit) i;
        return TRUE;
      }
  for (guint i = 0; i < G_N_ELEMENTS (also); i++)
    if (strlen (also[i].word) == length && g_ascii_strncasecmp (also[i].word, text, length) == 0)
      {
        *unit = also[i].unit;
        return TRUE;
      }
  return FALSE;
}

TgMassUnitResult
tg_mass_unit_read (const char *text, gsize length, char mark, TgMassUnit unit, TgMass *mass)
{
  const gint64 most = TG_MASS_MAX * NANO_PER_MG;
  gint64 whole = 0, fraction = 0, power = 1, total;
  gsize i = 0;

  g_return_val_if_fail ((guint) unit < TG_N_MASS_UNITS, TG_MASS_UNIT_NO_NUMBER);

  for (; i < length && g_ascii_isdigit (text[i]); i++)
    whole = MIN (whole * 10 + (text[i] - '0'), most);
  if (i == 0)
    return TG_MASS_UNIT_NO_NUMBER;
  if (i < length)
    {
      if (text[i] != mark || i + 1 == length || length - i - 1 > 6)
        return TG_MASS_UNIT_NO_NUMBER;
      for (i++; i < length && g_ascii_isdigit (text[i]); i++, power *= 10)
        fraction = fraction * 10 + (text[i] - '0');
      if (i < length)
        return TG_MASS_UNIT_NO_NUMBER;
    }
  /* fraction < 10^6 and a factor is at most 10^12, whole × factor at most 10^14: no overflow */
  if (whole > most / factors[unit])
    return TG_MASS_UNIT_TOO_HEAVY;
  total = whole * factors[unit] + fraction * factors[unit] / power;
  total = (total + NANO_PER_MG / 2) / NANO_PER_MG;
  if (total > TG_MASS_MAX)
    return TG_MASS_UNIT_TOO_HEAVY;
  *mass = total;
  return TG_MASS_UNIT_FINE;
}
