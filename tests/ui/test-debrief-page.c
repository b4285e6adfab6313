/* test-debrief-page.c: what is true stays hidden until the practice is done or ended
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-page.h"

#include "debrief.h"
#include "practice-rig.h"

static void
set_up (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  practice_open (fixture);
  practice_show (fixture, g_object_new (TG_TYPE_DEBRIEF_PAGE, "session", fixture->session, NULL));
}

static void
test_hidden (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_true (page_shows (fixture->page, "stays hidden"));
  g_assert_false (page_shows (fixture->page, "Metal"));
  g_assert_false (page_shows (fixture->page, "truly"));
  g_assert_cmpuint (page_check_names (fixture->page), >, 0);
}

/* It is asked once; who works on has given nothing away. */
static void
test_asks (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint before = tg_job_n_events (tg_session_job (fixture->session));

  practice_click (fixture, "End the practice and see");
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, before);
  g_assert_true (page_shows (fixture->page, "End it?"));
  practice_click (fixture, "Work on");
  g_assert_false (page_shows (fixture->page, "End it?"));
  g_assert_true (page_shows (fixture->page, "stays hidden"));
}

static void
test_ended (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  practice_click (fixture, "End the practice and see");
  practice_click (fixture, "End it");
  g_assert_cmpint (tg_job_find_event (tg_session_job (fixture->session), TG_DEBRIEF_END_ID), >=, 0);
  g_assert_false (page_shows (fixture->page, "stays hidden"));
  g_assert_true (page_shows (fixture->page, "Spread of the small ends"));
  g_assert_true (page_shows (fixture->page, "Readings that were wrong"));
  g_assert_true (page_shows (fixture->page, "poor")); /* the verdict is a word, too */
  g_assert_cmpuint (page_check_names (fixture->page), >, 4);
}

/* The moment of a line is the entry that the button leads to. */
static void
test_moment (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *moment;
  GVariant *target;

  practice_click (fixture, "End the practice and see");
  practice_click (fixture, "End it");
  moment = page_find (fixture->page, GTK_TYPE_BUTTON, "moment");
  g_assert_nonnull (moment);
  g_assert_cmpstr (gtk_actionable_get_action_name (GTK_ACTIONABLE (moment)), ==, "win.replay");
  target = gtk_actionable_get_action_target_value (GTK_ACTIONABLE (moment));
  g_assert_cmpint (g_variant_get_int32 (target), >=, 0);
  g_assert_cmpint (g_variant_get_int32 (target), <,
                   (int) tg_job_n_events (tg_session_job (fixture->session)));
}

static void
test_real_job (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (TgSession) real = page_session_new (fixture->folder, 2);

  g_object_set (fixture->page, "session", real, NULL);
  page_settle ();
  g_assert_true (page_shows (fixture->page, "real parts"));
  g_assert_false (page_shows (fixture->page, "stays hidden"));
  g_object_set (fixture->page, "session", NULL, NULL);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  g_test_add ("/debrief-page/hidden", PageRig, NULL, set_up, test_hidden, practice_tear_down);
  g_test_add ("/debrief-page/asks", PageRig, NULL, set_up, test_asks, practice_tear_down);
  g_test_add ("/debrief-page/ended", PageRig, NULL, set_up, test_ended, practice_tear_down);
  g_test_add ("/debrief-page/moment", PageRig, NULL, set_up, test_moment, practice_tear_down);
  g_test_add ("/debrief-page/real-job", PageRig, NULL, set_up, test_real_job, practice_tear_down);
  return g_test_run ();
}
