/* engine-along.c: an engine along its crank, see engine-drawing.h
 *
 * The front is on the left.  Throws are shown as they stand at crank angle 0, by how far they point up
 * or down; a rod joins each bore with its crankpin.  One bank stands above the crank, two on either
 * side of it, more above each other.  Places are true to scale where the spacing is known and no two
 * come too close, else at equal steps.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-drawing-private.h"

#include <math.h>

#include "number.h"

#define RADIANS(degrees) ((degrees) * (G_PI / 180))
#define SAME_MM 1e-6
/* Pins that stand closer than this share of the usual distance have no journal between them. */
#define JOINED 0.62

typedef struct
{
  guint pin;
  double at;       /* along the crank, mm, then px */
  double up;       /* cosine of its throw */
  gboolean joined; /* to the one before */
} Pin;

typedef struct
{
  const TgEngineDrawing *engine;
  TgPlot *plot;
  guint n_pins, n_banks;
  Pin pins[TG_ENGINE_LAYOUT_MAX]; /* along the crank */
  TgEngineGroup banks[TG_ENGINE_LAYOUT_MAX];
  double x[TG_ENGINE_LAYOUT_MAX]; /* of each bore */
  double step;                    /* least distance of neighbouring pins, px */
  double width;                   /* of a bore */
  double bore, rod, radius, box;  /* heights; the last one of a crankpin */
  double axis;
  double left, right; /* nothing is drawn beyond */
  gboolean merged;    /* more banks than there is height for: all bores in one row */
} Along;

/* --- places ---------------------------------------------------------------------------------- */

static int
by_place (gconstpointer a, gconstpointer b)
{
  double left = ((const Pin *) a)->at, right = ((const Pin *) b)->at;
  guint first = ((const Pin *) a)->pin, second = ((const Pin *) b)->pin;

  if (fabs (left - right) > SAME_MM)
    return left < right ? -1 : 1;
  return first < second ? -1 : first > second;
}

static void
sort_pins (Along *along)
{
  const TgEngineLayout *layout = along->engine->layout;

  along->n_pins = 0;
  for (guint pin = 0; pin < layout->n_pins; pin++)
    {
      Pin *place = &along->pins[along->n_pins];
      guint rods = 0;

      *place = (Pin){ .pin = pin };
      for (guint i = 0; i < layout->n; i++)
        if (layout->cylinders[i].pin == pin)
          {
            place->at += layout->cylinders[i].position_mm;
            place->up = cos (RADIANS (layout->cylinders[i].throw_deg));
            rods++;
          }
      if (rods == 0)
        continue;
      place->at /= rods;
      along->n_pins++;
    }
  qsort (along->pins, along->n_pins, sizeof *along->pins, by_place);
}

/* The least and the largest distance of neighbouring pins, mm. */
static void
pin_steps (const Along *along, double *least, double *most)
{
  *least = INFINITY;
  *most = 0;
  for (guint k = 1; k < along->n_pins; k++)
    {
      double step = along->pins[k].at - along->pins[k - 1].at;

      *least = MIN (*least, step);
      *most = MAX (*most, step);
    }
}

/* The least distance of two bores of one bank, mm. */
static double
bore_step (const Along *along)
{
  const TgEngineLayout *layout = along->engine->layout;
  double least = INFINITY;

  for (guint b = 0; b < along->n_banks; b++)
    for (guint i = 0; i < along->banks[b].n; i++)
      for (guint j = 0; j < i; j++)
        {
          double a = layout->cylinders[along->banks[b].members[i]].position_mm;
          double c = layout->cylinders[along->banks[b].members[j]].position_mm;

          least = MIN (least, fabs (a - c));
        }
  return least;
}

static gboolean
is_to_scale (const Along *along, double range)
{
  double least, most, usual = along->n_pins > 1 ? range / (along->n_pins - 1) : 0;

  pin_steps (along, &least, &most);
  return along->engine->spacing_mm > 0 && along->n_pins > 1 && least > 0.3 * usual &&
         bore_step (along) > 0.5 * usual;
}

/* The bores of pin @k, which stands at @mm. */
static void
place_bores (Along *along, guint k, double mm, gboolean to_scale, double scale)
{
  const TgEngineLayout *layout = along->engine->layout;
  double step = to_scale ? 0.2 * along->step : MIN (0.2 * along->step, along->plot->row);

  for (guint i = 0; i < layout->n; i++)
    {
      double off = layout->cylinders[i].position_mm - mm;

      if (layout->cylinders[i].pin != along->pins[k].pin)
        continue;
      if (to_scale)
        off = CLAMP (off * scale, -2 * step, 2 * step);
      else
        off = off > SAME_MM ? step : off < -SAME_MM ? -step : 0;
      along->x[i] = along->pins[k].at + off;
    }
}

/* Bores that would stand out at an end draw everything together. */
static void
keep_inside (Along *along)
{
  const TgEngineLayout *layout = along->engine->layout;
  double low = along->left, high = along->right, share;

  for (guint i = 0; i < layout->n && !along->merged; i++)
    {
      low = MIN (low, along->x[i] - along->width / 2);
      high = MAX (high, along->x[i] + along->width / 2);
    }
  share = (along->right - along->left) / (high - low);
  for (guint i = 0; i < layout->n; i++)
    along->x[i] = along->left + share * (along->x[i] - low);
  for (guint k = 0; k < along->n_pins; k++)
    along->pins[k].at = along->left + share * (along->pins[k].at - low);
  along->width *= share;
  along->step *= share;
}

/* Pins and bores between @left and @right, with half a step to spare at either end. */
static void
place (Along *along, double left, double right)
{
  guint n = along->n_pins;
  double range = along->pins[n - 1].at - along->pins[0].at, places[TG_ENGINE_LAYOUT_MAX];
  double slot = (right - left) / n, scale = (right - left - slot) / MAX (range, SAME_MM);
  double least, most;
  gboolean to_scale = is_to_scale (along, range);

  pin_steps (along, &least, &most);
  for (guint k = 0; k < n; k++)
    {
      Pin *pin = &along->pins[k];

      places[k] = pin->at;
      pin->joined = k > 0 && places[k] - places[k - 1] < JOINED * most;
      pin->at = left + slot / 2 + (to_scale ? (places[k] - places[0]) * scale : k * slot);
    }
  along->step = to_scale ? least * scale : slot;
  for (guint k = 0; k < n; k++)
    place_bores (along, k, places[k], to_scale, scale);
  along->width = slot;
  for (guint b = 0; b < along->n_banks && !along->merged; b++)
    for (guint i = 0; i < along->banks[b].n; i++)
      for (guint j = 0; j < i; j++)
        along->width = MIN (along->width, fabs (along->x[along->banks[b].members[i]] -
                                                along->x[along->banks[b].members[j]]));
  along->width = MIN (0.74 * along->width, 0.9 * along->bore);
  keep_inside (along);
}

/* --- heights --------------------------------------------------------------------------------- */

/* Rows of bores above the crank; below it there is one if there are two banks. */
static guint
rows_above (const Along *along)
{
  return along->merged || along->n_banks <= 2 ? 1 : along->n_banks;
}

static gboolean
has_below (const Along *along)
{
  return along->n_banks == 2 && !along->merged;
}

static void
set_heights (Along *along, TgRect rect)
{
  double rows;

  along->merged = along->n_banks > 2 && 0.5 * rect.height / along->n_banks < 1.4 * along->plot->row;
  rows = rows_above (along) + has_below (along);
  along->bore = rect.height * (rows > 1 ? 0.54 : 0.42) / rows;
  along->rod = rect.height * (has_below (along) ? 0.04 : 0.07);
  along->box = MIN (1.2 * along->plot->row, 0.16 * rect.height);
  along->radius = (rect.height - rows * along->bore - (1 + has_below (along)) * along->rod -
                   along->box) /
                  2;
  along->axis = rect.y + rows_above (along) * along->bore + along->rod + along->radius +
                along->box / 2;
}

/* The upper edge of the bores of bank @bank. */
static double
bore_top (const Along *along, guint bank)
{
  double reach = along->radius + along->box / 2 + along->rod;

  if (has_below (along) && bank == 0)
    return along->axis + reach;
  return along->axis - reach - along->bore * (along->n_banks > 2 && !along->merged ? bank + 1 : 1);
}

static double
pin_y (const Along *along, const Pin *pin)
{
  return along->axis - along->radius * pin->up;
}

/* --- the crank ------------------------------------------------------------------------------- */

static void
thick_line (
    cairo_t *cr, const TgPlot *plot, double width, double x0, double y0, double x1, double y1)
{
  double length = hypot (x1 - x0, y1 - y0), across, along;

  if (length < 0.1)
    return;
  across = width / 2 * (y1 - y0) / length;
  along = width / 2 * (x1 - x0) / length;
  cairo_new_path (cr);
  cairo_move_to (cr, x0 - across, y0 + along);
  cairo_line_to (cr, x1 - across, y1 + along);
  cairo_line_to (cr, x1 + across, y1 - along);
  cairo_line_to (cr, x0 + across, y0 - along);
  cairo_close_path (cr);
  tg_color_set (cr, plot->style.metal);
  cairo_fill_preserve (cr);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  cairo_stroke (cr);
}

static double
pin_width (const Along *along, const Pin *pin)
{
  g_autofree char *number = g_strdup_printf ("%u", pin->pin + 1);
  double text = tg_plot_text_width (along->plot, number, FALSE) + 0.6 * along->plot->size;

  return MIN (0.6 * along->step, MAX (text, MIN (0.42 * along->step, 2.2 * along->box)));
}

/* From one pin to the next, over a journal or, where they are joined, straight. */
static void
draw_between (cairo_t *cr, const Along *along, guint k, double height)
{
  const Pin *before = &along->pins[k - 1], *after = &along->pins[k];
  double from = before->at + pin_width (along, before) / 2;
  double to = after->at - pin_width (along, after) / 2;

  if (after->joined)
    thick_line (cr, along->plot, MIN (height, 0.4 * along->step), from, pin_y (along, before), to,
                pin_y (along, after));
  else
    thick_line (cr, along->plot, height, from, along->axis, to, along->axis);
}

static void
draw_journals (cairo_t *cr, const Along *along)
{
  double height = 0.62 * along->box, stub = MIN (0.42 * along->step, 2 * along->box);
  const Pin *first = &along->pins[0], *last = &along->pins[along->n_pins - 1];
  double left = first->at - pin_width (along, first) / 2;
  double right = last->at + pin_width (along, last) / 2;

  thick_line (cr, along->plot, height, MAX (along->left, left - stub), along->axis, left,
              along->axis);
  for (guint k = 1; k < along->n_pins; k++)
    draw_between (cr, along, k, height);
  thick_line (cr, along->plot, height, right, along->axis, MIN (along->right, right + stub),
              along->axis);
}

static void
draw_webs (cairo_t *cr, const Along *along)
{
  double width = CLAMP (0.1 * along->step, 2 * along->plot->line, 0.45 * along->box);

  for (guint k = 0; k < along->n_pins; k++)
    {
      const Pin *pin = &along->pins[k];
      double y = pin_y (along, pin), end = y < along->axis ? -0.31 : 0.31;

      for (int side = -1; side <= 1; side += 2)
        {
          gboolean joined = side < 0 ? pin->joined
                                     : k + 1 < along->n_pins && along->pins[k + 1].joined;
          double x = pin->at + side * pin_width (along, pin) / 2;

          if (!joined)
            thick_line (cr, along->plot, width, x, along->axis - end * along->box, x,
                        y + end * along->box);
        }
    }
}

static void
draw_pins (cairo_t *cr, const Along *along)
{
  TgPlot *plot = along->plot;

  for (guint k = 0; k < along->n_pins; k++)
    {
      const Pin *pin = &along->pins[k];
      double width = pin_width (along, pin), y = pin_y (along, pin);
      g_autofree char *number = g_strdup_printf ("%u", pin->pin + 1);

      cairo_new_path (cr);
      cairo_rectangle (cr, pin->at - width / 2, y - along->box / 2, width, along->box);
      tg_color_set (cr, plot->style.ground);
      cairo_fill_preserve (cr);
      tg_color_set (cr, plot->style.ink);
      cairo_set_line_width (cr, plot->line);
      cairo_stroke (cr);
      if (tg_plot_text_width (plot, number, FALSE) + 2 * plot->line <= width &&
          plot->row <= along->box)
        tg_plot_write (plot, number, FALSE, plot->style.ink, pin->at, y - plot->row / 2, 0.5);
    }
}

/* --- the bores ------------------------------------------------------------------------------- */

/* Where a rod from @x meets the pin. */
static double
on_pin (const Along *along, const Pin *pin, double x)
{
  double half = 0.35 * pin_width (along, pin);

  return CLAMP (x, pin->at - half, pin->at + half);
}

static void
draw_rods (cairo_t *cr, const Along *along)
{
  const TgEngineLayout *layout = along->engine->layout;

  tg_color_set (cr, along->plot->style.quiet);
  cairo_set_line_width (cr, 1.3 * along->plot->line);
  cairo_new_path (cr);
  for (guint b = 0; b < along->n_banks; b++)
    for (guint i = 0; i < along->banks[b].n; i++)
      {
        guint cylinder = along->banks[b].members[i];
        double top = bore_top (along, b);

        for (guint k = 0; k < along->n_pins; k++)
          if (along->pins[k].pin == layout->cylinders[cylinder].pin)
            {
              cairo_move_to (cr, along->x[cylinder], top > along->axis ? top : top + along->bore);
              cairo_line_to (cr, on_pin (along, &along->pins[k], along->x[cylinder]),
                             pin_y (along, &along->pins[k]));
            }
      }
  cairo_stroke (cr);
}

/* In the middle of a bore; where neighbours leave no room beside each other, above or below that. */
static void
write_number (const Along *along, const char *number, double x, double top)
{
  static const double levels[] = { 0, -1.05, 1.05, -2.1, 2.1 };
  TgPlot *plot = along->plot;

  for (guint i = 0; i < G_N_ELEMENTS (levels); i++)
    {
      double y = top + along->bore / 2 + (levels[i] - 0.5) * plot->row;

      if (y < top || y + plot->row > top + along->bore)
        continue;
      if (tg_plot_write (plot, number, TRUE, plot->style.ink, x, y, 0.5))
        return;
    }
}

/* A number reads well on metal; on hatching it gets a patch of ground. */
static void
draw_patch (cairo_t *cr, const Along *along, guint cylinder, double top)
{
  TgPlot *plot = along->plot;
  g_autofree char *number = g_strdup_printf ("%u", cylinder + 1);
  double width = tg_plot_text_width (plot, number, TRUE) + 0.5 * plot->size;

  if (width > along->width - 2 * plot->line || plot->row > along->bore - 2 * plot->line)
    return;
  tg_color_set (cr, plot->style.ground);
  cairo_rectangle (cr, along->x[cylinder] - width / 2, top + along->bore / 2 - 0.55 * plot->row,
                   width, 1.1 * plot->row);
  cairo_fill (cr);
}

static void
draw_bore (cairo_t *cr, const Along *along, double x, double top, guint bank)
{
  double inset = rows_above (along) > 1 ? 0.08 * along->bore : 0;

  cairo_new_path (cr);
  cairo_rectangle (cr, x - along->width / 2, top + inset, along->width, along->bore - 2 * inset);
  tg_engine_drawing_fill_bore (cr, along->plot, bank);
}

static void
draw_bores (cairo_t *cr, const Along *along)
{
  for (guint b = 0; b < along->n_banks; b++)
    for (guint i = 0; i < along->banks[b].n; i++)
      {
        guint cylinder = along->banks[b].members[i];
        g_autofree char *number = g_strdup_printf ("%u", cylinder + 1);
        double top = bore_top (along, b);

        draw_bore (cr, along, along->x[cylinder], top, b);
        if (b % 3)
          draw_patch (cr, along, cylinder, top);
        write_number (along, number, along->x[cylinder], top);
      }
}

/* One bore for each crankpin, with the numbers of all that have their rods there. */
static void
draw_merged (cairo_t *cr, const Along *along)
{
  const TgEngineLayout *layout = along->engine->layout;

  for (guint k = 0; k < along->n_pins; k++)
    {
      const Pin *pin = &along->pins[k];
      TgEngineGroup group = { 0 };
      g_autofree char *numbers = NULL;

      for (guint i = 0; i < layout->n; i++)
        if (layout->cylinders[i].pin == pin->pin)
          group.members[group.n++] = i;
      numbers = tg_engine_drawing_numbers (&group);
      draw_bore (cr, along, pin->at, bore_top (along, 0), 0);
      write_number (along, numbers, pin->at, bore_top (along, 0));
    }
}

/* --- what is written beside ------------------------------------------------------------------ */

static char *
bank_name (const TgEngineGroup *bank)
{
  return tg_engine_drawing_degrees (bank->angle_deg);
}

static double
names_width (const Along *along)
{
  double width = 0;

  for (guint b = 0; b < along->n_banks && along->n_banks > 1 && !along->merged; b++)
    {
      g_autofree char *name = bank_name (&along->banks[b]);

      width = MAX (width, tg_plot_text_width (along->plot, name, FALSE));
    }
  return width > 0 ? width + 0.8 * along->plot->size : 0;
}

static void
write_names (const Along *along, double left)
{
  TgPlot *plot = along->plot;

  for (guint b = 0; b < along->n_banks && along->n_banks > 1 && !along->merged; b++)
    {
      g_autofree char *name = bank_name (&along->banks[b]);

      tg_plot_write (plot, name, FALSE, plot->style.quiet, left,
                     bore_top (along, b) + (along->bore - plot->row) / 2, 0);
    }
}

/* The first two bores of the uppermost bank, from left to right; FALSE if it has one. */
static gboolean
first_two (const Along *along, double *from, double *to)
{
  const TgEngineGroup *bank = &along->banks[along->merged ? 0 : along->n_banks - 1];

  *from = *to = INFINITY;
  for (guint i = 0; i < bank->n; i++)
    {
      double x = along->x[bank->members[i]];

      if (x < *from)
        {
          *to = *from;
          *from = x;
        }
      else
        *to = MIN (*to, x);
    }
  return isfinite (*to);
}

/* The spacing of the bores, above the first two. */
static void
draw_spacing (cairo_t *cr, const Along *along, double top)
{
  TgPlot *plot = along->plot;
  g_autofree char *number = tg_number_format_short (along->engine->spacing_mm);
  g_autofree char *text = g_strconcat (number, " mm", NULL);
  double from, to, y = top + 1.35 * plot->row;
  double width = tg_plot_text_width (plot, text, FALSE);

  if (!first_two (along, &from, &to) || to - from < 1.4 * plot->size)
    return;
  if (!tg_plot_write (plot, text, FALSE, plot->style.ink,
                      MAX ((from + to) / 2, plot->area.x + width / 2), top, 0.5))
    return;
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, 0.7 * plot->line);
  cairo_new_path (cr);
  cairo_move_to (cr, from, y);
  cairo_line_to (cr, to, y);
  for (guint end = 0; end < 2; end++)
    {
      cairo_move_to (cr, end ? to : from, y - 0.3 * plot->row);
      cairo_line_to (cr, end ? to : from, y + 0.55 * plot->row);
    }
  cairo_stroke (cr);
  tg_engine_drawing_arrow (cr, plot, from, y, G_PI);
  tg_engine_drawing_arrow (cr, plot, to, y, 0);
}

/* --- all of it ------------------------------------------------------------------------------- */

/* No wider than looks like an engine; the rest is left free on both sides. */
static TgRect
narrow (const Along *along, TgRect rect)
{
  double most = along->n_pins * 0.75 * rect.height + along->n_pins * along->plot->size;

  if (rect.width <= most)
    return rect;
  return (TgRect){ rect.x + (rect.width - most) / 2, rect.y, most, rect.height };
}

void
tg_engine_along_draw (cairo_t *cr, TgPlot *plot, TgRect rect, const TgEngineDrawing *engine)
{
  Along along = { .engine = engine, .plot = plot };
  TgRect body = rect;
  double names, stub;
  gboolean spacing = engine->spacing_mm > 0 && rect.height > 9 * plot->row;

  if (rect.width < 24 || rect.height < 24)
    return;
  sort_pins (&along);
  along.n_banks = tg_engine_drawing_banks (engine->layout, along.banks);
  if (spacing)
    {
      body.y += 2.1 * plot->row;
      body.height -= 2.1 * plot->row;
    }
  body.y += plot->line;
  body.height -= 2 * plot->line;
  set_heights (&along, body);
  names = names_width (&along);
  if (names > 0.2 * rect.width)
    names = 0;
  rect.x += names;
  rect.width -= names;
  rect = narrow (&along, rect);
  stub = MIN (along.box, 0.04 * rect.width);
  along.left = rect.x + plot->line;
  along.right = rect.x + rect.width - plot->line;
  place (&along, rect.x + stub, rect.x + rect.width - stub);
  draw_rods (cr, &along);
  draw_journals (cr, &along);
  draw_webs (cr, &along);
  draw_pins (cr, &along);
  if (along.merged)
    draw_merged (cr, &along);
  else
    draw_bores (cr, &along);
  if (names > 0)
    write_names (&along, rect.x - names);
  if (spacing)
    draw_spacing (cr, &along, rect.y);
}
