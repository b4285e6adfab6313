/* setup-field.h: one value of the setup that can be refined
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SETUP_FIELD (tg_setup_field_get_type ())
G_DECLARE_FINAL_TYPE (TgSetupField, tg_setup_field, TG, SETUP_FIELD, GtkBox)

/**
 * tg_setup_field_new:
 * @path: as tg_setup_set() takes it
 * @label: what stands above the entry
 * @unit: what stands behind it, "" for none
 */
GtkWidget *tg_setup_field_new (const char *path, const char *label, const char *unit);

/* Another @label from now on; needs a session. */
void tg_setup_field_show_label (TgSetupField *self, const char *label);

/* (nullable): reads the value, and again whenever the job changes. */
void tg_setup_field_set_session (TgSetupField *self, TgSession *session);

/**
 * tg_setup_field_commit:
 *
 * What Enter and leaving the field do: nothing if the value is the present one; else it is tried on
 * a copy of the setup and becomes one event.
 * Returns: FALSE if it was refused: the reason stands below the field, the typed text stays.
 */
gboolean tg_setup_field_commit (TgSetupField *self);

const char *tg_setup_field_get_path (TgSetupField *self);
GtkEditable *tg_setup_field_get_editable (TgSetupField *self);
/* (nullable): the reason of the last refusal that still stands */
const char *tg_setup_field_get_problem (TgSetupField *self);

G_END_DECLS
