/* choice-button.h: a way to go as a large button: what, what it means, what it costs
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

/* @choice is read and not kept. @cost: "" for a way that is not priced. */
GtkWidget *tg_choice_button_new (const TgChoice *choice, const char *cost);

/* Leaves room in the upper corner at the end, beside the title. */
void tg_choice_button_leave_corner (GtkWidget *button);

/* A line of text that wraps, with a style class or NULL. */
GtkWidget *tg_choice_button_line (const char *text, const char *style);

G_END_DECLS
