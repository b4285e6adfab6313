/* material-field.h: the material of a design, from the library
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_MATERIAL_FIELD (tg_material_field_get_type ())
G_DECLARE_FINAL_TYPE (TgMaterialField, tg_material_field, TG, MATERIAL_FIELD, GtkBox)

/* @design: index in the setup of @session */
GtkWidget *tg_material_field_new (TgSession *session, guint design);

GtkDropDown *tg_material_field_get_choice (TgMaterialField *self);

G_END_DECLS
