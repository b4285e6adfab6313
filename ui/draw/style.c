/* style.c: colours and sizes of every drawing, see style.h
 *
 * Four grounds: light and dark for the screen, white paper, and high contrast over any of them.
 * Text colours keep a WCAG contrast of at least 4.5 to the ground (the test measures it).  A shade
 * is never the only carrier of a meaning: amounts are also written, states also hatched or ticked.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "style.h"

#include <math.h>

#include "ramp.h"

#define RGB(hex)                                                                                   \
  {                                                                                                \
    (((hex) >> 16) & 0xff) / 255.0, (((hex) >> 8) & 0xff) / 255.0, ((hex) &0xff) / 255.0           \
  }

TgStyle
tg_style_light (void)
{
  return (TgStyle){
    .font = "Sans",
    .text_size = 13,
    .line = 1.5,
    .dark = FALSE,
    .ground = RGB (0xfafaf8),
    .metal = RGB (0xe3e5e6),
    .ink = RGB (0x23282c),
    .quiet = RGB (0x596167),
    .accent = RGB (0x0f4c81),
    .good = RGB (0x17704a),
    .alert = RGB (0xa8322a),
    .hatch = RGB (0x8d959b),
  };
}

TgStyle
tg_style_dark (void)
{
  return (TgStyle){
    .font = "Sans",
    .text_size = 13,
    .line = 1.5,
    .dark = TRUE,
    .ground = RGB (0x181b1e),
    .metal = RGB (0x2d3237),
    .ink = RGB (0xe6e8e7),
    .quiet = RGB (0xa7afb4),
    .accent = RGB (0x8cc4f5),
    .good = RGB (0x6fd19e),
    .alert = RGB (0xf28b7d),
    .hatch = RGB (0x7f888f),
  };
}

TgStyle
tg_style_print (void)
{
  return (TgStyle){
    .font = "Sans",
    .text_size = 8,
    .line = 0.8,
    .dark = FALSE,
    .ground = RGB (0xffffff),
    .metal = RGB (0xeeeeee),
    .ink = RGB (0x000000),
    .quiet = RGB (0x444444),
    .accent = RGB (0x000000),
    .good = RGB (0x000000),
    .alert = RGB (0x000000),
    .hatch = RGB (0x777777),
  };
}

TgStyle
tg_style_high_contrast (TgStyle style)
{
  style.line *= 1.6;
  style.ink = style.dark ? (TgColor) RGB (0xffffff) : (TgColor) RGB (0x000000);
  style.ground = style.dark ? (TgColor) RGB (0x000000) : (TgColor) RGB (0xffffff);
  style.metal = style.dark ? (TgColor) RGB (0x262626) : (TgColor) RGB (0xf2f2f2);
  style.quiet = style.ink;
  style.hatch = style.ink;
  style.accent = style.dark ? (TgColor) RGB (0x9fd0ff) : (TgColor) RGB (0x002f6c);
  style.good = style.dark ? (TgColor) RGB (0x8df0b8) : (TgColor) RGB (0x00502b);
  style.alert = style.dark ? (TgColor) RGB (0xffb0a6) : (TgColor) RGB (0x8a0f0f);
  return style;
}

TgColor
tg_style_shade (const TgStyle *style, double share)
{
  double x = CLAMP (share, 0, 1);

  /* the darkest quarter could not be told from dark metal */
  return tg_ramp_cividis (style->dark ? 0.25 + 0.75 * x : 1 - x);
}

/* WCAG 2.1, "relative luminance": https://www.w3.org/TR/WCAG21/#dfn-relative-luminance */
static double
linear (double c)
{
  return c <= 0.03928 ? c / 12.92 : pow ((c + 0.055) / 1.055, 2.4);
}

double
tg_color_luminance (TgColor color)
{
  return 0.2126 * linear (color.r) + 0.7152 * linear (color.g) + 0.0722 * linear (color.b);
}

double
tg_color_contrast (TgColor a, TgColor b)
{
  double la = tg_color_luminance (a), lb = tg_color_luminance (b);

  return (MAX (la, lb) + 0.05) / (MIN (la, lb) + 0.05);
}
