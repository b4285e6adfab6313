/* practice-worker.c: somebody who goes through a practice job, see practice-worker.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-worker.h"

#include <math.h>

#include "pairing.h"
#include "practice-replay.h"
#include "reading-check.h"

/* A scale is looked at every so many readings. */
#define READINGS_A_ZERO 8
/* Readings of a figure each way up, when more of them would prove the set. */
#define MOST_REPEATS 4
/* Lays of one rod until it touches nothing. */
#define MOST_LAYS 20
#define HASTY_MS 900

static void
renew (PracticeWorker *worker)
{
  g_clear_pointer (&worker->review, tg_review_free);
  worker->review = tg_review_new (worker->job);
}

/* Works towards four fifths of each tolerance, so that what readings cannot tell does not count, and
 * reads everything twice at least. */
static void
guard (PracticeWorker *worker)
{
  TgEvent twice = tg_event_blank (TG_EVENT_SET);

  twice.path = "repeats";
  twice.value = "2";
  if (worker->review->setup->repeats < 2)
    practice_worker_append (worker, twice);
  for (TgBand band = 0; band < TG_N_BANDS; band++)
    {
      TgMass tolerance = worker->review->setup->tolerance[band] * 4 / 5;
      TgEvent set = tg_event_blank (TG_EVENT_SET);
      g_autofree char *path = g_strdup_printf ("tolerance.%s", tg_band_to_word (band));
      g_autofree char *value = tg_mass_format_exact (tolerance);

      if (!worker->review->bands[band].present)
        continue;
      set.path = path;
      set.value = value;
      practice_worker_append (worker, set);
    }
}

PracticeWorker *
practice_worker_new (TgJob *job, guint habits)
{
  PracticeWorker *worker = g_new0 (PracticeWorker, 1);

  worker->job = job;
  worker->bench = tg_practice_replay (job, tg_job_n_events (job));
  worker->habits = habits;
  worker->seconds = 1790000000;
  renew (worker);
  if (habits == 0)
    guard (worker);
  return worker;
}

void
practice_worker_free (PracticeWorker *worker)
{
  tg_review_free (worker->review);
  tg_practice_bench_free (worker->bench);
  tg_job_free (worker->job);
  g_free (worker);
}

void
practice_worker_append (PracticeWorker *worker, TgEvent event)
{
  g_autofree char *id = g_strdup_printf ("w%u", worker->seconds);
  g_autoptr (GError) error = NULL;

  if (event.id[0] == '\0')
    event.id = id;
  event.who = "Worker";
  event.practice = TRUE;
  event.stamp = (TgStamp){ worker->seconds, 60 };
  worker->seconds += 20;
  tg_job_append (worker->job, &event, &error);
  g_assert_no_error (error);
  if (event.kind == TG_EVENT_REPLACE)
    tg_practice_replay_event (worker->bench, worker->job, &event);
  renew (worker);
}

static gboolean
has (const PracticeWorker *worker, PracticeHabit habit)
{
  return (worker->habits & habit) != 0;
}

/* -- the scale ----------------------------------------------------------------------------------- */

static TgMass
displayed (const PracticeWorker *worker)
{
  return tg_practice_bench_display (
      worker->bench, has (worker, PRACTICE_HABIT_HASTY) ? HASTY_MS : TG_PRACTICE_SETTLED_MS);
}

void
practice_worker_zero (PracticeWorker *worker)
{
  TgEvent zero = tg_event_blank (TG_EVENT_ZERO);

  tg_practice_bench_lay (worker->bench, NULL);
  zero.mass = displayed (worker);
  zero.set_back = TRUE;
  tg_practice_bench_set_zero (worker->bench);
  worker->readings = 0;
  practice_worker_append (worker, zero);
}

void
practice_worker_check_weight (PracticeWorker *worker)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.nominal = worker->review->setup->check_weight;
  tg_practice_bench_lay_weight (worker->bench, event.nominal);
  event.mass = displayed (worker);
  practice_worker_append (worker, event);
}

static TgMass
lay_and_read (PracticeWorker *worker, TgSlot slot)
{
  if (has (worker, PRACTICE_HABIT_NO_TURN) && slot.way == TG_WAY_MARK_DOWN)
    slot.way = TG_WAY_MARK_UP;
  for (guint lay = 0; lay < MOST_LAYS; lay++)
    {
      tg_practice_bench_lay (worker->bench, &slot);
      if (has (worker, PRACTICE_HABIT_NO_LOOK) || !tg_practice_bench_touches (worker->bench))
        break;
    }
  if (!has (worker, PRACTICE_HABIT_NO_ROCK) && slot.figure != TG_FIGURE_WHOLE)
    tg_practice_bench_rock (worker->bench);
  return displayed (worker);
}

void
practice_worker_read (PracticeWorker *worker, TgSlot slot)
{
  TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);
  g_autofree char *question = NULL;

  if (!has (worker, PRACTICE_HABIT_NO_ZERO) &&
      (worker->readings >= READINGS_A_ZERO || worker->review->scale.last_zero < 0))
    practice_worker_zero (worker);
  reading.part = tg_review_part (worker->review, slot.part)->part->id;
  reading.figure = slot.figure;
  reading.way = slot.way;
  reading.mass = lay_and_read (worker, slot);
  if (tg_reading_check (worker->review, slot, reading.mass, &question) == TG_READING_ASK)
    {
      if (!has (worker, PRACTICE_HABIT_KEEPS))
        reading.mass = lay_and_read (worker, slot);
      g_clear_pointer (&question, g_free);
      reading.kept = tg_reading_check (worker->review, slot, reading.mass, &question) ==
                     TG_READING_ASK;
    }
  worker->readings++;
  practice_worker_append (worker, reading);
}

/* -- the grinder --------------------------------------------------------------------------------- */

void
practice_worker_grind (
    PracticeWorker *worker, guint part, guint zone, TgTool tool, guint seconds, double wanted_g)
{
  const TgPartReview *reviewed = tg_review_part (worker->review, part);
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);

  pass.part = reviewed->part->id;
  pass.zone = tg_part_review_zone (reviewed, zone)->zone->id;
  pass.tool = tool;
  pass.mass = tg_mass_from_g (wanted_g);
  pass.effort = TG_EFFORT_SECONDS;
  pass.count = seconds;
  practice_worker_append (worker, pass);
  tg_practice_replay_event (worker->bench, worker->job,
                            tg_job_event (worker->job, tg_job_n_events (worker->job) - 1));
}

static guint
never_zone (const TgPartReview *part, guint otherwise)
{
  for (guint z = 0; z < part->zones->len; z++)
    if (tg_part_review_zone (part, z)->zone->standing == TG_STANDING_NEVER)
      return z;
  return otherwise;
}

/* The events may lend texts of the review that they were made from. */
static void
append_all (PracticeWorker *worker, const GArray *events)
{
  g_autoptr (TgReview) lends = g_steal_pointer (&worker->review);

  renew (worker);
  for (guint i = 0; i < events->len; i++)
    practice_worker_append (worker, g_array_index (events, TgEvent, i));
}

/* Until passes have taught more, a careful worker goes by half of what the tool usually takes. */
static void
grind_next (PracticeWorker *worker, const TgNext *next)
{
  const TgTool tool = TG_TOOL_FILE;
  guint part = next->slot.part, zone = next->zone;
  double usual = tg_practice_tool_rate (tool);
  double seconds = next->effort == TG_EFFORT_SECONDS ? next->count : 0.5 * next->pass_g / usual;
  double wanted_g = next->pass_g;
  g_autoptr (GArray) targets = tg_review_take_targets (worker->review, part);

  append_all (worker, targets);
  if (has (worker, PRACTICE_HABIT_GREEDY))
    {
      seconds = 1.5 * next->amount_g / usual;
      wanted_g = next->amount_g;
    }
  if (has (worker, PRACTICE_HABIT_ANYWHERE))
    zone = never_zone (tg_review_part (worker->review, part), zone);
  practice_worker_grind (worker, part, zone, tool, (guint) MAX (1, round (seconds)), wanted_g);
}

/* -- what is next -------------------------------------------------------------------------------- */

static gboolean
pair (PracticeWorker *worker)
{
  const TgMatchingLimits limits = { .nodes = 20000 };

  for (TgPairingSum sum = 0; sum < TG_N_PAIRING_SUMS; sum++)
    {
      g_autofree char *why_not = NULL;
      g_autoptr (TgPairing) pairing = tg_pairing_new (worker->review, sum, &why_not);
      TgPairingResult result;
      TgChoice *choice;

      if (!pairing)
        continue;
      tg_pairing_solve (pairing, &limits, &result);
      choice = tg_pairing_accept (worker->review, pairing, &result.sums.plan);
      append_all (worker, choice->events);
      tg_choice_free (choice);
      return TRUE;
    }
  return FALSE;
}

static gboolean
widens (const TgChoice *choice)
{
  for (guint i = 0; i < choice->events->len; i++)
    {
      const TgEvent *event = &g_array_index (choice->events, TgEvent, i);

      if (event->kind == TG_EVENT_SET && g_str_has_prefix (event->path, "tolerance."))
        return TRUE;
    }
  return FALSE;
}

/* The cheapest way out that leaves the tolerance as it is, if there is one. */
static const TgChoice *
choose (const TgDecision *decision)
{
  for (guint i = 0; i < decision->choices->len; i++)
    if (!widens (g_ptr_array_index (decision->choices, i)))
      return g_ptr_array_index (decision->choices, i);
  return g_ptr_array_index (decision->choices, 0);
}

static gboolean
decide (PracticeWorker *worker, guint index)
{
  const TgDecision *decision = g_ptr_array_index (worker->review->decisions, index);
  const TgChoice *choice;

  if (decision->choices->len == 0)
    return FALSE;
  choice = choose (decision);
  append_all (worker, choice->events);
  return TRUE;
}

/* More readings of each figure, where they would prove what the few have not. */
static gboolean
read_more (PracticeWorker *worker)
{
  guint repeats = worker->review->setup->repeats, wanted = repeats;
  TgEvent set = tg_event_blank (TG_EVENT_SET);
  g_autofree char *value = NULL;

  for (TgBand band = 0; band < TG_N_BANDS; band++)
    if (worker->review->bands[band].present && !worker->review->bands[band].proven)
      {
        g_autoptr (TgProof) proof = tg_review_proof (worker->review, band);
        gboolean rod = tg_band_kind (band) == TG_PART_ROD;

        wanted = MAX (wanted, rod ? (proof->enough + 1) / 2 : proof->enough);
      }
  if (wanted == repeats || wanted > MOST_REPEATS)
    return FALSE;
  value = g_strdup_printf ("%u", wanted);
  set.path = "repeats";
  set.value = value;
  practice_worker_append (worker, set);
  return TRUE;
}

gboolean
practice_worker_step (PracticeWorker *worker)
{
  const TgNext *next = worker->review->next;

  switch (next->kind)
    {
    case TG_NEXT_WEIGH:
      practice_worker_read (worker, next->slot);
      return TRUE;
    case TG_NEXT_GRIND:
      grind_next (worker, next);
      return TRUE;
    case TG_NEXT_DECIDE:
      return decide (worker, next->decision);
    case TG_NEXT_PAIR:
      return pair (worker);
    case TG_NEXT_DONE:
    default:
      return worker->habits == 0 && read_more (worker);
    }
}

gboolean
practice_worker_run (PracticeWorker *worker, guint most)
{
  for (guint i = 0; i < most; i++)
    if (!practice_worker_step (worker))
      return worker->review->done;
  return FALSE;
}

/* -- the truth ----------------------------------------------------------------------------------- */

/* Of the part of @kind at the bore, if it is in the sum. */
static double
carried_g (const PracticeWorker *worker, TgPartKind kind, guint bore, TgFigure figure)
{
  const TgSetup *setup = worker->review->setup;
  const TgPart *part = tg_setup_at_bore (setup, kind, bore);
  guint index;

  if (!part || !tg_setup_in_sum (setup, kind))
    return 0;
  tg_setup_find_part (setup, part->id, &index);
  return tg_practice_bench_truth (worker->bench, index, figure);
}

static double
true_g (const PracticeWorker *worker, guint index, TgBand band)
{
  guint bore = tg_setup_part (worker->review->setup, index)->bore;
  double sum = tg_practice_bench_truth (worker->bench, index, tg_band_figure (band));

  if (band == TG_BAND_ROD_BIG)
    return sum + carried_g (worker, TG_PART_BEARINGS, bore, TG_FIGURE_WHOLE);
  if (band != TG_BAND_PISTON)
    return sum;
  for (TgPartKind kind = TG_PART_PIN; kind <= TG_PART_CLIPS; kind++)
    sum += carried_g (worker, kind, bore, TG_FIGURE_WHOLE);
  return sum + carried_g (worker, TG_PART_ROD, bore, TG_FIGURE_SMALL_END);
}

double
practice_worker_spread (const PracticeWorker *worker, TgBand band)
{
  double lightest = INFINITY, heaviest = -INFINITY;

  for (guint i = 0; i < worker->review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (worker->review, i);
      double grams;

      if (!part->in_work || part->design->kind != tg_band_kind (band))
        continue;
      grams = true_g (worker, i, band);
      lightest = MIN (lightest, grams);
      heaviest = MAX (heaviest, grams);
    }
  return MAX (0, heaviest - lightest);
}
