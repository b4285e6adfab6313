/* scale-fields.h: what a job knows of its scale, as fields
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "columns.h"
#include "session.h"

G_BEGIN_DECLS

/* Name, step, capacity, check weight and its class, readings of each, chance of an overshoot. */
void tg_scale_fields_add (TgColumns *columns, TgSession *session);

G_END_DECLS
