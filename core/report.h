/* report.h: a review in words, for the terminal, for spreadsheets and for the journal's lines
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>

#include "review.h"

G_BEGIN_DECLS

/* (transfer full): what stands where, and what is wrong; for "check". */
char *tg_report_check (const TgReview *review);

/* (transfer full): targets, then per part the weights, states, grams and depths; for "plan". */
char *tg_report_plan (const TgReview *review);

/**
 * tg_report_plan_csv:
 *
 * RFC 4180, decimal points.  One table, a column "row" telling what each line is: "band" (target,
 * tolerance, spread, parts inside), "part" (weights, state, total), "zone" (grams, depth, at most),
 * "set" (feasible, least metal).  Every figure that the plan stands for is in it.
 * Returns: (transfer full)
 */
char *tg_report_plan_csv (const TgReview *review);

/* (transfer full): one event as a sentence, "Rod 3, small end, mark up: 171.6 g". */
char *tg_report_event (const TgReview *review, const TgEvent *event);

G_END_DECLS
