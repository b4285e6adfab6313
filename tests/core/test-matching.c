/* test-matching.c: pairings against full enumeration, GLPK, cases by hand and laws
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "matching-oracle.h"
#include "matching.h"

static const TgMatchingLimits no_limits = { 0 };

/* Written apart from tg_matching_evaluate(): rules by looking at every pair of an assembly. */
typedef struct
{
  gint64 total, touched, cut, changes;
} Figures;

static gboolean
is_at (const TgMatchingPair *pair, guint side, guint8 (*at)[4], guint c)
{
  return at[pair->family[side]][c] == pair->part[side];
}

static gboolean
pairs_kept (const TgMatchingProblem *p, guint8 (*at)[4])
{
  for (guint c = 0; c < p->n_cylinders; c++)
    {
      for (guint i = 0; i < p->n_forbidden; i++)
        if (is_at (&p->forbidden[i], 0, at, c) && is_at (&p->forbidden[i], 1, at, c))
          return FALSE;
      for (guint i = 0; i < p->n_locked; i++)
        if (is_at (&p->locked[i], 0, at, c) != is_at (&p->locked[i], 1, at, c))
          return FALSE;
    }
  return TRUE;
}

static gboolean
figure (const TgMatchingProblem *p, guint8 (*at)[4], Figures *out)
{
  gint64 weight[4], least = G_MAXINT64;
  guint bound = 0, kept = 0;

  memset (out, 0, sizeof *out);
  for (guint f = 0; f < p->n_families; f++)
    for (guint i = 0; i < p->families[f].n_parts; i++)
      bound += p->families[f].parts[i].bound >= 0;
  for (guint c = 0; c < p->n_cylinders; c++)
    {
      weight[c] = 0;
      for (guint f = 0; f < p->n_families; f++)
        {
          const TgMatchingPart *part = &p->families[f].parts[at[f][c]];

          weight[c] += part->weight;
          kept += part->bound == (int) c;
          out->changes += part->today != (int) c;
        }
      least = MIN (least, weight[c]);
    }
  for (guint c = 0; c < p->n_cylinders; c++)
    {
      gint64 over = weight[c] - least - p->tolerance;
      double room = 0;

      if (over <= 0)
        continue;
      for (guint f = 0; f < p->n_families; f++)
        room += (double) p->families[f].parts[at[f][c]].capacity;
      if ((double) over > room)
        return FALSE;
      out->total += over;
      out->touched++;
      out->cut = MAX (out->cut, over);
    }
  return kept == bound && pairs_kept (p, at);
}

typedef struct
{
  const TgMatchingProblem *problem;
  guint8 at[3][4];
  gboolean found;
  Figures best;
  guint8 best_at[3][4];
} Enumeration;

static gboolean
is_better (const Enumeration *e, const Figures *now)
{
  const Figures *best = &e->best;

  if (!e->found)
    return TRUE;
  if (now->total != best->total)
    return now->total < best->total;
  if (now->touched != best->touched)
    return now->touched < best->touched;
  if (now->cut != best->cut)
    return now->cut < best->cut;
  if (now->changes != best->changes)
    return now->changes < best->changes;
  for (guint c = 0; c < e->problem->n_cylinders; c++)
    for (guint f = 0; f < e->problem->n_families; f++)
      if (e->at[f][c] != e->best_at[f][c])
        return e->at[f][c] < e->best_at[f][c];
  return FALSE;
}

static void
enumerate (Enumeration *e, guint f, guint c, guint used)
{
  const TgMatchingProblem *p = e->problem;
  Figures now;

  if (f == p->n_families)
    {
      if (!figure (p, e->at, &now) || !is_better (e, &now))
        return;
      e->found = TRUE;
      e->best = now;
      memcpy (e->best_at, e->at, sizeof e->at);
      return;
    }
  if (c == p->n_cylinders)
    {
      enumerate (e, f + 1, 0, 0);
      return;
    }
  for (guint i = 0; i < p->families[f].n_parts; i++)
    if (!(used >> i & 1))
      {
        e->at[f][c] = (guint8) i;
        enumerate (e, f, c + 1, used | 1u << i);
      }
}

/* All four objectives, and the very pairing, on everything that is small. */
static void
test_enumeration (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (101);
  guint found = 0, none = 0, free_of_cost = 0;

  for (guint round = 0; round < 700; round++)
    {
      OracleProblem o;
      Enumeration e = { .problem = &o.problem };
      TgMatchingResult result;
      int spread = g_rand_int_range (random, 1, 40);
      guint n = (guint) g_rand_int_range (random, 1, 5);
      guint k = (guint) g_rand_int_range (random, 1, 4);

      oracle_draw_plain (random, n, k, spread, &o);
      if (g_rand_int_range (random, 0, 3) == 0)
        oracle_draw_spare (random, (guint) g_rand_int_range (random, 0, (int) k), spread, &o);
      if (n < 4 && g_rand_int_range (random, 0, 3) == 0)
        oracle_draw_spare (random, (guint) g_rand_int_range (random, 0, (int) k), spread, &o);
      if (round % 4 > 0)
        oracle_draw_rules (random, &o);
      enumerate (&e, 0, 0, 0);
      tg_matching_solve (&o.problem, &no_limits, &result);
      if (!e.found)
        {
          g_assert_cmpint (result.status, ==, TG_MATCHING_NONE_EXISTS);
          none++;
          continue;
        }
      g_assert_cmpint (result.status, ==, TG_MATCHING_OPTIMAL);
      g_assert_cmpuint (result.proved, ==, TG_MATCHING_STAGES);
      g_assert_cmpint (result.plan.total, ==, e.best.total);
      g_assert_cmpint (result.lower_bound, ==, e.best.total);
      g_assert_cmpint (result.plan.touched, ==, e.best.touched);
      g_assert_cmpint (result.plan.cut, ==, e.best.cut);
      g_assert_cmpint (result.plan.changes, ==, e.best.changes);
      for (guint f = 0; f < k; f++)
        for (guint c = 0; c < n; c++)
          g_assert_cmpuint (result.plan.part[f][c], ==, e.best_at[f][c]);
      found++;
      free_of_cost += e.best.total == 0;
    }
  g_test_message ("found %u (%u without any metal), none %u", found, free_of_cost, none);
  g_assert_cmpuint (found - free_of_cost, >, 250);
  g_assert_cmpuint (none, >, 30);
}

/* The least total of larger ones, with and without rules. */
static void
test_oracle (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (202);
  guint optimum = 0, none = 0, out = 0;

  for (guint round = 0; round < 300; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .stages = 1 };
      TgMatchingResult result;
      int spread = g_rand_int_range (random, 2, 80);
      guint n = (guint) g_rand_int_range (random, 3, 7);
      guint k = (guint) g_rand_int_range (random, 2, 5);
      gint64 total = -1;
      OracleVerdict verdict;

      oracle_draw_plain (random, n, k, spread, &o);
      if (round % 5 == 1)
        oracle_draw_batches (random, 60, &o);
      if (round % 5 == 2)
        oracle_draw_spare (random, (guint) g_rand_int_range (random, 0, (int) k), spread, &o);
      if (round % 2 == 1)
        oracle_draw_rules (random, &o);
      tg_matching_solve (&o.problem, &limits, &result);
      verdict = oracle_solve_matching (&o.problem, 200, &total);
      if (verdict == ORACLE_OPTIMUM)
        {
          g_assert_cmpint (result.status, ==, TG_MATCHING_OPTIMAL);
          g_assert_cmpint (result.plan.total, ==, total);
        }
      if (verdict == ORACLE_NONE)
        g_assert_cmpint (result.status, ==, TG_MATCHING_NONE_EXISTS);
      optimum += verdict == ORACLE_OPTIMUM;
      none += verdict == ORACLE_NONE;
      out += verdict == ORACLE_TIME_OUT;
    }
  g_test_message ("equal %u, none exists %u, GLPK timed out %u", optimum, none, out);
  g_assert_cmpuint (optimum, >, 180);
  g_assert_cmpuint (none, >, 5);
}

/* Two families of any weights, no rules: the lightest with the heaviest, the second lightest with
 * the second heaviest, … leaves the lightest sum as heavy as it can be (exchange argument; the
 * rearrangement inequality's order, Hardy, Littlewood and Pólya, "Inequalities", chapter X, from
 * memory). */
static int
compare_weights (gconstpointer a, gconstpointer b)
{
  const TgMatchingPart *x = a, *y = b;

  return (x->weight > y->weight) - (x->weight < y->weight);
}

static void
test_two_families (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (303);

  for (guint round = 0; round < 100; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .stages = 1 };
      TgMatchingResult result;
      guint n = (guint) g_rand_int_range (random, 2, TG_MATCHING_MAX_CYLINDERS + 1);
      gint64 least = G_MAXINT64, all = 0;

      oracle_draw_plain (random, n, 2, 500, &o);
      tg_matching_solve (&o.problem, &limits, &result);
      for (guint f = 0; f < 2; f++)
        qsort (o.parts[f], n, sizeof o.parts[f][0], compare_weights);
      for (guint i = 0; i < n; i++)
        {
          least = MIN (least, o.parts[0][i].weight + o.parts[1][n - 1 - i].weight);
          all += o.parts[0][i].weight + o.parts[1][i].weight;
        }
      g_assert_cmpint (result.status, ==, TG_MATCHING_OPTIMAL);
      g_assert_cmpint (result.plan.floor, ==, least);
      g_assert_cmpint (result.plan.total, ==, all - n * least);
    }
}

static gint64
least_total (const OracleProblem *o)
{
  TgMatchingLimits limits = { .stages = 1 };
  TgMatchingResult result;

  tg_matching_solve (&o->problem, &limits, &result);
  g_assert_cmpint (result.status, !=, TG_MATCHING_UNKNOWN);
  return result.status == TG_MATCHING_OPTIMAL ? result.plan.total : G_MAXINT64;
}

/* The arrays that a problem lends are its own again after a copy. */
static void
lent_again (const OracleProblem *from, OracleProblem *to)
{
  *to = *from;
  to->problem.forbidden = to->forbidden;
  to->problem.locked = to->locked;
  for (guint f = 0; f < to->problem.n_families; f++)
    to->problem.families[f].parts = to->parts[f];
}

static void
draw_ruled (GRand *random, guint max_n, OracleProblem *o)
{
  guint n = (guint) g_rand_int_range (random, 3, (int) max_n + 1);
  guint k = (guint) g_rand_int_range (random, 2, 5);

  oracle_draw_plain (random, n, k, g_rand_int_range (random, 3, 60), o);
  oracle_draw_rules (random, o);
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

      draw_ruled (random, 6, &o);
      before = least_total (&o);
      lent_again (&o, &freer);
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

/* Parts and families in another order: the same figures. */
static void
test_relabelled (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (505);

  for (guint round = 0; round < 60; round++)
    {
      OracleProblem o, other;
      TgMatchingResult a, b;
      TgMatchingLimits limits = { .stages = 3 };
      guint k, n;

      draw_ruled (random, 6, &o);
      k = o.problem.n_families;
      n = o.problem.n_cylinders;
      lent_again (&o, &other);
      for (guint f = 0; f < k; f++)
        for (guint i = 0; i < n; i++)
          other.parts[k - 1 - f][n - 1 - i] = o.parts[f][i];
      for (guint i = 0; i < ORACLE_MAX_PAIRS; i++)
        for (guint side = 0; side < 2; side++)
          {
            other.forbidden[i].family[side] = k - 1 - o.forbidden[i].family[side];
            other.forbidden[i].part[side] = n - 1 - o.forbidden[i].part[side];
            other.locked[i].family[side] = k - 1 - o.locked[i].family[side];
            other.locked[i].part[side] = n - 1 - o.locked[i].part[side];
          }
      tg_matching_solve (&o.problem, &limits, &a);
      tg_matching_solve (&other.problem, &limits, &b);
      g_assert_cmpint (a.status, ==, b.status);
      if (a.status != TG_MATCHING_OPTIMAL)
        continue;
      g_assert_cmpuint (a.proved, ==, 3);
      g_assert_cmpint (a.plan.total, ==, b.plan.total);
      g_assert_cmpuint (a.plan.touched, ==, b.plan.touched);
      g_assert_cmpint (a.plan.cut, ==, b.plan.cut);
    }
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

      draw_ruled (random, 8, &o);
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

/* On problems too large to enumerate no pairing by chance is below the bound. */
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
      o.problem.tolerance = g_rand_int_range (random, 0, 10);
      tg_matching_solve (&o.problem, &limits, &result);
      for (guint i = 0; i < 2000; i++)
        {
          TgMatchingPlan plan;

          draw_plan (random, &o.problem, &plan);
          g_assert_true (tg_matching_evaluate (&o.problem, &plan));
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

/* By hand: what a reason stands for. */
static void
test_reasons (void)
{
  TgMatchingResult result;
  OracleProblem o;
  g_autoptr (GRand) random = g_rand_new_with_seed (1);

  /* 0 1 and 0 1: each sum 1; 0 2 and 0 1: 3 in all, two sums of 1 leave 1: the mean */
  oracle_draw_plain (random, 2, 2, 0, &o);
  o.parts[0][1].weight += 2;
  o.parts[1][1].weight += 1;
  tg_matching_solve (&o.problem, &no_limits, &result);
  g_assert_cmpint (result.plan.total, ==, 1);
  g_assert_cmpint (result.reason, ==, TG_MATCHING_BOUND_MEAN);

  /* one part 9 lighter than all others: the one lightest sets the floor, the other two lose 9 */
  oracle_draw_plain (random, 3, 2, 0, &o);
  o.parts[1][2].weight -= 9;
  tg_matching_solve (&o.problem, &no_limits, &result);
  g_assert_cmpint (result.plan.total, ==, 18);
  g_assert_cmpint (result.reason, ==, TG_MATCHING_BOUND_SUBSET);
  g_assert_cmpuint (result.family, ==, 1);
  g_assert_cmpuint (result.count, ==, 1);

  /* the same within a band of 9 */
  o.problem.tolerance = 9;
  tg_matching_solve (&o.problem, &no_limits, &result);
  g_assert_cmpint (result.plan.total, ==, 0);
  g_assert_cmpint (result.reason, ==, TG_MATCHING_BOUND_NOTHING);
}

/* By hand: the reasons that look at residues, at two batches and at the heaviest parts. */
static void
test_more_reasons (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1);
  TgMatchingResult result;
  OracleProblem o;

  /* 0 6, 0 4, 0 4 and 0 4: even sums, 18 in all, so the lower one is 8 and not 9 */
  oracle_draw_plain (random, 2, 4, 0, &o);
  for (guint f = 0; f < 4; f++)
    o.parts[f][1].weight += f == 0 ? 6 : 4;
  tg_matching_solve (&o.problem, &no_limits, &result);
  g_assert_cmpint (result.plan.total, ==, 2);
  g_assert_cmpint (result.reason, ==, TG_MATCHING_BOUND_LATTICE);
  g_assert_cmpint (result.modulus, ==, 2);

  /* three heavy parts, one a family, for two assemblies: one gets one, at best the heaviest */
  oracle_draw_plain (random, 2, 3, 0, &o);
  o.parts[0][1].weight += 40;
  o.parts[1][1].weight += 41;
  o.parts[2][1].weight += 43;
  tg_matching_solve (&o.problem, &no_limits, &result);
  g_assert_cmpint (result.plan.total, ==, 40 + 41 - 43);
  g_assert_cmpint (result.reason, ==, TG_MATCHING_BOUND_CLASSES);
  g_assert_cmpuint (result.count, ==, 1);

  /* one part 9 heavier than all others, a band of 2: its assembly loses 7 whoever joins it */
  oracle_draw_plain (random, 3, 2, 0, &o);
  o.parts[0][0].weight += 9;
  o.problem.tolerance = 2;
  tg_matching_solve (&o.problem, &no_limits, &result);
  g_assert_cmpint (result.plan.total, ==, 7);
  g_assert_cmpint (result.reason, ==, TG_MATCHING_BOUND_OVERSET);
  g_assert_cmpuint (result.family, ==, 0);
  g_assert_cmpuint (result.count, ==, 1);
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
  g_test_add_func ("/matching/enumeration", test_enumeration);
  g_test_add_func ("/matching/oracle", test_oracle);
  g_test_add_func ("/matching/two-families", test_two_families);
  g_test_add_func ("/matching/freedom", test_freedom);
  g_test_add_func ("/matching/relabelled", test_relabelled);
  g_test_add_func ("/matching/stopped", test_stopped);
  g_test_add_func ("/matching/never-beaten", test_never_beaten);
  g_test_add_func ("/matching/should-stop", test_should_stop);
  g_test_add_func ("/matching/reasons", test_reasons);
  g_test_add_func ("/matching/more-reasons", test_more_reasons);
  g_test_add_func ("/matching/hard", test_hard);
  return g_test_run ();
}
