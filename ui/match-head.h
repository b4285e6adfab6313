/* match-head.h: what the pairing on show takes, how sure that is, and what can be done with it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "match-desk.h"

G_BEGIN_DECLS

#define TG_TYPE_MATCH_HEAD (tg_match_head_get_type ())
G_DECLARE_FINAL_TYPE (TgMatchHead, tg_match_head, TG, MATCH_HEAD, GtkBox)

/* @desk: the same one always, with a pairing. */
void tg_match_head_show (TgMatchHead *head, TgMatchDesk *desk);

/**
 * TgMatchHead::leave:
 * What has the focus is about to go, or can no longer be pressed: the page takes it elsewhere.
 */

G_END_DECLS
