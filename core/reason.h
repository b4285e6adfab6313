/* reason.h: the rule behind each verdict, and where the rule is from
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All rules and sources stand in one table (reason.c).  Who gives a reason lists the figures of the case
 * as terms and closes it with the rule.
 */
#pragma once

#include <glib.h>

#include "review.h"

G_BEGIN_DECLS

typedef enum
{
  /* findings */
  TG_REASON_TURN,
  TG_REASON_CLOSURE,
  TG_REASON_TOO_LIGHT,
  TG_REASON_OUT_OF_REACH,
  TG_REASON_FINE,
  TG_REASON_TOLERANCE,
  TG_REASON_OVER_CAPACITY,
  TG_REASON_ZONE_NEVER,
  TG_REASON_ZONE_EXCEEDED,
  TG_REASON_KEPT,
  TG_REASON_OUTLIER,
  TG_REASON_OUTLIER_ALONE,
  TG_REASON_ZERO,
  TG_REASON_CHECK_WEIGHT,
  TG_REASON_LEVER_MOVED,
  TG_REASON_LEVER_ODD,
  /* states of a part, bands, targets, proofs */
  TG_REASON_UNWEIGHED,
  TG_REASON_WAITING,
  TG_REASON_TO_GRIND,
  TG_REASON_WEIGH_AGAIN,
  TG_REASON_EVEN,
  TG_REASON_ONLY_WEIGHED,
  TG_REASON_SPREAD,
  TG_REASON_TARGET_OPEN,
  TG_REASON_TARGET_CHOSEN,
  TG_REASON_TARGET_DECIDED,
  TG_REASON_PROOF_BEFORE,
  TG_REASON_PROOF_AFTER,
  TG_REASON_CHOICE,
  TG_REASON_CHOICE_PIECE,
  /* instructions */
  TG_REASON_WEIGH,
  TG_REASON_GRIND,
  TG_REASON_ZONE,
  TG_REASON_DONE,
  TG_REASON_PAIR,
  TG_REASON_PAIRING,
  TG_REASON_SHELF,
  TG_REASON_SHELF_ALIKE,
  TG_REASON_CRANKPINS,
  TG_REASON_ODD,
  /* questions about a reading */
  TG_REASON_NO_LOAD,
  TG_REASON_TOO_MUCH,
  TG_REASON_REPEAT,
  TG_REASON_OTHER_WAY,
  TG_REASON_AFTER_PASS,
  TG_REASON_OTHERS,
  TG_REASON_REST,
  TG_REASON_STEP,
  TG_REASON_NOT_EMPTY,
  TG_REASON_NOT_THE_WEIGHT,
  /* the engine, and building it */
  TG_REASON_ENOUGH,
  TG_REASON_GRADE,
  TG_REASON_FORCES,
  TG_REASON_FACTOR,
  TG_REASON_BOBWEIGHT,
  TG_REASON_READY,
  TG_REASON_TICK,
  TG_REASON_TICK_PART,
  /* answers to the questions of a lesson */
  TG_REASON_ASK_EFFECT,
  TG_REASON_ASK_PISTON,
  TG_REASON_ASK_MEAN,
  TG_REASON_ASK_TURN,
  TG_REASON_ASK_CLOSURE,
  TG_REASON_ASK_SPREAD,
  TG_REASON_ASK_TARGET,
  TG_REASON_ASK_COME_OFF,
  TG_REASON_ASK_AT_MOST,
  TG_REASON_ASK_DEPTH,
  TG_REASON_ASK_PROOF,
  TG_REASON_ASK_SUM,
  TG_REASON_ASK_LIGHTEST,
  TG_REASON_ASK_HEAVIEST,
  TG_REASON_ASK_PARTNER,
  /* how a practice job was done, by TgDebriefTopic */
  TG_REASON_DEBRIEF_SET,
  TG_REASON_DEBRIEF_METAL,
  TG_REASON_DEBRIEF_PASSES,
  TG_REASON_DEBRIEF_READINGS,
  TG_REASON_DEBRIEF_WRONG,
  TG_REASON_DEBRIEF_WARNINGS,
  TG_REASON_DEBRIEF_ZONES,
  TG_REASON_DEBRIEF_TIME,
} TgReason;
#define TG_N_REASONS (TG_REASON_DEBRIEF_TIME + 1)

/* One or two sentences: what is compared with what, and when it alarms. */
const char *tg_reason_rule (TgReason reason);

/* What publication the rule is taken from; else "A rule of this program" or "Common practice, no published
 * source", with what is published of it. */
const char *tg_reason_source (TgReason reason);

/* The labels of the two terms that close every reason. */
#define TG_REASON_RULE "rule"
#define TG_REASON_SOURCE "source"

/* Appends both, as the last terms of @terms. */
void tg_reason_close (GPtrArray *terms, TgReason reason);

/* What a term is: one of both above, which stand in quiet type. */
gboolean tg_reason_is_closing (const TgTerm *term);

/* (transfer full): "0.034": a small figure, such as an uncertainty, with about three digits */
char *tg_reason_figure (double value);

/**
 * tg_reason_difference:
 * @unit: "g", "mm"
 * @decimals: the fewest of all three figures
 *
 * Returns: (transfer full): "412.31 − 412.07 = 0.24 g".  One or two decimals more where a figure needs
 *   them; "≈" where the rounded figures still do not add up.
 */
char *tg_reason_difference (double a, double b, const char *unit, guint decimals);

/* (transfer full): "2.72 × 0.045 = 0.122 g" */
char *tg_reason_product (double factor, double value, const char *unit);

G_END_DECLS
