/* rounding.h: what the step of a display does to repeated readings
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A display of step d shows the nearest multiple of d.  Where readings scatter by half a step or
 * more, rounding acts like one more independent scatter of variance d²/12 and averages out with
 * repeats (Sheppard's correction).  Where they scatter less, the same figure is shown again and
 * again, and no number of repeats tells more.  Between the two the split follows from the Fourier
 * series of the rounding error over a position that is equally likely anywhere within the step
 * (Widrow and Kollár, Quantization Noise, chapter 9; from memory, checked by quadrature in the tests).
 */
#pragma once

#include <glib.h>

#include "uncertainty.h"

G_BEGIN_DECLS

/**
 * tg_rounding_lasting_variance:
 * @sigma: standard deviation before rounding, ≥ 0
 * @step: d > 0
 *
 * B = d²/(2π²) Σ exp (−4π²k²σ²/d²)/k²: the variance of what repeats do not average out, from d²/12
 * at σ = 0 to nothing from about 0.6 d on.
 */
double tg_rounding_lasting_variance (double sigma, double step);

/**
 * tg_rounding_sigma:
 * @deviation: standard deviation of readings as displayed, ≥ 0
 *
 * Returns: the standard deviation before rounding that shows @deviation on average:
 * s² = σ² + d²/12 − B (σ).
 */
double tg_rounding_sigma (double deviation, double step);

/**
 * tg_rounding_expanded:
 * @random: what is normal: u may be 0
 * @rounding_u: standard uncertainty from rounding, ≥ 0
 * @displays: 1: of one displayed figure, rectangular; 2: half of each of two, triangular
 * @level: of confidence, between 0 and 1
 *
 * Returns: U so that the sum of both errors lies within ± U with @level: Student's t for the one
 * convolved with the bounded distribution of the other.  With a normal distribution for both it
 * would hold too much where rounding is most of it (JCGM 100, G.2.3; JCGM 101, 5.3.3).
 */
double tg_rounding_expanded (TgUncertainty random, double rounding_u, guint displays, double level);

G_END_DECLS
