/* figures-row.h: the weights of one part with their targets
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

#define TG_TYPE_FIGURES_ROW (tg_figures_row_get_type ())
G_DECLARE_FINAL_TYPE (TgFiguresRow, tg_figures_row, TG, FIGURES_ROW, GtkBox)

GtkWidget *tg_figures_row_new (void);

/* The texts are copied. */
void tg_figures_row_show (TgFiguresRow *row, const TgReview *review, guint part);

G_END_DECLS
