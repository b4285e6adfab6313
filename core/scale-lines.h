/* scale-lines.h: lines from bytes as they come
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#include "scale-pattern.h"

G_BEGIN_DECLS

/**
 * TgScaleLines: a plain value
 * @text: the line so far, @length bytes of it
 * @skip: the line that is coming in is thrown away up to its end
 * @bytes, @lines, @dropped: seen so far: bytes, whole lines, lines that were too long
 */
typedef struct
{
  char text[TG_SCALE_LINE_MAX];
  gsize length;
  gboolean skip;
  guint64 bytes;
  guint64 lines;
  guint64 dropped;
} TgScaleLines;

/* Forgets the line so far; the next one is thrown away as well if its beginning may be @missing. */
void tg_scale_lines_begin (TgScaleLines *lines, gboolean missing);

/**
 * tg_scale_lines_next:
 * @data: (inout): bytes that came in; moved behind what was taken
 * @length: (inout): how many
 * @line: (out): a line, valid until the next call
 * @line_length: (out): its bytes, 1 to TG_SCALE_LINE_MAX
 *
 * CR, LF and CRLF end a line, wherever the bytes were split; empty lines are passed over.  A line
 * that is longer than any scale's is thrown away and counted.
 *
 * Returns: TRUE with a line; FALSE when all bytes were taken.
 */
gboolean tg_scale_lines_next (
    TgScaleLines *lines, const char **data, gsize *length, const char **line, gsize *line_length);

G_END_DECLS
