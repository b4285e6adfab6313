/* glossary-drawing.c: a term's spot, lit on a plain drawing, see glossary-drawing.h
 *
 * The scene is quiet; the spot has a strong outline, a fill and its name on a leader, so it does not hang
 * on colour.  A row above and one below the scene are kept for the name; it stands in the nearer one.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "glossary-drawing-private.h"

#include <math.h>

#include "text.h"

#define ROW 1.7 /* in sizes of text */
#define LEAST_WIDTH 60
#define LEAST_HEIGHT 60
#define LARGE 0.25 /* of the drawing */

static const struct
{
  TgGlossarySpot last;
  TgGlossaryScene scene;
  const char *words;
} scenes[] = {
  { TG_SPOT_LEVER_ARM, tg_glossary_rod_scene, "A connecting rod from the side" },
  { TG_SPOT_COMPRESSION_HEIGHT, tg_glossary_piston_scene, "A piston, cut along its pin" },
  { TG_SPOT_MARK, tg_glossary_stand_scene, "A rod, one end on the scale and one on the stand" },
  { TG_SPOT_CHECK_WEIGHT, tg_glossary_scale_scene, "A scale" },
  { TG_SPOT_ROTATING, tg_glossary_engine_scene,
    "Two cylinders in a V and their crank, from the front" },
  { TG_SPOT_TO_COME_OFF, tg_glossary_weights_scene, "Four parts on a line, lighter to the left" },
  { TG_SPOT_SECOND_ORDER, tg_glossary_turn_scene, "A force over one turn of the crank" },
};

static guint
scene_of (TgGlossarySpot spot)
{
  guint i = 0;

  while (i + 1 < G_N_ELEMENTS (scenes) && spot > scenes[i].last)
    i++;
  return i;
}

void
tg_glossary_add_arrow (cairo_t *cr, TgPoint from, TgPoint to, double width)
{
  double length = hypot (to.x - from.x, to.y - from.y), head = MIN (4 * width, length / 3);
  double half = width / 2, wide = 0.5 * head;

  cairo_save (cr);
  cairo_translate (cr, from.x, from.y);
  cairo_rotate (cr, atan2 (to.y - from.y, to.x - from.x));
  cairo_new_sub_path (cr);
  cairo_move_to (cr, 0, 0);
  cairo_line_to (cr, head, -wide);
  cairo_line_to (cr, head, -half);
  cairo_line_to (cr, length - head, -half);
  cairo_line_to (cr, length - head, -wide);
  cairo_line_to (cr, length, 0);
  cairo_line_to (cr, length - head, wide);
  cairo_line_to (cr, length - head, half);
  cairo_line_to (cr, head, half);
  cairo_line_to (cr, head, wide);
  cairo_close_path (cr);
  cairo_restore (cr);
}

void
tg_glossary_add_ring (cairo_t *cr, TgPoint center, double inner, double outer)
{
  cairo_new_sub_path (cr);
  cairo_arc (cr, center.x, center.y, outer, 0, 2 * G_PI);
  cairo_close_path (cr);
  if (inner <= 0)
    return;
  cairo_new_sub_path (cr);
  cairo_arc (cr, center.x, center.y, inner, 0, 2 * G_PI);
  cairo_close_path (cr);
}

/* Inks and metal nearer to the ground; the accent is kept for the spot. */
static TgStyle
quiet_style (const TgStyle *style)
{
  TgStyle quiet = *style;

  quiet.ink = tg_color_mix (style->ink, style->ground, 0.45);
  quiet.quiet = tg_color_mix (style->quiet, style->ground, 0.25);
  quiet.metal = tg_color_mix (style->metal, style->ground, 0.3);
  quiet.accent = quiet.ink;
  quiet.line = 0.8 * style->line;
  return quiet;
}

static TgRect
scene_area (TgRect area, const TgStyle *style)
{
  double pad = 2 * style->line, row = ROW * style->text_size;

  return (TgRect){ area.x + pad, area.y + row, area.width - 2 * pad, area.height - 2 * row };
}

/* In the row that is nearer to the spot, with a leader to it. */
static void
draw_name (cairo_t *cr, TgRect area, TgPoint at, const char *name, const TgStyle *style)
{
  TgText how = { .font = style->font, .size = style->text_size, .bold = TRUE };
  gboolean above = at.y < area.y + area.height / 2;
  double pad = 2 * style->line, width, height, x, y, foot;

  tg_text_measure (&how, name, &width, &height);
  x = CLAMP (at.x - width / 2, area.x + pad, MAX (area.x + pad, area.x + area.width - pad - width));
  y = above ? area.y : area.y + area.height - height;
  foot = above ? y + height : y;
  tg_color_set (cr, style->ink);
  cairo_set_line_width (cr, style->line);
  cairo_move_to (cr, CLAMP (at.x, x, x + width), foot);
  cairo_line_to (cr, at.x, at.y);
  cairo_stroke (cr);
  cairo_arc (cr, at.x, at.y, 1.8 * style->line, 0, 2 * G_PI);
  cairo_fill (cr);
  tg_text_draw (cr, &how, name, x, y, style->ink);
}

/* What fills much of the drawing is lit less, so that it still can be seen. */
static void
light (cairo_t *cr, TgRect area, const TgStyle *style)
{
  double x0, y0, x1, y1, share;

  cairo_path_extents (cr, &x0, &y0, &x1, &y1);
  share = (x1 - x0) * (y1 - y0) > LARGE * area.width * area.height ? 0.15 : 0.4;
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_set_source_rgba (cr, style->accent.r, style->accent.g, style->accent.b, share);
  cairo_fill_preserve (cr);
  tg_color_set (cr, style->accent);
  cairo_set_line_width (cr, 1.7 * style->line);
  cairo_stroke (cr);
}

void
tg_glossary_drawing_draw (cairo_t *cr, TgRect area, TgGlossarySpot spot, const TgStyle *style)
{
  TgStyle quiet = quiet_style (style);
  g_autofree char *name = NULL;
  TgPoint at;

  g_return_if_fail ((guint) spot < TG_N_SPOTS);

  if (spot == TG_SPOT_NONE || area.width < LEAST_WIDTH || area.height < LEAST_HEIGHT)
    return;
  name = tg_glossary_spot_label (spot);
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_dash (cr, NULL, 0, 0);
  at = scenes[scene_of (spot)].scene (cr, scene_area (area, style), spot, &quiet);
  light (cr, area, style);
  draw_name (cr, area, at, name, style);
  cairo_restore (cr);
}

TgRect
tg_glossary_drawing_lit (TgRect area, TgGlossarySpot spot, const TgStyle *style)
{
  TgStyle quiet = quiet_style (style);
  cairo_surface_t *surface;
  cairo_t *cr;
  double x0, y0, x1, y1;

  if (spot == TG_SPOT_NONE || area.width < LEAST_WIDTH || area.height < LEAST_HEIGHT)
    return (TgRect){ 0, 0, 0, 0 };
  surface = cairo_image_surface_create (CAIRO_FORMAT_A8, 1, 1);
  cr = cairo_create (surface);
  scenes[scene_of (spot)].scene (cr, scene_area (area, style), spot, &quiet);
  cairo_path_extents (cr, &x0, &y0, &x1, &y1);
  cairo_destroy (cr);
  cairo_surface_destroy (surface);
  return (TgRect){ x0, y0, x1 - x0, y1 - y0 };
}

char *
tg_glossary_drawing_words (TgGlossarySpot spot)
{
  g_autofree char *name = tg_glossary_spot_label (spot);

  return spot == TG_SPOT_NONE
             ? g_strdup ("")
             : g_strdup_printf ("%s; lit: %s", scenes[scene_of (spot)].words, name);
}
