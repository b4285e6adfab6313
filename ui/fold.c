/* fold.c: children side by side where there is room, one below the other where there is none
 *
 * An arrangement is a list of groups.  Written with '|' the groups are columns, whose children stand
 * below one another; written with '/' they are rows, whose children stand beside one another.  Widths
 * are given out first, then heights for those widths.  An arrangement is only used from its stated
 * width on and if its children's least widths fit, so that large type folds earlier.
 *
 * Heights are asked for with a width; without one that of the wide arrangement is assumed.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold.h"

#define MAX_GROUPS 6
#define MAX_ITEMS 6

typedef struct
{
  char *text;
  gboolean columns;
  guint n_groups;
  guint n_items[MAX_GROUPS];
  guint items[MAX_GROUPS][MAX_ITEMS];
} Arrangement;

/* One visible child with the place it gets. */
typedef struct
{
  GtkWidget *widget;
  gboolean expand;
  int x, y, width, height;
} Place;

typedef struct
{
  guint n_items;
  gboolean hexpand, vexpand;
  int x, y, width, height;
  Place places[MAX_ITEMS];
} Group;

typedef struct
{
  gboolean columns;
  guint n_groups;
  Group groups[MAX_GROUPS];
} Layout;

struct _TgFold
{
  GtkWidget parent_instance;
  Arrangement arrangements[TG_N_FOLD_SHAPES];
  int least_width[TG_N_FOLD_SHAPES];
  int spacing, row_spacing;
  int side_width;
  char *focus_order;
  TgFoldShape shape;
  guint notify_source;
};

enum
{
  PROP_WIDE = 1,
  PROP_MIDDLE,
  PROP_NARROW,
  PROP_WIDE_WIDTH,
  PROP_MIDDLE_WIDTH,
  PROP_SPACING,
  PROP_ROW_SPACING,
  PROP_SIDE_WIDTH,
  PROP_FOCUS_ORDER,
  PROP_SHAPE,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgFold, tg_fold, GTK_TYPE_WIDGET)

static void
parse_arrangement (Arrangement *arrangement, const char *text)
{
  g_auto (GStrv) groups = NULL;

  g_free (arrangement->text);
  *arrangement = (Arrangement){ .text = g_strdup (text) };
  if (!text)
    return;
  arrangement->columns = strchr (text, '|') != NULL;
  groups = g_strsplit (text, arrangement->columns ? "|" : "/", MAX_GROUPS);
  for (guint i = 0; groups[i]; i++)
    {
      g_auto (GStrv) items = g_strsplit_set (g_strstrip (groups[i]), " ", MAX_ITEMS);

      for (guint j = 0; items[j]; j++)
        if (items[j][0])
          arrangement->items[i][arrangement->n_items[i]++] = (guint) g_ascii_strtoull (items[j],
                                                                                       NULL, 10);
      arrangement->n_groups++;
    }
}

static GtkWidget *
nth_child (TgFold *self, guint n)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  while (child && n-- > 0)
    child = gtk_widget_get_next_sibling (child);
  return child;
}

/* The visible children of @shape, without places yet; empty groups are left out. */
static void
layout_init (TgFold *self, TgFoldShape shape, Layout *layout)
{
  const Arrangement *arrangement = &self->arrangements[shape];

  *layout = (Layout){ .columns = arrangement->columns };
  for (guint i = 0; i < arrangement->n_groups; i++)
    {
      Group *group = &layout->groups[layout->n_groups];

      *group = (Group){ 0 };
      for (guint j = 0; j < arrangement->n_items[i]; j++)
        {
          GtkWidget *child = nth_child (self, arrangement->items[i][j]);
          gboolean hexpand, vexpand;

          if (!child || !gtk_widget_should_layout (child))
            continue;
          hexpand = gtk_widget_compute_expand (child, GTK_ORIENTATION_HORIZONTAL);
          vexpand = gtk_widget_compute_expand (child, GTK_ORIENTATION_VERTICAL);
          group->places[group->n_items++] = (Place){ .widget = child,
                                                     .expand = layout->columns ? vexpand
                                                                               : hexpand };
          group->hexpand |= hexpand;
          group->vexpand |= vexpand;
        }
      if (group->n_items > 0)
        layout->n_groups++;
    }
}

/* Least and natural width of a group: of its widest child, or of its children together. */
static void
measure_group_width (TgFold *self, const Layout *layout, const Group *group, int *min, int *nat)
{
  *min = *nat = 0;
  for (guint i = 0; i < group->n_items; i++)
    {
      int child_min, child_nat;

      gtk_widget_measure (group->places[i].widget, GTK_ORIENTATION_HORIZONTAL, -1, &child_min,
                          &child_nat, NULL, NULL);
      *min = layout->columns ? MAX (*min, child_min) : *min + child_min;
      *nat = layout->columns ? MAX (*nat, child_nat) : *nat + child_nat;
    }
  if (!layout->columns && group->n_items > 1)
    {
      *min += (int) (group->n_items - 1) * self->spacing;
      *nat += (int) (group->n_items - 1) * self->spacing;
    }
}

static void
measure_layout_width (TgFold *self, const Layout *layout, int *min, int *nat)
{
  *min = *nat = 0;
  for (guint i = 0; i < layout->n_groups; i++)
    {
      int group_min, group_nat;

      measure_group_width (self, layout, &layout->groups[i], &group_min, &group_nat);
      *min = layout->columns ? *min + group_min : MAX (*min, group_min);
      *nat = layout->columns ? *nat + group_nat : MAX (*nat, group_nat);
    }
  if (layout->columns && layout->n_groups > 1)
    {
      *min += (int) (layout->n_groups - 1) * self->spacing;
      *nat += (int) (layout->n_groups - 1) * self->spacing;
    }
}

static TgFoldShape
pick_shape (TgFold *self, int width)
{
  for (TgFoldShape shape = TG_FOLD_WIDE; shape < TG_FOLD_NARROW; shape++)
    {
      Layout layout;
      int min, nat;

      if (!self->arrangements[shape].text || width < self->least_width[shape])
        continue;
      layout_init (self, shape, &layout);
      measure_layout_width (self, &layout, &min, &nat);
      if (width >= min)
        return shape;
    }
  return TG_FOLD_NARROW;
}

/* Gives @pool to those that expand, equal shares as far as their least widths allow. */
static void
share_equally (int pool, guint n, GtkRequestedSize *sizes, const gboolean *expand)
{
  gboolean open[MAX_GROUPS + MAX_ITEMS];
  guint n_open = 0;
  gboolean again = TRUE;

  for (guint i = 0; i < n; i++)
    n_open += (open[i] = expand[i]) ? 1 : 0;
  /* What needs more than its share keeps that; the others share the rest. */
  while (again && n_open > 0)
    {
      again = FALSE;
      for (guint i = 0; i < n; i++)
        if (open[i] && sizes[i].minimum_size > pool / (int) n_open)
          {
            open[i] = FALSE;
            pool -= sizes[i].minimum_size;
            n_open--;
            again = TRUE;
            break;
          }
    }
  for (guint i = 0; i < n; i++)
    if (open[i])
      {
        sizes[i].minimum_size = pool / (int) n_open--;
        pool -= sizes[i].minimum_size;
      }
}

/* Gives @width to @n things: least sizes, then natural ones as far as the side width allows, then the
 * rest to those that expand. */
static void
share_out (TgFold *self, int width, guint n, GtkRequestedSize *sizes, const gboolean *expand)
{
  int rest = width;
  int pool = 0;

  for (guint i = 0; i < n; i++)
    {
      rest -= sizes[i].minimum_size;
      if (expand[i])
        {
          pool += sizes[i].minimum_size;
          sizes[i].natural_size = sizes[i].minimum_size;
        }
      else if (self->side_width > 0)
        sizes[i].natural_size = MAX (sizes[i].minimum_size,
                                     MIN (sizes[i].natural_size, self->side_width));
    }
  rest = gtk_distribute_natural_allocation (MAX (rest, 0), n, sizes);
  share_equally (pool + rest, n, sizes, expand);
}

static void
place_widths (TgFold *self, Layout *layout, int width)
{
  GtkRequestedSize sizes[MAX_GROUPS] = { 0 };
  gboolean expand[MAX_GROUPS];
  int x = 0;

  for (guint i = 0; i < layout->n_groups; i++)
    {
      measure_group_width (self, layout, &layout->groups[i], &sizes[i].minimum_size,
                           &sizes[i].natural_size);
      expand[i] = layout->groups[i].hexpand;
    }
  if (layout->columns && layout->n_groups > 0)
    share_out (self, width - (int) (layout->n_groups - 1) * self->spacing, layout->n_groups, sizes,
               expand);
  for (guint i = 0; i < layout->n_groups; i++)
    {
      Group *group = &layout->groups[i];

      group->x = x;
      group->width = layout->columns ? sizes[i].minimum_size : width;
      if (layout->columns)
        x += group->width + self->spacing;
    }
}

static void
place_item_widths (TgFold *self, const Layout *layout, Group *group)
{
  GtkRequestedSize sizes[MAX_ITEMS] = { 0 };
  gboolean expand[MAX_ITEMS];
  int x = group->x;

  for (guint i = 0; i < group->n_items; i++)
    {
      gtk_widget_measure (group->places[i].widget, GTK_ORIENTATION_HORIZONTAL, -1,
                          &sizes[i].minimum_size, &sizes[i].natural_size, NULL, NULL);
      expand[i] = group->places[i].expand;
    }
  if (!layout->columns)
    {
      /* A child that is alone in its row has the row. */
      if (group->n_items == 1)
        expand[0] = TRUE;
      share_out (self, group->width - (int) (group->n_items - 1) * self->spacing, group->n_items,
                 sizes, expand);
    }
  for (guint i = 0; i < group->n_items; i++)
    {
      Place *place = &group->places[i];

      place->x = x;
      place->width = layout->columns ? group->width : sizes[i].minimum_size;
      if (!layout->columns)
        x += place->width + self->spacing;
    }
}

/* A scrolled window that does not scroll asks for its height without a width, which is too little
 * for text that wraps: its contents are asked instead. */
static void
measure_height (GtkWidget *child, int width, int *min, int *nat)
{
  GtkPolicyType policy = GTK_POLICY_AUTOMATIC;

  if (GTK_IS_SCROLLED_WINDOW (child))
    gtk_scrolled_window_get_policy (GTK_SCROLLED_WINDOW (child), NULL, &policy);
  if (policy == GTK_POLICY_NEVER && gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (child)))
    child = gtk_scrolled_window_get_child (GTK_SCROLLED_WINDOW (child));
  gtk_widget_measure (child, GTK_ORIENTATION_VERTICAL, width, min, nat, NULL, NULL);
}

/* Heights that the children want for their widths; returns that of the whole. */
static int
measure_heights (TgFold *self, Layout *layout, gboolean natural)
{
  int total = 0;

  for (guint i = 0; i < layout->n_groups; i++)
    {
      Group *group = &layout->groups[i];

      group->height = 0;
      for (guint j = 0; j < group->n_items; j++)
        {
          Place *place = &group->places[j];
          int min, nat;

          measure_height (place->widget, place->width, &min, &nat);
          place->height = natural ? nat : min;
          group->height = layout->columns ? group->height + place->height
                                          : MAX (group->height, place->height);
        }
      if (layout->columns)
        group->height += (int) (group->n_items - 1) * self->row_spacing;
      total = layout->columns ? MAX (total, group->height) : total + group->height;
    }
  if (!layout->columns && layout->n_groups > 1)
    total += (int) (layout->n_groups - 1) * self->row_spacing;
  return total;
}

static TgFoldShape
layout_for_width (TgFold *self, int width, Layout *layout)
{
  TgFoldShape shape = pick_shape (self, width);

  layout_init (self, shape, layout);
  place_widths (self, layout, width);
  for (guint i = 0; i < layout->n_groups; i++)
    place_item_widths (self, layout, &layout->groups[i]);
  return shape;
}

static void
tg_fold_measure (GtkWidget *widget,
                 GtkOrientation orientation,
                 int for_size,
                 int *minimum,
                 int *natural,
                 G_GNUC_UNUSED int *minimum_baseline,
                 G_GNUC_UNUSED int *natural_baseline)
{
  TgFold *self = TG_FOLD (widget);
  Layout layout;
  int wide_min, wide_nat;

  layout_init (self, TG_FOLD_WIDE, &layout);
  measure_layout_width (self, &layout, &wide_min, &wide_nat);
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      int narrow_nat;

      layout_init (self, TG_FOLD_NARROW, &layout);
      measure_layout_width (self, &layout, minimum, &narrow_nat);
      *natural = MAX (*minimum, wide_nat);
      return;
    }
  /* the wide arrangement may be the taller one, if others leave something out */
  layout_for_width (self, for_size < 0 ? MAX (wide_nat, self->least_width[TG_FOLD_WIDE]) : for_size,
                    &layout);
  *minimum = measure_heights (self, &layout, FALSE);
  *natural = measure_heights (self, &layout, TRUE);
}

/* Gives the rest of @height to what expands and settles every y. */
static void
place_heights (TgFold *self, Layout *layout, int height)
{
  int rest = height - measure_heights (self, layout, FALSE);
  guint n_expand = 0;
  int y = 0;

  for (guint i = 0; i < layout->n_groups; i++)
    n_expand += layout->groups[i].vexpand ? 1 : 0;
  for (guint i = 0; i < layout->n_groups; i++)
    {
      Group *group = &layout->groups[i];

      group->y = y;
      if (layout->columns)
        group->height = height;
      else if (group->vexpand && rest > 0)
        {
          int part = rest / (int) n_expand--;

          group->height += part;
          rest -= part;
        }
      if (!layout->columns)
        y += group->height + self->row_spacing;
    }
}

/* Heights in a column: least ones, then natural ones, then the rest to those that expand. */
static void
share_column (TgFold *self, Group *group, GtkRequestedSize *sizes)
{
  int rest = group->height - (int) (group->n_items - 1) * self->row_spacing;
  guint n_expand = 0;

  for (guint i = 0; i < group->n_items; i++)
    {
      const Place *place = &group->places[i];

      measure_height (place->widget, place->width, &sizes[i].minimum_size, &sizes[i].natural_size);
      rest -= sizes[i].minimum_size;
      n_expand += place->expand ? 1 : 0;
    }
  rest = gtk_distribute_natural_allocation (MAX (rest, 0), group->n_items, sizes);
  for (guint i = 0; i < group->n_items; i++)
    if (group->places[i].expand)
      {
        int part = rest / (int) n_expand--;

        sizes[i].minimum_size += part;
        rest -= part;
      }
  if (group->n_items == 1)
    sizes[0].minimum_size = MAX (sizes[0].minimum_size, group->height);
}

static void
place_column_items (TgFold *self, Group *group)
{
  GtkRequestedSize sizes[MAX_ITEMS] = { 0 };
  int y = group->y;

  share_column (self, group, sizes);
  for (guint i = 0; i < group->n_items; i++)
    {
      group->places[i].y = y;
      group->places[i].height = sizes[i].minimum_size;
      y += sizes[i].minimum_size + self->row_spacing;
    }
}

static gboolean
notify_shape (gpointer data)
{
  TgFold *self = data;

  self->notify_source = 0;
  g_object_notify_by_pspec (G_OBJECT (self), properties[PROP_SHAPE]);
  return G_SOURCE_REMOVE;
}

/* A child that the arrangement leaves out is not shown. */
static void
show_placed (TgFold *self, const Layout *layout)
{
  GtkWidget *child = gtk_widget_get_first_child (GTK_WIDGET (self));

  for (; child; child = gtk_widget_get_next_sibling (child))
    {
      gboolean placed = FALSE;

      for (guint i = 0; i < layout->n_groups && !placed; i++)
        for (guint j = 0; j < layout->groups[i].n_items && !placed; j++)
          placed = layout->groups[i].places[j].widget == child;
      gtk_widget_set_child_visible (child, placed);
    }
}

static void
tg_fold_size_allocate (GtkWidget *widget, int width, int height, G_GNUC_UNUSED int baseline)
{
  TgFold *self = TG_FOLD (widget);
  gboolean mirror = gtk_widget_get_direction (widget) == GTK_TEXT_DIR_RTL;
  Layout layout;
  TgFoldShape shape = layout_for_width (self, width, &layout);

  place_heights (self, &layout, height);
  show_placed (self, &layout);
  for (guint i = 0; i < layout.n_groups; i++)
    {
      Group *group = &layout.groups[i];

      if (layout.columns)
        place_column_items (self, group);
      for (guint j = 0; j < group->n_items; j++)
        {
          Place *place = &group->places[j];
          GtkAllocation where = { place->x, layout.columns ? place->y : group->y, place->width,
                                  layout.columns ? place->height : group->height };

          if (mirror)
            where.x = width - where.x - where.width;
          gtk_widget_size_allocate (place->widget, &where, -1);
        }
    }
  if (shape != self->shape)
    {
      self->shape = shape;
      if (self->notify_source == 0)
        self->notify_source = g_idle_add_full (G_PRIORITY_HIGH_IDLE, notify_shape, self, NULL);
    }
}

/* The children in the order of the Tab key; a first one that has the focus is at *@at. */
static GPtrArray *
focus_chain (TgFold *self, guint *at)
{
  GPtrArray *chain = g_ptr_array_new ();
  g_auto (GStrv) order = self->focus_order ? g_strsplit (self->focus_order, " ", -1) : NULL;

  for (guint i = 0; order && order[i]; i++)
    {
      GtkWidget *child = nth_child (self, (guint) g_ascii_strtoull (order[i], NULL, 10));

      if (child)
        g_ptr_array_add (chain, child);
    }
  for (guint i = 0; !order && nth_child (self, i); i++)
    g_ptr_array_add (chain, nth_child (self, i));
  *at = chain->len;
  for (guint i = chain->len; i-- > 0;)
    if (g_ptr_array_index (chain, i) == gtk_widget_get_focus_child (GTK_WIDGET (self)))
      *at = i;
  return chain;
}

/* Tab goes in the stated order, wherever the children lie; arrows go as the toolkit has it. */
static gboolean
tg_fold_focus (GtkWidget *widget, GtkDirectionType direction)
{
  g_autoptr (GPtrArray) chain = NULL;
  gboolean forward = direction == GTK_DIR_TAB_FORWARD;
  guint at;

  if (!forward && direction != GTK_DIR_TAB_BACKWARD)
    return GTK_WIDGET_CLASS (tg_fold_parent_class)->focus (widget, direction);
  chain = focus_chain (TG_FOLD (widget), &at);
  if (at == chain->len)
    at = forward ? 0 : chain->len - 1;
  /* below the first is beyond the end: guint goes round */
  for (; at < chain->len; at += forward ? 1 : G_MAXUINT)
    {
      GtkWidget *child = g_ptr_array_index (chain, at);

      if (gtk_widget_get_mapped (child) && gtk_widget_child_focus (child, direction))
        return TRUE;
    }
  return FALSE;
}

static GtkSizeRequestMode
tg_fold_get_request_mode (G_GNUC_UNUSED GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

static void
tg_fold_dispose (GObject *object)
{
  TgFold *self = TG_FOLD (object);
  GtkWidget *child;

  g_clear_handle_id (&self->notify_source, g_source_remove);
  while ((child = gtk_widget_get_first_child (GTK_WIDGET (object))))
    gtk_widget_unparent (child);
  G_OBJECT_CLASS (tg_fold_parent_class)->dispose (object);
}

static void
tg_fold_finalize (GObject *object)
{
  TgFold *self = TG_FOLD (object);

  for (guint i = 0; i < TG_N_FOLD_SHAPES; i++)
    g_free (self->arrangements[i].text);
  g_free (self->focus_order);
  G_OBJECT_CLASS (tg_fold_parent_class)->finalize (object);
}

static void
tg_fold_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgFold *self = TG_FOLD (object);

  switch (id)
    {
    case PROP_WIDE:
    case PROP_MIDDLE:
    case PROP_NARROW:
      g_value_set_string (value, self->arrangements[id - PROP_WIDE].text);
      break;
    case PROP_WIDE_WIDTH:
    case PROP_MIDDLE_WIDTH:
      g_value_set_int (value, self->least_width[id - PROP_WIDE_WIDTH]);
      break;
    case PROP_SPACING:
      g_value_set_int (value, self->spacing);
      break;
    case PROP_ROW_SPACING:
      g_value_set_int (value, self->row_spacing);
      break;
    case PROP_SIDE_WIDTH:
      g_value_set_int (value, self->side_width);
      break;
    case PROP_FOCUS_ORDER:
      g_value_set_string (value, self->focus_order);
      break;
    case PROP_SHAPE:
      g_value_set_uint (value, self->shape);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_fold_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgFold *self = TG_FOLD (object);

  switch (id)
    {
    case PROP_WIDE:
    case PROP_MIDDLE:
    case PROP_NARROW:
      parse_arrangement (&self->arrangements[id - PROP_WIDE], g_value_get_string (value));
      break;
    case PROP_WIDE_WIDTH:
    case PROP_MIDDLE_WIDTH:
      self->least_width[id - PROP_WIDE_WIDTH] = g_value_get_int (value);
      break;
    case PROP_SPACING:
      self->spacing = g_value_get_int (value);
      break;
    case PROP_ROW_SPACING:
      self->row_spacing = g_value_get_int (value);
      break;
    case PROP_SIDE_WIDTH:
      self->side_width = g_value_get_int (value);
      break;
    case PROP_FOCUS_ORDER:
      g_free (self->focus_order);
      self->focus_order = g_value_dup_string (value);
      return;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
      return;
    }
  gtk_widget_queue_resize (GTK_WIDGET (self));
}

static void
tg_fold_class_init (TgFoldClass *klass)
{
  static const char *const texts[] = { "wide", "middle", "narrow" };
  static const char *const numbers[] = { "wide-width", "middle-width", "spacing", "row-spacing",
                                         "side-width" };
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = tg_fold_dispose;
  object_class->finalize = tg_fold_finalize;
  object_class->get_property = tg_fold_get_property;
  object_class->set_property = tg_fold_set_property;
  widget_class->measure = tg_fold_measure;
  widget_class->size_allocate = tg_fold_size_allocate;
  widget_class->focus = tg_fold_focus;
  widget_class->get_request_mode = tg_fold_get_request_mode;
  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    properties[PROP_WIDE + i] = g_param_spec_string (texts[i], NULL, NULL, NULL, flags);
  for (guint i = 0; i < G_N_ELEMENTS (numbers); i++)
    properties[PROP_WIDE_WIDTH + i] = g_param_spec_int (numbers[i], NULL, NULL, 0, G_MAXINT, 0,
                                                        flags);
  properties[PROP_FOCUS_ORDER] = g_param_spec_string ("focus-order", NULL, NULL, NULL, flags);
  properties[PROP_SHAPE] = g_param_spec_uint ("shape", NULL, NULL, 0, TG_N_FOLD_SHAPES - 1,
                                              TG_FOLD_WIDE,
                                              G_PARAM_READABLE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, properties);
}

static void
tg_fold_init (G_GNUC_UNUSED TgFold *self)
{
}

GtkWidget *
tg_fold_new (void)
{
  return g_object_new (TG_TYPE_FOLD, NULL);
}

TgFoldShape
tg_fold_shape (TgFold *fold)
{
  g_return_val_if_fail (TG_IS_FOLD (fold), TG_FOLD_WIDE);

  return fold->shape;
}
