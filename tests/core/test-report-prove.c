/* test-report-prove.c: the report and the table of "prove" say what balance.h and bobweight.h say
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pair of pistons is also reckoned by hand: Δm r ω² (1 + r/l), exact slider-crank at the upper dead
 * centre, as any textbook has it (R. S. Khurmi, J. K. Gupta, Theory of Machines, chapter 15; from memory).
 */
#include "report-prove.h"

#include <math.h>
#include <string.h>

#include "balance-case.h"
#include "uncertainty.h"

typedef struct
{
  BalanceCase c;
  TgBobweight *bobweight;
  TgReportProve report;
} Case;

static void
case_make (Case *self, const char *kind, guint n, const char *extra, double rpm)
{
  const double more[] = { 0, 1.2, -0.4, 0.8, 0.1, -0.9, 0.3, 0.6 };

  balance_case_uneven (&self->c, kind, n, extra, more, NULL);
  self->bobweight = tg_bobweight_new (self->c.review);
  self->report = (TgReportProve){ self->c.review, self->c.balance, self->bobweight, rpm };
}

static void
case_clear (Case *self)
{
  tg_bobweight_free (self->bobweight);
  balance_case_clear (&self->c);
}

/* The value of the only row that begins like this; @expanded gets the next column. */
static double
value_of (const char *csv, const char *start, double *expanded)
{
  g_auto (GStrv) rows = g_strsplit (csv, "\r\n", -1);
  const char *found = NULL;
  char *end;
  double value;

  for (guint i = 0; rows[i]; i++)
    if (g_str_has_prefix (rows[i], start))
      {
        g_assert_null (found);
        found = rows[i];
      }
  if (!found)
    g_error ("no row “%s”", start);
  value = g_ascii_strtod (found + strlen (start), &end);
  g_assert_cmpint (*end, ==, ',');
  if (expanded)
    *expanded = g_ascii_strtod (end + 1, NULL);
  return value;
}

#define NEAR(a, b) g_assert_cmpfloat_with_epsilon (a, b, 2e-6 * (1 + fabs (b)))

static void
assert_row (const char *csv, const char *start, double value, double expanded)
{
  double found_expanded, found = value_of (csv, start, &found_expanded);

  NEAR (found, value);
  NEAR (found_expanded, expanded);
}

static void
check_loads (const char *csv, const Case *c, TgBalanceStage stage, const char *stage_word)
{
  static const char *const orders[] = { "1", "2", "4", "6", "all" };
  static const char *const shares[] = { "own", "differences", "whole" };

  for (guint load = 0; load < 2; load++)
    for (guint share = 0; share < TG_BALANCE_N_SHARES; share++)
      for (guint o = 0; o <= TG_DYNAMICS_N_ORDERS; o++)
        {
          TgBalanceFigure figure = o == TG_DYNAMICS_N_ORDERS
                                       ? tg_balance_peak (c->c.balance, stage, share, load, 6000)
                                       : tg_balance_figure (c->c.balance, stage, share, load, o,
                                                            6000);
          g_autofree char *start = g_strdup_printf ("load,%s,%s,%s,%s,,", stage_word,
                                                    load ? "couple" : "force", shares[share],
                                                    orders[o]);

          assert_row (csv, start, figure.largest, figure.expanded);
        }
}

static void
check_masses (const char *csv, const Case *c, TgBalanceStage stage, const char *stage_word)
{
  const TgBalanceMasses *masses = &c->c.balance->stages[stage];
  double k = tg_uncertainty_coverage (masses->freedom, TG_REVIEW_LEVEL);

  for (guint i = 0; i < 8; i++)
    {
      g_autofree char *up = g_strdup_printf ("mass,%s,reciprocating,,,%u,", stage_word, i + 1);
      g_autofree char *round = g_strdup_printf ("mass,%s,rotating,,,%u,", stage_word, i + 1);

      assert_row (csv, up, 1000 * masses->masses.reciprocating_kg[i],
                  1000 * k * masses->u.reciprocating_kg[i]);
      assert_row (csv, round, 1000 * masses->masses.rotating_kg[i],
                  1000 * k * masses->u.rotating_kg[i]);
    }
  for (guint up = 0; up < 2; up++)
    {
      TgBalancePair pair = tg_balance_worst_pair (c->c.balance, stage, up, 6000);
      g_autofree char *start = g_strdup_printf ("pair,%s,%s,,,,", stage_word,
                                                up ? "reciprocating" : "rotating");

      assert_row (csv, start, pair.force, pair.expanded);
    }
}

static void
check_unbalance (const char *csv, const Case *c, TgBalanceStage stage, const char *stage_word)
{
  const TgSetup *setup = c->c.review->setup;
  g_autofree char *resultant = g_strdup_printf ("unbalance,%s,resultant,,,,", stage_word);
  g_autofree char *permissible = g_strdup_printf ("unbalance,%s,permissible,,,,", stage_word);
  g_autofree char *grade = g_strdup_printf ("unbalance,%s,grade,,,,", stage_word);
  TgBalanceUnbalance left;

  g_assert_true (tg_balance_unbalance (c->c.balance, setup, stage, &left));
  g_assert_true (left.has_planes);
  for (guint p = 0; p < left.n_pins; p++)
    {
      g_autofree char *pin = g_strdup_printf ("unbalance,%s,crankpin,,,%u,", stage_word, p + 1);

      assert_row (csv, pin, left.pins[p].g_mm, left.pins[p].expanded);
    }
  for (guint p = 0; p < 2; p++)
    {
      g_autofree char *plane = g_strdup_printf ("unbalance,%s,plane,,,%u,", stage_word, p + 1);

      assert_row (csv, plane, left.planes_g_mm[p], left.planes_expanded[p]);
    }
  assert_row (csv, resultant, left.resultant_g_mm, left.resultant_expanded);
  assert_row (csv, grade, left.grade, 0);
  /* ISO 21940-11: U = 1000 G m / Ω in g·mm, with G in mm/s, m in kg, Ω in rad/s */
  assert_row (csv, permissible, 1000 * 16 * 30 / (200 * G_PI), 0);
}

static void
check_bobweights (const char *csv, const Case *c)
{
  g_assert_true (c->bobweight->known);
  for (guint p = 0; p < c->bobweight->n_pins; p++)
    {
      const TgBobweightPin *pin = &c->bobweight->pins[p];
      g_autofree char *sum = g_strdup_printf ("bobweight,now,bobweight,,,%u,", p + 1);

      assert_row (csv, sum, pin->bobweight_g, pin->expanded_g);
      for (guint t = 0; t < TG_N_BOBWEIGHT_TERMS; t++)
        if (c->bobweight->weighed[t])
          {
            g_autofree char *term = g_strdup_printf ("bobweight,now,%s,,,%u,",
                                                     tg_bobweight_term_label (t), p + 1);

            assert_row (csv, term, pin->terms_g[t], 0);
          }
    }
}

static void
check_enough (const char *csv, const Case *c)
{
  g_autoptr (TgBalanceEnough) enough = tg_balance_enough (c->c.balance, c->c.review, 6000);
  guint told = 0;

  for (TgBand band = 0; band < TG_N_BANDS; band++)
    {
      const char *label = tg_setup_band_label (c->c.review->setup, band);
      g_autofree char *load = g_strdup_printf ("enough,now,%s,load,,,", label);
      g_autofree char *grade = g_strdup_printf ("enough,now,%s,grade,,,", label);

      if (enough->tolerance_g[band] > 0)
        assert_row (csv, load, enough->tolerance_g[band], 0);
      if (enough->grade_tolerance_g[band] > 0)
        assert_row (csv, grade, enough->grade_tolerance_g[band], 0);
      told += enough->tolerance_g[band] > 0;
    }
  g_assert_cmpuint (told, >, 0);
}

/* Every figure of the table is the core's, of every stage. */
static void
test_table (void)
{
  static const char *const stages[] = { "before", "now", "then" };
  Case c;
  g_autofree char *csv = NULL;

  case_make (&c, "v8-cross", 8, "engine.factor=50 engine.crank-mass=30", 6000);
  csv = tg_report_prove_csv (&c.report);
  for (TgBalanceStage stage = 0; stage < TG_BALANCE_N_STAGES; stage++)
    {
      g_assert_true (tg_balance_is_known (c.c.balance, stage));
      check_masses (csv, &c, stage, stages[stage]);
      check_loads (csv, &c, stage, stages[stage]);
      check_unbalance (csv, &c, stage, stages[stage]);
    }
  check_bobweights (csv, &c);
  check_enough (csv, &c);
  case_clear (&c);
}

/* By hand, and four times as much at twice the speed. */
static void
test_pair_and_speed (void)
{
  Case c;
  g_autofree char *slow = NULL;
  g_autofree char *fast = NULL;
  const char *const rows[] = { "pair,now,reciprocating,,,,", "load,now,force,differences,1,,",
                               "load,now,force,own,2,,", "load,now,couple,differences,all,," };

  case_make (&c, "inline", 4, "", 3000);
  slow = tg_report_prove_csv (&c.report);
  c.report.speed_rpm = 6000;
  fast = tg_report_prove_csv (&c.report);
  /* 1.2 g against −0.4 g, stroke 80 mm, rod 160 mm */
  g_assert_cmpfloat_with_epsilon (value_of (fast, rows[0], NULL),
                                  balance_case_newton (0.0016) * 1.25, 1e-3);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double e_slow, e_fast;
      double v_slow = value_of (slow, rows[i], &e_slow), v_fast = value_of (fast, rows[i], &e_fast);

      g_assert_cmpfloat_with_epsilon (v_fast, 4 * v_slow, 1e-5 * v_fast + 5e-6);
      g_assert_cmpfloat_with_epsilon (e_fast, 4 * e_slow, 1e-5 * v_fast + 5e-6);
    }
  case_clear (&c);
}

/* The text carries the words, and the bobweights with their decimals. */
static void
test_text (void)
{
  Case c;
  g_autofree char *text = NULL;
  g_autofree char *words = NULL;
  g_autofree char *sum = NULL;

  case_make (&c, "inline", 4, "engine.order=1-3-4-2", 6000);
  text = tg_report_prove (&c.report);
  words = tg_balance_words (c.c.balance, 6000);
  sum = tg_bobweight_words (c.bobweight, c.c.review);
  g_assert_nonnull (strstr (text, words));
  g_assert_nonnull (strstr (text, sum));
  g_assert_nonnull (strstr (text, "maker’s manual comes first"));
  g_assert_null (strstr (text, "nan"));
  g_assert_null (strstr (text, "inf"));
  case_clear (&c);
}

/* Without a stroke there are no forces, and it is said; masses and bobweights stand all the same. */
static void
test_missing (void)
{
  Case c;
  g_autofree char *text = NULL;
  g_autofree char *csv = NULL;

  case_make (&c, "inline", 4, "engine.stroke=0", 6000);
  text = tg_report_prove (&c.report);
  csv = tg_report_prove_csv (&c.report);
  g_assert_nonnull (strstr (text, "The stroke has not been said."));
  g_assert_null (strstr (csv, "\r\nload,"));
  g_assert_null (strstr (csv, "\r\npair,"));
  g_assert_cmpfloat_with_epsilon (value_of (csv, "mass,now,reciprocating,,,2,", NULL), 551.2, 1e-6);
  value_of (csv, "bobweight,now,bobweight,,,1,", NULL);
  case_clear (&c);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/report-prove/table", test_table);
  g_test_add_func ("/report-prove/pair-and-speed", test_pair_and_speed);
  g_test_add_func ("/report-prove/text", test_text);
  g_test_add_func ("/report-prove/missing", test_missing);
  return g_test_run ();
}
