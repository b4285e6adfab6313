/* stock-oracle.h: random shelves, and the same solved by GLPK
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLPK (the GNU Linear Programming Kit) is the independent solver of the stock's tests.
 */
#pragma once

#include <glib.h>

#include "stock.h"

/* A shelf with room for what its problem lends. */
typedef struct
{
  TgStockProblem problem;
  TgStockPart parts[TG_STOCK_MAX_PARTS];
} OracleShelf;

/* Weights over @spread milligrams, no rules, no tolerance. */
void oracle_draw_shelf (
    GRand *random, guint figures, guint parts, guint chosen, int spread, OracleShelf *out);

/* Now and then each: tolerances, capacities, frozen figures, parts that must or must not be. */
void oracle_draw_shelf_rules (GRand *random, int spread, OracleShelf *shelf);

/* Parts of these weights, no rules, no tolerance. */
void oracle_list_shelf (
    const TgMass (*weight)[2], guint figures, guint parts, guint chosen, OracleShelf *out);

/* The problem of the copy lends the copy's parts. */
void oracle_copy_shelf (const OracleShelf *from, OracleShelf *to);

/* One more part. */
void oracle_add_part (GRand *random, int spread, OracleShelf *shelf);

/* The least total by integer programming, -1: there is no set; FALSE: out of time. */
gboolean oracle_choose (const TgStockProblem *problem, int limit_ms, TgMass *total);
