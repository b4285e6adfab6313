/* practice-rig.h: a practice job in a folder of its own, for the pages that look back on it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "page-fixture.h"

/* Two rods with every reading, one of them off by @off_g, one pass; saved in @folder as @file and opened.
 * (transfer full) */
TgSession *practice_session_new (const char *folder, const char *file, double off_g);

/* The rest is for g_test_add(), with a PageRig as the fixture: a page that looks back on practice, in a
 * narrow window. */

/* Saves and opens such a job, of which one reading is off by 4 g, for a page that takes its session. */
void practice_open (PageRig *fixture);
/* Takes @page and shows it. */
void practice_show (PageRig *fixture, GtkWidget *page);
void practice_tear_down (PageRig *fixture, gconstpointer data);
void practice_click (PageRig *fixture, const char *name);
