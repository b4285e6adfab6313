/* test-lesson-walk.c: a careful worker finishes every lesson, a careless one is stopped in it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-walk.h"

#include <math.h>

#include "build.h"
#include "pairing.h"
#include "practice-replay.h"

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

static const TgLesson *
find (const char *id)
{
  const TgLesson *lesson = tg_lessons_find (lessons, id);

  g_assert_nonnull (lesson);
  return lesson;
}

static TgJob *
opened (const char *id)
{
  return tg_lesson_new_job (find (id), (TgStamp){ 1780000000, 60 }, "Teacher");
}

/* The end that is read first catches, one way up only, by more than readings scatter. */
static void
test_turn_over_catches (void)
{
  g_autoptr (TgJob) job = opened ("turn-over");
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, tg_job_n_events (job));
  const TgSlot up = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
  const TgSlot down = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN };
  double turn = tg_practice_bench_catches_g (bench, &up) -
                tg_practice_bench_catches_g (bench, &down);

  g_assert_cmpfloat_with_epsilon (fabs (turn), 0.9, 1e-9);
}

/* Parts are further apart than the tolerance, so that there is something to do. */
static void
test_sets_are_uneven (void)
{
  static const struct
  {
    const char *lesson;
    TgBand band;
  } rows[] = { { "coupled-ends", TG_BAND_ROD_SMALL }, { "coupled-ends", TG_BAND_ROD_BIG },
               { "target", TG_BAND_PISTON },          { "never", TG_BAND_ROD_SMALL },
               { "never", TG_BAND_ROD_BIG },          { "pairing", TG_BAND_PISTON },
               { "overshoot", TG_BAND_PISTON } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_autoptr (TgJob) job = opened (rows[i].lesson);
      g_autoptr (TgReview) review = tg_review_new (job);
      const TgBandReview *band = &review->bands[rows[i].band];

      g_test_message ("%s: spread %.2f", rows[i].lesson, band->spread_g);
      g_assert_cmpuint (band->n_weighed, ==, band->n_parts);
      g_assert_cmpfloat (band->spread_g, >, band->tolerance_g + 0.15);
    }
}

/* The pass of the opening went under the target that it held, and a decision waits. */
static void
test_overshoot_waits (void)
{
  g_autoptr (TgJob) job = opened ("overshoot");
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgDecision *decision;

  g_assert_cmpuint (review->decisions->len, ==, 1);
  decision = g_ptr_array_index (review->decisions, 0);
  g_assert_cmpint (decision->code, ==, TG_FINDING_TOO_LIGHT);
  g_assert_cmpint (decision->part, ==, 0);
  g_assert_cmpuint (decision->choices->len, >=, 2);
  g_assert_true (review->bands[TG_BAND_PISTON].decided);
  for (guint i = 0; i < review->findings->len; i++)
    g_assert_cmpint (((TgFinding *) g_ptr_array_index (review->findings, i))->code, !=,
                     TG_FINDING_ZONE_EXCEEDED);
}

/* As read the set is even, and yet not proven. */
static void
test_tolerance_is_not_proven (void)
{
  g_autoptr (TgJob) job = opened ("tolerance");
  g_autoptr (TgReview) review = tg_review_new (job);

  g_assert_true (review->bands[TG_BAND_PISTON].even);
  g_assert_false (review->bands[TG_BAND_PISTON].proven);
}

/* Another pairing takes less than today's. */
static void
test_pairing_pays (void)
{
  g_autoptr (TgJob) job = opened ("pairing");
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *why_not = NULL;
  g_autoptr (TgPairing) pairing = tg_pairing_new (review, TG_PAIRING_PISTONS, &why_not);
  const TgMatchingLimits limits = { .nodes = 20000 };
  TgPairingResult result;
  TgMatchingPlan today;

  tg_pairing_solve (pairing, &limits, &result);
  g_assert_true (tg_pairing_today (pairing, &today, NULL));
  g_test_message ("%.1f g against %.1f g", tg_pairing_cost_g (pairing, &result.sums.plan),
                  tg_pairing_cost_g (pairing, &today));
  g_assert_cmpfloat (tg_pairing_cost_g (pairing, &result.sums.plan) + 0.3, <,
                     tg_pairing_cost_g (pairing, &today));
}

/* The set to be built is proven. */
static void
test_build_is_ready (void)
{
  g_autoptr (TgJob) job = opened ("build");
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (TgBuild) build = tg_build_new (job, review);

  for (guint bore = 1; bore <= 2; bore++)
    g_assert_true (tg_build_card (build, bore)->ready);
}

/* The zero has moved by the time of the second look. */
static void
test_zero_wanders (void)
{
  g_autoptr (PracticeWorker) worker = lesson_walk_new (find ("zero"), 0);
  double most = 0;

  g_assert_true (lesson_walk_run (worker, find ("zero"), NULL, 200));
  for (guint i = 0; i < worker->review->scale.checks->len; i++)
    {
      const TgScaleCheck *check = &g_array_index (worker->review->scale.checks, TgScaleCheck, i);

      if (check->zero)
        most = MAX (most, fabs (check->error_g));
    }
  g_assert_cmpfloat (most, >=, 0.1);
}

/* -- careless ones --------------------------------------------------------------------------------- */

/* Somebody who grinds anywhere comes as far as the first step that forbids it, and no further. */
static void
test_never_stops (void)
{
  static const struct
  {
    const char *lesson, *step;
  } rows[] = { { "coupled-ends", "grind" }, { "target", "hold" }, { "never", "even" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      const TgLesson *lesson = find (rows[i].lesson);
      g_autoptr (PracticeWorker) worker = lesson_walk_new (lesson, PRACTICE_HABIT_ANYWHERE);
      g_autoptr (TgLessonProgress) progress = NULL;

      g_assert_false (lesson_walk_run (worker, lesson, NULL, 150));
      progress = lesson_walk_look (worker, lesson);
      g_assert_cmpstr (tg_lesson_step (lesson, progress->current)->id, ==, rows[i].step);
    }
}

/* Somebody who does not rock the rods free and keeps what is doubtful is held up by the doubt. */
static void
test_doubt_stops (void)
{
  const TgLesson *lesson = find ("turn-over");
  g_autoptr (PracticeWorker)
      worker = lesson_walk_new (lesson, PRACTICE_HABIT_NO_ROCK | PRACTICE_HABIT_KEEPS);
  g_autoptr (TgLessonProgress) progress = NULL;

  g_assert_false (lesson_walk_run (worker, lesson, NULL, 150));
  progress = lesson_walk_look (worker, lesson);
  g_assert_cmpstr (tg_lesson_step (lesson, progress->current)->id, ==, "both");
  g_assert_true (g_str_has_prefix (g_ptr_array_index (progress->missing, 0), "Still in doubt: "));
}

/* A wrong answer, or the wrong sign, may be tried again as often as one likes, and goes no further. */
static void
test_wrong_answers_stop (void)
{
  const TgLesson *lesson = find ("coupled-ends");
  g_autoptr (PracticeWorker) worker = lesson_walk_new (lesson, 0);

  g_assert_true (lesson_walk_run (worker, lesson, "shoulders", 20));
  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (TgLessonProgress) progress = NULL;

      lesson_walk_step (worker, tg_lesson_step (lesson, 1), i == 0 ? "0.9" : "+0.12");
      progress = lesson_walk_look (worker, lesson);
      g_assert_cmpuint (progress->current, ==, 1);
      g_assert_cmpuint (tg_lesson_progress_step (progress, 1)->answers->len, ==, i + 1);
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
  g_test_add_func ("/lesson-walk/turn-over", test_turn_over_catches);
  g_test_add_func ("/lesson-walk/uneven", test_sets_are_uneven);
  g_test_add_func ("/lesson-walk/overshoot", test_overshoot_waits);
  g_test_add_func ("/lesson-walk/tolerance", test_tolerance_is_not_proven);
  g_test_add_func ("/lesson-walk/pairing", test_pairing_pays);
  g_test_add_func ("/lesson-walk/build", test_build_is_ready);
  g_test_add_func ("/lesson-walk/zero", test_zero_wanders);
  g_test_add_func ("/lesson-walk/never", test_never_stops);
  g_test_add_func ("/lesson-walk/doubt", test_doubt_stops);
  g_test_add_func ("/lesson-walk/wrong-answers", test_wrong_answers_stop);
  status = g_test_run ();
  g_ptr_array_unref (lessons);
  tg_library_free (library);
  return status;
}
