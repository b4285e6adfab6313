/* practice-bench.h: a bench to learn on: hidden true parts, a stand and a scale that lie like real ones
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything follows from the seed and from what was done, in its order.  What a reading is made of:
 * the true figure of the part; what the bearing holds back at its joint, the same each time that the
 * rod lies so and is not rocked; what a rod that touches something puts down elsewhere; the zero of the
 * scale and its adjustment; a scatter that is new with each lay; and while it stands there, its settling
 * and the flicker of the display.
 */
#pragma once

#include "review.h"

G_BEGIN_DECLS

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

/* Lays a weight of known value on the pan. */
void tg_practice_bench_lay_weight (TgPracticeBench *bench, TgMass nominal);

/* Rocks the rod that lies there until its bearing is free: until the next lay it does not catch. */
void tg_practice_bench_rock (TgPracticeBench *bench);

/* Another piece takes the place of a part: with figures of its own, and no metal taken off yet. */
void tg_practice_bench_replace (TgPracticeBench *bench, guint part);

/* Sets the scale to zero as it stands now: to be done with nothing on it. */
void tg_practice_bench_set_zero (TgPracticeBench *bench);

/* What the display shows @ms after the last change, to the step of the scale. */
TgMass tg_practice_bench_display (const TgPracticeBench *bench, guint ms);

/* From here on only the flicker moves the display. */
#define TG_PRACTICE_SETTLED_MS 2500

/* What lies on the bench: a part, as @slot (out) (nullable) says. */
gboolean tg_practice_bench_lies (const TgPracticeBench *bench, TgSlot *slot);

/* Whether the rod that lies there touches something; and what the bearing of one that is laid on so and
 * not rocked does to the reading, g. */
gboolean tg_practice_bench_touches (const TgPracticeBench *bench);
double tg_practice_bench_catches_g (const TgPracticeBench *bench, const TgSlot *slot);

/* g in a second that a tool takes on average, of this metal and in this hand: the seed decides. */
double tg_practice_bench_rate (const TgPracticeBench *bench, guint part, TgTool tool);

/* The same of an average hand on an average metal: what a person may be told beforehand. */
double tg_practice_tool_rate (TgTool tool);

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
