/* uncertainty.h: how well a figure is known, and what can be proven with it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * After JCGM 100:2008 (GUM), JCGM 106:2012 and ILAC-G8:09/2019.  All masses here are doubles of one
 * unit, grams in this program.  A standard uncertainty u is never negative; degrees of freedom are
 * above 0, INFINITY where the uncertainty itself is taken for exact.
 *
 * Two different questions are answered, and each function says which:
 *   conformance  does one true value lie between two limits?  tg_uncertainty_conformance(), _judge()
 *   spread       is the heaviest true value of a set at most a tolerance above the lightest?
 *                tg_uncertainty_spread_*(), _provable_*(), _repeats_needed()
 * What errs alike for the whole set (the scale's adjustment, a check weight, air) cancels in a
 * spread and must be left out of its u; it belongs into u where a figure is held against a limit.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct
{
  double u;
  double freedom;
} TgUncertainty;

/* One contribution: u(xᵢ), νᵢ and the sensitivity cᵢ = ∂y/∂xᵢ, which may be negative. */
typedef struct
{
  double u;
  double freedom;
  double sensitivity;
} TgUncertaintyComponent;

/**
 * tg_uncertainty_combine:
 * @components: @n independent contributions
 *
 * u² = Σ (cᵢ uᵢ)²; ν = u⁴ / Σ ((cᵢ uᵢ)⁴ / νᵢ), Welch and Satterthwaite (JCGM 100, 5.1.2 and G.4.1).
 * Returns: u and the ν of the formula, not yet rounded down; ν is INFINITY when u is 0.
 */
TgUncertainty tg_uncertainty_combine (const TgUncertaintyComponent *components, gsize n);

/**
 * tg_uncertainty_coverage:
 * @freedom: rounded down to a whole number as JCGM 100, G.4.1 asks, but not below 1
 * @level: of confidence, two-sided, between 0 and 1
 *
 * Returns: k, the quantile of Student's t at (1 + level)/2 (JCGM 100, table G.2).
 */
double tg_uncertainty_coverage (double freedom, double level);

/* U = k u at that @level. */
double tg_uncertainty_expanded (TgUncertainty uncertainty, double level);

/* a/√3: equally likely anywhere within ± @half_width (JCGM 100, 4.3.7). */
double tg_uncertainty_of_interval (double half_width);

/**
 * tg_uncertainty_of_resolution:
 * @step: d > 0 of a digital display
 * @displays: how many displayed values the figure takes, each with an error of its own: 1, or 2
 *   where every reading has its own zero
 *
 * Returns: d √(@displays / 12): d/√12 for one (JCGM 100, F.2.2.1), d/√6 for zero and load (OIML
 * R 111-1:2004, C.6.4).
 */
double tg_uncertainty_of_resolution (double step, guint displays);

/**
 * TgUncertaintyScale:
 * @step: resolution d > 0
 * @repeatability: standard deviation of one reading, pooled over repeats, ≥ 0
 * @freedom: of @repeatability, > 0
 * @displays: 1 if the scale is set to zero once for the set, 2 if anew for each reading
 */
typedef struct
{
  double step;
  double repeatability;
  double freedom;
  guint displays;
} TgUncertaintyScale;

/**
 * tg_uncertainty_of_mean:
 * @n: readings of one figure, 1 or more
 *
 * u² = s²/n + displays d²/12.  Repeating shrinks the first term alone: readings that all show the
 * same step err by the same rounding.  Where s is well above d the rounding is partly in s already
 * and u comes out a little large, never small.
 * Returns: u with Welch and Satterthwaite's ν.
 */
TgUncertainty tg_uncertainty_of_mean (const TgUncertaintyScale *scale, guint n);

/* A look at the scale's error: @error = reading − what it ought to be (an empty pan: 0; a check
 * weight: its value), standard uncertainty @u, at @time in any unit. */
typedef struct
{
  double time;
  double error;
  double u;
} TgUncertaintyCheck;

/* To be added to a reading, and its standard uncertainty. */
typedef struct
{
  double correction;
  double u;
} TgUncertaintyDrift;

/**
 * tg_uncertainty_drift:
 * @before, @after: checks with @before.time < @after.time
 * @time: of the reading
 * @drift: (out)
 *
 * The error is taken to have gone in a straight line from one check to the next, with the doubt of
 * tg_uncertainty_drift_covariance() about the line besides the checks' own u weighted as the line
 * weights them.  It does not see a scale that wanders off and comes back.
 * Returns: FALSE, @drift untouched, when @time does not lie between the checks.
 */
gboolean tg_uncertainty_drift (const TgUncertaintyCheck *before,
                               const TgUncertaintyCheck *after,
                               double time,
                               TgUncertaintyDrift *drift);

/**
 * tg_uncertainty_drift_covariance:
 * @change: Δ of the error between two checks
 * @earlier, @later: moments between them as shares of the time, 0 ≤ @earlier ≤ @later ≤ 1
 *
 * The error may have gone from check to check in any way that never turns back, all at once for
 * instance.  Half-way it is then equally likely anywhere between the two (rectangular, half-width
 * |Δ|/2, JCGM 100, 4.3.7), close to a check it is close to what the check showed: the bridge of a
 * gamma process whose middle is rectangular, Δ² a (1 − b)/3.
 *
 * Returns: the covariance of what the error is off the line at both moments; the variance where they
 * are equal, Δ²/12 half-way.
 */
double tg_uncertainty_drift_covariance (double change, double earlier, double later);

typedef enum
{
  TG_UNCERTAINTY_IN,       /* within, and proven */
  TG_UNCERTAINTY_UNPROVEN, /* the readings are within, but so close that it may be untrue */
  TG_UNCERTAINTY_OUT,      /* the readings themselves are not within */
} TgUncertaintyVerdict;

/**
 * tg_uncertainty_conformance:
 * @value: best estimate
 * @uncertainty: u > 0
 * @lower, @upper: limits, -INFINITY and INFINITY where there is none; @lower < @upper
 *
 * The conformance probability of JCGM 106, 7.2 to 7.4: the chance that the true value lies within
 * the limits, given the reading and nothing else known.  Student's t with ν, normal when ν is
 * INFINITY.  For one part against [target, target + tolerance].
 */
double
tg_uncertainty_conformance (double value, TgUncertainty uncertainty, double lower, double upper);

/* The verdict on one value: IN when the conformance probability reaches @level (0.95 usual). */
TgUncertaintyVerdict tg_uncertainty_judge (
    double value, TgUncertainty uncertainty, double lower, double upper, double level);

/**
 * tg_uncertainty_guard_band:
 * @level: wanted chance of conformance at the acceptance limit, 0.5 < @level < 1
 *
 * For one value against one limit.  Returns: w to stay away from the limit (JCGM 106, 8.3): t at
 * @level times u. ILAC-G8's w = U with k = 2 is the level 0.97725 with ν = INFINITY.
 */
double tg_uncertainty_guard_band (TgUncertainty uncertainty, double level);

/* A set that is weighed with one scale: figures and the standard uncertainty of each, > 0, all of
 * them resting on one repeatability with @freedom. */
typedef struct
{
  const double *values;
  const double *u;
  gsize n;
  double freedom;
} TgUncertaintySet;

/**
 * tg_uncertainty_spread_probability:
 * @tolerance: T > 0
 *
 * The chance that heaviest − lightest of the *true* values is at most T, given the readings and
 * nothing else known: each true value is normal about its reading, independent of the others, and
 *   P = ∫ Σᵢ fᵢ(x) Πⱼ≠ᵢ [Fⱼ(x+T) − Fⱼ(x)] dx,
 * i being the lightest.  With finite @freedom it is averaged over what the true scatter may be
 * (χ²/ν distribution), so that sets with equal readings give the studentised range.  Integrated to
 * 1e-9.
 *
 * Limit of the model: nothing is assumed known about the parts beforehand.  Parts that are all
 * alike show a spread by chance, and the model takes it for real; so it is on the safe side, the
 * more the larger the set.
 */
double tg_uncertainty_spread_probability (const TgUncertaintySet *set, double tolerance);

/**
 * TgUncertaintySpread:
 * @spread: heaviest − lightest reading
 * @probability: as tg_uncertainty_spread_probability()
 */
typedef struct
{
  double spread;
  double probability;
  TgUncertaintyVerdict verdict;
} TgUncertaintySpread;

/* The verdict on the set: IN when the probability reaches @level, OUT when the readings spread more
 * than @tolerance, else UNPROVEN. */
TgUncertaintySpread
tg_uncertainty_judge_spread (const TgUncertaintySet *set, double tolerance, double level);

/**
 * tg_uncertainty_spread_limit:
 * @n: parts, 2 or more, each with @uncertainty
 * @limit: (out): largest spread of readings that proves @tolerance whatever the parts between the
 *   lightest and the heaviest weigh; tolerance − limit is the guard band of the spread
 *
 * The probability is a log-concave function of the readings (Prékopa), so the worst sets of one
 * spread have every part at one of its two ends; the limit is taken over all of these.
 * Returns: FALSE, @limit untouched, when not even equal readings prove it.
 */
gboolean tg_uncertainty_spread_limit (
    gsize n, TgUncertainty uncertainty, double tolerance, double level, double *limit);

/**
 * tg_uncertainty_provable_spread:
 * @n: parts, 2 or more
 * @level: 0.1 or more, below 1; 0.95 usual
 *
 * Returns: the smallest tolerance that readings with @uncertainty can prove, reached when all of
 * them are equal: u times the quantile of the studentised range at @level.  A real set needs more
 * room, tg_uncertainty_spread_limit() says how much.
 */
double tg_uncertainty_provable_spread (gsize n, TgUncertainty uncertainty, double level);

#define TG_UNCERTAINTY_MAX_REPEATS 20

/**
 * tg_uncertainty_repeats_needed:
 * @n: parts, 2 or more
 *
 * Returns: the fewest readings of each figure, 1 to TG_UNCERTAINTY_MAX_REPEATS, with which @scale
 * can prove @tolerance at @level in the sense of tg_uncertainty_provable_spread(); 0: not at all.
 */
guint tg_uncertainty_repeats_needed (const TgUncertaintyScale *scale,
                                     gsize n,
                                     double tolerance,
                                     double level);

G_END_DECLS
