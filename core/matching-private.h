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
 * @kin: by part: those that may meet the same and need not be used less
 * @limited: capacities can matter
 * @net: by part: what it weighs at least when metal has come off
 * @by_net: by family: places by rising net weight
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
  guint64 kin[K][P];
  gboolean limited;
  gint64 net[K][P];
  guint8 by_net[K][P];
  gboolean rules;
  gint64 modulus, residue;
  TgMatchingSums sums;
} TgMatchingSet;

#define TG_MATCHING_MOST_POINTS 3
#define TG_MATCHING_MAX_POINTS (N * K * TG_MATCHING_MOST_POINTS)

/**
 * TgMatchingShares:
 * @points: by family: of a heavy part; a light one has none
 * @n_light, @n_heavy: by family, at most @m
 * @light, @heavy: by family and number: sums of the heaviest
 * @most: by assemblies and points: what so many weigh at most, -1: they cannot have these points
 * @floor: the highest that the shares allow, -1: none
 * @count: how many of the assemblies with the fewest points dictate it
 */
typedef struct
{
  guint k, m;
  guint points[K];
  guint n_light[K], n_heavy[K];
  gint64 light[K][N + 1], heavy[K][N + 1];
  gint64 most[N + 1][TG_MATCHING_MAX_POINTS + 1];
  gint64 floor;
  guint count;
} TgMatchingShares;

/* What a search looks for: every weight ≥ floor, removals down to floor + tolerance within these. */
typedef struct
{
  gint64 floor;
  gint64 removal;
  guint touched;
  gint64 cut;
  gboolean loose; /* capacities do not count */
} TgMatchingGoal;

typedef enum
{
  TG_MATCHING_NO,
  TG_MATCHING_YES,
  TG_MATCHING_OPEN,
} TgMatchingAnswer;

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
  gboolean limited;     /* capacities can matter */
  guint64 boundless[K]; /* by family: parts that may lose all that can be asked */
  gboolean only_total;  /* count and cut do not */
  guint8 chosen[N][K];  /* by assembly: places */
} TgMatchingSearch;

/* matching-set.c: every number is within its range */
gboolean tg_matching_set_is_valid (const TgMatchingProblem *problem);

/* FALSE: already the rules cannot be kept */
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

/* TRUE: the parts left can get below @top. */
gboolean tg_matching_bound_net (const TgMatchingSet *set, const guint64 *left, guint m, gint64 top);

/* The lowest floor that what may come off the parts allows. */
gint64 tg_matching_bound_lowest (const TgMatchingSet *set);

/* The highest floor that the closed bounds allow, with the shares if they are known; says why in
 * @why. */
gint64 tg_matching_bound_floor (const TgMatchingSet *set,
                                const TgMatchingShares *shares,
                                TgMatchingResult *why);

/* The highest floor at or below @floor that the residues allow; says in @why if it is another. */
gint64 tg_matching_bound_residue (const TgMatchingSet *set, gint64 floor, TgMatchingResult *why);

/* The least total with this floor or a lower one; takes @why over from the floor's, or its own. */
gint64 tg_matching_bound_total (const TgMatchingSet *set, gint64 floor, TgMatchingResult *why);

/* matching-classes.c; g_free() it */
TgMatchingShares *tg_matching_shares_new (const TgMatchingSet *set);

/* Of an assembly of heavy parts only. */
guint tg_matching_all_points (const TgMatchingShares *shares);

/* matching-split.c: the same as tg_matching_search_decide(), where the assemblies with few heavy
 * parts leave little to choose; OPEN: they do not, or it was stopped. */
TgMatchingAnswer tg_matching_split_decide (TgMatchingSearch *search,
                                           const TgMatchingShares *shares,
                                           const TgMatchingGoal *goal);

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

/* Starts to look for another goal. */
void tg_matching_search_aim (TgMatchingSearch *search, const TgMatchingGoal *goal);

/* TRUE: found, in chosen[]. FALSE and not stopped: there is none. */
gboolean tg_matching_search_decide (TgMatchingSearch *search, const TgMatchingGoal *goal);

/* What follows may look at so many nodes, then it is stopped for now. */
void tg_matching_search_pause (TgMatchingSearch *search, guint64 nodes);

/* Ends that; with the answer to it: @found, or none, or open if it was stopped. */
TgMatchingAnswer tg_matching_search_resume (TgMatchingSearch *search, gboolean found);

/**
 * TgMatchingLeft:
 * @left: by family: the parts that are left
 * @m: assemblies to make of them
 * @removal, @touched, @changes: what these may still cost
 * @cylinders: those that are left, where they are looked at
 */
typedef struct
{
  guint64 left[K];
  gint64 removal;
  guint32 cylinders;
  guint16 m, touched, changes;
} TgMatchingLeft;

/* The same as decide for what is left, with the search's goal; found: in the first of chosen[]. */
gboolean tg_matching_search_expand (TgMatchingSearch *search, const TgMatchingLeft *left);

/* matching-table.c */
TgMatchingTable *tg_matching_table_new (void);
void tg_matching_table_free (TgMatchingTable *table);

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

/* matching-today.c: a plan with at most @changes, @ordered: the one of the lowest numbers; TRUE:
 * found, in @plan */
gboolean tg_matching_today_decide (TgMatchingSearch *search,
                                   const TgMatchingGoal *goal,
                                   guint changes,
                                   gboolean ordered,
                                   TgMatchingPlan *plan);
