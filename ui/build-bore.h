/* build-bore.h: the build card of one bore: its parts, and its checks
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "build.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_BUILD_BORE (tg_build_bore_get_type ())
G_DECLARE_FINAL_TYPE (TgBuildBore, tg_build_bore, TG, BUILD_BORE, GtkBox)

GtkWidget *tg_build_bore_new (void);

void tg_build_bore_show (TgBuildBore *view, TgSession *session, const TgBuild *build, guint bore);

/* Puts the keyboard on the first check. */
void tg_build_bore_focus (TgBuildBore *view);

G_END_DECLS
