/* match-rules.h: the rules that a person makes and lifts on the Match page
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * @part and @other are indices into the review's parts.  FALSE: it could not be saved.
 */
#pragma once

#include "match-desk.h"

G_BEGIN_DECLS

/* Two parts stay together, or apart. */
gboolean tg_match_rules_keep (
    TgMatchDesk *desk, TgRule rule, guint part, guint other, gboolean on, GError **error);

/* @part stays at bore @bore, and no longer at another one. */
gboolean
tg_match_rules_keep_bore (TgMatchDesk *desk, guint part, guint bore, gboolean on, GError **error);

/* All parts of bore @bore on show stay with its piston (or rod), at once. */
gboolean tg_match_rules_keep_all (TgMatchDesk *desk, guint bore, gboolean on, GError **error);
/* TRUE if all of them do. */
gboolean tg_match_rules_keeps_all (TgMatchDesk *desk, guint bore);

/* Lifts rule @index of the review's. */
gboolean tg_match_rules_lift (TgMatchDesk *desk, guint index, GError **error);

G_END_DECLS
