/* test-window-tables.c: tables that are pasted, dropped and saved in the window
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All readings are invented.
 */
#include <glib/gstdio.h>
#include <string.h>

#include "bench.h"
#include "fixture.h"
#include "import-page.h"
#include "reading-entry.h"
#include "table-export.h"

#define TABLE "rod;small up;small down\n1;171,6;171,7\n2;171,5;171,4\n"

static Bench *
two_rods (void)
{
  return bench_new (tg_job_new (fixture_setup (2, TRUE, FALSE)));
}

/* Ctrl+V as the window gets it first. */
static gboolean
press_paste (const Bench *bench)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (bench->window);
  gboolean taken = FALSE;

  for (guint i = 0; !taken && i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller) &&
          gtk_event_controller_get_propagation_phase (controller) == GTK_PHASE_CAPTURE)
        g_signal_emit_by_name (controller, "key-pressed", GDK_KEY_v, 0, GDK_CONTROL_MASK, &taken);
    }
  bench_spin (200);
  return taken;
}

static gboolean
drop (const Bench *bench, const GValue *value)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (bench->window);
  gboolean taken = FALSE;

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_DROP_TARGET (controller))
        g_signal_emit_by_name (controller, "drop", value, 5.0, 5.0, &taken);
    }
  bench_spin (200);
  return taken;
}

static gboolean
drop_path (const Bench *bench, const char *path)
{
  g_autoptr (GFile) file = g_file_new_for_path (path);
  GSList files = { file, NULL };
  g_auto (GValue) value = G_VALUE_INIT;

  g_value_init (&value, GDK_TYPE_FILE_LIST);
  g_value_set_boxed (&value, &files);
  return drop (bench, &value);
}

static void
copy (const Bench *bench, const char *text)
{
  gdk_clipboard_set_text (gtk_widget_get_clipboard (bench->window), text);
}

/* (nullable) */
static const TgTableImport *
shown (const Bench *bench)
{
  GtkWidget *page = bench_find (bench->window, TG_TYPE_IMPORT_PAGE);

  return page ? tg_import_page_get_import (TG_IMPORT_PAGE (page)) : NULL;
}

static const char *
page_of (const Bench *bench)
{
  return tg_window_page (TG_WINDOW (bench->window));
}

static guint
n_events (const Bench *bench)
{
  return tg_job_n_events (tg_session_job (bench_session (bench)));
}

/* A table that is pasted where a reading is typed is shown, taken over, and struck out together. */
static void
test_paste_table (void)
{
  g_autoptr (Bench) bench = two_rods ();
  GtkWidget *page;

  g_assert_cmpstr (page_of (bench), ==, "weigh");
  copy (bench, TABLE);
  g_assert_true (press_paste (bench));
  g_assert_cmpstr (page_of (bench), ==, "import");
  g_assert_cmpuint (shown (bench)->n_new, ==, 4);
  g_assert_cmpuint (n_events (bench), ==, 0);
  page = bench_find (bench->window, TG_TYPE_IMPORT_PAGE);
  g_assert_true (gtk_widget_has_focus (bench_child (page, "take")));
  g_signal_emit_by_name (bench_child (page, "take"), "clicked");
  g_assert_cmpuint (n_events (bench), ==, 4);
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_cmpuint (n_events (bench), ==, 8);
  g_assert_cmpstr (
      gtk_label_get_text (GTK_LABEL (bench_child (bench->window, "toast_text"))), ==,
      "Struck out: Rod 2, small end, mark down: 171.4 g, and 3 more that came with it");
  g_signal_emit_by_name (bench_child (bench->window, "toast_back"), "clicked");
  for (guint i = 0; i < 4; i++)
    g_assert_false (tg_session_review (bench_session (bench))->struck[i]);
  /* on the page itself another table takes its place */
  copy (bench, "rod,big up\n1,412.3\n");
  g_assert_true (press_paste (bench));
  g_assert_cmpuint (shown (bench)->n_new, ==, 1);
  /* and back to where one came from */
  g_signal_emit_by_name (bench_child (page, "leave"), "clicked");
  bench_spin (100);
  g_assert_cmpstr (page_of (bench), ==, "weigh");
}

/* One number goes into the field; words in a field for words are no table. */
static void
test_paste_elsewhere (void)
{
  g_autoptr (Bench) bench = two_rods ();
  GtkWidget *field = bench_child (bench_find (bench->window, TG_TYPE_READING_ENTRY), "field");

  gtk_widget_grab_focus (field);
  copy (bench, "171.6");
  g_assert_true (press_paste (bench));
  g_assert_cmpstr (page_of (bench), ==, "weigh");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field)), ==, "171.6");
  tg_window_show_page (TG_WINDOW (bench->window), "journal");
  bench_spin (200);
  g_assert_true (GTK_IS_TEXT (gtk_window_get_focus (GTK_WINDOW (bench->window))));
  copy (bench, TABLE);
  g_assert_false (press_paste (bench));
  g_assert_cmpstr (page_of (bench), ==, "journal");
}

static void
test_drop (void)
{
  g_autoptr (Bench) bench = two_rods ();
  g_autofree char *path = g_build_filename (bench->folder, "table.csv", NULL);
  g_auto (GValue) text = G_VALUE_INIT;

  g_assert_true (g_file_set_contents (path, TABLE, -1, NULL));
  g_assert_true (drop_path (bench, path));
  g_assert_cmpstr (page_of (bench), ==, "import");
  g_assert_cmpuint (shown (bench)->n_new, ==, 4);
  g_value_init (&text, G_TYPE_STRING);
  g_value_set_static_string (&text, "rod,big up\n1,412.3\n");
  g_assert_true (drop (bench, &text));
  g_assert_cmpuint (shown (bench)->n_new, ==, 1);
  /* without a job there is nothing that readings could belong to */
  tg_window_set_session (TG_WINDOW (bench->window), NULL);
  bench_spin (100);
  g_assert_false (drop (bench, &text));
  g_assert_true (drop_path (bench, path));
  g_assert_cmpstr (page_of (bench), ==, "welcome");
  g_assert_nonnull (
      strstr (gtk_label_get_text (GTK_LABEL (bench_child (bench->window, "failure_text"))),
              "open the job first"));
  /* a job opens */
  g_assert_true (drop_path (bench, bench->path));
  g_assert_cmpstr (page_of (bench), ==, "weigh");
  g_assert_cmpint (g_remove (path), ==, 0);
}

static GtkDialog *
find_dialog (void)
{
  GListModel *windows = gtk_window_get_toplevels ();

  for (guint i = 0; i < g_list_model_get_n_items (windows); i++)
    {
      g_autoptr (GtkWidget) window = g_list_model_get_item (windows, i);

      if (GTK_IS_FILE_CHOOSER (window))
        return GTK_DIALOG (window);
    }
  return NULL;
}

/* Each of the three tables, as the person names the file. */
static void
test_export (void)
{
  static const char *const words[] = { "readings", "plan", "journal" };
  g_autoptr (Bench) bench = two_rods ();

  bench_type (bench, "171.6");
  for (guint i = 0; i < G_N_ELEMENTS (words); i++)
    {
      g_autofree char *path = g_build_filename (bench->folder, words[i], NULL);
      g_autoptr (GFile) folder = g_file_new_for_path (bench->folder);
      g_autofree char *expected = tg_table_export (tg_session_job (bench_session (bench)),
                                                   tg_session_review (bench_session (bench)),
                                                   (TgTableKind) i);
      g_autofree char *written = NULL;
      GtkDialog *dialog;

      g_assert_true (gtk_widget_activate_action (bench->window, "win.export", "s", words[i]));
      bench_spin (300);
      dialog = find_dialog ();
      g_assert_nonnull (dialog);
      g_assert_true (gtk_file_chooser_set_current_folder (GTK_FILE_CHOOSER (dialog), folder, NULL));
      gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), words[i]);
      bench_spin (300);
      gtk_dialog_response (dialog, GTK_RESPONSE_ACCEPT);
      bench_spin (500);
      g_assert_true (g_file_get_contents (path, &written, NULL, NULL));
      g_assert_cmpstr (written, ==, expected);
      g_assert_nonnull (strstr (
          gtk_label_get_text (GTK_LABEL (bench_child (bench->window, "toast_text"))), words[i]));
      g_assert_cmpint (g_remove (path), ==, 0);
    }
}

int
main (int argc, char **argv)
{
  /* the file chooser would ask the session bus for clouds, through a library that leaks names */
  g_setenv ("DBUS_SESSION_BUS_ADDRESS", "disabled:", TRUE);
  bench_init (&argc, &argv);
  g_test_add_func ("/window-tables/paste-table", test_paste_table);
  g_test_add_func ("/window-tables/paste-elsewhere", test_paste_elsewhere);
  g_test_add_func ("/window-tables/drop", test_drop);
  g_test_add_func ("/window-tables/export", test_export);
  return g_test_run ();
}
