/* glossary-picture.c: a drawing with the spot of one term lit
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The picture comes from ui/draw; here are its size and the words for a screen reader.
 */
#include "glossary-picture.h"

#include "glossary-drawing.h"
#include "theme.h"
#include "words.h"

#define MIN_WIDTH 240
#define NAT_WIDTH 320
#define HEIGHT 220

struct _TgGlossaryPicture
{
  GtkWidget parent_instance;
  TgGlossarySpot spot;
};

G_DEFINE_FINAL_TYPE (TgGlossaryPicture, tg_glossary_picture, GTK_TYPE_WIDGET)

void
tg_glossary_picture_show (TgGlossaryPicture *picture, TgGlossarySpot spot)
{
  g_autofree char *words = tg_glossary_drawing_words (spot);

  g_return_if_fail (TG_IS_GLOSSARY_PICTURE (picture));

  picture->spot = spot;
  tg_words_name (GTK_WIDGET (picture), words);
  gtk_widget_set_visible (GTK_WIDGET (picture), spot != TG_SPOT_NONE);
  gtk_widget_queue_draw (GTK_WIDGET (picture));
}

TgGlossarySpot
tg_glossary_picture_spot (TgGlossaryPicture *picture)
{
  g_return_val_if_fail (TG_IS_GLOSSARY_PICTURE (picture), TG_SPOT_NONE);

  return picture->spot;
}

static void
tg_glossary_picture_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  int width = gtk_widget_get_width (widget), height = gtk_widget_get_height (widget);
  TgStyle style = tg_theme_style (widget);
  cairo_t *cr;

  cr = gtk_snapshot_append_cairo (snapshot,
                                  &GRAPHENE_RECT_INIT (0, 0, (float) width, (float) height));
  tg_glossary_drawing_draw (cr, (TgRect){ 0, 0, width, height }, TG_GLOSSARY_PICTURE (widget)->spot,
                            &style);
  cairo_destroy (cr);
}

static void
tg_glossary_picture_measure (G_GNUC_UNUSED GtkWidget *widget,
                             GtkOrientation orientation,
                             G_GNUC_UNUSED int for_size,
                             int *minimum,
                             int *natural,
                             G_GNUC_UNUSED int *minimum_baseline,
                             G_GNUC_UNUSED int *natural_baseline)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;

  *minimum = across ? MIN_WIDTH : HEIGHT;
  *natural = across ? NAT_WIDTH : HEIGHT;
}

static void
tg_glossary_picture_class_init (TgGlossaryPictureClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  widget_class->snapshot = tg_glossary_picture_snapshot;
  widget_class->measure = tg_glossary_picture_measure;
  gtk_widget_class_set_css_name (widget_class, "glossarypicture");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_glossary_picture_init (G_GNUC_UNUSED TgGlossaryPicture *self)
{
}
