/* test-class-page.c: the practice jobs of a folder in a table
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "class-page.h"

#include "practice-rig.h"

static void
set_up (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  g_object_unref (practice_session_new (fixture->folder, "b.tenthgram", 0));
  g_object_unref (practice_session_new (fixture->folder, "a.tenthgram", 4));
  g_object_unref (page_session_new (fixture->folder, 2));
  practice_show (fixture, tg_class_page_new ());
}

static GtkColumnView *
view_of (PageRig *fixture)
{
  return GTK_COLUMN_VIEW (page_find (fixture->page, GTK_TYPE_COLUMN_VIEW, NULL));
}

static const char *
file_at (PageRig *fixture, guint position)
{
  GListModel *model = G_LIST_MODEL (gtk_column_view_get_model (view_of (fixture)));
  g_autoptr (GObject) item = g_list_model_get_item (model, position);

  return ((const TgClassRow *) g_object_get_data (item, "row"))->file;
}

static void
test_empty (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_null (tg_class_page_table (TG_CLASS_PAGE (fixture->page)));
  g_assert_true (page_shows (fixture->page, "side by side"));
  g_assert_false (gtk_widget_get_sensitive (
      page_find_named (fixture->page, GTK_TYPE_BUTTON, "Export as a table…")));
  g_assert_cmpuint (page_check_names (fixture->page), >, 3);
}

static void
test_rows (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  tg_class_page_set_folder (TG_CLASS_PAGE (fixture->page), fixture->folder);
  page_settle ();
  g_assert_cmpuint (tg_class_page_table (TG_CLASS_PAGE (fixture->page))->rows->len, ==, 3);
  g_assert_true (page_shows (fixture->page, "a.tenthgram and b.tenthgram"));
  g_assert_true (page_shows (fixture->page, "a job with real parts"));
  g_assert_true (gtk_widget_get_sensitive (
      page_find_named (fixture->page, GTK_TYPE_BUTTON, "Open its debrief")));
  g_assert_true (gtk_widget_get_sensitive (
      page_find_named (fixture->page, GTK_TYPE_BUTTON, "Export as a table…")));
}

/* By wrong readings: the job with the slip of 4 g has one more; the real job has no figure and is first. */
static void
test_sorting (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GListModel *columns;

  tg_class_page_set_folder (TG_CLASS_PAGE (fixture->page), fixture->folder);
  columns = gtk_column_view_get_columns (view_of (fixture));
  g_assert_cmpstr (file_at (fixture, 0), ==, "a.tenthgram");
  for (guint i = 0; i < g_list_model_get_n_items (columns); i++)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (columns, i);

      if (g_strcmp0 (gtk_column_view_column_get_title (column), "Wrong readings") != 0)
        continue;
      gtk_column_view_sort_by_column (view_of (fixture), column, GTK_SORT_DESCENDING);
      g_assert_cmpstr (file_at (fixture, 0), ==, "a.tenthgram");
      g_assert_cmpstr (file_at (fixture, 1), ==, "b.tenthgram");
      gtk_column_view_sort_by_column (view_of (fixture), column, GTK_SORT_ASCENDING);
      g_assert_cmpstr (file_at (fixture, 1), ==, "b.tenthgram");
      g_assert_cmpstr (file_at (fixture, 2), ==, "a.tenthgram");
      return;
    }
  g_assert_not_reached ();
}

/* Columns of bands that no job has are left out, and another folder takes the place of the first. */
static void
test_again (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint n;

  tg_class_page_set_folder (TG_CLASS_PAGE (fixture->page), fixture->folder);
  n = g_list_model_get_n_items (gtk_column_view_get_columns (view_of (fixture)));
  tg_class_page_set_folder (TG_CLASS_PAGE (fixture->page), fixture->folder);
  g_assert_cmpuint (g_list_model_get_n_items (gtk_column_view_get_columns (view_of (fixture))), ==,
                    n);
  g_assert_cmpuint (n, ==, 16); /* 18 less two bands of pistons */
  tg_class_page_set_folder (TG_CLASS_PAGE (fixture->page), "/nowhere");
  page_settle ();
  g_assert_true (page_shows (fixture->page, "nowhere"));
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  g_test_add ("/class-page/empty", PageRig, NULL, set_up, test_empty, practice_tear_down);
  g_test_add ("/class-page/rows", PageRig, NULL, set_up, test_rows, practice_tear_down);
  g_test_add ("/class-page/sorting", PageRig, NULL, set_up, test_sorting, practice_tear_down);
  g_test_add ("/class-page/again", PageRig, NULL, set_up, test_again, practice_tear_down);
  return g_test_run ();
}
