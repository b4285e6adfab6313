/* bench.c: a window with a job, for the tests of the interface, see bench.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bench.h"

#include <glib/gstdio.h>

#include "job-xml.h"
#include "reading-entry.h"
#include "theme.h"

void
bench_init (int *argc, char ***argv)
{
  g_setenv ("GTK_A11Y", "test", TRUE);
  gtk_test_init (argc, argv, NULL);
  tg_theme_install (gdk_display_get_default ());
}

void
bench_spin (guint ms)
{
  gint64 end = g_get_monotonic_time () + (gint64) ms * 1000;

  do
    while (g_main_context_iteration (NULL, FALSE))
      ;
  while (g_get_monotonic_time () < end);
}

/* The page that is shown has been made. */
static gboolean
has_page (GtkWidget *window)
{
  GtkWidget *pages = bench_child (window, "pages");
  GtkWidget *later = gtk_stack_get_visible_child (GTK_STACK (pages));
  GtkWidget *page = later ? gtk_widget_get_first_child (later) : NULL;

  return page && gtk_widget_get_mapped (page);
}

/* The window is there first; its page follows with the next frame, and the keyboard with it. */
static void
wait_until_ready (GtkWidget *window)
{
  gint64 end = g_get_monotonic_time () + 20 * G_USEC_PER_SEC;

  while (!has_page (window) && g_get_monotonic_time () < end)
    g_main_context_iteration (NULL, FALSE);
  g_assert_true (has_page (window));
  bench_spin (50);
}

Bench *
bench_new (TgJob *job)
{
  Bench *bench = g_new0 (Bench, 1);
  g_autoptr (GError) error = NULL;

  bench->folder = g_dir_make_tmp ("tenthgram-ui-XXXXXX", &error);
  g_assert_no_error (error);
  bench->path = g_build_filename (bench->folder, "job.tenthgram", NULL);
  tg_job_xml_save (job, bench->path, &error);
  g_assert_no_error (error);
  tg_job_free (job);
  bench->window = g_object_ref_sink (tg_window_new (NULL));
  g_assert_true (tg_window_open (TG_WINDOW (bench->window), bench->path));
  gtk_window_present (GTK_WINDOW (bench->window));
  wait_until_ready (bench->window);
  return bench;
}

void
bench_free (Bench *bench)
{
  gtk_window_destroy (GTK_WINDOW (bench->window));
  bench_spin (0);
  g_object_unref (bench->window);
  g_remove (bench->path);
  g_rmdir (bench->folder);
  g_free (bench->path);
  g_free (bench->folder);
  g_free (bench);
}

TgSession *
bench_session (const Bench *bench)
{
  return tg_window_session (TG_WINDOW (bench->window));
}

GtkWidget *
bench_find (GtkWidget *root, GType type)
{
  if (g_type_is_a (G_OBJECT_TYPE (root), type) && gtk_widget_get_mapped (root))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = bench_find (child, type);

      if (found)
        return found;
    }
  return NULL;
}

GtkWidget *
bench_child (GtkWidget *owner, const char *name)
{
  GObject *child = gtk_widget_get_template_child (owner, G_OBJECT_TYPE (owner), name);

  g_assert_nonnull (child);
  return GTK_WIDGET (child);
}

void
bench_type (const Bench *bench, const char *text)
{
  GtkWidget *entry = bench_find (bench->window, TG_TYPE_READING_ENTRY);
  GtkWidget *field;

  g_assert_nonnull (entry);
  field = bench_child (entry, "field");
  /* What is in the field is selected or gone: typing replaces it, as it would for a person. */
  if (g_strcmp0 (gtk_editable_get_text (GTK_EDITABLE (field)), text) != 0)
    gtk_editable_set_text (GTK_EDITABLE (field), text);
  g_signal_emit_by_name (field, "activate");
  bench_spin (0);
}
