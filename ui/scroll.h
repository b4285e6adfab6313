/* scroll.h: brings a widget into sight
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

/* Scrolls just as far as is needed to see @widget, once it has its new size: with the next frame. */
void tg_scroll_show (GtkWidget *widget);

G_END_DECLS
