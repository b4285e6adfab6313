/* lesson-condition.h: when a practical step of a lesson is done
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A condition looks at the job and its review as they are now; it knows no history but the journal's.
 */
#pragma once

#include "job.h"
#include "lesson-subject.h"
#include "review.h"

G_BEGIN_DECLS

/* Each stands in a lesson file as an element of the name beside it. */
typedef enum
{
  TG_LESSON_READINGS, /* "readings": at least so many of a part, a family or all, since the last pass */
  TG_LESSON_ALL_READ,     /* "all-read": no reading that the job asks for is missing */
  TG_LESSON_ZERO,         /* "zero": the empty scale was looked at at least so often and set back */
  TG_LESSON_CHECK_WEIGHT, /* "check-weight": it was laid on at least so often */
  TG_LESSON_REPEATABILITY, /* "repeatability": repeats have shown how well the stand repeats */
  TG_LESSON_PASSES,        /* "passes": at least so many, of a part, on a zone, or at all */
  TG_LESSON_NEVER_KEPT,    /* "never-kept": no pass on a zone that is never to be ground, ever */
  TG_LESSON_TARGET,        /* "target": it was decided for a band */
  TG_LESSON_PAIRED,        /* "paired": a pairing was accepted */
  TG_LESSON_DECIDED,       /* "decided": no decision waits */
  TG_LESSON_NO_DOUBT, /* "no-doubt": nothing is left that asks for a second look, of a part or at all */
  TG_LESSON_EVEN,     /* "even": a band is */
  TG_LESSON_PROVEN, /* "proven": a band is */
  TG_LESSON_DONE,   /* "done": all of the set is */
  TG_LESSON_TICKS,  /* "ticks": every check of a bore, or of all, is ticked */
  TG_LESSON_STRUCK, /* "struck": at least so many entries were struck out */
} TgLessonConditionKind;
#define TG_N_LESSON_CONDITIONS 16

typedef struct
{
  TgLessonConditionKind kind;
  TgLessonSubject about;
} TgLessonCondition;

/**
 * tg_lesson_condition_read:
 * @node: an element of a lesson file
 * @setup: of the lesson's job
 * @error: with file and line: no such condition, something that the job does not have, or a condition
 *   that can never hold in it
 *
 * Returns: (transfer full) (nullable)
 */
TgLessonCondition *
tg_lesson_condition_read (xmlNode *node, const char *file, const TgSetup *setup, GError **error);
void tg_lesson_condition_free (TgLessonCondition *condition);

/* (transfer full) (nullable): what is still missing, as a sentence for the person; NULL if it holds. */
char *tg_lesson_condition_missing (const TgLessonCondition *condition,
                                   const TgJob *job,
                                   const TgReview *review);

/* Words in files. */
const char *tg_lesson_condition_kind_to_word (TgLessonConditionKind kind);
gboolean tg_lesson_condition_kind_from_word (const char *word, TgLessonConditionKind *kind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLessonCondition, tg_lesson_condition_free)

G_END_DECLS
