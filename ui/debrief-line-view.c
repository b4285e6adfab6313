/* debrief-line-view.c: one line of a debrief as a card
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-line-view.h"

#include "why-view.h"
#include "words.h"

static GtkWidget *
wrapping_label (const char *text, const char *css_class)
{
  g_autofree char *kept = tg_words_keep_units (text);
  GtkWidget *label = gtk_label_new (kept);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  if (css_class)
    gtk_widget_add_css_class (label, css_class);
  return label;
}

static GtkWidget *
verdict_box (TgDebriefVerdict verdict)
{
  static const char *const icons[TG_N_DEBRIEF_VERDICTS] = { "object-select-symbolic",
                                                            "dialog-information-symbolic",
                                                            "dialog-warning-symbolic" };
  static const char *const classes[TG_N_DEBRIEF_VERDICTS] = { "verdict-good", "verdict-fair",
                                                              "verdict-poor" };
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 4);
  GtkWidget *icon = gtk_image_new_from_icon_name (icons[verdict]);

  gtk_widget_add_css_class (box, "verdict");
  gtk_widget_add_css_class (box, classes[verdict]);
  gtk_widget_set_halign (box, GTK_ALIGN_START);
  gtk_widget_set_valign (box, GTK_ALIGN_CENTER);
  gtk_box_append (GTK_BOX (box), icon);
  gtk_box_append (GTK_BOX (box), gtk_label_new (tg_debrief_verdict_label (verdict)));
  return box;
}

static void
make_why (GtkMenuButton *button, gpointer terms)
{
  tg_why_view_pop_up (button, g_ptr_array_ref (terms), "How this comes about");
}

static GtkWidget *
why_button (const TgDebriefLine *line)
{
  GtkWidget *button = gtk_menu_button_new ();

  gtk_menu_button_set_label (GTK_MENU_BUTTON (button), "Why");
  gtk_menu_button_set_has_frame (GTK_MENU_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "link-like");
  tg_words_name_menu (GTK_MENU_BUTTON (button), "How this comes about");
  gtk_menu_button_set_create_popup_func (GTK_MENU_BUTTON (button), make_why,
                                         g_ptr_array_ref (line->why),
                                         (GDestroyNotify) g_ptr_array_unref);
  return button;
}

static GtkWidget *
moment_button (int event)
{
  GtkWidget *button = gtk_button_new_with_label ("Show the moment");

  gtk_button_set_has_frame (GTK_BUTTON (button), FALSE);
  gtk_widget_add_css_class (button, "moment");
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.replay");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "i", event);
  return button;
}

GtkWidget *
tg_debrief_line_view_new (const TgDebriefLine *line, gboolean moment)
{
  GtkWidget *box, *head, *verdict;
  g_autofree char *careful = NULL;

  g_return_val_if_fail (line, NULL);

  box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  head = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  verdict = verdict_box (line->verdict);
  gtk_widget_add_css_class (box, "card");
  gtk_widget_add_css_class (box, "debrief-line");
  gtk_widget_set_hexpand (verdict, TRUE);
  gtk_box_append (GTK_BOX (head), verdict);
  gtk_box_append (GTK_BOX (head), why_button (line));
  if (moment && line->event >= 0)
    gtk_box_append (GTK_BOX (head), moment_button (line->event));
  gtk_box_append (GTK_BOX (box), head);
  gtk_box_append (GTK_BOX (box), wrapping_label (line->text, "strong"));
  careful = tg_debrief_careful_words (line);
  if (careful[0] != '\0')
    gtk_box_append (GTK_BOX (box), wrapping_label (careful, "quiet"));
  return box;
}
