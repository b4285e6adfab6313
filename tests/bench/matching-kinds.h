/* matching-kinds.h: the problems of the pairing's benchmark
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "matching-oracle.h"

typedef enum
{
  KIND_PLAIN,      /* each family over 5 g, no rules */
  KIND_TOLERANCE,  /* a band of up to 0.5 g */
  KIND_LOCKS,      /* two pairs locked, three forbidden */
  KIND_CAPACITIES, /* most parts may lose nothing, a third of the first family only up to 1 g */
  KIND_ALL_RULES,  /* the three together */
  KIND_BATCHES,    /* two batches of 1 g spread, 4 g apart */
  KIND_APART,      /* the same, in each family 2 to 6 g apart */
  N_KINDS,
} Kind;

const char *kind_name (Kind kind);

/* @steps: of the scale in a gram, 10 or 100; always the same problem for the same numbers. */
void kind_draw (Kind kind, guint steps, guint n, guint k, guint number, OracleProblem *out);
