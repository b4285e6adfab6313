/* whole-file.c: whole files from and to the disk, see whole-file.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Saving: GLib writes NAME.XXXXXX beside the file, syncs it, renames it over the file and syncs the
 * folder: at any moment the name leads to the whole old or the whole new file.  This file adds what
 * GLib leaves out: a symbolic link is followed, the mode of the file is kept, the message is about
 * the file that the person knows.
 *
 * Limits: a hard link to the file keeps the old data; the owner becomes who saves.  A program killed
 * in the middle leaves a NAME.XXXXXX, which is not cleared away here because another program may be
 * writing it.  The name cannot guard against two programs that save in turns.
 */
#include "whole-file.h"

#include <errno.h>
#include <fcntl.h>
#include <glib/gstdio.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "error.h"
#include "storable.h"

#define MAX_LINKS 16

/* -- saving ------------------------------------------------------------------------------------ */

static gboolean
refuse (GError **error, const char *path, const char *cause)
{
  g_autofree char *shown = tg_storable_path (path);

  g_set_error (error, TG_ERROR, TG_ERROR_IO, "%s: could not be saved: %s", shown, cause);
  return FALSE;
}

/* Where @path leads, also if the last link leads to a file that is not there yet. */
static char *
follow_links (const char *path, GError **error)
{
  g_autofree char *place = g_strdup (path);

  for (guint i = 0; i < MAX_LINKS; i++)
    {
      g_autofree char *link = g_file_read_link (place, NULL);
      g_autofree char *folder = NULL;
      char *target;

      if (!link)
        return g_steal_pointer (&place);
      folder = g_path_get_dirname (place);
      target = g_path_is_absolute (link) ? g_strdup (link) : g_build_filename (folder, link, NULL);
      g_free (place);
      place = target;
    }
  refuse (error, path, g_strerror (ELOOP));
  return NULL;
}

/* The words of the system at the end of GLib's message, which names a temporary file. */
static gboolean
refuse_written (GError **error, const char *path, const GError *cause)
{
  const char *colon = strrchr (cause->message, ':');

  return refuse (error, path, colon ? colon + 2 : cause->message);
}

static gboolean
check_place (
    const char *place, const char *path, struct stat *status, gboolean *exists, GError **error)
{
  *exists = stat (place, status) == 0;
  if (!*exists)
    return errno == ENOENT || refuse (error, path, g_strerror (errno));
  if (S_ISDIR (status->st_mode))
    return refuse (error, path, "this is a folder");
  if (!S_ISREG (status->st_mode))
    return refuse (error, path, "this is not a file with data");
  if (access (place, W_OK) != 0)
    return refuse (error, path, g_strerror (errno));
  return TRUE;
}

gboolean
tg_whole_file_save (const char *path, const char *data, gsize size, GError **error)
{
  g_autofree char *place = NULL;
  g_autoptr (GError) cause = NULL;
  struct stat status;
  gboolean exists;
  mode_t mode = 0644;

  g_return_val_if_fail (path != NULL && data != NULL, FALSE);

  place = follow_links (path, error);
  if (!place || !check_place (place, path, &status, &exists, error))
    return FALSE;
  if (exists)
    mode = status.st_mode & 07777;
  if (!g_file_set_contents_full (place, data, (gssize) size,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE,
                                 (int) mode, &cause))
    return refuse_written (error, path, cause);
  /* a new file obeys the umask, an old one is as its owner made it */
  if (exists && stat (place, &status) == 0 && (status.st_mode & 07777) != mode)
    (void) !chmod (place, mode);
  return TRUE;
}

/* -- loading ----------------------------------------------------------------------------------- */

static gboolean
read_all (int fd, gsize max, GString *into)
{
  char buffer[65536];
  gssize got;

  for (;;)
    {
      got = read (fd, buffer, sizeof buffer);
      if (got < 0 && errno == EINTR)
        continue;
      if (got <= 0)
        return got == 0;
      g_string_append_len (into, buffer, got);
      if (into->len > max) /* grew meanwhile */
        return TRUE;
    }
}

static gboolean
read_file (int fd, gsize max, GString *into, const char *name, GError **error)
{
  struct stat status;
  int code = TG_ERROR_IO;
  const char *cause = NULL;
  g_autofree char *too_large = NULL;

  if (fd < 0 || fstat (fd, &status) != 0)
    cause = g_strerror (errno);
  else if (S_ISDIR (status.st_mode))
    cause = "this is a folder";
  else if (!S_ISREG (status.st_mode))
    cause = "this is not a file with data";
  else if (status.st_size <= (off_t) max && !read_all (fd, max, into))
    cause = g_strerror (errno);
  else if (status.st_size > (off_t) max || into->len > max)
    {
      code = TG_ERROR_SIZE;
      cause = too_large = g_strdup_printf ("the file has more than %u MiB, no real one has",
                                           (guint) (max >> 20));
    }
  if (cause)
    g_set_error (error, TG_ERROR, code, "%s: %s", name, cause);
  return cause == NULL;
}

GString *
tg_whole_file_load (const char *path, gsize max, GError **error)
{
  g_autofree char *name = NULL;
  GString *data = g_string_new (NULL);
  gboolean done;
  int fd;

  g_return_val_if_fail (path != NULL, NULL);

  name = tg_storable_basename (path);
  /* not blocking, so that opening a pipe by mistake does not hang */
  fd = g_open (path, O_RDONLY | O_CLOEXEC | O_NONBLOCK, 0);
  done = read_file (fd, max, data, name, error);
  if (fd >= 0)
    close (fd);
  if (!done)
    g_string_free (g_steal_pointer (&data), TRUE);
  return data;
}
