/* job-xml.h: job files: read, check, write
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading goes in three steps: a safe parse (no network, no document type, no entities, bounded
 * size), the RELAX NG schema (data/job.rng, carried inside the program), and the rules that a
 * schema cannot say.  Every message gives file, line and cause.
 */
#pragma once

#include <glib.h>

#include "job.h"

G_BEGIN_DECLS

#define TG_JOB_XML_NAMESPACE "urn:tenthgram:job"
#define TG_JOB_XML_VERSION 1
#define TG_JOB_XML_MAX_BYTES (64 * 1024 * 1024)

/* (transfer full) (nullable): never half a job. @name is used in messages only. */
TgJob *tg_job_xml_parse (const char *data, gsize size, const char *name, GError **error);
TgJob *tg_job_xml_load (const char *path, GError **error);

/* (transfer full): the whole file as text; equal jobs give equal bytes. */
GString *tg_job_xml_format (const TgJob *job);

/* As tg_whole_file_save(). */
gboolean tg_job_xml_save (const TgJob *job, const char *path, GError **error);

G_END_DECLS
