/* matching-private.h: what the files of the matching share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside, parts are counted by rising weight and a set of parts of one family is a mask.  Cylinders
 * have no numbers but in matching-today.c: parts that are bound to one are locked together, parts
 * that are bound to two never meet, and an assembly takes its cylinder at the end.
 */
#pragma once

#include <glib.h>

#include "matching.h"

#define K TG_MATCHING_MAX_FAMILIES
#define N TG_MATCHING_MAX_CYLINDERS
#define P TG_MATCHING_MAX_PARTS
#define BIT(i) (G_GUINT64_CONSTANT (1) << (i))

/* By family and j: sums of the j lightest and heaviest, of what is chosen so that the sum may be
 * high (the heaviest @m left) or low (the lightest @m left). Equal where there are no spares. */
typedef struct
{
  guint m;
  gint64 high_light[K][N + 1], high_heavy[K][N + 1];
  gint64 low_light[K][N + 1], low_heavy[K][N + 1];
  gint64 all_high_heavy[N + 1], all_low_light[N + 1];
} TgMatchingSums;

/**
 * TgMatchingSet:
 * @k, @n: families, cylinders
 * @number: by family and place: number in the problem
 * @all: by family: mask of the parts
 * @must: by family: parts that may not stay unused
 * @heavy: by family: parts above the widest gap between two weights
 * @earlier: by part: those of lower place that nothing tells from it
 * @allowed: by part and family: whom it may meet
 * @rules: some part may not meet some other
 * @modulus, @residue: every assembly weighs @residue modulo @modulus; 0: all weigh the same
 * @sums: of all parts
 */
typedef struct
{
  const TgMatchingProblem *problem;
  guint k, n;
  gint64 tolerance;
  guint number[K][P];
  gint64 weight[K][P];
  gint64 capacity[K][P];
  guint64 all[K], must[K], heavy[K];
  guint64 earlier[K][P];
  guint64 allowed[K][P][K];
  gboolean rules;
  gint64 modulus, residue;
  TgMatchingSums sums;
} TgMatchingSet;

/* What a search looks for: every weight ≥ floor, removals down to floor + tolerance within these. */
typedef struct
{
  gint64 floor;
  gint64 removal;
  guint touched;
  gint64 cut;
  gboolean loose; /* capacities do not count */
} TgMatchingGoal;

typedef struct _TgMatchingTable TgMatchingTable;

typedef struct
{
  const TgMatchingSet *set;
  const TgMatchingLimits *limits;
  guint64 nodes;
  guint64 pause; /* > 0: give up at so many nodes, for now */
  gboolean stopped;
  TgMatchingTable *failed;
  TgMatchingGoal goal;
  gboolean only_total; /* neither count, cut, capacity nor rules matter */
  guint8 chosen[N][K]; /* by assembly: places */
} TgMatchingSearch;

/* matching-set.c; FALSE: already the rules cannot be kept */
gboolean tg_matching_set_prepare (const TgMatchingProblem *problem, TgMatchingSet *set);

/* Gives every assembly of @chosen a cylinder, with few changes from today. */
void tg_matching_set_place (const TgMatchingSet *set, guint8 chosen[N][K], TgMatchingPlan *plan);

/* matching-bound.c */
void
tg_matching_sums (const TgMatchingSet *set, const guint64 *left, guint m, TgMatchingSums *sums);

/* FALSE: no assemblies of what is left all reach @floor, or lose at most @removal. */
gboolean tg_matching_bound_holds (
    const TgMatchingSums *sums, guint k, gint64 floor, gint64 top, gint64 removal);

/* The highest floor at which the heavy parts left can be shared out, -1: at none; @assemblies: how
 * many stay at or below it. */
gint64 tg_matching_bound_classes (const TgMatchingSet *set,
                                  const guint64 *left,
                                  guint m,
                                  guint *assemblies);

/* The highest floor that the closed bounds allow; says why in @why. */
gint64 tg_matching_bound_floor (const TgMatchingSet *set, TgMatchingResult *why);

/* The highest floor at or below @floor that the residues allow; says in @why if it is another. */
gint64 tg_matching_bound_residue (const TgMatchingSet *set, gint64 floor, TgMatchingResult *why);

/* The least total with this floor or a lower one; takes @why over from the floor's, or its own. */
gint64 tg_matching_bound_total (const TgMatchingSet *set, gint64 floor, TgMatchingResult *why);

/* matching-classes.c: the highest floor that two batches mixed allow, -1: none; @assemblies: how many
 * of those with the fewest heavy parts dictate it */
gint64 tg_matching_classes_floor (const TgMatchingSet *set, guint *assemblies);

/* matching-start.c: local search; TRUE: chosen[] reaches the goal's floor and removal, FALSE: it is
 * as near as could be found. */
gboolean tg_matching_start (TgMatchingSearch *search, const TgMatchingGoal *goal, guint tries);

/* matching-search.c */
void tg_matching_search_init (TgMatchingSearch *search,
                              const TgMatchingSet *set,
                              const TgMatchingLimits *limits);
void tg_matching_search_clear (TgMatchingSearch *search);

/* Counts one node; FALSE: stop. */
gboolean tg_matching_search_count (TgMatchingSearch *search);

/* The same for one that takes long: asks whether to stop at each. */
gboolean tg_matching_search_ask (TgMatchingSearch *search);

/* TRUE: found, in chosen[]. FALSE and not stopped: there is none. */
gboolean tg_matching_search_decide (TgMatchingSearch *search, const TgMatchingGoal *goal);

/* The same with at most @nodes; FALSE says nothing. */
gboolean
tg_matching_search_probe (TgMatchingSearch *search, const TgMatchingGoal *goal, guint nodes);

/**
 * TgMatchingLeft:
 * @left: by family: the parts that are left
 * @m: assemblies to make of them
 * @removal, @touched, @changes: what these may still cost
 */
typedef struct
{
  guint64 left[K];
  gint64 removal;
  guint16 m, touched, changes;
} TgMatchingLeft;

/* TRUE: this was stored as failed with at least as much to spend. */
gboolean tg_matching_table_has (const TgMatchingTable *table, const TgMatchingLeft *left);
void tg_matching_table_add (TgMatchingTable *table, const TgMatchingLeft *left);
void tg_matching_table_forget (TgMatchingTable *table);

/* The most that can still come off one assembly. */
gint64 tg_matching_left_most (const TgMatchingLeft *left, const TgMatchingGoal *goal);

/* TRUE: the closed bounds rule out any assemblies of what is left. */
gboolean tg_matching_left_hopeless (const TgMatchingSet *set,
                                    const TgMatchingLeft *left,
                                    const TgMatchingGoal *goal);

/* TRUE: the parts of an assembly can lose as much as the goal's floor asks. */
gboolean tg_matching_left_take (const TgMatchingSet *set,
                                TgMatchingLeft *left,
                                const TgMatchingGoal *goal,
                                const guint8 *picked,
                                gint64 weight);

/* matching-today.c: the plan with at most @changes and the lowest numbers; TRUE: found, in @plan */
gboolean tg_matching_today_decide (TgMatchingSearch *search,
                                   const TgMatchingGoal *goal,
                                   guint changes,
                                   TgMatchingPlan *plan);
