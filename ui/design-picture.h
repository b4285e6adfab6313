/* design-picture.h: the drawing of a part design, without amounts
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "design.h"

G_BEGIN_DECLS

#define TG_TYPE_DESIGN_PICTURE (tg_design_picture_get_type ())
G_DECLARE_FINAL_TYPE (TgDesignPicture, tg_design_picture, TG, DESIGN_PICTURE, GtkDrawingArea)

GtkWidget *tg_design_picture_new (gboolean labels);

/* TgDesignPicture:labels: reasons and the centre distance are written where there is room. */

/* Copies @design (nullable). @zone: index of the zone that is singled out, or -1. */
void tg_design_picture_show (TgDesignPicture *self, const TgDesign *design, int zone);

/* Singles out another zone of the same design, or none with -1. */
void tg_design_picture_select (TgDesignPicture *self, int zone);
int tg_design_picture_get_selected (TgDesignPicture *self);

G_END_DECLS
