/* fuzz-table-import.c: any bytes as a table of readings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every event of a preview must be accepted by the job, no two may share an id, and the same table
 * must then bring nothing new.
 */
#include <stdint.h>
#include <string.h>

#include "error.h"
#include "fixture.h"
#include "table-import.h"

int LLVMFuzzerTestOneInput (const uint8_t *data, size_t size);

static void
take (TgJob *job, const TgTableImport *import)
{
  guint events = 0, problems = 0;

  for (guint r = 0; r < import->rows->len; r++)
    {
      const TgTableRow *row = g_ptr_array_index (import->rows, r);

      problems += row->problem != NULL;
      g_assert_true ((row->problem != NULL) == (row->events->len == 0));
      g_assert_true (!row->problem || g_utf8_validate (row->problem, -1, NULL));
      for (guint e = 0; e < row->events->len; e++)
        {
          TgTableEvent found = g_array_index (row->events, TgTableEvent, e);
          g_autoptr (GError) error = NULL;

          g_assert_false (found.known);
          found.event.stamp = (TgStamp){ 1772900000, 60 };
          tg_job_append (job, &found.event, &error);
          g_assert_no_error (error);
          events++;
        }
    }
  g_assert_cmpuint (events, ==, import->n_new);
  g_assert_cmpuint (problems, ==, import->n_problems);
  g_assert_true (!import->problem || problems == import->rows->len);
}

static TgJob *
new_job (void)
{
  TgSetup *setup = fixture_setup (4, TRUE, TRUE);

  for (TgPartKind kind = TG_PART_PIN; kind < TG_N_PART_KINDS; kind++)
    fixture_add_family (setup, kind, 1);
  return tg_job_new (setup);
}

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t size)
{
  g_autoptr (TgJob) job = new_job ();
  g_autoptr (TgTableImport) import = NULL, again = NULL;
  g_autoptr (GError) error = NULL;
  const char *text = (const char *) data;

  import = tg_table_import_new (job, text, size, "fuzz", NULL, &error);
  if (!import)
    {
      g_assert_true (error->domain == TG_ERROR);
      g_assert_true (g_utf8_validate (error->message, -1, NULL));
      return 0;
    }
  take (job, import);
  again = tg_table_import_new (job, text, size, "fuzz", NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (again->n_new, ==, 0);
  g_assert_cmpuint (again->n_known, ==, import->n_new);
  g_assert_cmpuint (again->n_problems, ==, import->n_problems);
  return 0;
}
