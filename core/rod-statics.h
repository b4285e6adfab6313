/* rod-statics.h: a rod on two supports
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rod rests at its bore centres, L apart.  Big end at 0, small end at L, positions d in mm from
 * the big end towards the small end.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* What the two supports carry, in any one unit of mass. */
typedef struct
{
  double small;
  double big;
} TgRodStatics;

/**
 * tg_rod_statics_effect:
 * @centres_mm: L > 0
 * @position_mm: d, any finite value; below 0 on the cap side, above L beyond the small end
 *
 * Sum of forces and moments of a rigid beam on two supports.
 * Returns: the grams by which each reading falls for one gram taken off at d: small d/L,
 * big 1 − d/L. Negative: that reading rises. Their sum is 1.
 */
TgRodStatics tg_rod_statics_effect (double centres_mm, double position_mm);

/**
 * tg_rod_statics_split:
 * @whole: weight, > 0
 * @cg_mm: centre of gravity from the big-end centre
 *
 * Returns: the readings of the two ends; their sum is @whole.
 */
TgRodStatics tg_rod_statics_split (double whole, double centres_mm, double cg_mm);

/* Centre of gravity in mm from the big-end centre; the readings must not sum to 0. */
double tg_rod_statics_cg_mm (double centres_mm, TgRodStatics ends);

G_END_DECLS
