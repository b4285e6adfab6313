/* job.h: the facts: a setup and its journal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nothing is ever erased from a job; events are appended.  Everything derived is in review.h.
 */
#pragma once

#include <glib.h>

#include "event.h"
#include "setup.h"

G_BEGIN_DECLS

#define TG_JOB_MAX_EVENTS 200000

typedef struct _TgJob TgJob;

/* Takes @setup, which must pass tg_setup_check(). */
TgJob *tg_job_new (TgSetup *setup);
void tg_job_free (TgJob *job);

TgJob *tg_job_copy (const TgJob *job);

/* (transfer full): the same job as it stood after its first @n events, at most tg_job_n_events(): what
 * was struck out later is not struck yet. */
TgJob *tg_job_first (const TgJob *job, guint n);

/* (lends): the setup as the job began; valid as long as @job */
const TgSetup *tg_job_setup (const TgJob *job);

guint tg_job_n_events (const TgJob *job);

/* (lends): valid until the next append */
const TgEvent *tg_job_event (const TgJob *job, guint index);

/* Index of the event called @id, or -1. */
int tg_job_find_event (const TgJob *job, const char *id);

/**
 * tg_job_append:
 * @event: copied, strings too
 * @error: TG_ERROR_DUPLICATE: the id stands already; TG_ERROR_UNKNOWN: part, zone, path or event
 *   that is not there; TG_ERROR_RANGE: a mass that cannot be, a figure that the part has not,
 *   more than TG_JOB_MAX_EVENTS, a value that can never hold; TG_ERROR_SYNTAX: an empty id, a value
 *   or text of the wrong form, a moment outside the years 1 to 9999
 *
 * Only the fields that matter to its kind are kept (tg_event_plain()).
 * On failure the job is as before.
 */
gboolean tg_job_append (TgJob *job, const TgEvent *event, GError **error);

/* Takes the last event back; for a save that failed before anything was shown as recorded. */
void tg_job_drop_last (TgJob *job);

/**
 * tg_job_merge:
 * @other: the same job from another bench: equal setup
 * @error: TG_ERROR_RANGE if the setups differ, TG_ERROR_DUPLICATE if an id stands for two things
 *
 * Union of the events of both, in order of time then id; but what followed something in one of the
 * journals still follows it, also within a second or where a clock was set back (of two facts that
 * the journals have in opposite orders, the earlier comes first). Struck events stay struck. Which of
 * the two comes first makes no difference, and merging again changes nothing.
 *
 * Events with the same id that differ in nothing but stamp and who are the same fact, written down at
 * both benches: one table of readings imported at each. The earlier moment is kept, of two within a
 * second the lesser name, and then the lesser offset. An id with any other difference is refused.
 * Returns: (transfer full): a new job.
 */
TgJob *tg_job_merge (const TgJob *job, const TgJob *other, GError **error);

/**
 * tg_job_struck:
 *
 * A strike that is itself struck has no effect.
 * Returns: (transfer full): tg_job_n_events() flags: TRUE where the event is struck out.
 */
gboolean *tg_job_struck (const TgJob *job);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgJob, tg_job_free)

G_END_DECLS
