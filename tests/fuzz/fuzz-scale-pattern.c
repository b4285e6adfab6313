/* fuzz-scale-pattern.c: any bytes as the lines of a scale, and as a stored pattern
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first byte says how many lines are samples; the first line is what the display showed.  A
 * pattern that was learned must read its sample as it was shown, come back from its text, and read
 * any other line without upset; a reading must be within what a mass can be.
 */
#include <stdint.h>
#include <string.h>

#include "error.h"
#include "scale-lines.h"

#define LINES 32

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static void
check_pattern (const TgScalePattern *pattern)
{
  g_autofree char *text = tg_scale_pattern_to_text (pattern);
  g_autofree char *same = NULL;
  g_autofree TgScalePattern *again = g_new0 (TgScalePattern, 1);

  g_assert_true (tg_scale_pattern_from_text (text, again));
  same = tg_scale_pattern_to_text (again);
  g_assert_cmpstr (text, ==, same);
}

/* Lines of @data, each up to TG_SCALE_LINE_MAX bytes; gives how many. */
static guint
collect (const char *data, gsize size, GBytes *lines[LINES])
{
  TgScaleLines collector = { 0 };
  const char *line;
  gsize length;
  guint n = 0;

  while (n < LINES && tg_scale_lines_next (&collector, &data, &size, &line, &length))
    lines[n++] = g_bytes_new (line, length);
  return n;
}

static void
read_all (const TgScalePattern *pattern, GBytes *lines[LINES], guint n)
{
  for (guint i = 0; i < n; i++)
    {
      gsize length;
      const char *line = g_bytes_get_data (lines[i], &length);
      TgScaleReading reading = tg_scale_pattern_read (pattern, line, length);

      g_assert_nonnull (tg_scale_line_label (reading.kind));
      g_assert_true (ABS (reading.mass) <= TG_MASS_MAX);
      g_assert_true (reading.kind == TG_SCALE_LINE_READING || reading.mass == 0);
    }
}

static void
learn_and_read (GBytes *lines[LINES], guint n, guint n_samples)
{
  TgScaleSample samples[TG_SCALE_MAX_SAMPLES] = { 0 };
  g_autofree TgScalePattern *pattern = g_new0 (TgScalePattern, 1);
  g_autofree char *shown = g_strndup (g_bytes_get_data (lines[0], NULL),
                                      g_bytes_get_size (lines[0]));
  g_autoptr (GPtrArray) questions = g_ptr_array_new_with_free_func (g_free);
  g_autoptr (GError) error = NULL;

  for (guint i = 0; i < n_samples; i++)
    {
      samples[i].line = g_bytes_get_data (lines[i + 1], &samples[i].length);
      samples[i].rest = (TgScaleRest) (samples[i].length % TG_N_SCALE_RESTS);
    }
  samples[0].shown = shown;
  if (tg_scale_pattern_learn (samples, n_samples, pattern, questions, &error))
    {
      g_assert_cmpint (tg_scale_pattern_read (pattern, samples[0].line, samples[0].length).kind, ==,
                       TG_SCALE_LINE_READING);
      check_pattern (pattern);
      read_all (pattern, lines, n);
    }
  else
    {
      g_assert_true (error->domain == TG_ERROR);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      g_assert_cmpuint (questions->len, ==, 0);
    }
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  GBytes *lines[LINES];
  g_autofree char *text = NULL;
  g_autofree TgScalePattern *stored = g_new0 (TgScalePattern, 1);
  guint n, n_samples;

  if (size < 1)
    return 0;
  n = collect ((const char *) data + 1, size - 1, lines);
  n_samples = MIN (1u + data[0] % TG_SCALE_MAX_SAMPLES, n > 0 ? n - 1 : 0);
  if (n_samples > 0)
    learn_and_read (lines, n, n_samples);
  text = g_strndup ((const char *) data + 1, size - 1);
  if (tg_scale_pattern_from_text (text, stored))
    check_pattern (stored);
  for (guint i = 0; i < n; i++)
    g_bytes_unref (lines[i]);
  return 0;
}
