/* matching-start.c: a pairing by local search
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Looks for a pairing whose every assembly reaches a floor and that loses little above the band.
 * What is short of the floor costs its square, so that the metal of the heavy ones, of which a
 * pairing may have plenty, does not drown it.
 *
 * It begins with opposite sorting: the lightest of what is put together gets the heaviest of the
 * next family.  Then an assembly that costs something exchanges parts with another one, the best way
 * of all ways, or takes a spare, until nothing helps.  A few random exchanges, and now and then a
 * pairing by chance, lead out of dead ends; the seed is fixed.  Proves nothing.
 */
#include "matching-private.h"

#include <stdlib.h>
#include <string.h>

#define SEED 1
#define KICKS 3
#define FRESH_EVERY 8
#define SHORT 4.0

typedef struct
{
  const TgMatchingSet *set;
  gint64 floor, top, removal;
  gboolean lean;     /* metal above the band is not given by the floor, so it has to be saved too */
  double broken;     /* what a pair that must not meet costs */
  gint64 give[K][P]; /* capacities, small enough to be added */
  guint8 chosen[N][K];
  guint64 spare[K];
  gint64 weight[N], capacity[N];
  double cost[N];
} Pairing;

static double
square (gint64 x)
{
  return x > 0 ? (double) x * (double) x : 0;
}

static double
cost_of (const Pairing *p, gint64 weight, gint64 capacity)
{
  gint64 over = MAX (0, weight - p->top);

  return (double) over + SHORT * (square (p->floor - weight) + square (over - capacity));
}

static double
cost_of_rules (const Pairing *p, const guint8 *chosen)
{
  guint broken = 0;

  for (guint f = 0; f < p->set->k && p->set->rules; f++)
    for (guint g = f + 1; g < p->set->k; g++)
      broken += !(p->set->allowed[f][chosen[f]][g] >> chosen[g] & 1);
  return broken * p->broken;
}

static void
add_up (Pairing *p, guint a)
{
  p->weight[a] = p->capacity[a] = 0;
  for (guint f = 0; f < p->set->k; f++)
    {
      p->weight[a] += p->set->weight[f][p->chosen[a][f]];
      p->capacity[a] += p->give[f][p->chosen[a][f]];
    }
  p->cost[a] = cost_of (p, p->weight[a], p->capacity[a]) + cost_of_rules (p, p->chosen[a]);
}

/* It is not only heavier than it need be. */
static gboolean
is_wrong (const Pairing *p, guint a)
{
  return p->weight[a] < p->floor || p->weight[a] - p->top > p->capacity[a] ||
         cost_of_rules (p, p->chosen[a]) > 0;
}

static gboolean
is_reached (const Pairing *p)
{
  gint64 removal = 0;

  for (guint a = 0; a < p->set->n; a++)
    {
      if (is_wrong (p, a))
        return FALSE;
      removal += MAX (0, p->weight[a] - p->top);
    }
  return removal <= p->removal;
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
}

static double
cost_exchanged (Pairing *p, guint a, guint b, guint families)
{
  double cost;

  if (!p->set->rules)
    return 0;
  exchange (p, a, b, families);
  cost = cost_of_rules (p, p->chosen[a]) + cost_of_rules (p, p->chosen[b]);
  exchange (p, a, b, families);
  return cost;
}

/* The best exchange between two assemblies; TRUE: it is an improvement, and done. */
static gboolean
recombine (Pairing *p, guint a, guint b)
{
  gint64 weight[1 << K] = { 0 }, capacity[1 << K] = { 0 };
  double best = p->cost[a] + p->cost[b];
  guint chosen = 0;

  for (guint families = 1; families < 1u << (p->set->k - 1); families++)
    {
      guint f = (guint) __builtin_ctz (families), rest = families & (families - 1);
      guint mine = p->chosen[a][f], other = p->chosen[b][f];
      double cost;

      weight[families] = weight[rest] + p->set->weight[f][other] - p->set->weight[f][mine];
      capacity[families] = capacity[rest] + p->give[f][other] - p->give[f][mine];
      cost = cost_of (p, p->weight[a] + weight[families], p->capacity[a] + capacity[families]) +
             cost_of (p, p->weight[b] - weight[families], p->capacity[b] - capacity[families]);
      if (cost >= best)
        continue;
      cost += cost_exchanged (p, a, b, families);
      if (cost >= best)
        continue;
      best = cost;
      chosen = families;
    }
  if (chosen == 0)
    return FALSE;
  exchange (p, a, b, chosen);
  add_up (p, a);
  add_up (p, b);
  return TRUE;
}

static void
swap_spare (Pairing *p, guint a, guint f, guint i)
{
  p->spare[f] ^= BIT (i) | BIT (p->chosen[a][f]);
  p->chosen[a][f] = (guint8) i;
  add_up (p, a);
}

static gboolean
take_spares (Pairing *p, guint a)
{
  gboolean better = FALSE;

  for (guint f = 0; f < p->set->k; f++)
    for (guint64 rest = p->spare[f]; rest != 0; rest &= rest - 1)
      {
        guint before = p->chosen[a][f];
        double cost = p->cost[a];

        if (p->set->must[f] >> before & 1)
          break;
        swap_spare (p, a, f, (guint) __builtin_ctzll (rest));
        if (p->cost[a] < cost)
          better = TRUE;
        else
          swap_spare (p, a, f, before);
      }
  return better;
}

static void
improve (Pairing *p)
{
  gboolean better = TRUE;

  for (guint a = 0; a < p->set->n; a++)
    add_up (p, a);
  while (better)
    {
      better = FALSE;
      for (guint a = 0; a < p->set->n; a++)
        {
          if (p->lean ? p->cost[a] <= 0 : !is_wrong (p, a))
            continue;
          for (guint b = 0; b < p->set->n; b++)
            better = (b != a && recombine (p, a, b)) || better;
          better = take_spares (p, a) || better;
        }
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

/* The parts that have to be used, and of the others those in the middle, where weights lie closest
 * as a rule. */
static guint64
parts_to_use (const TgMatchingSet *set, guint f)
{
  guint64 used = set->must[f], others = set->all[f] & ~used;
  guint spares = (guint) __builtin_popcountll (set->all[f]) - set->n;

  for (guint i = 0; i < spares; i++)
    others &= ~(i % 2 == 0 ? BIT (__builtin_ctzll (others)) : BIT (63 - __builtin_clzll (others)));
  return used | others;
}

static void
sort_opposite (Pairing *p)
{
  const TgMatchingSet *set = p->set;
  gint64 weight[N] = { 0 };

  for (guint f = 0; f < set->k; f++)
    {
      guint64 used = parts_to_use (set, f);
      guint8 order[N];

      p->spare[f] = set->all[f] & ~used;
      for (guint a = 0; a < set->n; a++)
        order[a] = (guint8) a;
      g_qsort_with_data (order, (int) set->n, 1, compare_weights, weight);
      for (guint a = set->n; a-- > 0; used &= used - 1)
        {
          p->chosen[order[a]][f] = (guint8) __builtin_ctzll (used);
          weight[order[a]] += set->weight[f][p->chosen[order[a]][f]];
        }
    }
}

static void
exchange_by_chance (Pairing *p, GRand *random, guint a, guint f)
{
  guint b = (guint) g_rand_int_range (random, (int) a, (int) p->set->n);

  exchange (p, a, b, 1u << f);
}

static void
shuffle (Pairing *p, GRand *random, gboolean fresh)
{
  for (guint i = 0; i < KICKS && !fresh; i++)
    exchange_by_chance (p, random, (guint) g_rand_int_range (random, 0, (int) p->set->n),
                        (guint) g_rand_int_range (random, 0, (int) p->set->k));
  for (guint f = 0; f < p->set->k && fresh; f++)
    for (guint a = 0; a < p->set->n; a++)
      exchange_by_chance (p, random, a, f);
}

static void
prepare (Pairing *p, const TgMatchingSet *set, const TgMatchingGoal *goal)
{
  gint64 widest = 1;

  memset (p, 0, sizeof *p);
  p->set = set;
  p->floor = goal->floor;
  p->top = goal->floor + set->tolerance;
  p->removal = goal->removal;
  p->lean = set->tolerance > 0;
  for (guint f = 0; f < set->k; f++)
    {
      guint n = set->problem->families[f].n_parts;

      p->lean = p->lean || n > set->n;
      widest = MAX (widest, set->weight[f][n - 1] - set->weight[f][0]);
      for (guint i = 0; i < n; i++)
        p->give[f][i] = MIN (set->capacity[f][i], K * TG_MATCHING_MAX_WEIGHT);
    }
  p->broken = SHORT * square (widest);
  sort_opposite (p);
}

gboolean
tg_matching_start (TgMatchingSearch *search, const TgMatchingGoal *goal, guint tries)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (SEED);
  double least = -1;
  Pairing p;

  prepare (&p, search->set, goal);
  for (guint i = 0; i < tries; i++)
    {
      double cost = 0;

      if (i > 0 && !tg_matching_search_ask (search))
        return FALSE;
      improve (&p);
      for (guint a = 0; a < search->set->n; a++)
        cost += p.cost[a];
      if (least < 0 || cost < least || is_reached (&p))
        memcpy (search->chosen, p.chosen, sizeof p.chosen);
      if (is_reached (&p))
        return TRUE;
      least = least < 0 ? cost : MIN (least, cost);
      shuffle (&p, random, i % FRESH_EVERY == FRESH_EVERY - 1);
    }
  return FALSE;
}
