/* report-debrief.h: a debrief in words and as a table
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "debrief.h"

G_BEGIN_DECLS

/* (transfer full): the figures, then the lines by topic; for "debrief". @debrief: of @job */
char *tg_debrief_text (const TgDebrief *debrief, const TgJob *job);

/**
 * tg_debrief_csv:
 *
 * RFC 4180, decimal points: topic, verdict, number of the entry from 1 (empty for the whole), its
 * moment in ISO 8601, text, what a careful worker does.
 * Returns: (transfer full)
 */
char *tg_debrief_csv (const TgDebrief *debrief, const TgJob *job);

G_END_DECLS
