/* history-drawing.h: the weights of one part over the days, with its passes and its target band
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "plot.h"
#include "review.h"

G_BEGIN_DECLS

/**
 * tg_history_drawing_draw:
 *
 * A rod has its small end above its big end, every other part its weight.  Made for 300 × 140 and more, in
 * px of ordinary text 13 high; what does not fit is left out, the amounts of passes first.  Nothing is
 * drawn outside @area and the cairo state is restored.
 */
void tg_history_drawing_draw (
    cairo_t *cr, TgRect area, const TgReview *review, guint part, const TgStyle *style);

/* The same; what was written where is for the tests. (transfer full) (nullable): NULL: nothing drawn */
TgPlot *tg_history_drawing_plot (
    cairo_t *cr, TgRect area, const TgReview *review, guint part, const TgStyle *style);

G_END_DECLS
