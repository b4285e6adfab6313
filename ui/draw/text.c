/* text.c: measuring and drawing short texts, see text.h
 *
 * Hinting is off, so that a text is equally wide on screen, on paper and when it is only measured.
 * Text runs left to right; no markup.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "text.h"

#include <math.h>
#include <pango/pangocairo.h>

static PangoLayout *
new_layout (cairo_t *cr, const TgText *how, const char *text)
{
  PangoContext *context = pango_font_map_create_context (pango_cairo_font_map_get_default ());
  PangoFontDescription *font = pango_font_description_new ();
  cairo_font_options_t *options = cairo_font_options_create ();
  PangoLayout *layout;

  cairo_font_options_set_antialias (options, CAIRO_ANTIALIAS_GRAY);
  cairo_font_options_set_hint_style (options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics (options, CAIRO_HINT_METRICS_OFF);
  pango_cairo_context_set_font_options (context, options);
  cairo_font_options_destroy (options);
  pango_context_set_round_glyph_positions (context, FALSE);
  if (cr)
    pango_cairo_update_context (cr, context);

  layout = pango_layout_new (context);
  g_object_unref (context);
  pango_font_description_set_family (font, how->font);
  pango_font_description_set_absolute_size (font, how->size * PANGO_SCALE);
  if (how->bold)
    pango_font_description_set_weight (font, PANGO_WEIGHT_BOLD);
  pango_layout_set_font_description (layout, font);
  pango_font_description_free (font);
  if (how->width > 0)
    {
      pango_layout_set_width (layout, (int) (how->width * PANGO_SCALE));
      pango_layout_set_wrap (layout, PANGO_WRAP_WORD_CHAR);
      pango_layout_set_alignment (layout, how->align == TG_ALIGN_LEFT     ? PANGO_ALIGN_LEFT
                                          : how->align == TG_ALIGN_CENTER ? PANGO_ALIGN_CENTER
                                                                          : PANGO_ALIGN_RIGHT);
    }
  pango_layout_set_text (layout, text, -1);
  return layout;
}

void
tg_text_measure (const TgText *how, const char *text, double *width, double *height)
{
  PangoLayout *layout = new_layout (NULL, how, text);
  PangoRectangle logical;

  pango_layout_get_extents (layout, NULL, &logical);
  if (width)
    *width = (double) logical.width / PANGO_SCALE;
  if (height)
    *height = (double) logical.height / PANGO_SCALE;
  g_object_unref (layout);
}

void
tg_text_draw (cairo_t *cr, const TgText *how, const char *text, double x, double y, TgColor color)
{
  PangoLayout *layout = new_layout (cr, how, text);

  cairo_save (cr);
  cairo_set_source_rgb (cr, color.r, color.g, color.b);
  cairo_move_to (cr, x, y);
  pango_cairo_show_layout (cr, layout);
  cairo_new_path (cr);
  cairo_restore (cr);
  g_object_unref (layout);
}
