/* lesson-walk.h: somebody who goes through a lesson at its bench, step by step
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shown steps are read, practical ones are done by a practice worker with its habits, questions are
 * answered as the lesson has it.
 */
#pragma once

#include "lesson-progress.h"
#include "practice-worker.h"

/* At the lesson's beginning. */
PracticeWorker *lesson_walk_new (const TgLesson *lesson, guint habits);

/* Appends what practical steps that are done leave in the journal. */
TgLessonProgress *lesson_walk_look (PracticeWorker *worker, const TgLesson *lesson);

/* Reads on, or answers with @answer. */
void lesson_walk_step (PracticeWorker *worker, const TgLessonStep *step, const char *answer);

/**
 * lesson_walk_run:
 * @to: id of the step to stop before, or NULL for the end
 * @most: deeds at the bench
 *
 * Returns: whether it came there
 */
gboolean
lesson_walk_run (PracticeWorker *worker, const TgLesson *lesson, const char *to, guint most);
