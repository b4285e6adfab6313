/* test-bench-simulation.c: what is said of readings, held against benches whose truth is known
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Thousands of benches over a grid of scales (scatter by step), readings, set sizes and zeros, each
 * with a seed of its own.  Four questions, each answered by a table:
 *   how often "±" holds the true weight (it claims 95 of 100),
 *   how often a check alarms although nothing is wrong (TG_REVIEW_FALSE_ALARM at most),
 *   how often a fault between 3 and 10 u is caught, u being that of one reading on the stand,
 *   how large a fault is caught with how many readings.
 * The limits of the assertions are the claims, give or take what the number of benches makes of it.
 * What is known to be outside a claim, and why, stands beside the assertion.
 *
 * "--thorough" runs ten times as many, for the table in DEVELOPERS.md.
 */
#include <locale.h>
#include <math.h>
#include <string.h>

#include "bench-simulator.h"

#define STEP_G 0.1
#define N_RATIOS 5
#define N_REPEATS 3
#define N_SIZES 4

/* Standard deviation of a reading on the stand in steps. */
static const double ratios[N_RATIOS] = { 0.1, 0.3, 0.5, 1, 2 };
static const guint repeats[N_REPEATS] = { 2, 3, 5 };
static const guint sizes[N_SIZES] = { 3, 4, 6, 8 };

/* Readings on the pan scatter less than on the stand. */
#define PAN_RATIO 0.6

static guint effort = 1;

typedef struct
{
  guint n;
  guint hits;
} Tally;

static void
add (Tally *tally, guint n, guint hits)
{
  tally->n += n;
  tally->hits += hits;
}

static double
percent (Tally tally)
{
  return tally.n > 0 ? 100.0 * tally.hits / tally.n : 0;
}

/* What chance makes of a share of @expected percent, three standard deviations; the figures of one
 * bench share its scatter and its zero, so that they count for about a third. */
static double
slack (Tally tally, double expected)
{
  return 3 * sqrt (expected * (100 - expected) * 3 / MAX (tally.n, 1));
}

static Tally
both (Tally a, Tally b)
{
  return (Tally){ a.n + b.n, a.hits + b.hits };
}

static BenchPlan
plan_of (guint ratio, guint n_repeats, guint size, BenchZero zero)
{
  return (BenchPlan){
    .rods = size,
    .pistons = size,
    .repeats = n_repeats,
    .step_g = STEP_G,
    .stand_g = ratios[ratio] * STEP_G,
    .pan_g = PAN_RATIO * ratios[ratio] * STEP_G,
    .zero = zero,
    .between = 4 * size,
    .creep_g = 3 * STEP_G,
    .set_back = size % 3 == 0,
    .check_weight = 500 * TG_MASS_G,
  };
}

static guint
count_findings (const TgReview *review, TgFindingCode code, TgSeverity least)
{
  guint n = 0;

  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      n += finding->code == code && finding->severity >= least;
    }
  return n;
}

/* -- coverage and false alarms ----------------------------------------------------------------- */

#define PISTON TG_N_FIGURES

/* Benches without a fault, of one scale with one zero. */
typedef struct
{
  Tally covered[TG_N_FIGURES + 1];
  double expanded_g[TG_N_FIGURES + 1];
  Tally turn, closure, outlier, zero, zero_off, weight, weight_off;
} Sound;

static Sound sound[BENCH_N_ZEROS][N_RATIOS];

static void
judge_figures (Sound *cell, const BenchSimulator *bench, const TgReview *review)
{
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      gboolean rod = part->design->kind == TG_PART_ROD;

      for (guint f = rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE; f < TG_N_FIGURES; f++)
        {
          const TgWeight *weight = &part->weight[f];
          double off_g = fabs (weight->mean_g - bench_simulator_truth (bench, i, f));

          add (&cell->covered[rod ? f : PISTON], 1, off_g <= weight->expanded_g + 1e-9);
          cell->expanded_g[rod ? f : PISTON] += weight->expanded_g;
        }
    }
}

static void
judge_alarms (Sound *cell, const BenchSimulator *bench, const TgReview *review)
{
  guint rods = bench->plan.rods;

  add (&cell->turn, 2 * rods, count_findings (review, TG_FINDING_TURN, TG_FINDING_NOTICE));
  add (&cell->closure, rods, count_findings (review, TG_FINDING_CLOSURE, TG_FINDING_NOTICE));
  add (&cell->outlier, 5 * rods + bench->plan.pistons,
       count_findings (review, TG_FINDING_OUTLIER, TG_FINDING_NOTICE));
  if (bench->plan.zero == BENCH_ZERO_UNSEEN)
    return;
  add (&cell->weight, 1, count_findings (review, TG_FINDING_CHECK_WEIGHT, TG_FINDING_NOTICE));
  add (&cell->weight_off, 1, count_findings (review, TG_FINDING_CHECK_WEIGHT, TG_FINDING_DOUBT));
  if (bench->plan.zero == BENCH_ZERO_CREEPS)
    return;
  add (&cell->zero, 1, count_findings (review, TG_FINDING_ZERO, TG_FINDING_NOTICE));
  add (&cell->zero_off, 1, count_findings (review, TG_FINDING_ZERO, TG_FINDING_DOUBT));
}

static void
run_sound (BenchZero zero, guint ratio)
{
  guint32 seed = (zero * N_RATIOS + ratio) * 1000000;

  for (guint r = 0; r < N_REPEATS; r++)
    for (guint s = 0; s < N_SIZES; s++)
      for (guint i = 0; i < 40 * effort; i++)
        {
          const BenchPlan plan = plan_of (ratio, repeats[r], sizes[s], zero);
          g_autoptr (BenchSimulator) bench = bench_simulator_new (&plan, seed++);
          g_autoptr (TgReview) review = NULL;

          bench_simulator_weigh_all (bench);
          review = tg_review_new (bench->job);
          judge_figures (&sound[zero][ratio], bench, review);
          judge_alarms (&sound[zero][ratio], bench, review);
        }
}

static const char *const zero_names[BENCH_N_ZEROS] = { "no checks", "checks, still",
                                                       "checks, creeps" };

static void
run_all_sound (void)
{
  if (sound[0][0].turn.n > 0)
    return;
  for (guint zero = 0; zero < BENCH_N_ZEROS; zero++)
    for (guint ratio = 0; ratio < N_RATIOS; ratio++)
      run_sound (zero, ratio);
}

/* Where "±" claims what it says and no more.  It holds more, on purpose,
 *   where the step hides most of the scatter of a reading: the fewer readings tell of it, the more the
 *   half step is allowed for it;
 *   where the zero is looked at on such a scale: every look errs by the step, too, which is taken as
 *   if it were anew each time;
 *   where the zero goes farther than readings scatter: it may have gone in many ways. */
static gboolean
claims_exactly (BenchZero zero, double ratio)
{
  return zero == BENCH_ZERO_UNSEEN ? ratio >= 0.5 : ratio >= 1;
}

static void
test_coverage (void)
{
  Tally all[TG_N_FIGURES + 1] = { { 0 } };

  run_all_sound ();
  g_test_message ("± holds the true weight, %% (± in steps)");
  g_test_message ("%-15s σ/d   small end    big end      whole        piston", "zero");
  for (guint zero = 0; zero < BENCH_N_ZEROS; zero++)
    for (guint ratio = 0; ratio < N_RATIOS; ratio++)
      {
        const Sound *cell = &sound[zero][ratio];
        g_autoptr (GString) line = g_string_new (NULL);
        const Tally ends = both (cell->covered[0], cell->covered[1]);
        const Tally wholes = both (cell->covered[TG_FIGURE_WHOLE], cell->covered[PISTON]);
        gboolean exact = claims_exactly (zero, ratios[ratio]);

        for (guint f = 0; f <= PISTON; f++)
          {
            g_string_append_printf (line, "  %5.1f (%4.2f)", percent (cell->covered[f]),
                                    cell->expanded_g[f] / cell->covered[f].n / STEP_G);
            if (exact)
              all[f] = both (all[f], cell->covered[f]);
          }
        g_test_message ("%-15s %.1f %s%s", zero_names[zero], ratios[ratio], line->str,
                        exact ? "" : "  more on purpose");
        g_assert_cmpfloat (percent (ends), >=, 95 - slack (ends, 95));
        g_assert_cmpfloat (percent (wholes), >=, 95 - slack (wholes, 95));
      }
  for (guint f = 0; f <= PISTON; f++)
    {
      g_test_message ("%s where it claims 95: %.2f %% of %u",
                      f == PISTON ? "piston" : tg_figure_label (TG_PART_ROD, f), percent (all[f]),
                      all[f].n);
      g_assert_cmpfloat (percent (all[f]), >=, 94);
      g_assert_cmpfloat (percent (all[f]), <=, 96);
    }
}

/* Each way up once: half a step is taken for the scatter, or what the two ways up say where that is
 * worse.  More is held than is said; less never, and no more alarms. */
static void
test_read_once (void)
{
  g_test_message ("read once each way up: ± holds the true weight, %%; turn, closure alarm, %%");
  for (guint ratio = 0; ratio < N_RATIOS; ratio++)
    {
      Sound cell = { 0 };
      Tally ends, wholes;

      for (guint s = 0; s < N_SIZES; s++)
        for (guint i = 0; i < 40 * effort; i++)
          {
            BenchPlan plan = plan_of (ratio, 1, sizes[s], BENCH_ZERO_UNSEEN);
            g_autoptr (BenchSimulator) bench = bench_simulator_new (
                &plan, 200000000 + (ratio * N_SIZES + s) * 1000000 + i);
            g_autoptr (TgReview) review = NULL;

            bench_simulator_weigh_all (bench);
            review = tg_review_new (bench->job);
            judge_figures (&cell, bench, review);
            judge_alarms (&cell, bench, review);
          }
      ends = both (cell.covered[TG_FIGURE_SMALL_END], cell.covered[TG_FIGURE_BIG_END]);
      wholes = both (cell.covered[TG_FIGURE_WHOLE], cell.covered[PISTON]);
      g_test_message ("σ/d %.1f  ends %5.1f  whole parts %5.1f  turn %.2f  closure %.2f",
                      ratios[ratio], percent (ends), percent (wholes), percent (cell.turn),
                      percent (cell.closure));
      g_assert_cmpfloat (percent (ends), >=, 95 - slack (ends, 95));
      g_assert_cmpfloat (percent (wholes), >=, 95 - slack (wholes, 95));
      g_assert_cmpfloat (percent (cell.turn), <=,
                         100 * TG_REVIEW_FALSE_TURN +
                             slack (cell.turn, 100 * TG_REVIEW_FALSE_TURN));
      g_assert_cmpfloat (percent (cell.closure), <=,
                         100 * TG_REVIEW_FALSE_ALARM +
                             slack (cell.closure, 100 * TG_REVIEW_FALSE_ALARM));
    }
}

static void
assert_seldom (Tally tally, double claimed)
{
  g_assert_cmpfloat (percent (tally), <=, claimed + slack (tally, claimed));
}

static void
test_false_alarms (void)
{
  const double claimed = 100 * TG_REVIEW_FALSE_ALARM;

  run_all_sound ();
  g_test_message ("alarms where nothing is wrong, %%");
  g_test_message ("%-15s σ/d  turn  closure outlier zero (off)    check weight (off)", "zero");
  for (guint zero = 0; zero < BENCH_N_ZEROS; zero++)
    for (guint ratio = 0; ratio < N_RATIOS; ratio++)
      {
        const Sound *cell = &sound[zero][ratio];

        g_test_message ("%-15s %.1f  %4.2f   %4.2f    %4.2f   %4.2f (%4.2f)   %4.2f (%4.2f)",
                        zero_names[zero], ratios[ratio], percent (cell->turn),
                        percent (cell->closure), percent (cell->outlier), percent (cell->zero),
                        percent (cell->zero_off), percent (cell->weight),
                        percent (cell->weight_off));
        assert_seldom (cell->turn, 100 * TG_REVIEW_FALSE_TURN);
        assert_seldom (cell->closure, claimed);
        assert_seldom (cell->outlier, claimed);
        assert_seldom (cell->zero, 5);
        assert_seldom (cell->zero_off, 1);
        assert_seldom (cell->weight, 5);
        assert_seldom (cell->weight_off, 1);
      }
}

/* -- faults ------------------------------------------------------------------------------------ */

static const struct
{
  const char *name;
  TgFindingCode code;
} faults[] = {
  [BENCH_FAULT_FRICTION] = { "friction at one angle", TG_FINDING_TURN },
  [BENCH_FAULT_TOUCH] = { "off-level touch", TG_FINDING_CLOSURE },
  [BENCH_FAULT_DRIFT] = { "drift of the zero", TG_FINDING_ZERO },
  [BENCH_FAULT_SLIP] = { "slip by so much", TG_FINDING_OUTLIER },
  [BENCH_FAULT_TENFOLD] = { "slip, tenfold", TG_FINDING_OUTLIER },
  [BENCH_FAULT_SWAPPED] = { "slip, digits swapped", TG_FINDING_OUTLIER },
};

/* The finding that is meant for the fault, where the fault is. */
static gboolean
is_caught (const BenchSimulator *bench)
{
  g_autoptr (TgReview) review = tg_review_new (bench->job);
  TgFindingCode code = faults[bench->plan.fault].code;

  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      if (finding->code == code &&
          (code == TG_FINDING_ZERO || finding->part == (int) bench->faulty.part))
        return TRUE;
    }
  return FALSE;
}

/* Benches with @fault on one scale; its size in u lies between @least and @most. */
static Tally
run_fault (BenchFault fault, guint ratio, guint n_repeats, double least, double most, guint n)
{
  guint32 seed = 100000000 + (fault * N_RATIOS + ratio) * 1000000 + n_repeats * 100000 +
                 (guint32) (least * 10000);
  double u_g = hypot (ratios[ratio], sqrt (1 / 12.0)) * STEP_G;
  Tally tally = { 0 };

  for (guint s = 0; s < N_SIZES; s++)
    for (guint i = 0; i < n * effort; i++)
      {
        BenchPlan plan = plan_of (ratio, n_repeats, sizes[s],
                                  fault == BENCH_FAULT_DRIFT ? BENCH_ZERO_STILL
                                                             : BENCH_ZERO_UNSEEN);
        double share = (i + 0.5) / (n * effort);
        BenchSimulator *bench;

        plan.fault = fault;
        plan.fault_g = (i % 2 ? -1 : 1) * u_g * (least + share * (most - least));
        bench = bench_simulator_new (&plan, seed++);
        bench_simulator_weigh_all (bench);
        add (&tally, 1, is_caught (bench));
        bench_simulator_free (bench);
      }
  return tally;
}

/* At least 95 of 100 faults between 3 and 10 u, with two readings each way up, on scales whose step
 * lets their scatter be seen.  Less are caught,
 *   where the step hides the scatter (σ/d 0.1): 3 u is less than one step then, which alone never
 *   alarms, and no number of readings tells more;
 *   of slips by 3 to 5 u: one reading has one other to be held against.  Slips of the hand, a figure
 *   in the wrong place or two that changed places, are larger. */
static void
test_faults (void)
{
  static const double least[] = {
    [BENCH_FAULT_FRICTION] = 95, [BENCH_FAULT_TOUCH] = 95,   [BENCH_FAULT_DRIFT] = 95,
    [BENCH_FAULT_SLIP] = 82,     [BENCH_FAULT_TENFOLD] = 99, [BENCH_FAULT_SWAPPED] = 97,
  };

  g_test_message ("faults of 3 to 10 u that are caught with 2 readings each way up, %%");
  g_test_message ("%-22s σ/d 0.1    0.3    0.5    1      2      0.3 to 2", "");
  for (BenchFault fault = BENCH_FAULT_FRICTION; fault < G_N_ELEMENTS (faults); fault++)
    {
      Tally each[N_RATIOS], seen = { 0 };

      for (guint ratio = 0; ratio < N_RATIOS; ratio++)
        {
          each[ratio] = run_fault (fault, ratio, 2, 3, 10, 60);
          seen = ratio > 0 ? both (seen, each[ratio]) : seen;
        }
      g_test_message ("%-22s     %5.1f  %5.1f  %5.1f  %5.1f  %5.1f  %5.1f", faults[fault].name,
                      percent (each[0]), percent (each[1]), percent (each[2]), percent (each[3]),
                      percent (each[4]), percent (seen));
      g_assert_cmpfloat (percent (seen), >=, least[fault] - slack (seen, least[fault]) / sqrt (3));
      g_assert_cmpfloat (percent (each[0]), >=, 60);
    }
}

/* A slip is judged by the difference between two readings, which scatters √2 times as much as one: of
 * slips by 3 to 10 times that much at least 95 of 100 are caught. */
static void
test_slips (void)
{
  Tally seen = { 0 };

  for (guint ratio = 1; ratio < N_RATIOS; ratio++)
    seen = both (seen, run_fault (BENCH_FAULT_SLIP, ratio, 2, 3 * sqrt (2), 10 * sqrt (2), 60));
  g_test_message ("slips by 3 to 10 times the u of the difference of two readings that are caught, "
                  "2 readings each way up, σ/d 0.3 to 2: %.1f %%",
                  percent (seen));
  g_assert_cmpfloat (percent (seen), >=, 95 - slack (seen, 95) / sqrt (3));
}

#define MOST_READINGS 5

static void
test_sizes (void)
{
  static const BenchFault of[] = { BENCH_FAULT_FRICTION, BENCH_FAULT_TOUCH, BENCH_FAULT_DRIFT,
                                   BENCH_FAULT_SLIP };

  g_test_message ("faults that are caught, %%, σ/d 0.3 to 2");
  for (guint f = 0; f < G_N_ELEMENTS (of); f++)
    {
      guint enough = 0;
      double before = 0;

      g_test_message ("%-22s  3 u    4 u    5 u    6 u", faults[of[f]].name);
      for (guint n = 2; n <= MOST_READINGS; n++)
        {
          g_autoptr (GString) line = g_string_new (NULL);

          for (guint size = 3; size <= 6; size++)
            {
              Tally tally = { 0 };

              for (guint ratio = 1; ratio < N_RATIOS; ratio++)
                tally = both (tally, run_fault (of[f], ratio, n, size, size, 8));
              g_string_append_printf (line, "  %5.1f", percent (tally));
              if (size == 3 && enough == 0 && percent (tally) >= 95)
                enough = n;
              if (size == 6)
                g_assert_cmpfloat (percent (tally), >=, of[f] == BENCH_FAULT_SLIP ? 75 : 97);
              /* the larger, the more are caught */
              g_assert_cmpfloat (percent (tally), >=, size == 3 ? 0 : before - 7);
              before = percent (tally);
            }
          g_test_message ("%u readings each way up%s", n, line->str);
        }
      if (enough > 0)
        g_test_message ("3 u is caught in 95 %% from %u readings each way up on", enough);
      else
        g_test_message ("3 u is not caught in 95 %% with %u readings each way up", MOST_READINGS);
    }
}

int
main (int argc, char **argv)
{
  setlocale (LC_ALL, "C.UTF-8");
  g_test_init (&argc, &argv, NULL);
  for (int i = 1; i < argc; i++)
    if (strcmp (argv[i], "--thorough") == 0)
      effort = 10;
  g_test_add_func ("/bench-simulation/coverage", test_coverage);
  g_test_add_func ("/bench-simulation/read-once", test_read_once);
  g_test_add_func ("/bench-simulation/false-alarms", test_false_alarms);
  g_test_add_func ("/bench-simulation/faults", test_faults);
  g_test_add_func ("/bench-simulation/slips", test_slips);
  g_test_add_func ("/bench-simulation/sizes", test_sizes);
  return g_test_run ();
}
