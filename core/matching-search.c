/* matching-search.c: is there a pairing within a floor, a total, a count and a largest cut?
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Depth first, one assembly a level.  A level takes the part that has the least room: the lightest
 * left of a family, that even the heaviest partners hardly lift to the floor, or the heaviest left,
 * that even with the lightest goes far above.  Its partners are tried family by family, lightest
 * first, within windows that follow from the floor and from the metal that may still be lost.  Of
 * parts that nothing tells apart only the first left is tried.
 *
 * Where only the total counts, a part is not taken if a lighter one left that may meet the same would
 * do and the assembly would still be at or above the band: whoever got the lighter one gets the
 * heavier one instead, which costs no more than is saved.  Where capacities matter that holds for
 * parts that may lose anything.  What was left with no pairing is stored, see matching-table.c.
 */
#include "matching-private.h"

#include <string.h>

#define WORTH_STORING 4
#define ASK_EVERY 256

/* The assembly that is being put together. */
typedef struct
{
  const TgMatchingLeft *state;
  gboolean limited;                        /* capacities can matter */
  guint order[K];                          /* families, the anchor's first */
  gint64 lightest[K + 1], heaviest[K + 1]; /* by place in the order: from there on */
  gint64 limit;                            /* the most that it may weigh */
  gint64 net[K + 1], least_net[K + 1];     /* of those before the place, and from there on */
  guint8 picked[K];
} Tuple;

void
tg_matching_search_init (TgMatchingSearch *search,
                         const TgMatchingSet *set,
                         const TgMatchingLimits *limits)
{
  memset (search, 0, sizeof *search);
  search->set = set;
  search->limits = limits;
  search->failed = tg_matching_table_new ();
}

void
tg_matching_search_clear (TgMatchingSearch *search)
{
  g_clear_pointer (&search->failed, tg_matching_table_free);
}

static gboolean
count_node (TgMatchingSearch *search, gboolean ask)
{
  const TgMatchingLimits *limits = search->limits;

  if (search->stopped)
    return FALSE;
  if (limits->nodes > 0 && search->nodes >= limits->nodes)
    search->stopped = TRUE;
  else if (search->pause > 0 && search->nodes >= search->pause)
    search->stopped = TRUE;
  else if (ask && limits->should_stop != NULL && limits->should_stop (limits->data))
    search->stopped = TRUE;
  else
    search->nodes++;
  return !search->stopped;
}

gboolean
tg_matching_search_count (TgMatchingSearch *search)
{
  return count_node (search, search->nodes % ASK_EVERY == 0);
}

gboolean
tg_matching_search_ask (TgMatchingSearch *search)
{
  return count_node (search, TRUE);
}

gint64
tg_matching_left_most (const TgMatchingLeft *left, const TgMatchingGoal *goal)
{
  return left->touched > 0 ? MIN (left->removal, goal->cut) : 0;
}

gboolean
tg_matching_left_hopeless (const TgMatchingSet *set,
                           const TgMatchingLeft *left,
                           const TgMatchingGoal *goal)
{
  gint64 removal = left->removal, most = tg_matching_left_most (left, goal);
  TgMatchingSums sums;
  guint assemblies;

  for (guint f = 0; f < set->k; f++)
    if (set->must[f] != 0 && (guint) __builtin_popcountll (left->left[f] & set->must[f]) > left->m)
      return TRUE;
  if (left->touched == 0)
    removal = 0;
  else if (most <= removal / left->touched)
    removal = most * left->touched;
  tg_matching_sums (set, left->left, left->m, &sums);
  return !tg_matching_bound_holds (&sums, set->k, goal->floor, goal->floor + set->tolerance,
                                   removal) ||
         tg_matching_bound_classes (set, left->left, left->m, &assemblies) < goal->floor;
}

gboolean
tg_matching_left_take (const TgMatchingSet *set,
                       TgMatchingLeft *left,
                       const TgMatchingGoal *goal,
                       const guint8 *picked,
                       gint64 weight)
{
  gint64 removal = MAX (0, weight - goal->floor - set->tolerance), more = removal;

  for (guint f = 0; f < set->k; f++)
    {
      more -= MIN (more, set->capacity[f][picked[f]]);
      left->left[f] &= ~BIT (picked[f]);
    }
  left->m--;
  left->removal -= removal;
  left->touched -= removal > 0;
  return more == 0 || goal->loose;
}

/* Capacities can still matter: every family left has a part that may not lose anything. */
static gboolean
is_limited (const TgMatchingSearch *search, const TgMatchingLeft *state)
{
  for (guint f = 0; f < search->set->k && search->limited; f++)
    if ((state->left[f] & ~search->boundless[f]) == 0)
      return FALSE;
  return search->limited;
}

/* The next lighter part left that may meet the same, -1. */
static int
next_lighter (const TgMatchingSearch *search, const Tuple *tuple, guint f, guint i)
{
  const TgMatchingSet *set = search->set;
  guint64 lighter = tuple->state->left[f] & set->kin[f][i];

  if (tuple->limited)
    lighter &= search->boundless[f] >> i & 1 ? search->boundless[f] : 0;
  return lighter != 0 ? 63 - __builtin_clzll (lighter) : -1;
}

/* TRUE: a lighter part of family @f instead of @i leaves @weight at or above the band. */
static gboolean
wasteful (const TgMatchingSearch *search, const Tuple *tuple, guint f, guint i, gint64 weight)
{
  const TgMatchingSet *set = search->set;
  int lighter = search->only_total ? next_lighter (search, tuple, f, i) : -1;

  return lighter >= 0 && weight - set->weight[f][i] + set->weight[f][lighter] >=
                             search->goal.floor + set->tolerance;
}

/* Takes the picked parts away and goes on with the rest. */
static gboolean
descend (TgMatchingSearch *search, const Tuple *tuple, gint64 weight)
{
  TgMatchingLeft next = *tuple->state;

  for (guint place = 1; place < search->set->k; place++)
    if (wasteful (search, tuple, tuple->order[place], tuple->picked[tuple->order[place]], weight))
      return FALSE;
  if (!tg_matching_left_take (search->set, &next, &search->goal, tuple->picked, weight))
    return FALSE;
  memcpy (search->chosen[next.m], tuple->picked, sizeof tuple->picked);
  return tg_matching_search_expand (search, &next);
}

/* Picks a part of the family at @place of the order; @allowed: by family, who may join. */
static gboolean
fill (TgMatchingSearch *search, Tuple *tuple, guint place, gint64 weight, const guint64 *allowed)
{
  const TgMatchingSet *set = search->set;
  guint f;

  if (place == set->k)
    return descend (search, tuple, weight);
  f = tuple->order[place];
  for (guint64 rest = allowed[f]; rest != 0; rest &= rest - 1)
    {
      guint i = (guint) __builtin_ctzll (rest);
      gint64 with = weight + set->weight[f][i];
      guint64 narrower[K];

      if (set->earlier[f][i] & tuple->state->left[f])
        continue;
      if (with + tuple->heaviest[place + 1] < search->goal.floor)
        continue;
      if (with + tuple->lightest[place + 1] > tuple->limit)
        break;
      if (wasteful (search, tuple, f, i, with + tuple->lightest[place + 1]))
        continue;
      tuple->net[place + 1] = tuple->net[place] + set->net[f][i];
      if (search->limited &&
          tuple->net[place + 1] + tuple->least_net[place + 1] > search->goal.floor + set->tolerance)
        continue;
      if (!tg_matching_search_count (search))
        return FALSE;
      for (guint g = 0; g < set->k; g++)
        narrower[g] = allowed[g] & set->allowed[f][i][g];
      tuple->picked[f] = (guint8) i;
      if (fill (search, tuple, place + 1, with, narrower))
        return TRUE;
      if (search->stopped)
        return FALSE;
    }
  return FALSE;
}

static gint64
least_net (const TgMatchingSet *set, guint f, guint64 parts)
{
  guint i = 0;

  while (!(parts >> set->by_net[f][i] & 1))
    i++;
  return set->net[f][set->by_net[f][i]];
}

/* All assemblies with part @i of family @f. */
static gboolean
try_part (TgMatchingSearch *search, const TgMatchingLeft *state, guint f, guint i, gint64 limit)
{
  const TgMatchingSet *set = search->set;
  Tuple tuple = { .state = state, .limited = is_limited (search, state), .limit = limit };
  guint64 allowed[K];
  guint n = 1;

  tuple.order[0] = f;
  tuple.net[1] = set->net[f][i];
  tuple.picked[f] = (guint8) i;
  for (guint g = 0; g < set->k; g++)
    {
      allowed[g] = state->left[g] & set->allowed[f][i][g];
      if (g != f)
        tuple.order[n++] = g;
    }
  for (guint place = set->k; place-- > 1;)
    {
      guint g = tuple.order[place];

      if (allowed[g] == 0)
        return FALSE;
      tuple.lightest[place] = tuple.lightest[place + 1] +
                              set->weight[g][__builtin_ctzll (allowed[g])];
      tuple.least_net[place] = tuple.least_net[place + 1] + least_net (set, g, allowed[g]);
      tuple.heaviest[place] = tuple.heaviest[place + 1] +
                              set->weight[g][63 - __builtin_clzll (allowed[g])];
    }
  if (set->weight[f][i] + tuple.heaviest[1] < search->goal.floor ||
      set->weight[f][i] + tuple.lightest[1] > limit)
    return FALSE;
  return fill (search, &tuple, 1, set->weight[f][i], allowed);
}

/* How far the part's assembly can be from out of bounds, < 0: it has none. */
static gint64
room_of (const TgMatchingSearch *search,
         const TgMatchingLeft *state,
         gboolean limited,
         guint f,
         guint i,
         gint64 limit)
{
  const TgMatchingSet *set = search->set;
  gint64 lightest = set->weight[f][i], heaviest = lightest, net = set->net[f][i];

  for (guint g = 0; g < set->k; g++)
    {
      guint64 partners = state->left[g] & set->allowed[f][i][g];

      if (g == f)
        continue;
      if (partners == 0)
        return -1;
      lightest += set->weight[g][__builtin_ctzll (partners)];
      heaviest += set->weight[g][63 - __builtin_clzll (partners)];
      net += limited ? least_net (set, g, partners) : 0;
    }
  limit -= lightest;
  if (limited)
    limit = MIN (limit, search->goal.floor + set->tolerance - net);
  return MIN (heaviest - search->goal.floor, limit);
}

/* The part to go on with; FALSE: one that has to be used has no assembly. */
static gboolean
choose_part (const TgMatchingSearch *search,
             const TgMatchingLeft *state,
             gint64 limit,
             guint *family,
             guint *part)
{
  const TgMatchingSet *set = search->set;
  gint64 least = G_MAXINT64;
  guint fewest = G_MAXUINT;
  gboolean limited = is_limited (search, state);

  for (guint f = 0; f < set->k; f++)
    fewest = MIN (fewest, (guint) __builtin_popcountll (state->left[f]));
  for (guint f = 0; f < set->k; f++)
    {
      guint64 left = state->left[f];
      guint64 ends = left & (BIT (__builtin_ctzll (left)) | BIT (63 - __builtin_clzll (left)));
      guint n = (guint) __builtin_popcountll (left);

      for (guint64 rest = set->rules || limited ? left : ends; rest != 0; rest &= rest - 1)
        {
          guint i = (guint) __builtin_ctzll (rest);
          gint64 room = room_of (search, state, limited, f, i, limit);
          gboolean needed = n == state->m || (set->must[f] >> i & 1);

          if (needed && room < 0)
            return FALSE;
          if ((needed || (fewest > state->m && n == fewest)) && room < least)
            {
              least = room;
              *family = f;
              *part = i;
            }
        }
    }
  if (set->earlier[*family][*part] & state->left[*family])
    *part = (guint) __builtin_ctzll (set->earlier[*family][*part] & state->left[*family]);
  return TRUE;
}

gboolean
tg_matching_search_expand (TgMatchingSearch *search, const TgMatchingLeft *state)
{
  const TgMatchingSet *set = search->set;
  gint64 limit = search->goal.floor + set->tolerance + tg_matching_left_most (state, &search->goal);
  guint f = 0, i = 0;

  if (state->m == 0)
    {
      for (f = 0; f < set->k; f++)
        if (state->left[f] & set->must[f])
          return FALSE;
      return TRUE;
    }
  if (!tg_matching_search_count (search) || tg_matching_left_hopeless (set, state, &search->goal) ||
      (search->limited &&
       !tg_matching_bound_net (set, state->left, state->m, search->goal.floor + set->tolerance)) ||
      (state->m >= WORTH_STORING && tg_matching_table_has (search->failed, state)))
    return FALSE;
  if (choose_part (search, state, limit, &f, &i))
    {
      if (try_part (search, state, f, i, limit))
        return TRUE;
      if (!search->stopped && (guint) __builtin_popcountll (state->left[f]) > state->m &&
          !(set->must[f] >> i & 1))
        {
          TgMatchingLeft without = *state;

          without.left[f] &= ~BIT (i);
          if (tg_matching_search_expand (search, &without))
            return TRUE;
        }
    }
  if (!search->stopped && state->m >= WORTH_STORING)
    tg_matching_table_add (search->failed, state);
  return FALSE;
}

/* Some assembly may be asked for more than its parts can lose. */
static gboolean
can_lack (const TgMatchingSet *set, const TgMatchingGoal *goal)
{
  gint64 least = 0;

  for (guint f = 0; f < set->k; f++)
    {
      gint64 capacity = TG_MATCHING_NO_LIMIT - least;

      for (guint i = 0; i < set->problem->families[f].n_parts; i++)
        capacity = MIN (capacity, set->capacity[f][i]);
      least += capacity;
    }
  return set->limited && !goal->loose && least < MIN (goal->removal, goal->cut);
}

/* Parts that may lose all that the goal can ask of one assembly. */
static void
find_boundless (TgMatchingSearch *search)
{
  const TgMatchingSet *set = search->set;
  gint64 most = MIN (search->goal.removal, search->goal.cut);

  for (guint f = 0; f < set->k; f++)
    {
      search->boundless[f] = 0;
      for (guint i = 0; i < set->problem->families[f].n_parts; i++)
        if (set->capacity[f][i] >= most)
          search->boundless[f] |= BIT (i);
    }
}

void
tg_matching_search_aim (TgMatchingSearch *search, const TgMatchingGoal *goal)
{
  search->goal = *goal;
  search->limited = can_lack (search->set, goal);
  find_boundless (search);
  search->only_total = goal->touched == search->set->n && goal->cut == G_MAXINT64;
  tg_matching_table_forget (search->failed);
}

gboolean
tg_matching_search_decide (TgMatchingSearch *search, const TgMatchingGoal *goal)
{
  TgMatchingLeft state = { .m = (guint16) search->set->n,
                           .removal = goal->removal,
                           .touched = (guint16) goal->touched };

  memcpy (state.left, search->set->all, sizeof state.left);
  tg_matching_search_aim (search, goal);
  return tg_matching_search_expand (search, &state);
}

void
tg_matching_search_pause (TgMatchingSearch *search, guint64 nodes)
{
  search->pause = search->nodes + nodes;
}

TgMatchingAnswer
tg_matching_search_resume (TgMatchingSearch *search, gboolean found)
{
  TgMatchingAnswer answer = found ? TG_MATCHING_YES : TG_MATCHING_NO;

  if (search->stopped)
    answer = TG_MATCHING_OPEN;
  if (search->stopped && search->nodes == search->pause)
    search->stopped = FALSE;
  search->pause = 0;
  return answer;
}
