/* test-scale-lines.c: lines from bytes as they come
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "scale-lines.h"

/* Feeds @size bytes in pieces of @piece and gives the lines joined by "/". */
static char *
collect (TgScaleLines *lines, const char *data, gsize size, gsize piece)
{
  GString *out = g_string_new (NULL);

  for (gsize i = 0; i < size; i += piece)
    {
      const char *p = data + i, *line;
      gsize left = MIN (piece, size - i), length;

      while (tg_scale_lines_next (lines, &p, &left, &line, &length))
        {
          g_assert_cmpuint (length, >, 0);
          g_string_append_len (out, line, (gssize) length);
          g_string_append_c (out, '/');
        }
      g_assert_cmpuint (left, ==, 0);
    }
  return g_string_free (out, FALSE);
}

static void
test_ends (void)
{
  static const char text[] = "one\r\ntwo\nthree\rfour\r\n\r\n\n\rfive\n\nsix";

  for (gsize piece = 1; piece <= sizeof text; piece++)
    {
      TgScaleLines lines = { 0 };
      g_autofree char *got = collect (&lines, text, strlen (text), piece);

      g_assert_cmpstr (got, ==, "one/two/three/four/five/");
      g_assert_cmpuint (lines.bytes, ==, strlen (text));
      g_assert_cmpuint (lines.lines, ==, 5);
      g_assert_cmpuint (lines.length, ==, 3);
    }
}

static void
test_missing (void)
{
  TgScaleLines lines = { 0 };
  g_autofree char *first = NULL, *second = NULL, *third = NULL;

  tg_scale_lines_begin (&lines, TRUE);
  first = collect (&lines, "1.6 g\r\n171.6 g\r\n17", 18, 5);
  g_assert_cmpstr (first, ==, "171.6 g/");
  tg_scale_lines_begin (&lines, FALSE);
  second = collect (&lines, "1.5 g\n", 6, 6);
  g_assert_cmpstr (second, ==, "1.5 g/");
  tg_scale_lines_begin (&lines, TRUE);
  third = collect (&lines, "\r\n2.5 g\r\n", 9, 9);
  g_assert_cmpstr (third, ==, "2.5 g/");
}

/* As long as a line may be, and one byte more. */
static void
test_limit (void)
{
  for (gsize extra = 0; extra < 3; extra++)
    {
      TgScaleLines lines = { 0 };
      GString *text = g_string_new (NULL);
      g_autofree char *got = NULL;

      for (gsize i = 0; i < TG_SCALE_LINE_MAX + extra; i++)
        g_string_append_c (text, 'x');
      g_string_append (text, "\nshort\n");
      got = collect (&lines, text->str, text->len, 7);
      g_assert_true (g_str_has_suffix (got, "short/"));
      g_assert_cmpuint (strlen (got), ==, extra ? 6 : TG_SCALE_LINE_MAX + 7);
      g_assert_cmpuint (lines.dropped, ==, extra ? 1 : 0);
      g_string_free (text, TRUE);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale-lines/ends", test_ends);
  g_test_add_func ("/scale-lines/missing", test_missing);
  g_test_add_func ("/scale-lines/limit", test_limit);
  return g_test_run ();
}
