/* proof-line.c: what the readings of one band prove, and how many more would
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "proof-line.h"

#include "more-readings.h"
#include "why-button.h"
#include "words.h"

struct _TgProofLine
{
  GtkBox parent_instance;
  TgSession *session;
  TgBand band;
  guint n_events; /* that the text stands for */
  guint repeats;
  GtkWidget *text;
  GtkWidget *why;
  GtkWidget *more;
};

G_DEFINE_FINAL_TYPE (TgProofLine, tg_proof_line, GTK_TYPE_BOX)

static void
refresh (TgProofLine *self)
{
  const TgReview *review = tg_session_review (self->session);
  g_autoptr (TgProof) proof = tg_review_proof (review, self->band);
  g_autofree char *label = NULL;
  g_autofree char *explains = g_strdup_printf ("what readings prove of the %s",
                                               tg_setup_band_label (review->setup, self->band));

  self->n_events = review->n_events;
  self->repeats = tg_more_readings_wanted (review, self->band, proof);
  gtk_widget_set_visible (GTK_WIDGET (self), proof->text[0] != '\0');
  tg_words_show (GTK_LABEL (self->text), proof->text);
  tg_why_button_give (TG_WHY_BUTTON (self->why), explains,
                      tg_review_why_proof (review, self->band, proof));
  gtk_widget_set_visible (self->more, self->repeats > 0);
  if (self->repeats == 0)
    return;
  label = tg_more_readings_label (review, self->repeats);
  gtk_label_set_text (GTK_LABEL (gtk_button_get_child (GTK_BUTTON (self->more))), label);
}

void
tg_proof_line_show (TgProofLine *line, TgSession *session, TgBand band)
{
  gboolean same;

  g_return_if_fail (TG_IS_PROOF_LINE (line));

  same = session && session == line->session && band == line->band &&
         tg_session_review (session)->n_events == line->n_events;
  g_set_object (&line->session, session);
  line->band = band;
  if (!session)
    gtk_widget_set_visible (GTK_WIDGET (line), FALSE);
  else if (!same)
    refresh (line);
}

static void
on_more (TgProofLine *self)
{
  tg_more_readings_ask (GTK_WIDGET (self), self->session, self->repeats);
}

static void
tg_proof_line_dispose (GObject *object)
{
  g_clear_object (&TG_PROOF_LINE (object)->session);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_PROOF_LINE);
  G_OBJECT_CLASS (tg_proof_line_parent_class)->dispose (object);
}

static void
tg_proof_line_class_init (TgProofLineClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_proof_line_dispose;
  g_type_ensure (TG_TYPE_WHY_BUTTON);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/proof-line.ui");
  gtk_widget_class_bind_template_child (widget_class, TgProofLine, text);
  gtk_widget_class_bind_template_child (widget_class, TgProofLine, why);
  gtk_widget_class_bind_template_child (widget_class, TgProofLine, more);
  gtk_widget_class_bind_template_callback (widget_class, on_more);
}

static void
tg_proof_line_init (TgProofLine *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
