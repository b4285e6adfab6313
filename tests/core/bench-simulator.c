/* bench-simulator.c: see bench-simulator.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings: truth + zero + normal scatter, to the nearest step.  The zero between two checks is the
 * bridge of a gamma process of shape 2: it never turns back, half-way it is equally likely anywhere
 * between the two, and it may go all at once (uncertainty.h, tg_uncertainty_drift_covariance()).
 *
 * Not here: a scale that reads wrong by a factor, scatter that is not normal, parts that warm up.
 */
#include "bench-simulator.h"

#include <math.h>
#include <string.h>

#include "fixture.h"

#define ZERO_SHAPE 2.0

double
bench_simulator_normal (GRand *rand)
{
  return sqrt (-2 * log (1 - g_rand_double (rand))) * cos (2 * G_PI * g_rand_double (rand));
}

/* Gamma deviate of shape below 1: that of shape + 1 after Marsaglia and Tsang (2000), times
 * U^(1/shape); from memory. */
static double
gamma_deviate (GRand *rand, double shape)
{
  double d = shape + 1 - 1 / 3.0, c = 1 / sqrt (9 * d);

  while (TRUE)
    {
      double x = bench_simulator_normal (rand), v = 1 + c * x;

      v = v * v * v;
      if (v > 0 && log (1 - g_rand_double (rand)) < x * x / 2 + d - d * v + d * log (v))
        return d * v * pow (1 - g_rand_double (rand), 1 / shape);
    }
}

BenchSimulator *
bench_simulator_new (const BenchPlan *plan, guint32 seed)
{
  BenchSimulator *bench = g_new0 (BenchSimulator, 1);
  TgSetup *setup = fixture_setup (MAX (plan->rods, plan->pistons), plan->rods > 0,
                                  plan->pistons > 0);

  bench->plan = *plan;
  bench->rand = g_rand_new_with_seed (seed);
  bench->parts = g_array_new (FALSE, FALSE, sizeof (BenchPart));
  bench->slip = -1;
  setup->resolution = tg_mass_from_g (plan->step_g);
  setup->repeats = plan->repeats;
  for (guint b = 0; b < TG_N_BANDS && plan->tolerance > 0; b++)
    setup->tolerance[b] = plan->tolerance;
  for (guint i = 0; i < setup->parts->len; i++)
    {
      BenchPart part = { .design = tg_setup_part (setup, i)->design };
      gboolean rod = part.design->kind == TG_PART_ROD;

      part.small_g = rod ? g_rand_double_range (bench->rand, 170, 173) : 0;
      part.big_g = rod ? g_rand_double_range (bench->rand, 410, 414)
                       : g_rand_double_range (bench->rand, 520, 523);
      g_array_append_val (bench->parts, part);
      for (guint z = 0; rod && z < part.design->zones->len; z++)
        bench->lever[z] = tg_design_zone_position (part.design, tg_design_zone (part.design, z)) /
                          part.design->rod.centres;
    }
  bench->job = tg_job_new (setup);
  return bench;
}

void
bench_simulator_free (BenchSimulator *bench)
{
  g_rand_free (bench->rand);
  g_array_unref (bench->parts);
  tg_job_free (bench->job);
  g_free (bench);
}

double
bench_simulator_truth (const BenchSimulator *bench, guint index, TgFigure figure)
{
  const BenchPart *part = &g_array_index (bench->parts, BenchPart, index);

  return figure == TG_FIGURE_SMALL_END ? part->small_g
         : figure == TG_FIGURE_BIG_END ? part->big_g
                                       : part->small_g + part->big_g;
}

/* -- readings ---------------------------------------------------------------------------------- */

static TgMass
shown (BenchSimulator *bench, double truth_g, double sigma_g)
{
  double step_g = bench->plan.step_g;
  double value_g = truth_g + bench->zero_g + sigma_g * bench_simulator_normal (bench->rand);

  return (TgMass) round (value_g / step_g) * tg_mass_from_g (step_g);
}

/* What a fault takes from or adds to every reading of its kind. */
static double
lasting_fault_g (const BenchSimulator *bench, TgSlot slot)
{
  const TgSlot *faulty = &bench->faulty;

  if (slot.part != faulty->part || slot.figure != faulty->figure)
    return 0;
  if (bench->plan.fault == BENCH_FAULT_FRICTION)
    return slot.way == faulty->way ? bench->plan.fault_g : 0;
  return bench->plan.fault == BENCH_FAULT_TOUCH ? -fabs (bench->plan.fault_g) : 0;
}

/* The first pair of neighbouring digits from the right that differ. */
static TgMass
swap_digits (TgMass mass, TgMass step)
{
  for (TgMass unit = step; unit * 10 <= mass; unit *= 10)
    {
      TgMass low = mass / unit % 10, high = mass / unit / 10 % 10;

      if (low != high)
        return mass + (low - high) * unit * 10 + (high - low) * unit;
    }
  return mass;
}

static TgMass
slipped (const BenchSimulator *bench, TgMass mass)
{
  TgMass step = tg_mass_from_g (bench->plan.step_g);

  switch (bench->plan.fault)
    {
    case BENCH_FAULT_SLIP:
      return mass + (TgMass) round (bench->plan.fault_g / bench->plan.step_g) * step;
    case BENCH_FAULT_TENFOLD:
      return mass * 10;
    case BENCH_FAULT_SWAPPED:
      return swap_digits (mass, step);
    default:
      return mass;
    }
}

static void
append_reading (BenchSimulator *bench, TgSlot slot, gboolean slip)
{
  double sigma_g = slot.figure == TG_FIGURE_WHOLE ? bench->plan.pan_g : bench->plan.stand_g;
  double truth_g = bench_simulator_truth (bench, slot.part, slot.figure);
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  event.part = tg_setup_part (tg_job_setup (bench->job), slot.part)->id;
  event.figure = slot.figure;
  event.way = slot.way;
  event.mass = shown (bench, truth_g + lasting_fault_g (bench, slot), sigma_g);
  if (slip)
    {
      event.mass = slipped (bench, event.mass);
      bench->slip = (int) tg_job_n_events (bench->job);
    }
  fixture_append (bench->job, event);
}

void
bench_simulator_read (BenchSimulator *bench, TgSlot slot)
{
  append_reading (bench, slot, FALSE);
}

/* -- zero and check weight --------------------------------------------------------------------- */

static void
look_at_zero (BenchSimulator *bench)
{
  TgEvent event = tg_event_blank (TG_EVENT_ZERO);

  event.mass = shown (bench, 0, bench->plan.pan_g);
  event.set_back = bench->plan.set_back;
  fixture_append (bench->job, event);
  if (bench->plan.set_back)
    bench->zero_g = bench->plan.step_g * g_rand_double_range (bench->rand, -0.25, 0.25);
}

static void
put_check_weight_on (BenchSimulator *bench)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.nominal = bench->plan.check_weight;
  event.mass = shown (bench, tg_mass_to_g (event.nominal), bench->plan.pan_g);
  fixture_append (bench->job, event);
}

/* -- the whole set ----------------------------------------------------------------------------- */

/* Every slot of one round, in the order of the bench. */
static void
add_round (const BenchSimulator *bench, GArray *slots)
{
  static const TgFigure figures[] = { TG_FIGURE_SMALL_END, TG_FIGURE_BIG_END, TG_FIGURE_WHOLE };

  for (guint f = 0; f < G_N_ELEMENTS (figures); f++)
    for (guint i = 0; i < bench->parts->len; i++)
      {
        gboolean rod = g_array_index (bench->parts, BenchPart, i).design->kind == TG_PART_ROD;
        TgSlot slot = { i, figures[f], TG_WAY_ANY };

        if (figures[f] == TG_FIGURE_WHOLE)
          g_array_append_val (slots, slot);
        for (slot.way = TG_WAY_MARK_UP;
             rod && figures[f] != TG_FIGURE_WHOLE && slot.way < TG_N_WAYS; slot.way++)
          g_array_append_val (slots, slot);
      }
}

/* How far the zero has gone at each of @n readings between two checks, and at the second check. */
static double *
zero_path (BenchSimulator *bench, guint n, double change_g)
{
  double *path = g_new (double, n + 1), sum = 0;

  for (guint i = 0; i <= n; i++)
    path[i] = sum += gamma_deviate (bench->rand, ZERO_SHAPE / (n + 1));
  for (guint i = 0; i <= n; i++)
    path[i] = sum > 0 ? change_g * path[i] / sum : change_g;
  return path;
}

static double
change_of_zero (BenchSimulator *bench, gboolean last)
{
  if (last && bench->plan.fault == BENCH_FAULT_DRIFT)
    return bench->plan.fault_g;
  if (bench->plan.zero != BENCH_ZERO_CREEPS)
    return 0;
  return bench->plan.creep_g * g_rand_double_range (bench->rand, -1, 1);
}

/* Where the fault is; @slip: which reading of all is the slip. */
static void
place_fault (BenchSimulator *bench, const GArray *slots, guint *slip)
{
  gboolean end = bench->plan.fault == BENCH_FAULT_FRICTION ||
                 bench->plan.fault == BENCH_FAULT_TOUCH;

  do
    {
      *slip = (guint) g_rand_int_range (bench->rand, 0, (gint32) slots->len);
      bench->faulty = g_array_index (slots, TgSlot, *slip);
    }
  while (end && bench->faulty.figure == TG_FIGURE_WHOLE);
}

void
bench_simulator_weigh_all (BenchSimulator *bench)
{
  g_autoptr (GArray) slots = g_array_new (FALSE, FALSE, sizeof (TgSlot));
  gboolean looks = bench->plan.zero != BENCH_ZERO_UNSEEN, slips;
  guint slip, between;

  for (guint i = 0; i < bench->plan.repeats; i++)
    add_round (bench, slots);
  place_fault (bench, slots, &slip);
  slips = bench->plan.fault >= BENCH_FAULT_SLIP;
  between = looks ? bench->plan.between : slots->len;
  if (looks)
    look_at_zero (bench);
  for (guint first = 0; first < slots->len; first += between)
    {
      guint n = MIN (between, slots->len - first);
      double change_g = change_of_zero (bench, first + n == slots->len), before_g;
      g_autofree double *path = zero_path (bench, n, change_g);

      if (looks && bench->plan.check_weight > 0)
        put_check_weight_on (bench);
      before_g = bench->zero_g;
      for (guint i = 0; i < n; i++)
        {
          bench->zero_g = before_g + path[i];
          append_reading (bench, g_array_index (slots, TgSlot, first + i),
                          slips && first + i == slip);
        }
      bench->zero_g = before_g + path[n];
      if (looks)
        look_at_zero (bench);
    }
}

/* -- passes ------------------------------------------------------------------------------------ */

void
bench_simulator_grind (BenchSimulator *bench,
                       guint index,
                       guint zone,
                       double wanted_g,
                       TgEffort effort,
                       guint count,
                       double taken_g)
{
  BenchPart *part = &g_array_index (bench->parts, BenchPart, index);
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = tg_setup_part (tg_job_setup (bench->job), index)->id;
  event.zone = tg_design_zone (part->design, zone)->id;
  event.tool = TG_TOOL_BELT;
  event.mass = tg_mass_from_g (wanted_g);
  event.effort = effort;
  event.count = count;
  fixture_append (bench->job, event);
  if (part->design->kind == TG_PART_ROD)
    part->small_g -= taken_g * bench->lever[zone];
  part->big_g -= taken_g * (part->design->kind == TG_PART_ROD ? 1 - bench->lever[zone] : 1);
}
