/* mass-unit.h: the units that scales and tables give a weight in
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sources of the factors, all exact: gram and kilogram, SI Brochure (BIPM, 9th edition); carat
 * 200 mg, 4th CGPM (1907); avoirdupois pound 0.45359237 kg, international yard and pound agreement
 * of 1 July 1959, and its ounce (1/16), grain (1/7000), troy ounce (480 grains) and pennyweight
 * (24 grains), NIST Handbook 44, Appendix C.
 */
#pragma once

#include <glib.h>

#include "mass.h"

G_BEGIN_DECLS

typedef enum
{
  TG_MASS_UNIT_G,
  TG_MASS_UNIT_KG,
  TG_MASS_UNIT_MG,
  TG_MASS_UNIT_LB,
  TG_MASS_UNIT_OZ,
  TG_MASS_UNIT_GRAIN,
  TG_MASS_UNIT_CARAT,
  TG_MASS_UNIT_TROY_OZ,
  TG_MASS_UNIT_DWT,
} TgMassUnit;
#define TG_N_MASS_UNITS 9

/* Words in files: "g", "kg", "mg", "lb", "oz", "gr", "ct", "ozt", "dwt". */
const char *tg_mass_unit_to_word (TgMassUnit unit);
gboolean tg_mass_unit_from_word (const char *word, TgMassUnit *unit);

/**
 * tg_mass_unit_find:
 * @text: ASCII letters as a scale or a person writes them; "KG", "lbs", "grams" are known as well
 * @length: bytes
 * @unit: (out): untouched if @text names no unit
 *
 * Capitals play no part.
 */
gboolean tg_mass_unit_find (const char *text, gsize length, TgMassUnit *unit);

typedef enum
{
  TG_MASS_UNIT_FINE,
  TG_MASS_UNIT_NO_NUMBER, /* not digits with at most one decimal mark between digits */
  TG_MASS_UNIT_TOO_HEAVY, /* above TG_MASS_MAX */
} TgMassUnitResult;

/**
 * tg_mass_unit_read:
 * @text: digits, at most one @mark with digits on both sides; no sign, no blanks
 * @length: bytes
 * @mark: the decimal mark, '.' or ','
 * @mass: (out): milligrams, rounded half up; untouched unless TG_MASS_UNIT_FINE
 *
 * Exact in whole numbers before the one rounding.  At most six decimals.
 */
TgMassUnitResult
tg_mass_unit_read (const char *text, gsize length, char mark, TgMassUnit unit, TgMass *mass);

G_END_DECLS
