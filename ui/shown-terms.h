/* shown-terms.h: the terms that stand in what a window shows right now
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "glossary.h"

G_BEGIN_DECLS

/**
 * tg_shown_terms_below:
 *
 * Texts of labels, tips, and what controls and drawings were told they are and show.
 *
 * Returns: (transfer container) (element-type TgGlossaryTerm): in the order of the widgets.
 */
GPtrArray *tg_shown_terms_below (const TgGlossary *glossary, GtkWidget *root);

/**
 * tg_shown_terms_at:
 * @widget: under the pointer, or with the keyboard
 * @top: where the search ends
 *
 * What stands in @widget or in the label that names it, else in the nearest widget round it that says
 * something.
 *
 * Returns: (transfer container): as above; empty if there is nothing, or too much to be meant
 */
GPtrArray *tg_shown_terms_at (const TgGlossary *glossary, GtkWidget *widget, GtkWidget *top);

G_END_DECLS
