/* stock.h: which n parts of a shelf of many make the set that loses the least metal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A part has one figure (a piston, a pin: its weight) or two (a rod: small end and big end).  Metal
 * can only come off, so the lightest chosen gives the floor of a figure, T = min w, and a chosen
 * part loses max (0, w − T − tolerance) of that figure; then all lie in [T, T + tolerance].
 * Objectives, each only where those before are equal:
 *
 *   1. the least Σ loss over parts and figures   2. the fewest parts that lose anything
 *   3. the smallest largest loss of one figure of one part
 *
 * then the lowest part numbers.
 *
 * The figures count as if metal came off each by itself.  On a rod it does not: a zone between the
 * ends takes from both, one beyond an end adds to the other.  Coupling is left to the removal plan
 * of the set that is chosen here, which may therefore differ a little from the loss given here, and
 * another choice may turn out slightly better.
 */
#pragma once

#include <glib.h>

#include "mass.h"

G_BEGIN_DECLS

#define TG_STOCK_MAX_FIGURES 2
#define TG_STOCK_MAX_PARTS 400
#define TG_STOCK_NO_LIMIT G_MAXINT64

/**
 * TgStockPart:
 * @weight: by figure, 0 to TG_MASS_MAX
 * @capacity: by figure: the most that may come off, 0: frozen, TG_STOCK_NO_LIMIT
 * @must: has to be chosen
 * @never: must not be chosen
 */
typedef struct
{
  TgMass weight[TG_STOCK_MAX_FIGURES];
  TgMass capacity[TG_STOCK_MAX_FIGURES];
  gboolean must;
  gboolean never;
} TgStockPart;

/**
 * TgStockProblem:
 * @n_figures: 1 or 2
 * @n_parts: up to TG_STOCK_MAX_PARTS
 * @parts: (array length=n_parts): lent
 * @n_chosen: how many make a set, ≥ 1
 * @tolerance: by figure, 0 to TG_MASS_MAX: the largest spread that needs no metal
 */
typedef struct
{
  guint n_figures;
  guint n_parts;
  const TgStockPart *parts;
  guint n_chosen;
  TgMass tolerance[TG_STOCK_MAX_FIGURES];
} TgStockProblem;

/**
 * TgStockChoice:
 * @part: the chosen, rising numbers
 * @loss: by place in @part and figure
 * @floor: by figure: the lightest chosen
 * @total: Σ loss
 * @touched: chosen parts that lose anything
 * @cut: the largest loss of one figure of one part
 */
typedef struct
{
  guint part[TG_STOCK_MAX_PARTS];
  TgMass loss[TG_STOCK_MAX_PARTS][TG_STOCK_MAX_FIGURES];
  TgMass floor[TG_STOCK_MAX_FIGURES];
  TgMass total;
  guint touched;
  TgMass cut;
} TgStockChoice;

typedef enum
{
  TG_STOCK_OPTIMAL,     /* no set is better */
  TG_STOCK_NONE_EXISTS, /* proved: no n parts keep every rule */
} TgStockStatus;

/**
 * tg_stock_evaluate:
 * @choice: (inout): @part is read, all else is written
 *
 * What a set costs, written apart from the search.
 *
 * Returns: FALSE if it breaks a rule: numbers that do not rise or name no part, a part that must
 *   not be chosen, one missing that has to be, more to come off than a part can give.  The figures
 *   are written all the same if the numbers rise and name parts.
 */
gboolean tg_stock_evaluate (const TgStockProblem *problem, TgStockChoice *choice);

/**
 * tg_stock_choose:
 * @choice: (out): the best set; on NONE_EXISTS untouched
 *
 * Exact in all objectives, without a search tree: it takes 400 parts of two figures in some tens of
 * milliseconds at the most.
 */
TgStockStatus tg_stock_choose (const TgStockProblem *problem, TgStockChoice *choice);

G_END_DECLS
