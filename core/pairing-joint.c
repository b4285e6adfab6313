/* pairing-joint.c: a pairing for sums and big ends at once
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where small ends have no band of their own, metal for the sum can come off the piston or off the rod,
 * and what comes off the rod moves its big end, which has to be even too.  What one pairing costs is an
 * exact linear programme (target-plan.h): one part for each bore with the zones of rod and piston, rows
 * the sum and the big end.
 *
 * Over pairings the search is local: from the best pairing of the sums and from today's, two parts of a
 * family are exchanged as long as that saves metal, and again from some shaken pairings.  It may miss the
 * best.  The bound is that of the same programme where every part may be shared out over the bores.
 */
#include <math.h>
#include <string.h>

#include "pairing-joint.h"
#include "review-private.h"

#define N_SHAKES 12
#define MAX_N TG_MATCHING_MAX_CYLINDERS
#define SAVES_G 1e-6

static TgPairingGround *
take_ground (const TgReview *review, const TgPairingFamily *family)
{
  static const TgFigure ends[] = { TG_FIGURE_SMALL_END, TG_FIGURE_BIG_END };
  TgPairingGround *ground = g_new0 (TgPairingGround, family->n);

  for (guint i = 0; i < family->n; i++)
    {
      const TgPartReview *part = tg_review_part (review, family->part[i]);
      gboolean rod = family->kind == TG_PART_ROD;

      ground[i].weight_g = part->weight[rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE].mean_g;
      if (rod)
        ground[i].big_g = tg_review_row_planned_g (review, part, 1);
      ground[i].zones.n_rows = G_N_ELEMENTS (ends);
      tg_review_add_zones (&ground[i].zones, part, ends, NULL, NULL);
    }
  return ground;
}

TgPairingJoint *
tg_pairing_joint_new (const TgReview *review, const TgPairing *pairing)
{
  TgPairingJoint *joint = g_new0 (TgPairingJoint, 1);

  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      const TgPairingFamily *family = &pairing->families[f];
      gboolean rod = family->kind == TG_PART_ROD;

      if (rod || family->kind == TG_PART_PISTON)
        {
          *(rod ? &joint->rods : &joint->pistons) = f;
          joint->ground[rod ? 0 : 1] = take_ground (review, family);
          joint->n_ground[rod ? 0 : 1] = family->n;
          continue;
        }
      joint->grams[f] = g_new (double, family->n);
      for (guint i = 0; i < family->n; i++)
        joint->grams[f][i] =
            tg_review_part (review, family->part[i])->weight[TG_FIGURE_WHOLE].mean_g;
    }
  joint->tolerance_g[0] = review->bands[TG_BAND_PISTON].tolerance_g;
  joint->tolerance_g[1] = review->bands[TG_BAND_ROD_BIG].tolerance_g;
  return joint;
}

void
tg_pairing_joint_free (TgPairingJoint *joint)
{
  for (guint f = 0; f < TG_MATCHING_MAX_FAMILIES; f++)
    g_free (joint->grams[f]);
  g_free (joint->ground[0]);
  g_free (joint->ground[1]);
  g_free (joint);
}

/* What the families alone do not say: zones and big ends. */
gboolean
tg_pairing_joint_equal (const TgPairingJoint *a, const TgPairingJoint *b)
{
  if (!a || !b)
    return a == b;
  if (memcmp (a->tolerance_g, b->tolerance_g, sizeof a->tolerance_g) != 0)
    return FALSE;
  for (guint side = 0; side < 2; side++)
    if (a->n_ground[side] != b->n_ground[side] ||
        memcmp (a->ground[side], b->ground[side], a->n_ground[side] * sizeof (TgPairingGround)) !=
            0)
      return FALSE;
  return TRUE;
}

/* -- what one pairing costs -------------------------------------------------------------------------- */

/* The zones of a rod and of its piston as one part, as many as fit. */
static void
add_zones (TgPlanPart *part, const TgPlanPart *zones)
{
  for (guint z = 0; z < zones->n_zones && part->n_zones < TG_PLAN_MAX_ZONES; z++)
    {
      part->capacity_g[part->n_zones] = zones->capacity_g[z];
      part->cost[part->n_zones] = zones->cost[z];
      part->effect[0][part->n_zones] = zones->effect[0][z];
      part->effect[1][part->n_zones++] = zones->effect[1][z];
    }
}

double
tg_pairing_joint_part_g (const TgPairingJoint *joint, guint family, guint number)
{
  if (family == joint->rods)
    return joint->ground[0][number].weight_g;
  return family == joint->pistons ? joint->ground[1][number].weight_g
                                  : joint->grams[family][number];
}

/* One part for each bore of @plan, as the programme takes them. @parts: room for MAX_N */
static TgTargetProblem
load_plan (const TgPairing *pairing, const TgMatchingPlan *plan, TgPlanPart *parts)
{
  const TgPairingJoint *joint = pairing->joint;
  TgTargetProblem problem = { .parts = parts, .n_parts = pairing->problem.n_cylinders };

  memcpy (problem.tolerance_g, joint->tolerance_g, sizeof joint->tolerance_g);
  for (guint c = 0; c < problem.n_parts; c++)
    {
      const TgPairingGround *rod = &joint->ground[0][plan->part[joint->rods][c]];

      parts[c].n_rows = 2;
      parts[c].weight_g[1] = rod->big_g;
      for (guint f = 0; f < pairing->problem.n_families; f++)
        parts[c].weight_g[0] += tg_pairing_joint_part_g (joint, f, plan->part[f][c]);
      add_zones (&parts[c], &rod->zones);
      add_zones (&parts[c], &joint->ground[1][plan->part[joint->pistons][c]].zones);
    }
  return problem;
}

double
tg_pairing_metal_g (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  g_autofree TgPlanPart *parts = g_new0 (TgPlanPart, MAX_N);
  TgTargetProblem problem;

  g_return_val_if_fail (pairing->joint != NULL, INFINITY);

  problem = load_plan (pairing, plan, parts);
  return tg_target_plan_least_cost (&problem);
}

double
tg_pairing_joint_sets (const TgPairing *pairing, const TgMatchingPlan *plan, TgPairingSet *sets)
{
  g_autofree TgPlanPart *parts = g_new0 (TgPlanPart, MAX_N);
  g_autofree TgRemovalPlan *plans = g_new (TgRemovalPlan, MAX_N);
  const TgTargetProblem problem = load_plan (pairing, plan, parts);
  TgTargetPlan result;

  tg_target_plan_solve (&problem, plans, &result);
  for (guint c = 0; c < problem.n_parts; c++)
    sets[c] = (TgPairingSet){ parts[c].weight_g[0], plans[c].total_g };
  return result.target_g[0];
}

/* -- the search -------------------------------------------------------------------------------------- */

typedef struct
{
  const TgPairing *pairing;
  const TgMatchingLimits *limits;
  TgPairing
      rules; /* the same with parts that can give anything: zones are judged by the programme */
  TgMatchingPart *parts[TG_MATCHING_MAX_FAMILIES];
} Search;

static void
search_init (Search *search, const TgPairing *pairing, const TgMatchingLimits *limits)
{
  *search = (Search){ .pairing = pairing, .limits = limits, .rules = *pairing };
  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      guint n = pairing->problem.families[f].n_parts;

      search->parts[f] = g_memdup2 (pairing->problem.families[f].parts,
                                    n * sizeof (TgMatchingPart));
      for (guint i = 0; i < n; i++)
        search->parts[f][i].capacity = TG_MATCHING_NO_LIMIT;
      search->rules.problem.families[f].parts = search->parts[f];
    }
}

static void
search_clear (Search *search)
{
  for (guint f = 0; f < search->pairing->problem.n_families; f++)
    g_free (search->parts[f]);
}

static gboolean
stopped (const Search *search)
{
  return search->limits && search->limits->should_stop &&
         search->limits->should_stop (search->limits->data);
}

/* The best single exchange; FALSE if none saves anything. */
static gboolean
best_exchange (const Search *search, TgMatchingPlan *plan, double *metal_g)
{
  const TgMatchingProblem *problem = &search->pairing->problem;
  TgMatchingPlan tried, best = *plan;
  double least_g = *metal_g - SAVES_G;
  gboolean found = FALSE;

  for (guint f = 0; f < problem->n_families; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      for (guint c = 0; c < problem->n_cylinders; c++)
        {
          double g;

          if (stopped (search))
            return FALSE;
          if (plan->part[f][c] == i || !tg_pairing_swap (&search->rules, plan, f, i, c, &tried))
            continue;
          g = tg_pairing_metal_g (search->pairing, &tried);
          if (g < least_g)
            {
              least_g = g;
              best = tried;
              found = TRUE;
            }
        }
  if (found)
    {
      *plan = best;
      *metal_g = least_g;
    }
  return found;
}

static void
descend (const Search *search, TgMatchingPlan plan, TgMatchingPlan *best, double *best_g)
{
  double metal_g = tg_pairing_metal_g (search->pairing, &plan);

  while (best_exchange (search, &plan, &metal_g))
    ;
  if (metal_g < *best_g - SAVES_G)
    {
      *best_g = metal_g;
      *best = plan;
    }
}

/* Some exchanges at random that keep the rules. */
static TgMatchingPlan
shaken (const Search *search, const TgMatchingPlan *plan, GRand *rand)
{
  const TgMatchingProblem *problem = &search->pairing->problem;
  TgMatchingPlan out = *plan, tried;

  for (guint k = 0; k < 2 + problem->n_cylinders / 4; k++)
    {
      guint f = (guint) g_rand_int_range (rand, 0, (gint32) problem->n_families);
      guint i = (guint) g_rand_int_range (rand, 0, (gint32) problem->families[f].n_parts);
      guint c = (guint) g_rand_int_range (rand, 0, (gint32) problem->n_cylinders);

      if (tg_pairing_swap (&search->rules, &out, f, i, c, &tried))
        out = tried;
    }
  return out;
}

void
tg_pairing_joint_improve (const TgPairing *pairing,
                          const TgMatchingLimits *limits,
                          TgPairingResult *result)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (1);
  TgMatchingPlan today, best = result->sums.plan;
  double best_g = INFINITY;
  Search search;
  gboolean kept;

  result->joint = TRUE;
  result->bound_g = tg_pairing_joint_bound_g (pairing);
  search_init (&search, pairing, limits);
  if (tg_pairing_today (&search.rules, &today, &kept) && kept)
    {
      best = today;
      best_g = tg_pairing_metal_g (pairing, &today);
      descend (&search, today, &best, &best_g);
    }
  descend (&search, result->sums.plan, &best, &best_g);
  for (guint k = 0; k < N_SHAKES && best_g > result->bound_g + SAVES_G && !stopped (&search); k++)
    descend (&search, shaken (&search, &best, rand), &best, &best_g);
  search_clear (&search);
  result->metal_g = best_g;
  result->bound_g = MIN (result->bound_g, best_g);
  result->sums.plan = best;
  tg_matching_evaluate (&pairing->problem, &result->sums.plan);
}
