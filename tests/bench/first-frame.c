/* first-frame.c: opens one window, says when its first frame was painted, leaves
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Built twice: with BARE a GTK window with one label, without it Tenthgram's window with a job.
 * Arguments: the moment of the start in µs of the monotonic clock, and the job.  Prints the µs from
 * there to the end of the first painted frame, the µs to the end of the frame in which the page
 * stands with its field focused, and the peak memory in kB that Linux has counted until then.
 */
#include <gtk/gtk.h>
#include <stdio.h>
#include <stdlib.h>

#ifndef BARE
#include "later.h"
#include "window.h"
#endif

static gint64 start, first;
static const char *job;

static void
on_painted (GdkFrameClock *clock, GtkWindow *window)
{
  g_autofree char *status = NULL;
  const char *peak;

  if (first == 0)
    first = g_get_monotonic_time () - start;
#ifndef BARE
  {
    GtkWidget *focus = gtk_window_get_focus (window);

    /* Complete when something on the page has the keyboard. */
    if (!focus || !gtk_widget_get_ancestor (focus, TG_TYPE_LATER))
      return;
  }
#endif
  g_signal_handlers_disconnect_by_func (clock, on_painted, window);
  g_file_get_contents ("/proc/self/status", &status, NULL, NULL);
  peak = status ? strstr (status, "VmHWM:") : NULL;
  printf ("%" G_GINT64_FORMAT " %" G_GINT64_FORMAT " %ld\n", first, g_get_monotonic_time () - start,
          peak ? strtol (peak + 6, NULL, 10) : 0);
  fflush (stdout);
  exit (0);
}

static void
on_mapped (GtkWidget *window)
{
  g_signal_connect (gtk_widget_get_frame_clock (window), "after-paint", G_CALLBACK (on_painted),
                    window);
}

static void
on_activate (GtkApplication *application)
{
#ifdef BARE
  GtkWidget *window = gtk_application_window_new (application);

  gtk_window_set_child (GTK_WINDOW (window), gtk_label_new ("Tenthgram"));
  gtk_window_set_default_size (GTK_WINDOW (window), 1280, 800);
#else
  GtkWidget *window = tg_window_new (application);

  if (!tg_window_open (TG_WINDOW (window), job))
    g_error ("%s was refused", job);
#endif
  g_signal_connect (window, "map", G_CALLBACK (on_mapped), NULL);
  gtk_window_present (GTK_WINDOW (window));
}

int
main (int argc, char **argv)
{
  g_autoptr (GtkApplication) application = NULL;

  if (argc < 3)
    return 2;
  start = g_ascii_strtoll (argv[1], NULL, 10);
  job = argv[2];
  application = gtk_application_new (NULL, G_APPLICATION_NON_UNIQUE);
  g_signal_connect (application, "activate", G_CALLBACK (on_activate), NULL);
  return g_application_run (G_APPLICATION (application), 1, argv);
}
