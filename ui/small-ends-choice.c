/* small-ends-choice.c: what the small ends of the rods have to do with the pistons
 *
 * Three short answers; the one that is chosen is told in a sentence below.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "small-ends-choice.h"

#include "words.h"

static const struct
{
  const char *label;
  const char *sentence;
} answers[TG_N_SMALL_ENDS] = {
  [TG_SMALL_ENDS_APART] = { "by themselves",
                            "Small ends have to be even by themselves; pistons are matched "
                            "without them." },
  [TG_SMALL_ENDS_SUM] = { "with their pistons",
                          "Small ends count in the sum with their pistons and may differ by "
                          "themselves." },
  [TG_SMALL_ENDS_BOTH] = { "both",
                           "Small ends count in the sum with their pistons and have to be even by "
                           "themselves as well." },
};

struct _TgSmallEndsChoice
{
  GtkBox parent_instance;
  GtkWidget *choice;
  GtkWidget *sentence;
  gboolean showing;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgSmallEndsChoice, tg_small_ends_choice, GTK_TYPE_BOX)

const char *
tg_small_ends_choice_label (TgSmallEnds small_ends)
{
  g_return_val_if_fail ((guint) small_ends < TG_N_SMALL_ENDS, "");

  return answers[small_ends].label;
}

TgSmallEnds
tg_small_ends_choice_get (TgSmallEndsChoice *self)
{
  g_return_val_if_fail (TG_IS_SMALL_ENDS_CHOICE (self), TG_SMALL_ENDS_APART);

  return (TgSmallEnds) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
}

void
tg_small_ends_choice_set (TgSmallEndsChoice *self, TgSmallEnds small_ends)
{
  g_return_if_fail (TG_IS_SMALL_ENDS_CHOICE (self));

  self->showing = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice), small_ends);
  self->showing = FALSE;
}

static void
on_selected (TgSmallEndsChoice *self)
{
  tg_words_show (GTK_LABEL (self->sentence), answers[tg_small_ends_choice_get (self)].sentence);
  if (!self->showing)
    g_signal_emit (self, signals[CHANGED], 0);
}

static GtkWidget *
add_label (TgSmallEndsChoice *self, const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_box_append (GTK_BOX (self), label);
  return label;
}

static void
tg_small_ends_choice_class_init (TgSmallEndsChoiceClass *klass)
{
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
tg_small_ends_choice_init (TgSmallEndsChoice *self)
{
  g_autoptr (GtkStringList) labels = gtk_string_list_new (NULL);

  for (guint i = 0; i < TG_N_SMALL_ENDS; i++)
    gtk_string_list_append (labels, answers[i].label);
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 2);
  gtk_widget_add_css_class (add_label (self, "Small ends are matched"), "field-label");
  self->choice = gtk_drop_down_new (G_LIST_MODEL (g_steal_pointer (&labels)), NULL);
  gtk_widget_set_halign (self->choice, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self), self->choice);
  tg_words_name_choice (GTK_DROP_DOWN (self->choice), "Small ends are matched");
  self->sentence = add_label (self, NULL);
  gtk_widget_add_css_class (self->sentence, "quiet");
  gtk_widget_add_css_class (self->sentence, "small");
  g_signal_connect_swapped (self->choice, "notify::selected", G_CALLBACK (on_selected), self);
  self->showing = TRUE;
  on_selected (self);
  self->showing = FALSE;
}

GtkWidget *
tg_small_ends_choice_new (void)
{
  return g_object_new (TG_TYPE_SMALL_ENDS_CHOICE, NULL);
}
