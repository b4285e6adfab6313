/* plan-oracle.h: random parts, and the same plans solved by GLPK
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLPK (the GNU Linear Programming Kit) is the independent solver of the planning tests.
 */
#pragma once

#include <glib.h>

#include "target-plan.h"

typedef enum
{
  ORACLE_COST,      /* least cost with every weight in its band */
  ORACLE_VIOLATION, /* least sum of violations */
  ORACLE_TOLERANCE, /* least tolerance of a row, at least the given one */
  ORACLE_BOTH, /* least violation × ORACLE_WEIGHT + cost: among least violations the least cost */
} OracleAim;

#define ORACLE_WEIGHT 1000.0

/* FALSE if there is no solution. @row is for ORACLE_TOLERANCE. */
gboolean oracle_solve_set (const TgTargetProblem *problem, OracleAim aim, guint row, double *value);

/* The same for one part with the bands given. */
gboolean oracle_solve_part (
    const TgPlanPart *part, OracleAim aim, const double *lo, const double *hi, double *value);

/* A rod of 1 to @max_zones zones from 40 mm below the big end to 40 mm above the small end. */
void oracle_draw_rod (GRand *random, guint max_zones, TgPlanPart *part);

/* A piston: one row, every effect 1. */
void oracle_draw_piston (GRand *random, guint max_zones, TgPlanPart *part);

/* Bands below the weights by up to a few grams, some above, some of width 0. */
void oracle_draw_bands (GRand *random, const TgPlanPart *part, double *lo, double *hi);
