/* design-choice.h: the designs of the library as a choice of drawings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "library.h"

G_BEGIN_DECLS

#define TG_TYPE_DESIGN_CHOICE (tg_design_choice_get_type ())
G_DECLARE_FINAL_TYPE (TgDesignChoice, tg_design_choice, TG, DESIGN_CHOICE, GtkBox)

/* @library stays with the caller and must outlive the widget; the first design is chosen. */
void tg_design_choice_fill (TgDesignChoice *self, const TgLibrary *library, TgPartKind kind);

/* (nullable) (lends): the chosen design of the library */
const TgDesign *tg_design_choice_get (TgDesignChoice *self);
void tg_design_choice_set (TgDesignChoice *self, const TgDesign *design);

/* Rods are drawn with this centre distance; 0: each with its own. */
void tg_design_choice_set_centres (TgDesignChoice *self, double centres_mm);

/* TgDesignChoice::changed: another design was chosen. */

G_END_DECLS
