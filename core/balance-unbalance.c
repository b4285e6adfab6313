/* balance-unbalance.c: what the parts' differences leave on the crankshaft, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * On each crankpin count what turns there and the balance factor's share of what goes up and down, less
 * the means: counterweights are made for the means.  A rotor is corrected in two planes; here they lie
 * half a bore spacing beyond the first and the last bore, where the outer counterweights of usual
 * crankshafts are.  ISO 21940-11:2016 gives the permissible residual unbalance of the whole rotor, of
 * which each plane of a symmetric one gets half; it speaks of rotors and not of rods and pistons.
 */
#include <math.h>

#include "balance-private.h"

/* Vectors of one set of masses. */
typedef struct
{
  TgDynamicsVector resultant;
  TgDynamicsVector planes[2];
  double pins[TG_ENGINE_LAYOUT_MAX];
} Left;

/* Half a bore spacing; half the mean distance of the crankpins of a layout that has none. */
static double
half_spacing_mm (const TgBalance *balance, const TgSetup *setup, double first, double last)
{
  if (balance->kind != TG_ENGINE_FREE && setup->engine.spacing_mm > 0)
    return setup->engine.spacing_mm / 2;
  return (last - first) / (2 * (balance->layout.n_pins - 1));
}

gboolean
tg_balance_planes (const TgBalance *balance, const TgSetup *setup, double planes_mm[2])
{
  double first = G_MAXDOUBLE, last = -G_MAXDOUBLE, half;

  if (!balance->has_couples || balance->layout.n_pins < 2)
    return FALSE;
  for (guint i = 0; i < balance->layout.n; i++)
    {
      first = MIN (first, balance->layout.cylinders[i].position_mm);
      last = MAX (last, balance->layout.cylinders[i].position_mm);
    }
  half = half_spacing_mm (balance, setup, first, last);
  planes_mm[0] = first - half;
  planes_mm[1] = last + half;
  return planes_mm[1] > planes_mm[0];
}

double
tg_balance_plane_share (const double planes_mm[2], guint plane, double position_mm)
{
  double second = (position_mm - planes_mm[0]) / (planes_mm[1] - planes_mm[0]);

  return plane == 1 ? second : 1 - second;
}

static void
leave (const TgBalance *balance, const double *planes_mm, const TgDynamicsMasses *part, Left *left)
{
  *left = (Left){ 0 };
  left->resultant = tg_dynamics_pins (&balance->layout, balance->crank.radius_mm, part,
                                      balance->factor, left->pins);
  for (guint i = 0; i < balance->layout.n && planes_mm; i++)
    {
      const TgEngineCylinder *cylinder = &balance->layout.cylinders[i];
      double angle = cylinder->throw_deg * (G_PI / 180);
      double moment = 1000 * balance->crank.radius_mm *
                      (part->rotating_kg[i] + balance->factor * part->reciprocating_kg[i]);

      for (guint p = 0; p < 2; p++)
        {
          double share = tg_balance_plane_share (planes_mm, p, cylinder->position_mm);

          left->planes[p].x += share * moment * cos (angle);
          left->planes[p].y += share * moment * sin (angle);
        }
    }
}

static double
length (TgDynamicsVector v)
{
  return hypot (v.x, v.y);
}

/* What is no more than rounding is nothing. */
static double
clean (const TgBalance *balance, double g_mm)
{
  return fabs (g_mm) < 1e6 * TG_BALANCE_TINY_KG * balance->crank.radius_mm ? 0 : g_mm;
}

static void
find_doubts (const TgBalance *balance,
             TgBalanceStage stage,
             const double *planes_mm,
             const Left *left,
             TgBalanceUnbalance *unbalance)
{
  g_autofree TgBalanceDoubt *doubt = g_new (TgBalanceDoubt, 1);
  g_autofree TgDynamicsVector *moved = NULL;
  double coverage = tg_uncertainty_coverage (balance->stages[stage].freedom, TG_REVIEW_LEVEL);
  guint n;

  tg_balance_doubt (balance, stage, TG_BALANCE_SPREAD, doubt);
  n = doubt->n;
  moved = g_new (TgDynamicsVector, 3 * n + 1);
  for (guint k = 0; k < n; k++)
    {
      Left one;

      leave (balance, planes_mm, &doubt->moved[k], &one);
      moved[k] = one.resultant;
      moved[n + k] = one.planes[0];
      moved[2 * n + k] = one.planes[1];
      for (guint pin = 0; pin < unbalance->n_pins; pin++)
        unbalance->pins[pin].expanded = hypot (unbalance->pins[pin].expanded,
                                               coverage * one.pins[pin]);
    }
  unbalance->resultant_expanded = tg_balance_doubt_of_vector (balance, stage, left->resultant,
                                                              moved, n);
  for (guint p = 0; p < 2 && planes_mm; p++)
    unbalance->planes_expanded[p] = tg_balance_doubt_of_vector (balance, stage, left->planes[p],
                                                                moved + (p + 1) * n, n);
}

TgBalanceResultant
tg_balance_resultant (const TgBalance *balance, TgBalanceStage stage)
{
  TgBalanceUnbalance of = { 0 };
  TgDynamicsMasses part;
  Left left;

  tg_balance_share_of_stage (balance, stage, TG_BALANCE_SPREAD, &part);
  leave (balance, NULL, &part, &left);
  find_doubts (balance, stage, NULL, &left, &of);
  return (TgBalanceResultant){ clean (balance, length (left.resultant)), of.resultant_expanded };
}

static void
grade (const TgBalance *balance, const TgSetup *setup, TgBalanceUnbalance *unbalance)
{
  double kg = setup->engine.crank_kg, rpm = balance->speed_rpm;
  double whole = unbalance->resultant_g_mm;

  if (unbalance->has_planes)
    whole = 2 * MAX (unbalance->planes_g_mm[0], unbalance->planes_g_mm[1]);
  if (kg <= 0 || rpm <= 0)
    return;
  unbalance->permissible_g_mm = tg_dynamics_permissible_unbalance (setup->engine.grade, kg, rpm);
  unbalance->grade = tg_dynamics_grade (whole, kg, rpm);
  unbalance->listed_grade = tg_dynamics_listed_grade (unbalance->grade);
}

gboolean
tg_balance_unbalance (const TgBalance *balance,
                      const TgSetup *setup,
                      TgBalanceStage stage,
                      TgBalanceUnbalance *unbalance)
{
  TgBalanceUnbalance result = { 0 };
  TgDynamicsMasses part;
  double planes_mm[2];
  Left left;

  g_return_val_if_fail (balance && setup && unbalance, FALSE);
  if (!tg_balance_is_known (balance, stage))
    return FALSE;
  result.n_pins = balance->layout.n_pins;
  result.has_planes = tg_balance_planes (balance, setup, planes_mm);
  tg_balance_share_of_stage (balance, stage, TG_BALANCE_SPREAD, &part);
  leave (balance, result.has_planes ? planes_mm : NULL, &part, &left);
  for (guint pin = 0; pin < result.n_pins; pin++)
    result.pins[pin].g_mm = clean (balance, left.pins[pin]);
  result.resultant_g_mm = clean (balance, length (left.resultant));
  for (guint p = 0; p < 2 && result.has_planes; p++)
    result.planes_g_mm[p] = clean (balance, length (left.planes[p]));
  find_doubts (balance, stage, result.has_planes ? planes_mm : NULL, &left, &result);
  grade (balance, setup, &result);
  *unbalance = result;
  return TRUE;
}
