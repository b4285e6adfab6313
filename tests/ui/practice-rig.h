/* practice-rig.h: a practice job in a folder of its own, for the pages that look back on it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "page-fixture.h"

/* Two rods with every reading, one of them off by @off_g, one pass; saved in @folder as @file and opened.
 * (transfer full) */
TgSession *practice_session_new (const char *folder, const char *file, double off_g);

/* TRUE if a label that is shown below @root has @text in it. */
gboolean practice_shows (GtkWidget *root, const char *text);
