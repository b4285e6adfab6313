/* table-import.c: rows of a table as weighings; see table-import.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A row gives all its readings or none.  Cells without text give nothing; a cell that is not
 * understood makes the row a problem.  Nothing is carried down from the row above, and a way that is
 * not said is not assumed, unless the person said so for the table.  What is what is found out in
 * table-guess.c.
 */
#include "table-import.h"

#include <string.h>

#include "error.h"
#include "name-uuid.h"
#include "storable.h"
#include "table-export.h"
#include "table-import-private.h"

/* The namespace of readings from tables: 6ddf8c16-03ce-4002-929d-0c322dd3e961, drawn by lot. */
static const guint8 table_space[16] = { 0x6d, 0xdf, 0x8c, 0x16, 0x03, 0xce, 0x40, 0x02,
                                        0x92, 0x9d, 0x0c, 0x32, 0x2d, 0xd3, 0xe9, 0x61 };

typedef struct
{
  const TgJob *job;
  const TgSetup *setup;
  const char *source;
  TgTableImport *import;
  GHashTable *counts; /* name of a reading → how often it stood in the table so far */
  gboolean *struck;   /* events of the job */
  guint wayless;      /* rows of an end that do not say which way up */
  /* the row at hand */
  TgTableRow *row;
  const TgCsvRow *csv;
  const TgPart *part; /* the last that was found in it */
  guint part_kinds;
} Importer;

const char *
tg_column_label (TgColumn column)
{
  static const char *const labels[TG_N_COLUMNS] = {
    "found by itself",
    "not used",
    "part",
    "figure",
    "way",
    "reading",
    "small end",
    "small end, mark up",
    "small end, mark down",
    "big end",
    "big end, mark up",
    "big end, mark down",
    "whole",
    "id of the entry",
    "struck out",
    "kept after a question",
    "sent by the scale",
  };

  g_return_val_if_fail ((guint) column < TG_N_COLUMNS, NULL);

  return labels[column];
}

/* -- problems ---------------------------------------------------------------------------------- */

/* The first problem of a row stands. */
static gboolean
problem (Importer *importer, int column, const char *what)
{
  TgTableRow *row = importer->row;
  g_autofree char *cell = NULL, *title = NULL;

  if (row->problem)
    return FALSE;
  if (column < 0)
    {
      row->problem = g_strdup_printf ("Line %u: %s", row->line, what);
      return FALSE;
    }
  cell = tg_storable_shorten (tg_table_cell (importer->csv, (guint) column));
  title = tg_storable_shorten (g_ptr_array_index (importer->import->titles, (guint) column));
  row->problem = g_strdup_printf ("Line %u, column %d%s%s%s: “%s” %s", row->line, column + 1,
                                  title[0] ? " (" : "", title, title[0] ? ")" : "", cell, what);
  return FALSE;
}

/* -- cells ------------------------------------------------------------------------------------- */

static int
find_column (const TgTableImport *import, TgColumn column)
{
  for (guint c = 0; c < import->n_columns; c++)
    if (import->options.columns[c] == column)
      return (int) c;
  return -1;
}

static gboolean
is_empty (const char *cell)
{
  return cell[strspn (cell, " \t\r\n")] == '\0';
}

/* The row's cell in the first such column, "" if there is none. */
static const char *
cell_of (const Importer *importer, TgColumn column)
{
  int c = find_column (importer->import, column);

  return c < 0 ? "" : tg_table_cell (importer->csv, (guint) c);
}

static const char *
title_of (const Importer *importer, int column)
{
  return column < 0 ? "" : g_ptr_array_index (importer->import->titles, (guint) column);
}

/* The kinds of part that a heading speaks of; all if it names none. */
static guint
kinds_of (const char *title)
{
  guint kinds = tg_table_kinds (tg_table_words (title, NULL));

  return kinds ? kinds : TG_TABLE_ALL_KINDS;
}

/* The part of the row whose reading stands in @column. */
static const TgPart *
read_part (Importer *importer, guint reading)
{
  int column = find_column (importer->import, TG_COLUMN_PART);
  const char *cell = cell_of (importer, TG_COLUMN_PART);
  guint kinds = kinds_of (title_of (importer, column)) &
                kinds_of (title_of (importer, (int) reading));
  guint figure = tg_table_words (cell_of (importer, TG_COLUMN_FIGURE), NULL);
  const TgPart *part = NULL;
  guint found;

  /* only rods have ends */
  if (figure & (TG_TABLE_SAYS_SMALL | TG_TABLE_SAYS_BIG))
    kinds &= 1u << TG_PART_ROD;
  if (importer->part && importer->part_kinds == kinds)
    return importer->part;
  importer->part_kinds = kinds;
  found = tg_table_find_parts (importer->setup, cell, kinds, &part);
  if (found == 0)
    found = tg_table_find_kind (importer->setup, cell, kinds, &part);
  if (is_empty (cell))
    problem (importer, -1, "no part is named");
  else
    switch (found)
      {
      case 0:
        problem (importer, column, "is no part of this job");
        break;
      case 1:
        importer->part = part;
        return part;
      default:
        problem (importer, column, "can be more than one part of this job");
        break;
      }
  return NULL;
}

static gboolean
parse_mass (const char *text, char mark, TgMassUnit unit, TgMass *mass, const char **what)
{
  static const guint finest[TG_N_MASS_UNITS] = {
    [TG_MASS_UNIT_G] = 3,       [TG_MASS_UNIT_KG] = 6,    [TG_MASS_UNIT_LB] = 6,
    [TG_MASS_UNIT_OZ] = 6,      [TG_MASS_UNIT_GRAIN] = 6, [TG_MASS_UNIT_CARAT] = 6,
    [TG_MASS_UNIT_TROY_OZ] = 6, [TG_MASS_UNIT_DWT] = 6
  };
  g_autofree char *copy = g_strstrip (g_strdup (text));
  const char *number = copy + (*copy == '+'), *rest, *at;
  gsize length = strspn (number, "0123456789.,");
  TgMass found = 0;

  *what = "is not a weight";
  rest = number + length + strspn (number + length, " \t");
  if (*number == '-')
    *what = "is below zero";
  if (length == 0 || (*rest && !tg_mass_unit_find (rest, strlen (rest), &unit)))
    return FALSE;
  switch (tg_mass_unit_read (number, length, mark, unit, &found))
    {
    case TG_MASS_UNIT_FINE:
      break;
    case TG_MASS_UNIT_TOO_HEAVY:
      *what = "is heavier than any part of an engine";
      return FALSE;
    case TG_MASS_UNIT_NO_NUMBER:
    default:
      if (memchr (number, mark == '.' ? ',' : '.', length))
        *what = mark == '.' ? "has a comma where decimals stand behind a point"
                            : "has a point where decimals stand behind a comma";
      return FALSE;
    }
  at = memchr (number, mark, length);
  *what = found == 0 ? "is no weight of a part" : "is finer than a milligram";
  if (found == 0 || (at && (gsize) (number + length - at - 1) > finest[unit]))
    return FALSE;
  *mass = found;
  return TRUE;
}

/* What a column and the row say of figure and way. */
static guint
says_of (const Importer *importer, TgColumn column)
{
  const guint ways = TG_TABLE_SAYS_UP | TG_TABLE_SAYS_DOWN;
  guint way = tg_table_words (cell_of (importer, TG_COLUMN_WAY), NULL) & ways;

  switch (column)
    {
    case TG_COLUMN_SMALL:
      return TG_TABLE_SAYS_SMALL | way;
    case TG_COLUMN_SMALL_UP:
      return TG_TABLE_SAYS_SMALL | TG_TABLE_SAYS_UP;
    case TG_COLUMN_SMALL_DOWN:
      return TG_TABLE_SAYS_SMALL | TG_TABLE_SAYS_DOWN;
    case TG_COLUMN_BIG:
      return TG_TABLE_SAYS_BIG | way;
    case TG_COLUMN_BIG_UP:
      return TG_TABLE_SAYS_BIG | TG_TABLE_SAYS_UP;
    case TG_COLUMN_BIG_DOWN:
      return TG_TABLE_SAYS_BIG | TG_TABLE_SAYS_DOWN;
    case TG_COLUMN_WHOLE:
      return TG_TABLE_SAYS_WHOLE;
    default:
      return tg_table_words (cell_of (importer, TG_COLUMN_FIGURE), NULL) | way;
    }
}

static gboolean
read_figure (Importer *importer, const TgPart *part, guint column, TgEvent *event)
{
  TgColumn kind = importer->import->options.columns[column];
  int figure_column = find_column (importer->import, TG_COLUMN_FIGURE);
  guint says = says_of (importer, kind);
  gboolean named = kind != TG_COLUMN_READING || !is_empty (cell_of (importer, TG_COLUMN_FIGURE));
  g_autofree char *what = NULL;

  /* the weight of a pin in the row of its piston */
  if (!(kinds_of (title_of (importer, (int) column)) & 1u << part->design->kind))
    {
      what = g_strdup_printf ("stands under what is no weight of a %s",
                              tg_part_kind_label (part->design->kind));
      return problem (importer, (int) column, what);
    }
  if (kind == TG_COLUMN_READING && figure_column >= 0 && says & TG_TABLE_SAYS_OTHER)
    return problem (importer, figure_column, "is not small end, big end or whole");
  switch (says & (TG_TABLE_SAYS_SMALL | TG_TABLE_SAYS_BIG | TG_TABLE_SAYS_WHOLE))
    {
    case TG_TABLE_SAYS_SMALL:
      event->figure = TG_FIGURE_SMALL_END;
      break;
    case TG_TABLE_SAYS_BIG:
      event->figure = TG_FIGURE_BIG_END;
      break;
    case TG_TABLE_SAYS_WHOLE:
      event->figure = TG_FIGURE_WHOLE;
      break;
    default:
      if (part->design->kind == TG_PART_ROD && !named)
        return problem (importer, -1, "it does not say which end of the rod, or whole");
      /* all others have one weight, which their tables call "weight" */
      if (part->design->kind == TG_PART_ROD || (named && !(says & TG_TABLE_SAYS_READING)))
        return problem (importer, figure_column, "is not small end, big end or whole");
      event->figure = TG_FIGURE_WHOLE;
      break;
    }
  if (part->design->kind == TG_PART_ROD || event->figure == TG_FIGURE_WHOLE)
    return TRUE;
  what = g_strdup_printf ("would be the end of a %s, which has none",
                          tg_part_kind_label (part->design->kind));
  return problem (importer, (int) column, what);
}

static gboolean
read_way (Importer *importer, guint column, TgEvent *event)
{
  const guint ways = TG_TABLE_SAYS_UP | TG_TABLE_SAYS_DOWN;
  int way_column = find_column (importer->import, TG_COLUMN_WAY);
  TgColumn kind = importer->import->options.columns[column];
  gboolean from_row = kind == TG_COLUMN_READING || kind == TG_COLUMN_SMALL || kind == TG_COLUMN_BIG;
  guint says = says_of (importer, kind) & ways;

  event->way = TG_WAY_ANY;
  if (event->figure == TG_FIGURE_WHOLE)
    return TRUE;
  if (from_row && way_column >= 0 && says != TG_TABLE_SAYS_UP && says != TG_TABLE_SAYS_DOWN &&
      !is_empty (cell_of (importer, TG_COLUMN_WAY)))
    return problem (importer, way_column, "is not mark up or mark down");
  event->way = says == TG_TABLE_SAYS_UP     ? TG_WAY_MARK_UP
               : says == TG_TABLE_SAYS_DOWN ? TG_WAY_MARK_DOWN
                                            : importer->import->options.way;
  if (says != ways && event->way != TG_WAY_ANY)
    return TRUE;
  importer->wayless++;
  return problem (importer, -1, "it does not say which way up the rod lay");
}

/* -- identifiers ------------------------------------------------------------------------------- */

/* The identifier that follows from what the event says; see table-import.h. */
static char *
make_id (Importer *importer, const TgEvent *event)
{
  GString *name = g_string_new (importer->source);
  guint count;
  char *id;

  /* no part of it can hold a NUL, so no two readings share a name */
  g_string_append_c (name, '\0');
  g_string_append (name, event->part);
  g_string_append_c (name, '\0');
  g_string_append_printf (name, "%s %s %" G_GINT64_FORMAT, tg_figure_to_word (event->figure),
                          tg_way_to_word (event->way), event->mass);
  {
    g_autoptr (GBytes) key = g_bytes_new (name->str, name->len);

    count = GPOINTER_TO_UINT (g_hash_table_lookup (importer->counts, key)) + 1;
    g_hash_table_insert (importer->counts, g_steal_pointer (&key), GUINT_TO_POINTER (count));
  }
  g_string_append_printf (name, " %u", count);
  id = tg_name_uuid (table_space, name->str, name->len);
  g_string_free (name, TRUE);
  return id;
}

static gboolean
is_entry_id (const TgJob *job, const char *id)
{
  return g_uuid_string_is_valid (id) || tg_job_find_event (job, id) >= 0;
}

/* TRUE if the event that has this id in the job is the same weighing. */
static gboolean
is_same (const TgEvent *there, const TgEvent *event)
{
  return there->kind == TG_EVENT_WEIGHING && strcmp (there->part, event->part) == 0 &&
         there->figure == event->figure && there->way == event->way && there->mass == event->mass;
}

static gboolean
identify (Importer *importer, TgTableEvent *event)
{
  int column = find_column (importer->import, TG_COLUMN_ID);
  g_autofree char *given = g_strstrip (g_strdup (cell_of (importer, TG_COLUMN_ID)));
  g_autofree char *id = NULL;
  int there;

  if (given[0] && !is_entry_id (importer->job, given))
    return problem (importer, column, "is no id of an entry: set the column to “not used”");
  id = given[0] ? g_steal_pointer (&given) : make_id (importer, &event->event);
  event->event.id = g_string_chunk_insert (importer->import->strings, id);
  there = tg_job_find_event (importer->job, id);
  event->known = there >= 0;
  event->struck = there >= 0 && importer->struck[there];
  if (event->known && !is_same (tg_job_event (importer->job, (guint) there), &event->event))
    return problem (importer, column, "is the id of another entry of this job");
  return TRUE;
}

/* -- rows -------------------------------------------------------------------------------------- */

/* "yes" in a column that the table may have; anything but yes, no and nothing is a problem. */
static gboolean
read_flag (Importer *importer, TgColumn column)
{
  g_autofree char *cell = g_strstrip (g_strdup (cell_of (importer, column)));

  if (g_ascii_strcasecmp (cell, "yes") == 0)
    return TRUE;
  if (cell[0] != '\0' && g_ascii_strcasecmp (cell, "no") != 0)
    problem (importer, find_column (importer->import, column), "is neither yes nor no");
  return FALSE;
}

static gboolean
read_cell (Importer *importer, const TgPart *part, guint column)
{
  const TgTableOptions *options = &importer->import->options;
  TgTableEvent event = { .event = tg_event_blank (TG_EVENT_WEIGHING), .column = column };
  TgMassUnit unit = TG_MASS_UNIT_G;
  const char *what;

  tg_table_words (title_of (importer, (int) column), &unit);
  event.event.part = part->id;
  event.event.kept = read_flag (importer, TG_COLUMN_KEPT);
  event.event.sent = read_flag (importer, TG_COLUMN_SENT);
  if (!parse_mass (tg_table_cell (importer->csv, column), options->marks[column], unit,
                   &event.event.mass, &what))
    return problem (importer, (int) column, what);
  if (!read_figure (importer, part, column, &event.event) ||
      !read_way (importer, column, &event.event))
    return FALSE;
  g_array_append_val (importer->row->events, event);
  return TRUE;
}

/* (nullable): why a table cannot be taken over, whatever it says: real and practice do not mix.  The
 * first row counts whether or not its titles are understood or said to be titles. */
static const char *
check_practice (const TgTableImport *import, const TgSetup *setup, int heading)
{
  if (setup->practice.on)
    return "this is a practice job: its readings come from its own bench only";
  for (int row = 0; row <= MAX (heading, 0); row++)
    for (guint c = 0; c < import->n_columns; c++)
      {
        const char *cell = tg_table_cell (g_ptr_array_index (import->csv, (guint) row), c);
        g_autofree char *title = g_utf8_casefold (cell, -1);

        if (g_strstr_len (title, -1, TG_TABLE_PRACTICE))
          return "these are readings from a practice bench: a job with real parts does not take "
                 "them";
      }
  return NULL;
}

static void
read_cells (Importer *importer)
{
  const TgTableImport *import = importer->import;

  if (read_flag (importer, TG_COLUMN_STRUCK))
    problem (importer, find_column (import, TG_COLUMN_STRUCK),
             "says that the reading was struck out");
  for (guint c = 0; !importer->row->problem && c < import->n_columns; c++)
    if (tg_table_column_has_readings (import->options.columns[c]) &&
        !is_empty (tg_table_cell (importer->csv, c)))
      {
        const TgPart *part = read_part (importer, c);

        if (part)
          read_cell (importer, part, c);
      }
  if (!importer->row->problem && importer->row->events->len == 0)
    problem (importer, -1, "there is no reading in it");
  if (find_column (import, TG_COLUMN_ID) >= 0 && importer->row->events->len > 1 &&
      !is_empty (cell_of (importer, TG_COLUMN_ID)))
    problem (importer, find_column (import, TG_COLUMN_ID),
             "is one id for several readings: set the column to “not used”");
}

static void
row_free (TgTableRow *row)
{
  g_array_unref (row->events);
  g_free (row->problem);
  g_free (row);
}

static void
read_row (Importer *importer, const TgCsvRow *csv)
{
  TgTableImport *import = importer->import;
  TgTableRow *row = g_new0 (TgTableRow, 1);

  row->line = csv->line;
  row->cells = csv->fields;
  row->events = g_array_new (FALSE, FALSE, sizeof (TgTableEvent));
  importer->row = row;
  importer->csv = csv;
  importer->part = NULL;
  g_ptr_array_add (import->rows, row);
  if (import->problem)
    problem (importer, -1, "nothing is read before it is known what stands in the columns");
  else
    read_cells (importer);
  for (guint e = 0; !row->problem && e < row->events->len; e++)
    identify (importer, &g_array_index (row->events, TgTableEvent, e));
  if (row->problem)
    {
      g_array_set_size (row->events, 0);
      import->n_problems++;
    }
}

/* Counts what is new and what is known; the second of two rows with the same id is a problem. */
static void
count_events (Importer *importer)
{
  TgTableImport *import = importer->import;
  g_autoptr (GHashTable) seen = g_hash_table_new (g_str_hash, g_str_equal);

  for (guint r = 0; r < import->rows->len; r++)
    {
      TgTableRow *row = g_ptr_array_index (import->rows, r);

      for (guint e = 0; e < row->events->len; e++)
        {
          const TgTableEvent *event = &g_array_index (row->events, TgTableEvent, e);

          if (!g_hash_table_add (seen, (gpointer) event->event.id))
            {
              row->problem = g_strdup_printf ("Line %u: its id stands in a row before", row->line);
              g_array_set_size (row->events, 0);
              import->n_problems++;
              break;
            }
          import->n_known += event->known;
          import->n_new += !event->known;
        }
    }
}

/* The same facts under another name: "rod-1 small-end mark-up 171600" */
static char *
fact_of (const TgEvent *event)
{
  return g_strdup_printf ("%s %s %s %" G_GINT64_FORMAT, event->part,
                          tg_figure_to_word (event->figure), tg_way_to_word (event->way),
                          event->mass);
}

/* A table that was taken over under another name gives its readings other ids. */
static void
note_alike (Importer *importer)
{
  g_autoptr (GArray) events = tg_table_import_new_events (importer->import);
  g_autoptr (GHashTable) facts = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL);
  guint alike = 0;

  for (guint i = 0; i < tg_job_n_events (importer->job); i++)
    if (tg_job_event (importer->job, i)->kind == TG_EVENT_WEIGHING && !importer->struck[i])
      g_hash_table_add (facts, fact_of (tg_job_event (importer->job, i)));
  for (guint i = 0; i < events->len; i++)
    {
      g_autofree char *fact = fact_of (&g_array_index (events, TgEvent, i));

      alike += g_hash_table_contains (facts, fact);
    }
  /* one alike is nothing unusual */
  if (alike > 1 && alike == events->len)
    g_ptr_array_add (importer->import->notes,
                     g_strdup ("Each of the new readings stands in the journal already, from "
                               "elsewhere. Take them over only if the parts were weighed again."));
}

/* (nullable): why no row can be read */
static const char *
check_columns (const TgTableImport *import)
{
  if (find_column (import, TG_COLUMN_PART) < 0)
    return "no column is known to name the part: say which one does";
  for (guint c = 0; c < import->n_columns; c++)
    if (tg_table_column_has_readings (import->options.columns[c]))
      return NULL;
  return "no column is known to have readings: say which ones do";
}

/* A column headed "id" that was guessed counts only if it can be of this program's making. */
static void
check_id_column (TgTableImport *import, const TgJob *job, int heading)
{
  int column = find_column (import, TG_COLUMN_ID);

  for (guint i = (guint) (heading + 1); column >= 0 && i < import->csv->len; i++)
    {
      const char *cell = tg_table_cell (g_ptr_array_index (import->csv, i), (guint) column);

      if (!is_entry_id (job, cell))
        {
          import->options.columns[column] = find_column (import, TG_COLUMN_PART) < 0
                                                ? TG_COLUMN_PART : TG_COLUMN_IGNORE;
          return;
        }
    }
}

static int
prepare (TgTableImport *import, const TgJob *job)
{
  int id_before, heading;

  for (guint i = 0; i < import->csv->len; i++)
    import->n_columns = MAX (import->n_columns,
                             ((TgCsvRow *) g_ptr_array_index (import->csv, i))->fields->len);
  id_before = find_column (import, TG_COLUMN_ID);
  heading = tg_table_guess (tg_job_setup (job), import->csv, import->n_columns, &import->options,
                            import->notes);
  if (id_before < 0)
    check_id_column (import, job, heading);
  for (guint c = 0; c < import->n_columns; c++)
    g_ptr_array_add (
        import->titles,
        g_strdup (heading < 0
                      ? ""
                      : tg_table_cell (g_ptr_array_index (import->csv, (guint) heading), c)));
  return heading;
}

TgTableImport *
tg_table_import_new (const TgJob *job,
                     const char *text,
                     gsize length,
                     const char *source,
                     const TgTableOptions *options,
                     GError **error)
{
  g_autoptr (TgTableImport) import = NULL;
  g_autofree gboolean *struck = NULL;
  Importer importer = { .job = job, .source = source };
  int heading;

  g_return_val_if_fail (job != NULL && source != NULL, NULL);
  g_return_val_if_fail (text != NULL || length == 0, NULL);

  import = g_new0 (TgTableImport, 1);
  if (options)
    import->options = *options;
  import->titles = g_ptr_array_new_with_free_func (g_free);
  import->notes = g_ptr_array_new_with_free_func (g_free);
  import->rows = g_ptr_array_new_with_free_func ((GDestroyNotify) row_free);
  import->strings = g_string_chunk_new (4096);
  import->csv = tg_table_split (text, length, &import->options, error);
  if (!import->csv)
    return NULL;
  importer.import = import;
  importer.setup = tg_job_setup (job);
  if (import->csv->len == 0)
    {
      g_set_error_literal (error, TG_ERROR, TG_ERROR_SYNTAX, "there is nothing in the table");
      return NULL;
    }
  heading = prepare (import, job);
  import->problem = g_strdup (check_practice (import, importer.setup, heading));
  if (!import->problem)
    import->problem = g_strdup (check_columns (import));
  importer.struck = struck = tg_job_struck (job);
  importer.counts = g_hash_table_new_full (g_bytes_hash, g_bytes_equal,
                                           (GDestroyNotify) g_bytes_unref, NULL);
  for (guint i = (guint) (heading + 1); i < import->csv->len; i++)
    read_row (&importer, g_ptr_array_index (import->csv, i));
  g_hash_table_unref (importer.counts);
  count_events (&importer);
  note_alike (&importer);
  if (importer.wayless > 1)
    g_ptr_array_add (
        import->notes,
        g_strdup (
            "If all rods lay the same way up, say so once for the table, under “Ends without a "
            "way up”."));
  return g_steal_pointer (&import);
}

void
tg_table_import_free (TgTableImport *import)
{
  if (!import)
    return;
  g_ptr_array_unref (import->titles);
  g_ptr_array_unref (import->notes);
  g_ptr_array_unref (import->rows);
  g_free (import->problem);
  g_clear_pointer (&import->csv, g_ptr_array_unref);
  g_string_chunk_free (import->strings);
  g_free (import);
}

GArray *
tg_table_import_new_events (const TgTableImport *import)
{
  GArray *events = g_array_new (FALSE, FALSE, sizeof (TgEvent));

  g_return_val_if_fail (import != NULL, events);

  for (guint r = 0; r < import->rows->len; r++)
    {
      const TgTableRow *row = g_ptr_array_index (import->rows, r);

      for (guint e = 0; e < row->events->len; e++)
        {
          const TgTableEvent *found = &g_array_index (row->events, TgTableEvent, e);

          if (!found->known)
            g_array_append_val (events, found->event);
        }
    }
  return events;
}

char
tg_table_import_mark (const TgTableImport *import)
{
  char mark = 0;

  g_return_val_if_fail (import != NULL, 0);

  for (guint c = 0; c < import->n_columns; c++)
    if (tg_table_column_has_readings (import->options.columns[c]))
      {
        if (mark && mark != import->options.marks[c])
          return 0;
        mark = import->options.marks[c];
      }
  return mark;
}
