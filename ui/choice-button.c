/* choice-button.c: a way to go as a large button, see choice-button.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "choice-button.h"

#include "why-button.h"
#include "words.h"

GtkWidget *
tg_choice_button_line (const char *text, const char *style)
{
  GtkWidget *label = gtk_label_new (NULL);

  tg_words_show (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (style)
    gtk_widget_add_css_class (label, style);
  return label;
}

GtkWidget *
tg_choice_button_new (const TgChoice *choice, const char *cost)
{
  GtkWidget *button = gtk_button_new ();
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 2);
  g_autofree char *describe = g_strdup_printf ("%s %s%s", choice->detail, cost, cost[0] ? "." : "");

  gtk_box_append (GTK_BOX (box), tg_choice_button_line (choice->title, "strong"));
  if (choice->detail[0])
    gtk_box_append (GTK_BOX (box), tg_choice_button_line (choice->detail, NULL));
  if (cost[0])
    gtk_box_append (GTK_BOX (box), tg_choice_button_line (cost, "cost"));
  gtk_button_set_child (GTK_BUTTON (button), box);
  gtk_widget_add_css_class (button, "choice");
  tg_words_name (button, choice->title);
  tg_words_tell (button, describe);
  return button;
}

/* As wide as “Why?” is. */
#define CORNER 48

GtkWidget *
tg_choice_button_explain (GtkWidget *button, const char *explains, GPtrArray *why)
{
  GtkWidget *overlay = gtk_overlay_new (), *reason = tg_why_button_new ();
  GtkWidget *box = gtk_button_get_child (GTK_BUTTON (button));

  gtk_widget_set_margin_end (gtk_widget_get_first_child (box), CORNER);
  tg_why_button_give (TG_WHY_BUTTON (reason), explains, why);
  gtk_widget_add_css_class (reason, "corner");
  gtk_overlay_set_child (GTK_OVERLAY (overlay), button);
  gtk_overlay_add_overlay (GTK_OVERLAY (overlay), reason);
  return overlay;
}
