/* plain-part.c: the parts that are only weighed, as plain schematic outlines, see plain-part.h
 *
 * A pin lies on its side, with its bore and its axis (hidden edges dashed, centre lines dash-dotted:
 * ISO 128-2, line types 02.1 and 04.1, from memory); rings lie on one another, each with its gap;
 * clips are open circles of wire; half shells stand on their parting faces.  Schematic: nothing is to
 * scale.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "plain-part.h"

#include <math.h>

/* mm */
#define PIN_LENGTH 64.0
#define PIN_WIDTH 22.0
#define PIN_WALL 5.5
#define AXIS 4.0
#define RING_WIDTH 80.0
#define RING_SPACE 1.6
#define RING_GAP 3.0
#define CLIP 26.0
#define CLIP_SPACE 8.0
#define CLIP_OPEN 0.55 /* half of the opening, radians */
#define WIRE 2.6
#define SHELL 26.0
#define SHELL_WALL 4.0
#define SHELL_SPACE 8.0
/* px or points kept free round the sign */
#define PAD 3.0

static const double ring_heights[] = { 4.5, 4.5, 8 };

TgRect
tg_plain_part_bounds (TgPartKind kind)
{
  double height = RING_SPACE * (G_N_ELEMENTS (ring_heights) - 1);

  switch (kind)
    {
    case TG_PART_PIN:
      return (TgRect){ -AXIS, 0, PIN_LENGTH + 2 * AXIS, PIN_WIDTH };
    case TG_PART_RINGS:
      for (guint i = 0; i < G_N_ELEMENTS (ring_heights); i++)
        height += ring_heights[i];
      return (TgRect){ 0, 0, RING_WIDTH, height };
    case TG_PART_CLIPS:
      return (TgRect){ 0, 0, 2 * CLIP + CLIP_SPACE, CLIP };
    case TG_PART_BEARINGS:
    default:
      return (TgRect){ 0, 0, 4 * SHELL + SHELL_SPACE, SHELL };
    }
}

/* Fills and strokes the path, which was given in mm. */
static void
finish (cairo_t *cr, const TgStyle *style, double line)
{
  tg_color_set (cr, style->metal);
  cairo_fill_preserve (cr);
  tg_color_set (cr, style->ink);
  cairo_set_line_width (cr, line);
  cairo_stroke (cr);
}

static void
box (cairo_t *cr, const TgView *view, TgRect mm, double radius)
{
  TgShape shape = tg_shape_box (mm.x, mm.y, mm.x + mm.width, mm.y + mm.height);

  cairo_save (cr);
  tg_view_apply (cr, view);
  tg_shape_path (cr, &shape, radius, NULL);
  cairo_restore (cr);
}

static void
across (cairo_t *cr, const TgView *view, double y, double from, double to)
{
  TgPoint a = tg_view_point (view, (TgPoint){ from, y });
  TgPoint b = tg_view_point (view, (TgPoint){ to, y });

  cairo_move_to (cr, a.x, a.y);
  cairo_line_to (cr, b.x, b.y);
}

static void
draw_pin (cairo_t *cr, const TgView *view, const TgStyle *style, double line)
{
  double hidden[] = { 4 * line, 2 * line };
  double centre[] = { 8 * line, 2 * line, line, 2 * line };

  box (cr, view, (TgRect){ 0, 0, PIN_LENGTH, PIN_WIDTH }, 1.5);
  finish (cr, style, line);
  cairo_save (cr);
  tg_color_set (cr, style->ink);
  cairo_set_line_width (cr, 0.6 * line);
  cairo_set_dash (cr, hidden, 2, 0);
  across (cr, view, PIN_WALL, 0, PIN_LENGTH);
  across (cr, view, PIN_WIDTH - PIN_WALL, 0, PIN_LENGTH);
  cairo_stroke (cr);
  cairo_set_dash (cr, centre, 4, 0);
  across (cr, view, PIN_WIDTH / 2, -AXIS, PIN_LENGTH + AXIS);
  cairo_stroke (cr);
  cairo_restore (cr);
}

static void
draw_rings (cairo_t *cr, const TgView *view, const TgStyle *style, double line)
{
  double y = 0;

  for (guint i = 0; i < G_N_ELEMENTS (ring_heights); i++)
    {
      double gap = RING_WIDTH * (0.3 + 0.2 * i);

      box (cr, view, (TgRect){ 0, y, gap - RING_GAP / 2, ring_heights[i] }, 0.8);
      finish (cr, style, line);
      box (cr, view,
           (TgRect){ gap + RING_GAP / 2, y, RING_WIDTH - gap - RING_GAP / 2, ring_heights[i] },
           0.8);
      finish (cr, style, line);
      y += ring_heights[i] + RING_SPACE;
    }
}

static void
draw_clip (cairo_t *cr, const TgView *view, double x, const TgStyle *style, double line)
{
  cairo_save (cr);
  tg_view_apply (cr, view);
  /* open to the top */
  cairo_arc (cr, x + CLIP / 2, CLIP / 2, (CLIP - WIRE) / 2, CLIP_OPEN - G_PI / 2,
             1.5 * G_PI - CLIP_OPEN);
  cairo_restore (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_ROUND);
  cairo_set_line_width (cr, WIRE * view->scale);
  tg_color_set (cr, style->ink);
  cairo_stroke_preserve (cr);
  cairo_set_line_width (cr, MAX (0, WIRE * view->scale - 2 * line));
  tg_color_set (cr, style->metal);
  cairo_stroke (cr);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
}

static void
draw_shell (cairo_t *cr, const TgView *view, double x, const TgStyle *style, double line)
{
  cairo_save (cr);
  tg_view_apply (cr, view);
  cairo_arc (cr, x + SHELL, SHELL, SHELL, G_PI, 2 * G_PI);
  cairo_arc_negative (cr, x + SHELL, SHELL, SHELL - SHELL_WALL, 2 * G_PI, G_PI);
  cairo_close_path (cr);
  cairo_restore (cr);
  finish (cr, style, line);
}

void
tg_plain_part_draw (
    cairo_t *cr, TgPartKind kind, const TgView *view, const TgStyle *style, double line)
{
  g_return_if_fail (!tg_part_kind_has_outline (kind));

  cairo_new_path (cr);
  switch (kind)
    {
    case TG_PART_PIN:
      draw_pin (cr, view, style, line);
      break;
    case TG_PART_RINGS:
      draw_rings (cr, view, style, line);
      break;
    case TG_PART_CLIPS:
      draw_clip (cr, view, 0, style, line);
      draw_clip (cr, view, CLIP + CLIP_SPACE, style, line);
      break;
    case TG_PART_BEARINGS:
    default:
      draw_shell (cr, view, 0, style, line);
      draw_shell (cr, view, 2 * SHELL + SHELL_SPACE, style, line);
      break;
    }
}

void
tg_plain_part_draw_in (cairo_t *cr, TgRect area, TgPartKind kind, const TgStyle *style)
{
  TgRect mm = tg_plain_part_bounds (kind);
  double scale = MIN ((area.width - 2 * PAD) / mm.width, (area.height - 2 * PAD) / mm.height);
  TgView view = { .scale = MIN (scale, style->text_size / 7) };

  if (scale <= 0)
    return;
  view.x = area.x + (area.width - view.scale * mm.width) / 2 - view.scale * mm.x;
  view.y = area.y + (area.height - view.scale * mm.height) / 2 - view.scale * mm.y;
  cairo_save (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash (cr, NULL, 0, 0);
  tg_plain_part_draw (cr, kind, &view, style,
                      style->line * CLAMP (view.scale * mm.width / 160, 0.6, 1));
  cairo_restore (cr);
}
