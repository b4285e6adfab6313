/* pairing-words.c: what a pairing takes, why no other takes less, why not the other way round
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nothing is claimed beyond what the solver has proved: a bound is a bound, and what was not found is
 * not called impossible.
 */
#include <math.h>

#include "number.h"
#include "pairing-private.h"
#include "reason.h"
#include "review-private.h"

static char *
grams (const TgPairing *pairing, gint64 steps)
{
  return tg_number_format (tg_pairing_g (pairing, steps), pairing->decimals);
}

static const char *
name_of (const TgPairing *pairing, guint family, guint part)
{
  return pairing->families[family].name[part];
}

char *
tg_pairing_plan_words (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  g_autofree char *total = grams (pairing, plan->total);

  if (pairing->joint)
    {
      double metal_g = tg_pairing_metal_g (pairing, plan);
      g_autofree char *metal = tg_number_format (metal_g, pairing->decimals);

      return isfinite (metal_g) ? g_strdup_printf ("%s g off rods and pistons", metal)
                                : g_strdup ("out of reach of the zones");
    }
  if (plan->total == 0)
    return g_strdup ("nothing has to come off");
  return g_strdup_printf ("%s g off %u of %u sets", total, plan->touched,
                          pairing->problem.n_cylinders);
}

/* Rounded down: a bound must not be claimed beyond what holds. */
static char *
joint_words (const TgPairing *pairing, const TgPairingResult *result)
{
  double step_g = pairing->step_g / 10;
  g_autofree char *bound = tg_number_format (floor (result->bound_g / step_g + 1e-6) * step_g,
                                             pairing->decimals + 1);

  if (result->metal_g - result->bound_g < pairing->step_g)
    return g_strdup ("Proven to less than a step of the scale: no pairing takes less off rods and "
                     "pistons together.");
  return g_strdup_printf (
      "Best found for sums and big ends at once; no pairing takes less than %s g.", bound);
}

static char *
sums_words (const TgPairing *pairing, const TgMatchingResult *result)
{
  g_autofree char *bound = grams (pairing, result->lower_bound);
  gint64 gap = result->plan.total - result->lower_bound;

  switch (result->status)
    {
    case TG_MATCHING_NONE_EXISTS:
      return g_strdup (
          "No pairing keeps every rule and what the zones can give: lift a rule, let more "
          "zones be used or allow a wider tolerance.");
    case TG_MATCHING_UNKNOWN:
      return g_strdup ("None was found in the time given; there may be one.");
    case TG_MATCHING_FEASIBLE:
      return g_strdup_printf ("Best found; no pairing takes less than %s g.%s", bound,
                              gap <= pairing->problem.n_cylinders
                                  ? " The gap is less than one step of the scale a set."
                                  : "");
    case TG_MATCHING_OPTIMAL:
    default:
      break;
    }
  if (result->proved >= TG_MATCHING_STAGES)
    return g_strdup ("Proven: no pairing takes less, and of those that take as little this touches "
                     "the fewest sets, has the smallest largest cut and changes the fewest parts.");
  return g_strdup_printf ("Proven: no pairing takes less%s%s. Not proven in the time given: that "
                          "%s.",
                          result->proved >= 2 ? ", or touches fewer sets" : "",
                          result->proved >= 3 ? ", or has a smaller largest cut" : "",
                          result->proved >= 3   ? "no fewer parts have to change hands"
                          : result->proved == 2 ? "no smaller largest cut is possible"
                                                : "no fewer sets have to be touched");
}

char *
tg_pairing_proof_words (const TgPairing *pairing, const TgPairingResult *result)
{
  gboolean found = result->sums.status == TG_MATCHING_OPTIMAL ||
                   result->sums.status == TG_MATCHING_FEASIBLE;

  return found && result->joint ? joint_words (pairing, result)
                                : sums_words (pairing, &result->sums);
}

/* Σ of the weights of all parts of a family, or of those that are used. */
static gint64
used_weight (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  gint64 sum = 0;

  for (guint c = 0; c < pairing->problem.n_cylinders; c++)
    sum += plan->weight[c];
  return sum;
}

static void
why_mean (const TgPairing *pairing, GPtrArray *why, const TgMatchingResult *result)
{
  guint n = pairing->problem.n_cylinders;
  gint64 sum = used_weight (pairing, &result->plan);
  g_autofree char *all = grams (pairing, sum);
  g_autofree char *floor_of = grams (pairing, sum / n);

  tg_terms_add (why, "all sets together", g_strdup_printf ("%s g", all),
                "the same whichever part goes where");
  tg_terms_add (why, "the lightest set", g_strdup_printf ("at most %s g", floor_of),
                "as many equal sets cannot weigh more than all together");
}

/* "the 3 lightest pistons with the 3 heaviest of each other family" */
static void
why_subset (const TgPairing *pairing, GPtrArray *why, const TgMatchingResult *result)
{
  gboolean lightest = result->reason == TG_MATCHING_BOUND_SUBSET;
  const char *plural = tg_part_kind_plural (pairing->families[result->family].kind);
  g_autofree char *label = g_strdup_printf ("the %u %s %s", result->count,
                                            lightest ? "lightest" : "heaviest", plural);

  tg_terms_add (why, label, g_strdup (""),
                lightest ? "even with the heaviest of all the others they reach no more, so the "
                           "lightest set is no heavier"
                         : "even with the lightest of all the others they weigh more than that, so "
                           "this much has to come off");
}

static void
why_bound (const TgPairing *pairing, GPtrArray *why, const TgMatchingResult *result)
{
  g_autofree char *step = grams (pairing, result->modulus);

  switch (result->reason)
    {
    case TG_MATCHING_BOUND_MEAN:
      why_mean (pairing, why, result);
      break;
    case TG_MATCHING_BOUND_SUBSET:
    case TG_MATCHING_BOUND_OVERSET:
      why_subset (pairing, why, result);
      break;
    case TG_MATCHING_BOUND_LATTICE:
      why_mean (pairing, why, result);
      tg_terms_add (why, "weights in common steps", g_strdup_printf ("%s g", step),
                    "parts of a family differ by whole multiples of it, so the sums do too and "
                    "cannot all meet");
      break;
    case TG_MATCHING_BOUND_CLASSES:
      tg_terms_add (why, "heavy parts do not share out evenly",
                    g_strdup_printf ("%u sets", result->count),
                    "at least so many get fewer of the heavy parts than the others");
      break;
    case TG_MATCHING_BOUND_SEARCH:
      tg_terms_add (why, "every other pairing", g_strdup (""),
                    "was looked at or ruled out, group by group");
      break;
    case TG_MATCHING_BOUND_NOTHING:
    default:
      tg_terms_add (why, "nothing has to come off", g_strdup (""), "and less is not possible");
      break;
    }
}

static void
why_joint (const TgPairing *pairing, GPtrArray *why, const TgPairingResult *result)
{
  g_autofree char *metal = tg_number_format (result->metal_g, pairing->decimals + 1);
  g_autofree char *bound = tg_number_format (floor (result->bound_g * 1000) / 1000, 3);

  tg_terms_add (why, "off rods and pistons", g_strdup_printf ("%s g", metal),
                "sums and big ends made even at once, by one linear programme over all zones");
  tg_terms_add (why, "no pairing takes less than", g_strdup_printf ("%s g", bound),
                "the same programme with every part shared out over the bores at will");
}

GPtrArray *
tg_pairing_why (const TgPairing *pairing, const TgPairingResult *found)
{
  const TgMatchingResult *result = &found->sums;
  GPtrArray *why = tg_terms_new ();
  g_autofree char *bound = grams (pairing, result->lower_bound);
  gboolean has_plan = result->status == TG_MATCHING_OPTIMAL ||
                      result->status == TG_MATCHING_FEASIBLE;

  if (has_plan && found->joint)
    why_joint (pairing, why, found);
  else if (has_plan)
    {
      g_autofree char *lo = grams (pairing, result->plan.floor);
      g_autofree char *hi = grams (pairing, result->plan.floor + pairing->problem.tolerance);
      g_autofree char *cut = grams (pairing, result->plan.cut);

      tg_terms_add (why, "lightest set", g_strdup_printf ("%s g", lo),
                    "metal only comes off, so the others come down to it");
      tg_terms_add (why, "band", g_strdup_printf ("%s to %s g", lo, hi),
                    "the lightest set, and the tolerance more");
      tg_terms_add (why, "largest cut", g_strdup_printf ("%s g", cut), "off one set");
      tg_terms_add (why, "parts that change hands", g_strdup_printf ("%u", result->plan.changes),
                    "against today");
      if (result->lower_bound > 0)
        tg_terms_add (why, "no pairing takes less than", g_strdup_printf ("%s g", bound), "");
      why_bound (pairing, why, result);
    }
  if (result->nodes > 0)
    tg_terms_add (why, "sub-problems looked at",
                  g_strdup_printf ("%" G_GUINT64_FORMAT, result->nodes), "");
  tg_reason_close (why, TG_REASON_PAIRING);
  return why;
}

/* -- why not the other way round -------------------------------------------------------------------- */

static int
cylinder_of (const TgPairing *pairing, const TgMatchingPlan *plan, guint family, guint part)
{
  for (guint c = 0; c < pairing->problem.n_cylinders; c++)
    if (plan->part[family][c] == part)
      return (int) c;
  return -1;
}

static gboolean
pair_in (const TgMatchingPlan *plan, const TgMatchingPair *pair, guint c, guint *which)
{
  gboolean a = plan->part[pair->family[0]][c] == pair->part[0];
  gboolean b = plan->part[pair->family[1]][c] == pair->part[1];

  *which = a ? 0 : 1;
  return a != b;
}

/* The first rule that @plan breaks, as a sentence; NULL if it is another limit. */
static char *
broken_rule (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  const TgMatchingProblem *problem = &pairing->problem;
  guint which;

  for (guint f = 0; f < problem->n_families; f++)
    for (guint i = 0; i < problem->families[f].n_parts; i++)
      {
        int bound = problem->families[f].parts[i].bound;

        if (bound >= 0 && cylinder_of (pairing, plan, f, i) != bound)
          return g_strdup_printf ("%s stays at bore %d.", name_of (pairing, f, i), bound + 1);
      }
  for (guint p = 0; p < problem->n_locked; p++)
    for (guint c = 0; c < problem->n_cylinders; c++)
      if (pair_in (plan, &problem->locked[p], c, &which))
        return g_strdup_printf (
            "%s and %s stay together.",
            name_of (pairing, problem->locked[p].family[0], problem->locked[p].part[0]),
            name_of (pairing, problem->locked[p].family[1], problem->locked[p].part[1]));
  for (guint p = 0; p < problem->n_forbidden; p++)
    for (guint c = 0; c < problem->n_cylinders; c++)
      {
        const TgMatchingPair *pair = &problem->forbidden[p];

        if (plan->part[pair->family[0]][c] == pair->part[0] &&
            plan->part[pair->family[1]][c] == pair->part[1])
          return g_strdup_printf ("%s and %s never go together.",
                                  name_of (pairing, pair->family[0], pair->part[0]),
                                  name_of (pairing, pair->family[1], pair->part[1]));
      }
  return NULL;
}

char *
tg_pairing_breaks (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  TgMatchingPlan judged = *plan;
  char *rule = broken_rule (pairing, &judged);

  if (rule)
    return rule;
  if (pairing->joint)
    return isfinite (tg_pairing_metal_g (pairing, plan))
               ? NULL
               : g_strdup ("The zones of rods and pistons cannot make it even.");
  return tg_matching_evaluate (&pairing->problem, &judged)
             ? NULL
             : g_strdup ("More would have to come off a set than its zones can give.");
}

static char *
swap_head (const TgPairing *pairing, const TgMatchingPlan *plan, guint family, guint part, guint to)
{
  guint out = plan->part[family][to];
  int from = cylinder_of (pairing, plan, family, part);

  if (from < 0)
    return g_strdup_printf ("%s in bore %u and %s to spare", name_of (pairing, family, part),
                            to + 1, name_of (pairing, family, out));
  return g_strdup_printf ("%s in bore %u and %s in bore %d", name_of (pairing, family, part),
                          to + 1, name_of (pairing, family, out), from + 1);
}

/* "Set 2 would weigh 812.4 g, set 5 811.2 g; the lightest then is 811.2 g." */
static char *
swap_weights (const TgPairing *pairing, const TgMatchingPlan *plan, const TgMatchingPlan *swapped)
{
  GString *words = g_string_new (NULL);
  g_autofree char *lightest = grams (pairing, swapped->floor);

  for (guint c = 0; c < pairing->problem.n_cylinders; c++)
    if (plan->weight[c] != swapped->weight[c])
      {
        g_autofree char *weight = grams (pairing, swapped->weight[c]);

        g_string_append_printf (words, words->len ? ", set %u %s g" : " Set %u would weigh %s g",
                                c + 1, weight);
      }
  if (words->len > 0)
    g_string_append_printf (words, "; the lightest of all would be %s g.", lightest);
  return g_string_free (words, FALSE);
}

static char *
swap_cost (const TgPairing *pairing, const TgMatchingPlan *plan, const TgMatchingPlan *swapped)
{
  double more_g = tg_pairing_cost_g (pairing, swapped) - tg_pairing_cost_g (pairing, plan);
  gboolean more = fabs (more_g) >= pairing->step_g / (pairing->joint ? 20 : 2);
  g_autofree char *by = tg_number_format (fabs (more_g), pairing->decimals + !!pairing->joint);
  g_autofree char *cut = grams (pairing, swapped->cut);

  if (more)
    return g_strdup_printf ("%s g %s would have to come off.", by, more_g > 0 ? "more" : "less");
  if (pairing->joint)
    return g_strdup ("as much would have to come off.");
  if (swapped->touched != plan->touched)
    return g_strdup_printf ("as much would have to come off, but off %u sets instead of %u.",
                            swapped->touched, plan->touched);
  if (swapped->cut != plan->cut)
    return g_strdup_printf ("as much would have to come off, with a largest cut of %s g.", cut);
  if (swapped->changes != plan->changes)
    return g_strdup_printf ("as much would have to come off, and %u parts instead of %u would "
                            "change hands.",
                            swapped->changes, plan->changes);
  return g_strdup ("it is as good; of equal pairings the one of the lowest part numbers is taken.");
}

char *
tg_pairing_swap_words (
    const TgPairing *pairing, const TgMatchingPlan *plan, guint family, guint part, guint to)
{
  TgMatchingPlan swapped;
  g_autofree char *head = swap_head (pairing, plan, family, part, to);
  g_autofree char *breaks = NULL;
  g_autofree char *weights = NULL;
  g_autofree char *cost = NULL;

  tg_pairing_swap (pairing, plan, family, part, to, &swapped);
  breaks = tg_pairing_breaks (pairing, &swapped);
  weights = swap_weights (pairing, plan, &swapped);
  if (plan->part[family][to] == part)
    return g_strdup_printf ("%s is in bore %u.", name_of (pairing, family, part), to + 1);
  if (breaks)
    return g_strdup_printf ("%s: not possible. %s%s", head, breaks, weights);
  cost = swap_cost (pairing, plan, &swapped);
  return g_strdup_printf ("%s: %s%s", head, cost, weights);
}
