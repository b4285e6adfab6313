/* effort-field.c: how long the pass was, if the person counted
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * It may stay empty, but at a practice bench, where a pass is as long as is said.  What is counted once
 * teaches how long the next pass should be.
 */
#include "effort-field.h"

#include "effort.h"
#include "words.h"

struct _TgEffortField
{
  GtkBox parent_instance;
  gboolean wanted;
  GtkWidget *name;
  GtkWidget *field;
  GtkWidget *unit;
  GtkWidget *problem;
};

enum
{
  SIGNAL_ENTERED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgEffortField, tg_effort_field, GTK_TYPE_BOX)

static TgEffort
effort_of (TgEffortField *self)
{
  return TG_EFFORT_STROKES + gtk_drop_down_get_selected (GTK_DROP_DOWN (self->unit));
}

void
tg_effort_field_remember (TgEffortField *field, const TgJob *job)
{
  g_return_if_fail (TG_IS_EFFORT_FIELD (field) && job != NULL);

  for (guint i = tg_job_n_events (job); i-- > 0;)
    {
      const TgEvent *event = tg_job_event (job, i);

      if (event->kind != TG_EVENT_PASS || event->effort == TG_EFFORT_NONE)
        continue;
      gtk_drop_down_set_selected (GTK_DROP_DOWN (field->unit), event->effort - TG_EFFORT_STROKES);
      return;
    }
}

gboolean
tg_effort_field_read (TgEffortField *field, TgEffort *effort, guint *count)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;

  g_return_val_if_fail (TG_IS_EFFORT_FIELD (field), FALSE);

  *effort = TG_EFFORT_NONE;
  *count = 0;
  text = g_strstrip (g_strdup (gtk_editable_get_text (GTK_EDITABLE (field->field))));
  if (text[0] == '\0' && !field->wanted)
    return TRUE;
  *effort = effort_of (field);
  if (tg_effort_parse (*effort, text, count, &error))
    return TRUE;
  tg_words_show_problem (field->field, GTK_LABEL (field->problem), error->message);
  gtk_widget_grab_focus (field->field);
  return FALSE;
}

void
tg_effort_field_set_wanted (TgEffortField *field, gboolean wanted)
{
  g_return_if_fail (TG_IS_EFFORT_FIELD (field));

  field->wanted = wanted;
  gtk_label_set_text_with_mnemonic (GTK_LABEL (field->name), wanted ? "How _long" : "It too_k");
  gtk_entry_set_placeholder_text (GTK_ENTRY (field->field), wanted ? "" : "if counted");
}

void
tg_effort_field_focus (TgEffortField *field)
{
  g_return_if_fail (TG_IS_EFFORT_FIELD (field));

  gtk_widget_grab_focus (field->field);
}

void
tg_effort_field_clear (TgEffortField *field)
{
  g_return_if_fail (TG_IS_EFFORT_FIELD (field));

  gtk_editable_set_text (GTK_EDITABLE (field->field), "");
}

static void
on_edited (TgEffortField *self)
{
  tg_words_show_problem (self->field, GTK_LABEL (self->problem), NULL);
}

static void
on_activate (TgEffortField *self)
{
  g_signal_emit (self, signals[SIGNAL_ENTERED], 0);
}

static void
tg_effort_field_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_EFFORT_FIELD);
  G_OBJECT_CLASS (tg_effort_field_parent_class)->dispose (object);
}

static void
tg_effort_field_class_init (TgEffortFieldClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_effort_field_dispose;
  signals[SIGNAL_ENTERED] = g_signal_new ("entered", TG_TYPE_EFFORT_FIELD, G_SIGNAL_RUN_LAST, 0,
                                          NULL, NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/effort-field.ui");
  gtk_widget_class_bind_template_child (widget_class, TgEffortField, name);
  gtk_widget_class_bind_template_child (widget_class, TgEffortField, field);
  gtk_widget_class_bind_template_child (widget_class, TgEffortField, unit);
  gtk_widget_class_bind_template_child (widget_class, TgEffortField, problem);
  gtk_widget_class_bind_template_callback (widget_class, on_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_edited);
}

static void
tg_effort_field_init (TgEffortField *self)
{
  g_autoptr (GtkStringList) units = gtk_string_list_new (NULL);

  gtk_widget_init_template (GTK_WIDGET (self));
  for (TgEffort effort = TG_EFFORT_STROKES; effort < TG_N_EFFORTS; effort++)
    gtk_string_list_append (units, tg_effort_label (effort));
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->unit), G_LIST_MODEL (units));
  tg_words_name_choice (GTK_DROP_DOWN (self->unit), "Strokes or minutes");
}
