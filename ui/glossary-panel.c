/* glossary-panel.c: the terms of the page, all terms, and one of them explained
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which terms stand where is found in shown-terms.c; opening and closing is the window's, see
 * window-glossary.c.
 */
#include "glossary-panel.h"

#include "glossary-picture.h"
#include "shown-terms.h"

struct _TgGlossaryPanel
{
  GtkBox parent_instance;
  TgGlossary *glossary;
  const TgGlossaryTerm *term;
  GtkStack *stack;
  GtkLabel *here_title;
  GtkFlowBox *here;
  GtkWidget *here_none;
  GtkSearchEntry *search;
  GtkListBox *all;
  GtkWidget *back;
  GtkLabel *name;
  GtkLabel *text;
  GtkLabel *ground;
  TgGlossaryPicture *picture;
};

G_DEFINE_FINAL_TYPE (TgGlossaryPanel, tg_glossary_panel, GTK_TYPE_BOX)

GtkWidget *
tg_glossary_panel_new (void)
{
  return g_object_new (TG_TYPE_GLOSSARY_PANEL, NULL);
}

const TgGlossary *
tg_glossary_panel_glossary (TgGlossaryPanel *panel)
{
  g_return_val_if_fail (TG_IS_GLOSSARY_PANEL (panel), NULL);

  return panel->glossary;
}

const TgGlossaryTerm *
tg_glossary_panel_term (TgGlossaryPanel *panel)
{
  g_return_val_if_fail (TG_IS_GLOSSARY_PANEL (panel), NULL);

  return panel->term;
}

/* --- one term -------------------------------------------------------------------------------- */

/* (transfer full): "Big end" */
static char *
capital (const char *name)
{
  char first[8] = { 0 };

  g_unichar_to_utf8 (g_unichar_toupper (g_utf8_get_char (name)), first);
  return g_strconcat (first, g_utf8_next_char (name), NULL);
}

/* (transfer full): the sentences with the other terms in them as links */
static char *
markup_of (TgGlossaryPanel *self, const TgGlossaryTerm *term)
{
  g_autoptr (GArray) hits = tg_glossary_hits (self->glossary, term->text);
  GString *markup = g_string_new (NULL);
  gsize at = 0;

  for (guint i = 0; i < hits->len; i++)
    {
      const TgGlossaryHit *hit = &g_array_index (hits, TgGlossaryHit, i);
      g_autofree char *before = g_markup_escape_text (term->text + at, (gssize) (hit->start - at));
      g_autofree char *found = g_markup_escape_text (term->text + hit->start,
                                                     (gssize) (hit->end - hit->start));

      g_string_append (markup, before);
      if (hit->term == term)
        g_string_append (markup, found);
      else
        g_string_append_printf (markup, "<a href=\"%s\">%s</a>", hit->term->id, found);
      at = hit->end;
    }
  {
    g_autofree char *rest = g_markup_escape_text (term->text + at, -1);

    g_string_append (markup, rest);
  }
  return g_string_free (markup, FALSE);
}

void
tg_glossary_panel_show_term (TgGlossaryPanel *panel, const TgGlossaryTerm *term)
{
  g_autofree char *name = NULL;
  g_autofree char *markup = NULL;
  g_autofree char *ground = NULL;

  g_return_if_fail (TG_IS_GLOSSARY_PANEL (panel) && term);

  name = capital (term->name);
  markup = markup_of (panel, term);
  ground = tg_glossary_ground_words (term);
  panel->term = term;
  gtk_label_set_text (panel->name, name);
  gtk_label_set_markup (panel->text, markup);
  gtk_label_set_text (panel->ground, ground);
  tg_glossary_picture_show (panel->picture, term->spot);
  gtk_stack_set_visible_child_name (panel->stack, "term");
  if (gtk_widget_get_mapped (GTK_WIDGET (panel)))
    gtk_widget_grab_focus (panel->back);
}

static gboolean
on_link (TgGlossaryPanel *self, const char *id)
{
  const TgGlossaryTerm *term = tg_glossary_find (self->glossary, id);

  if (term)
    tg_glossary_panel_show_term (self, term);
  return term != NULL;
}

/* --- the lists ------------------------------------------------------------------------------- */

/* A line of a list; the term is its data. */
static GtkWidget *
line_new (const TgGlossaryTerm *term)
{
  g_autofree char *name = capital (term->name);
  GtkWidget *label = gtk_label_new (name);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_END);
  g_object_set_data (G_OBJECT (label), "term", (gpointer) term);
  return label;
}

static const TgGlossaryTerm *
term_of (GtkWidget *line)
{
  return g_object_get_data (G_OBJECT (line), "term");
}

static void
show_list (TgGlossaryPanel *self, const char *title, const GPtrArray *terms)
{
  GtkWidget *child;

  while ((child = gtk_widget_get_first_child (GTK_WIDGET (self->here))))
    gtk_flow_box_remove (self->here, child);
  for (guint i = 0; i < terms->len; i++)
    gtk_flow_box_append (self->here, line_new (g_ptr_array_index (terms, i)));
  gtk_label_set_text (self->here_title, title);
  gtk_widget_set_visible (GTK_WIDGET (self->here), terms->len > 0);
  gtk_widget_set_visible (self->here_none, terms->len == 0);
  self->term = NULL;
  gtk_stack_set_visible_child_name (self->stack, "list");
}

void
tg_glossary_panel_show_page (TgGlossaryPanel *panel, GtkWidget *page)
{
  g_autoptr (GPtrArray) terms = NULL;

  g_return_if_fail (TG_IS_GLOSSARY_PANEL (panel));

  terms = tg_shown_terms_below (panel->glossary, page);
  show_list (panel, "On this page", terms);
}

void
tg_glossary_panel_show_terms (TgGlossaryPanel *panel, const GPtrArray *terms)
{
  g_return_if_fail (TG_IS_GLOSSARY_PANEL (panel) && terms->len > 0);

  show_list (panel, "In these words", terms);
  if (terms->len == 1)
    tg_glossary_panel_show_term (panel, g_ptr_array_index (terms, 0));
}

void
tg_glossary_panel_focus (TgGlossaryPanel *panel)
{
  GtkFlowBoxChild *first;

  g_return_if_fail (TG_IS_GLOSSARY_PANEL (panel));

  first = gtk_flow_box_get_child_at_index (panel->here, 0);
  if (panel->term)
    gtk_widget_grab_focus (panel->back);
  else
    gtk_widget_grab_focus (first ? GTK_WIDGET (first) : GTK_WIDGET (panel->search));
}

static void
on_here_activated (TgGlossaryPanel *self, GtkFlowBoxChild *child)
{
  tg_glossary_panel_show_term (self, term_of (gtk_flow_box_child_get_child (child)));
}

static void
on_row_activated (TgGlossaryPanel *self, GtkListBoxRow *row)
{
  tg_glossary_panel_show_term (self, term_of (gtk_list_box_row_get_child (row)));
}

static void
on_back (TgGlossaryPanel *self)
{
  self->term = NULL;
  gtk_stack_set_visible_child_name (self->stack, "list");
  tg_glossary_panel_focus (self);
}

/* --- searching ------------------------------------------------------------------------------- */

static gboolean
is_wanted (GtkListBoxRow *row, gpointer data)
{
  TgGlossaryPanel *self = data;

  return tg_glossary_term_fits (term_of (gtk_list_box_row_get_child (row)),
                                gtk_editable_get_text (GTK_EDITABLE (self->search)));
}

static void
on_search (TgGlossaryPanel *self)
{
  gtk_list_box_invalidate_filter (self->all);
}

/* Enter shows the first that fits. */
static void
on_search_activate (TgGlossaryPanel *self)
{
  GtkListBoxRow *row;

  gtk_list_box_invalidate_filter (self->all);
  for (int i = 0; (row = gtk_list_box_get_row_at_index (self->all, i)); i++)
    if (is_wanted (row, self))
      {
        on_row_activated (self, row);
        return;
      }
}

/* Escape in the field: first what was typed goes, then the panel. */
static void
on_search_stop (TgGlossaryPanel *self)
{
  if (gtk_editable_get_text (GTK_EDITABLE (self->search))[0] != '\0')
    gtk_editable_set_text (GTK_EDITABLE (self->search), "");
  else
    gtk_widget_activate_action (GTK_WIDGET (self), "win.glossary", NULL);
}

/* --- the type -------------------------------------------------------------------------------- */

static void
tg_glossary_panel_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_GLOSSARY_PANEL);
  G_OBJECT_CLASS (tg_glossary_panel_parent_class)->dispose (object);
}

static void
tg_glossary_panel_finalize (GObject *object)
{
  g_clear_pointer (&TG_GLOSSARY_PANEL (object)->glossary, tg_glossary_free);
  G_OBJECT_CLASS (tg_glossary_panel_parent_class)->finalize (object);
}

static void
tg_glossary_panel_class_init (TgGlossaryPanelClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_glossary_panel_dispose;
  G_OBJECT_CLASS (klass)->finalize = tg_glossary_panel_finalize;
  g_type_ensure (TG_TYPE_GLOSSARY_PICTURE);
  gtk_widget_class_set_template_from_resource (
      widget_class, "/io/github/tenthgram/Tenthgram/ui/glossary-panel.ui");
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, stack);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, here_title);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, here);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, here_none);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, search);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, all);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, back);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, name);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, text);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, ground);
  gtk_widget_class_bind_template_child (widget_class, TgGlossaryPanel, picture);
  gtk_widget_class_bind_template_callback (widget_class, on_here_activated);
  gtk_widget_class_bind_template_callback (widget_class, on_search);
  gtk_widget_class_bind_template_callback (widget_class, on_search_activate);
  gtk_widget_class_bind_template_callback (widget_class, on_search_stop);
  gtk_widget_class_bind_template_callback (widget_class, on_row_activated);
  gtk_widget_class_bind_template_callback (widget_class, on_back);
  gtk_widget_class_bind_template_callback (widget_class, on_link);
}

static void
tg_glossary_panel_init (TgGlossaryPanel *self)
{
  g_autoptr (GError) error = NULL;

  gtk_widget_init_template (GTK_WIDGET (self));
  self->glossary = tg_glossary_load (&error);
  if (!self->glossary)
    g_error ("%s", error->message);
  for (guint i = 0; i < self->glossary->terms->len; i++)
    gtk_list_box_append (self->all, line_new (g_ptr_array_index (self->glossary->terms, i)));
  gtk_list_box_set_filter_func (self->all, is_wanted, self, NULL);
}
