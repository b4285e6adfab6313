/* even-card.c: the whole set is even: as read, as far as it is proven, and what would prove it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * More readings are an offer that can be declined; then the card says what it has to say without it.
 */
#include "even-card.h"

#include "more-readings.h"
#include "why-button.h"
#include "words.h"

struct _TgEvenCard
{
  GtkBox parent_instance;
  TgSession *session;
  guint n_events; /* that the card stands for; G_MAXUINT: none */
  guint repeats;
  gboolean declined;
  GtkWidget *title;
  GtkWidget *bands;
  GtkWidget *offer;
  GtkWidget *more;
  GtkWidget *detail;
};

G_DEFINE_FINAL_TYPE (TgEvenCard, tg_even_card, GTK_TYPE_BOX)

static void
add_band (TgEvenCard *self, const TgReview *review, TgBand band)
{
  g_autoptr (TgProof) proof = tg_review_proof (review, band);
  GtkWidget *label = gtk_label_new (NULL), *why = tg_why_button_new ();
  g_autofree char *explains = g_strdup_printf ("whether the %s are even",
                                               tg_setup_band_label (review->setup, band));
  g_autofree char *single = g_strdup_printf ("%s: one part, nothing to compare.",
                                             tg_setup_band_label (review->setup, band));

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  tg_words_show (GTK_LABEL (label), proof->text[0] ? proof->text : single);
  tg_why_button_give (TG_WHY_BUTTON (why), explains, tg_review_why_band (review, band));
  gtk_box_append (GTK_BOX (self->bands), tg_why_button_row (label, TG_WHY_BUTTON (why)));
  self->repeats = MAX (self->repeats, tg_more_readings_wanted (review, band, proof));
}

static void
refresh_offer (TgEvenCard *self, const TgReview *review)
{
  g_autofree char *label = NULL;

  gtk_widget_set_visible (self->offer, self->repeats > 0 && !self->declined);
  if (self->repeats == 0)
    return;
  label = tg_more_readings_label (review, self->repeats);
  gtk_label_set_text (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->more))), label);
}

static gboolean
all_proven (const TgReview *review)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present && !review->bands[b].proven)
      return FALSE;
  return TRUE;
}

static void
refresh (TgEvenCard *self)
{
  const TgReview *review = tg_session_review (self->session);
  gboolean proven = all_proven (review);
  g_autofree char *title = g_strdup_printf ("%sThe set is %s", proven ? "✓ " : "",
                                            review->next->large);
  GtkWidget *child;

  self->n_events = review->n_events;
  self->repeats = 0;
  while ((child = gtk_widget_get_first_child (self->bands)))
    gtk_box_remove (GTK_BOX (self->bands), child);
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present)
      add_band (self, review, b);
  if (proven)
    self->repeats = 0;
  gtk_widget_remove_css_class (GTK_WIDGET (self), proven ? "notice-card" : "good-card");
  gtk_widget_add_css_class (GTK_WIDGET (self), proven ? "good-card" : "notice-card");
  tg_words_show (GTK_LABEL (self->title), title);
  tg_words_show (GTK_LABEL (self->detail), review->next->detail);
  refresh_offer (self, review);
}

void
tg_even_card_show (TgEvenCard *card, TgSession *session)
{
  gboolean even;

  g_return_if_fail (TG_IS_EVEN_CARD (card));

  if (session != card->session)
    {
      card->declined = FALSE;
      card->n_events = G_MAXUINT;
    }
  g_set_object (&card->session, session);
  even = session && tg_session_review (session)->done;
  gtk_widget_set_visible (GTK_WIDGET (card), even);
  if (even && card->n_events != tg_session_review (session)->n_events)
    refresh (card);
}

static void
on_more (TgEvenCard *self)
{
  tg_more_readings_ask (GTK_WIDGET (self), self->session, self->repeats);
}

static void
on_decline (TgEvenCard *self)
{
  self->declined = TRUE;
  gtk_widget_set_visible (self->offer, FALSE);
  gtk_widget_activate_action (GTK_WIDGET (self), "grind.focus", NULL);
}

static void
tg_even_card_dispose (GObject *object)
{
  g_clear_object (&TG_EVEN_CARD (object)->session);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_EVEN_CARD);
  G_OBJECT_CLASS (tg_even_card_parent_class)->dispose (object);
}

static void
tg_even_card_class_init (TgEvenCardClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_even_card_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/even-card.ui");
  gtk_widget_class_bind_template_child (widget_class, TgEvenCard, title);
  gtk_widget_class_bind_template_child (widget_class, TgEvenCard, bands);
  gtk_widget_class_bind_template_child (widget_class, TgEvenCard, offer);
  gtk_widget_class_bind_template_child (widget_class, TgEvenCard, more);
  gtk_widget_class_bind_template_child (widget_class, TgEvenCard, detail);
  gtk_widget_class_bind_template_callback (widget_class, on_more);
  gtk_widget_class_bind_template_callback (widget_class, on_decline);
}

static void
tg_even_card_init (TgEvenCard *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  self->n_events = G_MAXUINT;
}
