/* columns.c: lays children out in as many equal columns as fit
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A container for cards and fields that has three columns on a wide screen and one on a narrow one.
 * Children keep their order, rows are as high as their highest child, focus moves from child to
 * child without a stop in between.  Hidden children take no place.
 */
#include "columns.h"

struct _TgColumns
{
  GtkWidget parent_instance;
  int column_width;
  int max_columns;
  int spacing;
};

enum
{
  PROP_0,
  PROP_COLUMN_WIDTH,
  PROP_MAX_COLUMNS,
  PROP_SPACING,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgColumns, tg_columns, GTK_TYPE_WIDGET)

GtkWidget *
tg_columns_new (int column_width)
{
  return g_object_new (TG_TYPE_COLUMNS, "column-width", column_width, NULL);
}

void
tg_columns_append (TgColumns *self, GtkWidget *child)
{
  g_return_if_fail (TG_IS_COLUMNS (self) && GTK_IS_WIDGET (child));

  gtk_widget_insert_before (child, GTK_WIDGET (self), NULL);
}

static GtkWidget *
next_shown (GtkWidget *child)
{
  while (child && !gtk_widget_should_layout (child))
    child = gtk_widget_get_next_sibling (child);
  return child;
}

/* Number of shown children and the largest of their least widths. */
static int
count (TgColumns *self, int *least, int *natural)
{
  int n = 0;

  *least = *natural = 0;
  for (GtkWidget *child = next_shown (gtk_widget_get_first_child (GTK_WIDGET (self))); child;
       child = next_shown (gtk_widget_get_next_sibling (child)))
    {
      int child_min, child_nat;

      gtk_widget_measure (child, GTK_ORIENTATION_HORIZONTAL, -1, &child_min, &child_nat, NULL,
                          NULL);
      *least = MAX (*least, child_min);
      *natural = MAX (*natural, child_nat);
      n++;
    }
  return n;
}

static int
columns_for (TgColumns *self, int width, int n, int least)
{
  int wanted = MAX (self->column_width, least) + self->spacing;
  int fit = (width + self->spacing) / wanted;

  if (self->max_columns > 0)
    fit = MIN (fit, self->max_columns);
  return CLAMP (fit, 1, MAX (n, 1));
}

/* Goes through the rows at @width; places the children if @place. Returns the height. */
static int
lay_out (TgColumns *self, int width, gboolean place)
{
  int least, natural;
  int n = count (self, &least, &natural);
  int columns = columns_for (self, width, n, least);
  int column = (width - (columns - 1) * self->spacing) / columns;
  gboolean rtl = gtk_widget_get_direction (GTK_WIDGET (self)) == GTK_TEXT_DIR_RTL;
  GtkWidget *child = next_shown (gtk_widget_get_first_child (GTK_WIDGET (self)));
  int y = 0;

  while (child)
    {
      GtkWidget *first = child;
      int height = 0;
      int i;

      for (i = 0; i < columns && child; i++)
        {
          int child_min;

          gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, column, &child_min, NULL, NULL,
                              NULL);
          height = MAX (height, child_min);
          child = next_shown (gtk_widget_get_next_sibling (child));
        }
      for (i = 0; place && i < columns && first != child; i++)
        {
          int at = rtl ? columns - 1 - i : i;
          GtkAllocation area = { at * (column + self->spacing), y, column, height };

          gtk_widget_size_allocate (first, &area, -1);
          first = next_shown (gtk_widget_get_next_sibling (first));
        }
      y += height + (child ? self->spacing : 0);
    }
  return y;
}

static GtkSizeRequestMode
tg_columns_get_request_mode (GtkWidget *widget G_GNUC_UNUSED)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tg_columns_measure (GtkWidget *widget,
                    GtkOrientation orientation,
                    int for_size,
                    int *minimum,
                    int *natural,
                    int *minimum_baseline G_GNUC_UNUSED,
                    int *natural_baseline G_GNUC_UNUSED)
{
  TgColumns *self = TG_COLUMNS (widget);
  int least, wish;
  int n = count (self, &least, &wish);

  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      int columns = self->max_columns > 0 ? MIN (self->max_columns, n) : n;

      *minimum = least;
      *natural = MAX (least, columns * MAX (wish, self->column_width) +
                                 MAX (columns - 1, 0) * self->spacing);
    }
  else
    *minimum = *natural = lay_out (self, for_size < 0 ? MAX (least, self->column_width) : for_size,
                                   FALSE);
}

static void
tg_columns_size_allocate (GtkWidget *widget,
                          int width,
                          int height G_GNUC_UNUSED,
                          int baseline G_GNUC_UNUSED)
{
  lay_out (TG_COLUMNS (widget), width, TRUE);
}

static int *
slot_of (TgColumns *self, guint id)
{
  switch (id)
    {
    case PROP_COLUMN_WIDTH:
      return &self->column_width;
    case PROP_MAX_COLUMNS:
      return &self->max_columns;
    case PROP_SPACING:
      return &self->spacing;
    default:
      return NULL;
    }
}

static void
tg_columns_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  int *slot = slot_of (TG_COLUMNS (object), id);

  if (slot)
    g_value_set_int (value, *slot);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_columns_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  int *slot = slot_of (TG_COLUMNS (object), id);

  if (!slot)
    {
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  *slot = g_value_get_int (value);
  gtk_widget_queue_resize (GTK_WIDGET (object));
}

static void
tg_columns_dispose (GObject *object)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tg_columns_parent_class)->dispose (object);
}

static void
tg_columns_class_init (TgColumnsClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_CONSTRUCT | G_PARAM_STATIC_STRINGS;

  object_class->get_property = tg_columns_get_property;
  object_class->set_property = tg_columns_set_property;
  object_class->dispose = tg_columns_dispose;
  widget_class->get_request_mode = tg_columns_get_request_mode;
  widget_class->measure = tg_columns_measure;
  widget_class->size_allocate = tg_columns_size_allocate;
  props[PROP_COLUMN_WIDTH] = g_param_spec_int ("column-width", NULL, NULL, 1, G_MAXINT, 160, flags);
  props[PROP_MAX_COLUMNS] = g_param_spec_int ("max-columns", NULL, NULL, 0, G_MAXINT, 0, flags);
  props[PROP_SPACING] = g_param_spec_int ("spacing", NULL, NULL, 0, G_MAXINT, 12, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
tg_columns_init (TgColumns *self G_GNUC_UNUSED)
{
}
