/* line-samples.h: what the lines of a scale mean is learned from a few of them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "scale-link.h"

G_BEGIN_DECLS

#define TG_TYPE_LINE_SAMPLES (tg_line_samples_get_type ())
G_DECLARE_FINAL_TYPE (TgLineSamples, tg_line_samples, TG, LINE_SAMPLES, GtkBox)

/* (nullable) */
void tg_line_samples_set_link (TgLineSamples *self, TgScaleLink *link);

G_END_DECLS
