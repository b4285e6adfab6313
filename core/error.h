/* error.h: the one error domain of Tenthgram's core
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Faults of a person or a file come back as a GError of this domain, with a message that names the
 * thing, the value, the unit and (for files) the line.  Faults of the caller are g_return_* cases.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TG_ERROR (tg_error_quark ())

/**
 * TgError:
 * @TG_ERROR_SYNTAX: a text or file is not of the form that is expected
 * @TG_ERROR_RANGE: a value can be read but lies outside what is possible
 * @TG_ERROR_UNKNOWN: something is named that does not exist in this job
 * @TG_ERROR_DUPLICATE: an identifier stands twice
 * @TG_ERROR_VERSION: the file was written by a newer version
 * @TG_ERROR_FOREIGN: the file is XML, but no job of ours
 * @TG_ERROR_UNSAFE: the file uses something that is never accepted (document type, entities)
 * @TG_ERROR_SIZE: the file is larger than any real job
 * @TG_ERROR_IO: the file system refused
 */
typedef enum
{
  TG_ERROR_SYNTAX,
  TG_ERROR_RANGE,
  TG_ERROR_UNKNOWN,
  TG_ERROR_DUPLICATE,
  TG_ERROR_VERSION,
  TG_ERROR_FOREIGN,
  TG_ERROR_UNSAFE,
  TG_ERROR_SIZE,
  TG_ERROR_IO,
} TgError;

GQuark tg_error_quark (void);

G_END_DECLS
