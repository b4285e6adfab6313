/* dynamics.c: what the moving masses do to the engine, see dynamics.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each rod is two masses, as the two-support weighing splits it: one goes to and fro with the piston,
 * one round with the crankpin.  The crank turns steadily, everything is rigid, pins stand in the
 * middle of their bores.  Left out: the rod's own moment of inertia (it turns the engine about the
 * crank's axis, where nothing is summed here), gas pressure, friction, valve gear, balance shafts, the
 * crank's own unbalance, and how the engine's mounting answers.
 *
 * Symbols: r crank radius, l rod, λ = r/l, ω speed, t angle of a throw past its own top dead centre.
 * A pin stands at s = r cos t + √(l² − r² sin² t); its inertia force along the bore is −m s̈.
 * Vectors are complex numbers: real along angle 0.  An order n of a piston on the bore e^{iα} with
 * its throw at τ is r ω² A_n cos (n (θ + τ − α)) e^{iα}, half of which turns each way.
 */
#include "dynamics.h"

#include <complex.h>
#include <math.h>

#include "error.h"
#include "number.h"

#define RADIANS(degrees) ((degrees) * (G_PI / 180))
#define METRES(mm) ((mm) / 1000)
/* r/l is below 1/1.1: what this many angles miss is of order 250, where e^{−250 acosh 1.1} < 1e-47. */
#define N_ANGLES 128
#define N_NUMBERS (sizeof (TgDynamicsSums) / sizeof (double))

static const guint order_numbers[TG_DYNAMICS_N_ORDERS] = { 1, 2, 4, 6 };

typedef union
{
  TgDynamicsSums sums;
  double numbers[N_NUMBERS];
} Numbers;

/* What one kilogram at one cylinder does. */
typedef struct
{
  Numbers reciprocating;
  Numbers rotating;
} Effect;

static double
radians_per_second (double speed_rpm)
{
  return speed_rpm * (2 * G_PI / 60);
}

/* The vector of length 1 at @angle, radians. */
static double complex
towards (double angle)
{
  return cexp ((double complex) I * angle);
}

static TgDynamicsVector
vector (double complex z)
{
  return (TgDynamicsVector){ creal (z), cimag (z) };
}

static double complex
number (TgDynamicsVector vector)
{
  return vector.x + (double complex) I * vector.y;
}

static gboolean
refuse (GError **error, const char *what, double value, const char *unit, const char *limit)
{
  g_autofree char *shown = tg_number_format_short (value);

  g_set_error (error, TG_ERROR, TG_ERROR_RANGE, "%s: %s %s is not possible; it must be %s.", what,
               shown, unit, limit);
  return FALSE;
}

gboolean
tg_dynamics_check (const TgDynamicsCrank *crank, GError **error)
{
  g_return_val_if_fail (crank, FALSE);
  if (!(crank->radius_mm > 0 && isfinite (crank->radius_mm)))
    return refuse (error, "Crank radius", crank->radius_mm, "mm", "above 0 mm");
  if (!(crank->rod_mm >= TG_DYNAMICS_MIN_ROD_RATIO * crank->radius_mm && isfinite (crank->rod_mm)))
    return refuse (error, "Rod length", crank->rod_mm, "mm", "at least 1.1 times the crank radius");
  if (!(crank->speed_rpm > 0 && crank->speed_rpm <= TG_DYNAMICS_MAX_RPM))
    return refuse (error, "Speed", crank->speed_rpm, "1/min", "above 0 and at most 50000 1/min");
  return TRUE;
}

/* −s̈ / (r ω²) */
static double
inertia (double lambda, double t)
{
  double sine2 = sin (t) * sin (t);
  double root = sqrt (1 - lambda * lambda * sine2);

  return cos (t) + lambda * (cos (2 * t) + lambda * lambda * sine2 * sine2) / (root * root * root);
}

TgDynamicsMotion
tg_dynamics_motion (const TgDynamicsCrank *crank, double angle_deg)
{
  double r = METRES (crank->radius_mm);
  double l = METRES (crank->rod_mm);
  double speed = radians_per_second (crank->speed_rpm);
  double t = RADIANS (angle_deg);
  double upright = sqrt (l * l - r * r * sin (t) * sin (t));

  return (TgDynamicsMotion){
    .position = r * cos (t) + upright,
    .velocity = -r * speed * sin (t) * (1 + r * cos (t) / upright),
    .acceleration = -r * speed * speed * inertia (r / l, t),
  };
}

guint
tg_dynamics_order_number (TgDynamicsOrder order)
{
  g_return_val_if_fail ((guint) order < TG_DYNAMICS_N_ORDERS, 0);
  return order_numbers[order];
}

void
tg_dynamics_factors (const TgDynamicsCrank *crank, double factors[TG_DYNAMICS_N_ORDERS])
{
  double lambda;

  g_return_if_fail (crank && factors);
  lambda = crank->radius_mm / crank->rod_mm;
  factors[TG_DYNAMICS_FIRST] = 1;
  for (guint order = TG_DYNAMICS_SECOND; order < TG_DYNAMICS_N_ORDERS; order++)
    {
      double sum = 0;

      /* Without its first order the function comes again after half a turn. */
      for (guint k = 0; k < N_ANGLES; k++)
        {
          double t = G_PI * k / N_ANGLES;

          sum += (inertia (lambda, t) - cos (t)) * cos (order_numbers[order] * t);
        }
      factors[order] = 2 * sum / N_ANGLES;
    }
}

TgDynamicsLoad
tg_dynamics_load (const TgEngineLayout *layout,
                  const TgDynamicsCrank *crank,
                  const TgDynamicsMasses *masses,
                  double angle_deg)
{
  double lambda = crank->radius_mm / crank->rod_mm;
  double speed = radians_per_second (crank->speed_rpm);
  double scale = METRES (crank->radius_mm) * speed * speed;
  double complex force = 0;
  double complex couple = 0;

  for (guint i = 0; i < layout->n; i++)
    {
      const TgEngineCylinder *cylinder = &layout->cylinders[i];
      double bank = RADIANS (cylinder->bank_deg);
      double at = RADIANS (angle_deg + cylinder->throw_deg);
      double turning = masses->rotating_kg[i] - masses->counterweight_kg[i];
      double complex one = masses->reciprocating_kg[i] * inertia (lambda, at - bank) *
                               towards (bank) +
                           turning * towards (at);

      force += scale * one;
      couple += scale * METRES (cylinder->position_mm) * one;
    }
  return (TgDynamicsLoad){ vector (force), vector (couple) };
}

static void
effect_of (const TgEngineCylinder *cylinder,
           double scale,
           const double factors[TG_DYNAMICS_N_ORDERS],
           Effect *effect)
{
  double bank = RADIANS (cylinder->bank_deg);
  double at = RADIANS (cylinder->throw_deg);
  double arm = METRES (cylinder->position_mm);
  TgDynamicsSums *to_and_fro = &effect->reciprocating.sums;
  TgDynamicsSums *round = &effect->rotating.sums;

  *effect = (Effect){ 0 };
  for (guint order = 0; order < TG_DYNAMICS_N_ORDERS; order++)
    {
      double half = scale * factors[order] / 2;
      double phase = order_numbers[order] * (at - bank);
      double complex forward = half * towards (bank + phase);
      double complex backward = half * towards (bank - phase);

      to_and_fro->force[order] = (TgDynamicsPair){ vector (forward), vector (backward) };
      to_and_fro->couple[order] = (TgDynamicsPair){ vector (arm * forward),
                                                    vector (arm * backward) };
    }
  round->force[TG_DYNAMICS_FIRST].forward = vector (scale * towards (at));
  round->couple[TG_DYNAMICS_FIRST].forward = vector (scale * arm * towards (at));
}

static void
effects_of (const TgEngineLayout *layout, const TgDynamicsCrank *crank, Effect *effects)
{
  double factors[TG_DYNAMICS_N_ORDERS];
  double speed = radians_per_second (crank->speed_rpm);

  tg_dynamics_factors (crank, factors);
  for (guint i = 0; i < layout->n; i++)
    effect_of (&layout->cylinders[i], METRES (crank->radius_mm) * speed * speed, factors,
               &effects[i]);
}

void
tg_dynamics_sums (const TgEngineLayout *layout,
                  const TgDynamicsCrank *crank,
                  const TgDynamicsMasses *masses,
                  TgDynamicsSums *sums)
{
  Effect effects[TG_ENGINE_LAYOUT_MAX];
  Numbers all = { .numbers = { 0 } };

  g_return_if_fail (layout && layout->n <= TG_ENGINE_LAYOUT_MAX && crank && masses && sums);
  effects_of (layout, crank, effects);
  for (guint i = 0; i < layout->n; i++)
    {
      double turning = masses->rotating_kg[i] - masses->counterweight_kg[i];

      for (guint k = 0; k < N_NUMBERS; k++)
        all.numbers[k] += masses->reciprocating_kg[i] * effects[i].reciprocating.numbers[k] +
                          turning * effects[i].rotating.numbers[k];
    }
  *sums = all.sums;
}

/* Takes the mean effect off each, which is what moving the mean does. */
static void
take_off_mean (Effect *effects, guint n)
{
  for (guint k = 0; k < N_NUMBERS; k++)
    {
      double reciprocating = 0;
      double rotating = 0;

      for (guint i = 0; i < n; i++)
        {
          reciprocating += effects[i].reciprocating.numbers[k] / n;
          rotating += effects[i].rotating.numbers[k] / n;
        }
      for (guint i = 0; i < n; i++)
        {
          effects[i].reciprocating.numbers[k] -= reciprocating;
          effects[i].rotating.numbers[k] -= rotating;
        }
    }
}

static void
combine (const Effect *effects,
         guint n,
         const TgDynamicsMasses *uncertainties,
         gboolean counterweights,
         TgDynamicsSums *sums)
{
  Numbers all;

  for (guint k = 0; k < N_NUMBERS; k++)
    {
      double square = 0;

      for (guint i = 0; i < n; i++)
        {
          double to_and_fro = effects[i].reciprocating.numbers[k] *
                              uncertainties->reciprocating_kg[i];
          double round = effects[i].rotating.numbers[k] * uncertainties->rotating_kg[i];
          double against = counterweights
                               ? effects[i].rotating.numbers[k] * uncertainties->counterweight_kg[i]
                               : 0;

          square += to_and_fro * to_and_fro + round * round + against * against;
        }
      all.numbers[k] = sqrt (square);
    }
  *sums = all.sums;
}

void
tg_dynamics_uncertainty (const TgEngineLayout *layout,
                         const TgDynamicsCrank *crank,
                         const TgDynamicsMasses *uncertainties,
                         TgDynamicsSums *sums)
{
  Effect effects[TG_ENGINE_LAYOUT_MAX];

  g_return_if_fail (layout && layout->n <= TG_ENGINE_LAYOUT_MAX && crank && uncertainties && sums);
  effects_of (layout, crank, effects);
  combine (effects, layout->n, uncertainties, TRUE, sums);
}

void
tg_dynamics_spread_uncertainty (const TgEngineLayout *layout,
                                const TgDynamicsCrank *crank,
                                const TgDynamicsMasses *uncertainties,
                                TgDynamicsSums *sums)
{
  Effect effects[TG_ENGINE_LAYOUT_MAX];

  g_return_if_fail (layout && layout->n <= TG_ENGINE_LAYOUT_MAX && crank && uncertainties && sums);
  effects_of (layout, crank, effects);
  take_off_mean (effects, layout->n);
  combine (effects, layout->n, uncertainties, FALSE, sums);
}

TgDynamicsVector
tg_dynamics_pair_at (const TgDynamicsPair *pair, TgDynamicsOrder order, double angle_deg)
{
  double turned = order_numbers[order] * RADIANS (angle_deg);

  return vector (number (pair->forward) * towards (turned) +
                 number (pair->backward) * towards (-turned));
}

TgDynamicsEllipse
tg_dynamics_pair_ellipse (const TgDynamicsPair *pair)
{
  double forward = cabs (number (pair->forward));
  double backward = cabs (number (pair->backward));
  double direction = 0;

  /* Forward and backward meet half-way between their places at 0. */
  if (MIN (forward, backward) > 1e-12 * MAX (forward, backward))
    direction = remainder ((carg (number (pair->forward)) + carg (number (pair->backward))) / 2,
                           G_PI);
  if (direction <= -G_PI / 2)
    direction += G_PI;
  return (TgDynamicsEllipse){ forward + backward, fabs (forward - backward),
                              direction * (180 / G_PI) };
}

static double
mean (const double *values, guint n)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += values[i];
  return sum / n;
}

void
tg_dynamics_counterweigh (const TgEngineLayout *layout,
                          double rotating_share,
                          double factor,
                          TgDynamicsMasses *masses)
{
  double each;

  g_return_if_fail (layout && layout->n >= 1 && layout->n <= TG_ENGINE_LAYOUT_MAX && masses);
  each = rotating_share * mean (masses->rotating_kg, layout->n) +
         factor * mean (masses->reciprocating_kg, layout->n);
  for (guint i = 0; i < layout->n; i++)
    masses->counterweight_kg[i] = each;
}

void
tg_dynamics_spread (const TgEngineLayout *layout,
                    const TgDynamicsMasses *masses,
                    TgDynamicsMasses *spread)
{
  double reciprocating, rotating;

  g_return_if_fail (layout && layout->n >= 1 && layout->n <= TG_ENGINE_LAYOUT_MAX && masses &&
                    spread && spread != masses);
  reciprocating = mean (masses->reciprocating_kg, layout->n);
  rotating = mean (masses->rotating_kg, layout->n);
  *spread = (TgDynamicsMasses){ .counterweight_kg = { 0 } };
  for (guint i = 0; i < layout->n; i++)
    {
      spread->reciprocating_kg[i] = masses->reciprocating_kg[i] - reciprocating;
      spread->rotating_kg[i] = masses->rotating_kg[i] - rotating;
    }
}
