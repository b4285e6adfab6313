/* check-weight.h: is the scale right? a weight of known class is put on it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Weights come in the accuracy classes of OIML R 111-1.  What a set of parts needs is not a right
 * scale but one that stays as it is, so a reading that is off is a reason to stop and look at the
 * scale (level, draught, warming up, something under the pan), not to correct readings by it.
 */
#pragma once

#include <glib.h>

#include "mass.h"
#include "uncertainty.h"

G_BEGIN_DECLS

typedef enum
{
  TG_CHECK_WEIGHT_E1,
  TG_CHECK_WEIGHT_E2,
  TG_CHECK_WEIGHT_F1,
  TG_CHECK_WEIGHT_F2,
  TG_CHECK_WEIGHT_M1,
  TG_CHECK_WEIGHT_M2,
  TG_CHECK_WEIGHT_M3,
} TgCheckWeightClass;
#define TG_N_CHECK_WEIGHT_CLASSES 7

/* "E1" to "M3", as the standard writes them. */
const char *tg_check_weight_class_to_word (TgCheckWeightClass value);
gboolean tg_check_weight_class_from_word (const char *word, TgCheckWeightClass *value);

/**
 * tg_check_weight_mpe_mg:
 * @nominal: what is stamped on the weight
 * @mpe_mg: (out): δm, the maximum permissible error in milligrams: a weight of the class is within
 *   @nominal ± δm
 *
 * OIML R 111-1:2004, table 1, for the nominal values 1, 2, 5 × 10ⁿ g from 1 g to 10 kg.
 * Returns: FALSE, @mpe_mg untouched, for any other value: the table has no line for it.
 */
gboolean tg_check_weight_mpe_mg (TgMass nominal, TgCheckWeightClass weight_class, double *mpe_mg);

/**
 * tg_check_weight_uncertainty_g:
 * @mpe_mg: δm ≥ 0 in milligrams
 *
 * Returns: standard uncertainty in g of a weight whose class alone is known, δm/√3, as from a
 *   rectangular distribution (JCGM 100, 4.3.7).
 */
double tg_check_weight_uncertainty_g (double mpe_mg);

typedef enum
{
  TG_CHECK_WEIGHT_FITS,     /* within 2 u: what scale and weight explain */
  TG_CHECK_WEIGHT_DOUBTFUL, /* within 3 u: happens once in twenty times; weigh it again */
  TG_CHECK_WEIGHT_OFF,      /* beyond: the scale is not to be trusted as it stands */
} TgCheckWeightVerdict;

/**
 * TgCheckWeight:
 * @error_g: reading − nominal
 * @u_g: standard uncertainty of that error: scale and weight together
 * @doubtful_g, @off_g: limits of |error|: 2 u and 3 u, both rounded up to the next step of the
 *   scale, so that one step alone never alarms
 */
typedef struct
{
  double error_g;
  double u_g;
  double doubtful_g;
  double off_g;
  TgCheckWeightVerdict verdict;
} TgCheckWeight;

/**
 * tg_check_weight_judge:
 * @reading: of the check weight
 * @nominal: what is stamped on it
 * @mpe_mg: of its class, tg_check_weight_mpe_mg(); ≥ 0
 * @step: of the scale, > 0
 * @scale_u_g: standard uncertainty of one reading of the scale, > 0
 *   (tg_uncertainty_of_mean() with one reading)
 *
 * Limits at 2 and 3 standard deviations as on a control chart (warning and action limits, ISO
 * 7870-2, from memory).  The scale's own adjustment is not in @scale_u_g; it is what is looked for.
 */
TgCheckWeight tg_check_weight_judge (
    TgMass reading, TgMass nominal, double mpe_mg, TgMass step, double scale_u_g);

/* The error for tg_uncertainty_drift(), at @time. Its u is the scale's alone: the weight is the same
 * each time, so what it is out by cancels in a drift. */
TgUncertaintyCheck
tg_check_weight_as_check (TgMass reading, TgMass nominal, double scale_u_g, double time);

G_END_DECLS
