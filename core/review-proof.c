/* review-proof.c: what readings of this scale can prove, and what they have proven
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Before the work: the narrowest spread that so many readings of each figure prove when all parts
 * weigh the same, which is the most favourable case.  After it: the chance that the true spread is
 * within the tolerance.  The arithmetic and its limits are in uncertainty.h.  Both ways up of one end
 * weigh the same, so the step of the display errs alike in both.
 */
#include <math.h>

#include "number.h"
#include "review-private.h"

/* How often each figure is read, for what is told before the work: once, and as often as people do. */
static const guint rounds[TG_PROOF_STEPS] = { 1, 3, 8 };

typedef struct
{
  const TgSetup *setup;
  const TgRepeatability *repeat;
  guint ways; /* means of one way that a figure takes */
  guint n_parts;
} Scale;

static TgUncertainty
known_with (const Scale *scale, guint readings)
{
  double random = scale->repeat->deviation_g / sqrt (readings);
  double u_g = hypot (random, scale->repeat->rounding_u_g);

  return (TgUncertainty){ u_g, random > 0 ? scale->repeat->freedom * pow (u_g / random, 4)
                                          : (double) INFINITY };
}

static double
provable_g (const Scale *scale, guint readings)
{
  return tg_uncertainty_provable_spread (scale->n_parts, known_with (scale, readings),
                                         TG_REVIEW_LEVEL);
}

static guint
readings_needed (const Scale *scale, double tolerance_g)
{
  if (tolerance_g <= 0)
    return 0;
  for (guint n = scale->ways; n <= TG_UNCERTAINTY_MAX_REPEATS; n += scale->ways)
    if (provable_g (scale, n) <= tolerance_g)
      return n;
  return 0;
}

/* Up to the next step: less is not proven. */
static char *
step_up (const TgSetup *setup, double grams)
{
  TgMass step = setup->resolution, mass = tg_mass_from_g (grams) + 1;

  return tg_mass_format_exact ((mass + step - 1) / step * step);
}

static void
fill_steps (const Scale *scale, TgProof *proof)
{
  guint n = 0;

  proof->can[n++].readings = proof->readings;
  for (guint i = 0; i < G_N_ELEMENTS (rounds) && n < TG_PROOF_STEPS; i++)
    if (rounds[i] * scale->ways > proof->readings)
      proof->can[n++].readings = rounds[i] * scale->ways;
  for (; n < TG_PROOF_STEPS; n++)
    proof->can[n].readings = proof->can[n - 1].readings + scale->ways;
  if (proof->needed > proof->can[TG_PROOF_STEPS - 1].readings)
    proof->can[TG_PROOF_STEPS - 1].readings = proof->needed;
  for (guint i = 0; i < TG_PROOF_STEPS; i++)
    proof->can[i].spread_g = provable_g (scale, proof->can[i].readings);
}

static char *
readings_words (const Scale *scale, guint readings)
{
  if (scale->ways == 1)
    return g_strdup_printf ("%u reading%s of each", readings, readings == 1 ? "" : "s");
  return g_strdup_printf ("%u readings of each, %u for each way up", readings,
                          readings / scale->ways);
}

static char *
before_words (const Scale *scale, const TgProof *proof, TgBand band)
{
  const char *label = tg_band_label (band);
  TgMass tolerance = scale->setup->tolerance[band];
  g_autofree char *wanted = tg_mass_format_exact (tolerance);
  g_autofree char *now = step_up (scale->setup, proof->can[0].spread_g);
  g_autofree char *most = step_up (scale->setup, proof->can[TG_PROOF_STEPS - 1].spread_g);
  g_autofree char *words = readings_words (scale, proof->readings);
  g_autofree char *needed = readings_words (scale, proof->needed);

  if (proof->needed == 0)
    return g_strdup_printf (
        "This scale cannot prove that the %s differ by no more than %s g. With %s it can prove "
        "%s g, with %u readings %s g.",
        label, wanted, words, now, proof->can[TG_PROOF_STEPS - 1].readings, most);
  if (proof->needed > proof->readings)
    return g_strdup_printf (
        "To prove that the %s differ by no more than %s g this scale needs %s. With %u it can "
        "prove %s g.",
        label, wanted, needed, proof->readings, now);
  return g_strdup_printf ("With %s this scale can prove that the %s differ by no more than %s g; "
                          "%s g is allowed.",
                          words, label, now, wanted);
}

static char *
after_words (const TgReview *review, const TgProof *proof, TgBand band)
{
  const char *label = tg_band_label (band);
  g_autofree char *spread = tg_review_grams (review, proof->spread.spread);
  g_autofree char *allowed = tg_mass_format_exact (review->setup->tolerance[band]);
  double percent = 100 * proof->spread.probability;
  g_autofree char *chance = percent > 99.9 ? g_strdup ("more than 99.9")
                                           : tg_number_format (percent, percent > 99 ? 1 : 0);

  switch (proof->spread.verdict)
    {
    case TG_UNCERTAINTY_IN:
      return g_strdup_printf (
          "The %s differ by %s g as read. That they differ by no more than %s g "
          "is proven (%s %%).",
          label, spread, allowed, chance);
    case TG_UNCERTAINTY_UNPROVEN:
      return g_strdup_printf ("The %s differ by %s g as read, within %s g, but this scale has not "
                              "proven it (%s %%; 95 %% is proof).",
                              label, spread, allowed, chance);
    case TG_UNCERTAINTY_OUT:
    default:
      return g_strdup_printf ("The %s differ by %s g as read; %s g is allowed.", label, spread,
                              allowed);
    }
}

static TgProof *
proof_new (const Scale *scale, TgBand band)
{
  TgProof *proof = g_new0 (TgProof, 1);

  proof->n_parts = scale->n_parts;
  proof->readings = scale->ways * scale->setup->repeats;
  if (proof->n_parts < 2)
    {
      proof->text = g_strdup ("");
      return proof;
    }
  proof->needed = readings_needed (scale, tg_mass_to_g (scale->setup->tolerance[band]));
  fill_steps (scale, proof);
  proof->text = before_words (scale, proof, band);
  return proof;
}

static Scale
scale_of (const TgSetup *setup, const TgRepeatability *repeat, TgBand band)
{
  Scale scale = { setup, repeat, band == TG_BAND_PISTON ? 1 : 2, 0 };

  for (guint i = 0; i < setup->parts->len; i++)
    scale.n_parts += tg_setup_part (setup, i)->design->kind == tg_band_kind (band);
  return scale;
}

static void
judge_set (const TgReview *review, TgProof *proof, TgBand band)
{
  TgFigure figure = tg_band_figure (band);
  double values[2 * TG_MAX_CYLINDERS], u[2 * TG_MAX_CYLINDERS], tolerance;
  TgUncertaintySet set = { values, u, 0, INFINITY };

  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      const TgWeight *weight = &part->weight[figure];

      if (part->design->kind != tg_band_kind (band))
        continue;
      if (weight->basis != TG_WEIGHT_READ)
        return;
      values[set.n] = weight->mean_g;
      u[set.n++] = weight->u_g;
      set.freedom = MIN (set.freedom, weight->freedom);
    }
  tolerance = tg_mass_to_g (review->setup->tolerance[band]);
  if (set.n < 2 || tolerance <= 0)
    return;
  proof->judged = TRUE;
  proof->spread = tg_uncertainty_judge_spread (&set, tolerance + TG_REVIEW_TINY_G, TG_REVIEW_LEVEL);
}

TgProof *
tg_review_proof (const TgReview *review, TgBand band)
{
  TgSupport support = band == TG_BAND_PISTON ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND;
  const Scale scale = scale_of (review->setup, &review->scale.repeatability[support], band);
  TgProof *proof;
  char *before;

  g_return_val_if_fail (review != NULL && (guint) band < TG_N_BANDS, NULL);

  proof = proof_new (&scale, band);
  if (proof->n_parts < 2)
    return proof;
  judge_set (review, proof, band);
  before = proof->text;
  if (proof->judged && review->bands[band].known)
    {
      proof->text = after_words (review, proof, band);
      if (proof->spread.verdict == TG_UNCERTAINTY_UNPROVEN)
        {
          char *after = proof->text;

          proof->text = g_strconcat (after, " ", before, NULL);
          g_free (after);
        }
      g_free (before);
    }
  else if (scale.repeat->assumed)
    {
      proof->text = g_strconcat (before,
                                 " Until readings are repeated, half a step is taken for how "
                                 "well it repeats.",
                                 NULL);
      g_free (before);
    }
  return proof;
}

TgProof *
tg_proof_of_setup (const TgSetup *setup, TgBand band)
{
  const TgRepeatability repeat = tg_review_assumed_repeatability (setup->resolution);
  const Scale scale = scale_of (setup, &repeat, band);

  g_return_val_if_fail ((guint) band < TG_N_BANDS, NULL);

  return proof_new (&scale, band);
}

void
tg_proof_free (TgProof *proof)
{
  g_free (proof->text);
  g_free (proof);
}

/* Two digits of the uncertainty, not finer than a milligram. */
char *
tg_review_plus_minus (double expanded_g)
{
  guint decimals = expanded_g >= 10 ? 0 : expanded_g >= 1 ? 1 : expanded_g >= 0.1 ? 2 : 3;
  g_autofree char *number = tg_number_format (expanded_g, decimals);

  return g_strconcat ("± ", number, NULL);
}
