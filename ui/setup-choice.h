/* setup-choice.h: one value of the setup that is one of a few words
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SETUP_CHOICE (tg_setup_choice_get_type ())
G_DECLARE_FINAL_TYPE (TgSetupChoice, tg_setup_choice, TG, SETUP_CHOICE, GtkBox)

/**
 * tg_setup_choice_new:
 * @path: as tg_setup_set() takes it
 * @label: what stands above it
 * @words: (array zero-terminated=1): the values, shown as they are
 */
GtkWidget *tg_setup_choice_new (const char *path, const char *label, const char *const *words);

/* (nullable): shows the value in force, and again whenever the job changes. */
void tg_setup_choice_set_session (TgSetupChoice *self, TgSession *session);

G_END_DECLS
