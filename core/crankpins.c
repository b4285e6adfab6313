/* crankpins.c: which set sits in which bore, objective by objective, see crankpins.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Spread: the lightest pin weighs lo, one of the sums of two sets, and no placing has a lightest pin
 * above that of the opposite pairing nor a heaviest one below (crankpins-search.c).  From the
 * highest lo down, the window above lo that beats the best spread so far is asked for; where there
 * is a placing, halving finds the narrowest window at this lo.  Whatever lies above lo is settled,
 * so a search that is stopped knows that the spread is at least the heaviest pin of the opposite
 * pairing minus lo.  Without bound sets the first window is that of the opposite pairing and holds.
 *
 * Changes: the same windows at that spread, one set more kept in its bore each time.
 *
 * Numbers: bore by bore, the lowest set that leaves a placing.
 */
#include "crankpins-private.h"

#include <stdlib.h>
#include <string.h>

#define MAX_FLOORS (N * (N - 1) / 2)

/* @floor: sums that a pin can have, none above that of the opposite pairing; highest first;
 * @highest_low, @lowest_high: of the opposite pairing. */
typedef struct
{
  TgCrankpinsSearch search;
  TgCrankpinsResult *result;
  TgMass highest_low, lowest_high;
  guint n_floors;
  TgMass floor[MAX_FLOORS];
} Solver;

/* Negative: @a is better. */
static int
compare_placings (guint n, const TgCrankpinsPlacing *a, const TgCrankpinsPlacing *b)
{
  if (a->spread != b->spread)
    return a->spread < b->spread ? -1 : 1;
  if (a->changes != b->changes)
    return a->changes < b->changes ? -1 : 1;
  for (guint i = 0; i < n; i++)
    if (a->set[i] != b->set[i])
      return a->set[i] < b->set[i] ? -1 : 1;
  return 0;
}

static void
offer (Solver *s, const TgCrankpinsPlacing *placing)
{
  if (compare_placings (s->search.n, placing, &s->result->placing) < 0)
    s->result->placing = *placing;
}

/* Asks for a placing and takes it over if it is better; FALSE: none, or stopped. */
static gboolean
decide (Solver *s, TgMass lo, TgMass hi, guint kept)
{
  TgCrankpinsPlacing placing = { 0 };

  if (!tg_crankpins_search_decide (&s->search, lo, hi, kept))
    return FALSE;
  for (guint b = 0; b < s->search.n; b++)
    placing.set[b] = s->search.number[s->search.at[b]];
  g_assert_true (tg_crankpins_evaluate (s->search.problem, &placing));
  offer (s, &placing);
  return TRUE;
}

/* Today's placing, if it is one. */
static void
offer_today (Solver *s)
{
  const TgCrankpinsProblem *problem = s->search.problem;
  TgCrankpinsPlacing today = { 0 };

  for (guint b = 0; b < s->search.n; b++)
    today.set[b] = N;
  for (guint i = 0; i < s->search.n; i++)
    if (problem->set[i].today >= 0)
      today.set[problem->set[i].today] = i;
  if (tg_crankpins_evaluate (problem, &today))
    offer (s, &today);
}

static gboolean
may_share_a_pin (const TgCrankpinsSearch *s, guint i, guint j)
{
  for (guint p = 0; p < s->m; p++)
    {
      guint32 first = s->fit[s->problem->bore[p][0]], second = s->fit[s->problem->bore[p][1]];

      if ((first >> i & second >> j & 1) || (first >> j & second >> i & 1))
        return TRUE;
    }
  return FALSE;
}

static int
compare_falling (gconstpointer a, gconstpointer b)
{
  const TgMass *x = a, *y = b;

  return (*x < *y) - (*x > *y);
}

static void
collect_floors (Solver *s)
{
  TgCrankpinsSearch *search = &s->search;
  guint n = 0;

  tg_crankpins_set_opposite (search, BIT (search->n) - 1, &s->highest_low, &s->lowest_high);
  for (guint i = 0; i < search->n; i++)
    for (guint j = 0; j < i; j++)
      {
        TgMass sum = search->weight[i] + search->weight[j];

        if (sum <= s->highest_low && may_share_a_pin (search, i, j))
          s->floor[n++] = sum;
      }
  qsort (s->floor, n, sizeof *s->floor, compare_falling);
  for (guint i = 0; i < n; i++)
    if (i == 0 || s->floor[i] != s->floor[i - 1])
      s->floor[s->n_floors++] = s->floor[i];
}

/* The narrowest window at @lo, narrower than the best so far. */
static void
narrow (Solver *s, TgMass lo)
{
  const TgCrankpinsPlacing *best = &s->result->placing;
  TgMass least = s->lowest_high;

  if (!decide (s, lo, lo + best->spread - 1, 0))
    return;
  while (!s->search.stopped && least - lo < best->spread)
    {
      TgMass hi = least + (lo + best->spread - 1 - least) / 2;

      if (!decide (s, lo, hi, 0))
        least = hi + 1;
    }
}

/* FALSE: stopped. */
static gboolean
prove_spread (Solver *s)
{
  TgCrankpinsResult *result = s->result;

  for (guint i = 0; i < s->n_floors; i++)
    {
      TgMass lo = s->floor[i];

      result->lower_bound = MIN (s->lowest_high - lo, result->placing.spread);
      if (s->lowest_high - lo >= result->placing.spread)
        break;
      narrow (s, lo);
      if (s->search.stopped)
        return result->lower_bound == result->placing.spread;
    }
  result->lower_bound = result->placing.spread;
  return TRUE;
}

static guint
sets_of_today (const Solver *s)
{
  guint sets = 0;

  for (guint b = 0; b < s->search.n; b++)
    sets += s->search.today[b] != 0;
  return sets;
}

/* One set more in its bore as often as there is a placing; FALSE: stopped. */
static gboolean
prove_changes (Solver *s)
{
  const TgCrankpinsPlacing *best = &s->result->placing;
  TgMass spread = best->spread;

  for (guint i = 0; i < s->n_floors && s->lowest_high - s->floor[i] <= spread; i++)
    while (best->changes > 0 && !s->search.stopped &&
           decide (s, s->floor[i], s->floor[i] + spread, sets_of_today (s) - best->changes + 1))
      ;
  return !s->search.stopped;
}

/* Drops the windows without a placing of the best spread and changes; FALSE: stopped. */
static gboolean
keep_floors (Solver *s, guint kept)
{
  TgMass spread = s->result->placing.spread;
  guint n = 0;

  for (guint i = 0; i < s->n_floors && s->lowest_high - s->floor[i] <= spread; i++)
    {
      if (decide (s, s->floor[i], s->floor[i] + spread, kept))
        s->floor[n++] = s->floor[i];
      if (s->search.stopped)
        return FALSE;
    }
  s->n_floors = n;
  return TRUE;
}

/* Whether the bores with one set each that they are bound to leave a placing. */
static gboolean
decide_bound (Solver *s, guint kept)
{
  TgMass spread = s->result->placing.spread;

  for (guint i = 0; i < s->n_floors && !s->search.stopped; i++)
    if (decide (s, s->floor[i], s->floor[i] + spread, kept))
      return TRUE;
  return FALSE;
}

/* Leaves only @place for @bore. */
static void
bind (TgCrankpinsSearch *s, guint bore, guint place)
{
  for (guint b = 0; b < s->n; b++)
    s->fit[b] &= ~BIT (place);
  s->fit[bore] = BIT (place);
}

/* FALSE: stopped. */
static gboolean
prove_numbers (Solver *s)
{
  TgCrankpinsSearch *search = &s->search;
  const TgCrankpinsPlacing *best = &s->result->placing;
  guint kept = sets_of_today (s) - best->changes;
  guint place[N];

  if (!keep_floors (s, kept))
    return FALSE;
  for (guint i = 0; i < search->n; i++)
    place[search->number[i]] = i;
  for (guint b = 0; b < search->n; b++)
    {
      guint32 fit[N];

      memcpy (fit, search->fit, sizeof fit);
      for (guint i = 0; i < best->set[b]; i++)
        {
          if (!(fit[b] & BIT (place[i])))
            continue;
          bind (search, b, place[i]);
          if (decide_bound (s, kept))
            break;
          if (search->stopped)
            return FALSE;
          memcpy (search->fit, fit, sizeof fit);
        }
      memcpy (search->fit, fit, sizeof fit);
      bind (search, b, place[best->set[b]]);
    }
  return TRUE;
}

static void
solve (Solver *s)
{
  TgCrankpinsResult *result = s->result;

  offer_today (s);
  collect_floors (s);
  if (prove_spread (s))
    result->proved = 1;
  if (result->proved == 1 && prove_changes (s))
    result->proved = 2;
  if (result->proved == 2 && prove_numbers (s))
    result->proved = 3;
  result->status = result->proved > 0 ? TG_CRANKPINS_OPTIMAL : TG_CRANKPINS_FEASIBLE;
  result->nodes = s->search.nodes;
}

static gboolean
valid (const TgCrankpinsProblem *problem)
{
  guint n = 2 * problem->n_pins;
  guint32 bores = 0, taken = 0;

  if (n < 2 || n > N)
    return FALSE;
  for (guint p = 0; p < problem->n_pins; p++)
    for (guint side = 0; side < 2; side++)
      {
        if (problem->bore[p][side] >= n)
          return FALSE;
        bores |= BIT (problem->bore[p][side]);
      }
  for (guint i = 0; i < n; i++)
    {
      const TgCrankpinsSet *set = &problem->set[i];

      if (set->weight < 0 || set->weight > TG_MASS_MAX || set->today < -1 ||
          set->today >= (int) n || (set->today >= 0 && (taken & BIT (set->today))))
        return FALSE;
      if (set->today >= 0)
        taken |= BIT (set->today);
    }
  return bores == BIT (n) - 1;
}

void
tg_crankpins_solve (const TgCrankpinsProblem *problem,
                    const TgCrankpinsLimits *limits,
                    TgCrankpinsResult *result)
{
  g_autofree Solver *s = NULL;

  g_return_if_fail (valid (problem));

  memset (result, 0, sizeof *result);
  result->status = TG_CRANKPINS_NONE_EXISTS;
  if (!tg_crankpins_start (problem, &result->placing))
    return;
  s = g_new0 (Solver, 1);
  s->result = result;
  tg_crankpins_set_prepare (&s->search, problem, limits);
  solve (s);
  tg_crankpins_set_clear (&s->search);
}
