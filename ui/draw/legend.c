/* legend.c: what shades, hatches and ticks mean, see part-drawing.h
 *
 * A bar of the ramp with its grams, then one swatch for each state.  Tall rectangles stack them,
 * wide ones put them side by side; what does not fit whole is left out, the bar last.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "part-drawing.h"

#include <math.h>

#include "mark.h"
#include "text.h"

static const char *const entries[] = { "never here", "finished", "only with care" };

static void
draw_swatch (cairo_t *cr, guint i, TgRect box, const TgStyle *style)
{
  TgPoint middle = { box.x + box.width / 2, box.y + box.height / 2 };

  cairo_rectangle (cr, box.x, box.y, box.width, box.height);
  switch (i)
    {
    case 0:
      tg_mark_never (cr, box, style->metal, style, style->line);
      break;
    case 1:
      tg_mark_done (cr, style, style->line);
      tg_mark_tick (cr, middle, 0.7 * box.height, style, style->line);
      break;
    default:
      tg_mark_care (cr, box, style->metal, style, style->line);
      break;
    }
}

static TgText
words_text (const TgStyle *style)
{
  return (TgText){ .font = style->font, .size = 0.9 * style->text_size };
}

static void
draw_bar (cairo_t *cr, TgRect bar, const TgStyle *style)
{
  cairo_pattern_t *ramp = cairo_pattern_create_linear (bar.x, 0, bar.x + bar.width, 0);

  for (guint i = 0; i <= 32; i++)
    {
      TgColor c = tg_style_shade (style, i / 32.0);

      cairo_pattern_add_color_stop_rgb (ramp, i / 32.0, c.r, c.g, c.b);
    }
  cairo_rectangle (cr, bar.x, bar.y, bar.width, bar.height);
  cairo_set_source (cr, ramp);
  cairo_fill_preserve (cr);
  cairo_pattern_destroy (ramp);
  tg_color_set (cr, style->ink);
  cairo_set_line_width (cr, 0.6 * style->line);
  cairo_stroke (cr);
}

/* The ramp, its title and grams; returns its height, 0 if it does not fit. */
static double
draw_scale (cairo_t *cr, TgRect area, double full_g, guint decimals, const TgStyle *style)
{
  TgText text = words_text (style);
  g_autofree char *number = tg_mass_format (tg_mass_from_g (full_g), decimals);
  g_autofree char *most = g_strconcat (number, " g", NULL);
  double row, title, most_w, zero_w, bar = 0.95 * style->text_size, at = area.y;

  tg_text_measure (&text, "still to come off", &title, &row);
  tg_text_measure (&text, most, &most_w, NULL);
  tg_text_measure (&text, "0", &zero_w, NULL);
  if (area.height < bar + row || area.width < most_w + zero_w + style->text_size)
    return 0;
  if (area.height >= bar + 2.3 * row && area.width >= title)
    {
      tg_text_draw (cr, &text, "still to come off", area.x, at, style->quiet);
      at += 1.3 * row;
    }
  draw_bar (cr, (TgRect){ area.x + style->line, at, area.width - 2 * style->line, bar }, style);
  at += bar;
  tg_text_draw (cr, &text, "0", area.x, at, style->ink);
  tg_text_draw (cr, &text, most, area.x + area.width - most_w, at, style->ink);
  return at + row - area.y;
}

static void
draw_entry (cairo_t *cr, guint i, double x, double y, const TgStyle *style)
{
  TgText text = words_text (style);
  double w = 1.6 * style->text_size, h = style->text_size, row;
  TgRect box = { x + style->line, y + style->line, w, h };

  tg_text_measure (&text, entries[i], NULL, &row);
  draw_swatch (cr, i, box, style);
  tg_text_draw (cr, &text, entries[i], box.x + w + 0.6 * style->text_size, box.y + (h - row) / 2,
                style->ink);
}

static double
entry_width (guint i, const TgStyle *style)
{
  TgText text = words_text (style);
  double words;

  tg_text_measure (&text, entries[i], &words, NULL);
  return 2.2 * style->text_size + words + 2 * style->line;
}

void
tg_part_drawing_draw_legend (
    cairo_t *cr, TgRect area, double most_g, guint decimals, const TgStyle *style)
{
  double text = style->text_size;
  gboolean wide = area.width > 26 * text;
  TgRect bar = area;
  double used = 0, x, y, row = 1.5 * text;

  if (area.width < 4 || area.height < 4)
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  if (wide)
    bar.width = 12 * text;
  if (most_g > 0)
    used = draw_scale (cr, bar, most_g, decimals, style);
  x = wide && most_g > 0 ? area.x + bar.width + 2 * text : area.x;
  y = area.y + (wide         ? MAX (0, (MIN (used, area.height) - row) / 2)
                : most_g > 0 ? used + 0.7 * text
                             : 0);
  for (guint i = 0; i < G_N_ELEMENTS (entries); i++)
    {
      double width = entry_width (i, style);

      if (x + width > area.x + area.width || y + text + 2 * style->line > area.y + area.height)
        continue;
      draw_entry (cr, i, x, y, style);
      if (wide)
        x += width + 1.4 * text;
      else
        y += row;
    }
  cairo_restore (cr);
}
