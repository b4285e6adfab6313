/* reading-reason.c: why a reading is asked about, term by term, see reading-check.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: reading-check.c says what the reading was held against.
 */
#include <math.h>

#include "number.h"
#include "reading-check-private.h"
#include "review-private.h"
#include "review-reason.h"

/* -- what no reading can be -------------------------------------------------------------------- */

static gboolean
why_impossible (const TgReview *review, GPtrArray *why, TgMass mass)
{
  TgMass capacity = review->setup->capacity;
  g_autofree char *shown = tg_mass_format_exact (mass);
  g_autofree char *most = tg_mass_format_exact (capacity);

  if (mass > 0 && (capacity <= 0 || mass <= capacity))
    return FALSE;
  tg_terms_add (why, "the reading", g_strdup_printf ("%s g", shown), "");
  if (mass > 0)
    {
      tg_terms_add (why, "capacity", g_strdup_printf ("%s g", most), "of the scale, as set up");
      tg_terms_add (why, "over it by",
                    tg_reason_difference (tg_mass_to_g (mass), tg_mass_to_g (capacity), "g",
                                          tg_reason_decimals (review)),
                    "");
    }
  tg_reason_close (why, mass > 0 ? TG_REASON_TOO_MUCH : TG_REASON_NO_LOAD);
  return TRUE;
}

static void
why_step (const TgReview *review, GPtrArray *why, TgMass mass)
{
  TgMass step = review->setup->resolution, below = mass / step * step;
  g_autofree char *shown = tg_number_format (tg_mass_to_g (mass), tg_mass_decimals (mass));
  g_autofree char *of = tg_mass_format_exact (step);

  if (mass % step == 0)
    return;
  tg_terms_add (why, "the reading", g_strdup_printf ("%s g", shown), "");
  tg_terms_add (why, "step of the scale", g_strdup_printf ("%s g", of), "as set up");
  tg_terms_add (why, "beyond a step by",
                tg_reason_difference (tg_mass_to_g (mass), tg_mass_to_g (below), "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_close (why, TG_REASON_STEP);
}

/* -- what was to be expected -------------------------------------------------------------------- */

static const struct
{
  const char *label;
  const char *u_remark;
  TgReason reason;
} kins[] = {
  [TG_READING_KIN_REPEAT] = { "read before, this way up",
                              "of the difference, as this scale repeats", TG_REASON_REPEAT },
  [TG_READING_KIN_OTHER_WAY] = { "the other way up",
                                 "of the difference, as this scale repeats, and its step",
                                 TG_REASON_OTHER_WAY },
  [TG_READING_KIN_PASS] = { "before the pass",
                            "of the difference, as this scale repeats, and its step",
                            TG_REASON_AFTER_PASS },
  [TG_READING_KIN_OTHERS] = { "mean of the others", "what one part is away from the others by",
                              TG_REASON_OTHERS },
  [TG_READING_KIN_REST] = { "left by the other figures",
                            "of all three figures together, and their steps", TG_REASON_REST },
};

static char *
rests_on (const TgReadingExpectation *expectation)
{
  const char *what = expectation->kin == TG_READING_KIN_OTHERS ? "part" : "reading";

  if (expectation->kin == TG_READING_KIN_REST)
    return g_strdup ("both ends together are the whole");
  return g_strdup_printf ("%s%u %s%s", expectation->n > 1 ? "mean of " : "", expectation->n, what,
                          expectation->n > 1 ? "s" : "");
}

static void
add_pass (const TgReview *review, GPtrArray *why, const TgReadingExpectation *expectation)
{
  if (expectation->kin != TG_READING_KIN_PASS)
    return;
  tg_reason_add_grams (review, why, "expected after it", expectation->expected_g,
                       "less what was wanted off it");
  tg_reason_add_grams (review, why, "a pass takes at most", expectation->pass_g,
                       "by how passes scatter before any was weighed");
}

GPtrArray *
tg_reading_why (const TgReview *review, TgSlot slot, TgMass mass)
{
  GPtrArray *why = tg_terms_new ();
  TgReadingExpectation expectation;
  g_autofree char *rests = NULL;

  g_return_val_if_fail (review != NULL && slot.part < review->parts->len, why);

  if (why_impossible (review, why, mass))
    return why;
  if (!tg_reading_unexpected (review, slot, mass, &expectation))
    {
      why_step (review, why, mass);
      return why;
    }
  rests = rests_on (&expectation);
  tg_reason_add_grams (review, why, "the reading", expectation.held.of,
                       review->scale.zero_left_g != 0 ? "less what the zero was off by" : "");
  tg_reason_add_grams (review, why, kins[expectation.kin].label, expectation.held.against, rests);
  tg_terms_add (why, "difference",
                tg_reason_difference (expectation.held.of, expectation.held.against, "g",
                                      tg_reason_decimals (review)),
                "");
  add_pass (review, why, &expectation);
  tg_reason_add_held (why, &expectation.held, "g", kins[expectation.kin].u_remark);
  tg_reason_close (why, kins[expectation.kin].reason);
  return why;
}

/* -- the empty scale and the check weight -------------------------------------------------------- */

GPtrArray *
tg_reading_why_zero (const TgReview *review, TgMass mass)
{
  GPtrArray *why = tg_terms_new ();
  TgMass much;
  g_autofree char *shown = tg_number_format (tg_mass_to_g (mass), tg_mass_decimals (mass));
  g_autofree char *most = NULL;

  g_return_val_if_fail (review != NULL, why);

  much = tg_reading_much_zero (review);
  most = tg_mass_format_exact (much);
  if (ABS (mass) <= much)
    {
      why_step (review, why, mass);
      return why;
    }
  tg_terms_add (why, "the empty scale", g_strdup_printf ("%s g", shown), "");
  tg_terms_add (why, "not asked up to", g_strdup_printf ("%s g", most), "either way");
  tg_terms_add (why, "beyond it by",
                tg_reason_difference (fabs (tg_mass_to_g (mass)), tg_mass_to_g (much), "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_close (why, TG_REASON_NOT_EMPTY);
  return why;
}

GPtrArray *
tg_reading_why_weight (const TgReview *review, TgMass mass)
{
  GPtrArray *why = tg_terms_new ();
  double nominal_g, far_g;

  g_return_val_if_fail (review != NULL, why);

  nominal_g = tg_mass_to_g (review->setup->check_weight);
  far_g = tg_reading_far_from_g (review);
  if (why_impossible (review, why, mass))
    return why;
  if (fabs (tg_mass_to_g (mass) - nominal_g) <= far_g)
    {
      why_step (review, why, mass);
      return why;
    }
  tg_reason_add_grams (review, why, "the reading", tg_mass_to_g (mass), "");
  tg_reason_add_grams (review, why, "stamped on the weight", nominal_g, "as set up");
  tg_terms_add (
      why, "difference",
      tg_reason_difference (tg_mass_to_g (mass), nominal_g, "g", tg_reason_decimals (review)), "");
  tg_terms_add (why, "limit", tg_reason_product (TG_READING_FAR, nominal_g, "g"), "");
  tg_reason_close (why, TG_REASON_NOT_THE_WEIGHT);
  return why;
}
