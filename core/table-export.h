/* table-export.h: readings and journal as tables
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * RFC 4180, decimal points, in the order of the journal.
 */
#pragma once

#include <glib.h>

#include "review.h"

G_BEGIN_DECLS

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
 * Columns: id, time, who, kind, entry (the words of tg_report_event()), struck.
 *
 * Returns: (transfer full)
 */
char *tg_table_export_journal (const TgJob *job, const TgReview *review);

G_END_DECLS
