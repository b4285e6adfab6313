/* decision-view.h: a problem that only the person can decide, with its ways out
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_DECISION_VIEW (tg_decision_view_get_type ())
G_DECLARE_FINAL_TYPE (TgDecisionView, tg_decision_view, TG, DECISION_VIEW, GtkBox)

GtkWidget *tg_decision_view_new (void);

/* TgDecisionView:session: (nullable): shows the decision of its selected part, else the first. */

/**
 * tg_decision_view_choose:
 * @index: of the choices that are shown
 *
 * What pressing a choice does: its events are appended.
 * Returns: FALSE if they could not be; the reason stands below the choices.
 */
gboolean tg_decision_view_choose (TgDecisionView *self, guint index);

/* (transfer full): "0.8 g more over the set", "costs nothing", "depends on the piece" */
char *tg_decision_view_cost (const TgChoice *choice, TgMass resolution);

G_END_DECLS
