/* practice-replay.c: the bench of a practice job, see practice-replay.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice-replay.h"

#include <math.h>

TgPracticeBench *
tg_practice_replay (const TgJob *job, guint n)
{
  const TgSetup *setup;
  g_autofree gboolean *struck = NULL;
  TgPracticeBench *bench;

  g_return_val_if_fail (job && n <= tg_job_n_events (job), NULL);
  setup = tg_job_setup (job);
  g_return_val_if_fail (setup->practice.on, NULL);

  struck = tg_job_struck (job);
  bench = tg_practice_bench_new (setup, setup->practice.seed, setup->practice.spread_g,
                                 &setup->practice.faults);
  for (guint i = 0; i < n; i++)
    if (!struck[i] || tg_job_event (job, i)->kind != TG_EVENT_REPLACE)
      tg_practice_replay_event (bench, job, tg_job_event (job, i));
  tg_practice_bench_lay (bench, NULL);
  return bench;
}

guint
tg_practice_pass_seconds (const TgPracticeBench *bench, const TgJob *job, const TgEvent *event)
{
  guint part;
  double seconds;

  if (event->effort != TG_EFFORT_NONE)
    return event->count;
  tg_setup_find_part (tg_job_setup (job), event->part, &part);
  seconds = tg_mass_to_g (event->mass) / tg_practice_bench_rate (bench, part, event->tool);
  return (guint) CLAMP (round (seconds), 1, TG_MAX_EFFORT);
}

static void
replay_pass (TgPracticeBench *bench, const TgJob *job, const TgEvent *event)
{
  guint part, zone;

  tg_setup_find_part (tg_job_setup (job), event->part, &part);
  tg_design_find_zone (tg_setup_part (tg_job_setup (job), part)->design, event->zone, &zone);
  tg_practice_bench_grind (bench, part, zone, event->tool,
                           tg_practice_pass_seconds (bench, job, event));
}

void
tg_practice_replay_event (TgPracticeBench *bench, const TgJob *job, const TgEvent *event)
{
  TgSlot slot = { 0, event->figure, event->way };

  switch (event->kind)
    {
    case TG_EVENT_WEIGHING:
      tg_setup_find_part (tg_job_setup (job), event->part, &slot.part);
      tg_practice_bench_lay (bench, &slot);
      break;
    case TG_EVENT_ZERO:
      tg_practice_bench_lay (bench, NULL);
      if (event->set_back)
        tg_practice_bench_set_zero (bench);
      break;
    case TG_EVENT_CHECK_WEIGHT:
      tg_practice_bench_lay_weight (bench, event->nominal);
      break;
    case TG_EVENT_PASS:
      replay_pass (bench, job, event);
      break;
    case TG_EVENT_REPLACE:
      tg_setup_find_part (tg_job_setup (job), event->part, &slot.part);
      tg_practice_bench_replace (bench, slot.part);
      break;
    default:
      break;
    }
}
