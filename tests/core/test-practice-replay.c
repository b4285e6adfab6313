/* test-practice-replay.c: a practice job is its seed and its journal; it does not mix with real ones
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-replay.h"

#include <math.h>
#include <string.h>

#include "error.h"
#include "fixture.h"
#include "job-xml.h"
#include "practice-worker.h"
#include "table-export.h"
#include "table-import.h"

static TgSetup *
practice_setup (const char *seed, TgPracticeLevel level)
{
  TgSetup *setup = fixture_setup (3, TRUE, TRUE);

  g_free (setup->name);
  setup->name = g_strdup ("Practice set");
  setup->check_weight = 500 * TG_MASS_G;
  tg_practice_set (&setup->practice, seed);
  setup->practice.spread_g = 1;
  setup->practice.faults = tg_practice_level_faults (level, 0.1);
  return setup;
}

static TgJob *
practice_job (const char *seed)
{
  return tg_job_new (practice_setup (seed, TG_PRACTICE_STUBBORN));
}

static void
assert_same_truth (const TgJob *job, const TgPracticeBench *a, const TgPracticeBench *b)
{
  for (guint i = 0; i < tg_job_setup (job)->parts->len; i++)
    for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
      g_assert_cmpfloat (tg_practice_bench_truth (a, i, figure), ==,
                         tg_practice_bench_truth (b, i, figure));
}

/* What was ground is ground when the file is opened again, on whichever machine. */
static void
test_reopened (void)
{
  g_autoptr (PracticeWorker) worker = practice_worker_new (practice_job ("class"), 0);
  g_autoptr (GString) text = NULL;
  g_autoptr (TgJob) again = NULL;
  g_autoptr (TgPracticeBench) bench = NULL;
  double first;

  first = tg_practice_bench_truth (worker->bench, 0, TG_FIGURE_WHOLE) +
          tg_practice_bench_truth (worker->bench, 1, TG_FIGURE_WHOLE) +
          tg_practice_bench_truth (worker->bench, 2, TG_FIGURE_WHOLE);
  g_assert_true (practice_worker_run (worker, 2000));
  text = tg_job_xml_format (worker->job);
  again = tg_job_xml_parse (text->str, text->len, "again", NULL);
  bench = tg_practice_replay (again, tg_job_n_events (again));
  assert_same_truth (again, bench, worker->bench);
  g_assert_cmpfloat (tg_practice_bench_truth (bench, 0, TG_FIGURE_WHOLE) +
                         tg_practice_bench_truth (bench, 1, TG_FIGURE_WHOLE) +
                         tg_practice_bench_truth (bench, 2, TG_FIGURE_WHOLE),
                     <, first);
}

/* Nothing in the file that was just made tells a weight, and that of another word is the same but for it. */
static void
test_hidden (void)
{
  g_autoptr (TgJob) job = practice_job ("word one"), other = practice_job ("word two");
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  g_autoptr (GString) text = tg_job_xml_format (job), other_text = tg_job_xml_format (other);

  for (guint i = 0; i < tg_job_setup (job)->parts->len; i++)
    for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
      {
        double truth = tg_practice_bench_truth (bench, i, figure);
        g_autofree char *grams = g_strdup_printf ("%d", (int) truth);

        if (truth > 0)
          g_assert_null (strstr (text->str, grams));
      }
  g_string_replace (text, "word one", "word two", 0);
  g_assert_cmpstr (text->str, ==, other_text->str);
}

static TgEvent
pass_event (const char *part, const char *zone)
{
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);

  pass.part = part;
  pass.zone = zone;
  pass.tool = TG_TOOL_BELT;
  pass.practice = TRUE;
  return pass;
}

static const char *
last_id (const TgJob *job)
{
  return tg_job_event (job, tg_job_n_events (job) - 1)->id;
}

/* Striking out an entry brings no metal back, but a piece that never came. */
static void
test_struck (void)
{
  g_autoptr (TgJob) job = practice_job ("strike");
  g_autoptr (TgPracticeBench) fresh = tg_practice_replay (job, 0);
  g_autoptr (TgPracticeBench) ground = NULL, struck = NULL, replaced = NULL, back = NULL;
  TgEvent pass = pass_event ("rod-1", "small-pad"), strike = tg_event_blank (TG_EVENT_STRIKE);
  TgEvent replace = tg_event_blank (TG_EVENT_REPLACE);

  pass.effort = TG_EFFORT_SECONDS;
  pass.count = 20;
  fixture_append (job, pass);
  ground = tg_practice_replay (job, tg_job_n_events (job));
  g_assert_cmpfloat (tg_practice_bench_truth (ground, 0, TG_FIGURE_WHOLE), <,
                     tg_practice_bench_truth (fresh, 0, TG_FIGURE_WHOLE));
  strike.refers = last_id (job);
  fixture_append (job, strike);
  struck = tg_practice_replay (job, tg_job_n_events (job));
  assert_same_truth (job, ground, struck);

  replace.part = "rod-1";
  fixture_append (job, replace);
  replaced = tg_practice_replay (job, tg_job_n_events (job));
  g_assert_cmpfloat (tg_practice_bench_truth (replaced, 0, TG_FIGURE_WHOLE), !=,
                     tg_practice_bench_truth (ground, 0, TG_FIGURE_WHOLE));
  g_assert_cmpfloat (tg_practice_bench_taken (replaced, 0, 0), ==, 0);
  g_assert_cmpfloat (tg_practice_bench_truth (replaced, 1, TG_FIGURE_WHOLE), ==,
                     tg_practice_bench_truth (ground, 1, TG_FIGURE_WHOLE));
  strike.refers = last_id (job);
  fixture_append (job, strike);
  back = tg_practice_replay (job, tg_job_n_events (job));
  assert_same_truth (job, ground, back);
}

/* A pass lasts as long as was said; a stroke is a second; and without either as long as it usually takes. */
static void
test_seconds (void)
{
  g_autoptr (TgJob) job = practice_job ("seconds");
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  TgEvent pass = pass_event ("rod-1", "small-pad");
  double rate = tg_practice_bench_rate (bench, 0, TG_TOOL_BELT);

  pass.effort = TG_EFFORT_STROKES;
  pass.count = 7;
  g_assert_cmpuint (tg_practice_pass_seconds (bench, job, &pass), ==, 7);
  pass.effort = TG_EFFORT_SECONDS;
  pass.count = 31;
  g_assert_cmpuint (tg_practice_pass_seconds (bench, job, &pass), ==, 31);
  pass.effort = TG_EFFORT_NONE;
  pass.mass = tg_mass_from_g (40 * rate);
  g_assert_cmpuint (tg_practice_pass_seconds (bench, job, &pass), ==, 40);
  pass.mass = 0;
  g_assert_cmpuint (tg_practice_pass_seconds (bench, job, &pass), ==, 1);
}

/* Neither kind of job takes what belongs to the other, by event, by file or by table. */
static void
test_does_not_mix (void)
{
  g_autoptr (TgJob) practice = practice_job ("mix");
  g_autoptr (TgJob) real = tg_job_new (fixture_setup (3, TRUE, TRUE)), merged = NULL;
  g_autoptr (TgReview) review = NULL;
  TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);
  g_autoptr (GError) error = NULL;
  g_autofree char *real_table = NULL;
  g_autoptr (TgTableImport) into_practice = NULL, known = NULL;

  reading.id = "r";
  reading.part = "rod-1";
  reading.way = TG_WAY_MARK_UP;
  reading.mass = 171600;
  reading.stamp = (TgStamp){ 1790000000, 60 };
  g_assert_false (tg_job_append (practice, &reading, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_true (tg_job_append (real, &reading, NULL));
  reading.practice = TRUE;
  reading.id = "p";
  g_assert_false (tg_job_append (real, &reading, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
  g_clear_error (&error);
  g_assert_true (tg_job_append (practice, &reading, NULL));

  merged = tg_job_merge (real, practice, &error);
  g_assert_null (merged);
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);

  review = tg_review_new (practice);
  for (TgTableKind kind = 0; kind < TG_N_TABLE_KINDS; kind++)
    {
      g_autofree char *table = tg_table_export (practice, review, kind);
      g_autoptr (TgTableImport)
          import = tg_table_import_new (real, table, strlen (table), "table", NULL, NULL);

      g_assert_true (g_str_has_prefix (table, TG_TABLE_PRACTICE));
      g_assert_nonnull (strstr (import->problem, "practice bench"));
      g_assert_cmpuint (import->n_new, ==, 0);
    }
  real_table = tg_table_export_readings (real);
  into_practice = tg_table_import_new (practice, real_table, strlen (real_table), "t", NULL, NULL);
  g_assert_nonnull (into_practice->problem);
  g_assert_cmpuint (into_practice->n_new, ==, 0);
  known = tg_table_import_new (real, real_table, strlen (real_table), "t", NULL, NULL);
  g_assert_null (known->problem);
  g_assert_cmpuint (known->n_known, ==, 1);
}

/* What a careful person does helps: the bearing that was rocked free, the weight, the zero. */
static void
test_deeds (void)
{
  g_autoptr (TgSetup) setup = practice_setup ("deeds", TG_PRACTICE_HONEST);
  const TgPracticeFaults faults = { .catch_g = 0.9, .catch_share = 1, .gain = 0.001 };
  g_autoptr (TgPracticeBench) bench = tg_practice_bench_new (setup, "deeds", 1, &faults);
  const TgSlot slot = { 0, TG_FIGURE_BIG_END, TG_WAY_MARK_UP };
  double truth = tg_practice_bench_truth (bench, 0, TG_FIGURE_BIG_END);
  TgSlot lies;

  g_assert_false (tg_practice_bench_lies (bench, NULL));
  tg_practice_bench_lay (bench, &slot);
  g_assert_true (tg_practice_bench_lies (bench, &lies));
  g_assert_cmpint (lies.figure, ==, TG_FIGURE_BIG_END);
  /* the adjustment is a share of the load: 0.1 % of about 560 g is half a gram */
  g_assert_cmpfloat (fabs (tg_mass_to_g (tg_practice_bench_display (bench, 9000)) -
                           (truth + tg_practice_bench_catches_g (bench, &slot)) * 1.001),
                     <=, 0.05 + 1e-9);
  g_assert_cmpfloat (fabs (tg_practice_bench_catches_g (bench, &slot)), ==, 0.9);
  tg_practice_bench_rock (bench);
  g_assert_cmpfloat (fabs (tg_mass_to_g (tg_practice_bench_display (bench, 9000)) - truth * 1.001),
                     <=, 0.05 + 1e-9);
  tg_practice_bench_lay (bench, &slot); /* laid on anew it catches again */
  g_assert_cmpfloat (fabs (tg_mass_to_g (tg_practice_bench_display (bench, 9000)) - truth * 1.001),
                     >, 0.5);
  tg_practice_bench_lay_weight (bench, 500 * TG_MASS_G);
  g_assert_true (tg_practice_bench_has_weight (bench));
  g_assert_false (tg_practice_bench_lies (bench, NULL));
  g_assert_cmpint (tg_practice_bench_display (bench, 9000), ==, 500500);
  tg_practice_bench_lay (bench, NULL);
  g_assert_cmpint (tg_practice_bench_display (bench, 9000), ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/practice-replay/reopened", test_reopened);
  g_test_add_func ("/practice-replay/hidden", test_hidden);
  g_test_add_func ("/practice-replay/struck", test_struck);
  g_test_add_func ("/practice-replay/seconds", test_seconds);
  g_test_add_func ("/practice-replay/does-not-mix", test_does_not_mix);
  g_test_add_func ("/practice-replay/deeds", test_deeds);
  return g_test_run ();
}
