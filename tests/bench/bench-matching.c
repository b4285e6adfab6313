/* bench-matching.c: how the search for a pairing compares with GLPK, and how often it proves it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first objective, the least total, of the same problems by both in this one run.  Nothing here
 * fails for being slow.  Columns: share proved within the limit, median and most ms, the largest gap
 * between plan and bound in steps; share that GLPK proved, and its time over ours, the median of
 * those that both proved.
 *
 * Usage: bench-matching [PROBLEMS-PER-ROW [LIMIT-MS [alone]]], default 4 500; alone: without GLPK.
 */
#include <glib.h>
#include <stdio.h>
#include <stdlib.h>

#include "matching-oracle.h"
#include "matching.h"

#define MAX_PROBLEMS 64

typedef struct
{
  const char *name;
  int spread, offset;
  guint spares;
  gboolean rules;
} Kind;

typedef struct
{
  guint proved, oracle_proved, both;
  double ms[MAX_PROBLEMS], ratio[MAX_PROBLEMS];
  gint64 gap;
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

static double
median (double *values, guint n)
{
  qsort (values, n, sizeof values[0], compare);
  return n > 0 ? values[n / 2] : 0;
}

static void
measure (const OracleProblem *o, int limit_ms, gboolean oracle, guint i, Row *row)
{
  gint64 start = g_get_monotonic_time (), deadline = start + limit_ms * 1000, total = -1;
  TgMatchingLimits limits = { .stages = 1, .should_stop = is_late, .data = &deadline };
  TgMatchingResult result;
  gboolean proved;
  double oracle_ms;

  tg_matching_solve (&o->problem, &limits, &result);
  row->ms[i] = (double) (g_get_monotonic_time () - start) / 1000;
  proved = result.status == TG_MATCHING_OPTIMAL || result.status == TG_MATCHING_NONE_EXISTS;
  row->proved += proved;
  if (result.status == TG_MATCHING_FEASIBLE)
    row->gap = MAX (row->gap, result.plan.total - result.lower_bound);
  if (!oracle)
    return;
  start = g_get_monotonic_time ();
  if (oracle_solve_matching (&o->problem, limit_ms, &total) == ORACLE_TIME_OUT)
    return;
  oracle_ms = (double) (g_get_monotonic_time () - start) / 1000;
  row->oracle_proved++;
  if (!proved)
    return;
  if (result.status == TG_MATCHING_OPTIMAL && total != result.plan.total)
    printf ("DIFFERENT: %d against GLPK's %d\n", (int) result.plan.total, (int) total);
  row->ratio[row->both++] = oracle_ms / MAX (row->ms[i], 0.001);
}

static void
run_row (GRand *random,
         const Kind *kind,
         guint n,
         guint k,
         guint problems,
         int limit_ms,
         gboolean oracle)
{
  Row row = { 0 };
  double middle;

  for (guint i = 0; i < problems; i++)
    {
      OracleProblem o;

      oracle_draw_plain (random, n, k, kind->spread, &o);
      for (guint f = 0; f < kind->spares; f++)
        oracle_draw_spare (random, f, kind->spread, &o);
      if (kind->offset > 0)
        oracle_draw_batches (random, kind->offset, &o);
      if (kind->rules)
        oracle_draw_rules (random, &o);
      measure (&o, limit_ms, oracle, i, &row);
    }
  middle = median (row.ms, problems);
  printf ("%-22s %2u x %u  %3u/%-3u %8.2f %8.2f %8d   %3u/%-3u ", kind->name, n, k, row.proved,
          problems, middle, row.ms[problems - 1], (int) row.gap, row.oracle_proved,
          oracle ? problems : 0);
  if (row.both > 0)
    printf ("%8.1f\n", median (row.ratio, row.both));
  else
    printf ("%8s\n", "-");
  fflush (stdout);
}

int
main (int argc, char **argv)
{
  static const Kind kinds[] = {
    { "0.1 g, 5 g", 50, 0, 0, FALSE },          { "0.01 g, 5 g", 500, 0, 0, FALSE },
    { "0.1 g, rules", 50, 0, 0, TRUE },         { "0.1 g, 2 spares", 50, 0, 2, FALSE },
    { "0.1 g, two batches", 10, 40, 0, FALSE }, { "0.01 g, two batches", 100, 400, 0, FALSE },
  };
  static const guint sizes[] = { 4, 6, 8, 12, 16 };
  guint problems = argc > 1 ? (guint) CLAMP (atoi (argv[1]), 1, MAX_PROBLEMS) : 4;
  int limit_ms = argc > 2 ? atoi (argv[2]) : 500;
  gboolean oracle = argc < 4;
  g_autoptr (GRand) random = g_rand_new_with_seed (11);

  printf ("%-22s %-7s %-7s %8s %8s %8s   %-7s %8s\n", "", "n x k", "proved", "median", "max ms",
          "gap", "GLPK", "ratio");
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    for (guint size = 0; size < G_N_ELEMENTS (sizes); size++)
      for (guint k = 3; k <= 5; k++)
        run_row (random, &kinds[i], sizes[size], k, problems, limit_ms, oracle);
  return 0;
}
