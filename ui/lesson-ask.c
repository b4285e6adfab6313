/* lesson-ask.c: what a lesson asks, see lesson-ask.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lesson-ask.h"

#include "columns.h"
#include "words.h"

/* Names of parts beside each other, at most. */
#define NAMES_A_LINE 6

struct _TgLessonAsk
{
  GtkBox parent_instance;
  const TgLessonAnswer *right;
  gboolean settled;
  GtkWidget *options;
  GtkWidget *number;
  GtkWidget *entry;
  GtkWidget *unit;
  GtkWidget *check;
  GtkWidget *verdict;
};

enum
{
  ANSWERED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgLessonAsk, tg_lesson_ask, GTK_TYPE_BOX)

static void
show_verdict (TgLessonAsk *self, const char *words, gboolean good)
{
  gtk_widget_set_visible (self->verdict, words != NULL);
  tg_words_show (GTK_LABEL (self->verdict), words);
  gtk_widget_remove_css_class (self->verdict, good ? "alert" : "good");
  gtk_widget_add_css_class (self->verdict, good ? "good" : "alert");
}

static void
on_check (TgLessonAsk *self)
{
  g_autofree char *text = g_strdup (gtk_editable_get_text (GTK_EDITABLE (self->entry)));

  if (self->settled || !self->right)
    return;
  if (tg_lesson_answer_can_be (self->right, text))
    {
      g_signal_emit (self, signals[ANSWERED], 0, text);
      return;
    }
  gtk_widget_add_css_class (self->entry, "error");
  show_verdict (self, "A number is wanted, with a sign where it is below zero.", FALSE);
}

static void
on_option (GtkButton *button, TgLessonAsk *self)
{
  g_autofree char *value = g_strdup (g_object_get_data (G_OBJECT (button), "value"));

  g_signal_emit (self, signals[ANSWERED], 0, value);
}

/* -- showing --------------------------------------------------------------------------------------- */

static void
add_option (TgLessonAsk *self, const TgLessonOption *option, const char *given)
{
  GtkWidget *button = gtk_button_new_with_label (option->text);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (button, "choice");
  gtk_widget_set_sensitive (button, !self->settled);
  if (g_strcmp0 (given, option->value) == 0)
    gtk_widget_add_css_class (button, option->right ? "right" : "wrong");
  g_object_set_data_full (G_OBJECT (button), "value", g_strdup (option->value), g_free);
  g_signal_connect_object (button, "clicked", G_CALLBACK (on_option), self, 0);
  tg_columns_append (TG_COLUMNS (self->options), button);
}

/* Sentences stand one below the other, names of parts side by side. */
static void
show_options (TgLessonAsk *self, TgLessonQuestionKind kind, const char *given)
{
  gboolean sentences = kind == TG_LESSON_ASK_CHOICE;
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (self->options)))
    gtk_widget_unparent (child);
  gtk_widget_set_visible (self->options, self->right && self->right->options->len > 0);
  g_object_set (self->options, "max-columns", sentences ? 1 : NAMES_A_LINE, NULL);
  gtk_widget_set_halign (self->options, sentences ? GTK_ALIGN_FILL : GTK_ALIGN_START);
  for (guint i = 0; self->right && i < self->right->options->len; i++)
    add_option (self, g_ptr_array_index (self->right->options, i), given);
}

static void
show_number (TgLessonAsk *self, gboolean anew)
{
  gboolean wanted = self->right && self->right->options->len == 0 &&
                    self->right->missing[0] == '\0';

  gtk_widget_set_visible (self->number, wanted);
  if (anew)
    gtk_editable_set_text (GTK_EDITABLE (self->entry), "");
  if (!wanted)
    return;
  gtk_label_set_text (GTK_LABEL (self->unit), self->right->unit);
  gtk_editable_set_editable (GTK_EDITABLE (self->entry), !self->settled);
  gtk_widget_set_visible (self->check, !self->settled);
  gtk_widget_remove_css_class (self->entry, "error");
}

/* (transfer full): "Right: −0.12 g." */
static char *
verdict_words (TgLessonAsk *self, const char *given)
{
  g_autofree char *said = tg_lesson_answer_words (self->right, given);

  if (self->right->options->len > 0)
    return g_strdup (self->settled ? "✓ Right." : "✗ Not right. See how it is, and try once more.");
  return self->settled ? g_strdup_printf ("✓ Right: %s", said)
                       : g_strdup_printf (
                             "✗ Not right: %s. See how it comes about, and try once more.", said);
}

void
tg_lesson_ask_show (TgLessonAsk *ask,
                    TgLessonQuestionKind kind,
                    const TgLessonAnswer *right,
                    const char *given,
                    gboolean settled,
                    gboolean anew)
{
  g_autofree char *words = NULL;

  g_return_if_fail (TG_IS_LESSON_ASK (ask));

  ask->right = right;
  ask->settled = settled;
  words = right && given ? verdict_words (ask, given) : NULL;
  gtk_widget_set_visible (GTK_WIDGET (ask), right != NULL);
  show_options (ask, kind, given);
  show_number (ask, anew);
  show_verdict (ask, words, settled);
}

gboolean
tg_lesson_ask_focus (TgLessonAsk *ask)
{
  g_return_val_if_fail (TG_IS_LESSON_ASK (ask), FALSE);

  if (!ask->right || ask->settled)
    return FALSE;
  return gtk_widget_get_visible (ask->number)
             ? gtk_widget_grab_focus (ask->entry)
             : gtk_widget_get_focus_child (ask->options) ||
                   gtk_widget_child_focus (ask->options, GTK_DIR_TAB_FORWARD);
}

/* -- the type -------------------------------------------------------------------------------------- */

static void
tg_lesson_ask_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_LESSON_ASK);
  G_OBJECT_CLASS (tg_lesson_ask_parent_class)->dispose (object);
}

static void
tg_lesson_ask_class_init (TgLessonAskClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_lesson_ask_dispose;
  signals[ANSWERED] = g_signal_new ("answered", TG_TYPE_LESSON_ASK, G_SIGNAL_RUN_LAST, 0, NULL,
                                    NULL, NULL, G_TYPE_NONE, 1, G_TYPE_STRING);
  g_type_ensure (TG_TYPE_COLUMNS);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/lesson-ask.ui");
  gtk_widget_class_bind_template_child (widget_class, TgLessonAsk, options);
  gtk_widget_class_bind_template_child (widget_class, TgLessonAsk, number);
  gtk_widget_class_bind_template_child (widget_class, TgLessonAsk, entry);
  gtk_widget_class_bind_template_child (widget_class, TgLessonAsk, unit);
  gtk_widget_class_bind_template_child (widget_class, TgLessonAsk, check);
  gtk_widget_class_bind_template_child (widget_class, TgLessonAsk, verdict);
  gtk_widget_class_bind_template_callback (widget_class, on_check);
}

static void
tg_lesson_ask_init (TgLessonAsk *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
