/* balance-case.c: see balance-case.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "balance-case.h"

void
balance_case_say (TgSetup *setup, const char *path, const char *value)
{
  g_autoptr (GError) error = NULL;

  tg_setup_set (setup, path, value, &error);
  g_assert_no_error (error);
}

TgSetup *
balance_case_setup (const char *kind, guint cylinders, const char *extra)
{
  static const char *const always[][2] = {
    { "engine.stroke", "80" },  { "engine.rod-length", "160" }, { "engine.spacing", "100" },
    { "engine.speed", "6000" }, { "engine.factor", "0" },
  };
  TgSetup *setup = fixture_setup (cylinders, TRUE, TRUE);
  g_auto (GStrv) words = g_strsplit (extra, " ", -1);

  balance_case_say (setup, "engine.kind", kind);
  for (guint i = 0; i < G_N_ELEMENTS (always); i++)
    balance_case_say (setup, always[i][0], always[i][1]);
  for (guint i = 0; words[i] && words[i][0]; i++)
    {
      g_auto (GStrv) pair = g_strsplit (words[i], "=", 2);

      balance_case_say (setup, pair[0], pair[1]);
    }
  return setup;
}

void
balance_case_weigh (TgJob *job, guint bore, double piston_g, double small_g, double big_g)
{
  fixture_weigh_rod (job, bore, 150 + small_g, 450 + big_g);
  fixture_weigh_piston (job, bore, 400 + piston_g);
}

void
balance_case_review (BalanceCase *c, TgJob *job)
{
  c->job = job;
  c->review = tg_review_new (job);
  c->balance = tg_balance_new (job, c->review);
}

void
balance_case_uneven (BalanceCase *c,
                     const char *kind,
                     guint cylinders,
                     const char *extra,
                     const double *more_g,
                     const double *big_g)
{
  TgJob *job = tg_job_new (balance_case_setup (kind, cylinders, extra));

  for (guint i = 0; i < cylinders; i++)
    balance_case_weigh (job, i + 1, more_g ? more_g[i] : 0, 0, big_g ? big_g[i] : 0);
  balance_case_review (c, job);
}

void
balance_case_even (BalanceCase *c, const char *kind, guint cylinders, const char *extra)
{
  balance_case_uneven (c, kind, cylinders, extra, NULL, NULL);
}

void
balance_case_clear (BalanceCase *c)
{
  tg_balance_free (c->balance);
  tg_review_free (c->review);
  tg_job_free (c->job);
}

double
balance_case_newton (double kg)
{
  double speed = BALANCE_CASE_RPM * G_PI / 30;

  return kg * 0.04 * speed * speed;
}
