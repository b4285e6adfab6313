/* test-replay-page.c: the journal entry by entry; nothing is appended
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "replay-page.h"

#include "debrief-case.h"
#include "practice-rig.h"

static void
set_up (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  practice_open (fixture);
  practice_show (fixture, g_object_new (TG_TYPE_REPLAY_PAGE, "session", fixture->session, NULL));
}

static guint
index_of (PageRig *fixture)
{
  return tg_replay_page_index (TG_REPLAY_PAGE (fixture->page));
}

static void
test_steps (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint n = tg_job_n_events (tg_session_job (fixture->session));

  g_assert_cmpuint (index_of (fixture), ==, 0);
  g_assert_true (page_shows (fixture->page, "Empty scale"));
  practice_click (fixture, "One entry on");
  g_assert_cmpuint (index_of (fixture), ==, 1);
  g_assert_true (page_shows (fixture->page, "Rod 1, small end, mark up"));
  practice_click (fixture, "Last entry");
  g_assert_cmpuint (index_of (fixture), ==, n - 1);
  g_assert_true (page_shows (fixture->page, "pass on the small pad"));
  practice_click (fixture, "One entry back");
  g_assert_cmpuint (index_of (fixture), ==, n - 2);
  practice_click (fixture, "First entry");
  g_assert_cmpuint (index_of (fixture), ==, 0);
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, n);
}

static void
test_keys (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  guint n = tg_job_n_events (tg_session_job (fixture->session));

  g_assert_true (page_press (fixture->page, GDK_KEY_End, 0));
  g_assert_cmpuint (index_of (fixture), ==, n - 1);
  g_assert_true (page_press (fixture->page, GDK_KEY_Left, 0));
  g_assert_cmpuint (index_of (fixture), ==, n - 2);
  g_assert_true (page_press (fixture->page, GDK_KEY_Home, 0));
  g_assert_cmpuint (index_of (fixture), ==, 0);
  g_assert_true (page_press (fixture->page, GDK_KEY_Right, 0));
  g_assert_cmpuint (index_of (fixture), ==, 1);
  g_assert_false (page_press (fixture->page, GDK_KEY_Left, GDK_ALT_MASK));
}

/* Figures are those of the moment, not of the end. */
static void
test_then (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  tg_replay_page_show (TG_REPLAY_PAGE (fixture->page), 1);
  page_settle ();
  g_assert_true (page_shows (fixture->page, "Rod 1: not weighed"));
  g_assert_true (page_shows (fixture->page, "Entry 2 of "));
  tg_replay_page_show (TG_REPLAY_PAGE (fixture->page),
                       tg_job_n_events (tg_session_job (fixture->session)) - 1);
  page_settle ();
  g_assert_true (page_shows (fixture->page, "Rod 1: weigh again"));
}

/* Hidden before the end; then the truth stands beside the figures, with the debrief of the moment. */
static void
test_truth (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  TgEvent end = tg_event_blank (TG_EVENT_NOTE);
  double true_g = case_truth (tg_session_job (fixture->session), "rod-2", TG_FIGURE_BIG_END);
  g_autofree char *grams = tg_debrief_grams (tg_job_setup (tg_session_job (fixture->session)),
                                             true_g);

  tg_replay_page_show (TG_REPLAY_PAGE (fixture->page),
                       tg_job_n_events (tg_session_job (fixture->session)) - 2);
  page_settle ();
  g_assert_true (page_shows (fixture->page, "stays hidden"));
  g_assert_false (page_shows (fixture->page, "true then"));
  g_assert_false (page_shows (fixture->page, grams));
  end.id = TG_DEBRIEF_END_ID;
  end.text = "Ended";
  page_append (fixture->session, end);
  page_settle ();
  g_assert_false (page_shows (fixture->page, "stays hidden"));
  g_assert_true (page_shows (fixture->page, "true then"));
  g_assert_true (page_shows (fixture->page, grams));
  g_assert_true (page_shows (fixture->page, "g too much"));
}

/* A real job has no truth, and an empty journal says so. */
static void
test_real_job (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (TgSession) real = page_session_new (fixture->folder, 2);

  g_object_set (fixture->page, "session", real, NULL);
  page_settle ();
  g_assert_true (page_shows (fixture->page, "empty so far"));
  page_weigh (real, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
  page_settle ();
  g_assert_true (page_shows (fixture->page, "171.6"));
  g_assert_false (page_shows (fixture->page, "true then"));
  g_assert_false (page_shows (fixture->page, "stays hidden"));
  g_assert_cmpuint (page_check_names (fixture->page), >, 4);
  g_object_set (fixture->page, "session", NULL, NULL);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv);
  g_test_add ("/replay-page/steps", PageRig, NULL, set_up, test_steps, practice_tear_down);
  g_test_add ("/replay-page/keys", PageRig, NULL, set_up, test_keys, practice_tear_down);
  g_test_add ("/replay-page/then", PageRig, NULL, set_up, test_then, practice_tear_down);
  g_test_add ("/replay-page/truth", PageRig, NULL, set_up, test_truth, practice_tear_down);
  g_test_add ("/replay-page/real-job", PageRig, NULL, set_up, test_real_job, practice_tear_down);
  return g_test_run ();
}
