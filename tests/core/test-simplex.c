/* test-simplex.c: the linear programme solver against known cases and against GLPK
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLPK (the GNU Linear Programming Kit) is the independent solver; objectives and statuses are
 * compared, never solutions.
 */
#include <glib.h>
#include <glpk.h>
#include <math.h>

#include "simplex.h"

#define INF ((double) INFINITY)
#define CLOSE(a, b) g_assert_cmpfloat_with_epsilon (a, b, 1e-9 * (1 + fabs ((double) (b))))

/* A programme kept apart from both solvers, so that a solution can be checked against it. */
typedef struct
{
  guint rows, cols;
  double cost[12], lo[12], hi[12];
  double row_lo[10], row_hi[10];
  double a[10][12];
} Programme;

static TgSimplexStatus
solve_ours (TgSimplex *lp, const Programme *p)
{
  tg_simplex_reset (lp, p->rows, p->cols);
  for (guint j = 0; j < p->cols; j++)
    {
      tg_simplex_set_cost (lp, j, p->cost[j]);
      tg_simplex_set_column (lp, j, p->lo[j], p->hi[j]);
    }
  for (guint i = 0; i < p->rows; i++)
    {
      tg_simplex_set_row (lp, i, p->row_lo[i], p->row_hi[i]);
      for (guint j = 0; j < p->cols; j++)
        tg_simplex_set_coefficient (lp, i, j, p->a[i][j]);
    }
  return tg_simplex_solve (lp);
}

static int
bound_kind (double lo, double hi)
{
  if (lo == -INF)
    return hi == INF ? GLP_FR : GLP_UP;
  return hi == INF ? GLP_LO : lo == hi ? GLP_FX : GLP_DB;
}

static TgSimplexStatus
solve_glpk (const Programme *p, double *objective)
{
  glp_prob *lp = glp_create_prob ();
  glp_smcp parameters;
  int index[13];
  double value[13];
  int status;

  glp_add_rows (lp, (int) p->rows);
  glp_add_cols (lp, (int) p->cols);
  for (guint j = 0; j < p->cols; j++)
    {
      int col = (int) j + 1;

      glp_set_obj_coef (lp, col, p->cost[j]);
      glp_set_col_bnds (lp, col, bound_kind (p->lo[j], p->hi[j]), p->lo[j], p->hi[j]);
    }
  for (guint i = 0; i < p->rows; i++)
    {
      int n = 0;

      for (guint j = 0; j < p->cols; j++)
        if (p->a[i][j] != 0)
          {
            index[++n] = (int) j + 1;
            value[n] = p->a[i][j];
          }
      glp_set_mat_row (lp, (int) i + 1, n, index, value);
      glp_set_row_bnds (lp, (int) i + 1, bound_kind (p->row_lo[i], p->row_hi[i]), p->row_lo[i],
                        p->row_hi[i]);
    }
  glp_init_smcp (&parameters);
  parameters.msg_lev = GLP_MSG_OFF;
  g_assert_cmpint (glp_simplex (lp, &parameters), ==, 0);
  status = glp_get_status (lp);
  *objective = glp_get_obj_val (lp);
  glp_delete_prob (lp);
  return status == GLP_OPT     ? TG_SIMPLEX_OPTIMAL
         : status == GLP_UNBND ? TG_SIMPLEX_UNBOUNDED
                               : TG_SIMPLEX_INFEASIBLE;
}

static void
assert_feasible (const TgSimplex *lp, const Programme *p)
{
  for (guint j = 0; j < p->cols; j++)
    {
      g_assert_cmpfloat (tg_simplex_value (lp, j), >=, p->lo[j] - 1e-7);
      g_assert_cmpfloat (tg_simplex_value (lp, j), <=, p->hi[j] + 1e-7);
    }
  for (guint i = 0; i < p->rows; i++)
    {
      double sum = 0;

      for (guint j = 0; j < p->cols; j++)
        sum += p->a[i][j] * tg_simplex_value (lp, j);
      g_assert_cmpfloat (sum, >=, p->row_lo[i] - 1e-7);
      g_assert_cmpfloat (sum, <=, p->row_hi[i] + 1e-7);
    }
}

/* Beale (1955), on which Dantzig's rule alone cycles; from memory, optimum -5/4. */
static void
test_beale (void)
{
  const Programme p = {
    .rows = 3,
    .cols = 4,
    .cost = { -0.75, 20, -0.5, 6 },
    .hi = { INF, INF, INF, INF },
    .row_lo = { -INF, -INF, -INF },
    .row_hi = { 0, 0, 1 },
    .a = { { 0.25, -8, -1, 9 }, { 0.5, -12, -0.5, 3 }, { 0, 0, 1, 0 } },
  };
  g_autoptr (TgSimplex) lp = tg_simplex_new (3, 4);
  double glpk;

  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (tg_simplex_objective (lp), -1.25);
  g_assert_cmpint (solve_glpk (&p, &glpk), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (glpk, -1.25);
}

/* The other common form of Beale's example, as in textbooks; from memory, optimum -1/20. */
static void
test_beale_scaled (void)
{
  const Programme p = {
    .rows = 3,
    .cols = 4,
    .cost = { -0.75, 150, -0.02, 6 },
    .hi = { INF, INF, INF, INF },
    .row_lo = { -INF, -INF, -INF },
    .row_hi = { 0, 0, 1 },
    .a = { { 0.25, -60, -0.04, 9 }, { 0.5, -90, -0.02, 3 }, { 0, 0, 1, 0 } },
  };
  g_autoptr (TgSimplex) lp = tg_simplex_new (3, 4);

  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (tg_simplex_objective (lp), -0.05);
}

/* Klee and Minty (1972) in three dimensions, from memory: Dantzig visits many corners; -10000. */
static void
test_klee_minty (void)
{
  const Programme p = {
    .rows = 3,
    .cols = 3,
    .cost = { -100, -10, -1 },
    .hi = { INF, INF, INF },
    .row_lo = { -INF, -INF, -INF },
    .row_hi = { 1, 100, 10000 },
    .a = { { 1, 0, 0 }, { 20, 1, 0 }, { 200, 20, 1 } },
  };
  g_autoptr (TgSimplex) lp = tg_simplex_new (3, 3);

  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (tg_simplex_objective (lp), -10000);
}

/* By hand: x + y in [2, 3], x free, y fixed at 1, minimise x. Then x + y ≥ 2 gives x = 1. */
static void
test_bounds (void)
{
  Programme p = {
    .rows = 1,
    .cols = 2,
    .cost = { 1, 0 },
    .lo = { -INF, 1 },
    .hi = { INF, 1 },
    .row_lo = { 2 },
    .row_hi = { 3 },
    .a = { { 1, 1 } },
  };
  g_autoptr (TgSimplex) lp = tg_simplex_new (4, 4);

  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (tg_simplex_value (lp, 0), 1);
  CLOSE (tg_simplex_value (lp, 1), 1);
  CLOSE (tg_simplex_activity (lp, 0), 2);
  p.cost[0] = -1; /* the other side of the range row */
  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (tg_simplex_value (lp, 0), 2);
  p.row_hi[0] = INF;
  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_UNBOUNDED);
  p.hi[0] = 0.5; /* at most 1.5 together */
  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_INFEASIBLE);
  p.lo[0] = 4; /* above its own upper bound */
  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_INFEASIBLE);
  p.lo[0] = -INF; /* only an upper bound: rests there */
  p.row_lo[0] = -INF;
  g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
  CLOSE (tg_simplex_value (lp, 0), 0.5);
}

/* Minimise x + y on x + y ≥ 2, x, y ≤ 3: every point of the edge; then the one with least y. */
static void
test_hold (void)
{
  const Programme p = {
    .rows = 1,
    .cols = 3,
    .cost = { 1, 1, 1.5 },
    .hi = { 3, 3, 3 },
    .row_lo = { 2 },
    .row_hi = { INF },
    .a = { { 1, 1, 1 } },
  };
  g_autoptr (TgSimplex) lp = tg_simplex_new (4, 4);

  for (guint j = 0; j < 2; j++)
    {
      g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
      g_assert_true (tg_simplex_row_forced (lp, 0));
      g_assert_false (tg_simplex_column_forced (lp, j));
      g_assert_true (tg_simplex_column_forced (lp, 2));
      tg_simplex_hold (lp);
      tg_simplex_set_cost (lp, j, 1);
      tg_simplex_set_cost (lp, 2, -1); /* would pay, but is not optimal in the first cost */
      g_assert_cmpint (tg_simplex_solve (lp), ==, TG_SIMPLEX_OPTIMAL);
      CLOSE (tg_simplex_value (lp, j), 0);
      CLOSE (tg_simplex_value (lp, 1 - j), 2);
      CLOSE (tg_simplex_value (lp, 2), 0);
    }
}

static double
whole (GRand *random, int least, int most)
{
  return g_rand_int_range (random, least, most + 1);
}

/* Small whole numbers, so that degenerate corners and ties are common. */
static void
draw_programme (GRand *random, Programme *p, gboolean real)
{
  p->rows = (guint) g_rand_int_range (random, 1, 11);
  p->cols = (guint) g_rand_int_range (random, 1, 13);
  for (guint j = 0; j < p->cols; j++)
    {
      int kind = g_rand_int_range (random, 0, 8);

      p->cost[j] = real ? g_rand_double_range (random, -5, 5) : whole (random, -4, 4);
      p->lo[j] = kind == 0 || kind == 1 ? -INF : whole (random, -3, 3);
      p->hi[j] = kind == 0 || kind == 2 ? INF
                 : kind == 3            ? p->lo[j]
                 : kind == 1            ? whole (random, -3, 6)
                                        : p->lo[j] + whole (random, 0, 8);
    }
  for (guint i = 0; i < p->rows; i++)
    {
      int kind = g_rand_int_range (random, 0, 6);
      double centre = whole (random, -12, 12);

      for (guint j = 0; j < p->cols; j++)
        p->a[i][j] = g_rand_int_range (random, 0, 3) == 0 ? 0
                     : real                               ? g_rand_double_range (random, -3, 3)
                                                          : whole (random, -3, 3);
      p->row_lo[i] = kind == 0 || kind == 1 ? -INF : centre;
      p->row_hi[i] = kind == 0 || kind == 2 ? INF
                     : kind == 3            ? centre
                                            : centre + whole (random, 0, 10);
    }
}

/* Ill-scaled: units of mixed size must not change status or objective. */
static void
stretch (GRand *random, Programme *p)
{
  for (guint i = 0; i < p->rows; i++)
    {
      double factor = pow (10, whole (random, -3, 3));

      for (guint j = 0; j < p->cols; j++)
        p->a[i][j] *= factor;
      p->row_lo[i] *= factor;
      p->row_hi[i] *= factor;
    }
  for (guint j = 0; j < p->cols; j++)
    {
      double factor = pow (10, whole (random, -2, 2));

      for (guint i = 0; i < p->rows; i++)
        p->a[i][j] *= factor;
      p->cost[j] *= factor;
      p->lo[j] /= factor;
      p->hi[j] /= factor;
    }
}

static void
test_random (void)
{
  g_autoptr (GRand) random = g_rand_new_with_seed (1947);
  g_autoptr (TgSimplex) lp = tg_simplex_new (10, 12);
  guint seen[4] = { 0 };

  for (guint n = 0; n < 3000; n++)
    {
      Programme p = { 0 };
      TgSimplexStatus status, expected;
      double objective, stretched;

      draw_programme (random, &p, n % 3 == 0);
      expected = solve_glpk (&p, &objective);
      status = solve_ours (lp, &p);
      seen[status]++;
      /* GLPK may stop at "no primal feasible" or "unbounded" only; an LP that is both is infeasible */
      g_assert_cmpint (status, ==, expected);
      if (status != TG_SIMPLEX_OPTIMAL)
        continue;
      assert_feasible (lp, &p);
      g_assert_cmpfloat_with_epsilon (tg_simplex_objective (lp), objective,
                                      1e-7 * (1 + fabs (objective)));
      if (n % 2)
        continue;
      stretch (random, &p);
      g_assert_cmpint (solve_ours (lp, &p), ==, TG_SIMPLEX_OPTIMAL);
      stretched = tg_simplex_objective (lp);
      g_assert_cmpfloat_with_epsilon (stretched, objective, 1e-6 * (1 + fabs (objective)));
    }
  g_assert_cmpuint (seen[TG_SIMPLEX_OPTIMAL], >, 500);
  g_assert_cmpuint (seen[TG_SIMPLEX_INFEASIBLE], >, 200);
  g_assert_cmpuint (seen[TG_SIMPLEX_UNBOUNDED], >, 50);
  g_assert_cmpuint (seen[TG_SIMPLEX_STALLED], ==, 0);
  g_test_message ("optimal %u, infeasible %u, unbounded %u", seen[0], seen[1], seen[2]);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  glp_term_out (GLP_OFF);
  g_test_add_func ("/simplex/beale", test_beale);
  g_test_add_func ("/simplex/beale-scaled", test_beale_scaled);
  g_test_add_func ("/simplex/klee-minty", test_klee_minty);
  g_test_add_func ("/simplex/bounds", test_bounds);
  g_test_add_func ("/simplex/hold", test_hold);
  g_test_add_func ("/simplex/random", test_random);
  return g_test_run ();
}
