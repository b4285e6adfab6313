/* dynamics-unbalance.c: unbalance of crankpins and its grade, see dynamics.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An unbalance is a mass times the radius at which it turns.  The grades are the standard's for rigid
 * rotors: they say how even a crankshaft turns, and nothing on how even the weights of rods or pistons
 * must be.  Not here: how much of a permissible unbalance falls to which correction plane, and the
 * couple of the pins, which tg_dynamics_sums() gives.
 *
 * Symbols: U unbalance, G grade e ω, e the distance of the rotor's centre of mass from its axis.
 */
#include "dynamics.h"

#include <complex.h>
#include <math.h>

#define RADIANS(degrees) ((degrees) * (G_PI / 180))

/* The vector of length 1 at @angle, radians. */
static double complex
towards (double angle)
{
  return cexp ((double complex) I * angle);
}

static double
radians_per_second (double speed_rpm)
{
  return speed_rpm * (2 * G_PI / 60);
}

TgDynamicsVector
tg_dynamics_pins (const TgEngineLayout *layout,
                  double radius_mm,
                  const TgDynamicsMasses *masses,
                  double factor,
                  double *pins)
{
  double complex resultant = 0;

  g_return_val_if_fail (layout && layout->n <= TG_ENGINE_LAYOUT_MAX && masses && pins,
                        ((TgDynamicsVector){ 0, 0 }));
  for (guint pin = 0; pin < layout->n_pins; pin++)
    pins[pin] = 0;
  for (guint i = 0; i < layout->n; i++)
    {
      const TgEngineCylinder *cylinder = &layout->cylinders[i];
      double grams = 1000 * (masses->rotating_kg[i] + factor * masses->reciprocating_kg[i] -
                             masses->counterweight_kg[i]);

      pins[cylinder->pin] += grams * radius_mm;
      resultant += grams * radius_mm * towards (RADIANS (cylinder->throw_deg));
    }
  return (TgDynamicsVector){ creal (resultant), cimag (resultant) };
}

double
tg_dynamics_permissible_unbalance (double grade, double mass_kg, double speed_rpm)
{
  /* mm/s · kg / (1/s) is kg·mm */
  return 1000 * grade * mass_kg / radians_per_second (speed_rpm);
}

double
tg_dynamics_grade (double unbalance_g_mm, double mass_kg, double speed_rpm)
{
  return unbalance_g_mm * radians_per_second (speed_rpm) / (1000 * mass_kg);
}

double
tg_dynamics_listed_grade (double grade)
{
  static const double listed[] = { 0.4, 1, 2.5, 6.3, 16, 40, 100, 250, 630, 1600, 4000 };

  for (guint i = 0; i < G_N_ELEMENTS (listed); i++)
    if (grade <= listed[i])
      return listed[i];
  return 0;
}
