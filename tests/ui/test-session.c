/* test-session.c: what is appended is on disk, or nothing has happened
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib/gstdio.h>

#include "error.h"
#include "fixture.h"
#include "job-xml.h"
#include "session.h"

typedef struct
{
  char *folder;
  char *path;
  TgSession *session;
  guint changed;
} Fixture;

static void
count_change (Fixture *fixture)
{
  fixture->changed++;
}

static void
set_up (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autoptr (GError) error = NULL;

  fixture->folder = g_dir_make_tmp ("tenthgram-session-XXXXXX", &error);
  g_assert_no_error (error);
  fixture->path = g_build_filename (fixture->folder, "job.tenthgram", NULL);
  fixture->session = tg_session_create (fixture_setup (2, TRUE, TRUE), fixture->path, &error);
  g_assert_no_error (error);
  g_signal_connect_swapped (fixture->session, "changed", G_CALLBACK (count_change), fixture);
}

static void
tear_down (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_clear_object (&fixture->session);
  g_remove (fixture->path);
  g_rmdir (fixture->folder);
  g_free (fixture->path);
  g_free (fixture->folder);
}

static TgEvent
weighing (const char *part, TgFigure figure, TgWay way, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = part;
  event.figure = figure;
  event.way = way;
  event.mass = mass;
  return event;
}

static TgEvent
target (TgBand band, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_TARGET);

  event.band = band;
  event.mass = mass;
  return event;
}

static guint
n_events (const Fixture *fixture)
{
  return tg_job_n_events (tg_session_job (fixture->session));
}

/* Of the rods; lives as long as the job. */
static const char *
first_zone (const Fixture *fixture)
{
  const TgSetup *setup = tg_job_setup (tg_session_job (fixture->session));

  return tg_design_zone (tg_setup_part (setup, 0)->design, 0)->id;
}

static void
test_append (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  g_autoptr (GDateTime) before = g_date_time_new_now_utc ();
  TgEvent event = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600);
  g_autoptr (TgJob) on_disk = NULL;
  g_autoptr (GError) error = NULL;
  const TgEvent *stored;

  g_assert_true (tg_session_append (fixture->session, &event, 1, &error));
  g_assert_cmpuint (fixture->changed, ==, 1);
  on_disk = tg_job_xml_load (fixture->path, &error);
  g_assert_no_error (error);
  stored = tg_job_event (on_disk, 0);
  g_assert_true (g_uuid_string_is_valid (stored->id));
  g_assert_cmpint (stored->mass, ==, 171600);
  g_assert_cmpint (stored->stamp.seconds, >=, g_date_time_to_unix (before));
  g_assert_cmpint (stored->stamp.seconds, <=, g_date_time_to_unix (before) + 60);
  g_assert_cmpstr (stored->who, !=, "");
}

/* The second of two events is impossible: the first must not stay. */
static void
test_all_or_nothing (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent events[] = { weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600),
                       weighing ("rod-9", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600) };
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;

  g_assert_true (g_file_get_contents (fixture->path, &before, NULL, NULL));
  g_assert_false (tg_session_append (fixture->session, events, 2, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_UNKNOWN);
  g_assert_cmpuint (n_events (fixture), ==, 0);
  g_assert_cmpuint (fixture->changed, ==, 0);
  g_assert_true (g_file_get_contents (fixture->path, &after, NULL, NULL));
  g_assert_cmpstr (before, ==, after);
}

static void
test_stale (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent event = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600);
  g_autoptr (GError) error = NULL;
  g_autoptr (TgSession) other = tg_session_open (fixture->path, &error);

  g_assert_no_error (error);
  g_assert_true (tg_session_append (other, &event, 1, &error));
  g_assert_true (tg_session_is_stale (fixture->session));
  g_assert_false (tg_session_append (fixture->session, &event, 1, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_IO);
  g_assert_cmpuint (n_events (fixture), ==, 0);
  g_clear_error (&error);
  g_assert_true (tg_session_reload (fixture->session, &error));
  g_assert_cmpuint (n_events (fixture), ==, 1);
  g_assert_true (tg_session_append (fixture->session, &event, 1, &error));
}

/* The same bytes with another time on them are no change. */
static void
test_touched (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent event = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600);
  g_autofree char *bytes = NULL;
  g_autoptr (GError) error = NULL;
  gsize size;

  g_assert_true (g_file_get_contents (fixture->path, &bytes, &size, NULL));
  g_assert_true (g_file_set_contents (fixture->path, bytes, (gssize) size, NULL));
  g_assert_false (tg_session_is_stale (fixture->session));
  g_assert_true (tg_session_append (fixture->session, &event, 1, &error));
}

static void
test_toggle_strike (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent event = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600);

  g_assert_true (tg_session_append (fixture->session, &event, 1, NULL));
  for (guint i = 1; i <= 4; i++)
    {
      g_assert_true (tg_session_toggle_strike (fixture->session, 0, NULL));
      g_assert_cmpuint (n_events (fixture), ==, 1 + i);
      g_assert_cmpint (tg_session_review (fixture->session)->struck[0], ==, i % 2 == 1);
    }
}

/* Decisions go with the pass that took them over; two readings of one second stay two. */
static void
test_undo (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent first = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600);
  TgEvent second = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 171800);
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);
  TgEvent group[3];
  const TgReview *review;
  g_autoptr (GError) error = NULL;

  pass.part = "rod-1";
  pass.zone = first_zone (fixture);
  pass.mass = 300;
  group[0] = target (TG_BAND_ROD_SMALL, 171000);
  group[1] = target (TG_BAND_ROD_BIG, 412000);
  group[2] = pass;
  g_assert_true (tg_session_append (fixture->session, &first, 1, NULL));
  g_assert_true (tg_session_append (fixture->session, &second, 1, NULL));
  g_assert_true (tg_session_append (fixture->session, group, 3, NULL));
  g_assert_true (tg_session_undo (fixture->session, &error));
  review = tg_session_review (fixture->session);
  g_assert_true (review->struck[2] && review->struck[3] && review->struck[4]);
  g_assert_false (review->struck[1]);
  g_assert_true (tg_session_undo (fixture->session, &error));
  review = tg_session_review (fixture->session);
  g_assert_true (review->struck[1]);
  g_assert_false (review->struck[0]);
  g_assert_true (tg_session_undo (fixture->session, &error));
  g_assert_cmpint (tg_session_last_done (fixture->session), ==, -1);
  g_assert_false (tg_session_undo (fixture->session, &error));
  g_assert_no_error (error);
}

/* A pairing goes with the targets it frees, also for who opens the job anew; one that was accepted before
 * it stays, in the same second too. */
static void
test_undo_pairing (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent typed = weighing ("piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 411000);
  TgEvent held = target (TG_BAND_PISTON, 410000);
  TgEvent pairing[2] = { tg_event_blank (TG_EVENT_PAIR), target (TG_BAND_PISTON, 0) };
  const TgReview *review;
  g_autoptr (GError) error = NULL;

  pairing[0].places = "piston-1:2 piston-2:1";
  pairing[1].automatic = TRUE;
  g_assert_true (tg_session_append (fixture->session, &typed, 1, NULL));
  g_assert_true (tg_session_append (fixture->session, &held, 1, NULL));
  g_assert_true (tg_session_append (fixture->session, pairing, 2, NULL));
  review = tg_session_review (fixture->session);
  g_assert_cmpint (review->paired, ==, 2);
  g_assert_false (review->bands[TG_BAND_PISTON].decided);
  g_assert_true (tg_session_undo (fixture->session, &error));
  review = tg_session_review (fixture->session);
  g_assert_cmpint (review->paired, ==, -1);
  g_assert_true (review->bands[TG_BAND_PISTON].decided);

  g_assert_true (tg_session_append (fixture->session, pairing, 2, NULL));
  pairing[0].places = "piston-1:1 piston-2:2";
  g_assert_true (tg_session_append (fixture->session, pairing, 1, NULL));
  g_assert_true (tg_session_undo (fixture->session, &error));
  g_assert_cmpint (tg_session_review (fixture->session)->paired, ==, 6);
  {
    g_autoptr (TgSession) again = tg_session_open (fixture->path, &error);

    g_assert_no_error (error);
    g_assert_true (tg_session_undo (again, &error));
    review = tg_session_review (again);
    g_assert_cmpint (review->paired, ==, -1);
    g_assert_true (review->struck[6] && review->struck[7]);
    g_assert_false (review->struck[0]);
  }
}

/* Readings of a table bring their ids, go together, and leave what was struck before alone. */
static void
test_undo_table (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent typed = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171600);
  TgEvent table[3];
  const TgReview *review;

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    table[i] = weighing ("rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 171700 + (TgMass) i);
  table[0].id = "one";
  table[1].id = "two";
  g_assert_true (tg_session_append (fixture->session, &typed, 1, NULL));
  g_assert_true (tg_session_append (fixture->session, table, 3, NULL));
  g_assert_cmpint (tg_job_find_event (tg_session_job (fixture->session), "one"), ==, 1);
  g_assert_cmpint (tg_job_find_event (tg_session_job (fixture->session), "two"), ==, 2);
  g_assert_true (g_uuid_string_is_valid (tg_job_event (tg_session_job (fixture->session), 3)->id));
  g_assert_true (tg_session_toggle_strike (fixture->session, 2, NULL));
  g_assert_true (tg_session_undo (fixture->session, NULL));
  review = tg_session_review (fixture->session);
  g_assert_true (review->struck[1] && review->struck[2] && review->struck[3]);
  g_assert_false (review->struck[0]);
  g_assert_cmpuint (n_events (fixture), ==, 4 + 1 + 2);
  /* the same ids a second time are refused, and nothing of them stays */
  g_assert_false (tg_session_append (fixture->session, table, 3, NULL));
  g_assert_cmpuint (n_events (fixture), ==, 4 + 1 + 2);
}

static void
test_first_grinding (Fixture *fixture, G_GNUC_UNUSED gconstpointer data)
{
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);

  pass.part = "rod-1";
  pass.zone = first_zone (fixture);
  pass.mass = 300;
  g_assert_true (tg_session_first_grinding_today (fixture->session));
  g_assert_true (tg_session_append (fixture->session, &pass, 1, NULL));
  g_assert_false (tg_session_first_grinding_today (fixture->session));
  g_assert_true (tg_session_undo (fixture->session, NULL));
  g_assert_true (tg_session_first_grinding_today (fixture->session));
}

static void
add (const char *path, void (*test) (Fixture *, gconstpointer))
{
  g_test_add (path, Fixture, NULL, set_up, test, tear_down);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  add ("/session/append", test_append);
  add ("/session/all-or-nothing", test_all_or_nothing);
  add ("/session/stale", test_stale);
  add ("/session/touched", test_touched);
  add ("/session/toggle-strike", test_toggle_strike);
  add ("/session/undo", test_undo);
  add ("/session/undo-pairing", test_undo_pairing);
  add ("/session/undo-table", test_undo_table);
  add ("/session/first-grinding", test_first_grinding);
  return g_test_run ();
}
