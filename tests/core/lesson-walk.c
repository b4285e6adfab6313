/* lesson-walk.c: somebody who goes through a lesson at its bench, see lesson-walk.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-walk.h"

#include <string.h>

#include "build.h"

PracticeWorker *
lesson_walk_new (const TgLesson *lesson, guint habits)
{
  return practice_worker_new (tg_lesson_new_job (lesson, (TgStamp){ 1780000000, 60 }, "Teacher"),
                              habits);
}

TgLessonProgress *
lesson_walk_look (PracticeWorker *worker, const TgLesson *lesson)
{
  TgLessonProgress *progress = tg_lesson_progress_new (lesson, worker->job, worker->review);
  g_autoptr (GArray) due = tg_lesson_progress_due (progress, lesson);

  for (guint i = 0; i < due->len; i++)
    practice_worker_append (worker, g_array_index (due, TgEvent, i));
  if (due->len == 0)
    return progress;
  tg_lesson_progress_free (progress);
  return tg_lesson_progress_new (lesson, worker->job, worker->review);
}

void
lesson_walk_step (PracticeWorker *worker, const TgLessonStep *step, const char *answer)
{
  TgEvent event = tg_event_blank (TG_EVENT_STEP);

  event.path = step->id;
  event.value = answer;
  practice_worker_append (worker, event);
}

/* -- practical steps ------------------------------------------------------------------------------- */

static void
read_one (PracticeWorker *worker, const TgLessonSubject *about)
{
  for (guint i = 0; i < worker->review->parts->len; i++)
    for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
      {
        const TgPartReview *part = tg_review_part (worker->review, i);
        const guint *n = part->weight[figure].n;
        gboolean rod = part->design->kind == TG_PART_ROD, end = figure != TG_FIGURE_WHOLE;
        gboolean down = end && n[TG_WAY_MARK_DOWN] < n[TG_WAY_MARK_UP];

        if ((about->has & TG_LESSON_HAS_PART && about->index != i) ||
            (about->has & TG_LESSON_HAS_KIND && about->kind != part->design->kind) ||
            (about->has & TG_LESSON_HAS_FIGURE ? about->figure != figure : rod != end) ||
            (!rod && end) ||
            n[TG_WAY_ANY] + n[TG_WAY_MARK_UP] + n[TG_WAY_MARK_DOWN] >= 2 * about->at_least)
          continue;
        practice_worker_read (worker, (TgSlot){ i, figure,
                                                !end   ? TG_WAY_ANY
                                                : down ? TG_WAY_MARK_DOWN
                                                       : TG_WAY_MARK_UP });
        return;
      }
}

static void
strike (PracticeWorker *worker, guint index)
{
  TgEvent event = tg_event_blank (TG_EVENT_STRIKE);

  event.refers = tg_job_event (worker->job, index)->id;
  practice_worker_append (worker, event);
}

/* What is in doubt is struck out, to be read again: the reading, or those of the part. */
static void
strike_doubt (PracticeWorker *worker)
{
  for (guint f = 0; f < worker->review->findings->len; f++)
    {
      const TgFinding *finding = g_ptr_array_index (worker->review->findings, f);
      int part = finding->part, event = finding->event;
      guint n = tg_job_n_events (worker->job);

      if (finding->severity != TG_FINDING_DOUBT)
        continue;
      if (event >= 0)
        {
          strike (worker, (guint) event);
          return;
        }
      for (guint i = n; part >= 0 && i-- > 0;)
        {
          const TgEvent *reading = tg_job_event (worker->job, i);

          if (reading->kind == TG_EVENT_PASS)
            break;
          if (reading->kind == TG_EVENT_WEIGHING && !worker->review->struck[i] &&
              strcmp (reading->part, tg_review_part (worker->review, (guint) part)->part->id) == 0)
            strike (worker, i);
        }
      return;
    }
}

static void
tick_one (PracticeWorker *worker, guint only)
{
  g_autoptr (TgBuild) build = tg_build_new (worker->job, worker->review);

  for (guint bore = only ? only : 1; bore <= (only ? only : build->cards->len); bore++)
    for (guint i = 0; i < tg_build_card (build, bore)->ticks->len; i++)
      {
        const TgBuildTick *tick = &g_array_index (tg_build_card (build, bore)->ticks, TgBuildTick,
                                                  i);
        TgEvent event = tg_event_blank (TG_EVENT_TICK);
        TgPartKind kind;

        if (tick->ticked)
          continue;
        event.check = tick->check;
        event.bore = bore;
        if (tg_build_check_kind (tick->check, &kind))
          event.part = tg_setup_at_bore (worker->review->setup, kind, bore)->id;
        practice_worker_append (worker, event);
        return;
      }
}

static void
strike_last_reading (PracticeWorker *worker)
{
  for (guint i = tg_job_n_events (worker->job); i-- > 0;)
    if (tg_job_event (worker->job, i)->kind == TG_EVENT_WEIGHING && !worker->review->struck[i])
      {
        strike (worker, i);
        return;
      }
}

/* FALSE if there is nothing that could be done. */
static gboolean
work_on (PracticeWorker *worker, const TgLessonCondition *condition)
{
  switch (condition->kind)
    {
    case TG_LESSON_READINGS:
      read_one (worker, &condition->about);
      return TRUE;
    case TG_LESSON_ZERO:
      practice_worker_zero (worker);
      return TRUE;
    case TG_LESSON_CHECK_WEIGHT:
      practice_worker_check_weight (worker);
      return TRUE;
    case TG_LESSON_REPEATABILITY:
      practice_worker_read (worker, (TgSlot){ 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP });
      return TRUE;
    case TG_LESSON_NO_DOUBT:
      if (worker->habits & PRACTICE_HABIT_KEEPS)
        return FALSE;
      strike_doubt (worker);
      return TRUE;
    case TG_LESSON_TICKS:
      tick_one (worker, condition->about.bore);
      return TRUE;
    case TG_LESSON_STRUCK:
      strike_last_reading (worker);
      return TRUE;
    default:
      return practice_worker_step (worker);
    }
}

static gboolean
do_one (PracticeWorker *worker, const TgLessonStep *step)
{
  for (guint i = 0; i < step->conditions->len; i++)
    {
      const TgLessonCondition *condition = g_ptr_array_index (step->conditions, i);
      g_autofree char *missing = tg_lesson_condition_missing (condition, worker->job,
                                                              worker->review);

      if (missing)
        return work_on (worker, condition);
    }
  return FALSE;
}

gboolean
lesson_walk_run (PracticeWorker *worker, const TgLesson *lesson, const char *to, guint most)
{
  for (guint i = 0; i < most; i++)
    {
      g_autoptr (TgLessonProgress) progress = lesson_walk_look (worker, lesson);
      const TgLessonStep *step;
      g_autofree char *answer = NULL;

      if (progress->finished)
        return to == NULL;
      step = tg_lesson_step (lesson, progress->current);
      if (to && strcmp (step->id, to) == 0)
        return TRUE;
      if (step->kind == TG_LESSON_STEP_DO && do_one (worker, step))
        continue;
      if (step->kind == TG_LESSON_STEP_DO ||
          (progress->answer && progress->answer->missing[0] != '\0'))
        {
          g_test_message ("%s stops at “%s”: %s", lesson->id, step->id,
                          progress->answer ? progress->answer->missing
                                           : (char *) g_ptr_array_index (progress->missing, 0));
          return FALSE;
        }
      answer = progress->answer ? tg_lesson_answer_right (progress->answer) : g_strdup ("");
      lesson_walk_step (worker, step, answer);
    }
  return FALSE;
}
