/* csv.h: tables as text: fields written and read as RFC 4180 wants them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Source: RFC 4180, Common Format and MIME Type for Comma-Separated Values (CSV) Files, section 2.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* The largest table that is read: bytes, rows, fields in a row. */
#define TG_CSV_MAX_SIZE (8u << 20)
#define TG_CSV_MAX_ROWS 50000
#define TG_CSV_MAX_FIELDS 64

/* -- writing: comma, CRLF, decimal point ------------------------------------------------------- */

/**
 * tg_csv_add_field:
 * @out: a table so far: empty, or ending with a whole row or with a field
 * @text: UTF-8, any characters
 *
 * Appends one field, with the comma that parts it from the field before.  A text that a spreadsheet
 * would take for a formula (it begins with =, +, -, @, a tab or a line end, and is no plain number)
 * gets an apostrophe in front, which the import takes off again.
 */
void tg_csv_add_field (GString *out, const char *text);

/* A finite @value with @decimals (0 to 9) behind a decimal point. */
void tg_csv_add_number (GString *out, double value, int decimals);
void tg_csv_add_count (GString *out, guint value);
/* @n empty fields. */
void tg_csv_add_blank (GString *out, guint n);
void tg_csv_end_row (GString *out);

/* -- reading ----------------------------------------------------------------------------------- */

/**
 * TgCsvRow:
 * @line: number of the line that the row begins on, from 1
 * @fields: (element-type utf8): at least one
 */
typedef struct
{
  guint line;
  GPtrArray *fields;
} TgCsvRow;

/**
 * tg_csv_parse:
 * @text: a table; a byte order mark in front is passed over
 * @length: bytes
 * @separator: ',', ';' or '\t'
 * @error: TG_ERROR_SYNTAX: not UTF-8, a NUL, a quoted field that does not end or that goes on after
 *   its end; TG_ERROR_SIZE: more than the limits above; the message names the line
 *
 * Lines end with CRLF, LF or CR.  Fields keep their blanks.  Lines without anything but blanks and
 * separators are passed over.  A quotation mark inside a field that does not begin with one, which
 * RFC 4180 leaves out, stands for itself.
 *
 * Returns: (transfer full) (element-type TgCsvRow): maybe empty; NULL on failure.
 */
GPtrArray *tg_csv_parse (const char *text, gsize length, char separator, GError **error);

G_END_DECLS
