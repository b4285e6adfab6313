/* review.h: everything that follows from a job, computed in one place
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * tg_review_new() is a pure function of the job: no clock, no random numbers, no locale, no files.
 * It is computed once per event; drawings, pages, sheets and texts read it and compute nothing.
 * All strings and pointers inside live as long as the review.
 */
#pragma once

#include <glib.h>

#include "check-weight.h"
#include "job.h"
#include "lever-learning.h"
#include "removal-plan.h"
#include "uncertainty.h"

G_BEGIN_DECLS

/* Of confidence, two-sided: what "±" covers, and what counts as proven. */
#define TG_REVIEW_LEVEL 0.95

/* How often each check of the bench alarms although nothing is wrong.  The two ways up of one end twice
 * as often as the rest: at the rate of the others a bearing that catches by 3 to 10 u of one reading
 * would go unseen in more than 5 of 100 cases with two readings each way up. */
#define TG_REVIEW_FALSE_ALARM 0.01
#define TG_REVIEW_FALSE_TURN 0.02

typedef enum
{
  TG_WEIGHT_NONE,      /* never read */
  TG_WEIGHT_ESTIMATED, /* metal came off since it was read: reckoned from statics */
  TG_WEIGHT_READ,      /* read since the last pass */
} TgWeightBasis;

/**
 * TgWeight: one figure of one part as it is now
 * @mean_g: of both ways up (each way counts half); with one way only, corrected by half the
 *   difference that the two ways last had
 * @n: by TgWay: readings since the last pass
 * @way_g: by TgWay: their mean, where n > 0
 * @turn_g: mark up minus mark down, where both have been read
 * @has_turn: @turn_g is known
 * @turn_u_g, @turn_freedom: standard uncertainty of @turn_g where both ways were read since the last
 *   pass
 * @u_g, @freedom: standard uncertainty of @mean_g and its degrees of freedom.  What errs alike for
 *   the whole set, the scale's own adjustment, is not in it.
 * @expanded_g: half width of the interval around @mean_g that holds the true figure with
 *   TG_REVIEW_LEVEL: what stands behind "±"
 * @judged: @verdict is known: there is a band and the figure was read since the last pass
 * @probability: that the true figure lies inside the band
 * @proven: it lies there for sure enough: by itself (@verdict), or because its whole band is proven
 */
typedef struct
{
  TgWeightBasis basis;
  double mean_g;
  guint n[TG_N_WAYS];
  double way_g[TG_N_WAYS];
  double turn_g;
  gboolean has_turn;
  double turn_u_g;
  double turn_freedom;
  double u_g;
  double freedom;
  double expanded_g;
  gboolean judged;
  TgUncertaintyVerdict verdict;
  double probability;
  gboolean proven;
} TgWeight;

/**
 * TgHistoryPoint: the readings of one figure between two passes on its part
 * @piece: 0, and one more after each replacement
 * @stamp: of the last of them
 * @n: how many
 * @mean_g, @u_g, @expanded_g: as in TgWeight, for these readings alone
 */
typedef struct
{
  TgFigure figure;
  guint piece;
  TgStamp stamp;
  guint n;
  double mean_g;
  double u_g;
  double expanded_g;
} TgHistoryPoint;

/**
 * TgHistoryPass: a pass on a part
 * @taken_g: as a reading has shown it; as wanted until then
 * @shown: a reading has shown it
 * @event: index in the journal
 */
typedef struct
{
  TgStamp stamp;
  guint piece;
  guint zone;
  double taken_g;
  gboolean shown;
  guint event;
} TgHistoryPass;

typedef enum
{
  TG_STATE_UNWEIGHED,   /* a figure that is needed was never read */
  TG_STATE_WAITING,     /* weighed, but others of the set are not: no target yet */
  TG_STATE_TO_GRIND,    /* metal still has to come off */
  TG_STATE_WEIGH_AGAIN, /* ground since it was read */
  TG_STATE_EVEN,        /* in its bands */
  TG_STATE_TOO_LIGHT,   /* below a band */
  TG_STATE_OUT_OF_REACH /* above a band and no zone can bring it down */
} TgState;
#define TG_N_STATES (TG_STATE_OUT_OF_REACH + 1)

/**
 * TgZoneReview:
 * @zone: of the design in force
 * @amount_g: still to come off, both sides together; 0 if none
 * @depth_mm: what that means on each side; 0 if the area is not known
 * @at_most_g: where a weight would fall below its band; ≥ @amount_g
 * @taken_g: what passes took so far, as weighed
 * @left_g: what the zone can still give
 * @passes: how many
 * @lever: of rods: where the zone lies, as share of the centre distance from the big end: the
 *   drawing's, bettered by what passes on this zone of this design have shown.  .freedom 0: none yet
 */
typedef struct
{
  const TgZone *zone;
  double amount_g;
  double depth_mm;
  double at_most_g;
  double taken_g;
  double left_g;
  guint passes;
  TgLeverLearning lever;
} TgZoneReview;

/**
 * TgCarried: what is weighed against a band together with a figure
 * @any: something is
 * @known: all of it sits at the bore and has been weighed
 * @read: all of it was read since the last pass on it
 * @grams, @u_g, @freedom: together, with standard uncertainty
 * @then_g: together, when the plan has been carried out
 */
typedef struct
{
  gboolean any;
  gboolean known;
  gboolean read;
  double grams;
  double then_g;
  double u_g;
  double freedom;
} TgCarried;

/**
 * TgPartReview:
 * @frozen: by decision
 * @pieces: 1, plus one for each replacement
 * @weight: by TgFigure; pistons have TG_FIGURE_WHOLE only
 * @pass_open: a pass has not been followed by a reading that shows what it took
 * @last_zone: of the last pass
 * @has_closure: small end, big end and whole were all read
 * @closure_g: small end + big end − whole
 * @closure_u_g, @closure_freedom: its standard uncertainty
 * @plan: of the whole part; rows as tg_part_review_row()
 * @zones: (element-type TgZoneReview): every zone of the design, in its order
 * @to_come_off_g: sum over zones
 * @in_work: a rod or a piston at a bore: something that is ground to a band.  The others, and spares,
 *   are only weighed
 * @carried: by row of tg_part_review_row(): what is carried with its figure in the sum of its bore; of
 *   a rod with TG_SMALL_ENDS_SUM its piston and what goes with it are planned together with the small
 *   end, but the sum is the piston's
 * @history: (element-type TgHistoryPoint): in order of time
 * @pass_history: (element-type TgHistoryPass): in order of time
 */
typedef struct
{
  const TgPart *part;
  const TgDesign *design;
  TgState state;
  gboolean frozen;
  guint pieces;
  guint readings;
  guint passes;
  gboolean pass_open;
  guint last_zone;
  TgWeight weight[TG_N_FIGURES];
  gboolean has_closure;
  double closure_g;
  double closure_u_g;
  double closure_freedom;
  TgRemovalPlan plan;
  GArray *zones;
  double to_come_off_g;
  gboolean in_work;
  TgCarried carried[TG_PLAN_MAX_ROWS];
  GArray *history;
  GArray *pass_history;
} TgPartReview;

/**
 * TgSetReview: what sits at one bore
 * @part: by TgPartKind: index of the part, or -1
 * @complete: a part of each family that is in the sum with the pistons sits here
 * @known: complete, and all of it weighed
 * @sum_g: of those that are in the sum with the pistons, as they are now
 * @u_g, @freedom, @expanded_g: its uncertainty, as in TgWeight
 */
typedef struct
{
  guint bore;
  int part[TG_N_PART_KINDS];
  gboolean complete;
  gboolean known;
  double sum_g;
  double u_g;
  double freedom;
  double expanded_g;
} TgSetReview;

/* What a pairing has to keep, as it is in force; @other or @bore as the rule asks for. */
typedef struct
{
  TgRule rule;
  guint part;
  guint other;
  guint bore;
  guint event;
} TgRuleReview;

/**
 * TgBandReview: one figure over the set
 * @present: the job has such parts
 * @known: there is a target: every part was weighed, or it was decided
 * @decided: by the person (or taken over with the first pass)
 * @target_g: lower edge of the band; its upper edge is target + tolerance.  A decided one gives way
 *   to a part that reads less under it than its readings can tell
 * @spread_g: heaviest minus lightest as they are now, over the parts that were weighed
 * @n_in: parts inside the band
 * @even: every part was read since its last pass and the spread is within the tolerance
 * @n_proven: parts inside the band whose place there is proven
 * @probability: of a band that is even: that the true spread is within the tolerance
 * @proven: @probability reaches TG_REVIEW_LEVEL
 */
typedef struct
{
  gboolean present;
  gboolean known;
  gboolean decided;
  double target_g;
  double tolerance_g;
  double lightest_g;
  double heaviest_g;
  guint lightest;
  guint heaviest;
  double spread_g;
  guint n_parts;
  guint n_weighed;
  guint n_in;
  guint n_proven;
  gboolean even;
  double probability;
  gboolean proven;
} TgBandReview;

/* What a figure is read with. */
typedef enum
{
  TG_SUPPORT_STAND, /* one end on the stand, the other on the scale */
  TG_SUPPORT_SCALE, /* all of it on the scale: whole rods, pistons */
} TgSupport;
#define TG_N_SUPPORTS 2

/**
 * TgRepeatability: how well a reading repeats
 * @deviation_g: standard deviation of single readings as they are shown
 * @freedom: its degrees of freedom
 * @assumed: too few repeats yet: half a step of the scale is taken
 * @rounding_u_g: standard uncertainty from the step that repeating does not average out
 */
typedef struct
{
  double deviation_g;
  double freedom;
  gboolean assumed;
  double rounding_u_g;
} TgRepeatability;

/**
 * TgScaleCheck: a look at the empty scale or at the check weight
 * @event: index in the journal
 * @zero: of the empty scale
 * @set_back: zero: the scale was set to zero after it
 * @error_g: what the scale showed minus what it ought to have shown; of a check weight less the
 *   zero error of the moment
 * @doubtful_g, @off_g: limits of |@error_g|, on steps of the scale
 * @mpe_known: check weight: the table of its class has a line for it
 * @mpe_mg: check weight: what it may be out by; 0 if not known
 * @scale_u_g, @weight_u_g, @u_g: check weight: standard uncertainty of one reading, made wider where it
 *   is known from few repeats; of the weight; of both together
 * @scatter_g, @setting_g, @reach_g: zero: how far a look may scatter, how far off it may have been set,
 *   both together, with TG_REVIEW_LEVEL
 */
typedef struct
{
  TgStamp stamp;
  guint event;
  gboolean zero;
  gboolean set_back;
  TgMass nominal;
  gboolean mpe_known;
  double mpe_mg;
  double scale_u_g;
  double weight_u_g;
  double u_g;
  double scatter_g;
  double setting_g;
  double reach_g;
  double error_g;
  double doubtful_g;
  double off_g;
  TgCheckWeightVerdict verdict;
} TgScaleCheck;

/**
 * TgScaleReview: what the journal says of the scale
 * @repeatability: by TgSupport
 * @checks: (element-type TgScaleCheck): not struck, in order of the journal
 * @last_zero, @last_weight: index of the last of each in @checks, or -1
 * @readings_since_zero: weighings after @last_zero
 * @zero_left_g: what the last zero check left of the zero error, if it was made on the last day
 * @wander_g: standard deviation of what the check weight showed beyond what repeats explain, for
 *   one gram of load; 0 until there are three readings of it
 */
typedef struct
{
  TgRepeatability repeatability[TG_N_SUPPORTS];
  GArray *checks;
  int last_zero;
  int last_weight;
  guint readings_since_zero;
  double zero_left_g;
  double wander_g;
} TgScaleReview;

/* What passes of one tool on one metal have taught: grams for each gram wanted, stroke or second. */
typedef struct
{
  TgTool tool;
  TgMetal metal;
  TgEffort effort; /* NONE: grams wanted */
  guint n;         /* passes it was learned from */
  TgLeverLearningMethod method;
} TgMethodReview;

/* One line of a reason: "lever arm", "168 mm / 152 mm = 1.105", "the pad lies above the small end" */
typedef struct
{
  char *label;
  char *figure;
  char *remark;
} TgTerm;

typedef enum
{
  TG_FINDING_NOTICE,
  TG_FINDING_DOUBT,   /* look at it again */
  TG_FINDING_PROBLEM, /* the set cannot become even like this */
} TgSeverity;

typedef enum
{
  TG_FINDING_TURN,          /* the two ways up differ */
  TG_FINDING_CLOSURE,       /* small + big is not the whole */
  TG_FINDING_TOO_LIGHT,     /* below the band */
  TG_FINDING_OUT_OF_REACH,  /* the plan cannot be met */
  TG_FINDING_FINE,          /* the scale's step is too coarse for the plan */
  TG_FINDING_TOLERANCE,     /* tolerance below two steps of the scale */
  TG_FINDING_OVER_CAPACITY, /* heavier than the scale can weigh */
  TG_FINDING_ZONE_NEVER,    /* a pass was logged where none should be */
  TG_FINDING_ZONE_EXCEEDED, /* more came off a zone than it may give */
  TG_FINDING_KEPT,          /* a doubtful reading that was kept */
  TG_FINDING_OUTLIER,       /* a reading out of family with its repeats */
  TG_FINDING_ZERO,          /* the empty scale showed something else than zero */
  TG_FINDING_CHECK_WEIGHT,  /* the check weight was off */
  TG_FINDING_LEVER,         /* passes say that a zone lies elsewhere than drawn */
} TgFindingCode;
#define TG_N_FINDING_CODES (TG_FINDING_LEVER + 1)

/**
 * TgHeld: what was held against what
 * @of, @against: the two figures that are compared, g (of a lever mm)
 * @value: @of − @against
 * @u, @freedom: standard uncertainty of @value, and its degrees of freedom; 0: not judged by it
 * @false_alarm: how often the limit is passed although nothing is wrong; 0: not set by that
 * @coverage: what @u is multiplied with
 * @least: a difference no larger than this never alarms; 0 for none
 * @limit: what |@value| was held against: @coverage × @u, but no less than @least
 */
typedef struct
{
  double of;
  double against;
  double value;
  double u;
  double freedom;
  double false_alarm;
  double coverage;
  double least;
  double limit;
} TgHeld;

/**
 * TgFinding:
 * @part: index, or -1
 * @event: index in the journal, or -1
 * @text: what is, with figures
 * @advice: what to do, "" if nothing
 * @example: a part that has the zones that are meant: @part, or any of the design
 * @figure, @way: of a reading or of a weight that is too much for the scale; @figure of the two ways up
 * @row, @band: of the plan that cannot be met; @band of a tolerance
 * @zone: index in the design
 * @check: index in the scale's checks, or -1
 * @n: readings that one is held against
 * @alone: the readings had only their own scatter to be held against
 * @held: what was compared; all 0 where nothing was
 */
typedef struct
{
  TgFindingCode code;
  TgSeverity severity;
  int part;
  int event;
  char *text;
  char *advice;
  guint example;
  TgFigure figure;
  TgWay way;
  guint row;
  TgBand band;
  guint zone;
  int check;
  guint n;
  gboolean alone;
  TgHeld held;
} TgFinding;

/**
 * TgChoice: one way out of a problem
 * @title: an imperative, "Lower the target to 170.9 g"
 * @detail: what it means
 * @today_g, @then_g: metal that has to come off over the whole set by today's plan, and with this
 * @cost_g: @then_g − @today_g, but no less than 0
 * @extra: @cost_g is known; FALSE where it hangs on a piece not yet weighed
 * @why: (nullable) (element-type TgTerm): the reason, where it is not one of metal
 * @events: (element-type TgEvent): what to append, without id, stamp and who
 */
typedef struct
{
  char *title;
  char *detail;
  double today_g;
  double then_g;
  double cost_g;
  gboolean extra;
  GPtrArray *why;
  GArray *events;
} TgChoice;

/**
 * TgDecision: a problem that only the person can decide
 * @row: of the plan, that is missed by the most; @band is its band
 * @choices: (element-type TgChoice), cheapest first
 */
typedef struct
{
  TgFindingCode code;
  int part;
  guint row;
  TgBand band;
  char *title;
  char *text;
  GPtrArray *choices;
} TgDecision;

typedef enum
{
  TG_NEXT_WEIGH,
  TG_NEXT_GRIND,
  TG_NEXT_DECIDE,
  TG_NEXT_DONE,
  TG_NEXT_PAIR, /* parts can change hands, and nobody has decided which goes with which */
} TgNextKind;
#define TG_N_NEXT_KINDS (TG_NEXT_PAIR + 1)

/* A place in the weighing order. */
typedef struct
{
  guint part;
  TgFigure figure;
  TgWay way;
} TgSlot;

/**
 * TgNext: the one next instruction
 * @slot: WEIGH; for GRIND slot.part is the part and slot.figure the end that matters
 * @zone: GRIND: index in the design
 * @amount_g: GRIND: still to come off this zone; @at_most_g: more would make an end too light
 * @pass_g: GRIND: what to aim at in the next pass, so that the chance of an overshoot stays below
 *   the setup's, from what this tool has taken so far
 * @effort, @count: GRIND: the same in strokes or seconds, once passes have taught it; NONE else
 * @decision: DECIDE: index in decisions
 * @title: "Rod 3, small end"
 * @large: "0.25 g"; "weigh"; "even, proven"
 * @detail: one or two sentences
 * @why: (element-type TgTerm)
 */
typedef struct
{
  TgNextKind kind;
  TgSlot slot;
  guint zone;
  guint decision;
  double amount_g;
  double at_most_g;
  double pass_g;
  TgEffort effort;
  guint count;
  double depth_mm;
  char *title;
  char *large;
  char *detail;
  GPtrArray *why;
} TgNext;

/* What was done on one day: events first to last (indices), counted without struck ones. */
typedef struct
{
  gint64 day;
  char *label;
  guint first, last;
  guint weighings, passes, decisions, struck;
  double removed_g;
} TgDay;

/**
 * TgReview:
 * @setup: in force: the job's own with every refinement applied
 * @struck: by event
 * @parts: (element-type TgPartReview), indices as in setup->parts
 * @bands: by TgBand
 * @sets: (element-type TgSetReview): by bore
 * @rules: (element-type TgRuleReview): in force, in order of the journal
 * @paired: index of the last pairing in the journal that is in force, or -1
 * @feasible: by TgPartKind: targets exist (or nothing is known yet)
 * @findings: (element-type TgFinding), in order of part, problems first within it
 * @decisions: (element-type TgDecision)
 * @days: (element-type TgDay)
 * @scale: what the journal says of the scale
 * @methods: (element-type TgMethodReview)
 * @tool: by TgMetal: of the last pass on it
 * @standing: one line: "third day · 9 of 12 rod ends even"
 */
typedef struct
{
  TgSetup *setup;
  gboolean *struck;
  guint n_events;
  GPtrArray *parts;
  TgBandReview bands[TG_N_BANDS];
  GArray *sets;
  GArray *rules;
  int paired;
  gboolean feasible[TG_N_PART_KINDS];
  double least_metal_g[TG_N_PART_KINDS];
  GPtrArray *findings;
  GPtrArray *decisions;
  GPtrArray *days;
  TgScaleReview scale;
  GArray *methods;
  TgTool tool[TG_N_METALS];
  TgNext *next;
  char *standing;
  gboolean done;
} TgReview;

void tg_choice_free (TgChoice *choice);

TgReview *tg_review_new (const TgJob *job);

/* What would be if @n events were appended: for "what would it cost".  NULL if one of them is refused. */
TgReview *tg_review_preview (const TgJob *job, const TgEvent *events, guint n);
void tg_review_free (TgReview *review);

static inline const TgPartReview *
tg_review_part (const TgReview *review, guint index)
{
  return (const TgPartReview *) g_ptr_array_index (review->parts, index);
}

static inline const TgZoneReview *
tg_part_review_zone (const TgPartReview *part, guint index)
{
  return &g_array_index (part->zones, TgZoneReview, index);
}

/**
 * tg_review_own_target_g:
 *
 * Returns: the lower edge of a figure's band for the part alone: the band's target less what is carried
 * with the figure.  NAN where the figure has no band, the band no target or something
 * carried with it no weight yet.
 */
double tg_review_own_target_g (const TgReview *review, guint part, TgFigure figure);

/* (transfer full): what is carried with a figure, "pin 5, rings 1, clips 2"; "" for nothing. */
char *tg_review_carried_words (const TgReview *review, guint part, TgFigure figure);

/* Row of the plan that a figure stands in: small end 0, big end 1, a piston's weight 0; else -1. */
int tg_part_review_row (const TgPartReview *part, TgFigure figure);

/**
 * tg_review_next_slot:
 * @after: where the person is, or NULL for the beginning
 * @whole: also offer the whole rods, which are a cross-check only
 *
 * The next place whose reading is missing, in the order of the bench: all small ends, both ways up,
 * then all big ends, then pistons, then whole rods; round to the beginning.
 * Returns: FALSE if no reading is missing.
 */
gboolean
tg_review_next_slot (const TgReview *review, const TgSlot *after, gboolean whole, TgSlot *slot);

/* No reading is asked for there: the part is in no sum, or a spare once it is settled which parts go
 * where. */
gboolean tg_review_slot_is_idle (const TgReview *review, TgSlot slot);

/* The place before or after @from in that order, whether or not a reading is missing. */
TgSlot tg_review_step_slot (const TgReview *review, TgSlot from, int step);

/**
 * tg_review_next_for:
 *
 * The next instruction for one part that the person has chosen.
 * Returns: (transfer full): free with tg_next_free()
 */
TgNext *tg_review_next_for (const TgReview *review, guint part);
void tg_next_free (TgNext *next);

/**
 * tg_review_why_zone:
 *
 * Returns: (transfer full) (element-type TgTerm): how the amount of one zone comes about: present
 * weights, bands, lever arms, what the other end does, rounding, depth.
 */
GPtrArray *tg_review_why_zone (const TgReview *review, guint part, guint zone);

/* -- reasons: each returns (transfer full) (element-type TgTerm) the figures that a verdict rests on, the
 * sum, and last the rule and its source (reason.h).  Nothing is judged anew: the limits are those that the
 * review has used. -- */

/* What a finding says in a few words: "the two ways up differ" */
const char *tg_finding_label (TgFindingCode code);

/* @finding: one of the review's */
GPtrArray *tg_review_why_finding (const TgReview *review, const TgFinding *finding);

/* Why there is something to decide; @decision: one of the review's */
GPtrArray *tg_review_why_decision (const TgReview *review, const TgDecision *decision);

/* What one of its ways out costs. */
GPtrArray *tg_review_why_choice (const TgReview *review, const TgChoice *choice);

/* Why a band that is present is even, proven or neither; who is lightest and heaviest. */
GPtrArray *tg_review_why_band (const TgReview *review, TgBand band);

/* Why a part is in its state: tg_part_review_label(). */
GPtrArray *tg_review_why_part (const TgReview *review, guint part);

/* The verdict on a look at the empty scale or at the check weight; @index in review->scale.checks */
GPtrArray *tg_review_why_check (const TgReview *review, guint index);

/* Why the target of a band that is present is what it is. */
GPtrArray *tg_review_why_target (const TgReview *review, TgBand band);

/**
 * tg_review_take_targets:
 *
 * Returns: (transfer full) (element-type TgEvent): the decisions that hold today's targets of the
 * kind of @part, to be appended before its first pass; empty if they are decided already.
 */
GArray *tg_review_take_targets (const TgReview *review, guint part);

#define TG_PROOF_STEPS 3

/**
 * TgProof: what readings of this scale can prove of one band
 * @n_parts: 2 or more, else nothing is to be proven and all is 0
 * @readings: of each figure, both ways up together, as the setup asks for
 * @needed: readings of each figure, both ways up together, with which the scale can prove the
 *   tolerance; 0: not with TG_UNCERTAINTY_MAX_REPEATS either
 * @can: what it can prove: readings of each figure and the narrowest spread, the fewest first; the
 *   last is @needed where that is more than the others
 * @judged: every part was read since its last pass: @spread holds
 * @spread: the verdict on the set as it is
 * @enough: of a spread that is not proven: readings of each figure, both ways up together, with which
 *   it would be, were they to show the same; 0: not with as many as a setup may ask for
 * @text: one or two sentences on the above
 */
typedef struct
{
  guint n_parts;
  guint readings;
  guint needed;
  struct
  {
    guint readings;
    double spread_g;
  } can[TG_PROOF_STEPS];
  gboolean judged;
  TgUncertaintySpread spread;
  guint enough;
  char *text;
} TgProof;

/**
 * tg_review_proof:
 *
 * Returns: (transfer full): free with tg_proof_free().  Takes some milliseconds: for a page that
 * shows it, not for every event.
 */
TgProof *tg_review_proof (const TgReview *review, TgBand band);

/* Why that is what can be proven, and why so many readings would do; @proof: of @band */
GPtrArray *tg_review_why_proof (const TgReview *review, TgBand band, const TgProof *proof);

/* The same before there is a job: for @setup, with half a step taken for how well readings repeat. */
TgProof *tg_proof_of_setup (const TgSetup *setup, TgBand band);
void tg_proof_free (TgProof *proof);

/**
 * tg_review_pass_effort:
 * @tool: that will be used
 * @next: a GRIND instruction for @part
 * @effort: (out): in what the person counted last with this tool on this metal; NONE: not learned yet
 *
 * Returns: how many strokes or seconds the next pass may have; 0 with NONE.
 */
guint tg_review_pass_effort (
    const TgReview *review, guint part, const TgNext *next, TgTool tool, TgEffort *effort);

/* (transfer full): a chance in per cent without the sign: "84", "99.3", "more than 99.9" */
char *tg_review_percent (double probability);

/* (transfer full): "± 0.12", with two digits (JCGM 100, 7.2.6) but no more than one decimal beyond the
 * scale's own, rounded up. */
char *tg_review_plus_minus (const TgReview *review, double expanded_g);

/* (transfer full): grams with the scale's decimals, one more where the value lies between its steps. */
char *tg_review_grams (const TgReview *review, double grams);

/* (transfer full): "6 strokes", "1 min 30 s"; "" for NONE. */
char *tg_effort_words (TgEffort effort, guint count);

/* Short words: "to grind", "even", "too light" … */
const char *tg_state_label (TgState state);

/* The same of a part, and of an even one whether that is proven: "even, proven", "even, not proven". */
const char *tg_part_review_label (const TgPartReview *part);

/* The verdict on a figure: "proven", "not proven", "out"; "" if it is not judged. */
const char *tg_weight_verdict_label (const TgWeight *weight);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgReview, tg_review_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgNext, tg_next_free)
G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgProof, tg_proof_free)

G_END_DECLS
