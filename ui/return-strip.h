/* return-strip.h: where the job stands, for a person who comes back to it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "review.h"

G_BEGIN_DECLS

#define TG_TYPE_RETURN_STRIP (tg_return_strip_get_type ())
G_DECLARE_FINAL_TYPE (TgReturnStrip, tg_return_strip, TG, RETURN_STRIP, GtkBox)

GtkWidget *tg_return_strip_new (void);

/* Shows standing, last days and what is next; the texts are copied. Escape or its button hides it. */
void tg_return_strip_show (TgReturnStrip *strip, const TgReview *review);

G_END_DECLS
