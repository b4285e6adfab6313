/* test-lesson-progress.c: how far somebody has come, from the journal alone
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-progress.h"

#include "lesson-text.h"

#define STEPS                                                                                      \
  "<show id=\"first\" title=\"F\"><text>T.</text></show>\n"                                        \
  "<do id=\"read\" title=\"R\"><text>T.</text><readings part=\"piston-1\"/></do>\n"                \
  "<ask id=\"ask\" title=\"A\"><text>T.</text><depth part=\"piston-1\" zone=\"boss-feet\" "        \
  "grams=\"0.81\"/></ask>\n"                                                                       \
  "<do id=\"grind\" title=\"G\"><text>T.</text><passes part=\"piston-1\"/></do>\n"                 \
  "<show id=\"last\" title=\"L\"><text>T.</text></show>\n"

typedef struct
{
  TgLesson *lesson;
  TgJob *job;
} Walk;

static Walk
walk_new (const char *steps)
{
  g_autoptr (GError) error = NULL;
  Walk walk = { .lesson = lesson_text_parse (steps, &error) };

  g_assert_no_error (error);
  walk.job = tg_lesson_new_job (walk.lesson, (TgStamp){ 1780000000, 60 }, "");
  return walk;
}

static void
walk_free (Walk *walk)
{
  tg_job_free (walk->job);
  tg_lesson_free (walk->lesson);
}

static TgLessonProgress *
look (const Walk *walk)
{
  g_autoptr (TgReview) review = tg_review_new (walk->job);

  return tg_lesson_progress_new (walk->lesson, walk->job, review);
}

static void
assert_at (const Walk *walk, guint current, guint n_due)
{
  g_autoptr (TgLessonProgress) progress = look (walk);
  g_autoptr (GArray) due = tg_lesson_progress_due (progress, walk->lesson);

  g_assert_cmpuint (progress->current, ==, current);
  g_assert_cmpint (progress->finished, ==, current == walk->lesson->steps->len);
  g_assert_cmpuint (due->len, ==, n_due);
  for (guint i = 0; i < walk->lesson->steps->len; i++)
    g_assert_cmpint (tg_lesson_progress_step (progress, i)->done, ==, i < current);
}

static void
say (Walk *walk, const char *step, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_STEP);

  event.path = step;
  event.value = value;
  lesson_text_append (walk->job, event);
}

static void
read_piston (Walk *walk)
{
  lesson_text_weigh (walk->job, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 400);
}

/* From the first step to the last; 0.81 g off two feet of 150 mm² in aluminium of 2.7 g/cm³ is 1 mm. */
static void
test_through (void)
{
  Walk walk = walk_new (STEPS);

  assert_at (&walk, 0, 0);
  say (&walk, "first", "");
  assert_at (&walk, 1, 0);
  read_piston (&walk);
  assert_at (&walk, 2, 1);
  say (&walk, "read", "");
  assert_at (&walk, 2, 0);
  say (&walk, "ask", "0.5");
  assert_at (&walk, 2, 0);
  say (&walk, "ask", "1,0 mm");
  assert_at (&walk, 3, 0);
  lesson_text_pass (walk.job, "piston-1", "boss-feet", 0.2);
  assert_at (&walk, 4, 1);
  say (&walk, "grind", "");
  say (&walk, "last", "");
  assert_at (&walk, 5, 0);
  walk_free (&walk);
}

/* What is done early counts when its turn comes, and not before. */
static void
test_early (void)
{
  Walk walk = walk_new (STEPS);

  read_piston (&walk);
  assert_at (&walk, 0, 0);
  say (&walk, "first", "");
  assert_at (&walk, 2, 1);
  walk_free (&walk);
}

/* A step that is recorded stays done, although a pass has made its reading old; one that is not recorded
 * has to be done again. */
static void
test_stays_done (void)
{
  Walk recorded = walk_new (STEPS), not_yet = walk_new (STEPS);

  say (&recorded, "first", "");
  read_piston (&recorded);
  say (&recorded, "read", "");
  lesson_text_pass (recorded.job, "piston-1", "boss-feet", 0.2);
  assert_at (&recorded, 2, 0);
  say (&not_yet, "first", "");
  read_piston (&not_yet);
  lesson_text_pass (not_yet.job, "piston-1", "boss-feet", 0.2);
  assert_at (&not_yet, 1, 0);
  walk_free (&recorded);
  walk_free (&not_yet);
}

/* An answer is judged by the job as it was: the figure that was asked for changes afterwards. */
static void
test_answer_of_its_day (void)
{
  Walk walk = walk_new ("<ask id=\"a\" title=\"A\"><text>T.</text><spread band=\"piston\"/></ask>\n"
                        "<show id=\"b\" title=\"B\"><text>T.</text></show>\n");
  static const char *const parts[] = { "piston-1", "piston-2", "pin-1", "pin-2" };
  static const double grams[] = { 400, 400.8, 100, 100 };

  for (guint i = 0; i < G_N_ELEMENTS (parts); i++)
    lesson_text_weigh (walk.job, parts[i], TG_FIGURE_WHOLE, TG_WAY_ANY, grams[i]);
  say (&walk, "a", "0.8");
  assert_at (&walk, 1, 0);
  lesson_text_weigh (walk.job, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 402.8);
  assert_at (&walk, 1, 0);
  walk_free (&walk);
}

/* A struck step is as if it had never been said; what other lessons said is passed over. */
static void
test_struck (void)
{
  Walk walk = walk_new (STEPS);
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

  say (&walk, "elsewhere", "");
  assert_at (&walk, 0, 0);
  say (&walk, "first", "");
  strike.refers = tg_job_event (walk.job, 1)->id;
  lesson_text_append (walk.job, strike);
  assert_at (&walk, 0, 0);
  walk_free (&walk);
}

/* What is said of the current step: what is missing, what is right, what was answered. */
static void
test_current (void)
{
  Walk walk = walk_new (STEPS);
  g_autoptr (TgLessonProgress) reading = NULL;
  g_autoptr (TgLessonProgress) asking = NULL;

  say (&walk, "first", "");
  reading = look (&walk);
  g_assert_true (reading->begun);
  g_assert_cmpuint (reading->missing->len, ==, 1);
  g_assert_cmpstr (g_ptr_array_index (reading->missing, 0), ==, "Piston 1, weight: 0 of 1 reading");
  g_assert_null (reading->answer);
  read_piston (&walk);
  say (&walk, "ask", "2");
  say (&walk, "ask", "3");
  asking = look (&walk);
  g_assert_cmpuint (asking->missing->len, ==, 0);
  g_assert_cmpfloat_with_epsilon (asking->answer->value, 1, 1e-9);
  g_assert_cmpuint (tg_lesson_progress_step (asking, 2)->answers->len, ==, 2);
  g_assert_cmpstr (g_ptr_array_index (tg_lesson_progress_step (asking, 2)->answers, 1), ==, "3");
  walk_free (&walk);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lesson-progress/through", test_through);
  g_test_add_func ("/lesson-progress/early", test_early);
  g_test_add_func ("/lesson-progress/stays-done", test_stays_done);
  g_test_add_func ("/lesson-progress/answer-of-its-day", test_answer_of_its_day);
  g_test_add_func ("/lesson-progress/struck", test_struck);
  g_test_add_func ("/lesson-progress/current", test_current);
  return g_test_run ();
}
