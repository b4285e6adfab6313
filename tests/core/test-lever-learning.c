/* test-lever-learning.c: lever arms and methods recovered from benches whose truth is known
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The passes are simulated; all figures are invented.  Expectations are closed forms, laws, and the
 * truth that the simulation was given.
 */
#include <glib.h>
#include <math.h>

#include "lever-learning.h"
#include "rod-statics.h"
#include "statistics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

static double
normal (GRand *random)
{
  return tg_statistics_normal_quantile (g_rand_double_range (random, 1e-15, 1));
}

/* What the two ends show when @amount comes off at d = @lever × L. */
static TgLeverLearningPair
simulate_pair (GRand *random, double lever, double amount, double u)
{
  TgRodStatics effect = tg_rod_statics_effect (150, lever * 150);

  return (TgLeverLearningPair){ amount * effect.small + u * normal (random), u,
                                amount * effect.big + u * normal (random), u };
}

/* One pair, hardly a drawing: d/L = S/(S + B), and its u by the law of propagation (JCGM 100, 5.1.2):
 * √(B² a + S² b)/(S + B)², less what noise alone would show.  No pairs: the drawing. */
static void
test_one_pair (void)
{
  const TgLeverLearningPair pair = { 3, 0.02, 1, 0.05 };
  TgLeverLearning result = tg_lever_learning_arm (&pair, 1, 0.5, 1e3);

  NEAR (result.lever, 0.75, 1e-6);
  NEAR (result.u, sqrt (1 * 0.0004 + 9 * 0.0025) / 16, 1e-4);
  NEAR (result.chi2, 0, 1e-6);
  g_assert_cmpuint (result.freedom, ==, 1);

  result = tg_lever_learning_arm (NULL, 0, 1.12, 0.01);
  NEAR (result.lever, 1.12, 1e-300);
  NEAR (result.u, 0.01, 1e-300);
  NEAR (result.chance, 1, 1e-300);
  g_assert_true (result.consistent);
}

/* Drawing and pairs that agree: the mean weighted by 1/u² (JCGM 100, 5.1; any handbook).  Good pairs
 * of one kind, one after the other: u falls with their root. */
static void
test_weights (void)
{
  TgLeverLearningPair pairs[9];
  TgLeverLearning alone, nine;
  double a, b;

  for (guint i = 0; i < 9; i++)
    pairs[i] = (TgLeverLearningPair){ 8.8, 0.01, 1.2, 0.01 };
  alone = tg_lever_learning_arm (pairs, 1, 0.88, 1e3);
  nine = tg_lever_learning_arm (pairs, 9, 0.88, 1e3);
  NEAR (nine.lever, 0.88, 1e-9);
  NEAR (nine.u, alone.u / 3, 1e-6);

  nine = tg_lever_learning_arm (pairs, 1, 0.879, 0.0007);
  a = 1 / (alone.u * alone.u);
  b = 1 / (0.0007 * 0.0007);
  NEAR (nine.lever, (0.88 * a + 0.879 * b) / (a + b), 1e-6);
  NEAR (nine.u, 1 / sqrt (a + b), 1e-6);
}

/* The least squares of the textbook, minimised over every mᵢ and λ by another road: a fine grid. */
static double
profile (const TgLeverLearningPair *pairs, guint n, double drawn, double drawn_u, double lever)
{
  double sum = pow ((lever - drawn) / drawn_u, 2);

  for (guint i = 0; i < n; i++)
    {
      const TgLeverLearningPair *p = &pairs[i];
      double ws = 1 / (p->small_u_g * p->small_u_g), wb = 1 / (p->big_u_g * p->big_u_g);
      double m = (ws * lever * p->small_g + wb * (1 - lever) * p->big_g) /
                 (ws * lever * lever + wb * (1 - lever) * (1 - lever));

      sum += ws * pow (p->small_g - lever * m, 2) + wb * pow (p->big_g - (1 - lever) * m, 2);
    }
  return sum;
}

static void
test_least (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (21);

  for (guint round = 0; round < 50; round++)
    {
      TgLeverLearningPair pairs[5];
      double truth = g_rand_double_range (random, -0.2, 1.2);
      double drawn = truth + 0.02 * normal (random), least = INFINITY;
      TgLeverLearning result;

      for (guint i = 0; i < 5; i++)
        {
          pairs[i] = simulate_pair (random, truth, g_rand_double_range (random, 0.5, 4), 0.06);
          pairs[i].big_u_g = g_rand_double_range (random, 0.04, 0.1);
        }
      result = tg_lever_learning_arm (pairs, 5, drawn, 0.02);
      for (double lever = truth - 0.3; lever < truth + 0.3; lever += 1e-4)
        least = MIN (least, profile (pairs, 5, drawn, 0.02, lever));
      NEAR (result.chi2, profile (pairs, 5, drawn, 0.02, result.lever), 1e-9);
      g_assert_cmpfloat (result.chi2, <=, least + 1e-9);
    }
}

/* The arm is within ± 2 u as often as it says, with no bias, small passes and cap side included;
 * false alarms are as rare as the doubt that was set. */
static void
test_arm_recovered (void)
{
  static const struct
  {
    double lever, least_g, most_g;
  } zones[] = { { 1.12, 0.5, 4 }, { 1, 0.5, 4 },    { 0.15, 0.5, 4 },
                { 0, 0.5, 4 },    { -0.2, 0.5, 4 }, { 0.9, 0.05, 0.15 } };

  for (guint k = 0; k < G_N_ELEMENTS (zones); k++)
    {
      g_autoptr (GRand) random = g_rand_new_with_seed (30 + k);
      guint held = 0, doubts = 0, rounds = 2000;
      double bias = 0, u = 0;

      for (guint round = 0; round < rounds; round++)
        {
          TgLeverLearningPair pairs[8];
          guint n = (guint) g_rand_int_range (random, 1, 9);
          TgLeverLearning result;

          for (guint i = 0; i < n; i++)
            pairs[i] = simulate_pair (
                random, zones[k].lever,
                g_rand_double_range (random, zones[k].least_g, zones[k].most_g), 0.06);
          result = tg_lever_learning_arm (pairs, n, zones[k].lever + 0.03 * normal (random), 0.03);
          held += fabs (result.lever - zones[k].lever) <= 2 * result.u;
          doubts += !result.consistent;
          bias += (result.lever - zones[k].lever) / rounds;
          u += result.u / rounds;
        }
      g_test_message ("d/L %5.2f, passes %.2f to %.2f g: u %.4f, bias %+.5f, within 2 u %.1f %%, "
                      "doubted %.2f %%",
                      zones[k].lever, zones[k].least_g, zones[k].most_g, u, bias,
                      100.0 * held / rounds, 100.0 * doubts / rounds);
      /* 95.45 % of 2000, one standard deviation of the share is 0.5 % */
      g_assert_cmpuint (held, >=, rounds * 94 / 100);
      g_assert_cmpuint (doubts, <=, rounds * 2 / 100);
      g_assert_cmpfloat (fabs (bias), <, 0.1 * u);
      g_assert_cmpfloat (u, <, 0.0301);
    }
}

/* A zone that is not where it is drawn, by 12 mm on 150: found out, and u made larger. */
static void
test_wrong_drawing (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (41);
  guint doubts = 0;

  for (guint round = 0; round < 200; round++)
    {
      TgLeverLearningPair pairs[4];
      TgLeverLearning result, trusting;

      for (guint i = 0; i < 4; i++)
        pairs[i] = simulate_pair (random, 0.92, 3, 0.06);
      result = tg_lever_learning_arm (pairs, 4, 1.0, 0.005);
      trusting = tg_lever_learning_arm (pairs, 4, 0.92, 0.005);
      doubts += !result.consistent;
      if (!result.consistent)
        g_assert_cmpfloat (result.u, >, trusting.u);
    }
  g_assert_cmpuint (doubts, >=, 195);
}

/* Without a prior the next pass has the textbook's prediction interval (NIST/SEMATECH e-Handbook,
 * chapter on prediction: mean ± t s √(1 + 1/n)), and the mean its confidence interval. */
static void
test_prediction (void)
{
  static const double ratios[] = { 0.9, 1.1, 1.0, 0.8, 1.05, 0.97 };
  const TgLeverLearningMethod nothing = { 0, 0, 0, 0 };
  TgLeverLearningMethod method;
  TgLeverLearningPass passes[6];
  double logs[6], t, asked, low, high;
  TgStatistics all;

  for (guint i = 0; i < 6; i++)
    {
      passes[i] = (TgLeverLearningPass){ 2 * ratios[i], 0, 2 };
      logs[i] = log (ratios[i]);
    }
  all = tg_statistics_of (logs, 6);
  g_assert_cmpuint (tg_lever_learning_method (passes, 6, &nothing, &method), ==, 6);
  NEAR (method.log_ratio, all.mean, 1e-12);
  NEAR (method.scatter, all.deviation, 1e-12);
  NEAR (method.weight, 6, 1e-12);
  NEAR (method.freedom, 5, 1e-12);

  t = tg_statistics_t_quantile (0.98, 5);
  asked = tg_lever_learning_next (&method, 3, 0, 0.02);
  NEAR (asked, 3 * exp (-all.mean - t * all.deviation * sqrt (1 + 1 / 6.0)), 3e-3);
  g_assert_cmpfloat (tg_lever_learning_overshoot (&method, asked, 3, 0), <=, 0.02);
  NEAR (tg_lever_learning_overshoot (&method, 3 * exp (-all.mean), 3, 0), 0.5, 1e-9);

  t = tg_statistics_t_quantile (0.975, 5);
  NEAR (tg_lever_learning_ratio (&method, 0.95, &low, &high), exp (all.mean), 1e-12);
  NEAR (high / low, exp (2 * t * all.deviation / sqrt (6)), 1e-9);
}

/* Laws: pass by pass or at once is the same; minutes or seconds is a matter of units; what says
 * nothing changes nothing. */
static void
test_method_laws (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (51);

  for (guint known = 0; known < 2; known++)
    {
      TgLeverLearningMethod at_once, one_by_one, seconds;
      const TgLeverLearningMethod before = tg_lever_learning_unlearned (known);
      TgLeverLearningPass passes[10], in_seconds[10],
          silent[4] = { { 0.19, 0.5, 1 }, { -0.1, 0.01, 1 }, { 0, 0, 1 }, { 1, 0.01, 0 } };

      one_by_one = before;
      for (guint i = 0; i < 10; i++)
        {
          double minutes = g_rand_double_range (random, 0.5, 3);

          passes[i] = (TgLeverLearningPass){ minutes * 0.8 * exp (0.1 * normal (random)), 0,
                                             minutes };
          in_seconds[i] = passes[i];
          in_seconds[i].asked *= 60;
          tg_lever_learning_method (&passes[i], 1, &one_by_one, &one_by_one);
        }
      g_assert_cmpuint (tg_lever_learning_method (passes, 10, &before, &at_once), ==, 10);
      NEAR (at_once.log_ratio, one_by_one.log_ratio, 1e-12);
      NEAR (at_once.scatter, one_by_one.scatter, 1e-12);
      NEAR (at_once.weight, known ? 11 : 10, 1e-12);
      NEAR (at_once.freedom, known ? 14 : 13, 1e-12);
      NEAR (tg_lever_learning_ratio (&at_once, 0.95, NULL, NULL), 0.8, 0.12);

      g_assert_cmpuint (tg_lever_learning_method (silent, 4, &at_once, &one_by_one), ==, 0);
      NEAR (at_once.log_ratio, one_by_one.log_ratio, 1e-300);
      if (!known)
        {
          tg_lever_learning_method (in_seconds, 10, &before, &seconds);
          NEAR (tg_lever_learning_next (&seconds, 2, 0.05, 0.02) /
                    tg_lever_learning_next (&at_once, 2, 0.05, 0.02),
                60, 0.01);
        }
    }
}

/* More room, a better scale, more patience with overshoot or less scatter never ask for less, and
 * what is given keeps its promise. */
static void
test_next_laws (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (52);

  for (guint round = 0; round < 300; round++)
    {
      TgLeverLearningMethod method = { g_rand_double_range (random, -1, 1),
                                       g_rand_double_range (random, 0.02, 0.5),
                                       g_rand_double_range (random, 1, 30),
                                       g_rand_double_range (random, 2, 40) };
      TgLeverLearningMethod steadier = method;
      double room = g_rand_double_range (random, 0.2, 8), u = g_rand_double_range (random, 0, 0.06);
      double chance = g_rand_double_range (random, 0.005, 0.2);
      double asked = tg_lever_learning_next (&method, room, u, chance), more = asked * 0.998;

      g_assert_cmpfloat (asked, >, 0);
      g_assert_cmpfloat (tg_lever_learning_overshoot (&method, asked, room, u), <=, chance);
      g_assert_cmpfloat (tg_lever_learning_overshoot (&method, asked * 1.02, room, u), >,
                         chance * 0.999);
      g_assert_cmpfloat (tg_lever_learning_next (&method, room * 1.1, u, chance), >=, more);
      g_assert_cmpfloat (tg_lever_learning_next (&method, room, u / 2, chance), >=, more);
      g_assert_cmpfloat (tg_lever_learning_next (&method, room, u, chance * 1.5), >=, more);
      steadier.scatter *= 0.8;
      g_assert_cmpfloat (tg_lever_learning_next (&steadier, room, u, chance), >=, more);
    }
}

/* Passes of 0.8 times what was wanted, give or take 10 %, weighed to a fifth of what they took: the
 * noise of weighing is not learned as the hand's own.  One slip of five times as much widens what is
 * expected and does not rule it. */
static void
test_noise_and_slips (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (54);
  TgLeverLearningMethod method = tg_lever_learning_unlearned (TRUE), slipped;
  const TgLeverLearningPass slip = { 5, 0.1, 1 };

  for (guint i = 0; i < 400; i++)
    {
      double taken = 0.8 * exp (0.1 * normal (random));
      const TgLeverLearningPass pass = { taken + 0.16 * normal (random), 0.16, 1 };

      tg_lever_learning_method (&pass, 1, &method, &method);
    }
  g_assert_cmpfloat (method.scatter, >, 0.07);
  g_assert_cmpfloat (method.scatter, <, 0.19);
  NEAR (exp (method.log_ratio), 0.8, 0.04);
  method = tg_lever_learning_unlearned (TRUE);
  tg_lever_learning_method (&slip, 1, &method, &slipped);
  g_assert_cmpfloat (slipped.scatter, >, 1.3 * method.scatter);
  g_assert_cmpfloat (exp (slipped.log_ratio), <, 1.6);
}

static void
test_nothing_may_be_asked (void)
{
  const TgLeverLearningMethod rate = tg_lever_learning_unlearned (FALSE);
  const TgLeverLearningMethod grams = tg_lever_learning_unlearned (TRUE);

  NEAR (tg_lever_learning_next (&rate, 5, 0.01, 0.02), 0, 1e-300);
  NEAR (tg_lever_learning_ratio (&rate, 0.95, NULL, NULL), 0, 1e-300);
  NEAR (tg_lever_learning_overshoot (&rate, 1, 5, 0.01), 1, 1e-300);
  NEAR (tg_lever_learning_next (&grams, 0, 0.01, 0.02), 0, 1e-300);
  NEAR (tg_lever_learning_next (&grams, -1, 0.01, 0.02), 0, 1e-300);
  /* the room may be none at all, with a chance of 16 % */
  NEAR (tg_lever_learning_next (&grams, 0.05, 0.05, 0.02), 0, 1e-300);
  g_assert_cmpfloat (tg_lever_learning_next (&grams, 1, 0.05, 0.02), >, 0.2);
}

/* The chance by counting: ratios of the t distribution, rooms of the normal one. */
static void
test_overshoot_counted (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (53);
  const TgLeverLearningMethod method = { log (0.9), 0.2, 4, 6 };
  guint over = 0, rounds = 20000;

  for (guint i = 0; i < rounds; i++)
    {
      double t = tg_statistics_t_quantile (g_rand_double_range (random, 1e-12, 1), 6);

      over += 1.5 * exp (log (0.9) + 0.2 * sqrt (1.25) * t) > 1.8 + 0.3 * normal (random);
    }
  /* one standard deviation of the share is 0.3 % */
  NEAR (tg_lever_learning_overshoot (&method, 1.5, 1.8, 0.3), over / (double) rounds, 0.01);
}

typedef struct
{
  double ratio;   /* of taken to asked, the person's own */
  double scatter; /* of its logarithm */
  double band_g;
  double u_g; /* of one figure */
} Bench;

typedef struct
{
  guint parts, passes, overshoots;
} Tally;

/* Works one set into the band [0, band_g]: learning, or with four fifths of what is left to the
 * middle each time.  Who reads a weight within the band leaves the part alone. */
static void
work_set (const Bench *bench, gboolean learning, GRand *random, Tally *tally)
{
  TgLeverLearningMethod method = tg_lever_learning_unlearned (TRUE);

  for (guint part = 0; part < 16; part++)
    {
      double truth = g_rand_double_range (random, 1, 8), reading = truth;
      gboolean first = TRUE;

      tally->parts++;
      while (TRUE)
        {
          double before = reading, wanted, taken;

          if (first)
            before = reading = truth + bench->u_g * normal (random);
          first = FALSE;
          if (reading <= bench->band_g)
            break;
          wanted = 0.8 * (reading - bench->band_g / 2);
          if (learning)
            wanted = MIN (
                tg_lever_learning_next (&method, reading, bench->u_g, TG_LEVER_LEARNING_CHANCE),
                (reading - bench->band_g / 2) / exp (method.log_ratio));
          taken = wanted * bench->ratio * exp (bench->scatter * normal (random));
          truth -= taken;
          reading = truth + bench->u_g * normal (random);
          tally->passes++;
          tally->overshoots += truth < 0;
          tg_lever_learning_method (
              &(TgLeverLearningPass){ before - reading, G_SQRT2 * bench->u_g, wanted }, 1, &method,
              &method);
        }
    }
}

/* Thousands of passes at the bench: whatever the person's hand, no more of them overshoot than were
 * accepted.  A steady hand gets by with fewer passes than with four fifths each time; an unsteady
 * one is kept from spoiling parts. */
static void
test_bench (void)
{
  static const struct
  {
    Bench bench;
    gboolean fewer, safer;
  } rows[] = {
    { { 1.00, 0.03, 0.2, 0.02 }, TRUE, FALSE },  { { 1.00, 0.05, 0.2, 0.02 }, TRUE, FALSE },
    { { 0.80, 0.05, 0.2, 0.02 }, TRUE, FALSE },  { { 0.60, 0.05, 0.2, 0.02 }, TRUE, FALSE },
    { { 0.80, 0.10, 0.2, 0.02 }, TRUE, FALSE },  { { 1.00, 0.10, 0.2, 0.02 }, FALSE, FALSE },
    { { 1.20, 0.10, 0.2, 0.02 }, FALSE, TRUE },  { { 1.00, 0.20, 0.2, 0.02 }, FALSE, TRUE },
    { { 1.00, 0.10, 0.5, 0.05 }, FALSE, FALSE },
  };

  for (guint k = 0; k < G_N_ELEMENTS (rows); k++)
    {
      const Bench *bench = &rows[k].bench;
      Tally ours = { 0 }, fifths = { 0 };
      g_autoptr (GRand) random = g_rand_new_with_seed (60);
      g_autoptr (GRand) same = g_rand_new_with_seed (60);
      double allowed;

      for (guint set = 0; set < 40; set++)
        {
          work_set (bench, TRUE, random, &ours);
          work_set (bench, FALSE, same, &fifths);
        }
      g_test_message ("takes %.2f of what is asked, scatter %2.0f %%, band %.1f g: learning %.2f "
                      "passes a part, %.2f %% of %u overshoot; four fifths %.2f, %.2f %%",
                      bench->ratio, 100 * bench->scatter, bench->band_g,
                      ours.passes / (double) ours.parts, 100.0 * ours.overshoots / ours.passes,
                      ours.passes, fifths.passes / (double) fifths.parts,
                      100.0 * fifths.overshoots / fifths.passes);
      /* the setting, and three standard deviations of counting */
      allowed = TG_LEVER_LEARNING_CHANCE * ours.passes;
      g_assert_cmpfloat (ours.overshoots, <=, allowed + 3 * sqrt (allowed));
      if (rows[k].fewer)
        g_assert_cmpuint (ours.passes, <, fifths.passes);
      if (rows[k].safer)
        g_assert_cmpuint (ours.overshoots, <, fifths.overshoots);
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lever-learning/one-pair", test_one_pair);
  g_test_add_func ("/lever-learning/weights", test_weights);
  g_test_add_func ("/lever-learning/least", test_least);
  g_test_add_func ("/lever-learning/arm-recovered", test_arm_recovered);
  g_test_add_func ("/lever-learning/wrong-drawing", test_wrong_drawing);
  g_test_add_func ("/lever-learning/prediction", test_prediction);
  g_test_add_func ("/lever-learning/method-laws", test_method_laws);
  g_test_add_func ("/lever-learning/next-laws", test_next_laws);
  g_test_add_func ("/lever-learning/noise-and-slips", test_noise_and_slips);
  g_test_add_func ("/lever-learning/nothing-may-be-asked", test_nothing_may_be_asked);
  g_test_add_func ("/lever-learning/overshoot-counted", test_overshoot_counted);
  g_test_add_func ("/lever-learning/bench", test_bench);
  return g_test_run ();
}
