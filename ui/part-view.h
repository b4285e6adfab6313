/* part-view.h: one part as it is now, drawn
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A picture of a part of the review; large ones answer to the pointer and the arrow keys.
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_PART_VIEW (tg_part_view_get_type ())
G_DECLARE_FINAL_TYPE (TgPartView, tg_part_view, TG, PART_VIEW, GtkWidget)

/**
 * Properties:
 * "session": TgSession, nullable
 * "small": no labels, no interaction: for lists
 * "zone": the zone that is singled out, or -1; notifies
 */
GtkWidget *tg_part_view_new (gboolean small);

void tg_part_view_set_session (TgPartView *view, TgSession *session);

/* Index into the parts of the session; a part that does not exist draws nothing. */
void tg_part_view_set_part (TgPartView *view, guint part);

int tg_part_view_zone (TgPartView *view);
void tg_part_view_set_zone (TgPartView *view, int zone);

/* (transfer full): one zone in words: name, what comes off, what it can give, why not. */
char *tg_part_view_describe_zone (const TgReview *review, guint part, guint zone);

G_END_DECLS
