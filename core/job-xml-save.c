/* job-xml-save.c: a job onto the disk, atomically and durably, see job-xml.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "job-xml.h"

#include "error.h"
#include "storable.h"
#include "whole-file.h"

gboolean
tg_job_xml_save (const TgJob *job, const char *path, GError **error)
{
  g_autoptr (GString) text = NULL;
  g_autofree char *shown = NULL;

  g_return_val_if_fail (job != NULL && path != NULL, FALSE);

  text = tg_job_xml_format (job);
  if (text->len <= TG_JOB_XML_MAX_BYTES)
    return tg_whole_file_save (path, text->str, text->len, error);
  shown = tg_storable_path (path);
  g_set_error (error, TG_ERROR, TG_ERROR_IO,
               "%s: could not be saved: the job has become larger than can be read again", shown);
  return FALSE;
}
