/* matching-start.c: a good first pairing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opposite sorting: the lightest of what is put together gets the heaviest of the next family; for
 * two families without rules that is the best.  Then two assemblies at a time exchange parts in
 * every way, or one takes a spare, as long as that breaks fewer rules, loses less, or, where both
 * are equal, makes the weights more even.  A few shuffles from the best, with a fixed seed, lead
 * out of dead ends.  Proves nothing.
 */
#include "matching-private.h"

#include <stdlib.h>
#include <string.h>

#define SHUFFLES 20
#define SEED 1

typedef struct
{
  gint64 broken; /* rules, and steps above the capacity */
  gint64 total;
  double uneven;
} Cost;

typedef struct
{
  const TgMatchingSet *set;
  guint8 chosen[N][K];
  guint64 spare[K];
  gint64 weight[N], capacity[N], broken[N];
  double mean;
  Cost cost;
} Pairing;

static gboolean
less (const Cost *a, const Cost *b)
{
  if (a->broken != b->broken)
    return a->broken < b->broken;
  if (a->total != b->total)
    return a->total < b->total;
  return a->uneven < b->uneven;
}

static void
add_assembly (Pairing *p, guint a)
{
  const TgMatchingSet *set = p->set;

  p->weight[a] = p->capacity[a] = p->broken[a] = 0;
  for (guint f = 0; f < set->k; f++)
    {
      guint i = p->chosen[a][f];
      gint64 room = TG_MATCHING_NO_LIMIT - p->capacity[a];

      p->weight[a] += set->weight[f][i];
      p->capacity[a] += MIN (room, set->capacity[f][i]);
      for (guint g = f + 1; g < set->k && set->rules; g++)
        p->broken[a] += !(set->allowed[f][i][g] >> p->chosen[a][g] & 1);
    }
}

static void
reckon (Pairing *p)
{
  const TgMatchingSet *set = p->set;
  gint64 floor = p->weight[0];

  p->cost = (Cost){ 0 };
  for (guint a = 1; a < set->n; a++)
    floor = MIN (floor, p->weight[a]);
  for (guint a = 0; a < set->n; a++)
    {
      gint64 removal = MAX (0, p->weight[a] - floor - set->tolerance);
      double off = (double) p->weight[a] - p->mean;

      p->cost.total += removal;
      p->cost.broken += p->broken[a] + MAX (0, removal - p->capacity[a]);
      p->cost.uneven += off * off;
    }
  for (guint f = 0; f < set->k; f++)
    p->cost.broken += __builtin_popcountll (p->spare[f] & set->must[f]);
}

static void
exchange (Pairing *p, guint a, guint b, guint families)
{
  for (guint f = 0; f < p->set->k; f++)
    if (families >> f & 1)
      {
        guint8 kept = p->chosen[a][f];

        p->chosen[a][f] = p->chosen[b][f];
        p->chosen[b][f] = kept;
      }
  add_assembly (p, a);
  add_assembly (p, b);
}

/* The best exchange between two assemblies; TRUE: it is an improvement, and done. */
static gboolean
recombine (Pairing *p, guint a, guint b)
{
  Cost before = p->cost, best = p->cost;
  guint chosen = 0;

  for (guint families = 1; families < 1u << (p->set->k - 1); families++)
    {
      exchange (p, a, b, families);
      reckon (p);
      if (less (&p->cost, &best))
        {
          best = p->cost;
          chosen = families;
        }
      exchange (p, a, b, families);
    }
  if (chosen != 0)
    exchange (p, a, b, chosen);
  p->cost = chosen != 0 ? best : before;
  return chosen != 0;
}

static gboolean
take_spare (Pairing *p, guint a, guint f, guint i)
{
  Cost before = p->cost;
  guint out = p->chosen[a][f];

  p->chosen[a][f] = (guint8) i;
  p->spare[f] ^= BIT (i) | BIT (out);
  add_assembly (p, a);
  reckon (p);
  if (less (&p->cost, &before))
    return TRUE;
  p->chosen[a][f] = (guint8) out;
  p->spare[f] ^= BIT (i) | BIT (out);
  add_assembly (p, a);
  p->cost = before;
  return FALSE;
}

static gboolean
take_spares (Pairing *p)
{
  gboolean better = FALSE;

  for (guint f = 0; f < p->set->k; f++)
    for (guint a = 0; a < p->set->n; a++)
      for (guint64 rest = p->spare[f]; rest != 0; rest &= rest - 1)
        better = take_spare (p, a, f, (guint) __builtin_ctzll (rest)) || better;
  return better;
}

static void
improve (Pairing *p, gint64 bound)
{
  gboolean better = TRUE;

  for (guint a = 0; a < p->set->n; a++)
    add_assembly (p, a);
  reckon (p);
  while (better && (p->cost.broken > 0 || p->cost.total > bound))
    {
      better = FALSE;
      for (guint a = 0; a < p->set->n; a++)
        for (guint b = a + 1; b < p->set->n; b++)
          better = recombine (p, a, b) || better;
      better = take_spares (p) || better;
    }
}

static int
compare_weights (gconstpointer a, gconstpointer b, gpointer data)
{
  const gint64 *weight = data;
  guint8 i = *(const guint8 *) a, j = *(const guint8 *) b;

  if (weight[i] != weight[j])
    return weight[i] < weight[j] ? -1 : 1;
  return (int) i - (int) j;
}

/* Spares: the middle of a family is used, where weights lie closest as a rule. */
static void
sort_opposite (Pairing *p)
{
  const TgMatchingSet *set = p->set;
  gint64 weight[N] = { 0 };

  for (guint f = 0; f < set->k; f++)
    {
      guint skip = ((guint) __builtin_popcountll (set->all[f]) - set->n) / 2;
      guint8 order[N];

      for (guint a = 0; a < set->n; a++)
        order[a] = (guint8) a;
      g_qsort_with_data (order, (int) set->n, 1, compare_weights, weight);
      p->spare[f] = set->all[f];
      for (guint a = 0; a < set->n; a++)
        {
          guint i = skip + set->n - 1 - a;

          p->chosen[order[a]][f] = (guint8) i;
          p->spare[f] &= ~BIT (i);
        }
      for (guint a = 0; a < set->n; a++)
        weight[order[a]] += set->weight[f][p->chosen[order[a]][f]];
    }
  for (guint a = 0; a < set->n; a++)
    p->mean += (double) weight[a] / set->n;
}

static void
shuffle (Pairing *p, GRand *random)
{
  for (guint i = 0; i < 3; i++)
    {
      guint a = (guint) g_rand_int_range (random, 0, (int) p->set->n);
      guint b = (guint) g_rand_int_range (random, 0, (int) p->set->n);
      guint families = (guint) g_rand_int_range (random, 0, 1 << p->set->k);

      exchange (p, a, b, families);
    }
}

gboolean
tg_matching_start (TgMatchingSearch *search, gint64 bound, TgMatchingPlan *plan)
{
  const TgMatchingSet *set = search->set;
  g_autoptr (GRand) random = g_rand_new_with_seed (SEED);
  Pairing best = { .set = set }, next;

  sort_opposite (&best);
  improve (&best, bound);
  for (guint i = 0; i < SHUFFLES && (best.cost.broken > 0 || best.cost.total > bound); i++)
    {
      if (!tg_matching_search_count (search))
        break;
      next = best;
      shuffle (&next, random);
      improve (&next, bound);
      if (!less (&best.cost, &next.cost))
        best = next;
    }
  if (best.cost.broken > 0)
    return FALSE;
  tg_matching_set_place (set, best.chosen, plan);
  return TRUE;
}
