/* family-choice.h: which other families take part in a new job, and the spares
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "job-draft.h"

G_BEGIN_DECLS

#define TG_TYPE_FAMILY_CHOICE (tg_family_choice_get_type ())
G_DECLARE_FINAL_TYPE (TgFamilyChoice, tg_family_choice, TG, FAMILY_CHOICE, GtkBox)

/**
 * TgFamilyChoice::changed:
 * Another answer was given.
 */

/* Offers what goes with rods and with pistons. */
void tg_family_choice_offer (TgFamilyChoice *self, gboolean rods, gboolean pistons);

/* Writes the answers, of what is offered, into @draft. */
void tg_family_choice_read (TgFamilyChoice *self, TgJobDraft *draft);

G_END_DECLS
