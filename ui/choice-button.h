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

/**
 * tg_choice_button_explain:
 * @button: as it was made, without a parent yet
 * @explains: what the reason is of, for a screen reader and the heading
 * @why: (transfer full): its terms
 *
 * Returns: (transfer floating): the button with the reason in its upper corner, beside the title
 */
GtkWidget *tg_choice_button_explain (GtkWidget *button, const char *explains, GPtrArray *why);

/* A line of text that wraps, with a style class or NULL. */
GtkWidget *tg_choice_button_line (const char *text, const char *style);

G_END_DECLS
