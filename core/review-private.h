/* review-private.h: the steps of a review, for its own files only
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tg_review_new() runs them in this order; each reads what the ones before have written.
 */
#pragma once

#include "review.h"
#include "target-plan.h"

G_BEGIN_DECLS

/* Two weights are the same below this: far under a milligram, far over rounding noise. */
#define TG_REVIEW_TINY_G 1e-7

/**
 * TgReviewReading: what one event of the journal says, by its index
 * @value_g: grams, free of the zero error that the checks of the day show
 * @span, @share: index of the span of zero checks it lies in, and where; -1: no zero check that day
 * @support, @way: what it was read with, and which face lay up
 */
typedef struct
{
  double value_g;
  double share;
  int span;
  TgSupport support;
  TgWay way;
} TgReviewReading;

/**
 * TgReviewSpan: from one zero check to the next of the same day
 * @change_g: how far the zero went, as it was read
 * @went_g2: square of how far it went itself, without what two looks differ by
 * @open: no check followed
 * @fresh: it does not begin with the reading that ended the span before: the scale was set to zero
 */
typedef struct
{
  double change_g;
  double went_g2;
  gboolean open;
  gboolean fresh;
} TgReviewSpan;

/**
 * TgReviewFamily: all that repeats, for a single reading to be held against
 * @repeats: how many, beyond the first readings
 * @squares: about their means, free of what zero errors do
 * @freedom: how well their scatter is known
 */
typedef struct
{
  double repeats;
  double squares;
  double freedom;
} TgReviewFamily;

/* A reading in a mean: event of the journal and weight. */
typedef struct
{
  guint event;
  double weight;
} TgReviewUse;

/* By figure and way: the readings (element-type TgReviewUse) of one part since the last pass on it, in
 * order of the journal; NULL where there are none. */
typedef GArray *TgReviewSlots[TG_N_FIGURES][TG_N_WAYS];

/* With fewer repeats than this nothing is known of how well a scale repeats. */
#define TG_REVIEW_MIN_FREEDOM 4

/**
 * TgReviewBench: what the scale did, reading by reading
 * @slots: by part
 * @readings, @part_of: by event; @part_of: index of its part or -1
 * @spans: (element-type TgReviewSpan)
 * @family: by TgSupport
 * @zero_u_g: standard uncertainty of one look at the empty scale
 * @open_u_g: how far the zero may go where no check follows
 * @wander_freedom: of review->scale.wander_g
 */
typedef struct
{
  TgReviewReading *readings;
  int *part_of;
  TgReviewSlots *slots;
  guint n_parts;
  GArray *spans;
  TgReviewFamily family[TG_N_SUPPORTS];
  double zero_u_g;
  double open_u_g;
  double wander_freedom;
} TgReviewBench;

/* 1. review-scale.c: zero errors, repeatability, checks */
TgReviewBench *tg_review_bench_new (TgReview *review, const TgJob *job);
void tg_review_bench_free (TgReviewBench *bench);

/* review-repeats.c: between the two */
void tg_review_slots_clear (TgReviewSlots slots);
void tg_review_find_repeatability (TgReview *review, const TgJob *job, TgReviewBench *bench);

/* review-checks.c: the last of these */
void tg_review_judge_checks (TgReview *review, const TgJob *job, TgReviewBench *bench);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgReviewBench, tg_review_bench_free)

/* What is taken while there are too few repeats. */
TgRepeatability tg_review_assumed_repeatability (TgMass step);

TgSupport tg_review_support (TgFigure figure);

/* What errors of the zero do to a figure: variance = looks × (u of one look)² + path_g2. */
typedef struct
{
  double looks;
  double path_g2;
} TgReviewZeroPart;

/* review-known.c.  @uses: @n readings in order of time, weights of either sign. */
TgReviewZeroPart tg_review_zero_part (const TgReviewBench *bench, const TgReviewUse *uses, guint n);
TgUncertainty tg_review_zero_u (const TgReview *review,
                                const TgReviewBench *bench,
                                const TgReviewUse *uses,
                                guint n,
                                double path_freedom);

/**
 * tg_review_squares:
 * @uses: @n readings in order of time; their weights are overwritten
 *
 * Returns: squares of the readings about their mean, and how much of that is owed to zero errors that
 *   they do not share.
 */
typedef struct
{
  double squares;
  TgReviewZeroPart zero;
} TgReviewSquares;

TgReviewSquares tg_review_squares (const TgReviewBench *bench, TgReviewUse *uses, guint n);

/**
 * tg_review_use_u:
 * @uses: @n readings in order of time, weights of either sign
 * @load_g: what lay on the scale
 * @path_freedom: of the way that the zero went between two looks
 *
 * Returns: u of Σ weight × reading, without what rounding does that repeats do not average out.
 */
TgUncertainty tg_review_use_u (const TgReview *review,
                               const TgReviewBench *bench,
                               const TgReviewUse *uses,
                               guint n,
                               double load_g,
                               double path_freedom);

void tg_review_sort_uses (GArray *uses);

/* Of the mean of @weight, without what rounding does.  @readings: (element-type guint): its events */
TgUncertainty tg_review_mean_u (const TgReview *review,
                                const TgReviewBench *bench,
                                const TgWeight *weight,
                                const GArray *readings);

/* turn_u_g and turn_freedom, where both ways up were read. */
void tg_review_reckon_turn (const TgReview *review,
                            const TgReviewBench *bench,
                            TgWeight *weight,
                            const GArray *readings);

/* closure_g, closure_u_g and closure_freedom.  @readings: by TgFigure */
void tg_review_reckon_closure (const TgReview *review,
                               const TgReviewBench *bench,
                               TgPartReview *part,
                               GArray *const readings[TG_N_FIGURES]);

/* Between two readings that follow one another the zero seldom goes far, but then all the way: a
 * distribution with long tails, about as Student's t with so few degrees of freedom. */
#define TG_REVIEW_JUMP_FREEDOM 4.0

/* What one stretch of passes on one zone of one part has taken off both ends. */
typedef struct
{
  const TgDesign *design;
  guint zone;
  TgLeverLearningPair pair;
} TgReviewArmLesson;

/* What one pass took for what was asked: grams (NONE), strokes or seconds. */
typedef struct
{
  TgTool tool;
  TgMetal metal;
  TgEffort effort;
  TgLeverLearningPass pass;
} TgReviewPassLesson;

typedef struct
{
  GArray *arms;   /* TgReviewArmLesson */
  GArray *passes; /* TgReviewPassLesson */
} TgReviewLessons;

/* review-learning.c. FALSE if there is nothing to learn from. */
gboolean tg_review_learn_arms (TgReview *review, const TgReviewLessons *lessons);
void tg_review_learn_methods (TgReview *review, const TgReviewLessons *lessons);

/* Where a zone lies and how well that is known, as it is drawn; nothing for pistons. */
TgLeverLearning tg_review_drawn_lever (const TgDesign *design, const TgZone *zone);

/* Everything that the journal says of a part is forgotten; what was learned of its zones stays. */
void tg_part_review_reset (TgPartReview *part);

/* 2. review-weights.c: replays the journal: weights, passes, zones, frozen, days, rises */
void tg_review_weigh (TgReview *review, const TgJob *job, const TgReviewBench *bench);

/* review-sums.c: between the two: what sits where, and what is weighed together */
void tg_review_find_sums (TgReview *review);

/* Small ends have changed by the plan: what the pistons go with then. */
void tg_review_carry_planned (TgReview *review);

/* The figure of a row with what is carried with it, as one weight; not read unless all of it is.  Row 0
 * of a rod that is planned together with its piston is that piston's sum. */
TgWeight tg_review_row_sum (const TgReview *review, const TgPartReview *part, guint row);

/* What a row of the plan weighs: as it is now, but with what the small end will have become. */
double tg_review_row_planned_g (const TgReview *review, const TgPartReview *part, guint row);

/* (transfer full): what counts in a row besides the part's own figure; "" for nothing */
char *tg_review_row_words (const TgReview *review, const TgPartReview *part, guint row);

/* (nullable): at the bore of @rod */
const TgPartReview *tg_review_piston_of (const TgReview *review, const TgPartReview *rod);

/* TRUE if rods and pistons are planned together: the sum has a band, the small ends have none.  The set
 * of rods is then that of both: row 0 is the sum of the bore. */
gboolean tg_review_joint (const TgReview *review);

/* The band of a row of the plan, and what a person calls what has to lie in it. */
TgBand tg_review_row_band (const TgReview *review, TgPartKind kind, guint row);
const char *tg_review_row_label (const TgReview *review, TgPartKind kind, guint row);

/* 3. review-plan.c: bands, targets, plans per part and zone, states */
void tg_review_plan (TgReview *review, const TgJob *job);

/* 4. review-findings.c */
void tg_review_find (TgReview *review, const TgJob *job, const TgReviewBench *bench);

/* review-findings-bench.c: what the bench itself is suspected of */
void tg_review_find_bench (TgReview *review, const TgReviewBench *bench);

/* Takes @text; copies @advice.  Lends the finding, for what it was held against. */
TgFinding *tg_review_add_finding (TgReview *review,
                                  TgFindingCode code,
                                  TgSeverity severity,
                                  int part,
                                  int event,
                                  char *text,
                                  const char *advice);

/* What the difference of two figures may be by chance.  @false_alarm: two-sided; @least: see TgHeld */
TgHeld
tg_review_hold (double of, double against, TgUncertainty known, double false_alarm, double least);

/* The difference is larger than what it is held against. */
gboolean tg_review_is_off (const TgHeld *held);

/* 5. review-decisions.c */
void tg_review_decide (TgReview *review);

/* 6. review-next.c: the next instruction and the standing line */
void tg_review_look_ahead (TgReview *review, const TgJob *job);

/* The grams by which a figure falls for one gram off a zone, as drawn and as passes have taught.  Of a
 * piston that counts with a rod: all of it off the sum with the small end, nothing off the big end. */
double tg_review_effect (const TgPartReview *part, TgFigure figure, guint zone);

/**
 * tg_review_add_zones:
 * @plan: has its rows; the zones of @part that may still give are added, as many as fit
 * @figures: by row: what the row weighs
 * @zone_of: (nullable): by zone of the plan: zone of the design
 * @allow: (nullable): a zone that counts as usable although it is not
 */
void tg_review_add_zones (TgPlanPart *plan,
                          const TgPartReview *part,
                          const TgFigure *figures,
                          guint *zone_of,
                          const TgZone *allow);

/* The most that the usable zones can still take off a figure. */
double tg_review_capacity_g (const TgPartReview *part, TgFigure figure);

/* Figure of a row of the plan. */
TgFigure tg_review_row_figure (TgPartKind kind, guint row);

/* What passes of @tool have taught; what to expect before the first where *n is 0. */
TgLeverLearningMethod
tg_review_method (const TgReview *review, TgTool tool, TgMetal metal, TgEffort effort, guint *n);
/* 0 for what is only weighed. */
guint tg_review_n_rows (const TgReview *review, TgPartKind kind);

/* The same of the set that is planned: 0 for pistons that are planned together with their rods. */
guint tg_review_planned_rows (const TgReview *review, TgPartKind kind);

/**
 * TgReviewSet: the parts of one kind as a problem for the solver
 * @index: of each part in the review
 * @lender, @n_own: by part: index of the piston whose zones follow the first n_own, or -1
 * @zone_of: by part and plan zone: zone of the design
 */
typedef struct
{
  TgPartKind kind;
  guint n;
  guint index[2 * TG_MAX_CYLINDERS];
  int lender[2 * TG_MAX_CYLINDERS];
  guint n_own[2 * TG_MAX_CYLINDERS];
  TgPlanPart parts[2 * TG_MAX_CYLINDERS];
  guint zone_of[2 * TG_MAX_CYLINDERS][TG_PLAN_MAX_ZONES];
  TgTargetProblem problem;
} TgReviewSet;

/**
 * tg_review_set_init:
 * @allow: a zone that counts as usable although it is not, or NULL
 * @without: index of a part that is left out, or -1
 *
 * Only parts in work that were weighed, with all that is carried with them, are in the set.
 * problem.fixed is set for decided targets.  Where rods and pistons are planned together the set of
 * rods holds the zones of both, as many as a plan can hold, and that of pistons is empty.
 */
void tg_review_set_init (
    TgReviewSet *set, const TgReview *review, TgPartKind kind, const TgZone *allow, int without);

/* The standard uncertainty of one reading, in g. */
double tg_review_reading_u_g (const TgReview *review, TgSupport support);

/* review-why.c: reasons; they append terms to @why. */
void tg_review_why_weight (const TgReview *review,
                           GPtrArray *why,
                           const TgPartReview *part,
                           TgFigure figure);
/* The figure of a row, what is carried with it, and its band if there is one. */
void
tg_review_why_row (const TgReview *review, GPtrArray *why, const TgPartReview *part, guint row);
/* How the amount of one zone comes about. */
void tg_review_why_amounts (const TgReview *review, GPtrArray *why, guint part, guint zone);
void tg_review_why_pass (const TgReview *review, const TgNext *next);

/* How likely it is that a figure lies in its band. */
void tg_review_why_verdict (GPtrArray *why, const TgWeight *weight);

/* review-proof.c: of every band that is even, and of its figures, whether it is proven */
void tg_review_prove (TgReview *review);

/* Sets pass_g, effort and count of a GRIND instruction that has the rest. */
void tg_review_plan_pass (const TgReview *review, TgNext *next, TgTool tool);

GPtrArray *tg_choices_new (void);
void tg_term_free (TgTerm *term);
GPtrArray *tg_terms_new (void);
/* Takes @figure; copies the rest. */
void tg_terms_add (GPtrArray *terms, const char *label, char *figure, const char *remark);

G_END_DECLS
