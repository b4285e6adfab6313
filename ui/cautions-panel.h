/* cautions-panel.h: the cautions that fit the stage, the material and the tool at hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_CAUTIONS_PANEL (tg_cautions_panel_get_type ())
G_DECLARE_FINAL_TYPE (TgCautionsPanel, tg_cautions_panel, TG, CAUTIONS_PANEL, GtkBox)

GtkWidget *tg_cautions_panel_new (void);

/**
 * Properties:
 * "session": (nullable) the job
 * "stage": TgStage as an integer, TG_STAGE_GRIND by default
 * "tool": TgTool at hand as an integer, -1: not known
 * "short": only what is read before the first stroke of a day
 */

/* How many cautions are shown, the closing line not counted. */
guint tg_cautions_panel_get_n_shown (TgCautionsPanel *self);

G_END_DECLS
