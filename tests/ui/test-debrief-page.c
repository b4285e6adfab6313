/* test-debrief-page.c: what is true stays hidden until the practice is done or ended
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-page.h"

#include "debrief.h"
#include "practice-rig.h"

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
  fixture->session = practice_session_new (fixture->folder, "one.tenthgram", 4);
  fixture->page = g_object_new (TG_TYPE_DEBRIEF_PAGE, "session", fixture->session, NULL);
  fixture->window = page_show (fixture->page, 360, 640);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static GtkWidget *
button (Fixture *fixture, const char *name)
{
  return page_find_named (fixture->page, GTK_TYPE_BUTTON, name);
}

static void
click (Fixture *fixture, const char *name)
{
  g_signal_emit_by_name (button (fixture, name), "clicked");
  page_settle ();
}

static void
test_hidden (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_true (practice_shows (fixture->page, "stays hidden"));
  g_assert_false (practice_shows (fixture->page, "Metal"));
  g_assert_false (practice_shows (fixture->page, "truly"));
  g_assert_cmpuint (page_check_names (fixture->page), >, 0);
}

/* It is asked once; who works on has given nothing away. */
static void
test_asks (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint before = tg_job_n_events (tg_session_job (fixture->session));

  click (fixture, "End the practice and see");
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, before);
  g_assert_true (practice_shows (fixture->page, "End it?"));
  click (fixture, "Work on");
  g_assert_false (practice_shows (fixture->page, "End it?"));
  g_assert_true (practice_shows (fixture->page, "stays hidden"));
}

static void
test_ended (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  click (fixture, "End the practice and see");
  click (fixture, "End it");
  g_assert_cmpint (tg_job_find_event (tg_session_job (fixture->session), TG_DEBRIEF_END_ID), >=, 0);
  g_assert_false (practice_shows (fixture->page, "stays hidden"));
  g_assert_true (practice_shows (fixture->page, "Spread of the small ends"));
  g_assert_true (practice_shows (fixture->page, "Readings that were wrong"));
  g_assert_true (practice_shows (fixture->page, "poor")); /* the verdict is a word, too */
  g_assert_cmpuint (page_check_names (fixture->page), >, 4);
}

/* The moment of a line is the entry that the button leads to. */
static void
test_moment (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *moment;
  GVariant *target;

  click (fixture, "End the practice and see");
  click (fixture, "End it");
  moment = page_find (fixture->page, GTK_TYPE_BUTTON, "moment");
  g_assert_nonnull (moment);
  g_assert_cmpstr (gtk_actionable_get_action_name (GTK_ACTIONABLE (moment)), ==, "win.replay");
  target = gtk_actionable_get_action_target_value (GTK_ACTIONABLE (moment));
  g_assert_cmpint (g_variant_get_int32 (target), >=, 0);
  g_assert_cmpint (g_variant_get_int32 (target), <,
                   (int) tg_job_n_events (tg_session_job (fixture->session)));
}

static void
test_real_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (TgSession) real = page_session_new (fixture->folder, 2);

  g_object_set (fixture->page, "session", real, NULL);
  page_settle ();
  g_assert_true (practice_shows (fixture->page, "real parts"));
  g_assert_false (practice_shows (fixture->page, "stays hidden"));
  g_object_set (fixture->page, "session", NULL, NULL);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  g_test_add ("/debrief-page/hidden", Fixture, NULL, set_up, test_hidden, tear_down);
  g_test_add ("/debrief-page/asks", Fixture, NULL, set_up, test_asks, tear_down);
  g_test_add ("/debrief-page/ended", Fixture, NULL, set_up, test_ended, tear_down);
  g_test_add ("/debrief-page/moment", Fixture, NULL, set_up, test_moment, tear_down);
  g_test_add ("/debrief-page/real-job", Fixture, NULL, set_up, test_real_job, tear_down);
  return g_test_run ();
}
