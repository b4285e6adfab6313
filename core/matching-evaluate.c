/* matching-evaluate.c: what a pairing costs and whether it keeps the rules, see matching.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shares nothing with the search but the problem: whatever the search finds has to pass here before
 * it is handed out, and a pairing that a person made by hand is judged by the same figures.
 */
#include "matching.h"

#define BIT(i) (G_GUINT64_CONSTANT (1) << (i))

static gboolean
parts_once (const TgMatchingProblem *problem, const TgMatchingPlan *plan)
{
  for (guint f = 0; f < problem->n_families; f++)
    {
      guint64 used = 0;

      for (guint c = 0; c < problem->n_cylinders; c++)
        {
          guint part = plan->part[f][c];

          if (part >= problem->families[f].n_parts || (used & BIT (part)))
            return FALSE;
          used |= BIT (part);
        }
    }
  return TRUE;
}

static void
weigh (const TgMatchingProblem *problem, TgMatchingPlan *plan)
{
  plan->floor = G_MAXINT64;
  plan->total = plan->cut = 0;
  plan->touched = plan->changes = 0;
  for (guint c = 0; c < problem->n_cylinders; c++)
    {
      plan->weight[c] = 0;
      for (guint f = 0; f < problem->n_families; f++)
        {
          const TgMatchingPart *part = &problem->families[f].parts[plan->part[f][c]];

          plan->weight[c] += part->weight;
          plan->changes += part->today != (int) c;
        }
      plan->floor = MIN (plan->floor, plan->weight[c]);
    }
  for (guint c = 0; c < problem->n_cylinders; c++)
    {
      plan->removal[c] = MAX (0, plan->weight[c] - plan->floor - problem->tolerance);
      plan->total += plan->removal[c];
      plan->touched += plan->removal[c] > 0;
      plan->cut = MAX (plan->cut, plan->removal[c]);
    }
}

/* The cylinder of a part, -1: unused. */
static int
cylinder_of (const TgMatchingProblem *problem, const TgMatchingPlan *plan, guint f, guint part)
{
  for (guint c = 0; c < problem->n_cylinders; c++)
    if (plan->part[f][c] == part)
      return (int) c;
  return -1;
}

static gboolean
rules_kept (const TgMatchingProblem *problem, const TgMatchingPlan *plan)
{
  for (guint f = 0; f < problem->n_families; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      {
        int bound = problem->families[f].parts[i].bound;

        if (bound >= 0 && cylinder_of (problem, plan, f, i) != bound)
          return FALSE;
      }
  for (guint i = 0; i < problem->n_forbidden; i++)
    {
      const TgMatchingPair *pair = &problem->forbidden[i];
      int first = cylinder_of (problem, plan, pair->family[0], pair->part[0]);

      if (first >= 0 && first == cylinder_of (problem, plan, pair->family[1], pair->part[1]))
        return FALSE;
    }
  for (guint i = 0; i < problem->n_locked; i++)
    {
      const TgMatchingPair *pair = &problem->locked[i];

      if (cylinder_of (problem, plan, pair->family[0], pair->part[0]) !=
          cylinder_of (problem, plan, pair->family[1], pair->part[1]))
        return FALSE;
    }
  return TRUE;
}

static gboolean
within_capacity (const TgMatchingProblem *problem, const TgMatchingPlan *plan)
{
  for (guint c = 0; c < problem->n_cylinders; c++)
    {
      gint64 more = plan->removal[c];

      for (guint f = 0; f < problem->n_families; f++)
        more -= MIN (more, problem->families[f].parts[plan->part[f][c]].capacity);
      if (more > 0)
        return FALSE;
    }
  return TRUE;
}

gboolean
tg_matching_evaluate (const TgMatchingProblem *problem, TgMatchingPlan *plan)
{
  if (!parts_once (problem, plan))
    return FALSE;
  weigh (problem, plan);
  return rules_kept (problem, plan) && within_capacity (problem, plan);
}
