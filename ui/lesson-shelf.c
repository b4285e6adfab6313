/* lesson-shelf.c: which lessons there are, see lesson-shelf.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-shelf.h"

#include <errno.h>
#include <string.h>

#include "error.h"
#include "job-draft.h"
#include "job-xml.h"

static char *
own_place (const char *name)
{
  return g_build_filename (g_get_user_data_dir (), "tenthgram", name, NULL);
}

char *
tg_lesson_shelf_own_folder (void)
{
  return own_place ("lessons");
}

char *
tg_lesson_shelf_practice_folder (void)
{
  return own_place ("practice");
}

static void
place_free (TgLessonPlace *place)
{
  g_free (place->path);
  g_free (place);
}

/* -- how far each has come ------------------------------------------------------------------------- */

static gint64
last_moment (const TgJob *job)
{
  guint n = tg_job_n_events (job);

  return n > 0 ? tg_job_event (job, n - 1)->stamp.seconds : 0;
}

/* Of several jobs for one lesson the one that was worked on last counts. */
static void
take_job (TgLessonShelf *shelf, const char *path, gint64 *moments)
{
  g_autoptr (TgJob) job = tg_job_xml_load (path, NULL);
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgLessonProgress) progress = NULL;

  if (!job || !tg_job_setup (job)->practice.on)
    return;
  for (guint i = 0; i < shelf->places->len; i++)
    {
      TgLessonPlace *place = g_ptr_array_index (shelf->places, i);

      if (strcmp (place->lesson->id, tg_job_setup (job)->practice.lesson) != 0 ||
          (place->path && last_moment (job) < moments[i]))
        continue;
      review = tg_review_new (job);
      progress = tg_lesson_progress_new (place->lesson, job, review);
      g_free (place->path);
      place->path = g_strdup (path);
      place->standing = progress->finished ? TG_LESSON_FINISHED : TG_LESSON_BEGUN;
      place->step = progress->current + 1;
      moments[i] = last_moment (job);
      return;
    }
}

static void
take_jobs (TgLessonShelf *shelf, const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autofree gint64 *moments = g_new0 (gint64, MAX (1, shelf->places->len));
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      if (g_str_has_suffix (name, ".tenthgram"))
        take_job (shelf, path, moments);
    }
}

TgLessonShelf *
tg_lesson_shelf_new (const char *own_folder, const char *practice_folder)
{
  TgLessonShelf *shelf = g_new0 (TgLessonShelf, 1);

  shelf->library = tg_library_load (NULL);
  shelf->lessons = tg_lessons_load (own_folder, shelf->library, &shelf->faults);
  shelf->places = g_ptr_array_new_with_free_func ((GDestroyNotify) place_free);
  for (guint i = 0; i < shelf->lessons->len; i++)
    {
      TgLessonPlace *place = g_new0 (TgLessonPlace, 1);

      place->lesson = g_ptr_array_index (shelf->lessons, i);
      g_ptr_array_add (shelf->places, place);
    }
  take_jobs (shelf, practice_folder);
  return shelf;
}

void
tg_lesson_shelf_free (TgLessonShelf *shelf)
{
  g_ptr_array_unref (shelf->places);
  g_ptr_array_unref (shelf->lessons);
  g_ptr_array_unref (shelf->faults);
  tg_library_free (shelf->library);
  g_free (shelf);
}

/* -- adding and beginning -------------------------------------------------------------------------- */

static gboolean
make_folder (const char *folder, GError **error)
{
  if (g_mkdir_with_parents (folder, 0700) == 0)
    return TRUE;
  g_set_error (error, TG_ERROR, TG_ERROR_IO, "%s cannot be made: %s", folder, g_strerror (errno));
  return FALSE;
}

gboolean
tg_lesson_shelf_add (const TgLessonShelf *shelf,
                     const char *path,
                     const char *own_folder,
                     GError **error)
{
  g_autoptr (TgLesson) lesson = tg_lesson_load_file (path, shelf->library, error);
  g_autofree char *name = g_path_get_basename (path);
  g_autoptr (GFile) from = g_file_new_for_path (path);
  g_autofree char *to_path = NULL;
  g_autoptr (GFile) to = NULL;

  if (!lesson)
    return FALSE;
  if (tg_lessons_find (shelf->lessons, lesson->id))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_DUPLICATE, "%s: there is a lesson “%s” already", name,
                   lesson->id);
      return FALSE;
    }
  if (!g_str_has_suffix (name, ".xml"))
    {
      g_autofree char *plain = g_steal_pointer (&name);

      name = g_strconcat (plain, ".xml", NULL);
    }
  to_path = g_build_filename (own_folder, name, NULL);
  to = g_file_new_for_path (to_path);
  return make_folder (own_folder, error) &&
         g_file_copy (from, to, G_FILE_COPY_NONE, NULL, NULL, NULL, error);
}

/* What the opening says, as the program appends it: moments and names are those of the session. */
static gboolean
append_opening (TgSession *session, const TgLesson *lesson, GError **error)
{
  g_autoptr (TgJob) job = tg_lesson_new_job (lesson, (TgStamp){ 0, 0 }, "");
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (TgEvent));

  for (guint i = 0; i < tg_job_n_events (job); i++)
    g_array_append_vals (events, tg_job_event (job, i), 1);
  return events->len == 0 ||
         tg_session_append (session, (const TgEvent *) events->data, events->len, error);
}

TgSession *
tg_lesson_shelf_begin (const TgLesson *lesson, const char *practice_folder, GError **error)
{
  g_autofree char *path = tg_job_draft_path (practice_folder, lesson->title);
  g_autoptr (TgSession) session = NULL;

  if (!make_folder (practice_folder, error))
    return NULL;
  session = tg_session_create (tg_lesson_new_setup (lesson), path, error);
  if (!session || !append_opening (session, lesson, error))
    return NULL;
  /* what was done before the lesson is not for this session to take back as a whole */
  return tg_session_open (path, error);
}
