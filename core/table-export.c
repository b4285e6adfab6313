/* table-export.c: readings, plan and journal as tables, see table-export.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Masses are written with every decimal they have, so that what is read back is the same mass.
 */
#include "table-export.h"

#include "csv.h"
#include "report.h"
#include "word.h"

TG_DEFINE_WORDS (TgTableKind, table_kind, "readings", "plan", "journal")

static void
add_stamp (GString *out, TgStamp stamp)
{
  char text[TG_STAMP_SIZE];

  tg_stamp_format (stamp, text);
  tg_csv_add_field (out, text);
}

static void
add_reading (GString *out, const TgJob *job, const TgEvent *event, gboolean struck)
{
  const TgPart *part = tg_setup_find_part (tg_job_setup (job), event->part, NULL);
  TgPartKind kind = part->design->kind;
  g_autofree char *mass = tg_mass_format_exact (event->mass);

  tg_csv_add_field (out, event->id);
  add_stamp (out, event->stamp);
  tg_csv_add_field (out, part->name);
  tg_csv_add_field (out, tg_figure_label (kind, event->figure));
  tg_csv_add_field (out, tg_way_label (event->way));
  tg_csv_add_field (out, mass);
  tg_csv_add_field (out, event->kept ? "yes" : "no");
  tg_csv_add_field (out, event->sent ? "yes" : "no");
  tg_csv_add_field (out, struck ? "yes" : "no");
  tg_csv_add_field (out, event->who);
  tg_csv_add_field (out, event->text);
  tg_csv_end_row (out);
}

char *
tg_table_export_readings (const TgJob *job)
{
  GString *out = g_string_new ("id,time,part,figure,way,reading g,kept,sent,struck,who,note\r\n");
  g_autofree gboolean *struck = tg_job_struck (job);

  for (guint i = 0; i < tg_job_n_events (job); i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      if (event->kind == TG_EVENT_WEIGHING)
        add_reading (out, job, event, struck[i]);
    }
  return g_string_free (out, FALSE);
}

char *
tg_table_export_journal (const TgJob *job, const TgReview *review)
{
  GString *out = g_string_new ("id,time,who,kind,entry,struck\r\n");
  g_autofree gboolean *struck = tg_job_struck (job);

  for (guint i = 0; i < tg_job_n_events (job); i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      g_autofree char *words = tg_report_entry (review, job, i);

      tg_csv_add_field (out, event->id);
      add_stamp (out, event->stamp);
      tg_csv_add_field (out, event->who);
      tg_csv_add_field (out, tg_event_kind_to_word (event->kind));
      tg_csv_add_field (out, words);
      tg_csv_add_field (out, struck[i] ? "yes" : "no");
      tg_csv_end_row (out);
    }
  return g_string_free (out, FALSE);
}

char *
tg_table_marked (char *csv, const TgSetup *setup)
{
  g_autofree char *bare = csv;

  return setup->practice.on ? g_strconcat (TG_TABLE_PRACTICE " ", bare, NULL)
                            : g_steal_pointer (&bare);
}

char *
tg_table_export (const TgJob *job, const TgReview *review, TgTableKind kind)
{
  char *csv = kind == TG_TABLE_PLAN       ? tg_report_plan_csv (review)
              : kind == TG_TABLE_READINGS ? tg_table_export_readings (job)
                                          : tg_table_export_journal (job, review);

  return tg_table_marked (csv, tg_job_setup (job));
}
