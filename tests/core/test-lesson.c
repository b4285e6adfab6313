/* test-lesson.c: the lessons that come along, lesson files with faults, and the job as a lesson begins
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson.h"

#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "error.h"
#include "lesson-text.h"
#include "practice-replay.h"

static void
test_carried (void)
{
  static const char *const ids[] = { "turn-over", "zero",      "coupled-ends", "target", "never",
                                     "pairing",   "overshoot", "tolerance",    "build" };
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  g_autoptr (GPtrArray) faults = NULL;
  g_autoptr (GPtrArray) lessons = tg_lessons_load (NULL, library, &faults);

  for (guint i = 0; i < faults->len; i++)
    g_test_message ("%s", (char *) g_ptr_array_index (faults, i));
  g_assert_cmpuint (faults->len, ==, 0);
  g_assert_cmpuint (lessons->len, ==, G_N_ELEMENTS (ids));
  for (guint i = 0; i < lessons->len; i++)
    {
      const TgLesson *lesson = g_ptr_array_index (lessons, i);
      g_autoptr (TgSetup) setup = tg_lesson_new_setup (lesson);

      g_assert_cmpstr (lesson->id, ==, ids[i]);
      g_assert_null (lesson->path);
      g_assert_true (tg_setup_check (setup, NULL));
      g_assert_true (setup->practice.on);
      g_assert_cmpstr (setup->practice.lesson, ==, lesson->id);
      g_assert_cmpuint (lesson->steps->len, >=, 4);
      g_assert_cmpuint (lesson->steps->len, <=, 8);
      g_assert_true (g_str_has_suffix (lesson->goal, "."));
      g_assert_true (g_str_has_suffix (lesson->learned, "."));
    }
}

/* Every lesson shows, lets do and asks back; where it is ground it says what protects. */
static void
test_carried_steps (void)
{
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  g_autoptr (GPtrArray) faults = NULL;
  g_autoptr (GPtrArray) lessons = tg_lessons_load (NULL, library, &faults);

  for (guint i = 0; i < lessons->len; i++)
    {
      const TgLesson *lesson = g_ptr_array_index (lessons, i);
      guint n[TG_N_LESSON_STEPS] = { 0 };

      for (guint s = 0; s < lesson->steps->len; s++)
        {
          const TgLessonStep *step = tg_lesson_step (lesson, s);

          n[step->kind]++;
          g_assert_cmpuint (g_utf8_strlen (step->title, -1), <=, 45);
          g_assert_cmpuint (g_utf8_strlen (step->text, -1), <=, 420);
          g_assert_null (strstr (step->text, "  "));
        }
      for (TgLessonStepKind kind = 0; kind < TG_N_LESSON_STEPS; kind++)
        g_assert_cmpuint (n[kind], >=, 1);
    }
}

/* -- faults ---------------------------------------------------------------------------------------- */

#define SHOW "<show id=\"a\" title=\"A\"><text>T.</text></show>\n"
#define DO(condition) "<do id=\"d\" title=\"D\"><text>T.</text>\n" condition "</do>\n"
#define ASK(question) "<ask id=\"q\" title=\"Q\"><text>T.</text>\n" question "</ask>\n"

/* The job of lesson-text.h ends in line 9, so that the first step begins in line 10. */
static void
test_faulty_steps (void)
{
  static const struct
  {
    const char *steps;
    int line;
    const char *cause;
  } rows[] = {
    { "<tell id=\"a\" title=\"A\"><text>T.</text></tell>\n", 10, "no element “tell” belongs here" },
    { SHOW SHOW, 11, "two steps are called “a”" },
    { "<show title=\"A\"><text>T.</text></show>\n", 10, "lacks the attribute “id”" },
    { "<show id=\"a\" title=\"A\"/>\n", 10, "here “show” has no “text”" },
    { "<show id=\"a\" title=\"A\" page=\"kitchen\"><text>T.</text></show>\n", 10,
      "attribute “page” of “show” cannot be “kitchen”" },
    { "<show id=\"a\" title=\"A\" part=\"rod-9\"><text>T.</text></show>\n", 10,
      "the job of the lesson has no part “rod-9”" },
    { "<show id=\"a\" title=\"A\" part=\"rod-1\" zone=\"nose\"><text>T.</text></show>\n", 10,
      "no zone of that part “nose”" },
    { "<show id=\"a\" title=\"A\" zone=\"cap-pad\"><text>T.</text></show>\n", 10,
      "lit without a “part”" },
    { "<show id=\"a\" title=\"A\" colour=\"red\"><text>T.</text></show>\n", 10, "colour" },
    { "<show id=\"a\" title=\"A\"><text>T.</text><done/></show>\n", 10,
      "no element “done” belongs here" },
    { DO (""), 10, "nothing says when the step “d” is done" },
    { DO ("<wait/>\n"), 11, "no element “wait” belongs here" },
    { DO ("<readings part=\"rod-3\"/>\n"), 11, "no part “rod-3”" },
    { DO ("<readings at-least=\"0\"/>\n"), 11, "cannot be “0”" },
    { DO ("<readings part=\"piston-1\" figure=\"big-end\"/>\n"), 11, "only rods have a big end" },
    { DO ("<readings part=\"piston-1\" way=\"both\"/>\n"), 11, "“readings” can never hold here" },
    { DO ("<readings kind=\"clips\"/>\n"), 11, "no family “clips”" },
    { DO ("<passes zone=\"beam\"/>\n"), 11, "nobody may be asked to grind there" },
    { DO ("<even band=\"piston-alone\"/>\n"), 11, "no band “piston-alone”" },
    { DO ("<even/>\n"), 11, "lacks the attribute “band”" },
    { DO ("<ticks bore=\"3\"/>\n"), 11, "cannot be “3”" },
    { ASK (""), 10, "the step “q” asks nothing" },
    { ASK ("<weight part=\"rod-1\"/>\n"), 11, "no element “weight” belongs here" },
    { ASK ("<mean part=\"rod-7\" figure=\"big-end\"/>\n"), 11, "no part “rod-7”" },
    { ASK ("<mean part=\"piston-1\" figure=\"whole\"/>\n"), 11, "“mean” cannot be asked here" },
    { ASK ("<closure part=\"piston-1\"/>\n"), 11, "only rods have two ends" },
    { ASK ("<effect part=\"rod-1\" zone=\"cap-pad\" figure=\"big-end\"/>\n"), 11, "“grams”" },
    { ASK ("<effect part=\"rod-1\" zone=\"cap-pad\" figure=\"big-end\" grams=\"0\"/>\n"), 11,
      "cannot be “0”" },
    { ASK ("<partner part=\"piston-1\" kind=\"rings\"/>\n"), 11, "no family “rings”" },
    { ASK ("<choice>Yes.</choice>\n<choice>No.</choice>\n"), 11, "none of these choices is right" },
    { ASK ("<choice right=\"yes\">Yes.</choice>\n"), 11, "a single choice is none" },
    { ASK ("<choice right=\"yes\">A.</choice>\n<choice right=\"yes\">B.</choice>\n"), 11,
      "all of these choices are right" },
    { ASK ("<sum bore=\"1\"/><sum bore=\"2\"/>\n"), 11, "no element “sum” belongs here" },
    { "<opening><read part=\"rod-1\" figure=\"small-end\"/></opening>\n" SHOW, 10,
      "an end is read with “way”" },
    { "<opening><read part=\"piston-1\" figure=\"whole\" way=\"mark-up\"/></opening>\n" SHOW, 10,
      "a whole part has no way up" },
    { "<opening>\n<pass part=\"rod-1\" zone=\"cap-pad\" tool=\"axe\" seconds=\"5\" "
      "wanted=\"1\"/></opening>\n" SHOW,
      11, "cannot be “axe”" },
    { "", 1, "a lesson without a step" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autoptr (TgLesson) lesson = lesson_text_parse (rows[i].steps, &error);
      g_autofree char *place = g_strdup_printf ("t.xml:%d: ", rows[i].line);

      g_test_message ("row %u: %s", i, error ? error->message : "accepted");
      g_assert_null (lesson);
      g_assert_true (g_str_has_prefix (error->message, place));
      g_assert_nonnull (strstr (error->message, rows[i].cause));
    }
}

#define JOB(attributes, inner) "<job " attributes ">\n" inner "</job>\n"
#define USUAL "cylinders=\"2\" step=\"0.1\""
#define RODS "<family kind=\"rod\" design=\"rod-i\"/>\n"
#define BENCH "<bench seed=\"s\" spread=\"1\"/>\n"

static void
test_faulty_jobs (void)
{
  static const struct
  {
    const char *job;
    int line;
    const char *cause;
  } rows[] = {
    { JOB ("cylinders=\"0\" step=\"0.1\"", RODS BENCH), 3, "0 cylinders" },
    { JOB ("cylinders=\"2\"", RODS BENCH), 3, "“step”" },
    { JOB (USUAL " layout=\"star\"", RODS BENCH), 3, "cannot be “star”" },
    { JOB (USUAL, BENCH), 3, "part" },
    { JOB (USUAL, RODS), 3, "a job without a “bench”" },
    { JOB (USUAL, RODS RODS BENCH), 5, "a second family of rods" },
    { JOB (USUAL, "<family kind=\"rod\" design=\"rod-x\"/>\n" BENCH), 4, "no rod design “rod-x”" },
    { JOB (USUAL, "<family kind=\"piston\" design=\"rod-i\"/>\n" BENCH), 4,
      "no piston design “rod-i”" },
    { JOB (USUAL, "<family kind=\"rod\"/>\n" BENCH), 4, "“design”" },
    { JOB (USUAL, "<family kind=\"wheel\"/>\n" BENCH), 4, "cannot be “wheel”" },
    { JOB (USUAL, RODS "<set path=\"colour\" value=\"red\"/>\n" BENCH), 5, "colour" },
    { JOB (USUAL, RODS "<set path=\"repeats\" value=\"99\"/>\n" BENCH), 5, "99" },
    { JOB (USUAL, RODS "<bench seed=\"s\" spread=\"99\"/>\n"), 5, "spread" },
    { JOB (USUAL, RODS "<bench seed=\"s\" spread=\"1\" level=\"wild\"/>\n"), 5,
      "cannot be “wild”" },
    { JOB (USUAL, RODS "<bench seed=\"\" spread=\"1\"/>\n"), 5, "seed" },
    { JOB (USUAL,
           RODS "<bench seed=\"s\" spread=\"1\">\n<fault name=\"ghost\" value=\"1\"/></bench>\n"),
      6, "cannot be “ghost”" },
  };
  g_autoptr (TgLibrary) library = tg_library_load (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;
      g_autofree char *text = lesson_text (rows[i].job, SHOW);
      g_autoptr (TgLesson) lesson = tg_lesson_parse (text, strlen (text), "t.xml", library, &error);
      g_autofree char *place = g_strdup_printf ("t.xml:%d: ", rows[i].line);

      g_test_message ("row %u: %s", i, error ? error->message : "accepted");
      g_assert_null (lesson);
      g_assert_true (g_str_has_prefix (error->message, place));
      g_assert_nonnull (strstr (error->message, rows[i].cause));
    }
}

/* Other XML, a newer version, a document type. */
static void
test_foreign (void)
{
  static const struct
  {
    const char *text;
    int code;
  } rows[] = {
    { "<job/>", TG_ERROR_FOREIGN },
    { "<lesson xmlns=\"urn:tenthgram:lesson\" version=\"2\"/>", TG_ERROR_VERSION },
    { "<!DOCTYPE lesson [<!ENTITY a \"b\">]><lesson/>", TG_ERROR_UNSAFE },
    { "<lesson", TG_ERROR_SYNTAX },
  };
  g_autoptr (TgLibrary) library = tg_library_load (NULL);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_null (
          tg_lesson_parse (rows[i].text, strlen (rows[i].text), "t.xml", library, &error));
      g_assert_error (error, TG_ERROR, rows[i].code);
    }
}

/* -- a folder of one's own ------------------------------------------------------------------------- */

static void
put (const char *folder, const char *name, const char *text)
{
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, text, -1, &error);
  g_assert_no_error (error);
}

static void
test_own_folder (void)
{
  g_autofree char *folder = g_dir_make_tmp ("tenthgram-lessons-XXXXXX", NULL);
  g_autofree char *good = lesson_text (LESSON_TEXT_JOB, SHOW);
  g_autofree char *bad = lesson_text (LESSON_TEXT_JOB, DO (""));
  static const char *const names[] = { "b.xml", "c.xml", "d.xml", "notes.txt" };
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  g_autoptr (GPtrArray) faults = NULL;
  g_autoptr (GPtrArray) lessons = NULL;

  put (folder, "b.xml", good);
  put (folder, "c.xml", bad);
  put (folder, "d.xml", good);
  put (folder, "notes.txt", "no lesson");
  lessons = tg_lessons_load (folder, library, &faults);
  g_assert_cmpuint (lessons->len, ==, 10);
  g_assert_true (g_str_has_suffix (tg_lessons_find (lessons, "t")->path, "b.xml"));
  g_assert_cmpuint (faults->len, ==, 2);
  g_assert_true (g_str_has_prefix (g_ptr_array_index (faults, 0), "c.xml:10: "));
  g_assert_cmpstr (g_ptr_array_index (faults, 1), ==, "d.xml: there is a lesson “t” already");
  for (guint i = 0; i < G_N_ELEMENTS (names); i++)
    {
      g_autofree char *path = g_build_filename (folder, names[i], NULL);

      g_remove (path);
    }
  g_rmdir (folder);
}

/* -- what teachers are told ------------------------------------------------------------------------ */

/* The example of DEVELOPERS.md is a lesson. */
static void
test_example (void)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "..", "DEVELOPERS.md", NULL);
  g_autofree char *text = NULL;
  g_autoptr (TgLibrary) library = tg_library_load (NULL);
  g_autoptr (TgLesson) lesson = NULL;
  g_autoptr (GError) error = NULL;
  const char *begin, *end;

  g_file_get_contents (path, &text, NULL, &error);
  g_assert_no_error (error);
  begin = strstr (text, "```xml\n");
  g_assert_nonnull (begin);
  begin += strlen ("```xml\n");
  end = strstr (begin, "```");
  g_assert_nonnull (end);
  lesson = tg_lesson_parse (begin, (gsize) (end - begin), "example.xml", library, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (lesson->id, ==, "first-gram");
  g_assert_cmpuint (lesson->steps->len, ==, 4);
  g_assert_cmpfloat_with_epsilon (lesson->setup->practice.faults.drift_g, 0.05, 1e-12);
}

/* -- the opening ----------------------------------------------------------------------------------- */

/* Readings come from the bench: without faults they are the true figure to half a step; the pass takes what
 * the tool takes, and what is read after it is that much less. */
static void
test_opening (void)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (TgLesson) lesson = lesson_text_parse (
      "<opening><zero/><check-weight/><read part=\"piston-1\" figure=\"whole\"/>"
      "<pass part=\"piston-1\" zone=\"boss-feet\" tool=\"file\" seconds=\"60\" wanted=\"0.5\"/>"
      "<read part=\"piston-1\" figure=\"whole\"/></opening>" SHOW,
      &error);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgPracticeBench) bench = NULL;
  guint piston;
  double first, now;

  g_assert_no_error (error);
  job = tg_lesson_new_job (lesson, (TgStamp){ 1780000000, 0 }, "Teacher");
  bench = tg_practice_replay (job, tg_job_n_events (job));
  tg_setup_find_part (tg_job_setup (job), "piston-1", &piston);
  first = tg_practice_bench_truth_at_first (bench, piston, TG_FIGURE_WHOLE);
  now = tg_practice_bench_truth (bench, piston, TG_FIGURE_WHOLE);
  g_assert_cmpuint (tg_job_n_events (job), ==, 5);
  g_assert_cmpint (tg_job_event (job, 0)->kind, ==, TG_EVENT_ZERO);
  g_assert_cmpint (tg_job_event (job, 1)->mass, ==, 200 * TG_MASS_G);
  g_assert_cmpfloat (fabs (tg_mass_to_g (tg_job_event (job, 2)->mass) - first), <=, 0.05 + 1e-9);
  g_assert_cmpuint (tg_job_event (job, 3)->count, ==, 60);
  g_assert_cmpfloat (fabs (tg_mass_to_g (tg_job_event (job, 4)->mass) - now), <=, 0.05 + 1e-9);
  g_assert_cmpfloat (first - now, >, 0.05);
  g_assert_cmpstr (tg_job_event (job, 4)->who, ==, "Teacher");
  g_assert_true (tg_job_event (job, 4)->practice);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lesson/carried", test_carried);
  g_test_add_func ("/lesson/carried-steps", test_carried_steps);
  g_test_add_func ("/lesson/faulty-steps", test_faulty_steps);
  g_test_add_func ("/lesson/faulty-jobs", test_faulty_jobs);
  g_test_add_func ("/lesson/foreign", test_foreign);
  g_test_add_func ("/lesson/own-folder", test_own_folder);
  g_test_add_func ("/lesson/example", test_example);
  g_test_add_func ("/lesson/opening", test_opening);
  return g_test_run ();
}
