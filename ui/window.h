/* window.h: the one window round one job
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "scale-link.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_WINDOW (tg_window_get_type ())
G_DECLARE_FINAL_TYPE (TgWindow, tg_window, TG, WINDOW, GtkApplicationWindow)

GtkWidget *tg_window_new (GtkApplication *application);

/**
 * tg_window_open:
 *
 * Opens the job at @path at the stage that comes next.  A file that is refused leaves the window as
 * it is, with one line that says why.
 */
gboolean tg_window_open (TgWindow *window, const char *path);

/* Shows @session; NULL for the welcome page. */
void tg_window_set_session (TgWindow *window, TgSession *session);

/* (nullable) (lends) */
TgSession *tg_window_session (TgWindow *window);

/* (lends) (nullable): the scale on a cable; the same for all windows of an application. It is there
 * once the window has been painted. */
TgScaleLink *tg_window_link (TgWindow *window);

/* "welcome", "new-job", "import", "lessons", "setup", "scale", "weigh", "match", "grind" or "journal" */
void tg_window_show_page (TgWindow *window, const char *name);
const char *tg_window_page (TgWindow *window);

/* A line that stays until it is dealt with. */
void tg_window_report_failure (TgWindow *window, const char *message);

G_END_DECLS
