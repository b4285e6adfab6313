/* matching-classes.c: what two production batches mixed allow at most
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each family is split into light and heavy at its widest gap, and some of the families count: a
 * heavy part of these has one point, or, where the batches are farther apart than in others, more.  However the parts are put together, the l assemblies with the
 * fewest points have some number h of them, and weigh no more than most (l, h): the heaviest l parts
 * of each family that have h points together.  So the floor is at most most (l, h) / l for every l.
 *
 * Over all ways to share the points out the best is found assembly by assembly in the order of
 * their points: best (l, h) is the highest floor that the first l allow if they have h points.  Each
 * choice of families that count gives a bound that holds; the lowest one is taken.  Where batches of
 * different families are differently far apart it is not always that of all families.
 *
 * Does not look at rules and capacities, nor at how the parts inside a batch differ but in most().
 */
#include "matching-private.h"

#include <string.h>

#define MAX_POINTS TG_MATCHING_MAX_POINTS

/* The highest floor, -1: none, and the number of assemblies that dictates it. */
typedef struct
{
  gint64 floor;
  guint count;
} Best;

static guint
sum_heaviest (const TgMatchingSet *set, guint f, guint64 mask, guint m, gint64 *sums)
{
  guint n = 0;

  sums[0] = 0;
  for (; mask != 0 && n < m; mask &= ~BIT (63 - __builtin_clzll (mask)), n++)
    sums[n + 1] = sums[n] + set->weight[f][63 - __builtin_clzll (mask)];
  return n;
}

guint
tg_matching_all_points (const TgMatchingShares *s)
{
  guint sum = 0;

  for (guint f = 0; f < s->k; f++)
    sum += s->points[f];
  return sum;
}

/* most (l, h) for all h, family by family. */
static void
fill_most (TgMatchingShares *s, guint l)
{
  gint64 *most = s->most[l];
  guint reach = 0;

  most[0] = 0;
  for (guint f = 0; f < s->k; f++)
    {
      gint64 before[MAX_POINTS + 1];
      guint fewest = l > s->n_light[f] ? l - s->n_light[f] : 0;
      guint highest = MIN (l, s->n_heavy[f]);

      memcpy (before, most, (reach + 1) * sizeof before[0]);
      memset (most, 0xff, (reach + highest * s->points[f] + 1) * sizeof most[0]);
      for (guint heavy = fewest; heavy <= highest; heavy++)
        for (guint h = 0; h <= reach; h++)
          if (before[h] >= 0)
            {
              gint64 sum = before[h] + s->heavy[f][heavy] + s->light[f][l - heavy];
              guint points = h + heavy * s->points[f];

              most[points] = MAX (most[points], sum);
            }
      reach += highest * s->points[f];
    }
  for (guint h = reach + 1; h <= l * tg_matching_all_points (s); h++)
    most[h] = -1;
}

/* Takes one more assembly with so many points to those that have no more. */
static void
extend (const TgMatchingShares *s, guint points, guint l, Best from[MAX_POINTS + 1], Best *to)
{
  for (guint h = 0; h <= l * points; h++)
    {
      gint64 most = s->most[l + 1][h + points];
      Best with = from[h];

      if (from[h].floor < 0 || most < 0)
        continue;
      if (most / (l + 1) < with.floor)
        with = (Best){ most / (l + 1), l + 1 };
      if (with.floor > to[h + points].floor)
        to[h + points] = with;
    }
}

static void
fill_table (TgMatchingShares *s)
{
  s->most[0][0] = 0;
  for (guint l = 1; l <= s->m; l++)
    fill_most (s, l);
}

static Best
share_out (const TgMatchingShares *s)
{
  g_autofree Best *table = g_new (Best, (N + 1) * (MAX_POINTS + 1));
  Best (*best)[MAX_POINTS + 1] = (Best (*)[MAX_POINTS + 1]) table;
  Best highest = { -1, 0 };
  guint all = tg_matching_all_points (s);

  for (guint l = 0; l <= s->m; l++)
    for (guint h = 0; h <= l * all; h++)
      best[l][h].floor = -1;
  best[0][0] = (Best){ G_MAXINT64, 0 };
  for (guint points = 0; points <= all; points++)
    for (guint l = 0; l < s->m; l++)
      extend (s, points, l, best[l], best[l + 1]);
  for (guint h = 0; h <= s->m * all; h++)
    if (best[s->m][h].floor > highest.floor)
      highest = best[s->m][h];
  return highest;
}

/* How far the middles of both batches are apart. */
static double
distance (const TgMatchingShares *s, guint f)
{
  return (double) s->heavy[f][s->n_heavy[f]] / s->n_heavy[f] -
         (double) s->light[f][s->n_light[f]] / s->n_light[f];
}

/* FALSE: one of the families has not both batches, so that another choice says the same. */
static gboolean
count_families (TgMatchingShares *s, guint families)
{
  for (guint f = 0; f < s->k; f++)
    {
      s->points[f] = families >> f & 1;
      if (s->points[f] > 0 && (s->n_light[f] == 0 || s->n_heavy[f] == 0))
        return FALSE;
    }
  return TRUE;
}

/* Points in proportion to the distance, so that the widest has @most; FALSE: all have it. */
static gboolean
weight_points (TgMatchingShares *s, guint families, guint most)
{
  double widest = 0;
  gboolean more = FALSE;

  for (guint f = 0; f < s->k; f++)
    if (families >> f & 1)
      widest = MAX (widest, distance (s, f));
  for (guint f = 0; f < s->k; f++)
    if (families >> f & 1)
      {
        s->points[f] = (guint) (most * distance (s, f) / widest + 0.5);
        more = more || (s->points[f] > 0 && s->points[f] < most);
      }
  return more;
}

/* Takes the points over into @best if they give a lower floor. */
static void
try_points (TgMatchingShares *s, guint *best)
{
  Best floor;

  fill_table (s);
  floor = share_out (s);
  if (floor.floor >= s->floor)
    return;
  s->floor = floor.floor;
  s->count = floor.count;
  memcpy (best, s->points, sizeof s->points);
}

TgMatchingShares *
tg_matching_shares_new (const TgMatchingSet *set)
{
  TgMatchingShares *s = g_new (TgMatchingShares, 1);
  guint best[K] = { 0 };

  s->k = set->k;
  s->m = set->n;
  s->floor = G_MAXINT64;
  for (guint f = 0; f < set->k; f++)
    {
      s->n_light[f] = sum_heaviest (set, f, set->all[f] & ~set->heavy[f], s->m, s->light[f]);
      s->n_heavy[f] = sum_heaviest (set, f, set->heavy[f], s->m, s->heavy[f]);
    }
  for (guint families = 1; families < 1u << s->k; families++)
    {
      if (!count_families (s, families))
        continue;
      try_points (s, best);
      for (guint most = 2; most <= TG_MATCHING_MOST_POINTS; most++)
        if (weight_points (s, families, most))
          try_points (s, best);
    }
  memcpy (s->points, best, sizeof best);
  fill_table (s);
  return s;
}
