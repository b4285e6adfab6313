/* pairing-mark.c: the signs in a picture of a pairing, see pairing-mark.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "pairing-mark.h"

/* Nearly the whole ramp, so that neighbours differ as much as they can; the first stands out most
 * from the ground. */
TgColor
tg_pairing_mark_shade (const TgPairingLayout *layout, guint family)
{
  guint n = layout->picture->n_families;
  double step = n > 1 ? 0.92 / (n - 1) : 0;

  return tg_style_shade (&layout->plot->style, 0.95 - step * family);
}

void
tg_pairing_mark_box (cairo_t *cr, const TgPairingLayout *layout, TgRect box, TgColor color)
{
  tg_color_set (cr, color);
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  cairo_fill_preserve (cr);
  tg_color_set (cr, layout->plot->style.ink);
  cairo_set_line_width (cr, 0.7 * layout->plot->line);
  cairo_stroke (cr);
}

void
tg_pairing_mark_dot (cairo_t *cr, const TgPairingLayout *layout, double x, double y, TgColor color)
{
  cairo_new_path (cr);
  cairo_arc (cr, x, y, 0.22 * layout->plot->size, 0, 2 * G_PI);
  tg_color_set (cr, color);
  cairo_fill (cr);
}

void
tg_pairing_mark_lock (cairo_t *cr, const TgPairingLayout *layout, double x, double y, TgColor color)
{
  double w = 0.62 * layout->plot->size, h = 0.5 * layout->plot->size, r = 0.3 * w;
  double top = y - 0.08 * layout->plot->size;

  tg_color_set (cr, color);
  cairo_new_path (cr);
  cairo_rectangle (cr, x, top, w, h);
  cairo_fill (cr);
  cairo_set_line_width (cr, 0.28 * r + 0.5 * layout->plot->line);
  cairo_move_to (cr, x + w / 2 - r, top);
  cairo_line_to (cr, x + w / 2 - r, top - 0.6 * r);
  cairo_arc (cr, x + w / 2, top - 0.6 * r, r, G_PI, 2 * G_PI);
  cairo_line_to (cr, x + w / 2 + r, top);
  cairo_stroke (cr);
}

void
tg_pairing_mark_today (cairo_t *cr, const TgPairingLayout *layout, double from, double to, double y)
{
  double half = 0.3 * layout->plot->size;

  tg_color_set (cr, layout->plot->style.ink);
  cairo_set_line_width (cr, layout->plot->line);
  cairo_move_to (cr, from, y);
  cairo_line_to (cr, to, y);
  cairo_stroke (cr);
  cairo_set_line_width (cr, 1.8 * layout->plot->line);
  cairo_move_to (cr, to, y - half);
  cairo_line_to (cr, to, y + half);
  cairo_stroke (cr);
}

void
tg_pairing_mark_off (cairo_t *cr, const TgPairingLayout *layout, TgRect box)
{
  const TgPlot *plot = layout->plot;
  const TgStyle *style = &plot->style;
  double spacing = 4 * plot->line, h = box.height;

  cairo_save (cr);
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  cairo_clip_preserve (cr);
  cairo_set_source_rgba (cr, style->ground.r, style->ground.g, style->ground.b, 0.8);
  cairo_fill (cr);
  tg_color_set (cr, style->accent);
  cairo_set_line_width (cr, 1.2 * plot->line);
  for (double x = box.x - h; x < box.x + box.width; x += spacing)
    {
      cairo_move_to (cr, x, box.y);
      cairo_line_to (cr, x + h, box.y + h);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
  tg_color_set (cr, style->accent);
  cairo_set_line_width (cr, 1.4 * plot->line);
  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  cairo_stroke (cr);
}

void
tg_pairing_mark_key (cairo_t *cr, const TgPairingLayout *layout, const TgPairingKey *key)
{
  TgPlot *plot = layout->plot;
  double width = tg_pairing_layout_key_swatch (layout), height = 0.8 * plot->size;
  double middle = key->y + 0.52 * plot->row;
  TgRect box = { key->x, middle - height / 2, width, height };

  if (!tg_plot_write (plot, key->text, FALSE, plot->style.ink, key->x + width + 0.4 * plot->size,
                      key->y, 0))
    return;
  switch (key->kind)
    {
    case TG_PAIRING_KEY_FAMILY:
      tg_pairing_mark_box (cr, layout, box, tg_pairing_mark_shade (layout, key->family));
      break;
    case TG_PAIRING_KEY_TODAY:
      tg_pairing_mark_today (cr, layout, box.x, box.x + width - plot->line, middle);
      break;
    case TG_PAIRING_KEY_OFF:
      tg_pairing_mark_off (cr, layout, box);
      break;
    case TG_PAIRING_KEY_MOVED:
      tg_pairing_mark_dot (cr, layout, box.x + width / 2, middle, plot->style.ink);
      break;
    case TG_PAIRING_KEY_LOCKED:
      tg_pairing_mark_lock (cr, layout, box.x + width / 2 - 0.3 * plot->size, middle,
                            plot->style.ink);
      break;
    case TG_PAIRING_KEY_BASE:
    default:
      tg_color_set (cr, plot->style.ink);
      cairo_set_line_width (cr, plot->line);
      cairo_move_to (cr, box.x + width / 2, key->y);
      cairo_line_to (cr, box.x + width / 2, key->y + plot->row);
      cairo_stroke (cr);
      break;
    }
}
