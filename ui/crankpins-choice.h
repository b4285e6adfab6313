/* crankpins-choice.h: which rods share a crankpin
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "setup.h"

G_BEGIN_DECLS

#define TG_TYPE_CRANKPINS_CHOICE (tg_crankpins_choice_get_type ())
G_DECLARE_FINAL_TYPE (TgCrankpinsChoice, tg_crankpins_choice, TG, CRANKPINS_CHOICE, GtkBox)

/**
 * TgCrankpinsChoice::changed:
 * The person chose otherwise.
 */

GtkWidget *tg_crankpins_choice_new (void);

/* TRUE if rods of such an engine may share crankpins, so that it makes sense to ask. */
gboolean tg_crankpins_choice_can_share (TgLayout layout, guint cylinders);

/* What can be chosen, in the numbers of @cylinders bores: an even number.  The answer stays. */
void tg_crankpins_choice_set_cylinders (TgCrankpinsChoice *self, guint cylinders);

TgSharing tg_crankpins_choice_get (TgCrankpinsChoice *self);
void tg_crankpins_choice_set (TgCrankpinsChoice *self, TgSharing sharing);

G_END_DECLS
