/* pairing-rules.h: what the person wants a pairing to keep
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing.h"

G_BEGIN_DECLS

/* (nullable) (lends): the rule in force that two parts stay together or apart, whichever is named
 * first */
const TgRuleReview *
tg_pairing_rules_find (const TgReview *review, TgRule rule, guint part, guint other);

/* (nullable) (lends): the rule in force that @part stays at a bore */
const TgRuleReview *tg_pairing_rules_find_bore (const TgReview *review, guint part);

/* The event that puts @rule in force, or lifts it; its strings are the review's. */
TgEvent tg_pairing_rules_event (const TgReview *review, const TgRuleReview *rule, gboolean on);

/* (transfer full): "Pin 5 stays with Piston 3", "Pin 5 never with Piston 3", "Piston 3 stays at bore 3" */
char *tg_pairing_rules_words (const TgReview *review, const TgRuleReview *rule);

/**
 * tg_pairing_rules_kept:
 * @plan: (inout): @part is read, all else is written, as by tg_matching_evaluate()
 *
 * Returns: FALSE if @plan breaks a rule, or more would have to come off than the parts can give; where rods
 *   and pistons are planned together that is not known set by set, and only the rules are judged.
 */
gboolean tg_pairing_rules_kept (const TgPairing *pairing, TgMatchingPlan *plan);

G_END_DECLS
