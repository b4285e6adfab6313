/* application.c: windows for job files
 *
 * One window for each job that was named, a welcome window without any.  Each start is its own
 * process; a file that two of them have open is guarded by the session.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "application.h"

#include "theme.h"
#include "window.h"

struct _TgApplication
{
  GtkApplication parent_instance;
};

G_DEFINE_FINAL_TYPE (TgApplication, tg_application, GTK_TYPE_APPLICATION)

static void
add_keys (GtkApplication *application)
{
  static const struct
  {
    const char *action;
    const char *keys[3];
  } accels[] = {
    { "win.new-job", { "<Control>n" } },
    { "win.open", { "<Control>o" } },
    { "win.save-sheet", { "<Control>s" } },
    { "win.print", { "<Control>p" } },
    { "win.import", { "<Control>i" } },
    { "win.undo", { "<Control>z" } },
    { "win.replay(-1)", { "F5" } },
    { "win.debrief", { "<Control>d" } },
    { "win.class", { "F7" } },
    { "win.stage::setup", { "<Alt>1" } },
    { "win.stage::scale", { "<Alt>2" } },
    { "win.stage::weigh", { "<Alt>3" } },
    { "win.stage::match", { "<Alt>4" } },
    { "win.stage::grind", { "<Alt>5" } },
    { "win.stage::prove", { "<Alt>6" } },
    { "win.stage::build", { "<Alt>7" } },
    { "win.stage::journal", { "<Alt>8" } },
    { "win.cautions", { "F2" } },
    { "win.glossary", { "F3" } },
    { "win.glossary-here", { "<Shift>F1" } },
    { "win.lesson-step", { "F6" } },
    { "win.check-zero", { "<Control>0", "<Control>KP_0" } },
    { "win.check-weight", { "<Control>9", "<Control>KP_9" } },
    { "win.next-part", { "<Control>Page_Down" } },
    { "win.last-part", { "<Control>Page_Up" } },
    { "win.show-help-overlay", { "F1", "<Control>question" } },
    { "window.close", { "<Control>w", "<Control>q" } },
  };

  for (guint i = 0; i < G_N_ELEMENTS (accels); i++)
    gtk_application_set_accels_for_action (application, accels[i].action, accels[i].keys);
}

static void
tg_application_startup (GApplication *application)
{
  G_APPLICATION_CLASS (tg_application_parent_class)->startup (application);
  gtk_window_set_default_icon_name ("io.github.tenthgram.Tenthgram");
  tg_theme_install (gdk_display_get_default ());
  add_keys (GTK_APPLICATION (application));
}

static void
tg_application_activate (GApplication *application)
{
  gtk_window_present (GTK_WINDOW (tg_window_new (GTK_APPLICATION (application))));
}

static void
tg_application_open (GApplication *application,
                     GFile **files,
                     int n_files,
                     G_GNUC_UNUSED const char *hint)
{
  for (int i = 0; i < n_files; i++)
    {
      GtkWidget *window = tg_window_new (GTK_APPLICATION (application));
      g_autofree char *path = g_file_get_path (files[i]);
      g_autofree char *uri = g_file_get_uri (files[i]);

      tg_window_open (TG_WINDOW (window), path ? path : uri);
      gtk_window_present (GTK_WINDOW (window));
    }
}

static void
tg_application_class_init (TgApplicationClass *klass)
{
  GApplicationClass *application_class = G_APPLICATION_CLASS (klass);

  application_class->startup = tg_application_startup;
  application_class->activate = tg_application_activate;
  application_class->open = tg_application_open;
}

static void
tg_application_init (G_GNUC_UNUSED TgApplication *self)
{
}

TgApplication *
tg_application_new (void)
{
  return g_object_new (TG_TYPE_APPLICATION, "application-id", "io.github.tenthgram.Tenthgram",
                       "resource-base-path", "/io/github/tenthgram/Tenthgram", "flags",
                       G_APPLICATION_HANDLES_OPEN | G_APPLICATION_NON_UNIQUE, NULL);
}
