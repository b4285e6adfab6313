/* stock.c: the n parts of a shelf that lose the least metal, see stock.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * For given floors (s, b) of the two figures the loss of a part does not depend on the others, so
 * the best set is: the parts that must be chosen, and of those with S ≥ s, B ≥ b and enough
 * capacity the cheapest.  The floors of a set are weights of its own parts, and a lower floor never
 * makes a part cheaper; so it is enough to try the weights on the shelf as floors, every s with
 * every b, and at its own floors the best set of all is among the cheapest.  A set that is found at
 * lower floors than its own is only better than it was taken for.
 *
 * The cheapest at (s, b) come from two streams: parts with B in the band cost their loss in S,
 * which rises with S; parts above it cost that and B − b − tolerance, which rises with the sum of
 * both.  Both orders are made once for a floor s.  Which of equally cheap sets is taken stands in
 * stock-pick.c.
 *
 * Floors whose own loss, each figure by itself, exceeds the best total are left out, and so are
 * parts that alone lose more than that.
 *
 * It does not know that metal off one end of a rod changes the other, nor which part goes where.
 */
#include "stock-private.h"

#include <stdlib.h>

/* The least loss of one figure at or above a floor, -1: too few parts, or one that must be chosen
 * does not fit. */
static TgMass
figure_loss (const TgStockSearch *s, guint figure, TgMass floor)
{
  TgMass total = 0;
  guint taken = 0;

  for (guint i = 0; i < s->n_items; i++)
    {
      const TgStockItem *item = s->by_weight[figure][i];

      if (!tg_stock_item_fits (s, item, figure, floor))
        {
          if (item->must)
            return -1;
          continue;
        }
      if (!item->must && taken == s->need)
        continue;
      taken += !item->must;
      total += tg_stock_item_loss (s, item, figure, floor);
    }
  return taken == s->need ? total : -1;
}

static int
compare_keys (gconstpointer a, gconstpointer b)
{
  const TgStockItem *x = *(TgStockItem *const *) a, *y = *(TgStockItem *const *) b;

  return tg_stock_compare_masses (&x->key, &y->key);
}

static int
compare_floors (gconstpointer a, gconstpointer b)
{
  const TgStockFloor *x = a, *y = b;

  return x->bound != y->bound ? tg_stock_compare_masses (&x->bound, &y->bound)
                              : tg_stock_compare_masses (&x->weight, &y->weight);
}

/* FALSE: more parts must be chosen than make a set, or one must and must not be. */
static gboolean
collect_items (TgStockSearch *s)
{
  const TgStockProblem *p = s->problem;

  for (guint i = 0; i < p->n_parts; i++)
    {
      const TgStockPart *part = &p->parts[i];
      TgStockItem *item = &s->items[s->n_items];

      if (part->never && part->must)
        return FALSE;
      if (part->never)
        continue;
      *item = (TgStockItem){ .number = i, .must = part->must, .capacity[1] = TG_STOCK_NO_LIMIT };
      for (guint f = 0; f < p->n_figures; f++)
        {
          item->weight[f] = part->weight[f];
          item->capacity[f] = part->capacity[f];
        }
      s->by_weight[0][s->n_items] = s->by_weight[1][s->n_items] = item;
      if (item->must)
        s->must[s->n_must++] = item;
      s->n_items++;
    }
  if (s->n_must > p->n_chosen || s->n_items < p->n_chosen)
    return FALSE;
  s->need = p->n_chosen - s->n_must;
  for (guint f = 0; f < 2; f++)
    {
      for (guint i = 0; i < s->n_items; i++)
        s->items[i].key = s->items[i].weight[f];
      qsort (s->by_weight[f], s->n_items, sizeof (TgStockItem *), compare_keys);
    }
  return TRUE;
}

/* Every weight of a figure at which that figure by itself leaves a set, cheapest first. */
static void
collect_floors (TgStockSearch *s, guint figure)
{
  TgStockFloor *floors = s->floors[figure];
  guint n = 0;

  for (guint i = 0; i < s->n_items;)
    {
      TgStockFloor floor = { .weight = s->by_weight[figure][i]->weight[figure] };

      for (; i < s->n_items && s->by_weight[figure][i]->weight[figure] == floor.weight; i++)
        floor.reach = MAX (floor.reach, s->by_weight[figure][i]->weight[1 - figure]);
      floor.bound = figure_loss (s, figure, floor.weight);
      if (floor.bound >= 0)
        floors[n++] = floor;
    }
  s->n_floors[figure] = n;
  qsort (floors, n, sizeof *floors, compare_floors);
}

/* Makes both streams of a floor of figure 0; the parts that must be chosen fit, see
 * collect_floors(). */
static void
open_floor (TgStockSearch *s, TgMass floor)
{
  s->n_open = 0;
  s->floor = floor;
  for (guint i = 0; i < s->n_must; i++)
    s->must[i]->loss = tg_stock_item_loss (s, s->must[i], 0, floor);
  for (guint i = 0; i < s->n_items; i++)
    {
      TgStockItem *item = s->by_weight[0][i];

      if (item->must || !tg_stock_item_fits (s, item, 0, floor))
        continue;
      item->loss = tg_stock_item_loss (s, item, 0, floor);
      if (item->loss > s->best.total)
        break;
      item->key = item->loss + item->weight[1];
      s->even[s->n_open] = s->rising[s->n_open] = item;
      s->n_open++;
    }
  qsort (s->rising, s->n_open, sizeof (TgStockItem *), compare_keys);
}

/* What the parts that must be chosen lose; -1: one does not fit. */
static TgMass
must_loss (const TgStockSearch *s, TgMass floor)
{
  TgMass total = 0;

  for (guint i = 0; i < s->n_must; i++)
    {
      if (!tg_stock_item_fits (s, s->must[i], 1, floor))
        return -1;
      total += s->must[i]->loss + tg_stock_item_loss (s, s->must[i], 1, floor);
    }
  return total;
}

/* The least total at the open floor of figure 0 and @floor of figure 1, if it is not above the best
 * so far, else -1.  @edge: (out): what the dearest of the parts taken loses. */
static TgMass
least_loss (const TgStockSearch *s, TgMass floor, TgMass *edge)
{
  TgMass total = must_loss (s, floor), top = floor + s->tolerance[1];
  guint e = 0, r = 0;

  *edge = -1;
  if (total < 0)
    return -1;
  for (guint taken = 0; taken < s->need; taken++)
    {
      TgMass even, rising;

      while (e < s->n_open && (s->even[e]->weight[1] < floor || s->even[e]->weight[1] > top))
        e++;
      while (r < s->n_open && (s->rising[r]->weight[1] <= top ||
                               s->rising[r]->weight[1] - top > s->rising[r]->capacity[1]))
        r++;
      even = e < s->n_open ? s->even[e]->loss : G_MAXINT64;
      rising = r < s->n_open ? s->rising[r]->key - top : G_MAXINT64;
      *edge = MIN (even, rising);
      if (*edge == G_MAXINT64 || *edge > s->best.total - total)
        return -1;
      total += *edge;
      if (even <= rising)
        e++;
      else
        r++;
    }
  return total <= s->best.total ? total : -1;
}

static void
try_floors (TgStockSearch *s)
{
  for (guint i = 0; i < s->n_floors[0]; i++)
    {
      const TgStockFloor *first = &s->floors[0][i];

      if (s->n_floors[1] == 0 || first->bound > s->best.total - s->floors[1][0].bound)
        break;
      open_floor (s, first->weight);
      for (guint j = 0; j < s->n_floors[1]; j++)
        {
          const TgStockFloor *second = &s->floors[1][j];
          TgMass edge, total;

          if (first->bound > s->best.total - second->bound)
            break;
          if (first->reach < second->weight || second->reach < first->weight)
            continue;
          total = least_loss (s, second->weight, &edge);
          if (total >= 0 && tg_stock_pick_may_help (s, second->weight, total))
            tg_stock_pick (s, second->weight, edge);
        }
    }
}

static gboolean
valid (const TgStockProblem *problem)
{
  if (problem->n_figures < 1 || problem->n_figures > TG_STOCK_MAX_FIGURES || problem->n_parts > N ||
      problem->n_chosen < 1)
    return FALSE;
  for (guint f = 0; f < problem->n_figures; f++)
    {
      if (problem->tolerance[f] < 0 || problem->tolerance[f] > TG_MASS_MAX)
        return FALSE;
      for (guint i = 0; i < problem->n_parts; i++)
        if (problem->parts[i].weight[f] < 0 || problem->parts[i].weight[f] > TG_MASS_MAX ||
            problem->parts[i].capacity[f] < 0)
          return FALSE;
    }
  return TRUE;
}

TgStockStatus
tg_stock_choose (const TgStockProblem *problem, TgStockChoice *choice)
{
  g_autofree TgStockSearch *s = NULL;

  g_return_val_if_fail (valid (problem), TG_STOCK_NONE_EXISTS);

  s = g_new0 (TgStockSearch, 1);
  s->problem = problem;
  s->best.total = G_MAXINT64;
  for (guint f = 0; f < problem->n_figures; f++)
    s->tolerance[f] = problem->tolerance[f];
  if (!collect_items (s))
    return TG_STOCK_NONE_EXISTS;
  collect_floors (s, 0);
  collect_floors (s, 1);
  try_floors (s);
  if (s->best.total == G_MAXINT64)
    return TG_STOCK_NONE_EXISTS;
  *choice = s->best;
  return TG_STOCK_OPTIMAL;
}
