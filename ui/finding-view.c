/* finding-view.c: one finding of the review as a quiet or an amber card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "finding-view.h"

#include "why-button.h"
#include "words.h"

static GtkWidget *
wrapping_label (const char *text)
{
  g_autofree char *kept = tg_words_keep_units (text);
  GtkWidget *label = gtk_label_new (kept);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  return label;
}

/* "Rod 2: the two ways up differ" */
static GtkWidget *
why_button (const TgReview *review, const TgFinding *finding)
{
  GtkWidget *button = tg_why_button_new ();
  const char *label = tg_finding_label (finding->code);
  g_autofree char *explains = finding->part < 0
                                  ? g_strdup (label)
                                  : g_strdup_printf (
                                        "%s: %s",
                                        tg_review_part (review, (guint) finding->part)->part->name,
                                        label);

  tg_why_button_give (TG_WHY_BUTTON (button), explains, tg_review_why_finding (review, finding));
  return button;
}

GtkWidget *
tg_finding_view_new (const TgReview *review, const TgFinding *finding)
{
  static const char *const classes[] = { "notice-card", "amber-card", "alert-card" };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *text = wrapping_label (finding->text);

  g_return_val_if_fail ((guint) finding->severity < G_N_ELEMENTS (classes), NULL);

  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, "finding");
  gtk_widget_add_css_class (box, classes[finding->severity]);
  gtk_widget_add_css_class (text, "strong");
  gtk_box_append (GTK_BOX (box),
                  tg_why_button_row (text, TG_WHY_BUTTON (why_button (review, finding))));
  if (finding->advice[0] != '\0')
    gtk_box_append (GTK_BOX (box), wrapping_label (finding->advice));
  return box;
}

void
tg_finding_view_fill (GtkBox *box, const TgReview *review, int part)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (box))))
    gtk_box_remove (box, child);
  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      if (part < 0 || finding->part == part)
        gtk_box_append (box, tg_finding_view_new (review, finding));
    }
  gtk_widget_set_visible (GTK_WIDGET (box), gtk_widget_get_first_child (GTK_WIDGET (box)) != NULL);
}

void
tg_finding_view_add_bench (GtkBox *box, const TgReview *review)
{
  for (guint i = 0; i < review->findings->len; i++)
    {
      const TgFinding *finding = g_ptr_array_index (review->findings, i);

      if (finding->code != TG_FINDING_ZERO && finding->code != TG_FINDING_CHECK_WEIGHT &&
          finding->code != TG_FINDING_LEVER)
        continue;
      gtk_box_append (box, tg_finding_view_new (review, finding));
      gtk_widget_set_visible (GTK_WIDGET (box), TRUE);
    }
}
