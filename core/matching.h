/* matching.h: which part goes with which, so that the assemblies of an engine lose the least metal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * There are k families of parts (pistons, pins, rods, …) and n cylinders; every cylinder gets one
 * part of each family.  Its assembly weighs w_c, the sum of its parts.  Metal can only come off, so
 * the lightest assembly gives the floor T = min w_c, and assembly c loses
 * r_c = max (0, w_c − T − tolerance).  Objectives, each only where those before are equal:
 *
 *   1. the least Σ r_c   2. the fewest assemblies with r_c > 0   3. the smallest largest r_c
 *   4. the fewest parts that leave the cylinder they are at today
 *
 * then the lowest part numbers, cylinder by cylinder and in it family by family.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

#define TG_MATCHING_MAX_FAMILIES 6
#define TG_MATCHING_MAX_CYLINDERS 24
#define TG_MATCHING_MAX_PARTS 48
#define TG_MATCHING_MAX_WEIGHT (G_GINT64_CONSTANT (1) << 40)
#define TG_MATCHING_NO_LIMIT G_MAXINT64
#define TG_MATCHING_STAGES 4

/**
 * TgMatchingPart:
 * @weight: in steps of the scale, 0 to TG_MATCHING_MAX_WEIGHT
 * @capacity: steps that may come off it, 0: frozen, TG_MATCHING_NO_LIMIT
 * @bound: the cylinder that it has to be at, -1: any, or none
 * @today: the cylinder that it is at now, -1: at none
 */
typedef struct
{
  gint64 weight;
  gint64 capacity;
  int bound;
  int today;
} TgMatchingPart;

/**
 * TgMatchingFamily:
 * @n_parts: 1 to TG_MATCHING_MAX_PARTS; more than cylinders: the rest are spares
 * @parts: (array length=n_parts): lent
 */
typedef struct
{
  guint n_parts;
  const TgMatchingPart *parts;
} TgMatchingFamily;

/* Two parts of two families. */
typedef struct
{
  guint family[2];
  guint part[2];
} TgMatchingPair;

/**
 * TgMatchingProblem:
 * @forbidden: (array length=n_forbidden): pairs that must not meet in one assembly; lent
 * @locked: (array length=n_locked): pairs that stay together: in one assembly, or both unused; lent
 * @tolerance: in steps, ≥ 0: the largest spread, heaviest minus lightest, that needs no metal
 */
typedef struct
{
  guint n_families;
  guint n_cylinders;
  TgMatchingFamily families[TG_MATCHING_MAX_FAMILIES];
  guint n_forbidden;
  const TgMatchingPair *forbidden;
  guint n_locked;
  const TgMatchingPair *locked;
  gint64 tolerance;
} TgMatchingProblem;

/**
 * TgMatchingPlan:
 * @part: by family and cylinder: number of the part
 * @weight, @removal: by cylinder, in steps
 * @floor: weight of the lightest assembly; all end in [floor, floor + tolerance]
 * @total: Σ removal
 * @touched: assemblies with removal
 * @cut: the largest removal
 * @changes: used parts that are not at their cylinder of today
 */
typedef struct
{
  guint part[TG_MATCHING_MAX_FAMILIES][TG_MATCHING_MAX_CYLINDERS];
  gint64 weight[TG_MATCHING_MAX_CYLINDERS];
  gint64 removal[TG_MATCHING_MAX_CYLINDERS];
  gint64 floor;
  gint64 total;
  guint touched;
  gint64 cut;
  guint changes;
} TgMatchingPlan;

typedef enum
{
  TG_MATCHING_OPTIMAL,     /* no pairing loses less in total; proved says how far the rest is */
  TG_MATCHING_FEASIBLE,    /* a pairing, and the bound that none can go below */
  TG_MATCHING_NONE_EXISTS, /* proved: no pairing keeps every rule */
  TG_MATCHING_UNKNOWN,     /* none was found before the search was stopped; there may be one */
} TgMatchingStatus;

/* Why no pairing can lose less than the lower bound. */
typedef enum
{
  TG_MATCHING_BOUND_NOTHING, /* it is 0 */
  TG_MATCHING_BOUND_MEAN,    /* n equal assemblies cannot weigh more than all parts together */
  TG_MATCHING_BOUND_SUBSET,  /* the @count lightest of a family, with the heaviest of the others */
  TG_MATCHING_BOUND_OVERSET, /* the @count heaviest of a family, with the lightest of the others */
  TG_MATCHING_BOUND_LATTICE, /* the weights are alike modulo @modulus, so the sums are too */
  TG_MATCHING_BOUND_CLASSES, /* the heavy parts of two batches do not share out evenly: the @count
                                assemblies with the fewest stay below */
  TG_MATCHING_BOUND_SEARCH,  /* every other pairing was ruled out */
} TgMatchingReason;

/**
 * TgMatchingResult:
 * @plan: the best that was found (OPTIMAL, FEASIBLE)
 * @lower_bound: no pairing has a smaller total (OPTIMAL: the total itself)
 * @family: of SUBSET and OVERSET
 * @count: of SUBSET, OVERSET and CLASSES
 * @modulus: of LATTICE
 * @proved: how many objectives are proved from the first on, 0 to TG_MATCHING_STAGES; all: the plan
 *   is also the one of the lowest part numbers
 * @nodes: sub-problems that were looked at
 */
typedef struct
{
  TgMatchingStatus status;
  TgMatchingPlan plan;
  gint64 lower_bound;
  TgMatchingReason reason;
  guint family;
  guint count;
  gint64 modulus;
  guint proved;
  guint64 nodes;
} TgMatchingResult;

/**
 * TgMatchingLimits:
 * @nodes: sub-problems that may be looked at, 0: any number; for the same limit the result is the
 *   same on every machine
 * @stages: objectives that are worked on, 0: all
 * @should_stop: (nullable): asked now and then; TRUE stops the search with what it has
 */
typedef struct
{
  guint64 nodes;
  guint stages;
  gboolean (*should_stop) (gpointer data);
  gpointer data;
} TgMatchingLimits;

/**
 * tg_matching_evaluate:
 * @plan: (inout): @part is read, all else is written
 *
 * What a pairing costs, written apart from the search.
 *
 * Returns: FALSE if it breaks a rule: a part twice, one that is bound elsewhere or unused though
 *   bound, a forbidden pair, a locked pair apart, more to come off than the parts can give.  The
 *   figures are written all the same if every part number and no part twice.
 */
gboolean tg_matching_evaluate (const TgMatchingProblem *problem, TgMatchingPlan *plan);

/**
 * tg_matching_solve:
 * @result: (out)
 *
 * Exact if it is not stopped.  Runs in the caller's thread and takes up to some tens of MB.
 */
void tg_matching_solve (const TgMatchingProblem *problem,
                        const TgMatchingLimits *limits,
                        TgMatchingResult *result);

G_END_DECLS
