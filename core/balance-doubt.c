/* balance-doubt.c: how well forces, couples and unbalances are known, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All loads are linear in the masses, and the uncertain masses are independent, so that the number of
 * any direction has u² = Σ (cᵢ uᵢ)² (JCGM 100:2008, 5.1.2).  A half axis |F| + |B| is not linear.  Where
 * F and B stand well clear of nothing its slope is that along both of them, and ± is k u.  Where one
 * of them is no larger than its doubt it has no direction: then ± is what the errors alone can make,
 * |δF| + |δB|, whose 95 % point is taken from the law of a sum of squares (Box 1954: Σ λ χ²₁ goes about
 * as g χ²ₕ with g = Σλ²/Σλ, h = (Σλ)²/Σλ²).  |F| + |B| is a norm, so the true one can be no further
 * away than that.  From one case to the other it goes in a straight line.
 *
 * The peak of all orders is treated alike, the errors of its orders added up.
 */
#include <complex.h>
#include <math.h>

#include "balance-private.h"
#include "statistics.h"

/* A vector is clear of nothing from the first on, and lost below the second, in its 95 % points. */
#define CLEAR 1.5
#define LOST 1.0
#define NEGLIGIBLE 1e-6

/* The size of a vector of which only the errors are known: their variances along both axes. */
typedef struct
{
  double xx, xy, yy;
} Scatter;

static double complex
number (TgDynamicsVector v)
{
  return v.x + (double complex) I * v.y;
}

void
tg_balance_doubt (const TgBalance *balance,
                  TgBalanceStage stage,
                  TgBalanceShare share,
                  TgBalanceDoubt *doubt)
{
  const TgDynamicsMasses *u = &balance->stages[stage].u;

  doubt->n = 0;
  for (guint k = 0; k < 2 * balance->layout.n; k++)
    {
      guint i = k / 2;
      TgDynamicsMasses one = { .counterweight_kg = { 0 } };

      if (k % 2 == 0)
        one.reciprocating_kg[i] = u->reciprocating_kg[i];
      else
        one.rotating_kg[i] = u->rotating_kg[i];
      if (one.reciprocating_kg[i] > 0 || one.rotating_kg[i] > 0)
        tg_balance_share (balance, &one, share, &doubt->moved[doubt->n++]);
    }
}

static void
scatter_add (Scatter *scatter, double complex z)
{
  scatter->xx += creal (z) * creal (z);
  scatter->xy += creal (z) * cimag (z);
  scatter->yy += cimag (z) * cimag (z);
}

/* The length that vectors of this scatter stay below with TG_REVIEW_LEVEL. */
static double
scatter_reach (const Scatter *scatter)
{
  double sum = scatter->xx + scatter->yy;
  double squares = scatter->xx * scatter->xx + 2 * scatter->xy * scatter->xy +
                   scatter->yy * scatter->yy;

  if (sum <= 0)
    return 0;
  return sqrt (squares / sum * tg_statistics_chi2_quantile (TG_REVIEW_LEVEL, sum * sum / squares));
}

/* 1 for a vector that is lost in its doubt, 0 for one that is clear of it. */
static double
lost (double size, double reach, double together)
{
  if (reach <= NEGLIGIBLE * together)
    return 0;
  return CLAMP ((CLEAR - size / reach) / (CLEAR - LOST), 0, 1);
}

/* A vector of length 1 the other way round, for the part of another along it. */
static double complex
along (double complex z)
{
  double size = cabs (z);

  return size > 0 ? conj (z) / size : 0;
}

/* Where the scatter of the readings is itself only known so well. */
static double
coverage (const TgBalance *balance, TgBalanceStage stage)
{
  return tg_uncertainty_coverage (balance->stages[stage].freedom, TG_REVIEW_LEVEL);
}

static double
widened (const TgBalance *balance, TgBalanceStage stage, double reach)
{
  return reach * coverage (balance, stage) /
         tg_uncertainty_coverage ((double) INFINITY, TG_REVIEW_LEVEL);
}

typedef struct
{
  double u;       /* along the vectors as they are */
  double forward; /* reach of either */
  double backward;
} Axis;

static Axis
axis_of (const TgBalance *balance,
         const TgBalanceDoubt *doubt,
         const TgDynamicsCrank *crank,
         TgBalanceLoad load,
         TgDynamicsOrder order,
         const TgDynamicsPair *pair)
{
  double complex towards[2] = { along (number (pair->forward)), along (number (pair->backward)) };
  Scatter forward = { 0 }, backward = { 0 };
  double square = 0;

  for (guint k = 0; k < doubt->n; k++)
    {
      TgDynamicsSums sums;
      TgDynamicsPair moved;
      double slope;

      tg_dynamics_sums (&balance->layout, crank, &doubt->moved[k], &sums);
      moved = tg_balance_pair_of (&sums, load, order);
      slope = creal (towards[0] * number (moved.forward)) +
              creal (towards[1] * number (moved.backward));
      square += slope * slope;
      scatter_add (&forward, number (moved.forward));
      scatter_add (&backward, number (moved.backward));
    }
  return (Axis){ sqrt (square), scatter_reach (&forward), scatter_reach (&backward) };
}

double
tg_balance_doubt_of_axis (const TgBalance *balance,
                          TgBalanceStage stage,
                          TgBalanceShare share,
                          const TgDynamicsCrank *crank,
                          TgBalanceLoad load,
                          TgDynamicsOrder order,
                          const TgDynamicsPair *pair)
{
  g_autofree TgBalanceDoubt *doubt = g_new (TgBalanceDoubt, 1);
  Axis axis;
  double reach, weight;

  tg_balance_doubt (balance, stage, share, doubt);
  axis = axis_of (balance, doubt, crank, load, order, pair);
  reach = axis.forward + axis.backward;
  weight = MAX (lost (cabs (number (pair->forward)), axis.forward, reach),
                lost (cabs (number (pair->backward)), axis.backward, reach));
  return weight * widened (balance, stage, reach) +
         (1 - weight) * coverage (balance, stage) * axis.u;
}

/* What the errors alone can make, all orders added up. */
static double
reach_of_orders (const TgBalance *balance,
                 const TgBalanceDoubt *doubt,
                 const TgDynamicsCrank *crank,
                 TgBalanceLoad load)
{
  Scatter scatter[TG_DYNAMICS_N_ORDERS][2] = { { { 0 } } };
  double reach = 0;

  for (guint k = 0; k < doubt->n; k++)
    {
      TgDynamicsSums sums;

      tg_dynamics_sums (&balance->layout, crank, &doubt->moved[k], &sums);
      for (guint order = 0; order < TG_DYNAMICS_N_ORDERS; order++)
        {
          TgDynamicsPair moved = tg_balance_pair_of (&sums, load, order);

          scatter_add (&scatter[order][0], number (moved.forward));
          scatter_add (&scatter[order][1], number (moved.backward));
        }
    }
  for (guint order = 0; order < TG_DYNAMICS_N_ORDERS; order++)
    reach += scatter_reach (&scatter[order][0]) + scatter_reach (&scatter[order][1]);
  return reach;
}

double
tg_balance_doubt_of_peak (const TgBalance *balance,
                          TgBalanceStage stage,
                          TgBalanceShare share,
                          const TgDynamicsCrank *crank,
                          TgBalanceLoad load,
                          TgDynamicsVector at_peak,
                          double angle_deg)
{
  g_autofree TgBalanceDoubt *doubt = g_new (TgBalanceDoubt, 1);
  double reach, square = 0, weight;

  tg_balance_doubt (balance, stage, share, doubt);
  reach = reach_of_orders (balance, doubt, crank, load);
  for (guint k = 0; k < doubt->n; k++)
    {
      TgDynamicsVector moved = tg_balance_vector_of (
          tg_dynamics_load (&balance->layout, crank, &doubt->moved[k], angle_deg), load);
      double slope = creal (along (number (at_peak)) * number (moved));

      square += slope * slope;
    }
  weight = lost (cabs (number (at_peak)), reach, reach);
  return weight * widened (balance, stage, reach) +
         (1 - weight) * coverage (balance, stage) * sqrt (square);
}

double
tg_balance_doubt_of_vector (const TgBalance *balance,
                            TgBalanceStage stage,
                            TgDynamicsVector vector,
                            const TgDynamicsVector *moved,
                            guint n)
{
  Scatter scatter = { 0 };
  double square = 0, reach, weight;

  for (guint k = 0; k < n; k++)
    {
      double slope = creal (along (number (vector)) * number (moved[k]));

      square += slope * slope;
      scatter_add (&scatter, number (moved[k]));
    }
  reach = scatter_reach (&scatter);
  weight = lost (cabs (number (vector)), reach, reach);
  return weight * widened (balance, stage, reach) +
         (1 - weight) * coverage (balance, stage) * sqrt (square);
}
