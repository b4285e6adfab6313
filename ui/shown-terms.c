/* shown-terms.c: the terms that stand in what a window shows right now
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GTK 4.8 lets nobody read the accessible name of a widget; words.h keeps what each was told.
 */
#include "shown-terms.h"

#include "words.h"

#define MOST_AT_ONE_SPOT 10

static void
add_own (const TgGlossary *glossary, GtkWidget *widget, GPtrArray *terms)
{
  const char *tip = gtk_widget_get_tooltip_text (widget);
  g_autofree char *told = tg_words_told (widget);

  if (GTK_IS_LABEL (widget))
    tg_glossary_add_from (glossary, gtk_label_get_text (GTK_LABEL (widget)), terms);
  tg_glossary_add_from (glossary, told, terms);
  if (tip)
    tg_glossary_add_from (glossary, tip, terms);
}

static void
add_below (const TgGlossary *glossary, GtkWidget *root, GPtrArray *terms)
{
  if (!gtk_widget_get_mapped (root))
    return;
  add_own (glossary, root, terms);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    add_below (glossary, child, terms);
}

GPtrArray *
tg_shown_terms_below (const TgGlossary *glossary, GtkWidget *root)
{
  GPtrArray *terms = g_ptr_array_new ();

  g_return_val_if_fail (GTK_IS_WIDGET (root), terms);

  add_below (glossary, root, terms);
  return terms;
}

static void
add_from_naming_labels (const TgGlossary *glossary, GtkWidget *widget, GPtrArray *terms)
{
  g_autoptr (GList) labels = gtk_widget_list_mnemonic_labels (widget);

  for (GList *l = labels; l; l = l->next)
    add_below (glossary, l->data, terms);
}

GPtrArray *
tg_shown_terms_at (const TgGlossary *glossary, GtkWidget *widget, GtkWidget *top)
{
  GPtrArray *terms = g_ptr_array_new ();

  for (GtkWidget *w = widget; w && w != top && terms->len == 0; w = gtk_widget_get_parent (w))
    {
      add_from_naming_labels (glossary, w, terms);
      add_below (glossary, w, terms);
      /* a drawing may show much; of what lies round something else, so much is not meant */
      if (w != widget && terms->len > MOST_AT_ONE_SPOT)
        {
          g_ptr_array_set_size (terms, 0);
          break;
        }
    }
  return terms;
}
