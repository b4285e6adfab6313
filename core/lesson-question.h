/* lesson-question.h: what a lesson asks, and the answer as the job gives it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * But for choices of words no answer stands in a file: it is worked out from the review of the moment,
 * with its sum laid out.
 */
#pragma once

#include "lesson-subject.h"
#include "review.h"
#include "rod-statics.h"

G_BEGIN_DECLS

/* Each stands in a lesson file as an element of the name beside it. */
typedef enum
{
  TG_LESSON_ASK_CHOICE,   /* "choice": which of several sentences is right; an element for each */
  TG_LESSON_ASK_EFFECT,   /* "effect": what grams off a zone do to a figure, with its sign */
  TG_LESSON_ASK_MEAN,     /* "mean": of a figure's two ways up */
  TG_LESSON_ASK_TURN,     /* "turn": mark up minus mark down, with its sign */
  TG_LESSON_ASK_CLOSURE,  /* "closure": small end + big end − whole, with its sign */
  TG_LESSON_ASK_SPREAD,   /* "spread": of a band, heaviest minus lightest */
  TG_LESSON_ASK_TARGET,   /* "target": lower edge of a band */
  TG_LESSON_ASK_COME_OFF, /* "come-off": grams still to come off a part, or one of its zones */
  TG_LESSON_ASK_AT_MOST,  /* "at-most": grams off a zone where a figure would leave its band */
  TG_LESSON_ASK_DEPTH,    /* "depth": mm that grams off a zone mean */
  TG_LESSON_ASK_PROOF, /* "proof": readings of each figure that can prove the tolerance of a band */
  TG_LESSON_ASK_SUM,   /* "sum": of what sits at a bore and is in the sum */
  TG_LESSON_ASK_LIGHTEST, /* "lightest": part of a band */
  TG_LESSON_ASK_HEAVIEST, /* "heaviest": part of a band */
  TG_LESSON_ASK_PARTNER, /* "partner": part of a family that goes with a part in the best pairing */
} TgLessonQuestionKind;
#define TG_N_LESSON_QUESTIONS 15

typedef struct
{
  char *text;
  gboolean right;
} TgLessonChoice;

/**
 * TgLessonQuestion:
 * @choices: (element-type TgLessonChoice): of CHOICE, at least two, one or more of them right
 */
typedef struct
{
  TgLessonQuestionKind kind;
  TgLessonSubject about;
  GPtrArray *choices;
} TgLessonQuestion;

/**
 * TgLessonOption: one of several answers to choose from
 * @value: as it is written down: "1" …, or the id of a part
 */
typedef struct
{
  char *value;
  char *text;
  gboolean right;
} TgLessonOption;

/**
 * TgLessonAnswer: what is right
 * @missing: what has to be read or ground before it can be known; "" if it is known
 * @options: (element-type TgLessonOption): to choose from; empty: a number is wanted
 * @value, @decimals: the number, and with how many decimals it is written
 * @tolerance: how far off is still right
 * @unit: "g", "mm" or "readings"
 * @sum: (element-type TgTerm): how it comes about, its rule last
 * @moves: the two ends of a rod move: @effect says by how much, in g
 */
typedef struct
{
  char *missing;
  GPtrArray *options;
  double value;
  guint decimals;
  double tolerance;
  const char *unit;
  GPtrArray *sum;
  gboolean moves;
  TgRodStatics effect;
} TgLessonAnswer;

/**
 * tg_lesson_question_read:
 * @node: the first question element of a step; of choices those that follow belong to it
 * @next: (out) (nullable): what follows the question
 * @setup: of the lesson's job
 * @error: with file and line
 *
 * Returns: (transfer full) (nullable)
 */
TgLessonQuestion *tg_lesson_question_read (
    xmlNode *node, const char *file, const TgSetup *setup, xmlNode **next, GError **error);
void tg_lesson_question_free (TgLessonQuestion *question);

/* (transfer full): a partner is looked for with an exact search, which may take some milliseconds. */
TgLessonAnswer *tg_lesson_answer_new (const TgLessonQuestion *question, const TgReview *review);
void tg_lesson_answer_free (TgLessonAnswer *answer);

/**
 * tg_lesson_answer_judge:
 * @text: as typed: a number with decimal point or comma, its unit or not, a sign where it is below
 *   zero; or the value of an option
 *
 * A number is right within half a step of the scale (of a depth a hundredth of a mm), if its sign is.
 */
gboolean tg_lesson_answer_judge (const TgLessonAnswer *answer, const char *text);

/* Whether @text can be an answer at all. */
gboolean tg_lesson_answer_can_be (const TgLessonAnswer *answer, const char *text);

/* (transfer full): a right one, as it would be typed. */
char *tg_lesson_answer_right (const TgLessonAnswer *answer);

/* (transfer full): what a person reads for an answer that was given: with its unit, or an option's text */
char *tg_lesson_answer_words (const TgLessonAnswer *answer, const char *text);

/* Words in files. */
const char *tg_lesson_question_kind_to_word (TgLessonQuestionKind kind);
gboolean tg_lesson_question_kind_from_word (const char *word, TgLessonQuestionKind *kind);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLessonQuestion, tg_lesson_question_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgLessonAnswer, tg_lesson_answer_free)

G_END_DECLS
