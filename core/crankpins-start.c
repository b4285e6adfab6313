/* crankpins-start.c: a first placing of the sets
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether every set can have a bore of its own where it may sit is a matching in a graph of sets and
 * bores: a bore is given to the next set if whoever holds it can move on (augmenting paths).  Then
 * two sets of different pins change places as long as Σ sum² falls, which brings the sums together.
 */
#include "crankpins-private.h"

#define NOBODY N

/* Finds a bore for @set; @seen: bores that were asked already. */
static gboolean
find_bore (const TgCrankpinsProblem *problem, guint set, guint *holder, guint32 *seen)
{
  FOR_EACH_BIT (b, problem->set[set].bores & (BIT (2 * problem->n_pins) - 1))
  {
    if (*seen & BIT (b))
      continue;
    *seen |= BIT (b);
    if (holder[b] == NOBODY || find_bore (problem, holder[b], holder, seen))
      {
        holder[b] = set;
        return TRUE;
      }
  }
  return FALSE;
}

/* TRUE: the sets of two bores of pins @p and @q changed places for the better. */
static gboolean
exchange (
    const TgCrankpinsProblem *problem, TgCrankpinsPlacing *placing, guint p, guint q, guint ways)
{
  guint a = problem->bore[p][ways & 1], b = problem->bore[q][ways >> 1];
  guint i = placing->set[a], j = placing->set[b];
  TgMass more = problem->set[j].weight - problem->set[i].weight;

  if (!(problem->set[i].bores & BIT (b)) || !(problem->set[j].bores & BIT (a)))
    return FALSE;
  /* (P + more)² + (Q − more)² < P² + Q² */
  if (more == 0 || (more > 0 ? placing->sum[q] - placing->sum[p] <= more
                             : placing->sum[q] - placing->sum[p] >= more))
    return FALSE;
  placing->set[a] = j;
  placing->set[b] = i;
  return tg_crankpins_evaluate (problem, placing);
}

static gboolean
improve (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *placing)
{
  for (guint p = 0; p < problem->n_pins; p++)
    for (guint q = 0; q < p; q++)
      for (guint ways = 0; ways < 4; ways++)
        if (exchange (problem, placing, p, q, ways))
          return TRUE;
  return FALSE;
}

gboolean
tg_crankpins_start (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *placing)
{
  guint n = 2 * problem->n_pins;

  for (guint b = 0; b < n; b++)
    placing->set[b] = NOBODY;
  for (guint i = 0; i < n; i++)
    {
      guint32 seen = 0;

      if (!find_bore (problem, i, placing->set, &seen))
        return FALSE;
    }
  g_assert_true (tg_crankpins_evaluate (problem, placing));
  while (improve (problem, placing))
    ;
  return TRUE;
}
