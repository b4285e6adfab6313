/* setup-private.h: limits that the files of setup share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "setup.h"

G_BEGIN_DECLS

extern const TgField tg_setup_overshoot_field;

gboolean tg_setup_check_resolution (TgMass mass, GError **error);
gboolean tg_setup_check_capacity (TgMass mass, GError **error);
gboolean tg_setup_check_check_weight (TgMass mass, GError **error);
gboolean tg_setup_check_repeats (guint repeats, GError **error);
gboolean tg_setup_check_tolerance (TgBand band, TgMass mass, GError **error);

G_END_DECLS
