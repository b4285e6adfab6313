/* theme.h: the program's colours on screen, in step with the desktop's light, dark and contrast
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "style.h"

G_BEGIN_DECLS

/* Loads the style sheets for @display once and follows its settings from then on. */
void tg_theme_install (GdkDisplay *display);

/**
 * tg_theme_style:
 *
 * Returns: what a drawing inside @widget uses now: light, dark or high contrast, with the widget's
 * own font and type size.  The font's name lives as long as the program.
 */
TgStyle tg_theme_style (GtkWidget *widget);

G_END_DECLS
