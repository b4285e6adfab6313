/* lesson-question.c: what a lesson asks, and whether an answer is right, see lesson-question.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How the answer comes about is in lesson-answer.c.
 */
#include "lesson-question.h"

#include <math.h>
#include <string.h>

#include "error.h"
#include "number.h"
#include "word.h"

/* Beyond the tolerance: what figures in g lose as doubles. */
#define TINY 1e-6

TG_DEFINE_WORDS (TgLessonQuestionKind,
                 lesson_question_kind,
                 "choice",
                 "effect",
                 "mean",
                 "turn",
                 "closure",
                 "spread",
                 "target",
                 "come-off",
                 "at-most",
                 "depth",
                 "proof",
                 "sum",
                 "lightest",
                 "heaviest",
                 "partner")

/* -- reading --------------------------------------------------------------------------------------- */

#define PART_ZONE (TG_LESSON_HAS_PART | TG_LESSON_HAS_ZONE)
#define PART_FIGURE (TG_LESSON_HAS_PART | TG_LESSON_HAS_FIGURE)

static const struct
{
  guint need;
  guint may;
} kinds[TG_N_LESSON_QUESTIONS] = {
  [TG_LESSON_ASK_EFFECT] = { PART_ZONE | TG_LESSON_HAS_FIGURE | TG_LESSON_HAS_GRAMS, 0 },
  [TG_LESSON_ASK_MEAN] = { PART_FIGURE, 0 },
  [TG_LESSON_ASK_TURN] = { PART_FIGURE, 0 },
  [TG_LESSON_ASK_CLOSURE] = { TG_LESSON_HAS_PART, 0 },
  [TG_LESSON_ASK_SPREAD] = { TG_LESSON_HAS_BAND, 0 },
  [TG_LESSON_ASK_TARGET] = { TG_LESSON_HAS_BAND, 0 },
  [TG_LESSON_ASK_COME_OFF] = { TG_LESSON_HAS_PART, TG_LESSON_HAS_ZONE },
  [TG_LESSON_ASK_AT_MOST] = { PART_ZONE, 0 },
  [TG_LESSON_ASK_DEPTH] = { PART_ZONE | TG_LESSON_HAS_GRAMS, 0 },
  [TG_LESSON_ASK_PROOF] = { TG_LESSON_HAS_BAND, 0 },
  [TG_LESSON_ASK_SUM] = { TG_LESSON_HAS_BORE, 0 },
  [TG_LESSON_ASK_LIGHTEST] = { TG_LESSON_HAS_BAND, 0 },
  [TG_LESSON_ASK_HEAVIEST] = { TG_LESSON_HAS_BAND, 0 },
  [TG_LESSON_ASK_PARTNER] = { TG_LESSON_HAS_PART | TG_LESSON_HAS_KIND, 0 },
};

static void
choice_free (TgLessonChoice *choice)
{
  g_free (choice->text);
  g_free (choice);
}

static TgLessonQuestion *
question_new (TgLessonQuestionKind kind)
{
  TgLessonQuestion *question = g_new0 (TgLessonQuestion, 1);

  question->kind = kind;
  question->choices = g_ptr_array_new_with_free_func ((GDestroyNotify) choice_free);
  return question;
}

void
tg_lesson_question_free (TgLessonQuestion *question)
{
  tg_lesson_subject_clear (&question->about);
  g_ptr_array_unref (question->choices);
  g_free (question);
}

static TgLessonQuestion *
read_choices (xmlNode *node, const char *file, xmlNode **next, GError **error)
{
  g_autoptr (TgLessonQuestion) question = question_new (TG_LESSON_ASK_CHOICE);
  const xmlNode *first = node;
  guint n_right = 0;

  for (; node && tg_xml_is (node, "choice"); node = tg_xml_next (node))
    {
      TgXmlTaker taker = { file, node, 0 };
      TgLessonChoice *choice = g_new0 (TgLessonChoice, 1);

      g_ptr_array_add (question->choices, choice);
      choice->text = tg_xml_text (node);
      if (!tg_xml_take_yes (&taker, "right", &choice->right, error) ||
          !tg_xml_finish (&taker, error))
        return NULL;
      n_right += choice->right;
    }
  *next = node;
  if (question->choices->len < 2 || n_right == 0 || n_right == question->choices->len)
    {
      tg_xml_refuse (error, file, first, TG_ERROR_RANGE,
                     question->choices->len < 2 ? "a single choice is none"
                     : n_right == 0             ? "none of these choices is right"
                                                : "all of these choices are right");
      return NULL;
    }
  return g_steal_pointer (&question);
}

/* What the names of a question cannot say: whether the part has such a thing. */
static const char *
why_not (const TgLessonQuestion *question, const TgSetup *setup)
{
  const TgLessonSubject *about = &question->about;
  gboolean rod = about->part && tg_setup_part (setup, about->index)->design->kind == TG_PART_ROD;

  switch (question->kind)
    {
    case TG_LESSON_ASK_TURN:
    case TG_LESSON_ASK_MEAN:
      return rod && about->figure != TG_FIGURE_WHOLE
                 ? NULL
                 : "only the ends of rods are read both ways up";
    case TG_LESSON_ASK_CLOSURE:
      return rod ? NULL : "only rods have two ends that add up";
    case TG_LESSON_ASK_SUM:
      return tg_setup_in_sum (setup, TG_PART_PISTON) ? NULL : "nothing is in a sum in this job";
    case TG_LESSON_ASK_PARTNER:
      return tg_setup_in_sum (setup, tg_setup_part (setup, about->index)->design->kind) &&
                     tg_setup_in_sum (setup, about->kind)
                 ? NULL
                 : "the two are in no sum together";
    case TG_LESSON_ASK_DEPTH:
      return tg_design_zone_depth_mm (
                 tg_setup_part (setup, about->index)->design,
                 tg_design_zone (tg_setup_part (setup, about->index)->design, about->zone_index),
                 1) > 0
                 ? NULL
                 : "the area of the zone is not known";
    default:
      return NULL;
    }
}

TgLessonQuestion *
tg_lesson_question_read (
    xmlNode *node, const char *file, const TgSetup *setup, xmlNode **next, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  g_autoptr (TgLessonQuestion) question = NULL;
  TgLessonQuestionKind kind;
  const char *cause;

  if (!tg_lesson_question_kind_from_word ((const char *) node->name, &kind))
    {
      tg_xml_refuse_element (error, file, node);
      return NULL;
    }
  if (kind == TG_LESSON_ASK_CHOICE)
    return read_choices (node, file, next, error);
  question = question_new (kind);
  if (!tg_lesson_subject_read (&taker, kinds[kind].need, kinds[kind].may, setup, &question->about,
                               error) ||
      !tg_xml_finish (&taker, error))
    return NULL;
  cause = why_not (question, setup);
  if (cause)
    {
      tg_xml_refuse (error, file, node, TG_ERROR_RANGE, "“%s” cannot be asked here: %s",
                     (const char *) node->name, cause);
      return NULL;
    }
  *next = tg_xml_next (node);
  return g_steal_pointer (&question);
}

/* -- judging --------------------------------------------------------------------------------------- */

/* A number as a person types it: a comma or a point, a sign of either kind, the unit or not. */
static gboolean
parse (const TgLessonAnswer *answer, const char *text, double *number)
{
  g_autofree char *trimmed = g_strstrip (g_strdup (text));
  g_auto (GStrv) minus = NULL;
  g_autofree char *plain = NULL;
  g_autofree char *point = NULL;
  char *end;

  if (g_str_has_suffix (trimmed, answer->unit))
    trimmed[strlen (trimmed) - strlen (answer->unit)] = '\0';
  minus = g_strsplit (g_strchomp (trimmed), "−", -1);
  plain = g_strjoinv ("-", minus);
  point = g_strdelimit (g_strdup (plain), ",", '.');
  if (!g_regex_match_simple ("^[-+]?\\s?[0-9]{1,9}(\\.[0-9]{0,6})?$", point, 0, 0))
    return FALSE;
  *number = g_ascii_strtod (g_ascii_isspace (point[1]) ? point + 2 : point, &end);
  if (g_ascii_isspace (point[1]) && point[0] == '-')
    *number = -*number;
  return TRUE;
}

static const TgLessonOption *
find_option (const TgLessonAnswer *answer, const char *value)
{
  for (guint i = 0; i < answer->options->len; i++)
    {
      const TgLessonOption *option = g_ptr_array_index (answer->options, i);

      if (strcmp (option->value, value) == 0)
        return option;
    }
  return NULL;
}

gboolean
tg_lesson_answer_can_be (const TgLessonAnswer *answer, const char *text)
{
  double number;

  return answer->options->len > 0 ? find_option (answer, text) != NULL
                                  : parse (answer, text, &number);
}

gboolean
tg_lesson_answer_judge (const TgLessonAnswer *answer, const char *text)
{
  const TgLessonOption *option;
  double number;

  if (answer->missing[0] != '\0')
    return FALSE;
  if (answer->options->len > 0)
    {
      option = find_option (answer, text);
      return option && option->right;
    }
  return parse (answer, text, &number) &&
         fabs (number - answer->value) <= answer->tolerance + TINY && number * answer->value >= 0;
}

char *
tg_lesson_answer_right (const TgLessonAnswer *answer)
{
  for (guint i = 0; i < answer->options->len; i++)
    {
      const TgLessonOption *option = g_ptr_array_index (answer->options, i);

      if (option->right)
        return g_strdup (option->value);
    }
  return tg_number_format (answer->value, answer->decimals);
}

char *
tg_lesson_answer_words (const TgLessonAnswer *answer, const char *text)
{
  const TgLessonOption *option = find_option (answer, text);
  double number;

  if (option)
    return g_strdup (option->text);
  if (answer->options->len == 0 && parse (answer, text, &number) &&
      !g_str_has_suffix (text, answer->unit))
    return g_strdup_printf ("%s %s", text, answer->unit);
  return g_strdup (text);
}
