/* why-button.h: a small quiet button that opens the reason of what stands beside it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * It belongs at the end of a title row and makes it no higher.  Hidden until it has a reason.
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

#define TG_TYPE_WHY_BUTTON (tg_why_button_get_type ())
G_DECLARE_FINAL_TYPE (TgWhyButton, tg_why_button, TG, WHY_BUTTON, GtkWidget)

GtkWidget *tg_why_button_new (void);

/**
 * tg_why_button_give:
 * @explains: what it explains, "the two ways up differ": its name for a screen reader and the heading
 * @terms: (transfer full) (nullable): the reason; NULL hides the button
 */
void tg_why_button_give (TgWhyButton *button, const char *explains, GPtrArray *terms);

/* A row of @label and a new button behind it: (transfer floating) */
GtkWidget *tg_why_button_row (GtkWidget *label, TgWhyButton *button);

G_END_DECLS
