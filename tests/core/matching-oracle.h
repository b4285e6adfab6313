/* matching-oracle.h: random matching problems, and the same solved by GLPK
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLPK (the GNU Linear Programming Kit) is the independent solver of the matching's tests.
 */
#pragma once

#include <glib.h>

#include "matching.h"

#define ORACLE_MAX_PAIRS 8

/* A problem with room for what it lends. */
typedef struct
{
  TgMatchingProblem problem;
  TgMatchingPart parts[TG_MATCHING_MAX_FAMILIES][TG_MATCHING_MAX_PARTS];
  TgMatchingPair forbidden[ORACLE_MAX_PAIRS];
  TgMatchingPair locked[ORACLE_MAX_PAIRS];
} OracleProblem;

typedef enum
{
  ORACLE_OPTIMUM,
  ORACLE_NONE,
  ORACLE_TIME_OUT,
} OracleVerdict;

/* Weights of each family over @spread steps, no rules, no spares, no tolerance. */
void oracle_draw_plain (GRand *random, guint n, guint k, int spread, OracleProblem *out);

/* Adds @offset steps to about half of each family: two batches mixed. */
void oracle_draw_batches (GRand *random, int offset, OracleProblem *problem);

/* Now and then each: capacities, tolerance, bound parts, pairs forbidden and locked, a pairing of
 * today. */
void oracle_draw_rules (GRand *random, OracleProblem *problem);

/* One more part for family @f. */
void oracle_draw_spare (GRand *random, guint f, int spread, OracleProblem *problem);

/* Up to @max_n cylinders and four families, with rules. */
void oracle_draw_ruled (GRand *random, guint max_n, OracleProblem *o);

/* A copy that lends its own arrays. */
void oracle_copy (const OracleProblem *from, OracleProblem *to);

/* The least total, by integer programming, within @limit_ms. */
OracleVerdict oracle_solve_matching (const TgMatchingProblem *problem, int limit_ms, gint64 *total);

/* The same programme as a file in the LP format, for a solver that is a program of its own. */
gboolean oracle_write_matching (const TgMatchingProblem *problem, const char *path);
