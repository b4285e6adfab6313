/* scale-history.h: the drift of the scale over the days, drawn
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review-picture.h"

G_BEGIN_DECLS

#define TG_TYPE_SCALE_HISTORY (tg_scale_history_get_type ())
G_DECLARE_FINAL_TYPE (TgScaleHistory, tg_scale_history, TG, SCALE_HISTORY, TgReviewPicture)

/* Property "session". */
GtkWidget *tg_scale_history_new (void);
void tg_scale_history_set_session (TgScaleHistory *history, TgSession *session);

/* (transfer full): what a screen reader says instead of the picture: "zero: 5 checks, the last one
 * −0.3 g, doubtful; check weight 500 g: 4 checks, the last one +0.1 g, fits" */
char *tg_scale_history_words (const TgReview *review);

G_END_DECLS
