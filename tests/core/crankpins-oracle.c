/* crankpins-oracle.c: random engines, enumeration, opposite pairing and GLPK, see crankpins-oracle.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Integer programme: x(i, b) = 1 puts set i into bore b; lowest ≤ every pin's sum ≤ highest.
 * Weights count from the lightest set, because GLPK's tolerances are relative to the figures.
 */
#include "crankpins-oracle.h"

#include <glpk.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static void
shuffle (GRand *random, guint n, guint *out)
{
  for (guint i = 0; i < n; i++)
    {
      guint j = (guint) g_rand_int_range (random, 0, (int) i + 1);

      out[i] = out[j];
      out[j] = i;
    }
}

void
oracle_draw_engine (GRand *random, guint pins, int spread, TgCrankpinsProblem *out)
{
  guint bores[TG_CRANKPINS_MAX_SETS] = { 0 };

  memset (out, 0, sizeof *out);
  out->n_pins = pins;
  shuffle (random, 2 * pins, bores);
  for (guint b = 0; b < 2 * pins; b++)
    {
      out->bore[b / 2][b % 2] = bores[b];
      out->set[b] = (TgCrankpinsSet){ .weight = 1000 + g_rand_int_range (random, 0, spread + 1),
                                      .bores = TG_CRANKPINS_ANY_BORE,
                                      .today = -1 };
    }
}

void
oracle_draw_today (GRand *random, TgCrankpinsProblem *problem)
{
  guint bores[TG_CRANKPINS_MAX_SETS] = { 0 };

  shuffle (random, 2 * problem->n_pins, bores);
  for (guint i = 0; i < 2 * problem->n_pins; i++)
    problem->set[i].today = (int) bores[i];
}

void
oracle_draw_bounds (GRand *random, TgCrankpinsProblem *problem)
{
  guint kind = (guint) g_rand_int_range (random, 0, 4);

  for (guint i = 0; i < 2 * problem->n_pins; i++)
    {
      TgCrankpinsSet *set = &problem->set[i];
      guint32 own = set->today >= 0 ? 1u << set->today : 1u << i;

      if (kind == 0 && g_rand_boolean (random))
        set->bores = own;
      if (kind == 1)
        set->bores = own | g_rand_int (random);
      if (kind == 2)
        set->bores = own | (g_rand_int (random) & g_rand_int (random));
      if (kind == 3)
        set->bores = g_rand_int (random) & g_rand_int (random);
    }
}

static gboolean
is_better (guint n, const TgCrankpinsPlacing *a, const TgCrankpinsPlacing *b)
{
  if (a->spread != b->spread)
    return a->spread < b->spread;
  if (a->changes != b->changes)
    return a->changes < b->changes;
  for (guint bore = 0; bore < n; bore++)
    if (a->set[bore] != b->set[bore])
      return a->set[bore] < b->set[bore];
  return FALSE;
}

/* Written apart from tg_crankpins_evaluate(): the spread is the largest difference of two pins. */
static void
weigh (const TgCrankpinsProblem *p, TgCrankpinsPlacing *placing)
{
  placing->spread = 0;
  placing->changes = 0;
  for (guint q = 0; q < p->n_pins; q++)
    for (guint r = 0; r < p->n_pins; r++)
      {
        TgMass difference = p->set[placing->set[p->bore[q][0]]].weight +
                            p->set[placing->set[p->bore[q][1]]].weight -
                            p->set[placing->set[p->bore[r][0]]].weight -
                            p->set[placing->set[p->bore[r][1]]].weight;

        placing->spread = MAX (placing->spread, difference);
      }
  for (guint i = 0; i < 2 * p->n_pins; i++)
    if (p->set[i].today >= 0 && placing->set[p->set[i].today] != i)
      placing->changes++;
}

static void
enumerate (const TgCrankpinsProblem *p,
           guint bore,
           guint used,
           TgCrankpinsPlacing *now,
           TgCrankpinsPlacing *best,
           gboolean *found)
{
  guint n = 2 * p->n_pins;

  if (bore == n)
    {
      weigh (p, now);
      if (!*found || is_better (n, now, best))
        *best = *now;
      *found = TRUE;
      return;
    }
  for (guint i = 0; i < n; i++)
    if (!(used >> i & 1) && (p->set[i].bores >> bore & 1))
      {
        now->set[bore] = i;
        enumerate (p, bore + 1, used | 1u << i, now, best, found);
      }
}

gboolean
oracle_enumerate (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *best)
{
  TgCrankpinsPlacing now = { 0 };
  gboolean found = FALSE;

  enumerate (problem, 0, 0, &now, best, &found);
  return found;
}

static int
compare_masses (gconstpointer a, gconstpointer b)
{
  const TgMass *x = a, *y = b;

  return (*x > *y) - (*x < *y);
}

void
oracle_pair_opposite (const TgCrankpinsProblem *problem,
                      guint left,
                      TgMass *lightest,
                      TgMass *heaviest)
{
  TgMass weight[TG_CRANKPINS_MAX_SETS];
  guint n = 0;

  for (guint i = 0; i < 2 * problem->n_pins; i++)
    if (left >> i & 1)
      weight[n++] = problem->set[i].weight;
  qsort (weight, n, sizeof *weight, compare_masses);
  *lightest = G_MAXINT64;
  *heaviest = 0;
  for (guint i = 0; i < n / 2; i++)
    {
      *lightest = MIN (*lightest, weight[i] + weight[n - 1 - i]);
      *heaviest = MAX (*heaviest, weight[i] + weight[n - 1 - i]);
    }
}

guint
oracle_most_pins_kept (const TgCrankpinsProblem *problem, TgMass lowest, TgMass highest)
{
  guint n = 2 * problem->n_pins, most = 0;

  for (guint pins = 0; pins < 1u << problem->n_pins; pins++)
    {
      TgMass low, high;
      guint left = (1u << n) - 1;
      gboolean holds = TRUE;

      for (guint i = 0; i < n; i++)
        for (guint j = 0; j < i; j++)
          for (guint p = 0; p < problem->n_pins; p++)
            {
              int a = (int) problem->bore[p][0], b = (int) problem->bore[p][1];
              TgMass sum = problem->set[i].weight + problem->set[j].weight;

              if (!(pins >> p & 1) ||
                  !((problem->set[i].today == a && problem->set[j].today == b) ||
                    (problem->set[i].today == b && problem->set[j].today == a)))
                continue;
              holds = holds && sum >= lowest && sum <= highest;
              left &= ~(1u << i | 1u << j);
            }
      oracle_pair_opposite (problem, left, &low, &high);
      if (holds && low >= lowest && high <= highest)
        most = MAX (most, (guint) __builtin_popcount (pins));
    }
  return most;
}

/* A row of @n ones on the columns of @index, 1-based. */
static void
add_ones (glp_prob *lp, guint n, const int *index)
{
  double ones[TG_CRANKPINS_MAX_SETS + 1];
  int row = glp_add_rows (lp, 1);

  for (guint i = 0; i <= n; i++)
    ones[i] = 1;
  glp_set_mat_row (lp, row, (int) n, index, ones);
  glp_set_row_bnds (lp, row, GLP_FX, 1, 1);
}

static void
add_sums (glp_prob *lp, const TgCrankpinsProblem *p, TgMass least)
{
  guint n = 2 * p->n_pins;
  int lowest = glp_add_cols (lp, 2), highest = lowest + 1;

  glp_set_col_bnds (lp, lowest, GLP_FR, 0, 0);
  glp_set_col_bnds (lp, highest, GLP_FR, 0, 0);
  glp_set_obj_coef (lp, lowest, -1);
  glp_set_obj_coef (lp, highest, 1);
  for (guint pin = 0; pin < p->n_pins; pin++)
    for (guint end = 0; end < 2; end++)
      {
        int index[2 * TG_CRANKPINS_MAX_SETS + 2], row = glp_add_rows (lp, 1), terms = 0;
        double value[2 * TG_CRANKPINS_MAX_SETS + 2];

        for (guint i = 0; i < n; i++)
          for (guint side = 0; side < 2; side++)
            {
              index[++terms] = (int) (i * n + p->bore[pin][side]) + 1;
              value[terms] = (double) (p->set[i].weight - least);
            }
        index[++terms] = end == 0 ? lowest : highest;
        value[terms] = -1;
        glp_set_mat_row (lp, row, terms, index, value);
        glp_set_row_bnds (lp, row, end == 0 ? GLP_LO : GLP_UP, 0, 0);
      }
}

gboolean
oracle_place (const TgCrankpinsProblem *p, int limit_ms, TgMass *spread)
{
  glp_prob *lp = glp_create_prob ();
  guint n = 2 * p->n_pins;
  TgMass least = G_MAXINT64;
  glp_iocp parameters;
  int error, status;

  glp_add_cols (lp, (int) (n * n));
  for (guint i = 0; i < n; i++)
    {
      int of_set[TG_CRANKPINS_MAX_SETS + 1], of_bore[TG_CRANKPINS_MAX_SETS + 1];

      least = MIN (least, p->set[i].weight);
      for (guint b = 0; b < n; b++)
        {
          of_set[b + 1] = (int) (i * n + b) + 1;
          of_bore[b + 1] = (int) (b * n + i) + 1;
          glp_set_col_kind (lp, of_set[b + 1], GLP_BV);
          if (!(p->set[i].bores >> b & 1))
            glp_set_col_bnds (lp, of_set[b + 1], GLP_FX, 0, 0);
        }
      add_ones (lp, n, of_set);
      add_ones (lp, n, of_bore);
    }
  add_sums (lp, p, least);
  glp_init_iocp (&parameters);
  parameters.msg_lev = GLP_MSG_OFF;
  parameters.presolve = GLP_ON;
  parameters.tm_lim = limit_ms;
  glp_term_out (GLP_OFF);
  error = glp_intopt (lp, &parameters);
  status = glp_mip_status (lp);
  *spread = error == 0 && status == GLP_OPT ? llround (glp_mip_obj_val (lp)) : -1;
  glp_delete_prob (lp);
  return error == GLP_ENOPFS || (error == 0 && (status == GLP_NOFEAS || status == GLP_OPT));
}
