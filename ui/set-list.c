/* set-list.c: all parts in work at a glance, each as its own small shaded outline
 *
 * One row for each bore with its rod and its piston, or, as a strip, one column.  Spares, and what is
 * only weighed, are not here.  The part in work is
 * framed.  Up and Down (in the strip Left and Right) go from bore to bore, the other two between the
 * parts of a bore.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "set-list.h"

#include "part-drawing.h"
#include "part-view.h"
#include "theme.h"
#include "words.h"

/* A longer state goes over two lines. */
#define LABEL_CHARS 10

/* One part's button. */
typedef struct
{
  GtkWidget *button;
  GtkWidget *view;
  GtkWidget *label;
  guint part;
  TgPartKind kind;
  guint bore;
} Item;

struct _TgSetList
{
  GtkBox parent_instance;
  TgSession *session;
  gulong changed;
  gulong part_changed;
  gboolean strip;
  gboolean updating;
  GArray *items;     /* Item */
  GPtrArray *labels; /* bore numbers, from bore 1 */
  GtkWidget *scroller;
  GtkWidget *grid;
  GtkWidget *legend;
};

enum
{
  PROP_SESSION = 1,
  PROP_STRIP,
  N_PROPS
};

enum
{
  SIGNAL_CHOSEN,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgSetList, tg_set_list, GTK_TYPE_BOX)

static Item *
item_at (TgSetList *self, guint index)
{
  return &g_array_index (self->items, Item, index);
}

/* The item of a part, or -1. */
static int
find_part (TgSetList *self, guint part)
{
  for (guint i = 0; i < self->items->len; i++)
    if (item_at (self, i)->part == part)
      return (int) i;
  return -1;
}

/* --- places ---------------------------------------------------------------------------------- */

static void
place (TgSetList *self, GtkWidget *child, guint bore, guint lane)
{
  GtkLayoutManager *layout = gtk_widget_get_layout_manager (self->grid);
  GtkGridLayoutChild *where = GTK_GRID_LAYOUT_CHILD (
      gtk_layout_manager_get_layout_child (layout, child));

  gtk_grid_layout_child_set_row (where, (int) (self->strip ? lane : bore));
  gtk_grid_layout_child_set_column (where, (int) (self->strip ? bore : lane));
}

static void
arrange (TgSetList *self)
{
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (self->scroller),
                                  self->strip ? GTK_POLICY_AUTOMATIC : GTK_POLICY_NEVER,
                                  self->strip ? GTK_POLICY_NEVER : GTK_POLICY_AUTOMATIC);
  gtk_widget_set_visible (self->legend, !self->strip);
  for (guint i = 0; i < self->labels->len; i++)
    place (self, g_ptr_array_index (self->labels, i), i, 0);
  for (guint i = 0; i < self->items->len; i++)
    {
      Item *item = item_at (self, i);

      place (self, item->button, item->bore - 1, item->kind == TG_PART_ROD ? 1 : 2);
    }
}

/* --- contents -------------------------------------------------------------------------------- */

static void
refresh_item (TgSetList *self, Item *item)
{
  const TgReview *review = tg_session_review (self->session);
  const TgPartReview *part = tg_review_part (review, item->part);
  g_autofree char *text = NULL;
  g_autofree char *name = NULL;
  g_autofree char *weights = tg_words_weights (review, item->part);
  g_autofree char *tooltip = g_strdup_printf ("%s%s%s", part->part->name, weights[0] ? ": " : "",
                                              weights);
  gboolean grams = part->state == TG_STATE_TO_GRIND;

  if (grams)
    {
      g_autofree char *amount = tg_review_grams (review, part->to_come_off_g);

      text = g_strconcat (amount, " g", NULL);
      name = g_strdup_printf ("%s, %s to come off", part->part->name, text);
    }
  else
    {
      text = g_strdup (part->frozen && part->state != TG_STATE_EVEN ? "frozen"
                                                                    : tg_part_review_label (part));
      name = g_strdup_printf ("%s, %s", part->part->name, text);
    }
  tg_words_show (GTK_LABEL (item->label), text);
  if (grams)
    gtk_widget_add_css_class (item->label, "amount");
  else
    gtk_widget_remove_css_class (item->label, "amount");
  tg_words_name (item->button, name);
  gtk_widget_set_tooltip_text (item->button, tooltip);
  tg_words_tell (item->button, weights);
}

static void
scroll_to (TgSetList *self, GtkWidget *button)
{
  GtkScrolledWindow *scroller = GTK_SCROLLED_WINDOW (self->scroller);
  graphene_rect_t where;

  if (!gtk_widget_compute_bounds (button, self->grid, &where))
    return;
  gtk_adjustment_clamp_page (gtk_scrolled_window_get_hadjustment (scroller),
                             (double) where.origin.x, (double) (where.origin.x + where.size.width));
  gtk_adjustment_clamp_page (gtk_scrolled_window_get_vadjustment (scroller),
                             (double) where.origin.y,
                             (double) (where.origin.y + where.size.height));
}

static void
show_part (TgSetList *self)
{
  int at = find_part (self, tg_session_part (self->session));

  if (at < 0)
    return;
  self->updating = TRUE;
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (item_at (self, (guint) at)->button), TRUE);
  self->updating = FALSE;
  scroll_to (self, item_at (self, (guint) at)->button);
}

static void
on_toggled (GtkToggleButton *button, TgSetList *self)
{
  if (self->updating || !gtk_toggle_button_get_active (button))
    return;
  for (guint i = 0; i < self->items->len; i++)
    if (item_at (self, i)->button == GTK_WIDGET (button))
      tg_session_set_part (self->session, item_at (self, i)->part);
}

static void
on_clicked (G_GNUC_UNUSED GtkButton *button, TgSetList *self)
{
  if (!self->updating)
    g_signal_emit (self, signals[SIGNAL_CHOSEN], 0);
}

static void
add_item (TgSetList *self, const TgPart *part, guint index)
{
  Item item = { .button = gtk_toggle_button_new (),
                .view = tg_part_view_new (TRUE),
                .label = gtk_label_new (NULL),
                .part = index,
                .kind = part->design->kind,
                .bore = part->bore };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  tg_part_view_set_part (TG_PART_VIEW (item.view), index);
  tg_part_view_set_session (TG_PART_VIEW (item.view), self->session);
  gtk_label_set_wrap (GTK_LABEL (item.label), TRUE);
  gtk_label_set_justify (GTK_LABEL (item.label), GTK_JUSTIFY_CENTER);
  gtk_label_set_max_width_chars (GTK_LABEL (item.label), LABEL_CHARS);
  gtk_widget_add_css_class (item.label, "small");
  gtk_widget_add_css_class (item.label, "figures");
  gtk_widget_add_css_class (item.button, "flat");
  gtk_widget_add_css_class (item.button, "part");
  gtk_box_append (GTK_BOX (box), item.view);
  gtk_box_append (GTK_BOX (box), item.label);
  gtk_button_set_child (GTK_BUTTON (item.button), box);
  if (self->items->len > 0)
    gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (item.button),
                                 GTK_TOGGLE_BUTTON (item_at (self, 0)->button));
  gtk_grid_attach (GTK_GRID (self->grid), item.button, 0, 0, 1, 1);
  g_signal_connect (item.button, "toggled", G_CALLBACK (on_toggled), self);
  g_signal_connect (item.button, "clicked", G_CALLBACK (on_clicked), self);
  g_array_append_val (self->items, item);
}

static void
clear (TgSetList *self)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->grid)))
    gtk_grid_remove (GTK_GRID (self->grid), child);
  g_array_set_size (self->items, 0);
  g_ptr_array_set_size (self->labels, 0);
}

static void
fill (TgSetList *self)
{
  const TgReview *review = tg_session_review (self->session);
  const TgSetup *setup = review->setup;

  for (guint bore = 1; bore <= setup->cylinders; bore++)
    {
      g_autofree char *text = g_strdup_printf ("%u", bore);
      GtkWidget *label = gtk_label_new (text);

      gtk_widget_add_css_class (label, "bore");
      gtk_grid_attach (GTK_GRID (self->grid), label, 0, 0, 1, 1);
      g_ptr_array_add (self->labels, label);
    }
  for (guint i = 0; i < setup->parts->len; i++)
    if (tg_review_part (review, i)->in_work)
      add_item (self, tg_setup_part (setup, i), i);
  arrange (self);
}

/* Every part in work is shown at its bore. */
static gboolean
is_filled (TgSetList *self)
{
  const TgReview *review = tg_session_review (self->session);
  guint n = 0;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      int at = part->in_work ? find_part (self, i) : -1;

      if (part->in_work && (at < 0 || item_at (self, (guint) at)->bore != part->part->bore))
        return FALSE;
      n += part->in_work;
    }
  return n == self->items->len;
}

/* A pairing may have moved parts, and spares may have come in. */
static void
refresh (TgSetList *self)
{
  if (!is_filled (self))
    {
      clear (self);
      fill (self);
      show_part (self);
    }
  for (guint i = 0; i < self->items->len; i++)
    refresh_item (self, item_at (self, i));
  gtk_widget_queue_draw (self->legend);
}

/* --- keys and legend ------------------------------------------------------------------------- */

/* The part @by bores away, or the other part of the same bore. */
static int
find_item (TgSetList *self, guint from, int by, gboolean other)
{
  const Item *item = item_at (self, from);

  for (guint i = 0; i < self->items->len; i++)
    {
      const Item *candidate = item_at (self, i);

      if ((candidate->kind == item->kind) != other &&
          (int) candidate->bore == (int) item->bore + by)
        return (int) i;
    }
  return -1;
}

static gboolean
on_key (G_GNUC_UNUSED GtkEventControllerKey *key,
        guint keyval,
        G_GNUC_UNUSED guint keycode,
        GdkModifierType state,
        TgSetList *self)
{
  gboolean along_next = keyval == (self->strip ? GDK_KEY_Right : GDK_KEY_Down);
  gboolean along_last = keyval == (self->strip ? GDK_KEY_Left : GDK_KEY_Up);
  int from = self->session ? find_part (self, tg_session_part (self->session)) : -1;
  gboolean across = self->strip ? keyval == GDK_KEY_Up || keyval == GDK_KEY_Down
                                : keyval == GDK_KEY_Left || keyval == GDK_KEY_Right;
  int to;

  if (from < 0 || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)) ||
      !(along_next || along_last || across))
    return FALSE;
  to = find_item (self, (guint) from, across ? 0 : along_next ? 1 : -1, across);
  if (to < 0)
    return TRUE;
  tg_session_set_part (self->session, item_at (self, (guint) to)->part);
  gtk_widget_grab_focus (item_at (self, (guint) to)->button);
  return TRUE;
}

static void
draw_legend (GtkDrawingArea *legend, cairo_t *cr, int width, int height, gpointer data)
{
  TgSetList *self = data;
  TgStyle style = tg_theme_style (GTK_WIDGET (legend));
  const TgReview *review;

  if (!self->session)
    return;
  review = tg_session_review (self->session);
  style.text_size *= 0.85;
  tg_part_drawing_draw_legend (cr, (TgRect){ 0, 0, width, height },
                               tg_part_drawing_legend_g (review),
                               tg_mass_decimals (review->setup->resolution), &style);
}

/* The legend is as tall as the person's type needs it. */
static void
on_legend_map (GtkWidget *legend, G_GNUC_UNUSED gpointer data)
{
  gtk_drawing_area_set_content_height (GTK_DRAWING_AREA (legend),
                                       (int) (8 * tg_theme_style (legend).text_size));
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_set_list_dispose (GObject *object)
{
  tg_set_list_set_session (TG_SET_LIST (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_SET_LIST);
  G_OBJECT_CLASS (tg_set_list_parent_class)->dispose (object);
}

static void
tg_set_list_finalize (GObject *object)
{
  TgSetList *self = TG_SET_LIST (object);

  g_array_unref (self->items);
  g_ptr_array_unref (self->labels);
  G_OBJECT_CLASS (tg_set_list_parent_class)->finalize (object);
}

static void
tg_set_list_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgSetList *self = TG_SET_LIST (object);

  if (id == PROP_SESSION)
    g_value_set_object (value, self->session);
  else if (id == PROP_STRIP)
    g_value_set_boolean (value, self->strip);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_set_list_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgSetList *self = TG_SET_LIST (object);

  if (id == PROP_SESSION)
    tg_set_list_set_session (self, g_value_get_object (value));
  else if (id == PROP_STRIP)
    tg_set_list_set_strip (self, g_value_get_boolean (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_set_list_class_init (TgSetListClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);
  GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  object_class->dispose = tg_set_list_dispose;
  object_class->finalize = tg_set_list_finalize;
  object_class->get_property = tg_set_list_get_property;
  object_class->set_property = tg_set_list_set_property;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION, flags);
  properties[PROP_STRIP] = g_param_spec_boolean ("strip", NULL, NULL, FALSE, flags);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_CHOSEN] = g_signal_new ("chosen", TG_TYPE_SET_LIST, G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/set-list.ui");
  gtk_widget_class_bind_template_child (widget_class, TgSetList, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgSetList, grid);
  gtk_widget_class_bind_template_child (widget_class, TgSetList, legend);
}

static void
tg_set_list_init (TgSetList *self)
{
  GtkEventController *key = gtk_event_controller_key_new ();

  self->items = g_array_new (FALSE, TRUE, sizeof (Item));
  self->labels = g_ptr_array_new ();
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_drawing_area_set_draw_func (GTK_DRAWING_AREA (self->legend), draw_legend, self, NULL);
  g_signal_connect (self->legend, "map", G_CALLBACK (on_legend_map), NULL);
  gtk_event_controller_set_propagation_phase (key, GTK_PHASE_CAPTURE);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (self->grid, key);
}

GtkWidget *
tg_set_list_new (void)
{
  return g_object_new (TG_TYPE_SET_LIST, NULL);
}

void
tg_set_list_set_session (TgSetList *list, TgSession *session)
{
  g_return_if_fail (TG_IS_SET_LIST (list));

  if (list->session == session)
    return;
  if (list->session)
    {
      g_clear_signal_handler (&list->changed, list->session);
      g_clear_signal_handler (&list->part_changed, list->session);
      clear (list);
    }
  g_set_object (&list->session, session);
  if (!session)
    return;
  list->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), list);
  list->part_changed = g_signal_connect_swapped (session, "notify::part", G_CALLBACK (show_part),
                                                 list);
  refresh (list);
  show_part (list);
}

void
tg_set_list_set_strip (TgSetList *list, gboolean strip)
{
  g_return_if_fail (TG_IS_SET_LIST (list));

  if (list->strip == strip)
    return;
  list->strip = strip;
  arrange (list);
}

void
tg_set_list_focus (TgSetList *list)
{
  int at;

  g_return_if_fail (TG_IS_SET_LIST (list));

  at = list->session ? find_part (list, tg_session_part (list->session)) : -1;
  if (at >= 0)
    gtk_widget_grab_focus (item_at (list, (guint) at)->button);
}
