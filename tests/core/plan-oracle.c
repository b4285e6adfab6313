/* plan-oracle.c: random parts, and the same plans solved by GLPK, see plan-oracle.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Written apart from core/target-plan.c: every weight is a column of its own, tied to the amounts
 * by an equation and to the target by two rows.  Weights are taken relative to the first part's,
 * because GLPK's tolerances are relative to the size of the figures.
 */
#include "plan-oracle.h"

#include <glpk.h>
#include <math.h>
#include <string.h>

#include "rod-statics.h"

#include "glpk-row.h"

typedef struct
{
  glp_prob *lp;
  GlpkRow row;
} Model;

static int
add_column (Model *m, double cost, int kind, double lo, double hi)
{
  int col = glp_add_cols (m->lp, 1);

  glp_set_obj_coef (m->lp, col, cost);
  glp_set_col_bnds (m->lp, col, kind == GLP_DB && lo == hi ? GLP_FX : kind, lo, hi);
  return col;
}

/* Adds the columns and rows of row @r of a part whose amounts are the columns from @first on. */
static void
add_weight (Model *m,
            const TgPlanPart *part,
            guint r,
            int first,
            double base,
            int target,
            int tolerance,
            double penalty)
{
  int after = add_column (m, 0, GLP_FR, 0, 0);

  glpk_row_term (&m->row, after, 1);
  for (guint j = 0; j < part->n_zones; j++)
    if (part->effect[r][j] != 0)
      glpk_row_term (&m->row, first + (int) j, part->effect[r][j]);
  glpk_row_end (&m->row, m->lp, GLP_FX, part->weight_g[r] - base);

  glpk_row_term (&m->row, after, 1);
  glpk_row_term (&m->row, target, -1);
  if (penalty > 0)
    glpk_row_term (&m->row, add_column (m, penalty, GLP_LO, 0, 0), 1);
  glpk_row_end (&m->row, m->lp, GLP_LO, 0);

  glpk_row_term (&m->row, after, 1);
  glpk_row_term (&m->row, target, -1);
  glpk_row_term (&m->row, tolerance, -1);
  if (penalty > 0)
    glpk_row_term (&m->row, add_column (m, penalty, GLP_LO, 0, 0), -1);
  glpk_row_end (&m->row, m->lp, GLP_UP, 0);
}

static gboolean
run (Model *m, double *value)
{
  glp_smcp parameters;
  int status;

  glp_init_smcp (&parameters);
  parameters.msg_lev = GLP_MSG_OFF;
  parameters.tol_bnd = parameters.tol_dj = 1e-9;
  g_assert_cmpint (glp_simplex (m->lp, &parameters), ==, 0);
  status = glp_get_status (m->lp);
  *value = glp_get_obj_val (m->lp);
  glp_delete_prob (m->lp);
  g_assert_true (status == GLP_OPT || status == GLP_NOFEAS);
  return status == GLP_OPT;
}

gboolean
oracle_solve_set (const TgTargetProblem *problem, OracleAim aim, guint row, double *value)
{
  Model m = { .lp = glp_create_prob () };
  guint n_rows = problem->parts[0].n_rows;
  int target[TG_PLAN_MAX_ROWS], tolerance[TG_PLAN_MAX_ROWS];
  const double *base = problem->parts[0].weight_g;
  double penalty = aim == ORACLE_VIOLATION ? 1 : aim == ORACLE_BOTH ? ORACLE_WEIGHT : 0;
  gboolean metal = aim == ORACLE_COST || aim == ORACLE_BOTH;

  for (guint r = 0; r < n_rows; r++)
    {
      double given = problem->tolerance_g[r];

      target[r] = problem->fixed[r] ? add_column (&m, 0, GLP_FX, problem->target_g[r] - base[r],
                                                  problem->target_g[r] - base[r])
                                    : add_column (&m, 0, GLP_FR, 0, 0);
      tolerance[r] = aim == ORACLE_TOLERANCE && r == row ? add_column (&m, 1, GLP_LO, given, 0)
                                                         : add_column (&m, 0, GLP_FX, given, given);
    }
  for (guint i = 0; i < problem->n_parts; i++)
    {
      const TgPlanPart *part = &problem->parts[i];
      int first = glp_get_num_cols (m.lp) + 1;

      for (guint j = 0; j < part->n_zones; j++)
        add_column (&m, metal ? part->cost[j] : 0, GLP_DB, 0, part->capacity_g[j]);
      for (guint r = 0; r < n_rows; r++)
        add_weight (&m, part, r, first, base[r], target[r], tolerance[r], penalty);
    }
  return run (&m, value);
}

gboolean
oracle_solve_part (
    const TgPlanPart *part, OracleAim aim, const double *lo, const double *hi, double *value)
{
  TgTargetProblem problem = { .n_parts = 1, .parts = part };

  for (guint r = 0; r < part->n_rows; r++)
    {
      problem.fixed[r] = TRUE;
      problem.target_g[r] = lo[r];
      problem.tolerance_g[r] = hi[r] - lo[r];
    }
  return oracle_solve_set (&problem, aim, 0, value);
}

static void
draw_zones (GRand *random, TgPlanPart *part)
{
  gboolean equal = g_rand_boolean (random);

  for (guint j = 0; j < part->n_zones; j++)
    {
      gboolean none = g_rand_int_range (random, 0, 12) == 0;

      part->capacity_g[j] = none ? 0 : g_rand_double_range (random, 0.2, 6);
      part->cost[j] = equal ? 1 : g_rand_double_range (random, 0.4, 3);
    }
}

void
oracle_draw_rod (GRand *random, guint max_zones, TgPlanPart *part)
{
  double centres = g_rand_double_range (random, 90, 220);

  memset (part, 0, sizeof *part);
  part->n_rows = 2;
  part->n_zones = (guint) g_rand_int_range (random, 1, (int) max_zones + 1);
  part->weight_g[0] = 160 + g_rand_int_range (random, 0, 100) / 20.0;
  part->weight_g[1] = 430 + g_rand_int_range (random, 0, 100) / 20.0;
  for (guint j = 0; j < part->n_zones; j++)
    {
      double position = g_rand_double_range (random, -40, centres + 40);
      TgRodStatics effect = tg_rod_statics_effect (centres, position);

      part->effect[0][j] = effect.small;
      part->effect[1][j] = effect.big;
    }
  draw_zones (random, part);
}

void
oracle_draw_piston (GRand *random, guint max_zones, TgPlanPart *part)
{
  memset (part, 0, sizeof *part);
  part->n_rows = 1;
  part->n_zones = (guint) g_rand_int_range (random, 1, (int) max_zones + 1);
  part->weight_g[0] = 390 + g_rand_int_range (random, 0, 100) / 20.0;
  for (guint j = 0; j < part->n_zones; j++)
    part->effect[0][j] = 1;
  draw_zones (random, part);
}

void
oracle_draw_bands (GRand *random, const TgPlanPart *part, double *lo, double *hi)
{
  for (guint r = 0; r < part->n_rows; r++)
    {
      double width = g_rand_int_range (random, 0, 6) / 10.0;

      hi[r] = part->weight_g[r] - g_rand_double_range (random, -0.6, 3);
      lo[r] = hi[r] - width;
    }
}
