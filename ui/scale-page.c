/* scale-page.c: the scale that everything hangs on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is known of the scale and, beside it or below, its cable.
 */
#include "scale-page.h"

#include "cable-panel.h"
#include "clamp.h"
#include "fold.h"
#include "scale-record.h"

struct _TgScalePage
{
  GtkWidget parent_instance;
  TgSession *session;
  TgScaleLink *link;
  GtkWidget *scroller;
  GtkWidget *record;
  GtkWidget *cable;
};

enum
{
  PROP_SESSION = 1,
  PROP_LINK,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgScalePage, tg_scale_page, GTK_TYPE_WIDGET)

void
tg_scale_page_focus (TgScalePage *page)
{
  g_return_if_fail (TG_IS_SCALE_PAGE (page));

  tg_scale_record_focus (TG_SCALE_RECORD (page->record));
  gtk_adjustment_set_value (
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page->scroller)), 0);
}

void
tg_scale_page_want_field (TgScalePage *page, const char *path)
{
  g_return_if_fail (TG_IS_SCALE_PAGE (page));

  tg_scale_record_want_field (TG_SCALE_RECORD (page->record), path);
}

static void
tg_scale_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgScalePage *self = TG_SCALE_PAGE (object);

  if (id == PROP_SESSION)
    g_value_set_object (value, self->session);
  else if (id == PROP_LINK)
    g_value_set_object (value, self->link);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_scale_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgScalePage *self = TG_SCALE_PAGE (object);

  if (id == PROP_SESSION)
    {
      g_set_object (&self->session, g_value_get_object (value));
      tg_scale_record_set_session (TG_SCALE_RECORD (self->record), self->session);
    }
  else if (id == PROP_LINK)
    {
      g_set_object (&self->link, g_value_get_object (value));
      tg_cable_panel_set_link (TG_CABLE_PANEL (self->cable), self->link);
    }
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_scale_page_dispose (GObject *object)
{
  TgScalePage *self = TG_SCALE_PAGE (object);

  g_clear_object (&self->session);
  g_clear_object (&self->link);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_SCALE_PAGE);
  G_OBJECT_CLASS (tg_scale_page_parent_class)->dispose (object);
}

static void
tg_scale_page_class_init (TgScalePageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_scale_page_dispose;
  object_class->get_property = tg_scale_page_get_property;
  object_class->set_property = tg_scale_page_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  props[PROP_LINK] = g_param_spec_object ("link", NULL, NULL, TG_TYPE_SCALE_LINK,
                                          G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_CABLE_PANEL);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_SCALE_RECORD);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/scale-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgScalePage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgScalePage, record);
  gtk_widget_class_bind_template_child (widget_class, TgScalePage, cable);
}

static void
tg_scale_page_init (TgScalePage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_scale_page_new (void)
{
  return g_object_new (TG_TYPE_SCALE_PAGE, NULL);
}
