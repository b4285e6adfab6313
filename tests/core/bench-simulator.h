/* bench-simulator.h: a bench whose truth is known: true weights, a scale, its zero, its faults
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bench fills a real journal with weighings, zero checks, check weights and passes; what follows
 * from it is left to the review.  Nothing but the seed decides what happens.  All figures are
 * invented.
 */
#pragma once

#include "job.h"
#include "review.h"

/* What the zero of the scale does, and whether anybody looks. */
typedef enum
{
  BENCH_ZERO_UNSEEN, /* it stays where it is; no zero checks */
  BENCH_ZERO_STILL,  /* it stays where it is; zero checks */
  BENCH_ZERO_CREEPS, /* it goes a few steps from check to check and never turns back between them */
} BenchZero;
#define BENCH_N_ZEROS 3

typedef enum
{
  BENCH_FAULT_NONE,
  BENCH_FAULT_FRICTION, /* one way up of one end reads off by the same amount each time */
  BENCH_FAULT_TOUCH,    /* every reading of one end loses the same amount */
  BENCH_FAULT_DRIFT,    /* the zero is off at the last check */
  BENCH_FAULT_SLIP,     /* one reading is off by an amount */
  BENCH_FAULT_TENFOLD,  /* one reading is ten times too much */
  BENCH_FAULT_SWAPPED,  /* two neighbouring digits of one reading are swapped */
} BenchFault;

/**
 * BenchPlan:
 * @repeats: readings of each figure and way up
 * @step_g: of the scale
 * @stand_g, @pan_g: standard deviation of one reading before rounding, ends on the stand and whole
 *   parts (and the empty scale) on the pan
 * @between: readings from one zero check to the next
 * @creep_g: the zero goes up to so far from check to check, either way, equally likely
 * @set_back: the scale is set to zero after each check, to within a quarter of a step (OIML R 76-1,
 *   4.5.2, from memory)
 * @check_weight: on the pan after each zero check; 0: none
 * @tolerance: of every band; 0: that of the fixture
 * @fault_g: how large the fault is, signed
 */
typedef struct
{
  guint rods;
  guint pistons;
  guint repeats;
  double step_g;
  double stand_g;
  double pan_g;
  BenchZero zero;
  guint between;
  double creep_g;
  gboolean set_back;
  TgMass check_weight;
  TgMass tolerance;
  BenchFault fault;
  double fault_g;
} BenchPlan;

/* One part: pistons have big_g alone. */
typedef struct
{
  const TgDesign *design;
  double small_g;
  double big_g;
} BenchPart;

/**
 * BenchSimulator:
 * @parts: (element-type BenchPart), as in the setup
 * @lever: by zone of the rod design: true d/L, as it is drawn unless changed
 * @zero_g: true zero error now
 * @faulty: where the fault is: part, figure, way
 * @slip: index in the journal of the reading that is a slip, or -1
 */
typedef struct
{
  BenchPlan plan;
  GRand *rand;
  TgJob *job;
  GArray *parts;
  double lever[TG_DESIGN_MAX_ZONES];
  double zero_g;
  TgSlot faulty;
  int slip;
} BenchSimulator;

BenchSimulator *bench_simulator_new (const BenchPlan *plan, guint32 seed);
void bench_simulator_free (BenchSimulator *bench);

/* Normal deviate of standard deviation 1. */
double bench_simulator_normal (GRand *rand);

/* True weight of a figure. */
double bench_simulator_truth (const BenchSimulator *bench, guint part, TgFigure figure);

/* Reads @slot once and appends the weighing. */
void bench_simulator_read (BenchSimulator *bench, TgSlot slot);

/* Every figure of the set, round by round in the order of the bench, with zero checks and weights as
 * planned; and the fault, if there is one. */
void bench_simulator_weigh_all (BenchSimulator *bench);

/**
 * bench_simulator_grind:
 * @wanted_g: as it is logged
 * @effort, @count: as they are logged
 * @taken_g: what really comes off the zone
 */
void bench_simulator_grind (BenchSimulator *bench,
                            guint part,
                            guint zone,
                            double wanted_g,
                            TgEffort effort,
                            guint count,
                            double taken_g);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (BenchSimulator, bench_simulator_free)
