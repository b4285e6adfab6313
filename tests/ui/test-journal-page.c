/* test-journal-page.c: the journal: lines, strikes, notes, filter, ten thousand events
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "fixture.h"
#include "job-xml.h"
#include "journal-model.h"
#include "journal-page.h"
#include "journal-row.h"
#include "page-fixture.h"

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
  page_weigh (fixture->session, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
  page_weigh (fixture->session, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 171.7);
  page_weigh (fixture->session, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.8);
  fixture->page = g_object_new (TG_TYPE_JOURNAL_PAGE, "session", fixture->session, NULL);
  fixture->window = page_show (fixture->page, 360, 600);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static guint
n_lines (GtkWidget *page)
{
  return g_list_model_get_n_items (tg_journal_page_get_lines (TG_JOURNAL_PAGE (page)));
}

static TgJournalLine *
line_of (GtkWidget *page, guint position)
{
  return g_list_model_get_item (tg_journal_page_get_lines (TG_JOURNAL_PAGE (page)), position);
}

/* One line for the day, then one for each event. */
static void
test_lines (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (TgJournalLine) head = line_of (fixture->page, 0);

  g_assert_cmpuint (n_lines (fixture->page), ==, 4);
  g_assert_true (tg_journal_line_is_day (head));
  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (TgJournalLine) line = line_of (fixture->page, i + 1);

      g_assert_false (tg_journal_line_is_day (line));
      g_assert_cmpuint (tg_journal_line_get_index (line), ==, i);
      g_assert_cmpint (tg_journal_line_get_struck_by (line), ==, -1);
    }
  page_wait_for (page_shows (fixture->page, "Rod 1, small end, mark up: 171.6\302\240g"));
  page_wait_for (page_shows (fixture->page, "3 readings"));
}

/* The Delete key strikes out what is selected, and again puts it back; both stay in the journal. */
static void
test_strike (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *list = page_find (fixture->page, GTK_TYPE_LIST_VIEW, "journal");

  g_assert_false (tg_journal_page_toggle_strike (TG_JOURNAL_PAGE (fixture->page)));
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_STRIKE), ==, 0);
  tg_journal_page_select (TG_JOURNAL_PAGE (fixture->page), 1);
  g_assert_true (page_press (list, GDK_KEY_Delete, 0));
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_STRIKE), ==, 1);
  g_assert_true (tg_session_review (fixture->session)->struck[1]);
  page_settle ();
  {
    g_autoptr (TgJournalLine) line = line_of (fixture->page, 2);

    g_assert_cmpint (tg_journal_line_get_struck_by (line), ==, 3);
  }
  page_wait_for (page_shows (fixture->page, "struck out "));
  page_wait_for (
      page_shows (fixture->page, "Struck out: Rod 1, small end, mark down: 171.7\302\240g"));
  g_assert_true (page_press (list, GDK_KEY_Delete, 0));
  g_assert_false (tg_session_review (fixture->session)->struck[1]);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_STRIKE), ==, 2);
  g_assert_cmpuint (n_lines (fixture->page), ==, 6);
}

static void
test_note (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *note = page_find_named (fixture->page, GTK_TYPE_ENTRY, "A note for the journal");

  gtk_editable_set_text (GTK_EDITABLE (note), "   ");
  g_signal_emit_by_name (note, "activate");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_NOTE), ==, 0);
  gtk_editable_set_text (GTK_EDITABLE (note), " Scale moved to the window sill. ");
  g_signal_emit_by_name (note, "activate");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_NOTE), ==, 1);
  g_assert_cmpstr (page_last (fixture->session)->text, ==, "Scale moved to the window sill.");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (note)), ==, "");
  page_settle ();
  page_wait_for (page_shows (fixture->page, "Scale moved to the window sill."));
}

static void
test_filter (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *filter = page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, "Show the lines of");
  g_autoptr (GError) error = NULL;

  tg_session_toggle_strike (fixture->session, 2, &error);
  g_assert_no_error (error);
  /* All parts, Rod 1, Rod 2, Piston 1, Piston 2 */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (filter), 1);
  g_assert_cmpuint (n_lines (fixture->page), ==, 3);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (filter), 2);
  g_assert_cmpuint (n_lines (fixture->page), ==, 3);
  gtk_drop_down_set_selected (GTK_DROP_DOWN (filter), 3);
  g_assert_cmpuint (n_lines (fixture->page), ==, 0);
  page_wait_for (page_shows (fixture->page, "Nothing here yet"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (filter), 0);
  g_assert_cmpuint (n_lines (fixture->page), ==, 5);
}

static guint
count_rows (GtkWidget *root)
{
  guint n = TG_IS_JOURNAL_ROW (root);

  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    n += count_rows (child);
  return n;
}

/* A long journal: a few rows only, the last line in sight, and one more line comes quickly. */
static void
test_long (void)
{
  char *folder = page_folder_new ();
  g_autofree char *path = g_build_filename (folder, "long.tenthgram", NULL);
  TgJob *job = tg_job_new (fixture_setup (2, TRUE, TRUE));
  g_autoptr (GError) error = NULL;
  g_autoptr (TgSession) session = NULL;
  GtkWidget *page;
  GtkWindow *window;
  gint64 begin;
  const guint n = 10000;

  for (guint i = 0; i < n; i++)
    fixture_weigh (job, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY,
                   i == n - 1 ? 401.5 : 400 + i % 7 * 0.1);
  tg_job_xml_save (job, path, &error);
  g_assert_no_error (error);
  tg_job_free (job);
  session = tg_session_open (path, &error);
  g_assert_no_error (error);

  begin = g_get_monotonic_time ();
  page = g_object_new (TG_TYPE_JOURNAL_PAGE, "session", session, NULL);
  window = page_show (page, 700, 600);
  page_wait_for (page_shows (page, "Piston 1: 401.5\302\240g"));
  g_test_message ("page of %u events shown in %.0f ms", n,
                  (double) (g_get_monotonic_time () - begin) / 1000);
  g_assert_cmpuint (n_lines (page), >, n);
  g_assert_cmpuint (count_rows (page), <, 1000);
  begin = g_get_monotonic_time ();
  tg_journal_page_select (TG_JOURNAL_PAGE (page), n - 1);
  g_assert_true (tg_journal_page_toggle_strike (TG_JOURNAL_PAGE (page)));
  page_wait_for (page_shows (page, "struck out "));
  g_test_message ("a strike took %.0f ms, saving and reviewing included",
                  (double) (g_get_monotonic_time () - begin) / 1000);
  gtk_window_destroy (window);
  g_clear_object (&session);
  page_folder_free (folder);
}

static void
test_names_and_width (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  int least;

  g_assert_cmpuint (page_check_names (fixture->page), >=, 5);
  gtk_widget_measure (fixture->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
}

static void
test_no_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_object_set (fixture->page, "session", NULL, NULL);
  page_settle ();
  g_assert_cmpuint (n_lines (fixture->page), ==, 0);
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/journal-page/lines", test_lines);
  ADD ("/journal-page/strike", test_strike);
  ADD ("/journal-page/note", test_note);
  ADD ("/journal-page/filter", test_filter);
  ADD ("/journal-page/names-and-width", test_names_and_width);
  ADD ("/journal-page/no-job", test_no_job);
  g_test_add_func ("/journal-page/long", test_long);
  return g_test_run ();
}
