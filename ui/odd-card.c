/* odd-card.c: which one part, replaced, would save the most grinding on the others
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Only the best of each kind is named: one part is replaced, then everything is different.
 */
#include "odd-card.h"

#include "choice-button.h"
#include "pairing.h"
#include "why-button.h"

struct _TgOddCard
{
  GtkBox parent_instance;
  GtkWidget *rows;
};

G_DEFINE_FINAL_TYPE (TgOddCard, tg_odd_card, GTK_TYPE_BOX)

static void
add_row (TgOddCard *self, const TgPairingOdd *odd)
{
  GtkWidget *label = tg_choice_button_line (odd->words, "quiet"), *why = tg_why_button_new ();

  tg_why_button_give (TG_WHY_BUTTON (why), "the odd one out", g_ptr_array_ref (odd->why));
  gtk_box_append (GTK_BOX (self->rows), tg_why_button_row (label, TG_WHY_BUTTON (why)));
}

void
tg_odd_card_show (TgOddCard *card, const TgReview *review)
{
  static const TgPartKind kinds[] = { TG_PART_PISTON, TG_PART_ROD };
  GtkWidget *child;

  g_return_if_fail (TG_IS_ODD_CARD (card) && review != NULL);

  while ((child = gtk_widget_get_first_child (card->rows)))
    gtk_box_remove (GTK_BOX (card->rows), child);
  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_autoptr (GPtrArray) odds = tg_pairing_odd_one_out (review, kinds[i]);

      if (odds->len > 0)
        add_row (card, g_ptr_array_index (odds, 0));
    }
  gtk_widget_set_visible (GTK_WIDGET (card), gtk_widget_get_first_child (card->rows) != NULL);
}

static void
tg_odd_card_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_ODD_CARD);
  G_OBJECT_CLASS (tg_odd_card_parent_class)->dispose (object);
}

static void
tg_odd_card_class_init (TgOddCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_odd_card_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/odd-card.ui");
  gtk_widget_class_bind_template_child (widget_class, TgOddCard, rows);
}

static void
tg_odd_card_init (TgOddCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
