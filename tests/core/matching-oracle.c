/* matching-oracle.c: random matching problems, and the same solved by GLPK, see matching-oracle.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An integer programme of its own: x(f, i, c) = 1 puts part i of family f at cylinder c; floor T;
 * removal r(c).  Weights count from the lightest of their family, because GLPK's tolerances are
 * relative to the size of the figures.
 */
#include "matching-oracle.h"

#include <glpk.h>
#include <math.h>
#include <string.h>

#include "glpk-row.h"

typedef struct
{
  const TgMatchingProblem *problem;
  glp_prob *lp;
  int first[TG_MATCHING_MAX_FAMILIES];
  int floor, removal;
  GlpkRow row;
} Model;

void
oracle_draw_plain (GRand *random, guint n, guint k, int spread, OracleProblem *out)
{
  memset (out, 0, sizeof *out);
  out->problem.n_families = k;
  out->problem.n_cylinders = n;
  out->problem.forbidden = out->forbidden;
  out->problem.locked = out->locked;
  for (guint f = 0; f < k; f++)
    {
      out->problem.families[f].parts = out->parts[f];
      for (guint i = 0; i < n; i++)
        oracle_draw_spare (random, f, spread, out);
    }
}

void
oracle_draw_spare (GRand *random, guint f, int spread, OracleProblem *problem)
{
  guint i = problem->problem.families[f].n_parts++;

  problem->parts[f][i] = (TgMatchingPart){ .weight = 1000 * (f + 1) +
                                                     g_rand_int_range (random, 0, spread + 1),
                                           .capacity = TG_MATCHING_NO_LIMIT,
                                           .bound = -1,
                                           .today = -1 };
}

void
oracle_draw_batches (GRand *random, int offset, OracleProblem *problem)
{
  for (guint f = 0; f < problem->problem.n_families; f++)
    for (guint i = 0; i < problem->problem.families[f].n_parts; i++)
      if (g_rand_boolean (random))
        problem->parts[f][i].weight += offset;
}

static void
draw_pair (GRand *random, const TgMatchingProblem *problem, TgMatchingPair *pair)
{
  guint first = (guint) g_rand_int_range (random, 0, (int) problem->n_families);
  guint step = (guint) g_rand_int_range (random, 1, (int) problem->n_families);

  pair->family[0] = first;
  pair->family[1] = (first + step) % problem->n_families;
  for (guint side = 0; side < 2; side++)
    pair->part[side] = (guint) g_rand_int_range (
        random, 0, (int) problem->families[pair->family[side]].n_parts);
}

static void
draw_capacities (GRand *random, OracleProblem *problem)
{
  int most = g_rand_int_range (random, 1, 12);

  for (guint f = 0; f < problem->problem.n_families; f++)
    for (guint i = 0; i < problem->problem.families[f].n_parts; i++)
      if (g_rand_int_range (random, 0, 3) > 0)
        problem->parts[f][i].capacity = g_rand_int_range (random, 0, most);
}

static void
draw_cylinders (GRand *random, OracleProblem *problem)
{
  int n = (int) problem->problem.n_cylinders;

  for (guint f = 0; f < problem->problem.n_families; f++)
    {
      for (int i = 0; i < n; i++)
        problem->parts[f][i].today = (i * 3 + (int) f) % n;
      if (g_rand_int_range (random, 0, 3) == 0)
        problem->parts[f][g_rand_int_range (random, 0, n)].bound = g_rand_int_range (random, 0, n);
    }
}

void
oracle_draw_rules (GRand *random, OracleProblem *problem)
{
  TgMatchingProblem *p = &problem->problem;

  if (g_rand_boolean (random))
    p->tolerance = g_rand_int_range (random, 0, 6);
  if (g_rand_boolean (random))
    draw_capacities (random, problem);
  if (g_rand_boolean (random))
    draw_cylinders (random, problem);
  if (p->n_families < 2)
    return;
  if (g_rand_boolean (random))
    p->n_forbidden = (guint) g_rand_int_range (random, 0, ORACLE_MAX_PAIRS);
  for (guint i = 0; i < p->n_forbidden; i++)
    draw_pair (random, p, &problem->forbidden[i]);
  if (g_rand_boolean (random))
    p->n_locked = (guint) g_rand_int_range (random, 0, 3);
  for (guint i = 0; i < p->n_locked; i++)
    draw_pair (random, p, &problem->locked[i]);
}

void
oracle_draw_ruled (GRand *random, guint max_n, OracleProblem *o)
{
  guint n = (guint) g_rand_int_range (random, 3, (int) max_n + 1);
  guint k = (guint) g_rand_int_range (random, 2, 5);

  oracle_draw_plain (random, n, k, g_rand_int_range (random, 3, 60), o);
  oracle_draw_rules (random, o);
}

void
oracle_copy (const OracleProblem *from, OracleProblem *to)
{
  *to = *from;
  to->problem.forbidden = to->forbidden;
  to->problem.locked = to->locked;
  for (guint f = 0; f < to->problem.n_families; f++)
    to->problem.families[f].parts = to->parts[f];
}

static int
put (const Model *m, guint f, guint i, guint c)
{
  return m->first[f] + (int) (i * m->problem->n_cylinders + c);
}

static gint64
lightest_of (const TgMatchingFamily *family)
{
  gint64 least = family->parts[0].weight;

  for (guint i = 1; i < family->n_parts; i++)
    least = MIN (least, family->parts[i].weight);
  return least;
}

/* Without a rule that names cylinders the first family may as well stand in order. */
static gboolean
in_order (const TgMatchingProblem *problem)
{
  if (problem->families[0].n_parts > problem->n_cylinders)
    return FALSE;
  for (guint f = 0; f < problem->n_families; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      if (problem->families[f].parts[i].bound >= 0)
        return FALSE;
  return TRUE;
}

static void
add_columns (Model *m)
{
  const TgMatchingProblem *p = m->problem;
  gboolean order = in_order (p);

  for (guint f = 0; f < p->n_families; f++)
    {
      m->first[f] = glp_add_cols (m->lp, (int) (p->families[f].n_parts * p->n_cylinders));
      for (guint i = 0; i < p->families[f].n_parts; i++)
        for (guint c = 0; c < p->n_cylinders; c++)
          {
            int bound = p->families[f].parts[i].bound;

            glp_set_col_kind (m->lp, put (m, f, i, c), GLP_BV);
            if ((bound >= 0 && (guint) bound != c) || (order && f == 0 && i != c))
              glp_set_col_bnds (m->lp, put (m, f, i, c), GLP_FX, 0, 0);
          }
    }
  m->floor = glp_add_cols (m->lp, 1);
  glp_set_col_bnds (m->lp, m->floor, GLP_LO, 0, 0);
  m->removal = glp_add_cols (m->lp, (int) p->n_cylinders);
  for (guint c = 0; c < p->n_cylinders; c++)
    {
      glp_set_col_bnds (m->lp, m->removal + (int) c, GLP_LO, 0, 0);
      glp_set_obj_coef (m->lp, m->removal + (int) c, 1);
    }
}

static void
add_use (Model *m)
{
  const TgMatchingProblem *p = m->problem;

  for (guint f = 0; f < p->n_families; f++)
    {
      for (guint c = 0; c < p->n_cylinders; c++)
        {
          for (guint i = 0; i < p->families[f].n_parts; i++)
            glpk_row_term (&m->row, put (m, f, i, c), 1);
          glpk_row_end (&m->row, m->lp, GLP_FX, 1);
        }
      for (guint i = 0; i < p->families[f].n_parts; i++)
        {
          gboolean used = p->families[f].parts[i].bound >= 0 ||
                          p->families[f].n_parts == p->n_cylinders;

          for (guint c = 0; c < p->n_cylinders; c++)
            glpk_row_term (&m->row, put (m, f, i, c), 1);
          glpk_row_end (&m->row, m->lp, used ? GLP_FX : GLP_UP, 1);
        }
    }
}

static void
add_weight (Model *m, guint c)
{
  for (guint f = 0; f < m->problem->n_families; f++)
    for (guint i = 0; i < m->problem->families[f].n_parts; i++)
      glpk_row_term (&m->row, put (m, f, i, c),
                     (double) (m->problem->families[f].parts[i].weight -
                               lightest_of (&m->problem->families[f])));
  glpk_row_term (&m->row, m->floor, -1);
}

static void
add_metal (Model *m, guint c)
{
  const TgMatchingProblem *p = m->problem;
  gboolean limited = TRUE;

  add_weight (m, c);
  glpk_row_end (&m->row, m->lp, GLP_LO, 0);
  add_weight (m, c);
  glpk_row_term (&m->row, m->removal + (int) c, -1);
  glpk_row_end (&m->row, m->lp, GLP_UP, (double) p->tolerance);

  for (guint f = 0; f < p->n_families; f++)
    {
      gboolean all = TRUE;

      for (guint i = 0; i < p->families[f].n_parts; i++)
        all = all && p->families[f].parts[i].capacity == TG_MATCHING_NO_LIMIT;
      limited = limited && !all;
    }
  if (!limited)
    return;
  glpk_row_term (&m->row, m->removal + (int) c, 1);
  for (guint f = 0; f < p->n_families; f++)
    for (guint i = 0; i < p->families[f].n_parts; i++)
      glpk_row_term (&m->row, put (m, f, i, c),
                     -fmin ((double) p->families[f].parts[i].capacity, 20000));
  glpk_row_end (&m->row, m->lp, GLP_UP, 0);
}

static void
add_pairs (Model *m)
{
  const TgMatchingProblem *p = m->problem;

  for (guint i = 0; i < p->n_forbidden + p->n_locked; i++)
    {
      gboolean locked = i >= p->n_forbidden;
      const TgMatchingPair *pair = locked ? &p->locked[i - p->n_forbidden] : &p->forbidden[i];

      for (guint c = 0; c < p->n_cylinders; c++)
        {
          glpk_row_term (&m->row, put (m, pair->family[0], pair->part[0], c), 1);
          glpk_row_term (&m->row, put (m, pair->family[1], pair->part[1], c), locked ? -1 : 1);
          glpk_row_end (&m->row, m->lp, locked ? GLP_FX : GLP_UP, locked ? 0 : 1);
        }
    }
}

static void
build (Model *m, const TgMatchingProblem *problem)
{
  *m = (Model){ .problem = problem, .lp = glp_create_prob () };
  add_columns (m);
  add_use (m);
  for (guint c = 0; c < problem->n_cylinders; c++)
    add_metal (m, c);
  add_pairs (m);
}

gboolean
oracle_write_matching (const TgMatchingProblem *problem, const char *path)
{
  Model m;
  gboolean written;

  glp_term_out (GLP_OFF);
  build (&m, problem);
  written = glp_write_lp (m.lp, NULL, path) == 0;
  glp_delete_prob (m.lp);
  return written;
}

OracleVerdict
oracle_solve_matching (const TgMatchingProblem *problem, int limit_ms, gint64 *total)
{
  Model m;
  glp_iocp parameters;
  OracleVerdict verdict = ORACLE_TIME_OUT;
  int error, status;

  glp_term_out (GLP_OFF);
  build (&m, problem);
  glp_init_iocp (&parameters);
  parameters.msg_lev = GLP_MSG_OFF;
  parameters.presolve = GLP_ON;
  parameters.tm_lim = limit_ms;
  error = glp_intopt (m.lp, &parameters);
  status = glp_mip_status (m.lp);
  if (error == GLP_ENOPFS || (error == 0 && status == GLP_NOFEAS))
    verdict = ORACLE_NONE;
  else if (error == 0 && status == GLP_OPT)
    {
      verdict = ORACLE_OPTIMUM;
      *total = llround (glp_mip_obj_val (m.lp));
    }
  glp_delete_prob (m.lp);
  return verdict;
}
