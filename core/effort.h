/* effort.h: how long a pass was, as a person types it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "event.h"

G_BEGIN_DECLS

/**
 * tg_effort_parse:
 * @effort: STROKES or SECONDS
 * @text: strokes as a whole number; for SECONDS minutes, "2", "1.5", "1,5" or "1:30"; blanks around
 * @count: (out): strokes or seconds, 1 to TG_MAX_EFFORT; untouched on failure
 * @error: TG_ERROR_SYNTAX for the form, TG_ERROR_RANGE for the value
 *
 * Locale plays no part.
 */
gboolean tg_effort_parse (TgEffort effort, const char *text, guint *count, GError **error);

/* What the number counts: "strokes", "minutes"; "" for NONE. */
const char *tg_effort_label (TgEffort effort);

G_END_DECLS
