/* pairing.c: which part goes with which, from a job to the solver and back, see pairing.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Weights are those of the review, in whole steps of the scale.  What a part may lose is what its
 * usable zones can still give.  Small ends go into the sum as they will be once the big end has come
 * to its band: that is settled by the rod's own zones, whatever piston it gets.
 */
#include "pairing.h"

#include <math.h>
#include <string.h>

#include "pairing-joint.h"
#include "review-private.h"

/* Sub-problems of the sums, where big ends have to be made even at the same time. */
#define JOINT_NODES 200000

static void
pairing_clear (TgPairing *pairing)
{
  TgMatchingProblem *problem = &pairing->problem;

  for (guint f = 0; f < problem->n_families; f++)
    {
      TgPairingFamily *family = &pairing->families[f];

      for (guint i = 0; i < family->n; i++)
        g_free (family->name[i]);
      g_free (family->name);
      g_free (family->part);
      g_free ((TgMatchingPart *) problem->families[f].parts);
    }
  g_clear_pointer (&pairing->joint, tg_pairing_joint_free);
  g_free ((TgMatchingPair *) problem->forbidden);
  g_free ((TgMatchingPair *) problem->locked);
}

TgPairing *
tg_pairing_ref (TgPairing *pairing)
{
  return g_atomic_rc_box_acquire (pairing);
}

void
tg_pairing_unref (TgPairing *pairing)
{
  g_atomic_rc_box_release_full (pairing, (GDestroyNotify) pairing_clear);
}

/* -- from the review ----------------------------------------------------------------------------- */

typedef struct
{
  const TgReview *review;
  TgPairing *pairing;
  GString *missing; /* names of parts that were not weighed */
  guint n_missing;
} Maker;

static gint64
steps (const TgPairing *pairing, double grams)
{
  return (gint64) llround (grams / pairing->step_g);
}

static gint64
whole_steps (const TgPairing *pairing, double grams)
{
  return (gint64) floor (grams / pairing->step_g + 1e-6);
}

/* By how much the small end falls while the big end comes to its band by itself, at the least cost. */
static double
small_end_follows_g (const TgReview *review, const TgPartReview *rod)
{
  const TgBandReview *band = &review->bands[TG_BAND_ROD_BIG];
  g_autoptr (TgSimplex) lp = NULL;
  TgPlanPart part = { .n_rows = 1 };
  double lo_g = band->target_g, hi_g = band->target_g + band->tolerance_g, follows = 0;
  const TgFigure big_end = TG_FIGURE_BIG_END;
  guint zone_of[TG_PLAN_MAX_ZONES];
  TgRemovalPlan plan;

  if (!band->known)
    return 0;
  part.weight_g[0] = tg_review_row_planned_g (review, rod, 1);
  tg_review_add_zones (&part, rod, &big_end, zone_of, NULL);
  lp = tg_removal_plan_workspace ();
  tg_removal_plan_solve (lp, &part, &lo_g, &hi_g, 0, &plan);
  for (guint j = 0; j < part.n_zones; j++)
    follows += plan.amount_g[j] * tg_review_effect (rod, TG_FIGURE_SMALL_END, zone_of[j]);
  return follows;
}

/* What pistons come down to where they have to be even by themselves, too. */
static double
heaviest_alone_g (const TgReview *review)
{
  const TgBandReview *band = &review->bands[TG_BAND_PISTON_ALONE];

  return band->present && band->known ? band->target_g + band->tolerance_g : (double) INFINITY;
}

/* The figure of a part that counts in the sum, and what it will weigh there. */
static double
weight_g (const TgReview *review, const TgPartReview *part, TgPairingSum sum, TgFigure *figure)
{
  double grams;

  *figure = TG_FIGURE_WHOLE;
  if (part->design->kind == TG_PART_PISTON)
    return MIN (part->weight[TG_FIGURE_WHOLE].mean_g, heaviest_alone_g (review));
  if (part->design->kind != TG_PART_ROD)
    return part->weight[TG_FIGURE_WHOLE].mean_g;
  *figure = sum == TG_PAIRING_BEARINGS ? TG_FIGURE_BIG_END : TG_FIGURE_SMALL_END;
  grams = part->weight[*figure].mean_g;
  if (sum == TG_PAIRING_BEARINGS)
    return grams;
  if (review->setup->small_ends == TG_SMALL_ENDS_SUM)
    return grams - small_end_follows_g (review, part);
  for (guint z = 0; z < part->zones->len; z++)
    grams -= tg_review_effect (part, *figure, z) * tg_part_review_zone (part, z)->amount_g;
  return grams;
}

static gboolean
figure_known (const TgPartReview *part, TgPairingSum sum)
{
  TgFigure figure = part->design->kind != TG_PART_ROD ? TG_FIGURE_WHOLE
                    : sum == TG_PAIRING_BEARINGS      ? TG_FIGURE_BIG_END
                                                      : TG_FIGURE_SMALL_END;

  return part->weight[figure].basis != TG_WEIGHT_NONE;
}

static void
note_missing (Maker *maker, const TgPartReview *part)
{
  if (maker->n_missing++ < 4)
    g_string_append_printf (maker->missing, "%s%s", maker->missing->len ? ", " : "",
                            part->part->name);
}

static TgMatchingPart
matching_part (Maker *maker, const TgPartReview *part, TgPairingSum sum)
{
  const TgReview *review = maker->review;
  const TgSetReview *set = part->part->bore > 0
                               ? &g_array_index (review->sets, TgSetReview, part->part->bore - 1)
                               : NULL;
  TgMatchingPart out = { .bound = -1, .today = -1 };
  gboolean gives = part->design->kind == TG_PART_PISTON ||
                   (part->design->kind == TG_PART_ROD &&
                    (sum == TG_PAIRING_BEARINGS || review->setup->small_ends == TG_SMALL_ENDS_SUM));
  TgFigure figure;
  double grams = weight_g (review, part, sum, &figure);

  out.weight = MAX (0, steps (maker->pairing, grams));
  if (gives)
    out.capacity = whole_steps (maker->pairing, tg_review_capacity_g (part, figure));
  /* of two at one bore, which no pairing makes, the first is there */
  if (set && tg_review_part (review, (guint) set->part[part->design->kind]) == part)
    out.today = (int) part->part->bore - 1;
  if (sum == TG_PAIRING_BEARINGS && part->design->kind == TG_PART_ROD)
    out.bound = out.today;
  return out;
}

/* Rods that are no family of their own sum stay where they are; spare rods with them. */
static gboolean
takes_part (const TgPartReview *part, TgPairingSum sum)
{
  return sum == TG_PAIRING_PISTONS || part->design->kind != TG_PART_ROD || part->part->bore > 0;
}

/* More than can be searched at once: then spares wait on the shelf. */
static gboolean
is_shelf (const TgReview *review, TgPartKind kind, TgPairingSum sum)
{
  guint n = 0;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      n += part->design->kind == kind && takes_part (part, sum) && figure_known (part, sum);
    }
  return n > TG_MATCHING_MAX_PARTS;
}

static void
add_family (Maker *maker, TgPartKind kind, TgPairingSum sum)
{
  TgPairing *pairing = maker->pairing;
  guint f = pairing->problem.n_families;
  TgPairingFamily *family = &pairing->families[f];
  GArray *parts = g_array_new (FALSE, FALSE, sizeof (TgMatchingPart));
  GArray *indices = g_array_new (FALSE, FALSE, sizeof (guint));
  GPtrArray *names = g_ptr_array_new ();
  gboolean shelf = is_shelf (maker->review, kind, sum);

  for (guint i = 0; i < maker->review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (maker->review, i);
      TgMatchingPart out;

      if (part->design->kind != kind || !takes_part (part, sum) || (shelf && part->part->bore == 0))
        continue;
      if (!figure_known (part, sum))
        {
          if (part->part->bore > 0)
            note_missing (maker, part);
          continue;
        }
      out = matching_part (maker, part, sum);
      g_array_append_val (parts, out);
      g_array_append_val (indices, i);
      g_ptr_array_add (names, g_strdup (part->part->name));
    }
  family->kind = kind;
  family->n = parts->len;
  family->part = (guint *) (gpointer) g_array_free (indices, FALSE);
  family->name = (char **) g_ptr_array_free (names, FALSE);
  pairing->problem.families[f].n_parts = parts->len;
  pairing->problem.families[f].parts = (const TgMatchingPart *) (gpointer) g_array_free (parts,
                                                                                         FALSE);
  pairing->problem.n_families++;
}

gboolean
tg_pairing_find (const TgPairing *pairing, guint part, guint *family, guint *number)
{
  for (guint f = 0; f < pairing->problem.n_families; f++)
    for (guint i = 0; i < pairing->families[f].n; i++)
      if (pairing->families[f].part[i] == part)
        {
          *family = f;
          *number = i;
          return TRUE;
        }
  return FALSE;
}

static void
add_rules (Maker *maker)
{
  TgPairing *pairing = maker->pairing;
  GArray *locked = g_array_new (FALSE, FALSE, sizeof (TgMatchingPair));
  GArray *forbidden = g_array_new (FALSE, FALSE, sizeof (TgMatchingPair));

  for (guint r = 0; r < maker->review->rules->len; r++)
    {
      const TgRuleReview *rule = &g_array_index (maker->review->rules, TgRuleReview, r);
      TgMatchingPair pair;

      if (!tg_pairing_find (pairing, rule->part, &pair.family[0], &pair.part[0]))
        continue;
      if (rule->rule == TG_RULE_BORE)
        {
          TgMatchingPart *parts =
              (TgMatchingPart *) pairing->problem.families[pair.family[0]].parts;

          parts[pair.part[0]].bound = (int) rule->bore - 1;
        }
      else if (tg_pairing_find (pairing, rule->other, &pair.family[1], &pair.part[1]))
        g_array_append_val (rule->rule == TG_RULE_TOGETHER ? locked : forbidden, pair);
    }
  pairing->problem.n_locked = locked->len;
  pairing->problem.locked = (const TgMatchingPair *) (gpointer) g_array_free (locked, FALSE);
  pairing->problem.n_forbidden = forbidden->len;
  pairing->problem.forbidden = (const TgMatchingPair *) (gpointer) g_array_free (forbidden, FALSE);
}

static void
add_families (Maker *maker, TgPairingSum sum)
{
  static const TgPartKind pistons[] = { TG_PART_PISTON, TG_PART_PIN, TG_PART_RINGS, TG_PART_CLIPS,
                                        TG_PART_ROD };
  static const TgPartKind bearings[] = { TG_PART_BEARINGS, TG_PART_ROD };
  const TgPartKind *kinds = sum == TG_PAIRING_PISTONS ? pistons : bearings;
  guint n = sum == TG_PAIRING_PISTONS ? G_N_ELEMENTS (pistons) : G_N_ELEMENTS (bearings);

  for (guint i = 0; i < n; i++)
    if ((kinds[i] == TG_PART_ROD && sum == TG_PAIRING_BEARINGS) ||
        tg_setup_in_sum (maker->review->setup, kinds[i]))
      add_family (maker, kinds[i], sum);
}

static char *
reason_against (const Maker *maker)
{
  const TgPairing *pairing = maker->pairing;
  guint n = pairing->problem.n_cylinders;

  if (maker->n_missing > 0)
    return g_strdup_printf ("First weigh %s%s: what goes with what is decided by weight.",
                            maker->missing->str, maker->n_missing > 4 ? " and more" : "");
  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      const TgPairingFamily *family = &pairing->families[f];
      const char *plural = tg_part_kind_plural (family->kind);

      if (family->n < n)
        return g_strdup_printf ("There are %u %s for %u bores.", family->n, plural, n);
      if (family->n > TG_MATCHING_MAX_PARTS)
        return g_strdup_printf (
            "There are %u %s; up to %d can be searched at once. Choose from the "
            "shelf first.",
            family->n, plural, TG_MATCHING_MAX_PARTS);
    }
  return NULL;
}

TgPairing *
tg_pairing_new (const TgReview *review, TgPairingSum sum, char **why_not)
{
  g_autoptr (TgPairing) pairing = g_atomic_rc_box_new0 (TgPairing);
  g_autoptr (GString) missing = g_string_new (NULL);
  Maker maker = { review, pairing, missing, 0 };
  TgPartKind needed = sum == TG_PAIRING_PISTONS ? TG_PART_PISTON : TG_PART_BEARINGS;
  TgBand band = sum == TG_PAIRING_PISTONS ? TG_BAND_PISTON : TG_BAND_ROD_BIG;

  *why_not = NULL;
  if (!tg_setup_in_sum (review->setup, needed))
    {
      *why_not = g_strdup (
          sum == TG_PAIRING_PISTONS
              ? "There is nothing to pair: it takes pistons and something that goes "
                "with them, as pins, ring packs, clips or the small ends of the rods."
              : "There is nothing to pair: it takes rods and bearing pairs.");
      return NULL;
    }
  pairing->step_g = tg_mass_to_g (review->setup->resolution);
  pairing->decimals = tg_mass_decimals (review->setup->resolution);
  pairing->problem.n_cylinders = review->setup->cylinders;
  pairing->problem.tolerance = whole_steps (pairing, review->bands[band].tolerance_g);
  add_families (&maker, sum);
  *why_not = reason_against (&maker);
  if (*why_not)
    return NULL;
  add_rules (&maker);
  if (sum == TG_PAIRING_PISTONS && tg_review_joint (review))
    pairing->joint = tg_pairing_joint_new (review, pairing);
  return g_steal_pointer (&pairing);
}

static gboolean
same_pairs (const TgMatchingPair *a, const TgMatchingPair *b, guint n)
{
  return n == 0 || memcmp (a, b, n * sizeof *a) == 0;
}

static gboolean
same_part (const TgMatchingPart *a, const TgMatchingPart *b)
{
  return a->weight == b->weight && a->capacity == b->capacity && a->bound == b->bound &&
         a->today == b->today;
}

gboolean
tg_pairing_equal (const TgPairing *a, const TgPairing *b)
{
  const TgMatchingProblem *p = &a->problem, *q = &b->problem;

  if (p->n_families != q->n_families || p->n_cylinders != q->n_cylinders ||
      p->tolerance != q->tolerance || p->n_locked != q->n_locked ||
      p->n_forbidden != q->n_forbidden || fabs (a->step_g - b->step_g) > TG_REVIEW_TINY_G ||
      !same_pairs (p->locked, q->locked, p->n_locked) ||
      !same_pairs (p->forbidden, q->forbidden, p->n_forbidden))
    return FALSE;
  for (guint f = 0; f < p->n_families; f++)
    {
      if (a->families[f].kind != b->families[f].kind || a->families[f].n != b->families[f].n)
        return FALSE;
      for (guint i = 0; i < a->families[f].n; i++)
        if (a->families[f].part[i] != b->families[f].part[i] ||
            !same_part (&p->families[f].parts[i], &q->families[f].parts[i]))
          return FALSE;
    }
  return tg_pairing_joint_equal (a->joint, b->joint);
}

void
tg_pairing_solve (const TgPairing *pairing, const TgMatchingLimits *limits, TgPairingResult *result)
{
  TgMatchingLimits sums = *limits;

  memset (result, 0, sizeof *result);
  /* for sums and big ends at once the best of the sums is a beginning, no more */
  if (pairing->joint)
    {
      sums.stages = 1;
      sums.nodes = limits->nodes > 0 ? MIN (limits->nodes, JOINT_NODES) : JOINT_NODES;
    }
  tg_matching_solve (&pairing->problem, &sums, &result->sums);
  if (pairing->joint &&
      (result->sums.status == TG_MATCHING_OPTIMAL || result->sums.status == TG_MATCHING_FEASIBLE))
    tg_pairing_joint_improve (pairing, limits, result);
}

double
tg_pairing_cost_g (const TgPairing *pairing, const TgMatchingPlan *plan)
{
  return pairing->joint ? tg_pairing_metal_g (pairing, plan) : tg_pairing_g (pairing, plan->total);
}

double
tg_pairing_part_g (const TgPairing *pairing, guint family, guint number)
{
  return pairing->joint
             ? tg_pairing_joint_part_g (pairing->joint, family, number)
             : tg_pairing_g (pairing, pairing->problem.families[family].parts[number].weight);
}

double
tg_pairing_sets (const TgPairing *pairing, const TgMatchingPlan *plan, TgPairingSet *sets)
{
  if (pairing->joint)
    return tg_pairing_joint_sets (pairing, plan, sets);
  for (guint c = 0; c < pairing->problem.n_cylinders; c++)
    sets[c] = (TgPairingSet){ tg_pairing_g (pairing, plan->weight[c]),
                              tg_pairing_g (pairing, plan->removal[c]) };
  return tg_pairing_g (pairing, plan->floor);
}

gboolean
tg_pairing_today (const TgPairing *pairing, TgMatchingPlan *plan, gboolean *rules_kept)
{
  const TgMatchingProblem *problem = &pairing->problem;
  gboolean kept;

  memset (plan, 0, sizeof *plan);
  for (guint f = 0; f < problem->n_families; f++)
    {
      guint found = 0;

      for (guint i = 0; i < problem->families[f].n_parts; i++)
        if (problem->families[f].parts[i].today >= 0)
          {
            plan->part[f][problem->families[f].parts[i].today] = i;
            found++;
          }
      if (found < problem->n_cylinders)
        return FALSE;
    }
  kept = tg_matching_evaluate (problem, plan);
  if (rules_kept)
    *rules_kept = kept;
  return TRUE;
}

gboolean
tg_pairing_swap (const TgPairing *pairing,
                 const TgMatchingPlan *plan,
                 guint family,
                 guint part,
                 guint to,
                 TgMatchingPlan *swapped)
{
  guint out = plan->part[family][to];

  *swapped = *plan;
  for (guint c = 0; c < pairing->problem.n_cylinders; c++)
    if (plan->part[family][c] == part)
      swapped->part[family][c] = out;
  swapped->part[family][to] = part;
  return tg_matching_evaluate (&pairing->problem, swapped);
}

/* -- back to the job ----------------------------------------------------------------------------- */

TgEvent
tg_pairing_event (const TgReview *review, guint kinds, const guint *bore_of, const char *reason)
{
  g_autoptr (TgSetup) setup = tg_setup_copy (review->setup);
  TgEvent event = tg_event_blank (TG_EVENT_PAIR);

  for (guint i = 0; i < setup->parts->len; i++)
    if (kinds & 1u << tg_setup_part (setup, i)->design->kind)
      tg_setup_part (setup, i)->bore = bore_of[i];
  /* a choice frees the values of its events, which mean nothing to a pairing */
  event.value = tg_setup_places (setup, kinds);
  event.places = event.value;
  event.path = g_strdup ("");
  event.text = reason;
  return event;
}

/* A target that was held for what went together before is chosen anew. */
static void
free_target (const TgReview *review, TgChoice *choice, TgBand band)
{
  TgEvent event = tg_event_blank (TG_EVENT_TARGET);

  if (!review->bands[band].present || !review->bands[band].decided)
    return;
  event.band = band;
  event.automatic = TRUE;
  event.text = "chosen anew for the new pairing";
  event.path = g_strdup ("");
  event.value = g_strdup ("");
  g_array_append_val (choice->events, event);
}

TgChoice *
tg_pairing_accept (const TgReview *review, const TgPairing *pairing, const TgMatchingPlan *plan)
{
  TgChoice *choice = g_new0 (TgChoice, 1);
  g_autofree guint *bore_of = g_new0 (guint, review->parts->len);
  gboolean bearings = pairing->families[0].kind == TG_PART_BEARINGS;
  guint kinds = 0;
  TgEvent event;

  choice->title = g_strdup ("Accept this pairing");
  choice->detail = tg_pairing_plan_words (pairing, plan);
  choice->events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  for (guint f = 0; f < pairing->problem.n_families; f++)
    {
      kinds |= 1u << pairing->families[f].kind;
      for (guint c = 0; c < pairing->problem.n_cylinders; c++)
        bore_of[pairing->families[f].part[plan->part[f][c]]] = c + 1;
    }
  event = tg_pairing_event (review, kinds, bore_of, "");
  g_array_append_val (choice->events, event);
  free_target (review, choice, bearings ? TG_BAND_ROD_BIG : TG_BAND_PISTON);
  if (!bearings && tg_review_joint (review))
    free_target (review, choice, TG_BAND_ROD_BIG);
  return choice;
}
