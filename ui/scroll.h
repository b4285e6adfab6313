/* scroll.h: brings a widget into sight; which of two scrolls; how high one is
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Scrolls just as far as is needed to see @widget, once it has its new size: with the next frame. */
void tg_scroll_show (GtkWidget *widget);

/**
 * tg_scroll_column:
 * @column: beside others it scrolls @on_its_own, else it is as high as what is in it and the page
 *   around it scrolls
 */
void tg_scroll_column (GtkWidget *column, gboolean on_its_own);

/**
 * tg_scroll_fit:
 * @box: that holds nothing but a GtkScrolledWindow, which does not scroll sideways
 *
 * Makes it as high as what is in it needs in the width that it gets, up to the max-content-height;
 * GtkScrolledWindow takes the height that it would need in the width that it would like.
 */
void tg_scroll_fit (GtkBox *box);

G_END_DECLS
