/* practice-rig.c: see practice-rig.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-rig.h"

#include "debrief-case.h"
#include "job-xml.h"

TgSession *
practice_session_new (const char *folder, const char *file, double off_g)
{
  g_autoptr (TgJob) job = tg_job_new (case_setup (2, FALSE));
  g_autofree char *path = g_build_filename (folder, file, NULL);
  g_autoptr (GError) error = NULL;
  TgSession *session;

  case_zero (job, 0, TRUE);
  case_read_all (job);
  case_read (job, "rod-2", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, off_g);
  case_pass (job, "rod-1", "small-pad", 0.2, 20);
  tg_job_xml_save (job, path, &error);
  g_assert_no_error (error);
  session = tg_session_open (path, &error);
  g_assert_no_error (error);
  return session;
}

void
practice_open (PageRig *fixture)
{
  fixture->folder = page_folder_new ();
  fixture->session = practice_session_new (fixture->folder, "one.tenthgram", 4);
}

void
practice_show (PageRig *fixture, GtkWidget *page)
{
  fixture->page = page;
  fixture->window = page_show (page, 360, 640);
}

void
practice_tear_down (PageRig *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

void
practice_click (PageRig *fixture, const char *name)
{
  g_signal_emit_by_name (page_find_named (fixture->page, GTK_TYPE_BUTTON, name), "clicked");
  page_settle ();
}
