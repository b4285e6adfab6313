/* debrief-line-view.h: one line of a debrief as a card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "debrief.h"

G_BEGIN_DECLS

/**
 * tg_debrief_line_view_new:
 * @line: copied
 * @moment: with a button that leads to the entry (action win.replay), where there is one
 *
 * The verdict as sign, word and colour; what was; what a careful worker does; the reason on demand.
 */
GtkWidget *tg_debrief_line_view_new (const TgDebriefLine *line, gboolean moment);

G_END_DECLS
