/* later.c: a place whose widget is made when it is first wanted, see later.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "later.h"

#include "scale-link.h"
#include "session.h"

struct _TgLater
{
  GtkWidget parent_instance;
  char *child_type;
  TgSession *session;
  TgScaleLink *link;
  GtkWidget *child;
};

G_DEFINE_FINAL_TYPE (TgLater, tg_later, GTK_TYPE_WIDGET)

enum
{
  PROP_CHILD_TYPE = 1,
  PROP_SESSION,
  PROP_LINK,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

GtkWidget *
tg_later_peek (TgLater *later)
{
  g_return_val_if_fail (TG_IS_LATER (later), NULL);

  return later->child;
}

GtkWidget *
tg_later_get (TgLater *later)
{
  GType type;

  g_return_val_if_fail (TG_IS_LATER (later), NULL);

  if (later->child)
    return later->child;
  type = g_type_from_name (later->child_type);
  g_return_val_if_fail (g_type_is_a (type, GTK_TYPE_WIDGET), NULL);
  later->child = g_object_new (type, NULL);
  gtk_widget_set_parent (later->child, GTK_WIDGET (later));
  if (g_object_class_find_property (G_OBJECT_GET_CLASS (later->child), "link"))
    g_object_bind_property (later, "link", later->child, "link", G_BINDING_SYNC_CREATE);
  g_object_bind_property (later, "session", later->child, "session", G_BINDING_SYNC_CREATE);
  return later->child;
}

static void
tg_later_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgLater *self = TG_LATER (object);

  switch (id)
    {
    case PROP_CHILD_TYPE:
      g_value_set_string (value, self->child_type);
      break;
    case PROP_SESSION:
      g_value_set_object (value, self->session);
      break;
    case PROP_LINK:
      g_value_set_object (value, self->link);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_later_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgLater *self = TG_LATER (object);

  switch (id)
    {
    case PROP_CHILD_TYPE:
      g_free (self->child_type);
      self->child_type = g_value_dup_string (value);
      break;
    case PROP_SESSION:
      if (g_set_object (&self->session, g_value_get_object (value)))
        g_object_notify_by_pspec (object, pspec);
      break;
    case PROP_LINK:
      if (g_set_object (&self->link, g_value_get_object (value)))
        g_object_notify_by_pspec (object, pspec);
      break;
    default:
      G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
    }
}

static void
tg_later_dispose (GObject *object)
{
  TgLater *self = TG_LATER (object);

  g_clear_pointer (&self->child, gtk_widget_unparent);
  g_clear_object (&self->session);
  g_clear_object (&self->link);
  G_OBJECT_CLASS (tg_later_parent_class)->dispose (object);
}

static void
tg_later_finalize (GObject *object)
{
  g_free (TG_LATER (object)->child_type);
  G_OBJECT_CLASS (tg_later_parent_class)->finalize (object);
}

static void
tg_later_class_init (TgLaterClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->get_property = tg_later_get_property;
  object_class->set_property = tg_later_set_property;
  object_class->dispose = tg_later_dispose;
  object_class->finalize = tg_later_finalize;
  props[PROP_CHILD_TYPE] = g_param_spec_string ("child-type", NULL, NULL, NULL,
                                                G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS |
                                                 G_PARAM_EXPLICIT_NOTIFY);
  props[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                          G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS |
                                              G_PARAM_EXPLICIT_NOTIFY);
  g_object_class_install_properties (object_class, N_PROPS, props);
  gtk_widget_class_set_layout_manager_type (GTK_WIDGET_CLASS (klass), GTK_TYPE_BIN_LAYOUT);
}

static void
tg_later_init (TgLater *self G_GNUC_UNUSED)
{
}
