/* job-xml-save.c: a job onto the disk, atomically and durably, see job-xml.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLib writes NAME.XXXXXX beside the file, syncs it, renames it over the file and syncs the folder:
 * at any moment the name leads to the whole old or the whole new job.  This file adds what GLib
 * leaves out: a symbolic link is followed, the mode of the file is kept, the message is about the
 * file that the person knows.
 *
 * Limits: a hard link to the file keeps the old job; the owner becomes who saves.  A program killed
 * in the middle leaves a NAME.XXXXXX, which is not cleared away here because another program may be
 * writing it.  The name cannot guard against two programs that save in turns.
 */
#include "job-xml.h"

#include <errno.h>
#include <glib/gstdio.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "error.h"
#include "storable.h"

#define MAX_LINKS 16

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
tg_job_xml_save (const TgJob *job, const char *path, GError **error)
{
  g_autofree char *place = NULL;
  g_autoptr (GString) text = NULL;
  g_autoptr (GError) cause = NULL;
  struct stat status;
  gboolean exists;
  mode_t mode = 0644;

  g_return_val_if_fail (job != NULL && path != NULL, FALSE);

  place = follow_links (path, error);
  if (!place || !check_place (place, path, &status, &exists, error))
    return FALSE;
  text = tg_job_xml_format (job);
  if (text->len > TG_JOB_XML_MAX_BYTES)
    return refuse (error, path, "the job has become larger than can be read again");
  if (exists)
    mode = status.st_mode & 07777;
  if (!g_file_set_contents_full (place, text->str, (gssize) text->len,
                                 G_FILE_SET_CONTENTS_CONSISTENT | G_FILE_SET_CONTENTS_DURABLE,
                                 (int) mode, &cause))
    return refuse_written (error, path, cause);
  /* a new file obeys the umask, an old one is as its owner made it */
  if (exists && stat (place, &status) == 0 && (status.st_mode & 07777) != mode)
    (void) !chmod (place, mode);
  return TRUE;
}
