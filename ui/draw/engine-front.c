/* engine-front.c: an engine from the front, see engine-drawing.h
 *
 * Seen from the end where positions are least, the crank turns clockwise, and angles run clockwise from
 * straight up.  The crank circle carries its throws with the numbers of their pins outside it; beyond
 * these stand the bores, with the numbers of their cylinders at their outer ends.  The largest crank
 * circle is searched for with which all of that stays inside.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-drawing-private.h"

#include <math.h>

#include "number.h"
#include "shape.h"

#define RADIANS(degrees) ((degrees) * (G_PI / 180))
/* In crank radii. */
#define PIN 0.2
#define BORE 0.85
/* Connecting rod over crank radius where it is not known, and what can be drawn. */
#define ROD_RATIO 3.4
#define MIN_ROD_RATIO 2.9
#define MAX_ROD_RATIO 4.2

typedef struct
{
  char *text;
  double width;
  TgRect rect; /* about the crank's middle */
} Label;

typedef struct
{
  const TgEngineDrawing *engine;
  TgPlot *plot;
  guint n_banks, n_throws;
  TgEngineGroup banks[TG_ENGINE_LAYOUT_MAX], throws[TG_ENGINE_LAYOUT_MAX];
  Label bank_labels[TG_ENGINE_LAYOUT_MAX], throw_labels[TG_ENGINE_LAYOUT_MAX];
  Label angle;
  gboolean labelled;
  double ratio;
  /* lengths from the crank's middle, and half a bore's width */
  double r, labels_end, inner, outer, half;
  double arc; /* of the angle between the banks; 0: none */
  double left, top, right, bottom;
} Front;

/* --- lengths --------------------------------------------------------------------------------- */

static double
across (double angle_deg)
{
  return sin (RADIANS (angle_deg));
}

static double
up (double angle_deg)
{
  return cos (RADIANS (angle_deg));
}

static void
extend (Front *front, double left, double top, double right, double bottom)
{
  front->left = MIN (front->left, left);
  front->top = MIN (front->top, top);
  front->right = MAX (front->right, right);
  front->bottom = MAX (front->bottom, bottom);
}

/* Beyond @distance in the direction of @angle_deg; returns where it ends in that direction. */
static double
put_label (Front *front, Label *label, double angle_deg, double distance)
{
  double height = front->plot->row;
  double reach = fabs (across (angle_deg)) * label->width / 2 + fabs (up (angle_deg)) * height / 2;
  double x = (distance + reach) * across (angle_deg), y = -(distance + reach) * up (angle_deg);

  label->rect = (TgRect){ x - label->width / 2, y - height / 2, label->width, height };
  extend (front, label->rect.x, label->rect.y, label->rect.x + label->width,
          label->rect.y + height);
  return distance + 2 * reach;
}

/* The least angle between two banks, at most 180. */
static double
least_angle (const Front *front)
{
  double least = 180;

  for (guint i = 0; i < front->n_banks && front->n_banks > 1; i++)
    {
      double next = front->banks[(i + 1) % front->n_banks].angle_deg;

      least = MIN (least, fabs (remainder (next - front->banks[i].angle_deg, 360)));
    }
  return least;
}

/* Labels of banks that stand close lean away from each other. */
static void
spread_labels (Front *front)
{
  double apart = 0.8 * front->plot->size;
  Label *left = &front->bank_labels[0], *right = &front->bank_labels[1];
  double over;

  if (front->n_banks != 2 || left->rect.y + front->plot->row < right->rect.y ||
      right->rect.y + front->plot->row < left->rect.y)
    return;
  if (left->rect.x > right->rect.x)
    {
      left = &front->bank_labels[1];
      right = &front->bank_labels[0];
    }
  over = left->rect.x + left->width + apart - right->rect.x;
  if (over <= 0)
    return;
  left->rect.x -= over / 2;
  right->rect.x += over / 2;
  extend (front, left->rect.x, left->rect.y, right->rect.x + right->width, right->rect.y);
}

/* Between the bores if they leave room, else beyond them. */
static void
put_angle (Front *front)
{
  double first = front->banks[0].angle_deg;
  double turn = remainder (front->banks[1].angle_deg - first, 360);
  double middle = fabs (turn) > 180 - 1e-3 ? 0 : first + turn / 2;
  double gap = 0.4 * front->plot->size, row = front->plot->row, width = front->angle.width;
  double normal = first - 90;
  double beside = fabs (across (normal)) * width / 2 + fabs (up (normal)) * row / 2;
  double reach = fabs (across (middle)) * width / 2 + fabs (up (middle)) * row / 2;
  double at = (front->half + gap + beside) / MAX (1e-3, fabs (across (turn / 2)));

  at = MAX (at, front->labels_end + gap + reach);
  front->arc = at + reach <= front->outer ? at : 0;
  if (front->arc == 0)
    at = front->outer + 2 * row + 2 * gap + reach;
  put_label (front, &front->angle, middle, at - reach);
}

/* The middle of the widest gap between throws; of equals the one that lies lowest. */
static double
widest_gap (const Front *front, double *middle)
{
  double widest = 0;

  for (guint i = 0; i < front->n_throws; i++)
    {
      double from = front->throws[i].angle_deg;
      double to = i + 1 < front->n_throws ? front->throws[i + 1].angle_deg
                                          : front->throws[0].angle_deg + 360;

      if (to - from > widest + 1e-3 ||
          (to - from > widest - 1e-3 && up ((from + to) / 2) < up (*middle) - 1e-3))
        {
          widest = to - from;
          *middle = (from + to) / 2;
        }
    }
  return widest;
}

/* Room for the arrow that draw_turning() draws. */
static void
extend_turning (Front *front)
{
  double middle = 180, reach = (1 + PIN) * front->r + 0.85 * front->plot->size;

  widest_gap (front, &middle);
  for (int turn = -38; turn <= 38; turn += 19)
    {
      double x = reach * across (middle + turn), y = -reach * up (middle + turn);

      extend (front, x, y, x, y);
    }
}

/* Everything for a crank circle of radius @r, about its middle. */
static void
measure (Front *front, double r)
{
  double gap = 0.35 * front->plot->size, turned = least_angle (front);
  double pins = (1 + PIN) * r, room;

  front->r = r;
  front->left = front->right = front->top = front->bottom = 0;
  extend (front, -pins, -pins, pins, pins);
  front->labels_end = pins;
  for (guint i = 0; i < front->n_throws && front->labelled; i++)
    {
      double end = put_label (front, &front->throw_labels[i], front->throws[i].angle_deg,
                              pins + gap);

      front->labels_end = MAX (front->labels_end, end);
    }
  if (front->labelled)
    extend_turning (front);
  front->inner = MAX ((front->ratio - 1) * r - 0.3 * r, front->labels_end + gap);
  front->outer = front->inner + 2.7 * r;
  room = 0.85 * front->inner * sin (RADIANS (turned) / 2);
  front->half = front->n_banks > 1 ? MIN (BORE * r, room) : BORE * r;
  for (guint i = 0; i < front->n_banks; i++)
    {
      double a = front->banks[i].angle_deg;

      for (int side = -1; side <= 1; side += 2)
        for (guint end = 0; end < 2; end++)
          {
            double along = end ? front->outer : front->inner;
            double x = along * across (a) + side * front->half * up (a);
            double y = -along * up (a) + side * front->half * across (a);

            extend (front, x, y, x, y);
          }
      if (front->labelled)
        put_label (front, &front->bank_labels[i], a, front->outer + gap);
    }
  if (front->labelled)
    spread_labels (front);
  front->arc = 0;
  if (front->labelled && front->n_banks == 2)
    put_angle (front);
}

static gboolean
fits (const Front *front, TgRect rect)
{
  double line = 2 * front->plot->line;

  return front->right - front->left + line <= rect.width &&
         front->bottom - front->top + line <= rect.height;
}

/* The largest crank circle with which all stays in @rect; FALSE if there is none of a few px. */
static gboolean
find_radius (Front *front, TgRect rect)
{
  double low = 0, high = MIN (rect.width, rect.height);

  for (guint i = 0; i < 30; i++)
    {
      double middle = (low + high) / 2;

      measure (front, middle);
      if (fits (front, rect))
        low = middle;
      else
        high = middle;
    }
  measure (front, low);
  return low > (front->labelled ? 0.7 * front->plot->size : 1.5);
}

/* --- drawing --------------------------------------------------------------------------------- */

static void
draw_bore (cairo_t *cr, const Front *front, guint bank)
{
  double a = RADIANS (front->banks[bank].angle_deg);
  double dash[] = { 5 * front->plot->line, 2 * front->plot->line, front->plot->line,
                    2 * front->plot->line };

  cairo_save (cr);
  cairo_rotate (cr, a);
  cairo_new_path (cr);
  cairo_rectangle (cr, -front->half, -front->outer, 2 * front->half, front->outer - front->inner);
  tg_engine_drawing_fill_bore (cr, front->plot, bank);
  tg_color_set (cr, front->plot->style.quiet);
  cairo_set_line_width (cr, 0.7 * front->plot->line);
  cairo_set_dash (cr, dash, G_N_ELEMENTS (dash), 0);
  cairo_move_to (cr, 0, -front->outer);
  cairo_line_to (cr, 0, -front->labels_end);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_throw (cairo_t *cr, const Front *front, guint i)
{
  const TgPlot *plot = front->plot;
  double x = front->r * across (front->throws[i].angle_deg);
  double y = -front->r * up (front->throws[i].angle_deg);

  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  for (guint pass = 0; pass < 2; pass++)
    {
      double width = MAX (3 * plot->line, 0.26 * front->r);

      tg_color_set (cr, pass ? plot->style.metal : plot->style.ink);
      cairo_set_line_width (cr, pass ? width - 2 * plot->line : width);
      cairo_move_to (cr, 0, 0);
      cairo_line_to (cr, x, y);
      cairo_stroke (cr);
    }
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_new_path (cr);
  cairo_arc (cr, x, y, PIN * front->r, 0, 2 * G_PI);
  tg_color_set (cr, plot->style.ground);
  cairo_fill_preserve (cr);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  cairo_stroke (cr);
}

static void
draw_crank (cairo_t *cr, const Front *front)
{
  const TgPlot *plot = front->plot;
  double dash[] = { 3 * plot->line, 2 * plot->line };

  cairo_save (cr);
  tg_color_set (cr, plot->style.quiet);
  cairo_set_line_width (cr, 0.7 * plot->line);
  cairo_set_dash (cr, dash, 2, 0);
  cairo_new_path (cr);
  cairo_arc (cr, 0, 0, front->r, 0, 2 * G_PI);
  cairo_stroke (cr);
  cairo_restore (cr);
  for (guint i = 0; i < front->n_throws; i++)
    draw_throw (cr, front, i);
  cairo_new_path (cr);
  cairo_arc (cr, 0, 0, 0.24 * front->r, 0, 2 * G_PI);
  tg_color_set (cr, plot->style.metal);
  cairo_fill_preserve (cr);
  tg_color_set (cr, plot->style.ink);
  cairo_set_line_width (cr, plot->line);
  cairo_stroke (cr);
}

/* The sense in which the crank turns: clockwise, seen from the front. */
static void
draw_turning (cairo_t *cr, const Front *front)
{
  const TgPlot *plot = front->plot;
  double middle = 180, gap = widest_gap (front, &middle);
  double radius = (1 + PIN) * front->r + 0.55 * plot->size, half;
  double end, back;

  half = MIN (38, gap / 2 - atan (0.9 * plot->row / radius) * (180 / G_PI));
  if (half < 12)
    {
      radius = 0.6 * front->r;
      half = 38;
    }
  tg_color_set (cr, plot->style.accent);
  cairo_set_line_width (cr, 1.6 * plot->line);
  cairo_new_path (cr);
  /* cairo's angles run clockwise too, from the right */
  end = RADIANS (middle + half - 90);
  back = 0.45 * plot->size / radius;
  cairo_arc (cr, 0, 0, radius, RADIANS (middle - half - 90), end - back);
  cairo_stroke (cr);
  tg_engine_drawing_arrow (cr, plot, radius * cos (end), radius * sin (end),
                           end - back / 2 + G_PI / 2);
}

static void
write_label (
    const Front *front, const Label *label, gboolean bold, TgColor color, double x, double y)
{
  tg_plot_write (front->plot, label->text, bold, color, x + label->rect.x + label->width / 2,
                 y + label->rect.y, 0.5);
}

static void
draw_labels (cairo_t *cr, const Front *front, double x, double y)
{
  const TgStyle *style = &front->plot->style;

  for (guint i = 0; i < front->n_banks; i++)
    write_label (front, &front->bank_labels[i], TRUE, style->ink, x, y);
  for (guint i = 0; i < front->n_throws; i++)
    write_label (front, &front->throw_labels[i], FALSE, style->ink, x, y);
  if (front->n_banks != 2)
    return;
  write_label (front, &front->angle, FALSE, style->ink, x, y);
  if (front->arc > 0)
    {
      double first = front->banks[0].angle_deg;
      double turn = remainder (front->banks[1].angle_deg - first, 360);
      double middle = RADIANS (fabs (turn) > 180 - 1e-3 ? 0 : first + turn / 2) - G_PI / 2;
      double half = RADIANS (fabs (turn)) / 2;
      double text = (front->angle.width / 2 + 0.3 * front->plot->size) / front->arc;

      if (text >= half)
        return;
      tg_color_set (cr, style->ink);
      cairo_set_line_width (cr, 0.7 * front->plot->line);
      cairo_new_path (cr);
      cairo_arc (cr, 0, 0, front->arc, middle - half, middle - text);
      cairo_new_sub_path (cr);
      cairo_arc (cr, 0, 0, front->arc, middle + text, middle + half);
      cairo_stroke (cr);
    }
}

/* --- all of it ------------------------------------------------------------------------------- */

static Label
label_new (const TgPlot *plot, const char *text, gboolean bold)
{
  return (Label){ .text = g_strdup (text), .width = tg_plot_text_width (plot, text, bold) };
}

static void
front_init (Front *front, TgPlot *plot, const TgEngineDrawing *engine)
{
  front->engine = engine;
  front->plot = plot;
  front->n_banks = tg_engine_drawing_banks (engine->layout, front->banks);
  front->n_throws = tg_engine_drawing_throws (engine->layout, front->throws);
  front->ratio = ROD_RATIO;
  if (engine->stroke_mm > 0 && engine->rod_mm > 0)
    front->ratio = CLAMP (2 * engine->rod_mm / engine->stroke_mm, MIN_ROD_RATIO, MAX_ROD_RATIO);
  for (guint i = 0; i < front->n_banks; i++)
    {
      g_autofree char *numbers = tg_engine_drawing_numbers (&front->banks[i]);

      front->bank_labels[i] = label_new (plot, numbers, TRUE);
    }
  for (guint i = 0; i < front->n_throws; i++)
    {
      g_autofree char *numbers = tg_engine_drawing_numbers (&front->throws[i]);

      front->throw_labels[i] = label_new (plot, numbers, FALSE);
    }
  if (front->n_banks == 2)
    {
      double between = remainder (front->banks[1].angle_deg - front->banks[0].angle_deg, 360);
      g_autofree char *number = tg_number_format_short (fabs (between));
      g_autofree char *text = g_strconcat (number, "°", NULL);

      front->angle = label_new (plot, text, FALSE);
    }
}

static void
front_clear (Front *front)
{
  for (guint i = 0; i < TG_ENGINE_LAYOUT_MAX; i++)
    {
      g_free (front->bank_labels[i].text);
      g_free (front->throw_labels[i].text);
    }
  g_free (front->angle.text);
}

/* FALSE, and nothing is to be cleared, if @rect is too small for anything. */
static gboolean
front_place (Front *front, TgPlot *plot, TgRect rect, const TgEngineDrawing *engine, TgPoint *at)
{
  *front = (Front){ .labelled = TRUE };
  front_init (front, plot, engine);
  if (!find_radius (front, rect))
    {
      front->labelled = FALSE;
      if (!find_radius (front, rect))
        {
          front_clear (front);
          return FALSE;
        }
    }
  at->x = rect.x + (rect.width - (front->right - front->left)) / 2 - front->left;
  at->y = rect.y + (rect.height - (front->bottom - front->top)) / 2 - front->top;
  return TRUE;
}

gboolean
tg_engine_front_places (TgPlot *plot,
                        TgRect rect,
                        const TgEngineDrawing *engine,
                        TgEngineFrontPlaces *places)
{
  Front front;
  TgPoint at;

  if (!front_place (&front, plot, rect, engine, &at))
    return FALSE;
  *places = (TgEngineFrontPlaces){ .x = at.x,
                                   .y = at.y,
                                   .r = front.r,
                                   .pin = PIN * front.r,
                                   .inner = front.inner,
                                   .outer = front.outer,
                                   .half = front.half,
                                   .bank_deg = { front.banks[0].angle_deg,
                                                 front.banks[1].angle_deg },
                                   .throw_deg = front.throws[0].angle_deg };
  front_clear (&front);
  return TRUE;
}

void
tg_engine_front_draw (cairo_t *cr, TgPlot *plot, TgRect rect, const TgEngineDrawing *engine)
{
  Front front;
  TgPoint at;

  if (!front_place (&front, plot, rect, engine, &at))
    return;
  cairo_save (cr);
  cairo_translate (cr, at.x, at.y);
  for (guint i = 0; i < front.n_banks; i++)
    draw_bore (cr, &front, i);
  draw_crank (cr, &front);
  if (front.labelled)
    {
      draw_turning (cr, &front);
      draw_labels (cr, &front, at.x, at.y);
    }
  cairo_restore (cr);
  front_clear (&front);
}
