/* scale-drawing.h: how the scale's zero and its readings of a check weight drifted over the days
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "plot.h"
#include "review.h"

G_BEGIN_DECLS

/**
 * tg_scale_drawing_draw:
 *
 * The zero above the check weight, each if it was looked at.  Made for 300 × 140 and more, in px of
 * ordinary text 13 high.  Nothing is drawn outside @area and the cairo state is restored.
 */
void tg_scale_drawing_draw (cairo_t *cr, TgRect area, const TgReview *review, const TgStyle *style);

/* The same; what was written where is for the tests. (transfer full) (nullable): NULL: nothing drawn */
TgPlot *
tg_scale_drawing_plot (cairo_t *cr, TgRect area, const TgReview *review, const TgStyle *style);

G_END_DECLS
