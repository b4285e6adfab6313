/* matching-cbc.h: CBC as a process, for the pairing's benchmark
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "matching-oracle.h"

/* The program of the COIN-OR branch-and-cut solver is on the path. */
gboolean cbc_is_there (void);

/* The least total within @limit_ms; @ms: what the process took, from its start to its end. */
OracleVerdict
cbc_solve_matching (const TgMatchingProblem *problem, int limit_ms, gint64 *total, double *ms);
