/* simplex.h: small dense linear programmes with bounded variables and range rows
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 *   minimise c·x   subject to   row_lo ≤ A x ≤ row_hi,   lo ≤ x ≤ hi
 *
 * -INFINITY and INFINITY mean no bound.  All memory is taken in tg_simplex_new(); solving takes
 * none.  One object is used by one thread at a time and again for any number of programmes.
 */
#pragma once

#include <glib.h>

G_BEGIN_DECLS

typedef struct _TgSimplex TgSimplex;

typedef enum
{
  TG_SIMPLEX_OPTIMAL,
  TG_SIMPLEX_INFEASIBLE,
  TG_SIMPLEX_UNBOUNDED,
  TG_SIMPLEX_STALLED, /* the iteration limit was hit; nothing is proven */
} TgSimplexStatus;

TgSimplex *tg_simplex_new (guint max_rows, guint max_cols);
void tg_simplex_free (TgSimplex *lp);

/* Starts a new programme: every coefficient and cost 0, columns in [0, ∞), rows free. */
void tg_simplex_reset (TgSimplex *lp, guint rows, guint cols);
void tg_simplex_set_cost (TgSimplex *lp, guint col, double cost);
void tg_simplex_set_column (TgSimplex *lp, guint col, double lo, double hi);
void tg_simplex_set_row (TgSimplex *lp, guint row, double lo, double hi);
void tg_simplex_set_coefficient (TgSimplex *lp, guint row, guint col, double value);

/* Feasibility tolerance 1e-9 of the scaled problem; deterministic (Dantzig, then Bland).  After the
 * first call only costs may be set until tg_simplex_reset(); the next call goes on from the present
 * basis. */
TgSimplexStatus tg_simplex_solve (TgSimplex *lp);

/* After TG_SIMPLEX_OPTIMAL. */
double tg_simplex_objective (const TgSimplex *lp);
double tg_simplex_value (const TgSimplex *lp, guint col);
double tg_simplex_activity (const TgSimplex *lp, guint row);

/**
 * tg_simplex_column_forced:
 *
 * After TG_SIMPLEX_OPTIMAL: TRUE if the optimum's prices prove that every optimal solution has the
 * column (the row activity) at this same value, one of its bounds.  By complementary slackness the
 * feasible solutions that keep all forced values are exactly the optimal ones.
 */
gboolean tg_simplex_column_forced (const TgSimplex *lp, guint col);
gboolean tg_simplex_row_forced (const TgSimplex *lp, guint row);

/**
 * tg_simplex_hold:
 *
 * After TG_SIMPLEX_OPTIMAL: from here on only optimal solutions count.  The costs are 0 again; set
 * new ones and solve again to choose among the optimal solutions.
 */
void tg_simplex_hold (TgSimplex *lp);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgSimplex, tg_simplex_free)

G_END_DECLS
