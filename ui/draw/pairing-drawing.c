/* pairing-drawing.c: which part goes with which, see pairing-drawing.h
 *
 * A row has today's thin line with its end mark, and under it the bar: a piece for each family in
 * its shade, in the same order in each row and parted by lines, so that they can be told apart
 * without colour.  What has to come off is hatched the other way than places where nothing may come
 * off, and its grams stand at the end of the row.  Nothing is worked out here; figures are written as
 * they were given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "pairing-drawing.h"

#include <math.h>

#include "mark.h"
#include "number.h"
#include "pairing-layout.h"
#include "pairing-mark.h"

/* --- ground ----------------------------------------------------------------------------------- */

static TgRect
row_rect (const TgPairingLayout *layout, guint i)
{
  TgRect area = layout->plot->area;

  return (TgRect){ area.x, layout->top + i * layout->row, area.width, layout->row };
}

static void
draw_selected (cairo_t *cr, const TgPairingLayout *layout, TgRect row)
{
  const TgStyle *style = &layout->plot->style;
  double in = layout->plot->line;
  TgShape frame = tg_shape_box (row.x + in, row.y + in, row.x + row.width - in,
                                row.y + row.height - in);

  cairo_new_path (cr);
  tg_shape_path (cr, &frame, 0.5 * layout->plot->size, NULL);
  cairo_set_source_rgba (cr, style->accent.r, style->accent.g, style->accent.b, 0.08);
  cairo_fill_preserve (cr);
  tg_color_set (cr, style->accent);
  cairo_set_line_width (cr, 1.6 * layout->plot->line);
  cairo_stroke (cr);
}

static void
draw_lines_between (cairo_t *cr, const TgPairingLayout *layout)
{
  const TgStyle *style = &layout->plot->style;

  cairo_set_source_rgba (cr, style->ink.r, style->ink.g, style->ink.b, 0.14);
  cairo_set_line_width (cr, 0.6 * layout->plot->line);
  for (guint i = 0; i < layout->picture->n_bars; i++)
    {
      TgRect row = row_rect (layout, i);

      cairo_move_to (cr, row.x, row.y);
      cairo_line_to (cr, row.x + row.width, row.y);
    }
  cairo_stroke (cr);
}

/* Down all rows at @x, but not through their second lines, which are to be read. */
static void
trace_down (cairo_t *cr, const TgPairingLayout *layout, double x)
{
  double top = layout->top - (layout->axis ? 0.25 * layout->plot->row : 0);

  for (guint i = 0; i < layout->picture->n_bars; i++)
    {
      TgRect row = row_rect (layout, i);

      cairo_move_to (cr, x, i == 0 ? top : row.y);
      cairo_line_to (cr, x,
                     layout->chips ? tg_pairing_layout_chip_y (layout, i, 0) : row.y + row.height);
    }
}

/* Lines at the ticks with their figures over them, and the left edge. */
static void
draw_scale (cairo_t *cr, const TgPairingLayout *layout)
{
  TgPlot *plot = layout->plot;
  double base = layout->picture->base_g, tick = layout->tick;

  cairo_set_source_rgba (cr, plot->style.ink.r, plot->style.ink.g, plot->style.ink.b, 0.22);
  cairo_set_line_width (cr, 0.6 * plot->line);
  for (double k = ceil (base / tick - 1e-9);; k++)
    {
      double x = tg_pairing_layout_x (layout, k * tick - base);
      g_autofree char *figure = tg_number_format (k * tick, layout->tick_decimals);

      if (x > plot->right + 0.01)
        break;
      trace_down (cr, layout, x);
      if (layout->axis)
        tg_plot_write (plot, figure, FALSE, plot->style.quiet, x, layout->tick_y, 0.5);
    }
  cairo_stroke (cr);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  trace_down (cr, layout, plot->left);
  cairo_stroke (cr);
}

/* The band with its edges, the lower one full, the upper one dashed as in the other plots. */
static void
draw_band (cairo_t *cr, const TgPairingLayout *layout)
{
  const TgPlot *plot = layout->plot;
  const TgStyle *style = &plot->style;
  double low = MAX (plot->left, tg_pairing_layout_x (layout, layout->picture->band_lower_g));
  double high = MAX (low, tg_pairing_layout_x (layout, layout->picture->band_upper_g));
  double top = layout->axis ? layout->tick_y : layout->top;
  double bottom = layout->top + layout->row * layout->picture->n_bars;
  double dash[] = { 4 * plot->line, 3 * plot->line };

  cairo_set_source_rgba (cr, style->good.r, style->good.g, style->good.b, 0.18);
  cairo_rectangle (cr, low, top, high - low, bottom - top);
  cairo_fill (cr);
  tg_color_set (cr, style->good);
  cairo_set_line_width (cr, plot->line);
  trace_down (cr, layout, low);
  cairo_stroke (cr);
  cairo_save (cr);
  cairo_set_dash (cr, dash, 2, 0);
  trace_down (cr, layout, high);
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* Over the strip the grams that it stands for; the word gives way to them. */
static void
write_band (const TgPairingLayout *layout)
{
  const TgPairingPicture *picture = layout->picture;
  TgPlot *plot = layout->plot;
  g_autofree char *low = tg_number_format (picture->base_g + picture->band_lower_g,
                                           picture->decimals);
  g_autofree char *high = tg_pairing_layout_grams (picture, picture->band_upper_g);
  g_autofree char *grams = picture->band_upper_g > picture->band_lower_g
                               ? g_strconcat (low, " to ", high, NULL)
                               : g_strdup (high);
  g_autofree char *words = g_strconcat ("target ", grams, NULL);
  gboolean fits = tg_plot_text_width (plot, words, TRUE) <= layout->inner.width;
  double half = tg_plot_text_width (plot, fits ? words : grams, TRUE) / 2;
  double middle = tg_pairing_layout_x (layout, (picture->band_lower_g + picture->band_upper_g) / 2);

  middle = MAX (layout->inner.x + half, MIN (layout->inner.x + layout->inner.width - half, middle));
  tg_plot_write (plot, fits ? words : grams, TRUE, plot->style.good, middle, layout->band_y, 0.5);
}

/* The band's over its strip, at the left "bore", at the right what the amounts are. */
static void
write_heads (const TgPairingLayout *layout)
{
  TgPlot *plot = layout->plot;
  double left = layout->inner.x, right = left + layout->inner.width;

  write_band (layout);
  tg_plot_write (plot, "to come off", FALSE, plot->style.quiet, right, layout->band_y, 1);
  tg_plot_write (plot, "bore", FALSE, plot->style.quiet, left, layout->tick_y, 0);
}

/* --- rows ------------------------------------------------------------------------------------- */

/* The number and the dot of one that moved, as much of both as there is room for. */
static void
mark_segment (cairo_t *cr, const TgPairingLayout *layout, guint i, guint f, double from, double to)
{
  const TgPairingSegment *part = &layout->picture->bars[i].parts[f];
  TgPlot *plot = layout->plot;
  TgColor ink = tg_mark_ink_on (tg_pairing_mark_shade (layout, f));
  TgRect bar = tg_pairing_layout_bar (layout, i);
  double number = tg_plot_text_width (plot, part->number, FALSE), pad = 0.3 * plot->size;
  double dot = tg_pairing_layout_dot (layout), middle = (from + to) / 2, room = to - from - 2 * pad;
  gboolean both = part->moved && number + dot <= room;

  if (number <= room && (both || !part->moved))
    tg_plot_write (plot, part->number, FALSE, ink, both ? middle - dot / 2 : middle,
                   bar.y + (bar.height - plot->row) / 2, 0.5);
  if (both)
    tg_pairing_mark_dot (cr, layout, middle + number / 2 + 0.1 * plot->size, bar.y + bar.height / 2,
                         ink);
  else if (part->moved && 0.5 * plot->size <= to - from)
    tg_pairing_mark_dot (cr, layout, middle, bar.y + bar.height / 2, ink);
}

static void
draw_bar (cairo_t *cr, const TgPairingLayout *layout, guint i)
{
  const TgPairingPicture *picture = layout->picture;
  const TgPairingBar *bar = &picture->bars[i];
  TgRect box = tg_pairing_layout_bar (layout, i);
  double end = tg_pairing_layout_x (layout, bar->after_g);
  double edge = bar->touched ? MAX (box.x, tg_pairing_layout_x (layout, picture->band_upper_g))
                             : end;
  double over = 0;

  for (guint f = 0; f < picture->n_families; f++)
    {
      double from = tg_pairing_layout_x (layout, over), to;

      if (!bar->parts[f].number)
        continue;
      over += bar->parts[f].over_g;
      to = tg_pairing_layout_x (layout, over);
      if (to - from < 0.01)
        continue;
      tg_pairing_mark_box (cr, layout, (TgRect){ from, box.y, to - from, box.height },
                           tg_pairing_mark_shade (layout, f));
      if (from < edge)
        mark_segment (cr, layout, i, f, from, MIN (to, edge));
    }
  /* one that is as light as can be still ends somewhere */
  if (end - box.x < 0.01)
    tg_pairing_mark_box (cr, layout, (TgRect){ box.x, box.y, 0, box.height },
                         layout->plot->style.ink);
  if (edge < end)
    tg_pairing_mark_off (cr, layout, (TgRect){ edge, box.y, end - edge, box.height });
}

static void
draw_chips (cairo_t *cr, const TgPairingLayout *layout, guint i)
{
  TgPlot *plot = layout->plot;
  const TgStyle *style = &plot->style;
  double swatch = tg_pairing_layout_swatch (layout),
         first = tg_pairing_layout_chip_y (layout, i, 0);
  gboolean all = tg_pairing_layout_all_locked (layout->picture, i);
  TgPairingChip chips[TG_PAIRING_DRAWING_MAX_FAMILIES];

  tg_pairing_layout_chips (layout, i, chips);
  for (guint f = 0; f < layout->picture->n_families; f++)
    {
      const TgPairingSegment *part = &layout->picture->bars[i].parts[f];
      double y = tg_pairing_layout_chip_y (layout, i, chips[f].line);
      double x = chips[f].x + swatch + 0.3 * plot->size;
      double middle = y + 0.52 * plot->row;

      if (!chips[f].text || !tg_plot_write (plot, chips[f].text, FALSE,
                                            part->moved ? style->ink : style->quiet, x, y, 0))
        continue;
      tg_pairing_mark_box (cr, layout, (TgRect){ chips[f].x, middle - swatch / 2, swatch, swatch },
                           tg_pairing_mark_shade (layout, f));
      x += tg_plot_text_width (plot, chips[f].text, FALSE);
      if (part->moved)
        {
          tg_pairing_mark_dot (cr, layout, x + 0.5 * plot->size, middle, style->ink);
          x += tg_pairing_layout_dot (layout);
        }
      if (part->locked && !all)
        tg_pairing_mark_lock (cr, layout, x + 0.3 * plot->size, middle, style->ink);
    }
  if (all)
    tg_pairing_mark_lock (cr, layout, layout->inner.x, first + 0.52 * plot->row, style->ink);
  tg_pairing_layout_chips_clear (chips);
}

/* (transfer full): as many letters as there is room for, at least one. */
static char *
cut_label (const TgPairingLayout *layout, const char *label)
{
  glong length = g_utf8_strlen (label, -1);

  for (;;)
    {
      g_autofree char *start = g_utf8_substring (label, 0, --length);
      g_autofree char *cut = g_strconcat (g_strchomp (start), "…", NULL);

      if (length <= 1 || tg_plot_text_width (layout->plot, cut, FALSE) <= layout->label_width)
        return g_steal_pointer (&cut);
    }
}

static void
write_label (const TgPairingLayout *layout, guint i, double y)
{
  TgPlot *plot = layout->plot;
  const char *label = layout->picture->bars[i].label;
  gboolean fits = tg_plot_text_width (plot, label, TRUE) <= layout->label_width + 0.01;
  g_autofree char *words = fits ? g_strdup (label) : cut_label (layout, label);

  tg_plot_write (plot, words, fits, plot->style.ink, layout->inner.x, y, 0);
}

static void
write_amounts (const TgPairingLayout *layout, guint i, double y)
{
  const TgPairingPicture *picture = layout->picture;
  TgPlot *plot = layout->plot;
  gboolean light = tg_pairing_layout_is_light (picture, i), touched = picture->bars[i].touched;
  g_autofree char *after = tg_pairing_layout_amount (picture, i);
  g_autofree char *before = tg_pairing_layout_before_amount (picture, i);
  double right = layout->inner.x + layout->inner.width;

  tg_plot_write (plot, after, touched || light,
                 touched ? plot->style.accent
                 : light ? plot->style.alert
                         : plot->style.good,
                 right, y, 1);
  if (layout->before)
    tg_plot_write (plot, before, FALSE, plot->style.quiet, right,
                   tg_pairing_layout_before (layout, i) - plot->row / 2, 1);
}

static void
draw_row (cairo_t *cr, const TgPairingLayout *layout, guint i)
{
  TgRect bar = tg_pairing_layout_bar (layout, i);
  double y = bar.y + (bar.height - layout->plot->row) / 2;

  if (layout->before)
    tg_pairing_mark_today (cr, layout, bar.x,
                           tg_pairing_layout_x (layout, layout->picture->bars[i].before_g),
                           tg_pairing_layout_before (layout, i));
  draw_bar (cr, layout, i);
  write_label (layout, i, y);
  write_amounts (layout, i, y);
  if (layout->chips)
    draw_chips (cr, layout, i);
}

/* --- all of it -------------------------------------------------------------------------------- */

static void
draw_layout (cairo_t *cr, const TgPairingLayout *layout)
{
  const TgPairingPicture *picture = layout->picture;

  if (layout->row <= 0)
    return;
  for (guint i = 0; i < picture->n_bars; i++)
    if (picture->bars[i].selected)
      draw_selected (cr, layout, row_rect (layout, i));
  draw_lines_between (cr, layout);
  if (layout->axis)
    write_heads (layout);
  draw_scale (cr, layout);
  draw_band (cr, layout);
  for (guint i = 0; i < picture->n_bars; i++)
    draw_row (cr, layout, i);
  for (guint k = 0; layout->legend && k < layout->keys->len; k++)
    tg_pairing_mark_key (cr, layout, &g_array_index (layout->keys, TgPairingKey, k));
}

static gboolean
is_sound (const TgPairingPicture *picture)
{
  return picture && picture->n_bars > 0 && picture->n_families > 0 &&
         picture->n_families <= TG_PAIRING_DRAWING_MAX_FAMILIES;
}

TgPlot *
tg_pairing_drawing_plot (cairo_t *cr,
                         TgRect area,
                         const TgPairingPicture *picture,
                         const TgStyle *style)
{
  g_autoptr (TgPairingLayout) layout = NULL;

  g_return_val_if_fail (is_sound (picture), NULL);

  if (area.width < 4 || area.height < 4)
    return NULL;
  layout = tg_pairing_layout_new (area, picture, style);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_MITER);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  draw_layout (cr, layout);
  tg_plot_draw_texts (cr, layout->plot);
  cairo_restore (cr);
  return tg_pairing_layout_free_to_plot (g_steal_pointer (&layout));
}

void
tg_pairing_drawing_draw (cairo_t *cr,
                         TgRect area,
                         const TgPairingPicture *picture,
                         const TgStyle *style)
{
  TgPlot *plot = tg_pairing_drawing_plot (cr, area, picture, style);

  g_clear_pointer (&plot, tg_plot_free);
}

double
tg_pairing_drawing_height (double width, const TgPairingPicture *picture, const TgStyle *style)
{
  g_autoptr (TgPairingLayout) layout = NULL;

  g_return_val_if_fail (is_sound (picture), 0);

  layout = tg_pairing_layout_new ((TgRect){ 0, 0, width, 1e6 }, picture, style);
  return tg_pairing_layout_height (layout);
}

TgRect
tg_pairing_drawing_row (TgRect area, const TgPairingPicture *picture, const TgStyle *style, guint i)
{
  g_autoptr (TgPairingLayout) layout = NULL;

  g_return_val_if_fail (is_sound (picture) && i < picture->n_bars, ((TgRect){ 0 }));

  layout = tg_pairing_layout_new (area, picture, style);
  return row_rect (layout, i);
}

int
tg_pairing_drawing_row_at (TgRect area,
                           const TgPairingPicture *picture,
                           const TgStyle *style,
                           double y)
{
  g_autoptr (TgPairingLayout) layout = NULL;
  double i;

  g_return_val_if_fail (is_sound (picture), -1);

  layout = tg_pairing_layout_new (area, picture, style);
  i = layout->row > 0 ? floor ((y - layout->top) / layout->row) : -1;
  return i >= 0 && i < layout->picture->n_bars ? (int) i : -1;
}
