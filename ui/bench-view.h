/* bench-view.h: how the part lies on scale and stand for the next reading
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

#define TG_TYPE_BENCH_VIEW (tg_bench_view_get_type ())
G_DECLARE_FINAL_TYPE (TgBenchView, tg_bench_view, TG, BENCH_VIEW, GtkWidget)

GtkWidget *tg_bench_view_new (void);

/* Shows the part of @slot as it lies for that reading; the design is copied. */
void tg_bench_view_show (TgBenchView *view, const TgReview *review, TgSlot slot);

G_END_DECLS
