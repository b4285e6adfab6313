/* crankpins-private.h: what the files of the crankpins share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside, sets are counted by rising weight (their place), and sets of sets, of bores and of pins
 * are masks.
 */
#pragma once

#include <glib.h>

#include "crankpins.h"

#define N TG_CRANKPINS_MAX_SETS
#define M TG_CRANKPINS_MAX_PINS
#define BIT(i) (1u << (i))

/* Counting the ones of a mask from the lowest. */
#define FOR_EACH_BIT(i, mask)                                                                      \
  for (guint32 i##_left = (mask), i = 0;                                                           \
       i##_left != 0 && (i = (guint32) __builtin_ctz (i##_left), TRUE); i##_left &= i##_left - 1)

typedef struct _TgCrankpinsTable TgCrankpinsTable;

/**
 * TgCrankpinsSearch:
 * @n, @m: sets, pins
 * @number: by place: number in the problem
 * @fit: by bore: the sets that may sit in it
 * @today: by bore: the set that sits in it now, 0: none
 *
 * What is looked for, written by tg_crankpins_search_decide():
 * @lo, @hi: every pin's sum lies between
 * @keeping: it matters how many sets keep their bore
 * @partners: by place: with whom the sum is in the window
 * @keep: by bore: @today if it may stay, 0 if nothing counts
 * @twins: by place: those of lower place that nothing tells from it
 * @alike: by pin: those of lower number with the same bores
 * @at: by bore: the place that was found
 */
typedef struct
{
  const TgCrankpinsProblem *problem;
  const TgCrankpinsLimits *limits;
  guint n, m;
  guint number[N];
  TgMass weight[N];
  guint32 fit[N];
  guint32 today[N];
  TgMass lo, hi;
  gboolean keeping;
  guint32 partners[N];
  guint32 keep[N];
  guint32 twins[N];
  guint32 alike[M];
  guint8 at[N];
  TgCrankpinsTable *failed;
  guint64 nodes;
  gboolean stopped;
} TgCrankpinsSearch;

/* crankpins-set.c */
void tg_crankpins_set_prepare (TgCrankpinsSearch *search,
                               const TgCrankpinsProblem *problem,
                               const TgCrankpinsLimits *limits);
void tg_crankpins_set_clear (TgCrankpinsSearch *search);

/* Writes @partners, @twins and @alike. */
void tg_crankpins_set_compare (TgCrankpinsSearch *search);

/* The lightest and the heaviest pin if @left are paired lightest with heaviest: no pairing has a
 * heavier lightest or a lighter heaviest one. */
void tg_crankpins_set_opposite (const TgCrankpinsSearch *search,
                                guint32 left,
                                TgMass *lightest,
                                TgMass *heaviest);

/* crankpins-search.c: TRUE: a placing with all sums in @lo to @hi and @kept sets in their bore of
 * today, in at[].  FALSE and not stopped: there is none. */
gboolean tg_crankpins_search_decide (TgCrankpinsSearch *search, TgMass lo, TgMass hi, guint kept);

/* crankpins-start.c: any placing, then exchanges that bring the sums together; FALSE: none exists */
gboolean tg_crankpins_start (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *placing);
