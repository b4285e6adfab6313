/* rounding.c: what the step of a display does to repeated readings, see rounding.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bounded distribution is integrated with Gauss and Legendre's rule over the half from 0 to its
 * end, which it is smooth on, in four panels where the other one is narrow; the limit that holds the
 * level is found by false position.
 *
 * Not here: a display that rounds down, or that filters what it shows.
 */
#include "rounding.h"

#include <math.h>

#include "statistics.h"

double
tg_rounding_lasting_variance (double sigma, double step)
{
  double ratio = sigma / step, sum = 0;

  g_return_val_if_fail (sigma >= 0 && step > 0, 0);

  if (ratio < 0.02) /* the series is slow here: its first two terms in σ, from Poisson's formula */
    return step * step * (1 / 12.0 - ratio / sqrt (G_PI) + ratio * ratio);
  for (guint k = 1; k <= 200; k++)
    {
      double term = exp (-4 * G_PI * G_PI * k * k * ratio * ratio) / (k * k);

      sum += term;
      if (term < 1e-12)
        break;
    }
  return step * step * sum / (2 * G_PI * G_PI);
}

double
tg_rounding_sigma (double deviation, double step)
{
  double low = 0, high = deviation;

  g_return_val_if_fail (deviation >= 0 && step > 0, 0);

  for (guint i = 0; i < 60 && high - low > 1e-12 * step; i++)
    {
      double sigma = (low + high) / 2;
      double shown = sigma * sigma + step * step / 12 - tg_rounding_lasting_variance (sigma, step);

      if (shown < deviation * deviation)
        low = sigma;
      else
        high = sigma;
    }
  return (low + high) / 2;
}

/* Gauss and Legendre, 8 points on (0, 1): nodes and weights from the roots of P₈. */
static const double nodes[] = { 0.0198550717512319, 0.1016667612931866, 0.2372337950418355,
                                0.4082826787521751, 0.5917173212478249, 0.7627662049581645,
                                0.8983332387068134, 0.9801449282487681 };
static const double weights[] = { 0.0506142681451881, 0.1111905172266872, 0.1568533229389437,
                                  0.1813418916891810, 0.1813418916891810, 0.1568533229389437,
                                  0.1111905172266872, 0.0506142681451881 };

typedef struct
{
  TgUncertainty random;
  double half_width;
  guint displays;
  guint panels;
} Sum;

/* The chance that the sum of both errors lies outside ± @limit. */
static double
outside (const Sum *sum, double limit)
{
  double total = 0;

  for (guint i = 0; i < sum->panels * G_N_ELEMENTS (nodes); i++)
    {
      guint panel = i / G_N_ELEMENTS (nodes), node = i % G_N_ELEMENTS (nodes);
      double x = (panel + nodes[node]) / sum->panels;
      double density = sum->displays == 1 ? 1 : 2 * (1 - x);
      double shift = x * sum->half_width;
      double above = tg_statistics_t_cdf ((shift - limit) / sum->random.u, sum->random.freedom);
      double below = tg_statistics_t_cdf (-(shift + limit) / sum->random.u, sum->random.freedom);

      total += weights[node] / sum->panels * density * (above + below);
    }
  return total;
}

/* Where rounding alone holds the level. */
static double
rounding_alone (const Sum *sum, double level)
{
  return sum->half_width * (sum->displays == 1 ? level : 1 - sqrt (1 - level));
}

double
tg_rounding_expanded (TgUncertainty random, double rounding_u, guint displays, double level)
{
  Sum sum = { random, rounding_u * (displays == 1 ? sqrt (3) : sqrt (6)), displays,
              random.u < 0.3 * rounding_u ? 4 : 1 };
  TgUncertainty both = { hypot (random.u, rounding_u), random.freedom };
  double low, high, at_low, at_high;

  g_return_val_if_fail (random.u >= 0 && rounding_u >= 0 && level > 0 && level < 1, 0);

  sum.random.freedom = MAX (1, floor (random.freedom * (1 + 1e-12)));
  if (rounding_u < 0.1 * random.u)
    return tg_uncertainty_expanded (both, level);
  /* so narrow that the rule's points would miss it */
  if (random.u < 0.02 * rounding_u)
    return hypot (rounding_alone (&sum, level), tg_uncertainty_expanded (random, level));
  low = 0;
  at_low = 1 - (1 - level);
  high = sum.half_width + tg_uncertainty_expanded (random, level);
  at_high = outside (&sum, high) - (1 - level);
  for (guint i = 0; i < 40 && high - low > 1e-4 * both.u; i++)
    {
      double x = i % 3 == 2 ? (low + high) / 2
                            : (low * at_high - high * at_low) / (at_high - at_low);
      double at = outside (&sum, x) - (1 - level);

      if (at > 0)
        {
          low = x;
          at_low = at;
        }
      else
        {
          high = x;
          at_high = at;
        }
    }
  return (low + high) / 2;
}
