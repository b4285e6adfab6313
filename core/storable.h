/* storable.h: numbers and texts as a file can hold them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TG_STORABLE_ID 64     /* bytes of an identifier */
#define TG_STORABLE_NAME 200  /* bytes of a name */
#define TG_STORABLE_TEXT 4000 /* bytes of a reason or a note */

/* Bytes of a list of places: 600 parts with ids of 55 bytes.  With the longest text beside it, all
 * of it escaped, its element stays under the 64 KiB that xml.h reads. */
#define TG_STORABLE_PLACES 36000

/**
 * tg_storable_check:
 * @text: what a person typed or a file holds
 * @max: bytes, the terminating zero not counted
 * @what: the thing, for the message: "note", "name of the job"
 * @error: TG_ERROR_SYNTAX if @text is not UTF-8 or has a character that XML 1.0 (section 2.2, Char)
 *   cannot carry, TG_ERROR_RANGE if it is longer than @max
 */
gboolean tg_storable_check (const char *text, gsize max, const char *what, GError **error);

/* (transfer full): @text for a message: valid UTF-8 on one line, at most 40 characters and "…". */
char *tg_storable_shorten (const char *text);

/* (transfer full): a path, or the last part of it, for a message: valid UTF-8 on one line. */
char *tg_storable_path (const char *path);
char *tg_storable_basename (const char *path);

/**
 * tg_storable_parse_number:
 * @number: (out): untouched on failure
 *
 * Digits with a decimal point and perhaps an exponent, whatever the locale; no blanks, plus sign,
 * hexadecimals, infinities or NaN.
 */
gboolean tg_storable_parse_number (const char *text, double *number);

#define TG_STORABLE_NUMBER_SIZE 32

/* Writes at most 10 significant digits if they read back equal, else 17. Lends @out. */
const char *tg_storable_format_number (double number, char out[TG_STORABLE_NUMBER_SIZE]);

G_END_DECLS
