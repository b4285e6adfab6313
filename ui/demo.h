/* demo.h: the demo job that comes with the program
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gio/gio.h>

G_BEGIN_DECLS

gboolean tg_demo_exists (void);

/**
 * tg_demo_place:
 *
 * Puts the demo job where the person may write, the user's data folder; a demo that is there already
 * is kept, with what was done on it.
 * Returns: (transfer full) (nullable): its path
 */
char *tg_demo_place (GError **error);

G_END_DECLS
