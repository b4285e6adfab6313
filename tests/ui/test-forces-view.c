/* test-forces-view.c: what the spread costs
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings and dimensions are invented; the figures are checked in tests/core.
 */
#include <math.h>
#include <string.h>

#include "balance.h"
#include "forces-picture.h"
#include "forces-view.h"
#include "page-fixture.h"
#include "words.h"

static PageRig *
rig_new (int width)
{
  return page_rig_new (tg_forces_view_new (), 4, width, 700);
}

static GtkWidget *
child (PageRig *rig, const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (rig->page, TG_TYPE_FORCES_VIEW, name));
}

static const char *
text (PageRig *rig, const char *name)
{
  return gtk_label_get_text (GTK_LABEL (child (rig, name)));
}

/* (transfer full): the sentences above the plots, as one text */
static char *
sentences (PageRig *rig)
{
  GString *all = g_string_new (NULL);

  for (GtkWidget *label = gtk_widget_get_first_child (child (rig, "words")); label;
       label = gtk_widget_get_next_sibling (label))
    g_string_append_printf (all, "%s%s", all->len ? "\n" : "",
                            gtk_label_get_text (GTK_LABEL (label)));
  return g_string_free (all, FALSE);
}

static void
weigh_all (PageRig *rig)
{
  for (guint i = 0; i < 4; i++)
    {
      g_autofree char *rod = g_strdup_printf ("rod-%u", i + 1);
      g_autofree char *piston = g_strdup_printf ("piston-%u", i + 1);

      page_weigh (rig->session, rod, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6 + 0.4 * i);
      page_weigh (rig->session, rod, TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 171.6 + 0.4 * i);
      page_weigh (rig->session, rod, TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 432.5 + 0.7 * i);
      page_weigh (rig->session, rod, TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN, 432.5 + 0.7 * i);
      page_weigh (rig->session, piston, TG_FIGURE_WHOLE, TG_WAY_ANY, 412.0 + 0.9 * (i % 3));
    }
  page_settle ();
}

static void
describe (PageRig *rig)
{
  page_set (rig->session, "engine.stroke", "86");
  page_set (rig->session, "engine.spacing", "92");
  page_set (rig->session, "engine.speed", "6500");
  page_settle ();
}

static const char *
cell (PageRig *rig, const char *grid, int column, int row)
{
  GtkWidget *label = gtk_grid_get_child_at (GTK_GRID (child (rig, grid)), column, row);

  return label ? gtk_label_get_text (GTK_LABEL (label)) : NULL;
}

/* First the engine is wanted, then the weights, then everything is there. */
static void
test_missing (void)
{
  g_autoptr (PageRig) rig = rig_new (1000);

  g_assert_true (gtk_widget_get_visible (child (rig, "missing")));
  g_assert_true (gtk_widget_get_visible (child (rig, "describe")));
  g_assert_false (gtk_widget_get_visible (child (rig, "body")));
  describe (rig);
  g_assert_true (gtk_widget_get_visible (child (rig, "weigh")));
  g_assert_false (gtk_widget_get_visible (child (rig, "describe")));
  weigh_all (rig);
  g_assert_false (gtk_widget_get_visible (child (rig, "missing")));
  g_assert_true (gtk_widget_get_visible (child (rig, "body")));
}

/* What is shown is what balance.h says, for the speed that is chosen. */
static void
test_figures (void)
{
  g_autoptr (PageRig) rig = rig_new (1000);
  g_autoptr (TgBalance) balance = NULL;
  g_autofree char *words = NULL;
  g_autofree char *slow = NULL;
  g_autofree char *kept = NULL;
  g_autofree char *kept_slow = NULL;
  g_autofree char *said = NULL;
  g_autofree char *said_slow = NULL;
  GtkSpinButton *spin;

  describe (rig);
  weigh_all (rig);
  balance = tg_balance_new (tg_session_job (rig->session), tg_session_review (rig->session));
  words = tg_balance_words (balance, 6500);
  slow = tg_balance_words (balance, 2000);
  spin = GTK_SPIN_BUTTON (child (rig, "speed_spin"));
  g_assert_cmpfloat (gtk_spin_button_get_value (spin), ==, 6500);
  kept = tg_words_keep_units (words);
  said = sentences (rig);
  g_assert_cmpstr (said, ==, kept);
  g_assert_cmpstr (cell (rig, "table", 0, 1), ==, "order 1");
  g_assert_cmpstr (cell (rig, "table", 1, 1), ==, "0");
  g_assert_cmpfloat (g_ascii_strtod (cell (rig, "table", 1, 2), NULL), >, 1000);
  g_assert_cmpstr (cell (rig, "table", 3, 0), ==, "now");
  g_assert_nonnull (strstr (cell (rig, "table", 3, 1), "±"));
  /* no metal came off, and the plan is still to be carried out */
  g_assert_null (gtk_grid_get_child_at (GTK_GRID (child (rig, "table")), 2, 0));
  g_assert_cmpstr (cell (rig, "table", 4, 0), ==, "after the plan");
  g_assert_nonnull (strstr (text (rig, "pairs"), "What goes up and down, now: bores "));
  g_assert_cmpstr (cell (rig, "pins", 0, 3), ==, "Crankpin 4");
  g_assert_nonnull (strstr (text (rig, "grade"), "have still to be said"));
  page_set (rig->session, "engine.crank-mass", "14");
  page_settle ();
  g_assert_nonnull (strstr (text (rig, "grade"), "G 16 after ISO 21940-11 allows 329"));
  gtk_spin_button_set_value (spin, 2000);
  page_settle ();
  said_slow = sentences (rig);
  g_assert_nonnull (strstr (said_slow, "2000"));
  kept_slow = tg_words_keep_units (slow);
  g_assert_cmpstr (said_slow, ==, kept_slow);
}

static void
test_choices (void)
{
  g_autoptr (PageRig) rig = rig_new (1000);

  describe (rig);
  weigh_all (rig);
  for (guint load = 0; load < 2; load++)
    for (guint share = 0; share < 3; share++)
      {
        gtk_drop_down_set_selected (GTK_DROP_DOWN (child (rig, "load")), load);
        gtk_drop_down_set_selected (GTK_DROP_DOWN (child (rig, "share")), share);
        page_settle ();
        g_assert_cmpstr (cell (rig, "table", 0, 0), ==, load ? "N·m" : "N");
      }
  /* without a spacing there are no couples, and the view says so */
  page_set (rig->session, "engine.spacing", "0");
  page_settle ();
  g_assert_cmpstr (cell (rig, "table", 0, 0), ==, "N");
  g_assert_false (gtk_widget_get_sensitive (child (rig, "load")));
  g_assert_nonnull (strstr (text (rig, "missing_words"), "spacing"));
}

static void
test_narrow (void)
{
  g_autoptr (PageRig) rig = rig_new (360);
  int least;

  describe (rig);
  weigh_all (rig);
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
  g_assert_cmpuint (page_check_names (rig->page), >=, 6);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/forces-view/missing", test_missing);
  g_test_add_func ("/forces-view/figures", test_figures);
  g_test_add_func ("/forces-view/choices", test_choices);
  g_test_add_func ("/forces-view/narrow", test_narrow);
  return g_test_run ();
}
