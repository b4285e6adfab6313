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

/* 1. review-weights.c: replays the journal: weights, passes, zones, frozen, days, rises */
void tg_review_weigh (TgReview *review, const TgJob *job);

/* 2. review-plan.c: bands, targets, plans per part and zone, states */
void tg_review_plan (TgReview *review, const TgJob *job);

/* 3. review-findings.c */
void tg_review_find (TgReview *review, const TgJob *job);

/* 4. review-decisions.c */
void tg_review_decide (TgReview *review);

/* 5. review-next.c: the next instruction and the standing line */
void tg_review_look_ahead (TgReview *review, const TgJob *job);

/* The grams by which a figure falls for one gram off a zone. */
double tg_review_effect (const TgDesign *design, TgFigure figure, const TgZone *zone);

/* Figure of a row of the plan. */
TgFigure tg_review_row_figure (TgPartKind kind, guint row);
guint tg_review_n_rows (TgPartKind kind);

/**
 * TgReviewSet: the parts of one kind as a problem for the solver
 * @index: of each part in the review
 * @zone_of: by part and plan zone: zone of the design
 */
typedef struct
{
  TgPartKind kind;
  guint n;
  guint index[2 * TG_MAX_CYLINDERS];
  TgPlanPart parts[2 * TG_MAX_CYLINDERS];
  guint zone_of[2 * TG_MAX_CYLINDERS][TG_PLAN_MAX_ZONES];
  TgTargetProblem problem;
} TgReviewSet;

/**
 * tg_review_set_init:
 * @allow: a zone that counts as usable although it is not, or NULL
 * @without: index of a part that is left out, or -1
 *
 * Only weighed parts are in the set. problem.fixed is set for decided targets.
 */
void tg_review_set_init (
    TgReviewSet *set, const TgReview *review, TgPartKind kind, const TgZone *allow, int without);

/* The standard uncertainty of one reading that the step of the scale alone explains, in g. */
double tg_review_reading_u_g (const TgReview *review);

GPtrArray *tg_choices_new (void);
void tg_term_free (TgTerm *term);
GPtrArray *tg_terms_new (void);
/* Takes @figure; copies the rest. */
void tg_terms_add (GPtrArray *terms, const char *label, char *figure, const char *remark);

G_END_DECLS
