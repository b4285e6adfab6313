/* effort-field.h: how long the pass was, if the person counted
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_EFFORT_FIELD (tg_effort_field_get_type ())
G_DECLARE_FINAL_TYPE (TgEffortField, tg_effort_field, TG, EFFORT_FIELD, GtkBox)

/* TgEffortField::entered: Enter was pressed in it. */

/* Counts in what the person counted last in @job. */
void tg_effort_field_remember (TgEffortField *field, const TgJob *job);

/**
 * tg_effort_field_read:
 * @effort, @count: (out): NONE and 0 if nothing was typed
 *
 * Returns: FALSE if what was typed cannot be: it stays, with the reason, and has the keyboard.
 */
gboolean tg_effort_field_read (TgEffortField *field, TgEffort *effort, guint *count);

/* Whether it has to be filled in: before the pass, then. FALSE at first. */
void tg_effort_field_set_wanted (TgEffortField *field, gboolean wanted);

void tg_effort_field_focus (TgEffortField *field);

void tg_effort_field_clear (TgEffortField *field);

G_END_DECLS
