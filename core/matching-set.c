/* matching-set.c: a matching problem made ready for the search
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Parts sorted by weight, the rules as masks of partners, and from a found set of assemblies back to
 * cylinders and part numbers.  A part that is bound to a cylinder has to be used; two that are bound
 * to one cylinder are locked together and two that are bound to different ones never meet.  Does
 * not search: a set that passes here may still have no pairing.
 */
#include "matching-private.h"

#include <stdlib.h>
#include <string.h>

static gboolean
valid_pairs (const TgMatchingProblem *problem, const TgMatchingPair *pairs, guint n)
{
  for (guint i = 0; i < n; i++)
    for (guint side = 0; side < 2; side++)
      if (pairs[i].family[side] >= problem->n_families ||
          pairs[i].part[side] >= problem->families[pairs[i].family[side]].n_parts ||
          pairs[i].family[0] == pairs[i].family[1])
        return FALSE;
  return TRUE;
}

static gboolean
valid_family (const TgMatchingProblem *problem, const TgMatchingFamily *family)
{
  int n = (int) problem->n_cylinders;

  if (family->n_parts < 1 || family->n_parts > P)
    return FALSE;
  for (guint i = 0; i < family->n_parts; i++)
    {
      const TgMatchingPart *part = &family->parts[i];

      if (part->weight < 0 || part->weight > TG_MATCHING_MAX_WEIGHT || part->capacity < 0 ||
          part->bound < -1 || part->bound >= n || part->today < -1 || part->today >= n)
        return FALSE;
    }
  return TRUE;
}

gboolean
tg_matching_set_is_valid (const TgMatchingProblem *problem)
{
  if (problem->n_families < 1 || problem->n_families > K || problem->n_cylinders < 1 ||
      problem->n_cylinders > N || problem->tolerance < 0 ||
      problem->tolerance > K * TG_MATCHING_MAX_WEIGHT)
    return FALSE;
  for (guint f = 0; f < problem->n_families; f++)
    if (!valid_family (problem, &problem->families[f]))
      return FALSE;
  return valid_pairs (problem, problem->forbidden, problem->n_forbidden) &&
         valid_pairs (problem, problem->locked, problem->n_locked);
}

static int
compare_parts (gconstpointer a, gconstpointer b, gpointer data)
{
  const TgMatchingPart *parts = data;
  const TgMatchingPart *x = &parts[*(const guint *) a], *y = &parts[*(const guint *) b];

  if (x->weight != y->weight)
    return x->weight < y->weight ? -1 : 1;
  return *(const guint *) a < *(const guint *) b ? -1 : 1;
}

static void
sort_family (TgMatchingSet *set, guint f)
{
  const TgMatchingFamily *family = &set->problem->families[f];
  gint64 widest = 0;

  for (guint i = 0; i < family->n_parts; i++)
    set->number[f][i] = i;
  g_qsort_with_data (set->number[f], (int) family->n_parts, sizeof set->number[f][0], compare_parts,
                     (gpointer) family->parts);
  set->all[f] = BIT (family->n_parts) - 1;
  for (guint i = 0; i < family->n_parts; i++)
    {
      const TgMatchingPart *part = &family->parts[set->number[f][i]];

      set->weight[f][i] = part->weight;
      set->capacity[f][i] = part->capacity;
      if (part->bound >= 0)
        set->must[f] |= BIT (i);
      if (i > 0 && part->weight - set->weight[f][i - 1] > widest)
        {
          widest = part->weight - set->weight[f][i - 1];
          set->heavy[f] = set->all[f] & ~(BIT (i) - 1);
        }
    }
}

static guint
place_of (const TgMatchingSet *set, guint f, guint number)
{
  guint i = 0;

  while (set->number[f][i] != number)
    i++;
  return i;
}

static void
forbid (TgMatchingSet *set, guint f, guint i, guint g, guint j)
{
  set->allowed[f][i][g] &= ~BIT (j);
  set->allowed[g][j][f] &= ~BIT (i);
  set->rules = TRUE;
}

/* Nobody but each other. */
static void
lock (TgMatchingSet *set, guint f, guint i, guint g, guint j)
{
  for (guint other = 0; other < set->problem->families[g].n_parts; other++)
    if (other != j)
      forbid (set, f, i, g, other);
  for (guint other = 0; other < set->problem->families[f].n_parts; other++)
    if (other != i)
      forbid (set, f, other, g, j);
}

static void
bind_parts (TgMatchingSet *set, guint f, guint g)
{
  const TgMatchingPart *a = set->problem->families[f].parts, *b = set->problem->families[g].parts;

  for (guint i = 0; i < set->problem->families[f].n_parts; i++)
    for (guint j = 0; j < set->problem->families[g].n_parts; j++)
      {
        int here = a[set->number[f][i]].bound, there = b[set->number[g][j]].bound;

        if (here < 0 || there < 0)
          continue;
        if (here == there)
          lock (set, f, i, g, j);
        else
          forbid (set, f, i, g, j);
      }
}

static void
read_rules (TgMatchingSet *set)
{
  const TgMatchingProblem *problem = set->problem;

  for (guint f = 0; f < set->k; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      for (guint g = 0; g < set->k; g++)
        set->allowed[f][i][g] = set->all[g];
  for (guint f = 0; f < set->k; f++)
    for (guint g = f + 1; g < set->k; g++)
      bind_parts (set, f, g);
  for (guint i = 0; i < problem->n_forbidden + problem->n_locked; i++)
    {
      gboolean locked = i >= problem->n_forbidden;
      const TgMatchingPair *pair = locked ? &problem->locked[i - problem->n_forbidden]
                                          : &problem->forbidden[i];
      guint f = pair->family[0], g = pair->family[1];

      (locked ? lock : forbid) (set, f, place_of (set, f, pair->part[0]), g,
                                place_of (set, g, pair->part[1]));
    }
}

/* A family of which any part may lose anything lets every assembly lose anything. */
static gboolean
is_limited (const TgMatchingSet *set)
{
  for (guint f = 0; f < set->k; f++)
    {
      gboolean limited = FALSE;

      for (guint i = 0; i < set->problem->families[f].n_parts; i++)
        limited = limited || set->capacity[f][i] < TG_MATCHING_NO_LIMIT;
      if (!limited)
        return FALSE;
    }
  return TRUE;
}

static int
compare_net (gconstpointer a, gconstpointer b, gpointer data)
{
  const gint64 *net = data;
  guint8 i = *(const guint8 *) a, j = *(const guint8 *) b;

  if (net[i] != net[j])
    return net[i] < net[j] ? -1 : 1;
  return (int) i - (int) j;
}

static void
sort_net (TgMatchingSet *set)
{
  set->limited = is_limited (set);
  for (guint f = 0; f < set->k; f++)
    {
      guint n = set->problem->families[f].n_parts;

      for (guint i = 0; i < n; i++)
        {
          set->net[f][i] = set->weight[f][i] -
                           MIN (set->capacity[f][i], K * TG_MATCHING_MAX_WEIGHT);
          set->by_net[f][i] = (guint8) i;
        }
      g_qsort_with_data (set->by_net[f], (int) n, 1, compare_net, set->net[f]);
    }
}

static gboolean
akin (const TgMatchingSet *set, guint f, guint i, guint j)
{
  return (set->must[f] >> i & 1) == (set->must[f] >> j & 1) &&
         memcmp (set->allowed[f][i], set->allowed[f][j], set->k * sizeof (guint64)) == 0;
}

static gint64
common_divisor (gint64 a, gint64 b)
{
  while (b != 0)
    {
      gint64 rest = a % b;

      a = b;
      b = rest;
    }
  return a;
}

/* Two parts may be bound to one cylinder only if they are of different families. */
static gboolean
bound_apart (const TgMatchingFamily *family)
{
  guint64 taken = 0;

  for (guint i = 0; i < family->n_parts; i++)
    if (family->parts[i].bound >= 0)
      {
        if (taken & BIT (family->parts[i].bound))
          return FALSE;
        taken |= BIT (family->parts[i].bound);
      }
  return TRUE;
}

gboolean
tg_matching_set_prepare (const TgMatchingProblem *problem, TgMatchingSet *set)
{
  memset (set, 0, sizeof *set);
  set->problem = problem;
  set->k = problem->n_families;
  set->n = problem->n_cylinders;
  set->tolerance = problem->tolerance;
  for (guint f = 0; f < set->k; f++)
    {
      if (problem->families[f].n_parts < set->n || !bound_apart (&problem->families[f]))
        return FALSE;
      sort_family (set, f);
      for (guint i = 1; i < problem->families[f].n_parts; i++)
        set->modulus = common_divisor (set->modulus, set->weight[f][i] - set->weight[f][0]);
      set->residue += set->weight[f][0];
    }
  if (set->modulus > 0)
    set->residue %= set->modulus;
  read_rules (set);
  for (guint f = 0; f < set->k; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      for (guint j = 0; j < i; j++)
        if (akin (set, f, i, j))
          {
            set->kin[f][i] |= BIT (j);
            if (set->weight[f][i] == set->weight[f][j] &&
                set->capacity[f][i] == set->capacity[f][j] && !(set->must[f] >> i & 1))
              set->earlier[f][i] |= BIT (j);
          }
  sort_net (set);
  tg_matching_sums (set, set->all, set->n, &set->sums);
  return TRUE;
}

/* The cylinder that some part of the assembly is bound to, -1. */
static int
bound_to (const TgMatchingSet *set, const guint8 *chosen)
{
  for (guint f = 0; f < set->k; f++)
    {
      int bound = set->problem->families[f].parts[set->number[f][chosen[f]]].bound;

      if (bound >= 0)
        return bound;
    }
  return -1;
}

static int
staying (const TgMatchingSet *set, const guint8 *chosen, guint cylinder)
{
  int n = 0;

  for (guint f = 0; f < set->k; f++)
    n += set->problem->families[f].parts[set->number[f][chosen[f]]].today == (int) cylinder;
  return n;
}

static void
put (const TgMatchingSet *set, const guint8 *chosen, guint cylinder, TgMatchingPlan *plan)
{
  for (guint f = 0; f < set->k; f++)
    plan->part[f][cylinder] = set->number[f][chosen[f]];
}

void
tg_matching_set_place (const TgMatchingSet *set, guint8 chosen[N][K], TgMatchingPlan *plan)
{
  guint free_assemblies = (guint) BIT (set->n) - 1, free_cylinders = free_assemblies;

  for (guint a = 0; a < set->n; a++)
    {
      int cylinder = bound_to (set, chosen[a]);

      if (cylinder < 0)
        continue;
      put (set, chosen[a], (guint) cylinder, plan);
      free_assemblies &= ~(1u << a);
      free_cylinders &= ~(1u << cylinder);
    }
  while (free_assemblies != 0)
    {
      guint best_a = 0, best_c = 0;
      int most = -1;

      for (guint c = 0; c < set->n; c++)
        for (guint a = 0; a < set->n; a++)
          if ((free_assemblies >> a & 1) && (free_cylinders >> c & 1) &&
              staying (set, chosen[a], c) > most)
            {
              most = staying (set, chosen[a], c);
              best_a = a;
              best_c = c;
            }
      put (set, chosen[best_a], best_c, plan);
      free_assemblies &= ~(1u << best_a);
      free_cylinders &= ~(1u << best_c);
    }
}
