/* engine-picture.c: the engine that the setup describes, drawn
 *
 * The picture comes from ui/draw, the layout from the setup; where there is none yet, nothing is drawn.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "engine-picture.h"

#include "engine-drawing.h"

/* In text sizes. */
#define HEIGHT 34
#define NO_HEIGHT 1

struct _TgEnginePicture
{
  TgReviewPicture parent_instance;
};

G_DEFINE_FINAL_TYPE (TgEnginePicture, tg_engine_picture, TG_TYPE_REVIEW_PICTURE)

/* FALSE if there is nothing to draw. */
static gboolean
describe (const TgReview *review, TgEngineLayout *layout, TgEngineDrawing *engine)
{
  const TgSetup *setup = review->setup;
  TgEngineKind kind;

  if (!tg_setup_engine_kind (setup, &kind) || !tg_setup_engine_layout (setup, layout, NULL))
    return FALSE;
  *engine = (TgEngineDrawing){ .layout = layout,
                               .name = tg_engine_kind_label (kind),
                               .order = setup->engine.order,
                               .spacing_mm = setup->engine.spacing_mm,
                               .stroke_mm = setup->engine.stroke_mm,
                               .rod_mm = tg_setup_rod_mm (setup) };
  if (kind == TG_ENGINE_FREE)
    engine->spacing_mm = 0;
  if (engine->spacing_mm > 0 && (tg_engine_kind_is_vee (kind) || kind == TG_ENGINE_BOXER))
    engine->offset_mm = setup->engine.offset_mm;
  return TRUE;
}

static void
draw (G_GNUC_UNUSED TgReviewPicture *picture,
      cairo_t *cr,
      TgRect area,
      const TgReview *review,
      const TgStyle *style)
{
  TgEngineLayout layout;
  TgEngineDrawing engine;

  if (describe (review, &layout, &engine))
    tg_engine_drawing_draw (cr, area, &engine, TG_ENGINE_DRAWING_BOTH, style);
}

static double
wanted_height (G_GNUC_UNUSED TgReviewPicture *picture, const TgReview *review)
{
  TgEngineLayout layout;
  TgEngineDrawing engine;

  return describe (review, &layout, &engine) ? HEIGHT : NO_HEIGHT;
}

static char *
words (G_GNUC_UNUSED TgReviewPicture *picture, const TgReview *review)
{
  TgEngineLayout layout;
  TgEngineDrawing engine;

  return describe (review, &layout, &engine) ? tg_engine_drawing_words (&engine)
                                             : g_strdup ("No engine to draw yet.");
}

static void
tg_engine_picture_class_init (TgEnginePictureClass *klass)
{
  TgReviewPictureClass *picture_class = TG_REVIEW_PICTURE_CLASS (klass);

  picture_class->draw = draw;
  picture_class->height = wanted_height;
  picture_class->words = words;
  gtk_widget_class_set_css_name (GTK_WIDGET_CLASS (klass), "enginepicture");
}

static void
tg_engine_picture_init (G_GNUC_UNUSED TgEnginePicture *self)
{
}

GtkWidget *
tg_engine_picture_new (void)
{
  return g_object_new (TG_TYPE_ENGINE_PICTURE, NULL);
}
