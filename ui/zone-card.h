/* zone-card.h: one zone of a design: what it is, whether it may be ground, its figures
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_ZONE_CARD (tg_zone_card_get_type ())
G_DECLARE_FINAL_TYPE (TgZoneCard, tg_zone_card, TG, ZONE_CARD, GtkBox)

/* @design and @zone: indices in the setup of @session */
GtkWidget *tg_zone_card_new (TgSession *session, guint design, guint zone);

guint tg_zone_card_get_design (TgZoneCard *self);
guint tg_zone_card_get_zone (TgZoneCard *self);

/* The switch "may be ground" and the button that opts in a zone with care, for tests. */
GtkSwitch *tg_zone_card_get_switch (TgZoneCard *self);
GtkWidget *tg_zone_card_get_opt_in (TgZoneCard *self);

G_END_DECLS
