/* lesson-xml.c: a lesson file, see lesson.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Goes the way of the other files: safe parse, rules with the place, schema.  The rules come first, since
 * they say what is wrong in words; the schema catches what they do not look at.
 */
#include <string.h>

#include "error.h"
#include "lesson-private.h"
#include "storable.h"

#define NAMESPACE "urn:tenthgram:lesson"
#define VERSION 1

static const char *const pages[] = { "setup", "scale", "weigh",   "match", "grind",
                                     "prove", "build", "journal", NULL };

const char *const *
tg_lesson_pages (void)
{
  return pages;
}

static gboolean
take_text (TgXmlTaker *taker, const char *attribute, char **text, GError **error)
{
  *text = g_strdup (tg_xml_need (taker, attribute, error));
  if (!*text)
    return FALSE;
  return (*text)[0] != '\0' || tg_xml_refuse_value (taker, attribute, *text, error);
}

/* The element that @node should be; its text. */
static char *
need_text (const xmlNode *node,
           const xmlNode *parent,
           const char *file,
           const char *element,
           GError **error)
{
  char *text = node && tg_xml_is (node, element) ? tg_xml_text (node) : NULL;

  if (text && text[0] != '\0')
    return text;
  g_free (text);
  tg_xml_refuse (error, file, node ? node : parent, TG_ERROR_SYNTAX, "here “%s” has no “%s”",
                 (const char *) parent->name, element);
  return NULL;
}

/* -- steps ----------------------------------------------------------------------------------------- */

static gboolean
read_conditions (xmlNode *node,
                 xmlNode *parent,
                 const char *file,
                 TgLesson *lesson,
                 TgLessonStep *step,
                 GError **error)
{
  for (; node; node = tg_xml_next (node))
    {
      TgLessonCondition *condition = tg_lesson_condition_read (node, file, lesson->setup, error);

      if (!condition)
        return FALSE;
      g_ptr_array_add (step->conditions, condition);
    }
  return step->conditions->len > 0 ||
         tg_xml_refuse (error, file, parent, TG_ERROR_SYNTAX,
                        "nothing says when the step “%s” is done", step->id);
}

static gboolean
read_question (xmlNode *node,
               xmlNode *parent,
               const char *file,
               TgLesson *lesson,
               TgLessonStep *step,
               GError **error)
{
  xmlNode *next = NULL;

  if (!node)
    return tg_xml_refuse (error, file, parent, TG_ERROR_SYNTAX, "the step “%s” asks nothing",
                          step->id);
  step->question = tg_lesson_question_read (node, file, lesson->setup, &next, error);
  if (!step->question)
    return FALSE;
  return !next || tg_xml_refuse_element (error, file, next);
}

static gboolean
read_page (TgXmlTaker *taker, TgLessonStep *step, GError **error)
{
  const char *page = tg_xml_take (taker, "page");

  if (page && !g_strv_contains (pages, page))
    return tg_xml_refuse_value (taker, "page", page, error);
  step->page = g_strdup (page ? page : "");
  return TRUE;
}

/* What every step has: id, title, maybe a page, maybe something that is lit. */
static gboolean
read_head (TgXmlTaker *taker, const TgLesson *lesson, TgLessonStep *step, GError **error)
{
  if (!take_text (taker, "id", &step->id, error) ||
      !take_text (taker, "title", &step->title, error) || !read_page (taker, step, error) ||
      !tg_lesson_subject_read (taker, 0,
                               TG_LESSON_HAS_PART | TG_LESSON_HAS_ZONE | TG_LESSON_HAS_FIGURE,
                               lesson->setup, &step->light, error) ||
      !tg_xml_finish (taker, error))
    return FALSE;
  if (!tg_storable_check (step->id, TG_STORABLE_ID, "id of a step", error))
    return tg_xml_locate (error, taker->file, taker->node);
  if (step->light.zone && !step->light.part)
    return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_SYNTAX,
                          "a “zone” is lit without a “part”");
  for (guint i = 0; i < lesson->steps->len; i++)
    if (strcmp (tg_lesson_step (lesson, i)->id, step->id) == 0 &&
        tg_lesson_step (lesson, i) != step)
      return tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_DUPLICATE,
                            "two steps are called “%s”", step->id);
  return TRUE;
}

static gboolean
read_step (xmlNode *node, const char *file, TgLesson *lesson, GError **error)
{
  TgXmlTaker taker = { file, node, 0 };
  xmlNode *text = tg_xml_first (node), *rest = text ? tg_xml_next (text) : NULL;
  TgLessonStepKind kind;
  TgLessonStep *step;

  if (!tg_lesson_step_kind_from_word ((const char *) node->name, &kind))
    return tg_xml_refuse_element (error, file, node);
  if (lesson->steps->len == TG_LESSON_MAX_STEPS)
    return tg_xml_refuse (error, file, node, TG_ERROR_SIZE, "more than %d steps",
                          TG_LESSON_MAX_STEPS);
  step = tg_lesson_step_new (kind);
  g_ptr_array_add (lesson->steps, step);
  if (!read_head (&taker, lesson, step, error))
    return FALSE;
  step->text = need_text (text, node, file, "text", error);
  if (!step->text)
    return FALSE;
  if (kind == TG_LESSON_STEP_DO)
    return read_conditions (rest, node, file, lesson, step, error);
  if (kind == TG_LESSON_STEP_ASK)
    return read_question (rest, node, file, lesson, step, error);
  return !rest || tg_xml_refuse_element (error, file, rest);
}

/* -- the whole ------------------------------------------------------------------------------------- */

static gboolean
read_lesson_head (TgXmlTaker *taker, TgLesson *lesson, GError **error)
{
  if (!tg_xml_need (taker, "version", error) || !take_text (taker, "id", &lesson->id, error) ||
      !take_text (taker, "title", &lesson->title, error) ||
      !tg_xml_need_count (taker, "minutes", &lesson->minutes, error) ||
      !tg_xml_finish (taker, error))
    return FALSE;
  if (!tg_storable_check (lesson->id, TG_STORABLE_ID, "id of a lesson", error))
    return tg_xml_locate (error, taker->file, taker->node);
  if (!g_regex_match_simple ("^[a-z0-9][a-z0-9-]*$", lesson->id, 0, 0))
    return tg_xml_refuse_value (taker, "id", lesson->id, error);
  return (lesson->minutes >= 1 && lesson->minutes <= TG_LESSON_MAX_MINUTES) ||
         tg_xml_refuse (error, taker->file, taker->node, TG_ERROR_RANGE,
                        "%u minutes; possible is 1 to %d", lesson->minutes, TG_LESSON_MAX_MINUTES);
}

static gboolean
need_element (
    const xmlNode *node, const xmlNode *root, const char *file, const char *element, GError **error)
{
  return (node && tg_xml_is (node, element)) ||
         tg_xml_refuse (error, file, node ? node : root, TG_ERROR_SYNTAX,
                        "here the lesson has no “%s”", element);
}

/* goal, job, maybe opening, steps, learned */
static gboolean
read_body (
    xmlNode *root, const char *file, const TgLibrary *library, TgLesson *lesson, GError **error)
{
  xmlNode *node = tg_xml_first (root);

  lesson->goal = need_text (node, root, file, "goal", error);
  if (!lesson->goal)
    return FALSE;
  node = tg_xml_next (node);
  if (!need_element (node, root, file, "job", error) ||
      !tg_lesson_read_job (node, file, library, lesson, error))
    return FALSE;
  node = tg_xml_next (node);
  if (node && tg_xml_is (node, "opening"))
    {
      if (!tg_lesson_read_opening (node, file, lesson, error))
        return FALSE;
      node = tg_xml_next (node);
    }
  for (; node && !tg_xml_is (node, "learned"); node = tg_xml_next (node))
    if (!read_step (node, file, lesson, error))
      return FALSE;
  lesson->learned = need_text (node, root, file, "learned", error);
  if (!lesson->learned)
    return FALSE;
  if (tg_xml_next (node))
    return tg_xml_refuse_element (error, file, tg_xml_next (node));
  return lesson->steps->len > 0 ||
         tg_xml_refuse (error, file, root, TG_ERROR_SYNTAX, "a lesson without a step");
}

TgLesson *
tg_lesson_parse (
    const char *data, gsize size, const char *name, const TgLibrary *library, GError **error)
{
  static const TgXmlLimits limits = { 256 * 1024, 2000 };
  g_autoptr (xmlDoc) doc = tg_xml_parse (data, size, name, &limits, error);
  g_autoptr (TgLesson) lesson = NULL;
  TgXmlTaker taker;
  int line;

  if (!doc || !tg_xml_check_root (doc, name, "lesson", NAMESPACE, VERSION, error))
    return NULL;
  lesson = tg_lesson_new ();
  taker = (TgXmlTaker){ name, xmlDocGetRootElement (doc), 0 };
  if (!read_lesson_head (&taker, lesson, error) ||
      !read_body (taker.node, name, library, lesson, error))
    return NULL;
  if (tg_xml_validate (doc, "lesson.rng", &line))
    return g_steal_pointer (&lesson);
  g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX, "%s:%d: does not fit the schema", name, line);
  return NULL;
}
