/* small-ends-choice.h: what the small ends of the rods have to do with the pistons
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "setup.h"

G_BEGIN_DECLS

#define TG_TYPE_SMALL_ENDS_CHOICE (tg_small_ends_choice_get_type ())
G_DECLARE_FINAL_TYPE (TgSmallEndsChoice, tg_small_ends_choice, TG, SMALL_ENDS_CHOICE, GtkBox)

/**
 * TgSmallEndsChoice::changed:
 * The person chose otherwise.
 */

GtkWidget *tg_small_ends_choice_new (void);

TgSmallEnds tg_small_ends_choice_get (TgSmallEndsChoice *self);
void tg_small_ends_choice_set (TgSmallEndsChoice *self, TgSmallEnds small_ends);

/* What is chosen for @small_ends, as a person reads it. */
const char *tg_small_ends_choice_label (TgSmallEnds small_ends);

G_END_DECLS
