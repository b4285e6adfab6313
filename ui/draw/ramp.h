/* ramp.h: the published colour ramp behind tg_style_shade()
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "style.h"

G_BEGIN_DECLS

/* Cividis at @x, 0 (dark blue) to 1 (yellow), clamped; luminance rises strictly with @x. */
TgColor tg_ramp_cividis (double x);

G_END_DECLS
