/* check-weight.c: is the scale right? see check-weight.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Model.  Reading and weight err independently, the weight anywhere within its class.  Limits are
 * put on steps of the scale, since only steps can be read.
 *
 * The table is OIML R 111-1:2004, table 1.  From 1 g to 1 kg the columns E2 to M3 were read in a
 * printed copy, and E1 at 1 g, 100 g and 1 kg; the rest of E1 and the lines above 1 kg are from
 * memory.  The test holds all of it to the standard's own regularity: classes a factor of 3 to 3.34
 * apart, and from 100 g on an error in proportion to the weight.
 *
 * Not here: weights below 1 g or above 10 kg, classes M1-2 and M2-3 (50 kg and more), air buoyancy,
 * weights with a certificate of their own.
 */
#include "check-weight.h"

#include <math.h>

#include "word.h"

TG_DEFINE_WORDS (TgCheckWeightClass, check_weight_class, "E1", "E2", "F1", "F2", "M1", "M2", "M3")

static const struct
{
  TgMass nominal;
  double mpe_mg[TG_N_CHECK_WEIGHT_CLASSES];
} table[] = {
  { 1 * TG_MASS_G, { 0.010, 0.03, 0.10, 0.3, 1.0, 3.0, 10 } },
  { 2 * TG_MASS_G, { 0.012, 0.04, 0.12, 0.4, 1.2, 4.0, 12 } },
  { 5 * TG_MASS_G, { 0.016, 0.05, 0.16, 0.5, 1.6, 5.0, 16 } },
  { 10 * TG_MASS_G, { 0.020, 0.06, 0.20, 0.6, 2.0, 6.0, 20 } },
  { 20 * TG_MASS_G, { 0.025, 0.08, 0.25, 0.8, 2.5, 8.0, 25 } },
  { 50 * TG_MASS_G, { 0.03, 0.10, 0.3, 1.0, 3.0, 10, 30 } },
  { 100 * TG_MASS_G, { 0.05, 0.16, 0.5, 1.6, 5.0, 16, 50 } },
  { 200 * TG_MASS_G, { 0.10, 0.3, 1.0, 3.0, 10, 30, 100 } },
  { 500 * TG_MASS_G, { 0.25, 0.8, 2.5, 8.0, 25, 80, 250 } },
  { 1000 * TG_MASS_G, { 0.5, 1.6, 5.0, 16, 50, 160, 500 } },
  { 2000 * TG_MASS_G, { 1.0, 3.0, 10, 30, 100, 300, 1000 } },
  { 5000 * TG_MASS_G, { 2.5, 8.0, 25, 80, 250, 800, 2500 } },
  { 10000 * TG_MASS_G, { 5.0, 16, 50, 160, 500, 1600, 5000 } },
};

gboolean
tg_check_weight_mpe_mg (TgMass nominal, TgCheckWeightClass weight_class, double *mpe_mg)
{
  g_return_val_if_fail ((guint) weight_class < TG_N_CHECK_WEIGHT_CLASSES && mpe_mg, FALSE);

  for (guint i = 0; i < G_N_ELEMENTS (table); i++)
    if (table[i].nominal == nominal)
      {
        *mpe_mg = table[i].mpe_mg[weight_class];
        return TRUE;
      }
  return FALSE;
}

double
tg_check_weight_uncertainty_g (double mpe_mg)
{
  return tg_uncertainty_of_interval (mpe_mg / 1000);
}

/* The step is given back what binary fractions take from it. */
static double
up_to_step (double grams, double step)
{
  return ceil (grams / step - 1e-9) * step;
}

TgCheckWeight
tg_check_weight_judge (TgMass reading, TgMass nominal, double mpe_mg, TgMass step, double scale_u_g)
{
  TgCheckWeight result = { .error_g = tg_mass_to_g (reading - nominal) };
  double step_g = tg_mass_to_g (step), size = fabs (result.error_g) - step_g * 1e-6;

  g_return_val_if_fail (mpe_mg >= 0 && step > 0 && scale_u_g > 0, result);

  result.u_g = hypot (scale_u_g, tg_check_weight_uncertainty_g (mpe_mg));
  result.doubtful_g = up_to_step (2 * result.u_g, step_g);
  result.off_g = up_to_step (3 * result.u_g, step_g);
  result.verdict = size <= result.doubtful_g ? TG_CHECK_WEIGHT_FITS
                   : size <= result.off_g    ? TG_CHECK_WEIGHT_DOUBTFUL
                                             : TG_CHECK_WEIGHT_OFF;
  return result;
}

TgUncertaintyCheck
tg_check_weight_as_check (TgMass reading, TgMass nominal, double scale_u_g, double time)
{
  return (TgUncertaintyCheck){
    .time = time,
    .error = tg_mass_to_g (reading - nominal),
    .u = scale_u_g,
  };
}
