/* build-row.h: one check of a build card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "build.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_BUILD_ROW (tg_build_row_get_type ())
G_DECLARE_FINAL_TYPE (TgBuildRow, tg_build_row, TG, BUILD_ROW, GtkBox)

/* Signal "ticked": the person has ticked it off, and it is recorded. */
GtkWidget *tg_build_row_new (void);

/* @facing: (nullable): what the card says of the way it is about */
void tg_build_row_show (
    TgBuildRow *row, TgSession *session, guint bore, const TgBuildTick *tick, const char *facing);

/* Why the tick of what is shown holds or not; takes @why. */
void tg_build_row_explain (TgBuildRow *row, GPtrArray *why);

/* Puts the keyboard on the check. */
void tg_build_row_focus (TgBuildRow *row);

G_END_DECLS
