/* test-storable.c: numbers and texts as a file can hold them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>

#include "error.h"
#include "storable.h"

/* XML 1.0, section 2.2 (Char): what a file can carry. */
static void
test_texts (void)
{
  static const struct
  {
    const char *text;
    gboolean fine;
  } texts[] = {
    { "", TRUE },         { "plain", TRUE },      { "a\tb\nc\r", TRUE }, { "\x01", FALSE },
    { "\x1f", FALSE },    { "\x7f", TRUE },       { "\xff", FALSE },     { "\xc3", FALSE },
    { "\ufffe", FALSE },  { "\uffff", FALSE },    { "\ufffd", TRUE },    { "\U0010ffff", TRUE },
    { "12345678", TRUE }, { "123456789", FALSE },
  };
  static const char *const numbers[] = { "0", "-1", "1.5", "1e3", "1E-3", "2.5e+10", "007" };
  static const char *const no_numbers[] = { "",   "-",     "+1",  ".5",  "5.",  "1e",   "1e999",
                                            "1 ", "0x1p3", "nan", "1,5", "--1", "1.2.3" };
  double number = 42;

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    g_assert_cmpint (tg_storable_check (texts[i].text, 8, "text", NULL), ==, texts[i].fine);
  for (guint i = 0; i < G_N_ELEMENTS (no_numbers); i++)
    g_assert_false (tg_storable_parse_number (no_numbers[i], &number));
  g_assert_cmpfloat (number, ==, 42);
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_assert_true (tg_storable_parse_number (numbers[i], &number));
      g_assert_cmpfloat (number, ==, g_ascii_strtod (numbers[i], NULL));
    }
}

/* Law: a number that is written reads back equal. */
static void
test_numbers (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint i = 0; i < 20000; i++)
    {
      double number = (g_rand_double (rand) - 0.5) * (i % 2 ? 1e-6 : 1e6), back;
      char text[TG_STORABLE_NUMBER_SIZE];

      g_assert_true (tg_storable_parse_number (tg_storable_format_number (number, text), &back));
      g_assert_cmpfloat (back, ==, number);
    }
}

static void
test_shorten (void)
{
  static const char *const texts[] = { "", "short", "\xff\xfe", "two\nlines",
                                       "ääääääääääääääääääääääääääääääääääääääääää" };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autofree char *shown = tg_storable_shorten (texts[i]);

      g_assert_true (g_utf8_validate (shown, -1, NULL));
      g_assert_null (strchr (shown, '\n'));
      g_assert_cmpint (g_utf8_strlen (shown, -1), <=, 41);
      g_assert_cmpint (g_str_has_suffix (shown, "…"), ==, g_utf8_strlen (shown, -1) > 40);
    }
}

static void
test_codes (void)
{
  g_autoptr (GError) form = NULL, length = NULL;

  g_assert_false (tg_storable_check ("\x1b[1m", 100, "note", &form));
  g_assert_error (form, TG_ERROR, TG_ERROR_SYNTAX);
  g_assert_nonnull (strstr (form->message, "U+001B"));
  g_assert_false (tg_storable_check ("abcd", 3, "note", &length));
  g_assert_error (length, TG_ERROR, TG_ERROR_RANGE);
}

/* A name of a file may be anything but a message is one line of UTF-8. */
static void
test_paths (void)
{
  g_autofree char *path = tg_storable_path ("/tmp/a\nb\x1b.tenthgram");
  g_autofree char *base = tg_storable_basename ("/tmp/\xff\t\xc3\xbc");

  g_assert_cmpstr (path, ==, "/tmp/a b .tenthgram");
  g_assert_true (g_utf8_validate (base, -1, NULL));
  g_assert_true (g_str_has_suffix (base, " ü"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/storable/texts", test_texts);
  g_test_add_func ("/storable/numbers", test_numbers);
  g_test_add_func ("/storable/shorten", test_shorten);
  g_test_add_func ("/storable/codes", test_codes);
  g_test_add_func ("/storable/paths", test_paths);
  return g_test_run ();
}
