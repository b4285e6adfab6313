/* fixture.h: jobs for the tests, and a bench with known true weights
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures here are invented.
 */
#pragma once

#include "job.h"
#include "review.h"

/* A rod design of 150 mm centres with small-end pad, shoulders, cap pad, a with-care and a never
 * zone; a piston design with boss feet, a with-care and a never zone. (transfer full) */
TgDesign *fixture_rod_design (void);
TgDesign *fixture_piston_design (void);

/* @cylinders in line, scale step 0.1 g, tolerance 0.5 g each. (transfer full) */
TgSetup *fixture_setup (guint cylinders, gboolean rods, gboolean pistons);

/* Adds a set of pins, rings, clips or bearings, and so many spares. */
void fixture_add_family (TgSetup *setup, TgPartKind kind, guint spares);

/* Appends with a fresh id and the next second; the event must be accepted. */
void fixture_append (TgJob *job, TgEvent event);
/* A weighing; @part is lent. */
TgEvent fixture_reading (const char *part, TgFigure figure, TgWay way, double grams);
void fixture_weigh (TgJob *job, const char *part, TgFigure figure, TgWay way, double grams);
/* Both ways up of both ends, alike. */
void fixture_weigh_rod (TgJob *job, guint number, double small_g, double big_g);
void fixture_weigh_piston (TgJob *job, guint number, double grams);
void fixture_pass (TgJob *job, const char *part, const char *zone, double wanted_g);
void fixture_target (TgJob *job, TgBand band, double grams);

/* A bench that knows the truth. */
typedef struct
{
  TgDesign *design;
  double small_g, big_g, turn_g;
} FixturePart;

typedef struct
{
  GRand *rand;
  double noise_g; /* standard deviation of a reading before rounding */
  double scatter; /* of what a pass takes, share of what was wanted */
  double step_g;
  GArray *parts; /* FixturePart, as in the setup */
} FixtureBench;

FixtureBench *fixture_bench_new (const TgSetup *setup, guint32 seed);
void fixture_bench_free (FixtureBench *bench);
double fixture_bench_read (FixtureBench *bench, TgSlot slot);
void fixture_bench_grind (FixtureBench *bench, guint part, guint zone, double wanted_g);
/* Heaviest minus lightest of the true figure of a band. */
double fixture_bench_spread (const FixtureBench *bench, TgBand band);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (FixtureBench, fixture_bench_free)
