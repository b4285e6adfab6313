/* debrief-wrong.c: readings that were more off than scatter, drift and rounding explain
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "debrief-private.h"
#include "number.h"
#include "report.h"

double
tg_debrief_off_g (const TgDebriefWalk *walk)
{
  double true_g = tg_practice_bench_truth (walk->bench, (guint) walk->part, walk->event->figure);

  return tg_mass_to_g (walk->event->mass) - walk->zeros[walk->index].zero_g -
         tg_debrief_shown_g (walk->setup, true_g);
}

static GPtrArray *
why_wrong (const TgDebriefWalk *walk, double off_g, double explained_g)
{
  const TgDebriefZero *zero = &walk->zeros[walk->index];
  double true_g = tg_practice_bench_truth (walk->bench, (guint) walk->part, walk->event->figure);
  double gain_g = tg_debrief_shown_g (walk->setup, true_g) - true_g;
  GPtrArray *why = tg_terms_new ();

  tg_debrief_term (why, walk->setup, "read", tg_mass_to_g (walk->event->mass), "");
  tg_debrief_term (why, walk->setup, "true", true_g, "at that moment");
  if (gain_g > 0)
    tg_debrief_term (why, walk->setup, "the scale’s adjustment", gain_g,
                     "what it shows too much of every part alike");
  if (zero->zero_g != 0)
    tg_debrief_term (why, walk->setup, "zero", zero->zero_g,
                     "between the looks at the empty scale of that day");
  tg_debrief_term (why, walk->setup, "off by", off_g, "read less the others");
  tg_debrief_term (why, walk->setup, "explained", explained_g,
                   "the step, and 3.29 u of scatter, flicker and drift");
  return why;
}

static double
tolerance_g (const TgDebriefWalk *walk)
{
  TgPartKind kind = tg_setup_part (walk->setup, (guint) walk->part)->design->kind;
  TgBand band;

  if (!tg_band_of (kind, walk->event->figure, &band))
    band = kind == TG_PART_BEARINGS || kind == TG_PART_ROD ? TG_BAND_ROD_BIG : TG_BAND_PISTON;
  return tg_mass_to_g (tg_setup_tolerance (walk->setup, band));
}

/* -- looks at the scale ------------------------------------------------------------------------------ */

/* What lay on the scale before the entry, truly; 0 for nothing that is known. */
static double
load_before_g (const TgDebriefWalk *walk)
{
  for (guint i = walk->index; i-- > 0;)
    {
      const TgEvent *event = tg_job_event (walk->job, i);

      if (event->kind == TG_EVENT_WEIGHING || event->kind == TG_EVENT_CHECK_WEIGHT)
        return tg_mass_to_g (event->mass);
      if (event->kind == TG_EVENT_ZERO || event->kind == TG_EVENT_PASS)
        return 0;
    }
  return 0;
}

/* An empty scale that showed what its zero cannot have come to: the load had just been taken off. */
static void
watch_look (TgDebriefWalk *walk)
{
  const TgDebriefZero *zero = &walk->zeros[walk->index];
  double off_g = tg_mass_to_g (walk->event->mass) - zero->from_g;
  double reach_g = tg_debrief_zero_reach_g (walk->setup, zero->walked);
  double load_g = load_before_g (walk);
  gboolean hasty = off_g >= -TG_DEBRIEF_OVERSWING * load_g && off_g <= load_g && load_g > 0;
  g_autofree char *entry = NULL;
  g_autofree char *off = NULL;
  GPtrArray *why;

  if (fabs (off_g) <= reach_g)
    return;
  walk->debrief->wrong++;
  entry = tg_report_event (walk->after, walk->event);
  off = tg_debrief_grams (walk->setup, fabs (off_g));
  why = tg_terms_new ();
  tg_debrief_term (why, walk->setup, "shown", tg_mass_to_g (walk->event->mass), "");
  tg_debrief_term (why, walk->setup, "zero", zero->from_g, "where it was known to be last");
  tg_debrief_term (why, walk->setup, "explained", reach_g,
                   "the step, and 3.29 u of flicker and of the way of the zero since then");
  if (hasty)
    tg_debrief_term (why, walk->setup, "the load before", load_g,
                     "a display on its way from there swings past by up to 13.5 %");
  tg_debrief_add (
      walk->debrief, TG_DEBRIEF_WRONG, TG_DEBRIEF_POOR, (int) walk->index,
      g_strdup_printf ("%s: %s g too %s%s.", entry, off, off_g > 0 ? "much" : "little",
                       hasty ? ": it fits a display that had not come to rest after the "
                               "load before"
                             : ", more than its zero can have gone"),
      "Lets the empty scale come to rest before looking at it or setting it to zero.", why);
}

/* -- readings ---------------------------------------------------------------------------------------- */

static void
watch_weighing (TgDebriefWalk *walk)
{
  double off_g, explained_g;
  g_autofree char *entry = NULL;
  g_autofree char *off = NULL;
  TgDebriefCause cause;
  GPtrArray *why;

  off_g = tg_debrief_off_g (walk);
  explained_g = tg_debrief_explained_g (walk->setup, walk->event->figure,
                                        &walk->zeros[walk->index]);
  if (fabs (off_g) <= explained_g)
    return;
  walk->debrief->wrong++;
  why = why_wrong (walk, off_g, explained_g);
  cause = tg_debrief_cause (walk, off_g, explained_g, why);
  entry = tg_report_event (walk->after, walk->event);
  off = tg_debrief_grams (walk->setup, fabs (off_g));
  tg_debrief_add (
      walk->debrief, TG_DEBRIEF_WRONG,
      fabs (off_g) >= tolerance_g (walk) / 2 ? TG_DEBRIEF_POOR : TG_DEBRIEF_FAIR, (int) walk->index,
      g_strdup_printf ("%s: %s g too %s%s%s.", entry, off, off_g > 0 ? "much" : "little",
                       cause.words ? ": " : ", more than scatter and drift explain",
                       cause.words ? cause.words : ""),
      cause.careful, why);
  g_free (cause.words);
}

void
tg_debrief_watch_wrong (TgDebriefWalk *walk)
{
  if (walk->struck[walk->index])
    return;
  if (walk->event->kind == TG_EVENT_ZERO)
    watch_look (walk);
  if (walk->event->kind == TG_EVENT_WEIGHING)
    watch_weighing (walk);
}

void
tg_debrief_judge_wrong (TgDebriefWalk *walk)
{
  const TgDebrief *debrief = walk->debrief;

  if (debrief->readings > 0 && debrief->wrong == 0)
    tg_debrief_add (
        walk->debrief, TG_DEBRIEF_WRONG, TG_DEBRIEF_GOOD, -1,
        g_strdup_printf (debrief->readings == 1
                             ? "The %u reading was right, as far as this scale can tell."
                             : "All %u readings were right, as far as this scale can "
                               "tell.",
                         debrief->readings),
        "", tg_debrief_why_well ("readings", debrief->readings, "wrong", debrief->wrong));
}
