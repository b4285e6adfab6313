/* picture.h: drawing to memory and looking at the result
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "style.h"
#include "plot.h"

G_BEGIN_DECLS

typedef struct
{
  cairo_surface_t *surface;
  cairo_t *cr;
  int width, height;
} Picture;

Picture *picture_new (int width, int height, TgColor ground);
void picture_free (Picture *picture);
TgColor picture_pixel (Picture *picture, int x, int y);

/* TRUE if every pixel that is not wholly inside @area still is @ground. */
gboolean picture_unchanged_outside (Picture *picture, TgRect area, TgColor ground);

/* Pixels with a channel that differs by more than @tolerance of 255. */
guint picture_differing (Picture *a, Picture *b, int tolerance);

/**
 * picture_compare:
 *
 * Fails the test unless at most 0.1 % of the pixels differ from reference/@name.png by more than 8.
 * The picture is then written to the build folder.  With UPDATE_REF set it becomes the reference.
 */
void picture_compare (Picture *picture, const char *name);

/* Texts of a plot that were written: each within its area, none over another. */
void picture_check_apart (const TgPlot *plot);

G_END_DECLS
