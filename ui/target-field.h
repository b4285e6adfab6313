/* target-field.h: the common target of one band: automatic or fixed by the person
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_TARGET_FIELD (tg_target_field_get_type ())
G_DECLARE_FINAL_TYPE (TgTargetField, tg_target_field, TG, TARGET_FIELD, GtkBox)

GtkWidget *tg_target_field_new (TgBand band);

/* (nullable) */
void tg_target_field_set_session (TgTargetField *self, TgSession *session);

/* Takes the typed target as decided; FALSE if it was refused, with the reason below the field. */
gboolean tg_target_field_commit (TgTargetField *self);

GtkEditable *tg_target_field_get_editable (TgTargetField *self);

G_END_DECLS
