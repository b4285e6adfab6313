/* test-table-preview.c: the preview of a table in words
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All readings are invented.
 */
#include "table-preview.h"

#include <string.h>

#include "fixture.h"

typedef struct
{
  TgJob *job;
  TgReview *review;
  TgTableImport *import;
} Fixture;

static void
tear_down (Fixture *fixture)
{
  tg_table_import_free (fixture->import);
  tg_review_free (fixture->review);
  tg_job_free (fixture->job);
}

G_DEFINE_AUTO_CLEANUP_CLEAR_FUNC (Fixture, tear_down)

static TgTableImport *
import_text (const TgJob *job, const char *text)
{
  g_autoptr (GError) error = NULL;
  TgTableImport *import = tg_table_import_new (job, text, strlen (text), "table", NULL, &error);

  g_assert_no_error (error);
  return import;
}

/* Takes over @first, then previews @text. */
static Fixture
look_at (const char *first, const char *text)
{
  Fixture fixture = { .job = tg_job_new (fixture_setup (2, TRUE, TRUE)) };

  if (first)
    {
      g_autoptr (TgTableImport) import = import_text (fixture.job, first);
      g_autoptr (GArray) events = tg_table_import_new_events (import);

      for (guint i = 0; i < events->len; i++)
        g_assert_true (tg_job_append (fixture.job, &g_array_index (events, TgEvent, i), NULL));
    }
  fixture.review = tg_review_new (fixture.job);
  fixture.import = import_text (fixture.job, text);
  return fixture;
}

static void
check (char *got, const char *expected)
{
  g_assert_cmpstr (got, ==, expected);
  g_free (got);
}

static void
check_row (const Fixture *fixture, guint index, const char *status, const char *words)
{
  const TgTableRow *row = g_ptr_array_index (fixture->import->rows, index);

  check (tg_table_preview_status (row), status);
  check (tg_table_preview_row (row, fixture->review), words);
}

static void
test_rows (void)
{
  g_auto (Fixture) fixture = look_at ("rod,small up,small down\n1,171.6,171.7\n",
                                      "rod;small up;small down;big up\n1;171,6;171,7;\n"
                                      "1;;171,7;412,3\n2;171,5;;\n9;1;1;1\n");

  check (tg_table_preview_counts (fixture.import),
         "3 new readings, 2 known already, 1 row cannot be read");
  check (tg_table_preview_form (fixture.import), "semicolons, decimal comma, with headings");
  check_row (&fixture, 0, "2 known already",
             "Rod 1, small end, mark up: 171.6 g; small end, mark down: 171.7 g");
  check_row (&fixture, 1, "2 new",
             "Rod 1, small end, mark down: 171.7 g; big end, mark up: 412.3 g");
  check (tg_table_preview_row_short (g_ptr_array_index (fixture.import->rows, 0), fixture.review),
         "Rod 1: 171.6 g; 171.7 g");
  check (tg_table_preview_row_short (g_ptr_array_index (fixture.import->rows, 2), fixture.review),
         "Rod 2, small end, mark up: 171.5 g");
  check_row (&fixture, 2, "new", "Rod 2, small end, mark up: 171.5 g");
  check_row (&fixture, 3, "cannot be read", "Line 5, column 1 (rod): “9” is no part of this job");
}

static void
test_nothing_new (void)
{
  static const char table[] = "Piston 1\t520\nPiston 2\t521.5\n";
  g_auto (Fixture) fixture = look_at (table, table);

  check (tg_table_preview_counts (fixture.import), "nothing new, 2 known already");
  check (tg_table_preview_form (fixture.import), "tabs, decimal point, without headings");
  check_row (&fixture, 1, "known already", "Piston 2: 521.5 g");
  check (tg_table_preview_readings (1), "1 reading");
  check (tg_table_preview_readings (2), "2 readings");
}

static void
test_struck (void)
{
  static const char table[] = "piston,g\n1,520\n";
  g_auto (Fixture) fixture = look_at (table, table);
  g_autoptr (TgTableImport) again = NULL;
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

  strike.id = "strike";
  strike.refers = tg_job_event (fixture.job, 0)->id;
  g_assert_true (tg_job_append (fixture.job, &strike, NULL));
  again = import_text (fixture.job, table);
  check (tg_table_preview_status (g_ptr_array_index (again->rows, 0)), "known already, struck out");
}

static void
test_text (void)
{
  g_auto (Fixture)
      fixture = look_at (NULL, "About pistons,,\npiston,who,g\n1,Ada,520\n2,Ada,heavy\n");

  check (tg_table_preview_text (fixture.import, fixture.review, TRUE),
         "table: commas, decimal point, with headings\n"
         "  column 1 (piston): part\n  column 2 (who): not used\n  column 3 (g): reading\n"
         "  line 3, new: Piston 1: 520.0 g\n"
         "  cannot be read: Line 4, column 3 (g): “heavy” is not a weight\n"
         "  note: What stands above the headings is passed over.\n");
  check (tg_table_preview_text (fixture.import, fixture.review, FALSE),
         "table: commas, decimal point, with headings\n"
         "  column 1 (piston): part\n  column 2 (who): not used\n  column 3 (g): reading\n"
         "  cannot be read: Line 4, column 3 (g): “heavy” is not a weight\n"
         "  note: What stands above the headings is passed over.\n");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/table-preview/rows", test_rows);
  g_test_add_func ("/table-preview/nothing-new", test_nothing_new);
  g_test_add_func ("/table-preview/struck", test_struck);
  g_test_add_func ("/table-preview/text", test_text);
  return g_test_run ();
}
