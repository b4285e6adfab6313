/* setup-choice.c: one value of the setup that is one of a few words
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A choice is one event at once.
 */
#include "setup-choice.h"

#include <string.h>

#include "words.h"

struct _TgSetupChoice
{
  GtkBox parent_instance;
  TgSession *session;
  char *path;
  GtkWidget *caption;
  GtkWidget *choice;
  GtkWidget *problem;
  gboolean updating;
};

G_DEFINE_FINAL_TYPE (TgSetupChoice, tg_setup_choice, GTK_TYPE_BOX)

static const char *
word_at (TgSetupChoice *self, guint index)
{
  GListModel *words = gtk_drop_down_get_model (GTK_DROP_DOWN (self->choice));

  return gtk_string_list_get_string (GTK_STRING_LIST (words), index);
}

static void
refresh (TgSetupChoice *self)
{
  g_autofree char *now = tg_setup_get (tg_session_review (self->session)->setup, self->path);
  GListModel *words = gtk_drop_down_get_model (GTK_DROP_DOWN (self->choice));

  self->updating = TRUE;
  for (guint i = 0; i < g_list_model_get_n_items (words); i++)
    if (g_strcmp0 (word_at (self, i), now) == 0)
      gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), i);
  self->updating = FALSE;
}

static void
on_selected (TgSetupChoice *self)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  g_autoptr (GError) error = NULL;
  gboolean saved;

  if (self->updating || !self->session)
    return;
  event.path = self->path;
  event.value = word_at (self, gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice)));
  saved = tg_session_append (self->session, &event, 1, &error);
  tg_words_show_problem (NULL, GTK_LABEL (self->problem), saved ? NULL : error->message);
  if (!saved)
    refresh (self);
}

void
tg_setup_choice_set_session (TgSetupChoice *self, TgSession *session)
{
  g_return_if_fail (TG_IS_SETUP_CHOICE (self));

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  tg_words_show_problem (NULL, GTK_LABEL (self->problem), NULL);
  if (!session)
    return;
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
}

static void
tg_setup_choice_dispose (GObject *object)
{
  g_clear_object (&TG_SETUP_CHOICE (object)->session);
  G_OBJECT_CLASS (tg_setup_choice_parent_class)->dispose (object);
}

static void
tg_setup_choice_finalize (GObject *object)
{
  g_free (TG_SETUP_CHOICE (object)->path);
  G_OBJECT_CLASS (tg_setup_choice_parent_class)->finalize (object);
}

static void
tg_setup_choice_class_init (TgSetupChoiceClass *klass)
{
  G_OBJECT_CLASS (klass)->dispose = tg_setup_choice_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_setup_choice_finalize;
}

static GtkWidget *
add_label (TgSetupChoice *self, const char *css)
{
  GtkWidget *label = gtk_label_new (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, css);
  gtk_box_append (GTK_BOX (self), label);
  return label;
}

static void
tg_setup_choice_init (TgSetupChoice *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 2);
  gtk_widget_set_valign (GTK_WIDGET (self), GTK_ALIGN_START);
  self->caption = add_label (self, "field-label");
  self->choice = gtk_drop_down_new (NULL, NULL);
  gtk_box_append (GTK_BOX (self), self->choice);
  self->problem = add_label (self, "problem");
  gtk_widget_add_css_class (self->problem, "small");
  gtk_widget_set_visible (self->problem, FALSE);
}

GtkWidget *
tg_setup_choice_new (const char *path, const char *label, const char *const *words)
{
  TgSetupChoice *self = g_object_new (TG_TYPE_SETUP_CHOICE, NULL);
  g_autoptr (GtkStringList) list = gtk_string_list_new (words);

  self->path = g_strdup (path);
  tg_words_show (GTK_LABEL (self->caption), label);
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->choice), G_LIST_MODEL (list));
  tg_words_name_choice (GTK_DROP_DOWN (self->choice), label);
  g_signal_connect_swapped (self->choice, "notify::selected", G_CALLBACK (on_selected), self);
  return GTK_WIDGET (self);
}
