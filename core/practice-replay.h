/* practice-replay.h: the bench of a practice job, brought to where its journal stands
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A job file holds the seed and the journal and no true weight: they follow from these two.  What was
 * done to metal is done, whether its entry was struck out or not; a piece whose coming was struck out
 * never came.
 */
#pragma once

#include <glib.h>

#include "job.h"
#include "practice-bench.h"

G_BEGIN_DECLS

/**
 * tg_practice_replay:
 * @job: a practice job; its setup must outlive the bench
 * @n: of its first events, at most tg_job_n_events()
 *
 * Lays on what was read, sets to zero where that was said, takes off what passes took, and puts in
 * other pieces.  A pass that was not counted in seconds lasted as long as its tool takes on average for
 * what was wanted.
 *
 * Returns: (transfer full): the bench with nothing on it
 */
TgPracticeBench *tg_practice_replay (const TgJob *job, guint n);

/* One more event of the same job; what is no deed at the bench does nothing. */
void tg_practice_replay_event (TgPracticeBench *bench, const TgJob *job, const TgEvent *event);

/**
 * tg_practice_pass_seconds:
 *
 * Returns: how long a pass lasted or would last: as it was counted, each stroke for a second, or as long
 * as @event.tool takes on average for what was wanted, at least 1
 */
guint
tg_practice_pass_seconds (const TgPracticeBench *bench, const TgJob *job, const TgEvent *event);

G_END_DECLS
