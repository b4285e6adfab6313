/* setup-field.c: one value of the setup that can be refined
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The field shows the value in force and, where it was refined, the one that the job began with.
 * It judges nothing itself: a typed value is tried on a copy of the setup by tg_setup_set() and
 * only becomes an event if that accepts it and it differs from the present one.
 */
#include "setup-field.h"

#include "words.h"

#include <string.h>

struct _TgSetupField
{
  GtkBox parent_instance;
  GtkLabel *caption;
  GtkEntry *entry;
  GtkLabel *unit;
  GtkLabel *was;
  GtkLabel *problem;
  TgSession *session;
  char *path;
  char *shown; /* the value in force that was written last */
};

G_DEFINE_FINAL_TYPE (TgSetupField, tg_setup_field, GTK_TYPE_BOX)

GtkWidget *
tg_setup_field_new (const char *path, const char *label, const char *unit)
{
  TgSetupField *self = g_object_new (TG_TYPE_SETUP_FIELD, NULL);

  self->path = g_strdup (path);
  tg_words_show (self->caption, label);
  tg_words_show (self->unit, unit);
  gtk_widget_set_visible (GTK_WIDGET (self->unit), unit[0] != '\0');
  tg_words_name (GTK_WIDGET (self->entry), label);
  return GTK_WIDGET (self);
}

/* Writes the value in force, unless something else was typed and is not taken over yet. */
static void
refresh (TgSetupField *self)
{
  const TgReview *review = tg_session_review (self->session);
  const TgSetup *began = tg_job_setup (tg_session_job (self->session));
  g_autofree char *now = tg_setup_get (review->setup, self->path);
  g_autofree char *first = tg_setup_get (began, self->path);
  g_autofree char *was = NULL;
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  gboolean typed = self->shown && strcmp (text, self->shown) != 0;

  g_return_if_fail (now != NULL);

  g_free (self->shown);
  self->shown = g_strdup (now);
  if (!typed)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), now);
  if (g_strcmp0 (first, now) != 0)
    was = g_strdup_printf ("was %s", first && first[0] ? first : "empty");
  tg_words_show (self->was, was ? was : "");
  gtk_widget_set_visible (GTK_WIDGET (self->was), was != NULL);
}

static void
refresh_name (TgSetupField *self)
{
  g_autofree char *name = tg_setup_describe (tg_session_review (self->session)->setup, self->path);

  tg_words_name (GTK_WIDGET (self->entry), name);
}

void
tg_setup_field_show_label (TgSetupField *self, const char *label)
{
  g_return_if_fail (TG_IS_SETUP_FIELD (self) && self->session != NULL);

  tg_words_show (self->caption, label);
  refresh_name (self);
}

void
tg_setup_field_set_session (TgSetupField *self, TgSession *session)
{
  g_return_if_fail (TG_IS_SETUP_FIELD (self));

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  g_clear_pointer (&self->shown, g_free);
  tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
  if (!session)
    return;
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh_name (self);
  refresh (self);
}

/* Words and not a number. */
static gboolean
is_text (TgSetupField *self)
{
  return strcmp (self->path, "name") == 0 || strcmp (self->path, "scale") == 0 ||
         g_str_has_suffix (self->path, "-facing");
}

/* Nothing is an answer, too. */
static gboolean
may_be_empty (TgSetupField *self)
{
  return is_text (self) && strcmp (self->path, "name") != 0;
}

/* Cylinders by their numbers, "1-3-4-2". */
static gboolean
is_numbers (TgSetupField *self)
{
  return strcmp (self->path, "engine.order") == 0 || strcmp (self->path, "engine.numbering") == 0;
}

/* (transfer full): what was typed between the numbers becomes "-". */
static char *
join_numbers (const char *typed)
{
  g_auto (GStrv) words = g_strsplit_set (typed, " ,;-\t", -1);
  GString *joined = g_string_new (NULL);

  for (guint i = 0; words[i]; i++)
    if (words[i][0])
      g_string_append_printf (joined, "%s%s", joined->len ? "-" : "", words[i]);
  return g_string_free (joined, FALSE);
}

/* (transfer full): what was typed as a file has it: a decimal point, no unit, no blanks around. */
static char *
typed_value (TgSetupField *self)
{
  char *value = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry))));
  const char *unit = gtk_label_get_text (self->unit);

  if (is_text (self))
    return value;
  if (is_numbers (self))
    {
      g_autofree char *typed = value;

      return join_numbers (typed);
    }
  g_strdelimit (value, ",", '.');
  if (unit[0] && g_str_has_suffix (value, unit))
    value[strlen (value) - strlen (unit)] = '\0';
  return g_strstrip (value);
}

gboolean
tg_setup_field_commit (TgSetupField *self)
{
  g_autoptr (TgSetup) copy = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *value = NULL;
  g_autofree char *meant = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  g_return_val_if_fail (TG_IS_SETUP_FIELD (self), FALSE);

  if (!self->session)
    return FALSE;
  value = typed_value (self);
  copy = tg_setup_copy (tg_session_review (self->session)->setup);
  if (value[0] == '\0' && !may_be_empty (self) && !is_numbers (self))
    {
      tg_words_show_problem (GTK_WIDGET (self->entry), self->problem,
                             "Something has to stand here. Escape brings the old value back.");
      return FALSE;
    }
  if (!tg_setup_set (copy, self->path, value, &error))
    {
      tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, error->message);
      return FALSE;
    }
  meant = tg_setup_get (copy, self->path);
  if (strcmp (meant, self->shown) != 0)
    {
      event.path = self->path;
      event.value = meant;
      if (!tg_session_append (self->session, &event, 1, &error))
        {
          tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, error->message);
          return FALSE;
        }
    }
  gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
  tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
  return TRUE;
}

static void
on_activate (TgSetupField *self)
{
  if (tg_setup_field_commit (self))
    gtk_editable_select_region (GTK_EDITABLE (self->entry), 0, -1);
}

static void
on_leave (TgSetupField *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));

  if (self->session && self->shown && strcmp (text, self->shown) != 0)
    tg_setup_field_commit (self);
}

/* A refusal stands until it is dealt with: typing the value in force again takes it away. */
static void
on_edited (TgSetupField *self)
{
  const char *text = gtk_editable_get_text (GTK_EDITABLE (self->entry));

  if (self->shown && strcmp (text, self->shown) == 0)
    tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
}

static gboolean
on_key (GtkEventControllerKey *keys,
        guint key,
        guint code G_GNUC_UNUSED,
        GdkModifierType state G_GNUC_UNUSED,
        gpointer data G_GNUC_UNUSED)
{
  GtkWidget *entry = gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys));
  TgSetupField *self = TG_SETUP_FIELD (gtk_widget_get_ancestor (entry, TG_TYPE_SETUP_FIELD));

  if (key != GDK_KEY_Escape || !self->shown ||
      strcmp (gtk_editable_get_text (GTK_EDITABLE (entry)), self->shown) == 0)
    return GDK_EVENT_PROPAGATE;
  gtk_editable_set_text (GTK_EDITABLE (entry), self->shown);
  tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
  return GDK_EVENT_STOP;
}

const char *
tg_setup_field_get_path (TgSetupField *self)
{
  g_return_val_if_fail (TG_IS_SETUP_FIELD (self), NULL);

  return self->path;
}

GtkEditable *
tg_setup_field_get_editable (TgSetupField *self)
{
  g_return_val_if_fail (TG_IS_SETUP_FIELD (self), NULL);

  return GTK_EDITABLE (self->entry);
}

const char *
tg_setup_field_get_problem (TgSetupField *self)
{
  g_return_val_if_fail (TG_IS_SETUP_FIELD (self), NULL);

  return gtk_widget_get_visible (GTK_WIDGET (self->problem)) ? gtk_label_get_text (self->problem)
                                                             : NULL;
}

static void
tg_setup_field_dispose (GObject *object)
{
  TgSetupField *self = TG_SETUP_FIELD (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_SETUP_FIELD);
  G_OBJECT_CLASS (tg_setup_field_parent_class)->dispose (object);
}

static void
tg_setup_field_finalize (GObject *object)
{
  TgSetupField *self = TG_SETUP_FIELD (object);

  g_free (self->path);
  g_free (self->shown);
  G_OBJECT_CLASS (tg_setup_field_parent_class)->finalize (object);
}

static void
tg_setup_field_class_init (TgSetupFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_setup_field_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_setup_field_finalize;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/setup-field.ui");
  gtk_widget_class_bind_template_child (widget_class, TgSetupField, caption);
  gtk_widget_class_bind_template_child (widget_class, TgSetupField, entry);
  gtk_widget_class_bind_template_child (widget_class, TgSetupField, unit);
  gtk_widget_class_bind_template_child (widget_class, TgSetupField, was);
  gtk_widget_class_bind_template_child (widget_class, TgSetupField, problem);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_edited);
  gtk_widget_class_bind_template_callback (widget_class, on_leave);
  gtk_widget_class_bind_template_callback (widget_class, on_key);
}

static void
tg_setup_field_init (TgSetupField *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
