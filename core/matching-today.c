/* matching-today.c: among equal pairings the one with the fewest changes and the lowest numbers
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Depth first, cylinder by cylinder.  What a cylinder keeps of today decides which of its families
 * change; for every cylinder left the fewest families are counted that have to change so that some
 * parts left bring it within the floor and what may come off, exactly for up to two families, by
 * the lightest and the heaviest part for more.  Their sum is what the rest costs at least.
 *
 * Free, the cylinder that needs most changes is next, assemblies with fewer changes are tried first
 * and of parts that nothing tells apart and that have no cylinder of today left only the first one.
 * Ordered, cylinders, families and parts are taken by their number, so that the first pairing that is
 * met is the one of the lowest numbers.
 */
#include "matching-private.h"

#include <string.h>

#define IMPOSSIBLE (K + 1)

typedef struct
{
  TgMatchingSearch *search;
  gboolean ordered;
  guint place[K][P];   /* by family and number */
  guint64 fit[N][K];   /* by cylinder: parts that may be there */
  guint64 today[N][K]; /* by cylinder: the parts of today */
  guint n_choices;
  guint8 choices[1 << K]; /* of families, small ones first */
  TgMatchingPlan *plan;
} Walk;

/* What is left to do, and by cylinder a number of changes that it needs at least. */
typedef struct
{
  TgMatchingLeft left;
  guint8 fewest[N];
} State;

/* An assembly of one cylinder that is being put together. */
typedef struct
{
  Walk *walk;
  const State *state;
  guint cylinder;
  guint64 loose[K]; /* parts left that are at home at no cylinder left */
  guint8 picked[K];
} Assembly;

static gboolean next_cylinder (Walk *walk, State *state);

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

static gint64
limit_of (const Walk *walk, const TgMatchingLeft *left)
{
  return walk->search->goal.floor + walk->search->set->tolerance +
         tg_matching_left_most (left, &walk->search->goal);
}

/* TRUE: a part brings the weight to at least @floor and at most @limit. */
static gboolean
one_fits (const TgMatchingSet *set, guint f, guint64 parts, gint64 floor, gint64 limit)
{
  for (; parts != 0; parts &= parts - 1)
    {
      gint64 weight = set->weight[f][__builtin_ctzll (parts)];

      if (weight >= floor)
        return weight <= limit;
    }
  return FALSE;
}

/* The same for one part of each of two families: as the first gets heavier, the second gets lighter. */
static gboolean
two_fit (const TgMatchingSet *set,
         const guint *families,
         const guint64 *parts,
         gint64 floor,
         gint64 limit)
{
  guint64 rising = parts[families[0]], falling = parts[families[1]];

  while (rising != 0 && falling != 0)
    {
      guint last = 63 - (guint) __builtin_clzll (falling);
      gint64 weight = set->weight[families[0]][__builtin_ctzll (rising)] +
                      set->weight[families[1]][last];

      if (weight > limit)
        falling &= ~BIT (last);
      else if (weight < floor)
        rising &= rising - 1;
      else
        return TRUE;
    }
  return FALSE;
}

/* TRUE: one part of each family may come within the window. */
static gboolean
may_fit (const TgMatchingSet *set, const guint64 *parts, gint64 floor, gint64 limit)
{
  guint families[K], n = 0;
  gint64 lightest = 0, heaviest = 0;

  for (guint f = 0; f < set->k; f++)
    {
      gint64 least, most;

      if (parts[f] == 0)
        return FALSE;
      least = set->weight[f][__builtin_ctzll (parts[f])];
      most = set->weight[f][63 - __builtin_clzll (parts[f])];
      lightest += least;
      heaviest += most;
      if (least < most)
        families[n++] = f;
    }
  if (heaviest < floor || lightest > limit)
    return FALSE;
  for (guint i = 0; i < n; i++)
    lightest -= set->weight[families[i]][__builtin_ctzll (parts[families[i]])];
  if (n == 1)
    return one_fits (set, families[0], parts[families[0]], floor - lightest, limit - lightest);
  return n != 2 || two_fit (set, families, parts, floor - lightest, limit - lightest);
}

/* The fewest families of a cylinder that have to change, no fewer than was known; IMPOSSIBLE. */
static guint
fewest_changes (const Walk *walk, const State *state, guint cylinder)
{
  const TgMatchingSet *set = walk->search->set;
  gint64 floor = walk->search->goal.floor, limit = limit_of (walk, &state->left);

  for (guint i = 0; i < walk->n_choices; i++)
    {
      guint changing = walk->choices[i];
      guint n = (guint) __builtin_popcount (changing);
      guint64 parts[K];

      if (n < state->fewest[cylinder])
        continue;
      for (guint f = 0; f < set->k; f++)
        {
          parts[f] = state->left.left[f] & walk->fit[cylinder][f];
          if (!(changing >> f & 1))
            parts[f] &= walk->today[cylinder][f];
        }
      if (may_fit (set, parts, floor, limit))
        return n;
    }
  return IMPOSSIBLE;
}

/* Changes that the cylinders left need; @next: the one to go on with. */
static guint
certain_changes (const Walk *walk, State *state, guint *next)
{
  guint sum = 0;

  *next = (guint) __builtin_ctz (state->left.cylinders);
  for (guint32 rest = state->left.cylinders; rest != 0; rest &= rest - 1)
    {
      guint cylinder = (guint) __builtin_ctz (rest);
      guint fewest = fewest_changes (walk, state, cylinder);

      if (fewest == IMPOSSIBLE)
        return G_MAXUINT;
      sum += fewest;
      state->fewest[cylinder] = (guint8) fewest;
      if (!walk->ordered && fewest > state->fewest[*next])
        *next = cylinder;
    }
  return sum;
}

static gboolean
fill (Assembly *assembly, const guint64 *allowed, guint f, gint64 weight, guint most, guint least);

/* Puts part @i of family @f in, and goes on. */
static gboolean
put (Assembly *assembly,
     const guint64 *allowed,
     guint f,
     guint i,
     gint64 weight,
     guint most,
     guint least)
{
  const Walk *walk = assembly->walk;
  const TgMatchingSet *set = walk->search->set;
  gint64 lightest, heaviest;
  guint64 narrower[K];

  for (guint g = 0; g < set->k; g++)
    narrower[g] = allowed[g] & set->allowed[f][i][g];
  weight += set->weight[f][i];
  if (!span (walk, narrower, f + 1, &lightest, &heaviest) ||
      weight + heaviest < walk->search->goal.floor ||
      weight + lightest > limit_of (walk, &assembly->state->left))
    return FALSE;
  if (!tg_matching_search_count (walk->search))
    return FALSE;
  assembly->picked[f] = (guint8) i;
  walk->plan->part[f][assembly->cylinder] = set->number[f][i];
  return fill (assembly, narrower, f + 1, weight, most, least);
}

/* Goes on to the next cylinder with the changes of this one spent. */
static gboolean
leave (Assembly *assembly, gint64 weight)
{
  Walk *walk = assembly->walk;
  State next = *assembly->state;

  next.left.cylinders &= ~(1u << assembly->cylinder);
  for (guint f = 0; f < walk->search->set->k; f++)
    next.left.changes -= !(walk->today[assembly->cylinder][f] >> assembly->picked[f] & 1);
  return tg_matching_left_take (walk->search->set, &next.left, &walk->search->goal,
                                assembly->picked, weight) &&
         next_cylinder (walk, &next);
}

/* The part to try first. */
static guint
first_of (const Walk *walk, guint f, guint64 parts)
{
  guint number = 0;

  if (!walk->ordered)
    return (guint) __builtin_ctzll (parts);
  while (!(parts >> walk->place[f][number] & 1))
    number++;
  return walk->place[f][number];
}

/* Takes a part of family @f and of those after it; at most and at least so many changes. */
static gboolean
fill (Assembly *assembly, const guint64 *allowed, guint f, gint64 weight, guint most, guint least)
{
  const Walk *walk = assembly->walk;
  const TgMatchingSet *set = walk->search->set;
  guint64 home, rest;

  if (f == set->k)
    return leave (assembly, weight);
  home = walk->today[assembly->cylinder][f];
  rest = allowed[f];
  if (most == 0)
    rest &= home;
  if (least == set->k - f)
    rest &= ~home;
  while (rest != 0)
    {
      guint i = first_of (walk, f, rest), change = !(home >> i & 1);

      rest &= ~BIT (i);
      if (!walk->ordered && (assembly->loose[f] >> i & 1) &&
          (set->earlier[f][i] & assembly->loose[f]))
        continue;
      if (put (assembly, allowed, f, i, weight, most - change, least - MIN (least, change)))
        return TRUE;
      if (walk->search->stopped)
        return FALSE;
    }
  return FALSE;
}

static void
find_loose (Assembly *assembly)
{
  const Walk *walk = assembly->walk;

  for (guint f = 0; f < walk->search->set->k; f++)
    {
      assembly->loose[f] = assembly->state->left.left[f];
      for (guint32 rest = assembly->state->left.cylinders; rest != 0; rest &= rest - 1)
        assembly->loose[f] &= ~walk->today[__builtin_ctz (rest)][f];
    }
}

/* All assemblies of the cylinder with at most so many changes; free, those with fewer first. */
static gboolean
try_cylinder (Walk *walk, const State *state, guint cylinder, guint most)
{
  Assembly assembly = { .walk = walk, .state = state, .cylinder = cylinder };
  guint least = state->fewest[cylinder];
  guint64 allowed[K];

  most = MIN (most, walk->search->set->k);
  find_loose (&assembly);
  for (guint f = 0; f < K; f++)
    allowed[f] = state->left.left[f] & walk->fit[cylinder][f];
  if (walk->ordered)
    return fill (&assembly, allowed, 0, 0, most, least);
  for (guint changes = least; changes <= most && !walk->search->stopped; changes++)
    if (fill (&assembly, allowed, 0, 0, changes, changes))
      return TRUE;
  return FALSE;
}

static gboolean
next_cylinder (Walk *walk, State *state)
{
  TgMatchingSearch *search = walk->search;
  const TgMatchingLeft *left = &state->left;
  guint certain, cylinder;

  if (left->m == 0)
    return TRUE;
  if (!tg_matching_search_count (search) ||
      tg_matching_left_hopeless (search->set, left, &search->goal) ||
      tg_matching_table_has (search->failed, left))
    return FALSE;
  certain = certain_changes (walk, state, &cylinder);
  if (certain > left->changes)
    return FALSE;
  if (try_cylinder (walk, state, cylinder, left->changes - certain + state->fewest[cylinder]))
    return TRUE;
  if (!search->stopped)
    tg_matching_table_add (search->failed, left);
  return FALSE;
}

static void
list_choices (Walk *walk)
{
  guint k = walk->search->set->k;

  for (guint n = 0; n <= k; n++)
    for (guint changing = 0; changing < 1u << k; changing++)
      if ((guint) __builtin_popcount (changing) == n)
        walk->choices[walk->n_choices++] = (guint8) changing;
}

gboolean
tg_matching_today_decide (TgMatchingSearch *search,
                          const TgMatchingGoal *goal,
                          guint changes,
                          gboolean ordered,
                          TgMatchingPlan *plan)
{
  Walk walk = { .search = search, .ordered = ordered, .plan = plan };
  State state = { .left = { .m = (guint16) search->set->n,
                            .removal = goal->removal,
                            .touched = (guint16) goal->touched,
                            .changes = (guint16) changes,
                            .cylinders = (guint32) (BIT (search->set->n) - 1) } };

  memcpy (state.left.left, search->set->all, sizeof state.left.left);
  read_today (&walk);
  list_choices (&walk);
  tg_matching_search_aim (search, goal);
  return next_cylinder (&walk, &state);
}
