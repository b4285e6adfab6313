/* test-engine-view.c: what is said of the engine
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dimensions are invented.
 */
#include <string.h>

#include "engine-picture.h"
#include "engine-table.h"
#include "engine-view.h"
#include "page-fixture.h"
#include "setup-field.h"

static PageRig *
rig_new (guint cylinders, int width)
{
  return page_rig_new (tg_engine_view_new (), cylinders, width, 700);
}

static GtkWidget *
child (PageRig *rig, const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (rig->page, TG_TYPE_ENGINE_VIEW, name));
}

static const TgSetup *
setup_of (PageRig *rig)
{
  return tg_session_review (rig->session)->setup;
}

static TgSetupField *
field (PageRig *rig, const char *path)
{
  for (GtkWidget *at = gtk_widget_get_first_child (child (rig, "columns")); at;
       at = gtk_widget_get_next_sibling (at))
    if (TG_IS_SETUP_FIELD (at) && strcmp (tg_setup_field_get_path (TG_SETUP_FIELD (at)), path) == 0)
      return TG_SETUP_FIELD (at);
  g_error ("no field for %s", path);
}

static gboolean
is_shown (PageRig *rig, const char *path)
{
  return gtk_widget_get_visible (GTK_WIDGET (field (rig, path)));
}

static void
enter (PageRig *rig, const char *path, const char *text)
{
  gtk_editable_set_text (tg_setup_field_get_editable (field (rig, path)), text);
  tg_setup_field_commit (field (rig, path));
  page_settle ();
}

/* Chooses the entry of the drop-down that reads @label. */
static void
choose (PageRig *rig, const char *name, const char *label)
{
  GtkDropDown *choice = GTK_DROP_DOWN (child (rig, name));
  GListModel *model = gtk_drop_down_get_model (choice);

  for (guint i = 0; i < g_list_model_get_n_items (model); i++)
    if (strcmp (gtk_string_list_get_string (GTK_STRING_LIST (model), i), label) == 0)
      {
        gtk_drop_down_set_selected (choice, i);
        page_settle ();
        return;
      }
  g_error ("no “%s” to choose", label);
}

/* Only kinds that fit are offered, and only what matters to the kind is asked for. */
static void
test_kinds (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 1000);
  GListModel *kinds = gtk_drop_down_get_model (GTK_DROP_DOWN (child (rig, "kind")));

  /* as in Set up, in line, two V8, free */
  g_assert_cmpuint (g_list_model_get_n_items (kinds), ==, 5);
  g_assert_false (is_shown (rig, "engine.bank-angle"));
  choose (rig, "kind", "V8, cross-plane");
  g_assert_cmpint (setup_of (rig)->engine.kind, ==, TG_ENGINE_V8_CROSS);
  g_assert_true (is_shown (rig, "engine.bank-angle"));
  g_assert_true (is_shown (rig, "engine.offset"));
  g_assert_true (gtk_widget_get_visible (child (rig, "split")));
  gtk_check_button_set_active (GTK_CHECK_BUTTON (child (rig, "split")), TRUE);
  g_assert_true (setup_of (rig)->engine.split_pins);
  choose (rig, "kind", "as in Set up");
  g_assert_false (setup_of (rig)->engine.chosen);
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 3);
}

static void
test_fields (void)
{
  g_autoptr (PageRig) rig = rig_new (4, 1000);
  const char *problem;

  g_assert_nonnull (
      strstr (gtk_label_get_text (GTK_LABEL (child (rig, "missing_words"))), "troke"));
  enter (rig, "engine.stroke", "84,5 mm");
  g_assert_cmpfloat (setup_of (rig)->engine.stroke_mm, ==, 84.5);
  enter (rig, "engine.order", "1 3 4 2");
  g_assert_cmpstr (setup_of (rig)->engine.order, ==, "1-3-4-2");
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (child (rig, "says"))), ==,
                   "It fires at equal intervals.");
  enter (rig, "engine.order", "1-3-4-4");
  problem = tg_setup_field_get_problem (field (rig, "engine.order"));
  g_assert_nonnull (problem);
  g_assert_nonnull (strstr (problem, "names cylinder 4 twice"));
  g_assert_cmpstr (setup_of (rig)->engine.order, ==, "1-3-4-2");
  enter (rig, "engine.order", "");
  g_assert_cmpstr (setup_of (rig)->engine.order, ==, "");
}

static void
test_numbering (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 1000);

  choose (rig, "kind", "V8, cross-plane");
  choose (rig, "numbers", "one bank after the other");
  g_assert_cmpstr (setup_of (rig)->engine.numbering, ==, "1-5-2-6-3-7-4-8");
  choose (rig, "numbers", "from the other end");
  g_assert_cmpstr (setup_of (rig)->engine.numbering, ==, "8-7-6-5-4-3-2-1");
  g_assert_false (is_shown (rig, "engine.numbering"));
  choose (rig, "numbers", "by hand");
  g_assert_true (is_shown (rig, "engine.numbering"));
  enter (rig, "engine.numbering", "2-1-4-3-6-5-8-7");
  g_assert_cmpstr (setup_of (rig)->engine.numbering, ==, "2-1-4-3-6-5-8-7");
  choose (rig, "numbers", "along the crank");
  g_assert_cmpstr (setup_of (rig)->engine.numbering, ==, "1-2-3-4-5-6-7-8");
}

/* A free layout begins with the one before, and is changed cell by cell. */
static void
test_free (void)
{
  g_autoptr (PageRig) rig = rig_new (2, 1000);
  GtkWidget *entry;
  TgEngineLayout layout;

  choose (rig, "kind", "parallel twin, 270°");
  choose (rig, "kind", "free");
  g_assert_true (gtk_widget_get_mapped (child (rig, "table_box")));
  g_assert_true (tg_setup_engine_layout (setup_of (rig), &layout, NULL));
  g_assert_cmpfloat (layout.cylinders[1].throw_deg, ==, 270);
  entry = page_find_named (rig->page, GTK_TYPE_ENTRY, "Cylinder 2: Throw, °");
  gtk_editable_set_text (GTK_EDITABLE (entry), "−76,5");
  g_signal_emit_by_name (entry, "activate");
  page_settle ();
  g_assert_true (tg_setup_engine_layout (setup_of (rig), &layout, NULL));
  g_assert_cmpfloat (layout.cylinders[1].throw_deg, ==, -76.5);
  /* what cannot be is refused and stays as it was typed */
  gtk_editable_set_text (GTK_EDITABLE (entry), "x");
  g_signal_emit_by_name (entry, "activate");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "x");
  g_assert_nonnull (page_find (GTK_WIDGET (child (rig, "table")), GTK_TYPE_LABEL, "problem"));
  g_assert_true (gtk_widget_get_visible (
      page_find (GTK_WIDGET (child (rig, "table")), GTK_TYPE_LABEL, "problem")));
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 4);
}

/* Seven in a row are no usual engine: they have to be described, and a start is offered. */
static void
test_unknown (void)
{
  g_autoptr (PageRig) rig = rig_new (7, 1000);
  TgEngineLayout layout;

  g_assert_true (gtk_widget_get_visible (child (rig, "missing")));
  g_assert_false (gtk_widget_get_visible (child (rig, "forces")));
  g_assert_false (is_shown (rig, "engine.spacing"));
  choose (rig, "kind", "free");
  g_assert_true (tg_setup_engine_layout (setup_of (rig), &layout, NULL));
  g_assert_cmpuint (layout.n_pins, ==, 7);
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 2);
}

static void
test_narrow (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 360);
  int least;

  choose (rig, "kind", "V8, cross-plane");
  choose (rig, "kind", "free");
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  g_assert_cmpuint (page_check_names (rig->page), >=, 40);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/engine-view/kinds", test_kinds);
  g_test_add_func ("/engine-view/fields", test_fields);
  g_test_add_func ("/engine-view/numbering", test_numbering);
  g_test_add_func ("/engine-view/free", test_free);
  g_test_add_func ("/engine-view/unknown", test_unknown);
  g_test_add_func ("/engine-view/narrow", test_narrow);
  return g_test_run ();
}
