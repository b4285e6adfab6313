/* class-table.c: the practice jobs of a folder side by side, see class-table.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "class-table.h"

#include <string.h>

#include "csv.h"
#include "job-xml.h"
#include "storable.h"

static void
row_free (TgClassRow *row)
{
  g_free (row->file);
  g_free (row->reason);
  g_free (row->who);
  g_free (row->lesson);
  g_free (row->seed);
  tg_debrief_free (row->debrief);
  if (row->setup)
    tg_setup_free (row->setup);
  g_free (row);
}

void
tg_class_table_free (TgClassTable *table)
{
  if (!table)
    return;
  g_free (table->folder);
  g_ptr_array_unref (table->rows);
  g_free (table);
}

/* -- reading --------------------------------------------------------------------------------------- */

static TgClassRow *
read_row (const char *folder, const char *file)
{
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) job = tg_job_xml_load (path, &error);
  TgClassRow *row = g_new0 (TgClassRow, 1);
  const TgPractice *practice = job ? &tg_job_setup (job)->practice : NULL;

  row->file = tg_storable_basename (file);
  row->who = g_strdup ("");
  row->lesson = g_strdup (practice && practice->on ? practice->lesson : "");
  row->seed = g_strdup (practice && practice->on ? practice->seed : "");
  if (!job)
    row->reason = g_strdup (error->message);
  else if (!practice->on)
    row->reason = g_strdup ("a job with real parts, not practice");
  if (row->reason)
    return row;
  row->setup = tg_setup_copy (tg_job_setup (job));
  row->debrief = tg_debrief_new (job);
  g_free (row->who);
  row->who = g_strdup (row->debrief->who ? row->debrief->who : "");
  return row;
}

/* The same bench: everything but the name of the job is the same. */
static gboolean
is_same_bench (const TgSetup *a, const TgSetup *b)
{
  g_autoptr (TgSetup) named = tg_setup_copy (b);

  g_free (named->name);
  named->name = g_strdup (a->name);
  return tg_setup_equal (a, named);
}

static void
number_benches (TgClassTable *table)
{
  guint n = 0;

  for (guint i = 0; i < table->rows->len; i++)
    {
      TgClassRow *row = g_ptr_array_index (table->rows, i);

      if (row->reason || row->bench > 0)
        continue;
      n++;
      for (guint j = i; j < table->rows->len; j++)
        {
          TgClassRow *other = g_ptr_array_index (table->rows, j);

          if (!other->reason && other->bench == 0 && is_same_bench (row->setup, other->setup))
            {
              other->bench = n;
              row->shared++;
            }
        }
      for (guint j = i; j < table->rows->len; j++)
        if (((TgClassRow *) g_ptr_array_index (table->rows, j))->bench == n)
          ((TgClassRow *) g_ptr_array_index (table->rows, j))->shared = row->shared;
    }
}

static gint
compare_rows (gconstpointer a, gconstpointer b)
{
  return strcmp ((*(TgClassRow *const *) a)->file, (*(TgClassRow *const *) b)->file);
}

TgClassTable *
tg_class_table_new (const char *folder, GError **error)
{
  GDir *dir = g_dir_open (folder, 0, error);
  TgClassTable *table;
  const char *file;

  if (!dir)
    return NULL;
  table = g_new0 (TgClassTable, 1);
  table->folder = tg_storable_path (folder);
  table->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) row_free);
  while ((file = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, file, NULL);

      if (g_str_has_suffix (file, TG_CLASS_SUFFIX) && !g_file_test (path, G_FILE_TEST_IS_DIR))
        g_ptr_array_add (table->rows, read_row (folder, file));
    }
  g_dir_close (dir);
  g_ptr_array_sort (table->rows, compare_rows);
  number_benches (table);
  return table;
}

/* -- words ------------------------------------------------------------------------------------------ */

guint
tg_class_row_minutes (const TgClassRow *row)
{
  return row->debrief ? (guint) ((row->debrief->work_s + 30) / 60) : 0;
}

char *
tg_class_row_spread (const TgClassRow *row, TgBand band)
{
  g_autofree char *spread = NULL;
  g_autofree char *tolerance = NULL;

  if (!row->debrief || !row->debrief->bands[band].present)
    return g_strdup ("");
  spread = tg_debrief_grams (row->setup, row->debrief->bands[band].true_g);
  tolerance = tg_mass_format_exact (tg_mass_from_g (row->debrief->bands[band].tolerance_g));
  return g_strdup_printf ("%s / %s", spread, tolerance);
}

static const TgClassRow *
row_at (const TgClassTable *table, guint i)
{
  return g_ptr_array_index (table->rows, i);
}

/* "a, b and c" */
static char *
files_of (const TgClassTable *table, guint bench)
{
  GString *out = g_string_new (NULL);
  guint left = 0;

  for (guint i = 0; i < table->rows->len; i++)
    left += row_at (table, i)->bench == bench;
  for (guint i = 0; i < table->rows->len; i++)
    if (row_at (table, i)->bench == bench)
      {
        left--;
        g_string_append_printf (out, "%s%s", row_at (table, i)->file,
                                left > 1    ? ", "
                                : left == 1 ? " and "
                                            : "");
      }
  return g_string_free (out, FALSE);
}

char *
tg_class_table_comparable (const TgClassTable *table)
{
  GString *out = g_string_new (NULL);
  guint told = 0;

  for (guint i = 0; i < table->rows->len; i++)
    {
      const TgClassRow *row = row_at (table, i);
      g_autofree char *files = NULL;

      /* at the first file of each bench */
      if (row->shared < 2 || row->bench <= told)
        continue;
      told = row->bench;
      files = files_of (table, row->bench);
      g_string_append_printf (out, "%sThe same bench, and comparable: %s.", out->len ? "\n" : "",
                              files);
    }
  if (out->len == 0)
    g_string_append (out,
                     "No two of these jobs have the same bench; their figures do not compare.");
  return g_string_free (out, FALSE);
}

static void
add_figures (GString *out, const TgClassRow *row)
{
  const TgDebrief *debrief = row->debrief;
  g_autofree char *removed = tg_debrief_grams (row->setup, debrief->metal.removed_g);
  g_autofree char *best = tg_debrief_grams (row->setup, debrief->metal.best_g);

  for (TgBand band = 0; band < TG_N_BANDS; band++)
    {
      g_autofree char *spread = tg_class_row_spread (row, band);

      if (spread[0])
        g_string_append_printf (out, "  true spread of the %s / tolerance: %s g\n",
                                tg_setup_band_label (row->setup, band), spread);
    }
  if (debrief->metal.known)
    g_string_append_printf (out, "  metal / least: %s / %s g\n", removed, best);
  else
    g_string_append_printf (out, "  metal: %s g; no least, the parts cannot be made even\n",
                            removed);
  g_string_append_printf (out,
                          "  passes: %u, forbidden: %u · readings: %u, wrong: %u · warnings "
                          "ignored: %u · minutes: %u%s\n",
                          debrief->passes, debrief->forbidden, debrief->readings, debrief->wrong,
                          debrief->ignored, tg_class_row_minutes (row),
                          debrief->done ? "" : " · not done");
}

char *
tg_class_table_text (const TgClassTable *table)
{
  GString *out = g_string_new (NULL);
  g_autofree char *comparable = tg_class_table_comparable (table);

  for (guint i = 0; i < table->rows->len; i++)
    {
      const TgClassRow *row = row_at (table, i);

      if (row->reason)
        {
          g_string_append_printf (out, "%s: %s\n", row->file, row->reason);
          continue;
        }
      g_string_append_printf (out, "%s: %s, bench %u (%s)\n", row->file,
                              row->who[0] ? row->who : "nobody yet", row->bench,
                              row->lesson[0] ? row->lesson : row->seed);
      add_figures (out, row);
    }
  if (table->rows->len == 0)
    g_string_append (out, "No job files in this folder.\n");
  else
    g_string_append_printf (out, "%s\n", comparable);
  return g_string_free (out, FALSE);
}

/* -- CSV --------------------------------------------------------------------------------------------- */

static const char *const spreads[TG_N_BANDS] = {
  [TG_BAND_ROD_SMALL] = "rod_small",
  [TG_BAND_ROD_BIG] = "rod_big",
  [TG_BAND_PISTON] = "piston",
  [TG_BAND_PISTON_ALONE] = "piston_alone",
};

static void
csv_head (GString *out)
{
  g_string_append (out, "file,reason,person,lesson,seed,bench,comparable,begun,finished,done");
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    g_string_append_printf (out, ",%s_true_g,%s_tolerance_g", spreads[band], spreads[band]);
  g_string_append (out, ",metal_g,least_g,passes,passes_careful,forbidden,readings,wrong,ignored,"
                        "minutes\r\n");
}

static void
csv_moment (GString *out, const TgDebrief *debrief, TgStamp stamp)
{
  char text[TG_STAMP_SIZE];

  if (debrief->begun)
    {
      tg_stamp_format (stamp, text);
      tg_csv_add_field (out, text);
    }
  else
    tg_csv_add_blank (out, 1);
}

static void
csv_figures (GString *out, const TgClassRow *row)
{
  const TgDebrief *debrief = row->debrief;
  const guint counts[] = { debrief->passes,           debrief->passes_careful, debrief->forbidden,
                           debrief->readings,         debrief->wrong,          debrief->ignored,
                           tg_class_row_minutes (row) };

  csv_moment (out, debrief, debrief->first);
  csv_moment (out, debrief, debrief->last);
  tg_csv_add_field (out, debrief->done ? "yes" : "no");
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    if (debrief->bands[band].present)
      {
        tg_csv_add_number (out, debrief->bands[band].true_g, 3);
        tg_csv_add_number (out, debrief->bands[band].tolerance_g, 3);
      }
    else
      tg_csv_add_blank (out, 2);
  tg_csv_add_number (out, debrief->metal.removed_g, 3);
  if (debrief->metal.known)
    tg_csv_add_number (out, debrief->metal.best_g, 3);
  else
    tg_csv_add_blank (out, 1);
  for (guint i = 0; i < G_N_ELEMENTS (counts); i++)
    tg_csv_add_count (out, counts[i]);
}

/* Columns after the seed, of a file without figures. */
#define N_FIGURES (5 + 2 * TG_N_BANDS + 9)

char *
tg_class_table_csv (const TgClassTable *table)
{
  GString *out = g_string_new (NULL);

  csv_head (out);
  for (guint i = 0; i < table->rows->len; i++)
    {
      const TgClassRow *row = row_at (table, i);

      tg_csv_add_field (out, row->file);
      tg_csv_add_field (out, row->reason ? row->reason : "");
      tg_csv_add_field (out, row->who);
      tg_csv_add_field (out, row->lesson);
      tg_csv_add_field (out, row->seed);
      if (row->reason)
        tg_csv_add_blank (out, N_FIGURES);
      else
        {
          tg_csv_add_count (out, row->bench);
          tg_csv_add_field (out, row->shared > 1 ? "yes" : "no");
          csv_figures (out, row);
        }
      tg_csv_end_row (out);
    }
  return g_string_free (out, FALSE);
}
