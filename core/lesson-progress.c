/* lesson-progress.c: how far somebody has come in a lesson, see lesson-progress.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Since steps go in their order, an entry about one says that those before it were done.  So at most one
 * answer has to be judged by the job as it was.
 */
#include "lesson-progress.h"

#include <string.h>

static void
state_free (TgLessonState *state)
{
  g_ptr_array_unref (state->answers);
  g_free (state);
}

void
tg_lesson_progress_free (TgLessonProgress *progress)
{
  g_ptr_array_unref (progress->steps);
  g_ptr_array_unref (progress->missing);
  g_clear_pointer (&progress->answer, tg_lesson_answer_free);
  g_free (progress);
}

static int
find_step (const TgLesson *lesson, const char *id)
{
  for (guint i = 0; i < lesson->steps->len; i++)
    if (strcmp (tg_lesson_step (lesson, i)->id, id) == 0)
      return (int) i;
  return -1;
}

static gboolean
was_right (const TgLessonStep *step, const TgJob *job, guint event)
{
  g_autoptr (TgJob) before = tg_job_first (job, event);
  g_autoptr (TgReview) review = tg_review_new (before);
  g_autoptr (TgLessonAnswer) answer = tg_lesson_answer_new (step->question, review);

  return tg_lesson_answer_judge (answer, tg_job_event (job, event)->value);
}

/* Takes in what the journal says; returns the last step that it speaks of, or -1, and *@event of it. */
static int
read_journal (TgLessonProgress *progress,
              const TgLesson *lesson,
              const TgJob *job,
              const TgReview *review,
              guint *last)
{
  int reached = -1;

  for (guint i = 0; i < tg_job_n_events (job); i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      int step = event->kind == TG_EVENT_STEP && !review->struck[i]
                     ? find_step (lesson, event->path)
                     : -1;
      TgLessonState *state;

      if (step < 0)
        continue;
      state = g_ptr_array_index (progress->steps, (guint) step);
      if (tg_lesson_step (lesson, (guint) step)->kind == TG_LESSON_STEP_ASK)
        g_ptr_array_add (state->answers, (gpointer) event->value);
      else
        state->recorded = TRUE;
      if (step >= reached)
        *last = i;
      reached = MAX (reached, step);
    }
  return reached;
}

/* What a practical step still asks for. */
static void
find_missing (GPtrArray *missing,
              const TgLessonStep *step,
              const TgJob *job,
              const TgReview *review)
{
  g_ptr_array_set_size (missing, 0);
  for (guint i = 0; i < step->conditions->len; i++)
    {
      char *text = tg_lesson_condition_missing (g_ptr_array_index (step->conditions, i), job,
                                                review);

      if (text)
        g_ptr_array_add (missing, text);
    }
}

/* Whether the step at which the journal ends is done. */
static gboolean
is_done (const TgLessonState *state, const TgLessonStep *step, const TgJob *job, guint last)
{
  return step->kind == TG_LESSON_STEP_ASK ? was_right (step, job, last) : state->recorded;
}

TgLessonProgress *
tg_lesson_progress_new (const TgLesson *lesson, const TgJob *job, const TgReview *review)
{
  TgLessonProgress *progress = g_new0 (TgLessonProgress, 1);
  guint last = 0, n = lesson->steps->len;
  int reached;

  progress->steps = g_ptr_array_new_with_free_func ((GDestroyNotify) state_free);
  progress->missing = g_ptr_array_new_with_free_func (g_free);
  for (guint i = 0; i < n; i++)
    {
      TgLessonState *state = g_new0 (TgLessonState, 1);

      state->answers = g_ptr_array_new ();
      g_ptr_array_add (progress->steps, state);
    }
  reached = read_journal (progress, lesson, job, review, &last);
  progress->begun = reached >= 0;
  for (; progress->current < n; progress->current++)
    {
      const TgLessonStep *step = tg_lesson_step (lesson, progress->current);
      TgLessonState *state = g_ptr_array_index (progress->steps, progress->current);

      state->done = (int) progress->current < reached ||
                    ((int) progress->current == reached && is_done (state, step, job, last));
      if (!state->done && step->kind == TG_LESSON_STEP_DO)
        {
          find_missing (progress->missing, step, job, review);
          state->done = progress->missing->len == 0;
        }
      if (!state->done)
        break;
    }
  progress->finished = progress->current == n;
  if (!progress->finished && tg_lesson_step (lesson, progress->current)->kind == TG_LESSON_STEP_ASK)
    progress->answer = tg_lesson_answer_new (tg_lesson_step (lesson, progress->current)->question,
                                             review);
  return progress;
}

GArray *
tg_lesson_progress_due (const TgLessonProgress *progress, const TgLesson *lesson)
{
  GArray *due = g_array_new (FALSE, FALSE, sizeof (TgEvent));

  for (guint i = 0; i < progress->current; i++)
    {
      const TgLessonStep *step = tg_lesson_step (lesson, i);
      TgEvent event = tg_event_blank (TG_EVENT_STEP);

      if (step->kind != TG_LESSON_STEP_DO || tg_lesson_progress_step (progress, i)->recorded)
        continue;
      event.path = step->id;
      g_array_append_val (due, event);
    }
  return due;
}
