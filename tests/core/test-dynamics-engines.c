/* test-dynamics-engines.c: what the moving masses do to whole engines: published tables and cases
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib.h>
#include <math.h>

#include "dynamics.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* λ = 1/4; 100 mm between bores */
#define RADIUS_MM 40.0
#define ROD_MM 160.0
#define SPACING_MM 100.0

static const TgDynamicsCrank crank = { RADIUS_MM, ROD_MM, 6000 };

/* One kilogram to and fro at each cylinder, none turning. */
static void
ones (TgDynamicsMasses *masses)
{
  *masses = (TgDynamicsMasses){ .rotating_kg = { 0 } };
  for (guint i = 0; i < TG_ENGINE_LAYOUT_MAX; i++)
    masses->reciprocating_kg[i] = 1;
}

static void
near_ellipse (const TgDynamicsPair *pair, double unit, double largest, double smallest)
{
  TgDynamicsEllipse ellipse = tg_dynamics_pair_ellipse (pair);

  NEAR (ellipse.largest / unit, largest, 5e-5);
  NEAR (ellipse.smallest / unit, smallest, 5e-5);
}

/* Free forces and couples: the table in the Automotive Handbook (Bosch), chapter on reciprocating-piston
 * engines: single, in-line 2 to 6, V6 (with shared pins, and 90° and 60° with split pins), V8, V12 and
 * boxers (from memory, each row computed apart from this code, by sums over the cylinders).  Its figures
 * are the largest ones; the smallest of each ellipse, the V-twins and the V10 are computed only.  F1 = m r ω²,
 * F2 = A_2 F1 in the place of λ F1; couples over the bore spacing, of the boxer two and four over the
 * offset within the pair. */
static void
test_handbook (void)
{
  static const struct
  {
    TgEngineSpec spec;
    double force[2][2];
    double couple[2][2];
  } rows[] = {
    { { .kind = TG_ENGINE_SINGLE }, { { 1, 0 }, { 1, 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_TWIN_360 }, { { 2, 0 }, { 2, 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_TWIN_180 }, { { 0 }, { 2, 0 } }, { { 1, 0 } } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 3 }, { { 0 } }, { { 1.7321, 0 }, { 1.7321, 0 } } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 4 }, { { 0 }, { 4, 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 5 }, { { 0 } }, { { 0.4490, 0 }, { 4.9798, 0 } } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 6 }, { { 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_INLINE, .cylinders = 8 }, { { 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_V_TWIN, .bank_angle_deg = 90 }, { { 1, 1 }, { 1.41421, 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_V_TWIN, .bank_angle_deg = 45 },
      { { 1.70711, 0.29289 }, { 1.30656, 0.54120 } },
      { { 0 } } },
    { { .kind = TG_ENGINE_V_TWIN, .bank_angle_deg = 60 },
      { { 1.5, 0.5 }, { 0.86603, 0.86603 } },
      { { 0 } } },
    { { .kind = TG_ENGINE_V6, .bank_angle_deg = 90 },
      { { 0 } },
      { { 1.73205, 1.73205 }, { 2.44949, 0 } } },
    { { .kind = TG_ENGINE_V6, .bank_angle_deg = 90, .split_pins = TRUE },
      { { 0 } },
      { { 2.12132, 1.22474 }, { 2.12132, 1.22474 } } },
    { { .kind = TG_ENGINE_V6, .bank_angle_deg = 60, .split_pins = TRUE },
      { { 0 } },
      { { 1.5, 1.5 }, { 1.5, 1.5 } } },
    { { .kind = TG_ENGINE_V8_CROSS, .bank_angle_deg = 90 },
      { { 0 } },
      { { 3.16228, 3.16228 }, { 0 } } },
    { { .kind = TG_ENGINE_V8_FLAT, .bank_angle_deg = 90 }, { { 0 }, { 5.65685, 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_V10, .bank_angle_deg = 72 },
      { { 0 } },
      { { 0.58779, 0.31027 }, { 5.56758, 2.48990 } } },
    { { .kind = TG_ENGINE_V12, .bank_angle_deg = 60 }, { { 0 } }, { { 0 } } },
    { { .kind = TG_ENGINE_BOXER, .cylinders = 2, .offset_mm = 40 },
      { { 0 } },
      { { 0.4, 0 }, { 0.4, 0 } } },
    { { .kind = TG_ENGINE_BOXER, .cylinders = 4, .offset_mm = 40 },
      { { 0 } },
      { { 0 }, { 0.8, 0 } } },
    { { .kind = TG_ENGINE_BOXER, .cylinders = 6, .offset_mm = 40 }, { { 0 } }, { { 0 } } },
  };
  double factors[TG_DYNAMICS_N_ORDERS];
  TgDynamicsMasses masses;
  double one = RADIUS_MM / 1000 * pow (6000 * 2 * G_PI / 60, 2);

  tg_dynamics_factors (&crank, factors);
  ones (&masses);
  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      TgEngineSpec spec = rows[i].spec;
      TgEngineLayout layout;
      TgDynamicsSums sums;

      spec.spacing_mm = SPACING_MM;
      g_assert_true (tg_engine_layout_make (&spec, &layout, NULL));
      tg_dynamics_sums (&layout, &crank, &masses, &sums);
      for (guint n = TG_DYNAMICS_FIRST; n <= TG_DYNAMICS_SECOND; n++)
        {
          double unit = one * factors[n];

          near_ellipse (&sums.force[n], unit, rows[i].force[n][0], rows[i].force[n][1]);
          near_ellipse (&sums.couple[n], unit * SPACING_MM / 1000, rows[i].couple[n][0],
                        rows[i].couple[n][1]);
        }
    }
}

static void
sums_of (TgEngineSpec spec, double factor, TgDynamicsSums *sums)
{
  TgDynamicsMasses masses;
  TgEngineLayout layout;

  ones (&masses);
  spec.spacing_mm = SPACING_MM;
  g_assert_true (tg_engine_layout_make (&spec, &layout, NULL));
  tg_dynamics_counterweigh (&layout, 1, factor, &masses);
  tg_dynamics_sums (&layout, &crank, &masses, sums);
}

/* What counterweights do.  50 % takes the whole first order off a 90° V-twin and V8 (published by
 * several engine shops).  90° V6 with 30° pins: 0.4483 F1 a is left, turning backward (Automotive
 * Handbook, from memory), and at the trade's figure of 36.6 %, which is (√3 − 1) / 2, it goes to and fro
 * in one plane.  60° V6: none is left.  Single: half, turning backward.  V10 on five pins: of each
 * pin's two rods half of both turns forward at any bank angle, cos (bank angle) of it backward. */
static void
test_counterweights (void)
{
  double unit = RADIUS_MM / 1000 * pow (6000 * 2 * G_PI / 60, 2);
  TgDynamicsSums sums;

  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_V_TWIN, .bank_angle_deg = 90 }, 0.5, &sums);
  near_ellipse (&sums.force[0], unit, 0, 0);
  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_SINGLE }, 0.5, &sums);
  near_ellipse (&sums.force[0], unit, 0.5, 0.5);
  NEAR (sums.force[0].forward.x / unit, 0, 1e-12);
  unit *= SPACING_MM / 1000;
  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_V8_CROSS, .bank_angle_deg = 90 }, 0.5, &sums);
  near_ellipse (&sums.couple[0], unit, 0, 0);
  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_V6, .bank_angle_deg = 60, .split_pins = TRUE }, 0.5,
           &sums);
  near_ellipse (&sums.couple[0], unit, 0, 0);
  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_V6, .bank_angle_deg = 90, .split_pins = TRUE }, 0.5,
           &sums);
  near_ellipse (&sums.couple[0], unit, 0.44829, 0.44829);
  NEAR (hypot (sums.couple[0].forward.x, sums.couple[0].forward.y) / unit, 0, 1e-12);
  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_V6, .bank_angle_deg = 90, .split_pins = TRUE },
           (sqrt (3) - 1) / 2, &sums);
  near_ellipse (&sums.couple[0], unit, 0.89658, 0);
  sums_of ((TgEngineSpec){ .kind = TG_ENGINE_V10, .bank_angle_deg = 72 }, 0.5, &sums);
  near_ellipse (&sums.couple[0], unit, 0.44903 * cos (72 * G_PI / 180), 0.13876);
}

/* Multiples of half the cylinders are left over of an in-line engine, all other orders cancel (a
 * question in adapala-academy.com's forum): 4, 6 and 8 cylinders. */
static void
test_higher_orders (void)
{
  static const guint left[3][TG_DYNAMICS_N_ORDERS] = { { 0, 4, 4, 4 },
                                                       { 0, 0, 0, 6 },
                                                       { 0, 0, 8, 0 } };
  double factors[TG_DYNAMICS_N_ORDERS];
  double unit = RADIUS_MM / 1000 * pow (6000 * 2 * G_PI / 60, 2);

  tg_dynamics_factors (&crank, factors);
  for (guint i = 0; i < 3; i++)
    {
      TgDynamicsSums sums;

      sums_of ((TgEngineSpec){ .kind = TG_ENGINE_INLINE, .cylinders = 4 + 2 * i }, 0, &sums);
      for (guint n = 0; n < TG_DYNAMICS_N_ORDERS; n++)
        NEAR (tg_dynamics_pair_ellipse (&sums.force[n]).largest / unit,
              left[i][n] * fabs (factors[n]), 1e-12);
    }
}

/* A free in-line layout; throws by position. */
static TgEngineLayout
in_line (guint n, double spacing_mm, const double *throws)
{
  g_autoptr (GError) error = NULL;
  TgEngineLayout layout = { .n = n, .n_pins = n };

  for (guint i = 0; i < n; i++)
    layout.cylinders[i] = (TgEngineCylinder){ 0, throws[i], (i - (n - 1) / 2.0) * spacing_mm, i };
  tg_engine_layout_check (&layout, &error);
  g_assert_no_error (error);
  return layout;
}

/* Problems that were read in collections of exercises (holooly.com, askfilo.com).  The first two: four
 * in line, cranks at 90° in the order 1-4-2-3 seen from the end, 2 kg: read without answers, which are
 * computed apart from this code.  Third: throws 0 180 240 60, 100 kg, 150 and 450 mm, 600 mm,
 * 1200 1/min; printed answer: no primary force, secondary 5 ω² along the bores with crank 1 at top dead
 * centre. */
static void
test_exercises (void)
{
  static const double order_1423[] = { 0, 180, 270, 90 };
  static const double pairs[] = { 0, 180, 240, 60 };
  static const struct
  {
    TgDynamicsCrank crank;
    double spacing, first, second;
  } cases[] = { { { 50, 200, 2000 }, 200, 1240.7, 877.3 },
                { { 60, 240, 2000 }, 160, 1191.1, 842.2 } };
  TgDynamicsCrank slow = { 150, 450, 1200 };
  double factors[TG_DYNAMICS_N_ORDERS];
  TgEngineLayout layout = in_line (4, 600, pairs);
  TgDynamicsMasses masses;
  TgDynamicsSums sums;

  ones (&masses);
  for (guint i = 0; i < 4; i++)
    masses.reciprocating_kg[i] = 100;
  tg_dynamics_factors (&slow, factors);
  tg_dynamics_sums (&layout, &slow, &masses, &sums);
  NEAR (tg_dynamics_pair_ellipse (&sums.force[0]).largest, 0, 1e-6);
  NEAR (tg_dynamics_pair_at (&sums.force[1], TG_DYNAMICS_SECOND, 0).x / (factors[1] * 3) /
            pow (1200 * 2 * G_PI / 60, 2),
        5, 1e-9);
  for (guint i = 0; i < 4; i++)
    masses.reciprocating_kg[i] = 2;
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      layout = in_line (4, cases[i].spacing, order_1423);
      tg_dynamics_factors (&cases[i].crank, factors);
      tg_dynamics_sums (&layout, &cases[i].crank, &masses, &sums);
      for (guint n = 0; n < 2; n++)
        NEAR (tg_dynamics_pair_ellipse (&sums.force[n]).largest, 0, 1e-8);
      NEAR (tg_dynamics_pair_ellipse (&sums.couple[0]).largest, cases[i].first, 0.05);
      NEAR (tg_dynamics_pair_ellipse (&sums.couple[1]).largest / (factors[1] * 4), cases[i].second,
            0.05);
    }
}

/* A textbook's computed companion, chapter 12 "Balancing of reciprocating masses", illustration 1: 120 kg
 * to and fro, 70 kg turning at 90 mm, two thirds to balance, 250 1/min: 90.0 kg at 150 mm, and 3263.971 N
 * of first order left 30° past the dead centre (57.3° to the radian). */
static void
test_balance_mass (void)
{
  static const double throws[] = { 0 };
  TgDynamicsMasses masses = { .reciprocating_kg = { 120 }, .rotating_kg = { 70 } };
  TgDynamicsCrank slow = { 90, 400, 250 };
  TgEngineLayout layout = in_line (1, 0, throws);
  TgDynamicsSums sums;
  TgDynamicsVector left;

  tg_dynamics_counterweigh (&layout, 1, 2 / 3.0, &masses);
  NEAR (masses.counterweight_kg[0] * 90 / 150, 90.0, 1e-9);
  tg_dynamics_sums (&layout, &slow, &masses, &sums);
  left = tg_dynamics_pair_at (&sums.force[0], TG_DYNAMICS_FIRST, 30 / 57.3 * (180 / G_PI));
  NEAR (hypot (left.x, left.y), 3263.971, 1e-3);
}

/* 2 oz·in at 2000 and 8000 1/min: 14 and 227 lbf, "Maintaining Your Balance" (brakeandfrontend.com);
 * 1 oz·in is 720.078 g·mm. */
static void
test_unbalance_force (void)
{
  static const double throws[] = { 0 };
  TgDynamicsMasses masses = { .rotating_kg = { 2 * 0.028349523125 } };
  TgEngineLayout layout = in_line (1, 0, throws);
  TgDynamicsSums sums;
  double pin;

  tg_dynamics_sums (&layout, &(TgDynamicsCrank){ 25.4, 150, 2000 }, &masses, &sums);
  NEAR (sums.force[0].forward.x / 4.4482216152605, 14, 0.5);
  tg_dynamics_sums (&layout, &(TgDynamicsCrank){ 25.4, 150, 8000 }, &masses, &sums);
  NEAR (sums.force[0].forward.x / 4.4482216152605, 227, 0.5);
  NEAR (tg_dynamics_pins (&layout, 25.4, &masses, 0, &pin).x, 2 * 720.078, 1e-3);
  NEAR (pin, 2 * 720.078, 1e-3);
}

/* Rods that share a pin add up there, and the resultant is what the turning part of the first order
 * says: U ω². */
static void
test_pins (void)
{
  TgEngineSpec spec = {
    .kind = TG_ENGINE_V8_CROSS, .bank_angle_deg = 90, .spacing_mm = 110, .offset_mm = 24
  };
  TgDynamicsMasses masses = { .rotating_kg = { 0 } };
  TgEngineLayout layout;
  double speed = 6000 * 2 * G_PI / 60;
  TgDynamicsVector resultant;
  TgDynamicsSums sums;
  double pins[4];

  g_assert_true (tg_engine_layout_make (&spec, &layout, NULL));
  for (guint i = 0; i < 8; i++)
    {
      masses.rotating_kg[i] = 0.4 + 0.001 * i * i;
      masses.reciprocating_kg[i] = 0.5 - 0.002 * i;
    }
  resultant = tg_dynamics_pins (&layout, 45, &masses, 0.5, pins);
  /* by hand: 45 mm times 400 + 401 g turning and half of 500 + 498 g */
  NEAR (pins[0], 45 * (801 + 499), 1e-9);
  NEAR (pins[3], 45 * (436 + 449 + (488 + 486) / 2.0), 1e-9);
  /* throws 0 90 270 180 */
  NEAR (resultant.x, pins[0] - pins[3], 1e-8);
  NEAR (resultant.y, pins[1] - pins[2], 1e-8);
  resultant = tg_dynamics_pins (&layout, 45, &masses, 0, pins);
  for (guint i = 0; i < 8; i++)
    masses.reciprocating_kg[i] = 0;
  tg_dynamics_sums (&layout, &(TgDynamicsCrank){ 45, 150, 6000 }, &masses, &sums);
  NEAR (sums.force[0].forward.x, resultant.x * 1e-6 * speed * speed, 1e-7);
  NEAR (sums.force[0].forward.y, resultant.y * 1e-6 * speed * speed, 1e-7);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/dynamics-engines/handbook", test_handbook);
  g_test_add_func ("/dynamics-engines/counterweights", test_counterweights);
  g_test_add_func ("/dynamics-engines/higher-orders", test_higher_orders);
  g_test_add_func ("/dynamics-engines/exercises", test_exercises);
  g_test_add_func ("/dynamics-engines/balance-mass", test_balance_mass);
  g_test_add_func ("/dynamics-engines/unbalance-force", test_unbalance_force);
  g_test_add_func ("/dynamics-engines/pins", test_pins);
  return g_test_run ();
}
