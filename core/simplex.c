/* simplex.c: small dense linear programmes, see simplex.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The primal simplex method with bounded variables (Dantzig 1955; Chvátal, Linear Programming,
 * chapter 8).  The activity of each row is a variable with the row's bounds, so that a range row is
 * one row.  A dense tableau gives every basic variable as a combination of the nonbasic ones:
 *
 *   x_B = T x_N          at the start x_B = row activities, x_N = columns, T = A
 *
 * A pivot exchanges one basic with one nonbasic variable in place, O(rows × cols), rows that do not
 * meet the entering column are skipped.  Phase 1 drives down the sum of violations of the basic
 * variables, phase 2 the cost.  The entering variable is the steepest (Dantzig); after a run of
 * steps of length 0 the lowest numbered (Bland 1977), which cannot cycle.
 *
 * Rows and columns are scaled by powers of two where their largest coefficient is far from 1.  The
 * answer is checked against the unpivoted coefficients before it is called optimal.
 *
 * Not for large or sparse programmes: memory is 2 × rows × cols doubles.
 */
#include "simplex.h"

#include <math.h>
#include <string.h>

#define INF ((double) INFINITY)
#define FEASIBLE 1e-9   /* of the scaled problem */
#define PRICE 1e-9      /* of the largest scaled cost */
#define PIVOT 1e-9      /* smaller ones count as 0 */
#define NEAR (1.0 / 64) /* coefficients down to this and up to its inverse are left as they are */
#define VERIFIED 1e-7   /* of the scaled problem, relative to the terms */
#define BLAND_AFTER 20  /* steps of length 0 in a row, plus the number of rows */

typedef enum
{
  AT_LO,
  AT_HI,
  AT_NONE, /* no bound: rests at 0 */
} Rest;

/* Variables 0 … cols-1 are the columns, cols … cols+rows-1 the row activities. */
struct _TgSimplex
{
  guint max_rows, max_cols;
  guint rows, cols;
  double *a;         /* rows × cols, as given */
  double *t;         /* rows × cols, the tableau */
  double *lo, *hi;   /* by variable, as given; scaled while solving */
  double *x;         /* by variable, scaled */
  double *scale;     /* by variable: given value = scaled value × scale */
  double *cost;      /* by column, as given */
  double *price;     /* by place: reduced cost of the nonbasic variable there */
  double *slope;     /* by place: phase 1 */
  double *pivot_row; /* by place */
  guint *basic;      /* by row: variable */
  guint *nonbasic;   /* by place: variable */
  guint8 *rest;      /* by variable: Rest, if nonbasic */
  guint8 *forced;    /* by variable */
  double price_tolerance;
  gboolean started; /* the basis is in place */
  gboolean priced;  /* price[] fits the basis */
};

TgSimplex *
tg_simplex_new (guint max_rows, guint max_cols)
{
  TgSimplex *lp;
  gsize n = (gsize) max_rows + max_cols;

  g_return_val_if_fail (max_cols > 0, NULL);

  lp = g_new0 (TgSimplex, 1);
  lp->max_rows = max_rows;
  lp->max_cols = max_cols;
  lp->a = g_new (double, (gsize) max_rows *max_cols);
  lp->t = g_new (double, (gsize) max_rows *max_cols);
  lp->lo = g_new (double, n);
  lp->hi = g_new (double, n);
  lp->x = g_new (double, n);
  lp->scale = g_new (double, n);
  lp->cost = g_new (double, max_cols);
  lp->price = g_new (double, max_cols);
  lp->slope = g_new (double, max_cols);
  lp->pivot_row = g_new (double, max_cols);
  lp->basic = g_new (guint, max_rows);
  lp->nonbasic = g_new (guint, max_cols);
  lp->rest = g_new (guint8, n);
  lp->forced = g_new (guint8, n);
  return lp;
}

void
tg_simplex_free (TgSimplex *lp)
{
  if (lp == NULL)
    return;
  g_free (lp->a);
  g_free (lp->t);
  g_free (lp->lo);
  g_free (lp->hi);
  g_free (lp->x);
  g_free (lp->scale);
  g_free (lp->cost);
  g_free (lp->price);
  g_free (lp->slope);
  g_free (lp->pivot_row);
  g_free (lp->basic);
  g_free (lp->nonbasic);
  g_free (lp->rest);
  g_free (lp->forced);
  g_free (lp);
}

void
tg_simplex_reset (TgSimplex *lp, guint rows, guint cols)
{
  g_return_if_fail (rows <= lp->max_rows);
  g_return_if_fail (cols > 0 && cols <= lp->max_cols);

  lp->rows = rows;
  lp->cols = cols;
  lp->started = FALSE;
  memset (lp->a, 0, sizeof (double) * rows * cols);
  memset (lp->cost, 0, sizeof (double) * cols);
  for (guint v = 0; v < cols + rows; v++)
    {
      lp->lo[v] = v < cols ? 0 : -INF;
      lp->hi[v] = INF;
    }
}

void
tg_simplex_set_cost (TgSimplex *lp, guint col, double cost)
{
  g_return_if_fail (col < lp->cols);
  lp->cost[col] = cost;
}

void
tg_simplex_set_column (TgSimplex *lp, guint col, double lo, double hi)
{
  g_return_if_fail (col < lp->cols && !lp->started);
  lp->lo[col] = lo;
  lp->hi[col] = hi;
}

void
tg_simplex_set_row (TgSimplex *lp, guint row, double lo, double hi)
{
  g_return_if_fail (row < lp->rows && !lp->started);
  lp->lo[lp->cols + row] = lo;
  lp->hi[lp->cols + row] = hi;
}

void
tg_simplex_set_coefficient (TgSimplex *lp, guint row, guint col, double value)
{
  g_return_if_fail (row < lp->rows && col < lp->cols && !lp->started);
  lp->a[row * lp->cols + col] = value;
}

/* The power of two that brings @largest near 1; 1 where it is near already. */
static double
power_near (double largest)
{
  int exponent;

  if ((largest > NEAR && largest < 1 / NEAR) || largest <= 0 || !isfinite (largest))
    return 1;
  frexp (largest, &exponent);
  return ldexp (1, -exponent);
}

static void
scale_rows (TgSimplex *lp)
{
  guint cols = lp->cols;

  memcpy (lp->t, lp->a, sizeof (double) * lp->rows * cols);
  for (guint i = 0; i < lp->rows; i++)
    {
      double *t = lp->t + i * cols;
      double largest = 0, factor;

      for (guint j = 0; j < cols; j++)
        largest = MAX (largest, fabs (t[j]));
      factor = power_near (largest);
      lp->scale[cols + i] = 1 / factor;
      for (guint j = 0; j < cols && factor != 1; j++)
        t[j] *= factor;
    }
}

static void
scale_problem (TgSimplex *lp)
{
  guint cols = lp->cols;

  scale_rows (lp);
  for (guint j = 0; j < cols; j++)
    {
      double largest = 0;

      for (guint i = 0; i < lp->rows; i++)
        largest = MAX (largest, fabs (lp->t[i * cols + j]));
      lp->scale[j] = power_near (largest);
      for (guint i = 0; i < lp->rows && lp->scale[j] != 1; i++)
        lp->t[i * cols + j] *= lp->scale[j];
    }
  for (guint v = 0; v < cols + lp->rows; v++)
    if (lp->scale[v] != 1)
      {
        lp->lo[v] /= lp->scale[v];
        lp->hi[v] /= lp->scale[v];
      }
}

static void
price_scale (TgSimplex *lp)
{
  double largest = 0;

  for (guint j = 0; j < lp->cols; j++)
    largest = MAX (largest, fabs (lp->cost[j] * lp->scale[j]));
  lp->price_tolerance = largest > 0 ? PRICE * largest : PRICE;
  lp->priced = FALSE;
}

static void
basic_values (TgSimplex *lp)
{
  for (guint i = 0; i < lp->rows; i++)
    {
      const double *t = lp->t + i * lp->cols;
      double sum = 0;

      for (guint k = 0; k < lp->cols; k++)
        sum += t[k] * lp->x[lp->nonbasic[k]];
      lp->x[lp->basic[i]] = sum;
    }
}

static void
start_basis (TgSimplex *lp)
{
  scale_problem (lp);
  for (guint j = 0; j < lp->cols; j++)
    {
      lp->nonbasic[j] = j;
      lp->rest[j] = isfinite (lp->lo[j]) ? AT_LO : isfinite (lp->hi[j]) ? AT_HI : AT_NONE;
      lp->x[j] = lp->rest[j] == AT_LO ? lp->lo[j] : lp->rest[j] == AT_HI ? lp->hi[j] : 0;
    }
  for (guint i = 0; i < lp->rows; i++)
    lp->basic[i] = lp->cols + i;
  basic_values (lp);
  lp->started = TRUE;
}

/* -1 below its bounds, 1 above, 0 within. */
static inline int
side (const TgSimplex *lp, guint v)
{
  return lp->x[v] < lp->lo[v] - FEASIBLE ? -1 : lp->x[v] > lp->hi[v] + FEASIBLE ? 1 : 0;
}

/* Fills slope[] with the gradient of the sum of violations; FALSE if there is none. */
static gboolean
violation_slope (TgSimplex *lp)
{
  gboolean any = FALSE;

  for (guint i = 0; i < lp->rows; i++)
    {
      int s = side (lp, lp->basic[i]);
      const double *t = lp->t + i * lp->cols;

      if (s == 0)
        continue;
      if (!any)
        memset (lp->slope, 0, sizeof (double) * lp->cols);
      any = TRUE;
      for (guint k = 0; k < lp->cols; k++)
        lp->slope[k] += s * t[k];
    }
  return any;
}

static void
compute_prices (TgSimplex *lp)
{
  for (guint k = 0; k < lp->cols; k++)
    {
      guint v = lp->nonbasic[k];

      lp->price[k] = v < lp->cols ? lp->cost[v] * lp->scale[v] : 0;
    }
  for (guint i = 0; i < lp->rows; i++)
    {
      guint v = lp->basic[i];
      double c = v < lp->cols ? lp->cost[v] * lp->scale[v] : 0;
      const double *t = lp->t + i * lp->cols;

      if (c != 0)
        for (guint k = 0; k < lp->cols; k++)
          lp->price[k] += c * t[k];
    }
  lp->priced = TRUE;
}

/* The place of the variable to move, -1 if none helps; @dir gets the way it moves. */
static int
choose_entering (
    const TgSimplex *lp, const double *slope, double tolerance, gboolean bland, int *dir)
{
  int chosen = -1;
  double steepest = tolerance;

  for (guint k = 0; k < lp->cols; k++)
    {
      double size = fabs (slope[k]);
      guint v = lp->nonbasic[k];

      if (size <= steepest || lp->lo[v] == lp->hi[v])
        continue;
      if (lp->rest[v] == (slope[k] > 0 ? AT_LO : AT_HI))
        continue;
      if (bland && chosen >= 0 && v > lp->nonbasic[chosen])
        continue;
      chosen = (int) k;
      *dir = slope[k] > 0 ? -1 : 1;
      if (!bland)
        steepest = size;
    }
  return chosen;
}

/* How far the basic variable @v may go at @rate until a bound; bounds are widened by @slack. */
static inline double
room (const TgSimplex *lp, guint v, double rate, double slack)
{
  int s = side (lp, v);
  double bound;

  if (rate > 0)
    bound = s < 0 ? lp->lo[v] + slack : s > 0 ? INF : lp->hi[v] + slack;
  else
    bound = s > 0 ? lp->hi[v] - slack : s < 0 ? -INF : lp->lo[v] - slack;
  return (bound - lp->x[v]) / rate;
}

/* Row that stops the move of place @k, -1 if none; @step gets the length, possibly INF. */
static int
choose_leaving (const TgSimplex *lp, guint k, int dir, gboolean bland, double *step)
{
  double widened = INF, largest = 0;
  int chosen = -1;

  *step = INF;
  for (guint i = 0; i < lp->rows; i++)
    {
      double rate = lp->t[i * lp->cols + k] * dir;

      if (fabs (rate) > PIVOT)
        {
          double r = room (lp, lp->basic[i], rate, bland ? 1e-13 : FEASIBLE);

          widened = MIN (widened, r);
        }
    }
  if (widened == INF)
    return -1;
  /* of all that stop within the widened step the largest pivot, or the lowest number */
  for (guint i = 0; i < lp->rows; i++)
    {
      double rate = lp->t[i * lp->cols + k] * dir;
      double r;

      if (fabs (rate) <= PIVOT)
        continue;
      r = room (lp, lp->basic[i], rate, 0);
      if (r > widened)
        continue;
      if (bland ? chosen >= 0 && lp->basic[i] > lp->basic[chosen] : fabs (rate) <= largest)
        continue;
      chosen = (int) i;
      largest = fabs (rate);
      *step = MAX (r, 0);
    }
  return chosen;
}

static void
move_by (TgSimplex *lp, guint k, double delta)
{
  if (delta == 0)
    return;
  lp->x[lp->nonbasic[k]] += delta;
  for (guint i = 0; i < lp->rows; i++)
    lp->x[lp->basic[i]] += lp->t[i * lp->cols + k] * delta;
}

static inline void
add_multiple (double *restrict row, const double *restrict pivot_row, double factor, guint n)
{
  for (guint j = 0; j < n; j++)
    row[j] += factor * pivot_row[j];
}

/* Exchanges the basic variable of row @p with the nonbasic one at place @k. */
static void
exchange (TgSimplex *lp, guint p, guint k)
{
  guint cols = lp->cols;
  double *row = lp->t + p * cols;
  double inverse = 1 / row[k];
  guint v = lp->basic[p];

  for (guint j = 0; j < cols; j++)
    lp->pivot_row[j] = -row[j] * inverse;
  lp->pivot_row[k] = inverse;
  for (guint i = 0; i < lp->rows; i++)
    {
      double *other = lp->t + i * cols;
      double factor = other[k];

      if (i == p || factor == 0)
        continue;
      other[k] = 0;
      add_multiple (other, lp->pivot_row, factor, cols);
    }
  memcpy (row, lp->pivot_row, sizeof (double) * cols);
  if (lp->priced && lp->price[k] != 0)
    {
      double factor = lp->price[k];

      lp->price[k] = 0;
      add_multiple (lp->price, lp->pivot_row, factor, cols);
    }
  lp->basic[p] = lp->nonbasic[k];
  lp->nonbasic[k] = v;
}

/* The row's variable leaves at the bound that stopped it, which is the near one. */
static void
leave (TgSimplex *lp, guint p, guint k)
{
  guint v = lp->basic[p];
  gboolean at_hi = fabs (lp->x[v] - lp->hi[v]) < fabs (lp->x[v] - lp->lo[v]);

  lp->rest[v] = at_hi ? AT_HI : AT_LO;
  lp->x[v] = at_hi ? lp->hi[v] : lp->lo[v];
  exchange (lp, p, k);
}

/* Moves the nonbasic variable at place @k. Returns the length of the step, INF if unbounded. */
static double
iterate (TgSimplex *lp, guint k, int dir, gboolean bland)
{
  guint v = lp->nonbasic[k];
  double range = lp->hi[v] - lp->lo[v];
  double step;
  int p = choose_leaving (lp, k, dir, bland, &step);

  if (range <= step)
    {
      if (range == INF)
        return INF;
      move_by (lp, k, dir * range);
      lp->rest[v] = dir > 0 ? AT_HI : AT_LO;
      lp->x[v] = dir > 0 ? lp->hi[v] : lp->lo[v];
      return range;
    }
  if (p < 0)
    return INF;
  move_by (lp, k, dir * step);
  leave (lp, (guint) p, k);
  return step;
}

/* Takes the row activities from the rows as given and looks at every bound once more. */
static gboolean
verify (TgSimplex *lp)
{
  guint cols = lp->cols;

  for (guint j = 0; j < cols; j++)
    {
      double slack = VERIFIED * (1 + fabs (lp->x[j]));

      if (!(lp->x[j] >= lp->lo[j] - slack && lp->x[j] <= lp->hi[j] + slack))
        return FALSE;
    }
  for (guint i = 0; i < lp->rows; i++)
    {
      const double *a = lp->a + i * cols;
      double unit = lp->scale[cols + i];
      double sum = 0, slack = VERIFIED;

      for (guint j = 0; j < cols; j++)
        {
          double term = a[j] * lp->x[j] * lp->scale[j] / unit;

          sum += term;
          slack += VERIFIED * fabs (term);
        }
      lp->x[cols + i] = sum;
      if (!(sum >= lp->lo[cols + i] - slack && sum <= lp->hi[cols + i] + slack))
        return FALSE;
    }
  return TRUE;
}

static void
mark_forced (TgSimplex *lp)
{
  memset (lp->forced, 0, lp->cols + lp->rows);
  for (guint k = 0; k < lp->cols; k++)
    {
      guint v = lp->nonbasic[k];

      lp->forced[v] = fabs (lp->price[k]) > lp->price_tolerance || lp->lo[v] == lp->hi[v];
    }
}

TgSimplexStatus
tg_simplex_solve (TgSimplex *lp)
{
  guint limit = 200 + 40 * (lp->rows + lp->cols);
  guint idle = 0;
  gboolean fresh = FALSE; /* the basic values were just taken from the tableau */

  for (guint v = 0; v < lp->cols + lp->rows; v++)
    if (lp->lo[v] > lp->hi[v])
      return TG_SIMPLEX_INFEASIBLE;
  if (!lp->started)
    start_basis (lp);
  price_scale (lp);

  for (guint n = 0; n < limit; n++)
    {
      gboolean phase1 = violation_slope (lp);
      gboolean bland = idle > BLAND_AFTER + lp->rows;
      int dir = 0, k;
      double step;

      if (!phase1 && !lp->priced)
        compute_prices (lp);
      k = choose_entering (lp, phase1 ? lp->slope : lp->price, phase1 ? PRICE : lp->price_tolerance,
                           bland, &dir);
      if (k < 0 && !fresh)
        {
          basic_values (lp);
          fresh = TRUE;
          continue;
        }
      if (k < 0 && phase1)
        return TG_SIMPLEX_INFEASIBLE;
      if (k < 0)
        {
          mark_forced (lp);
          return verify (lp) ? TG_SIMPLEX_OPTIMAL : TG_SIMPLEX_STALLED;
        }
      fresh = FALSE;
      lp->priced = lp->priced && !phase1;
      step = iterate (lp, (guint) k, dir, bland);
      if (step == INF)
        return phase1 ? TG_SIMPLEX_STALLED : TG_SIMPLEX_UNBOUNDED;
      idle = step > 1e-12 ? 0 : idle + 1;
    }
  return TG_SIMPLEX_STALLED;
}

double
tg_simplex_objective (const TgSimplex *lp)
{
  double sum = 0;

  for (guint j = 0; j < lp->cols; j++)
    sum += lp->cost[j] * lp->x[j] * lp->scale[j];
  return sum;
}

double
tg_simplex_value (const TgSimplex *lp, guint col)
{
  g_return_val_if_fail (col < lp->cols, 0);
  return lp->x[col] * lp->scale[col];
}

double
tg_simplex_activity (const TgSimplex *lp, guint row)
{
  g_return_val_if_fail (row < lp->rows, 0);
  return lp->x[lp->cols + row] * lp->scale[lp->cols + row];
}

gboolean
tg_simplex_column_forced (const TgSimplex *lp, guint col)
{
  g_return_val_if_fail (col < lp->cols, FALSE);
  return lp->forced[col];
}

gboolean
tg_simplex_row_forced (const TgSimplex *lp, guint row)
{
  g_return_val_if_fail (row < lp->rows, FALSE);
  return lp->forced[lp->cols + row];
}

void
tg_simplex_hold (TgSimplex *lp)
{
  for (guint k = 0; k < lp->cols; k++)
    {
      guint v = lp->nonbasic[k];

      if (lp->forced[v])
        {
          lp->lo[v] = lp->hi[v] = lp->x[v];
          lp->rest[v] = AT_LO;
        }
    }
  memset (lp->cost, 0, sizeof (double) * lp->cols);
}
