/* crankpins-evaluate.c: what a placing of sets in bores is worth, see crankpins.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shares nothing with the search but the problem: whatever the search finds has to pass here before
 * it is handed out, and a placing that a person made by hand is judged by the same figures.
 */
#include "crankpins.h"

static gboolean
sets_once (const TgCrankpinsPlacing *placing, guint n)
{
  for (guint b = 0; b < n; b++)
    {
      if (placing->set[b] >= n)
        return FALSE;
      for (guint other = 0; other < b; other++)
        if (placing->set[other] == placing->set[b])
          return FALSE;
    }
  return TRUE;
}

gboolean
tg_crankpins_evaluate (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *placing)
{
  guint n = 2 * problem->n_pins;
  gboolean allowed = TRUE;

  if (!sets_once (placing, n))
    return FALSE;
  placing->lightest = G_MAXINT64;
  placing->heaviest = 0;
  for (guint p = 0; p < problem->n_pins; p++)
    {
      placing->sum[p] = 0;
      for (guint side = 0; side < 2; side++)
        placing->sum[p] += problem->set[placing->set[problem->bore[p][side]]].weight;
      placing->lightest = MIN (placing->lightest, placing->sum[p]);
      placing->heaviest = MAX (placing->heaviest, placing->sum[p]);
    }
  placing->spread = placing->heaviest - placing->lightest;
  placing->changes = 0;
  for (guint b = 0; b < n; b++)
    {
      const TgCrankpinsSet *set = &problem->set[placing->set[b]];

      placing->changes += set->today >= 0 && set->today != (int) b;
      allowed = allowed && (set->bores >> b & 1);
    }
  return allowed;
}
