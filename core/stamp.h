/* stamp.h: a moment with its offset from UTC, as it stands in the journal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * TgStamp:
 * @seconds: since 1970-01-01T00:00:00Z
 * @offset_min: minutes east of UTC of the clock that wrote it, -1439 to 1439
 */
typedef struct
{
  gint64 seconds;
  gint offset_min;
} TgStamp;

/**
 * tg_stamp_parse:
 * @text: ISO 8601 in the one form "2026-03-07T19:42:07+01:00" (offset "+00:00" for UTC)
 * @stamp: (out): untouched on failure
 *
 * Returns: FALSE if @text is not of that form or names a day or time that does not exist.
 */
gboolean tg_stamp_parse (const char *text, TgStamp *stamp);

#define TG_STAMP_SIZE 26

/* Writes the form that tg_stamp_parse() reads, 25 characters and the end. Years 1 to 9999 only. */
void tg_stamp_format (TgStamp stamp, char out[TG_STAMP_SIZE]);

/* Days since 1970-01-01 on the wall clock that wrote the stamp: equal numbers, same day. */
gint64 tg_stamp_day (TgStamp stamp);

/* "Sat 7 Mar 2026" and "19:42" on the wall clock that wrote the stamp. (transfer full) */
char *tg_stamp_format_day (TgStamp stamp);
char *tg_stamp_format_time (TgStamp stamp);

G_END_DECLS
