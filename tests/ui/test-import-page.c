/* test-import-page.c: a table is shown, said otherwise, taken over once, and struck out together
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All readings are invented.
 */
#include <glib/gstdio.h>
#include <string.h>

#include "import-page.h"
#include "import-row.h"
#include "page-fixture.h"

#define WIDE                                                                                       \
  "rod;small up;small down\n"                                                                      \
  "1;171,6;171,7\n"                                                                                \
  "2;171,5;\n"                                                                                     \
  "9;171,4;171,4\n"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *page;
  GtkWindow *window;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  fixture->session = page_session_new (fixture->folder, 2);
  fixture->page = g_object_new (TG_TYPE_IMPORT_PAGE, "session", fixture->session, NULL);
  fixture->window = page_show (fixture->page, 360, 640);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static const TgTableImport *
import_of (Fixture *fixture)
{
  return tg_import_page_get_import (TG_IMPORT_PAGE (fixture->page));
}

static void
set_text (Fixture *fixture, const char *text)
{
  tg_import_page_set_text (TG_IMPORT_PAGE (fixture->page), text, strlen (text), "spring.csv");
  page_settle ();
}

static GObject *
child (Fixture *fixture, const char *name)
{
  return gtk_widget_get_template_child (fixture->page, TG_TYPE_IMPORT_PAGE, name);
}

static void
assert_take (Fixture *fixture, const char *label, gboolean sensitive)
{
  GtkWidget *take = GTK_WIDGET (child (fixture, "take"));

  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (take)), ==, label);
  g_assert_cmpint (gtk_widget_get_sensitive (take), ==, sensitive);
}

static void
assert_label (Fixture *fixture, const char *name, const char *text)
{
  GtkLabel *label = GTK_LABEL (child (fixture, name));

  if (gtk_widget_get_mapped (GTK_WIDGET (label)) != (text != NULL))
    g_error ("%s is %s", name, text ? "not shown" : "shown");
  if (text && !strstr (gtk_label_get_text (label), text))
    g_error ("%s says “%s” and not “%s”", name, gtk_label_get_text (label), text);
}

/* All words of the rows that are on the screen. */
static void
add_words (GtkWidget *root, GString *words)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root))
    g_string_append_printf (words, "%s|", gtk_label_get_text (GTK_LABEL (root)));
  for (GtkWidget *widget = gtk_widget_get_first_child (root); widget;
       widget = gtk_widget_get_next_sibling (widget))
    add_words (widget, words);
}

static char *
rows_of (Fixture *fixture)
{
  GString *words = g_string_new (NULL);

  add_words (GTK_WIDGET (child (fixture, "list")), words);
  return g_string_free (words, FALSE);
}

static void
assert_rows (Fixture *fixture, const char *words)
{
  g_autofree char *rows = rows_of (fixture);

  if (!strstr (rows, words))
    g_error ("“%s” is not in “%s”", words, rows);
}

static void
choose (Fixture *fixture, const char *name, guint position)
{
  GtkWidget *choice = page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, name);

  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), position);
  page_settle ();
}

static guint
chosen (Fixture *fixture, const char *name)
{
  return gtk_drop_down_get_selected (
      GTK_DROP_DOWN (page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, name)));
}

static guint
n_rows (Fixture *fixture)
{
  GtkSelectionModel *model = gtk_list_view_get_model (GTK_LIST_VIEW (child (fixture, "list")));

  return g_list_model_get_n_items (G_LIST_MODEL (model));
}

static void
take_over (Fixture *fixture)
{
  g_signal_emit_by_name (child (fixture, "take"), "clicked");
  page_settle ();
}

static void
test_paste (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GdkClipboard *clipboard = gtk_widget_get_clipboard (fixture->page);

  assert_take (fixture, "Take over", FALSE);
  gdk_clipboard_set_text (clipboard, WIDE);
  g_signal_emit_by_name (child (fixture, "paste"), "clicked");
  page_wait_for (import_of (fixture) != NULL);
  page_settle ();
  assert_label (fixture, "counts", "3 new readings, 1 row cannot be read");
  assert_label (fixture, "problem", NULL);
  assert_rows (fixture, "2|2 new|Rod 1: 171.6\302\240g; 171.7\302\240g|1|171,6|171,7|");
  assert_rows (fixture, "3|new|Rod 2, small end, mark up: 171.5\302\240g|2|171,5||");
  assert_rows (
      fixture,
      "4|cannot be read|Line 4, column 1 (rod): “9” is no part of this job|9|171,4|171,4|");
  assert_take (fixture, "Take over 3 readings", TRUE);
  /* so far it was only shown */
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, 0);
  gdk_clipboard_set_content (clipboard, NULL);
  tg_import_page_paste (TG_IMPORT_PAGE (fixture->page));
  page_wait_for (gtk_widget_get_mapped (GTK_WIDGET (child (fixture, "problem"))));
  assert_label (fixture, "problem", "There is no text to paste");
  assert_take (fixture, "Take over 3 readings", TRUE);
}

static void
test_take_over (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const TgEvent *last;

  set_text (fixture, WIDE);
  take_over (fixture);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_WEIGHING), ==, 3);
  last = page_last (fixture->session);
  g_assert_cmpstr (last->part, ==, "rod-2");
  g_assert_cmpint (last->mass, ==, 171500);
  g_assert_cmpint (last->stamp.seconds, >, 1700000000);
  g_assert_cmpstr (last->who, !=, "");
  assert_label (fixture, "done", "3 readings taken over. Ctrl+Z strikes them all out");
  assert_take (fixture, "Nothing new to take over", FALSE);
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (child (fixture, "leave"))), ==, "Done");
  g_assert_true (gtk_widget_has_focus (GTK_WIDGET (child (fixture, "leave"))));
  /* what was left out is still in sight */
  assert_rows (fixture, "2|2 known already|");
  assert_rows (fixture, "4|cannot be read|Line 4");
  /* the same once more, written otherwise, changes nothing */
  set_text (fixture, "rod\tsmall up\tsmall down\n2\t171.5\t\n1\t171.6\t171.7\n");
  assert_label (fixture, "counts", "Nothing new, 3 known already");
  assert_take (fixture, "Nothing new to take over", FALSE);
  g_assert_false (tg_import_page_take_over (TG_IMPORT_PAGE (fixture->page)));
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, 3);
  /* another name is another table, and the person is told that all of it is here */
  gtk_editable_set_text (
      GTK_EDITABLE (page_find_named (fixture->page, GTK_TYPE_ENTRY, "Name of the table")), "May");
  page_settle ();
  assert_take (fixture, "Take over 3 readings", TRUE);
  assert_label (fixture, "notes", "stands in the journal already");
}

static void
test_undo (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  set_text (fixture, WIDE);
  take_over (fixture);
  g_assert_true (tg_session_undo (fixture->session, NULL));
  page_settle ();
  for (guint i = 0; i < 3; i++)
    g_assert_true (tg_session_review (fixture->session)->struck[i]);
  assert_label (fixture, "done", NULL);
  assert_rows (fixture, "3|known already, struck out|");
  assert_take (fixture, "Nothing new to take over", FALSE);
}

/* What is found out is shown; what the person says counts, and the rest goes on being found. */
static void
test_form (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  set_text (fixture, "Rod 1;171,6;171,7\nRod 2;171,5;171,4\n");
  g_assert_cmpuint (chosen (fixture, "What parts the columns"), ==, 2);
  g_assert_cmpuint (chosen (fixture, "Headings"), ==, TG_TABLE_HEADER_NO);
  g_assert_cmpuint (chosen (fixture, "What stands in Column 3"), ==, TG_COLUMN_READING);
  choose (fixture, "What stands in Column 1", TG_COLUMN_PART);
  choose (fixture, "What stands in Column 2", TG_COLUMN_SMALL);
  choose (fixture, "What stands in Column 3", TG_COLUMN_SMALL_DOWN);
  assert_label (fixture, "counts", "Nothing new, 2 rows cannot be read");
  assert_label (fixture, "notes", "same way up");
  g_assert_cmpuint (chosen (fixture, "Decimal mark"), ==, 2);
  choose (fixture, "Ends without a way up", TG_WAY_MARK_UP);
  assert_label (fixture, "counts", "4 new readings");
  assert_label (fixture, "notes", NULL);
  choose (fixture, "Decimal mark", 1);
  assert_rows (fixture, "“171,6” has a comma where decimals stand behind a point");
  choose (fixture, "Decimal mark", 0);
  assert_label (fixture, "counts", "4 new readings");
  choose (fixture, "Headings", TG_TABLE_HEADER_YES);
  assert_label (fixture, "counts", "2 new readings");
  choose (fixture, "Headings", TG_TABLE_HEADER_GUESS);
  assert_label (fixture, "counts", "4 new readings");
  /* with another separator there are other columns */
  choose (fixture, "What parts the columns", 3);
  g_assert_cmpuint (import_of (fixture)->n_columns, ==, 1);
  assert_label (fixture, "problem", "This table cannot be read: no column is known");
  choose (fixture, "What parts the columns", 0);
  g_assert_cmpuint (chosen (fixture, "What parts the columns"), ==, 2);
  g_assert_cmpuint (import_of (fixture)->n_columns, ==, 3);
  assert_label (fixture, "problem", NULL);
}

/* A row has one part: said of a second column it is no longer said of the first. */
static void
test_one_part (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  set_text (fixture, "who,which,small up,small down\nRod 1,Rod 2,171.6,\n");
  assert_label (fixture, "problem", "no column is known to name the part");
  assert_rows (fixture, "2|cannot be read|Line 2: nothing is read before");
  choose (fixture, "What stands in who", TG_COLUMN_PART);
  assert_rows (fixture, "Rod 1, small end, mark up");
  choose (fixture, "What stands in which", TG_COLUMN_PART);
  assert_rows (fixture, "Rod 2, small end, mark up");
  g_assert_cmpuint (chosen (fixture, "What stands in who"), ==, TG_COLUMN_IGNORE);
  assert_label (fixture, "problem", NULL);
}

static void
test_only_problems (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkCheckButton *only = GTK_CHECK_BUTTON (child (fixture, "only_problems"));

  set_text (fixture, WIDE);
  g_assert_cmpuint (n_rows (fixture), ==, 3);
  gtk_check_button_set_active (only, TRUE);
  page_settle ();
  g_assert_cmpuint (n_rows (fixture), ==, 1);
  assert_rows (fixture, "4|cannot be read|Line 4");
  assert_take (fixture, "Take over 3 readings", TRUE);
  set_text (fixture, "rod;small up\n1;171,6\n");
  g_assert_cmpuint (n_rows (fixture), ==, 1);
  g_assert_false (gtk_widget_get_mapped (GTK_WIDGET (only)));
}

/* A table that is broken altogether keeps its text, and the person may say how it is written. */
static void
test_broken (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  set_text (fixture, "rod,small up\n\"1,171.6\n");
  g_assert_null (import_of (fixture));
  assert_label (fixture, "problem", "This table cannot be read: line 2");
  assert_take (fixture, "Take over", FALSE);
  g_assert_true (gtk_widget_get_mapped (GTK_WIDGET (child (fixture, "form"))));
  choose (fixture, "What parts the columns", 2);
  assert_label (fixture, "problem", "This table cannot be read");
  set_text (fixture, WIDE);
  assert_label (fixture, "problem", NULL);
}

static void
test_files (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  TgImportPage *page = TG_IMPORT_PAGE (fixture->page);
  g_autofree char *path = g_build_filename (fixture->folder, "table.csv", NULL);

  g_assert_true (g_file_set_contents (path, "piston,g\n1,520.5\n", -1, NULL));
  g_assert_true (tg_import_page_load (page, path));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (
                       page_find_named (fixture->page, GTK_TYPE_ENTRY, "Name of the table"))),
                   ==, "table.csv");
  assert_take (fixture, "Take over 1 reading", TRUE);
  /* another that is none: what is shown stays */
  g_assert_false (tg_import_page_load (page, fixture->folder));
  page_settle ();
  assert_label (fixture, "problem", "this is a folder");
  assert_take (fixture, "Take over 1 reading", TRUE);
  /* the job was written to by somebody else: nothing is taken over, nothing is lost */
  g_assert_true (g_file_set_contents (tg_session_path (fixture->session), "<job/>", -1, NULL));
  take_over (fixture);
  assert_label (fixture, "problem", "was changed by another program");
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, 0);
  assert_take (fixture, "Take over 1 reading", TRUE);
}

static void
on_left (TgImportPage *page G_GNUC_UNUSED, guint *n)
{
  ++*n;
}

static void
test_leave (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint left = 0;

  g_signal_connect (fixture->page, "left", G_CALLBACK (on_left), &left);
  set_text (fixture, WIDE);
  g_assert_true (page_press (fixture->page, GDK_KEY_Escape, 0));
  g_assert_cmpuint (left, ==, 1);
  g_assert_null (import_of (fixture));
  g_assert_cmpuint (n_rows (fixture), ==, 0);
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, 0);
  g_object_set (fixture->page, "session", NULL, NULL);
  set_text (fixture, WIDE);
  g_assert_null (import_of (fixture));
}

static guint
count_rows (GtkWidget *root)
{
  guint n = TG_IS_IMPORT_ROW (root);

  for (GtkWidget *widget = gtk_widget_get_first_child (root); widget;
       widget = gtk_widget_get_next_sibling (widget))
    n += count_rows (widget);
  return n;
}

/* Ten thousand rows: few of them are widgets, and saying something else does not take long. */
static void
test_long (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GString) text = g_string_new ("piston,g\n");
  gint64 start, shown, said, taken;

  for (guint i = 0; i < 10000; i++)
    g_string_append_printf (text, "Piston %u,%u.%u\n", 1 + i % 2, 500 + i / 20 % 50, i % 10);
  start = g_get_monotonic_time ();
  set_text (fixture, text->str);
  shown = g_get_monotonic_time ();
  g_assert_cmpuint (n_rows (fixture), ==, 10000);
  assert_take (fixture, "Take over 10000 readings", TRUE);
  g_assert_cmpuint (count_rows (fixture->page), >, 5);
  g_assert_cmpuint (count_rows (fixture->page), <, 500);
  choose (fixture, "Headings", TG_TABLE_HEADER_NO);
  said = g_get_monotonic_time ();
  assert_label (fixture, "counts", "10000 new readings, 1 row cannot be read");
  take_over (fixture);
  taken = g_get_monotonic_time ();
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_WEIGHING), ==, 10000);
  assert_take (fixture, "Nothing new to take over", FALSE);
  g_test_message ("shown in %d ms, said otherwise in %d ms, taken over in %d ms",
                  (int) ((shown - start) / 1000), (int) ((said - shown) / 1000),
                  (int) ((taken - said) / 1000));
  g_assert_cmpint (said - start, <, 10 * G_USEC_PER_SEC);
}

static void
test_room (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  int least;

  set_text (fixture, WIDE);
  gtk_widget_measure (fixture->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  g_assert_cmpuint (page_check_names (fixture->page), >, 10);
}

/* The heads stand above their columns, also when the table is moved sideways. */
static void
test_sideways (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *cell, *choice;
  GtkAdjustment *sideways;
  graphene_rect_t head, body;

  set_text (fixture, WIDE);
  sideways = gtk_scrolled_window_get_hadjustment (GTK_SCROLLED_WINDOW (child (fixture, "table")));
  gtk_widget_grab_focus (
      page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, "What stands in small down"));
  page_wait_for (gtk_adjustment_get_value (sideways) > 100);
  choice = page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, "What stands in small down");
  cell = gtk_widget_get_last_child (page_find (fixture->page, TG_TYPE_IMPORT_ROW, NULL));
  cell = gtk_widget_get_last_child (cell);
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (cell)), ==, "171,7");
  g_assert_true (gtk_widget_compute_bounds (choice, fixture->page, &head));
  g_assert_true (gtk_widget_compute_bounds (cell, fixture->page, &body));
  g_assert_cmpfloat_with_epsilon (head.origin.x, body.origin.x, 2);
}

static void
add (const char *path, void (*test) (Fixture *, gconstpointer))
{
  g_test_add (path, Fixture, NULL, set_up, test, tear_down);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  add ("/import-page/paste", test_paste);
  add ("/import-page/take-over", test_take_over);
  add ("/import-page/undo", test_undo);
  add ("/import-page/form", test_form);
  add ("/import-page/one-part", test_one_part);
  add ("/import-page/only-problems", test_only_problems);
  add ("/import-page/broken", test_broken);
  add ("/import-page/files", test_files);
  add ("/import-page/leave", test_leave);
  add ("/import-page/long", test_long);
  add ("/import-page/room", test_room);
  add ("/import-page/sideways", test_sideways);
  return g_test_run ();
}
