/* table-export.h: readings, plan and journal as tables
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * RFC 4180, decimal points, in the order of the journal.
 */
#pragma once

#include <glib.h>

#include "review.h"

G_BEGIN_DECLS

typedef enum
{
  TG_TABLE_READINGS,
  TG_TABLE_PLAN,
  TG_TABLE_JOURNAL,
} TgTableKind;
#define TG_N_TABLE_KINDS 3

/* The word in the heading of every table of a practice job. */
#define TG_TABLE_PRACTICE "practice"

/**
 * tg_table_marked:
 * @csv: (transfer full): a table of a job, with a heading
 * @setup: of the job
 *
 * Returns: (transfer full): of a practice job the same with TG_TABLE_PRACTICE before its first title, so
 *   that no import takes it for weights of real parts (table-import.h)
 */
char *tg_table_marked (char *csv, const TgSetup *setup);

/* "readings", "plan", "journal" */
const char *tg_table_kind_to_word (TgTableKind kind);
gboolean tg_table_kind_from_word (const char *word, TgTableKind *kind);

/* (transfer full): the table of @kind, marked; @review: of @job */
char *tg_table_export (const TgJob *job, const TgReview *review, TgTableKind kind);

/**
 * tg_table_export_readings:
 *
 * Columns: id, time, part (its name), figure, way, reading g, kept, sent, struck, who, note; one row
 * for each weighing, struck ones too.  Imported into the same job the table changes nothing; into a
 * job with the same part names it brings every reading that was not struck out, under its own id, as
 * the same fact (tg_job_merge()) if it had no note.
 *
 * Returns: (transfer full)
 */
char *tg_table_export_readings (const TgJob *job);

/**
 * tg_table_export_journal:
 * @review: of @job
 *
 * Columns: id, time, who, kind, entry (the words of tg_report_entry()), struck.
 *
 * Returns: (transfer full)
 */
char *tg_table_export_journal (const TgJob *job, const TgReview *review);

G_END_DECLS
