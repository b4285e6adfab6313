/* mass.h: a mass that was read, decided or logged
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A TgMass is a whole number of milligrams, so that readings add up exactly and equal means equal.
 * Figures that are derived from readings (means, plans) are doubles in grams and say so by _g.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef gint64 TgMass;

#define TG_MASS_MG ((TgMass) 1)
#define TG_MASS_G ((TgMass) 1000)

/* No part of an engine that is matched on a bench weighs more than this (100 kg). */
#define TG_MASS_MAX ((TgMass) 100000 * TG_MASS_G)

/**
 * tg_mass_parse:
 * @text: what was typed, in grams: digits with at most one decimal comma or point, surrounding
 *   blanks and a trailing "g" allowed, at most three decimals
 * @mass: (out): milligrams; untouched on failure
 * @error: TG_ERROR_SYNTAX if @text is no number of that form, TG_ERROR_RANGE if it is negative or
 *   above TG_MASS_MAX
 *
 * Locale plays no part.  Nothing is guessed: "12..4", "1,234.5", "1e3", "nan" are refused.
 */
gboolean tg_mass_parse (const char *text, TgMass *mass, GError **error);

/**
 * tg_mass_parse_signed:
 *
 * The same with a sign before the number: "+0.1", "-0.1" or "−0.1" (U+2212), down to -TG_MASS_MAX.
 * What an empty scale shows may be below zero.
 */
gboolean tg_mass_parse_signed (const char *text, TgMass *mass, GError **error);

/**
 * tg_mass_format:
 * @mass: milligrams
 * @decimals: 0 to 3; the mass is rounded half away from zero to that many decimals of a gram
 *
 * Returns: (transfer full): grams with a decimal point, without unit.
 */
char *tg_mass_format (TgMass mass, guint decimals);

/**
 * tg_mass_format_exact:
 * @mass: milligrams
 *
 * The form used in files: grams with a decimal point and no more decimals than are needed.
 *
 * Returns: (transfer full): for instance "171.6", "0.05", "12".
 */
char *tg_mass_format_exact (TgMass mass);

/**
 * tg_mass_decimals:
 * @resolution: step of a scale in milligrams, > 0
 *
 * Returns: how many decimals of a gram a reading of such a scale shows, 0 to 3.
 */
guint tg_mass_decimals (TgMass resolution);

/* Grams as a double, exact for any TgMass below 2^53 mg before the division. */
static inline double
tg_mass_to_g (TgMass mass)
{
  return (double) mass / 1000.0;
}

/* The nearest milligram. @grams must be finite and within TG_MASS_MAX. */
TgMass tg_mass_from_g (double grams);

G_END_DECLS
