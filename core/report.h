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
 * "sum" (what is weighed together at a bore, under the name of its piston or rod), "set" (feasible,
 * least metal).  "bore" is where a part sits now, empty for a spare; the target of a part is that of
 * its band less what is carried with it.  Every figure that the plan stands for is in it.
 * Returns: (transfer full)
 */
char *tg_report_plan_csv (const TgReview *review);

/* (transfer full): one event as a sentence, "Rod 3, small end, mark up: 171.6 g"; of a pairing the
 * families, "New pairing of the pins and ring packs". */
char *tg_report_event (const TgReview *review, const TgEvent *event);

/**
 * tg_report_entry:
 * @review: of @job
 * @index: of an event
 *
 * As tg_report_event(), but a pairing tells what it changes: "New pairing: Pin 2 to bore 5, Pin 5 to
 * bore 2, Rings 1 to the spares"; of more than six parts only how many.
 * Returns: (transfer full)
 */
char *tg_report_entry (const TgReview *review, const TgJob *job, guint index);

G_END_DECLS
