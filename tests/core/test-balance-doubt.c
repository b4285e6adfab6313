/* test-balance-doubt.c: the half width holds the true figure in 95 of 100 cases
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monte Carlo after JCGM 101:2008: masses are drawn about the truth with the standard uncertainties
 * that the balance states, and each time it is looked whether the interval about what they give holds
 * what the true ones give.  Fixed seeds.  With 1000 draws 95 % come out as 93.6 to 96.4 in 95 of 100
 * series; of 168 series the test asks for 92.0 at least, of the 200 draws of a peak for 90.0.  With 2000
 * draws, of a peak 500, the least of the first order was 94.5, of the second 93.8, of the peaks 93.4, of
 * the resultants 93.9; the means were 97.5, 96.6, 97.2 and 95.8.  Where a force is about nothing the
 * interval is meant to be wide rather than narrow: 100 % are allowed there.
 */
#include <glib.h>
#include <math.h>

#include "balance-case.h"

#define TRIES 1000
#define RPM BALANCE_CASE_RPM

static double
normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

static void
draw (TgBalanceMasses *masses, const TgDynamicsMasses *truth, guint n, GRand *rand)
{
  for (guint i = 0; i < n; i++)
    {
      masses->masses.reciprocating_kg[i] = truth->reciprocating_kg[i] +
                                           masses->u.reciprocating_kg[i] * normal (rand);
      masses->masses.rotating_kg[i] = truth->rotating_kg[i] +
                                      masses->u.rotating_kg[i] * normal (rand);
    }
}

/* A figure: an order, all of them, or the unbalance of all crankpins. */
typedef enum
{
  FIRST,
  SECOND,
  PEAK,
  RESULTANT,
  N_FIGURES,
} Figure;

static TgBalanceFigure
figure_of (const BalanceCase *c, Figure which, TgBalanceShare share, TgBalanceLoad load)
{
  TgBalanceUnbalance unbalance;

  if (which == PEAK)
    return tg_balance_peak (c->balance, TG_BALANCE_NOW, share, load, RPM);
  if (which != RESULTANT)
    return tg_balance_figure (c->balance, TG_BALANCE_NOW, share, load,
                              which == FIRST ? TG_DYNAMICS_FIRST : TG_DYNAMICS_SECOND, RPM);
  g_assert_true (tg_balance_unbalance (c->balance, c->review->setup, TG_BALANCE_NOW, &unbalance));
  return (TgBalanceFigure){ unbalance.resultant_g_mm, 0, 0, unbalance.resultant_expanded };
}

static double
share_held (BalanceCase *c, Figure which, TgBalanceShare share, TgBalanceLoad load, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  TgBalanceMasses *masses = &c->balance->stages[TG_BALANCE_NOW];
  TgDynamicsMasses truth = masses->masses;
  double true_value = figure_of (c, which, share, load).largest;
  guint held = 0, tries = which == PEAK ? TRIES / 5 : TRIES;

  for (guint t = 0; t < tries; t++)
    {
      TgBalanceFigure figure;

      draw (masses, &truth, c->balance->layout.n, rand);
      figure = figure_of (c, which, share, load);
      held += fabs (figure.largest - true_value) <= figure.expanded;
    }
  masses->masses = truth;
  return (double) held / tries;
}

/* How far apart the parts truly are, in u of one mass. */
static void
spread_parts (BalanceCase *c, double apart, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  TgBalanceMasses *masses = &c->balance->stages[TG_BALANCE_NOW];

  masses->freedom = (double) INFINITY;
  for (guint i = 0; i < c->balance->layout.n; i++)
    {
      masses->masses.reciprocating_kg[i] += apart * masses->u.reciprocating_kg[i] * normal (rand);
      masses->masses.rotating_kg[i] += apart * masses->u.rotating_kg[i] * normal (rand);
    }
}

static const struct
{
  const char *kind;
  guint n;
  const char *extra;
} engines[] = {
  { "twin-180", 2, "" }, { "inline", 3, "" },
  { "inline", 4, "" },   { "v6", 6, "engine.split-pins=yes" },
  { "v8-cross", 8, "" }, { "boxer", 4, "engine.offset=30" },
};

static void
test_holds (void)
{
  static const double apart[] = { 0, 1, 3, 20 };
  double least = 1, far_most = 0;

  for (guint e = 0; e < G_N_ELEMENTS (engines); e++)
    for (guint a = 0; a < G_N_ELEMENTS (apart); a++)
      {
        BalanceCase c;

        balance_case_even (&c, engines[e].kind, engines[e].n, engines[e].extra);
        spread_parts (&c, apart[a], 17 * e + a);
        for (Figure which = 0; which < N_FIGURES; which++)
          for (TgBalanceLoad load = 0; load < TG_BALANCE_N_LOADS; load++)
            {
              double held;

              if (which == RESULTANT && load == TG_BALANCE_COUPLE)
                continue;
              held = share_held (&c, which, TG_BALANCE_SPREAD, load, 1000 * e + 10 * a + which);
              g_test_message ("%s of %u, parts %g u apart, figure %u, load %u: %.1f %%",
                              engines[e].kind, engines[e].n, apart[a], which, load, 100 * held);
              least = MIN (least, held);
              if (apart[a] >= 20)
                far_most = MAX (far_most, held);
              g_assert_cmpfloat (held, >=, which == PEAK ? 0.90 : 0.92);
            }
        balance_case_clear (&c);
      }
  g_test_message ("least %.1f %%; most of parts far apart %.1f %%", 100 * least, 100 * far_most);
}

/* All of the load, the layout's own included, whose means move with each mass. */
static void
test_whole (void)
{
  for (guint e = 0; e < G_N_ELEMENTS (engines); e++)
    {
      BalanceCase c;
      double held;

      balance_case_even (&c, engines[e].kind, engines[e].n, engines[e].extra);
      spread_parts (&c, 3, e);
      held = share_held (&c, SECOND, TG_BALANCE_WHOLE, TG_BALANCE_FORCE, e);
      g_test_message ("%s of %u: %.1f %%", engines[e].kind, engines[e].n, 100 * held);
      g_assert_cmpfloat (held, >=, 0.92);
      balance_case_clear (&c);
    }
}

/* One piston against another: 1.96 √2 u r ω² (1 + λ), JCGM 100 5.1.2, by hand. */
static void
test_pair (void)
{
  BalanceCase c;
  TgBalancePair pair;
  double u;

  balance_case_even (&c, "twin-360", 2, "");
  spread_parts (&c, 0, 0);
  u = c.balance->stages[TG_BALANCE_NOW].u.reciprocating_kg[0];
  pair = tg_balance_worst_pair (c.balance, TG_BALANCE_NOW, TRUE, RPM);
  g_assert_cmpfloat (u, >, 0);
  g_assert_cmpfloat_with_epsilon (
      pair.expanded, 1.959964 * sqrt (2) * balance_case_newton (u) * 1.25, 1e-5 * pair.expanded);
  balance_case_clear (&c);
}

/* Uneven parts of four in line add a first order and nothing else: all orders together are that one, and
 * no better known. */
static void
test_only_one_order (void)
{
  BalanceCase c;

  balance_case_even (&c, "inline", 4, "");
  for (guint seed = 0; seed < 50; seed++)
    {
      TgBalanceFigure first, peak;

      spread_parts (&c, seed % 5, seed);
      first = figure_of (&c, FIRST, TG_BALANCE_SPREAD, TG_BALANCE_FORCE);
      peak = figure_of (&c, PEAK, TG_BALANCE_SPREAD, TG_BALANCE_FORCE);
      g_assert_cmpfloat_with_epsilon (peak.largest, first.largest, 1e-4 * first.largest + 1e-9);
      g_assert_cmpfloat (peak.expanded, >=, first.expanded * (1 - 1e-9));
    }
  balance_case_clear (&c);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/balance-doubt/holds", test_holds);
  g_test_add_func ("/balance-doubt/whole", test_whole);
  g_test_add_func ("/balance-doubt/pair", test_pair);
  g_test_add_func ("/balance-doubt/only-one-order", test_only_one_order);
  return g_test_run ();
}
