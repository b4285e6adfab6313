/* test-mass.c: masses typed, stored and shown
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>

#include "error.h"
#include "mass.h"

static void
test_parse (void)
{
  static const struct
  {
    const char *text;
    TgMass mass;
  } cases[] = {
    { "412.3", 412300 },  { "412,3", 412300 },
    { " 0.05 g", 50 },    { "12", 12000 },
    { "12.", 12000 },     { ".5", 500 },
    { "0", 0 },           { "-0", 0 },
    { "007,125g", 7125 }, { "100000", TG_MASS_MAX },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      TgMass mass = -1;

      g_assert_true (tg_mass_parse (cases[i].text, &mass, &error));
      g_assert_no_error (error);
      g_assert_cmpint (mass, ==, cases[i].mass);
    }
}

static void
test_refuse (void)
{
  static const struct
  {
    const char *text;
    int code;
  } cases[] = {
    { "12..4", TG_ERROR_SYNTAX },
    { "1,234.5", TG_ERROR_SYNTAX },
    { "", TG_ERROR_SYNTAX },
    { "g", TG_ERROR_SYNTAX },
    { ".", TG_ERROR_SYNTAX },
    { "1e3", TG_ERROR_SYNTAX },
    { "nan", TG_ERROR_SYNTAX },
    { "inf", TG_ERROR_SYNTAX },
    { "0x10", TG_ERROR_SYNTAX },
    { "12 4", TG_ERROR_SYNTAX },
    { "12.4.", TG_ERROR_SYNTAX },
    { "0.0005", TG_ERROR_SYNTAX },
    { "-3", TG_ERROR_RANGE },
    { "100000.001", TG_ERROR_RANGE },
    { "99999999999999999999999", TG_ERROR_RANGE },
    { "4\xff", TG_ERROR_SYNTAX },
    { "12kg", TG_ERROR_SYNTAX },
    { "--3", TG_ERROR_SYNTAX },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      TgMass mass = 42;

      g_assert_false (tg_mass_parse (cases[i].text, &mass, &error));
      g_assert_error (error, TG_ERROR, cases[i].code);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_cmpint (mass, ==, 42);
    }
}

static void
test_format (void)
{
  static const struct
  {
    TgMass mass;
    guint decimals;
    const char *text;
  } cases[] = {
    { 412300, 1, "412.3" }, { 412350, 1, "412.4" }, { -412350, 1, "-412.4" }, { 49, 1, "0.0" },
    { -49, 1, "0.0" },      { 5, 3, "0.005" },      { 1500, 0, "2" },         { 12000, 2, "12.00" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = tg_mass_format (cases[i].mass, cases[i].decimals);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

/* Law: what is written into a file reads back as the same mass. */
static void
test_round_trip (void)
{
  for (TgMass mass = 0; mass < 3000000; mass += 37)
    {
      g_autofree char *text = tg_mass_format_exact (mass);
      TgMass back = -1;

      g_assert_true (tg_mass_parse (text, &back, NULL));
      g_assert_cmpint (back, ==, mass);
      g_assert_cmpint (tg_mass_from_g (tg_mass_to_g (mass)), ==, mass);
    }
}

static void
test_decimals (void)
{
  g_assert_cmpuint (tg_mass_decimals (1000), ==, 0);
  g_assert_cmpuint (tg_mass_decimals (500), ==, 1);
  g_assert_cmpuint (tg_mass_decimals (100), ==, 1);
  g_assert_cmpuint (tg_mass_decimals (20), ==, 2);
  g_assert_cmpuint (tg_mass_decimals (5), ==, 3);
}

static void
test_parse_signed (void)
{
  static const struct
  {
    const char *text;
    TgMass mass;
  } good[] = {
    { "0", 0 },
    { "-0", 0 },
    { "0.1", 100 },
    { "+0,1 g", 100 },
    { "-0.1", -100 },
    { "−0.05 g", -50 },
    { " - 0.1", G_MAXINT64 },
    { "--1", G_MAXINT64 },
    { "+-1", G_MAXINT64 },
    { "-", G_MAXINT64 },
    { "−100000.001", G_MAXINT64 },
    { "-100000", -TG_MASS_MAX },
  };

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      g_autoptr (GError) error = NULL;
      TgMass mass = 7;
      gboolean fits = good[i].mass != G_MAXINT64;

      g_test_message ("%s", good[i].text);
      g_assert_cmpint (tg_mass_parse_signed (good[i].text, &mass, &error), ==, fits);
      g_assert_cmpint (mass, ==, fits ? good[i].mass : 7);
      g_assert_cmpint (error == NULL, ==, fits);
    }
  /* a weight on the scale is never below zero, whichever minus is typed */
  g_assert_false (tg_mass_parse ("−0.1", &(TgMass){ 0 }, NULL));
  g_assert_false (tg_mass_parse ("+0.1", &(TgMass){ 0 }, NULL));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/mass/parse", test_parse);
  g_test_add_func ("/mass/parse-signed", test_parse_signed);
  g_test_add_func ("/mass/refuse", test_refuse);
  g_test_add_func ("/mass/format", test_format);
  g_test_add_func ("/mass/round-trip", test_round_trip);
  g_test_add_func ("/mass/decimals", test_decimals);
  return g_test_run ();
}
