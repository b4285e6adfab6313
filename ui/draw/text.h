/* text.h: measuring and drawing short texts, the same on every target
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "style.h"

G_BEGIN_DECLS

typedef enum
{
  TG_ALIGN_LEFT,
  TG_ALIGN_CENTER,
  TG_ALIGN_RIGHT,
} TgAlign;

/**
 * TgText: how a text is set
 * @font: family
 * @size: in units of the target
 * @width: lines are broken to this width, also inside words that are longer; 0: one line
 * @align: matters with @width only
 */
typedef struct
{
  const char *font;
  double size;
  gboolean bold;
  double width;
  TgAlign align;
} TgText;

/* Width and height of the block that tg_text_draw() fills. With @width set, the width that is used. */
void tg_text_measure (const TgText *how, const char *text, double *width, double *height);

/* Upper left corner at @x, @y. With @width set, the block is @width wide and @align counts in it. */
void
tg_text_draw (cairo_t *cr, const TgText *how, const char *text, double x, double y, TgColor color);

G_END_DECLS
