/* lesson-opening.c: what was done at the bench before a lesson begins, see lesson.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A file says what was laid on and how long somebody ground; what the display showed is read off the
 * bench of the job, as a person would.
 */
#include "error.h"
#include "lesson-private.h"
#include "practice-replay.h"

#define SECONDS_APART 60

/* -- reading --------------------------------------------------------------------------------------- */

/* What a reading names: the whole of a part without a way up, an end with one. */
static gboolean
read_slot (TgXmlTaker *taker, TgLessonOpening *opening, const TgSetup *setup, GError **error)
{
  const TgLessonSubject *about = &opening->about;
  gboolean end;

  if (!tg_lesson_subject_read (taker, TG_LESSON_HAS_PART | TG_LESSON_HAS_FIGURE, TG_LESSON_HAS_WAYS,
                               setup, &opening->about, error))
    return FALSE;
  end = about->figure != TG_FIGURE_WHOLE;
  if (end != (about->ways == TG_LESSON_WAYS_UP || about->ways == TG_LESSON_WAYS_DOWN))
    return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_RANGE,
                          end ? "an end is read with “way” mark-up or mark-down"
                              : "a whole part has no way up");
  opening->way = !end                               ? TG_WAY_ANY
                 : about->ways == TG_LESSON_WAYS_UP ? TG_WAY_MARK_UP
                                                    : TG_WAY_MARK_DOWN;
  return TRUE;
}

static gboolean
read_pass (TgXmlTaker *taker, TgLessonOpening *opening, const TgSetup *setup, GError **error)
{
  const char *tool = tg_xml_need (taker, "tool", error);

  if (!tool ||
      !tg_lesson_subject_read (taker, TG_LESSON_HAS_PART | TG_LESSON_HAS_ZONE, 0, setup,
                               &opening->about, error) ||
      !tg_xml_need_count (taker, "seconds", &opening->seconds, error) ||
      !tg_xml_need_mass (taker, "wanted", &opening->wanted, error))
    return FALSE;
  if (!tg_tool_from_word (tool, &opening->tool))
    return tg_xml_refuse_value (taker, "tool", tool, error);
  return (opening->seconds >= 1 && opening->seconds <= TG_MAX_EFFORT) ||
         tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_RANGE,
                        "a pass of %u seconds; possible is 1 to %d", opening->seconds,
                        TG_MAX_EFFORT);
}

static gboolean
read_entry (xmlNode *node, const char *file, TgLesson *lesson, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  TgLessonOpeningKind kind;
  TgLessonOpening *opening;

  if (!tg_lesson_opening_kind_from_word ((const char *) node->name, &kind))
    return tg_xml_refuse_element (error, file, node);
  opening = tg_lesson_opening_new (kind);
  g_ptr_array_add (lesson->opening, opening);
  if ((kind == TG_LESSON_OPEN_READ && !read_slot (&taker, opening, lesson->setup, error)) ||
      (kind == TG_LESSON_OPEN_PASS && !read_pass (&taker, opening, lesson->setup, error)))
    return FALSE;
  if (kind == TG_LESSON_OPEN_WEIGHT && lesson->setup->check_weight == 0)
    return tg_xml_refuse (error, file, node, TG_ERROR_UNKNOWN, "the job has no check weight");
  return tg_xml_finish (&taker, error);
}

gboolean
tg_lesson_read_opening (xmlNode *node, const char *file, TgLesson *lesson, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };

  for (xmlNode *entry = tg_xml_first (node); entry; entry = tg_xml_next (entry))
    if (!read_entry (entry, file, lesson, error))
      return FALSE;
  return tg_xml_finish (&taker, error);
}

/* -- doing it -------------------------------------------------------------------------------------- */

typedef struct
{
  TgJob *job;
  TgPracticeBench *bench;
  TgStamp stamp;
  const char *who;
} Opening;

static void
append (Opening *o, TgEvent event)
{
  g_autofree char *id = g_strdup_printf ("opening-%u", tg_job_n_events (o->job) + 1);
  g_autoptr (GError) error = NULL;

  event.id = id;
  event.who = o->who;
  event.stamp = o->stamp;
  event.practice = TRUE;
  o->stamp.seconds += SECONDS_APART;
  if (!tg_job_append (o->job, &event, &error))
    g_critical ("the opening of a lesson: %s", error->message);
}

static void
read_off (Opening *o, TgSlot slot)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  tg_practice_bench_lay (o->bench, &slot);
  event.part = tg_setup_part (tg_job_setup (o->job), slot.part)->id;
  event.figure = slot.figure;
  event.way = slot.way;
  event.mass = tg_practice_bench_display (o->bench, TG_PRACTICE_SETTLED_MS);
  append (o, event);
}

static void
read_all (Opening *o)
{
  g_autoptr (TgReview) review = tg_review_new (o->job);
  TgSlot slot;

  while (tg_review_next_slot (review, NULL, FALSE, &slot))
    {
      read_off (o, slot);
      g_clear_pointer (&review, tg_review_free);
      review = tg_review_new (o->job);
    }
}

static void
look_at_zero (Opening *o)
{
  TgEvent event = tg_event_blank (TG_EVENT_ZERO);

  tg_practice_bench_lay (o->bench, NULL);
  event.mass = tg_practice_bench_display (o->bench, TG_PRACTICE_SETTLED_MS);
  event.set_back = TRUE;
  tg_practice_bench_set_zero (o->bench);
  append (o, event);
}

static void
lay_weight (Opening *o)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.nominal = tg_job_setup (o->job)->check_weight;
  tg_practice_bench_lay_weight (o->bench, event.nominal);
  event.mass = tg_practice_bench_display (o->bench, TG_PRACTICE_SETTLED_MS);
  append (o, event);
}

/* Targets are held from the first pass on, as in the window. */
static void
grind (Opening *o, const TgLessonOpening *opening)
{
  g_autoptr (TgReview) review = tg_review_new (o->job);
  g_autoptr (GArray) targets = tg_review_take_targets (review, opening->about.index);
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  for (guint i = 0; i < targets->len; i++)
    append (o, g_array_index (targets, TgEvent, i));
  event.part = opening->about.part;
  event.zone = opening->about.zone;
  event.tool = opening->tool;
  event.mass = opening->wanted;
  event.effort = TG_EFFORT_SECONDS;
  event.count = opening->seconds;
  append (o, event);
  tg_practice_replay_event (o->bench, o->job, tg_job_event (o->job, tg_job_n_events (o->job) - 1));
}

static void
open_with (Opening *o, const TgLessonOpening *opening)
{
  switch (opening->kind)
    {
    case TG_LESSON_OPEN_READ:
      read_off (o, (TgSlot){ opening->about.index, opening->about.figure, opening->way });
      break;
    case TG_LESSON_OPEN_READ_ALL:
      read_all (o);
      break;
    case TG_LESSON_OPEN_ZERO:
      look_at_zero (o);
      break;
    case TG_LESSON_OPEN_WEIGHT:
      lay_weight (o);
      break;
    case TG_LESSON_OPEN_PASS:
    default:
      grind (o, opening);
      break;
    }
}

TgJob *
tg_lesson_new_job (const TgLesson *lesson, TgStamp stamp, const char *who)
{
  TgJob *job = tg_job_new (tg_lesson_new_setup (lesson));
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  Opening o = { job, bench, stamp, who };

  for (guint i = 0; i < lesson->opening->len; i++)
    open_with (&o, g_ptr_array_index (lesson->opening, i));
  return job;
}
