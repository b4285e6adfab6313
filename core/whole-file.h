/* whole-file.h: whole files from and to the disk
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/**
 * tg_whole_file_load:
 * @max: bytes
 * @error: TG_ERROR_IO; TG_ERROR_SIZE for more than @max; the message begins with the last part of
 *   @path
 *
 * Regular files only, so that it ends soon.
 * Returns: (transfer full)
 */
GString *tg_whole_file_load (const char *path, gsize max, GError **error);

/**
 * tg_whole_file_save:
 * @error: TG_ERROR_IO; the message begins with @path
 *
 * Replaces @path atomically and durably (temporary file in the same folder, fsync, rename, fsync of
 * the folder); a symbolic link is followed, the mode of an existing file is kept.  On failure the
 * old file is whole and the message says what the system said, without the temporary name.
 */
gboolean tg_whole_file_save (const char *path, const char *data, gsize size, GError **error);

G_END_DECLS
