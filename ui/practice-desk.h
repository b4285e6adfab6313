/* practice-desk.h: the bench of a practice job in the window: what lies on it, and since when
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The clock comes in here: a display settles while a person looks at it.  One desk belongs to one
 * session; all pages show the same.
 */
#pragma once

#include <glib-object.h>

#include "job.h"
#include "practice-bench.h"

G_BEGIN_DECLS

#define TG_TYPE_PRACTICE_DESK (tg_practice_desk_get_type ())
G_DECLARE_FINAL_TYPE (TgPracticeDesk, tg_practice_desk, TG, PRACTICE_DESK, GObject)

/* @job: a practice job; lent, and outlives the desk or is exchanged with tg_practice_desk_set_job() */
TgPracticeDesk *tg_practice_desk_new (const TgJob *job);

/* Another state of the same job: the bench is brought there, with nothing on it. */
void tg_practice_desk_set_job (TgPracticeDesk *desk, const TgJob *job);

/**
 * tg_practice_desk_follow:
 * @first: index of the first of the events that are new in the job
 *
 * Metal comes off, pieces come and go, the scale is set to zero.  Readings were taken from what lies
 * there already.
 */
void tg_practice_desk_follow (TgPracticeDesk *desk, guint first);

/* (lends) */
TgPracticeBench *tg_practice_desk_bench (TgPracticeDesk *desk);

/* As of TgPracticeBench; each emits "moved". */
void tg_practice_desk_lay (TgPracticeDesk *desk, const TgSlot *slot);
void tg_practice_desk_lay_weight (TgPracticeDesk *desk, TgMass nominal);
void tg_practice_desk_rock (TgPracticeDesk *desk);
void tg_practice_desk_set_zero (TgPracticeDesk *desk);

/* What the display shows now. */
TgMass tg_practice_desk_display (TgPracticeDesk *desk);

/* TRUE while the display may still change by itself, but for its flicker. */
gboolean tg_practice_desk_is_settling (TgPracticeDesk *desk);

/* As if so much time had passed: for tests. */
void tg_practice_desk_pass_time (TgPracticeDesk *desk, guint ms);

/**
 * TgPracticeDesk::moved:
 * Something was laid on, taken off, rocked, ground or set to zero.
 */

G_END_DECLS
