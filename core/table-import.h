/* table-import.h: readings from a table that was made elsewhere
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pasted or saved table becomes a preview: for each row the weighings it would give, or the reason
 * why it cannot be read.  Nothing is changed; who takes the table over appends the events.
 *
 * Each event has an identifier that follows from what it says (UUID version 5 over: the name of the
 * source, part, figure, way, mass, and how many equal readings stand before it in the table).  So a
 * table that is imported again finds its readings in the job.  Of an edited table: rows that were
 * sorted, moved or put between others stay known; an added reading is new; a changed reading is new,
 * and the old one stays in the job until the person strikes it out; a removed row removes nothing.
 * A struck reading is not brought back.  The same table under another source name is another table.
 */
#pragma once

#include <glib.h>

#include "csv.h"
#include "job.h"

G_BEGIN_DECLS

/* What stands in a column. */
typedef enum
{
  TG_COLUMN_GUESS, /* in options only: found by its heading, or by its place if there is none */
  TG_COLUMN_IGNORE,
  TG_COLUMN_PART,    /* name, id or number of the part, "ring pack 2" */
  TG_COLUMN_FIGURE,  /* small end, big end, whole; maybe with the way */
  TG_COLUMN_WAY,     /* mark up, mark down */
  TG_COLUMN_READING, /* of the row's figure */
  TG_COLUMN_SMALL,   /* small end, the way as in the row */
  TG_COLUMN_SMALL_UP,
  TG_COLUMN_SMALL_DOWN,
  TG_COLUMN_BIG, /* big end, the way as in the row */
  TG_COLUMN_BIG_UP,
  TG_COLUMN_BIG_DOWN,
  TG_COLUMN_WHOLE,
  TG_COLUMN_ID,     /* of the event, in tables that this program wrote */
  TG_COLUMN_STRUCK, /* "yes": the row is struck out and not taken */
  TG_COLUMN_KEPT,   /* "yes": the person was asked about the reading and kept it */
  TG_COLUMN_SENT,   /* "yes": the scale sent the reading */
} TgColumn;
#define TG_N_COLUMNS 17

/* What a person reads: "not used", "part", "small end, mark up" …; "found by itself" for GUESS. */
const char *tg_column_label (TgColumn column);

/* TRUE for columns of which there may be several: readings of a figure. */
gboolean tg_table_column_has_readings (TgColumn column);

typedef enum
{
  TG_TABLE_HEADER_GUESS,
  TG_TABLE_HEADER_YES, /* the first row */
  TG_TABLE_HEADER_NO,
} TgTableHeader;

/**
 * TgTableOptions: all zero: everything is found out
 * @separator: ',', ';', '\t', or 0
 * @columns: by number of the column from 0
 * @marks: decimal mark by column: '.', ',', or 0
 * @way: of readings of an end that say no way; TG_WAY_ANY: such rows cannot be read
 */
typedef struct
{
  char separator;
  TgTableHeader header;
  TgColumn columns[TG_CSV_MAX_FIELDS];
  char marks[TG_CSV_MAX_FIELDS];
  TgWay way;
} TgTableOptions;

/**
 * TgTableEvent:
 * @event: a weighing; without stamp and who, which the importer fills in
 * @column: from 0
 * @known: the job has it already
 * @struck: and it is struck out there
 */
typedef struct
{
  TgEvent event;
  guint column;
  gboolean known;
  gboolean struck;
} TgTableEvent;

/**
 * TgTableRow:
 * @line: of the text, from 1
 * @cells: (element-type utf8)
 * @events: (element-type TgTableEvent): none if there is a @problem: a row is taken whole or not
 * @problem: (nullable): why not, with line, column and text; NULL if the row can be read
 */
typedef struct
{
  guint line;
  GPtrArray *cells;
  GArray *events;
  char *problem;
} TgTableRow;

/**
 * TgTableImport: the preview
 * @options: as given, with everything that was guessed filled in
 * @n_columns: of the widest row
 * @titles: (element-type utf8): @n_columns headings, "" where there are none
 * @rows: (element-type TgTableRow): without the heading
 * @n_new, @n_known: events; @n_problems: rows
 * @notes: (element-type utf8): what the person should look at before taking the table over
 * @problem: (nullable): why no row at all can be read: no column with a part, or none with a
 *   reading; then each row has a problem
 */
typedef struct
{
  TgTableOptions options;
  guint n_columns;
  GPtrArray *titles;
  GPtrArray *rows;
  guint n_new, n_known, n_problems;
  GPtrArray *notes;
  char *problem;
  /*< private >*/
  GPtrArray *csv;
  GStringChunk *strings;
} TgTableImport;

/**
 * tg_table_import_new:
 * @job: whose parts are meant; must live as long as the preview, whose events name its parts
 * @text: as pasted or read from a file
 * @length: bytes
 * @source: name of the file, or of the paste, as the person would know it again
 * @options: (nullable): NULL: everything is found out
 * @error: the errors of tg_csv_parse(); TG_ERROR_SYNTAX: there is nothing in the table
 *
 * Weights are in grams unless the heading or the cell names another unit.
 *
 * Returns: (transfer full): free with tg_table_import_free()
 */
TgTableImport *tg_table_import_new (const TgJob *job,
                                    const char *text,
                                    gsize length,
                                    const char *source,
                                    const TgTableOptions *options,
                                    GError **error);

void tg_table_import_free (TgTableImport *import);

/* (transfer full) (element-type TgEvent): what the job has not yet, in the order of the table; the
 * strings live as long as @import and its job. */
GArray *tg_table_import_new_events (const TgTableImport *import);

/* The decimal mark of all columns with readings; 0 if there is none, or if they differ. */
char tg_table_import_mark (const TgTableImport *import);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgTableImport, tg_table_import_free)

G_END_DECLS
