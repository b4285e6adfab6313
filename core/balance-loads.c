/* balance-loads.c: forces and couples of a job's masses, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Single orders come from tg_dynamics_sums(), all together from the exact motion, tg_dynamics_load().
 * The peak is looked for in steps of one degree of crank and then closed in on by golden sections; the
 * sixth order, the fastest that is worth a newton, has 60° to a turn.
 */
#include <math.h>

#include "balance-private.h"

#define N_STEPS 360
#define N_POINTS (N_STEPS + 1)
/* Below this share of the forces that cancel out each other a sum is rounding. */
#define TINY_SHARE 1e-11

static double
size_of (const TgDynamicsMasses *part, guint n)
{
  double size = 0;

  for (guint i = 0; i < n; i++)
    size += fabs (part->reciprocating_kg[i]) + fabs (part->rotating_kg[i]) +
            fabs (part->counterweight_kg[i]);
  return size;
}

/* What is no more than rounding of forces that cancel. */
static double
rounding_of (const TgBalance *balance,
             const TgDynamicsMasses *part,
             const TgDynamicsCrank *crank,
             TgBalanceLoad load)
{
  double speed = crank->speed_rpm * G_PI / 30;
  double force = size_of (part, balance->layout.n) * crank->radius_mm / 1000 * speed * speed;
  double arm_mm = 0;

  for (guint i = 0; i < balance->layout.n && load == TG_BALANCE_COUPLE; i++)
    arm_mm = MAX (arm_mm, fabs (balance->layout.cylinders[i].position_mm));
  return TINY_SHARE * force * (load == TG_BALANCE_COUPLE ? arm_mm / 1000 : 1);
}

static gboolean
may_ask (const TgBalance *balance, TgBalanceStage stage, double speed_rpm)
{
  return balance && (guint) stage < TG_BALANCE_N_STAGES && speed_rpm > 0 &&
         tg_balance_is_known (balance, stage);
}

TgBalanceFigure
tg_balance_figure (const TgBalance *balance,
                   TgBalanceStage stage,
                   TgBalanceShare share,
                   TgBalanceLoad load,
                   TgDynamicsOrder order,
                   double speed_rpm)
{
  TgDynamicsCrank crank;
  TgDynamicsMasses part;
  TgDynamicsSums sums;
  TgDynamicsPair pair;
  TgDynamicsEllipse ellipse;
  TgBalanceFigure figure;

  g_return_val_if_fail (may_ask (balance, stage, speed_rpm), ((TgBalanceFigure){ 0 }));
  crank = tg_balance_crank (balance, speed_rpm);
  tg_balance_share_of_stage (balance, stage, share, &part);
  tg_dynamics_sums (&balance->layout, &crank, &part, &sums);
  pair = tg_balance_pair_of (&sums, load, order);
  ellipse = tg_dynamics_pair_ellipse (&pair);
  figure = (TgBalanceFigure){ ellipse.largest, ellipse.smallest, ellipse.direction_deg, 0 };
  if (figure.largest <= rounding_of (balance, &part, &crank, load))
    figure = (TgBalanceFigure){ 0 };
  else if (figure.smallest <= rounding_of (balance, &part, &crank, load))
    figure.smallest = 0;
  if (share != TG_BALANCE_OWN)
    figure.expanded = tg_balance_doubt_of_axis (balance, stage, share, &crank, load, order, &pair);
  return figure;
}

static double
length (TgDynamicsVector v)
{
  return hypot (v.x, v.y);
}

static TgDynamicsVector
vector_at (const TgBalance *balance,
           const TgDynamicsMasses *part,
           const TgDynamicsCrank *crank,
           TgBalanceLoad load,
           double angle_deg)
{
  return tg_balance_vector_of (tg_dynamics_load (&balance->layout, crank, part, angle_deg), load);
}

TgDynamicsVector
tg_balance_find_peak (const TgBalance *balance,
                      const TgDynamicsMasses *part,
                      const TgDynamicsCrank *crank,
                      TgBalanceLoad load,
                      double *angle_deg)
{
  const double golden = (sqrt (5) - 1) / 2;
  double best = 0, largest = -1, low, high;

  for (guint k = 0; k < N_STEPS; k++)
    {
      double size = length (vector_at (balance, part, crank, load, k));

      if (size > largest)
        {
          largest = size;
          best = k;
        }
    }
  low = best - 1;
  high = best + 1;
  while (high - low > 1e-7)
    {
      double left = high - golden * (high - low), right = low + golden * (high - low);

      if (length (vector_at (balance, part, crank, load, left)) >
          length (vector_at (balance, part, crank, load, right)))
        high = right;
      else
        low = left;
    }
  *angle_deg = (low + high) / 2;
  return vector_at (balance, part, crank, load, *angle_deg);
}

/* The ± of the order that does most. */
static double
doubt_of_largest (const TgBalance *balance,
                  TgBalanceStage stage,
                  TgBalanceShare share,
                  TgBalanceLoad load,
                  double speed_rpm)
{
  TgBalanceFigure most = { 0 };

  for (guint order = 0; order < TG_DYNAMICS_N_ORDERS; order++)
    {
      TgBalanceFigure figure = tg_balance_figure (balance, stage, share, load,
                                                  (TgDynamicsOrder) order, speed_rpm);

      if (figure.largest > most.largest)
        most = figure;
    }
  return most.expanded;
}

TgBalanceFigure
tg_balance_peak (const TgBalance *balance,
                 TgBalanceStage stage,
                 TgBalanceShare share,
                 TgBalanceLoad load,
                 double speed_rpm)
{
  TgDynamicsCrank crank;
  TgDynamicsMasses part;
  TgDynamicsVector peak;
  TgBalanceFigure figure = { 0 };
  double angle_deg;

  g_return_val_if_fail (may_ask (balance, stage, speed_rpm), figure);
  crank = tg_balance_crank (balance, speed_rpm);
  tg_balance_share_of_stage (balance, stage, share, &part);
  peak = tg_balance_find_peak (balance, &part, &crank, load, &angle_deg);
  if (length (peak) > rounding_of (balance, &part, &crank, load))
    figure.largest = length (peak);
  if (share == TG_BALANCE_OWN)
    return figure;
  /* all orders together are no better known than the largest of them */
  figure.expanded = MAX (
      tg_balance_doubt_of_peak (balance, stage, share, &crank, load, peak, angle_deg),
      doubt_of_largest (balance, stage, share, load, speed_rpm));
  return figure;
}

/* -- the worst pair ------------------------------------------------------------------------------ */

TgBalancePair
tg_balance_worst_pair (const TgBalance *balance,
                       TgBalanceStage stage,
                       gboolean reciprocating,
                       double speed_rpm)
{
  TgBalancePair pair = { 0 };
  const TgBalanceMasses *masses;
  const double *kg, *u;
  double speed = speed_rpm * G_PI / 30, per_kg, lambda;
  guint heavy = 0, light = 0;

  g_return_val_if_fail (may_ask (balance, stage, speed_rpm), pair);
  masses = &balance->stages[stage];
  kg = reciprocating ? masses->masses.reciprocating_kg : masses->masses.rotating_kg;
  u = reciprocating ? masses->u.reciprocating_kg : masses->u.rotating_kg;
  for (guint i = 1; i < balance->layout.n; i++)
    {
      heavy = kg[i] > kg[heavy] ? i : heavy;
      light = kg[i] < kg[light] ? i : light;
    }
  if (heavy == light)
    light = balance->layout.n > 1 ? 1 : 0;
  lambda = balance->crank.radius_mm / balance->crank.rod_mm;
  per_kg = balance->crank.radius_mm / 1000 * speed * speed * (reciprocating ? 1 + lambda : 1);
  pair.a = heavy + 1;
  pair.b = light + 1;
  if (kg[heavy] - kg[light] >= TG_BALANCE_TINY_KG)
    pair.difference_g = 1000 * (kg[heavy] - kg[light]);
  pair.force = per_kg * pair.difference_g / 1000;
  if (heavy != light)
    pair.expanded = per_kg * hypot (u[heavy], u[light]) *
                    tg_uncertainty_coverage (masses->freedom, TG_REVIEW_LEVEL);
  return pair;
}

/* -- curves -------------------------------------------------------------------------------------- */

static TgBalanceCurve *
curve_new (guint n)
{
  TgBalanceCurve *curve = g_new (TgBalanceCurve, 1);

  curve->n = n;
  curve->x = g_new0 (double, n);
  curve->y = g_new0 (double, n);
  return curve;
}

void
tg_balance_curve_free (TgBalanceCurve *curve)
{
  g_free (curve->x);
  g_free (curve->y);
  g_free (curve);
}

TgBalanceCurve *
tg_balance_locus (const TgBalance *balance,
                  TgBalanceStage stage,
                  TgBalanceShare share,
                  TgBalanceLoad load,
                  double speed_rpm)
{
  TgBalanceCurve *curve = curve_new (N_POINTS);
  TgDynamicsCrank crank;
  TgDynamicsMasses part;
  double tiny;

  g_return_val_if_fail (may_ask (balance, stage, speed_rpm), curve);
  crank = tg_balance_crank (balance, speed_rpm);
  tg_balance_share_of_stage (balance, stage, share, &part);
  tiny = rounding_of (balance, &part, &crank, load);
  for (guint k = 0; k < N_POINTS; k++)
    {
      TgDynamicsVector v = vector_at (balance, &part, &crank, load, k % N_STEPS);

      curve->x[k] = fabs (v.y) > tiny ? v.y : 0;
      curve->y[k] = fabs (v.x) > tiny ? v.x : 0;
    }
  return curve;
}

TgBalanceCurve *
tg_balance_over_angle (const TgBalance *balance,
                       TgBalanceStage stage,
                       TgBalanceShare share,
                       TgBalanceLoad load,
                       gboolean across,
                       double speed_rpm)
{
  TgBalanceCurve *curve = tg_balance_locus (balance, stage, share, load, speed_rpm);

  if (across)
    {
      double *aside = curve->y;

      curve->y = curve->x;
      curve->x = aside;
    }
  for (guint k = 0; k < curve->n; k++)
    curve->x[k] = k * 360.0 / N_STEPS;
  return curve;
}

TgBalanceCurve *
tg_balance_over_speed (const TgBalance *balance,
                       TgBalanceStage stage,
                       TgBalanceShare share,
                       TgBalanceLoad load,
                       double most_rpm)
{
  const guint n = 101;
  TgBalanceCurve *curve = curve_new (n);
  TgDynamicsCrank crank;
  TgDynamicsMasses part;
  double angle_deg, most;

  g_return_val_if_fail (may_ask (balance, stage, most_rpm), curve);
  crank = tg_balance_crank (balance, most_rpm);
  tg_balance_share_of_stage (balance, stage, share, &part);
  most = length (tg_balance_find_peak (balance, &part, &crank, load, &angle_deg));
  if (most <= rounding_of (balance, &part, &crank, load))
    most = 0;
  /* forces go with the square of the speed */
  for (guint k = 0; k < n; k++)
    {
      double portion = k / (n - 1.0);

      curve->x[k] = portion * most_rpm;
      curve->y[k] = portion * portion * most;
    }
  return curve;
}
