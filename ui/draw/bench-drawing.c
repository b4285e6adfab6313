/* bench-drawing.c: how a part lies on scale and stand for one reading, see bench-drawing.h
 *
 * A rod is shown twice, one view below the other as on a workshop drawing: from above with its mark,
 * and from the side on its two supports, which stand under the bore centres.  Visible edges are full,
 * hidden ones dashed and centre lines dash-dotted (ISO 128-2, line types 01.2, 02.1 and 04.1, from
 * memory).  Thickness and supports are schematic: only the view from above is to scale.  A piston is
 * shown from the side; a part without outline is a plain sign on the plate.
 *
 * Symbols: t is the size of ordinary text, larger in a large rectangle; in a small one it is smaller
 * and words are left out.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench-drawing.h"

#include <math.h>

#include "outline.h"
#include "plain-part.h"
#include "text.h"

/* Heights from the part down, in t. */
#define GAP 1.1
#define SLAB 0.9
#define EDGE 1.1
#define PLATE 0.3
#define BODY 1.7
#define WORDS 1.5
#define NO_WORDS 0.3
/* Widths in t. */
#define BODY_WIDTH 5.0
#define STAND_WIDTH 2.6
/* A sign is no wider and no higher than this, in t. */
#define SIGN_WIDTH 11.0
#define SIGN_HEIGHT 5.0

/**
 * Bench:
 * @t: see above; @line: stroke width
 * @words: there is room for them
 * @x: of the bore centres, big and small end
 * @scale_at: x of the middle of the plate; @plate: its width
 * @side_y, @plate_y, @ground_y: upper edges of the view from the side, the plate, the bench
 */
typedef struct
{
  const TgDesign *design;
  const TgStyle *style;
  TgRect mm;
  TgView view;
  double t, line;
  gboolean words;
  double x[2];
  double scale_at, plate;
  double side_y, plate_y, ground_y;
} Bench;

static gboolean
on_two_supports (const TgDesign *design, TgFigure figure)
{
  return design->kind == TG_PART_ROD && figure != TG_FIGURE_WHOLE;
}

/* Height of all that lies below the part as it is seen from above (rods) or from the side. */
static double
height_below (const Bench *bench, TgFigure figure)
{
  double share = PLATE + BODY + (bench->words ? WORDS : NO_WORDS);

  if (bench->design->kind == TG_PART_ROD)
    share += GAP + SLAB + (on_two_supports (bench->design, figure) ? EDGE : 0);
  return share * bench->t;
}

/* The part as large as it can be, with room for half a scale or stand beyond either bore centre. */
static double
largest_scale (const Bench *bench, TgFigure figure, double width, double height)
{
  double half = BODY_WIDTH * bench->t / 2;
  double left = -bench->mm.x, right = bench->mm.x + bench->mm.width;
  double scale = MIN (width / bench->mm.width,
                      (height - height_below (bench, figure)) / bench->mm.height);

  if (!tg_part_kind_has_outline (bench->design->kind))
    return MIN (scale, MIN (SIGN_WIDTH * bench->t / bench->mm.width,
                            SIGN_HEIGHT * bench->t / bench->mm.height));
  if (on_two_supports (bench->design, figure))
    {
      double centres = bench->design->rod.centres;

      scale = MIN (scale, (width - half) / (left + centres));
      scale = MIN (scale, (width - half) / right);
      scale = MIN (scale, (width - 2 * half) / centres);
    }
  return scale;
}

/* FALSE if the rectangle is too small for anything. */
static gboolean
place (Bench *bench, TgRect area, TgFigure figure)
{
  double pad = 0.4 * bench->t + 2 * bench->line;
  double width = area.width - 2 * pad, height = area.height - 2 * pad;
  double below = height_below (bench, figure);
  double scale = largest_scale (bench, figure, width, height);
  double left, right, top, w;

  if (scale <= 0)
    return FALSE;
  w = scale * bench->mm.width;
  left = right = 0;
  if (on_two_supports (bench->design, figure))
    {
      double half = BODY_WIDTH * bench->t / 2;

      left = MAX (0, half + scale * bench->mm.x);
      right = MAX (0, half - scale * (bench->mm.x + bench->mm.width - bench->design->rod.centres));
    }
  top = area.y + (area.height - scale * bench->mm.height - below) / 2;
  bench->view.scale = scale;
  bench->view.x = area.x + (area.width - w - left - right) / 2 + left - scale * bench->mm.x;
  bench->view.y = top - scale * bench->mm.y;
  bench->x[0] = bench->view.x;
  bench->x[1] = bench->view.x + scale * bench->design->rod.centres;
  bench->side_y = top + scale * bench->mm.height;
  if (bench->design->kind == TG_PART_ROD)
    bench->side_y += GAP * bench->t;
  bench->ground_y = top + scale * bench->mm.height + below -
                    (bench->words ? WORDS : NO_WORDS) * bench->t;
  bench->plate_y = bench->ground_y - (PLATE + BODY) * bench->t;
  if (on_two_supports (bench->design, figure))
    {
      bench->scale_at = bench->x[figure == TG_FIGURE_SMALL_END ? 1 : 0];
      bench->plate = BODY_WIDTH * bench->t;
    }
  else
    {
      bench->scale_at = bench->view.x + scale * (bench->mm.x + bench->mm.width / 2);
      bench->plate = tg_part_kind_has_outline (bench->design->kind)
                         ? MAX (0.72 * w, MIN (w, BODY_WIDTH * bench->t))
                         : MAX (w, BODY_WIDTH * bench->t);
    }
  return TRUE;
}

static void
fill_and_stroke (cairo_t *cr, TgColor fill, TgColor stroke, double line)
{
  tg_color_set (cr, fill);
  cairo_fill_preserve (cr);
  tg_color_set (cr, stroke);
  cairo_set_line_width (cr, line);
  cairo_stroke (cr);
}

static void
box (cairo_t *cr, double x, double y, double width, double height, double radius)
{
  TgShape shape = tg_shape_box (x, y, x + width, y + height);

  cairo_new_path (cr);
  tg_shape_path (cr, &shape, radius, NULL);
}

static void
word (cairo_t *cr, const Bench *bench, const char *text, double middle, double y)
{
  TgText how = { .font = bench->style->font, .size = 0.9 * bench->style->text_size };
  double w, h;

  if (!bench->words)
    return;
  tg_text_measure (&how, text, &w, &h);
  tg_text_draw (cr, &how, text, middle - w / 2, y, bench->style->quiet);
}

/* Plate, body with its display, and the name below the bench. */
static void
draw_scale (cairo_t *cr, const Bench *bench)
{
  const TgStyle *style = bench->style;
  TgColor fill = tg_color_mix (style->ground, style->accent, 0.14);
  double t = bench->t;
  double body = MIN (bench->plate, BODY_WIDTH * t) - 0.8 * t;
  double y = bench->plate_y + PLATE * t;

  box (cr, bench->scale_at - body / 2, y, body, BODY * t, 0.35 * t);
  fill_and_stroke (cr, fill, style->accent, bench->line);
  box (cr, bench->scale_at - 0.34 * body, y + 0.35 * t, 0.68 * body, BODY * t - 0.7 * t, 0.15 * t);
  fill_and_stroke (cr, style->ground, style->accent, 0.6 * bench->line);
  if (bench->words)
    {
      TgText how = { .font = style->font, .size = 0.75 * t };
      double w, h;

      tg_text_measure (&how, "g", &w, &h);
      tg_text_draw (cr, &how, "g", bench->scale_at + 0.34 * body - w - 0.3 * t,
                    y + BODY * t / 2 - 0.55 * h, style->accent);
    }
  box (cr, bench->scale_at - bench->plate / 2, bench->plate_y, bench->plate, PLATE * t, 0.1 * t);
  fill_and_stroke (cr, style->accent, style->accent, bench->line);
  word (cr, bench, "scale", bench->scale_at, bench->ground_y + 0.2 * t);
}

/* An edge that points up to @tip; the rod's bore centre lies above it. */
static void
draw_edge (cairo_t *cr,
           const Bench *bench,
           double x,
           double tip,
           double foot,
           double width,
           TgColor fill,
           TgColor stroke)
{
  cairo_new_path (cr);
  cairo_move_to (cr, x, tip);
  cairo_line_to (cr, x + width / 2, foot);
  cairo_line_to (cr, x - width / 2, foot);
  cairo_close_path (cr);
  fill_and_stroke (cr, fill, stroke, bench->line);
}

static void
draw_supports (cairo_t *cr, const Bench *bench, TgFigure figure)
{
  const TgStyle *style = bench->style;
  double t = bench->t, tip = bench->side_y + SLAB * t;
  double other = bench->x[figure == TG_FIGURE_SMALL_END ? 0 : 1];

  draw_edge (cr, bench, bench->scale_at, tip, bench->plate_y, 1.3 * t, style->accent,
             style->accent);
  draw_edge (cr, bench, other, tip, bench->ground_y, STAND_WIDTH * t, style->metal, style->ink);
  word (cr, bench, "stand", other, bench->ground_y + 0.2 * t);
}

/* The rod from the side: two eyes and the thinner beam between them. */
static void
draw_side (cairo_t *cr, const Bench *bench)
{
  const TgRodDims *rod = &bench->design->rod;
  const TgStyle *style = bench->style;
  double scale = bench->view.scale, h = SLAB * bench->t, y = bench->side_y;
  double big = MAX (rod->big_outer / 2, MAX (rod->shoulder, 0)) * scale;
  double small = rod->small_outer / 2 * scale;
  double left = bench->x[0] + scale * bench->mm.x;
  double right = left + scale * bench->mm.width;
  double radius = 0.15 * bench->t;

  box (cr, bench->x[0], y + 0.22 * h, bench->x[1] - bench->x[0], 0.56 * h, 0);
  fill_and_stroke (cr, style->metal, style->ink, bench->line);
  box (cr, left, y, bench->x[0] + big - left, h, radius);
  fill_and_stroke (cr, style->metal, style->ink, bench->line);
  box (cr, bench->x[1] - small, y, right - bench->x[1] + small, h, radius);
  fill_and_stroke (cr, style->metal, style->ink, bench->line);
}

static double
mark_x (const Bench *bench)
{
  const TgRodDims *rod = &bench->design->rod;
  double from = MAX (rod->big_outer / 2, rod->shoulder);

  return bench->view.x +
         bench->view.scale * (from + 0.5 * MAX (0, rod->centres - rod->small_outer / 2 - from));
}

static double
mark_radius (const Bench *bench)
{
  const TgRodDims *rod = &bench->design->rod;

  return MIN (0.5 * bench->t, 0.3 * bench->view.scale * (rod->beam_big + rod->beam_small) / 2);
}

/* The mark on the near face, or dashed through the metal on the far one. */
static void
draw_mark (cairo_t *cr, const Bench *bench, TgWay way)
{
  const TgStyle *style = bench->style;
  double t = bench->t, x = mark_x (bench), y = bench->view.y, r = mark_radius (bench);
  double dash[] = { 2.2 * bench->line, 1.6 * bench->line };
  double thick = 0.28 * t, side = bench->side_y + (way == TG_WAY_MARK_UP ? 0.22 : 0.78) * SLAB * t;

  cairo_new_path (cr);
  cairo_arc (cr, x, y, r, 0, 2 * G_PI);
  if (way == TG_WAY_MARK_UP)
    fill_and_stroke (cr, style->accent, style->accent, bench->line);
  else
    {
      cairo_save (cr);
      cairo_set_dash (cr, dash, 2, 0);
      tg_color_set (cr, style->ink);
      cairo_set_line_width (cr, bench->line);
      cairo_stroke (cr);
      cairo_restore (cr);
    }
  box (cr, x - r, way == TG_WAY_MARK_UP ? side - thick : side, 2 * r, thick, 0);
  fill_and_stroke (cr, style->accent, style->accent, 0.6 * bench->line);
}

/* Above the beam, where the eyes leave room. */
static void
name_mark (cairo_t *cr, const Bench *bench, TgWay way)
{
  const TgRodDims *rod = &bench->design->rod;
  TgText how = { .font = bench->style->font, .size = 0.9 * bench->style->text_size };
  double scale = bench->view.scale, x = mark_x (bench);
  double beam = bench->view.y - scale * MAX (rod->beam_big, rod->beam_small) / 2;
  double top = bench->view.y + scale * bench->mm.y;
  double free = 2 * (x - bench->x[0] - scale * MAX (rod->big_outer, rod->shoulder_span) / 2);
  double w, h, y;

  tg_text_measure (&how, tg_way_label (way), &w, &h);
  y = MAX (top, beam - 1.2 * bench->t - h);
  if (!bench->words || w > free || y + h + 0.4 * bench->t > beam)
    return;
  tg_text_draw (cr, &how, tg_way_label (way), x - w / 2, y, bench->style->ink);
  tg_color_set (cr, bench->style->ink);
  cairo_set_line_width (cr, 0.7 * bench->line);
  cairo_move_to (cr, x, y + h + 0.1 * bench->t);
  cairo_line_to (cr, x, bench->view.y - (way == TG_WAY_MARK_UP ? 0 : 0.5 * bench->t));
  cairo_stroke (cr);
}

/* From each bore centre down to its support. */
static void
draw_centre_lines (cairo_t *cr, const Bench *bench)
{
  double dash[] = { 7 * bench->line, 2 * bench->line, bench->line, 2 * bench->line };
  double top = bench->view.y + bench->view.scale * bench->mm.y;

  cairo_save (cr);
  cairo_set_dash (cr, dash, 4, 0);
  tg_color_set (cr, bench->style->quiet);
  cairo_set_line_width (cr, 0.6 * bench->line);
  for (guint i = 0; i < 2; i++)
    {
      cairo_move_to (cr, bench->x[i], top);
      cairo_line_to (cr, bench->x[i], bench->side_y + SLAB * bench->t);
    }
  cairo_stroke (cr);
  cairo_restore (cr);
}

/* The bore of the end that is weighed. */
static void
draw_weighed (cairo_t *cr, const Bench *bench, TgFigure figure)
{
  const TgRodDims *rod = &bench->design->rod;
  const TgStyle *style = bench->style;
  double bore = figure == TG_FIGURE_SMALL_END ? rod->small_bore : rod->big_bore;

  cairo_new_path (cr);
  cairo_arc (cr, bench->scale_at, bench->view.y, bench->view.scale * bore / 2, 0, 2 * G_PI);
  fill_and_stroke (cr, tg_color_mix (style->ground, style->accent, 0.14), style->accent,
                   2 * bench->line);
}

static void
draw_ground (cairo_t *cr, const Bench *bench, TgRect area)
{
  tg_color_set (cr, bench->style->quiet);
  cairo_set_line_width (cr, 0.8 * bench->line);
  cairo_move_to (cr, area.x + 0.4 * bench->t, bench->ground_y);
  cairo_line_to (cr, area.x + area.width - 0.4 * bench->t, bench->ground_y);
  cairo_stroke (cr);
}

static void
draw_bench (cairo_t *cr, const Bench *bench, TgRect area, TgFigure figure, TgWay way)
{
  gboolean rod = bench->design->kind == TG_PART_ROD;
  gboolean two = on_two_supports (bench->design, figure);

  draw_ground (cr, bench, area);
  draw_scale (cr, bench);
  if (!tg_part_kind_has_outline (bench->design->kind))
    {
      tg_plain_part_draw (cr, bench->design->kind, &bench->view, bench->style, bench->line);
      return;
    }
  tg_outline_draw (cr, bench->design, &bench->view, bench->style, bench->line);
  tg_outline_draw_over (cr, bench->design, &bench->view, bench->style, bench->line);
  if (!rod)
    return;
  draw_side (cr, bench);
  if (two)
    {
      draw_supports (cr, bench, figure);
      draw_weighed (cr, bench, figure);
      draw_centre_lines (cr, bench);
    }
  if (way != TG_WAY_ANY)
    {
      draw_mark (cr, bench, way);
      name_mark (cr, bench, way);
    }
}

static Bench
bench_for (TgRect area, const TgDesign *design, const TgStyle *style)
{
  double text = style->text_size;
  double t = MIN (CLAMP (area.height / 20, text, 1.5 * text),
                  MIN (area.height / 13, area.width / 20));

  return (Bench){ .design = design,
                  .style = style,
                  .mm = tg_part_kind_has_outline (design->kind)
                            ? tg_outline_bounds (design)
                            : tg_plain_part_bounds (design->kind),
                  .t = t,
                  .line = style->line * CLAMP (t / text, 0.45, 1),
                  .words = t >= text };
}

gboolean
tg_bench_drawing_places (TgRect area,
                         const TgDesign *design,
                         TgFigure figure,
                         const TgStyle *style,
                         TgBenchPlaces *places)
{
  Bench bench = bench_for (area, design, style);
  double tip, other, r;

  g_return_val_if_fail (on_two_supports (design, figure), FALSE);

  if (area.width < 4 || area.height < 4 || !place (&bench, area, figure))
    return FALSE;
  tip = bench.side_y + SLAB * bench.t;
  other = bench.x[figure == TG_FIGURE_SMALL_END ? 0 : 1];
  r = mark_radius (&bench);
  places->stand = (TgRect){ other - STAND_WIDTH * bench.t / 2, tip, STAND_WIDTH * bench.t,
                            bench.ground_y - tip };
  places->mark = (TgRect){ mark_x (&bench) - r, bench.view.y - r, 2 * r, 2 * r };
  return TRUE;
}

void
tg_bench_drawing_draw (cairo_t *cr,
                       TgRect area,
                       const TgDesign *design,
                       TgFigure figure,
                       TgWay way,
                       const TgStyle *style)
{
  Bench bench = bench_for (area, design, style);

  g_return_if_fail ((guint) figure < TG_N_FIGURES);

  if (area.width < 4 || area.height < 4 || !place (&bench, area, figure))
    return;
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  draw_bench (cr, &bench, area, figure, way);
  cairo_restore (cr);
}
