/* test-table-export.c: readings and journal as tables
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures are invented.
 */
#include <string.h>

#include "fixture.h"
#include "table-export.h"
#include "table-import.h"

/* Two rods and two pistons weighed, with names that need care; one reading struck out. */
static TgJob *
new_job (gboolean with_events)
{
  TgSetup *setup = fixture_setup (2, TRUE, TRUE);
  TgJob *job;
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);
  TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);

  g_free (tg_setup_part (setup, 0)->name);
  tg_setup_part (setup, 0)->name = g_strdup ("Rod, the \"old\" one");
  g_free (tg_setup_part (setup, 1)->name);
  tg_setup_part (setup, 1)->name = g_strdup ("=Rod+2");
  job = tg_job_new (setup);
  if (!with_events)
    return job;
  for (guint i = 1; i <= 2; i++)
    {
      fixture_weigh_rod (job, i, 171.005 + i, 412.37 + i);
      fixture_weigh_piston (job, i, 520 + i);
    }
  reading.part = "piston-1";
  reading.figure = TG_FIGURE_WHOLE;
  reading.mass = 521100;
  reading.kept = TRUE;
  fixture_append (job, reading);
  reading.kept = FALSE;
  reading.sent = TRUE;
  fixture_append (job, reading);
  strike.refers = "e2";
  fixture_append (job, strike);
  fixture_target (job, TG_BAND_PISTON, 521);
  return job;
}

static TgTableImport *
import_text (const TgJob *job, const char *text)
{
  g_autoptr (GError) error = NULL;
  TgTableImport *import = tg_table_import_new (job, text, strlen (text), "export", NULL, &error);

  g_assert_no_error (error);
  return import;
}

/* Law: the job's own table brings nothing into it. */
static void
test_same_job (void)
{
  g_autoptr (TgJob) job = new_job (TRUE);
  g_autofree char *csv = tg_table_export_readings (job);
  g_autoptr (TgTableImport) import = import_text (job, csv);

  g_assert_cmpuint (import->n_new, ==, 0);
  g_assert_cmpuint (import->n_known, ==, 11);
  g_assert_cmpuint (import->n_problems, ==, 1);
  g_assert_nonnull (
      strstr (((TgTableRow *) g_ptr_array_index (import->rows, 2))->problem, "struck out"));
}

/* Law: in another job with the same parts every reading comes back as it was. */
static void
test_other_job (void)
{
  g_autoptr (TgJob) job = new_job (TRUE);
  g_autoptr (TgJob) empty = new_job (FALSE);
  g_autofree char *csv = tg_table_export_readings (job);
  g_autoptr (GString) uuids = g_string_new (csv);
  g_autoptr (TgTableImport) import = NULL;
  guint next = 0;

  /* the fixture numbers its events, the program draws UUIDs */
  g_string_replace (uuids, "\r\ne1", "\r\n2ed6657d-e927-568b-95e1-00000000001", 0);
  g_string_replace (uuids, "\r\ne", "\r\n2ed6657d-e927-568b-95e1-00000000000", 0);
  import = import_text (empty, uuids->str);
  g_assert_cmpuint (import->n_new, ==, 11);
  g_assert_cmpuint (import->n_problems, ==, 1);
  for (guint r = 0; r < import->rows->len; r++)
    {
      const TgTableRow *row = g_ptr_array_index (import->rows, r);
      const TgEvent *there = tg_job_event (job, next++);
      const TgEvent *event;

      if (row->problem)
        continue;
      event = &g_array_index (row->events, TgTableEvent, 0).event;
      g_assert_cmpstr (event->part, ==, there->part);
      g_assert_cmpint (event->figure, ==, there->figure);
      g_assert_cmpint (event->way, ==, there->way);
      g_assert_cmpint (event->mass, ==, there->mass);
      g_assert_cmpint (event->kept, ==, there->kept);
      g_assert_cmpint (event->sent, ==, there->sent);
      g_assert_true (g_uuid_string_is_valid (event->id));
    }
}

/* Law: readings of parts that are only weighed, spares too, come back as they were. */
static void
test_kinds (void)
{
  TgSetup *setup = fixture_setup (2, TRUE, TRUE);
  g_autoptr (TgJob) job = NULL, empty = NULL;
  g_autofree char *csv = NULL;
  g_autoptr (TgTableImport) import = NULL;
  g_autoptr (GArray) events = NULL;
  guint n = 0;

  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    fixture_add_family (setup, kind, 2);
  empty = tg_job_new (tg_setup_copy (setup));
  job = tg_job_new (setup);
  for (guint i = 0; i < setup->parts->len; i++)
    if (tg_setup_part (setup, i)->design->kind >= TG_PART_PIN)
      fixture_weigh (job, tg_setup_part (setup, i)->id, TG_FIGURE_WHOLE, TG_WAY_ANY,
                     40 + 0.1 * ++n);
  csv = tg_table_export_readings (job);
  g_assert_nonnull (strstr (csv, ",Rings 4,weight,,"));
  /* without their ids, which the program would draw */
  csv[1] = 'x';
  import = import_text (empty, csv);
  g_assert_cmpuint (import->n_problems, ==, 0);
  events = tg_table_import_new_events (import);
  g_assert_cmpuint (events->len, ==, n);
  g_assert_cmpuint (n, ==, 16);
  for (guint i = 0; i < n; i++)
    {
      const TgEvent *event = &g_array_index (events, TgEvent, i), *there = tg_job_event (job, i);

      g_assert_cmpstr (event->part, ==, there->part);
      g_assert_cmpint (event->figure, ==, TG_FIGURE_WHOLE);
      g_assert_cmpint (event->way, ==, TG_WAY_ANY);
      g_assert_cmpint (event->mass, ==, there->mass);
    }
}

static void
test_journal (void)
{
  g_autoptr (TgJob) job = new_job (TRUE);
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *csv = tg_table_export_journal (job, review);
  g_autoptr (GPtrArray) rows = tg_csv_parse (csv, strlen (csv), ',', NULL);

  g_assert_cmpuint (rows->len, ==, tg_job_n_events (job) + 1);
  for (guint i = 0; i < rows->len; i++)
    {
      const TgCsvRow *row = g_ptr_array_index (rows, i);

      g_assert_cmpuint (row->fields->len, ==, 6);
      if (i == 0)
        continue;
      g_assert_cmpstr (g_ptr_array_index (row->fields, 0), ==, tg_job_event (job, i - 1)->id);
      g_assert_cmpstr (g_ptr_array_index (row->fields, 5), ==, i == 3 ? "yes" : "no");
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/table-export/same-job", test_same_job);
  g_test_add_func ("/table-export/other-job", test_other_job);
  g_test_add_func ("/table-export/kinds", test_kinds);
  g_test_add_func ("/table-export/journal", test_journal);
  return g_test_run ();
}
