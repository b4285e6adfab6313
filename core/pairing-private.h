/* pairing-private.h: what the files of the pairing share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing.h"

G_BEGIN_DECLS

/* FALSE, with the outputs undefined, if the part @part of the review takes no part. */
gboolean tg_pairing_find (const TgPairing *pairing, guint part, guint *family, guint *number);

/**
 * tg_pairing_event:
 * @kinds: mask of 1 << TgPartKind
 * @bore_of: by part of the review: where it goes; 0 to spare; only those of @kinds count
 *
 * Returns: a pairing for the events of a TgChoice, which frees what it owns.
 */
TgEvent
tg_pairing_event (const TgReview *review, guint kinds, const guint *bore_of, const char *reason);

/* pairing-joint.c.  @pairing has its families. */
TgPairingJoint *tg_pairing_joint_new (const TgReview *review, const TgPairing *pairing);
void tg_pairing_joint_free (TgPairingJoint *joint);
gboolean tg_pairing_joint_equal (const TgPairingJoint *a, const TgPairingJoint *b);

/* Betters the plan of @result, and fills in what is said of rods and pistons together. */
void tg_pairing_joint_improve (const TgPairing *pairing,
                               const TgMatchingLimits *limits,
                               TgPairingResult *result);

G_END_DECLS
