/* debrief-truth.c: true figures of a practice job, and how far a good reading may be from them
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "debrief-private.h"

/* After so many readings the empty scale is asked for (common practice, no published source): a zero
 * that wandered for longer is no longer explained. */
#define MOST_READINGS 20

static double
carried_g (const TgSetup *setup,
           const TgPracticeBench *bench,
           TgPartKind kind,
           guint bore,
           TgFigure figure)
{
  const TgPart *part = tg_setup_at_bore (setup, kind, bore);
  guint index;

  if (!part || !tg_setup_in_sum (setup, kind))
    return 0;
  tg_setup_find_part (setup, part->id, &index);
  return tg_practice_bench_truth (bench, index, figure);
}

double
tg_debrief_sum_g (const TgSetup *setup, const TgPracticeBench *bench, guint part, TgBand band)
{
  guint bore = tg_setup_part (setup, part)->bore;
  double sum = tg_practice_bench_truth (bench, part, tg_band_figure (band));

  if (band == TG_BAND_ROD_BIG)
    return sum + carried_g (setup, bench, TG_PART_BEARINGS, bore, TG_FIGURE_WHOLE);
  if (band != TG_BAND_PISTON)
    return sum;
  for (TgPartKind kind = TG_PART_PIN; kind <= TG_PART_CLIPS; kind++)
    sum += carried_g (setup, bench, kind, bore, TG_FIGURE_WHOLE);
  return sum + carried_g (setup, bench, TG_PART_ROD, bore, TG_FIGURE_SMALL_END);
}

double
tg_debrief_spread_g (const TgReview *review, const TgPracticeBench *bench, TgBand band)
{
  double lightest = INFINITY, heaviest = -INFINITY;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      double grams;

      if (!part->in_work || part->design->kind != tg_band_kind (band))
        continue;
      grams = tg_debrief_sum_g (review->setup, bench, i, band);
      lightest = MIN (lightest, grams);
      heaviest = MAX (heaviest, grams);
    }
  return MAX (0, heaviest - lightest);
}

double
tg_debrief_shown_g (const TgSetup *setup, double true_g)
{
  return true_g * (1 + setup->practice.faults.gain);
}

/* -- the zero --------------------------------------------------------------------------------------- */

static gboolean
is_load (const TgEvent *event)
{
  return event->kind == TG_EVENT_WEIGHING || event->kind == TG_EVENT_CHECK_WEIGHT;
}

static gboolean
is_set_back (const TgEvent *event)
{
  return event->kind == TG_EVENT_ZERO && event->set_back;
}

/* Index of the look that follows entry @i on its day, or of none.  One that was struck out tells nothing,
 * but where the scale was set to zero with it, it was. */
static guint
next_look (const TgJob *job, const gboolean *struck, guint i, guint *loads)
{
  guint n = tg_job_n_events (job);
  gint64 day = tg_stamp_day (tg_job_event (job, i)->stamp);

  for (*loads = 0; i < n && tg_stamp_day (tg_job_event (job, i)->stamp) == day; i++)
    {
      if (!struck[i] && tg_job_event (job, i)->kind == TG_EVENT_ZERO)
        return i;
      if (is_set_back (tg_job_event (job, i)))
        return n;
      *loads += is_load (tg_job_event (job, i));
    }
  return n;
}

/* Between two looks the way of the zero is that of a random walk of which both ends are known: at m of
 * M steps it strays from the straight line as if it had gone m (M − m) / M steps. */
static TgDebriefZero
zero_at (const TgJob *job, const gboolean *struck, guint i, double from_g, TgDebriefZero before)
{
  TgDebriefZero zero = before;
  guint after, look = next_look (job, struck, i, &after);
  double m = 2.0 * before.since + 1, all = m + 2.0 * after, went_g = 0;

  if (look < tg_job_n_events (job))
    went_g = tg_mass_to_g (tg_job_event (job, look)->mass) - from_g;
  zero.closed = look < tg_job_n_events (job) &&
                fabs (went_g) <= tg_debrief_zero_reach_g (tg_job_setup (job), all);
  zero.from_g = zero.zero_g = from_g;
  zero.walked = zero.lays = m;
  if (!zero.closed)
    return zero;
  zero.zero_g += went_g * m / all;
  zero.lays = MAX (1, m * (all - m) / all);
  return zero;
}

/* Each load goes on and comes off again. */
TgDebriefZero *
tg_debrief_zeros (const TgJob *job, const gboolean *struck)
{
  guint n = tg_job_n_events (job);
  TgDebriefZero *zeros = g_new0 (TgDebriefZero, n + 1);
  TgDebriefZero so_far = { 0 };
  double from_g = 0;
  gint64 day = G_MININT64;

  for (guint i = 0; i < n; i++)
    {
      const TgEvent *event = tg_job_event (job, i);

      so_far.looked &= tg_stamp_day (event->stamp) == day;
      day = tg_stamp_day (event->stamp);
      zeros[i] = zero_at (job, struck, i, from_g, so_far);
      if (is_set_back (event) || (event->kind == TG_EVENT_ZERO && !struck[i]))
        {
          so_far.looked |= !struck[i];
          so_far.since = 0;
          from_g = event->set_back ? 0 : tg_mass_to_g (event->mass);
        }
      so_far.since += is_load (event);
    }
  return zeros;
}

double
tg_debrief_zero_reach_g (const TgSetup *setup, double walked)
{
  const TgPracticeFaults *faults = &setup->practice.faults;

  return TG_DEBRIEF_SURE * hypot (faults->flicker_g, faults->drift_g * sqrt (walked)) +
         tg_mass_to_g (setup->resolution) / 2 + TG_REVIEW_TINY_G;
}

double
tg_debrief_explained_g (const TgSetup *setup, TgFigure figure, const TgDebriefZero *zero)
{
  const TgPracticeFaults *faults = &setup->practice.faults;
  double scatter_g = figure == TG_FIGURE_WHOLE ? faults->scatter_g / 2 : faults->scatter_g;
  double lays = MIN (zero->lays, 2 * MOST_READINGS + 1);
  double u_g = hypot (hypot (scatter_g, faults->flicker_g), faults->drift_g * sqrt (lays));
  double step_g = tg_mass_to_g (setup->resolution);

  /* where the zero was read, that reading has its rounding, too */
  return TG_DEBRIEF_SURE * u_g + (zero->closed ? 1 : 0.5) * step_g + TG_REVIEW_TINY_G;
}
