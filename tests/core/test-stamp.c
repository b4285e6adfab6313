/* test-stamp.c: moments in the journal; GDateTime is the reference
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>

#include "stamp.h"

/* Against GLib's own calendar, over leap days, centuries and offsets. */
static void
test_against_glib (void)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (7);

  for (guint i = 0; i < 20000; i++)
    {
      TgStamp stamp = { (gint64) (g_rand_double (rand) * 2.2e11) - (gint64) 3e10,
                        g_rand_int_range (rand, -720, 841) };
      TgStamp back;
      char text[TG_STAMP_SIZE];
      g_autofree char *zone = g_strdup_printf ("%c%02d:%02d", stamp.offset_min < 0 ? '-' : '+',
                                               ABS (stamp.offset_min) / 60,
                                               ABS (stamp.offset_min) % 60);
      g_autoptr (GTimeZone) tz = g_time_zone_new_identifier (zone);
      g_autoptr (GDateTime) utc = g_date_time_new_from_unix_utc (stamp.seconds);
      g_autoptr (GDateTime) local = g_date_time_to_timezone (utc, tz);
      g_autofree char *expected = g_date_time_format (local, "%Y-%m-%dT%H:%M:%S");
      g_autofree char *whole = g_strconcat (expected, zone, NULL);
      g_autofree char *day = tg_stamp_format_day (stamp);
      g_autofree char *expected_day = g_date_time_format (local, "%Y");

      tg_stamp_format (stamp, text);
      g_assert_cmpstr (text, ==, whole);
      g_assert_true (tg_stamp_parse (text, &back));
      g_assert_cmpint (back.seconds, ==, stamp.seconds);
      g_assert_cmpint (back.offset_min, ==, stamp.offset_min);
      g_assert_true (g_str_has_suffix (day, expected_day));
    }
}

static void
test_refuse (void)
{
  static const char *const bad[] = {
    "",
    "2026-03-07",
    "2026-03-07T19:42:07",
    "2026-03-07T19:42:07Z",
    "2026-02-29T10:00:00+00:00",
    "2026-13-01T10:00:00+00:00",
    "2026-01-00T10:00:00+00:00",
    "2026-01-01T24:00:00+00:00",
    "2026-01-01T10:60:00+00:00",
    "2026-01-01T10:00:00+24:00",
    "2026-01-01T10:00:00+01:00 ",
    "0000-01-01T10:00:00+00:00",
    "2026-1-01T10:00:00+00:00",
  };

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      TgStamp stamp = { 5, 6 };

      g_assert_false (tg_stamp_parse (bad[i], &stamp));
      g_assert_cmpint (stamp.seconds, ==, 5);
    }
}

static void
test_words (void)
{
  TgStamp stamp;
  g_autofree char *day = NULL;
  g_autofree char *time = NULL;

  g_assert_true (tg_stamp_parse ("2026-03-07T23:42:07-05:00", &stamp));
  day = tg_stamp_format_day (stamp);
  time = tg_stamp_format_time (stamp);
  g_assert_cmpstr (day, ==, "Sat 7 Mar 2026");
  g_assert_cmpstr (time, ==, "23:42");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/stamp/against-glib", test_against_glib);
  g_test_add_func ("/stamp/refuse", test_refuse);
  g_test_add_func ("/stamp/words", test_words);
  return g_test_run ();
}
