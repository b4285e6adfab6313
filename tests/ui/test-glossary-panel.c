/* test-glossary-panel.c: the terms of a page, one of them explained, and the ways to it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "bench.h"
#include "fixture.h"
#include "glossary-panel.h"
#include "glossary-picture.h"
#include "grind-page.h"
#include "shown-terms.h"

static Bench *
weighed (void)
{
  static const char *const readings[] = { "171.6", "171.8", "171.2", "171.2" };
  Bench *bench = bench_new (tg_job_new (fixture_setup (4, TRUE, TRUE)));

  for (guint i = 0; i < G_N_ELEMENTS (readings); i++)
    bench_type (bench, readings[i]);
  return bench;
}

static void
act (const Bench *bench, const char *action)
{
  g_assert_true (gtk_widget_activate_action (bench->window, action, NULL));
  bench_spin (50);
}

static void
show_page (const Bench *bench, const char *name)
{
  tg_window_show_page (TG_WINDOW (bench->window), name);
  bench_spin (200);
}

/* NULL while the glossary is closed. */
static GtkWidget *
panel_of (const Bench *bench)
{
  return bench_find (bench->window, TG_TYPE_GLOSSARY_PANEL);
}

/* The child of the list of the page that shows @name, or NULL. */
static GtkFlowBoxChild *
find_here (const Bench *bench, const char *name)
{
  GtkFlowBox *here = GTK_FLOW_BOX (bench_child (panel_of (bench), "here"));
  GtkFlowBoxChild *child;

  for (int i = 0; (child = gtk_flow_box_get_child_at_index (here, i)); i++)
    if (strcmp (gtk_label_get_text (GTK_LABEL (gtk_flow_box_child_get_child (child))), name) == 0)
      return child;
  return NULL;
}

static guint
count_rows (const Bench *bench)
{
  GtkListBox *all = GTK_LIST_BOX (bench_child (panel_of (bench), "all"));
  GtkListBoxRow *row;
  guint n = 0;

  for (int i = 0; (row = gtk_list_box_get_row_at_index (all, i)); i++)
    n += gtk_widget_get_child_visible (GTK_WIDGET (row));
  return n;
}

/* What is explained is @id: its sentences, its ground, its drawing. */
static void
check_explained (const Bench *bench, const char *id)
{
  TgGlossaryPanel *panel = TG_GLOSSARY_PANEL (panel_of (bench));
  const TgGlossaryTerm *term = tg_glossary_panel_term (panel);
  GtkWidget *picture = bench_child (GTK_WIDGET (panel), "picture");
  g_autofree char *ground = NULL;

  g_assert_nonnull (term);
  g_assert_cmpstr (term->id, ==, id);
  ground = tg_glossary_ground_words (term);
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (GTK_WIDGET (panel), "text"))), ==,
                   term->text);
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (GTK_WIDGET (panel), "ground"))), ==,
                   ground);
  g_assert_cmpint (tg_glossary_picture_spot (TG_GLOSSARY_PICTURE (picture)), ==, term->spot);
  g_assert_true (gtk_widget_get_visible (picture) == (term->spot != TG_SPOT_NONE));
}

static void
test_on_this_page (void)
{
  static const struct
  {
    const char *page;
    const char *terms[4];
  } rows[] = {
    { "setup", { "Tolerance", "Connecting rod", "Piston" } },
    { "scale", { "Scale", "Check weight", "Step of the scale" } },
    { "weigh", { "Small end", "Big end", "Stand", "±" } },
    { "grind", { "Connecting rod", "Small end", "Big-end shoulders", "Never ground" } },
    { "prove", { "Bobweight", "Engine", "Force" } },
    { "build", { "Cap", "Crankpin" } },
    { "journal", { "Small end", "Reading" } },
  };
  g_autoptr (Bench) bench = weighed ();

  act (bench, "win.glossary");
  g_assert_nonnull (panel_of (bench));
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      show_page (bench, rows[i].page);
      act (bench, "win.glossary");
      act (bench, "win.glossary");
      for (guint t = 0; t < G_N_ELEMENTS (rows[i].terms) && rows[i].terms[t]; t++)
        if (!find_here (bench, rows[i].terms[t]))
          g_error ("“%s” is not found on the page %s", rows[i].terms[t], rows[i].page);
      g_assert_null (find_here (bench, "Lathe"));
    }
}

static void
test_term (void)
{
  g_autoptr (Bench) bench = weighed ();
  gboolean handled = FALSE;
  GtkWidget *text;

  show_page (bench, "weigh");
  act (bench, "win.glossary");
  g_assert_true (gtk_widget_activate (GTK_WIDGET (find_here (bench, "Small end"))));
  bench_spin (50);
  check_explained (bench, "small-end");
  /* the terms in its sentences are links */
  text = bench_child (panel_of (bench), "text");
  g_assert_nonnull (strstr (gtk_label_get_label (GTK_LABEL (text)), "<a href=\"piston\">"));
  g_assert_null (strstr (gtk_label_get_label (GTK_LABEL (text)), "<a href=\"small-end\">"));
  g_signal_emit_by_name (text, "activate-link", "piston", &handled);
  g_assert_true (handled);
  check_explained (bench, "piston");
  g_signal_emit_by_name (bench_child (panel_of (bench), "back"), "clicked");
  g_assert_null (tg_glossary_panel_term (TG_GLOSSARY_PANEL (panel_of (bench))));
  g_assert_nonnull (find_here (bench, "Small end"));
}

static void
test_all_terms (void)
{
  g_autoptr (Bench) bench = weighed ();
  const TgGlossary *glossary;

  act (bench, "win.glossary");
  glossary = tg_glossary_panel_glossary (TG_GLOSSARY_PANEL (panel_of (bench)));
  for (guint i = 0; i < glossary->terms->len; i++)
    {
      const TgGlossaryTerm *term = g_ptr_array_index (glossary->terms, i);

      tg_glossary_panel_show_term (TG_GLOSSARY_PANEL (panel_of (bench)), term);
      check_explained (bench, term->id);
    }
}

static void
test_search (void)
{
  g_autoptr (Bench) bench = weighed ();
  GtkWidget *search;
  guint all;

  act (bench, "win.glossary");
  search = bench_child (panel_of (bench), "search");
  all = count_rows (bench);
  g_assert_cmpuint (all, ==,
                    tg_glossary_panel_glossary (TG_GLOSSARY_PANEL (panel_of (bench)))->terms->len);
  gtk_editable_set_text (GTK_EDITABLE (search), "GUDGEON");
  g_signal_emit_by_name (search, "search-changed");
  bench_spin (20);
  g_assert_cmpuint (count_rows (bench), ==, 1);
  g_signal_emit_by_name (search, "activate");
  check_explained (bench, "pin");
  /* a hyphen or a blank, as one writes it */
  gtk_editable_set_text (GTK_EDITABLE (search), "turn-over");
  g_signal_emit_by_name (search, "activate");
  check_explained (bench, "turn-over");
  gtk_editable_set_text (GTK_EDITABLE (search), "turn over diff");
  g_signal_emit_by_name (search, "activate");
  check_explained (bench, "turn-over");
  gtk_editable_set_text (GTK_EDITABLE (search), "no such word");
  g_signal_emit_by_name (search, "search-changed");
  bench_spin (20);
  g_assert_cmpuint (count_rows (bench), ==, 0);
  g_signal_emit_by_name (search, "stop-search");
  bench_spin (300);
  g_assert_cmpuint (count_rows (bench), ==, all);
  g_signal_emit_by_name (search, "stop-search");
  g_assert_null (panel_of (bench));
}

/* Shift+F1: what the focused widget says. */
static void
test_here (void)
{
  g_autoptr (Bench) bench = weighed ();
  GtkWidget *button = gtk_button_new_with_label ("Grind the cap pad");
  GtkWidget *one = gtk_button_new_with_mnemonic ("_Bobweights");
  GtkWidget *box;

  show_page (bench, "weigh");
  box = gtk_widget_get_ancestor (bench_child (bench->window, "toast"), GTK_TYPE_BOX);
  box = gtk_widget_get_parent (box);
  gtk_box_append (GTK_BOX (box), button);
  gtk_box_append (GTK_BOX (box), one);
  bench_spin (50);
  gtk_widget_grab_focus (one);
  act (bench, "win.glossary-here");
  check_explained (bench, "bobweight");
  /* several: a short list of these */
  gtk_widget_grab_focus (button);
  act (bench, "win.glossary-here");
  g_assert_null (tg_glossary_panel_term (TG_GLOSSARY_PANEL (panel_of (bench))));
  g_assert_nonnull (find_here (bench, "Grind"));
  g_assert_nonnull (find_here (bench, "Cap pad"));
  g_assert_null (find_here (bench, "Small end"));
}

/* What stands at the pointer, from the inside out. */
static void
test_terms_at (void)
{
  g_autoptr (Bench) bench = weighed ();
  GtkWidget *standing = bench_child (bench->window, "toast_back");
  const TgGlossary *glossary;
  g_autoptr (GPtrArray) none = NULL;
  GtkWidget *label = gtk_label_new ("The ring pack");
  g_autoptr (GPtrArray) terms = NULL;

  act (bench, "win.glossary");
  glossary = tg_glossary_panel_glossary (TG_GLOSSARY_PANEL (panel_of (bench)));
  gtk_box_append (GTK_BOX (bench_child (bench->window, "glossary_box")), label);
  bench_spin (50);
  terms = tg_shown_terms_at (glossary, label, bench->window);
  g_assert_cmpuint (terms->len, ==, 1);
  g_assert_cmpstr (((TgGlossaryTerm *) g_ptr_array_index (terms, 0))->id, ==, "ring-pack");
  /* the whole window is too much to be meant */
  none = tg_shown_terms_at (glossary, gtk_widget_get_parent (standing), bench->window);
  g_assert_cmpuint (none->len, ==, 0);
}

/* A drawing names what it shows, and most of that stands in no label. */
static void
test_drawing (void)
{
  static const char *const zones[] = { "beam", "big-end-shoulders", "cap-pad", "never" };
  g_autoptr (Bench) bench = weighed ();
  GtkWidget *drawing;
  g_autoptr (GPtrArray) terms = NULL;

  act (bench, "win.glossary");
  show_page (bench, "grind");
  drawing = bench_child (bench_find (bench->window, TG_TYPE_GRIND_PAGE), "view");
  terms = tg_shown_terms_at (tg_glossary_panel_glossary (TG_GLOSSARY_PANEL (panel_of (bench))),
                             drawing, bench->window);
  for (guint z = 0; z < G_N_ELEMENTS (zones); z++)
    {
      gboolean found = FALSE;

      for (guint i = 0; i < terms->len; i++)
        found |= strcmp (((TgGlossaryTerm *) g_ptr_array_index (terms, i))->id, zones[z]) == 0;
      if (!found)
        g_error ("the drawing does not say “%s”", zones[z]);
    }
}

static void
test_one_panel (void)
{
  g_autoptr (Bench) bench = weighed ();
  GtkWidget *cautions = bench_child (bench->window, "cautions_box");
  GtkWidget *glossary = bench_child (bench->window, "glossary_box");

  act (bench, "win.cautions");
  g_assert_true (gtk_widget_get_visible (cautions));
  act (bench, "win.glossary");
  g_assert_true (gtk_widget_get_visible (glossary));
  g_assert_false (gtk_widget_get_visible (cautions));
  act (bench, "win.cautions");
  g_assert_false (gtk_widget_get_visible (glossary));
  g_assert_true (gtk_widget_get_visible (cautions));
}

/* Before any job, too, and no wider than a narrow window. */
static void
test_without_a_job (void)
{
  g_autoptr (Bench) bench = weighed ();
  int least;

  tg_window_set_session (TG_WINDOW (bench->window), NULL);
  bench_spin (200);
  act (bench, "win.glossary");
  g_assert_nonnull (panel_of (bench));
  gtk_widget_measure (panel_of (bench), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 330);
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/glossary-panel/on-this-page", test_on_this_page);
  g_test_add_func ("/glossary-panel/term", test_term);
  g_test_add_func ("/glossary-panel/all-terms", test_all_terms);
  g_test_add_func ("/glossary-panel/search", test_search);
  g_test_add_func ("/glossary-panel/here", test_here);
  g_test_add_func ("/glossary-panel/terms-at", test_terms_at);
  g_test_add_func ("/glossary-panel/drawing", test_drawing);
  g_test_add_func ("/glossary-panel/one-panel", test_one_panel);
  g_test_add_func ("/glossary-panel/without-a-job", test_without_a_job);
  return g_test_run ();
}
