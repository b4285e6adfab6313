/* test-dynamics-laws.c: what holds for the loads of any engine
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Engines and masses are drawn at random from a fixed seed; none need be an engine one would build.
 */
#include <glib.h>
#include <math.h>

#include "dynamics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)
#define N_NUMBERS (sizeof (TgDynamicsSums) / sizeof (double))
#define ROUNDS 200

typedef struct
{
  TgEngineLayout layout;
  TgDynamicsCrank crank;
  TgDynamicsMasses masses;
} Engine;

/* Loads are around 10⁴ N and 10³ N·m. */
#define TINY 1e-7

static void
draw_masses (GRand *random, double low, double high, TgDynamicsMasses *masses)
{
  for (guint i = 0; i < TG_ENGINE_LAYOUT_MAX; i++)
    {
      masses->reciprocating_kg[i] = g_rand_double_range (random, low, high);
      masses->rotating_kg[i] = g_rand_double_range (random, low, high);
      masses->counterweight_kg[i] = g_rand_double_range (random, low, high);
    }
}

static Engine
draw (GRand *random)
{
  Engine engine = { .layout = { .n = (guint) g_rand_int_range (random, 1, 13) } };

  engine.layout.n_pins = engine.layout.n;
  for (guint i = 0; i < engine.layout.n; i++)
    engine.layout.cylinders[i] = (TgEngineCylinder){
      .bank_deg = g_rand_double_range (random, -90, 90),
      .throw_deg = g_rand_double_range (random, -180, 360),
      .position_mm = g_rand_double_range (random, -400, 400),
      .pin = i,
    };
  engine.crank.radius_mm = g_rand_double_range (random, 20, 60);
  engine.crank.rod_mm = engine.crank.radius_mm * g_rand_double_range (random, 2.8, 5);
  engine.crank.speed_rpm = g_rand_double_range (random, 500, 9000);
  draw_masses (random, 0.2, 1, &engine.masses);
  g_assert_true (tg_engine_layout_check (&engine.layout, NULL));
  return engine;
}

static TgDynamicsSums
sums_of (const Engine *engine, const TgDynamicsMasses *masses)
{
  TgDynamicsSums sums;

  tg_dynamics_sums (&engine->layout, &engine->crank, masses, &sums);
  return sums;
}

static double
at (const TgDynamicsSums *sums, guint k)
{
  return ((const double *) sums)[k];
}

static void
near_sums (const TgDynamicsSums *a, const TgDynamicsSums *b, double tolerance)
{
  for (guint k = 0; k < N_NUMBERS; k++)
    NEAR (at (a, k), at (b, k), tolerance);
}

static TgDynamicsVector
turned (TgDynamicsVector vector, double degrees)
{
  double c = cos (degrees * G_PI / 180);
  double s = sin (degrees * G_PI / 180);

  return (TgDynamicsVector){ c * vector.x - s * vector.y, s * vector.x + c * vector.y };
}

static void
near_vector (TgDynamicsVector a, TgDynamicsVector b, double tolerance)
{
  NEAR (a.x, b.x, tolerance);
  NEAR (a.y, b.y, tolerance);
}

/* Momentum of all that moves, and the same about the crank's middle, in the motion's own words. */
static TgDynamicsLoad
momentum (const Engine *engine, double angle_deg)
{
  double speed = engine->crank.speed_rpm * 2 * G_PI / 60;
  TgDynamicsLoad sum = { 0 };

  for (guint i = 0; i < engine->layout.n; i++)
    {
      const TgEngineCylinder *cylinder = &engine->layout.cylinders[i];
      double throw = angle_deg + cylinder->throw_deg;
      double piston = engine->masses.reciprocating_kg[i] *
                      tg_dynamics_motion (&engine->crank, throw -cylinder->bank_deg).velocity;
      double pin = (engine->masses.rotating_kg[i] - engine->masses.counterweight_kg[i]) * speed *
                   engine->crank.radius_mm / 1000;
      TgDynamicsVector along = turned ((TgDynamicsVector){ piston, 0 }, cylinder->bank_deg);
      TgDynamicsVector across = turned ((TgDynamicsVector){ 0, pin }, throw);
      double arm = cylinder->position_mm / 1000;

      sum.force.x += along.x + across.x;
      sum.force.y += along.y + across.y;
      sum.couple.x += arm * (along.x + across.x);
      sum.couple.y += arm * (along.y + across.y);
    }
  return sum;
}

/* Newton: what the parts do to the engine is what their momentum loses. */
static void
test_momentum (void)
{
  static const double weights[4] = { 4 / 5.0, -1 / 5.0, 4 / 105.0, -1 / 280.0 };
  const double step = 0.5;
  g_autoptr (GRand) random = g_rand_new_with_seed (5);

  for (guint round = 0; round < ROUNDS; round++)
    {
      Engine engine = draw (random);
      double angle = g_rand_double_range (random, -720, 720);
      double speed = engine.crank.speed_rpm * 2 * G_PI / 60;
      TgDynamicsLoad load = tg_dynamics_load (&engine.layout, &engine.crank, &engine.masses, angle);
      double per_second = speed / (step * G_PI / 180);
      TgDynamicsLoad lost = { 0 };
      double scale = engine.layout.n * speed * speed * engine.crank.radius_mm / 1000;

      for (int k = 1; k <= 4; k++)
        {
          TgDynamicsLoad after = momentum (&engine, angle + k * step);
          TgDynamicsLoad before = momentum (&engine, angle - k * step);
          double weight = weights[k - 1] * per_second;

          lost.force.x -= weight * (after.force.x - before.force.x);
          lost.force.y -= weight * (after.force.y - before.force.y);
          lost.couple.x -= weight * (after.couple.x - before.couple.x);
          lost.couple.y -= weight * (after.couple.y - before.couple.y);
        }
      near_vector (load.force, lost.force, 1e-10 * scale);
      near_vector (load.couple, lost.couple, 1e-10 * scale);
    }
}

/* The orders add up to the whole load but for the eighth and on, λ⁷ / 20 of each piston's force. */
static void
test_orders_make_load (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (6);

  for (guint round = 0; round < ROUNDS; round++)
    {
      Engine engine = draw (random);
      TgDynamicsSums sums = sums_of (&engine, &engine.masses);
      double angle = g_rand_double_range (random, -720, 720);
      double lambda = engine.crank.radius_mm / engine.crank.rod_mm;
      double scale = engine.crank.radius_mm / 1000 *
                     pow (engine.crank.speed_rpm * 2 * G_PI / 60, 2);
      double left = engine.layout.n * scale * pow (lambda, 7) / 20;
      TgDynamicsLoad load = tg_dynamics_load (&engine.layout, &engine.crank, &engine.masses, angle);
      TgDynamicsLoad sum = { 0 };

      for (guint n = 0; n < TG_DYNAMICS_N_ORDERS; n++)
        {
          TgDynamicsVector force = tg_dynamics_pair_at (&sums.force[n], n, angle);
          TgDynamicsVector couple = tg_dynamics_pair_at (&sums.couple[n], n, angle);

          sum.force.x += force.x;
          sum.force.y += force.y;
          sum.couple.x += couple.x;
          sum.couple.y += couple.y;
        }
      near_vector (sum.force, load.force, left);
      near_vector (sum.couple, load.couple, 0.4 * left);
    }
}

/* Turning the engine turns the forces; so does the load at every angle of the crank. */
static void
test_turning (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (7);

  for (guint round = 0; round < ROUNDS; round++)
    {
      Engine engine = draw (random);
      Engine other = engine;
      double by = g_rand_double_range (random, -90, 90);
      double angle = g_rand_double_range (random, -720, 720);
      TgDynamicsSums sums = sums_of (&engine, &engine.masses);
      TgDynamicsSums others;
      TgDynamicsLoad load = tg_dynamics_load (&engine.layout, &engine.crank, &engine.masses, angle);
      TgDynamicsLoad other_load;

      for (guint i = 0; i < other.layout.n; i++)
        {
          other.layout.cylinders[i].bank_deg += by;
          other.layout.cylinders[i].throw_deg += by;
        }
      others = sums_of (&other, &other.masses);
      for (guint n = 0; n < TG_DYNAMICS_N_ORDERS; n++)
        {
          near_vector (others.force[n].forward, turned (sums.force[n].forward, by), TINY);
          near_vector (others.force[n].backward, turned (sums.force[n].backward, by), TINY);
          near_vector (others.couple[n].forward, turned (sums.couple[n].forward, by), TINY);
          near_vector (others.couple[n].backward, turned (sums.couple[n].backward, by), TINY);
        }
      other_load = tg_dynamics_load (&other.layout, &other.crank, &other.masses, angle);
      near_vector (other_load.force, turned (load.force, by), TINY);
      near_vector (other_load.couple, turned (load.couple, by), TINY);
    }
}

/* Numbering the cylinders otherwise changes nothing; doubled speed makes four times as much; moving
 * the whole engine along changes couples by force times way. */
static void
test_relabel_speed_shift (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (8);

  for (guint round = 0; round < ROUNDS; round++)
    {
      Engine engine = draw (random);
      Engine other = engine;
      TgDynamicsSums sums = sums_of (&engine, &engine.masses);
      TgDynamicsSums others;
      guint n = engine.layout.n;

      for (guint i = 0; i < n; i++)
        {
          guint j = (i * (n > 2 ? n - 1 : 1) + 1) % n;

          other.layout.cylinders[j] = engine.layout.cylinders[i];
          other.masses.reciprocating_kg[j] = engine.masses.reciprocating_kg[i];
          other.masses.rotating_kg[j] = engine.masses.rotating_kg[i];
          other.masses.counterweight_kg[j] = engine.masses.counterweight_kg[i];
        }
      others = sums_of (&other, &other.masses);
      near_sums (&others, &sums, TINY);

      other = engine;
      other.crank.speed_rpm *= 2;
      others = sums_of (&other, &other.masses);
      for (guint k = 0; k < N_NUMBERS; k++)
        NEAR (at (&others, k), 4 * at (&sums, k), TINY);

      other = engine;
      for (guint i = 0; i < n; i++)
        other.layout.cylinders[i].position_mm += 250;
      others = sums_of (&other, &other.masses);
      for (guint order = 0; order < TG_DYNAMICS_N_ORDERS; order++)
        {
          NEAR (others.couple[order].forward.x,
                sums.couple[order].forward.x + 0.25 * sums.force[order].forward.x, TINY);
          NEAR (others.couple[order].backward.y,
                sums.couple[order].backward.y + 0.25 * sums.force[order].backward.y, TINY);
        }
    }
}

/* Linear in the masses; the spread is the engine less the even engine, and of even parts it is 0. */
static void
test_linear_and_spread (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (9);

  for (guint round = 0; round < ROUNDS; round++)
    {
      Engine engine = draw (random);
      TgDynamicsMasses other, mixed, spread, even;
      TgDynamicsSums a = sums_of (&engine, &engine.masses);
      TgDynamicsSums b, c;

      draw_masses (random, -1, 1, &other);
      tg_dynamics_spread (&engine.layout, &engine.masses, &spread);
      for (guint i = 0; i < engine.layout.n; i++)
        {
          mixed.reciprocating_kg[i] = 2 * engine.masses.reciprocating_kg[i] -
                                      3 * other.reciprocating_kg[i];
          mixed.rotating_kg[i] = 2 * engine.masses.rotating_kg[i] - 3 * other.rotating_kg[i];
          mixed.counterweight_kg[i] = 2 * engine.masses.counterweight_kg[i] -
                                      3 * other.counterweight_kg[i];
          even.reciprocating_kg[i] = engine.masses.reciprocating_kg[i] - spread.reciprocating_kg[i];
          even.rotating_kg[i] = engine.masses.rotating_kg[i] - spread.rotating_kg[i];
          even.counterweight_kg[i] = engine.masses.counterweight_kg[i];
          NEAR (even.reciprocating_kg[i], even.reciprocating_kg[0], 1e-14);
          NEAR (even.rotating_kg[i], even.rotating_kg[0], 1e-14);
        }
      b = sums_of (&engine, &other);
      c = sums_of (&engine, &mixed);
      for (guint k = 0; k < N_NUMBERS; k++)
        NEAR (at (&c, k), 2 * at (&a, k) - 3 * at (&b, k), TINY);
      b = sums_of (&engine, &even);
      c = sums_of (&engine, &spread);
      for (guint k = 0; k < N_NUMBERS; k++)
        NEAR (at (&c, k), at (&a, k) - at (&b, k), TINY);
      tg_dynamics_spread (&engine.layout, &even, &spread);
      c = sums_of (&engine, &spread);
      for (guint k = 0; k < N_NUMBERS; k++)
        NEAR (at (&c, k), 0, TINY);
    }
}

/* Which mass of @masses, of the 3 n there are. */
static double *
mass_at (TgDynamicsMasses *masses, guint n, guint which)
{
  double *kinds[] = { masses->reciprocating_kg, masses->rotating_kg, masses->counterweight_kg };

  return &kinds[which / n][which % n];
}

/* JCGM 100:2008, 5.1.3, note 2: the same by moving each mass in turn by its standard uncertainty. */
static void
test_uncertainty (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (10);

  for (guint round = 0; round < ROUNDS / 4; round++)
    {
      Engine engine = draw (random);
      guint n = engine.layout.n;
      double whole[N_NUMBERS] = { 0 };
      double apart[N_NUMBERS] = { 0 };
      TgDynamicsSums a, b, all, spreads;
      TgDynamicsMasses uncertainties, moved, spread;

      draw_masses (random, 0, 0.001, &uncertainties);
      a = sums_of (&engine, &engine.masses);
      tg_dynamics_spread (&engine.layout, &engine.masses, &spread);
      b = sums_of (&engine, &spread);
      for (guint which = 0; which < 3 * n; which++)
        {
          TgDynamicsSums c, d;

          moved = engine.masses;
          *mass_at (&moved, n, which) += *mass_at (&uncertainties, n, which);
          tg_dynamics_spread (&engine.layout, &moved, &spread);
          c = sums_of (&engine, &moved);
          d = sums_of (&engine, &spread);
          for (guint k = 0; k < N_NUMBERS; k++)
            {
              whole[k] += pow (at (&c, k) - at (&a, k), 2);
              apart[k] += pow (at (&d, k) - at (&b, k), 2);
            }
        }
      tg_dynamics_uncertainty (&engine.layout, &engine.crank, &uncertainties, &all);
      tg_dynamics_spread_uncertainty (&engine.layout, &engine.crank, &uncertainties, &spreads);
      for (guint k = 0; k < N_NUMBERS; k++)
        {
          NEAR (at (&all, k), sqrt (whole[k]), TINY);
          NEAR (at (&spreads, k), sqrt (apart[k]), TINY);
        }
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/dynamics-laws/momentum", test_momentum);
  g_test_add_func ("/dynamics-laws/orders-make-load", test_orders_make_load);
  g_test_add_func ("/dynamics-laws/turning", test_turning);
  g_test_add_func ("/dynamics-laws/relabel-speed-shift", test_relabel_speed_shift);
  g_test_add_func ("/dynamics-laws/linear-and-spread", test_linear_and_spread);
  g_test_add_func ("/dynamics-laws/uncertainty", test_uncertainty);
  return g_test_run ();
}
