/* matching-kinds.c: the problems of the pairing's benchmark, see matching-kinds.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All weights are drawn, none is anybody's reading.  No problem is left out or drawn again.
 */
#include "matching-kinds.h"

const char *
kind_name (Kind kind)
{
  static const char *const names[N_KINDS] = {
    "any weights", "tolerance", "locks", "capacities", "all rules", "two batches", "batches, own",
  };

  return names[kind];
}

static void
draw_apart (GRand *random, guint steps, OracleProblem *o)
{
  for (guint f = 0; f < o->problem.n_families; f++)
    {
      int offset = g_rand_int_range (random, 2 * (int) steps, 6 * (int) steps + 1);

      for (guint i = 0; i < o->problem.families[f].n_parts; i++)
        if (g_rand_boolean (random))
          o->parts[f][i].weight += offset;
    }
}

static void
draw_capacities (GRand *random, guint steps, OracleProblem *o)
{
  for (guint f = 0; f < o->problem.n_families; f++)
    for (guint i = 0; i < o->problem.families[f].n_parts; i++)
      if (f > 0)
        o->parts[f][i].capacity = 0;
      else if (g_rand_int_range (random, 0, 3) == 0)
        o->parts[f][i].capacity = g_rand_int_range (random, 0, (int) steps + 1);
}

static void
draw_pair (GRand *random, const TgMatchingProblem *problem, guint part, TgMatchingPair *pair)
{
  guint k = problem->n_families;

  pair->family[0] = (guint) g_rand_int_range (random, 0, (int) k);
  pair->family[1] = (pair->family[0] + (guint) g_rand_int_range (random, 1, (int) k)) % k;
  pair->part[0] = pair->part[1] = part % problem->n_cylinders;
}

/* Pairs of different parts, so that they do not exclude each other from the start. */
static void
draw_locks (GRand *random, OracleProblem *o)
{
  TgMatchingProblem *p = &o->problem;

  p->n_locked = MIN (2, p->n_cylinders - 1);
  p->n_forbidden = 3;
  for (guint i = 0; i < p->n_locked; i++)
    draw_pair (random, p, i, &o->locked[i]);
  for (guint i = 0; i < p->n_forbidden; i++)
    draw_pair (random, p, p->n_locked + i, &o->forbidden[i]);
}

void
kind_draw (Kind kind, guint steps, guint n, guint k, guint number, OracleProblem *out)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (kind * 100000 + number * 1000 + n * 10 + k);
  gboolean batches = kind == KIND_BATCHES || kind == KIND_APART;

  oracle_draw_plain (random, n, k, (int) (batches ? steps : 5 * steps), out);
  if (kind == KIND_BATCHES)
    oracle_draw_batches (random, 4 * (int) steps, out);
  if (kind == KIND_APART)
    draw_apart (random, steps, out);
  if (kind == KIND_TOLERANCE || kind == KIND_ALL_RULES)
    out->problem.tolerance = g_rand_int_range (random, 1, (int) steps / 2 + 1);
  if (kind == KIND_CAPACITIES || kind == KIND_ALL_RULES)
    draw_capacities (random, steps, out);
  if (kind == KIND_LOCKS || kind == KIND_ALL_RULES)
    draw_locks (random, out);
}
