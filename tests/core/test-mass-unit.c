/* test-mass-unit.c: weights in other units than grams
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values: NIST Handbook 44, Appendix C, "Units of mass": 1 grain = 64.79891 mg, 1 carat = 200 mg,
 * 1 pennyweight = 1.555 173 84 g, 1 ounce = 28.349 523 125 g, 1 troy ounce = 31.103 476 8 g,
 * 1 pound = 453.592 37 g, all exact (figures from memory); in milligrams they are rounded.
 */
#include <math.h>
#include <string.h>

#include "mass-unit.h"

static void
test_published (void)
{
  static const struct
  {
    const char *text;
    TgMassUnit unit;
    TgMass mass;
  } cases[] = {
    { "1000", TG_MASS_UNIT_GRAIN, 64799 },     { "100000", TG_MASS_UNIT_GRAIN, 6479891 },
    { "1", TG_MASS_UNIT_CARAT, 200 },          { "1000", TG_MASS_UNIT_DWT, 1555174 },
    { "1", TG_MASS_UNIT_OZ, 28350 },           { "1000", TG_MASS_UNIT_OZ, 28349523 },
    { "1", TG_MASS_UNIT_TROY_OZ, 31103 },      { "1000", TG_MASS_UNIT_TROY_OZ, 31103477 },
    { "1", TG_MASS_UNIT_LB, 453592 },          { "100", TG_MASS_UNIT_LB, 45359237 },
    { "0.000001", TG_MASS_UNIT_KG, 1 },        { "0.4126", TG_MASS_UNIT_KG, 412600 },
    { "171.6", TG_MASS_UNIT_G, 171600 },       { "00171.60", TG_MASS_UNIT_G, 171600 },
    { "0.0005", TG_MASS_UNIT_G, 1 },           { "0.0004", TG_MASS_UNIT_G, 0 },
    { "100000", TG_MASS_UNIT_G, TG_MASS_MAX }, { "12", TG_MASS_UNIT_MG, 12 },
    { "100", TG_MASS_UNIT_KG, TG_MASS_MAX },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgMass mass = -1;

      g_assert_cmpint (
          tg_mass_unit_read (cases[i].text, strlen (cases[i].text), '.', cases[i].unit, &mass), ==,
          TG_MASS_UNIT_FINE);
      g_assert_cmpint (mass, ==, cases[i].mass);
    }
}

static void
test_refuse (void)
{
  static const struct
  {
    const char *text;
    TgMassUnitResult result;
  } cases[] = {
    { "", TG_MASS_UNIT_NO_NUMBER },
    { ".5", TG_MASS_UNIT_NO_NUMBER },
    { "5.", TG_MASS_UNIT_NO_NUMBER },
    { "1,5", TG_MASS_UNIT_NO_NUMBER },
    { "1.5.5", TG_MASS_UNIT_NO_NUMBER },
    { "-1", TG_MASS_UNIT_NO_NUMBER },
    { "1.1234567", TG_MASS_UNIT_NO_NUMBER },
    { "1e3", TG_MASS_UNIT_NO_NUMBER },
    { "100.000001", TG_MASS_UNIT_TOO_HEAVY },
    { "101", TG_MASS_UNIT_TOO_HEAVY },
    { "99999999999999999999999999", TG_MASS_UNIT_TOO_HEAVY },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgMass mass = 42;

      g_assert_cmpint (
          tg_mass_unit_read (cases[i].text, strlen (cases[i].text), '.', TG_MASS_UNIT_KG, &mass),
          ==, cases[i].result);
      g_assert_cmpint (mass, ==, 42);
    }
}

/* Against long double arithmetic with the factors in kilograms: never more than the rounding off. */
static void
test_against_double (void)
{
  static const long double kg[TG_N_MASS_UNITS] = {
    1e-3L,
    1,
    1e-6L,
    0.45359237L,
    0.45359237L / 16,
    0.45359237L / 7000,
    2e-4L,
    0.45359237L * 480 / 7000,
    0.45359237L * 24 / 7000,
  };
  g_autoptr (GRand) rand = g_rand_new_with_seed (1959);

  for (guint round = 0; round < 20000; round++)
    {
      TgMassUnit unit = (TgMassUnit) (round % TG_N_MASS_UNITS);
      gint whole = g_rand_int_range (rand, 0, 90), fraction = g_rand_int_range (rand, 0, 1000000);
      g_autofree char *text = g_strdup_printf ("%d,%06d", whole, fraction);
      TgMass mass = -1;

      g_assert_cmpint (tg_mass_unit_read (text, strlen (text), ',', unit, &mass), ==,
                       TG_MASS_UNIT_FINE);
      g_assert_true (fabsl ((long double) mass - ((long double) whole + fraction * 1e-6L) *
                                                     kg[unit] * 1e6L) <= 0.5L + 1e-6L);
    }
}

static void
test_words (void)
{
  TgMassUnit unit;

  for (guint i = 0; i < TG_N_MASS_UNITS; i++)
    {
      const char *word = tg_mass_unit_to_word ((TgMassUnit) i);

      g_assert_true (tg_mass_unit_from_word (word, &unit));
      g_assert_cmpint (unit, ==, i);
      g_assert_true (tg_mass_unit_find (word, strlen (word), &unit));
      g_assert_cmpint (unit, ==, i);
    }
  g_assert_true (tg_mass_unit_find ("KGx", 2, &unit));
  g_assert_cmpint (unit, ==, TG_MASS_UNIT_KG);
  g_assert_true (tg_mass_unit_find ("Grams", 5, &unit));
  g_assert_cmpint (unit, ==, TG_MASS_UNIT_G);
  g_assert_false (tg_mass_unit_find ("", 0, &unit));
  g_assert_false (tg_mass_unit_find ("stone", 5, &unit));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mass-unit/published", test_published);
  g_test_add_func ("/mass-unit/refuse", test_refuse);
  g_test_add_func ("/mass-unit/against-double", test_against_double);
  g_test_add_func ("/mass-unit/words", test_words);
  return g_test_run ();
}
