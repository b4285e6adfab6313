/* page-fixture.h: pages in a window of their own, round a job in a folder of its own
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

/* A new folder for job files, removed with page_folder_free(). (transfer full) */
char *page_folder_new (void);
void page_folder_free (char *folder);

/* A job of @cylinders rods and pistons (fixture.h) in @folder. (transfer full) */
TgSession *page_session_new (const char *folder, guint cylinders);

/* Appends one event; it must be accepted. */
void page_append (TgSession *session, TgEvent event);
void page_weigh (TgSession *session, const char *part, TgFigure figure, TgWay way, double grams);

/* Appends a refinement of the setup. */
void page_set (TgSession *session, const char *path, const char *value);

/* Weighs both ends of @cylinders rods, both ways up, and @cylinders pistons; no two of them alike. */
void page_weigh_all (TgSession *session, guint cylinders);

/* Shows @page in a window of that size and waits until it is there. */
GtkWindow *page_show (GtkWidget *page, int width, int height);

/* A page or view in a window of its own, round a job in a folder of its own. */
typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *page;
  GtkWindow *window;
} PageRig;

/* Takes @page, which has a property "session", and gives it a job of @cylinders rods and pistons. */
PageRig *page_rig_new (GtkWidget *page, guint cylinders, int width, int height);
void page_rig_free (PageRig *rig);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (PageRig, page_rig_free)

/* Lets the main loop run for a moment: the blinking of a caret keeps it from ever being idle. */
void page_settle (void);

/* Lets the main loop run until @condition holds, at most ten seconds, and fails if it does not. */
#define page_wait_for(condition)                                                                   \
  G_STMT_START                                                                                     \
  {                                                                                                \
    gint64 page_end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;                               \
    while (!(condition) && g_get_monotonic_time () < page_end)                                     \
      if (!g_main_context_iteration (NULL, FALSE))                                                 \
        g_usleep (1000);                                                                           \
    g_assert_true (condition);                                                                     \
  }                                                                                                \
  G_STMT_END

/* First widget below @root of @type, or whose CSS classes hold @css_class if that is not NULL. */
GtkWidget *page_find (GtkWidget *root, GType type, const char *css_class);

/* The widget of @type below @root whose accessible label is @name; it must be there. */
GtkWidget *page_find_named (GtkWidget *root, GType type, const char *name);

/* TRUE if a label that is shown below @root has @text in it. */
gboolean page_shows (GtkWidget *root, const char *text);

/* Sends a key to the key controllers of @widget; TRUE if one took it. */
gboolean page_press (GtkWidget *widget, guint key, GdkModifierType state);

/* Fails for every control below @root that a screen reader could not name. Returns their number. */
guint page_check_names (GtkWidget *root);

/* Number of events of one kind. */
guint page_count (TgSession *session, TgEventKind kind);
const TgEvent *page_last (TgSession *session);
