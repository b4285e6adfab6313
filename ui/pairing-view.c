/* pairing-view.c: the bars of a pairing, one of which is picked
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The picture comes from ui/draw; here are its size, the pointer, the keys and the words for a screen
 * reader: the picked bore is the name, all of them are the description.
 */
#include "pairing-view.h"

#include <math.h>

#include "theme.h"
#include "words.h"

#define MIN_WIDTH 300
#define NAT_WIDTH 720

struct _TgPairingView
{
  GtkWidget parent_instance;
  TgPairingBars *bars;
  guint row;
  guint stay_source;
  double stay_at;
};

enum
{
  PROP_ROW = 1,
  N_PROPS
};

enum
{
  SIGNAL_PICKED,
  SIGNAL_ENTERED,
  N_SIGNALS
};

static GParamSpec *properties[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgPairingView, tg_pairing_view, GTK_TYPE_WIDGET)

static TgRect
area (TgPairingView *self)
{
  return (TgRect){ 0, 0, gtk_widget_get_width (GTK_WIDGET (self)),
                   gtk_widget_get_height (GTK_WIDGET (self)) };
}

static void
tg_pairing_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgPairingView *self = TG_PAIRING_VIEW (widget);
  TgRect rect = area (self);
  TgStyle style;
  cairo_t *cr;

  if (!self->bars || rect.width < 4 || rect.height < 4)
    return;
  style = tg_theme_style (widget);
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, 0, (float) rect.width, (float) rect.height));
  tg_pairing_drawing_draw (cr, rect, &self->bars->picture, &style);
  cairo_destroy (cr);
}

static void
tg_pairing_view_measure (GtkWidget *widget,
                         GtkOrientation orientation,
                         int for_size,
                         int *minimum,
                         int *natural,
                         G_GNUC_UNUSED int *minimum_baseline,
                         G_GNUC_UNUSED int *natural_baseline)
{
  TgPairingView *self = TG_PAIRING_VIEW (widget);
  TgStyle style;

  *minimum = MIN_WIDTH;
  *natural = NAT_WIDTH;
  if (orientation == GTK_ORIENTATION_HORIZONTAL)
    return;
  *minimum = *natural = 0;
  if (!self->bars)
    return;
  style = tg_theme_style (widget);
  *minimum = *natural = (int) ceil (tg_pairing_drawing_height (for_size < 0 ? MIN_WIDTH : for_size,
                                                               &self->bars->picture, &style));
}

static GtkSizeRequestMode
tg_pairing_view_get_request_mode (G_GNUC_UNUSED GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

/* What is picked is drawn and said. */
static void
mark (TgPairingView *self)
{
  g_autofree char *all = NULL;
  g_autofree char *one = NULL;

  if (!self->bars)
    return;
  for (guint i = 0; i < self->bars->picture.n_bars; i++)
    self->bars->bars[i].selected = i == self->row;
  one = tg_pairing_drawing_describe_bar (&self->bars->picture, self->row);
  all = tg_pairing_drawing_describe (&self->bars->picture);
  tg_words_name (GTK_WIDGET (self), one);
  tg_words_tell (GTK_WIDGET (self), all);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- pointer and keys ------------------------------------------------------------------------ */

/* What scrolls it: the page or only its column, whichever is shorter than what it shows. */
static GtkWidget *
scrolling (TgPairingView *self)
{
  for (GtkWidget *up = gtk_widget_get_parent (GTK_WIDGET (self)); up;
       up = gtk_widget_get_parent (up))
    if (GTK_IS_VIEWPORT (up))
      {
        GtkAdjustment *adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (up));

        if (gtk_adjustment_get_upper (adjustment) > gtk_adjustment_get_page_size (adjustment))
          return up;
      }
  return NULL;
}

/* The picture may be higher than the window. */
static void
scroll_to_row (TgPairingView *self)
{
  GtkWidget *viewport = scrolling (self);
  TgStyle style = tg_theme_style (GTK_WIDGET (self));
  TgRect row = tg_pairing_drawing_row (area (self), &self->bars->picture, &style, self->row);
  GtkAdjustment *adjustment;
  double x, y;

  if (!viewport ||
      !gtk_widget_translate_coordinates (GTK_WIDGET (self), viewport, 0, row.y, &x, &y))
    return;
  adjustment = gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (viewport));
  y += gtk_adjustment_get_value (adjustment);
  gtk_adjustment_clamp_page (adjustment, y, y + row.height);
}

static gboolean
stay (gpointer data)
{
  TgPairingView *self = data;
  GtkWidget *viewport = scrolling (self);

  self->stay_source = 0;
  if (!self->bars || !viewport)
    return G_SOURCE_REMOVE;
  gtk_adjustment_set_value (gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (viewport)),
                            self->stay_at);
  scroll_to_row (self);
  return G_SOURCE_REMOVE;
}

/* A viewport scrolls to the top of what gets the focus, away from the row that is picked. */
static void
on_focus (TgPairingView *self)
{
  GtkWidget *viewport = scrolling (self);

  if (!viewport)
    return;
  self->stay_at = gtk_adjustment_get_value (
      gtk_scrollable_get_vadjustment (GTK_SCROLLABLE (viewport)));
  if (self->stay_source == 0)
    self->stay_source = g_idle_add_full (G_PRIORITY_HIGH, stay, self, NULL);
}

static void
on_pressed (G_GNUC_UNUSED GtkGestureClick *click,
            G_GNUC_UNUSED int n_press,
            G_GNUC_UNUSED double x,
            double y,
            TgPairingView *self)
{
  TgStyle style = tg_theme_style (GTK_WIDGET (self));
  int row = self->bars ? tg_pairing_drawing_row_at (area (self), &self->bars->picture, &style, y)
                       : -1;

  gtk_widget_grab_focus (GTK_WIDGET (self));
  if (row < 0)
    return;
  tg_pairing_view_set_row (self, (guint) row);
  g_signal_emit (self, signals[SIGNAL_PICKED], 0);
}

static gboolean
on_key (G_GNUC_UNUSED GtkEventControllerKey *key,
        guint keyval,
        G_GNUC_UNUSED guint keycode,
        GdkModifierType state,
        TgPairingView *self)
{
  guint last = self->bars ? self->bars->picture.n_bars - 1 : 0;

  if (!self->bars || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)))
    return FALSE;
  if (keyval == GDK_KEY_Down && self->row < last)
    tg_pairing_view_set_row (self, self->row + 1);
  else if (keyval == GDK_KEY_Up && self->row > 0)
    tg_pairing_view_set_row (self, self->row - 1);
  else if (keyval == GDK_KEY_Home)
    tg_pairing_view_set_row (self, 0);
  else if (keyval == GDK_KEY_End)
    tg_pairing_view_set_row (self, last);
  else if (keyval == GDK_KEY_Return || keyval == GDK_KEY_KP_Enter)
    g_signal_emit (self, signals[SIGNAL_ENTERED], 0);
  else
    return FALSE;
  scroll_to_row (self);
  return TRUE;
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_pairing_view_dispose (GObject *object)
{
  g_clear_handle_id (&TG_PAIRING_VIEW (object)->stay_source, g_source_remove);
  G_OBJECT_CLASS (tg_pairing_view_parent_class)->dispose (object);
}

static void
tg_pairing_view_finalize (GObject *object)
{
  g_clear_pointer (&TG_PAIRING_VIEW (object)->bars, tg_pairing_bars_free);
  G_OBJECT_CLASS (tg_pairing_view_parent_class)->finalize (object);
}

static void
tg_pairing_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_ROW)
    g_value_set_uint (value, TG_PAIRING_VIEW (object)->row);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_pairing_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_ROW)
    tg_pairing_view_set_row (TG_PAIRING_VIEW (object), g_value_get_uint (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_pairing_view_class_init (TgPairingViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_pairing_view_dispose;
  object_class->finalize = tg_pairing_view_finalize;
  object_class->get_property = tg_pairing_view_get_property;
  object_class->set_property = tg_pairing_view_set_property;
  widget_class->snapshot = tg_pairing_view_snapshot;
  widget_class->measure = tg_pairing_view_measure;
  widget_class->get_request_mode = tg_pairing_view_get_request_mode;
  properties[PROP_ROW] = g_param_spec_uint ("row", NULL, NULL, 0, G_MAXUINT, 0,
                                            G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS |
                                                G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  signals[SIGNAL_PICKED] = g_signal_new ("picked", TG_TYPE_PAIRING_VIEW, G_SIGNAL_RUN_LAST, 0, NULL,
                                         NULL, NULL, G_TYPE_NONE, 0);
  signals[SIGNAL_ENTERED] = g_signal_new ("entered", TG_TYPE_PAIRING_VIEW, G_SIGNAL_RUN_LAST, 0,
                                          NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_css_name (widget_class, "pairingview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_pairing_view_init (TgPairingView *self)
{
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkEventController *focus = gtk_event_controller_focus_new ();
  GtkGesture *click = gtk_gesture_click_new ();

  g_signal_connect_swapped (focus, "enter", G_CALLBACK (on_focus), self);
  gtk_widget_add_controller (GTK_WIDGET (self), focus);
  g_signal_connect (click, "pressed", G_CALLBACK (on_pressed), self);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (GTK_WIDGET (self), key);
  gtk_widget_add_controller (GTK_WIDGET (self), GTK_EVENT_CONTROLLER (click));
  gtk_widget_set_focusable (GTK_WIDGET (self), TRUE);
}

GtkWidget *
tg_pairing_view_new (void)
{
  return g_object_new (TG_TYPE_PAIRING_VIEW, NULL);
}

void
tg_pairing_view_show (TgPairingView *view, TgPairingBars *bars)
{
  g_return_if_fail (TG_IS_PAIRING_VIEW (view));

  g_clear_pointer (&view->bars, tg_pairing_bars_free);
  view->bars = bars;
  if (bars && view->row >= bars->picture.n_bars)
    tg_pairing_view_set_row (view, 0);
  mark (view);
  gtk_widget_queue_resize (GTK_WIDGET (view));
}

guint
tg_pairing_view_row (TgPairingView *view)
{
  g_return_val_if_fail (TG_IS_PAIRING_VIEW (view), 0);

  return view->row;
}

void
tg_pairing_view_set_row (TgPairingView *view, guint row)
{
  g_return_if_fail (TG_IS_PAIRING_VIEW (view));

  if (view->row == row || (view->bars && row >= view->bars->picture.n_bars))
    return;
  view->row = row;
  mark (view);
  g_object_notify_by_pspec (G_OBJECT (view), properties[PROP_ROW]);
}
