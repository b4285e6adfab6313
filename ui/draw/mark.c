/* mark.c: how a zone's state looks, see mark.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "mark.h"

#include <math.h>

void
tg_mark_work (cairo_t *cr, double share, const TgStyle *style, double line)
{
  tg_set_color (cr, tg_style_shade (style, share));
  cairo_fill_preserve (cr);
  tg_set_color (cr, style->ink);
  cairo_set_line_width (cr, 0.9 * line);
  cairo_stroke (cr);
}

void
tg_mark_done (cairo_t *cr, const TgStyle *style, double line)
{
  tg_set_color (cr, style->ground);
  cairo_fill_preserve (cr);
  tg_set_color (cr, style->good);
  cairo_set_line_width (cr, 1.3 * line);
  cairo_stroke (cr);
}

/* Parallel lines across @box that lean by @lean (+1: like a slash), clipped to the path. */
static void
hatch (cairo_t *cr, TgRect box, double spacing, int lean)
{
  cairo_path_t *path = cairo_copy_path (cr);
  double h = box.height;

  cairo_save (cr);
  cairo_clip (cr);
  for (double x = box.x - h - fmod (box.x - h, spacing) - spacing; x < box.x + box.width + h;
       x += spacing)
    {
      cairo_move_to (cr, x, box.y + (lean > 0 ? h : 0));
      cairo_line_to (cr, x + h, box.y + (lean > 0 ? 0 : h));
    }
  cairo_stroke (cr);
  cairo_restore (cr);
  cairo_append_path (cr, path);
  cairo_path_destroy (path);
}

void
tg_mark_never (cairo_t *cr, TgRect box, TgColor fill, const TgStyle *style, double line)
{
  tg_set_color (cr, fill);
  cairo_fill_preserve (cr);
  tg_set_color (cr, style->hatch);
  cairo_set_line_width (cr, 0.7 * line);
  hatch (cr, box, 4.2 * line, 1);
  tg_set_color (cr, style->quiet);
  cairo_set_line_width (cr, 0.7 * line);
  cairo_stroke (cr);
}

void
tg_mark_care (cairo_t *cr, TgRect box, TgColor fill, const TgStyle *style, double line)
{
  const double dots[] = { 1.2 * line, 2.4 * line }, edge[] = { 2.6 * line, 1.8 * line };

  tg_set_color (cr, fill);
  cairo_fill_preserve (cr);
  tg_set_color (cr, style->hatch);
  cairo_set_line_width (cr, 1.1 * line);
  cairo_set_dash (cr, dots, 2, 0);
  hatch (cr, box, 4.2 * line, -1);
  tg_set_color (cr, style->quiet);
  cairo_set_line_width (cr, 0.6 * line);
  cairo_set_dash (cr, edge, 2, 0);
  cairo_stroke (cr);
  cairo_set_dash (cr, NULL, 0, 0);
}

void
tg_mark_ready (cairo_t *cr, const TgStyle *style, double line)
{
  tg_set_color (cr, style->quiet);
  cairo_set_line_width (cr, 0.6 * line);
  cairo_stroke (cr);
}

void
tg_mark_tick (cairo_t *cr, TgPoint center, double size, const TgStyle *style, double line)
{
  double s = CLAMP (size, 5.5 * line, 12 * line);

  if (size < 2 * line)
    return;
  cairo_save (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  tg_set_color (cr, style->good);
  cairo_set_line_width (cr, MIN (1.5 * line, 0.2 * s));
  cairo_move_to (cr, center.x - 0.45 * s, center.y + 0.05 * s);
  cairo_line_to (cr, center.x - 0.12 * s, center.y + 0.36 * s);
  cairo_line_to (cr, center.x + 0.45 * s, center.y - 0.36 * s);
  cairo_stroke (cr);
  cairo_restore (cr);
}

TgColor
tg_mark_ink_on (TgColor color)
{
  const TgColor black = { 0, 0, 0 }, white = { 1, 1, 1 };

  return tg_color_contrast (color, black) > tg_color_contrast (color, white) ? black : white;
}
