/* bench-matching.c: how the search for a pairing compares with GLPK and CBC, and how often it proves
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first objective, the least total, of the same problems with the same limit of time for all, in
 * this one run: GLPK in this process, CBC as a process of its own, whose start counts; where that
 * program is not there the run goes on without it.  Both get the weights counted from the lightest of
 * their family.  Nothing here fails for being slow; a different total is said and does fail.
 *
 * Usage: bench-matching [OURS [OTHERS [LIMIT-MS [PICTURE.png]]]]
 * OURS: problems for each row and number of families, default 20; OTHERS: of these also given to
 * GLPK and CBC, default 2; LIMIT-MS: default 2000.
 */
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>

#include "matching-cbc.h"
#include "matching-kinds.h"
#include "matching-oracle.h"
#include "matching-plot.h"
#include "matching.h"

#define MAX_PROBLEMS 300
#define MAX_ALL 20000

enum
{
  OURS,
  GLPK,
  CBC,
  SOLVERS
};

static const char *const solver_names[SOLVERS] = { "this search", "GLPK, in process",
                                                   "CBC, as a process" };

typedef struct
{
  double ms;
  gboolean run, proved;
} Time;

typedef struct
{
  guint ours, others;
  int limit_ms;
  gboolean cbc;
  guint different;
} Bench;

/* Some problems and what each solver took for them. */
typedef struct
{
  guint n;
  Time times[MAX_PROBLEMS][SOLVERS];
} Row;

static gboolean
is_late (gpointer data)
{
  return g_get_monotonic_time () > *(gint64 *) data;
}

static int
compare (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return (x > y) - (x < y);
}

/* -1: of nothing. */
static double
quantile (double *values, guint n, double share)
{
  if (n == 0)
    return -1;
  qsort (values, n, sizeof values[0], compare);
  return values[MIN (n - 1, (guint) (share * n))];
}

static Time
time_ours (const OracleProblem *o, int limit_ms, TgMatchingResult *result)
{
  gint64 start = g_get_monotonic_time (), deadline = start + limit_ms * 1000;
  TgMatchingLimits limits = { .stages = 1, .should_stop = is_late, .data = &deadline };
  Time time = { .run = TRUE };

  tg_matching_solve (&o->problem, &limits, result);
  time.ms = (double) (g_get_monotonic_time () - start) / 1000;
  time.proved = result->status == TG_MATCHING_OPTIMAL || result->status == TG_MATCHING_NONE_EXISTS;
  return time;
}

static Time
time_other (Bench *bench, const OracleProblem *o, guint solver, const TgMatchingResult *ours)
{
  gint64 start = g_get_monotonic_time (), total = -1;
  Time time = { .run = TRUE };
  OracleVerdict verdict;

  if (solver == GLPK)
    {
      verdict = oracle_solve_matching (&o->problem, bench->limit_ms, &total);
      time.ms = (double) (g_get_monotonic_time () - start) / 1000;
    }
  else
    verdict = cbc_solve_matching (&o->problem, bench->limit_ms, &total, &time.ms);
  time.proved = verdict != ORACLE_TIME_OUT;
  if ((verdict == ORACLE_OPTIMUM &&
       (ours->status == TG_MATCHING_NONE_EXISTS || ours->lower_bound > total ||
        (ours->status == TG_MATCHING_OPTIMAL && ours->plan.total != total))) ||
      (verdict == ORACLE_NONE &&
       (ours->status == TG_MATCHING_OPTIMAL || ours->status == TG_MATCHING_FEASIBLE)))
    {
      printf ("DIFFERENT: %d against %d of %s\n", (int) ours->plan.total, (int) total,
              solver_names[solver]);
      bench->different++;
    }
  return time;
}

/* Three to five families. */
static void
run_row (Bench *bench, Kind kind, guint steps, guint n, Row *row)
{
  row->n = 0;
  for (guint k = 3; k <= 5; k++)
    for (guint number = 0; number < bench->ours; number++)
      {
        Time *times = row->times[row->n++];
        TgMatchingResult result;
        OracleProblem o;

        kind_draw (kind, steps, n, k, number, &o);
        times[OURS] = time_ours (&o, bench->limit_ms, &result);
        for (guint solver = GLPK; solver < SOLVERS; solver++)
          times[solver] = number < bench->others && (solver == GLPK || bench->cbc)
                              ? time_other (bench, &o, solver, &result)
                              : (Time){ 0 };
      }
}

static double
share_proved (const Row *row, guint solver)
{
  guint run = 0, proved = 0;

  for (guint i = 0; i < row->n; i++)
    {
      run += row->times[i][solver].run;
      proved += row->times[i][solver].proved;
    }
  return run > 0 ? (double) proved / run : -1;
}

static double
time_quantile (const Row *row, guint solver, double share)
{
  double ms[MAX_PROBLEMS];
  guint n = 0;

  for (guint i = 0; i < row->n; i++)
    if (row->times[i][solver].run)
      ms[n++] = row->times[i][solver].ms;
  return quantile (ms, n, share);
}

/* Median of the other over median of ours, of what both proved. */
static double
ratio (const Row *row, guint solver)
{
  double ours[MAX_PROBLEMS], others[MAX_PROBLEMS];
  guint n = 0;

  for (guint i = 0; i < row->n; i++)
    if (row->times[i][solver].proved && row->times[i][OURS].proved)
      {
        ours[n] = row->times[i][OURS].ms;
        others[n++] = row->times[i][solver].ms;
      }
  return n > 0 ? quantile (others, n, 0.5) / quantile (ours, n, 0.5) : -1;
}

static void
print_ratio (double value)
{
  if (value < 0)
    printf (" %7s", "-");
  else
    printf (" %7.*f", value < 10 ? 1 : 0, value);
}

static void
print_row (const Row *row)
{
  printf ("%4u %5.0f %% %8.2f %8.1f", row->n, 100 * share_proved (row, OURS),
          time_quantile (row, OURS, 0.5), time_quantile (row, OURS, 0.99));
  for (guint solver = GLPK; solver < SOLVERS; solver++)
    if (share_proved (row, solver) >= 0)
      {
        printf (" | %3.0f %% %8.1f", 100 * share_proved (row, solver),
                time_quantile (row, solver, 0.5));
        print_ratio (ratio (row, solver));
      }
  printf ("\n");
  fflush (stdout);
}

static void
print_head (const Bench *bench, const char *first)
{
  printf ("%s    N proved   median      p99 | GLPK proved, median, ratio%s\n", first,
          bench->cbc ? " | CBC proved, median, ratio" : "");
}

/* What the aims are held against. */
typedef struct
{
  double ms[MAX_ALL];
  guint n, proved, within[2]; /* 100 ms, 1 s */
  double ratio[MAX_ALL];      /* twelve cylinders and more, GLPK over ours, where both proved */
  guint n_ratio;
} Sum;

static void
add_to_sum (Sum *sum, const Row *row, guint n)
{
  for (guint i = 0; i < row->n && sum->n < MAX_ALL; i++)
    {
      const Time *times = row->times[i];

      sum->ms[sum->n++] = times[OURS].ms;
      sum->proved += times[OURS].proved;
      sum->within[0] += times[OURS].proved && times[OURS].ms < 100;
      sum->within[1] += times[OURS].proved && times[OURS].ms < 1000;
      if (n >= 12 && times[OURS].proved && times[GLPK].proved)
        sum->ratio[sum->n_ratio++] = times[GLPK].ms / MAX (times[OURS].ms, 0.001);
    }
}

static void
print_sum (const char *name, Sum *sum)
{
  printf ("%s: %u of %u proved, %.1f %% within 100 ms, %.1f %% within 1 s; twelve cylinders and "
          "more: GLPK over this, median of %u: ",
          name, sum->proved, sum->n, 100.0 * sum->within[0] / sum->n,
          100.0 * sum->within[1] / sum->n, sum->n_ratio);
  print_ratio (quantile (sum->ratio, sum->n_ratio, 0.5));
  printf ("\n\n");
}

static const char *
unit_name (guint steps)
{
  return steps == 10 ? "0.1 g" : "0.01 g";
}

static void
print_kinds (Bench *bench, guint steps)
{
  static const guint sizes[] = { 4, 8, 12, 16 };
  g_autofree Sum *sum = g_new0 (Sum, 1);
  g_autofree Row *row = g_new0 (Row, 1);

  print_head (bench, "unit    kind            n");
  for (Kind kind = 0; kind < N_KINDS; kind++)
    for (guint size = 0; size < G_N_ELEMENTS (sizes); size++)
      {
        run_row (bench, kind, steps, sizes[size], row);
        printf ("%-7s %-14s %2u ", unit_name (steps), kind_name (kind), sizes[size]);
        print_row (row);
        add_to_sum (sum, row, sizes[size]);
      }
  print_sum (unit_name (steps), sum);
}

static void
print_growth (Bench *bench, const char *picture)
{
  static const guint sizes[] = { 4, 6, 8, 10, 12, 14, 16, 18, 20, 22, 24 };
  static const char *const titles[] = { "0.1 g", "0.01 g", "0.1 g, two batches",
                                        "0.01 g, two batches" };
  g_autofree PlotColumn *columns = g_new0 (PlotColumn, G_N_ELEMENTS (titles));
  g_autofree Row *row = g_new0 (Row, 1);

  print_head (bench, "kind                  n");
  for (guint column = 0; column < G_N_ELEMENTS (titles); column++)
    {
      columns[column].title = titles[column];
      for (guint size = 0; size < G_N_ELEMENTS (sizes); size++)
        {
          run_row (bench, column < 2 ? KIND_PLAIN : KIND_BATCHES, column % 2 == 0 ? 10 : 100,
                   sizes[size], row);
          printf ("%-20s %2u ", titles[column], sizes[size]);
          print_row (row);
          for (guint solver = 0; solver < SOLVERS; solver++)
            {
              columns[column].ms[solver][size] = time_quantile (row, solver, 0.5);
              columns[column].share[solver][size] = share_proved (row, solver);
            }
        }
    }
  if (picture != NULL && !plot_save (picture, solver_names, sizes, G_N_ELEMENTS (sizes),
                                     bench->limit_ms, columns, G_N_ELEMENTS (titles)))
    printf ("%s could not be written\n", picture);
}

int
main (int argc, char **argv)
{
  Bench bench = {
    .ours = argc > 1 ? (guint) CLAMP (atoi (argv[1]), 1, MAX_PROBLEMS / 3) : 20,
    .others = argc > 2 ? (guint) MAX (atoi (argv[2]), 0) : 2,
    .limit_ms = argc > 3 ? MAX (atoi (argv[3]), 1) : 2000,
    .cbc = cbc_is_there (),
  };

  if (!bench.cbc)
    printf ("CBC is not there: without it.\n");
  printf (
      "Limit %d ms for each; times in ms; three to five families in equal parts; the first %u of "
      "%u problems of each also by the others.\n\n",
      bench.limit_ms, bench.others, bench.ours);
  print_kinds (&bench, 10);
  print_kinds (&bench, 100);
  print_growth (&bench, argc > 4 ? argv[4] : NULL);
  return bench.different > 0;
}
