/* lesson.c: the lessons that there are, see lesson.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How a file becomes a lesson is in lesson-xml.c.
 */
#include "lesson-private.h"

#include <gio/gio.h>
#include <string.h>

#include "word.h"

#define CARRIED "/tenthgram/lessons"
#define SUFFIX ".xml"

TG_DEFINE_WORDS (TgLessonStepKind, lesson_step_kind, "show", "do", "ask")
TG_DEFINE_WORDS (
    TgLessonOpeningKind, lesson_opening_kind, "read", "read-all", "zero", "check-weight", "pass")

static void
step_free (TgLessonStep *step)
{
  g_free (step->id);
  g_free (step->title);
  g_free (step->text);
  g_free (step->page);
  tg_lesson_subject_clear (&step->light);
  g_ptr_array_unref (step->conditions);
  g_clear_pointer (&step->question, tg_lesson_question_free);
  g_free (step);
}

static void
opening_free (TgLessonOpening *opening)
{
  tg_lesson_subject_clear (&opening->about);
  g_free (opening);
}

TgLessonStep *
tg_lesson_step_new (TgLessonStepKind kind)
{
  TgLessonStep *step = g_new0 (TgLessonStep, 1);

  step->kind = kind;
  step->conditions = g_ptr_array_new_with_free_func ((GDestroyNotify) tg_lesson_condition_free);
  return step;
}

TgLessonOpening *
tg_lesson_opening_new (TgLessonOpeningKind kind)
{
  TgLessonOpening *opening = g_new0 (TgLessonOpening, 1);

  opening->kind = kind;
  return opening;
}

TgLesson *
tg_lesson_new (void)
{
  TgLesson *lesson = g_new0 (TgLesson, 1);

  lesson->opening = g_ptr_array_new_with_free_func ((GDestroyNotify) opening_free);
  lesson->steps = g_ptr_array_new_with_free_func ((GDestroyNotify) step_free);
  return lesson;
}

void
tg_lesson_free (TgLesson *lesson)
{
  g_free (lesson->path);
  g_free (lesson->id);
  g_free (lesson->title);
  g_free (lesson->goal);
  g_free (lesson->learned);
  g_clear_pointer (&lesson->setup, tg_setup_free);
  g_ptr_array_unref (lesson->opening);
  g_ptr_array_unref (lesson->steps);
  g_free (lesson);
}

TgLesson *
tg_lesson_load_file (const char *path, const TgLibrary *library, GError **error)
{
  g_autofree char *name = g_path_get_basename (path);
  g_autofree char *data = NULL;
  gsize size;
  TgLesson *lesson;

  if (!g_file_get_contents (path, &data, &size, error))
    return NULL;
  lesson = tg_lesson_parse (data, size, name, library, error);
  if (lesson)
    lesson->path = g_strdup (path);
  return lesson;
}

/* -- those that there are -------------------------------------------------------------------------- */

static int
by_name (gconstpointer a, gconstpointer b)
{
  return strcmp (*(const char *const *) a, *(const char *const *) b);
}

static GPtrArray *
sorted_names (char **names)
{
  GPtrArray *sorted = g_ptr_array_new_with_free_func (g_free);

  for (guint i = 0; names && names[i]; i++)
    if (g_str_has_suffix (names[i], SUFFIX))
      g_ptr_array_add (sorted, g_strdup (names[i]));
  g_ptr_array_sort (sorted, by_name);
  return sorted;
}

/* A fault in one of these is a fault of the program, which the tests exclude; it is told all the same. */
static void
load_carried (GPtrArray *lessons, GPtrArray *faults, const TgLibrary *library)
{
  g_auto (GStrv)
      names = g_resources_enumerate_children (CARRIED, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  g_autoptr (GPtrArray) sorted = sorted_names (names);

  for (guint i = 0; i < sorted->len; i++)
    {
      const char *name = g_ptr_array_index (sorted, i);
      g_autofree char *path = g_strconcat (CARRIED "/", name, NULL);
      g_autoptr (GBytes) bytes = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
      g_autoptr (GError) error = NULL;
      TgLesson *lesson = tg_lesson_parse (g_bytes_get_data (bytes, NULL), g_bytes_get_size (bytes),
                                          name, library, &error);

      if (lesson)
        g_ptr_array_add (lessons, lesson);
      else
        g_ptr_array_add (faults, g_strdup (error->message));
    }
}

static GPtrArray *
names_in (const char *folder)
{
  g_autoptr (GDir) dir = folder ? g_dir_open (folder, 0, NULL) : NULL;
  g_autoptr (GStrvBuilder) builder = g_strv_builder_new ();
  g_auto (GStrv) names = NULL;
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    g_strv_builder_add (builder, name);
  names = g_strv_builder_end (builder);
  return sorted_names (names);
}

static void
load_own (GPtrArray *lessons, GPtrArray *faults, const char *folder, const TgLibrary *library)
{
  g_autoptr (GPtrArray) names = names_in (folder);

  for (guint i = 0; i < names->len; i++)
    {
      const char *name = g_ptr_array_index (names, i);
      g_autofree char *path = g_build_filename (folder, name, NULL);
      g_autoptr (GError) error = NULL;
      g_autoptr (TgLesson) lesson = tg_lesson_load_file (path, library, &error);

      if (!lesson)
        g_ptr_array_add (faults, g_strdup (error->message));
      else if (tg_lessons_find (lessons, lesson->id))
        g_ptr_array_add (faults,
                         g_strdup_printf ("%s: there is a lesson “%s” already", name, lesson->id));
      else
        g_ptr_array_add (lessons, g_steal_pointer (&lesson));
    }
}

GPtrArray *
tg_lessons_load (const char *folder, const TgLibrary *library, GPtrArray **faults)
{
  GPtrArray *lessons = g_ptr_array_new_with_free_func ((GDestroyNotify) tg_lesson_free);

  *faults = g_ptr_array_new_with_free_func (g_free);
  load_carried (lessons, *faults, library);
  load_own (lessons, *faults, folder, library);
  return lessons;
}

const TgLesson *
tg_lessons_find (const GPtrArray *lessons, const char *id)
{
  for (guint i = 0; i < lessons->len; i++)
    {
      const TgLesson *lesson = g_ptr_array_index (lessons, i);

      if (strcmp (lesson->id, id) == 0)
        return lesson;
    }
  return NULL;
}
