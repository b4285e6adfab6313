/* pairing-bars.h: a pairing as the bars that ui/draw draws
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing-drawing.h"
#include "pairing.h"

G_BEGIN_DECLS

/**
 * TgPairingBars: a picture with all that it points to
 * @bars: bar c is cylinder c of the pairing, bore c + 1
 */
typedef struct
{
  TgPairingPicture picture;
  TgPairingBar bars[TG_MATCHING_MAX_CYLINDERS];
  GStringChunk *texts;
} TgPairingBars;

/**
 * tg_pairing_bars_new:
 * @review: for the rules in force
 * @plan: on show
 * @today: (nullable): drawn beside it
 *
 * Returns: (transfer full): needs nothing of the arguments any more
 */
TgPairingBars *tg_pairing_bars_new (const TgReview *review,
                                    const TgPairing *pairing,
                                    const TgMatchingPlan *plan,
                                    const TgMatchingPlan *today);
void tg_pairing_bars_free (TgPairingBars *bars);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPairingBars, tg_pairing_bars_free)

G_END_DECLS
