/* crankpins-choice.c: which rods share a crankpin
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The answers name the bores of the engine they are about.  With two cylinders there is one way to
 * share only; a file may have either word for it, and keeps it.
 */
#include "crankpins-choice.h"

#include "words.h"

struct _TgCrankpinsChoice
{
  GtkBox parent_instance;
  GtkWidget *choice;
  guint cylinders;
  TgSharing sharing;
  gboolean showing;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgCrankpinsChoice, tg_crankpins_choice, GTK_TYPE_BOX)

gboolean
tg_crankpins_choice_can_share (TgLayout layout, guint cylinders)
{
  return layout != TG_LAYOUT_INLINE && cylinders % 2 == 0 &&
         cylinders >= (layout == TG_LAYOUT_VEE ? 2 : 4);
}

/* "two: bores 1 + 5, 2 + 6 …" */
static char *
answer_words (guint cylinders, TgSharing sharing)
{
  TgSetup setup = { .cylinders = cylinders, .sharing = sharing };
  GString *words = g_string_new ("two: bores");

  for (guint pin = 0; pin < MIN (cylinders / 2, 2); pin++)
    {
      guint bores[2];

      tg_setup_crankpin (&setup, pin, bores);
      g_string_append_printf (words, "%s %u + %u", pin > 0 ? "," : "", bores[0], bores[1]);
    }
  if (cylinders > 4)
    g_string_append (words, " …");
  return g_string_free (words, FALSE);
}

static guint
n_answers (TgCrankpinsChoice *self)
{
  return self->cylinders > 2 ? TG_N_SHARINGS : TG_N_SHARINGS - 1;
}

static void
show (TgCrankpinsChoice *self)
{
  self->showing = TRUE;
  gtk_drop_down_set_selected (GTK_DROP_DOWN (self->choice),
                              MIN ((guint) self->sharing, n_answers (self) - 1));
  self->showing = FALSE;
}

void
tg_crankpins_choice_set_cylinders (TgCrankpinsChoice *self, guint cylinders)
{
  g_autoptr (GtkStringList) answers = gtk_string_list_new (NULL);

  g_return_if_fail (TG_IS_CRANKPINS_CHOICE (self) && cylinders >= 2 && cylinders % 2 == 0);

  if (self->cylinders == cylinders)
    return;
  self->cylinders = cylinders;
  gtk_string_list_append (answers, "one each");
  for (guint sharing = TG_SHARING_NEIGHBOURS; sharing < n_answers (self); sharing++)
    gtk_string_list_take (answers, answer_words (cylinders, sharing));
  self->showing = TRUE;
  gtk_drop_down_set_model (GTK_DROP_DOWN (self->choice), G_LIST_MODEL (answers));
  show (self);
}

TgSharing
tg_crankpins_choice_get (TgCrankpinsChoice *self)
{
  g_return_val_if_fail (TG_IS_CRANKPINS_CHOICE (self), TG_SHARING_OWN);

  return self->sharing;
}

void
tg_crankpins_choice_set (TgCrankpinsChoice *self, TgSharing sharing)
{
  g_return_if_fail (TG_IS_CRANKPINS_CHOICE (self));

  self->sharing = sharing;
  show (self);
}

static void
on_selected (TgCrankpinsChoice *self)
{
  if (self->showing)
    return;
  self->sharing = (TgSharing) gtk_drop_down_get_selected (GTK_DROP_DOWN (self->choice));
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
add_label (TgCrankpinsChoice *self, const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_widget_add_css_class (label, style);
  gtk_box_append (GTK_BOX (self), label);
}

static void
tg_crankpins_choice_class_init (TgCrankpinsChoiceClass *klass)
{
  signals[CHANGED] = g_signal_new ("changed", G_TYPE_FROM_CLASS (klass), G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
tg_crankpins_choice_init (TgCrankpinsChoice *self)
{
  gtk_orientable_set_orientation (GTK_ORIENTABLE (self), GTK_ORIENTATION_VERTICAL);
  gtk_box_set_spacing (GTK_BOX (self), 2);
  add_label (self, "Rods on a crankpin", "field-label");
  self->choice = gtk_drop_down_new (NULL, NULL);
  gtk_widget_set_halign (self->choice, GTK_ALIGN_START);
  gtk_box_append (GTK_BOX (self), self->choice);
  tg_words_name_choice (GTK_DROP_DOWN (self->choice), "Rods on a crankpin");
  g_signal_connect_swapped (self->choice, "notify::selected", G_CALLBACK (on_selected), self);
  tg_crankpins_choice_set_cylinders (self, 4);
}

GtkWidget *
tg_crankpins_choice_new (void)
{
  return g_object_new (TG_TYPE_CRANKPINS_CHOICE, NULL);
}
