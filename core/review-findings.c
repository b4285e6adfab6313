/* review-findings.c: what deserves a second look
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Limits follow from how well this scale repeats (review-scale.c): each check of the readings alarms
 * in so many of the cases where nothing is wrong as review.h says, two-sided, and that of the check
 * weight and the empty scale as check-weight.h says.  Nothing is dropped or changed; a finding says
 * what is and what to do.
 */
#include <math.h>
#include <string.h>

#include "review-private.h"

void
tg_review_add_finding (TgReview *review,
                       TgFindingCode code,
                       TgSeverity severity,
                       int part,
                       int event,
                       char *text,
                       const char *advice)
{
  TgFinding *finding = g_new0 (TgFinding, 1);

  finding->code = code;
  finding->severity = severity;
  finding->part = part;
  finding->event = event;
  finding->text = text;
  finding->advice = g_strdup (advice);
  g_ptr_array_add (review->findings, finding);
}

/* What a difference of that uncertainty may be by chance. */
static double
limit_g (double u_g, double freedom, double false_alarm)
{
  return u_g > 0 ? tg_uncertainty_coverage (freedom, 1 - false_alarm) * u_g : 0;
}

/* One step of the scale alone never alarms. */
static void
find_turn (TgReview *review, guint i, const TgPartReview *part, TgFigure figure)
{
  const TgWeight *weight = &part->weight[figure];
  double limit;
  g_autofree char *difference = NULL;
  g_autofree char *allowed = NULL;

  if (weight->n[TG_WAY_MARK_UP] == 0 || weight->n[TG_WAY_MARK_DOWN] == 0)
    return;
  limit = MAX (limit_g (weight->turn_u_g, weight->turn_freedom, TG_REVIEW_FALSE_TURN),
               tg_mass_to_g (review->setup->resolution));
  if (fabs (weight->turn_g) <= limit + TG_REVIEW_TINY_G)
    return;
  difference = tg_review_grams (review, fabs (weight->turn_g));
  allowed = tg_review_grams (review, limit);
  tg_review_add_finding (
      review, TG_FINDING_TURN, TG_FINDING_DOUBT, (int) i, -1,
      g_strdup_printf ("%s, %s: the two ways up differ by %s g; this scale explains %s g.",
                       part->part->name, tg_figure_label (part->design->kind, figure), difference,
                       allowed),
      "The bearing may catch at the joint of the cap. Turn the big end off the joint, seat the rod "
      "again and read both ways anew.");
}

static void
find_closure (TgReview *review, guint i, const TgPartReview *part)
{
  double limit = limit_g (part->closure_u_g, part->closure_freedom, TG_REVIEW_FALSE_ALARM);
  g_autofree char *difference = NULL;
  g_autofree char *allowed = NULL;

  if (!part->has_closure || fabs (part->closure_g) <= limit)
    return;
  difference = tg_review_grams (review, fabs (part->closure_g));
  allowed = tg_review_grams (review, limit);
  tg_review_add_finding (
      review, TG_FINDING_CLOSURE, TG_FINDING_DOUBT, (int) i, -1,
      g_strdup_printf ("%s: small end and big end together are %s g %s than the whole; this scale "
                       "explains %s g.",
                       part->part->name, difference, part->closure_g > 0 ? "more" : "less",
                       allowed),
      "The rod may touch something, lie off level or hang on friction. Level it, free both "
      "supports and read the ends again.");
}

static void
find_zones (TgReview *review, guint i, const TgPartReview *part)
{
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      double capacity = tg_design_zone_capacity_g (part->design, zone->zone);
      g_autofree char *taken = tg_review_grams (review, zone->taken_g);
      g_autofree char *allowed = tg_review_grams (review, capacity);

      if (zone->passes > 0 && zone->zone->standing == TG_STANDING_NEVER)
        tg_review_add_finding (
            review, TG_FINDING_ZONE_NEVER, TG_FINDING_PROBLEM, (int) i, -1,
            g_strdup_printf ("%s: metal was taken off the %s, where none should be. %s",
                             part->part->name, zone->zone->name, zone->zone->reason),
            "Have the part judged by someone who may, after the maker’s manual, before it is "
            "used.");
      else if (zone->passes > 0 && capacity > 0 &&
               zone->taken_g > capacity + limit_g (tg_review_reading_u_g (review, TG_SUPPORT_STAND),
                                                   INFINITY, TG_REVIEW_FALSE_ALARM))
        tg_review_add_finding (review, TG_FINDING_ZONE_EXCEEDED, TG_FINDING_DOUBT, (int) i, -1,
                               g_strdup_printf ("%s: %s g came off the %s, which may give %s g.",
                                                part->part->name, taken, zone->zone->name, allowed),
                               "Measure how deep it is now and compare with the maker’s manual.");
    }
}

static void
find_plan (TgReview *review, guint i, const TgPartReview *part)
{
  gboolean rod = part->design->kind == TG_PART_ROD;

  if (part->state == TG_STATE_TOO_LIGHT || part->state == TG_STATE_OUT_OF_REACH)
    for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
      {
        double violation = part->plan.violation_g[row];
        g_autofree char *grams = tg_review_grams (review, fabs (violation));
        gboolean sum = rod ? row == 0 && tg_review_joint (review) : part->carried[row].any;
        const char *figure = sum ? "its set"
                                 : tg_review_row_label (review, part->design->kind, row);
        gboolean named = rod || sum;

        /* the sum is the piston's, also where the rod is planned with it */
        if (fabs (violation) <= TG_REVIEW_TINY_G || (rod && sum))
          continue;
        if (violation < 0)
          tg_review_add_finding (review, TG_FINDING_TOO_LIGHT, TG_FINDING_PROBLEM, (int) i, -1,
                                 g_strdup_printf ("%s%s%s is %s g too light.", part->part->name,
                                                  named ? ", " : "", named ? figure : "", grams),
                                 "Decide: accept it, lower the target or replace the part.");
        else
          tg_review_add_finding (
              review, TG_FINDING_OUT_OF_REACH, TG_FINDING_PROBLEM, (int) i, -1,
              g_strdup_printf ("%s%s%s stays %s g too heavy when every zone has given all it may.",
                               part->part->name, named ? ", " : "", named ? figure : "", grams),
              "Decide: a wider tolerance, another zone or another part.");
      }
  else if (part->plan.status == TG_PLAN_FINE && part->to_come_off_g > 0)
    tg_review_add_finding (
        review, TG_FINDING_FINE, TG_FINDING_NOTICE, (int) i, -1,
        g_strdup_printf ("%s: the tolerance is so narrow that whole steps of this scale miss it; "
                         "the amounts are given finer than the scale shows.",
                         part->part->name),
        "");
}

static void
find_scale (TgReview *review, guint i, const TgPartReview *part)
{
  double capacity = tg_mass_to_g (review->setup->capacity);

  if (capacity <= 0)
    return;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    if (part->weight[f].basis != TG_WEIGHT_NONE && part->weight[f].mean_g > capacity)
      {
        g_autofree char *mean = tg_review_grams (review, part->weight[f].mean_g);

        tg_review_add_finding (review, TG_FINDING_OVER_CAPACITY, TG_FINDING_DOUBT, (int) i, -1,
                               g_strdup_printf ("%s, %s: %s g is more than the scale is made for.",
                                                part->part->name,
                                                tg_figure_label (part->design->kind, f), mean),
                               "");
      }
}

static void
find_tolerance (TgReview *review)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      TgMass tolerance = tg_setup_tolerance (review->setup, b);
      g_autofree char *shown = tg_mass_format_exact (tolerance);
      g_autofree char *step = tg_mass_format_exact (review->setup->resolution);

      if (!review->bands[b].present || tolerance >= 2 * review->setup->resolution)
        continue;
      tg_review_add_finding (
          review, TG_FINDING_TOLERANCE, TG_FINDING_NOTICE, -1, -1,
          g_strdup_printf ("A spread of %s g over the %s is less than two steps of this scale "
                           "(%s g).",
                           shown, tg_setup_band_label (review->setup, b), step),
          "The page of the scale says what it can prove; a finer scale or a wider tolerance "
          "helps.");
    }
}

static void
find_events (TgReview *review, const TgJob *job)
{
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      g_autofree char *mass = NULL;
      guint part;

      if (event->kind != TG_EVENT_WEIGHING || !event->kept || review->struck[i] ||
          !tg_setup_find_part (review->setup, event->part, &part))
        continue;
      mass = tg_mass_format_exact (event->mass);
      tg_review_add_finding (review, TG_FINDING_KEPT, TG_FINDING_NOTICE, (int) part, (int) i,
                             g_strdup_printf ("%s: the reading of %s g was questioned and kept.",
                                              tg_review_part (review, part)->part->name, mass),
                             "");
    }
}

static int
compare (gconstpointer a, gconstpointer b)
{
  const TgFinding *x = *(TgFinding *const *) a, *y = *(TgFinding *const *) b;

  if (x->part != y->part)
    return x->part < y->part ? -1 : 1;
  if (x->severity != y->severity)
    return x->severity > y->severity ? -1 : 1;
  if (x->code != y->code)
    return x->code < y->code ? -1 : 1;
  if (x->event != y->event)
    return x->event < y->event ? -1 : 1;
  return strcmp (x->text, y->text);
}

void
tg_review_find (TgReview *review, const TgJob *job, const TgReviewBench *bench)
{
  find_tolerance (review);
  tg_review_find_bench (review, bench);
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      find_plan (review, i, part);
      find_turn (review, i, part, TG_FIGURE_SMALL_END);
      find_turn (review, i, part, TG_FIGURE_BIG_END);
      find_closure (review, i, part);
      find_zones (review, i, part);
      find_scale (review, i, part);
    }
  find_events (review, job);
  g_ptr_array_sort (review->findings, compare);
}
