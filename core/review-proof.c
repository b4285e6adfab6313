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
  guint sum;  /* parts that are weighed one by one and count together */
  guint n_parts;
} Scale;

static TgUncertainty
known_with (const Scale *scale, guint readings)
{
  double random = scale->repeat->deviation_g * sqrt ((double) scale->sum / readings);
  double u_g = hypot (random, scale->repeat->rounding_u_g * sqrt (scale->sum));

  return (TgUncertainty){ u_g, random > 0 ? scale->repeat->freedom * pow (u_g / random, 4)
                                          : (double) INFINITY };
}

static double
provable_g (const Scale *scale, guint readings)
{
  return tg_uncertainty_provable_spread (scale->n_parts, known_with (scale, readings),
                                         TG_REVIEW_LEVEL);
}

/* Would these figures be proven, had each been read so often? */
static gboolean
proven_with (const Scale *scale, const TgUncertaintySet *set, double tolerance_g, guint readings)
{
  TgUncertainty known = known_with (scale, readings);
  double u[2 * TG_MAX_CYLINDERS];
  const TgUncertaintySet better = { set->values, u, set->n, known.freedom };

  for (gsize i = 0; i < set->n; i++)
    u[i] = known.u;
  return tg_uncertainty_spread_probability (&better, tolerance_g) >= TG_REVIEW_LEVEL;
}

/* The fewest readings of each with which these figures would be proven: more of each way than
 * @too_few, at most @most; 0 if there are none.  More never prove less. */
static guint
readings_enough (
    const Scale *scale, const TgUncertaintySet *set, double tolerance_g, guint too_few, guint most)
{
  if (tolerance_g <= 0 || too_few >= most ||
      !proven_with (scale, set, tolerance_g, most * scale->ways))
    return 0;
  while (most - too_few > 1)
    {
      guint middle = (too_few + most) / 2;

      if (proven_with (scale, set, tolerance_g, middle * scale->ways))
        most = middle;
      else
        too_few = middle;
    }
  return most * scale->ways;
}

/* The same for parts that weigh the same, which is the most that a scale can do. */
static guint
readings_needed (const Scale *scale, double tolerance_g)
{
  const double values[2 * TG_MAX_CYLINDERS] = { 0 };
  const TgUncertaintySet same = { values, NULL, scale->n_parts, INFINITY };

  return readings_enough (scale, &same, tolerance_g, 0, TG_UNCERTAINTY_MAX_REPEATS / scale->ways);
}

/* Up to the next step: less is not proven. */
static char *
step_up (const TgSetup *setup, double grams)
{
  TgMass step = setup->resolution;
  /* a scale that repeats wildly proves nothing that a person would write down */
  TgMass mass = tg_mass_from_g (MIN (grams, tg_mass_to_g (TG_MASS_MAX))) + 1;

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
  return g_strdup_printf ("%u readings of each (%u for each way up)", readings,
                          readings / scale->ways);
}

static char *
before_words (const Scale *scale, const TgProof *proof, TgBand band)
{
  const char *label = tg_setup_band_label (scale->setup, band);
  TgMass tolerance = tg_setup_tolerance (scale->setup, band);
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

/* Of a set that is within its tolerance as read. */
static char *
after_words (const TgReview *review, const TgProof *proof, TgBand band)
{
  const char *label = tg_setup_band_label (review->setup, band);
  g_autofree char *spread = tg_review_grams (review, proof->spread.spread);
  g_autofree char *allowed = tg_mass_format_exact (tg_setup_tolerance (review->setup, band));
  g_autofree char *chance = tg_review_percent (proof->spread.probability);

  if (proof->spread.verdict == TG_UNCERTAINTY_IN)
    return g_strdup_printf ("The %s differ by %s g as read. That they differ by no more than %s g "
                            "is proven (%s %%).",
                            label, spread, allowed, chance);
  return g_strdup_printf ("The %s differ by %s g as read, within %s g, but this scale has not "
                          "proven it (%s %%; 95 %% is proof).",
                          label, spread, allowed, chance);
}

/* What would prove a set that is within its tolerance. */
static char *
more_words (const Scale *scale, const TgProof *proof)
{
  g_autofree char *enough = readings_words (scale, proof->enough);

  if (proof->enough > 0)
    return g_strdup_printf ("%s would prove it, if they show the same.", enough);
  if (proof->needed > 0)
    return g_strdup ("More readings will not prove it: bring the heaviest closer to the lightest, "
                     "or weigh on a finer scale.");
  return g_strdup ("More readings will not prove it: weigh on a finer scale.");
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
  proof->needed = readings_needed (scale, tg_mass_to_g (tg_setup_tolerance (scale->setup, band)));
  fill_steps (scale, proof);
  proof->text = before_words (scale, proof, band);
  return proof;
}

static Scale
scale_of (const TgSetup *setup, const TgRepeatability *repeat, TgBand band)
{
  static const TgPartKind with_pistons[] = { TG_PART_ROD, TG_PART_PIN, TG_PART_RINGS,
                                             TG_PART_CLIPS };
  Scale scale = { setup, repeat, tg_band_kind (band) == TG_PART_PISTON ? 1 : 2, 1, 0 };

  for (guint i = 0; i < G_N_ELEMENTS (with_pistons); i++)
    scale.sum += band == TG_BAND_PISTON && tg_setup_in_sum (setup, with_pistons[i]);
  scale.sum += band == TG_BAND_ROD_BIG && tg_setup_in_sum (setup, TG_PART_BEARINGS);
  for (guint i = 0; i < setup->parts->len; i++)
    scale.n_parts += tg_setup_part (setup, i)->design->kind == tg_band_kind (band) &&
                     tg_setup_part (setup, i)->bore > 0;
  if (!tg_setup_has_band (setup, band))
    scale.n_parts = 0;
  scale.n_parts = MIN (scale.n_parts, 2 * TG_MAX_CYLINDERS);
  return scale;
}

/* The figures of the set as they are now; FALSE if they cannot be judged. */
static gboolean
collect_set (const TgReview *review, TgBand band, TgUncertaintySet *set, double *values, double *u)
{
  guint row = band == TG_BAND_ROD_BIG || band == TG_BAND_PISTON_ALONE ? 1 : 0;

  *set = (TgUncertaintySet){ values, u, 0, INFINITY };
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      TgWeight sum;

      if (part->design->kind != tg_band_kind (band) || !part->in_work)
        continue;
      sum = tg_review_row_sum (review, part, row);
      if (sum.basis != TG_WEIGHT_READ)
        return FALSE;
      values[set->n] = sum.mean_g;
      u[set->n++] = sum.u_g;
      set->freedom = MIN (set->freedom, sum.freedom);
    }
  return set->n >= 2 && tg_setup_tolerance (review->setup, band) > 0;
}

static void
judge_set (const TgReview *review, const Scale *scale, TgProof *proof, TgBand band)
{
  double values[2 * TG_MAX_CYLINDERS], u[2 * TG_MAX_CYLINDERS];
  double tolerance_g = tg_mass_to_g (tg_setup_tolerance (review->setup, band)) + TG_REVIEW_TINY_G;
  TgUncertaintySet set;

  if (!collect_set (review, band, &set, values, u))
    return;
  proof->judged = TRUE;
  proof->spread = tg_uncertainty_judge_spread (&set, tolerance_g, TG_REVIEW_LEVEL);
  if (proof->spread.verdict == TG_UNCERTAINTY_UNPROVEN)
    proof->enough = readings_enough (scale, &set, tolerance_g, scale->setup->repeats,
                                     TG_SETUP_MAX_REPEATS);
}

void
tg_review_prove (TgReview *review)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      TgBandReview *band = &review->bands[b];
      double values[2 * TG_MAX_CYLINDERS], u[2 * TG_MAX_CYLINDERS];
      double tolerance_g = tg_mass_to_g (tg_setup_tolerance (review->setup, b)) + TG_REVIEW_TINY_G;
      TgUncertaintySet set;

      if (band->present && band->even && band->n_parts == 1)
        band->probability = 1; /* it differs from nothing */
      else if (band->present && band->even && collect_set (review, b, &set, values, u))
        band->probability = tg_uncertainty_spread_probability (&set, tolerance_g);
      band->proven = band->probability >= TG_REVIEW_LEVEL;
    }
  for (guint i = 0; i < review->parts->len; i++)
    {
      TgPartReview *part = g_ptr_array_index (review->parts, i);
      TgBand band;

      for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
        if (tg_band_of (part->design->kind, figure, &band) && part->weight[figure].judged)
          part->weight[figure].proven = part->weight[figure].verdict == TG_UNCERTAINTY_IN ||
                                        review->bands[band].proven;
    }
}

TgProof *
tg_review_proof (const TgReview *review, TgBand band)
{
  TgSupport support = tg_band_kind (band) == TG_PART_PISTON ? TG_SUPPORT_SCALE : TG_SUPPORT_STAND;
  const Scale scale = scale_of (review->setup, &review->scale.repeatability[support], band);
  TgProof *proof;
  char *before;

  g_return_val_if_fail (review != NULL && (guint) band < TG_N_BANDS, NULL);

  proof = proof_new (&scale, band);
  if (proof->n_parts < 2)
    return proof;
  judge_set (review, &scale, proof, band);
  before = proof->text;
  /* a set that is not there yet asks what the scale will be able to prove */
  if (proof->judged && review->bands[band].known && proof->spread.verdict != TG_UNCERTAINTY_OUT)
    {
      proof->text = after_words (review, proof, band);
      if (proof->spread.verdict == TG_UNCERTAINTY_UNPROVEN)
        {
          g_autofree char *after = proof->text;
          g_autofree char *more = more_words (&scale, proof);

          proof->text = g_strconcat (after, " ", more, NULL);
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

/* Rounded down: 94.9 % is not proof and must not read as 95 %. */
char *
tg_review_percent (double probability)
{
  double percent = 100 * probability;

  if (percent > 99.9)
    return g_strdup ("more than 99.9");
  if (percent > 99)
    return tg_number_format (floor (percent * 10) / 10, 1);
  return tg_number_format (floor (percent), 0);
}

char *
tg_review_plus_minus (const TgReview *review, double expanded_g)
{
  guint two_digits = expanded_g >= 10 ? 0 : expanded_g >= 1 ? 1 : expanded_g >= 0.1 ? 2 : 3;
  guint finest = MIN (3, tg_mass_decimals (review->setup->resolution) + 1);
  guint decimals = MIN (two_digits, finest);
  double unit = pow (10, -(double) decimals);
  g_autofree char *number = tg_number_format (ceil (expanded_g / unit - 1e-3) * unit, decimals);

  return g_strconcat ("± ", number, NULL);
}
