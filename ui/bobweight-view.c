/* bobweight-view.c: the bobweight of each crankpin, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bobweight-view.h"

struct _TgBobweightView
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *scroller;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgBobweightView, tg_bobweight_view, GTK_TYPE_WIDGET)

void
tg_bobweight_view_focus (TgBobweightView *view)
{
  g_return_if_fail (TG_IS_BOBWEIGHT_VIEW (view));

  gtk_widget_child_focus (view->scroller, GTK_DIR_TAB_FORWARD);
}

static void
refresh (TgBobweightView *self)
{
  (void) self;
}

static void
set_session (TgBobweightView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
  refresh (self);
}

static void
tg_bobweight_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_BOBWEIGHT_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_bobweight_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_BOBWEIGHT_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_bobweight_view_dispose (GObject *object)
{
  set_session (TG_BOBWEIGHT_VIEW (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BOBWEIGHT_VIEW);
  G_OBJECT_CLASS (tg_bobweight_view_parent_class)->dispose (object);
}

static void
tg_bobweight_view_class_init (TgBobweightViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_bobweight_view_dispose;
  object_class->get_property = tg_bobweight_view_get_property;
  object_class->set_property = tg_bobweight_view_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/bobweight-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBobweightView, scroller);
}

static void
tg_bobweight_view_init (TgBobweightView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_bobweight_view_new (void)
{
  return g_object_new (TG_TYPE_BOBWEIGHT_VIEW, NULL);
}
