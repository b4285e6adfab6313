/* test-dynamics.c: motion of a piston, its orders, grades of balance
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whole engines are in test-dynamics-engines.c, laws that hold for any in test-dynamics-laws.c.
 */
#include <glib.h>
#include <math.h>
#include <string.h>

#include "dynamics.h"
#include "error.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* By the defining triangle, in the precision the machine has most of. */
static long double
pin_position (long double radius, long double rod, long double t)
{
  return radius * cosl (t) + sqrtl (rod * rod - radius * radius * sinl (t) * sinl (t));
}

/* Central differences of eighth order over the step h. */
static void
differentiate (
    long double radius, long double rod, long double t, long double *first, long double *second)
{
  static const long double once[5] = { 0, 4 / 5.0L, -1 / 5.0L, 4 / 105.0L, -1 / 280.0L };
  static const long double twice[5] = { -205 / 72.0L, 8 / 5.0L, -1 / 5.0L, 8 / 315.0L,
                                        -1 / 560.0L };
  const long double h = 0.01L;

  *first = 0;
  *second = twice[0] * pin_position (radius, rod, t);
  for (int k = 1; k <= 4; k++)
    {
      long double after = pin_position (radius, rod, t + k * h);
      long double before = pin_position (radius, rod, t - k * h);

      *first += once[k] * (after - before);
      *second += twice[k] * (after + before);
    }
  *first /= h;
  *second /= h * h;
}

static void
test_motion (void)
{
  static const double ratios[] = { 2.5, 3, 3.4, 4, 5.5 };
  double speed = 6000 * 2 * G_PI / 60;

  for (guint i = 0; i < G_N_ELEMENTS (ratios); i++)
    for (int angle = -360; angle <= 720; angle += 7)
      {
        TgDynamicsCrank other = { 45, 45 * ratios[i], 6000 };
        TgDynamicsMotion motion = tg_dynamics_motion (&other, angle);
        long double t = angle * (acosl (-1) / 180);
        long double first, second;

        differentiate (0.045L, 0.045L * ratios[i], t, &first, &second);
        NEAR (motion.position, (double) pin_position (0.045L, 0.045L * ratios[i], t), 1e-15);
        NEAR (motion.velocity, (double) first * speed, 1e-10 * 0.045 * speed);
        NEAR (motion.acceleration, (double) second * speed * speed, 1e-9 * 0.045 * speed * speed);
      }
}

/* Cases with the exact law.
 * Rod 6.024 in, stroke 3.307 in, 6000 1/min: a page of 2003 on piston speed (quartermile.ws, forum
 * topic 7907) prints: acceleration 0 at 0.002100653404 s and 0.007899346596 s, 75.6°, position 6.218 in and
 * speed 1078 in/s there, 7.68 in at top dead centre.
 * Crank 0.1 m, rod 0.2 m, 1 rad/s: a mail of January 1998 in a car club's archive: r ω² (1 + λ) at top
 * and −r ω² (1 − λ) at bottom dead centre, at which the exact law agrees. */
static void
test_published_motion (void)
{
  TgDynamicsCrank drag = { 3.307 / 2 * 25.4, 6.024 * 25.4, 6000 };
  TgDynamicsCrank mail = { 100, 200, 60 / (2 * G_PI) };
  double at = 0.002100653404 * 6000 * 6;
  TgDynamicsMotion motion = tg_dynamics_motion (&drag, at);

  NEAR (at, 75.6, 0.05);
  NEAR (motion.position / 0.0254, 6.218, 5e-4);
  NEAR (fabs (motion.velocity) / 0.0254, 1078, 0.5);
  /* the twelve printed digits hold the zero to 2e-8 degrees */
  g_assert_cmpfloat (tg_dynamics_motion (&drag, at - 1e-7).acceleration, <, 0);
  g_assert_cmpfloat (tg_dynamics_motion (&drag, at + 1e-7).acceleration, >, 0);
  at = 0.007899346596 * 6000 * 6;
  g_assert_cmpfloat (tg_dynamics_motion (&drag, at - 1e-7).acceleration, >, 0);
  g_assert_cmpfloat (tg_dynamics_motion (&drag, at + 1e-7).acceleration, <, 0);
  NEAR (tg_dynamics_motion (&drag, 0).position / 0.0254, 7.68, 5e-3);

  NEAR (tg_dynamics_motion (&mail, 0).acceleration, -0.15, 1e-12);
  NEAR (tg_dynamics_motion (&mail, 180).acceleration, 0.05, 1e-12);
}

/* The series in λ stand in every text on theory of machines (from memory; their next terms bound the
 * difference).  The values for λ = 1/3 were computed apart from this code, by quadrature. */
static void
test_factors (void)
{
  double factors[TG_DYNAMICS_N_ORDERS];
  TgDynamicsCrank third = { 50, 150, 1 };

  for (double lambda = 0.02; lambda < 0.41; lambda += 0.03)
    {
      TgDynamicsCrank other = { 100 * lambda, 100, 1 };

      tg_dynamics_factors (&other, factors);
      NEAR (factors[TG_DYNAMICS_FIRST], 1, 1e-15);
      NEAR (factors[TG_DYNAMICS_SECOND], lambda + pow (lambda, 3) / 4 + 15 * pow (lambda, 5) / 128,
            0.2 * pow (lambda, 7) + 1e-14);
      NEAR (factors[TG_DYNAMICS_FOURTH], -(pow (lambda, 3) / 4 + 3 * pow (lambda, 5) / 16),
            0.3 * pow (lambda, 7) + 1e-14);
      NEAR (factors[TG_DYNAMICS_SIXTH], 9 * pow (lambda, 5) / 128, 0.3 * pow (lambda, 7) + 1e-14);
    }
  tg_dynamics_factors (&third, factors);
  NEAR (factors[TG_DYNAMICS_SECOND], 0.3431086, 5e-8);
  NEAR (factors[TG_DYNAMICS_FOURTH], -0.0100991, 5e-8);
  NEAR (factors[TG_DYNAMICS_SIXTH], 0.00033443, 5e-9);
}

/* The more orders, the closer to the exact curve; what is left over is of the eighth, λ⁷/50 or so. */
static void
test_orders_approach (void)
{
  for (double lambda = 0.15; lambda < 0.36; lambda += 0.05)
    {
      TgDynamicsCrank other = { 100 * lambda, 100, 60 / (2 * G_PI) };
      double factors[TG_DYNAMICS_N_ORDERS];
      double worst[TG_DYNAMICS_N_ORDERS] = { 0 };

      tg_dynamics_factors (&other, factors);
      for (int angle = 0; angle < 360; angle++)
        {
          double exact = -tg_dynamics_motion (&other, angle).acceleration / (0.1 * lambda);
          double sum = 0;

          for (guint n = 0; n < TG_DYNAMICS_N_ORDERS; n++)
            {
              sum += factors[n] * cos (tg_dynamics_order_number (n) * angle * (G_PI / 180));
              worst[n] = MAX (worst[n], fabs (exact - sum));
            }
        }
      for (guint n = 1; n < TG_DYNAMICS_N_ORDERS; n++)
        g_assert_cmpfloat (worst[n], <, 0.1 * worst[n - 1]);
      g_assert_cmpfloat (worst[TG_DYNAMICS_SIXTH], <, pow (lambda, 7) / 20);
    }
}

/* The axes are the largest and smallest length of the vector in a turn, and it lies along the
 * direction when it is longest. */
static void
test_ellipse (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (11);

  for (guint round = 0; round < 100; round++)
    {
      TgDynamicsPair pair = {
        { g_rand_double_range (random, -1, 1), g_rand_double_range (random, -1, 1) },
        { g_rand_double_range (random, -1, 1), g_rand_double_range (random, -1, 1) }
      };
      TgDynamicsEllipse ellipse = tg_dynamics_pair_ellipse (&pair);
      TgDynamicsVector longest = { 0, 0 };
      double smallest = G_MAXDOUBLE;

      for (double angle = 0; angle < 180; angle += 0.02)
        {
          TgDynamicsVector v = tg_dynamics_pair_at (&pair, TG_DYNAMICS_SECOND, angle);

          if (hypot (v.x, v.y) > hypot (longest.x, longest.y))
            longest = v;
          smallest = MIN (smallest, hypot (v.x, v.y));
        }
      NEAR (ellipse.largest, hypot (longest.x, longest.y), 1e-6);
      NEAR (ellipse.smallest, smallest, 2e-3);
      if (ellipse.largest - ellipse.smallest > 0.1)
        NEAR (longest.y * cos (ellipse.direction_deg * G_PI / 180) -
                  longest.x * sin (ellipse.direction_deg * G_PI / 180),
              0, 2e-3);
      g_assert_cmpfloat (ellipse.direction_deg, >, -90);
      g_assert_cmpfloat (ellipse.direction_deg, <=, 90);
    }
  /* to and fro straight across, both ways of writing it */
  NEAR (tg_dynamics_pair_ellipse (&(TgDynamicsPair){ { 0, 1 }, { 0, 1 } }).direction_deg, 90,
        1e-12);
  NEAR (tg_dynamics_pair_ellipse (&(TgDynamicsPair){ { 0, -1 }, { 0, -1 } }).direction_deg, 90,
        1e-12);
  NEAR (tg_dynamics_pair_ellipse (&(TgDynamicsPair){ { 0, -1 }, { 0, 0 } }).direction_deg, 0,
        1e-12);
}

/* ISO 21940-11:2016 (and 1940-1:2003): rotor of 3600 kg, 3000 1/min, G 2.5: 28.6e3 g·mm, 7.96 µm (from
 * memory; its list of grades was read in a transcription).  An article on balancing standards
 * (energy-tech.com, id 18389) gives the formula in other units: 6.015 G W / N, in oz·in for lb. */
static void
test_grades (void)
{
  static const double listed[] = { 0.4, 1, 2.5, 6.3, 16, 40, 100, 250, 630, 1600, 4000 };
  double permissible = tg_dynamics_permissible_unbalance (2.5, 3600, 3000);

  NEAR (permissible, 28.6e3, 50);
  NEAR (permissible / 3600, 7.96, 0.005);
  NEAR (tg_dynamics_permissible_unbalance (1, 1, 1), 9549, 0.5);
  NEAR (tg_dynamics_permissible_unbalance (6.3, 0.45359237 * 40, 1800) / 720.0778,
        6.015 * 6.3 * 40 / 1800, 1e-4);
  NEAR (tg_dynamics_grade (permissible, 3600, 3000), 2.5, 1e-12);
  for (guint i = 0; i < G_N_ELEMENTS (listed); i++)
    {
      NEAR (tg_dynamics_listed_grade (listed[i]), listed[i], 1e-12);
      NEAR (tg_dynamics_listed_grade (listed[i] * 0.99), listed[i], 1e-12);
    }
  NEAR (tg_dynamics_listed_grade (0), 0.4, 1e-12);
  NEAR (tg_dynamics_listed_grade (4001), 0, 1e-12);
}

static void
test_refused (void)
{
  static const struct
  {
    TgDynamicsCrank crank;
    const char *named;
  } cases[] = {
    { { 0, 150, 6000 }, "Crank radius" },
    { { NAN, 150, 6000 }, "Crank radius" },
    { { INFINITY, 150, 6000 }, "Crank radius" },
    { { 40, 40, 6000 }, "Rod length" },
    { { 40, NAN, 6000 }, "Rod length" },
    { { 40, INFINITY, 6000 }, "Rod length" },
    { { 40, 150, 0 }, "Speed" },
    { { 40, 150, 50001 }, "Speed" },
    { { 40, 150, NAN }, "Speed" },
  };

  g_assert_true (tg_dynamics_check (&(TgDynamicsCrank){ 40, 150, 6000 }, NULL));
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (GError) error = NULL;

      g_assert_false (tg_dynamics_check (&cases[i].crank, &error));
      g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
      g_assert_nonnull (strstr (error->message, cases[i].named));
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/dynamics/motion", test_motion);
  g_test_add_func ("/dynamics/published-motion", test_published_motion);
  g_test_add_func ("/dynamics/factors", test_factors);
  g_test_add_func ("/dynamics/orders-approach", test_orders_approach);
  g_test_add_func ("/dynamics/ellipse", test_ellipse);
  g_test_add_func ("/dynamics/grades", test_grades);
  g_test_add_func ("/dynamics/refused", test_refused);
  return g_test_run ();
}
