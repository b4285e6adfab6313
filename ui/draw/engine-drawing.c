/* engine-drawing.c: an engine from the front and along its crank, see engine-drawing.h
 *
 * A scheme: angles, numbers and the order along the crank are the layout's, distances along the crank
 * too where they are known and leave room; bores are as wide as reads well.  What stands in both views
 * is here: which cylinders form a bank, which pins a throw, the look of a bank, the caption.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-drawing-private.h"

#include <math.h>

#include "number.h"
#include "text.h"

#define SAME_DEG 1e-3

/* --- groups ---------------------------------------------------------------------------------- */

static double
normal_deg (double angle)
{
  double turned = remainder (angle, 360);

  return turned <= -180 + SAME_DEG ? 180 : turned;
}

static void
add_to_group (TgEngineGroup *groups, guint *n, double angle_deg, guint member)
{
  guint at = 0;

  while (at < *n && fabs (remainder (groups[at].angle_deg - angle_deg, 360)) > SAME_DEG)
    at++;
  if (at == *n)
    {
      groups[at] = (TgEngineGroup){ .angle_deg = normal_deg (angle_deg) };
      (*n)++;
    }
  groups[at].members[groups[at].n++] = member;
}

static int
by_angle (gconstpointer a, gconstpointer b)
{
  double left = ((const TgEngineGroup *) a)->angle_deg;
  double right = ((const TgEngineGroup *) b)->angle_deg;

  return left < right ? -1 : left > right;
}

guint
tg_engine_drawing_banks (const TgEngineLayout *layout, TgEngineGroup *banks)
{
  guint n = 0;

  for (guint i = 0; i < layout->n; i++)
    add_to_group (banks, &n, layout->cylinders[i].bank_deg, i);
  qsort (banks, n, sizeof *banks, by_angle);
  return n;
}

guint
tg_engine_drawing_throws (const TgEngineLayout *layout, TgEngineGroup *throws)
{
  gboolean seen[TG_ENGINE_LAYOUT_MAX] = { FALSE };
  guint n = 0;

  for (guint pin = 0; pin < layout->n_pins; pin++)
    for (guint i = 0; i < layout->n && !seen[pin]; i++)
      if (layout->cylinders[i].pin == pin)
        {
          add_to_group (throws, &n, layout->cylinders[i].throw_deg, pin);
          seen[pin] = TRUE;
        }
  qsort (throws, n, sizeof *throws, by_angle);
  return n;
}

char *
tg_engine_drawing_degrees (double angle_deg)
{
  gboolean whole = fabs (angle_deg - round (angle_deg)) < 0.05;
  g_autofree char *number = tg_number_format (angle_deg, whole ? 0 : 1);

  return g_strconcat (number, "°", NULL);
}

/* The step between all members, 0 if it is not the same. */
static guint
common_step (const TgEngineGroup *group)
{
  guint step = 0;

  for (guint i = 1; i < group->n; i++)
    {
      guint next = group->members[i] - group->members[i - 1];

      if (i > 1 && next != step)
        return 0;
      step = next;
    }
  return step;
}

char *
tg_engine_drawing_numbers (const TgEngineGroup *group)
{
  GString *text = g_string_new (NULL);

  if (group->n > 4 && common_step (group) > 1)
    {
      g_string_printf (text, "%u, %u … %u", group->members[0] + 1, group->members[1] + 1,
                       group->members[group->n - 1] + 1);
      return g_string_free (text, FALSE);
    }

  for (guint i = 0; i < group->n;)
    {
      guint last = i;

      while (last + 1 < group->n && group->members[last + 1] == group->members[last] + 1)
        last++;
      if (last < i + 2)
        last = i;
      g_string_append_printf (text, "%s%u", i ? ", " : "", group->members[i] + 1);
      if (last > i)
        g_string_append_printf (text, "–%u", group->members[last] + 1);
      i = last + 1;
    }
  return g_string_free (text, FALSE);
}

/* --- looks ----------------------------------------------------------------------------------- */

static void
hatch (cairo_t *cr, const TgPlot *plot, double slope)
{
  double left, top, right, bottom, step = 4.5 * plot->line;

  cairo_clip_extents (cr, &left, &top, &right, &bottom);
  tg_color_set (cr, plot->style.hatch);
  cairo_set_line_width (cr, 0.7 * plot->line);
  for (double x = left - (bottom - top); x < right + (bottom - top); x += step)
    {
      cairo_move_to (cr, x, slope > 0 ? bottom : top);
      cairo_line_to (cr, x + (bottom - top), slope > 0 ? top : bottom);
    }
  cairo_stroke (cr);
}

void
tg_engine_drawing_fill_bore (cairo_t *cr, const TgPlot *plot, guint bank)
{
  cairo_path_t *path = cairo_copy_path (cr);

  tg_color_set (cr, bank % 3 ? plot->style.ground : plot->style.metal);
  cairo_fill (cr);
  if (bank % 3)
    {
      cairo_save (cr);
      cairo_append_path (cr, path);
      cairo_clip (cr);
      hatch (cr, plot, bank % 3 == 1 ? 1 : -1);
      cairo_restore (cr);
    }
  cairo_new_path (cr);
  cairo_append_path (cr, path);
  cairo_path_destroy (path);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  cairo_stroke (cr);
}

void
tg_engine_drawing_arrow (cairo_t *cr, const TgPlot *plot, double x, double y, double angle)
{
  double length = 0.6 * plot->size, half = 0.28;

  cairo_new_path (cr);
  cairo_move_to (cr, x, y);
  cairo_line_to (cr, x - length * cos (angle - half), y - length * sin (angle - half));
  cairo_line_to (cr, x - length * cos (angle + half), y - length * sin (angle + half));
  cairo_close_path (cr);
  cairo_fill (cr);
}

/* --- words ----------------------------------------------------------------------------------- */

/* A line may be broken after any "-", which pango does not do before a digit. */
static char *
breakable (const char *order)
{
  g_auto (GStrv) numbers = g_strsplit (order, "-", -1);

  return g_strjoinv ("-\342\200\213", numbers);
}

static void
append_phrase (GString *text, const char *phrase)
{
  g_string_append_printf (text, "%s%s", text->len ? " · " : "", phrase);
}

static char *
caption (const TgEngineDrawing *engine)
{
  GString *text = g_string_new (engine->name ? engine->name : "");

  if (engine->order && engine->order[0])
    {
      g_autofree char *order = engine->layout->n > 8 ? breakable (engine->order)
                                                     : g_strdup (engine->order);
      g_autofree char *phrase = g_strconcat ("firing order ", order, NULL);

      append_phrase (text, phrase);
    }
  if (engine->offset_mm > 0)
    {
      g_autofree char *offset = tg_number_format_short (engine->offset_mm);
      g_autofree char *phrase = g_strconcat ("banks ", offset, " mm offset", NULL);

      append_phrase (text, phrase);
    }
  return g_string_free (text, FALSE);
}

static void
append_group (GString *text, const char *what, const TgEngineGroup *group)
{
  g_autofree char *numbers = tg_engine_drawing_numbers (group);
  g_autofree char *angle = tg_engine_drawing_degrees (group->angle_deg);

  g_string_append_printf (text, " %s %s at %s.", what, numbers, angle);
}

char *
tg_engine_drawing_words (const TgEngineDrawing *engine)
{
  TgEngineGroup groups[TG_ENGINE_LAYOUT_MAX];
  guint n = tg_engine_drawing_banks (engine->layout, groups);
  GString *text = g_string_new (NULL);

  g_string_append_printf (text, "%s, %u %s.", engine->name ? engine->name : "Engine",
                          engine->layout->n, engine->layout->n == 1 ? "cylinder" : "cylinders");
  for (guint i = 0; i < n && n > 1; i++)
    append_group (text, "Bores", &groups[i]);
  n = tg_engine_drawing_throws (engine->layout, groups);
  for (guint i = 0; i < n; i++)
    append_group (text, groups[i].n > 1 ? "Crankpins" : "Crankpin", &groups[i]);
  if (engine->order && engine->order[0])
    g_string_append_printf (text, " Firing order %s.", engine->order);
  return g_string_free (text, FALSE);
}

/* --- all of it ------------------------------------------------------------------------------- */

/* A quiet sentence below; @rect gets what is left above it. */
static void
draw_caption (TgPlot *plot, TgRect *rect, const TgEngineDrawing *engine)
{
  g_autofree char *words = caption (engine);
  TgText how = {
    .font = plot->style.font, .size = plot->size, .width = rect->width, .align = TG_ALIGN_CENTER
  };
  double height;

  if (words[0] == '\0' || rect->width < 60)
    return;
  tg_text_measure (&how, words, NULL, &height);
  if (height > 0.3 * rect->height)
    return;
  if (tg_plot_write_sentence (
          plot, words, plot->style.quiet,
          (TgRect){ rect->x, rect->y + rect->height - height, rect->width, height }))
    rect->height -= height + 0.4 * plot->size;
}

/* "from the front" above a view, if there is room; returns what is left below. */
static TgRect
draw_head (TgPlot *plot, TgRect rect, const char *head)
{
  double taken = 1.3 * plot->row;

  if (rect.height < 8 * plot->row ||
      !tg_plot_write (plot, head, FALSE, plot->style.quiet, rect.x + rect.width / 2, rect.y, 0.5))
    return rect;
  return (TgRect){ rect.x, rect.y + taken, rect.width, rect.height - taken };
}

static void
draw_both (cairo_t *cr, TgPlot *plot, TgRect rect, const TgEngineDrawing *engine)
{
  double gap = 1.2 * plot->size, part;
  TgRect front = rect, along = rect;

  if (rect.width > 1.25 * rect.height)
    {
      part = CLAMP (0.95 * rect.height, 0.25 * rect.width, 0.45 * rect.width);
      /* a long crank needs the width */
      if (engine->layout->n_pins > 8)
        part = MIN (part, MAX (0.25 * rect.width, 0.5 * rect.height));
      front.width = part;
      along.x += part + gap;
      along.width = MAX (0, rect.width - part - gap);
    }
  else
    {
      part = 0.52 * rect.height;
      front.height = part;
      along.y += part + gap;
      along.height = MAX (0, rect.height - part - gap);
    }
  tg_engine_front_draw (cr, plot, draw_head (plot, front, "from the front"), engine);
  tg_engine_along_draw (cr, plot, draw_head (plot, along, "along the crank"), engine);
}

TgPlot *
tg_engine_drawing_plot (cairo_t *cr,
                        TgRect area,
                        const TgEngineDrawing *engine,
                        TgEngineDrawingView view,
                        const TgStyle *style)
{
  TgPlot *plot;
  TgRect rect;

  g_return_val_if_fail (engine && engine->layout && engine->layout->n >= 1, NULL);

  if (area.width < 4 || area.height < 4)
    return NULL;
  plot = tg_plot_new (area, style);
  rect = plot->area;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  draw_caption (plot, &rect, engine);
  if (view == TG_ENGINE_DRAWING_FRONT)
    tg_engine_front_draw (cr, plot, rect, engine);
  else if (view == TG_ENGINE_DRAWING_ALONG)
    tg_engine_along_draw (cr, plot, rect, engine);
  else
    draw_both (cr, plot, rect, engine);
  tg_plot_draw_texts (cr, plot);
  cairo_restore (cr);
  return plot;
}

void
tg_engine_drawing_draw (cairo_t *cr,
                        TgRect area,
                        const TgEngineDrawing *engine,
                        TgEngineDrawingView view,
                        const TgStyle *style)
{
  TgPlot *plot = tg_engine_drawing_plot (cr, area, engine, view, style);

  g_clear_pointer (&plot, tg_plot_free);
}
