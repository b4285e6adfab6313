/* test-debrief.c: set, metal, passes and time of a debrief, against the hidden truth and plain arithmetic
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The least metal is held against GLPK (the GNU Linear Programming Kit) for rods, and against every pairing
 * tried one by one for pistons and pins.
 */
#include <math.h>
#include <string.h>

#include "csv.h"
#include "debrief-case.h"
#include "debrief.h"
#include "fixture.h"
#include "plan-oracle.h"
#include "practice-replay.h"
#include "practice-worker.h"
#include "report-debrief.h"
#include "rod-statics.h"

#define CLOSE(a, b, by) g_assert_cmpfloat_with_epsilon (a, b, by)

/* -- the set ---------------------------------------------------------------------------------------- */

static void
test_spread (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (3, FALSE));
  g_autoptr (TgDebrief) debrief = NULL;
  double g[3], heaviest, lightest;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_pass (job, "rod-1", "small-pad", 0.5, 40);
  debrief = case_debrief (job);
  for (guint i = 0; i < 3; i++)
    {
      g_autofree char *id = g_strdup_printf ("rod-%u", i + 1);

      g[i] = case_truth (job, id, TG_FIGURE_SMALL_END);
    }
  heaviest = fmax (g[0], fmax (g[1], g[2]));
  lightest = fmin (g[0], fmin (g[1], g[2]));
  g_assert_true (debrief->bands[TG_BAND_ROD_SMALL].present);
  g_assert_false (debrief->bands[TG_BAND_PISTON].present);
  CLOSE (debrief->bands[TG_BAND_ROD_SMALL].true_g, heaviest - lightest, 1e-9);
  CLOSE (debrief->bands[TG_BAND_ROD_SMALL].tolerance_g, 0.5, 1e-12);
  g_assert_true (debrief->bands[TG_BAND_ROD_SMALL].said);
  g_assert_cmpint (case_line (debrief, TG_DEBRIEF_SET, -1, "small ends")->verdict, ==,
                   heaviest - lightest <= 0.5 ? TG_DEBRIEF_GOOD : TG_DEBRIEF_POOR);
  g_assert_false (debrief->even);
}

/* With pins and small ends counted in, a set is what sits at one bore. */
static void
test_sums (void)
{
  TgSetup *setup = case_setup (2, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgDebrief) debrief = NULL;
  double sum[2];

  fixture_add_family (setup, TG_PART_PIN, 0);
  setup->small_ends = TG_SMALL_ENDS_BOTH;
  job = tg_job_new (setup);
  case_read_all (job);
  debrief = case_debrief (job);
  for (guint i = 0; i < 2; i++)
    {
      g_autofree char *rod = g_strdup_printf ("rod-%u", i + 1);
      g_autofree char *piston = g_strdup_printf ("piston-%u", i + 1);
      g_autofree char *pin = g_strdup_printf ("pin-%u", i + 1);

      sum[i] = case_truth (job, rod, TG_FIGURE_SMALL_END) +
               case_truth (job, piston, TG_FIGURE_WHOLE) + case_truth (job, pin, TG_FIGURE_WHOLE);
    }
  CLOSE (debrief->bands[TG_BAND_PISTON].true_g, fabs (sum[0] - sum[1]), 1e-9);
}

/* The greatest error of a figure is that of the one wrong reading, when there is no other yet. */
static void
test_worst_figure (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) debrief = NULL;
  double true_g, read_g;
  int moment;

  case_zero (job, 0, TRUE);
  case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 0);
  case_read (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 0.9);
  moment = case_last (job);
  read_g = tg_mass_to_g (tg_job_event (job, (guint) moment)->mass);
  true_g = case_truth (job, "rod-2", TG_FIGURE_SMALL_END);
  case_read (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 0);
  debrief = case_debrief (job);
  g_assert_cmpint (debrief->bands[TG_BAND_ROD_SMALL].worst_event, ==, moment);
  CLOSE (debrief->bands[TG_BAND_ROD_SMALL].worst_g, read_g - true_g, 1e-9);
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_SET, moment, "Rod 2, small end"));
}

/* What all parts have too much of alike is nobody's error. */
static void
test_gain (void)
{
  TgSetup *setup = case_setup (2, FALSE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgDebrief) debrief = NULL;
  double big_g;

  setup->practice.faults.gain = 0.002; /* more than 1 g on a big end */
  job = tg_job_new (setup);
  big_g = case_truth (job, "rod-1", TG_FIGURE_BIG_END);
  case_zero (job, 0, TRUE);
  case_read (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 0.002 * big_g);
  debrief = case_debrief (job);
  g_assert_cmpuint (debrief->wrong, ==, 0);
  g_assert_cmpfloat (fabs (debrief->bands[TG_BAND_ROD_BIG].worst_g), <, 0.051);
}

/* -- metal ------------------------------------------------------------------------------------------- */

/* The same set for GLPK, put together from truth, drawing and statics. */
static double
least_by_glpk (const TgJob *job, guint n)
{
  static TgPlanPart parts[8];
  TgTargetProblem problem = { .n_parts = n, .parts = parts, .tolerance_g = { 0.5, 0.5 } };
  double least = 0;

  for (guint i = 0; i < n; i++)
    {
      const TgPart *part = tg_setup_part (tg_job_setup (job), i);
      TgPlanPart *plan = &parts[i];

      memset (plan, 0, sizeof *plan);
      plan->n_rows = 2;
      plan->weight_g[0] = case_truth (job, part->id, TG_FIGURE_SMALL_END);
      plan->weight_g[1] = case_truth (job, part->id, TG_FIGURE_BIG_END);
      for (guint z = 0; z < part->design->zones->len; z++)
        {
          const TgZone *zone = tg_design_zone (part->design, z);
          double sides = tg_place_is_pair (zone->place) ? 2 : 1;
          TgRodStatics effect = tg_rod_statics_effect (
              150, tg_design_zone_position (part->design, zone));

          if (zone->standing != TG_STANDING_FREE)
            continue;
          plan->effect[0][plan->n_zones] = effect.small;
          plan->effect[1][plan->n_zones] = effect.big;
          plan->capacity_g[plan->n_zones] = zone->area_mm2 * sides * zone->depth_mm * 7.85 / 1000;
          plan->cost[plan->n_zones++] = 1;
        }
    }
  g_assert_true (oracle_solve_set (&problem, ORACLE_COST, 0, &least));
  return least;
}

static void
test_least_of_rods (void)
{
  for (guint n = 2; n <= 6; n++)
    {
      g_autoptr (TgJob) job = tg_job_new (case_setup (n, FALSE));
      g_autoptr (TgDebrief) debrief = NULL;
      double least = least_by_glpk (job, n);

      case_read_all (job);
      debrief = case_debrief (job);
      g_assert_true (debrief->metal.known);
      g_assert_false (debrief->metal.open);
      /* amounts come in whole milligrams, on up to three places of each rod */
      g_assert_cmpfloat (debrief->metal.best_g, >=, least - 0.001 * 3 * n);
      g_assert_cmpfloat (debrief->metal.best_g, <=, least + 0.002 * 3 * n);
      g_assert_cmpfloat (least, >, 0.1);
      CLOSE (debrief->metal.paired_g, debrief->metal.best_g, 1e-12);
    }
}

/* Off sets that weigh @sum, with one zone that can take it all: the lightest stays, the others come down
 * to it and the tolerance. */
static double
least_of_sums (const double *sum, guint n, double tolerance_g)
{
  double lightest = INFINITY, metal = 0;

  for (guint i = 0; i < n; i++)
    lightest = fmin (lightest, sum[i]);
  for (guint i = 0; i < n; i++)
    metal += fmax (0, sum[i] - lightest - tolerance_g);
  return metal;
}

static void
test_least_of_pairings (void)
{
  static const guint orders[6][3] = { { 0, 1, 2 }, { 0, 2, 1 }, { 1, 0, 2 },
                                      { 1, 2, 0 }, { 2, 0, 1 }, { 2, 1, 0 } };
  TgSetup *setup = fixture_setup (3, FALSE, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgDebrief) debrief = NULL;
  double best = INFINITY, today = 0;

  tg_practice_set (&setup->practice, "three pistons and their pins");
  g_free (setup->name);
  setup->name = g_strdup ("Practice set");
  setup->practice.spread_g = 1;
  fixture_add_family (setup, TG_PART_PIN, 0);
  job = tg_job_new (setup);
  for (guint o = 0; o < G_N_ELEMENTS (orders); o++)
    {
      double sum[3], metal;

      for (guint i = 0; i < 3; i++)
        {
          g_autofree char *piston = g_strdup_printf ("piston-%u", i + 1);
          g_autofree char *pin = g_strdup_printf ("pin-%u", orders[o][i] + 1);

          sum[i] = case_truth (job, piston, TG_FIGURE_WHOLE) +
                   case_truth (job, pin, TG_FIGURE_WHOLE);
        }
      metal = least_of_sums (sum, 3, 0.5);
      today = o == 0 ? metal : today;
      best = fmin (best, metal);
    }
  case_read_all (job);
  debrief = case_debrief (job);
  g_assert_true (debrief->metal.open);
  g_assert_true (debrief->metal.proven);
  g_assert_cmpfloat (today, >, best + 0.1); /* else nothing is tried here */
  CLOSE (debrief->metal.paired_g, today, 0.01);
  CLOSE (debrief->metal.best_g, best, 0.01);
}

/* A steady hand takes rate × seconds, whether the entry is struck out later or not. */
static void
test_removed (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  double rate = tg_practice_bench_rate (bench, 0, TG_TOOL_FILE);
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);
  g_autoptr (TgDebrief) debrief = NULL;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_pass (job, "rod-1", "small-pad", 0.3, 30);
  case_pass (job, "rod-1", "beam", 0.2, 20);
  strike.refers = tg_job_event (job, (guint) case_last (job))->id;
  case_append (job, strike);
  debrief = case_debrief (job);
  CLOSE (debrief->metal.removed_g, 50 * rate, 1e-9);
  CLOSE (debrief->metal.forbidden_g, 20 * rate, 1e-9);
  CLOSE (debrief->metal.discarded_g, 0, 1e-12);
  g_assert_cmpuint (debrief->passes, ==, 2);
  CLOSE (debrief->seconds, 50, 1e-9);
  g_assert_cmpint (case_line (debrief, TG_DEBRIEF_METAL, -1, "came off")->verdict, ==,
                   TG_DEBRIEF_POOR);
}

/* What came off a piece that was replaced is gone with it; what had to come off is that of the new one. */
static void
test_replaced (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (3, FALSE));
  g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
  double rate = tg_practice_bench_rate (bench, 0, TG_TOOL_FILE);
  TgEvent replace = tg_event_blank (TG_EVENT_REPLACE);
  g_autoptr (TgDebrief) debrief = NULL;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_pass (job, "rod-2", "small-pad", 0.3, 30);
  replace.part = "rod-2";
  case_append (job, replace);
  debrief = case_debrief (job);
  CLOSE (debrief->metal.removed_g, 30 * rate, 1e-9);
  CLOSE (debrief->metal.discarded_g, 30 * rate, 1e-9);
  CLOSE (debrief->metal.best_g, least_by_glpk (job, 3), 0.02);
}

/* -- passes ------------------------------------------------------------------------------------------ */

/* Half a step under the lower edge that was decided counts, less does not. */
static void
test_overshoot (void)
{
  for (guint far = 0; far < 2; far++)
    {
      g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
      g_autoptr (TgPracticeBench) bench = tg_practice_replay (job, 0);
      double rate = tg_practice_bench_rate (bench, 0, TG_TOOL_FILE);
      TgRodStatics effect = tg_rod_statics_effect (
          150, tg_design_zone_position (
                   tg_setup_part (tg_job_setup (job), 0)->design,
                   tg_design_zone (tg_setup_part (tg_job_setup (job), 0)->design, 0)));
      TgEvent target = tg_event_blank (TG_EVENT_TARGET);
      g_autoptr (TgDebrief) debrief = NULL;
      const TgDebriefLine *line;
      double taken = 100 * rate * effect.small, after;

      case_zero (job, 0, TRUE);
      case_read_all (job);
      after = case_truth (job, "rod-1", TG_FIGURE_SMALL_END) - taken;
      target.band = TG_BAND_ROD_SMALL;
      target.mass = tg_mass_from_g (after + (far ? 0.06 : 0.04));
      case_append (job, target);
      case_pass (job, "rod-1", "small-pad", 0.1, 100);
      debrief = case_debrief (job);
      line = case_line (debrief, TG_DEBRIEF_PASSES, case_last (job), "under the band");
      g_assert_true (far == (line != NULL));
      if (line)
        g_assert_nonnull (strstr (line->text, "0.06 g"));
    }
}

/* What was below the band already is said to have been. */
static void
test_below_already (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  TgEvent target = tg_event_blank (TG_EVENT_TARGET);
  g_autoptr (TgDebrief) debrief = NULL;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  target.band = TG_BAND_ROD_SMALL;
  target.mass = tg_mass_from_g (case_truth (job, "rod-1", TG_FIGURE_SMALL_END) + 1);
  case_append (job, target);
  case_pass (job, "rod-1", "small-pad", 0.1, 10);
  debrief = case_debrief (job);
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_PASSES, case_last (job),
                               "1.00 g under the band "
                               "before this pass"));
}

static void
test_too_much_wanted (void)
{
  for (guint greedy = 0; greedy < 2; greedy++)
    {
      g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
      g_autoptr (TgReview) review = NULL;
      g_autoptr (TgDebrief) debrief = NULL;
      const TgZoneReview *zone = NULL;

      case_zero (job, 0, TRUE);
      case_read_all (job);
      review = tg_review_new (job);
      g_assert_cmpint (review->next->kind, ==, TG_NEXT_GRIND);
      zone = tg_part_review_zone (tg_review_part (review, review->next->slot.part),
                                  review->next->zone);
      case_pass (job, tg_review_part (review, review->next->slot.part)->part->id, zone->zone->id,
                 zone->at_most_g + (greedy ? 0.1 : 0), 1);
      debrief = case_debrief (job);
      g_assert_true (greedy == (case_line (debrief, TG_DEBRIEF_PASSES, case_last (job),
                                           "may come off") != NULL));
      g_assert_cmpuint (debrief->ignored, ==, greedy);
    }
}

/* -- time -------------------------------------------------------------------------------------------- */

static void
test_time (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  TgEvent note = tg_event_blank (TG_EVENT_NOTE);
  g_autoptr (TgDebrief) debrief = NULL;

  note.text = "At work";
  case_append (job, note);
  case_append_after (job, note, 15 * 60);     /* just no pause */
  case_append_after (job, note, 15 * 60 + 1); /* one */
  case_append_after (job, note, 120);
  debrief = case_debrief (job);
  g_assert_cmpint (debrief->work_s, ==, 15 * 60 + 120);
  g_assert_cmpint (debrief->pauses_s, ==, 15 * 60 + 1);
  g_assert_cmpstr (debrief->who, ==, "Tester");
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_TIME, -1, "17 minutes"));
  g_assert_nonnull (case_line (debrief, TG_DEBRIEF_TIME, -1, "1 pause"));
}

static void
test_nothing_done (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) debrief = case_debrief (job);
  g_autofree char *text = tg_debrief_text (debrief, job);

  g_assert_false (debrief->begun);
  g_assert_cmpuint (debrief->readings, ==, 0);
  g_assert_null (case_line (debrief, TG_DEBRIEF_TIME, -1, ""));
  g_assert_nonnull (strstr (text, "not done yet"));
}

static void
test_opens (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgReview) review = tg_review_new (job);
  TgEvent end = tg_event_blank (TG_EVENT_NOTE);

  g_assert_false (tg_debrief_is_open (job, review));
  end.id = TG_DEBRIEF_END_ID;
  end.text = "Practice ended";
  case_append (job, end);
  g_assert_true (tg_debrief_is_open (job, review));
}

/* -- tables and careful workers ------------------------------------------------------------------------ */

static void
test_csv (void)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autoptr (TgDebrief) debrief = NULL;
  g_autoptr (GPtrArray) rows = NULL;
  g_autofree char *csv = NULL;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_read (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 0.9);
  debrief = case_debrief (job);
  csv = tg_debrief_csv (debrief, job);
  rows = tg_csv_parse (csv, strlen (csv), ',', NULL);
  g_assert_nonnull (rows);
  g_assert_cmpuint (rows->len, ==, debrief->lines->len + 1);
  for (guint i = 1; i < rows->len; i++)
    {
      const TgCsvRow *row = g_ptr_array_index (rows, i);
      const TgDebriefLine *line = g_ptr_array_index (debrief->lines, i - 1);

      g_assert_cmpuint (row->fields->len, ==, 6);
      g_assert_cmpstr (g_ptr_array_index (row->fields, 4), ==, line->text);
      g_assert_cmpint ((int) g_ascii_strtoll (g_ptr_array_index (row->fields, 2), NULL, 10), ==,
                       line->event + 1);
    }
}

/* Whoever works carefully is praised: no reading wrong but for chance, metal and passes as they say. */
static void
test_careful (void)
{
  guint n = 24, passes = 0, metal = 0, wrong = 0, readings = 0, spoilt = 0;

  for (guint i = 0; i < n; i++)
    {
      TgSetup *setup = case_setup (2 + i % 3, i % 2);
      g_autoptr (PracticeWorker) worker = NULL;
      g_autoptr (TgDebrief) debrief = NULL;

      g_free (setup->practice.seed);
      setup->practice.seed = g_strdup_printf ("careful %u", i);
      setup->practice.faults = tg_practice_level_faults (TG_PRACTICE_USUAL, 0.1);
      worker = practice_worker_new (tg_job_new (setup), 0);
      g_assert_true (practice_worker_run (worker, 2000));
      debrief = case_debrief (worker->job);
      g_assert_true (debrief->done);
      for (TgBand band = 0; band <= TG_BAND_PISTON; band++)
        CLOSE (debrief->bands[band].true_g, practice_worker_spread (worker, band), 1e-9);
      passes += debrief->passes <= debrief->passes_careful;
      metal += case_line (debrief, TG_DEBRIEF_METAL, -1, "")->verdict == TG_DEBRIEF_GOOD;
      wrong += debrief->wrong;
      readings += debrief->readings;
      spoilt += case_n_lines (debrief, TG_DEBRIEF_ZONES, TG_DEBRIEF_FAIR) > 0;
    }
  g_test_message ("%u benches: passes good %u, metal good %u, wrong %u of %u, spoilt %u", n, passes,
                  metal, wrong, readings, spoilt);
  g_assert_cmpuint (10 * passes, >=, 8 * n);
  g_assert_cmpuint (10 * metal, >=, 8 * n);
  g_assert_cmpuint (200 * wrong, <=, readings);
  g_assert_cmpuint (spoilt, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/debrief/spread", test_spread);
  g_test_add_func ("/debrief/sums", test_sums);
  g_test_add_func ("/debrief/worst-figure", test_worst_figure);
  g_test_add_func ("/debrief/gain", test_gain);
  g_test_add_func ("/debrief/least-of-rods", test_least_of_rods);
  g_test_add_func ("/debrief/least-of-pairings", test_least_of_pairings);
  g_test_add_func ("/debrief/removed", test_removed);
  g_test_add_func ("/debrief/replaced", test_replaced);
  g_test_add_func ("/debrief/overshoot", test_overshoot);
  g_test_add_func ("/debrief/below-already", test_below_already);
  g_test_add_func ("/debrief/too-much-wanted", test_too_much_wanted);
  g_test_add_func ("/debrief/time", test_time);
  g_test_add_func ("/debrief/nothing-done", test_nothing_done);
  g_test_add_func ("/debrief/opens", test_opens);
  g_test_add_func ("/debrief/csv", test_csv);
  g_test_add_func ("/debrief/careful", test_careful);
  return g_test_run ();
}
