/* test-build-page.c: what is ticked off on the Build page becomes events, and is shown as they say
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All weights are invented.
 */
#include <string.h>

#include "build-page.h"
#include "build-row.h"
#include "page-fixture.h"

static PageRig *
rig_new (int width)
{
  return page_rig_new (tg_build_page_new (), 3, width, 700);
}

static GtkCheckButton *
check (PageRig *rig, const char *name)
{
  return GTK_CHECK_BUTTON (page_find_named (rig->page, GTK_TYPE_CHECK_BUTTON, name));
}

/* Whether some visible text below @root has @part in it. */
static gboolean
says (GtkWidget *root, const char *part)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    if (gtk_widget_get_mapped (child) &&
        ((GTK_IS_LABEL (child) && strstr (gtk_label_get_text (GTK_LABEL (child)), part)) ||
         says (child, part)))
      return TRUE;
  return FALSE;
}

static void
test_tick (void)
{
  g_autoptr (PageRig) rig = rig_new (900);
  const TgEvent *event;

  gtk_check_button_set_active (check (rig, "Rod in hand: Rod 1"), TRUE);
  page_settle ();
  event = page_last (rig->session);
  g_assert_cmpint (event->kind, ==, TG_EVENT_TICK);
  g_assert_cmpint (event->check, ==, TG_CHECK_ROD);
  g_assert_cmpuint (event->bore, ==, 1);
  g_assert_cmpstr (event->part, ==, "rod-1");
  g_assert_true (says (rig->page, "Bore 1: 1 of 12"));

  gtk_check_button_set_active (check (rig, "Rod in hand: Rod 1"), FALSE);
  page_settle ();
  g_assert_cmpint (page_last (rig->session)->kind, ==, TG_EVENT_STRIKE);
  g_assert_true (says (rig->page, "Bore 1: 0 of 12"));
}

/* Space and then Space again ticks two: the keyboard moves on. */
static void
test_moves_on (void)
{
  g_autoptr (PageRig) rig = rig_new (900);
  GtkWidget *focus;

  tg_build_page_focus (TG_BUILD_PAGE (rig->page));
  for (guint i = 0; i < 2; i++)
    {
      focus = gtk_window_get_focus (rig->window);
      g_assert_true (GTK_IS_CHECK_BUTTON (focus));
      g_signal_emit_by_name (focus, "activate");
      page_settle ();
    }
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_TICK), ==, 2);
  g_assert_true (says (rig->page, "Bore 1: 2 of 12"));
}

static void
test_wrong_part (void)
{
  g_autoptr (PageRig) rig = rig_new (900);
  GtkWidget *row = gtk_widget_get_ancestor (GTK_WIDGET (check (rig, "Piston in hand: Piston 1")),
                                            TG_TYPE_BUILD_ROW);
  GtkDropDown *in_hand = GTK_DROP_DOWN (page_find (row, GTK_TYPE_DROP_DOWN, NULL));

  gtk_drop_down_set_selected (in_hand, 1);
  page_settle ();
  g_assert_cmpstr (page_last (rig->session)->part, ==, "piston-2");
  g_assert_true (says (rig->page, "Wrong part: Piston 2 is in hand; Piston 1 belongs here"));
  g_assert_true (says (rig->page, "Bore 1: 1 to look at"));
  g_assert_false (gtk_check_button_get_active (check (rig, "Piston in hand: Piston 1")));

  /* the right one, with one click */
  gtk_check_button_set_active (check (rig, "Piston in hand: Piston 1"), TRUE);
  page_settle ();
  g_assert_cmpstr (page_last (rig->session)->part, ==, "piston-1");
  g_assert_false (says (rig->page, "Wrong part"));
  g_assert_cmpuint (gtk_drop_down_get_selected (in_hand), ==, 0);
}

static void
test_other_bore (void)
{
  g_autoptr (PageRig) rig = rig_new (900);

  gtk_widget_activate_action (rig->page, "build.next-bore", NULL);
  page_settle ();
  gtk_check_button_set_active (check (rig, "Rod in hand: Rod 2"), TRUE);
  page_settle ();
  g_assert_cmpuint (page_last (rig->session)->bore, ==, 2);
  gtk_widget_activate_action (rig->page, "build.last-bore", NULL);
  gtk_widget_activate_action (rig->page, "build.last-bore", NULL);
  page_settle ();
  check (rig, "Rod in hand: Rod 3");
}

static void
test_facing (void)
{
  g_autoptr (PageRig) rig = rig_new (900);
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  GtkWidget *entry;

  gtk_expander_set_expanded (GTK_EXPANDER (page_find (rig->page, GTK_TYPE_EXPANDER, NULL)), TRUE);
  page_settle ();
  entry = page_find_named (rig->page, GTK_TYPE_ENTRY, "Piston mark points");
  gtk_editable_set_text (GTK_EDITABLE (entry), "to the front, with 0,1 mm");
  g_signal_emit_by_name (entry, "activate");
  page_settle ();
  event = *page_last (rig->session);
  g_assert_cmpstr (event.path, ==, "engine.piston-facing");
  g_assert_cmpstr (event.value, ==, "to the front, with 0,1 mm");
  check (rig, "Piston faces the right way: to the front, with 0,1 mm");

  gtk_editable_set_text (GTK_EDITABLE (entry), "");
  g_signal_emit_by_name (entry, "activate");
  page_settle ();
  check (rig, "Piston faces the right way: as the maker’s manual says");
}

static void
test_narrow (void)
{
  g_autoptr (PageRig) rig = rig_new (360);

  gtk_expander_set_expanded (GTK_EXPANDER (page_find (rig->page, GTK_TYPE_EXPANDER, NULL)), TRUE);
  page_settle ();
  g_assert_cmpint (gtk_widget_get_width (rig->page), <=, 360);
  g_assert_cmpuint (page_check_names (rig->page), >, 12);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/build-page/tick", test_tick);
  g_test_add_func ("/build-page/moves-on", test_moves_on);
  g_test_add_func ("/build-page/wrong-part", test_wrong_part);
  g_test_add_func ("/build-page/other-bore", test_other_bore);
  g_test_add_func ("/build-page/facing", test_facing);
  g_test_add_func ("/build-page/narrow", test_narrow);
  return g_test_run ();
}
