/* fold.h: children side by side where there is room, one below the other where there is none
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An arrangement is a short text over the children's numbers, from 0 in the order they were added.
 * "0 | 1 3 | 2" makes three columns, the middle one with two children below each other;
 * "0 2 / 1" makes two rows, the first with two children beside each other.
 * A child that an arrangement leaves out is not shown in it.  Children that expand take the room that is left.
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_FOLD (tg_fold_get_type ())
G_DECLARE_FINAL_TYPE (TgFold, tg_fold, TG, FOLD, GtkWidget)

typedef enum
{
  TG_FOLD_WIDE,
  TG_FOLD_MIDDLE,
  TG_FOLD_NARROW,
} TgFoldShape;
#define TG_N_FOLD_SHAPES 3

/**
 * Properties:
 * "wide", "middle", "narrow": arrangements; "middle" may be left out
 * "wide-width", "middle-width": px from which they are used, if the children also fit
 * "spacing", "row-spacing": px
 * "side-width": px, the most that a child which does not expand gets beyond its least width; 0: its
 *   natural width
 * "focus-order": children in the order of the Tab key, "2 0 1"; left out: as they were added
 * "shape" (read): TgFoldShape; notifies after the layout, from the main loop
 */
GtkWidget *tg_fold_new (void);

TgFoldShape tg_fold_shape (TgFold *fold);

G_END_DECLS
