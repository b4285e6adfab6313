/* stock-private.h: what the files of the stock share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside there are always two figures; where the problem has one, the second weighs nothing.
 */
#pragma once

#include <glib.h>

#include "stock.h"

#define N TG_STOCK_MAX_PARTS

/* A part that may be chosen; @loss: of figure 0 at the floor that is looked at; @key: what it is
 * sorted by, in the end loss plus weight of figure 1. */
typedef struct
{
  guint number;
  gboolean must;
  TgMass weight[2];
  TgMass capacity[2];
  TgMass loss;
  TgMass key;
} TgStockItem;

/* @bound: no set above this floor loses less of this figure; @reach: the heaviest other figure of
 * the parts that weigh so. */
typedef struct
{
  TgMass weight;
  TgMass bound;
  TgMass reach;
} TgStockFloor;

/* @even, @rising: the parts that may be taken at a floor of figure 0, by loss, and by loss plus
 * weight of figure 1. @need: how many to take besides those that must be. */
typedef struct
{
  const TgStockProblem *problem;
  TgMass tolerance[2];
  guint n_items, n_must, need;
  TgStockItem items[N];
  TgStockItem *by_weight[2][N];
  TgStockItem *must[N];
  guint n_floors[2];
  TgStockFloor floors[2][N];
  TgMass floor;
  guint n_open;
  TgStockItem *even[N];
  TgStockItem *rising[N];
  TgStockChoice best; /* total G_MAXINT64: none yet */
} TgStockSearch;

static inline TgMass
tg_stock_item_loss (const TgStockSearch *s, const TgStockItem *item, guint figure, TgMass floor)
{
  return MAX (0, item->weight[figure] - floor - s->tolerance[figure]);
}

static inline gboolean
tg_stock_item_fits (const TgStockSearch *s, const TgStockItem *item, guint figure, TgMass floor)
{
  return item->weight[figure] >= floor &&
         tg_stock_item_loss (s, item, figure, floor) <= item->capacity[figure];
}

/* For qsort(). */
static inline int
tg_stock_compare_masses (gconstpointer a, gconstpointer b)
{
  const TgMass *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

/* stock-pick.c: takes the best set at the open floor of figure 0 and @floor of figure 1 over if it
 * beats the best so far; @edge: what the dearest of the parts taken loses */
void tg_stock_pick (TgStockSearch *search, TgMass floor, TgMass edge);

/* FALSE: the sets at these floors lose nothing, as the best so far, and have no lower numbers. */
gboolean tg_stock_pick_may_help (const TgStockSearch *search, TgMass floor, TgMass total);
