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

/* Every force, couple and bobweight of the table is the core's. */
static void
test_table (void)
{
  static const char *const orders[] = { "1", "2", "4", "6" };
  static const char *const shares[] = { "own", "differences", "whole" };
  Case c;
  g_autofree char *csv = NULL;
  double expanded;

  case_make (&c, "v8-cross", 8, "engine.factor=50 engine.crank-mass=30", 6000);
  csv = tg_report_prove_csv (&c.report);
  for (guint load = 0; load < 2; load++)
    for (guint share = 0; share < 3; share++)
      for (guint o = 0; o < TG_DYNAMICS_N_ORDERS; o++)
        {
          TgBalanceFigure figure = tg_balance_figure (c.c.balance, TG_BALANCE_NOW, share, load, o,
                                                      6000);
          g_autofree char *start = g_strdup_printf (
              "load,now,%s,%s,%s,,", load ? "couple" : "force", shares[share], orders[o]);

          NEAR (value_of (csv, start, &expanded), figure.largest);
          NEAR (expanded, figure.expanded);
        }
  g_assert_true (c.bobweight->known);
  for (guint p = 0; p < 4; p++)
    {
      g_autofree char *start = g_strdup_printf ("bobweight,now,bobweight,,,%u,", p + 1);

      NEAR (value_of (csv, start, &expanded), c.bobweight->pins[p].bobweight_g);
      NEAR (expanded, c.bobweight->pins[p].expanded_g);
    }
  /* ISO 21940-11: U = 1000 G m / Ω in g·mm, with G in mm/s, m in kg, Ω in rad/s */
  NEAR (value_of (csv, "unbalance,now,permissible,,,,", NULL), 1000 * 16 * 30 / (200 * G_PI));
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
