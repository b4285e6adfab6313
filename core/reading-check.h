/* reading-check.h: is a reading that was just taken what it can be?
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Asked before a reading becomes an event, while the part is still on the scale.  What was typed or
 * sent is never changed: the person keeps it or reads again.
 */
#pragma once

#include <glib.h>

#include "review.h"

G_BEGIN_DECLS

typedef enum
{
  TG_READING_FINE,
  TG_READING_ASK,    /* unlikely: ask, and keep what was typed */
  TG_READING_REFUSE, /* impossible: zero, or more than the scale can weigh */
} TgReadingVerdict;

/**
 * tg_reading_check:
 * @slot: what is being weighed
 * @mass: what was typed or sent
 * @text: (out) (transfer full): why, with what to do; NULL if fine
 *
 * Asks when the reading is away from its repeats, from the other way up, from what a pass can have
 * left, from the others of the set, from what the other figures of the rod leave for it; each limit
 * follows from how well this scale repeats and is passed by chance in TG_REVIEW_FALSE_ALARM of the
 * cases.  Where a slip of ten, two swapped digits or the other end of the rod would explain the
 * reading, it says so.  It also asks when the reading does not fall on a step of the scale.
 */
TgReadingVerdict tg_reading_check (const TgReview *review, TgSlot slot, TgMass mass, char **text);

/* The same for what the empty scale shows: refused beyond TG_MAX_ZERO, asked when something seems to
 * lie on it. */
TgReadingVerdict tg_reading_check_zero (const TgReview *review, TgMass mass, char **text);

/* The same for what the check weight of the setup in force shows: asked when it cannot be that one. */
TgReadingVerdict tg_reading_check_weight (const TgReview *review, TgMass mass, char **text);

/* (transfer full) (element-type TgTerm): why tg_reading_check(), tg_reading_check_zero() and
 * tg_reading_check_weight() refuse or ask about a reading: what it was held against, and the rule with its
 * source (reason.h); empty if they do not. */
GPtrArray *tg_reading_why (const TgReview *review, TgSlot slot, TgMass mass);
GPtrArray *tg_reading_why_zero (const TgReview *review, TgMass mass);
GPtrArray *tg_reading_why_weight (const TgReview *review, TgMass mass);

G_END_DECLS
