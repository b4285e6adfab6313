/* test-csv.c: fields of tables, written and read
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The published cases are the examples of RFC 4180, section 2, rules 1 to 7.
 */
#include <string.h>

#include "csv.h"
#include "error.h"

/* Rows as "a|b|c/d|e|f", a line break inside a field as it is. */
static char *
flatten (const GPtrArray *rows)
{
  GString *out = g_string_new (NULL);

  for (guint i = 0; i < rows->len; i++)
    {
      const TgCsvRow *row = g_ptr_array_index (rows, i);

      for (guint f = 0; f < row->fields->len; f++)
        g_string_append_printf (out, "%s%s",
                                f   ? "|"
                                : i ? "/"
                                    : "",
                                (const char *) g_ptr_array_index (row->fields, f));
    }
  return g_string_free (out, FALSE);
}

static void
check (const char *text, char separator, const char *expected)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GPtrArray) rows = tg_csv_parse (text, strlen (text), separator, &error);
  g_autofree char *flat = NULL;

  g_assert_no_error (error);
  flat = flatten (rows);
  g_assert_cmpstr (flat, ==, expected);
}

static void
test_rfc4180 (void)
{
  /* rules 1 and 2: the last line may have a line end or not */
  check ("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", ',', "aaa|bbb|ccc/zzz|yyy|xxx");
  check ("aaa,bbb,ccc\r\nzzz,yyy,xxx", ',', "aaa|bbb|ccc/zzz|yyy|xxx");
  /* rule 3: a header is a line like the others */
  check ("field_name,field_name,field_name\r\naaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", ',',
         "field_name|field_name|field_name/aaa|bbb|ccc/zzz|yyy|xxx");
  /* rule 5 */
  check ("\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", ',', "aaa|bbb|ccc/zzz|yyy|xxx");
  /* rule 6 */
  check ("\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", ',', "aaa|b\r\nbb|ccc/zzz|yyy|xxx");
  /* rule 7 */
  check ("\"aaa\",\"b\"\"bb\",\"ccc\"", ',', "aaa|b\"bb|ccc");
  /* rule 4: blanks are part of a field, and there are empty fields */
  check (" aaa , ,ccc", ',', " aaa | |ccc");
  check (",b,", ',', "|b|");
}

static void
test_forms (void)
{
  check ("\xef\xbb\xbf"
         "a;b\nc;d\n",
         ';', "a|b/c|d");
  check ("a\tb\rc\td\r", '\t', "a|b/c|d");
  check ("a,b;c\tc", '\t', "a,b;c|c");
  check ("\r\n\r\na,b\r\n , \r\n\r\nc,d\r\n,\r\n", ',', "a|b/c|d");
  check ("a 3\" rod,b", ',', "a 3\" rod|b");
  check ("", ',', "");
  check ("\xef\xbb\xbf", ',', "");
}

static void
test_lines (void)
{
  static const char text[] = "a\r\n\r\n\"b\r\nb\",c\nd\re";
  static const guint lines[] = { 1, 3, 5, 6 };
  g_autoptr (GPtrArray) rows = tg_csv_parse (text, strlen (text), ',', NULL);

  g_assert_cmpuint (rows->len, ==, G_N_ELEMENTS (lines));
  for (guint i = 0; i < rows->len; i++)
    g_assert_cmpuint (((TgCsvRow *) g_ptr_array_index (rows, i))->line, ==, lines[i]);
}

static void
refuse (const char *text, gsize length, int code, const char *begin)
{
  g_autoptr (GError) error = NULL;

  g_assert_null (tg_csv_parse (text, length, ',', &error));
  g_assert_error (error, TG_ERROR, code);
  g_assert_true (g_str_has_prefix (error->message, begin));
}

static void
test_refuse (void)
{
  g_autofree char *wide = g_strnfill (TG_CSV_MAX_FIELDS, ',');
  GString *tall = g_string_new (NULL);

  refuse ("a,b\n\"c,d\n\n", 10, TG_ERROR_SYNTAX, "line 2: ");
  refuse ("a\n\"b\"c,d", 8, TG_ERROR_SYNTAX, "line 2: ");
  refuse ("a\nb\xff,c", 6, TG_ERROR_SYNTAX, "line 2: ");
  refuse ("a\0b", 3, TG_ERROR_SYNTAX, "line 1: ");
  refuse (wide, strlen (wide), TG_ERROR_SIZE, "line 1: ");
  for (guint i = 0; i <= TG_CSV_MAX_ROWS; i++)
    g_string_append (tall, "x\n");
  refuse (tall->str, tall->len, TG_ERROR_SIZE, "line ");
  g_string_free (tall, TRUE);
}

static void
test_write (void)
{
  g_autoptr (GString) out = g_string_new (NULL);

  tg_csv_add_field (out, "");
  tg_csv_add_field (out, "plain");
  tg_csv_add_field (out, "a, \"b\"");
  tg_csv_add_number (out, -0.5, 2);
  tg_csv_add_count (out, 12);
  tg_csv_add_blank (out, 2);
  tg_csv_end_row (out);
  tg_csv_add_blank (out, 2);
  tg_csv_end_row (out);
  g_assert_cmpstr (out->str, ==, "\"\",plain,\"a, \"\"b\"\"\",-0.50,12,,\r\n\"\",\r\n");
}

/* What a spreadsheet would calculate becomes text; numbers stay numbers. */
static void
test_formulas (void)
{
  static const char *const formulas[] = { "=SUM(A1)", "=1+1", "+1+A1", "-1-A1", "@x", "-", "\t=1" };
  static const char *const numbers[] = { "-1", "+1.5", "-0,5", "12", "a=b" };

  for (guint i = 0; i < G_N_ELEMENTS (formulas); i++)
    {
      g_autoptr (GString) out = g_string_new (NULL);

      tg_csv_add_field (out, formulas[i]);
      g_assert_true (g_str_has_prefix (out->str, "\"'"));
    }
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    {
      g_autoptr (GString) out = g_string_new (NULL);

      tg_csv_add_field (out, numbers[i]);
      g_assert_null (strchr (out->str, '\''));
    }
}

/* Law: what is written reads back, whatever is in the fields. */
static void
test_round_trip (void)
{
  static const char alphabet[] = "ab,;\t\"\r\n '=é";
  g_autoptr (GRand) rand = g_rand_new_with_seed (4180);

  for (guint round = 0; round < 2000; round++)
    {
      g_autoptr (GString) out = g_string_new (NULL);
      g_autoptr (GPtrArray) fields = g_ptr_array_new_with_free_func (g_free);
      g_autoptr (GPtrArray) rows = NULL;
      const TgCsvRow *row;

      for (guint f = 0; f < 5; f++)
        {
          GString *field = g_string_new (f == 2 ? "x" : "");

          for (gint n = g_rand_int_range (rand, 0, 6); n > 0; n--)
            {
              gint at = g_rand_int_range (rand, 0, 12);

              g_string_append_len (field, alphabet + at, at == 11 ? 2 : 1);
            }
          g_ptr_array_add (fields, g_string_free (field, FALSE));
          tg_csv_add_field (out, g_ptr_array_index (fields, f));
        }
      tg_csv_end_row (out);
      rows = tg_csv_parse (out->str, out->len, ',', NULL);
      g_assert_cmpuint (rows->len, ==, 1);
      row = g_ptr_array_index (rows, 0);
      g_assert_cmpuint (row->fields->len, ==, 5);
      for (guint f = 0; f < 5; f++)
        {
          const char *read = g_ptr_array_index (row->fields, f);
          const char *wrote = g_ptr_array_index (fields, f);

          if (wrote[0] && strchr ("=\t\r\n", wrote[0]))
            g_assert_cmpint (*read++, ==, '\'');
          g_assert_cmpstr (read, ==, wrote);
        }
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/csv/rfc4180", test_rfc4180);
  g_test_add_func ("/csv/forms", test_forms);
  g_test_add_func ("/csv/lines", test_lines);
  g_test_add_func ("/csv/refuse", test_refuse);
  g_test_add_func ("/csv/write", test_write);
  g_test_add_func ("/csv/formulas", test_formulas);
  g_test_add_func ("/csv/round-trip", test_round_trip);
  return g_test_run ();
}
