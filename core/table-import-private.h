/* table-import-private.h: what the files of table-import share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "mass-unit.h"
#include "table-import.h"

G_BEGIN_DECLS

/* What the words of a heading or a cell speak of. */
typedef enum
{
  TG_TABLE_SAYS_SMALL = 1 << 0,
  TG_TABLE_SAYS_BIG = 1 << 1,
  TG_TABLE_SAYS_WHOLE = 1 << 2,
  TG_TABLE_SAYS_UP = 1 << 3,
  TG_TABLE_SAYS_DOWN = 1 << 4,
  TG_TABLE_SAYS_READING = 1 << 5,
  TG_TABLE_SAYS_PART = 1 << 6,
  TG_TABLE_SAYS_ROD = 1 << 7,
  TG_TABLE_SAYS_PISTON = 1 << 8,
  TG_TABLE_SAYS_FIGURE = 1 << 9,
  TG_TABLE_SAYS_WAY = 1 << 10,
  TG_TABLE_SAYS_ID = 1 << 11,
  TG_TABLE_SAYS_STRUCK = 1 << 12,
  TG_TABLE_SAYS_KEPT = 1 << 13,
  TG_TABLE_SAYS_SENT = 1 << 14,
  TG_TABLE_SAYS_OTHER = 1 << 15,
  TG_TABLE_SAYS_PIN = 1 << 16,
  TG_TABLE_SAYS_RINGS = 1 << 17,
  TG_TABLE_SAYS_CLIPS = 1 << 18,
  TG_TABLE_SAYS_BEARINGS = 1 << 19,
  TG_TABLE_SAYS_SET = 1 << 20, /* inside: of a ring set no other word, of anything else one */
} TgTableSays;

#define TG_TABLE_ALL_KINDS ((1u << TG_N_PART_KINDS) - 1)

/* Flags of all words in @text; @unit (nullable) is set if one names a unit. */
guint tg_table_words (const char *text, TgMassUnit *unit);

/* 1 << TgPartKind of the kinds that are spoken of: "piston pin" speaks of pins. 0 for none. */
guint tg_table_kinds (guint says);

/* How many parts of the job @text may mean, and one of them.  A name counts whatever its kind; a
 * number, with or without its kind ("3", "ring pack 3"), for parts of @kinds only: it is that of the
 * bore when the job began, or of a spare's name. */
guint
tg_table_find_parts (const TgSetup *setup, const char *text, guint kinds, const TgPart **part);

/* The same for a kind without a number, "clips". */
guint tg_table_find_kind (const TgSetup *setup, const char *text, guint kinds, const TgPart **part);

/* Parses with the given or the likeliest separator, which is set in @options. */
GPtrArray *tg_table_split (const char *text, gsize length, TgTableOptions *options, GError **error);

/* Finds the heading, whose index is returned (-1: none), and sets columns and marks in @options. */
int tg_table_guess (const TgSetup *setup,
                    const GPtrArray *csv,
                    guint n_columns,
                    TgTableOptions *options,
                    GPtrArray *notes);

/* Cell @column of a row, "" where the row ends before. */
const char *tg_table_cell (const TgCsvRow *row, guint column);

G_END_DECLS
