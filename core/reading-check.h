/* reading-check.h: is a reading that was just typed what it can be?
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Asked before a reading becomes an event.  What was typed is never changed: the person keeps it or
 * types it anew.
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
 * @mass: what was typed
 * @text: (out) (transfer full): why, one line; NULL if fine
 *
 * Asks when the reading is about ten times or a tenth of what was expected, when it lies far from
 * the part's own last weight or from the others of the set, when it is heavier than before a pass,
 * when a rod's whole is not the sum of its ends, and when it does not fall on a step of the scale.
 */
TgReadingVerdict tg_reading_check (const TgReview *review, TgSlot slot, TgMass mass, char **text);

/* The same for what the empty scale shows: refused beyond TG_MAX_ZERO, asked when something seems to
 * lie on it. */
TgReadingVerdict tg_reading_check_zero (const TgReview *review, TgMass mass, char **text);

/* The same for what the check weight of the setup in force shows: asked when it cannot be that one. */
TgReadingVerdict tg_reading_check_weight (const TgReview *review, TgMass mass, char **text);

G_END_DECLS
