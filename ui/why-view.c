/* why-view.c: how a figure comes about, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each term is a line: what, how much, and below them in quiet type what it means.  Rule and source close
 * it, quiet, too.
 */
#include "why-view.h"

#include "reason.h"
#include "words.h"

#define LABEL_CHARS 22
#define FIGURE_CHARS 26
#define REMARK_CHARS 44

/* What a popover leaves free of the window's height, and its least height. */
#define POPOVER_AROUND 320
#define POPOVER_LEAST 240
/* What it has around its view, with the gap to the edge of the window. */
#define POPOVER_EDGE 20

static GtkWidget *
new_line (const char *text, const char *style, int max_chars)
{
  GtkWidget *label = gtk_label_new (NULL);

  tg_words_show (GTK_LABEL (label), text);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_wrap_mode (GTK_LABEL (label), PANGO_WRAP_WORD_CHAR);
  gtk_label_set_max_width_chars (GTK_LABEL (label), max_chars);
  gtk_widget_set_valign (label, GTK_ALIGN_START);
  if (style)
    gtk_widget_add_css_class (label, style);
  return label;
}

/* Rule and source close a reason. */
static GtkWidget *
new_closing (const TgTerm *term)
{
  g_autofree char *text = g_strdup_printf ("%c%s: %s", g_ascii_toupper (term->label[0]),
                                           term->label + 1, term->remark);
  GtkWidget *line = new_line (text, "closing", REMARK_CHARS);

  if (g_str_equal (term->label, TG_REASON_RULE))
    gtk_widget_add_css_class (line, "first");
  return line;
}

static void
attach_term (GtkGrid *grid, const TgTerm *term, int *row)
{
  GtkWidget *label = new_line (term->label, "term", LABEL_CHARS);
  GtkWidget *figure = new_line (term->figure, "figures", FIGURE_CHARS);

  gtk_label_set_xalign (GTK_LABEL (figure), 1);
  gtk_label_set_justify (GTK_LABEL (figure), GTK_JUSTIFY_RIGHT);
  gtk_widget_set_hexpand (figure, TRUE);
  gtk_grid_attach (grid, label, 0, *row, 1, 1);
  gtk_grid_attach (grid, figure, 1, (*row)++, 1, 1);
  if (term->remark && term->remark[0])
    gtk_grid_attach (grid, new_line (term->remark, "remark", REMARK_CHARS), 0, (*row)++, 2, 1);
}

GtkWidget *
tg_why_view_new (GPtrArray *terms, const char *title)
{
  GtkWidget *grid = gtk_grid_new ();
  int row = 0;

  g_return_val_if_fail (terms != NULL && title != NULL, NULL);

  gtk_widget_add_css_class (grid, "why");
  gtk_grid_set_column_spacing (GTK_GRID (grid), 16);
  gtk_grid_attach (GTK_GRID (grid), new_line (title, "heading", REMARK_CHARS), 0, row++, 2, 1);
  for (guint i = 0; i < terms->len; i++)
    {
      const TgTerm *term = g_ptr_array_index (terms, i);

      if (tg_reason_is_closing (term))
        gtk_grid_attach (GTK_GRID (grid), new_closing (term), 0, row++, 2, 1);
      else
        attach_term (GTK_GRID (grid), term, &row);
    }
  g_ptr_array_unref (terms);
  return grid;
}

/* As wide and as high as the view, but no more than the window has; and beside the edge of the window
 * rather than over it. */
static void
fit (GtkPopover *popover, GtkWidget *scroller, GtkWidget *view, GtkWidget *button)
{
  GtkWidget *window = GTK_WIDGET (gtk_widget_get_root (button));
  int room = gtk_widget_get_width (window) - 2 * POPOVER_EDGE;
  int most = MAX (POPOVER_LEAST, gtk_widget_get_height (window) - POPOVER_AROUND);
  graphene_point_t middle = GRAPHENE_POINT_INIT ((float) gtk_widget_get_width (button) / 2, 0);
  int least, width, height, at;

  gtk_widget_measure (view, GTK_ORIENTATION_HORIZONTAL, -1, &least, &width, NULL, NULL);
  width = MAX (least, MIN (width, room));
  gtk_widget_measure (view, GTK_ORIENTATION_VERTICAL, width, NULL, &height, NULL, NULL);
  gtk_widget_set_size_request (scroller, width, MIN (height, most));
  if (!gtk_widget_compute_point (button, window, &middle, &middle))
    return;
  at = (int) middle.x;
  gtk_popover_set_offset (popover,
                          CLAMP (at, POPOVER_EDGE + width / 2,
                                 MAX (POPOVER_EDGE + width / 2, room + POPOVER_EDGE - width / 2)) -
                              at,
                          0);
}

void
tg_why_view_pop_up (GtkMenuButton *button, GPtrArray *terms, const char *title)
{
  GtkWidget *popover = gtk_popover_new ();
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *view = tg_why_view_new (terms, title);

  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), view);
  gtk_popover_set_child (GTK_POPOVER (popover), scroller);
  gtk_menu_button_set_popover (button, popover);
  fit (GTK_POPOVER (popover), scroller, view, GTK_WIDGET (button));
}
