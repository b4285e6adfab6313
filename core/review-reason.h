/* review-reason.h: what the files of reasons have in common, for them only
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "review.h"

G_BEGIN_DECLS

/* "0.30 g" with so many decimals. */
void
tg_reason_add (GPtrArray *why, const char *label, double grams, guint decimals, const char *remark);

/* The same as tg_review_grams() writes it. */
void tg_reason_add_grams (
    const TgReview *review, GPtrArray *why, const char *label, double grams, const char *remark);

/* Of the scale. */
guint tg_reason_decimals (const TgReview *review);

/* The uncertainty, the limit with its coverage factor, and what never alarms; only what there is. */
void
tg_reason_add_held (GPtrArray *why, const TgHeld *held, const char *unit, const char *u_remark);

/* review-reason-plan.c: a finding that hangs on the plan, its rule and source included. */
void tg_reason_of_plan (const TgReview *review, GPtrArray *why, const TgFinding *finding);

/* A row of the plan of a part that misses its band: how it misses it, what its zones could still give. */
void tg_reason_add_missed (const TgReview *review, GPtrArray *why, guint part, guint row);

G_END_DECLS
