/* pairing-bound.c: a bound for sums and big ends at once
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The programme of pairing-joint.c where a share x of every part may go to every rod:
 *
 *   minimise Σ p m   subject to, for every rod i,
 *   T ≤ S_i + Σ w x − Σ λ m − q_i ≤ T + tolerance,   q_i ≤ Σ (what the piston can give) x,
 *   U ≤ B_i − Σ (1 − λ) m ≤ U + tolerance,   every part used once at most, every rod served once
 *
 * Every pairing is a solution of it, so none costs less.  Rules are not in it but for parts that never
 * meet.  With spare rods, whose zones would have to be shared too, there is no bound but 0.
 */
#include <math.h>

#include "pairing-joint.h"
#include "simplex.h"

/* Columns: T, U, then shares family by family, part by part, rod by rod, then zones and q of each rod. */
typedef struct
{
  const TgPairing *pairing;
  const TgPairingJoint *joint;
  guint n;
  guint first[TG_MATCHING_MAX_FAMILIES];
  guint zones; /* first column of them */
  guint cols, rows;
} Layout;

static Layout
layout_of (const TgPairing *pairing)
{
  Layout layout = {
    .pairing = pairing, .joint = pairing->joint, .n = pairing->problem.n_cylinders, .cols = 2
  };

  layout.rows = 3 * layout.n;
  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      if (f == layout.joint->rods)
        continue;
      layout.first[f] = layout.cols;
      layout.cols += pairing->families[f].n * layout.n;
      layout.rows += pairing->families[f].n + layout.n;
    }
  layout.zones = layout.cols;
  for (guint i = 0; i < layout.n; i++)
    layout.cols += layout.joint->ground[0][i].zones.n_zones + 1;
  return layout;
}

static double
weight_of (const Layout *layout, guint f, guint part)
{
  return f == layout->joint->pistons ? layout->joint->ground[1][part].weight_g
                                     : layout->joint->grams[f][part];
}

/* Weights are taken over these, so that the programme works on a few grams. */
static double
base_of (const Layout *layout, guint f)
{
  double least = INFINITY;

  for (guint i = 0; i < layout->pairing->families[f].n; i++)
    least = MIN (least, weight_of (layout, f, i));
  return least;
}

static gboolean
may_meet (const Layout *layout, guint f, guint part, guint rod)
{
  const TgMatchingProblem *problem = &layout->pairing->problem;

  for (guint p = 0; p < problem->n_forbidden; p++)
    for (guint side = 0; side < 2; side++)
      {
        const TgMatchingPair *pair = &problem->forbidden[p];

        if (pair->family[side] == f && pair->part[side] == part &&
            pair->family[1 - side] == layout->joint->rods && pair->part[1 - side] == rod)
          return FALSE;
      }
  return TRUE;
}

static double
piston_capacity_g (const Layout *layout, guint piston)
{
  const TgPlanPart *zones = &layout->joint->ground[1][piston].zones;
  double capacity_g = 0;

  for (guint z = 0; z < zones->n_zones; z++)
    capacity_g += zones->capacity_g[z];
  return capacity_g;
}

static double
piston_cost (const Layout *layout)
{
  double least = INFINITY;

  for (guint i = 0; i < layout->joint->n_ground[1]; i++)
    for (guint z = 0; z < layout->joint->ground[1][i].zones.n_zones; z++)
      least = MIN (least, layout->joint->ground[1][i].zones.cost[z]);
  return isfinite (least) ? least : 1;
}

/* Every part of a family is used once at most, every rod is served once. */
static guint
load_shares (TgSimplex *lp, const Layout *layout, guint f, guint row)
{
  guint n_parts = layout->pairing->families[f].n;
  double base_g = base_of (layout, f);

  for (guint part = 0; part < n_parts; part++)
    tg_simplex_set_row (lp, row + part, n_parts > layout->n ? 0 : 1, 1);
  for (guint i = 0; i < layout->n; i++)
    tg_simplex_set_row (lp, row + n_parts + i, 1, 1);
  for (guint part = 0; part < n_parts; part++)
    for (guint i = 0; i < layout->n; i++)
      {
        guint col = layout->first[f] + part * layout->n + i;

        tg_simplex_set_column (lp, col, 0, may_meet (layout, f, part, i) ? 1 : 0);
        tg_simplex_set_coefficient (lp, row + part, col, 1);
        tg_simplex_set_coefficient (lp, row + n_parts + i, col, 1);
        tg_simplex_set_coefficient (lp, 3 * i, col, weight_of (layout, f, part) - base_g);
        if (f == layout->joint->pistons)
          tg_simplex_set_coefficient (lp, 3 * i + 2, col, piston_capacity_g (layout, part));
      }
  return row + n_parts + layout->n;
}

static void
load_rods (TgSimplex *lp, const Layout *layout, double small_g, double big_g)
{
  guint col = layout->zones;

  for (guint i = 0; i < layout->n; i++)
    {
      const TgPairingGround *rod = &layout->joint->ground[0][i];
      double sum = rod->weight_g - small_g, big = rod->big_g - big_g;

      tg_simplex_set_row (lp, 3 * i, -sum, layout->joint->tolerance_g[0] - sum);
      tg_simplex_set_row (lp, 3 * i + 1, -big, layout->joint->tolerance_g[1] - big);
      tg_simplex_set_row (lp, 3 * i + 2, 0, INFINITY);
      tg_simplex_set_coefficient (lp, 3 * i, 0, -1);
      tg_simplex_set_coefficient (lp, 3 * i + 1, 1, -1);
      for (guint z = 0; z < rod->zones.n_zones; z++, col++)
        {
          tg_simplex_set_column (lp, col, 0, rod->zones.capacity_g[z]);
          tg_simplex_set_cost (lp, col, rod->zones.cost[z]);
          tg_simplex_set_coefficient (lp, 3 * i, col, -rod->zones.effect[0][z]);
          tg_simplex_set_coefficient (lp, 3 * i + 1, col, -rod->zones.effect[1][z]);
        }
      tg_simplex_set_cost (lp, col, piston_cost (layout));
      tg_simplex_set_coefficient (lp, 3 * i, col, -1);
      tg_simplex_set_coefficient (lp, 3 * i + 2, col, -1);
      col++;
    }
}

double
tg_pairing_joint_bound_g (const TgPairing *pairing)
{
  const Layout layout = layout_of (pairing);
  g_autoptr (TgSimplex) lp = NULL;
  double small_g = INFINITY, big_g = INFINITY;
  guint row = 3 * layout.n;

  if (layout.joint->n_ground[0] != layout.n)
    return 0;
  for (guint i = 0; i < layout.n; i++)
    {
      small_g = MIN (small_g, layout.joint->ground[0][i].weight_g);
      big_g = MIN (big_g, layout.joint->ground[0][i].big_g);
    }
  lp = tg_simplex_new (layout.rows, layout.cols);
  tg_simplex_reset (lp, layout.rows, layout.cols);
  tg_simplex_set_column (lp, 0, -INFINITY, INFINITY);
  tg_simplex_set_column (lp, 1, -INFINITY, INFINITY);
  load_rods (lp, &layout, small_g, big_g);
  for (guint f = 0; f < pairing->problem.n_families; f++)
    if (f != layout.joint->rods)
      row = load_shares (lp, &layout, f, row);
  return tg_simplex_solve (lp) == TG_SIMPLEX_OPTIMAL ? MAX (0, tg_simplex_objective (lp)) : 0;
}
