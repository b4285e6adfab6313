/* practice-bench.h: a bench to learn on: hidden true parts, a stand and a scale that lie like real ones
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything follows from the seed and from what was done, in its order.  What a reading is made of:
 * the true figure of the part; what the bearing holds back at its joint, the same each time that the
 * rod lies so; what a rod that touches something puts down elsewhere; the zero of the scale; a scatter
 * that is new with each lay; and while it stands there, its settling and the flicker of the display.
 */
#pragma once

#include "review.h"

G_BEGIN_DECLS

/**
 * TgPracticeFaults: how the bench lies; 0 for a fault that it does not have
 * @scatter_g: standard deviation from lay to lay, on the stand; half of it on the pan
 * @flicker_g: standard deviation of the display from moment to moment
 * @drift_g: standard deviation of what the zero moves by from lay to lay
 * @catch_g: by which an end reads off where the bearing catches, either way
 * @catch_share: of the rods' ends and ways up that catch, 0 to 1
 * @touch_g: that a rod touching something loses
 * @touch_share: of the lays of a rod's end at which it touches, 0 to 1
 * @hand: standard deviation of what a pass takes, as a share of what it takes on average
 */
typedef struct
{
  double scatter_g;
  double flicker_g;
  double drift_g;
  double catch_g;
  double catch_share;
  double touch_g;
  double touch_share;
  double hand;
} TgPracticeFaults;

typedef struct _TgPracticeBench TgPracticeBench;

/**
 * tg_practice_bench_new:
 * @setup: (lends): parts, designs and the scale's step; must outlive the bench
 * @spread_g: standard deviation of the parts' true figures within a family
 */
TgPracticeBench *tg_practice_bench_new (const TgSetup *setup,
                                        const char *seed,
                                        double spread_g,
                                        const TgPracticeFaults *faults);
void tg_practice_bench_free (TgPracticeBench *bench);

/**
 * tg_practice_bench_truth:
 * @part: index in the setup
 * @figure: of a rod each of its ends or the whole, their sum; of others the whole
 *
 * Returns: g, as it is now
 */
double tg_practice_bench_truth (const TgPracticeBench *bench, guint part, TgFigure figure);

/* The same, as it came. */
double tg_practice_bench_truth_at_first (const TgPracticeBench *bench, guint part, TgFigure figure);

/* Lays @slot on, or with NULL takes everything off; the zero moves with each. */
void tg_practice_bench_lay (TgPracticeBench *bench, const TgSlot *slot);

/* Sets the scale to zero as it stands now: to be done with nothing on it. */
void tg_practice_bench_set_zero (TgPracticeBench *bench);

/* What the display shows @ms after the last change, to the step of the scale. */
TgMass tg_practice_bench_display (const TgPracticeBench *bench, guint ms);

/* From here on only the flicker moves the display. */
#define TG_PRACTICE_SETTLED_MS 2500

/* Whether the rod now touches something, and what the bearing does to the reading, g. */
gboolean tg_practice_bench_touches (const TgPracticeBench *bench);
double tg_practice_bench_catches_g (const TgPracticeBench *bench, const TgSlot *slot);

/* g in a second that a tool takes on average, of this metal and in this hand: the seed decides. */
double tg_practice_bench_rate (const TgPracticeBench *bench, guint part, TgTool tool);

/**
 * tg_practice_bench_grind:
 * @part, @zone: indices
 * @seconds: above 0
 *
 * Takes metal off a zone, whether it is permitted there or not, and past its depth if it lasts that long.
 * The part is off the scale afterwards.
 * Returns: g that came off
 */
double tg_practice_bench_grind (
    TgPracticeBench *bench, guint part, guint zone, TgTool tool, double seconds);

/* g taken off a zone so far. */
double tg_practice_bench_taken (const TgPracticeBench *bench, guint part, guint zone);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgPracticeBench, tg_practice_bench_free)

G_END_DECLS
