/* effect-drawing.c: a part with one place lit, see effect-drawing.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A rod lies; below it, under the centre of each bore, stand the name of the end, its arrow and the grams.
 */
#include "effect-drawing.h"

#include <math.h>

#include "number.h"
#include "part-drawing.h"
#include "part-layout.h"
#include "text.h"

/* Of the size of text: the room for words below the part, and an arrow at its longest and shortest. */
#define FOOT 3.8
#define LONG 2.0
#define SHORT 0.9

static TgRect
part_area (TgRect area, const TgDesign *design, const TgStyle *style)
{
  double foot = design->kind == TG_PART_ROD ? FOOT * style->text_size : 0;

  return (TgRect){ area.x, area.y, area.width, MAX (4, area.height - foot) };
}

/* An arrow along y from @from to @to, its head at @to. */
static void
draw_arrow (cairo_t *cr, double x, double from, double to, const TgStyle *style)
{
  double head = 0.5 * style->text_size, way = to > from ? 1 : -1;

  cairo_set_line_width (cr, 2 * style->line);
  cairo_move_to (cr, x, from);
  cairo_line_to (cr, x, to - way * head);
  cairo_stroke (cr);
  cairo_move_to (cr, x, to);
  cairo_line_to (cr, x - 0.7 * head, to - way * head);
  cairo_line_to (cr, x + 0.7 * head, to - way * head);
  cairo_close_path (cr);
  cairo_fill (cr);
}

static void
draw_end (cairo_t *cr,
          TgRect foot,
          double x,
          TgFigure end,
          double effect,
          double most,
          const TgEffectDrawing *how,
          const TgStyle *style)
{
  const char *name = tg_figure_label (TG_PART_ROD, end);
  gboolean lit = how->end == end;
  TgText text = { .font = style->font, .size = style->text_size, .bold = lit };
  TgText bold = { .font = style->font, .size = style->text_size, .bold = TRUE };
  double size = style->text_size, w, h, middle = foot.y + 1.35 * size + LONG / 2 * size, half, at;
  g_autofree char *number = tg_number_format_signed (effect, 2);
  g_autofree char *grams = g_strdup_printf ("%s g", number);

  tg_text_measure (&text, name, &w, &h);
  tg_text_draw (cr, &text, name, CLAMP (x - w / 2, foot.x, foot.x + foot.width - w), foot.y,
                lit ? style->accent : style->quiet);
  if (!how->moves)
    return;
  half = size * MAX (SHORT, LONG * fabs (effect) / MAX (most, 1e-9)) / 2;
  tg_text_measure (&bold, grams, &w, &h);
  at = x + 0.7 * size + w > foot.x + foot.width ? x - 0.7 * size - w : x + 0.7 * size;
  tg_color_set (cr, effect > 0 ? style->alert : style->accent);
  if (fabs (effect) >= 0.005)
    draw_arrow (cr, x, middle + (effect > 0 ? half : -half), middle + (effect > 0 ? -half : half),
                style);
  tg_text_draw (cr, &bold, grams, at, middle - h / 2, style->ink);
}

/* A ring round the bore whose end is meant. */
static void
draw_lit_end (
    cairo_t *cr, const TgDesign *design, const TgView *view, TgFigure end, const TgStyle *style)
{
  gboolean small = end == TG_FIGURE_SMALL_END;
  TgPoint center = tg_view_point (view, (TgPoint){ small ? design->rod.centres : 0, 0 });
  double radius = view->scale * (small ? design->rod.small_outer : design->rod.big_outer) / 2;

  cairo_new_path (cr);
  cairo_arc (cr, center.x, center.y, radius + 2 * style->line, 0, 2 * G_PI);
  cairo_set_line_width (cr, 2.5 * style->line);
  tg_color_set (cr, style->accent);
  cairo_stroke (cr);
}

void
tg_effect_drawing_draw (cairo_t *cr,
                        TgRect area,
                        const TgDesign *design,
                        const TgEffectDrawing *how,
                        const TgStyle *style)
{
  const TgPartDrawing part = { .full_g = 1, .selected = how->zone };
  TgRect above = part_area (area, design, style);
  TgRect foot = { area.x, above.y + above.height, area.width, area.height - above.height };
  double most = MAX (fabs (how->effect.small), fabs (how->effect.big));
  g_autoptr (TgPartLayout) layout = NULL;

  if (above.width < 4 || above.height < 4)
    return;
  cairo_save (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  tg_part_drawing_draw_design (cr, above, design, &part, style);
  if (design->kind == TG_PART_ROD && foot.height > 0)
    {
      TgPoint big, small;

      layout = tg_part_layout_new (above, NULL, design, &part, style);
      big = tg_view_point (&layout->view, (TgPoint){ 0, 0 });
      small = tg_view_point (&layout->view, (TgPoint){ design->rod.centres, 0 });
      if (how->end != TG_FIGURE_WHOLE)
        draw_lit_end (cr, design, &layout->view, how->end, style);
      draw_end (cr, foot, big.x, TG_FIGURE_BIG_END, how->effect.big, most, how, style);
      draw_end (cr, foot, small.x, TG_FIGURE_SMALL_END, how->effect.small, most, how, style);
    }
  cairo_restore (cr);
}

char *
tg_effect_drawing_words (const TgDesign *design, const TgEffectDrawing *how)
{
  GString *words = g_string_new (tg_part_kind_label (design->kind));

  words->str[0] = g_ascii_toupper (words->str[0]);
  if (how->zone >= 0)
    g_string_append_printf (words, ", %s lit", tg_design_zone (design, (guint) how->zone)->name);
  if (design->kind == TG_PART_ROD && how->end != TG_FIGURE_WHOLE)
    g_string_append_printf (words, ", %s lit", tg_figure_label (TG_PART_ROD, how->end));
  if (how->moves)
    {
      g_autofree char *small = tg_number_format_signed (how->effect.small, 2);
      g_autofree char *big = tg_number_format_signed (how->effect.big, 2);

      g_string_append_printf (words, "; small end %s g, big end %s g", small, big);
    }
  return g_string_free (words, FALSE);
}
