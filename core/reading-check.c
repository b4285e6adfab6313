/* reading-check.c: is a reading that was just taken what it can be? see reading-check.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is expected comes from the nearest kin that there is: the same figure the same way up, the
 * other way up, the weight before the pass and what was wanted off it, the others of the set.  A
 * rod's figures are also held against one another.  Each expectation is an interval that a good
 * reading leaves in TG_REVIEW_FALSE_ALARM of the cases; for the others of the set a part-to-part
 * scatter of PART_SCATTER, known with PART_FREEDOM degrees, is taken beforehand (common practice, no
 * published source) and bettered by the parts that were read.
 *
 * Not here: what is found when all readings are in (review-findings.c).
 */
#include "reading-check.h"

#include <math.h>

#include "number.h"
#include "reading-check-private.h"
#include "review-private.h"

/* A scale wanders by a few steps or a few grams; more is something that lies on it. */
#define MANY_STEPS 50
#define MUCH_ZERO (5 * TG_MASS_G)
#define PART_SCATTER 0.02
#define PART_FREEDOM 4

static TgSupport
support_of (TgSlot slot)
{
  return slot.figure == TG_FIGURE_WHOLE ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND;
}

/* One step of the scale alone never asks. */
static TgReadingExpectation
around (const TgReview *review, TgReadingKin kin, double expected_g, TgUncertainty off, guint n)
{
  double step = tg_mass_to_g (review->setup->resolution);
  TgHeld held = tg_review_hold (expected_g, expected_g, off, TG_REVIEW_FALSE_ALARM, 1.5 * step);

  return (TgReadingExpectation){ .kin = kin,
                                 .expected_g = expected_g,
                                 .low_g = expected_g - held.limit,
                                 .high_g = expected_g + held.limit,
                                 .n = n,
                                 .held = held };
}

static const TgWeight *
weight_of (const TgReview *review, TgSlot slot)
{
  return &tg_review_part (review, slot.part)->weight[slot.figure];
}

/* Readings of the same figure since the last pass: the same way up, else the other. */
static gboolean
from_own_readings (const TgReview *review, TgSlot slot, TgReadingExpectation *expectation)
{
  const TgRepeatability *repeat = &review->scale.repeatability[support_of (slot)];
  const TgWeight *weight = weight_of (review, slot);
  TgWay other = slot.way == TG_WAY_MARK_UP ? TG_WAY_MARK_DOWN : TG_WAY_MARK_UP;
  gboolean same = weight->n[slot.way] > 0;
  TgWay way = same ? slot.way : other;
  double u;

  if (weight->basis != TG_WEIGHT_READ ||
      (!same && (slot.way == TG_WAY_ANY || weight->n[other] == 0)))
    return FALSE;
  u = repeat->deviation_g * sqrt (1 + 1.0 / weight->n[way]);
  if (!same) /* a rounding of its own on either side */
    u = hypot (u, sqrt (2) * repeat->rounding_u_g);
  *expectation = around (review, same ? TG_READING_KIN_REPEAT : TG_READING_KIN_OTHER_WAY,
                         weight->way_g[way], (TgUncertainty){ u, repeat->freedom }, weight->n[way]);
  return TRUE;
}

static const TgHistoryPoint *
last_point (const TgPartReview *part, TgFigure figure)
{
  for (guint i = part->history->len; i-- > 0;)
    {
      const TgHistoryPoint *point = &g_array_index (part->history, TgHistoryPoint, i);

      if (point->figure == figure && point->piece == part->pieces - 1)
        return point;
    }
  return NULL;
}

/* After a pass: no heavier than before, no lighter than the pass can have made it. */
static gboolean
from_pass (const TgReview *review, TgSlot slot, TgReadingExpectation *expectation)
{
  const TgPartReview *part = tg_review_part (review, slot.part);
  const TgRepeatability *repeat = &review->scale.repeatability[support_of (slot)];
  const TgWeight *weight = weight_of (review, slot);
  const TgHistoryPoint *before = last_point (part, slot.figure);
  TgLeverLearningMethod pass = tg_lever_learning_unlearned (TRUE);
  double most, u;

  if (weight->basis != TG_WEIGHT_ESTIMATED || !before || before->mean_g <= weight->mean_g)
    return FALSE;
  u = hypot (before->u_g, hypot (repeat->deviation_g, repeat->rounding_u_g));
  *expectation = around (review, TG_READING_KIN_PASS, before->mean_g,
                         (TgUncertainty){ u, repeat->freedom }, before->n);
  most = exp (tg_uncertainty_coverage (pass.freedom, 1 - TG_REVIEW_FALSE_ALARM) * pass.scatter *
              sqrt (1 + 1 / pass.weight));
  expectation->before_g = before->mean_g;
  expectation->pass_g = most * (before->mean_g - weight->mean_g);
  expectation->low_g -= expectation->pass_g;
  expectation->expected_g = weight->mean_g;
  return TRUE;
}

/* The same figure of the other parts of the design, and of this one before. */
static gboolean
from_others (const TgReview *review, TgSlot slot, TgReadingExpectation *expectation)
{
  const TgDesign *design = tg_review_part (review, slot.part)->design;
  double n = 0, mean = 0, squares = 0, taken;
  TgUncertainty off;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      const TgWeight *weight = &part->weight[slot.figure];
      double from_mean = weight->mean_g - mean;

      if (part->design != design || weight->basis == TG_WEIGHT_NONE)
        continue;
      n++;
      mean += from_mean / n;
      squares += from_mean * (weight->mean_g - mean);
    }
  if (n == 0)
    return FALSE;
  taken = PART_SCATTER * mean;
  off.freedom = PART_FREEDOM + n - 1;
  off.u = sqrt ((PART_FREEDOM * taken * taken + squares) / off.freedom * (1 + 1 / n));
  *expectation = around (review, TG_READING_KIN_OTHERS, mean, off, (guint) n);
  return TRUE;
}

/* What the other two figures of the rod leave for this one, if both were read since the last pass. */
static gboolean
from_rest (const TgReview *review, TgSlot slot, TgReadingExpectation *expectation)
{
  const TgPartReview *part = tg_review_part (review, slot.part);
  const TgRepeatability *repeat = &review->scale.repeatability[support_of (slot)];
  TgUncertaintyComponent parts[TG_N_FIGURES + 1];
  double left = 0;

  if (part->design->kind != TG_PART_ROD)
    return FALSE;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      const TgWeight *weight = &part->weight[f];
      gboolean adds = slot.figure == TG_FIGURE_WHOLE || f == TG_FIGURE_WHOLE;

      parts[f] = (TgUncertaintyComponent){ weight->u_g, weight->freedom, 1 };
      if (f == slot.figure)
        {
          parts[f] = (TgUncertaintyComponent){ repeat->deviation_g, repeat->freedom, 1 };
          continue;
        }
      if (weight->basis != TG_WEIGHT_READ)
        return FALSE;
      left += adds ? weight->mean_g : -weight->mean_g;
    }
  parts[TG_N_FIGURES] = (TgUncertaintyComponent){ repeat->rounding_u_g, INFINITY, 1 };
  *expectation = around (review, TG_READING_KIN_REST, left,
                         tg_uncertainty_combine (parts, G_N_ELEMENTS (parts)), 2);
  return left > 0;
}

/* -- slips ------------------------------------------------------------------------------------ */

static gboolean
fits (const TgReadingExpectation *expectation, double grams)
{
  return grams >= expectation->low_g - TG_REVIEW_TINY_G &&
         grams <= expectation->high_g + TG_REVIEW_TINY_G;
}

/* The reading with two neighbouring digits swapped that would fit; 0 if none does. */
static TgMass
swapped (const TgReview *review, const TgReadingExpectation *expectation, TgMass mass)
{
  static const TgMass powers[] = { 1, 10, 100, 1000, 10000, 100000, 1000000, 10000000, 100000000 };
  TgMass finest = 1;

  while (finest * 10 <= review->setup->resolution)
    finest *= 10;
  for (guint i = 0; i + 1 < G_N_ELEMENTS (powers); i++)
    {
      TgMass low = mass / powers[i] % 10, high = mass / powers[i + 1] % 10;
      TgMass other = mass + (high - low) * (powers[i] - powers[i + 1]);

      if (powers[i] >= finest && low != high && fits (expectation, tg_mass_to_g (other)))
        return other;
    }
  return 0;
}

/* The other end of the same rod explains the reading much better. */
static gboolean
looks_like_other_end (const TgReview *review, TgSlot slot, double reading, double expected)
{
  TgReadingExpectation theirs;
  TgSlot other = slot;

  if (tg_review_part (review, slot.part)->design->kind != TG_PART_ROD ||
      slot.figure == TG_FIGURE_WHOLE)
    return FALSE;
  other.figure = slot.figure == TG_FIGURE_SMALL_END ? TG_FIGURE_BIG_END : TG_FIGURE_SMALL_END;
  return from_others (review, other, &theirs) && fits (&theirs, reading) &&
         fabs (reading - theirs.expected_g) < 0.2 * fabs (reading - expected);
}

static char *
slip_words (const TgReview *review,
            TgSlot slot,
            const TgReadingExpectation *expectation,
            TgMass mass)
{
  double reading = tg_mass_to_g (mass);
  TgMass other = swapped (review, expectation, mass);
  g_autofree char *shown = tg_review_grams (review, reading);
  g_autofree char *likely = tg_review_grams (review, expectation->expected_g);

  if (fits (expectation, reading / 10) || fits (expectation, reading * 10))
    return g_strdup_printf (
        "%s g is %s the %s g that was expected. A decimal place?", shown,
        reading > expectation->expected_g ? "about ten times" : "about a tenth of", likely);
  if (looks_like_other_end (review, slot, reading, expectation->expected_g))
    return g_strdup_printf ("%s g looks like the other end; here %s g was expected.", shown,
                            likely);
  if (other > 0)
    {
      g_autofree char *instead = tg_review_grams (review, tg_mass_to_g (other));

      return g_strdup_printf ("%s g is far from the %s g that was expected. Two digits swapped, "
                              "%s g?",
                              shown, likely, instead);
    }
  return NULL;
}

/* -- words ------------------------------------------------------------------------------------ */

static char *
away_words (const TgReview *review,
            TgSlot slot,
            const TgReadingExpectation *expectation,
            double reading)
{
  double off = reading - expectation->expected_g;
  g_autofree char *shown = tg_review_grams (review, reading);
  g_autofree char *likely = tg_review_grams (review, expectation->expected_g);
  g_autofree char *difference = tg_review_grams (review, fabs (off));
  g_autofree char *allowed = tg_review_grams (review,
                                              expectation->high_g - expectation->expected_g);

  switch (expectation->kin)
    {
    case TG_READING_KIN_REPEAT:
      return g_strdup_printf ("%s g is %s g away from what was read before; this scale explains "
                              "%s g. Seat it again and read once more.",
                              shown, difference, allowed);
    case TG_READING_KIN_OTHER_WAY:
      return g_strdup_printf (
          "The two ways up differ by %s g; this scale explains %s g. The bearing "
          "may catch at the joint of the cap: turn the big end off the joint, "
          "seat the rod again, read again.",
          difference, allowed);
    case TG_READING_KIN_PASS:
      return reading > expectation->high_g
                 ? g_strdup_printf ("%s g is more than before the pass; %s g was expected.", shown,
                                    likely)
                 : g_strdup_printf ("%s g is far less than the %s g that the pass was to leave.",
                                    shown, likely);
    case TG_READING_KIN_REST:
      if (slot.figure == TG_FIGURE_WHOLE)
        return g_strdup_printf (
            "%s g is %s g %s than the %s g that both ends make together; this "
            "scale explains %s g. The rod may touch something or lie off level.",
            shown, difference, off > 0 ? "more" : "less", likely, allowed);
      return g_strdup_printf (
          "%s g is %s g %s than the %s g that the whole leaves beside the other "
          "end; this scale explains %s g. The rod may touch something or lie "
          "off level.",
          shown, difference, off > 0 ? "more" : "less", likely, allowed);
    case TG_READING_KIN_OTHERS:
    default:
      return g_strdup_printf ("%s g is far from the %s g that the others of the set weigh.", shown,
                              likely);
    }
}

double
tg_reading_value_g (const TgReview *review, TgMass mass)
{
  return tg_mass_to_g (mass - tg_mass_from_g (review->scale.zero_left_g));
}

gboolean
tg_reading_unexpected (const TgReview *review,
                       TgSlot slot,
                       TgMass mass,
                       TgReadingExpectation *expectation)
{
  double reading = tg_reading_value_g (review, mass);
  gboolean found = from_own_readings (review, slot, expectation) ||
                   from_pass (review, slot, expectation) || from_others (review, slot, expectation);

  if ((!found || fits (expectation, reading)) &&
      (!from_rest (review, slot, expectation) || fits (expectation, reading)))
    return FALSE;
  expectation->held.of = reading;
  expectation->held.value = reading - expectation->held.against;
  return TRUE;
}

static char *
ask_about (const TgReview *review, TgSlot slot, TgMass shown)
{
  TgReadingExpectation expectation;
  char *words;

  if (!tg_reading_unexpected (review, slot, shown, &expectation))
    return NULL;
  words = slip_words (review, slot, &expectation, tg_mass_from_g (expectation.held.of));
  return words ? words : away_words (review, slot, &expectation, expectation.held.of);
}

/* What no reading can be; NULL if it can. */
static char *
impossible (const TgReview *review, TgMass mass)
{
  TgMass capacity = review->setup->capacity;
  g_autofree char *shown = tg_mass_format_exact (mass);
  g_autofree char *most = tg_mass_format_exact (capacity);

  if (mass <= 0)
    return g_strdup ("Nothing weighs nothing: is the part on the scale?");
  if (capacity > 0 && mass > capacity)
    return g_strdup_printf ("%s g is more than the %s g this scale can weigh.", shown, most);
  return NULL;
}

/* (transfer full) (nullable) */
static char *
ask_about_step (const TgReview *review, TgMass mass)
{
  g_autofree char *shown = tg_mass_format_exact (mass);
  g_autofree char *step = tg_mass_format_exact (review->setup->resolution);

  if (mass % review->setup->resolution == 0)
    return NULL;
  return g_strdup_printf ("%s g does not fall on a step of this scale, which shows %s g.", shown,
                          step);
}

TgReadingVerdict
tg_reading_check (const TgReview *review, TgSlot slot, TgMass mass, char **text)
{
  g_return_val_if_fail (text != NULL && slot.part < review->parts->len, TG_READING_REFUSE);

  *text = impossible (review, mass);
  if (*text)
    return TG_READING_REFUSE;
  *text = ask_about (review, slot, mass);
  if (!*text)
    *text = ask_about_step (review, mass);
  return *text ? TG_READING_ASK : TG_READING_FINE;
}

TgMass
tg_reading_much_zero (const TgReview *review)
{
  TgMass step = review->setup->resolution;

  return MAX (MIN (MUCH_ZERO, MANY_STEPS * step), 2 * step);
}

double
tg_reading_far_from_g (const TgReview *review)
{
  return TG_READING_FAR * tg_mass_to_g (review->setup->check_weight);
}

TgReadingVerdict
tg_reading_check_zero (const TgReview *review, TgMass mass, char **text)
{
  g_autofree char *shown = tg_number_format (tg_mass_to_g (mass), tg_mass_decimals (mass));

  g_return_val_if_fail (text != NULL, TG_READING_REFUSE);

  *text = NULL;
  if (ABS (mass) > TG_MAX_ZERO)
    {
      *text = g_strdup_printf ("%s g is not what an empty scale shows.", shown);
      return TG_READING_REFUSE;
    }
  if (ABS (mass) > tg_reading_much_zero (review))
    *text = g_strdup_printf ("%s g is much for an empty scale. Is it empty?", shown);
  else
    *text = ask_about_step (review, mass);
  return *text ? TG_READING_ASK : TG_READING_FINE;
}

TgReadingVerdict
tg_reading_check_weight (const TgReview *review, TgMass mass, char **text)
{
  TgMass nominal = review->setup->check_weight;
  g_autofree char *shown = tg_mass_format_exact (mass);
  g_autofree char *stamped = tg_mass_format_exact (nominal);

  g_return_val_if_fail (text != NULL, TG_READING_REFUSE);

  *text = impossible (review, mass);
  if (*text)
    return TG_READING_REFUSE;
  if (fabs (tg_mass_to_g (mass - nominal)) > tg_reading_far_from_g (review))
    *text = g_strdup_printf ("%s g is far from the %s g of the check weight. Is it the right one?",
                             shown, stamped);
  else
    *text = ask_about_step (review, mass);
  return *text ? TG_READING_ASK : TG_READING_FINE;
}
