/* style.h: colours, type and the shading ramp that every drawing uses
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <cairo.h>
#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double r, g, b;
} TgColor;

typedef struct
{
  double x, y, width, height;
} TgRect;

/**
 * TgStyle:
 * @font: family name for pango
 * @text_size: of ordinary text, in units of the target (px on screen, points on paper)
 * @line: ordinary stroke width, same units
 * @dark: dark ground
 * @ground: behind everything; @metal: the part; @ink: outlines and text; @quiet: secondary text;
 * @accent: amounts and selection; @good: finished; @alert: too light; @hatch: never zones
 */
typedef struct
{
  const char *font;
  double text_size;
  double line;
  gboolean dark;
  TgColor ground, metal, ink, quiet, accent, good, alert, hatch;
} TgStyle;

TgStyle tg_style_light (void);
TgStyle tg_style_dark (void);
/* White ground, black ink, readable without colour. */
TgStyle tg_style_print (void);
/* The same style with stronger strokes and no quiet tones. */
TgStyle tg_style_high_contrast (TgStyle style);

/**
 * tg_style_shade:
 * @share: 0 (nothing to come off) to 1 (the most in this job), clamped
 *
 * A published perceptually uniform ramp that colour-blind people can read; on a dark ground it runs
 * the other way, so that more grams always stand out more from the ground.
 */
TgColor tg_style_shade (const TgStyle *style, double share);

/* Relative luminance and contrast ratio of WCAG 2.1. */
double tg_color_luminance (TgColor color);
double tg_color_contrast (TgColor a, TgColor b);

/* @a with @share of @b mixed in. */
TgColor tg_color_mix (TgColor a, TgColor b, double share);
void tg_color_set (cairo_t *cr, TgColor color);

G_END_DECLS
