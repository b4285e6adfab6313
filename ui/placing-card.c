/* placing-card.c: what a shelf of spares offers, and how crankpins that carry two rods are loaded
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Both offers are pairings like any other: one press appends the event, and undo takes it back.
 */
#include "placing-card.h"

#include "choice-button.h"
#include "pairing.h"
#include "words.h"

struct _TgPlacingCard
{
  GtkBox parent_instance;
  GtkWidget *shelf;
  GtkWidget *shelf_choices;
  GtkWidget *pins;
  GtkWidget *pins_text;
  GtkWidget *pins_list;
  GtkWidget *pins_choices;
  TgSession *session;
  GPtrArray *choices; /* (element-type TgChoice) owned, by number of the button */
};

enum
{
  SIGNAL_LEAVE,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgPlacingCard, tg_placing_card, GTK_TYPE_BOX)

static void
on_clicked (GtkButton *button, TgPlacingCard *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "index"));
  const TgChoice *choice = g_ptr_array_index (self->choices, index);
  g_autoptr (GError) error = NULL;

  g_signal_emit (self, signals[SIGNAL_LEAVE], 0);
  /* the page shows the card anew */
  if (!tg_session_append (self->session, (const TgEvent *) (gpointer) choice->events->data,
                          choice->events->len, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

/* Takes @choice. */
static void
add_choice (TgPlacingCard *self, GtkWidget *box, TgChoice *choice)
{
  GtkWidget *button = tg_choice_button_new (choice, "");

  g_object_set_data (G_OBJECT (button), "index", GUINT_TO_POINTER (self->choices->len));
  g_signal_connect_object (button, "clicked", G_CALLBACK (on_clicked), self, 0);
  g_ptr_array_add (self->choices, choice);
  gtk_box_append (
      GTK_BOX (box),
      tg_choice_button_explain (button, choice->title,
                                tg_review_why_choice (tg_session_review (self->session), choice)));
}

static void
clear (GtkWidget *box)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (box)))
    gtk_box_remove (GTK_BOX (box), child);
}

/* A choice that leaves every part where it is says nothing. */
static gboolean
changes_something (const TgReview *review, const TgChoice *choice)
{
  const TgEvent *event = &g_array_index (choice->events, TgEvent, 0);
  g_autoptr (TgSetup) then = tg_setup_copy (review->setup);

  tg_setup_place (then, event->places, NULL);
  return !tg_setup_equal (then, review->setup);
}

static void
show_shelf (TgPlacingCard *self, const TgReview *review)
{
  guint before = self->choices->len;

  clear (self->shelf_choices);
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      g_autofree char *why_not = NULL;
      TgChoice *choice = NULL;

      if (tg_setup_has_kind (review->setup, kind))
        choice = tg_pairing_choose (review, kind, &why_not);
      if (choice && changes_something (review, choice))
        add_choice (self, self->shelf_choices, choice);
      else if (choice)
        tg_choice_free (choice);
    }
  gtk_widget_set_visible (self->shelf, self->choices->len > before);
}

static void
add_pin (TgPlacingCard *self, const TgReview *review, const TgPairingCrankpins *pins, guint pin)
{
  g_autofree char *sum = tg_review_grams (review, pins->sum_g[pin]);
  g_autofree char *text = g_strdup_printf ("Bores %u and %u: %s g", pins->bore[pin][0],
                                           pins->bore[pin][1], sum);

  gtk_box_append (GTK_BOX (self->pins_list), tg_choice_button_line (text, NULL));
}

static void
show_pins (TgPlacingCard *self, const TgReview *review)
{
  g_autoptr (TgPairingCrankpins) pins = tg_pairing_crankpins (review);
  g_autofree char *spread = NULL;
  g_autofree char *text = NULL;

  clear (self->pins_list);
  clear (self->pins_choices);
  gtk_widget_set_visible (self->pins, pins != NULL);
  if (!pins)
    return;
  spread = tg_review_grams (review, pins->spread_g);
  text = g_strdup_printf ("With all that sits on them, ground as planned, they differ by %s g.%s",
                          spread,
                          pins->choice ? "" : " Moving whole sets would not make them more even.");
  tg_words_show (GTK_LABEL (self->pins_text),
                 pins->n_pins > 1 ? text : "With all that sits on it, ground as planned.");
  for (guint pin = 0; pin < pins->n_pins; pin++)
    add_pin (self, review, pins, pin);
  if (pins->choice)
    add_choice (self, self->pins_choices, g_steal_pointer (&pins->choice));
}

void
tg_placing_card_show (TgPlacingCard *card, TgSession *session)
{
  const TgReview *review;

  g_return_if_fail (TG_IS_PLACING_CARD (card) && TG_IS_SESSION (session));

  g_set_object (&card->session, session);
  review = tg_session_review (session);
  g_ptr_array_set_size (card->choices, 0);
  show_shelf (card, review);
  show_pins (card, review);
  gtk_widget_set_visible (GTK_WIDGET (card), gtk_widget_get_visible (card->shelf) ||
                                                 gtk_widget_get_visible (card->pins));
}

static void
tg_placing_card_dispose (GObject *object)
{
  TgPlacingCard *self = TG_PLACING_CARD (object);

  g_clear_object (&self->session);
  g_clear_pointer (&self->choices, g_ptr_array_unref);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_PLACING_CARD);
  G_OBJECT_CLASS (tg_placing_card_parent_class)->dispose (object);
}

static void
tg_placing_card_class_init (TgPlacingCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_placing_card_dispose;
  signals[SIGNAL_LEAVE] = g_signal_new ("leave", TG_TYPE_PLACING_CARD, G_SIGNAL_RUN_LAST, 0, NULL,
                                        NULL, NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/placing-card.ui");
  gtk_widget_class_bind_template_child (widget_class, TgPlacingCard, shelf);
  gtk_widget_class_bind_template_child (widget_class, TgPlacingCard, shelf_choices);
  gtk_widget_class_bind_template_child (widget_class, TgPlacingCard, pins);
  gtk_widget_class_bind_template_child (widget_class, TgPlacingCard, pins_text);
  gtk_widget_class_bind_template_child (widget_class, TgPlacingCard, pins_list);
  gtk_widget_class_bind_template_child (widget_class, TgPlacingCard, pins_choices);
}

static void
tg_placing_card_init (TgPlacingCard *self)
{
  self->choices = g_ptr_array_new_with_free_func ((GDestroyNotify) tg_choice_free);
  gtk_widget_init_template (GTK_WIDGET (self));
}
