/* pairing-mark.h: the signs in a picture of a pairing, the same in its rows and in its legend
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Private to this folder.
 */
#pragma once

#include "pairing-layout.h"

G_BEGIN_DECLS

TgColor tg_pairing_mark_shade (const TgPairingLayout *layout, guint family);
/* A box of a colour with its outline. */
void tg_pairing_mark_box (cairo_t *cr, const TgPairingLayout *layout, TgRect box, TgColor color);
/* What comes from another bore. */
void
tg_pairing_mark_dot (cairo_t *cr, const TgPairingLayout *layout, double x, double y, TgColor color);
/* A closed padlock whose left edge is at @x. */
void tg_pairing_mark_lock (
    cairo_t *cr, const TgPairingLayout *layout, double x, double y, TgColor color);
/* Today's line, with a mark at @to. */
void tg_pairing_mark_today (
    cairo_t *cr, const TgPairingLayout *layout, double from, double to, double y);
/* What has to come off: hatched and framed, what lies under it shows through. */
void tg_pairing_mark_off (cairo_t *cr, const TgPairingLayout *layout, TgRect box);
/* An entry of the legend with its words. */
void tg_pairing_mark_key (cairo_t *cr, const TgPairingLayout *layout, const TgPairingKey *key);

G_END_DECLS
