/* test-matching-laws.c: what holds for every pairing, whatever its figures
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <string.h>
#include <time.h>

#include "matching-oracle.h"
#include "matching.h"

static gint64
least_total (const OracleProblem *o)
{
  TgMatchingLimits limits = { .stages = 1 };
  TgMatchingResult result;

  tg_matching_solve (&o->problem, &limits, &result);
  g_assert_cmpint (result.status, !=, TG_MATCHING_UNKNOWN);
  return result.status == TG_MATCHING_OPTIMAL ? result.plan.total : G_MAXINT64;
}

/* A rule less, a wider band, more capacity or one spare more never costs metal. */
static void
test_freedom (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (404);
  guint cheaper = 0;

  for (guint round = 0; round < 150; round++)
    {
      OracleProblem o, freer;
      gint64 before, after;

      oracle_draw_ruled (random, 6, &o);
      before = least_total (&o);
      oracle_copy (&o, &freer);
      switch (round % 5)
        {
        case 0:
          freer.problem.tolerance++;
          break;
        case 1:
          freer.problem.n_forbidden /= 2;
          freer.problem.n_locked = 0;
          break;
        case 2:
          for (guint i = 0; i < o.problem.n_cylinders; i++)
            freer.parts[0][i].capacity = TG_MATCHING_NO_LIMIT;
          break;
        case 3:
          for (guint i = 0; i < o.problem.n_cylinders; i++)
            freer.parts[0][i].bound = -1;
          break;
        default:
          oracle_draw_spare (random, 1, 30, &freer);
        }
      after = least_total (&freer);
      g_assert_cmpint (after, <=, before);
      cheaper += after < before;
    }
  g_assert_cmpuint (cheaper, >, 40);
}

static guint
mirrored (guint i, guint n)
{
  return n - 1 - i;
}

static void
mirror_pair (const OracleProblem *o, TgMatchingPair *pair)
{
  for (guint side = 0; side < 2; side++)
    {
      pair->part[side] = mirrored (pair->part[side],
                                   o->problem.families[pair->family[side]].n_parts);
      pair->family[side] = mirrored (pair->family[side], o->problem.n_families);
    }
}

/* Parts, families and cylinders in the opposite order. */
static void
mirror (const OracleProblem *o, OracleProblem *other)
{
  guint k = o->problem.n_families, n = o->problem.n_cylinders;

  oracle_copy (o, other);
  for (guint f = 0; f < k; f++)
    for (guint i = 0; i < n; i++)
      {
        TgMatchingPart *part = &other->parts[mirrored (f, k)][mirrored (i, n)];

        *part = o->parts[f][i];
        if (part->bound >= 0)
          part->bound = (int) mirrored ((guint) part->bound, n);
        if (part->today >= 0)
          part->today = (int) mirrored ((guint) part->today, n);
      }
  for (guint i = 0; i < ORACLE_MAX_PAIRS; i++)
    {
      mirror_pair (o, &other->forbidden[i]);
      mirror_pair (o, &other->locked[i]);
    }
}

/* Relabelled: the same figures in all four objectives. */
static void
test_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (505);
  guint compared = 0;

  for (guint round = 0; round < 100; round++)
    {
      OracleProblem o, other;
      TgMatchingResult a, b;
      TgMatchingLimits no_limits = { 0 };

      oracle_draw_ruled (random, 6, &o);
      mirror (&o, &other);
      tg_matching_solve (&o.problem, &no_limits, &a);
      tg_matching_solve (&other.problem, &no_limits, &b);
      g_assert_cmpint (a.status, ==, b.status);
      if (a.status != TG_MATCHING_OPTIMAL)
        continue;
      g_assert_cmpuint (a.proved, ==, TG_MATCHING_STAGES);
      g_assert_cmpint (a.plan.total, ==, b.plan.total);
      g_assert_cmpuint (a.plan.touched, ==, b.plan.touched);
      g_assert_cmpint (a.plan.cut, ==, b.plan.cut);
      g_assert_cmpuint (a.plan.changes, ==, b.plan.changes);
      compared++;
    }
  g_assert_cmpuint (compared, >, 70);
}

/* A pairing by chance. */
static void
draw_plan (GRand *random, const TgMatchingProblem *problem, TgMatchingPlan *plan)
{
  memset (plan, 0, sizeof *plan);
  for (guint f = 0; f < problem->n_families; f++)
    {
      guint parts[TG_MATCHING_MAX_PARTS];
      guint n = problem->families[f].n_parts;

      for (guint i = 0; i < n; i++)
        parts[i] = i;
      for (guint c = 0; c < problem->n_cylinders; c++)
        {
          guint from = (guint) g_rand_int_range (random, (int) c, (int) n);

          plan->part[f][c] = parts[from];
          parts[from] = parts[c];
        }
    }
}

/* Stopped after any number of nodes: a bound that nothing beats, a plan that holds, and never a
 * word of impossible where the whole search finds one.  The same limit gives the same result. */
static void
test_stopped (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (606);
  guint feasible = 0, unknown = 0;

  for (guint round = 0; round < 120; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .nodes = (guint64) g_rand_int_range (random, 1, 400) };
      TgMatchingResult stopped, again, whole;

      oracle_draw_ruled (random, 8, &o);
      tg_matching_solve (&o.problem, &limits, &stopped);
      tg_matching_solve (&o.problem, &limits, &again);
      limits = (TgMatchingLimits){ .stages = 1 };
      tg_matching_solve (&o.problem, &limits, &whole);
      g_assert_cmpmem (&stopped, sizeof stopped, &again, sizeof again);
      feasible += stopped.status == TG_MATCHING_FEASIBLE;
      unknown += stopped.status == TG_MATCHING_UNKNOWN;
      if (whole.status == TG_MATCHING_NONE_EXISTS)
        {
          g_assert_true (stopped.status == TG_MATCHING_NONE_EXISTS ||
                         stopped.status == TG_MATCHING_UNKNOWN);
          continue;
        }
      g_assert_cmpint (stopped.status, !=, TG_MATCHING_NONE_EXISTS);
      g_assert_cmpint (stopped.lower_bound, <=, whole.plan.total);
      if (stopped.status == TG_MATCHING_UNKNOWN)
        continue;
      g_assert_true (tg_matching_evaluate (&o.problem, &stopped.plan));
      g_assert_cmpint (stopped.plan.total, >=, whole.plan.total);
    }
  g_test_message ("stopped with a plan %u, without one %u", feasible, unknown);
  g_assert_cmpuint (feasible, >, 3);
  g_assert_cmpuint (unknown, >, 3);
}

/* On problems too large to enumerate no pairing by chance is below the bound, nor is there one where
 * none should be. */
static void
test_never_beaten (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (707);

  for (guint round = 0; round < 40; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .nodes = 20000 };
      TgMatchingResult result;

      oracle_draw_plain (random, (guint) g_rand_int_range (random, 2, 13),
                         (guint) g_rand_int_range (random, 2, 7), 50, &o);
      if (round % 2 == 0)
        oracle_draw_batches (random, 40, &o);
      if (round % 4 == 0)
        oracle_draw_rules (random, &o);
      o.problem.tolerance = g_rand_int_range (random, 0, 10);
      tg_matching_solve (&o.problem, &limits, &result);
      for (guint i = 0; i < 2000; i++)
        {
          TgMatchingPlan plan;

          draw_plan (random, &o.problem, &plan);
          if (!tg_matching_evaluate (&o.problem, &plan))
            continue;
          g_assert_cmpint (result.status, !=, TG_MATCHING_NONE_EXISTS);
          g_assert_cmpint (plan.total, >=, result.lower_bound);
          if (result.proved >= 1)
            g_assert_cmpint (plan.total, >=, result.plan.total);
        }
    }
}

static gboolean
stop_at_once (gpointer data)
{
  (*(guint *) data)++;
  return TRUE;
}

static void
test_should_stop (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (808);
  guint asked = 0;
  TgMatchingLimits limits = { .should_stop = stop_at_once, .data = &asked };
  TgMatchingResult result;
  OracleProblem o;

  oracle_draw_plain (random, 16, 3, 500, &o);
  oracle_draw_batches (random, 400, &o);
  tg_matching_solve (&o.problem, &limits, &result);
  g_assert_cmpint (result.status, ==, TG_MATCHING_FEASIBLE);
  g_assert_cmpuint (asked, ==, 1);
  g_assert_true (tg_matching_evaluate (&o.problem, &result.plan));
  g_assert_cmpint (result.lower_bound, <=, result.plan.total);
}

/* How long the search goes on between two questions whether to stop, in time of this process.  It asks
 * in the same places whenever it is run, so that the shortest of several runs is what each stretch takes:
 * what else the machine does is seldom in the way at the same place every time. */
#define QUESTIONS 1000
#define RUNS 3

typedef struct
{
  clock_t last;
  guint asked;
  clock_t stretch[QUESTIONS];
} Patience;

static gboolean
look_at_the_clock (gpointer data)
{
  Patience *patience = data;
  clock_t now = clock ();

  if (patience->asked > 0)
    patience->stretch[patience->asked] = MIN (patience->stretch[patience->asked],
                                              now - patience->last);
  patience->last = now;
  return ++patience->asked >= QUESTIONS;
}

/* In every stage: asked every few milliseconds (with room for a slow machine and for sanitizers). */
static void
test_patience (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (809);

  for (guint round = 0; round < 6; round++)
    {
      Patience patience;
      TgMatchingLimits limits = { .should_stop = look_at_the_clock, .data = &patience };
      TgMatchingResult result;
      OracleProblem o;
      guint n = round < 3 ? 24 : 10, asked = 0;
      clock_t longest = 0;

      oracle_draw_plain (random, n, 3 + round % 3, 500, &o);
      if (round % 2 == 0)
        oracle_draw_batches (random, 400, &o);
      for (guint f = 0; f < o.problem.n_families; f++)
        for (guint i = 0; i < n; i++)
          o.parts[f][i].today = (int) i;
      for (guint i = 0; i < QUESTIONS; i++)
        patience.stretch[i] = G_MAXINT;
      for (guint run = 0; run < RUNS; run++)
        {
          patience.asked = 0;
          tg_matching_solve (&o.problem, &limits, &result);
          g_assert_cmpuint (patience.asked, >, 10);
          if (run > 0)
            g_assert_cmpuint (patience.asked, ==, asked);
          asked = patience.asked;
        }
      for (guint i = 1; i < asked; i++)
        longest = MAX (longest, patience.stretch[i]);
      g_test_message ("asked %u times, at most %d ms apart, proved %u", asked,
                      (int) (longest * 1000 / CLOCKS_PER_SEC), result.proved);
      g_assert_cmpint (longest * 1000 / CLOCKS_PER_SEC, <, 100);
    }
}

/* What a workshop meets and what was hard to prove: sixteen cylinders, three families, two batches
 * mixed, all proved; and two spares of two families, most of them.  A limit of nodes is the same on
 * every machine. */
static void
test_hard (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (909);
  guint proved[2] = { 0 };

  for (guint round = 0; round < 12; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .nodes = 1000000, .stages = 1 };
      TgMatchingResult result;

      oracle_draw_plain (random, 16, round % 2 == 0 ? 3 : 4, round % 2 == 0 ? 10 : 50, &o);
      if (round % 2 == 0)
        oracle_draw_batches (random, 40, &o);
      for (guint f = 0; f < 2 && round % 2 == 1; f++)
        oracle_draw_spare (random, f, 50, &o);
      tg_matching_solve (&o.problem, &limits, &result);
      g_test_message ("total %d, nodes %d", (int) result.plan.total, (int) result.nodes);
      proved[round % 2] += result.status == TG_MATCHING_OPTIMAL;
    }
  g_assert_cmpuint (proved[0], ==, 6);
  g_assert_cmpuint (proved[1], >=, 4);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/matching-laws/freedom", test_freedom);
  g_test_add_func ("/matching-laws/relabelled", test_relabelled);
  g_test_add_func ("/matching-laws/stopped", test_stopped);
  g_test_add_func ("/matching-laws/never-beaten", test_never_beaten);
  g_test_add_func ("/matching-laws/should-stop", test_should_stop);
  g_test_add_func ("/matching-laws/patience", test_patience);
  g_test_add_func ("/matching-laws/hard", test_hard);
  return g_test_run ();
}
