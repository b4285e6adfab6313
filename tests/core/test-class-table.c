/* test-class-table.c: practice jobs of a folder side by side
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "class-table.h"

#include <glib/gstdio.h>
#include <string.h>

#include "csv.h"
#include "debrief-case.h"
#include "fixture.h"
#include "job-xml.h"
#include "whole-file.h"

typedef struct
{
  char *folder;
} Fixture;

static void
save (const Fixture *fixture, const char *file, TgJob *job)
{
  g_autofree char *path = g_build_filename (fixture->folder, file, NULL);
  g_autoptr (GError) error = NULL;

  tg_job_xml_save (job, path, &error);
  g_assert_no_error (error);
  tg_job_free (job);
}

static TgJob *
practice (const char *name, const char *seed, double off_g)
{
  TgSetup *setup = case_setup (2, FALSE);
  TgJob *job;

  g_free (setup->name);
  setup->name = g_strdup (name);
  g_free (setup->practice.seed);
  setup->practice.seed = g_strdup (seed);
  job = tg_job_new (setup);
  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, off_g);
  return job;
}

static void
set_up (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *broken = NULL;
  g_autofree char *other = NULL;

  fixture->folder = g_dir_make_tmp ("class-XXXXXX", NULL);
  save (fixture, "b.tenthgram", practice ("Practice of B", "one", 0));
  save (fixture, "a.tenthgram", practice ("Practice of A", "one", 3));
  save (fixture, "c.tenthgram", practice ("Practice of C", "another", 0));
  save (fixture, "real.tenthgram", tg_job_new (fixture_setup (2, TRUE, FALSE)));
  broken = g_build_filename (fixture->folder, "broken.tenthgram", NULL);
  g_assert_true (tg_whole_file_save (broken, "no job", 6, NULL));
  other = g_build_filename (fixture->folder, "notes.txt", NULL);
  g_assert_true (tg_whole_file_save (other, "notes", 5, NULL));
}

static void
tear_down (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  GDir *dir = g_dir_open (fixture->folder, 0, NULL);
  const char *file;

  while ((file = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (fixture->folder, file, NULL);

      g_unlink (path);
    }
  g_dir_close (dir);
  g_rmdir (fixture->folder);
  g_free (fixture->folder);
}

static void
test_rows (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  static const char *const files[] = { "a.tenthgram", "b.tenthgram", "broken.tenthgram",
                                       "c.tenthgram", "real.tenthgram" };
  static const guint benches[] = { 1, 1, 0, 2, 0 };
  g_autoptr (TgClassTable) table = tg_class_table_new (fixture->folder, NULL);

  g_assert_cmpuint (table->rows->len, ==, G_N_ELEMENTS (files));
  for (guint i = 0; i < table->rows->len; i++)
    {
      const TgClassRow *row = g_ptr_array_index (table->rows, i);

      g_assert_cmpstr (row->file, ==, files[i]);
      g_assert_cmpuint (row->bench, ==, benches[i]);
      g_assert_true ((row->bench == 0) == (row->reason != NULL));
      g_assert_cmpuint (row->shared, ==, benches[i] == 1 ? 2 : benches[i] == 2 ? 1 : 0);
      if (row->debrief)
        g_assert_cmpuint (row->debrief->wrong, ==, i == 0);
    }
}

/* A copy of somebody's file with another name is still the same bench. */
static void
test_comparable (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autoptr (TgClassTable) table = tg_class_table_new (fixture->folder, NULL);
  g_autofree char *words = tg_class_table_comparable (table);
  g_autofree char *text = tg_class_table_text (table);

  g_assert_cmpstr (words, ==, "The same bench, and comparable: a.tenthgram and b.tenthgram.");
  g_assert_nonnull (strstr (text, "real.tenthgram: a job with real parts"));
  g_assert_nonnull (strstr (text, "broken.tenthgram: "));
  g_assert_nonnull (strstr (text, "a.tenthgram: Tester"));
  g_assert_null (strstr (text, "notes.txt"));
}

static void
test_table (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autoptr (TgClassTable) table = tg_class_table_new (fixture->folder, NULL);
  g_autofree char *csv = tg_class_table_csv (table);
  g_autoptr (GPtrArray) rows = tg_csv_parse (csv, strlen (csv), ',', NULL);
  const TgCsvRow *head = g_ptr_array_index (rows, 0);

  g_assert_cmpuint (rows->len, ==, 6);
  for (guint i = 1; i < rows->len; i++)
    {
      const TgCsvRow *row = g_ptr_array_index (rows, i);
      const TgClassRow *of = g_ptr_array_index (table->rows, i - 1);

      g_assert_cmpuint (row->fields->len, ==, head->fields->len);
      for (guint f = 0; f < head->fields->len; f++)
        if (g_str_equal (g_ptr_array_index (head->fields, f), "wrong") && of->debrief)
          g_assert_cmpuint ((guint) g_ascii_strtoull (g_ptr_array_index (row->fields, f), NULL, 10),
                            ==, of->debrief->wrong);
        else if (g_str_equal (g_ptr_array_index (head->fields, f), "rod_small_true_g") &&
                 of->debrief)
          g_assert_cmpfloat_with_epsilon (g_ascii_strtod (g_ptr_array_index (row->fields, f), NULL),
                                          of->debrief->bands[TG_BAND_ROD_SMALL].true_g, 0.0006);
    }
}

static void
test_no_folder (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autofree char *path = g_build_filename (fixture->folder, "nowhere", NULL);
  g_autoptr (GError) error = NULL;

  g_assert_null (tg_class_table_new (path, &error));
  g_assert_nonnull (error);
}

int
main (int argc, char **argv)
{
  static const struct
  {
    const char *path;
    void (*test) (Fixture *, gconstpointer);
  } tests[] = {
    { "/class-table/rows", test_rows },
    { "/class-table/comparable", test_comparable },
    { "/class-table/table", test_table },
    { "/class-table/no-folder", test_no_folder },
  };

  g_test_init (&argc, &argv, NULL);
  for (guint i = 0; i < G_N_ELEMENTS (tests); i++)
    g_test_add (tests[i].path, Fixture, NULL, set_up, tests[i].test, tear_down);
  return g_test_run ();
}
