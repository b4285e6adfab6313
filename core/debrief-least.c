/* debrief-least.c: what had to come off the true parts as they came, and in how many passes
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same solvers as in the real plan, fed with the truth: a job with the setup in force at the end, the
 * true figures as readings and a step of one milligram.
 */
#include <math.h>

#include "debrief-private.h"
#include "pairing.h"
#include "uncertainty.h"

/* The search for a pairing counts its nodes, not the clock, so that the result is the same each time. */
#define MOST_NODES 20000

static void
append (TgJob *job, TgEvent event)
{
  g_autofree char *id = g_strdup_printf ("t%u", tg_job_n_events (job));

  event.id = id;
  tg_job_append (job, &event, NULL);
}

static void
append_truth (TgJob *job, const TgPracticeBench *bench, guint part, TgFigure figure, TgWay way)
{
  TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);

  reading.part = tg_setup_part (tg_job_setup (job), part)->id;
  reading.figure = figure;
  reading.way = way;
  reading.mass = tg_mass_from_g (tg_practice_bench_truth_at_first (bench, part, figure));
  append (job, reading);
}

/* What has to stay together, apart or at its bore. */
static void
append_rules (TgJob *job, const TgDebriefWalk *walk)
{
  for (guint i = 0; i < walk->end->rules->len; i++)
    append (job,
            *tg_job_event (walk->job, g_array_index (walk->end->rules, TgRuleReview, i).event));
}

/* (nullable): with the tolerances that the job began with, or those of the end */
static TgJob *
true_job (const TgDebriefWalk *walk, gboolean begun)
{
  TgSetup *setup = tg_setup_copy (walk->end->setup);
  TgJob *job;

  tg_practice_clear (&setup->practice);
  tg_practice_init (&setup->practice);
  setup->resolution = TG_MASS_MG;
  setup->repeats = 1;
  for (TgBand band = 0; begun && band < TG_N_BANDS; band++)
    setup->tolerance[band] = walk->setup->tolerance[band];
  if (!tg_setup_check (setup, NULL))
    {
      tg_setup_free (setup);
      return NULL;
    }
  job = tg_job_new (setup);
  for (guint i = 0; i < setup->parts->len; i++)
    if (tg_setup_part (setup, i)->design->kind != TG_PART_ROD)
      append_truth (job, walk->bench_after, i, TG_FIGURE_WHOLE, TG_WAY_ANY);
    else
      for (TgFigure figure = TG_FIGURE_SMALL_END; figure <= TG_FIGURE_BIG_END; figure++)
        for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
          append_truth (job, walk->bench_after, i, figure, way);
  append_rules (job, walk);
  return job;
}

/* INFINITY where the parts cannot be made even. */
static double
metal_of (const TgReview *review)
{
  double sum = 0;

  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      if (!review->feasible[kind])
        return INFINITY;
      sum += review->least_metal_g[kind];
    }
  return sum;
}

/* -- pairings ------------------------------------------------------------------------------------- */

/* Takes over the best pairing of @sum that is found; FALSE if nothing can change hands. */
static gboolean
pair (TgJob *job, TgReview **review, TgPairingSum sum, gboolean *proven)
{
  const TgMatchingLimits limits = { .nodes = MOST_NODES };
  g_autofree char *why_not = NULL;
  g_autoptr (TgPairing) pairing = tg_pairing_new (*review, sum, &why_not);
  g_autoptr (TgReview) paired = NULL;
  TgPairingResult result;
  TgChoice *choice;
  guint before = tg_job_n_events (job);

  if (!pairing)
    return FALSE;
  tg_pairing_solve (pairing, &limits, &result);
  *proven &= result.joint ? result.metal_g <= result.bound_g + TG_REVIEW_TINY_G
                          : result.sums.status == TG_MATCHING_OPTIMAL;
  if (result.sums.status != TG_MATCHING_OPTIMAL && result.sums.status != TG_MATCHING_FEASIBLE)
    return TRUE;
  choice = tg_pairing_accept (*review, pairing, &result.sums.plan);
  for (guint i = 0; i < choice->events->len; i++)
    append (job, g_array_index (choice->events, TgEvent, i));
  tg_choice_free (choice);
  paired = tg_review_new (job);
  if (metal_of (paired) <= metal_of (*review))
    {
      TgReview *was = *review;

      *review = g_steal_pointer (&paired);
      paired = was;
      return TRUE;
    }
  while (tg_job_n_events (job) > before)
    tg_job_drop_last (job);
  return TRUE;
}

static TgReview *
least_review (TgDebriefWalk *walk, TgJob *job)
{
  TgDebriefMetal *metal = &walk->debrief->metal;
  TgReview *review = tg_review_new (job);

  metal->paired_g = metal_of (review);
  metal->proven = TRUE;
  for (TgPairingSum sum = 0; sum < TG_N_PAIRING_SUMS; sum++)
    metal->open |= pair (job, &review, sum, &metal->proven);
  metal->best_g = metal_of (review);
  metal->known = isfinite (metal->best_g);
  return review;
}

/* -- passes --------------------------------------------------------------------------------------- */

/* What tools take differs by 30 % either way until a pass has shown it (common practice, no published
 * source). */
#define UNKNOWN_RATE (0.3 / 1.732)

/* Passes on one zone: each as large as the chance of an overshoot allows, and not past the middle of the
 * room, until the rest is too small for the scale. */
static guint
passes_on (const TgDebriefWalk *walk, const TgZoneReview *zone, gboolean first)
{
  double hand = walk->setup->practice.faults.hand;
  double level = 1 - 2 * walk->end->setup->overshoot_percent / 100;
  double z = tg_uncertainty_coverage (INFINITY, level);
  double rest_g = zone->amount_g, room_g = zone->at_most_g - zone->amount_g;
  double small_g = tg_mass_to_g (walk->setup->resolution) / 2;
  guint n = 0;

  while (rest_g > small_g && n < 20)
    {
      double share = first && n == 0 ? hypot (hand, UNKNOWN_RATE) : hand;

      rest_g -= MIN ((rest_g + room_g) / (1 + z * share), rest_g + room_g / 2);
      n++;
    }
  return n;
}

static guint
passes_of (const TgDebriefWalk *walk, const TgReview *review)
{
  gboolean learned[TG_N_METALS] = { FALSE };
  guint n = 0;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      for (guint z = 0; z < part->zones->len; z++)
        {
          guint here = passes_on (walk, tg_part_review_zone (part, z),
                                  !learned[part->design->metal]);

          n += here;
          learned[part->design->metal] |= here > 0;
        }
    }
  return n;
}

void
tg_debrief_find_least (TgDebriefWalk *walk)
{
  for (guint try = 0; try < 2 && !walk->debrief->metal.known; try++)
    {
      TgJob *job = true_job (walk, try == 0);
      TgReview *review;

      if (!job)
        continue;
      review = least_review (walk, job);
      walk->debrief->passes_least = passes_of (walk, review);
      tg_review_free (review);
      tg_job_free (job);
    }
}
