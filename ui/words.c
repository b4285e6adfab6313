/* words.c: the few phrases that several pages say in the same way
 *
 * Only wording; every figure comes from the review and is rounded to what the scale can show.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "words.h"

/* What a widget was named, and what it was said to show. */
#define NAME "tg-name"
#define SHOWS "tg-shows"

#include <string.h>

static TgPartKind
kind_of (const TgReview *review, TgSlot slot)
{
  return tg_review_part (review, slot.part)->design->kind;
}

char *
tg_words_figure (const TgReview *review, TgSlot slot)
{
  const char *way = tg_way_label (slot.way);

  return g_strconcat (tg_figure_label (kind_of (review, slot), slot.figure), way[0] ? ", " : "",
                      way, NULL);
}

char *
tg_words_slot (const TgReview *review, TgSlot slot)
{
  g_autofree char *figure = tg_words_figure (review, slot);

  return g_strdup_printf ("%s, %s", tg_review_part (review, slot.part)->part->name, figure);
}

char *
tg_words_weights (const TgReview *review, guint part)
{
  const TgPartReview *reviewed = tg_review_part (review, part);
  GString *text = g_string_new (NULL);

  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    {
      const TgWeight *weight = &reviewed->weight[figure];
      g_autofree char *grams = tg_review_grams (review, weight->mean_g);
      g_autofree char *around = tg_review_plus_minus (review, weight->expanded_g);

      if (weight->basis != TG_WEIGHT_NONE)
        g_string_append_printf (text, "%s%s %s%s g %s g", text->len > 0 ? ", " : "",
                                tg_figure_label (reviewed->design->kind, figure),
                                weight->basis == TG_WEIGHT_ESTIMATED ? "about " : "", grams,
                                around);
    }
  if (text->len > 0)
    g_string_append (text, ", at 95 %");
  return g_string_free (text, FALSE);
}

/* "Pin 3" ends in 3. */
static gboolean
ends_in_number (const char *name, guint number)
{
  gsize at = strlen (name);

  while (at > 0 && g_ascii_isdigit (name[at - 1]))
    at--;
  return name[at] != '\0' && g_ascii_strtoull (name + at, NULL, 10) == number;
}

char *
tg_words_place (const TgReview *review, guint index)
{
  const TgPart *part = tg_review_part (review, index)->part;

  if (part->bore == 0)
    return g_strdup ("spare");
  return review->paired < 0 || ends_in_number (part->name, part->bore)
             ? g_strdup ("")
             : g_strdup_printf ("bore %u", part->bore);
}

char *
tg_words_company (const TgReview *review, guint part, TgFigure figure)
{
  g_autofree char *names = tg_review_carried_words (review, part, figure);

  return names[0] ? g_strconcat ("with ", names, NULL) : g_strdup ("");
}

char *
tg_words_how_to_lay (const TgReview *review, TgSlot slot)
{
  static const char *const all_of_it[TG_N_PART_KINDS] = {
    [TG_PART_PISTON] = "Piston on the scale, clean and dry, without pin, rings and clips.",
    [TG_PART_PIN] = "Pin on the scale, clean and dry.",
    [TG_PART_RINGS] = "All rings of one piston on the scale together, clean and dry.",
    [TG_PART_CLIPS] = "Both clips of one pin on the scale together, clean and dry.",
    [TG_PART_BEARINGS] = "Both shells of one big end on the scale together, clean and dry.",
  };
  const char *way = slot.way == TG_WAY_MARK_DOWN ? "marked side down" : "marked side up";

  if (all_of_it[kind_of (review, slot)])
    return g_strdup (all_of_it[kind_of (review, slot)]);
  if (slot.figure == TG_FIGURE_SMALL_END)
    return g_strdup_printf ("Small end on the scale, big end on the stand, level, %s.", way);
  if (slot.figure == TG_FIGURE_BIG_END)
    return g_strdup_printf ("Big end on the scale, small end on the stand, level, %s.", way);
  return g_strdup ("The whole rod on the scale: a cross-check of its two ends.");
}

char *
tg_words_keep_units (const char *text)
{
  GString *kept = g_string_new (NULL);

  for (const char *c = text; *c; c++)
    {
      gboolean unit = (c[0] == ' ' && c > text && g_ascii_isdigit (c[-1])) &&
                      ((c[1] == 'g' && !g_ascii_isalpha (c[2])) || c[1] == '%' ||
                       (c[1] == 'm' && c[2] == 'm' && !g_ascii_isalpha (c[3])));

      if (unit)
        g_string_append (kept, "\302\240"); /* no-break space */
      else
        g_string_append_c (kept, *c);
    }
  return g_string_free (kept, FALSE);
}

void
tg_words_show (GtkLabel *label, const char *text)
{
  g_autofree char *kept = tg_words_keep_units (text ? text : "");

  gtk_label_set_text (label, kept);
}

void
tg_words_show_problem (GtkWidget *entry, GtkLabel *problem, const char *text)
{
  tg_words_show (problem, text);
  gtk_widget_set_visible (GTK_WIDGET (problem), text != NULL);
  if (!entry)
    return;
  if (text)
    gtk_widget_add_css_class (entry, "error");
  else
    gtk_widget_remove_css_class (entry, "error");
  gtk_accessible_update_state (GTK_ACCESSIBLE (entry), GTK_ACCESSIBLE_STATE_INVALID,
                               text ? GTK_ACCESSIBLE_INVALID_TRUE : GTK_ACCESSIBLE_INVALID_FALSE,
                               -1);
}

void
tg_words_name (GtkWidget *widget, const char *name)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL, name, -1);
  g_object_set_data_full (G_OBJECT (widget), NAME, g_strdup (name), g_free);
}

void
tg_words_tell (GtkWidget *widget, const char *shows)
{
  gtk_accessible_update_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                  shows, -1);
  g_object_set_data_full (G_OBJECT (widget), SHOWS, g_strdup (shows), g_free);
}

char *
tg_words_told (GtkWidget *widget)
{
  const char *name = g_object_get_data (G_OBJECT (widget), NAME);
  const char *shows = g_object_get_data (G_OBJECT (widget), SHOWS);

  return g_strconcat (name ? name : "", name && shows ? ". " : "", shows ? shows : "", NULL);
}

void
tg_words_name_menu (GtkMenuButton *button, const char *name)
{
  tg_words_name (GTK_WIDGET (button), name);
  tg_words_name (gtk_widget_get_first_child (GTK_WIDGET (button)), name);
}

void
tg_words_name_choice (GtkDropDown *choice, const char *name)
{
  tg_words_name (GTK_WIDGET (choice), name);
  tg_words_name (gtk_widget_get_first_child (GTK_WIDGET (choice)), name);
}
