/* prove-page.c: what the evenness is worth, and paper that others can work from
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "prove-page.h"

#include "bobweight-view.h"
#include "engine-view.h"
#include "forces-view.h"
#include "later.h"

struct _TgProvePage
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *switcher;
  GtkWidget *views;
  GtkWidget *engine;
  GtkWidget *forces;
  GtkWidget *bobweight;
  GtkWidget *paper;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgProvePage, tg_prove_page, GTK_TYPE_WIDGET)

/* The view that is shown is made now, if this is its first time. */
static void
make_view (TgProvePage *self)
{
  if (self->views && gtk_widget_get_mapped (self->views))
    tg_later_get (TG_LATER (gtk_stack_get_visible_child (GTK_STACK (self->views))));
}

void
tg_prove_page_focus (TgProvePage *page)
{
  const char *name;

  g_return_if_fail (TG_IS_PROVE_PAGE (page));

  name = gtk_stack_get_visible_child_name (GTK_STACK (page->views));
  if (g_strcmp0 (name, "engine") == 0)
    tg_engine_view_focus (TG_ENGINE_VIEW (tg_later_get (TG_LATER (page->engine))));
  else if (g_strcmp0 (name, "forces") == 0)
    tg_forces_view_focus (TG_FORCES_VIEW (tg_later_get (TG_LATER (page->forces))));
  else if (g_strcmp0 (name, "bobweight") == 0)
    tg_bobweight_view_focus (TG_BOBWEIGHT_VIEW (tg_later_get (TG_LATER (page->bobweight))));
  else
    tg_paper_view_focus (TG_PAPER_VIEW (tg_later_get (TG_LATER (page->paper))));
}

static void
set_session (TgProvePage *self, TgSession *session)
{
  GtkWidget *const views[] = { self->engine, self->forces, self->bobweight, self->paper };

  g_set_object (&self->session, session);
  for (guint i = 0; i < G_N_ELEMENTS (views); i++)
    if (views[i])
      g_object_set (views[i], "session", session, NULL);
}

TgPaperView *
tg_prove_page_paper (TgProvePage *page)
{
  g_return_val_if_fail (TG_IS_PROVE_PAGE (page), NULL);

  return TG_PAPER_VIEW (tg_later_get (TG_LATER (page->paper)));
}

const char *
tg_prove_page_view (TgProvePage *page)
{
  g_return_val_if_fail (TG_IS_PROVE_PAGE (page), NULL);

  return gtk_stack_get_visible_child_name (GTK_STACK (page->views));
}

void
tg_prove_page_show (TgProvePage *page, const char *view)
{
  g_return_if_fail (TG_IS_PROVE_PAGE (page) && view != NULL);

  gtk_stack_set_visible_child_name (GTK_STACK (page->views), view);
}

static void
tg_prove_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_PROVE_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_prove_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_PROVE_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_prove_page_dispose (GObject *object)
{
  set_session (TG_PROVE_PAGE (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_PROVE_PAGE);
  G_OBJECT_CLASS (tg_prove_page_parent_class)->dispose (object);
}

static void
tg_prove_page_class_init (TgProvePageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_prove_page_dispose;
  object_class->get_property = tg_prove_page_get_property;
  object_class->set_property = tg_prove_page_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_BOBWEIGHT_VIEW);
  g_type_ensure (TG_TYPE_ENGINE_VIEW);
  g_type_ensure (TG_TYPE_FORCES_VIEW);
  g_type_ensure (TG_TYPE_LATER);
  g_type_ensure (TG_TYPE_PAPER_VIEW);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/prove-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgProvePage, switcher);
  gtk_widget_class_bind_template_child (widget_class, TgProvePage, views);
  gtk_widget_class_bind_template_child (widget_class, TgProvePage, engine);
  gtk_widget_class_bind_template_child (widget_class, TgProvePage, forces);
  gtk_widget_class_bind_template_child (widget_class, TgProvePage, bobweight);
  gtk_widget_class_bind_template_child (widget_class, TgProvePage, paper);
  gtk_widget_class_bind_template_callback (widget_class, make_view);
}

static void
tg_prove_page_init (TgProvePage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_prove_page_new (void)
{
  return g_object_new (TG_TYPE_PROVE_PAGE, NULL);
}
