/* test-matching.c: pairings against full enumeration, the textbook's two families and cases by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <stdlib.h>
#include <string.h>

#include "matching-oracle.h"
#include "matching-private.h"
#include "matching.h"

#define MOST 6 /* cylinders and families of the enumeration */

static const TgMatchingLimits no_limits = { 0 };

/* Written apart from tg_matching_evaluate(): rules by looking at every pair of an assembly. */
typedef struct
{
  gint64 total, touched, cut, changes, floor;
} Figures;

static gboolean
is_at (const TgMatchingPair *pair, guint side, guint8 (*at)[MOST], guint c)
{
  return at[pair->family[side]][c] == pair->part[side];
}

static gboolean
pairs_kept (const TgMatchingProblem *p, guint8 (*at)[MOST])
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
figure (const TgMatchingProblem *p, guint8 (*at)[MOST], Figures *out)
{
  gint64 weight[MOST], least = G_MAXINT64;
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
  out->floor = least;
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
  gboolean in_order; /* the first family's parts stand in order; only the first three count */
  guint8 at[MOST][MOST];
  gboolean found;
  Figures best;
  guint8 best_at[MOST][MOST];
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
  if (e->in_order)
    return FALSE;
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

  for (guint round = 0; round < 1500; round++)
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

/* The plain search alone, which local search often saves the work, finds a plan of the least total at
 * its floor and none with a step less. */
static void
assert_decided (const TgMatchingProblem *problem, const Figures *best)
{
  TgMatchingSet set;
  TgMatchingSearch search;
  TgMatchingLimits unlimited = { 0 };
  TgMatchingGoal goal = {
    .floor = best->floor, .removal = best->total, .touched = problem->n_cylinders, .cut = G_MAXINT64
  };

  g_assert_true (tg_matching_set_prepare (problem, &set));
  tg_matching_search_init (&search, &set, &unlimited);
  g_assert_true (tg_matching_search_decide (&search, &goal));
  goal.removal--;
  g_assert_true (goal.removal < 0 || !tg_matching_search_decide (&search, &goal));
  tg_matching_search_clear (&search);
}

/* The first three objectives of five and six cylinders: where no part is bound to one, it is enough
 * to keep the first family in order. */
static void
test_enumeration_in_order (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (102);
  guint found = 0, metal = 0;

  for (guint round = 0; round < 800; round++)
    {
      OracleProblem o;
      Enumeration e = { .problem = &o.problem, .in_order = TRUE };
      TgMatchingLimits limits = { .stages = 3 };
      TgMatchingResult result;
      guint k = round % 12 == 0 ? 4 : 2 + round % 2;
      guint n = k == 4 ? 4 : k == 3 ? 5 : 6;

      oracle_draw_plain (random, n, k, g_rand_int_range (random, 2, 60), &o);
      if (round % 3 == 0)
        oracle_draw_batches (random, 40, &o);
      oracle_draw_rules (random, &o);
      for (guint f = 0; f < k; f++)
        for (guint i = 0; i < n; i++)
          o.parts[f][i].bound = -1;
      for (guint c = 0; c < n; c++)
        e.at[0][c] = (guint8) c;
      enumerate (&e, 1, 0, 0);
      tg_matching_solve (&o.problem, &limits, &result);
      g_assert_cmpint (result.status, ==, e.found ? TG_MATCHING_OPTIMAL : TG_MATCHING_NONE_EXISTS);
      if (!e.found)
        continue;
      g_assert_cmpint (result.plan.total, ==, e.best.total);
      g_assert_cmpint (result.plan.touched, ==, e.best.touched);
      g_assert_cmpint (result.plan.cut, ==, e.best.cut);
      assert_decided (&o.problem, &e.best);
      found++;
      metal += e.best.total > 0;
    }
  g_assert_cmpuint (found, >, 400);
  g_assert_cmpuint (metal, >, 250);
}

/* The result's figures are those of the evaluation, field for field. */
static void
test_evaluation_agrees (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (103);
  guint plans = 0;

  for (guint round = 0; round < 150; round++)
    {
      OracleProblem o;
      TgMatchingLimits limits = { .nodes = 2000 };
      TgMatchingResult result;
      TgMatchingPlan plan = { 0 };

      oracle_draw_ruled (random, 10, &o);
      tg_matching_solve (&o.problem, &limits, &result);
      if (result.status != TG_MATCHING_OPTIMAL && result.status != TG_MATCHING_FEASIBLE)
        continue;
      memcpy (plan.part, result.plan.part, sizeof plan.part);
      g_assert_true (tg_matching_evaluate (&o.problem, &plan));
      for (guint c = 0; c < o.problem.n_cylinders; c++)
        {
          g_assert_cmpint (plan.weight[c], ==, result.plan.weight[c]);
          g_assert_cmpint (plan.removal[c], ==, result.plan.removal[c]);
          g_assert_cmpint (plan.weight[c] - plan.removal[c], <=, plan.floor + o.problem.tolerance);
        }
      g_assert_cmpint (plan.floor, ==, result.plan.floor);
      g_assert_cmpint (plan.total, ==, result.plan.total);
      g_assert_cmpuint (plan.touched, ==, result.plan.touched);
      g_assert_cmpint (plan.cut, ==, result.plan.cut);
      g_assert_cmpuint (plan.changes, ==, result.plan.changes);
      plans++;
    }
  g_assert_cmpuint (plans, >, 100);
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

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/matching/enumeration", test_enumeration);
  g_test_add_func ("/matching/enumeration-in-order", test_enumeration_in_order);
  g_test_add_func ("/matching/evaluation-agrees", test_evaluation_agrees);
  g_test_add_func ("/matching/two-families", test_two_families);
  g_test_add_func ("/matching/reasons", test_reasons);
  g_test_add_func ("/matching/more-reasons", test_more_reasons);
  return g_test_run ();
}
