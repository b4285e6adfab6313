/* matching-today.c: among equal pairings the one with the fewest changes and the lowest numbers
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Depth first, cylinder by cylinder and in it family by family, parts by their number: the first
 * pairing that is met is the one of the lowest numbers.  Changes that are certain count at once:
 * those of the cylinders whose part of today was used up before.
 */
#include "matching-private.h"

#include <string.h>

typedef struct
{
  TgMatchingSearch *search;
  guint place[K][P];   /* by family and number */
  guint64 fit[N][K];   /* by cylinder: parts that may be there */
  guint64 today[N][K]; /* by cylinder: the part of today, or none */
  TgMatchingPlan *plan;
} Walk;

static gboolean next_cylinder (Walk *walk, const TgMatchingLeft *left);

static void
read_today (Walk *walk)
{
  const TgMatchingSet *set = walk->search->set;

  for (guint f = 0; f < set->k; f++)
    {
      for (guint c = 0; c < set->n; c++)
        walk->fit[c][f] = set->all[f] & ~set->must[f];
      for (guint i = 0; i < set->problem->families[f].n_parts; i++)
        {
          const TgMatchingPart *part = &set->problem->families[f].parts[set->number[f][i]];

          walk->place[f][set->number[f][i]] = i;
          if (part->bound >= 0)
            walk->fit[part->bound][f] = BIT (i);
          if (part->today >= 0)
            walk->today[part->today][f] |= BIT (i);
        }
    }
}

/* What the families from @f on can weigh at least and at most; FALSE: one of them has no part. */
static gboolean
span (const Walk *walk, const guint64 *allowed, guint f, gint64 *lightest, gint64 *heaviest)
{
  const TgMatchingSet *set = walk->search->set;

  *lightest = *heaviest = 0;
  for (; f < set->k; f++)
    {
      if (allowed[f] == 0)
        return FALSE;
      *lightest += set->weight[f][__builtin_ctzll (allowed[f])];
      *heaviest += set->weight[f][63 - __builtin_clzll (allowed[f])];
    }
  return TRUE;
}

static gboolean
within (
    const Walk *walk, const TgMatchingLeft *left, const guint64 *allowed, guint f, gint64 weight)
{
  const TgMatchingGoal *goal = &walk->search->goal;
  gint64 lightest, heaviest;

  return span (walk, allowed, f, &lightest, &heaviest) && weight + heaviest >= goal->floor &&
         weight + lightest <=
             goal->floor + walk->search->set->tolerance + tg_matching_left_most (left, goal);
}

static gboolean
fill (Walk *walk,
      const TgMatchingLeft *left,
      const guint64 *allowed,
      guint f,
      gint64 weight,
      guint8 *picked)
{
  const TgMatchingSet *set = walk->search->set;
  guint cylinder = set->n - left->m;

  if (f == set->k)
    {
      TgMatchingLeft next = *left;

      return tg_matching_left_take (set, &next, &walk->search->goal, picked, weight) &&
             next_cylinder (walk, &next);
    }
  for (guint number = 0; number < set->problem->families[f].n_parts; number++)
    {
      guint i = walk->place[f][number];
      guint change = !(walk->today[cylinder][f] >> i & 1);
      TgMatchingLeft with = *left;
      guint64 narrower[K];

      if (!(allowed[f] >> i & 1) || change > left->changes)
        continue;
      for (guint g = 0; g < set->k; g++)
        narrower[g] = allowed[g] & set->allowed[f][i][g];
      if (!within (walk, left, narrower, f + 1, weight + set->weight[f][i]))
        continue;
      if (!tg_matching_search_count (walk->search))
        return FALSE;
      with.changes = (guint16) (left->changes - change);
      picked[f] = (guint8) i;
      walk->plan->part[f][cylinder] = number;
      if (fill (walk, &with, narrower, f + 1, weight + set->weight[f][i], picked))
        return TRUE;
    }
  return FALSE;
}

/* Changes that the cylinders from the next on need whatever they get. */
static guint
certain_changes (const Walk *walk, const TgMatchingLeft *left)
{
  const TgMatchingSet *set = walk->search->set;
  guint n = 0;

  for (guint c = set->n - left->m; c < set->n; c++)
    for (guint f = 0; f < set->k; f++)
      n += (walk->today[c][f] & left->left[f] & walk->fit[c][f]) == 0;
  return n;
}

static gboolean
next_cylinder (Walk *walk, const TgMatchingLeft *left)
{
  TgMatchingSearch *search = walk->search;
  guint cylinder = search->set->n - left->m;
  guint64 allowed[K];
  guint8 picked[K] = { 0 };

  if (left->m == 0)
    return TRUE;
  if (!tg_matching_search_count (search) || certain_changes (walk, left) > left->changes ||
      tg_matching_table_has (search->failed, left) ||
      tg_matching_left_hopeless (search->set, left, &search->goal))
    return FALSE;
  for (guint f = 0; f < K; f++)
    allowed[f] = left->left[f] & walk->fit[cylinder][f];
  if (fill (walk, left, allowed, 0, 0, picked))
    return TRUE;
  if (!search->stopped)
    tg_matching_table_add (search->failed, left);
  return FALSE;
}

gboolean
tg_matching_today_decide (TgMatchingSearch *search,
                          const TgMatchingGoal *goal,
                          guint changes,
                          TgMatchingPlan *plan)
{
  Walk walk = { .search = search, .plan = plan };
  TgMatchingLeft left = { .m = (guint16) search->set->n,
                          .removal = goal->removal,
                          .touched = (guint16) goal->touched,
                          .changes = (guint16) changes };

  search->goal = *goal;
  memcpy (left.left, search->set->all, sizeof left.left);
  read_today (&walk);
  tg_matching_table_forget (search->failed);
  return next_cylinder (&walk, &left);
}
