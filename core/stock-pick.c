/* stock-pick.c: which of the sets that lose the least at given floors, see stock.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Any cheapest set at these floors has the same losses, part by part, so its count of touched parts
 * is given too.  The parts that lose less than the dearest one are all in it; which of those that
 * lose as much are taken is decided by their largest cut, then by their numbers.
 */
#include "stock-private.h"

#include <stdlib.h>

/* Negative: @a is better. */
static int
compare_choices (const TgStockProblem *p, const TgStockChoice *a, const TgStockChoice *b)
{
  if (a->total != b->total)
    return a->total < b->total ? -1 : 1;
  if (a->touched != b->touched)
    return a->touched < b->touched ? -1 : 1;
  if (a->cut != b->cut)
    return a->cut < b->cut ? -1 : 1;
  for (guint c = 0; c < p->n_chosen; c++)
    if (a->part[c] != b->part[c])
      return a->part[c] < b->part[c] ? -1 : 1;
  return 0;
}

typedef enum
{
  OUT,
  IN,
  TIED,
} Place;

/* Sorts the open parts into those that lose less than @edge and those that lose as much.  Returns
 * the largest cut that the set needs; @tied: (out): how many of the latter it takes. */
static TgMass
place_parts (
    const TgStockSearch *s, TgMass floor, TgMass edge, Place *place, TgMass *cut, guint *tied)
{
  TgMass ties[N], needed = 0;
  guint n_ties = 0;

  *tied = s->need;
  for (guint i = 0; i < s->n_must; i++)
    {
      place[s->must[i]->number] = IN;
      needed = MAX (needed, MAX (s->must[i]->loss, tg_stock_item_loss (s, s->must[i], 1, floor)));
    }
  for (guint i = 0; i < s->n_open; i++)
    {
      const TgStockItem *item = s->even[i];
      TgMass second = tg_stock_item_loss (s, item, 1, floor), both = item->loss + second;

      if (both > edge || !tg_stock_item_fits (s, item, 1, floor))
        continue;
      cut[item->number] = MAX (item->loss, second);
      place[item->number] = both < edge ? IN : TIED;
      if (both < edge)
        {
          needed = MAX (needed, cut[item->number]);
          (*tied)--;
        }
      else
        ties[n_ties++] = cut[item->number];
    }
  if (edge <= 0 || *tied == 0)
    return needed;
  qsort (ties, n_ties, sizeof *ties, tg_stock_compare_masses);
  return MAX (needed, ties[*tied - 1]);
}

void
tg_stock_pick (TgStockSearch *s, TgMass floor, TgMass edge)
{
  Place place[N] = { OUT };
  TgMass cut[N];
  TgStockChoice choice = { 0 };
  guint tied, n = 0;
  TgMass limit = place_parts (s, floor, edge, place, cut, &tied);

  for (guint i = 0; i < s->problem->n_parts; i++)
    {
      if (place[i] == TIED && tied > 0 && cut[i] <= limit)
        {
          place[i] = IN;
          tied--;
        }
      if (place[i] == IN)
        choice.part[n++] = i;
    }
  g_assert_true (n == s->problem->n_chosen && tg_stock_evaluate (s->problem, &choice));
  if (compare_choices (s->problem, &choice, &s->best) < 0)
    s->best = choice;
}

gboolean
tg_stock_pick_may_help (const TgStockSearch *s, TgMass floor, TgMass total)
{
  guint n = 0;

  if (total > 0 || s->best.total > 0)
    return TRUE;
  for (guint i = 0; i < s->n_items && n < s->problem->n_chosen; i++)
    {
      const TgStockItem *item = &s->items[i];

      if (item->weight[0] < s->floor || tg_stock_item_loss (s, item, 0, s->floor) > 0 ||
          item->weight[1] < floor || tg_stock_item_loss (s, item, 1, floor) > 0)
        continue;
      if (item->number != s->best.part[n])
        return item->number < s->best.part[n];
      n++;
    }
  return FALSE;
}
