/* target-field.c: the common target of one band: automatic or fixed by the person
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An empty entry means that the program chooses; a typed weight is a decision of the person and
 * becomes one event, as does the way back.
 */
#include "target-field.h"

#include "why-button.h"
#include "words.h"

#include <string.h>

struct _TgTargetField
{
  GtkBox parent_instance;
  GtkLabel *caption;
  GtkEntry *entry;
  GtkWidget *automatic;
  GtkLabel *state;
  TgWhyButton *why;
  GtkLabel *problem;
  TgSession *session;
  TgBand band;
  char *shown; /* what stands in the entry when nothing was typed */
};

G_DEFINE_FINAL_TYPE (TgTargetField, tg_target_field, GTK_TYPE_BOX)

GtkWidget *
tg_target_field_new (TgBand band)
{
  TgTargetField *self = g_object_new (TG_TYPE_TARGET_FIELD, NULL);

  self->band = band;
  return GTK_WIDGET (self);
}

/* What a band is of changes with what counts in a sum. */
static void
show_name (TgTargetField *self, const TgSetup *setup)
{
  g_autofree char *name = g_strdup_printf ("Target of the %s",
                                           tg_setup_band_label (setup, self->band));
  g_autofree char *entry = g_strdup_printf ("%s, g", name);
  g_autofree char *back = g_strdup_printf ("%s: automatic", name);

  tg_words_show (self->caption, name);
  tg_words_name (GTK_WIDGET (self->entry), entry);
  tg_words_name (self->automatic, back);
  tg_why_button_give (self->why, name,
                      tg_review_why_target (tg_session_review (self->session), self->band));
}

static gboolean
is_typed (TgTargetField *self)
{
  return self->shown &&
         strcmp (gtk_editable_get_text (GTK_EDITABLE (self->entry)), self->shown) != 0;
}

static void
refresh (TgTargetField *self)
{
  const TgReview *review = tg_session_review (self->session);
  const TgBandReview *band = &review->bands[self->band];
  guint decimals = tg_mass_decimals (review->setup->resolution);
  g_autofree char *target = NULL;
  g_autofree char *text = NULL;
  gboolean typed = is_typed (self);

  show_name (self, review->setup);
  /* a decided target stands even while others are not weighed yet */
  if (band->decided)
    target = tg_mass_format_exact (tg_mass_from_g (band->target_g));
  else if (band->known)
    target = tg_mass_format (tg_mass_from_g (band->target_g), decimals);
  g_free (self->shown);
  self->shown = g_strdup (band->decided ? target : "");
  if (!typed)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
  if (band->decided)
    text = g_strdup_printf ("Fixed: the lightest may weigh %s g.", target);
  else if (target)
    text = g_strdup_printf ("Automatic: %s g takes the least metal.", target);
  else
    text = g_strdup ("Automatic: known once every one is weighed.");
  tg_words_show (self->state, text);
  gtk_widget_set_sensitive (self->automatic, band->decided);
}

void
tg_target_field_set_session (TgTargetField *self, TgSession *session)
{
  g_return_if_fail (TG_IS_TARGET_FIELD (self));

  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  g_clear_pointer (&self->shown, g_free);
  tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
  if (!session)
    return;
  g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  refresh (self);
}

static gboolean
decide (TgTargetField *self, gboolean automatic, TgMass mass)
{
  g_autoptr (GError) error = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_TARGET);

  event.band = self->band;
  event.automatic = automatic;
  event.mass = mass;
  if (!tg_session_append (self->session, &event, 1, &error))
    {
      tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, error->message);
      return FALSE;
    }
  gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
  tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
  return TRUE;
}

gboolean
tg_target_field_commit (TgTargetField *self)
{
  g_autoptr (GError) error = NULL;
  const TgBandReview *band;
  const char *text;
  TgMass mass;

  g_return_val_if_fail (TG_IS_TARGET_FIELD (self), FALSE);

  if (!self->session)
    return FALSE;
  band = &tg_session_review (self->session)->bands[self->band];
  text = gtk_editable_get_text (GTK_EDITABLE (self->entry));
  if (text[strspn (text, " ")] == '\0')
    return !band->decided || decide (self, TRUE, 0);
  if (!tg_mass_parse (text, &mass, &error))
    {
      tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, error->message);
      return FALSE;
    }
  if (mass == 0)
    {
      tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, "A target of 0 g cannot be.");
      return FALSE;
    }
  if (band->decided && mass == tg_mass_from_g (band->target_g))
    {
      gtk_editable_set_text (GTK_EDITABLE (self->entry), self->shown);
      tg_words_show_problem (GTK_WIDGET (self->entry), self->problem, NULL);
      return TRUE;
    }
  return decide (self, FALSE, mass);
}

static void
on_activate (TgTargetField *self)
{
  tg_target_field_commit (self);
}

static void
on_leave (TgTargetField *self)
{
  if (self->session && is_typed (self))
    tg_target_field_commit (self);
}

static void
on_automatic (TgTargetField *self)
{
  if (self->session && tg_session_review (self->session)->bands[self->band].decided)
    decide (self, TRUE, 0);
}

GtkEditable *
tg_target_field_get_editable (TgTargetField *self)
{
  g_return_val_if_fail (TG_IS_TARGET_FIELD (self), NULL);

  return GTK_EDITABLE (self->entry);
}

static void
tg_target_field_dispose (GObject *object)
{
  TgTargetField *self = TG_TARGET_FIELD (object);

  g_clear_object (&self->session);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_TARGET_FIELD);
  G_OBJECT_CLASS (tg_target_field_parent_class)->dispose (object);
}

static void
tg_target_field_finalize (GObject *object)
{
  g_free (TG_TARGET_FIELD (object)->shown);
  G_OBJECT_CLASS (tg_target_field_parent_class)->finalize (object);
}

static void
tg_target_field_class_init (TgTargetFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_target_field_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_target_field_finalize;
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/target-field.ui");
  gtk_widget_class_bind_template_child (widget_class, TgTargetField, caption);
  gtk_widget_class_bind_template_child (widget_class, TgTargetField, entry);
  gtk_widget_class_bind_template_child (widget_class, TgTargetField, automatic);
  gtk_widget_class_bind_template_child (widget_class, TgTargetField, state);
  gtk_widget_class_bind_template_child (widget_class, TgTargetField, why);
  gtk_widget_class_bind_template_child (widget_class, TgTargetField, problem);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_leave);
  gtk_widget_class_bind_template_callback (widget_class, on_automatic);
}

static void
tg_target_field_init (TgTargetField *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
