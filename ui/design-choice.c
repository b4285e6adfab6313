/* design-choice.c: the designs of the library as a choice of drawings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One radio button per design whose child is the drawing, so that choosing by keyboard, pointer and
 * screen reader is the toolkit's own.
 */
#include "design-choice.h"

#include "columns.h"
#include "design-picture.h"
#include "words.h"

struct _TgDesignChoice
{
  GtkBox parent_instance;
  TgColumns *cards;
  double centres;
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgDesignChoice, tg_design_choice, GTK_TYPE_BOX)

static const TgDesign *
design_of (GtkWidget *card)
{
  return g_object_get_data (G_OBJECT (card), "design");
}

static void
show_card (TgDesignChoice *self, GtkWidget *card)
{
  g_autoptr (TgDesign) shown = tg_design_copy (design_of (card));

  if (shown->kind == TG_PART_ROD && self->centres > 0)
    {
      shown->rod.centres = self->centres;
      if (!tg_design_check (shown, NULL))
        shown->rod.centres = design_of (card)->rod.centres;
    }
  tg_design_picture_show (g_object_get_data (G_OBJECT (card), "picture"), shown, -1);
}

static void
on_toggled (GtkCheckButton *card, TgDesignChoice *self)
{
  if (gtk_check_button_get_active (card))
    g_signal_emit (self, signals[CHANGED], 0);
}

static GtkWidget *
new_card (TgDesignChoice *self, const TgDesign *design)
{
  GtkWidget *card = gtk_check_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  GtkWidget *picture = tg_design_picture_new (FALSE);
  GtkWidget *name = gtk_label_new (design->name);
  GtkWidget *material = gtk_label_new (design->material);

  gtk_widget_set_hexpand (box, TRUE);
  gtk_label_set_wrap (GTK_LABEL (name), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (name), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_wrap (GTK_LABEL (material), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (material), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_xalign (GTK_LABEL (name), 0);
  gtk_label_set_xalign (GTK_LABEL (material), 0);
  gtk_widget_add_css_class (material, "quiet");
  gtk_widget_add_css_class (material, "small");
  gtk_box_append (GTK_BOX (box), picture);
  gtk_box_append (GTK_BOX (box), name);
  gtk_box_append (GTK_BOX (box), material);
  gtk_check_button_set_child (GTK_CHECK_BUTTON (card), box);
  gtk_widget_add_css_class (card, "choice");
  tg_words_name (card, design->name);
  tg_words_tell (card, design->material);
  g_object_set_data (G_OBJECT (card), "design", (gpointer) design);
  g_object_set_data (G_OBJECT (card), "picture", picture);
  show_card (self, card);
  return card;
}

void
tg_design_choice_fill (TgDesignChoice *self, const TgLibrary *library, TgPartKind kind)
{
  GtkCheckButton *first = NULL;

  g_return_if_fail (TG_IS_DESIGN_CHOICE (self) && library != NULL);

  for (guint i = 0; i < library->designs->len; i++)
    {
      const TgDesign *design = g_ptr_array_index (library->designs, i);
      GtkWidget *card;

      if (design->kind != kind)
        continue;
      card = new_card (self, design);
      if (first)
        gtk_check_button_set_group (GTK_CHECK_BUTTON (card), first);
      else
        first = GTK_CHECK_BUTTON (card);
      g_signal_connect (card, "toggled", G_CALLBACK (on_toggled), self);
      tg_columns_append (self->cards, card);
    }
  if (first)
    gtk_check_button_set_active (first, TRUE);
}

const TgDesign *
tg_design_choice_get (TgDesignChoice *self)
{
  g_return_val_if_fail (TG_IS_DESIGN_CHOICE (self), NULL);

  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards)); card;
       card = gtk_widget_get_next_sibling (card))
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (card)))
      return design_of (card);
  return NULL;
}

void
tg_design_choice_set (TgDesignChoice *self, const TgDesign *design)
{
  g_return_if_fail (TG_IS_DESIGN_CHOICE (self));

  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards)); card;
       card = gtk_widget_get_next_sibling (card))
    if (design_of (card) == design)
      gtk_check_button_set_active (GTK_CHECK_BUTTON (card), TRUE);
}

void
tg_design_choice_set_centres (TgDesignChoice *self, double centres_mm)
{
  g_return_if_fail (TG_IS_DESIGN_CHOICE (self));

  self->centres = centres_mm;
  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards)); card;
       card = gtk_widget_get_next_sibling (card))
    show_card (self, card);
}

/* The focus goes to the chosen card. */
static gboolean
tg_design_choice_grab_focus (GtkWidget *widget)
{
  TgDesignChoice *self = TG_DESIGN_CHOICE (widget);

  for (GtkWidget *card = gtk_widget_get_first_child (GTK_WIDGET (self->cards)); card;
       card = gtk_widget_get_next_sibling (card))
    if (gtk_check_button_get_active (GTK_CHECK_BUTTON (card)))
      return gtk_widget_grab_focus (card);
  return FALSE;
}

static void
tg_design_choice_class_init (TgDesignChoiceClass *klass)
{
  GTK_WIDGET_CLASS (klass)->grab_focus = tg_design_choice_grab_focus;
  signals[CHANGED] = g_signal_new ("changed", TG_TYPE_DESIGN_CHOICE, G_SIGNAL_RUN_LAST, 0, NULL,
                                   NULL, NULL, G_TYPE_NONE, 0);
}

static void
tg_design_choice_init (TgDesignChoice *self)
{
  self->cards = TG_COLUMNS (tg_columns_new (170));
  g_object_set (self->cards, "max-columns", 2, NULL);
  gtk_widget_set_hexpand (GTK_WIDGET (self->cards), TRUE);
  gtk_box_append (GTK_BOX (self), GTK_WIDGET (self->cards));
}
