/* test-bobweight-view.c: the bobweight card on the screen: what it shows, what it asks, what it changes
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All weights are invented.
 */
#include <string.h>

#include "bench.h"
#include "bobweight-view.h"
#include "bobweight.h"
#include "number.h"
#include "page-fixture.h"

static PageRig *
rig_new (guint cylinders, int width)
{
  PageRig *rig = page_rig_new (tg_bobweight_view_new (), cylinders, width, 700);

  page_settle ();
  return rig;
}

static const char *
cell (const PageRig *rig, const char *row, int column)
{
  GtkGrid *table = GTK_GRID (bench_child (rig->page, "table"));

  for (int r = 0; r < 40; r++)
    {
      GtkWidget *head = gtk_grid_get_child_at (table, 0, r);

      if (GTK_IS_LABEL (head) && strcmp (gtk_label_get_text (GTK_LABEL (head)), row) == 0)
        return gtk_label_get_text (GTK_LABEL (gtk_grid_get_child_at (table, column, r)));
    }
  g_error ("no row “%s”", row);
}

/* Every figure of the card is the core's. */
static void
check_table (const PageRig *rig)
{
  const TgReview *review = tg_session_review (rig->session);
  g_autoptr (TgBobweight) bobweight = tg_bobweight_new (review);
  guint decimals = tg_bobweight_decimals (review);

  g_assert_true (bobweight->known);
  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      const TgBobweightPin *pin = &bobweight->pins[p];
      g_autofree char *sum = tg_number_format (pin->bobweight_g, decimals);
      g_autofree char *turning = tg_number_format (pin->rotating_g, decimals);

      g_assert_cmpstr (cell (rig, "bobweight", (int) p + 1), ==, sum);
      g_assert_cmpstr (cell (rig, "turns with the crankpin", (int) p + 1), ==, turning);
      for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
        if (bobweight->weighed[t])
          {
            g_autofree char *grams = tg_number_format (pin->terms_g[t], decimals);

            g_assert_cmpstr (cell (rig, tg_bobweight_term_label (t), (int) p + 1), ==, grams);
          }
    }
}

static void
test_missing (void)
{
  g_autoptr (PageRig) rig = rig_new (4, 700);

  g_assert_true (gtk_widget_get_visible (bench_child (rig->page, "missing")));
  g_assert_true (gtk_widget_get_visible (bench_child (rig->page, "weigh")));
  g_assert_false (gtk_widget_get_visible (bench_child (rig->page, "describe")));
  g_assert_false (gtk_widget_get_visible (bench_child (rig->page, "table_scroller")));
  page_weigh_all (rig->session, 4);
  page_settle ();
  g_assert_false (gtk_widget_get_visible (bench_child (rig->page, "missing")));
  g_assert_true (gtk_widget_get_visible (bench_child (rig->page, "print")));
  check_table (rig);
}

/* Nobody knows the crank of seven in line. */
static void
test_no_layout (void)
{
  g_autoptr (PageRig) rig = rig_new (7, 700);

  g_assert_true (gtk_widget_get_visible (bench_child (rig->page, "describe")));
  g_assert_false (gtk_widget_get_visible (bench_child (rig->page, "weigh")));
}

static void
test_factor (void)
{
  g_autoptr (PageRig) rig = rig_new (4, 700);
  GtkCheckButton *by_layout = GTK_CHECK_BUTTON (bench_child (rig->page, "by_layout"));
  const TgEngine *engine;

  page_weigh_all (rig->session, 4);
  page_settle ();
  g_assert_true (gtk_check_button_get_active (by_layout));
  g_assert_cmpstr (cell (rig, "bobweight", 1), ==, cell (rig, "turns with the crankpin", 1));
  gtk_check_button_set_active (by_layout, FALSE);
  page_settle ();
  engine = &tg_session_review (rig->session)->setup->engine;
  g_assert_cmpfloat (engine->factor_percent, ==, 0);
  page_set (rig->session, "engine.factor", "50");
  page_set (rig->session, "engine.oil", "5.5");
  page_settle ();
  check_table (rig);
  /* 412.4 + 5.5 + (410.6 + 171.3) / 2 */
  g_assert_cmpstr (cell (rig, "bobweight", 1), ==, "708.85");
  gtk_check_button_set_active (by_layout, TRUE);
  page_settle ();
  engine = &tg_session_review (rig->session)->setup->engine;
  g_assert_cmpfloat (engine->factor_percent, ==, TG_ENGINE_FACTOR_BY_LAYOUT);
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 4);
}

static void
test_names_and_width (void)
{
  g_autoptr (PageRig) rig = rig_new (8, 360);
  int least;

  page_set (rig->session, "engine.factor", "40");
  page_weigh_all (rig->session, 8);
  page_settle ();
  g_assert_cmpuint (page_check_names (rig->page), >, 5);
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/bobweight-view/missing", test_missing);
  g_test_add_func ("/bobweight-view/no-layout", test_no_layout);
  g_test_add_func ("/bobweight-view/factor", test_factor);
  g_test_add_func ("/bobweight-view/names-and-width", test_names_and_width);
  return g_test_run ();
}
