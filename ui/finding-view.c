/* finding-view.c: one finding of the review as a quiet or an amber card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "finding-view.h"

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

GtkWidget *
tg_finding_view_new (const TgFinding *finding)
{
  static const char *const classes[] = { "notice-card", "amber-card", "alert-card" };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *text = wrapping_label (finding->text);

  g_return_val_if_fail ((guint) finding->severity < G_N_ELEMENTS (classes), NULL);

  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, classes[finding->severity]);
  gtk_widget_add_css_class (text, "strong");
  gtk_box_append (GTK_BOX (box), text);
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
        gtk_box_append (box, tg_finding_view_new (finding));
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
      gtk_box_append (box, tg_finding_view_new (finding));
      gtk_widget_set_visible (GTK_WIDGET (box), TRUE);
    }
}
