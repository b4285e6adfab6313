/* test-history-view.c: what the pictures of the past say in words, and where they stand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "grind-page.h"
#include "history-view.h"
#include "page-fixture.h"
#include "scale-history.h"
#include "weigh-page.h"

typedef struct
{
  char *folder;
  TgSession *session;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  fixture->session = page_session_new (fixture->folder, 2);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static void
weigh_rods (Fixture *fixture)
{
  const char *const rods[] = { "rod-1", "rod-2" };
  const double small[] = { 172.6, 171.6 }, big[] = { 412.4, 412.1 };

  for (guint i = 0; i < 2; i++)
    for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
      {
        page_weigh (fixture->session, rods[i], TG_FIGURE_SMALL_END, way, small[i]);
        page_weigh (fixture->session, rods[i], TG_FIGURE_BIG_END, way, big[i]);
      }
}

static void
grind (Fixture *fixture, double wanted_g)
{
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = "rod-1";
  event.zone = "small-pad";
  event.tool = TG_TOOL_BELT;
  event.mass = tg_mass_from_g (wanted_g);
  page_append (fixture->session, event);
}

static void
assert_label (GtkWidget *widget, const char *text)
{
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_LABEL,
                                       text);
}

static void
assert_description (GtkWidget *widget, const char *text)
{
  gtk_test_accessible_assert_property (GTK_ACCESSIBLE (widget), GTK_ACCESSIBLE_PROPERTY_DESCRIPTION,
                                       text);
}

/* "± 0.12" is the review's to say; here it only has to stand where it belongs. */
static char *
sure (Fixture *fixture, TgFigure figure)
{
  const TgPartReview *part = tg_review_part (tg_session_review (fixture->session), 0);
  const TgHistoryPoint *last = NULL;

  for (guint i = 0; i < part->history->len; i++)
    if (g_array_index (part->history, TgHistoryPoint, i).figure == figure)
      last = &g_array_index (part->history, TgHistoryPoint, i);
  g_assert_nonnull (last);
  return tg_review_plus_minus (tg_session_review (fixture->session), last->expanded_g);
}

static void
test_words (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *view = tg_history_view_new ();
  GtkWindow *window = page_show (view, 360, 300);
  g_autofree char *words = NULL;
  g_autofree char *small = NULL;
  g_autofree char *big = NULL;

  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_ROLE_IMG);
  tg_history_view_set_session (TG_HISTORY_VIEW (view), fixture->session);
  assert_label (view, "Rod 1, small end: not weighed yet; big end: not weighed yet");
  assert_description (view, "No passes yet.");

  weigh_rods (fixture);
  small = sure (fixture, TG_FIGURE_SMALL_END);
  big = sure (fixture, TG_FIGURE_BIG_END);
  words = g_strdup_printf ("Rod 1, small end: 1 group of readings, 172.6 %s g, target 171.6 to "
                           "172.1 g; big end: 1 group of readings, 412.4 %s g, target 412.1 to "
                           "412.6 g",
                           small, big);
  assert_label (view, words);
  gtk_window_destroy (window);
}

static void
test_passes (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *view = tg_history_view_new ();
  GtkWindow *window = page_show (view, 360, 300);
  g_autofree char *words = NULL;
  g_autofree char *start = NULL;
  g_autofree char *small = NULL;
  g_autofree char *zone = NULL;

  weigh_rods (fixture);
  tg_history_view_set_session (TG_HISTORY_VIEW (view), fixture->session);
  zone = g_strdup (
      tg_design_zone (tg_review_part (tg_session_review (fixture->session), 0)->design, 0)->name);
  grind (fixture, 0.4);
  words = g_strdup_printf ("1 pass, the last one on the %s, not weighed yet.", zone);
  assert_description (view, words);
  page_weigh (fixture->session, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 172.2);
  grind (fixture, 0.3);
  page_weigh (fixture->session, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.9);

  small = sure (fixture, TG_FIGURE_SMALL_END);
  start = g_strdup_printf (
      "Rod 1, small end: 3 groups of readings from 172.6 to 171.9 %s g, target", small);
  g_free (words);
  words = tg_history_view_words (tg_session_review (fixture->session), 0);
  g_assert_true (g_str_has_prefix (words, start));
  assert_label (view, words);
  g_free (words);
  words = tg_history_view_pass_words (tg_session_review (fixture->session), 0);
  g_free (start);
  start = g_strdup_printf ("2 passes, the last one on the %s: ", zone);
  g_assert_true (g_str_has_prefix (words, start));
  g_assert_true (g_str_has_suffix (words, " g taken."));
  assert_description (view, words);
  gtk_window_destroy (window);
}

/* Another part, and after a replacement the new piece. */
static void
test_part (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *view = tg_history_view_new ();
  GtkWindow *window = page_show (view, 360, 300);
  TgEvent event = tg_event_blank (TG_EVENT_REPLACE);
  g_autofree char *words = NULL;

  weigh_rods (fixture);
  tg_history_view_set_session (TG_HISTORY_VIEW (view), fixture->session);
  tg_history_view_set_part (TG_HISTORY_VIEW (view), 1);
  words = tg_history_view_words (tg_session_review (fixture->session), 1);
  g_assert_true (g_str_has_prefix (words, "Rod 2, small end: 1 group"));
  assert_label (view, words);

  tg_history_view_set_part (TG_HISTORY_VIEW (view), 2);
  assert_label (view, "Piston 1, weight: not weighed yet");

  event.part = "rod-1";
  page_append (fixture->session, event);
  tg_history_view_set_part (TG_HISTORY_VIEW (view), 0);
  g_free (words);
  words = tg_history_view_words (tg_session_review (fixture->session), 0);
  g_assert_true (g_str_has_prefix (words, "Rod 1, the new piece, small end: not weighed yet"));
  assert_label (view, words);
  gtk_window_destroy (window);
}

static int
height_of (GtkWidget *view)
{
  int least;

  gtk_widget_measure (view, GTK_ORIENTATION_VERTICAL, 300, &least, NULL, NULL, NULL);
  return least;
}

/* No more room than there is to tell, and never wider than a narrow window. */
static void
test_room (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *view = g_object_ref_sink (tg_history_view_new ());
  int width, empty, rod;

  tg_history_view_set_session (TG_HISTORY_VIEW (view), fixture->session);
  gtk_widget_measure (view, GTK_ORIENTATION_HORIZONTAL, -1, &width, NULL, NULL, NULL);
  g_assert_cmpint (width, <=, 328);
  empty = height_of (view);
  g_assert_cmpint (empty, >, 20);
  weigh_rods (fixture);
  rod = height_of (view);
  g_assert_cmpint (rod, >, 2 * empty);
  page_weigh (fixture->session, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 400);
  tg_history_view_set_part (TG_HISTORY_VIEW (view), 2);
  g_assert_cmpint (height_of (view), >, empty);
  g_assert_cmpint (height_of (view), <, rod);
  tg_history_view_set_session (TG_HISTORY_VIEW (view), NULL);
  g_object_unref (view);
}

/* On Grind it always stands there; on Weigh from the first pass on.  Both follow the part in work. */
static void
test_pages (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *pages = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *weigh = tg_weigh_page_new (), *ground = tg_grind_page_new ();
  GtkWindow *window;
  GtkWidget *view, *other;
  g_autofree char *first = NULL;
  g_autofree char *second = NULL;

  weigh_rods (fixture);
  tg_weigh_page_set_session (TG_WEIGH_PAGE (weigh), fixture->session);
  tg_grind_page_set_session (TG_GRIND_PAGE (ground), fixture->session);
  gtk_box_append (GTK_BOX (pages), weigh);
  gtk_box_append (GTK_BOX (pages), ground);
  window = page_show (pages, 800, 600);
  other = page_find (ground, TG_TYPE_HISTORY_VIEW, NULL);
  view = page_find (weigh, TG_TYPE_HISTORY_VIEW, NULL);

  tg_session_set_part (fixture->session, 1);
  g_assert_true (gtk_widget_get_mapped (other));
  g_assert_false (gtk_widget_get_visible (view));
  second = tg_history_view_words (tg_session_review (fixture->session), 1);
  assert_label (other, second);
  assert_label (view, second);

  grind (fixture, 0.4);
  g_assert_false (gtk_widget_get_visible (view));
  tg_session_set_part (fixture->session, 0);
  g_assert_true (gtk_widget_get_visible (view));
  page_wait_for (gtk_widget_get_mapped (view));
  first = tg_history_view_words (tg_session_review (fixture->session), 0);
  assert_label (other, first);
  assert_label (view, first);
  gtk_window_destroy (window);
}

static void
check_zero (Fixture *fixture, double grams, gboolean set_back)
{
  TgEvent event = tg_event_blank (TG_EVENT_ZERO);

  event.mass = tg_mass_from_g (grams);
  event.set_back = set_back;
  page_append (fixture->session, event);
}

static void
check_weight (Fixture *fixture, double grams)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.nominal = 500 * TG_MASS_G;
  event.mass = tg_mass_from_g (grams);
  page_append (fixture->session, event);
}

static void
test_scale (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *view = tg_scale_history_new ();
  GtkWindow *window = page_show (view, 360, 300);
  int empty, one;

  gtk_test_accessible_assert_role (GTK_ACCESSIBLE (view), GTK_ACCESSIBLE_ROLE_IMG);
  tg_scale_history_set_session (TG_SCALE_HISTORY (view), fixture->session);
  assert_label (view, "the scale was not checked yet");
  empty = height_of (view);

  check_zero (fixture, 0, FALSE);
  assert_label (view, "zero: 1 check, 0.0 g, fits");
  one = height_of (view);
  check_zero (fixture, -0.1, FALSE);
  check_zero (fixture, 3, TRUE);
  check_weight (fixture, 500);
  check_weight (fixture, 530);
  assert_label (view, "zero: 3 checks, the last one +3.0 g, off, set to zero; check weight 500 g: "
                      "2 checks, the last one +30.0 g, off");
  g_assert_cmpint (one, >, empty);
  g_assert_cmpint (height_of (view), >, one);
  gtk_window_destroy (window);
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
  add ("/history-view/words", test_words);
  add ("/history-view/passes", test_passes);
  add ("/history-view/part", test_part);
  add ("/history-view/room", test_room);
  add ("/history-view/pages", test_pages);
  add ("/history-view/scale", test_scale);
  return g_test_run ();
}
