/* class-table.h: the practice jobs of a folder side by side, for who teaches
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nothing is dropped: a file that cannot be read, or that is no practice job, stands in the table with
 * the reason.
 */
#pragma once

#include <glib.h>

#include "debrief.h"

G_BEGIN_DECLS

/* What the name of a job file ends with. */
#define TG_CLASS_SUFFIX ".tenthgram"

/**
 * TgClassRow: one file
 * @file: its name, without the folder
 * @reason: why it has no figures; NULL if it has
 * @who, @lesson, @seed: "" if not said
 * @bench: number of its bench from 1: files with the same number have the same setup and seed, and can
 *   be compared; 0 with @reason
 * @shared: how many files have that bench, this one included
 * @debrief: NULL with @reason
 * @setup: as the job began; NULL with @reason
 */
typedef struct
{
  char *file;
  char *reason;
  char *who;
  char *lesson;
  char *seed;
  guint bench;
  guint shared;
  TgDebrief *debrief;
  TgSetup *setup;
} TgClassRow;

/**
 * TgClassTable:
 * @rows: (element-type TgClassRow): by name of the file
 */
typedef struct
{
  char *folder;
  GPtrArray *rows;
} TgClassTable;

/**
 * tg_class_table_new:
 * @folder: its files that end with TG_CLASS_SUFFIX are read; folders in it are not
 *
 * Returns: (transfer full) (nullable): NULL if the folder cannot be read
 */
TgClassTable *tg_class_table_new (const char *folder, GError **error);
void tg_class_table_free (TgClassTable *table);

/* Minutes of work, of a row with figures. */
guint tg_class_row_minutes (const TgClassRow *row);

/* (transfer full): "0.31 / 0.5" for true spread and tolerance of @band; "" where the row has none */
char *tg_class_row_spread (const TgClassRow *row, TgBand band);

/* (transfer full): which files can be compared, a sentence for each bench that several share; or that
 * none can. */
char *tg_class_table_comparable (const TgClassTable *table);

/* (transfer full): for the terminal; and as RFC 4180 with decimal points, one row for each file */
char *tg_class_table_text (const TgClassTable *table);
char *tg_class_table_csv (const TgClassTable *table);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgClassTable, tg_class_table_free)

G_END_DECLS
