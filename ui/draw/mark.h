/* mark.h: how a zone's state looks, on the part and in the legend
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each function uses up the current path.  @box is the path's bounding box, @fill what
 * lies under the hatching.
 */
#pragma once

#include "outline.h"

G_BEGIN_DECLS

void tg_mark_work (cairo_t *cr, double share, const TgStyle *style, double line);
void tg_mark_done (cairo_t *cr, const TgStyle *style, double line);
void tg_mark_never (cairo_t *cr, TgRect box, TgColor fill, const TgStyle *style, double line);
void tg_mark_care (cairo_t *cr, TgRect box, TgColor fill, const TgStyle *style, double line);
void tg_mark_ready (cairo_t *cr, const TgStyle *style, double line);

/* A tick of @size about @center, left out where it could not be told from a speck. */
void tg_mark_tick (cairo_t *cr, TgPoint center, double size, const TgStyle *style, double line);

/* Black or white, whichever is easier to read on @color. */
TgColor tg_mark_ink_on (TgColor color);

G_END_DECLS
