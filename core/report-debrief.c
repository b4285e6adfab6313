/* report-debrief.c: a debrief in words and as a table, see report-debrief.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "report-debrief.h"

#include "csv.h"

static void
add_head (GString *out, const TgDebrief *debrief, const TgJob *job)
{
  const TgSetup *setup = tg_job_setup (job);

  g_string_append_printf (out, "%s\n", setup->name);
  if (setup->practice.lesson[0])
    g_string_append_printf (out, "Lesson: %s\n", setup->practice.lesson);
  g_string_append_printf (out, "Bench: %s\n", setup->practice.seed);
  if (debrief->who)
    g_string_append_printf (out, "Worked by: %s\n", debrief->who);
  if (!debrief->done)
    g_string_append (out, "The set is not done yet.\n");
}

static void
add_line (GString *out, const TgDebriefLine *line)
{
  g_autofree char *careful = tg_debrief_careful_words (line);

  g_string_append_printf (out, "  [%s] %s", tg_debrief_verdict_label (line->verdict), line->text);
  if (line->event >= 0)
    g_string_append_printf (out, " (entry %d)", line->event + 1);
  g_string_append_c (out, '\n');
  if (careful[0])
    g_string_append_printf (out, "    %s\n", careful);
}

char *
tg_debrief_text (const TgDebrief *debrief, const TgJob *job)
{
  GString *out = g_string_new (NULL);
  guint topic = TG_N_DEBRIEF_TOPICS;

  add_head (out, debrief, job);
  for (guint i = 0; i < debrief->lines->len; i++)
    {
      const TgDebriefLine *line = g_ptr_array_index (debrief->lines, i);

      if (line->topic != topic)
        g_string_append_printf (out, "\n%s\n", tg_debrief_topic_label (line->topic));
      topic = line->topic;
      add_line (out, line);
    }
  return g_string_free (out, FALSE);
}

char *
tg_debrief_csv (const TgDebrief *debrief, const TgJob *job)
{
  GString *out = g_string_new ("topic,verdict,entry,moment,text,careful\r\n");

  for (guint i = 0; i < debrief->lines->len; i++)
    {
      const TgDebriefLine *line = g_ptr_array_index (debrief->lines, i);
      char moment[TG_STAMP_SIZE];

      tg_csv_add_field (out, tg_debrief_topic_to_word (line->topic));
      tg_csv_add_field (out, tg_debrief_verdict_label (line->verdict));
      if (line->event >= 0)
        {
          tg_stamp_format (tg_job_event (job, (guint) line->event)->stamp, moment);
          tg_csv_add_count (out, (guint) line->event + 1);
          tg_csv_add_field (out, moment);
        }
      else
        tg_csv_add_blank (out, 2);
      tg_csv_add_field (out, line->text);
      tg_csv_add_field (out, line->careful);
      tg_csv_end_row (out);
    }
  return g_string_free (out, FALSE);
}
