/* forces-picture.c: one of the plots of forces and couples
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "forces-picture.h"

/* In text sizes. */
#define HEIGHT 21

struct _TgForcesPicture
{
  TgReviewPicture parent_instance;
  gboolean shown;
  TgForcesDrawing forces;
  char *words;
};

G_DEFINE_FINAL_TYPE (TgForcesPicture, tg_forces_picture, TG_TYPE_REVIEW_PICTURE)

static void
forget (TgForcesPicture *self)
{
  for (guint l = 0; l < self->forces.n; l++)
    tg_balance_curve_free ((TgBalanceCurve *) self->forces.lines[l].curve);
  self->forces = (TgForcesDrawing){ 0 };
  self->shown = FALSE;
  g_clear_pointer (&self->words, g_free);
}

void
tg_forces_picture_show (TgForcesPicture *self, const TgForcesDrawing *forces, const char *words)
{
  g_return_if_fail (TG_IS_FORCES_PICTURE (self));

  forget (self);
  if (forces)
    {
      self->forces = *forces;
      self->shown = TRUE;
      self->words = g_strdup (words);
    }
  tg_review_picture_refresh (TG_REVIEW_PICTURE (self));
}

static void
draw (TgReviewPicture *picture,
      cairo_t *cr,
      TgRect area,
      G_GNUC_UNUSED const TgReview *review,
      const TgStyle *style)
{
  TgForcesPicture *self = TG_FORCES_PICTURE (picture);

  if (self->shown)
    tg_forces_drawing_draw (cr, area, &self->forces, style);
}

static double
wanted_height (G_GNUC_UNUSED TgReviewPicture *picture, G_GNUC_UNUSED const TgReview *review)
{
  return HEIGHT;
}

static char *
words (TgReviewPicture *picture, G_GNUC_UNUSED const TgReview *review)
{
  TgForcesPicture *self = TG_FORCES_PICTURE (picture);

  return g_strdup (self->words ? self->words : "No forces to draw yet.");
}

static void
tg_forces_picture_finalize (GObject *object)
{
  forget (TG_FORCES_PICTURE (object));
  G_OBJECT_CLASS (tg_forces_picture_parent_class)->finalize (object);
}

static void
tg_forces_picture_class_init (TgForcesPictureClass *klass)
{
  TgReviewPictureClass *picture_class = TG_REVIEW_PICTURE_CLASS (klass);

  G_OBJECT_CLASS (klass)->finalize = tg_forces_picture_finalize;
  picture_class->draw = draw;
  picture_class->height = wanted_height;
  picture_class->words = words;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "forcespicture");
}

static void
tg_forces_picture_init (G_GNUC_UNUSED TgForcesPicture *self)
{
}
