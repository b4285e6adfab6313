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

TgFinding *
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
  finding->example = (guint) MAX (0, part);
  finding->check = -1;
  g_ptr_array_add (review->findings, finding);
  return finding;
}

TgHeld
tg_review_hold (double of, double against, TgUncertainty known, double false_alarm, double least)
{
  TgHeld held = { .of = of, .against = against, .value = of - against, .least = least };

  held.u = known.u;
  held.freedom = known.freedom;
  held.false_alarm = false_alarm;
  held.coverage = known.u > 0 ? tg_uncertainty_coverage (known.freedom, 1 - false_alarm) : 0;
  held.limit = MAX (held.coverage * held.u, least);
  return held;
}

gboolean
tg_review_is_off (const TgHeld *held)
{
  return fabs (held->value) > held->limit + TG_REVIEW_TINY_G;
}

/* One step of the scale alone never alarms. */
static void
find_turn (TgReview *review, guint i, const TgPartReview *part, TgFigure figure)
{
  const TgWeight *weight = &part->weight[figure];
  TgHeld held;
  TgFinding *finding;
  g_autofree char *difference = NULL;
  g_autofree char *allowed = NULL;

  if (weight->n[TG_WAY_MARK_UP] == 0 || weight->n[TG_WAY_MARK_DOWN] == 0)
    return;
  held = tg_review_hold (weight->way_g[TG_WAY_MARK_UP], weight->way_g[TG_WAY_MARK_DOWN],
                         (TgUncertainty){ weight->turn_u_g, weight->turn_freedom },
                         TG_REVIEW_FALSE_TURN, tg_mass_to_g (review->setup->resolution));
  if (!tg_review_is_off (&held))
    return;
  difference = tg_review_grams (review, fabs (held.value));
  allowed = tg_review_grams (review, held.limit);
  finding = tg_review_add_finding (
      review, TG_FINDING_TURN, TG_FINDING_DOUBT, (int) i, -1,
      g_strdup_printf ("%s, %s: the two ways up differ by %s g; this scale explains %s g.",
                       part->part->name, tg_figure_label (part->design->kind, figure), difference,
                       allowed),
      "The bearing may catch at the joint of the cap. Turn the big end off the joint, seat the rod "
      "again and read both ways anew.");
  finding->figure = figure;
  finding->held = held;
}

static void
find_closure (TgReview *review, guint i, const TgPartReview *part)
{
  double whole_g = part->weight[TG_FIGURE_WHOLE].mean_g;
  TgHeld held = tg_review_hold (part->closure_g + whole_g, whole_g,
                                (TgUncertainty){ part->closure_u_g, part->closure_freedom },
                                TG_REVIEW_FALSE_ALARM, 0);
  TgFinding *finding;
  g_autofree char *difference = NULL;
  g_autofree char *allowed = NULL;

  if (!part->has_closure || !tg_review_is_off (&held))
    return;
  difference = tg_review_grams (review, fabs (held.value));
  allowed = tg_review_grams (review, held.limit);
  finding = tg_review_add_finding (
      review, TG_FINDING_CLOSURE, TG_FINDING_DOUBT, (int) i, -1,
      g_strdup_printf ("%s: small end and big end together are %s g %s than the whole; this scale "
                       "explains %s g.",
                       part->part->name, difference, part->closure_g > 0 ? "more" : "less",
                       allowed),
      "The rod may touch something, lie off level or hang on friction. Level it, free both "
      "supports and read the ends again.");
  finding->held = held;
}

static TgFinding *
find_zone_never (TgReview *review, guint i, const TgPartReview *part, const TgZone *zone)
{
  return tg_review_add_finding (
      review, TG_FINDING_ZONE_NEVER, TG_FINDING_PROBLEM, (int) i, -1,
      g_strdup_printf ("%s: metal was taken off the %s, where none should be. %s", part->part->name,
                       zone->name, zone->reason),
      "Have the part judged by someone who may, after the maker’s manual, before it is used.");
}

static TgFinding *
find_zone_exceeded (
    TgReview *review, guint i, const TgPartReview *part, const TgZone *zone, const TgHeld *held)
{
  g_autofree char *taken = tg_review_grams (review, held->of);
  g_autofree char *allowed = tg_review_grams (review, held->against);

  return tg_review_add_finding (review, TG_FINDING_ZONE_EXCEEDED, TG_FINDING_DOUBT, (int) i, -1,
                                g_strdup_printf ("%s: %s g came off the %s, which may give %s g.",
                                                 part->part->name, taken, zone->name, allowed),
                                "Measure how deep it is now and compare with the maker’s manual.");
}

static void
find_zones (TgReview *review, guint i, const TgPartReview *part)
{
  const TgUncertainty reading = { tg_review_reading_u_g (review, TG_SUPPORT_STAND), INFINITY };

  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      double capacity = tg_design_zone_capacity_g (part->design, zone->zone);
      TgHeld held = tg_review_hold (zone->taken_g, capacity, reading, TG_REVIEW_FALSE_ALARM, 0);
      TgFinding *finding = NULL;

      if (zone->passes > 0 && zone->zone->standing == TG_STANDING_NEVER)
        finding = find_zone_never (review, i, part, zone->zone);
      else if (zone->passes > 0 && capacity > 0 && held.value > held.limit)
        {
          finding = find_zone_exceeded (review, i, part, zone->zone, &held);
          finding->held = held;
        }
      if (finding)
        finding->zone = z;
    }
}

/* The weight of a row after the plan, against the edge of its band that it misses. */
static TgHeld
hold_row (const TgReview *review, const TgPartReview *part, guint row)
{
  const TgBandReview *band = &review->bands[tg_review_row_band (review, part->design->kind, row)];
  double violation = part->plan.violation_g[row];
  double edge_g = violation < 0 ? band->target_g : band->target_g + band->tolerance_g;

  return (TgHeld){ .of = part->plan.after_g[row], .against = edge_g, .value = violation };
}

static void
find_row (TgReview *review, guint i, const TgPartReview *part, guint row)
{
  gboolean rod = part->design->kind == TG_PART_ROD;
  gboolean sum = rod ? row == 0 && tg_review_joint (review) : part->carried[row].any;
  const char *figure = sum ? "its set" : tg_review_row_label (review, part->design->kind, row);
  gboolean named = rod || sum;
  TgHeld held = hold_row (review, part, row);
  g_autofree char *grams = tg_review_grams (review, fabs (held.value));
  TgFinding *finding;

  /* the sum is the piston's, also where the rod is planned with it */
  if (fabs (held.value) <= TG_REVIEW_TINY_G || (rod && sum))
    return;
  if (held.value < 0)
    finding = tg_review_add_finding (review, TG_FINDING_TOO_LIGHT, TG_FINDING_PROBLEM, (int) i, -1,
                                     g_strdup_printf ("%s%s%s is %s g too light.", part->part->name,
                                                      named ? ", " : "", named ? figure : "",
                                                      grams),
                                     "Decide: accept it, lower the target or replace the part.");
  else
    finding = tg_review_add_finding (
        review, TG_FINDING_OUT_OF_REACH, TG_FINDING_PROBLEM, (int) i, -1,
        g_strdup_printf ("%s%s%s stays %s g too heavy when every zone has given all it may.",
                         part->part->name, named ? ", " : "", named ? figure : "", grams),
        "Decide: a wider tolerance, another zone or another part.");
  finding->row = row;
  finding->band = tg_review_row_band (review, part->design->kind, row);
  finding->held = held;
}

static void
find_plan (TgReview *review, guint i, const TgPartReview *part)
{
  if (part->state == TG_STATE_TOO_LIGHT || part->state == TG_STATE_OUT_OF_REACH)
    for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
      find_row (review, i, part, row);
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
        double mean_g = part->weight[f].mean_g;
        g_autofree char *mean = tg_review_grams (review, mean_g);
        TgFinding *finding = tg_review_add_finding (
            review, TG_FINDING_OVER_CAPACITY, TG_FINDING_DOUBT, (int) i, -1,
            g_strdup_printf ("%s, %s: %s g is more than the scale is made for.", part->part->name,
                             tg_figure_label (part->design->kind, f), mean),
            "");

        finding->figure = f;
        finding->held = (TgHeld){ .of = mean_g, .against = capacity, .value = mean_g - capacity };
      }
}

static void
find_tolerance (TgReview *review)
{
  TgMass two_steps = 2 * review->setup->resolution;

  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      TgMass tolerance = tg_setup_tolerance (review->setup, b);
      g_autofree char *shown = tg_mass_format_exact (tolerance);
      g_autofree char *step = tg_mass_format_exact (review->setup->resolution);
      TgFinding *finding;

      if (!review->bands[b].present || tolerance >= two_steps)
        continue;
      finding = tg_review_add_finding (
          review, TG_FINDING_TOLERANCE, TG_FINDING_NOTICE, -1, -1,
          g_strdup_printf ("A spread of %s g over the %s is less than two steps of this scale "
                           "(%s g).",
                           shown, tg_setup_band_label (review->setup, b), step),
          "The page of the scale says what it can prove; a finer scale or a wider tolerance "
          "helps.");
      finding->band = b;
      finding->held = (TgHeld){ .of = tg_mass_to_g (tolerance),
                                .against = tg_mass_to_g (two_steps),
                                .value = tg_mass_to_g (tolerance - two_steps) };
    }
}

static void
find_kept (TgReview *review, const TgEvent *event, guint index, guint part)
{
  g_autofree char *mass = tg_mass_format_exact (event->mass);
  TgFinding *finding = tg_review_add_finding (
      review, TG_FINDING_KEPT, TG_FINDING_NOTICE, (int) part, (int) index,
      g_strdup_printf ("%s: the reading of %s g was questioned and kept.",
                       tg_review_part (review, part)->part->name, mass),
      "");

  finding->figure = event->figure;
  finding->way = event->way;
  finding->held.of = tg_mass_to_g (event->mass);
}

static void
find_events (TgReview *review, const TgJob *job)
{
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      guint part;

      if (event->kind == TG_EVENT_WEIGHING && event->kept && !review->struck[i] &&
          tg_setup_find_part (review->setup, event->part, &part))
        find_kept (review, event, i, part);
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
