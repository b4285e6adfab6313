/* plot.c: the common ground of the plots, see plot.h
 *
 * What is drawn lies on three grounds: a block for each day, lines at round values, and what the
 * plots put there.  Nothing is told by colour alone: edges of strips are full or dashed, marks are
 * dots, rings and crosses.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plot.h"

#include <math.h>

#include "number.h"
#include "text.h"

/* Of ordinary text. */
#define TEXT_SHARE 0.85

static void
text_clear (gpointer data)
{
  g_free (((TgPlotText *) data)->text);
}

TgPlot *
tg_plot_new (TgRect area, const TgStyle *style)
{
  TgPlot *plot = g_new0 (TgPlot, 1);
  double pad = 1.5 * style->line;
  TgText text;

  plot->style = *style;
  plot->area = (TgRect){ area.x + pad, area.y + pad, MAX (0, area.width - 2 * pad),
                         MAX (0, area.height - 2 * pad) };
  plot->size = TEXT_SHARE * style->text_size;
  plot->line = 0.8 * style->line;
  plot->days = g_array_new (FALSE, FALSE, sizeof (TgPlotDay));
  plot->x = g_array_new (FALSE, FALSE, sizeof (double));
  plot->texts = g_array_new (FALSE, FALSE, sizeof (TgPlotText));
  g_array_set_clear_func (plot->texts, text_clear);
  text = (TgText){ .font = style->font, .size = plot->size, .bold = TRUE };
  tg_text_measure (&text, "0", NULL, &plot->row);
  return plot;
}

void
tg_plot_free (TgPlot *plot)
{
  g_array_unref (plot->days);
  g_array_unref (plot->x);
  g_array_unref (plot->texts);
  g_free (plot);
}

/* --- texts ----------------------------------------------------------------------------------- */

static TgText
how_to_set (const TgPlot *plot, gboolean bold, double width)
{
  return (TgText){ .font = plot->style.font,
                   .size = plot->size,
                   .bold = bold,
                   .width = width,
                   .align = TG_ALIGN_CENTER };
}

double
tg_plot_text_width (const TgPlot *plot, const char *text, gboolean bold)
{
  TgText how = how_to_set (plot, bold, 0);
  double width;

  tg_text_measure (&how, text, &width, NULL);
  return width;
}

static gboolean
inside (TgRect rect, TgRect area)
{
  const double tiny = 1e-6;

  return rect.x >= area.x - tiny && rect.y >= area.y - tiny &&
         rect.x + rect.width <= area.x + area.width + tiny &&
         rect.y + rect.height <= area.y + area.height + tiny;
}

/* Lines may follow each other closely, words on one line not. */
static gboolean
too_close (const TgPlot *plot, TgRect a, TgRect b)
{
  double apart = 0.4 * plot->size, tiny = 1e-6;

  return a.x < b.x + b.width + apart && b.x < a.x + a.width + apart &&
         a.y < b.y + b.height - tiny && b.y < a.y + a.height - tiny;
}

static gboolean
add_text (TgPlot *plot, const char *text, gboolean bold, double width, TgColor color, TgRect rect)
{
  TgPlotText written = { .rect = rect, .bold = bold, .width = width, .color = color };

  if (!inside (rect, plot->area))
    return FALSE;
  for (guint i = 0; i < plot->texts->len; i++)
    if (too_close (plot, rect, g_array_index (plot->texts, TgPlotText, i).rect))
      return FALSE;
  written.text = g_strdup (text);
  g_array_append_val (plot->texts, written);
  return TRUE;
}

gboolean
tg_plot_write (
    TgPlot *plot, const char *text, gboolean bold, TgColor color, double x, double y, double share)
{
  TgText how = how_to_set (plot, bold, 0);
  TgRect rect = { .y = y };

  tg_text_measure (&how, text, &rect.width, &rect.height);
  rect.x = x - share * rect.width;
  return add_text (plot, text, bold, 0, color, rect);
}

gboolean
tg_plot_write_sentence (TgPlot *plot, const char *text, TgColor color, TgRect rect)
{
  TgText how = how_to_set (plot, FALSE, rect.width);
  TgRect used = { .x = rect.x, .width = rect.width };
  double width;

  if (rect.width < 1)
    return FALSE;
  tg_text_measure (&how, text, &width, &used.height);
  used.y = rect.y + (rect.height - used.height) / 2;
  return used.height <= rect.height && add_text (plot, text, FALSE, rect.width, color, used);
}

char *
tg_plot_shorten (const TgPlot *plot, const char *text, double width)
{
  glong length = g_utf8_strlen (text, -1);

  if (tg_plot_text_width (plot, text, FALSE) <= width)
    return g_strdup (text);
  while (--length >= 8)
    {
      g_autofree char *start = g_utf8_substring (text, 0, length);
      g_autofree char *cut = g_strconcat (g_strchomp (start), "…", NULL);

      if (tg_plot_text_width (plot, cut, FALSE) <= width)
        return g_steal_pointer (&cut);
    }
  return NULL;
}

void
tg_plot_draw_texts (cairo_t *cr, const TgPlot *plot)
{
  for (guint i = 0; i < plot->texts->len; i++)
    {
      const TgPlotText *text = &g_array_index (plot->texts, TgPlotText, i);
      TgText how = how_to_set (plot, text->bold, text->width);

      tg_text_draw (cr, &how, text->text, text->rect.x, text->rect.y, text->color);
    }
}

/* --- time ------------------------------------------------------------------------------------ */

static void
group_days (TgPlot *plot, const TgStamp *stamps, guint n)
{
  for (guint i = 0; i < n; i++)
    {
      TgPlotDay *last = plot->days->len
                            ? &g_array_index (plot->days, TgPlotDay, plot->days->len - 1)
                            : NULL;
      TgPlotDay day = { .stamp = stamps[i], .first = i, .n = 1 };

      if (last && tg_stamp_day (last->stamp) == tg_stamp_day (stamps[i]))
        last->n++;
      else
        g_array_append_val (plot->days, day);
    }
}

void
tg_plot_place_days (TgPlot *plot, const TgStamp *stamps, guint n, double left, double right)
{
  double n_days, gap, free, base, x = left;

  g_return_if_fail (n > 0 && plot->days->len == 0 && right > left);

  group_days (plot, stamps, n);
  n_days = plot->days->len;
  /* a day with one entry still gets room for its name, if all do */
  gap = n_days > 1 ? MIN (plot->size, 0.3 * (right - left) / n_days) : 0;
  free = right - left - gap * (n_days - 1);
  base = MIN (4 * plot->size, 0.5 * free / n_days);
  plot->left = left;
  plot->right = right;
  plot->step = free;
  for (guint d = 0; d < plot->days->len; d++)
    {
      TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);
      double step;

      day->x = x;
      day->width = base + (free - n_days * base) * day->n / n;
      step = day->width / day->n;
      for (guint i = 0; i < day->n; i++)
        {
          double at = x + (i + 0.5) * step;

          g_array_append_val (plot->x, at);
        }
      plot->step = MIN (plot->step, step);
      x += day->width + gap;
    }
}

void
tg_plot_draw_days (cairo_t *cr, const TgPlot *plot, double top, double bottom)
{
  /* a shade of whatever lies below */
  cairo_set_source_rgba (cr, plot->style.ink.r, plot->style.ink.g, plot->style.ink.b, 0.05);
  for (guint d = 0; d < plot->days->len; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);

      cairo_rectangle (cr, day->x, top, day->width, bottom - top);
    }
  cairo_fill (cr);
}

/* "Sat 7 Mar", or without the day of the week; the year is the journal's to say. */
static char *
name_day (const TgPlotDay *day, gboolean brief)
{
  g_autofree char *full = tg_stamp_format_day (day->stamp);
  g_auto (GStrv) words = g_strsplit (full, " ", -1);

  return brief ? g_strconcat (words[1], " ", words[2], NULL)
               : g_strconcat (words[0], " ", words[1], " ", words[2], NULL);
}

/* All in the same form: the long one if all have room for it. */
static void
write_days (TgPlot *plot, double y)
{
  gboolean brief = FALSE;

  for (guint d = 0; d < plot->days->len; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);
      g_autofree char *name = name_day (day, FALSE);

      brief = brief || tg_plot_text_width (plot, name, FALSE) > day->width;
    }
  for (guint d = 0; d < plot->days->len; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);
      g_autofree char *name = name_day (day, brief);
      double half = tg_plot_text_width (plot, name, FALSE) / 2;
      double middle = day->x + day->width / 2;

      middle = MAX (plot->area.x + half, MIN (plot->area.x + plot->area.width - half, middle));
      tg_plot_write (plot, name, FALSE, plot->style.quiet, middle, y, 0.5);
    }
}

/* Two slanting strokes where days are left out. */
static void
draw_break (cairo_t *cr, double x, double y, double room)
{
  double half = MIN (0.28 * room, 3), high = 1.6 * half;

  for (int side = -1; side <= 1; side += 2)
    {
      double middle = x + 0.55 * half * side;

      cairo_move_to (cr, middle - half / 2, y + high);
      cairo_line_to (cr, middle + half / 2, y - high);
    }
  cairo_stroke (cr);
}

void
tg_plot_draw_time (cairo_t *cr, TgPlot *plot, double y)
{
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  for (guint d = 0; d < plot->days->len; d++)
    {
      const TgPlotDay *day = &g_array_index (plot->days, TgPlotDay, d);

      cairo_move_to (cr, day->x, y);
      cairo_line_to (cr, day->x + day->width, y);
      cairo_stroke (cr);
      if (d > 0)
        {
          double end = day[-1].x + day[-1].width, room = day->x - end;

          if (room > 0.7 * plot->size &&
              tg_stamp_day (day->stamp) > tg_stamp_day (day[-1].stamp) + 1)
            draw_break (cr, end + room / 2, y, room);
        }
    }
  write_days (plot, y + 0.2 * plot->size);
}

/* --- values ---------------------------------------------------------------------------------- */

/* The n-th of …, 0.1, 0.2, 0.5, 1, 2, 5, …, exact where a double can be. */
static double
round_step (int n)
{
  static const double steps[] = { 1, 2, 5 };
  int power = n >= 0 ? n / 3 : -((2 - n) / 3);

  return power >= 0 ? steps[n - 3 * power] * pow (10, power)
                    : steps[n - 3 * power] / pow (10, -power);
}

static double
n_ticks (double low, double high, double tick)
{
  return floor (high / tick + 1e-9) - ceil (low / tick - 1e-9) + 1;
}

TgPlotScale
tg_plot_scale_new (const TgPlot *plot, TgRect rect, double low, double high)
{
  TgPlotScale scale = { .rect = rect };
  int most = (int) CLAMP (rect.height / (1.2 * plot->row), 3, 5);
  int least = most > 3 ? 3 : 2;
  int n = -12;

  g_return_val_if_fail (isfinite (low) && isfinite (high) && low < high, scale);

  scale.low = low - 0.04 * (high - low);
  scale.high = high + 0.04 * (high - low);
  while (n_ticks (scale.low, scale.high, round_step (n)) > most)
    n++;
  scale.tick = round_step (n);
  scale.decimals = n >= 0 ? 0 : (guint) ((2 - n) / 3);
  while (n_ticks (scale.low, scale.high, scale.tick) < least)
    {
      double below = (ceil (scale.low / scale.tick - 1e-9) - 1) * scale.tick;
      double above = (floor (scale.high / scale.tick + 1e-9) + 1) * scale.tick;

      if (scale.low - below < above - scale.high)
        scale.low = below;
      else
        scale.high = above;
    }
  return scale;
}

double
tg_plot_y (const TgPlotScale *scale, double value)
{
  return scale->rect.y + scale->rect.height * (scale->high - value) / (scale->high - scale->low);
}

static double
tick_value (const TgPlotScale *scale, int i)
{
  return (ceil (scale->low / scale->tick - 1e-9) + i) * scale->tick;
}

double
tg_plot_scale_width (const TgPlot *plot, const TgPlotScale *scale)
{
  int n = (int) n_ticks (scale->low, scale->high, scale->tick);
  double width = 0;

  for (int i = 0; i < n; i++)
    {
      g_autofree char *figure = tg_number_format (tick_value (scale, i), scale->decimals);

      width = MAX (width, tg_plot_text_width (plot, figure, FALSE));
    }
  return width;
}

static void
write_tick (TgPlot *plot, const TgPlotScale *scale, int i)
{
  g_autofree char *figure = tg_number_format (tick_value (scale, i), scale->decimals);

  tg_plot_write (plot, figure, FALSE, plot->style.quiet, plot->left - 0.45 * plot->size,
                 tg_plot_y (scale, tick_value (scale, i)) - plot->row / 2, 1);
}

void
tg_plot_draw_scale (cairo_t *cr, TgPlot *plot, const TgPlotScale *scale)
{
  int n = (int) n_ticks (scale->low, scale->high, scale->tick);

  cairo_set_source_rgba (cr, plot->style.ink.r, plot->style.ink.g, plot->style.ink.b, 0.22);
  cairo_set_line_width (cr, 0.6 * plot->line);
  for (int i = 0; i < n; i++)
    {
      double y = tg_plot_y (scale, tick_value (scale, i));

      cairo_move_to (cr, plot->left - 0.25 * plot->size, y);
      cairo_line_to (cr, plot->right, y);
    }
  cairo_stroke (cr);
  /* the outermost first: where the plot is low, those between give way */
  for (int i = 0; 2 * i < n; i++)
    {
      write_tick (plot, scale, i);
      if (n - 1 - i > i)
        write_tick (plot, scale, n - 1 - i);
    }
}

/* --- marks ----------------------------------------------------------------------------------- */

void
tg_plot_draw_strip (
    cairo_t *cr, const TgPlot *plot, const TgPlotScale *scale, double low, double high)
{
  double top = tg_plot_y (scale, high), bottom = tg_plot_y (scale, low);
  double dash[] = { 4 * plot->line, 3 * plot->line };

  /* the lines at the ticks show through */
  cairo_set_source_rgba (cr, plot->style.good.r, plot->style.good.g, plot->style.good.b, 0.14);
  cairo_rectangle (cr, plot->left, top, plot->right - plot->left, bottom - top);
  cairo_fill (cr);
  tg_color_set (cr, plot->style.good);
  cairo_set_line_width (cr, plot->line);
  cairo_move_to (cr, plot->left, bottom);
  cairo_line_to (cr, plot->right, bottom);
  cairo_stroke (cr);
  cairo_save (cr);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_move_to (cr, plot->left, top);
  cairo_line_to (cr, plot->right, top);
  cairo_stroke (cr);
  cairo_restore (cr);
}

double
tg_plot_mark_size (const TgPlot *plot)
{
  return CLAMP (0.3 * plot->step, 1.1 * plot->line, 0.24 * plot->size);
}

void
tg_plot_draw_mark (
    cairo_t *cr, const TgPlot *plot, TgPlotMark mark, double x, double y, TgColor color)
{
  double r = tg_plot_mark_size (plot);

  tg_color_set (cr, color);
  cairo_new_path (cr);
  cairo_set_line_width (cr, MIN (1.4 * plot->line, 0.6 * r));
  switch (mark)
    {
    case TG_PLOT_DOT:
      cairo_arc (cr, x, y, r, 0, 2 * G_PI);
      cairo_fill (cr);
      break;
    case TG_PLOT_RING:
      cairo_arc (cr, x, y, r, 0, 2 * G_PI);
      tg_color_set (cr, plot->style.ground);
      cairo_fill_preserve (cr);
      tg_color_set (cr, color);
      cairo_stroke (cr);
      break;
    case TG_PLOT_CROSS:
    default:
      cairo_move_to (cr, x - r, y - r);
      cairo_line_to (cr, x + r, y + r);
      cairo_move_to (cr, x - r, y + r);
      cairo_line_to (cr, x + r, y - r);
      cairo_stroke (cr);
      break;
    }
}

double
tg_plot_triangle_height (const TgPlot *plot)
{
  return 0.6 * plot->size;
}

void
tg_plot_draw_triangle (cairo_t *cr, const TgPlot *plot, double x, double top, gboolean full)
{
  double height = tg_plot_triangle_height (plot);
  double half = MIN (0.55 * height, MAX (0.8 * plot->line, 0.4 * plot->step));

  cairo_new_path (cr);
  cairo_move_to (cr, x - half, top);
  cairo_line_to (cr, x + half, top);
  cairo_line_to (cr, x, top + height);
  cairo_close_path (cr);
  tg_color_set (cr, plot->style.ink);
  if (full)
    cairo_fill_preserve (cr);
  cairo_set_line_width (cr, 0.7 * plot->line);
  cairo_stroke (cr);
}

void
tg_plot_draw_bar (
    cairo_t *cr, const TgPlot *plot, const TgPlotScale *scale, double x, double value, double half)
{
  double top = tg_plot_y (scale, value + half), bottom = tg_plot_y (scale, value - half);
  double cap = 0.9 * tg_plot_mark_size (plot);

  tg_color_set (cr, plot->style.accent);
  cairo_set_line_width (cr, MIN (plot->line, 0.5 * plot->step));
  cairo_move_to (cr, x, top);
  cairo_line_to (cr, x, bottom);
  if (plot->step > 5 * plot->line)
    for (guint end = 0; end < 2; end++)
      {
        cairo_move_to (cr, x - cap, end ? bottom : top);
        cairo_line_to (cr, x + cap, end ? bottom : top);
      }
  cairo_stroke (cr);
}
