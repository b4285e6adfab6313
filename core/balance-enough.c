/* balance-enough.c: how even is even enough, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Masses d₁ … dₙ somewhere in a band of width T add the load f = Σ dᵢ cᵢ, cᵢ what one gram at bore i does
 * less the mean of that over the bores: a common change of all masses belongs to the layout's own.  At
 * one crank angle the f that such masses can make fill a zonotope, the sum of n lines.  Its farthest
 * corner has every part at one of the two ends of its band, as a direction tells, and those change only
 * where the direction stands at right angles to one of the cᵢ: n directions give every corner.  The
 * crank angle is looked for in steps of one degree and closed in on.  What turns needs no search for
 * the angle.
 *
 * Loads of several figures add up to no more than the sum of their largest, so that figures which
 * share an allowance evenly keep it together (it would be overdone, not underdone, if they partly
 * cancel).
 */
#include <math.h>

#include "balance-private.h"

#define N_STEPS 360

typedef struct
{
  guint n;
  TgDynamicsVector c[TG_ENGINE_LAYOUT_MAX];
} Lines;

static double
length (TgDynamicsVector v)
{
  return hypot (v.x, v.y);
}

/* A share of a length that is rounding. */
#define UPRIGHT 1e-12

/* The longer of both corners that meet where the direction stands at right angles to @across: all lines
 * along it change ends there together.  The lines sum up to nothing, so that a corner, which takes the
 * masses as 0 or 1, is half of the sum that takes them as −1 or 1. */
static double
corner (const Lines *lines, TgDynamicsVector across)
{
  TgDynamicsVector rest = { 0, 0 }, turning = { 0, 0 };

  for (guint i = 0; i < lines->n; i++)
    {
      TgDynamicsVector c = lines->c[i];
      double side = c.y * across.x - c.x * across.y;
      gboolean turns = fabs (side) <= UPRIGHT * length (c) * length (across);
      TgDynamicsVector *sum = turns ? &turning : &rest;
      double sign = (turns ? c.x * across.x + c.y * across.y : side) < 0 ? -1 : 1;

      sum->x += sign * c.x;
      sum->y += sign * c.y;
    }
  return MAX (hypot (rest.x + turning.x, rest.y + turning.y),
              hypot (rest.x - turning.x, rest.y - turning.y)) /
         2;
}

static double
farthest_corner (const Lines *lines)
{
  double most = 0;

  for (guint i = 0; i < lines->n; i++)
    if (length (lines->c[i]) > 0)
      most = MAX (most, corner (lines, lines->c[i]));
  return most;
}

/* Less what a common change does; what is left of lines that are all the same is rounding. */
static void
centre (Lines *lines)
{
  TgDynamicsVector mean = { 0, 0 };
  double longest = 0;

  for (guint i = 0; i < lines->n; i++)
    {
      mean.x += lines->c[i].x / lines->n;
      mean.y += lines->c[i].y / lines->n;
      longest = MAX (longest, length (lines->c[i]));
    }
  for (guint i = 0; i < lines->n; i++)
    {
      lines->c[i].x -= mean.x;
      lines->c[i].y -= mean.y;
      if (length (lines->c[i]) <= UPRIGHT * longest)
        lines->c[i] = (TgDynamicsVector){ 0, 0 };
    }
}

static double
worst_at (const TgBalance *balance,
          const TgDynamicsCrank *crank,
          gboolean reciprocating,
          TgBalanceLoad load,
          double angle_deg)
{
  Lines lines = { .n = balance->layout.n };

  for (guint i = 0; i < lines.n; i++)
    {
      TgDynamicsMasses gram = { .counterweight_kg = { 0 } };

      (reciprocating ? gram.reciprocating_kg : gram.rotating_kg)[i] = 1e-3;
      lines.c[i] = tg_balance_vector_of (
          tg_dynamics_load (&balance->layout, crank, &gram, angle_deg), load);
    }
  centre (&lines);
  return farthest_corner (&lines);
}

double
tg_balance_worst_load (const TgBalance *balance,
                       gboolean reciprocating,
                       TgBalanceLoad load,
                       double speed_rpm)
{
  const double golden = (sqrt (5) - 1) / 2;
  TgDynamicsCrank crank = tg_balance_crank (balance, speed_rpm);
  double most = 0, best = 0, low, high;

  if (!reciprocating)
    return worst_at (balance, &crank, FALSE, load, 0);
  for (guint k = 0; k < N_STEPS; k++)
    {
      double worst = worst_at (balance, &crank, TRUE, load, k);

      if (worst > most)
        {
          most = worst;
          best = k;
        }
    }
  low = best - 1;
  high = best + 1;
  while (high - low > 1e-5)
    {
      double left = high - golden * (high - low), right = low + golden * (high - low);
      double at_left = worst_at (balance, &crank, TRUE, load, left);
      double at_right = worst_at (balance, &crank, TRUE, load, right);

      most = MAX (most, MAX (at_left, at_right));
      if (at_left > at_right)
        high = right;
      else
        low = left;
    }
  return most;
}

/* -- what is shared ------------------------------------------------------------------------------ */

/* Whether the figures of @band add to those of the others; else they are in the sum of the pistons. */
static gboolean
adds_up (const TgSetup *setup, TgBand band)
{
  if (band == TG_BAND_PISTON_ALONE)
    return FALSE;
  return band != TG_BAND_ROD_SMALL || !tg_setup_in_sum (setup, TG_PART_ROD);
}

/* @worst_g: what one gram of spread does at worst, of what turns and of what goes up and down; each
 * tolerance is lowered to what keeps @whole. */
static void
share_out (const TgSetup *setup,
           const TgBalanceLimit *whole,
           const double worst_g[2],
           double *tolerance_g,
           TgBalanceLimit *kept)
{
  guint n = 0;

  for (guint b = 0; b < TG_N_BANDS; b++)
    n += tg_setup_has_band (setup, b) && adds_up (setup, b) && worst_g[b != TG_BAND_ROD_BIG] > 0;
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      double worst = worst_g[b != TG_BAND_ROD_BIG];

      if (!tg_setup_has_band (setup, b) || worst <= 0)
        continue;
      if (tolerance_g[b] > 0 && whole->limit / (n * worst) >= tolerance_g[b])
        continue;
      tolerance_g[b] = whole->limit / (n * worst);
      kept[b] = (TgBalanceLimit){ whole->limit, n, worst, whole->unit };
    }
}

/* -- what is compared with ----------------------------------------------------------------------- */

double
tg_balance_force_of_one (const TgBalance *balance, double speed_rpm)
{
  const double *kg = balance->stages[TG_BALANCE_NOW].masses.reciprocating_kg;
  double speed = speed_rpm * G_PI / 30, mean_kg = 0;

  for (guint i = 0; i < balance->layout.n; i++)
    mean_kg += kg[i] / balance->layout.n;
  return mean_kg * balance->crank.radius_mm / 1000 * speed * speed *
         (1 + balance->crank.radius_mm / balance->crank.rod_mm);
}

/* One bore spacing, or the least distance between two bores where none was said. */
static double
spacing_mm (const TgBalance *balance, const TgSetup *setup)
{
  double least = G_MAXDOUBLE;

  if (balance->kind != TG_ENGINE_FREE && setup->engine.spacing_mm > 0)
    return setup->engine.spacing_mm;
  for (guint i = 0; i < balance->layout.n; i++)
    for (guint j = 0; j < i; j++)
      {
        double apart = fabs (balance->layout.cylinders[i].position_mm -
                             balance->layout.cylinders[j].position_mm);

        least = apart > 1e-6 ? MIN (least, apart) : least;
      }
  return least < G_MAXDOUBLE ? least : 0;
}

static void
compare (TgBalanceEnough *enough, const TgBalance *balance, const TgSetup *setup, double speed_rpm)
{
  double share = setup->engine.share_percent / 100,
         one = tg_balance_force_of_one (balance, speed_rpm);
  double couple_of_one = one * spacing_mm (balance, setup) / 1000;

  enough->force_of = tg_balance_peak (balance, TG_BALANCE_NOW, TG_BALANCE_OWN, TG_BALANCE_FORCE,
                                      speed_rpm)
                         .largest;
  enough->by_force = enough->force_of >= TG_BALANCE_OWN_SHARE * one;
  enough->of_one_piston = !enough->by_force;
  if (enough->of_one_piston)
    enough->force_of = one;
  enough->force = share * enough->force_of;
  enough->has_couple = balance->has_couples && couple_of_one > 0;
  if (!enough->has_couple)
    return;
  enough->couple_of = tg_balance_peak (balance, TG_BALANCE_NOW, TG_BALANCE_OWN, TG_BALANCE_COUPLE,
                                       speed_rpm)
                          .largest;
  enough->couple_of_one_piston = enough->couple_of < TG_BALANCE_OWN_SHARE * couple_of_one;
  if (enough->couple_of_one_piston)
    enough->couple_of = couple_of_one;
  enough->couple = share * enough->couple_of;
}

static void
keep_loads (TgBalanceEnough *enough,
            const TgBalance *balance,
            const TgSetup *setup,
            double speed_rpm)
{
  const TgBalanceLimit force = { enough->force, 0, 0, "N" };
  const TgBalanceLimit couple = { enough->couple, 0, 0, "N·m" };
  double by_force[TG_N_BANDS], worst_g[2];

  for (guint r = 0; r < 2; r++)
    worst_g[r] = tg_balance_worst_load (balance, r == 1, TG_BALANCE_FORCE, speed_rpm);
  share_out (setup, &force, worst_g, enough->tolerance_g, enough->kept);
  if (!enough->has_couple)
    return;
  for (guint b = 0; b < TG_N_BANDS; b++)
    by_force[b] = enough->tolerance_g[b];
  for (guint r = 0; r < 2; r++)
    worst_g[r] = tg_balance_worst_load (balance, r == 1, TG_BALANCE_COUPLE, speed_rpm);
  share_out (setup, &couple, worst_g, enough->tolerance_g, enough->kept);
  for (guint b = 0; b < TG_N_BANDS; b++)
    enough->by_couple |= enough->tolerance_g[b] < by_force[b];
}

/* What one gram of spread leaves at worst: of the resultant, or in a plane. */
static double
worst_unbalance (const TgBalance *balance, const double *planes_mm, guint plane)
{
  Lines lines = { .n = balance->layout.n };

  for (guint i = 0; i < lines.n; i++)
    {
      const TgEngineCylinder *cylinder = &balance->layout.cylinders[i];
      double angle = cylinder->throw_deg * (G_PI / 180), r = balance->crank.radius_mm;
      double share = planes_mm ? tg_balance_plane_share (planes_mm, plane, cylinder->position_mm)
                               : 1;

      lines.c[i] = (TgDynamicsVector){ r * share * cos (angle), r * share * sin (angle) };
    }
  centre (&lines);
  return farthest_corner (&lines);
}

static void
keep_grade (TgBalanceEnough *enough, const TgBalance *balance, const TgSetup *setup)
{
  double kg = setup->engine.crank_kg, planes_mm[2], whole;
  TgBalanceLimit permissible = { 0, 0, 0, "g·mm" }, half;

  enough->by_grade = kg > 0 && balance->speed_rpm > 0;
  if (!enough->by_grade)
    return;
  permissible.limit = tg_dynamics_permissible_unbalance (setup->engine.grade, kg,
                                                         balance->speed_rpm);
  whole = worst_unbalance (balance, NULL, 0);
  share_out (setup, &permissible, (double[]){ whole, balance->factor * whole },
             enough->grade_tolerance_g, enough->grade_kept);
  if (!tg_balance_planes (balance, setup, planes_mm))
    return;
  half = permissible;
  half.limit /= 2;
  for (guint p = 0; p < 2; p++)
    {
      double worst = worst_unbalance (balance, planes_mm, p);

      share_out (setup, &half, (double[]){ worst, balance->factor * worst },
                 enough->grade_tolerance_g, enough->grade_kept);
    }
}

TgBalanceEnough *
tg_balance_enough (const TgBalance *balance, const TgReview *review, double speed_rpm)
{
  TgBalanceEnough *enough = g_new0 (TgBalanceEnough, 1);

  g_return_val_if_fail (balance && review && speed_rpm > 0, enough);

  if (tg_balance_is_known (balance, TG_BALANCE_NOW))
    {
      compare (enough, balance, review->setup, speed_rpm);
      keep_loads (enough, balance, review->setup, speed_rpm);
      keep_grade (enough, balance, review->setup);
    }
  enough->words = tg_balance_enough_words (balance, review, enough, speed_rpm);
  return enough;
}

void
tg_balance_enough_free (TgBalanceEnough *enough)
{
  g_free (enough->words);
  g_free (enough);
}
