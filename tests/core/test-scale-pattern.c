/* test-scale-pattern.c: what a line of a scale means
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines and readings are invented.  The factor of the ounce is that of the 1959 agreement on the
 * avoirdupois pound (0.45359237 kg; NIST Handbook 44, Appendix C).
 */
#include <string.h>

#include "error.h"
#include "scale-pattern.h"

/* Samples as "line|shown|rest" with rest "m", "s" or "". */
static gboolean
learn (const char *const *texts, TgScalePattern *pattern, GPtrArray *questions, GError **error)
{
  TgScaleSample samples[TG_SCALE_MAX_SAMPLES] = { 0 };
  GStrv parts[TG_SCALE_MAX_SAMPLES] = { NULL };
  gboolean learned;
  guint n = 0;

  for (; texts[n]; n++)
    {
      parts[n] = g_strsplit (texts[n], "|", 3);
      samples[n].line = parts[n][0];
      samples[n].length = strlen (parts[n][0]);
      samples[n].shown = parts[n][1];
      samples[n].rest = parts[n][2][0] == 'm'   ? TG_SCALE_REST_MOVING
                        : parts[n][2][0] == 's' ? TG_SCALE_REST_STANDING
                                                : TG_SCALE_REST_UNKNOWN;
    }
  learned = tg_scale_pattern_learn (samples, n, pattern, questions, error);
  for (guint i = 0; i < n; i++)
    g_clear_pointer (&parts[i], g_strfreev);
  return learned;
}

static TgScalePattern
learned (const char *const *texts)
{
  g_autoptr (GError) error = NULL;
  TgScalePattern pattern, again;
  g_autofree char *text = NULL;

  memset (&pattern, 0, sizeof pattern);
  learn (texts, &pattern, NULL, &error);
  g_assert_no_error (error);
  /* Law: the text gives the same pattern. */
  text = tg_scale_pattern_to_text (&pattern);
  g_assert_true (tg_scale_pattern_from_text (text, &again));
  g_assert_cmpmem (&pattern, sizeof pattern, &again, sizeof again);
  return pattern;
}

static void
reads (const TgScalePattern *pattern, const char *line, TgMass mass, TgScaleRest rest)
{
  TgScaleReading reading = tg_scale_pattern_read (pattern, line, strlen (line));

  g_assert_cmpstr (tg_scale_line_label (reading.kind), ==,
                   tg_scale_line_label (TG_SCALE_LINE_READING));
  g_assert_cmpint (reading.mass, ==, mass);
  g_assert_cmpint (reading.rest, ==, rest);
}

static void
refuses (const TgScalePattern *pattern, const char *line, TgScaleLineKind kind)
{
  TgScaleReading reading = tg_scale_pattern_read (pattern, line, strlen (line));

  g_assert_cmpstr (tg_scale_line_label (reading.kind), ==, tg_scale_line_label (kind));
  g_assert_cmpint (reading.mass, ==, 0);
}

#define SAMPLES(...) ((const char *const[]){ __VA_ARGS__, NULL })

static void
test_plain (void)
{
  TgScalePattern pattern = learned (SAMPLES ("171.6 g|171.6|", "98.2 g||"));

  reads (&pattern, "171.6 g", 171600, TG_SCALE_REST_UNKNOWN);
  reads (&pattern, "  1204.0g", 1204000, TG_SCALE_REST_UNKNOWN);
  reads (&pattern, "-3.4 g", -3400, TG_SCALE_REST_UNKNOWN);
  reads (&pattern, "-   3.4 g ", -3400, TG_SCALE_REST_UNKNOWN);
  reads (&pattern, "+0003.4\tg", 3400, TG_SCALE_REST_UNKNOWN);
  refuses (&pattern, "", TG_SCALE_LINE_EMPTY);
  refuses (&pattern, " \t ", TG_SCALE_LINE_EMPTY);
  refuses (&pattern, "OL", TG_SCALE_LINE_NO_NUMBER);
  refuses (&pattern, "------ g", TG_SCALE_LINE_NO_NUMBER);
  refuses (&pattern, "171.6", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "171. g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "171 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, ".6 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "171.60 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "1 71.6 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "171.6 g 171.6 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "1,171.6 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "--3.4 g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "171.6 g\xff", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern,
           "\xc3"
           "171.6 g",
           TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "171.6 kg", TG_SCALE_LINE_UNIT);
  refuses (&pattern, "171.6 oz", TG_SCALE_LINE_UNIT);
  refuses (&pattern, "171.6 stone", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "100000.1 g", TG_SCALE_LINE_HEAVY);
  refuses (&pattern, "99999999999999999999.9 g", TG_SCALE_LINE_HEAVY);
  g_assert_cmpint (tg_scale_pattern_read (&pattern, "171.6 g\0", 8).kind, ==, TG_SCALE_LINE_UNLIKE);
}

static void
test_comma_and_units (void)
{
  TgScalePattern kg = learned (SAMPLES ("W 0,4126 KG|0.4126 kg|"));
  TgScalePattern oz = learned (SAMPLES ("1000.000 oz|1000.0 oz|"));
  TgScalePattern bare = learned (SAMPLES ("6.053|6.053 oz|"));

  reads (&kg, "W 0,4126 KG", 412600, TG_SCALE_REST_UNKNOWN);
  refuses (&kg, "W 0.4126 KG", TG_SCALE_LINE_UNLIKE);
  reads (&oz, "1000.000 oz", 28349523, TG_SCALE_REST_UNKNOWN);
  reads (&bare, "16.000", 453592, TG_SCALE_REST_UNKNOWN);
}

static void
test_fixed_width (void)
{
  TgScalePattern pattern = learned (
      SAMPLES ("ST,GS,+  171.6,g|171.6|s", "US,GS,+   82.0,g||m", "ST,NT,+   98.2,g||s"));

  g_assert_cmpuint (pattern.width, ==, 16);
  g_assert_true (pattern.marked);
  reads (&pattern, "ST,GS,+  171.6,g", 171600, TG_SCALE_REST_STANDING);
  reads (&pattern, "US,GS,-    1.5,g", -1500, TG_SCALE_REST_MOVING);
  reads (&pattern, "US,NT,+    1.5,g", 1500, TG_SCALE_REST_MOVING);
  refuses (&pattern, "ST,GS,+  71.6,g", TG_SCALE_LINE_WIDTH);
  refuses (&pattern, "ST,GS,   171.6,g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "OL,GS,+  171.6,g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "OL,GS,+999999.,g", TG_SCALE_LINE_UNLIKE);
  refuses (&pattern, "T,GS,+  171.6,g", TG_SCALE_LINE_UNLIKE);
}

/* The unit is printed only when the load stands: common practice, no published source. */
static void
test_unit_is_mark (void)
{
  TgScalePattern pattern = learned (SAMPLES ("+  171.6 g|171.6|s", "+   80.3  ||m"));

  reads (&pattern, "+  171.6 g", 171600, TG_SCALE_REST_STANDING);
  reads (&pattern, "+  171.6  ", 171600, TG_SCALE_REST_MOVING);
}

static void
test_other_forms (void)
{
  TgScalePattern behind = learned (SAMPLES ("171.6  g|171.6|", "3.4- g|-3.4|"));
  TgScalePattern flag = learned (SAMPLES ("171.6 g ?|171.6|m", "171.6 g *||s"));
  TgScalePattern digit = learned (SAMPLES ("1 171.6 g|171.6|s", "0 80.3 g||m"));
  TgScalePattern two = learned (
      SAMPLES ("12 G 191.6 g N 171.6 g|171.6|", "13 G 191.6 g N 161.6 g|161.6|"));
  TgScalePattern frame = learned (SAMPLES ("\x02 00171.6\x03|171.6 g|"));

  reads (&behind, "3.4- g", -3400, TG_SCALE_REST_UNKNOWN);
  refuses (&behind, "-3.4 g", TG_SCALE_LINE_UNLIKE);
  reads (&flag, "80.0 g ?", 80000, TG_SCALE_REST_MOVING);
  reads (&flag, "80.0 g *", 80000, TG_SCALE_REST_STANDING);
  refuses (&flag, "80.0 g", TG_SCALE_LINE_UNLIKE);
  reads (&digit, "1 99.9 g", 99900, TG_SCALE_REST_STANDING);
  reads (&digit, "0 99.9 g", 99900, TG_SCALE_REST_MOVING);
  refuses (&digit, "2 99.9 g", TG_SCALE_LINE_UNLIKE);
  reads (&two, "14 G 191.6 g N 0.5 g", 500, TG_SCALE_REST_UNKNOWN);
  reads (&frame, "\x02 00098.2\x03", 98200, TG_SCALE_REST_UNKNOWN);
  refuses (&frame, "\x02 0098.2\x03", TG_SCALE_LINE_WIDTH);
}

static void
test_time (void)
{
  TgScalePattern pattern = learned (
      SAMPLES ("19:42:07 171.6 g|171.6|", "19:43:11 98.2 g||", "20:01:30 98.2 g||"));

  reads (&pattern, "07:00:00 12.5 g", 12500, TG_SCALE_REST_UNKNOWN);
  refuses (&pattern, "07:00 12.5 g", TG_SCALE_LINE_UNLIKE);
}

static void
asks (const char *const *texts, const char *words)
{
  g_autoptr (GPtrArray) questions = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;
  TgScalePattern pattern;
  gboolean found = FALSE;

  g_assert_true (learn (texts, &pattern, questions, &error));
  for (guint i = 0; i < questions->len; i++)
    found = found || strstr (g_ptr_array_index (questions, i), words);
  if (!words)
    g_assert_cmpuint (questions->len, ==, 0);
  else
    g_assert_true (found);
}

static void
test_questions (void)
{
  asks (SAMPLES ("171.6 g|171.6|", "98.2 g||"), "equal readings in a row");
  asks (SAMPLES ("171.6|171.6|"), "name no unit");
  asks (SAMPLES ("171.6 g|171.6|"), "fewer or more digits");
  asks (SAMPLES ("   171.6 g|171.6|"), "fixed length of 10");
  asks (SAMPLES ("171.6 ct|171.6|"), "“ct”");
  asks (SAMPLES ("7 171.6 g|171.6|"), "the number “7”");
  asks (SAMPLES ("ST GS 171.6 g|171.6|s", "US NT 171.6 g||m"), "2 places");
  asks (SAMPLES ("171.6 g|171.6|s", "80.2 g||m"), "Nothing in the lines");
  asks (SAMPLES ("S 171.6 g|171.6|s", "D 80.2 g||m", "E 90.2 g||"), "Line 3");
}

static void
test_no_questions (void)
{
  g_autoptr (GPtrArray) questions = g_ptr_array_new_with_free_func (g_free);
  TgScalePattern pattern;

  g_assert_true (learn (SAMPLES ("S 171.6 g|171.6|s", "D 80.2 g||m"), &pattern, questions, NULL));
  g_assert_cmpuint (questions->len, ==, 0);
}

static void
fails (const char *const *texts, int code)
{
  g_autoptr (GError) error = NULL;
  TgScalePattern pattern, before;

  memset (&pattern, 7, sizeof pattern);
  before = pattern;
  g_assert_false (learn (texts, &pattern, NULL, &error));
  g_assert_error (error, TG_ERROR, code);
  g_assert_true (g_utf8_validate (error->message, -1, NULL));
  g_assert_cmpmem (&pattern, sizeof pattern, &before, sizeof before);
}

static void
test_fails (void)
{
  g_autofree char *longest = g_strnfill (TG_SCALE_LINE_MAX + 1, '7');
  g_autofree char *too_long = g_strconcat (longest, "|7|", NULL);

  fails (SAMPLES ("171.6 g||"), TG_ERROR_UNKNOWN);
  fails (SAMPLES ("171.6 g|171.5|"), TG_ERROR_UNKNOWN);
  fails (SAMPLES ("171.6 g|-171.6|"), TG_ERROR_UNKNOWN);
  fails (SAMPLES ("171.6 g|171.6 oz|"), TG_ERROR_UNKNOWN);
  fails (SAMPLES ("OL|171.6|"), TG_ERROR_UNKNOWN);
  fails (SAMPLES ("1 lb 3.5 oz|3.5 oz|"), TG_ERROR_UNKNOWN);
  fails (SAMPLES ("171.6 g|12..4|"), TG_ERROR_SYNTAX);
  fails (SAMPLES ("171.6 g|171.6 stone|"), TG_ERROR_SYNTAX);
  /* cut for the message, but not within a character */
  fails (SAMPLES ("171.6 g|171.6 éééééééééééééééééééééééééééééééééééééé|"), TG_ERROR_SYNTAX);
  fails (SAMPLES (too_long), TG_ERROR_SYNTAX);
  fails (SAMPLES ("1 2 3 4 5 6 7 8 9 1 2 3 4 5 6 7 8 9 1 2 3 4 5 6 7 8 9 1 2 3 4 5 6 7 8|1|"),
         TG_ERROR_SYNTAX);
  /* gross and net were the same: which is the reading? */
  fails (SAMPLES ("G 171.6 g N 171.6 g|171.6|"), TG_ERROR_DUPLICATE);
  fails (SAMPLES ("171,0|171|"), TG_ERROR_DUPLICATE);
  fails (SAMPLES ("A 1.5|1.5|", "B 1.5||", "C 1.5||", "D 1.5||", "E 1.5||"), TG_ERROR_RANGE);
  fails (SAMPLES ("1.5|1.5 g|", "2.5|2.5 kg|"), TG_ERROR_RANGE);
  /* what was shown must be read; only a line that nothing was said of may stay open */
  fails (SAMPLES ("E 90.2 g|90.2|", "S 171.6 g||s", "D 80.2 g||m"), TG_ERROR_RANGE);
}

/* Law: of a fixed-width line, no part and no line with one byte too many is ever a reading. */
static void
test_cut_lines (void)
{
  TgScalePattern pattern = learned (SAMPLES ("S +  171.6 g|171.6|s", "D +   82.0 g||m"));
  static const char line[] = "S + 4171.6 g";
  gsize size = strlen (line);

  reads (&pattern, line, 4171600, TG_SCALE_REST_STANDING);
  for (gsize begin = 0; begin < size; begin++)
    for (gsize end = begin; end <= size; end++)
      if (begin > 0 || end < size)
        g_assert_cmpint (tg_scale_pattern_read (&pattern, line + begin, end - begin).kind, !=,
                         TG_SCALE_LINE_READING);
  for (gsize at = 0; at <= size; at++)
    for (int byte = 0; byte < 256; byte++)
      {
        g_autofree char *more = g_strdup_printf ("%.*s?%s", (int) at, line, line + at);

        more[at] = (char) byte;
        g_assert_cmpint (tg_scale_pattern_read (&pattern, more, size + 1).kind, !=,
                         TG_SCALE_LINE_READING);
      }
}

/* Law: random bytes are no reading, and never upset anything. */
static void
test_noise (void)
{
  TgScalePattern pattern = learned (SAMPLES ("S +  171.6 g|171.6|s", "D +   82.0 g||m"));
  g_autoptr (GRand) rand = g_rand_new_with_seed (9);

  for (guint round = 0; round < 50000; round++)
    {
      char line[TG_SCALE_LINE_MAX + 10];
      gsize length = (gsize) g_rand_int_range (rand, 0, sizeof line);

      for (gsize i = 0; i < length; i++)
        line[i] = (char) g_rand_int_range (rand, 0, 256);
      g_assert_cmpint (tg_scale_pattern_read (&pattern, line, length).kind, !=,
                       TG_SCALE_LINE_READING);
    }
}

static void
test_text (void)
{
  static const char good[] = "line-1 point 1 1 free g 0 unmarked any:reading:unit=g";
  static const char *const bad[] = {
    "",
    "line-1",
    "line-2 point 1 1 free g 0 unmarked any:reading:unit=g",
    "line-1 dot 1 1 free g 0 unmarked any:reading:unit=g",
    "line-1 point 1 7 free g 0 unmarked any:reading:unit=g",
    "line-1 point 1 1 loose g 0 unmarked any:reading:unit=g",
    "line-1 point 1 1 free stone 0 unmarked any:reading:unit=g",
    "line-1 point 1 1 free g 121 unmarked any:reading:unit=g",
    "line-1 point 1 1 free g 0 unmarked",
    "line-1 point 1 1 free g 0 unmarked any:unit=g",
    "line-1 point 1 1 free g 0 unmarked any:reading:reading",
    "line-1 point 1 1 free g 0 unmarked any:reading:text",
    "line-1 point 1 1 free g 0 unmarked any:reading:text=%0",
    "line-1 point 1 1 free g 0 unmarked any:reading:text=%00",
    "line-1 point 1 1 free g 0 unmarked any:reading:text=a=b=c=d=e",
    "line-1 point 1 1 free g 0 unmarked any:reading:text=abcdefghijklmnop",
    "line-1 point 1 1 free g 0 unmarked any:reading:unit=g ",
    "line-1  point 1 1 free g 0 unmarked any:reading:unit=g",
    "line-1 point 01 1 free g 0 unmarked any:reading:unit=g",
  };
  TgScalePattern pattern;
  g_autofree char *again = NULL;

  g_assert_true (tg_scale_pattern_from_text (good, &pattern));
  again = tg_scale_pattern_to_text (&pattern);
  g_assert_cmpstr (again, ==, good);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    g_assert_false (tg_scale_pattern_from_text (bad[i], &pattern));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale-pattern/plain", test_plain);
  g_test_add_func ("/scale-pattern/comma-and-units", test_comma_and_units);
  g_test_add_func ("/scale-pattern/fixed-width", test_fixed_width);
  g_test_add_func ("/scale-pattern/unit-is-mark", test_unit_is_mark);
  g_test_add_func ("/scale-pattern/other-forms", test_other_forms);
  g_test_add_func ("/scale-pattern/time", test_time);
  g_test_add_func ("/scale-pattern/questions", test_questions);
  g_test_add_func ("/scale-pattern/no-questions", test_no_questions);
  g_test_add_func ("/scale-pattern/fails", test_fails);
  g_test_add_func ("/scale-pattern/cut-lines", test_cut_lines);
  g_test_add_func ("/scale-pattern/noise", test_noise);
  g_test_add_func ("/scale-pattern/text", test_text);
  return g_test_run ();
}
