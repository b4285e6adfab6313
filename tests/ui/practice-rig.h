/* practice-rig.h: a practice job in a folder of its own, for the pages that look back on it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "page-fixture.h"

/* Two rods with every reading, one of them off by @off_g, one pass; saved in @folder as @file and opened.
 * (transfer full) */
TgSession *practice_session_new (const char *folder, const char *file, double off_g);

/* For g_test_add(): a page that looks back on practice, in a narrow window. */
typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *page;
  GtkWindow *window;
} PracticeFixture;

/* Saves and opens such a job, of which one reading is off by 4 g, for a page that takes its session. */
void practice_open (PracticeFixture *fixture);
/* Takes @page and shows it. */
void practice_show (PracticeFixture *fixture, GtkWidget *page);
void practice_tear_down (PracticeFixture *fixture, gconstpointer data);
void practice_click (PracticeFixture *fixture, const char *name);
