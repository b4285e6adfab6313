/* part-drawing.c: schematic rods and pistons with their zones, see part-drawing.h
 *
 * Reads the layout (part-layout.c) and strokes it.  A zone's state is told by form as well as by
 * colour: shaded with its amount, ticked, thinly outlined, hatched with strokes (never) or with
 * dots leaning the other way (with care).
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "part-drawing.h"

#include <math.h>

#include "mark.h"
#include "part-layout.h"

static double
most_g (const TgReview *review)
{
  double most = 0;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      for (guint j = 0; j < part->zones->len; j++)
        most = MAX (most, tg_part_review_zone (part, j)->amount_g);
    }
  return most;
}

double
tg_part_drawing_full_g (const TgReview *review)
{
  double step = review->setup ? tg_mass_to_g (review->setup->resolution) : 0;

  return MAX (MAX (step, 0.001), most_g (review));
}

double
tg_part_drawing_legend_g (const TgReview *review)
{
  return most_g (review) > 0 ? tg_part_drawing_full_g (review) : 0;
}

/* Of a box its shorter side, of a part of a ring about its width. */
static double
thickness (const TgShape *shape)
{
  TgRect box = tg_shape_bounds (shape);

  return MIN (MIN (box.width, box.height), tg_shape_area (shape) / MAX (box.width, box.height));
}

static void
draw_zone (cairo_t *cr, const TgPartLayout *layout, guint index, const TgStyle *style)
{
  const TgZoneLayout *zone = tg_part_layout_zone (layout, index);
  /* a bore is a hole */
  gboolean hollow = tg_design_zone (layout->design, index)->place == TG_PLACE_PIN_BORE;

  for (guint s = 0; s < zone->n; s++)
    {
      TgRect box = tg_shape_bounds (&zone->side[s]);
      double radius = zone->side[s].n == 4
                          ? MIN (2 * layout->line, 0.2 * MIN (box.width, box.height))
                          : 0;

      cairo_new_path (cr);
      tg_shape_path (cr, &zone->side[s], radius, NULL);
      switch (zone->look)
        {
        case TG_ZONE_LOOK_WORK:
          tg_mark_work (cr, zone->share, style, layout->small ? 0.6 * layout->line : layout->line);
          break;
        case TG_ZONE_LOOK_DONE:
          tg_mark_done (cr, style, layout->line);
          tg_mark_tick (cr, zone->side[s].center, 0.62 * thickness (&zone->side[s]), style,
                        layout->line);
          break;
        case TG_ZONE_LOOK_NEVER:
          tg_mark_never (cr, box, hollow ? style->ground : style->metal, style, layout->line);
          break;
        case TG_ZONE_LOOK_CARE:
          tg_mark_care (cr, box, hollow ? style->ground : style->metal, style, layout->line);
          break;
        case TG_ZONE_LOOK_READY:
        default:
          tg_mark_ready (cr, style, layout->line);
          break;
        }
    }
}

static void
draw_inside (cairo_t *cr, const TgZoneLayout *zone, const TgStyle *style)
{
  TgText head = tg_part_label_head_text (style);
  TgColor shade = tg_style_shade (style, zone->share);
  TgColor color = tg_mark_ink_on (shade);
  double w, h;

  tg_text_measure (&head, zone->inside, &w, &h);
  for (guint s = 0; s < zone->n; s++)
    tg_text_draw (cr, &head, zone->inside, zone->side[s].center.x - w / 2,
                  zone->side[s].center.y - h / 2, color);
}

static void
draw_selected (cairo_t *cr,
               const TgPartLayout *layout,
               const TgZoneLayout *zone,
               const TgStyle *style)
{
  for (guint s = 0; s < zone->n; s++)
    {
      cairo_new_path (cr);
      tg_shape_path (cr, &zone->side[s], zone->side[s].n == 4 ? 2 * layout->line : 0, NULL);
      tg_color_set (cr, style->ground);
      cairo_set_line_width (cr, 4 * layout->line);
      cairo_stroke_preserve (cr);
      tg_color_set (cr, style->accent);
      cairo_set_line_width (cr, 2.2 * layout->line);
      cairo_stroke (cr);
    }
}

static TgColor
label_color (const TgLabel *label, const TgStyle *style)
{
  return label->look == TG_ZONE_LOOK_WORK   ? style->accent
         : label->look == TG_ZONE_LOOK_DONE ? style->good
                                            : style->quiet;
}

static void
leader_path (cairo_t *cr, const TgLabel *label)
{
  cairo_move_to (cr, label->anchor.x, label->anchor.y);
  cairo_line_to (cr, label->end.x, label->end.y);
}

/* With a rim of ground, so that it stays apart from the lines it crosses. */
static void
draw_leader (cairo_t *cr, const TgLabel *label, const TgStyle *style, double line)
{
  double dot = 1.6 * line;

  tg_color_set (cr, style->ground);
  cairo_set_line_width (cr, 2.4 * line);
  leader_path (cr, label);
  cairo_stroke (cr);
  if (label->dot)
    {
      cairo_arc (cr, label->anchor.x, label->anchor.y, dot + 0.8 * line, 0, 2 * G_PI);
      cairo_fill (cr);
    }
  tg_color_set (cr, label_color (label, style));
  cairo_set_line_width (cr, 0.7 * line);
  leader_path (cr, label);
  cairo_stroke (cr);
  if (label->dot)
    {
      cairo_arc (cr, label->anchor.x, label->anchor.y, dot, 0, 2 * G_PI);
      cairo_fill (cr);
    }
}

static void
draw_label (cairo_t *cr, const TgLabel *label, const TgStyle *style)
{
  TgText head = tg_part_label_head_text (style);
  TgText line = tg_part_label_line_text (style, label->rect.width, label->align);

  head.width = label->rect.width;
  head.align = label->align;
  if (label->head)
    tg_text_draw (cr, &head, label->head, label->rect.x, label->rect.y, style->accent);
  if (label->line)
    {
      g_autofree char *words = label->reason
                                   ? g_strdup_printf ("%s: %s", label->line, label->reason)
                                   : g_strdup (label->line);
      tg_text_draw (cr, &line, words, label->rect.x, label->rect.y + label->head_height,
                    label->look == TG_ZONE_LOOK_WORK ? style->ink : label_color (label, style));
    }
}

static void
arrow (cairo_t *cr, TgPoint tip, TgPoint from, double size)
{
  double angle = atan2 (from.y - tip.y, from.x - tip.x);

  for (int side = -1; side <= 1; side += 2)
    {
      cairo_move_to (cr, tip.x, tip.y);
      cairo_line_to (cr, tip.x + size * cos (angle + side * 0.28),
                     tip.y + size * sin (angle + side * 0.28));
    }
}

/* Extension lines stop before words that lie in their way. */
static void
draw_dimension (cairo_t *cr, const TgPartLayout *layout, TgRect area, const TgStyle *style)
{
  const TgDimension *d = &layout->dimension;
  TgText text = tg_part_label_line_text (style, 0, TG_ALIGN_LEFT);
  double air = 0.35 * style->text_size;

  cairo_save (cr);
  cairo_set_fill_rule (cr, CAIRO_FILL_RULE_EVEN_ODD);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  for (guint i = 0; i < layout->labels->len; i++)
    {
      TgRect r = tg_part_layout_label (layout, i)->rect;

      cairo_rectangle (cr, r.x - air, r.y, r.width + 2 * air, r.height);
    }
  cairo_clip (cr);
  tg_color_set (cr, style->quiet);
  cairo_set_line_width (cr, 0.5 * layout->line);
  for (guint i = 0; i < 2; i++)
    {
      double past = 0.35 * style->text_size;
      TgPoint to = d->to[i];

      *(d->upright ? &to.x : &to.y) += past;
      cairo_move_to (cr, d->from[i].x, d->from[i].y);
      cairo_line_to (cr, to.x, to.y);
      arrow (cr, d->to[i], d->to[1 - i], 0.7 * style->text_size);
    }
  cairo_move_to (cr, d->to[0].x, d->to[0].y);
  cairo_line_to (cr, d->to[1].x, d->to[1].y);
  cairo_stroke (cr);
  cairo_restore (cr);

  cairo_save (cr);
  if (d->upright)
    {
      cairo_translate (cr, d->rect.x, d->rect.y + d->rect.height);
      cairo_rotate (cr, -G_PI_2);
      tg_text_draw (cr, &text, d->text, 0, 0, style->quiet);
    }
  else
    tg_text_draw (cr, &text, d->text, d->rect.x, d->rect.y, style->quiet);
  cairo_restore (cr);
}

/* A small cross in each bore of a rod. */
static void
draw_centers (cairo_t *cr, const TgPartLayout *layout, const TgStyle *style)
{
  const TgRodDims *rod = &layout->design->rod;
  const TgPoint mm[] = { { 0, 0 }, { rod->centres, 0 } };
  const double bore[] = { rod->big_bore, rod->small_bore };

  tg_color_set (cr, style->quiet);
  cairo_set_line_width (cr, 0.5 * layout->line);
  for (guint i = 0; i < 2; i++)
    {
      TgPoint at = tg_view_point (&layout->view, mm[i]);
      double arm = MIN (0.25 * bore[i] * layout->view.scale, 0.8 * style->text_size);

      cairo_move_to (cr, at.x - arm, at.y);
      cairo_line_to (cr, at.x + arm, at.y);
      cairo_move_to (cr, at.x, at.y - arm);
      cairo_line_to (cr, at.x, at.y + arm);
    }
  cairo_stroke (cr);
}

static void
draw_layout (cairo_t *cr,
             TgRect area,
             const TgPartLayout *layout,
             const TgPartDrawing *how,
             const TgStyle *style)
{
  cairo_save (cr);
  cairo_new_path (cr);
  cairo_rectangle (cr, area.x, area.y, area.width, area.height);
  cairo_clip (cr);
  cairo_set_line_join (cr, CAIRO_LINE_JOIN_ROUND);
  cairo_set_line_cap (cr, CAIRO_LINE_CAP_BUTT);
  cairo_set_dash (cr, NULL, 0, 0);
  tg_outline_draw (cr, layout->design, &layout->view, style, layout->line);
  if (how->labels && layout->design->kind == TG_PART_ROD)
    draw_centers (cr, layout, style);
  if (layout->dimension.shown)
    draw_dimension (cr, layout, area, style);
  for (guint i = 0; i < layout->zones->len; i++)
    if (!layout->small || tg_part_layout_zone (layout, i)->look == TG_ZONE_LOOK_WORK)
      draw_zone (cr, layout, i, style);
  tg_outline_draw_over (cr, layout->design, &layout->view, style, layout->line);
  if (how->selected >= 0 && (guint) how->selected < layout->zones->len)
    draw_selected (cr, layout, tg_part_layout_zone (layout, (guint) how->selected), style);
  for (guint i = 0; i < layout->labels->len; i++)
    {
      const TgLabel *label = tg_part_layout_label (layout, i);

      if (label->head || label->line)
        draw_leader (cr, label, style, layout->line);
    }
  for (guint i = 0; i < layout->zones->len; i++)
    if (tg_part_layout_zone (layout, i)->inside)
      draw_inside (cr, tg_part_layout_zone (layout, i), style);
  for (guint i = 0; i < layout->labels->len; i++)
    draw_label (cr, tg_part_layout_label (layout, i), style);
  cairo_restore (cr);
}

void
tg_part_drawing_draw (cairo_t *cr,
                      TgRect area,
                      const TgPartReview *part,
                      const TgPartDrawing *how,
                      const TgStyle *style)
{
  g_return_if_fail (how->full_g > 0);

  if (area.width >= 4 && area.height >= 4)
    {
      g_autoptr (TgPartLayout) layout = tg_part_layout_new (area, part, NULL, how, style);

      draw_layout (cr, area, layout, how, style);
    }
}

void
tg_part_drawing_draw_design (cairo_t *cr,
                             TgRect area,
                             const TgDesign *design,
                             const TgPartDrawing *how,
                             const TgStyle *style)
{
  if (area.width >= 4 && area.height >= 4)
    {
      g_autoptr (TgPartLayout) layout = tg_part_layout_new (area, NULL, design, how, style);

      draw_layout (cr, area, layout, how, style);
    }
}

int
tg_part_drawing_zone_at (TgRect area,
                         const TgPartReview *part,
                         const TgPartDrawing *how,
                         const TgStyle *style,
                         double x,
                         double y)
{
  g_autoptr (TgPartLayout) layout = NULL;

  if (area.width < 4 || area.height < 4)
    return -1;
  layout = tg_part_layout_new (area, part, NULL, how, style);
  return tg_part_layout_zone_at (layout, x, y);
}
