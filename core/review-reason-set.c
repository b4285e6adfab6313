/* review-reason-set.c: why a band is even or proven, why its target, what readings prove, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: the figures are those of review-plan.c and review-proof.c.
 */
#include <math.h>

#include "number.h"
#include "reason.h"
#include "review-private.h"
#include "review-reason.h"

static const char *
name_of (const TgReview *review, guint part)
{
  return tg_review_part (review, part)->part->name;
}

/* Heaviest, lightest and how far they are apart. */
static void
add_spread (const TgReview *review, GPtrArray *why, const TgBandReview *band)
{
  if (band->n_weighed == 0)
    return;
  tg_reason_add_grams (review, why, "heaviest", band->heaviest_g, name_of (review, band->heaviest));
  tg_reason_add_grams (review, why, "lightest", band->lightest_g, name_of (review, band->lightest));
  tg_terms_add (
      why, "spread",
      tg_reason_difference (band->heaviest_g, band->lightest_g, "g", tg_reason_decimals (review)),
      "");
}

static void
add_verdict (GPtrArray *why, const TgBandReview *band)
{
  g_autofree char *chance = tg_review_percent (band->probability);

  if (band->even && band->n_parts == 1)
    tg_terms_add (why, "verdict", g_strdup ("even"), "one part differs from nothing");
  else if (band->even)
    {
      tg_terms_add (why, "true spread within it", g_strdup_printf ("%s %%", chance),
                    "the chance of it, from how well each weight is known");
      tg_terms_add (why, "verdict", g_strdup (band->proven ? "even, proven" : "even, not proven"),
                    band->proven ? "95 % or more is proof" : "less than 95 % is no proof");
    }
  else if (band->n_weighed < band->n_parts)
    tg_terms_add (why, "verdict", g_strdup ("not yet"), "not every part has been weighed");
  else if (band->spread_g > band->tolerance_g + TG_REVIEW_TINY_G)
    tg_terms_add (why, "verdict", g_strdup ("not even"), "the spread is more than the tolerance");
  else
    tg_terms_add (
        why, "verdict", g_strdup ("not yet"),
        "within the tolerance as reckoned, but not every part was read since its last pass");
}

GPtrArray *
tg_review_why_band (const TgReview *review, TgBand b)
{
  GPtrArray *why = tg_terms_new ();
  const TgBandReview *band;

  g_return_val_if_fail (review != NULL && (guint) b < TG_N_BANDS, why);

  band = &review->bands[b];
  tg_terms_add (why, "weighed", g_strdup_printf ("%u of %u", band->n_weighed, band->n_parts), "");
  add_spread (review, why, band);
  tg_reason_add_grams (review, why, "tolerance", band->tolerance_g, "the largest permitted spread");
  if (band->known)
    tg_terms_add (why, "inside the band", g_strdup_printf ("%u of %u", band->n_in, band->n_parts),
                  band->n_proven == band->n_in ? "each of them proven by itself" : "");
  add_verdict (why, band);
  tg_reason_close (why, TG_REASON_SPREAD);
  return why;
}

/* -- targets ---------------------------------------------------------------------------------- */

GPtrArray *
tg_review_why_target (const TgReview *review, TgBand b)
{
  GPtrArray *why = tg_terms_new ();
  const TgBandReview *band;
  TgPartKind kind;
  double metal_g;

  g_return_val_if_fail (review != NULL && (guint) b < TG_N_BANDS, why);

  band = &review->bands[b];
  kind = tg_band_kind (b);
  metal_g = review->least_metal_g[kind];
  if (kind == TG_PART_PISTON && tg_review_joint (review))
    metal_g += review->least_metal_g[TG_PART_ROD];
  add_spread (review, why, band);
  if (!band->known && !band->decided)
    {
      tg_terms_add (why, "weighed", g_strdup_printf ("%u of %u", band->n_weighed, band->n_parts),
                    "");
      tg_reason_close (why, TG_REASON_TARGET_OPEN);
      return why;
    }
  tg_reason_add_grams (review, why, "target", band->target_g, "the lower edge of the band");
  tg_reason_add_grams (review, why, "upper edge", band->target_g + band->tolerance_g,
                       "target + tolerance: where what is heavier comes down to");
  tg_reason_add_grams (review, why, "comes off the whole set", metal_g,
                       band->decided ? "with the target as it is held"
                                     : "no target takes less, in whole steps");
  tg_reason_close (why, band->decided ? TG_REASON_TARGET_DECIDED : TG_REASON_TARGET_CHOSEN);
  return why;
}

/* -- proof ------------------------------------------------------------------------------------ */

static void
add_scale (const TgReview *review, GPtrArray *why, TgBand b)
{
  TgSupport support = tg_band_kind (b) == TG_PART_PISTON ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND;
  const TgRepeatability *repeat = &review->scale.repeatability[support];
  g_autofree char *scatter = tg_reason_figure (repeat->deviation_g);
  g_autofree char *rounding = tg_reason_figure (repeat->rounding_u_g);

  tg_terms_add (why, "one reading scatters", g_strdup_printf ("%s g", scatter),
                repeat->assumed ? "half a step is taken until readings are repeated"
                                : "standard deviation, as repeats have shown");
  tg_terms_add (why, "rounding leaves", g_strdup_printf ("%s g", rounding),
                "standard uncertainty from the step, which repeating does not average out");
}

static void
add_can (GPtrArray *why, const TgProof *proof)
{
  for (guint i = 0; i < TG_PROOF_STEPS; i++)
    {
      g_autofree char *label = g_strdup_printf ("%u reading%s of each", proof->can[i].readings,
                                                proof->can[i].readings == 1 ? "" : "s");
      g_autofree char *spread = tg_reason_figure (proof->can[i].spread_g);

      tg_terms_add (why, label, g_strdup_printf ("prove %s g", spread),
                    i > 0 ? "" : "as the set-up asks for");
    }
}

static void
add_needed (GPtrArray *why, const TgProof *proof)
{
  if (proof->needed > 0)
    tg_terms_add (why, "needed", g_strdup_printf ("%u of each", proof->needed),
                  "the fewest readings that can prove the tolerance, were all parts alike");
  else
    tg_terms_add (why, "needed", g_strdup ("none will do"),
                  "not even with as many readings as a set-up may ask for");
}

static void
add_judged (const TgReview *review, GPtrArray *why, const TgProof *proof)
{
  g_autofree char *chance = tg_review_percent (proof->spread.probability);

  tg_reason_add_grams (review, why, "spread as read", proof->spread.spread, "");
  tg_terms_add (why, "true spread within it", g_strdup_printf ("%s %%", chance),
                proof->spread.verdict == TG_UNCERTAINTY_IN
                    ? "the chance of it: proven"
                    : "the chance of it: 95 % would be proof");
  if (proof->enough > 0)
    tg_terms_add (why, "would do", g_strdup_printf ("%u of each", proof->enough),
                  "the fewest readings with which it would be proven, were they to show the same");
}

GPtrArray *
tg_review_why_proof (const TgReview *review, TgBand band, const TgProof *proof)
{
  GPtrArray *why = tg_terms_new ();
  gboolean after;

  g_return_val_if_fail (review != NULL && (guint) band < TG_N_BANDS && proof != NULL, why);

  after = proof->judged && review->bands[band].known && proof->spread.verdict != TG_UNCERTAINTY_OUT;
  tg_terms_add (why, "parts", g_strdup_printf ("%u", proof->n_parts), "");
  tg_reason_add_grams (review, why, "tolerance", review->bands[band].tolerance_g,
                       "the largest permitted spread");
  add_scale (review, why, band);
  if (after)
    add_judged (review, why, proof);
  else if (proof->n_parts >= 2)
    {
      add_can (why, proof);
      add_needed (why, proof);
    }
  tg_reason_close (why, after ? TG_REASON_PROOF_AFTER : TG_REASON_PROOF_BEFORE);
  return why;
}
