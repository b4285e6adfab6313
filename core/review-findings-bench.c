/* review-findings-bench.c: readings out of family, a zero that wandered, a check weight that is off, a
 * zone that lies elsewhere than drawn
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A reading is held against its repeats: the same figure, the same way up, since the last pass.  Where
 * the other repeats of the job tell how well this scale repeats, the farthest reading is held against
 * the mean of the others with that scatter (extreme deviate with an independent standard deviation,
 * ASTM E178, from memory; the level is shared among the readings after Bonferroni).  Where they do
 * not, Grubbs' test as NIST publishes it.  One step of the scale alone never alarms.
 */
#include <math.h>
#include <string.h>

#include "number.h"
#include "review-private.h"
#include "statistics.h"

/* -- repeats ---------------------------------------------------------------------------------- */

static double
value_of (const TgReviewBench *bench, const GArray *repeats, guint i)
{
  return bench->readings[g_array_index (repeats, TgReviewUse, i).event].value_g;
}

/* The reading that is farthest from the mean of the others, and by how much. */
static guint
farthest (const TgReviewBench *bench, const GArray *repeats, double *off_g)
{
  guint n = repeats->len, worst = 0;
  double sum = 0, mean;

  for (guint i = 0; i < n; i++)
    sum += value_of (bench, repeats, i);
  mean = sum / n;
  for (guint i = 0; i < n; i++)
    /* of two that are as far the later one is asked about */
    if (fabs (value_of (bench, repeats, i) - mean) >=
        fabs (value_of (bench, repeats, worst) - mean) - TG_REVIEW_TINY_G)
      worst = i;
  *off_g = (value_of (bench, repeats, worst) - mean) * n / (n - 1);
  return worst;
}

/* Against its own repeats: u is their standard deviation, the limit Grubbs' critical value of them, both
 * for the distance from the mean of the others. */
static gboolean
hold_alone (const TgReview *review, const TgReviewBench *bench, const GArray *repeats, TgHeld *held)
{
  g_autofree double *values = g_new (double, repeats->len);
  TgStatisticsGrubbs grubbs;

  for (guint i = 0; i < repeats->len; i++)
    values[i] = value_of (bench, repeats, i);
  if (!tg_statistics_grubbs (values, repeats->len, TG_STATISTICS_EITHER, TG_REVIEW_FALSE_ALARM,
                             tg_mass_to_g (review->setup->resolution), &grubbs))
    return FALSE;
  held->u = fabs (held->value) / grubbs.g;
  held->freedom = repeats->len - 2.0;
  held->coverage = grubbs.critical;
  held->limit = MAX (held->coverage * held->u, held->least);
  return grubbs.outlier;
}

/* What the zero may make of the difference between the reading at @worst and the mean of the others. */
static TgUncertainty
zero_u (const TgReview *review, const TgReviewBench *bench, GArray *repeats, guint worst)
{
  for (guint i = 0; i < repeats->len; i++)
    g_array_index (repeats, TgReviewUse, i).weight = i == worst ? 1 : -1.0 / (repeats->len - 1);
  return tg_review_zero_u (review, bench, (const TgReviewUse *) repeats->data, repeats->len,
                           TG_REVIEW_JUMP_FREEDOM);
}

/* How well the difference between the reading at @worst and the mean of the others is known by all other
 * repeats of the scale; FALSE if they tell too little. */
static gboolean
known_by_others (const TgReview *review,
                 const TgReviewBench *bench,
                 TgSupport support,
                 GArray *repeats,
                 guint worst,
                 TgUncertainty *known)
{
  const TgReviewFamily *family = &bench->family[support];
  guint n = repeats->len;
  double others = family->repeats - (n - 1), rest;
  double freedom = others * family->freedom / MAX (family->repeats, 1);
  TgUncertaintyComponent parts[2];
  TgUncertainty zero;
  TgReviewSquares own;

  if (others < TG_REVIEW_MIN_FREEDOM)
    return FALSE;
  own = tg_review_squares (bench, (TgReviewUse *) repeats->data, n);
  rest = family->squares - own.squares + own.zero.looks * bench->zero_u_g * bench->zero_u_g +
         own.zero.path_g2;
  zero = zero_u (review, bench, repeats, worst);
  parts[0] = (TgUncertaintyComponent){ sqrt (MAX (rest, 0) / others), freedom,
                                       sqrt (n / (n - 1.0)) };
  parts[1] = (TgUncertaintyComponent){ zero.u, zero.freedom, 1 };
  *known = tg_uncertainty_combine (parts, G_N_ELEMENTS (parts));
  return TRUE;
}

/* One step of the scale alone never alarms. */
static gboolean
out_of_family (const TgReview *review,
               const TgReviewBench *bench,
               TgSupport support,
               GArray *repeats,
               guint worst,
               TgHeld *held,
               gboolean *alone)
{
  guint n = repeats->len;
  TgUncertainty known = { 0, 0 };

  if (fabs (held->value) <= held->least)
    return FALSE;
  *alone = !known_by_others (review, bench, support, repeats, worst, &known);
  if (*alone)
    return n >= 3 && hold_alone (review, bench, repeats, held);
  *held = tg_review_hold (held->of, held->against, known, TG_REVIEW_FALSE_ALARM / (n == 2 ? 1 : n),
                          held->least);
  return fabs (held->value) > held->limit;
}

static TgFinding *
add_outlier (
    TgReview *review, guint index, TgSlot slot, guint event, const TgHeld *held, gboolean only_two)
{
  const TgPartReview *part = tg_review_part (review, index);
  gboolean rod = part->design->kind == TG_PART_ROD;
  g_autofree char *value = tg_review_grams (review, held->of);
  g_autofree char *distance = tg_review_grams (review, fabs (held->value));

  return tg_review_add_finding (
      review, TG_FINDING_OUTLIER, TG_FINDING_DOUBT, (int) index, (int) event,
      g_strdup_printf ("%s%s%s%s%s: %s g is %s g away from %s; this scale repeats better.",
                       part->part->name, rod ? ", " : "",
                       rod ? tg_figure_label (TG_PART_ROD, slot.figure) : "",
                       slot.way == TG_WAY_ANY ? "" : ", ", tg_way_label (slot.way), value, distance,
                       only_two ? "the other reading" : "its other readings"),
      "Seat it again and read once more. If the figure was a slip, strike it out in the journal; "
      "it is never dropped by itself.");
}

static void
find_outlier (TgReview *review,
              const TgReviewBench *bench,
              guint index,
              TgFigure figure,
              TgWay way,
              GArray *repeats)
{
  TgHeld held = { .least = 1.5 * tg_mass_to_g (review->setup->resolution) };
  TgFinding *finding;
  gboolean alone;
  guint worst;

  if (!repeats || repeats->len < 2)
    return;
  worst = farthest (bench, repeats, &held.value);
  held.of = value_of (bench, repeats, worst);
  held.against = held.of - held.value;
  if (!out_of_family (review, bench, tg_review_support (figure), repeats, worst, &held, &alone))
    return;
  finding = add_outlier (review, index, (TgSlot){ index, figure, way },
                         g_array_index (repeats, TgReviewUse, worst).event, &held,
                         repeats->len == 2);
  finding->figure = figure;
  finding->way = way;
  finding->n = repeats->len - 1;
  finding->alone = alone;
  finding->held = held;
}

static void
find_outliers (TgReview *review, const TgReviewBench *bench)
{
  for (guint i = 0; i < bench->n_parts; i++)
    for (guint f = 0; f < TG_N_FIGURES; f++)
      for (guint way = 0; way < TG_N_WAYS; way++)
        find_outlier (review, bench, i, f, way, bench->slots[i][f][way]);
}

/* -- the scale -------------------------------------------------------------------------------- */

static TgFinding *
find_zero (TgReview *review, const TgScaleCheck *check)
{
  guint decimals = tg_mass_decimals (review->setup->resolution);
  g_autofree char *shown = tg_number_format_signed (check->error_g, decimals);
  g_autofree char *allowed = tg_number_format (check->doubtful_g, decimals);
  g_autofree char *time = tg_stamp_format_time (check->stamp);
  gboolean off = check->verdict == TG_CHECK_WEIGHT_OFF;

  return tg_review_add_finding (
      review, TG_FINDING_ZERO, off ? TG_FINDING_DOUBT : TG_FINDING_NOTICE, -1, (int) check->event,
      g_strdup_printf ("The empty scale showed %s g at %s; up to %s g is what this scale explains.",
                       shown, time, allowed),
      "The readings between two zero checks of a day are corrected along a straight line. Look for "
      "draught, warming up, or something that touches the pan; set it to zero and read again what "
      "matters.");
}

static TgFinding *
find_check_weight (TgReview *review, const TgScaleCheck *check)
{
  guint decimals = tg_mass_decimals (review->setup->resolution);
  g_autofree char *nominal = tg_mass_format_exact (check->nominal);
  g_autofree char *error = tg_number_format (fabs (check->error_g), decimals);
  g_autofree char *allowed = tg_number_format (check->doubtful_g, decimals);
  gboolean off = check->verdict == TG_CHECK_WEIGHT_OFF;

  return tg_review_add_finding (
      review, TG_FINDING_CHECK_WEIGHT, off ? TG_FINDING_DOUBT : TG_FINDING_NOTICE, -1,
      (int) check->event,
      g_strdup_printf (
          "The check weight of %s g showed %s g too %s; scale and weight explain %s g.", nominal,
          error, check->error_g > 0 ? "much" : "little", allowed),
      off ? "Do not weigh on: level the scale, free its pan, let it warm up, and check again. What "
            "was read since the last good check deserves to be read again."
          : "It happens once in twenty times by chance: put the weight on again.");
}

static void
find_checks (TgReview *review)
{
  const TgScaleReview *scale = &review->scale;
  const int last[] = { scale->last_zero, scale->last_weight };

  for (guint i = 0; i < G_N_ELEMENTS (last); i++)
    {
      const TgScaleCheck *check;
      TgFinding *finding;

      if (last[i] < 0)
        continue;
      check = &g_array_index (scale->checks, TgScaleCheck, last[i]);
      if (check->verdict == TG_CHECK_WEIGHT_FITS)
        continue;
      finding = check->zero ? find_zero (review, check) : find_check_weight (review, check);
      finding->check = last[i];
      finding->held = (TgHeld){ .value = check->error_g, .limit = check->doubtful_g };
    }
}

/* -- levers ----------------------------------------------------------------------------------- */

/* Where the passes put a zone, against where it is drawn. */
static TgHeld
hold_lever (const TgDesign *design, const TgZoneReview *zone)
{
  TgLeverLearning drawn = tg_review_drawn_lever (design, zone->zone);
  double length = design->rod.centres;
  TgHeld held = { .of = zone->lever.lever * length,
                  .against = drawn.lever * length,
                  .u = drawn.u * length,
                  .freedom = INFINITY,
                  .coverage = 2 };

  held.value = held.of - held.against;
  held.limit = held.coverage * held.u;
  return held;
}

static TgFinding *
find_lever (TgReview *review, const TgDesign *design, const TgZoneReview *zone)
{
  TgHeld held = hold_lever (design, zone);
  g_autofree char *by = tg_number_format (fabs (held.value), 1);
  g_autofree char *doubt = tg_number_format (2 * zone->lever.u * design->rod.centres, 1);
  TgFinding *finding;

  if (zone->lever.freedom == 0 || (zone->lever.consistent && fabs (held.value) <= held.limit))
    return NULL;
  if (!zone->lever.consistent)
    finding = tg_review_add_finding (
        review, TG_FINDING_LEVER, TG_FINDING_DOUBT, -1, -1,
        g_strdup_printf ("%s, %s: what its passes took off both ends does not fit where it is "
                         "drawn, nor one pass the other.",
                         design->name, zone->zone->name),
        "Was metal taken off elsewhere in the same pass? Measure where the zone lies, and read "
        "both ends after a pass.");
  else
    finding = tg_review_add_finding (
        review, TG_FINDING_LEVER, TG_FINDING_NOTICE, -1, -1,
        g_strdup_printf ("%s, %s: by what its passes took it lies %s mm further to the %s end than "
                         "drawn, give or take %s mm.",
                         design->name, zone->zone->name, by, held.value > 0 ? "small" : "big",
                         doubt),
        "The plan reckons with what was learned. Measure once where the zone lies.");
  finding->held = held;
  return finding;
}

/* Any part of @design, or −1: what was learned of its zones is the same in all of them. */
static int
part_of (const TgReview *review, const TgDesign *design)
{
  for (guint i = 0; i < review->parts->len; i++)
    if (tg_review_part (review, i)->design == design)
      return (int) i;
  return -1;
}

static void
find_levers (TgReview *review)
{
  for (guint d = 0; d < review->setup->designs->len; d++)
    {
      const TgDesign *design = g_ptr_array_index (review->setup->designs, d);
      int first = part_of (review, design);
      const TgPartReview *part;

      if (design->kind != TG_PART_ROD || first < 0)
        continue;
      part = tg_review_part (review, (guint) first);
      for (guint z = 0; z < part->zones->len; z++)
        {
          TgFinding *finding = find_lever (review, design, tg_part_review_zone (part, z));

          if (!finding)
            continue;
          finding->example = (guint) first;
          finding->zone = z;
        }
    }
}

void
tg_review_find_bench (TgReview *review, const TgReviewBench *bench)
{
  find_outliers (review, bench);
  find_checks (review);
  find_levers (review);
}
