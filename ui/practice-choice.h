/* practice-choice.h: how the bench of a new practice job is to be
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "job-draft.h"

G_BEGIN_DECLS

#define TG_TYPE_PRACTICE_CHOICE (tg_practice_choice_get_type ())
G_DECLARE_FINAL_TYPE (TgPracticeChoice, tg_practice_choice, TG, PRACTICE_CHOICE, GtkBox)

/**
 * tg_practice_choice_read:
 * @draft: its practice is filled in; the word is lent until it is typed over
 *
 * Returns: FALSE if an answer cannot be: the reason stands beside it
 */
gboolean tg_practice_choice_read (TgPracticeChoice *choice, TgJobDraft *draft);

G_END_DECLS
