/* test-fold.c: columns where there is room, rows where there is none
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <gtk/gtk.h>

#include "fold.h"

#define N 3

typedef struct
{
  GtkWidget *fold;
  GtkWidget *children[N];
} Fixture;

/* Three children of 100 x 40 px; the middle one takes the room that is left. */
static void
set_up (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  fixture->fold = g_object_ref_sink (tg_fold_new ());
  g_object_set (fixture->fold, "wide", "0 | 1 | 2", "wide-width", 400, "narrow", "0 2 / 1",
                "spacing", 10, "row-spacing", 5, NULL);
  for (guint i = 0; i < N; i++)
    {
      fixture->children[i] = gtk_drawing_area_new ();
      gtk_widget_set_size_request (fixture->children[i], 100, 40);
      gtk_widget_set_parent (fixture->children[i], fixture->fold);
    }
  gtk_widget_set_hexpand (fixture->children[1], TRUE);
}

static void
tear_down (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_object_unref (fixture->fold);
}

static void
allocate (Fixture *fixture, int width, int height)
{
  int least;

  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, width, &least, NULL, NULL, NULL);
  gtk_widget_size_allocate (fixture->fold, &(GtkAllocation){ 0, 0, width, height }, -1);
  while (g_main_context_iteration (NULL, FALSE))
    ;
}

static graphene_rect_t
place_of (Fixture *fixture, guint child)
{
  graphene_rect_t place;

  g_assert_true (gtk_widget_compute_bounds (fixture->children[child], fixture->fold, &place));
  return place;
}

static void
assert_place (Fixture *fixture, guint child, int x, int y, int width)
{
  graphene_rect_t place = place_of (fixture, child);

  g_assert_cmpfloat ((double) place.origin.x, ==, x);
  g_assert_cmpfloat ((double) place.origin.y, ==, y);
  g_assert_cmpfloat ((double) place.size.width, ==, width);
}

static void
test_wide (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  allocate (fixture, 500, 100);
  assert_place (fixture, 0, 0, 0, 100);
  assert_place (fixture, 1, 110, 0, 280);
  assert_place (fixture, 2, 400, 0, 100);
  g_assert_cmpint (tg_fold_shape (TG_FOLD (fixture->fold)), ==, TG_FOLD_WIDE);
}

static void
test_narrow (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  allocate (fixture, 300, 100);
  assert_place (fixture, 0, 0, 0, 100);
  assert_place (fixture, 2, 110, 0, 100);
  assert_place (fixture, 1, 0, 45, 300);
  g_assert_cmpint (tg_fold_shape (TG_FOLD (fixture->fold)), ==, TG_FOLD_NARROW);
}

/* Children that have grown fold earlier, whatever width was stated. */
static void
test_grown (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  gtk_widget_set_size_request (fixture->children[0], 250, 40);
  gtk_widget_set_size_request (fixture->children[2], 200, 40);
  allocate (fixture, 500, 100);
  g_assert_cmpint (tg_fold_shape (TG_FOLD (fixture->fold)), ==, TG_FOLD_NARROW);
}

static void
test_measure (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  int least, natural;

  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_HORIZONTAL, -1, &least, &natural, NULL, NULL);
  g_assert_cmpint (least, ==, 210);
  g_assert_cmpint (natural, ==, 320);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, 500, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, ==, 40);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, 300, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, ==, 85);
}

/* What is hidden takes no room, and an empty row no spacing. */
static void
test_hidden (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  int least;

  gtk_widget_set_visible (fixture->children[1], FALSE);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, 300, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, ==, 40);
}

/* Two that expand get equal widths, unless one needs more than its share. */
static void
test_equal (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  gtk_widget_set_hexpand (fixture->children[2], TRUE);
  allocate (fixture, 520, 100);
  assert_place (fixture, 1, 110, 0, 200);
  assert_place (fixture, 2, 320, 0, 200);
  gtk_widget_set_size_request (fixture->children[2], 250, 40);
  allocate (fixture, 520, 100);
  assert_place (fixture, 1, 110, 0, 150);
  assert_place (fixture, 2, 270, 0, 250);
}

static void
add (const char *path, void (*test) (Fixture *, gconstpointer))
{
  g_test_add (path, Fixture, NULL, set_up, test, tear_down);
}

/* What an arrangement leaves out is not shown, and comes back with the width. */
static void
test_left_out (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  int least, wide_least;

  g_object_set (fixture->fold, "narrow", "0 / 2", NULL);
  allocate (fixture, 300, 100);
  g_assert_false (gtk_widget_get_child_visible (fixture->children[1]));
  g_assert_true (gtk_widget_get_child_visible (fixture->children[2]));
  allocate (fixture, 500, 100);
  g_assert_true (gtk_widget_get_child_visible (fixture->children[1]));
  /* a width that is far larger never asks for more height than none at all */
  g_object_set (fixture->fold, "wide", "0 / 1 / 2", NULL);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, -1, &least, NULL, NULL, NULL);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, 10000, &wide_least, NULL, NULL,
                      NULL);
  g_assert_cmpint (least, ==, wide_least);
}

/* Text that wraps has its whole height, also inside a scrolled window that does not scroll. */
static void
test_unscrolled (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  GtkWidget *scroller = gtk_scrolled_window_new ();
  GtkWidget *label = gtk_label_new ("many words that do not fit on one line of so narrow a place, "
                                    "so that they have to go on over several lines");
  int least, label_least;

  gtk_label_set_wrap (GTK_LABEL (label), TRUE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scroller), GTK_POLICY_NEVER,
                                  GTK_POLICY_NEVER);
  gtk_scrolled_window_set_child (GTK_SCROLLED_WINDOW (scroller), label);
  gtk_widget_set_parent (scroller, fixture->fold);
  g_object_set (fixture->fold, "narrow", "3", NULL);
  gtk_widget_measure (label, GTK_ORIENTATION_VERTICAL, 200, &label_least, NULL, NULL, NULL);
  gtk_widget_measure (fixture->fold, GTK_ORIENTATION_VERTICAL, 200, &least, NULL, NULL, NULL);
  g_assert_cmpint (label_least, >, 50);
  g_assert_cmpint (least, >=, label_least);
}

/* Tab goes from child to child as stated, and backwards the other way round. */
static void
test_focus_order (G_GNUC_UNUSED Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  const guint order[] = { 2, 0, 1 };
  GtkWidget *window = gtk_window_new ();
  GtkWidget *fold = tg_fold_new ();
  GtkWidget *buttons[N];

  g_object_set (fold, "wide", "0 | 1 | 2", "narrow", "0 / 1 / 2", "focus-order", "2 0 1", NULL);
  for (guint i = 0; i < N; i++)
    {
      buttons[i] = gtk_button_new_with_label ("one");
      gtk_widget_set_parent (buttons[i], fold);
    }
  gtk_window_set_child (GTK_WINDOW (window), fold);
  gtk_window_present (GTK_WINDOW (window));
  while (!gtk_widget_get_mapped (buttons[2]))
    g_main_context_iteration (NULL, TRUE);
  gtk_widget_grab_focus (buttons[2]);
  for (guint i = 0; i < N; i++)
    {
      g_assert_true (gtk_window_get_focus (GTK_WINDOW (window)) == buttons[order[i]]);
      gtk_widget_child_focus (fold, GTK_DIR_TAB_FORWARD);
    }
  gtk_widget_grab_focus (buttons[1]);
  for (guint i = N; i-- > 0;)
    {
      g_assert_true (gtk_window_get_focus (GTK_WINDOW (window)) == buttons[order[i]]);
      gtk_widget_child_focus (fold, GTK_DIR_TAB_BACKWARD);
    }
  gtk_window_destroy (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  gtk_test_init (&argc, &argv, NULL);
  add ("/fold/wide", test_wide);
  add ("/fold/narrow", test_narrow);
  add ("/fold/grown", test_grown);
  add ("/fold/measure", test_measure);
  add ("/fold/hidden", test_hidden);
  add ("/fold/equal", test_equal);
  add ("/fold/left-out", test_left_out);
  add ("/fold/unscrolled", test_unscrolled);
  add ("/fold/focus-order", test_focus_order);
  return g_test_run ();
}
