/* why-view.h: how a figure comes about, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

/**
 * tg_why_view_new:
 * @terms: (transfer full) (element-type TgTerm)
 * @title: what is explained, "Why 0.25 g here"
 *
 * At most about 420 px wide, for a popover or a page.
 */
GtkWidget *tg_why_view_new (GPtrArray *terms, const char *title);

/* The same in a popover of @button, no higher than its window allows; for its create-popup function. */
void tg_why_view_pop_up (GtkMenuButton *button, GPtrArray *terms, const char *title);

G_END_DECLS
