/* new-job.h: the page that makes a new job
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_NEW_JOB (tg_new_job_get_type ())
G_DECLARE_FINAL_TYPE (TgNewJob, tg_new_job, TG, NEW_JOB, GtkBox)

GtkWidget *tg_new_job_new (void);

/**
 * tg_new_job_start:
 *
 * What "Start weighing" does: makes the job file and emits "created".
 * Returns: FALSE if something was refused: the reason stands beside it, everything typed stays.
 */
gboolean tg_new_job_start (TgNewJob *self);

/**
 * tg_new_job_advance:
 *
 * What Enter does: on to the next group of questions; from the last one it starts the job.
 */
void tg_new_job_advance (TgNewJob *self);

/* Asks for a practice bench as well: the job will be a practice job. */
void tg_new_job_set_practice (TgNewJob *self);

/* Puts the file into @folder instead of the person's documents. */
void tg_new_job_set_folder (TgNewJob *self, const char *folder);

/**
 * TgNewJob::created:
 * @session: (TgSession): the new job; its file is written
 *
 * TgNewJob::cancelled:
 */

G_END_DECLS
