/* check-class-field.c: the accuracy class of the check weight
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The seven classes of OIML R 111-1.  Below the choice stands what the class permits for the weight
 * that was entered, where the standard has a line for it.
 */
#include "check-class-field.h"

#include "number.h"
#include "words.h"

struct _TgCheckClassField
{
  GtkBox parent_instance;
  GtkDropDown *choice;
  GtkLabel *note;
  GtkLabel *problem;
  TgSession *session;
  gboolean showing;
};

G_DEFINE_FINAL_TYPE (TgCheckClassField, tg_check_class_field, GTK_TYPE_BOX)

/* (transfer full): "500 g ± 0.025 g" */
static char *
permitted (const TgSetup *setup)
{
  g_autofree char *nominal = tg_mass_format_exact (setup->check_weight);
  g_autofree char *error = NULL;
  double mpe_mg;

  if (setup->check_weight == 0)
    return g_strdup ("Only with a check weight");
  if (!tg_check_weight_mpe_mg (setup->check_weight, setup->check_class, &mpe_mg))
    return g_strdup_printf ("OIML R 111 has no line for %s g", nominal);
  error = tg_number_format_short (mpe_mg / 1000);
  return g_strdup_printf ("%s g ± %s g (OIML R 111)", nominal, error);
}

static void
refresh (TgCheckClassField *self)
{
  const TgSetup *setup = tg_session_review (self->session)->setup;
  g_autofree char *note = permitted (setup);

  self->showing = TRUE;
  gtk_drop_down_set_selected (self->choice, setup->check_class);
  self->showing = FALSE;
  gtk_widget_set_sensitive (GTK_WIDGET (self->choice), setup->check_weight > 0);
  tg_words_show (self->note, note);
}

static void
on_selected (TgCheckClassField *self)
{
  guint at = gtk_drop_down_get_selected (self->choice);
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  g_autoptr (GError) error = NULL;

  if (self->showing || !self->session || at >= TG_N_CHECK_WEIGHT_CLASSES ||
      at == (guint) tg_session_review (self->session)->setup->check_class)
    return;
  event.path = "check-class";
  event.value = tg_check_weight_class_to_word ((TgCheckWeightClass) at);
  if (tg_session_append (self->session, &event, 1, &error))
    {
      tg_words_show_problem (NULL, self->problem, NULL);
      return;
    }
  tg_words_show_problem (NULL, self->problem, error->message);
  refresh (self);
}

void
tg_check_class_field_set_session (TgCheckClassField *self, TgSession *session)
{
  g_return_if_fail (TG_IS_CHECK_CLASS_FIELD (self));

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  tg_words_show_problem (NULL, self->problem, NULL);
  if (!session)
    return;
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
}

GtkDropDown *
tg_check_class_field_get_choice (TgCheckClassField *self)
{
  g_return_val_if_fail (TG_IS_CHECK_CLASS_FIELD (self), NULL);

  return self->choice;
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_check_class_field_dispose (GObject *object)
{
  TgCheckClassField *self = TG_CHECK_CLASS_FIELD (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_CHECK_CLASS_FIELD);
  G_OBJECT_CLASS (tg_check_class_field_parent_class)->dispose (object);
}

static void
tg_check_class_field_class_init (TgCheckClassFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_check_class_field_dispose;
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/check-class-field.ui");
  gtk_widget_class_bind_template_child (widget_class, TgCheckClassField, choice);
  gtk_widget_class_bind_template_child (widget_class, TgCheckClassField, note);
  gtk_widget_class_bind_template_child (widget_class, TgCheckClassField, problem);
  gtk_widget_class_bind_template_callback (widget_class, on_selected);
}

static void
tg_check_class_field_init (TgCheckClassField *self)
{
  g_autoptr (GtkStringList) classes = gtk_string_list_new (NULL);

  gtk_widget_init_template (GTK_WIDGET (self));
  for (guint i = 0; i < TG_N_CHECK_WEIGHT_CLASSES; i++)
    gtk_string_list_append (classes, tg_check_weight_class_to_word ((TgCheckWeightClass) i));
  self->showing = TRUE;
  gtk_drop_down_set_model (self->choice, G_LIST_MODEL (classes));
  self->showing = FALSE;
  tg_words_name_choice (self->choice, "Class of the check weight");
}

GtkWidget *
tg_check_class_field_new (void)
{
  return g_object_new (TG_TYPE_CHECK_CLASS_FIELD, NULL);
}
