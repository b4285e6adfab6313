/* forces-view.c: what the spread costs: forces and couples, and how even is even enough
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "forces-view.h"

struct _TgForcesView
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

G_DEFINE_FINAL_TYPE (TgForcesView, tg_forces_view, GTK_TYPE_WIDGET)

void
tg_forces_view_focus (TgForcesView *view)
{
  g_return_if_fail (TG_IS_FORCES_VIEW (view));

  gtk_widget_child_focus (view->scroller, GTK_DIR_TAB_FORWARD);
}

static void
refresh (TgForcesView *self)
{
  (void) self;
}

static void
set_session (TgForcesView *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
  refresh (self);
}

static void
tg_forces_view_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_FORCES_VIEW (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_forces_view_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_FORCES_VIEW (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_forces_view_dispose (GObject *object)
{
  set_session (TG_FORCES_VIEW (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_FORCES_VIEW);
  G_OBJECT_CLASS (tg_forces_view_parent_class)->dispose (object);
}

static void
tg_forces_view_class_init (TgForcesViewClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_forces_view_dispose;
  object_class->get_property = tg_forces_view_get_property;
  object_class->set_property = tg_forces_view_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/forces-view.ui");
  gtk_widget_class_bind_template_child (widget_class, TgForcesView, scroller);
}

static void
tg_forces_view_init (TgForcesView *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_forces_view_new (void)
{
  return g_object_new (TG_TYPE_FORCES_VIEW, NULL);
}
