/* step-search.c: a plan in whole steps of the scale, see step-search.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Branch and bound, depth first.  The relaxed plan (steps need not be whole) of the zones that are
 * still open is a linear programme; if it is not whole, its largest amount is fixed at the whole
 * numbers round it, nearest first, outwards until the relaxed cost reaches the best plan so far:
 * that cost is convex in the fixed amount, so beyond there is nothing cheaper.
 *
 * The last two zones, x and y, need no programme: every bound on y is a line over x, the range of x
 * follows by Fourier-Motzkin elimination, and for a whole x the least whole y is the cheapest.
 *
 * Where all zones cost the same per gram the cost itself comes in whole steps, which ends most
 * searches at the first plan.
 */
#include "step-search.h"

#include <math.h>
#include <string.h>

#define SLACK_G 5e-10 /* on the bands */
#define WHOLE 1e-7    /* in steps */
#define SAME 1e-9     /* in cost */
#define TIES 1000     /* looked at for an evener plan of the same cost */
#define INF ((double) INFINITY)

typedef struct
{
  TgStepSearch *out;
  TgSimplex *lp;
  double lower_bound;
  double quantum; /* the cost of every plan is a multiple; 0: nothing known */
  guint most[TG_PLAN_MAX_ZONES];
  guint now[TG_PLAN_MAX_ZONES];
  guint used;   /* of the best */
  double share; /* of the best */
  gboolean first;
  gboolean done;
} Search;

typedef struct
{
  double slope, base;
} Line;

/* The bounds on y over x of the last two zones. */
typedef struct
{
  Line lower[TG_PLAN_MAX_ROWS + 1];
  Line upper[TG_PLAN_MAX_ROWS + 1];
  guint n_lower, n_upper;
  double x_lo, x_hi;
} Strip;

static guint
most_steps (const TgStepSearch *out, guint zone)
{
  double most = out->part->capacity_g[zone] / out->step_g + WHOLE;

  return most < 1 ? 0 : (guint) fmin (most, 1e9);
}

static double
common_cost (const TgStepSearch *out, guint zones)
{
  double common = 0;

  for (guint j = 0; j < out->part->n_zones; j++)
    {
      if (!(zones & 1u << j) || most_steps (out, j) == 0)
        continue;
      if (common > 0 && out->part->cost[j] != common)
        return 0;
      common = out->part->cost[j];
    }
  return common * out->step_g;
}

static double
round_up (double cost, double quantum)
{
  return quantum > 0 ? ceil (cost / quantum - 1e-7) * quantum : cost;
}

double
tg_step_search_round_up (const TgStepSearch *search, guint zones, double cost)
{
  return round_up (cost, common_cost (search, zones));
}

/* Takes now[] as the best plan if it is better. */
static void
record (Search *s)
{
  const TgPlanPart *part = s->out->part;
  double cost = 0, share = 0;
  guint used = 0;

  for (guint j = 0; j < part->n_zones; j++)
    if (s->now[j] > 0)
      {
        double amount = s->now[j] * s->out->step_g;

        cost += part->cost[j] * amount;
        share = fmax (share, amount / part->capacity_g[j]);
        used++;
      }
  if (s->out->found && (cost > s->out->cost + SAME ||
                        (cost > s->out->cost - SAME &&
                         (used > s->used || (used == s->used && share >= s->share - SAME)))))
    return;
  s->out->found = TRUE;
  s->out->cost = cost;
  s->used = used;
  s->share = share;
  memcpy (s->out->steps, s->now, sizeof s->now);
}

/* TRUE if a plan that costs at least @bound cannot be better than the best. */
static gboolean
hopeless (const Search *s, double bound)
{
  return s->out->found && round_up (bound, s->quantum) > s->out->cost - SAME;
}

/* y × @ay + x × @ax in [lo, hi]; FALSE if that cannot be. */
static gboolean
add_row (Strip *strip, double ax, double ay, double lo, double hi)
{
  if (fabs (ay) > 1e-12)
    {
      double first = ay > 0 ? lo : hi, last = ay > 0 ? hi : lo;

      if (isfinite (first))
        strip->lower[strip->n_lower++] = (Line){ -ax / ay, first / ay };
      if (isfinite (last))
        strip->upper[strip->n_upper++] = (Line){ -ax / ay, last / ay };
      return TRUE;
    }
  if (fabs (ax) > 1e-12)
    {
      strip->x_lo = fmax (strip->x_lo, (ax > 0 ? lo : hi) / ax);
      strip->x_hi = fmin (strip->x_hi, (ax > 0 ? hi : lo) / ax);
      return TRUE;
    }
  return lo <= 0 && hi >= 0;
}

/* Every lower bound on y must lie under every upper one. */
static gboolean
limit_x (Strip *strip)
{
  for (guint l = 0; l < strip->n_lower; l++)
    for (guint u = 0; u < strip->n_upper; u++)
      {
        double slope = strip->lower[l].slope - strip->upper[u].slope;
        double room = strip->upper[u].base - strip->lower[l].base;

        if (slope > 1e-12)
          strip->x_hi = fmin (strip->x_hi, room / slope);
        else if (slope < -1e-12)
          strip->x_lo = fmax (strip->x_lo, room / slope);
        else if (room < -WHOLE)
          return FALSE;
      }
  return strip->x_lo <= strip->x_hi + WHOLE;
}

static double
lower_y (const Strip *strip, double x)
{
  double y = 0;

  for (guint l = 0; l < strip->n_lower; l++)
    {
      double bound = strip->lower[l].slope * x + strip->lower[l].base;

      y = MAX (y, bound);
    }
  return y;
}

static double
upper_y (const Strip *strip, double x)
{
  double y = INF;

  for (guint u = 0; u < strip->n_upper; u++)
    {
      double bound = strip->upper[u].slope * x + strip->upper[u].base;

      y = MIN (y, bound);
    }
  return y;
}

/* Where x × @cx + lower_y (x) × @cy is least: at an end of x or where two lower bounds cross. */
static double
cheapest_x (const Strip *strip, double cx, double cy)
{
  double best = strip->x_lo, least = cx * best + cy * lower_y (strip, best);
  double tries[TG_PLAN_MAX_ROWS * (TG_PLAN_MAX_ROWS + 1) / 2 + 1];
  guint n = 0;

  tries[n++] = strip->x_hi;
  for (guint i = 0; i < strip->n_lower; i++)
    for (guint j = i + 1; j < strip->n_lower; j++)
      {
        double slope = strip->lower[i].slope - strip->lower[j].slope;

        if (fabs (slope) > 1e-12)
          tries[n++] = (strip->lower[j].base - strip->lower[i].base) / slope;
      }
  for (guint i = 0; i < n; i++)
    {
      double x = CLAMP (tries[i], strip->x_lo, strip->x_hi);
      double cost = cx * x + cy * lower_y (strip, x);

      if (cost < least)
        {
          least = cost;
          best = x;
        }
    }
  return best;
}

/* Whole x from @from by @way while the relaxed cost may still give a plan as good as the best. */
static void
scan (Search *s, const Strip *strip, guint x, guint y, double from, int way, double base_cost)
{
  const TgPlanPart *part = s->out->part;
  double step = s->out->step_g;
  guint ties = 0;

  for (double k = from; k >= strip->x_lo - WHOLE && k <= strip->x_hi + WHOLE; k += way)
    {
      double least = lower_y (strip, k);
      double whole = ceil (least - WHOLE);

      if (s->out->found &&
          base_cost + step * (part->cost[x] * k + part->cost[y] * least) > s->out->cost + SAME)
        return;
      if (s->out->found && ++ties > TIES)
        return;
      if (whole > upper_y (strip, k) + WHOLE)
        continue;
      s->now[x] = (guint) k;
      if (y != x)
        s->now[y] = (guint) whole;
      record (s);
    }
  /* the caller clears now[] */
}

/* Zones @x and @y are the last ones open, or @x == @y the only one. */
static gboolean
last_pair (Search *s, guint x, guint y, const double *lo, const double *hi, double base_cost)
{
  const TgPlanPart *part = s->out->part;
  double step = s->out->step_g;
  Strip strip = { .x_lo = 0, .x_hi = s->most[x] };
  double cx = part->cost[x] * step, cy = part->cost[y] * step;
  double start;

  strip.lower[strip.n_lower++] = (Line){ 0, 0 };
  strip.upper[strip.n_upper++] = (Line){ 0, y != x ? s->most[y] : 0 };
  for (guint r = 0; r < part->n_rows; r++)
    if (!add_row (&strip, part->effect[r][x] * step, y != x ? part->effect[r][y] * step : 0, lo[r],
                  hi[r]))
      return FALSE;
  if (!limit_x (&strip))
    return FALSE;
  start = cheapest_x (&strip, cx, cy);
  if (hopeless (s, base_cost + cx * start + cy * lower_y (&strip, start)))
    return FALSE;
  start = floor (start + WHOLE);
  scan (s, &strip, x, y, start, -1, base_cost);
  scan (s, &strip, x, y, start + 1, 1, base_cost);
  s->now[x] = s->now[y] = 0;
  return TRUE;
}

/* The relaxed plan of @n open zones; amounts in steps. FALSE if there is none. */
static gboolean
relax (Search *s, const guint *open, guint n, const double *lo, const double *hi, double *cost)
{
  const TgPlanPart *part = s->out->part;
  double step = s->out->step_g;

  tg_simplex_reset (s->lp, part->n_rows, n);
  for (guint i = 0; i < n; i++)
    {
      tg_simplex_set_cost (s->lp, i, part->cost[open[i]] * step);
      tg_simplex_set_column (s->lp, i, 0, s->most[open[i]]);
      for (guint r = 0; r < part->n_rows; r++)
        tg_simplex_set_coefficient (s->lp, r, i, part->effect[r][open[i]] * step);
    }
  for (guint r = 0; r < part->n_rows; r++)
    tg_simplex_set_row (s->lp, r, lo[r], hi[r]);
  if (tg_simplex_solve (s->lp) != TG_SIMPLEX_OPTIMAL)
    return FALSE;
  *cost = tg_simplex_objective (s->lp);
  return TRUE;
}

/* Index of the largest amount that is not whole, -1 if all are; whole ones go into now[]. */
static int
largest_broken (Search *s, const guint *open, guint n, double *amount)
{
  int chosen = -1;

  for (guint i = 0; i < n; i++)
    {
      double k = tg_simplex_value (s->lp, i);
      double whole = floor (k + 0.5);

      s->now[open[i]] = (guint) fmax (whole, 0);
      if (fabs (k - whole) > WHOLE && (chosen < 0 || k > *amount))
        {
          chosen = (int) i;
          *amount = k;
        }
    }
  return chosen;
}

static gboolean search_open (
    Search *s, const guint *open, guint n, const double *lo, const double *hi, double base_cost);

/* Fixes @zone at @k steps and goes on with the others. */
static gboolean
try_fixed (Search *s,
           guint zone,
           double k,
           const guint *others,
           guint n,
           const double *lo,
           const double *hi,
           double base_cost)
{
  const TgPlanPart *part = s->out->part;
  double amount = k * s->out->step_g;
  double rest_lo[TG_PLAN_MAX_ROWS], rest_hi[TG_PLAN_MAX_ROWS];
  gboolean viable;

  if (k < 0 || k > s->most[zone])
    return FALSE;
  for (guint r = 0; r < part->n_rows; r++)
    {
      rest_lo[r] = lo[r] - part->effect[r][zone] * amount;
      rest_hi[r] = hi[r] - part->effect[r][zone] * amount;
    }
  s->now[zone] = (guint) k;
  viable = search_open (s, others, n, rest_lo, rest_hi, base_cost + part->cost[zone] * amount);
  s->now[zone] = 0;
  return viable;
}

/* FALSE if no plan over the @n open zones can be better than the best. */
static gboolean
search_open (
    Search *s, const guint *open, guint n, const double *lo, const double *hi, double base_cost)
{
  guint others[TG_PLAN_MAX_ZONES];
  double cost, amount = 0;
  gboolean down = TRUE, up = TRUE;
  int chosen;
  guint zone;

  /* the first node is free: one or two zones are always searched to the end */
  if (s->done || (s->out->nodes == 0 && !s->first))
    return FALSE;
  if (!s->first)
    s->out->nodes--;
  s->first = FALSE;
  if (n <= 2)
    return last_pair (s, open[0], open[n - 1], lo, hi, base_cost);
  if (!relax (s, open, n, lo, hi, &cost) || hopeless (s, base_cost + cost))
    return FALSE;
  chosen = largest_broken (s, open, n, &amount);
  if (chosen < 0)
    record (s);
  for (guint i = 0; i < n; i++)
    s->now[open[i]] = 0;
  if (chosen < 0)
    return TRUE;

  zone = open[chosen];
  for (guint i = 0, m = 0; i < n; i++)
    if ((int) i != chosen)
      others[m++] = open[i];
  for (guint away = 0; (down || up) && !s->done; away++)
    {
      down = down && try_fixed (s, zone, floor (amount) - away, others, n - 1, lo, hi, base_cost);
      up = up && try_fixed (s, zone, floor (amount) + 1 + away, others, n - 1, lo, hi, base_cost);
      s->done = s->out->found && s->out->cost <= s->lower_bound + SAME;
      if (s->out->nodes == 0)
        s->done = TRUE;
    }
  return TRUE;
}

void
tg_step_search_run (TgStepSearch *search, TgSimplex *lp, guint zones, double lower_bound)
{
  Search s = { .out = search, .lp = lp, .lower_bound = lower_bound, .first = TRUE };
  double lo[TG_PLAN_MAX_ROWS], hi[TG_PLAN_MAX_ROWS];
  guint open[TG_PLAN_MAX_ZONES];
  guint n = 0;

  for (guint j = 0; j < search->part->n_zones; j++)
    {
      s.most[j] = most_steps (search, j);
      if ((zones & 1u << j) && s.most[j] > 0)
        open[n++] = j;
    }
  for (guint r = 0; r < search->part->n_rows; r++)
    {
      lo[r] = search->fall_lo[r] - SLACK_G;
      hi[r] = search->fall_hi[r] + SLACK_G;
    }
  s.quantum = common_cost (search, zones);
  s.lower_bound = round_up (lower_bound, s.quantum);
  if (search->found)
    {
      memcpy (s.now, search->steps, sizeof s.now);
      search->found = FALSE;
      record (&s);
      memset (s.now, 0, sizeof s.now);
    }
  if (n > 0)
    search_open (&s, open, n, lo, hi, 0);
}
