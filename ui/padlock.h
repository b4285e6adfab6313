/* padlock.h: a toggle that holds something where it is
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_PADLOCK (tg_padlock_get_type ())
G_DECLARE_FINAL_TYPE (TgPadlock, tg_padlock, TG, PADLOCK, GtkToggleButton)

/**
 * tg_padlock_show:
 * @text: on the button, short
 * @name: what a screen reader says, whole
 *
 * "clicked" is emitted by the person only.
 */
void tg_padlock_show (TgPadlock *padlock, const char *text, const char *name, gboolean locked);

G_END_DECLS
