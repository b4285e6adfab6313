/* match-desk.h: what the Match page works on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One sum of one job: the pairing of today, the one on show, the search for the best one, and what the
 * person does with them.  What is on show is no event yet; only accepting and rules are.
 */
#pragma once

#include "pairing-search.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_MATCH_DESK (tg_match_desk_get_type ())
G_DECLARE_FINAL_TYPE (TgMatchDesk, tg_match_desk, TG, MATCH_DESK, GObject)

#define TG_MATCH_DESK_MS 2000
#define TG_MATCH_DESK_LONG_MS 20000

TgMatchDesk *tg_match_desk_new (void);

/* (nullable); forgets what belonged to the one before. */
void tg_match_desk_set_session (TgMatchDesk *desk, TgSession *session);

/**
 * tg_match_desk_set_awake:
 *
 * While it is awake the desk follows the job, and looks for the best pairing by itself as soon as there
 * is something new to look for.  Asleep it does nothing.
 */
void tg_match_desk_set_awake (TgMatchDesk *desk, gboolean awake);

/* TRUE if the job has such a sum. */
gboolean tg_match_desk_has_sum (TgMatchDesk *desk, TgPairingSum sum);
TgPairingSum tg_match_desk_sum (TgMatchDesk *desk);
void tg_match_desk_set_sum (TgMatchDesk *desk, TgPairingSum sum);

/* All (nullable) (lends): valid until the next "changed" */
TgSession *tg_match_desk_session (TgMatchDesk *desk);
const TgReview *tg_match_desk_review (TgMatchDesk *desk);
/* NULL: none can be made; then tg_match_desk_why_not() says why. */
const TgPairing *tg_match_desk_pairing (TgMatchDesk *desk);
const char *tg_match_desk_why_not (TgMatchDesk *desk);
/* What the search found; NULL as long as it has not ended, and after a cancel. */
const TgPairingResult *tg_match_desk_result (TgMatchDesk *desk);
/* As the parts sit now; NULL if a bore lacks one. */
const TgMatchingPlan *tg_match_desk_today (TgMatchDesk *desk);
/* On show; NULL before anything was found for parts that have no place. */
const TgMatchingPlan *tg_match_desk_plan (TgMatchDesk *desk);
/* What is on show keeps the rules. */
gboolean tg_match_desk_plan_keeps_rules (TgMatchDesk *desk);
/* What is on show is what sits in the bores. */
gboolean tg_match_desk_plan_is_today (TgMatchDesk *desk);
/* What is on show was made by hand. */
gboolean tg_match_desk_by_hand (TgMatchDesk *desk);
/* The last thing that happened was that the pairing on show was accepted. */
gboolean tg_match_desk_accepted (TgMatchDesk *desk);

/* The family whose parts the others of a bore are kept with: the pistons, or the rods. */
guint tg_match_desk_anchor (TgMatchDesk *desk);

/* The part of @family that is in bore @bore (from 1) on show: index into the review's parts. */
guint tg_match_desk_part (TgMatchDesk *desk, guint family, guint bore);

/* The search, for its progress. */
TgPairingSearch *tg_match_desk_search (TgMatchDesk *desk);
/* Looks again, with more time. */
void tg_match_desk_search_on (TgMatchDesk *desk, guint allowed_ms);
/* The job and what is on show stay as they are. */
void tg_match_desk_cancel (TgMatchDesk *desk);

/* Puts part @part (number in its family) into bore @bore (from 1); FALSE if that breaks a rule. */
gboolean tg_match_desk_put (TgMatchDesk *desk, guint family, guint part, guint bore);

/* Back to what the search found. */
void tg_match_desk_best_again (TgMatchDesk *desk);

/* The other parts of the family in bore @bore, the cheapest swap first: (element-type guint) numbers in
 * the family. (transfer full) */
GArray *tg_match_desk_others (TgMatchDesk *desk, guint family, guint bore);

/* The pairing on show becomes the one in force. All or nothing. */
gboolean tg_match_desk_accept (TgMatchDesk *desk, GError **error);

/**
 * TgMatchDesk::changed:
 * Something of the above is new.
 */

G_END_DECLS
