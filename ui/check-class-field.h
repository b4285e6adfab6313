/* check-class-field.h: the accuracy class of the check weight
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_CHECK_CLASS_FIELD (tg_check_class_field_get_type ())
G_DECLARE_FINAL_TYPE (TgCheckClassField, tg_check_class_field, TG, CHECK_CLASS_FIELD, GtkBox)

GtkWidget *tg_check_class_field_new (void);

/* (nullable): shows the class in force; choosing another becomes one event. */
void tg_check_class_field_set_session (TgCheckClassField *self, TgSession *session);

GtkDropDown *tg_check_class_field_get_choice (TgCheckClassField *self);

G_END_DECLS
