/* effect-view.c: a part with one place lit, see effect-view.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "effect-view.h"

#include "theme.h"
#include "words.h"

struct _TgEffectView
{
  GtkDrawingArea parent_instance;
  TgDesign *design;
  TgEffectDrawing how;
};

G_DEFINE_FINAL_TYPE (TgEffectView, tg_effect_view, GTK_TYPE_DRAWING_AREA)

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data G_GNUC_UNUSED)
{
  TgEffectView *self = TG_EFFECT_VIEW (area);
  TgStyle style = tg_theme_style (GTK_WIDGET (self));

  if (self->design)
    tg_effect_drawing_draw (cr, (TgRect){ 0, 0, width, height }, self->design, &self->how, &style);
}

void
tg_effect_view_show (TgEffectView *view, const TgDesign *design, const TgEffectDrawing *how)
{
  g_autofree char *words = NULL;

  g_return_if_fail (TG_IS_EFFECT_VIEW (view));

  g_clear_pointer (&view->design, tg_design_free);
  if (design)
    {
      view->design = tg_design_copy (design);
      view->how = *how;
      words = tg_effect_drawing_words (design, how);
    }
  tg_words_tell (GTK_WIDGET (view), words ? words : "");
  gtk_widget_queue_draw (GTK_WIDGET (view));
}

const TgEffectDrawing *
tg_effect_view_how (TgEffectView *view)
{
  g_return_val_if_fail (TG_IS_EFFECT_VIEW (view), NULL);

  return &view->how;
}

static void
tg_effect_view_finalize (GObject *object)
{
  g_clear_pointer (&TG_EFFECT_VIEW (object)->design, tg_design_free);
  G_OBJECT_CLASS (tg_effect_view_parent_class)->finalize (object);
}

static void
tg_effect_view_class_init (TgEffectViewClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tg_effect_view_finalize;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_effect_view_init (TgEffectView *self)
{
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self), draw, NULL, NULL);
  tg_words_name (GTK_WIDGET (self), "Drawing of what the step is about");
}
