/* rules-list.c: the rules that a pairing has to keep, each with a way to lift it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "rules-list.h"

#include "match-rules.h"
#include "pairing-rules.h"
#include "words.h"

/* The column does not grow with long names. */
#define RULE_CHARS 24

struct _TgRulesList
{
  GtkBox parent_instance;
  TgMatchDesk *desk;
  GtkWidget *title;
  GtkWidget *none;
  GtkWidget *rules;
};

G_DEFINE_FINAL_TYPE (TgRulesList, tg_rules_list, GTK_TYPE_BOX)

static void
on_lift (GtkWidget *button, TgRulesList *self)
{
  guint index = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (button), "index"));
  g_autoptr (GError) error = NULL;

  gtk_widget_grab_focus (self->title); /* the button goes */
  if (!tg_match_rules_lift (self->desk, index, &error))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.report-failure", "s", error->message);
}

static GtkWidget *
new_rule (TgRulesList *self, const TgReview *review, guint index)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);
  GtkWidget *label = gtk_label_new (NULL);
  GtkWidget *lift = gtk_button_new_with_label ("Lift");
  g_autofree char *words = tg_pairing_rules_words (
      review, &g_array_index (review->rules, TgRuleReview, index));
  g_autofree char *name = g_strdup_printf ("Lift: %s", words);

  tg_words_show (GTK_LABEL (label), words);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), RULE_CHARS);
  gtk_widget_set_hexpand (label, TRUE);
  tg_words_name (lift, name);
  gtk_widget_set_valign (lift, GTK_ALIGN_CENTER);
  gtk_widget_add_css_class (lift, "work");
  g_object_set_data (G_OBJECT (lift), "index", GUINT_TO_POINTER (index));
  g_signal_connect_object (lift, "clicked", G_CALLBACK (on_lift), self, 0);
  gtk_box_append (GTK_BOX (row), label);
  gtk_box_append (GTK_BOX (row), lift);
  return row;
}

void
tg_rules_list_show (TgRulesList *list, TgMatchDesk *desk)
{
  const TgReview *review;
  GtkWidget *child;

  g_return_if_fail (TG_IS_RULES_LIST (list) && TG_IS_MATCH_DESK (desk));

  g_set_object (&list->desk, desk);
  review = tg_match_desk_review (desk);
  while ((child = gtk_widget_get_first_child (list->rules)))
    gtk_box_remove (GTK_BOX (list->rules), child);
  for (guint i = 0; i < review->rules->len; i++)
    gtk_box_append (GTK_BOX (list->rules), new_rule (list, review, i));
  gtk_widget_set_visible (list->none, review->rules->len == 0);
}

static void
tg_rules_list_dispose (GObject *object)
{
  g_clear_object (&TG_RULES_LIST (object)->desk);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_RULES_LIST);
  G_OBJECT_CLASS (tg_rules_list_parent_class)->dispose (object);
}

static void
tg_rules_list_class_init (TgRulesListClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_rules_list_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/rules-list.ui");
  gtk_widget_class_bind_template_child (widget_class, TgRulesList, title);
  gtk_widget_class_bind_template_child (widget_class, TgRulesList, none);
  gtk_widget_class_bind_template_child (widget_class, TgRulesList, rules);
}

static void
tg_rules_list_init (TgRulesList *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
