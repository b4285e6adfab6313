/* test-number.c: numbers as a person reads them; the minus sign is U+2212 (ISO 80000-1, from memory)
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "number.h"

static void
test_format (void)
{
  static const struct
  {
    double value;
    guint decimals;
    const char *plain, *with_sign;
  } cases[] = {
    { 1.25, 1, "1.2", "+1.2" },
    { -40, 1, "−40.0", "−40.0" },
    { 0.264, 2, "0.26", "+0.26" },
    { -1.456, 2, "−1.46", "−1.46" },
    { -0.001, 2, "0.00", "0.00" },
    { 7, 0, "7", "+7" },
    { 123456.5, 3, "123456.500", "+123456.500" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *plain = tg_number_format (cases[i].value, cases[i].decimals);
      g_autofree char *with_sign = tg_number_format_signed (cases[i].value, cases[i].decimals);

      g_assert_cmpstr (plain, ==, cases[i].plain);
      g_assert_cmpstr (with_sign, ==, cases[i].with_sign);
    }
}

static void
test_short (void)
{
  static const struct
  {
    double value;
    const char *text;
  } cases[] = { { 182, "182" }, { 0.35, "0.35" }, { -300, "-300" }, { 1.0 / 3, "0.333333" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = tg_number_format_short (cases[i].value);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

/* The largest double has 309 digits before its point. */
static void
test_longest (void)
{
  g_autofree char *text = tg_number_format (-G_MAXDOUBLE, 9);

  g_assert_cmpuint (g_utf8_strlen (text, -1), ==, 1 + 309 + 1 + 9);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/number/format", test_format);
  g_test_add_func ("/number/short", test_short);
  g_test_add_func ("/number/longest", test_longest);
  return g_test_run ();
}
