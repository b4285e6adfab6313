/* port-form.h: which port the scale is on, how it is set, and connecting to it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "scale-link.h"

G_BEGIN_DECLS

#define TG_TYPE_PORT_FORM (tg_port_form_get_type ())
G_DECLARE_FINAL_TYPE (TgPortForm, tg_port_form, TG, PORT_FORM, GtkBox)

/* (nullable): shows what it is set to, and looks for ports while it is on the screen. */
void tg_port_form_set_link (TgPortForm *self, TgScaleLink *link);

/* Puts the keyboard on the choice of the port. */
gboolean tg_port_form_focus (TgPortForm *self);

G_END_DECLS
