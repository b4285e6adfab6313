/* bench-panel.h: what is done at the bench of a practice job: lay on, turn over, look, read the display
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "reading-entry.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_BENCH_PANEL (tg_bench_panel_get_type ())
G_DECLARE_FINAL_TYPE (TgBenchPanel, tg_bench_panel, TG, BENCH_PANEL, GtkBox)

/* Shown in a practice job only. */
void tg_bench_panel_set_session (TgBenchPanel *panel, TgSession *session);

/* What the field below it asks for: what is offered to be laid on. */
void tg_bench_panel_set_asked (TgBenchPanel *panel, TgReadingOf what, TgSlot slot);

G_END_DECLS
