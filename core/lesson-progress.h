/* lesson-progress.h: how far somebody has come in a lesson
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A pure function of the lesson, the job and its review.  Steps go in their order.  The journal says
 * which were shown and what was answered; a practical step is done once its conditions hold and stays
 * done once the journal says so, whatever is read or ground after it.  An answer is judged by the job as
 * it was when it was given.
 */
#pragma once

#include "lesson.h"

G_BEGIN_DECLS

/**
 * TgLessonState: one step
 * @recorded: the journal says that it was done
 * @answers: (element-type utf8): of a question, in their order; lent by the job
 */
typedef struct
{
  gboolean done;
  gboolean recorded;
  GPtrArray *answers;
} TgLessonState;

/**
 * TgLessonProgress:
 * @steps: (element-type TgLessonState): as in the lesson
 * @current: the first that is not done; as many as there are steps when all are
 * @finished: all are done
 * @begun: anything was done in the lesson
 * @missing: (element-type utf8): what the current step, if it is a practical one, still asks for
 * @answer: (nullable): what is right at the current step, if it is a question
 */
typedef struct
{
  GPtrArray *steps;
  guint current;
  gboolean finished;
  gboolean begun;
  GPtrArray *missing;
  TgLessonAnswer *answer;
} TgLessonProgress;

/* @job: a practice job of @lesson, with as many of its events as @review saw */
TgLessonProgress *
tg_lesson_progress_new (const TgLesson *lesson, const TgJob *job, const TgReview *review);
void tg_lesson_progress_free (TgLessonProgress *progress);

static inline const TgLessonState *
tg_lesson_progress_step (const TgLessonProgress *progress, guint index)
{
  return (const TgLessonState *) g_ptr_array_index (progress->steps, index);
}

/**
 * tg_lesson_progress_due:
 *
 * Returns: (transfer full) (element-type TgEvent): what to append so that practical steps that are done
 *   stay done; they lend the ids of @lesson.  Empty most of the time.
 */
GArray *tg_lesson_progress_due (const TgLessonProgress *progress, const TgLesson *lesson);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLessonProgress, tg_lesson_progress_free)

G_END_DECLS
