/* odd-card.c: which one part, replaced, would save the most grinding on the others
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Only the best of each kind is named: one part is replaced, then everything is different.
 */
#include "odd-card.h"

#include "pairing.h"
#include "words.h"

struct _TgOddCard
{
  GtkBox parent_instance;
  GtkWidget *text;
};

G_DEFINE_FINAL_TYPE (TgOddCard, tg_odd_card, GTK_TYPE_BOX)

void
tg_odd_card_show (TgOddCard *card, const TgReview *review)
{
  static const TgPartKind kinds[] = { TG_PART_PISTON, TG_PART_ROD };
  g_autoptr (GString) text = g_string_new (NULL);

  g_return_if_fail (TG_IS_ODD_CARD (card) && review != NULL);

  for (guint i = 0; i < G_N_ELEMENTS (kinds); i++)
    {
      g_auto (GStrv) sentences = tg_pairing_odd_one_out (review, kinds[i]);

      if (sentences && sentences[0])
        g_string_append_printf (text, "%s%s", text->len > 0 ? "\n" : "", sentences[0]);
    }
  tg_words_show (GTK_LABEL (card->text), text->str);
  gtk_widget_set_visible (GTK_WIDGET (card), text->len > 0);
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
  gtk_widget_class_bind_template_child (widget_class, TgOddCard, text);
}

static void
tg_odd_card_init (TgOddCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
