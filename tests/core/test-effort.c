/* test-effort.c: how long a pass was, as a person types it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * 60 seconds are a minute (SI Brochure, 9th edition, table 8).
 */
#include "effort.h"

#include "error.h"

static void
test_typed (void)
{
  static const struct
  {
    TgEffort effort;
    const char *text;
    guint count; /* 0: refused */
    int code;
  } cases[] = { { TG_EFFORT_STROKES, "1", 1, 0 },
                { TG_EFFORT_STROKES, " 12 ", 12, 0 },
                { TG_EFFORT_STROKES, "100000", 100000, 0 },
                { TG_EFFORT_STROKES, "100001", 0, TG_ERROR_RANGE },
                { TG_EFFORT_STROKES, "99999999999999999999999", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_STROKES, "0", 0, TG_ERROR_RANGE },
                { TG_EFFORT_STROKES, "-3", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_STROKES, "3.5", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_STROKES, "1:30", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_STROKES, "six", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_STROKES, "", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "2", 120, 0 },
                { TG_EFFORT_SECONDS, "1.5", 90, 0 },
                { TG_EFFORT_SECONDS, "1,5", 90, 0 },
                { TG_EFFORT_SECONDS, "0.25", 15, 0 },
                { TG_EFFORT_SECONDS, "0.333", 20, 0 },
                { TG_EFFORT_SECONDS, "1:30", 90, 0 },
                { TG_EFFORT_SECONDS, "0:05", 5, 0 },
                { TG_EFFORT_SECONDS, "1:5", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "1:60", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "1:30:00", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "1.", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, ".5", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "1.5.5", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "1.0000", 0, TG_ERROR_SYNTAX },
                { TG_EFFORT_SECONDS, "0:00", 0, TG_ERROR_RANGE },
                { TG_EFFORT_SECONDS, "0.001", 0, TG_ERROR_RANGE },
                { TG_EFFORT_SECONDS, "1666:40", 100000, 0 },
                { TG_EFFORT_SECONDS, "1666:41", 0, TG_ERROR_RANGE },
                { TG_EFFORT_SECONDS, "١", 0, TG_ERROR_SYNTAX } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;
      guint count = 77;
      gboolean read = tg_effort_parse (cases[i].effort, cases[i].text, &count, &error);

      g_test_message ("“%s”", cases[i].text);
      g_assert_cmpint (read, ==, cases[i].count > 0);
      g_assert_cmpuint (count, ==, read ? cases[i].count : 77);
      if (!read)
        g_assert_error (error, TG_ERROR, cases[i].code);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/effort/typed", test_typed);
  return g_test_run ();
}
