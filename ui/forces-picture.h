/* forces-picture.h: one of the plots of forces and couples
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "forces-drawing.h"
#include "review-picture.h"

G_BEGIN_DECLS

#define TG_TYPE_FORCES_PICTURE (tg_forces_picture_get_type ())
G_DECLARE_FINAL_TYPE (TgForcesPicture, tg_forces_picture, TG, FORCES_PICTURE, TgReviewPicture)

/* Takes @forces with its curves, which are freed with tg_balance_curve_free(); @words: for a screen
 * reader.  NULL: nothing is drawn. */
void
tg_forces_picture_show (TgForcesPicture *picture, const TgForcesDrawing *forces, const char *words);

G_END_DECLS
