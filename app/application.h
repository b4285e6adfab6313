/* application.h: windows for job files
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_APPLICATION (tg_application_get_type ())
G_DECLARE_FINAL_TYPE (TgApplication, tg_application, TG, APPLICATION, GtkApplication)

TgApplication *tg_application_new (void);

G_END_DECLS
