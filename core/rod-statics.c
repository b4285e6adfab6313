/* rod-statics.c: a rod on two supports, see rod-statics.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A rigid beam rests at 0 (big end) and at L (small end); both supports push straight up.  Moments
 * about the big end give the small end's reading, the sum of forces the other.  Holds while the
 * centre of gravity lies on the line of centres or that line is level; a tilted rod whose centre of
 * gravity stands off the line reads W h tan(tilt) / L wrong, which no formula here takes out.
 *
 * Symbols: L centre distance, d position, W whole weight, S and B readings of the two ends.
 */
#include "rod-statics.h"

TgRodStatics
tg_rod_statics_effect (double centres_mm, double position_mm)
{
  double small = position_mm / centres_mm;

  return (TgRodStatics){ .small = small, .big = 1 - small };
}

TgRodStatics
tg_rod_statics_split (double whole, double centres_mm, double cg_mm)
{
  double small = whole * cg_mm / centres_mm;

  return (TgRodStatics){ .small = small, .big = whole - small };
}

double
tg_rod_statics_cg_mm (double centres_mm, TgRodStatics ends)
{
  return centres_mm * ends.small / (ends.small + ends.big);
}
