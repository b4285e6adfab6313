/* bore-part.h: one part of the bore that is picked: what holds it there, and why not another
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "match-desk.h"

G_BEGIN_DECLS

#define TG_TYPE_BORE_PART (tg_bore_part_get_type ())
G_DECLARE_FINAL_TYPE (TgBorePart, tg_bore_part, TG, BORE_PART, GtkBox)

GtkWidget *tg_bore_part_new (void);

/* @family: of the pairing on the desk; @bore: from 1, on show. */
void tg_bore_part_show (TgBorePart *row, TgMatchDesk *desk, guint family, guint bore);

G_END_DECLS
