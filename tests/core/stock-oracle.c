/* stock-oracle.c: random shelves, and the same solved by GLPK, see stock-oracle.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An integer programme of its own: x(i) = 1 chooses part i; floor T(f) ≤ w where chosen; loss
 * r(i, f) ≥ w − T − tolerance where chosen.  Weights count from the lightest, because GLPK's
 * tolerances are relative to the size of the figures.
 */
#include "stock-oracle.h"

#include <glpk.h>
#include <math.h>
#include <string.h>

#include "glpk-row.h"

void
oracle_add_part (GRand *random, int spread, OracleShelf *shelf)
{
  TgStockPart *part = &shelf->parts[shelf->problem.n_parts++];

  *part = (TgStockPart){ 0 };
  for (guint f = 0; f < shelf->problem.n_figures; f++)
    {
      part->weight[f] = 1000 * (f + 1) + g_rand_int_range (random, 0, spread + 1);
      part->capacity[f] = TG_STOCK_NO_LIMIT;
    }
}

void
oracle_draw_shelf (
    GRand *random, guint figures, guint parts, guint chosen, int spread, OracleShelf *shelf)
{
  memset (shelf, 0, sizeof *shelf);
  shelf->problem = (TgStockProblem){ .n_figures = figures,
                                     .parts = shelf->parts,
                                     .n_chosen = chosen };
  for (guint i = 0; i < parts; i++)
    oracle_add_part (random, spread, shelf);
}

void
oracle_draw_shelf_rules (GRand *random, int spread, OracleShelf *shelf)
{
  TgStockProblem *p = &shelf->problem;
  gboolean capped = g_rand_boolean (random), flagged = g_rand_boolean (random);

  for (guint f = 0; f < p->n_figures; f++)
    if (g_rand_int_range (random, 0, 3) > 0)
      p->tolerance[f] = g_rand_int_range (random, 0, spread / 3 + 2);
  for (guint i = 0; i < p->n_parts; i++)
    {
      for (guint f = 0; f < p->n_figures && capped; f++)
        if (g_rand_int_range (random, 0, 3) > 0)
          shelf->parts[i].capacity[f] = g_rand_int_range (random, 0, spread / 2 + 1);
      shelf->parts[i].must = flagged && g_rand_int_range (random, 0, (int) p->n_parts) == 0;
      shelf->parts[i].never = flagged && g_rand_int_range (random, 0, 8) == 0;
    }
}

void
oracle_list_shelf (
    const TgMass (*weight)[2], guint figures, guint parts, guint chosen, OracleShelf *out)
{
  memset (out, 0, sizeof *out);
  out->problem = (TgStockProblem){
    .n_figures = figures, .n_parts = parts, .parts = out->parts, .n_chosen = chosen
  };
  for (guint i = 0; i < parts; i++)
    out->parts[i] = (TgStockPart){ .weight = { weight[i][0], weight[i][1] },
                                   .capacity = { TG_STOCK_NO_LIMIT, TG_STOCK_NO_LIMIT } };
}

void
oracle_copy_shelf (const OracleShelf *from, OracleShelf *to)
{
  *to = *from;
  to->problem.parts = to->parts;
}

typedef struct
{
  glp_prob *lp;
  GlpkRow row;
} Model;

static void
add_figure (Model *m, const TgStockProblem *p, guint f)
{
  TgMass least = G_MAXINT64, most = 0;
  int floor = glp_add_cols (m->lp, 1);
  double range;

  for (guint i = 0; i < p->n_parts; i++)
    {
      least = MIN (least, p->parts[i].weight[f]);
      most = MAX (most, p->parts[i].weight[f]);
    }
  range = (double) (most - least);
  glp_set_col_bnds (m->lp, floor, GLP_DB, 0, range + 1);
  for (guint i = 0; i < p->n_parts; i++)
    {
      double weight = (double) (p->parts[i].weight[f] - least);
      double above = weight - (double) p->tolerance[f];
      int loss = glp_add_cols (m->lp, 1), x = (int) i + 1;

      glp_set_obj_coef (m->lp, loss, 1);
      glp_set_col_bnds (m->lp, loss, GLP_DB, 0, fmin (range + 1, (double) p->parts[i].capacity[f]));
      if (p->parts[i].capacity[f] == 0)
        glp_set_col_bnds (m->lp, loss, GLP_FX, 0, 0);
      glpk_row_term (&m->row, floor, 1);
      glpk_row_term (&m->row, x, range + 1 - weight);
      glpk_row_end (&m->row, m->lp, GLP_UP, range + 1);
      if (above <= 0)
        continue;
      glpk_row_term (&m->row, loss, 1);
      glpk_row_term (&m->row, floor, 1);
      glpk_row_term (&m->row, x, -above);
      glpk_row_end (&m->row, m->lp, GLP_LO, 0);
    }
}

gboolean
oracle_choose (const TgStockProblem *p, int limit_ms, TgMass *total)
{
  Model m = { .lp = glp_create_prob () };
  glp_iocp parameters;
  int error, status, row;

  glp_add_cols (m.lp, (int) p->n_parts);
  row = glp_add_rows (m.lp, 1);
  glp_set_row_bnds (m.lp, row, GLP_FX, p->n_chosen, p->n_chosen);
  for (int x = 1; x <= (int) p->n_parts; x++)
    {
      const TgStockPart *part = &p->parts[x - 1];

      glp_set_col_kind (m.lp, x, GLP_BV);
      glp_set_mat_col (m.lp, x, 1, (int[]){ 0, row }, (double[]){ 0, 1 });
      if (part->never)
        glp_set_col_bnds (m.lp, x, GLP_FX, 0, 0);
      if (!part->must)
        continue;
      glpk_row_term (&m.row, x, 1);
      glpk_row_end (&m.row, m.lp, GLP_FX, 1);
    }
  for (guint f = 0; f < p->n_figures; f++)
    add_figure (&m, p, f);
  glp_init_iocp (&parameters);
  parameters.msg_lev = GLP_MSG_OFF;
  parameters.presolve = GLP_ON;
  parameters.tm_lim = limit_ms;
  glp_term_out (GLP_OFF);
  error = glp_intopt (m.lp, &parameters);
  status = glp_mip_status (m.lp);
  *total = error == 0 && status == GLP_OPT ? llround (glp_mip_obj_val (m.lp)) : -1;
  glp_delete_prob (m.lp);
  return error == GLP_ENOPFS || (error == 0 && (status == GLP_NOFEAS || status == GLP_OPT));
}
