/* bench.h: a window with a job, for the tests of the interface
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "window.h"

/* A window on a new job file in a folder of its own; mapped. */
typedef struct
{
  char *folder;
  char *path;
  GtkWidget *window;
} Bench;

/* Display, style and a test-only accessibility layer. Call instead of gtk_test_init(). */
void bench_init (int *argc, char ***argv);

/* Takes @job. */
Bench *bench_new (TgJob *job);
void bench_free (Bench *bench);

TgSession *bench_session (const Bench *bench);

/* Runs the main loop until nothing is pending, and for @ms milliseconds at least. */
void bench_spin (guint ms);

/* Lets the main loop run until @condition holds, at most ten seconds, and fails if it does not. */
#define bench_wait_for(condition)                                                                  \
  G_STMT_START                                                                                     \
  {                                                                                                \
    for (guint bench_left = 500; bench_left > 0 && !(condition); bench_left--)                     \
      bench_spin (20);                                                                             \
    g_assert_true (condition);                                                                     \
  }                                                                                                \
  G_STMT_END

/* The first widget of @type below @root that is shown, or NULL. */
GtkWidget *bench_find (GtkWidget *root, GType type);

/* The same by its name in the template of @owner's class. */
GtkWidget *bench_child (GtkWidget *owner, const char *name);

/* Types @text into the field of the page that is shown, and Enter. */
void bench_type (const Bench *bench, const char *text);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Bench, bench_free)
