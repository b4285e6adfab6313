/* pairing.h: which part goes with which, from a job to the solver and back
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A TgPairing is made from a review and owns all it needs, so that a thread may solve it while the
 * review moves on.  Weights are taken in whole steps of the scale.  The solver is in matching.h.
 */
#pragma once

#include <glib.h>

#include "matching.h"
#include "review.h"

G_BEGIN_DECLS

/* The two sums in which parts can change hands. */
typedef enum
{
  TG_PAIRING_PISTONS,  /* piston, pin, ring pack, clips and, if they are in it, small ends */
  TG_PAIRING_BEARINGS, /* bearing pairs and big ends; the rods stay where they are */
} TgPairingSum;
#define TG_N_PAIRING_SUMS 2

/**
 * TgPairingFamily:
 * @kind: pistons first, then as in TgPartKind; rods last
 * @part: (array length=n): indices into review->parts, by number of the solver
 * @name: (array length=n): "Pin 3"
 */
typedef struct
{
  TgPartKind kind;
  guint n;
  guint *part;
  char **name;
} TgPairingFamily;

/* Rods and pistons that are planned together: what the zones of each can do. Opaque. */
typedef struct _TgPairingJoint TgPairingJoint;

/**
 * TgPairing:
 * @problem: what it points to belongs to the pairing
 * @step_g: grams of one step
 * @decimals: of grams that are shown
 * @families: as in @problem
 * @joint: (nullable): small ends are in the sum only: what comes off rods and pistons is found together
 */
typedef struct
{
  TgMatchingProblem problem;
  double step_g;
  guint decimals;
  TgPairingFamily families[TG_MATCHING_MAX_FAMILIES];
  TgPairingJoint *joint;
} TgPairing;

/**
 * TgPairingResult: what was found
 * @sums: of the sums alone; @sums.plan is the pairing to show
 * @joint: rods and pistons are planned together: what counts is @metal_g, not the sums; @sums.plan is
 *   the pairing with the least of it that was found
 * @metal_g: joint: off rods and pistons together, big ends made even at the same time, before whole
 *   steps
 * @bound_g: joint: no pairing takes less
 */
typedef struct
{
  TgMatchingResult sums;
  gboolean joint;
  double metal_g;
  double bound_g;
} TgPairingResult;

/**
 * tg_pairing_new:
 * @why_not: (out) (transfer full) (nullable): what is missing, as a sentence for the person: nothing
 *   to pair, parts not yet weighed (named), fewer parts than bores, more parts than can be searched
 *
 * Spares that were never weighed take no part, nor do those of a family that has more parts than can be
 * searched at once: then the set is chosen from the shelf first (tg_pairing_choose()).
 * Returns: (transfer full) (nullable): tg_pairing_unref()
 */
TgPairing *tg_pairing_new (const TgReview *review, TgPairingSum sum, char **why_not);

/* Counted atomically. */
TgPairing *tg_pairing_ref (TgPairing *pairing);
void tg_pairing_unref (TgPairing *pairing);

/**
 * tg_pairing_solve:
 * @result: (out): judged by tg_matching_evaluate(), which is apart from the search
 *
 * The exact search over the sums.  Where rods and pistons are planned together its pairing is then
 * bettered by exchanging parts, each exchange judged by the exact plan over all zones; that is a
 * search that may miss the best, so it comes with a bound from the relaxed programme.
 */
void tg_pairing_solve (const TgPairing *pairing,
                       const TgMatchingLimits *limits,
                       TgPairingResult *result);

/* Off rods and pistons together in @plan, in g; INFINITY where it cannot be made even.  For pairings with
 * @joint only. */
double tg_pairing_metal_g (const TgPairing *pairing, const TgMatchingPlan *plan);

/* What @plan costs, in g: off rods and pistons together with @joint, else off the sets. */
double tg_pairing_cost_g (const TgPairing *pairing, const TgMatchingPlan *plan);

/**
 * TgPairingSet: one bore of a pairing
 * @weight_g: of the sum as it is now
 * @off_g: what comes off it; with @joint off its rod and piston, the big end included
 */
typedef struct
{
  double weight_g;
  double off_g;
} TgPairingSet;

/**
 * tg_pairing_sets:
 * @sets: (out): by cylinder
 *
 * Returns: the lower edge of the band of the sums, in g.
 */
double tg_pairing_sets (const TgPairing *pairing, const TgMatchingPlan *plan, TgPairingSet *sets);

/* What a part counts in the sum as it is now, in g. */
double tg_pairing_part_g (const TgPairing *pairing, guint family, guint number);

/* TRUE if both are the same problem with the same parts: what was found for one holds for the other. */
gboolean tg_pairing_equal (const TgPairing *a, const TgPairing *b);

/**
 * tg_pairing_today:
 * @plan: (out): as the parts sit now
 *
 * Returns: FALSE if a bore lacks a part; then @plan is undefined.  A pairing of today that breaks a rule
 *   is given all the same; @rules_kept (nullable) says so.
 */
gboolean tg_pairing_today (const TgPairing *pairing, TgMatchingPlan *plan, gboolean *rules_kept);

/**
 * tg_pairing_swap:
 * @plan: a pairing
 * @family: in @pairing
 * @part: number of a part in its family: it goes to cylinder @to, and the one that sits there takes its
 *   place (or becomes a spare)
 * @swapped: (out): what comes of it
 *
 * Returns: FALSE if it breaks a rule; @swapped is evaluated all the same.
 */
gboolean tg_pairing_swap (const TgPairing *pairing,
                          const TgMatchingPlan *plan,
                          guint family,
                          guint part,
                          guint to,
                          TgMatchingPlan *swapped);

/* (transfer full): why not the other way round, with figures: "Pin 5 in bore 2 and pin 2 in bore 5:
 * 1.3 g more would have to come off. Set 2 would weigh …". Or which rule it breaks, or that it costs the
 * same and only more parts would change hands. */
char *tg_pairing_swap_words (
    const TgPairing *pairing, const TgMatchingPlan *plan, guint family, guint part, guint to);

/* (transfer full) (nullable): the first rule or limit that @plan breaks, as a sentence; NULL for none */
char *tg_pairing_breaks (const TgPairing *pairing, const TgMatchingPlan *plan);

/* (transfer full): "2.4 g off 3 of 8 sets", or "17.9 g off rods and pistons": what @plan takes */
char *tg_pairing_plan_words (const TgPairing *pairing, const TgMatchingPlan *plan);

/* (transfer full): how sure that is: "Proven: no pairing takes less." or "Best found; no pairing takes
 * less than 2.1 g.", "No pairing keeps every rule.", "None was found in the time given; there may be one." */
char *tg_pairing_proof_words (const TgPairing *pairing, const TgPairingResult *result);

/* (transfer full) (element-type TgTerm): the proof step by step, with its figures. */
GPtrArray *tg_pairing_why (const TgPairing *pairing, const TgPairingResult *result);

/* Steps of the solver as grams. */
static inline double
tg_pairing_g (const TgPairing *pairing, gint64 steps)
{
  return (double) steps * pairing->step_g;
}

/**
 * tg_pairing_accept:
 * @review: of the job as it is now
 * @plan: of @pairing
 *
 * Returns: (transfer full): a way to go: its events put the parts at their bores and set free targets that
 *   were held for the old pairing, if its parts have changed; free with tg_choice_free()
 */
TgChoice *
tg_pairing_accept (const TgReview *review, const TgPairing *pairing, const TgMatchingPlan *plan);

/**
 * TgPairingOdd: one part, replaced by a fitting one, would save metal on the others
 * @words: "Replacing rod 3 saves 4.1 g of grinding on the others; look for one with a small end of 170.2
 *   to 170.7 g and a big end of …"
 * @why: (element-type TgTerm): the reason
 */
typedef struct
{
  char *words;
  GPtrArray *why;
} TgPairingOdd;

/**
 * tg_pairing_odd_one_out:
 *
 * Which one part, replaced by a fitting one, would save the most metal on the others.  Takes some
 * milliseconds.
 * Returns: (transfer full) (element-type TgPairingOdd): best first, the first three that save at least
 *   two steps
 */
GPtrArray *tg_pairing_odd_one_out (const TgReview *review, TgPartKind kind);

/**
 * tg_pairing_choose:
 * @kind: rods are chosen by both ends, all else by weight.  Families in the sum with the pistons have
 *   their spares tried in the pairing itself, as long as there are no more than it can search
 * @why_not: (out) (transfer full) (nullable): a sentence for the person, where NULL is returned
 *
 * The best of a shelf: of all parts of @kind that were weighed, spares too, as many as there are bores,
 * for the least metal with the tolerances of the job.  Zones count as what they can take off each
 * figure; that a zone moves both ends is left to the plan of the set that is chosen.
 * Returns: (transfer full) (nullable): chosen parts that sit at a bore keep it, the others go to those
 *   that are free; free with tg_choice_free()
 */
TgChoice *tg_pairing_choose (const TgReview *review, TgPartKind kind, char **why_not);

/**
 * TgPairingCrankpins: crankpins that carry two rods
 * @bore: by pin: its two bores
 * @sum_g: by pin: all that sits at both when the plan has been carried out
 * @spread_g: heaviest minus lightest
 * @choice: (nullable): whole sets moved to other bores, if that makes the pins more even; after the
 *   maker's manual
 */
typedef struct
{
  guint n_pins;
  guint bore[TG_MAX_CYLINDERS / 2][2];
  double sum_g[TG_MAX_CYLINDERS / 2];
  double spread_g;
  TgChoice *choice;
} TgPairingCrankpins;

/* (transfer full) (nullable): NULL where each rod has its own pin, or something was not weighed */
TgPairingCrankpins *tg_pairing_crankpins (const TgReview *review);
void tg_pairing_crankpins_free (TgPairingCrankpins *pins);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPairingCrankpins, tg_pairing_crankpins_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPairing, tg_pairing_unref)

G_END_DECLS
