/* scale-checks.h: when the scale was looked at last, and the buttons to do it again
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SCALE_CHECKS (tg_scale_checks_get_type ())
G_DECLARE_FINAL_TYPE (TgScaleChecks, tg_scale_checks, TG, SCALE_CHECKS, GtkBox)

/* Says how the scale of @session stands now. */
void tg_scale_checks_show (TgScaleChecks *checks, TgSession *session);

G_END_DECLS
