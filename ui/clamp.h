/* clamp.h: keeps one child from growing wider than is good to read
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_CLAMP (tg_clamp_get_type ())
G_DECLARE_FINAL_TYPE (TgClamp, tg_clamp, TG, CLAMP, GtkWidget)

/**
 * TgClamp:maximum-width:
 * px, 640 by default.  The child gets all of the width up to this, then it is centred.  Children are
 * given as in a box: by <child> in a template; more than one lie on top of one another.
 */

G_END_DECLS
