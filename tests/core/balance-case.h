/* balance-case.h: jobs with an engine, for the tests of its balance
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All weights are invented.
 */
#pragma once

#include "balance.h"
#include "fixture.h"

/* Stroke 80 mm, rod 160 mm, bore spacing 100 mm */
#define BALANCE_CASE_RPM 6000.0

typedef struct
{
  TgJob *job;
  TgReview *review;
  TgBalance *balance;
} BalanceCase;

void balance_case_say (TgSetup *setup, const char *path, const char *value);

/* Rods and pistons of an engine of @kind, balance factor 0, with @extra ("path=value path=value"). */
TgSetup *balance_case_setup (const char *kind, guint cylinders, const char *extra);

/* Weighs rod and piston of a bore: so much above 400 g, small end 150 g, big end 450 g. */
void balance_case_weigh (TgJob *job, guint bore, double piston_g, double small_g, double big_g);

/* Takes @job. */
void balance_case_review (BalanceCase *c, TgJob *job);
/* Even parts of 400, 150 and 450 g. */
void balance_case_even (BalanceCase *c, const char *kind, guint cylinders, const char *extra);
/* Piston @more_g[i] heavier than that, its big end @big_g[i]; either may be NULL. */
void balance_case_uneven (BalanceCase *c,
                          const char *kind,
                          guint cylinders,
                          const char *extra,
                          const double *more_g,
                          const double *big_g);
void balance_case_clear (BalanceCase *c);

/* m r ω² of @kg at BALANCE_CASE_RPM, N */
double balance_case_newton (double kg);
