/* matching.c: which part goes with which, see matching.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * For one pairing the floor is best at its lightest assembly.  Over all pairings the floor is walked
 * down from the highest that the closed bounds allow: at each one the search says whether some
 * pairing reaches it for less metal than the best so far.  The bound on the total rises as the floor
 * falls, so the walk ends where it meets the best; wherever it is stopped, what it has refuted stays
 * true.  The further objectives walk again with those before held.
 *
 * With a tolerance a lower floor can cost less than the highest one, because assemblies inside the
 * band lose nothing; the first floor with a pairing is therefore not the end.
 */
#include "matching.h"

#include <stdlib.h>
#include <string.h>

#include "matching-private.h"

#define FIRST_TRIES 4
#define START_TRIES 32
#define PROBE_TRIES 64
#define PROBE_NODES 10000
#define PROBE_FLOORS 24
#define NEAR_NODES 3000
#define SPLIT_NODES 5000000

typedef struct
{
  TgMatchingSet set;
  TgMatchingSearch search;
  TgMatchingShares *shares;
  gboolean batches;       /* the shares rule the highest floor */
  gint64 highest, lowest; /* floors */
  gint64 most;            /* that all parts together can lose */
  TgMatchingResult *result;
  gboolean found;
} Solver;

/* < 0: the first is better in the objectives, then in the lower numbers. */
static int
compare_plans (const TgMatchingProblem *problem, const TgMatchingPlan *a, const TgMatchingPlan *b)
{
  const gint64 first[] = { a->total, a->touched, a->cut, a->changes };
  const gint64 second[] = { b->total, b->touched, b->cut, b->changes };

  for (guint i = 0; i < G_N_ELEMENTS (first); i++)
    if (first[i] != second[i])
      return first[i] < second[i] ? -1 : 1;
  for (guint c = 0; c < problem->n_cylinders; c++)
    for (guint f = 0; f < problem->n_families; f++)
      if (a->part[f][c] != b->part[f][c])
        return a->part[f][c] < b->part[f][c] ? -1 : 1;
  return 0;
}

/* Takes a plan that passes the evaluation and is better than the best; TRUE: it passes. */
static gboolean
offer (Solver *s, TgMatchingPlan *plan)
{
  const TgMatchingProblem *problem = s->set.problem;

  if (!tg_matching_evaluate (problem, plan))
    return FALSE;
  if (!s->found || compare_plans (problem, plan, &s->result->plan) < 0)
    s->result->plan = *plan;
  s->found = TRUE;
  return TRUE;
}

static void
offer_today (Solver *s)
{
  const TgMatchingProblem *problem = s->set.problem;
  TgMatchingPlan plan;

  memset (&plan, 0xff, sizeof plan);
  for (guint f = 0; f < problem->n_families; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      {
        int today = problem->families[f].parts[i].today;

        if (today >= 0)
          plan.part[f][today] = i;
      }
  offer (s, &plan);
}

static int
compare_falling (gconstpointer a, gconstpointer b)
{
  gint64 x = *(const gint64 *) a, y = *(const gint64 *) b;

  return (x < y) - (x > y);
}

/* No assembly can lose more than it weighs, so the sum stays small without limits too. */
static gint64
most_removal (const TgMatchingSet *set)
{
  gint64 most = 0;

  for (guint f = 0; f < set->k; f++)
    {
      guint n = set->problem->families[f].n_parts;
      gint64 give[P];

      for (guint i = 0; i < n; i++)
        give[i] = set->capacity[f][i];
      qsort (give, n, sizeof give[0], compare_falling);
      for (guint i = 0; i < set->n; i++)
        most += MIN (give[i], K * TG_MATCHING_MAX_WEIGHT);
    }
  return most;
}

/* What stage @stage still has to beat; FALSE: nothing, the best is known to be the best. */
static gboolean
next_goal (const Solver *s, guint stage, TgMatchingGoal *goal)
{
  const TgMatchingPlan *best = &s->result->plan;

  *goal = (TgMatchingGoal){ .removal = s->most, .touched = s->set.n, .cut = G_MAXINT64 };
  if (!s->found)
    return TRUE;
  goal->removal = best->total;
  if (stage == 1)
    goal->removal--;
  if (stage > 1)
    goal->touched = best->touched - (stage == 2);
  if (stage > 2)
    goal->cut = best->cut - (stage == 3);
  if (stage == 1)
    return best->total > s->result->lower_bound;
  if (stage == 2)
    return best->touched > 1;
  return best->touched > 1 && best->cut > (best->total + best->touched - 1) / best->touched;
}

/* Above the floor all parts together have no more than this, whatever the best plan loses. */
static void
set_floor (const Solver *s, TgMatchingGoal *goal, gint64 floor)
{
  guint n = s->set.n;

  goal->floor = floor;
  goal->removal = MIN (goal->removal, s->set.sums.all_high_heavy[n] - n * floor);
}

static gint64
next_floor (const Solver *s, gint64 floor)
{
  TgMatchingResult ignored;

  return tg_matching_bound_residue (&s->set, floor - 1, &ignored);
}

static gint64
total_at (const Solver *s, gint64 floor)
{
  TgMatchingResult ignored;

  return tg_matching_bound_total (&s->set, floor, &ignored);
}

/* Every floor above was refuted: the total is at least that of this floor. */
static void
raise_bound (Solver *s, gint64 floor)
{
  TgMatchingResult *result = s->result;
  gint64 bound = total_at (s, floor);

  if (s->found)
    bound = MIN (bound, result->plan.total);
  if (bound <= result->lower_bound)
    return;
  result->lower_bound = bound;
  result->reason = TG_MATCHING_BOUND_SEARCH;
}

static gboolean
offer_chosen (Solver *s)
{
  TgMatchingPlan plan = { 0 };

  tg_matching_set_place (&s->set, s->search.chosen, &plan);
  return offer (s, &plan);
}

/* A first plan, as high as local search gets; where the parts cannot lose so much, from lower. TRUE:
 * nothing can be better. */
static gboolean
start (Solver *s, guint tries)
{
  TgMatchingGoal goal = { .floor = s->highest, .removal = s->result->lower_bound };

  for (gint64 lower = 1; goal.floor >= s->lowest && !s->search.stopped; lower *= 2)
    {
      gboolean reached = tg_matching_start (&s->search, &goal, tries);

      offer_chosen (s);
      if (reached || s->found)
        break;
      goal.floor -= lower;
      goal.removal = s->most;
    }
  return s->found && s->result->plan.total <= s->result->lower_bound;
}

/* The bound of two batches mixed, which takes longer, and another start from there. */
static void
share_out (Solver *s)
{
  TgMatchingResult *result = s->result;

  s->shares = tg_matching_shares_new (&s->set);
  s->highest = tg_matching_bound_floor (&s->set, s->shares, result);
  s->batches = result->reason == TG_MATCHING_BOUND_CLASSES;
  result->lower_bound = tg_matching_bound_total (&s->set, s->highest, result);
  start (s, START_TRIES);
}

/* The exact search with so many nodes at most. */
static TgMatchingAnswer
look (Solver *s, const TgMatchingGoal *goal, guint64 nodes)
{
  gboolean found;

  tg_matching_search_pause (&s->search, nodes);
  found = tg_matching_search_decide (&s->search, goal);
  return tg_matching_search_resume (&s->search, found);
}

/* The exact search; two batches in halves if they are not done at once. */
static TgMatchingAnswer
decide (Solver *s, const TgMatchingGoal *goal)
{
  TgMatchingAnswer answer = TG_MATCHING_OPEN;

  if (s->batches && goal->touched == s->set.n && goal->cut == G_MAXINT64)
    {
      answer = look (s, goal, PROBE_NODES);
      if (answer == TG_MATCHING_OPEN)
        {
          tg_matching_search_pause (&s->search, SPLIT_NODES);
          answer = tg_matching_split_decide (&s->search, s->shares, goal);
          tg_matching_search_resume (&s->search, answer == TG_MATCHING_YES);
        }
    }
  if (answer != TG_MATCHING_OPEN || s->search.stopped)
    return answer;
  if (tg_matching_search_decide (&s->search, goal))
    return TG_MATCHING_YES;
  return s->search.stopped ? TG_MATCHING_OPEN : TG_MATCHING_NO;
}

/* Local search, and a little of the exact one, for something better at this floor. */
static gboolean
probe_floor (Solver *s, gint64 floor, guint tries)
{
  TgMatchingGoal goal;

  if (!next_goal (s, 1, &goal) || floor > s->highest || floor < s->lowest ||
      total_at (s, floor) > goal.removal)
    return FALSE;
  set_floor (s, &goal, floor);
  if ((tries > 0 && tg_matching_start (&s->search, &goal, tries)) ||
      look (s, &goal, PROBE_NODES) == TG_MATCHING_YES)
    {
      g_assert_true (offer_chosen (s));
      return TRUE;
    }
  return FALSE;
}

/* Looks a little at the floors round the best plan's: a better one is likely to be there, and what
 * has to be refuted afterwards is then less. */
static void
probe (Solver *s)
{
  gint64 step = MAX (s->set.modulus, 1);

  for (gint64 away = 1; away <= PROBE_FLOORS && !s->search.stopped;)
    {
      gint64 floor = s->result->plan.floor;
      guint tries = away == 1 ? PROBE_TRIES : 0;
      gboolean better = probe_floor (s, floor + away * step, tries) ||
                        probe_floor (s, floor - (away - 1) * step, tries);

      away = better ? 1 : away + 1;
    }
}

/* Walks the floors for one of the first three objectives; FALSE: stopped. */
static gboolean
improve (Solver *s, guint stage)
{
  TgMatchingGoal goal;

  for (gint64 floor = s->highest; floor >= s->lowest;)
    {
      TgMatchingAnswer answer;

      if (!next_goal (s, stage, &goal) || total_at (s, floor) > goal.removal)
        break;
      set_floor (s, &goal, floor);
      answer = decide (s, &goal);
      if (answer == TG_MATCHING_YES)
        {
          g_assert_true (offer_chosen (s));
          continue;
        }
      if (answer == TG_MATCHING_OPEN)
        {
          if (stage == 1)
            raise_bound (s, floor);
          return FALSE;
        }
      floor = next_floor (s, floor);
    }
  return TRUE;
}

/* A plan with at most @changes; ordered: the one of the lowest numbers over all floors.  TRUE:
 * found, in @best. */
static gboolean
nearest (Solver *s, guint changes, gboolean ordered, TgMatchingPlan *best)
{
  const TgMatchingPlan *now = &s->result->plan;
  TgMatchingGoal goal = { .removal = now->total, .touched = now->touched, .cut = now->cut };
  gboolean found = FALSE;

  for (gint64 floor = s->highest; floor >= s->lowest && total_at (s, floor) <= goal.removal;
       floor = next_floor (s, floor))
    {
      TgMatchingPlan plan = { 0 };

      goal.floor = floor;
      if (tg_matching_today_decide (&s->search, &goal, changes, ordered, &plan))
        {
          g_assert_true (tg_matching_evaluate (s->set.problem, &plan));
          if (!found || compare_plans (s->set.problem, &plan, best) < 0)
            *best = plan;
          found = TRUE;
        }
      if (s->search.stopped || (found && !ordered))
        break;
    }
  return found;
}

/* Fewer changes as long as that is easy. */
static void
come_nearer (Solver *s)
{
  TgMatchingPlan plan;
  gboolean found = TRUE;

  while (found && !s->search.stopped && s->result->plan.changes > 0)
    {
      tg_matching_search_pause (&s->search, NEAR_NODES);
      found = nearest (s, s->result->plan.changes - 1, FALSE, &plan);
      if (found)
        s->result->plan = plan;
      tg_matching_search_resume (&s->search, found);
    }
}

/* Fewest changes, then lowest numbers; FALSE: stopped. */
static gboolean
approach_today (Solver *s)
{
  TgMatchingResult *result = s->result;
  TgMatchingPlan plan;

  come_nearer (s);
  for (guint changes = 0; changes < result->plan.changes && !s->search.stopped; changes++)
    if (nearest (s, changes, FALSE, &plan))
      result->plan = plan;
  if (s->search.stopped)
    return FALSE;
  if (nearest (s, result->plan.changes, TRUE, &plan) &&
      compare_plans (s->set.problem, &plan, &result->plan) < 0)
    result->plan = plan;
  return !s->search.stopped;
}

/* Whether the rules alone leave a pairing; FALSE: they do not, or it was stopped. */
static gboolean
rules_allow (Solver *s)
{
  TgMatchingGoal goal = {
    .removal = K * N * TG_MATCHING_MAX_WEIGHT, .touched = s->set.n, .cut = G_MAXINT64, .loose = TRUE
  };

  if (!tg_matching_search_decide (&s->search, &goal))
    return FALSE;
  offer_chosen (s);
  return TRUE;
}

static void
run_stages (Solver *s)
{
  TgMatchingResult *result = s->result;
  guint stages = s->search.limits->stages;

  if (stages == 0 || stages > TG_MATCHING_STAGES)
    stages = TG_MATCHING_STAGES;
  if (s->found)
    probe (s);
  if (!improve (s, 1) || !s->found)
    return;
  if (result->lower_bound < result->plan.total)
    result->reason = TG_MATCHING_BOUND_SEARCH;
  result->lower_bound = result->plan.total;
  result->proved = 1;
  while (result->proved < MIN (stages, 3) && improve (s, result->proved + 1))
    result->proved++;
  if (stages == 4 && result->proved == 3 && approach_today (s))
    result->proved = 4;
}

static void
solve (Solver *s)
{
  TgMatchingResult *result = s->result;

  s->lowest = tg_matching_bound_lowest (&s->set);
  s->most = most_removal (&s->set);
  s->highest = tg_matching_bound_floor (&s->set, NULL, result);
  result->lower_bound = tg_matching_bound_total (&s->set, s->highest, result);
  offer_today (s);
  if (!start (s, FIRST_TRIES))
    share_out (s);
  if (s->found || rules_allow (s))
    run_stages (s);
  if (s->found)
    result->status = result->proved > 0 ? TG_MATCHING_OPTIMAL : TG_MATCHING_FEASIBLE;
  else
    result->status = s->search.stopped ? TG_MATCHING_UNKNOWN : TG_MATCHING_NONE_EXISTS;
  result->nodes = s->search.nodes;
}

void
tg_matching_solve (const TgMatchingProblem *problem,
                   const TgMatchingLimits *limits,
                   TgMatchingResult *result)
{
  g_autofree Solver *s = NULL;

  g_return_if_fail (tg_matching_set_is_valid (problem));

  memset (result, 0, sizeof *result);
  result->status = TG_MATCHING_NONE_EXISTS;
  s = g_new0 (Solver, 1);
  s->result = result;
  if (!tg_matching_set_prepare (problem, &s->set))
    return;
  tg_matching_search_init (&s->search, &s->set, limits);
  solve (s);
  tg_matching_search_clear (&s->search);
  g_free (s->shares);
}
