/* crankpins.h: which set sits in which bore, so that crankpins that carry two rods are loaded alike
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An engine has m crankpins with two bores each, and n = 2 m sets: what sits in one bore, for
 * instance a rod with its piston, pin, rings and shells.  A pin carries the sum of its two sets.
 * No metal comes off here; sets that lie within a tolerance are only placed well.  Objectives, each
 * only where those before are equal:
 *
 *   1. the smallest spread, heaviest minus lightest pin
 *   2. the fewest sets that leave the bore they sit in today
 *
 * then the lowest set numbers, bore by bore.
 *
 * What even pins do to the shaking of an engine is not judged here, and which set may go to which
 * bore (a bored-to-fit piston, a rod run in with its journal) is the caller's word: a set may have
 * to stay where it is, by the engine maker's manual.
 */
#pragma once

#include <glib.h>

#include "mass.h"

G_BEGIN_DECLS

#define TG_CRANKPINS_MAX_PINS 12
#define TG_CRANKPINS_MAX_SETS (2 * TG_CRANKPINS_MAX_PINS)
#define TG_CRANKPINS_ANY_BORE G_MAXUINT32
#define TG_CRANKPINS_STAGES 3

/**
 * TgCrankpinsSet:
 * @weight: 0 to TG_MASS_MAX
 * @bores: bit b: it may sit in bore b; TG_CRANKPINS_ANY_BORE
 * @today: the bore that it sits in now, which no other set does; -1: in none
 */
typedef struct
{
  TgMass weight;
  guint32 bores;
  int today;
} TgCrankpinsSet;

/**
 * TgCrankpinsProblem:
 * @n_pins: 1 to TG_CRANKPINS_MAX_PINS
 * @bore: by pin: the numbers of its two bores, from 0; every bore is on one pin
 * @set: 2 × @n_pins of them
 */
typedef struct
{
  guint n_pins;
  guint bore[TG_CRANKPINS_MAX_PINS][2];
  TgCrankpinsSet set[TG_CRANKPINS_MAX_SETS];
} TgCrankpinsProblem;

/**
 * TgCrankpinsPlacing:
 * @set: by bore: number of the set
 * @sum: by pin
 * @lightest, @heaviest: of @sum
 * @spread: heaviest − lightest
 * @changes: sets that leave their bore of today
 */
typedef struct
{
  guint set[TG_CRANKPINS_MAX_SETS];
  TgMass sum[TG_CRANKPINS_MAX_PINS];
  TgMass lightest, heaviest, spread;
  guint changes;
} TgCrankpinsPlacing;

typedef enum
{
  TG_CRANKPINS_OPTIMAL,     /* no placing has a smaller spread; proved says how far the rest is */
  TG_CRANKPINS_FEASIBLE,    /* a placing, and the bound that none can go below */
  TG_CRANKPINS_NONE_EXISTS, /* proved: the sets cannot all get a bore where they may sit */
} TgCrankpinsStatus;

/**
 * TgCrankpinsResult:
 * @placing: the best that was found (OPTIMAL, FEASIBLE)
 * @lower_bound: no placing has a smaller spread (OPTIMAL: the spread itself)
 * @proved: how many objectives are proved from the first on, 0 to TG_CRANKPINS_STAGES; all: the
 *   placing is also the one of the lowest set numbers
 * @nodes: sub-problems that were looked at
 */
typedef struct
{
  TgCrankpinsStatus status;
  TgCrankpinsPlacing placing;
  TgMass lower_bound;
  guint proved;
  guint64 nodes;
} TgCrankpinsResult;

/**
 * TgCrankpinsLimits:
 * @nodes: sub-problems that may be looked at, 0: any number; for the same limit the result is the
 *   same on every machine
 * @should_stop: (nullable): asked now and then; TRUE stops the search with what it has
 */
typedef struct
{
  guint64 nodes;
  gboolean (*should_stop) (gpointer data);
  gpointer data;
} TgCrankpinsLimits;

/**
 * tg_crankpins_evaluate:
 * @placing: (inout): @set is read, all else is written
 *
 * What a placing is worth, written apart from the search.
 *
 * Returns: FALSE if a set is named twice, does not exist or sits where it may not.  The figures are
 *   written all the same if every set sits in one bore.
 */
gboolean tg_crankpins_evaluate (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *placing);

/**
 * tg_crankpins_solve:
 * @result: (out)
 *
 * Exact if it is not stopped.  Whether any placing exists is always decided, so there is no status
 * for not knowing.  Runs in the caller's thread and takes about 1 MB.
 */
void tg_crankpins_solve (const TgCrankpinsProblem *problem,
                         const TgCrankpinsLimits *limits,
                         TgCrankpinsResult *result);

G_END_DECLS
