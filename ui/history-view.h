/* history-view.h: the weights of one part over the days, drawn
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review-picture.h"

G_BEGIN_DECLS

#define TG_TYPE_HISTORY_VIEW (tg_history_view_get_type ())
G_DECLARE_FINAL_TYPE (TgHistoryView, tg_history_view, TG, HISTORY_VIEW, TgReviewPicture)

/* Property "session". */
GtkWidget *tg_history_view_new (void);
void tg_history_view_set_session (TgHistoryView *view, TgSession *session);
/* The part that is shown, at first part 0. */
void tg_history_view_set_part (TgHistoryView *view, guint part);

/* (transfer full): what a screen reader says instead of the picture: "Rod 2, small end: 4 groups of
 * readings from 248.3 to 247.1 ± 0.12 g, target 246.9 to 247.4 g; big end: …" */
char *tg_history_view_words (const TgReview *review, guint part);

/* (transfer full): of the passes: "3 passes, the last one on the cap pad: 0.2 g taken." */
char *tg_history_view_pass_words (const TgReview *review, guint part);

G_END_DECLS
