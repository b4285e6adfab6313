/* test-lesson-walk.c: a careful worker finishes every lesson, a careless one is stopped in it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-walk.h"

static TgLibrary *library;
static GPtrArray *lessons;

static void
test_careful (void)
{
  for (guint i = 0; i < lessons->len; i++)
    {
      const TgLesson *lesson = g_ptr_array_index (lessons, i);
      g_autoptr (PracticeWorker) worker = lesson_walk_new (lesson, 0);
      gboolean finished = lesson_walk_run (worker, lesson, NULL, 600);

      g_test_message ("%s: %u entries, %s", lesson->id, tg_job_n_events (worker->job),
                      finished ? "finished" : "not finished");
      g_assert_true (finished);
    }
}

int
main (int argc, char **argv)
{
  g_autoptr (GPtrArray) faults = NULL;
  int status;

  g_test_init (&argc, &argv, NULL);
  library = tg_library_load (NULL);
  lessons = tg_lessons_load (NULL, library, &faults);
  for (guint i = 0; i < faults->len; i++)
    g_test_message ("%s", (const char *) g_ptr_array_index (faults, i));
  g_assert_cmpuint (faults->len, ==, 0);
  g_test_add_func ("/lesson-walk/careful", test_careful);
  status = g_test_run ();
  g_ptr_array_unref (lessons);
  tg_library_free (library);
  return status;
}
