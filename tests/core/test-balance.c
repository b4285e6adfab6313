/* test-balance.c: loads of a job's masses: handbook rows through a job, laws, what is missing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All weights are invented.
 */
#include <glib.h>
#include <math.h>

#include "balance.h"
#include "fixture.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

#define STROKE_MM 80.0
#define ROD_MM 160.0
#define SPACING_MM 100.0
#define RPM 6000.0

typedef struct
{
  TgJob *job;
  TgReview *review;
  TgBalance *balance;
} Case;

static void
say (TgSetup *setup, const char *path, const char *value)
{
  g_autoptr (GError) error = NULL;

  tg_setup_set (setup, path, value, &error);
  g_assert_no_error (error);
}

/* Rods and pistons of an engine of @kind with @extra ("path=value path=value"). */
static TgSetup *
new_setup (const char *kind, guint cylinders, const char *extra)
{
  TgSetup *setup = fixture_setup (cylinders, TRUE, TRUE);
  g_auto (GStrv) words = g_strsplit (extra, " ", -1);

  say (setup, "engine.kind", kind);
  say (setup, "engine.stroke", "80");
  say (setup, "engine.rod-length", "160");
  say (setup, "engine.spacing", "100");
  say (setup, "engine.speed", "6000");
  say (setup, "engine.factor", "0");
  for (guint i = 0; words[i] && words[i][0]; i++)
    {
      g_auto (GStrv) pair = g_strsplit (words[i], "=", 2);

      say (setup, pair[0], pair[1]);
    }
  return setup;
}

static void
review_case (Case *c)
{
  c->review = tg_review_new (c->job);
  c->balance = tg_balance_new (c->job, c->review);
}

static void
case_clear (Case *c)
{
  tg_balance_free (c->balance);
  tg_review_free (c->review);
  tg_job_free (c->job);
}

/* Every piston 400 g, small end 150 g, big end 450 g. */
static void
even_case (Case *c, const char *kind, guint cylinders, const char *extra)
{
  c->job = tg_job_new (new_setup (kind, cylinders, extra));
  for (guint i = 1; i <= cylinders; i++)
    {
      fixture_weigh_rod (c->job, i, 150, 450);
      fixture_weigh_piston (c->job, i, 400);
    }
  review_case (c);
}

static double
unit_n (double kg)
{
  double speed = RPM * G_PI / 30;

  return kg * STROKE_MM / 2000 * speed * speed;
}

/* Free forces and couples with even parts: the table in the Automotive Handbook (Bosch), chapter on
 * reciprocating-piston engines (from memory, each row computed apart from this code).  Counterweights
 * for what turns, none for what goes up and down.  F1 = m r ω², F2 = A₂ F1 in the place of λ F1; couples
 * over the bore spacing, of boxers with two and four cylinders over the offset within a pair. */
static void
test_handbook (void)
{
  static const struct
  {
    const char *kind;
    guint n;
    const char *extra;
    double force[2], couple[2];
    double arm_mm;
  } rows[] = {
    { "single", 1, "", { 1, 1 }, { 0, 0 }, 100 },
    { "twin-360", 2, "", { 2, 2 }, { 0, 0 }, 100 },
    { "twin-180", 2, "", { 0, 2 }, { 1, 0 }, 100 },
    { "inline", 3, "", { 0, 0 }, { 1.7321, 1.7321 }, 100 },
    { "inline", 4, "", { 0, 4 }, { 0, 0 }, 100 },
    { "inline", 5, "", { 0, 0 }, { 0.4490, 4.9798 }, 100 },
    { "inline", 5, "engine.order=1-2-4-5-3", { 0, 0 }, { 0.4490, 4.9798 }, 100 },
    { "inline", 5, "engine.order=1-5-2-3-4", { 0, 0 }, { 4.9798, 0.4490 }, 100 },
    { "inline", 6, "", { 0, 0 }, { 0, 0 }, 100 },
    { "v6", 6, "engine.bank-angle=90", { 0, 0 }, { 1.7321, 2.4495 }, 100 },
    { "v6", 6, "engine.bank-angle=60 engine.split-pins=yes", { 0, 0 }, { 1.5, 1.5 }, 100 },
    { "v8-cross", 8, "", { 0, 0 }, { 3.1623, 0 }, 100 },
    { "v8-flat", 8, "", { 0, 5.6569 }, { 0, 0 }, 100 },
    { "boxer", 2, "engine.offset=30", { 0, 0 }, { 1, 1 }, 30 },
    { "boxer", 4, "engine.offset=30", { 0, 0 }, { 0, 2 }, 30 },
    { "boxer", 6, "engine.offset=30", { 0, 0 }, { 0, 0 }, 30 },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      double factors[TG_DYNAMICS_N_ORDERS];
      Case c;

      even_case (&c, rows[i].kind, rows[i].n, rows[i].extra);
      g_assert_true (tg_balance_is_known (c.balance, TG_BALANCE_NOW));
      g_assert_true (c.balance->has_couples);
      tg_dynamics_factors (&c.balance->crank, factors);
      for (TgDynamicsOrder o = 0; o <= TG_DYNAMICS_SECOND; o++)
        {
          double unit = unit_n (0.55) * factors[o];
          TgBalanceFigure force = tg_balance_figure (c.balance, TG_BALANCE_NOW, TG_BALANCE_OWN,
                                                     TG_BALANCE_FORCE, o, RPM);
          TgBalanceFigure couple = tg_balance_figure (c.balance, TG_BALANCE_NOW, TG_BALANCE_OWN,
                                                      TG_BALANCE_COUPLE, o, RPM);

          g_test_message ("%s of %u, order %u", rows[i].kind, rows[i].n, o);
          NEAR (force.largest / unit, rows[i].force[o], 5e-5);
          NEAR (couple.largest / (unit * rows[i].arm_mm / 1000), rows[i].couple[o], 5e-5);
          g_assert_cmpfloat (force.expanded, ==, 0);
        }
      case_clear (&c);
    }
}

/* Even parts leave the layout's own and nothing else. */
static void
test_even (void)
{
  static const struct
  {
    const char *kind;
    guint n;
  } rows[] = {
    { "inline", 3 }, { "inline", 4 }, { "inline", 6 }, { "v8-cross", 8 }, { "v12", 12 }
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Case c;

      even_case (&c, rows[i].kind, rows[i].n, "");
      for (TgBalanceLoad load = 0; load < TG_BALANCE_N_LOADS; load++)
        {
          TgBalanceFigure peak = tg_balance_peak (c.balance, TG_BALANCE_NOW, TG_BALANCE_SPREAD,
                                                  load, RPM);

          g_assert_cmpfloat (peak.largest, ==, 0);
          g_assert_cmpfloat (peak.expanded, >, 0);
          for (TgDynamicsOrder o = 0; o < TG_DYNAMICS_N_ORDERS; o++)
            {
              TgBalanceFigure spread = tg_balance_figure (c.balance, TG_BALANCE_NOW,
                                                          TG_BALANCE_SPREAD, load, o, RPM);
              TgBalanceFigure own = tg_balance_figure (c.balance, TG_BALANCE_NOW, TG_BALANCE_OWN,
                                                       load, o, RPM);
              TgBalanceFigure whole = tg_balance_figure (c.balance, TG_BALANCE_NOW,
                                                         TG_BALANCE_WHOLE, load, o, RPM);

              g_assert_cmpfloat (spread.largest, ==, 0);
              NEAR (own.largest, whole.largest, 1e-6);
            }
        }
      case_clear (&c);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/balance/handbook", test_handbook);
  g_test_add_func ("/balance/even", test_even);
  return g_test_run ();
}
