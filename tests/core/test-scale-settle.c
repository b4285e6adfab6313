/* test-scale-settle.c: one reading for each time the load comes to rest
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures are invented; the scale has a step of 0.1 g.
 */
#include "scale-settle.h"

/* Feeds words "171.6", "~171.6" (moving), "=171.6" (standing), "x" (no reading) and gives what is
 * handed on. */
static char *
run (guint in_a_row, const char *text)
{
  TgScaleSettle settle = tg_scale_settle_new (100, in_a_row);
  g_auto (GStrv) words = g_strsplit (text, " ", -1);
  GString *out = g_string_new (NULL);

  for (guint i = 0; words[i]; i++)
    {
      const char *p = words[i];
      TgScaleReading reading = { TG_SCALE_LINE_READING, 0, TG_SCALE_REST_UNKNOWN };
      TgMass mass = -1;

      if (*p == 'x')
        reading.kind = TG_SCALE_LINE_UNLIKE;
      if (*p == '~' || *p == '=')
        reading.rest = *p++ == '~' ? TG_SCALE_REST_MOVING : TG_SCALE_REST_STANDING;
      if (*p != 'x')
        reading.mass = tg_mass_from_g (g_ascii_strtod (p, NULL));
      if (tg_scale_settle_feed (&settle, &reading, &mass))
        {
          g_autofree char *shown = tg_mass_format (mass, 1);

          g_string_append_printf (out, "%s%s", out->len ? " " : "", shown);
        }
      else
        g_assert_cmpint (mass, ==, -1);
    }
  return g_string_free (out, FALSE);
}

static void
check (guint in_a_row, const char *text, const char *expected)
{
  g_autofree char *got = run (in_a_row, text);

  g_assert_cmpstr (got, ==, expected);
}

static void
test_marked (void)
{
  check (4, "=0 ~80 ~150 ~171 =171.6 =171.6 =171.6 =171.6 =171.6", "171.6");
  check (4, "=171.6 =171.7 =171.5 =172.1 =171.6", "171.6");
  /* more than five steps away: another load */
  check (4, "=171.6 =172.2", "171.6 172.2");
  check (4, "=171.6 ~0.3 ~80 =171.6", "171.6 171.6");
  check (4, "~171.6 ~171.6 ~171.6 ~171.6 ~171.6", "");
  check (4, "=171.6 x x =171.6", "171.6");
}

static void
test_in_a_row (void)
{
  check (3, "0 171.6 171.6 171.6 171.6 171.6", "171.6");
  check (3, "171.6 171.7 171.6 171.7 171.6 171.6", "");
  check (3, "171.6 171.6 x 171.6 171.6", "");
  check (3, "171.6 171.6 x 171.6 171.6 171.6", "171.6");
  check (3, "171.6 171.6 171.6 0 0 0 171.6 171.6 171.6", "171.6 171.6");
  /* a hand leans on it; then it is lifted off a cradle of 50 g */
  check (3, "171.6 171.6 171.6 180 171.6 171.6 171.6", "171.6");
  check (3, "171.6 171.6 171.6 150 171.6 171.6 171.6", "171.6");
  check (3, "171.6 171.6 171.6 50 171.6 171.6 171.6", "171.6 171.6");
  check (3, "171.6 171.6 171.6 180 180 180 171.6 171.6 171.6", "171.6 180.0 171.6");
  check (1, "171.6 171.6", "171.6");
}

/* Every line is a reading where the scale sends only when its key is pressed. */
static void
test_key (void)
{
  check (0, "171.6 171.6 171.7", "171.6 171.6 171.7");
  check (0, "~171.6 =171.6", "171.6");
  check (0, "0 0.4 -3", "");
}

static void
test_empty (void)
{
  check (2, "0 0 0 0", "");
  check (2, "0.5 0.5 0.5", "");
  check (2, "0.6 0.6 0.6", "0.6");
  check (2, "-171.6 -171.6 -171.6", "");
}

/* Law: a run of loads with any unrest between gives each load once. */
static void
test_law (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (3);

  for (guint round = 0; round < 300; round++)
    {
      GString *text = g_string_new ("0"), *expected = g_string_new (NULL);
      g_autofree char *in = NULL, *out = NULL;

      for (guint load = 0; load < 8; load++)
        {
          double grams = g_rand_int_range (rand, 1000, 9000) / 10.0;

          for (gint n = g_rand_int_range (rand, 1, 9); n > 0; n--)
            g_string_append_printf (text, " ~%.1f", g_rand_double_range (rand, 1, grams));
          g_string_append (text, " 0.2");
          for (gint n = g_rand_int_range (rand, 3, 9); n > 0; n--)
            g_string_append_printf (text, " %.1f", grams);
          g_string_append_printf (expected, "%s%.1f", load ? " " : "", grams);
        }
      in = g_string_free (text, FALSE);
      out = g_string_free (expected, FALSE);
      check (3, in, out);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale-settle/marked", test_marked);
  g_test_add_func ("/scale-settle/in-a-row", test_in_a_row);
  g_test_add_func ("/scale-settle/key", test_key);
  g_test_add_func ("/scale-settle/empty", test_empty);
  g_test_add_func ("/scale-settle/law", test_law);
  return g_test_run ();
}
