/* build-page.c: which parts go where, and what has been ticked off
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All bores with how far each is, and the card of the one that is worked on.
 */
#include "build-page.h"

#include "build-bore.h"
#include "clamp.h"
#include "columns.h"
#include "fold.h"
#include "setup-field.h"
#include "words.h"

struct _TgBuildPage
{
  GtkWidget parent_instance;
  TgSession *session;
  GtkWidget *scroller;
  GtkWidget *bores;
  GtkWidget *facings;
  GtkWidget *card;
  guint bore;
  gboolean showing;
};

enum
{
  PROP_SESSION = 1,
  N_PROPS
};

static GParamSpec *props[N_PROPS];

G_DEFINE_FINAL_TYPE (TgBuildPage, tg_build_page, GTK_TYPE_WIDGET)

void
tg_build_page_focus (TgBuildPage *page)
{
  g_return_if_fail (TG_IS_BUILD_PAGE (page));

  tg_build_bore_focus (TG_BUILD_BORE (page->card));
}

static void refresh (TgBuildPage *self);

static void
on_bore (TgBuildPage *self, GtkToggleButton *button)
{
  if (self->showing || !gtk_toggle_button_get_active (button))
    return;
  self->bore = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "bore"));
  refresh (self);
}

static GtkWidget *
bore_button_new (TgBuildPage *self, guint bore)
{
  GtkWidget *button = gtk_toggle_button_new ();
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_button_set_child (GTK_BUTTON (button), label);
  g_object_set_data (G_OBJECT (button), "bore", GUINT_TO_POINTER (bore));
  g_signal_connect_swapped (button, "toggled", G_CALLBACK (on_bore), self);
  return button;
}

static char *
bore_words (const TgBuildCard *card)
{
  if (card->done)
    return g_strdup_printf ("Bore %u: ✓ done", card->bore);
  if (card->n_wrong > 0)
    return g_strdup_printf ("Bore %u: %u to look at", card->bore, card->n_wrong);
  return g_strdup_printf ("Bore %u: %u of %u", card->bore, card->n_ticked, card->ticks->len);
}

/* As many buttons as there are bores; those that are there stay. */
static void
show_bores (TgBuildPage *self, const TgBuild *build)
{
  GtkWidget *button = gtk_widget_get_first_child (self->bores);
  GtkWidget *first = button;

  self->showing = TRUE;
  for (guint bore = 1; bore <= build->cards->len; bore++)
    {
      const TgBuildCard *card = tg_build_card (build, bore);
      g_autofree char *words = bore_words (card);
      GtkWidget *label;

      if (!button)
        {
          button = bore_button_new (self, bore);
          tg_columns_append (TG_COLUMNS (self->bores), button);
          if (first)
            gtk_toggle_button_set_group (GTK_TOGGLE_BUTTON (button), GTK_TOGGLE_BUTTON (first));
          else
            first = button;
        }
      label = gtk_button_get_child (GTK_BUTTON (button));
      tg_words_show (GTK_LABEL (label), words);
      tg_words_name (button, words);
      gtk_widget_remove_css_class (label, "alert");
      gtk_widget_remove_css_class (label, "good");
      if (card->done || card->n_wrong > 0)
        gtk_widget_add_css_class (label, card->done ? "good" : "alert");
      gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button), bore == self->bore);
      button = gtk_widget_get_next_sibling (button);
    }
  while (button)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (button);

      gtk_widget_unparent (button);
      button = next;
    }
  self->showing = FALSE;
}

static void
refresh (TgBuildPage *self)
{
  g_autoptr (TgBuild) build = NULL;

  if (!self->session || !tg_session_job (self->session) ||
      !gtk_widget_get_mapped (GTK_WIDGET (self)))
    return;
  build = tg_build_new (tg_session_job (self->session), tg_session_review (self->session));
  self->bore = CLAMP (self->bore, 1, build->cards->len);
  show_bores (self, build);
  tg_build_bore_show (TG_BUILD_BORE (self->card), self->session, build, self->bore);
}

static void
go_to_bore (GtkWidget *widget, const char *action, GVariant *parameter G_GNUC_UNUSED)
{
  TgBuildPage *self = TG_BUILD_PAGE (widget);
  guint step = g_str_equal (action, "build.next-bore") ? 1 : -1u;
  guint n;

  if (!self->session || !tg_session_job (self->session))
    return;
  n = tg_session_review (self->session)->setup->cylinders;
  self->bore = (self->bore + n - 1 + step) % n + 1;
  refresh (self);
  tg_build_bore_focus (TG_BUILD_BORE (self->card));
}

static void
set_facings (TgBuildPage *self)
{
  for (GtkWidget *field = gtk_widget_get_first_child (self->facings); field;
       field = gtk_widget_get_next_sibling (field))
    tg_setup_field_set_session (TG_SETUP_FIELD (field),
                                self->session && tg_session_job (self->session) ? self->session
                                                                                : NULL);
}

static void
set_session (TgBuildPage *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_swapped (session, "changed", G_CALLBACK (refresh), self);
  self->bore = 1;
  if (self->facings)
    set_facings (self);
  refresh (self);
}

static void
tg_build_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_BUILD_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_build_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_BUILD_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_build_page_dispose (GObject *object)
{
  set_session (TG_BUILD_PAGE (object), NULL);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_BUILD_PAGE);
  G_OBJECT_CLASS (tg_build_page_parent_class)->dispose (object);
}

static void
tg_build_page_class_init (TgBuildPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->dispose = tg_build_page_dispose;
  object_class->get_property = tg_build_page_get_property;
  object_class->set_property = tg_build_page_set_property;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  g_type_ensure (TG_TYPE_BUILD_BORE);
  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_FOLD);
  gtk_widget_class_install_action (widget_class, "build.next-bore", NULL, go_to_bore);
  gtk_widget_class_install_action (widget_class, "build.last-bore", NULL, go_to_bore);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/build-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgBuildPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgBuildPage, bores);
  gtk_widget_class_bind_template_child (widget_class, TgBuildPage, facings);
  gtk_widget_class_bind_template_child (widget_class, TgBuildPage, card);
}

static void
tg_build_page_init (TgBuildPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = TG_ENGINE_N_TEXTS - TG_N_FACINGS; i < TG_ENGINE_N_TEXTS; i++)
    {
      g_autofree char *path = g_strdup_printf ("engine.%s", tg_engine_text_names[i]);

      gtk_box_append (GTK_BOX (self->facings),
                      tg_setup_field_new (path, tg_engine_text_labels[i], ""));
    }
  g_signal_connect (self, "map", G_CALLBACK (refresh), NULL);
}

GtkWidget *
tg_build_page_new (void)
{
  return g_object_new (TG_TYPE_BUILD_PAGE, NULL);
}
