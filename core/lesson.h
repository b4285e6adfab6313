/* lesson.h: short lessons, each a practice job with a goal and a few steps
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lesson is a file (data/lesson.rng says what may stand in it), so that a teacher can write one.  It
 * shows, lets do and asks back.  How far somebody has come in it is in lesson-progress.h.
 */
#pragma once

#include "job.h"
#include "lesson-condition.h"
#include "lesson-question.h"
#include "library.h"

G_BEGIN_DECLS

#define TG_LESSON_MAX_STEPS 30
#define TG_LESSON_MAX_MINUTES 240

typedef enum
{
  TG_LESSON_STEP_SHOW, /* is read, and goes on with a button */
  TG_LESSON_STEP_DO,   /* is done as soon as its conditions hold */
  TG_LESSON_STEP_ASK,  /* is done when its question was answered right */
} TgLessonStepKind;
#define TG_N_LESSON_STEPS 3

/**
 * TgLessonStep:
 * @id: unique in the lesson
 * @title: a few words; @text: some sentences
 * @page: where it happens, one of tg_lesson_pages(); "" if it makes no difference
 * @light: part, zone and figure that are lit on the drawing, as far as said
 * @conditions: (element-type TgLessonCondition): of DO, at least one; all have to hold
 * @question: (nullable): of ASK
 */
typedef struct
{
  TgLessonStepKind kind;
  char *id;
  char *title;
  char *text;
  char *page;
  TgLessonSubject light;
  GPtrArray *conditions;
  TgLessonQuestion *question;
} TgLessonStep;

/* What was done at the bench before the lesson begins. */
typedef enum
{
  TG_LESSON_OPEN_READ,     /* "read": a figure of a part, rocked free or not */
  TG_LESSON_OPEN_READ_ALL, /* "read-all": every reading that is missing */
  TG_LESSON_OPEN_ZERO,     /* "zero": the empty scale, and set it back */
  TG_LESSON_OPEN_WEIGHT,   /* "check-weight" */
  TG_LESSON_OPEN_PASS,     /* "pass": so many seconds of a tool on a zone */
} TgLessonOpeningKind;
#define TG_N_LESSON_OPENINGS 5

/**
 * TgLessonOpening:
 * @about: part and figure of a reading, part and zone of a pass
 * @way: of a reading of a rod's end
 * @tool, @seconds: of a pass
 * @wanted: of a pass: what whoever made it meant to take
 */
typedef struct
{
  TgLessonOpeningKind kind;
  TgLessonSubject about;
  TgWay way;
  TgTool tool;
  guint seconds;
  TgMass wanted;
} TgLessonOpening;

/**
 * TgLesson:
 * @path: of the file; NULL if it came with the program
 * @title: a few words; @goal: one sentence; @learned: what is to be kept in mind afterwards
 * @minutes: about so long
 * @setup: of its job: practice is on and for this lesson; passes tg_setup_check()
 * @opening: (element-type TgLessonOpening): in their order
 * @steps: (element-type TgLessonStep): in their order
 */
typedef struct
{
  char *path;
  char *id;
  char *title;
  char *goal;
  char *learned;
  guint minutes;
  TgSetup *setup;
  GPtrArray *opening;
  GPtrArray *steps;
} TgLesson;

/**
 * tg_lesson_parse:
 * @name: of the file, for messages
 * @library: designs that the lesson may name
 * @error: one line, "NAME:LINE: cause"
 *
 * Returns: (transfer full) (nullable)
 */
TgLesson *tg_lesson_parse (
    const char *data, gsize size, const char *name, const TgLibrary *library, GError **error);
void tg_lesson_free (TgLesson *lesson);

/* (transfer full) (nullable) */
TgLesson *tg_lesson_load_file (const char *path, const TgLibrary *library, GError **error);

/**
 * tg_lessons_load:
 * @folder: (nullable): of the teacher's own lessons; need not exist
 * @faults: (out) (transfer full) (element-type utf8): one line for each file of @folder that is refused, or
 *   whose lesson is called as one that is there
 *
 * Returns: (transfer full) (element-type TgLesson): those of the program, then those of @folder by the
 *   names of their files
 */
GPtrArray *tg_lessons_load (const char *folder, const TgLibrary *library, GPtrArray **faults);

/* (nullable) (lends) */
const TgLesson *tg_lessons_find (const GPtrArray *lessons, const char *id);

static inline const TgLessonStep *
tg_lesson_step (const TgLesson *lesson, guint index)
{
  return (const TgLessonStep *) g_ptr_array_index (lesson->steps, index);
}

/* (transfer full): the setup of a job for @lesson. */
TgSetup *tg_lesson_new_setup (const TgLesson *lesson);

/**
 * tg_lesson_new_job:
 *
 * The job as the lesson begins: with what its opening says, read off the bench itself.  Its events are a
 * minute apart, from @stamp on.
 * Returns: (transfer full)
 */
TgJob *tg_lesson_new_job (const TgLesson *lesson, TgStamp stamp, const char *who);

/* (lends): the pages that a step may happen on, ended by NULL. */
const char *const *tg_lesson_pages (void);

/* Words in files: "show", "do", "ask"; "read" … */
const char *tg_lesson_step_kind_to_word (TgLessonStepKind kind);
gboolean tg_lesson_step_kind_from_word (const char *word, TgLessonStepKind *kind);
const char *tg_lesson_opening_kind_to_word (TgLessonOpeningKind kind);
gboolean tg_lesson_opening_kind_from_word (const char *word, TgLessonOpeningKind *kind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLesson, tg_lesson_free)

G_END_DECLS
