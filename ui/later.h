/* later.h: a place whose widget is made when it is first wanted
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Most pages are not seen in the first second; making them then would keep the person waiting for
 * the one that is.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_LATER (tg_later_get_type ())
G_DECLARE_FINAL_TYPE (TgLater, tg_later, TG, LATER, GtkWidget)

/**
 * TgLater:child-type:
 * Name of a registered widget type with a writable property "session".
 *
 * TgLater:session:
 * (nullable): what the child's property "session" follows.
 *
 * TgLater:link:
 * (nullable): TgScaleLink; what the child's property "link" follows, if it has one.
 */

/* (lends): the child; made now if this is the first time. */
GtkWidget *tg_later_get (TgLater *later);

/* (lends) (nullable): the child if it has been made. */
GtkWidget *tg_later_peek (TgLater *later);

G_END_DECLS
