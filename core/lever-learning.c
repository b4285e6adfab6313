/* lever-learning.c: what the passes of a job teach, see lever-learning.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lever arm.  Pass i took an unknown mᵢ; the ends fell by S = λ m and B = (1−λ) m, each read with an
 * error, variances a and b.  For a given λ the best m leaves the residual
 *   ρ = (S (1−λ) − B λ) / √v,   v = (1−λ)² a + λ² b,
 * and its derivative is −m̂/√v with m̂ = (λ b S + (1−λ) a B)/v, the best m itself.  So Gauss-Newton
 * steps need nothing more, and the information on λ is Σ m²/v.  There m̂² would count noise as metal:
 * its expected excess a b/v is taken off.
 *
 * Method.  A pass takes asked × k, ln k normal.  Factors suit a tool: twice the time, twice the
 * scatter in grams; and nothing is ever put on.
 *
 * Not here: a wheel that loads up or a belt that dulls (a ratio that changes with time), a lever arm that moves as the zone is worked deeper.
 */
#include "lever-learning.h"

#include <math.h>

#include "statistics.h"

/* Below this many of its own uncertainties a pass shows the noise of weighing, not the method. */
#define TELLING 2
/* What is expected of a hand that has not been seen at work. */
#define UNLEARNED_SCATTER 0.20
/* A value that is further off than so many scatters is taken for a slip and counts as that far. */
#define SLIP 4
/* No hand is steadier. */
#define STEADY 0.02

/* Of one pair at @lever: the residual, the best amount, and the variance v. */
typedef struct
{
  double residual;
  double amount;
  double variance;
} Fit;

static Fit
fit_pair (const TgLeverLearningPair *pair, double lever)
{
  double a = pair->small_u_g * pair->small_u_g, b = pair->big_u_g * pair->big_u_g;
  double rest = 1 - lever, v = rest * rest * a + lever * lever * b;

  return (Fit){
    .residual = (pair->small_g * rest - pair->big_g * lever) / sqrt (v),
    .amount = (lever * b * pair->small_g + rest * a * pair->big_g) / v,
    .variance = v,
  };
}

static double
sum_of_squares (
    const TgLeverLearningPair *pairs, gsize n, double drawn, double drawn_u, double lever)
{
  double off = (lever - drawn) / drawn_u, sum = off * off;

  for (gsize i = 0; i < n; i++)
    {
      double residual = fit_pair (&pairs[i], lever).residual;

      sum += residual * residual;
    }
  return sum;
}

static double
gauss_newton_step (
    const TgLeverLearningPair *pairs, gsize n, double drawn, double drawn_u, double lever)
{
  double slope = (drawn - lever) / (drawn_u * drawn_u), curvature = 1 / (drawn_u * drawn_u);

  for (gsize i = 0; i < n; i++)
    {
      Fit fit = fit_pair (&pairs[i], lever);

      slope += fit.residual * fit.amount / sqrt (fit.variance);
      curvature += fit.amount * fit.amount / fit.variance;
    }
  return slope / curvature;
}

/* Least squares from the drawing on; a step that does not lower the sum is halved. */
static double
best_lever (const TgLeverLearningPair *pairs, gsize n, double drawn, double drawn_u)
{
  double lever = drawn, sum = sum_of_squares (pairs, n, drawn, drawn_u, lever);

  for (guint i = 0; i < 100; i++)
    {
      double step = gauss_newton_step (pairs, n, drawn, drawn_u, lever);
      double next = sum_of_squares (pairs, n, drawn, drawn_u, lever + step);

      for (guint k = 0; next > sum && k < 40; k++)
        {
          step /= 2;
          next = sum_of_squares (pairs, n, drawn, drawn_u, lever + step);
        }
      if (next > sum || fabs (step) < 1e-12)
        break;
      lever += step;
      sum = next;
    }
  return lever;
}

TgLeverLearning
tg_lever_learning_arm (const TgLeverLearningPair *pairs, gsize n, double drawn, double drawn_u)
{
  TgLeverLearning result = { drawn, drawn_u, 0, 0, 1, TRUE };
  double information;

  g_return_val_if_fail (drawn_u > 0, result);
  for (gsize i = 0; i < n; i++)
    g_return_val_if_fail (pairs[i].small_u_g > 0 && pairs[i].big_u_g > 0, result);

  if (n == 0)
    return result;
  result.lever = best_lever (pairs, n, drawn, drawn_u);
  result.chi2 = sum_of_squares (pairs, n, drawn, drawn_u, result.lever);
  result.freedom = (guint) n;
  result.chance = tg_statistics_chi2_upper (result.chi2, (double) n);
  result.consistent = result.chance >= TG_LEVER_LEARNING_DOUBT;

  information = 1 / (drawn_u * drawn_u);
  for (gsize i = 0; i < n; i++)
    {
      Fit fit = fit_pair (&pairs[i], result.lever);
      double noise = pairs[i].small_u_g * pairs[i].big_u_g;

      noise = noise * noise / fit.variance;
      information += MAX (fit.amount * fit.amount - noise, 0) / fit.variance;
    }
  result.u = 1 / sqrt (information);
  if (!result.consistent)
    result.u *= sqrt (MAX (result.chi2 / (double) n, 1));
  return result;
}

TgLeverLearningMethod
tg_lever_learning_unlearned (gboolean ratio_known)
{
  return (TgLeverLearningMethod){
    .log_ratio = 0, .scatter = UNLEARNED_SCATTER, .weight = ratio_known ? 1 : 0, .freedom = 4
  };
}

/* One more value of ln (amount/asked), which weighing knows with @noise.  A share of it counts: that
 * of the scatter from pass to pass in what the value scatters altogether. */
static void
learn_one (TgLeverLearningMethod *method, double value, double noise)
{
  double scatter = method->scatter > 0 ? method->scatter : UNLEARNED_SCATTER;
  double share = scatter * scatter / (scatter * scatter + noise * noise);
  double weight = method->weight + share, off = value - method->log_ratio;
  double squares = method->freedom * method->scatter * method->scatter;

  if (method->weight > 0)
    off = CLAMP (off, -SLIP * scatter, SLIP * scatter);
  if (method->weight > 0)
    squares += share * (method->weight / weight * off * off - noise * noise);
  /* the first value of an unknown ratio is spent on the ratio */
  method->freedom += method->weight > 0 ? share : 0;
  method->log_ratio = method->weight > 0 ? method->log_ratio + share * off / weight : value;
  method->weight = weight;
  method->scatter = method->freedom > 0 ? sqrt (MAX (squares / method->freedom, STEADY * STEADY))
                                        : 0;
}

gsize
tg_lever_learning_method (const TgLeverLearningPass *passes,
                          gsize n,
                          const TgLeverLearningMethod *before,
                          TgLeverLearningMethod *method)
{
  TgLeverLearningMethod result;
  gsize used = 0;

  g_return_val_if_fail (before != NULL && method != NULL, 0);

  result = *before;
  for (gsize i = 0; i < n; i++)
    {
      /* judged by what was to be expected: by what was found the low ones would count less */
      double expected = result.weight > 0 ? passes[i].asked * exp (result.log_ratio)
                                          : passes[i].amount_g;

      if (!(passes[i].asked > 0 && expected > 0 && expected >= TELLING * passes[i].u_g) ||
          passes[i].amount_g + TELLING * passes[i].u_g <= 0)
        continue;
      learn_one (&result,
                 passes[i].amount_g > 0 ? log (passes[i].amount_g / passes[i].asked)
                                        : (double) -INFINITY,
                 passes[i].u_g / expected);
      used++;
    }
  *method = result;
  return used;
}

static gboolean
is_known (const TgLeverLearningMethod *method)
{
  return method->weight > 0 && method->freedom > 0 && method->scatter > 0;
}

double
tg_lever_learning_ratio (const TgLeverLearningMethod *method,
                         double level,
                         double *low,
                         double *high)
{
  double off;

  g_return_val_if_fail (level > 0 && level < 1, 0);

  if (!is_known (method))
    return 0;
  off = -tg_statistics_t_quantile ((1 - level) / 2, method->freedom) * method->scatter /
        sqrt (method->weight);
  if (low)
    *low = exp (method->log_ratio - off);
  if (high)
    *high = exp (method->log_ratio + off);
  return exp (method->log_ratio);
}

/* With the room known exactly. */
static double
overshoot_of_room (const TgLeverLearningMethod *method, double asked, double room_g)
{
  double scale = method->scatter * sqrt (1 + 1 / method->weight);

  if (room_g <= 0)
    return 1;
  return tg_statistics_t_cdf (-(log (room_g / asked) - method->log_ratio) / scale, method->freedom);
}

double
tg_lever_learning_overshoot (const TgLeverLearningMethod *method,
                             double asked,
                             double room_g,
                             double room_u_g)
{
  double sum = 0, weights = 0;

  g_return_val_if_fail (asked > 0 && room_u_g >= 0, 1);

  if (!is_known (method))
    return 1;
  if (room_u_g <= 0)
    return overshoot_of_room (method, asked, room_g);
  for (int i = -20; i <= 20; i++)
    {
      double z = 0.25 * i, weight = exp (-z * z / 2);

      weights += weight;
      sum += weight * overshoot_of_room (method, asked, room_g + z * room_u_g);
    }
  return sum / weights;
}

/* The chance rises with what is asked.  False position (Illinois) between the logarithms of a little
 * and of what takes the whole room every second time. */
double
tg_lever_learning_next (const TgLeverLearningMethod *method,
                        double room_g,
                        double room_u_g,
                        double chance)
{
  double low, high, at_low, at_high;
  int side = 0;

  g_return_val_if_fail (chance >= 1e-4 && chance <= 0.4 && room_u_g >= 0, 0);

  if (!is_known (method) || room_g <= 0)
    return 0;
  high = log (room_g) - method->log_ratio + 0.5;
  low = log (room_g) - method->log_ratio - 10;
  at_low = log (tg_lever_learning_overshoot (method, exp (low), room_g, room_u_g) / chance);
  at_high = log (tg_lever_learning_overshoot (method, exp (high), room_g, room_u_g) / chance);
  if (at_low > 0)
    return 0;
  for (guint i = 0; i < 60 && high - low > 1e-6; i++)
    {
      /* logarithms of a chance of 0 leave the line to halving */
      double x = isfinite (at_low) && i % 4 < 3
                     ? (low * at_high - high * at_low) / (at_high - at_low)
                     : (low + high) / 2;
      double at = log (tg_lever_learning_overshoot (method, exp (x), room_g, room_u_g) / chance);

      if (at > 0)
        {
          high = x;
          at_high = at;
          at_low /= side == 1 ? 2 : 1;
          side = 1;
        }
      else
        {
          low = x;
          at_low = at;
          at_high /= side == -1 ? 2 : 1;
          side = -1;
          if (at > -1e-3)
            break;
        }
    }
  return exp (low);
}
