/* part-view.c: one part as it is now, drawn
 *
 * The picture comes from ui/draw; here are its size, the pointer, the keys and the words for a
 * screen reader.  Small views are pictures only.  Nothing is computed: figures are the review's.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "part-view.h"

#include "part-drawing.h"
#include "plain-part.h"
#include "theme.h"
#include "number.h"
#include "words.h"

#define SMALL_WIDTH 84
#define SMALL_HEIGHT 38
#define LARGE_MIN_WIDTH 280
#define LARGE_MIN_HEIGHT 170
#define LARGE_MAX_MIN_HEIGHT 260

struct _TgPartView
{
  GtkWidget parent_instance;
  TgSession *session;
  gulong changed;
  gboolean small;
  guint part;
  int zone;
  int hovered;
};

enum
{
  PROP_SESSION = 1,
  PROP_SMALL,
  PROP_ZONE,
  N_PROPS
};

static GParamSpec *properties[N_PROPS];

G_DEFINE_FINAL_TYPE (TgPartView, tg_part_view, GTK_TYPE_WIDGET)

static const TgPartReview *
part_review (TgPartView *self)
{
  const TgReview *review;

  if (!self->session)
    return NULL;
  review = tg_session_review (self->session);
  return self->part < review->parts->len ? tg_review_part (review, self->part) : NULL;
}

static TgPartDrawing
drawing (TgPartView *self)
{
  return (TgPartDrawing){ .full_g = tg_part_drawing_full_g (tg_session_review (self->session)),
                          .labels = !self->small,
                          .selected = self->hovered >= 0 ? self->hovered : self->zone,
                          .mm_scale = 0 };
}

/* Where the drawing lies: all of the widget, but not taller than it is wide. */
static TgRect
area (TgPartView *self)
{
  double width = gtk_widget_get_width (GTK_WIDGET (self));
  double height = gtk_widget_get_height (GTK_WIDGET (self));
  double used = self->small ? height : MIN (height, 0.85 * width);

  return (TgRect){ 0, MIN ((height - used) / 2, 32), width, used };
}

static void
tg_part_view_snapshot (GtkWidget *widget, GtkSnapshot *snapshot)
{
  TgPartView *self = TG_PART_VIEW (widget);
  const TgPartReview *part = part_review (self);
  TgRect rect = area (self);
  TgPartDrawing how;
  TgStyle style;
  cairo_t *cr;

  if (!part || rect.width < 4 || rect.height < 4)
    return;
  how = drawing (self);
  style = tg_theme_style (widget);
  cr = gtk_snapshot_append_cairo (
      snapshot, &GRAPHENE_RECT_INIT (0, (float) rect.y, (float) rect.width, (float) rect.height));
  if (tg_part_kind_has_outline (part->design->kind))
    tg_part_drawing_draw (cr, rect, part, &how, &style);
  else
    tg_plain_part_draw_in (cr, rect, part->design->kind, &style);
  cairo_destroy (cr);
}

static void
tg_part_view_measure (GtkWidget *widget,
                      GtkOrientation orientation,
                      int for_size,
                      int *minimum,
                      int *natural,
                      G_GNUC_UNUSED int *minimum_baseline,
                      G_GNUC_UNUSED int *natural_baseline)
{
  TgPartView *self = TG_PART_VIEW (widget);

  if (self->small)
    *minimum = *natural = orientation == GTK_ORIENTATION_HORIZONTAL ? SMALL_WIDTH : SMALL_HEIGHT;
  else if (orientation == GTK_ORIENTATION_HORIZONTAL)
    {
      *minimum = LARGE_MIN_WIDTH;
      *natural = 640;
    }
  else
    {
      *minimum = CLAMP (for_size * 11 / 20, LARGE_MIN_HEIGHT, LARGE_MAX_MIN_HEIGHT);
      *natural = *minimum;
    }
}

static GtkSizeRequestMode
tg_part_view_get_request_mode (G_GNUC_UNUSED GtkWidget *widget)
{
  return GTK_SIZE_REQUEST_HEIGHT_FOR_WIDTH;
}

char *
tg_part_view_describe_zone (const TgReview *review, guint part, guint zone)
{
  const TgPartReview *reviewed = tg_review_part (review, part);
  const TgZoneReview *z = tg_part_review_zone (reviewed, zone);
  guint decimals = tg_mass_decimals (review->setup->resolution);
  GString *text = g_string_new (z->zone->name);

  if (z->amount_g > 0)
    {
      g_autofree char *amount = tg_review_grams (review, z->amount_g);
      g_autofree char *depth = tg_number_format (z->depth_mm, 2);

      g_string_append_printf (text, ": %s g still to come off", amount);
      if (tg_place_is_pair (z->zone->place))
        g_string_append (text, ", half on each side");
      if (z->depth_mm > 0)
        g_string_append_printf (text, ", %s mm deep", depth);
      g_string_append_c (text, '.');
    }
  else if (z->zone->standing == TG_STANDING_NEVER)
    g_string_append (text, ": never here.");
  else if (!tg_zone_usable (z->zone))
    g_string_append (text, z->zone->use == TG_USE_NO ? ": left alone." : ": only with care.");
  else
    g_string_append (text, z->passes > 0 ? ": finished." : ": nothing to come off.");
  if (tg_zone_usable (z->zone) && z->left_g > 0)
    {
      g_autofree char *left = tg_number_format (z->left_g, decimals);

      g_string_append_printf (text, " It can still give %s g.", left);
    }
  if (z->zone->reason[0] != '\0')
    g_string_append_printf (text, " %s", z->zone->reason);
  return g_string_free (text, FALSE);
}

static void
describe (TgPartView *self)
{
  const TgPartReview *part = part_review (self);
  const TgReview *review;
  g_autoptr (GString) text = g_string_new (NULL);

  if (!part)
    return;
  review = tg_session_review (self->session);
  for (guint i = 0; i < part->zones->len && !self->small; i++)
    {
      g_autofree char *zone = tg_part_view_describe_zone (review, self->part, i);

      g_string_append_printf (text, "%s%s", i > 0 ? " " : "", zone);
    }
  if (self->small)
    g_string_append (text, tg_state_label (part->state));
  tg_words_name (GTK_WIDGET (self), part->part->name);
  tg_words_tell (GTK_WIDGET (self), text->str);
}

static void
refresh (TgPartView *self)
{
  const TgPartReview *part = part_review (self);

  if (!self->small && (!part || self->zone >= (int) part->zones->len))
    tg_part_view_set_zone (self, -1);
  self->hovered = -1;
  describe (self);
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

/* --- pointer and keys ------------------------------------------------------------------------ */

static int
zone_at (TgPartView *self, double x, double y)
{
  const TgPartReview *part = part_review (self);
  TgPartDrawing how;
  TgStyle style;

  if (!part || !tg_part_kind_has_outline (part->design->kind))
    return -1;
  how = drawing (self);
  style = tg_theme_style (GTK_WIDGET (self));
  return tg_part_drawing_zone_at (area (self), part, &how, &style, x, y);
}

static void
set_hovered (TgPartView *self, int zone)
{
  if (self->hovered == zone)
    return;
  self->hovered = zone;
  gtk_widget_queue_draw (GTK_WIDGET (self));
}

static void
on_motion (G_GNUC_UNUSED GtkEventControllerMotion *motion, double x, double y, TgPartView *self)
{
  set_hovered (self, zone_at (self, x, y));
}

static void
on_leave (G_GNUC_UNUSED GtkEventControllerMotion *motion, TgPartView *self)
{
  set_hovered (self, -1);
}

static void
on_pressed (G_GNUC_UNUSED GtkGestureClick *click,
            G_GNUC_UNUSED int n_press,
            double x,
            double y,
            TgPartView *self)
{
  tg_part_view_set_zone (self, zone_at (self, x, y));
}

static gboolean
on_key (G_GNUC_UNUSED GtkEventControllerKey *key,
        guint keyval,
        G_GNUC_UNUSED guint keycode,
        GdkModifierType state,
        TgPartView *self)
{
  const TgPartReview *part = part_review (self);
  int n = part ? (int) part->zones->len : 0;

  if (n == 0 || (state & (GDK_CONTROL_MASK | GDK_ALT_MASK)))
    return FALSE;
  if (keyval == GDK_KEY_Right)
    tg_part_view_set_zone (self, (self->zone + 1) % n);
  else if (keyval == GDK_KEY_Left)
    tg_part_view_set_zone (self, self->zone <= 0 ? n - 1 : self->zone - 1);
  else
    return FALSE;
  return TRUE;
}

static gboolean
on_query_tooltip (GtkWidget *widget,
                  int x,
                  int y,
                  gboolean keyboard,
                  GtkTooltip *tooltip,
                  G_GNUC_UNUSED gpointer data)
{
  TgPartView *self = TG_PART_VIEW (widget);
  int zone = keyboard ? self->zone : zone_at (self, x, y);
  g_autofree char *text = NULL;

  if (zone < 0 || !part_review (self))
    return FALSE;
  text = tg_part_view_describe_zone (tg_session_review (self->session), self->part, (guint) zone);
  gtk_tooltip_set_text (tooltip, text);
  return TRUE;
}

static void
make_interactive (TgPartView *self)
{
  GtkEventController *motion = gtk_event_controller_motion_new ();
  GtkEventController *key = gtk_event_controller_key_new ();
  GtkGesture *click = gtk_gesture_click_new ();
  GtkWidget *widget = GTK_WIDGET (self);

  g_signal_connect (motion, "motion", G_CALLBACK (on_motion), self);
  g_signal_connect (motion, "leave", G_CALLBACK (on_leave), self);
  g_signal_connect (click, "pressed", G_CALLBACK (on_pressed), self);
  g_signal_connect (key, "key-pressed", G_CALLBACK (on_key), self);
  gtk_widget_add_controller (widget, motion);
  gtk_widget_add_controller (widget, key);
  gtk_widget_add_controller (widget, GTK_EVENT_CONTROLLER (click));
  gtk_widget_set_focusable (widget, TRUE);
  gtk_widget_set_has_tooltip (widget, TRUE);
  g_signal_connect (self, "query-tooltip", G_CALLBACK (on_query_tooltip), NULL);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_part_view_dispose (GObject *object)
{
  tg_part_view_set_session (TG_PART_VIEW (object), NULL);
  G_OBJECT_CLASS (tg_part_view_parent_class)->dispose (object);
}

static void
tg_part_view_constructed (GObject *object)
{
  G_OBJECT_CLASS (tg_part_view_parent_class)->constructed (object);
  if (!TG_PART_VIEW (object)->small)
    make_interactive (TG_PART_VIEW (object));
}

static void
tg_part_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgPartView *self = TG_PART_VIEW (object);

  switch (id)
    {
    case PROP_SESSION:
      g_value_set_object (value, self->session);
      break;
    case PROP_SMALL:
      g_value_set_boolean (value, self->small);
      break;
    case PROP_ZONE:
      g_value_set_int (value, self->zone);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_part_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgPartView *self = TG_PART_VIEW (object);

  switch (id)
    {
    case PROP_SESSION:
      tg_part_view_set_session (self, g_value_get_object (value));
      break;
    case PROP_SMALL:
      self->small = g_value_get_boolean (value);
      break;
    case PROP_ZONE:
      tg_part_view_set_zone (self, g_value_get_int (value));
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_part_view_class_init (TgPartViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_part_view_dispose;
  object_class->constructed = tg_part_view_constructed;
  object_class->get_property = tg_part_view_get_property;
  object_class->set_property = tg_part_view_set_property;
  widget_class->snapshot = tg_part_view_snapshot;
  widget_class->measure = tg_part_view_measure;
  widget_class->get_request_mode = tg_part_view_get_request_mode;
  properties[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                                  G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  properties[PROP_SMALL] = g_param_spec_boolean ("small", NULL, NULL, FALSE,
                                                 G_PARAM_READWRITE | G_PARAM_CONSTRUCT_ONLY |
                                                     G_PARAM_STATIC_STRINGS);
  properties[PROP_ZONE] = g_param_spec_int ("zone", NULL, NULL, -1, G_MAXINT, -1,
                                            G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS |
                                                G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, properties);
  gtk_widget_class_set_css_name (widget_class, "partview");
  gtk_widget_class_set_accessible_role (widget_class, GTK_ACCESSIBLE_ROLE_IMG);
}

static void
tg_part_view_init (TgPartView *self)
{
  self->zone = -1;
  self->hovered = -1;
}

GtkWidget *
tg_part_view_new (gboolean small)
{
  return g_object_new (TG_TYPE_PART_VIEW, "small", small, NULL);
}

void
tg_part_view_set_session (TgPartView *view, TgSession *session)
{
  g_return_if_fail (TG_IS_PART_VIEW (view));

  if (view->session)
    g_clear_signal_handler (&view->changed, view->session);
  g_set_object (&view->session, session);
  if (!session)
    return;
  view->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), view);
  refresh (view);
}

void
tg_part_view_set_part (TgPartView *view, guint part)
{
  g_return_if_fail (TG_IS_PART_VIEW (view));

  if (view->part != part)
    tg_part_view_set_zone (view, -1);
  view->part = part;
  refresh (view);
}

int
tg_part_view_zone (TgPartView *view)
{
  g_return_val_if_fail (TG_IS_PART_VIEW (view), -1);

  return view->zone;
}

void
tg_part_view_set_zone (TgPartView *view, int zone)
{
  g_return_if_fail (TG_IS_PART_VIEW (view));

  if (view->zone == zone)
    return;
  view->zone = zone;
  g_object_notify_by_pspec (G_OBJECT (view), properties[PROP_ZONE]);
  gtk_widget_queue_draw (GTK_WIDGET (view));
}
