/* crankpins-oracle.h: random engines with two rods on a crankpin, and the same by
 * enumeration and by GLPK
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * GLPK (the GNU Linear Programming Kit) is the independent solver of the crankpins' tests.
 */
#pragma once

#include <glib.h>

#include "crankpins.h"

/* Weights over @spread milligrams; bores in an order by chance; no set bound, none in a bore. */
void oracle_draw_engine (GRand *random, guint pins, int spread, TgCrankpinsProblem *out);

/* Every set in a bore of today. */
void oracle_draw_today (GRand *random, TgCrankpinsProblem *problem);

/* Some sets may sit in few bores, mostly such that today's placing stays possible. */
void oracle_draw_bounds (GRand *random, TgCrankpinsProblem *problem);

/* The best placing of up to eight sets, figures and all; FALSE: none exists. */
gboolean oracle_enumerate (const TgCrankpinsProblem *problem, TgCrankpinsPlacing *best);

/* The lightest and heaviest sum of the sets of a mask if the lightest is paired with the heaviest,
 * and so on. */
void oracle_pair_opposite (const TgCrankpinsProblem *problem,
                           guint left,
                           TgMass *lightest,
                           TgMass *heaviest);

/* The most pins that can keep both sets with all sums in the window, the rest paired opposite. */
guint oracle_most_pins_kept (const TgCrankpinsProblem *problem, TgMass lowest, TgMass highest);

/* The least spread by integer programming, -1: none exists; FALSE: out of time. */
gboolean oracle_place (const TgCrankpinsProblem *problem, int limit_ms, TgMass *spread);
