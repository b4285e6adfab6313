/* lever-learning.h: what the passes of a job teach: where a zone really lies, what a pass takes
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two things are learned apart from each other.
 *   The lever arm d/L of a zone, from what both ends of a rod lost in passes on that zone.
 *   The method of a person with one tool on one material: what comes off for what was asked.  What
 *   was asked is grams wanted, or minutes, or strokes; one method speaks of one of them.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

/* By how much the readings of the two ends fell over one pass (or several) on one zone, in g, and
 * the standard uncertainty of each fall, > 0; a rise is negative.  u of a fall is √2 that of a
 * figure where both weighings are alike. */
typedef struct
{
  double small_g;
  double small_u_g;
  double big_g;
  double big_u_g;
} TgLeverLearningPair;

/**
 * TgLeverLearning:
 * @lever: d/L, the share that the small end loses; 1 − d/L is the big end's
 * @u: its standard uncertainty, made larger by the Birge ratio √(χ²/ν) where @consistent is FALSE
 * @chi2: sum of squared residuals over their u, the drawing's included
 * @freedom: of @chi2: the number of pairs
 * @chance: of a @chi2 that large or larger if all is as it should be
 * @consistent: @chance is at least TG_LEVER_LEARNING_DOUBT; else a reading, the pass or the drawing
 *   is not what it is said to be
 */
typedef struct
{
  double lever;
  double u;
  double chi2;
  guint freedom;
  double chance;
  gboolean consistent;
} TgLeverLearning;

#define TG_LEVER_LEARNING_DOUBT 0.01

/**
 * tg_lever_learning_arm:
 * @pairs: @n pairs of passes on one zone, their errors independent
 * @drawn: d/L of the drawing, any finite value: below 0 on the cap side, above 1 past the small end
 * @drawn_u: its standard uncertainty > 0 (position u over L; a zone as wide as w, worked anywhere
 *   within: w/√12/L)
 *
 * Weighted least squares with errors in both ends and unknown amounts; the drawing counts as one
 * more observation (JCGM 100, 5.1 for the weights; the Birge ratio as in the adjustment of the
 * fundamental constants).  With no pairs it is the drawing.
 *
 * Where the fall of one pass begins with the reading that ended the pass before, neighbours share
 * an error with opposite signs; taking them as independent makes u too large, not too small.
 */
TgLeverLearning
tg_lever_learning_arm (const TgLeverLearningPair *pairs, gsize n, double drawn, double drawn_u);

/* What came off in one pass, its standard uncertainty ≥ 0, and what was asked, > 0. */
typedef struct
{
  double amount_g;
  double u_g;
  double asked;
} TgLeverLearningPass;

/**
 * TgLeverLearningMethod:
 * @log_ratio: mean of ln (amount / asked); its exponential is grams per gram, minute or stroke
 * @scatter: standard deviation of ln (amount / asked) from pass to pass, about the relative scatter
 * @weight: how many passes @log_ratio rests on; 0: not known at all
 * @freedom: degrees of freedom of @scatter; 0: not known at all
 */
typedef struct
{
  double log_ratio;
  double scatter;
  double weight;
  double freedom;
} TgLeverLearningMethod;

/**
 * tg_lever_learning_unlearned:
 * @ratio_known: TRUE where grams are asked, which a person takes off about as asked; FALSE for
 *   minutes or strokes, where only the scatter is expected
 *
 * What to expect before the first pass: as asked give or take 20 %, worth one pass for the ratio and
 * four degrees of freedom for the scatter.  Our own choice; common practice, no published source.
 */
TgLeverLearningMethod tg_lever_learning_unlearned (gboolean ratio_known);

/**
 * tg_lever_learning_method:
 * @passes: @n passes of the same tool on the same material, asked in the same way
 * @before: what was known, may be @method itself; learning pass by pass gives the same as at once
 * @method: (out)
 *
 * Normal distribution of ln (amount/asked) with unknown mean and variance, conjugate prior (Gelman
 * et al., Bayesian Data Analysis, section 3.3, from memory).  A pass that weighing knows only so well
 * counts for a share of one, scatter² / (scatter² + (u/amount)²), so that its noise is not learned;
 * one that was to take less than twice its uncertainty is left out, as is one that took nothing at all.  A slip counts as four scatters: it
 * widens what is expected without ruling it.
 *
 * Returns: how many passes were taken in.  0: @method is @before.
 */
gsize tg_lever_learning_method (const TgLeverLearningPass *passes,
                                gsize n,
                                const TgLeverLearningMethod *before,
                                TgLeverLearningMethod *method);

/**
 * tg_lever_learning_ratio:
 * @level: of confidence, two-sided, for instance 0.95
 * @low, @high: (out) (nullable): limits of the mean ratio
 *
 * Returns: grams per unit asked, the median; 0, and no limits, while it is not known.
 */
double tg_lever_learning_ratio (const TgLeverLearningMethod *method,
                                double level,
                                double *low,
                                double *high);

#define TG_LEVER_LEARNING_CHANCE 0.02

/**
 * tg_lever_learning_overshoot:
 * @asked: > 0
 * @room_g: the most that may come off: reading − lower edge of the band
 * @room_u_g: standard uncertainty of @room_g, ≥ 0
 *
 * Returns: the chance that more than the room comes off when @asked is asked the next time; 1 while
 *   the method is not known.  ln (amount/asked) of the next pass is Student's t with the method's
 *   mean and freedom and the scale scatter √(1 + 1/weight), averaged over the normal distribution of
 *   the room.  To about 1e-4.
 */
double tg_lever_learning_overshoot (const TgLeverLearningMethod *method,
                                    double asked,
                                    double room_g,
                                    double room_u_g);

/**
 * tg_lever_learning_next:
 * @chance: of overshoot that is accepted for this pass, 0.0001 to 0.4; TG_LEVER_LEARNING_CHANCE usual
 *
 * Returns: the most that may be asked so that tg_lever_learning_overshoot() is at most @chance; in
 *   the method's own unit (grams wanted, minutes, strokes).  0 when nothing may: the room is not
 *   larger than its uncertainty or the method not known.  A caller that wants to land in the middle
 *   of the band takes the smaller of this and (reading − middle) / ratio.
 */
double tg_lever_learning_next (const TgLeverLearningMethod *method,
                               double room_g,
                               double room_u_g,
                               double chance);

G_END_DECLS
