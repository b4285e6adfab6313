/* session.h: the one object round a job: appends, saves, announces
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Holds the job, its file and the review of the moment.  Every event is on disk before "changed" is
 * emitted.  This is where the clock, the random ids and the person's name come in; nothing below
 * knows them.
 */
#pragma once

#include <gio/gio.h>

#include "job.h"
#include "library.h"
#include "practice-desk.h"
#include "review.h"

G_BEGIN_DECLS

#define TG_TYPE_SESSION (tg_session_get_type ())
G_DECLARE_FINAL_TYPE (TgSession, tg_session, TG, SESSION, GObject)

/**
 * tg_session_open:
 * @path: an existing job file
 *
 * Returns: (transfer full) (nullable)
 */
TgSession *tg_session_open (const char *path, GError **error);

/**
 * tg_session_create:
 * @setup: (transfer full): passes tg_setup_check()
 * @path: where the new file goes; written at once
 *
 * Returns: (transfer full) (nullable)
 */
TgSession *tg_session_create (TgSetup *setup, const char *path, GError **error);

/**
 * tg_session_reload:
 *
 * Reads the file again, for instance after another window wrote to it.  On failure everything stays.
 */
gboolean tg_session_reload (TgSession *session, GError **error);

/* TRUE if the file was changed by somebody else since it was last read or written here. */
gboolean tg_session_is_stale (TgSession *session);

/* (lends): valid until the next "changed" */
const TgJob *tg_session_job (TgSession *session);
const TgReview *tg_session_review (TgSession *session);
const TgLibrary *tg_session_library (TgSession *session);
const char *tg_session_path (TgSession *session);

/**
 * tg_session_append:
 * @events: (array length=n): kind and fields; stamp and who are filled in here, and the id where it is
 *   "" (readings from a table bring theirs along)
 *
 * In a practice job readings and passes are marked as such.  All or nothing: appended, saved durably, reviewed, then "changed".  On failure the job is as
 * before and the file on disk is the last good one.
 */
gboolean tg_session_append (TgSession *session, const TgEvent *events, guint n, GError **error);

/* Strikes out the event at @index, or, if it is struck, strikes its strike. */
gboolean tg_session_toggle_strike (TgSession *session, guint index, GError **error);

/**
 * tg_session_undo:
 *
 * Strikes out the last thing that was done and is not struck.  What was appended together goes
 * together: a pass with its decisions, the readings of one table; those of a table only as long as
 * the session lives, since the file does not say what belonged together.
 * Returns: FALSE without @error if there is nothing left to take back.
 */
gboolean tg_session_undo (TgSession *session, GError **error);

/* Index of the event that tg_session_undo() would strike first, or -1. */
int tg_session_last_done (TgSession *session);

/* The part being worked on: index into the parts. Property "part", notifies. */
guint tg_session_part (TgSession *session);
void tg_session_set_part (TgSession *session, guint part);

/* (lends) (nullable): the bench of a practice job, NULL of a real one */
TgPracticeDesk *tg_session_desk (TgSession *session);

/* TRUE if no pass has been logged on the present day yet (for the cautions). */
gboolean tg_session_first_grinding_today (TgSession *session);

/* TRUE if nothing was weighed on the present day yet, and the empty scale was not looked at. */
gboolean tg_session_first_weighing_today (TgSession *session);

/* TRUE if @stamp is of the present day. */
gboolean tg_session_is_today (TgStamp stamp);

/**
 * TgSession::changed:
 * The job has a new event, on disk; the review is new.
 */

G_END_DECLS
