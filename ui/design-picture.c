/* design-picture.c: the drawing of a part design, without amounts
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A thin widget over tg_part_drawing_draw_design(): it keeps a copy of the design and takes the
 * drawing's style from the theme in force (dark ground, high contrast, size of text).
 */
#include "design-picture.h"

#include "part-drawing.h"
#include "plain-part.h"
#include "theme.h"
#include "number.h"
#include "words.h"

/* px */
#define LEAST_WIDTH 96
#define LEAST_HEIGHT 84

/* px: with less room there are no words in the drawing */
#define LABELS_WIDTH 380
#define LABELS_HEIGHT 260

struct _TgDesignPicture
{
  GtkDrawingArea parent_instance;
  TgDesign *design;
  int zone;
  gboolean labels;
};

enum
{
  PROP_0,
  PROP_LABELS,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgDesignPicture, tg_design_picture, GTK_TYPE_DRAWING_AREA)

GtkWidget *
tg_design_picture_new (gboolean labels)
{
  return g_object_new (TG_TYPE_DESIGN_PICTURE, "labels", labels, NULL);
}

static void
draw (GtkDrawingArea *area, cairo_t *cr, int width, int height, gpointer data G_GNUC_UNUSED)
{
  TgDesignPicture *self = TG_DESIGN_PICTURE (area);
  TgStyle style = tg_theme_style (GTK_WIDGET (self));
  TgPartDrawing how = { .full_g = 1, .selected = self->zone };

  how.labels = self->labels && width >= LABELS_WIDTH && height >= LABELS_HEIGHT;
  if (self->design && tg_part_kind_has_outline (self->design->kind))
    tg_part_drawing_draw_design (cr, (TgRect){ 0, 0, width, height }, self->design, &how, &style);
  else if (self->design)
    tg_plain_part_draw_in (cr, (TgRect){ 0, 0, width, height }, self->design->kind, &style);
}

/* (transfer full) */
static char *
describe_design (const TgDesign *design)
{
  gboolean rod = design->kind == TG_PART_ROD;
  g_autofree char *length = NULL;

  if (!tg_part_kind_has_outline (design->kind))
    return g_strdup (design->name);
  length = tg_number_format_short (rod ? design->rod.centres : design->piston.bore);
  return g_strdup_printf ("%s, %s %s mm", design->name, rod ? "centre distance" : "diameter",
                          length);
}

void
tg_design_picture_show (TgDesignPicture *self, const TgDesign *design, int zone)
{
  g_autofree char *describe = NULL;

  g_return_if_fail (TG_IS_DESIGN_PICTURE (self));

  g_clear_pointer (&self->design, tg_design_free);
  if (design)
    {
      self->design = tg_design_copy (design);
      describe = describe_design (design);
      tg_words_tell (GTK_WIDGET (self), describe);
    }
  tg_design_picture_select (self, zone);
}

void
tg_design_picture_select (TgDesignPicture *self, int zone)
{
  g_return_if_fail (TG_IS_DESIGN_PICTURE (self));

  self->zone = zone;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

int
tg_design_picture_get_selected (TgDesignPicture *self)
{
  g_return_val_if_fail (TG_IS_DESIGN_PICTURE (self), -1);

  return self->zone;
}

/* A picture with words wishes for room for them, but does not insist on it. */
static void
tg_design_picture_measure (GtkWidget *widget,
                           GtkOrientation orientation,
                           int for_size G_GNUC_UNUSED,
                           int *minimum,
                           int *natural,
                           int *minimum_baseline G_GNUC_UNUSED,
                           int *natural_baseline G_GNUC_UNUSED)
{
  gboolean across = orientation == GTK_ORIENTATION_HORIZONTAL;

  *minimum = across ? LEAST_WIDTH : LEAST_HEIGHT;
  *natural = across && TG_DESIGN_PICTURE (widget)->labels ? LABELS_WIDTH : *minimum;
}

static void
tg_design_picture_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LABELS)
    g_value_set_boolean (value, TG_DESIGN_PICTURE (object)->labels);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_design_picture_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_LABELS)
    TG_DESIGN_PICTURE (object)->labels = g_value_get_boolean (value);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_design_picture_finalize (GObject *object)
{
  g_clear_pointer (&TG_DESIGN_PICTURE (object)->design, tg_design_free);
  G_OBJECT_CLASS (tg_design_picture_parent_class)->finalize (object);
}

static void
tg_design_picture_class_init (TgDesignPictureClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = tg_design_picture_get_property;
  object_class->set_property = tg_design_picture_set_property;
  object_class->finalize = tg_design_picture_finalize;
  props[PROP_LABELS] = g_param_spec_boolean (
      "labels", NULL, NULL, FALSE, G_PARAM_READWRITE | G_PARAM_CONSTRUCT | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  GTK_WIDGET_CLASS (klass)->measure = tg_design_picture_measure;
  gtk_widget_class_set_accessible_role (GTK_WIDGET_CLASS (klass), GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_design_picture_init (TgDesignPicture *self)
{
  self->zone = -1;
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self), draw, NULL, NULL);
  tg_words_name (GTK_WIDGET (self), "Drawing of the part");
}
