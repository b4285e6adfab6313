/* clamp.c: keeps one child from growing wider than is good to read
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GTK 4.8 has a least width for widgets but no largest one.  This container passes the minimum of
 * its child on unchanged, so it never forces a window wider.
 */
#include "clamp.h"

struct _TgClamp
{
  GtkWidget parent_instance;
  int maximum;
};

enum
{
  PROP_0,
  PROP_MAXIMUM_WIDTH,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgClamp, tg_clamp, GTK_TYPE_WIDGET)

static GtkSizeRequestMode
tg_clamp_get_request_mode (GtkWidget *widget G_GNUC_UNUSED)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tg_clamp_measure (GtkWidget *widget,
                  GtkOrientation orientation,
                  int for_size,
                  int *minimum,
                  int *natural,
                  int *minimum_baseline G_GNUC_UNUSED,
                  int *natural_baseline G_GNUC_UNUSED)
{
  TgClamp *self = TG_CLAMP (widget);

  *minimum = *natural = 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    {
      int child_min = 0, child_nat = 0;
      int size = for_size;

      if (!gtk_widget_should_layout (child))
        continue;
      if (orientation == GTK_ORIENTATION_VERTICAL && for_size > self->maximum)
        {
          gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &child_min, NULL, NULL, NULL);
          size = MAX (self->maximum, child_min);
        }
      gtk_widget_measure (child, orientation, size, &child_min, &child_nat, NULL, NULL);
      if (orientation == GTK_ORIENTATION_HORIZONTAL)
        child_nat = MAX (child_min, MIN (child_nat, self->maximum));
      *minimum = MAX (*minimum, child_min);
      *natural = MAX (*natural, child_nat);
    }
}

static void
tg_clamp_size_allocate (GtkWidget *widget, int width, int height, int baseline)
{
  TgClamp *self = TG_CLAMP (widget);

  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkAllocation place = { 0, 0, width, height };
      int least;

      if (!gtk_widget_should_layout (child))
        continue;
      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      place.width = MIN (width, MAX (self->maximum, least));
      place.x = (width - place.width) / 2;
      gtk_widget_size_allocate (child, &place, baseline);
    }
}

static void
tg_clamp_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_MAXIMUM_WIDTH)
    g_value_set_int (value, TG_CLAMP (object)->maximum);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_clamp_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id != PROP_MAXIMUM_WIDTH)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  TG_CLAMP (object)->maximum = g_value_get_int (value);
  gtk_widget_queue_resize (GTK_WIDGET (object));
}

static void
tg_clamp_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tg_clamp_parent_class)->dispose (object);
}

static void
tg_clamp_class_init (TgClampClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = tg_clamp_get_property;
  object_class->set_property = tg_clamp_set_property;
  object_class->dispose = tg_clamp_dispose;
  widget_class->get_request_mode = tg_clamp_get_request_mode;
  widget_class->measure = tg_clamp_measure;
  widget_class->size_allocate = tg_clamp_size_allocate;
  props[PROP_MAXIMUM_WIDTH] = g_param_spec_int ("maximum-width", NULL, NULL, 1, G_MAXINT, 640,
                                                G_PARAM_READWRITE | G_PARAM_CONSTRUCT |
                                                    G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
tg_clamp_init (TgClamp *self G_GNUC_UNUSED)
{
}
