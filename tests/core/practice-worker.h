/* practice-worker.h: somebody who goes through a practice job, carefully or not
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Does what the review says next, at the job's own bench, and knows no more than its display shows.
 * What it does and does not look after are its habits; without any it is careful.
 */
#pragma once

#include "job.h"
#include "practice-bench.h"
#include "review.h"

typedef enum
{
  PRACTICE_HABIT_HASTY = 1 << 0,    /* reads before the display has settled */
  PRACTICE_HABIT_NO_LOOK = 1 << 1,  /* does not look whether the rod touches anything */
  PRACTICE_HABIT_NO_ROCK = 1 << 2,  /* does not rock the bearing free */
  PRACTICE_HABIT_NO_ZERO = 1 << 3,  /* never looks at the empty scale */
  PRACTICE_HABIT_NO_TURN = 1 << 4,  /* leaves the rod as it lies and writes down the other way up */
  PRACTICE_HABIT_KEEPS = 1 << 5,    /* keeps what it is asked about instead of reading again */
  PRACTICE_HABIT_GREEDY = 1 << 6,   /* takes everything in one pass, and half as much again */
  PRACTICE_HABIT_ANYWHERE = 1 << 7, /* grinds at the first never zone that a part has */
} PracticeHabit;

/**
 * PracticeWorker:
 * @job, @bench: owned
 * @review: of @job as it is now
 * @seconds: since 1970, of the next entry
 * @readings: since the last look at the empty scale
 */
typedef struct
{
  TgJob *job;
  TgPracticeBench *bench;
  TgReview *review;
  guint habits;
  guint seconds;
  guint readings;
} PracticeWorker;

/* Takes @job, a practice job that may have begun. */
PracticeWorker *practice_worker_new (TgJob *job, guint habits);
void practice_worker_free (PracticeWorker *worker);

/* One deed each; what is read is appended, with the questions that the window would ask. */
void practice_worker_zero (PracticeWorker *worker);
void practice_worker_check_weight (PracticeWorker *worker);
void practice_worker_read (PracticeWorker *worker, TgSlot slot);
void practice_worker_grind (
    PracticeWorker *worker, guint part, guint zone, TgTool tool, guint seconds, double wanted_g);

/* Appends, with id and moment filled in; the event must be accepted. */
void practice_worker_append (PracticeWorker *worker, TgEvent event);

/**
 * practice_worker_step:
 *
 * What the review says next.  A careful worker reads on until the set is proven, where its scale can.
 * Returns: FALSE if nothing is left to do
 */
gboolean practice_worker_step (PracticeWorker *worker);

/* Steps until nothing is left; FALSE after @most. */
gboolean practice_worker_run (PracticeWorker *worker, guint most);

/* Heaviest minus lightest, truly, of a figure with what is carried with it; 0 without parts. */
double practice_worker_spread (const PracticeWorker *worker, TgBand band);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PracticeWorker, practice_worker_free)
