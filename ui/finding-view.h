/* finding-view.h: one finding of the review as a quiet or an amber card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

/* A card with what is, why, and what to do about it; all of it is copied. */
GtkWidget *tg_finding_view_new (const TgReview *review, const TgFinding *finding);

/* Replaces the children of @box by the findings of @part, or of every part for -1. */
void tg_finding_view_fill (GtkBox *box, const TgReview *review, int part);

/* Adds to them what is to be said of the scale and of where zones lie, which is no part's. */
void tg_finding_view_add_bench (GtkBox *box, const TgReview *review);

G_END_DECLS
