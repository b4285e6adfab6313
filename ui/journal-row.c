/* journal-row.c: one line of the journal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Struck lines stay readable: the sentence has a line through it (an attribute of the text, so that
 * it shows under every theme) and below it stands when it was struck out.
 */
#include "journal-row.h"

#include "words.h"

struct _TgJournalRow
{
  GtkBox parent_instance;
  GtkLabel *time;
  GtkLabel *sentence;
  GtkLabel *note;
  GtkLabel *who;
};

G_DEFINE_FINAL_TYPE (TgJournalRow, tg_journal_row, GTK_TYPE_BOX)

GtkWidget *
tg_journal_row_new (void)
{
  return g_object_new (TG_TYPE_JOURNAL_ROW, NULL);
}

static void
set_class (gpointer widget, const char *name, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (widget, name);
  else
    gtk_widget_remove_css_class (widget, name);
}

static void
show (TgJournalRow *self, gboolean day, const char *sentence, const char *note, gboolean struck)
{
  g_autoptr (PangoAttrList) attributes = NULL;

  if (struck)
    {
      attributes = pango_attr_list_new ();
      pango_attr_list_insert (attributes, pango_attr_strikethrough_new (TRUE));
    }
  gtk_label_set_attributes (self->sentence, attributes);
  tg_words_show (self->sentence, sentence);
  tg_words_show (self->note, note);
  gtk_widget_set_visible (GTK_WIDGET (self->note), note && note[0]);
  gtk_widget_set_visible (GTK_WIDGET (self->time), !day);
  set_class (self, "day", day);
  set_class (self->sentence, "strong", day);
  set_class (self->sentence, "quiet", struck);
}

void
tg_journal_row_show_day (TgJournalRow *self, const char *label, const char *summary)
{
  g_return_if_fail (TG_IS_JOURNAL_ROW (self));

  show (self, TRUE, label, summary, FALSE);
  tg_words_show (self->who, "");
  gtk_widget_set_visible (GTK_WIDGET (self->who), FALSE);
}

void
tg_journal_row_show_event (
    TgJournalRow *self, const char *time, const char *sentence, const char *who, const char *struck)
{
  g_return_if_fail (TG_IS_JOURNAL_ROW (self));

  show (self, FALSE, sentence, struck, struck != NULL);
  tg_words_show (self->time, time);
  tg_words_show (self->who, who);
  gtk_widget_set_visible (GTK_WIDGET (self->who), who[0] != '\0');
}

static void
tg_journal_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_JOURNAL_ROW);
  G_OBJECT_CLASS (tg_journal_row_parent_class)->dispose (object);
}

static void
tg_journal_row_class_init (TgJournalRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_journal_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/journal-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TgJournalRow, time);
  gtk_widget_class_bind_template_child (widget_class, TgJournalRow, sentence);
  gtk_widget_class_bind_template_child (widget_class, TgJournalRow, note);
  gtk_widget_class_bind_template_child (widget_class, TgJournalRow, who);
}

static void
tg_journal_row_init (TgJournalRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}
