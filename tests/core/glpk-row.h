/* glpk-row.h: a row of a GLPK model, gathered term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <glib.h>
#include <glpk.h>

#define GLPK_ROW_TERMS 512

/* Terms are counted from 1, as GLPK does. Begins empty with { 0 }. */
typedef struct
{
  int n;
  int index[GLPK_ROW_TERMS];
  double value[GLPK_ROW_TERMS];
} GlpkRow;

static inline void
glpk_row_term (GlpkRow *row, int col, double value)
{
  g_assert_cmpint (row->n, <, GLPK_ROW_TERMS - 1);
  row->n++;
  row->index[row->n] = col;
  row->value[row->n] = value;
}

/* Adds it to @lp with one bound, GLP_LO, GLP_UP or GLP_FX; the next one begins empty. */
static inline void
glpk_row_end (GlpkRow *row, glp_prob *lp, int kind, double bound)
{
  int i = glp_add_rows (lp, 1);

  glp_set_mat_row (lp, i, row->n, row->index, row->value);
  glp_set_row_bnds (lp, i, kind, bound, bound);
  row->n = 0;
}
