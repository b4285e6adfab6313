/* reading-check.c: is a reading that was just typed what it can be? see reading-check.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is expected is the part's own present weight where there is one, else the median of the same
 * figure over the set.  The questions are coarse on purpose: they catch a slip of the fingers, not
 * a scale that is out by a step.  A rod's whole is also held against the sum of its ends, and an end
 * against what the whole leaves for it, where they were read since the last pass: friction and level
 * explain a little, a slip in one digit far more.
 */
#include "reading-check.h"

#include <math.h>

#include "number.h"
#include "review-private.h"

/* A part of a set differs from its like by a few per cent; a slip by far more. */
#define FAR_FROM_OTHERS 0.10
#define FAR_FROM_ITSELF 0.03
#define FAR_FROM_THE_REST 0.002
/* A scale wanders by a few steps or a few grams; more is something that lies on it. */
#define MANY_STEPS 50
#define MUCH_ZERO (5 * TG_MASS_G)
/* A scale that is off by more has another weight on it. */
#define FAR_FROM_NOMINAL 0.05

static int
compare_doubles (gconstpointer a, gconstpointer b)
{
  double x = *(const double *) a, y = *(const double *) b;

  return x < y ? -1 : x > y;
}

/* Median of the figure over the other parts of the same design; 0 if none was read. */
static double
median_of_others (const TgReview *review, TgSlot slot)
{
  double values[2 * TG_MAX_CYLINDERS];
  guint n = 0;

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);

      if (i != slot.part && part->design == tg_review_part (review, slot.part)->design &&
          part->weight[slot.figure].basis != TG_WEIGHT_NONE)
        values[n++] = part->weight[slot.figure].mean_g;
    }
  if (n == 0)
    return 0;
  qsort (values, n, sizeof values[0], compare_doubles);
  return n % 2 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

static gboolean
tenfold (double reading, double expected)
{
  double ratio = reading / expected;

  return (ratio > 8 && ratio < 12.5) || (ratio > 0.08 && ratio < 0.125);
}

/* The other end of the same rod explains the reading much better. */
static gboolean
looks_like_other_end (const TgReview *review, TgSlot slot, double reading, double expected)
{
  TgSlot other = slot;
  const TgPartReview *part = tg_review_part (review, slot.part);
  double theirs;

  if (part->design->kind != TG_PART_ROD || slot.figure == TG_FIGURE_WHOLE)
    return FALSE;
  other.figure = slot.figure == TG_FIGURE_SMALL_END ? TG_FIGURE_BIG_END : TG_FIGURE_SMALL_END;
  theirs = part->weight[other.figure].basis != TG_WEIGHT_NONE ? part->weight[other.figure].mean_g
                                                              : median_of_others (review, other);
  return theirs > 0 && fabs (reading - theirs) < 0.05 * theirs &&
         fabs (reading - theirs) < 0.2 * fabs (reading - expected);
}

/* What the other two figures of the rod leave for this one; 0 if they were not both read since the
 * last pass. */
static double
left_by_the_rest (const TgReview *review, TgSlot slot)
{
  const TgPartReview *part = tg_review_part (review, slot.part);
  double left = 0;

  if (part->design->kind != TG_PART_ROD)
    return 0;
  for (guint f = 0; f < TG_N_FIGURES; f++)
    {
      gboolean adds = slot.figure == TG_FIGURE_WHOLE || f == TG_FIGURE_WHOLE;

      if (f == slot.figure)
        continue;
      if (part->weight[f].basis != TG_WEIGHT_READ)
        return 0;
      left += adds ? part->weight[f].mean_g : -part->weight[f].mean_g;
    }
  return MAX (0, left);
}

/* Far by more than friction and level explain. */
static gboolean
far_from_the_rest (const TgReview *review, TgSlot slot, double reading, double left)
{
  const TgWeight *all = &tg_review_part (review, slot.part)->weight[TG_FIGURE_WHOLE];
  double whole = slot.figure == TG_FIGURE_WHOLE ? left : all->mean_g;
  double step = tg_mass_to_g (review->setup->resolution);

  return left > 0 && fabs (reading - left) > MAX (10 * step, FAR_FROM_THE_REST * whole);
}

static char *
ask_about (const TgReview *review, TgSlot slot, double reading)
{
  const TgPartReview *part = tg_review_part (review, slot.part);
  const TgWeight *weight = &part->weight[slot.figure];
  gboolean own = weight->basis != TG_WEIGHT_NONE;
  double left = left_by_the_rest (review, slot);
  double expected = own ? weight->mean_g : median_of_others (review, slot);
  double step = tg_mass_to_g (review->setup->resolution);
  const char *rest = slot.figure == TG_FIGURE_WHOLE ? "both ends make together"
                                                    : "the whole leaves beside the other end";
  const char *whence = own ? "this part weighed last" : "the others of the set weigh";
  g_autofree char *shown = tg_review_grams (review, reading);
  g_autofree char *likely = NULL;

  if (expected <= 0)
    {
      expected = left;
      whence = rest;
    }
  if (expected <= 0)
    return NULL;
  likely = tg_review_grams (review, expected);
  if (tenfold (reading, expected))
    return g_strdup_printf ("%s g is %s the %s g that %s. A decimal place?", shown,
                            reading > expected ? "about ten times" : "about a tenth of", likely,
                            whence);
  if (looks_like_other_end (review, slot, reading, expected))
    return g_strdup_printf ("%s g looks like the other end; here %s g was expected.", shown,
                            likely);
  if (own && weight->basis == TG_WEIGHT_ESTIMATED && part->passes > 0 &&
      reading > expected + MAX (5 * step, FAR_FROM_ITSELF * expected))
    return g_strdup_printf ("%s g is more than before the pass; %s g was expected.", shown, likely);
  if (far_from_the_rest (review, slot, reading, left))
    {
      g_free (likely);
      likely = tg_review_grams (review, left);
      return g_strdup_printf ("%s g is far from the %s g that %s.", shown, likely, rest);
    }
  if (fabs (reading - expected) > (own ? FAR_FROM_ITSELF : FAR_FROM_OTHERS) * expected)
    return g_strdup_printf ("%s g is far from the %s g that %s.", shown, likely, whence);
  return NULL;
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
  *text = ask_about (review, slot, tg_mass_to_g (mass));
  if (!*text)
    *text = ask_about_step (review, mass);
  return *text ? TG_READING_ASK : TG_READING_FINE;
}

TgReadingVerdict
tg_reading_check_zero (const TgReview *review, TgMass mass, char **text)
{
  TgMass much = MIN (MUCH_ZERO, MANY_STEPS * review->setup->resolution);
  g_autofree char *shown = tg_number_format (tg_mass_to_g (mass), tg_mass_decimals (mass));

  g_return_val_if_fail (text != NULL, TG_READING_REFUSE);

  *text = NULL;
  if (ABS (mass) > TG_MAX_ZERO)
    {
      *text = g_strdup_printf ("%s g is not what an empty scale shows.", shown);
      return TG_READING_REFUSE;
    }
  if (ABS (mass) > MAX (much, 2 * review->setup->resolution))
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
  if (fabs (tg_mass_to_g (mass - nominal)) > FAR_FROM_NOMINAL * tg_mass_to_g (nominal))
    *text = g_strdup_printf ("%s g is far from the %s g of the check weight. Is it the right one?",
                             shown, stamped);
  else
    *text = ask_about_step (review, mass);
  return *text ? TG_READING_ASK : TG_READING_FINE;
}
