/* review-reason.c: why something deserves a second look, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: what was compared, how far apart it is and what it was held against stands in the finding
 * (TgHeld) and in the check (TgScaleCheck), put there by who judged it.  What hangs on the plan is in
 * review-reason-plan.c.
 */
#include <math.h>

#include "number.h"
#include "reason.h"
#include "review-private.h"
#include "review-reason.h"

void
tg_reason_add (GPtrArray *why, const char *label, double grams, guint decimals, const char *remark)
{
  g_autofree char *number = tg_number_format (grams, decimals);

  tg_terms_add (why, label, g_strdup_printf ("%s g", number), remark);
}

guint
tg_reason_decimals (const TgReview *review)
{
  return tg_mass_decimals (review->setup->resolution);
}

void
tg_reason_add_grams (
    const TgReview *review, GPtrArray *why, const char *label, double grams, const char *remark)
{
  g_autofree char *text = tg_review_grams (review, grams);

  tg_terms_add (why, label, g_strdup_printf ("%s g", text), remark);
}

/* "with a false alarm in 2 of 100 cases; 12 degrees of freedom" */
static char *
limit_words (const TgHeld *held)
{
  g_autofree char *alarms = tg_number_format_short (100 * held->false_alarm);
  g_autofree char *freedom = isfinite (held->freedom)
                                 ? tg_number_format (MAX (1, floor (held->freedom)), 0)
                                 : g_strdup ("no end of");

  return g_strdup_printf ("coverage factor × standard uncertainty: passed in vain in %s of 100 "
                          "cases; %s degrees of freedom",
                          alarms, freedom);
}

void
tg_reason_add_held (GPtrArray *why, const TgHeld *held, const char *unit, const char *u_remark)
{
  g_autofree char *u = tg_reason_figure (held->u);
  g_autofree char *words = held->false_alarm > 0 ? limit_words (held) : g_strdup ("");
  g_autofree char *least = tg_reason_figure (held->least);

  if (held->u > 0)
    {
      tg_terms_add (why, "standard uncertainty", g_strdup_printf ("%s %s", u, unit), u_remark);
      tg_terms_add (why, "limit", tg_reason_product (held->coverage, held->u, unit), words);
    }
  if (held->least > 0)
    tg_terms_add (why, "never below", g_strdup_printf ("%s %s", least, unit),
                  held->limit <= held->least ? "this is more than the limit above and counts"
                                             : "the limit above is more and counts");
}

/* -- the readings ----------------------------------------------------------------------------- */

static void
add_way (const TgReview *review, GPtrArray *why, const TgWeight *weight, TgWay way)
{
  g_autofree char *remark = g_strdup_printf ("mean of %u reading%s", weight->n[way],
                                             weight->n[way] == 1 ? "" : "s");

  tg_reason_add_grams (review, why, tg_way_label (way), weight->way_g[way], remark);
}

static void
why_turn (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgWeight *weight = &tg_review_part (review, (guint) finding->part)->weight[finding->figure];

  add_way (review, why, weight, TG_WAY_MARK_UP);
  add_way (review, why, weight, TG_WAY_MARK_DOWN);
  tg_terms_add (why, "difference",
                tg_reason_difference (finding->held.of, finding->held.against, "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_add_held (why, &finding->held, "g",
                      "of the difference: as this scale repeats, and what its zero may have done");
  tg_reason_close (why, TG_REASON_TURN);
}

static void
why_closure (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, (guint) finding->part);

  for (TgFigure f = 0; f < TG_N_FIGURES; f++)
    tg_reason_add_grams (review, why, tg_figure_label (TG_PART_ROD, f), part->weight[f].mean_g, "");
  tg_terms_add (why, "both ends − whole",
                tg_reason_difference (finding->held.of, finding->held.against, "g",
                                      tg_reason_decimals (review)),
                "both ends together, less the whole");
  tg_reason_add_held (
      why, &finding->held, "g",
      "of all three figures together: as this scale repeats, its zero and its step");
  tg_reason_close (why, TG_REASON_CLOSURE);
}

static void
why_outlier (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  g_autofree char *others = g_strdup_printf (
      "%s %u other reading%s, the same way up, since the last pass",
      finding->n == 1 ? "of" : "mean of", finding->n, finding->n == 1 ? "" : "s");

  tg_reason_add_grams (review, why, "the reading", finding->held.of, tg_way_label (finding->way));
  tg_reason_add_grams (review, why, "the others", finding->held.against, others);
  tg_terms_add (why, "difference",
                tg_reason_difference (finding->held.of, finding->held.against, "g",
                                      tg_reason_decimals (review)),
                "");
  tg_reason_add_held (why, &finding->held, "g",
                      finding->alone
                          ? "standard deviation of these readings, for the distance from the others"
                          : "of the difference, by all other repeats of this scale");
  tg_reason_close (why, finding->alone ? TG_REASON_OUTLIER_ALONE : TG_REASON_OUTLIER);
}

/* No pass came after the reading: it is still among those of the figure. */
static gboolean
still_counts (const TgPartReview *part, const TgFinding *finding)
{
  for (guint i = 0; i < part->pass_history->len; i++)
    if ((int) g_array_index (part->pass_history, TgHistoryPass, i).event > finding->event)
      return FALSE;
  return part->weight[finding->figure].basis == TG_WEIGHT_READ;
}

static void
why_kept (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, (guint) finding->part);
  const TgWeight *weight = &part->weight[finding->figure];
  guint n = weight->n[finding->way];
  g_autofree char *remark = g_strdup_printf (
      "mean of %u reading%s of this way up, this one among them", n, n == 1 ? "" : "s");

  tg_reason_add_grams (review, why, "the reading", finding->held.of, "as it was kept");
  if (still_counts (part, finding) && n > 0)
    {
      tg_reason_add_grams (review, why, tg_figure_label (part->design->kind, finding->figure),
                           weight->way_g[finding->way], remark);
      tg_terms_add (why, "difference",
                    tg_reason_difference (finding->held.of, weight->way_g[finding->way], "g",
                                          tg_reason_decimals (review)),
                    "");
    }
  tg_reason_close (why, TG_REASON_KEPT);
}

/* -- the scale -------------------------------------------------------------------------------- */

static void
add_limits (const TgReview *review, GPtrArray *why, const TgScaleCheck *check, const char *remark)
{
  tg_reason_add_grams (review, why, "doubtful beyond", check->doubtful_g, remark);
  tg_reason_add_grams (review, why, "off beyond", check->off_g, "");
  tg_terms_add (why, "verdict",
                g_strdup (check->verdict == TG_CHECK_WEIGHT_FITS       ? "fits"
                          : check->verdict == TG_CHECK_WEIGHT_DOUBTFUL ? "doubtful"
                                                                       : "off"),
                "");
}

static void
why_zero (const TgReview *review, GPtrArray *why, const TgScaleCheck *check)
{
  g_autofree char *error = tg_number_format_signed (check->error_g, tg_reason_decimals (review));
  g_autofree char *scatter = tg_reason_figure (check->scatter_g);
  g_autofree char *setting = tg_reason_figure (check->setting_g);
  g_autofree char *reach = tg_reason_figure (check->reach_g);
  g_autofree char *step = tg_mass_format_exact (review->setup->resolution);
  g_autofree char *to_steps = g_strdup_printf ("the last step of %s g that is shown within that",
                                               step);

  tg_terms_add (why, "the empty scale showed", g_strdup_printf ("%s g", error), "");
  tg_terms_add (why, "one look scatters", g_strdup_printf ("%s g", scatter),
                "in 95 of 100 cases no more, before rounding, as readings have shown");
  tg_terms_add (why, "set to zero within", g_strdup_printf ("%s g", setting),
                "a quarter of a step, equally likely anywhere, at 95 %");
  tg_terms_add (why, "both together",
                g_strdup_printf ("√(%s² + %s²) = %s g", scatter, setting, reach), "");
  add_limits (review, why, check, to_steps);
}

static void
add_weight_uncertainty (const TgReview *review, GPtrArray *why, const TgScaleCheck *check)
{
  g_autofree char *mpe = tg_number_format_short (check->mpe_mg);
  g_autofree char *weight = tg_reason_figure (check->weight_u_g);
  g_autofree char *remark = g_strdup_printf (
      "a weight of class %s may be out by %s mg",
      tg_check_weight_class_to_word (review->setup->check_class), mpe);

  if (check->mpe_known)
    tg_terms_add (why, "the weight", g_strdup_printf ("%s mg / √3 = %s g", mpe, weight), remark);
  else
    tg_terms_add (why, "the weight", g_strdup ("0 g"),
                  "the table has no line for what is stamped on it: it is taken as exact");
}

static void
why_check_weight (const TgReview *review, GPtrArray *why, const TgScaleCheck *check)
{
  double nominal_g = tg_mass_to_g (check->nominal);
  g_autofree char *scale = tg_reason_figure (check->scale_u_g);
  g_autofree char *weight = tg_reason_figure (check->weight_u_g);
  g_autofree char *both = tg_reason_figure (check->u_g);
  g_autofree char *twice = tg_reason_product (2, check->u_g, "g");
  g_autofree char *up = g_strdup_printf ("%s, up to the next step; off: three times", twice);

  tg_terms_add (why, "reading − nominal",
                tg_reason_difference (nominal_g + check->error_g, nominal_g, "g",
                                      tg_reason_decimals (review)),
                "less the zero error of the moment");
  tg_terms_add (why, "one reading", g_strdup_printf ("%s g", scale),
                "standard uncertainty: as this scale repeats, its zero and its step");
  add_weight_uncertainty (review, why, check);
  tg_terms_add (why, "both together", g_strdup_printf ("√(%s² + %s²) = %s g", scale, weight, both),
                "");
  add_limits (review, why, check, up);
}

GPtrArray *
tg_review_why_check (const TgReview *review, guint index)
{
  GPtrArray *why = tg_terms_new ();
  const TgScaleCheck *check;

  g_return_val_if_fail (review != NULL && index < review->scale.checks->len, why);

  check = &g_array_index (review->scale.checks, TgScaleCheck, index);
  if (check->zero)
    why_zero (review, why, check);
  else
    why_check_weight (review, why, check);
  tg_reason_close (why, check->zero ? TG_REASON_ZERO : TG_REASON_CHECK_WEIGHT);
  return why;
}

/* -- where a zone lies ------------------------------------------------------------------------ */

static void
why_lever (const TgReview *review, GPtrArray *why, const TgFinding *finding)
{
  const TgPartReview *part = tg_review_part (review, finding->example);
  const TgLeverLearning *lever = &tg_part_review_zone (part, finding->zone)->lever;
  g_autofree char *drawn = tg_number_format (finding->held.against, 1);
  g_autofree char *learned = tg_number_format (finding->held.of, 1);
  g_autofree char *u = tg_number_format (lever->u * part->design->rod.centres, 1);
  g_autofree char *give = g_strdup_printf ("by %u stretch%s of passes, standard uncertainty %s mm",
                                           lever->freedom, lever->freedom == 1 ? "" : "es", u);
  g_autofree char *chi2 = tg_number_format (lever->chi2, 1);
  g_autofree char *percent = tg_number_format_short (100 * lever->chance);
  g_autofree char *chance = g_strdup_printf (
      "%u degrees of freedom; so much or more by chance in %s of 100 cases", lever->freedom,
      percent);

  tg_terms_add (why, "drawn", g_strdup_printf ("%s mm", drawn), "from the big end");
  tg_terms_add (why, "by its passes", g_strdup_printf ("%s mm", learned), give);
  tg_terms_add (why, "moved",
                tg_reason_difference (finding->held.of, finding->held.against, "mm", 1), "");
  tg_reason_add_held (why, &finding->held, "mm", "of the drawing");
  tg_terms_add (why, "squared misfits", g_steal_pointer (&chi2), chance);
  tg_reason_close (why, lever->consistent ? TG_REASON_LEVER_MOVED : TG_REASON_LEVER_ODD);
}

const char *
tg_finding_label (TgFindingCode code)
{
  static const char *const labels[TG_N_FINDING_CODES] = {
    [TG_FINDING_TURN] = "the two ways up differ",
    [TG_FINDING_CLOSURE] = "both ends are not the whole",
    [TG_FINDING_TOO_LIGHT] = "too light",
    [TG_FINDING_OUT_OF_REACH] = "too heavy for its zones",
    [TG_FINDING_FINE] = "finer than the scale shows",
    [TG_FINDING_TOLERANCE] = "the tolerance is narrow for this scale",
    [TG_FINDING_OVER_CAPACITY] = "more than the scale is made for",
    [TG_FINDING_ZONE_NEVER] = "metal off where none should be",
    [TG_FINDING_ZONE_EXCEEDED] = "more off a zone than it may give",
    [TG_FINDING_KEPT] = "a reading was questioned and kept",
    [TG_FINDING_OUTLIER] = "a reading away from its repeats",
    [TG_FINDING_ZERO] = "the empty scale did not show zero",
    [TG_FINDING_CHECK_WEIGHT] = "the check weight read wrong",
    [TG_FINDING_LEVER] = "a zone lies elsewhere than drawn",
  };

  g_return_val_if_fail ((guint) code < TG_N_FINDING_CODES, "");

  return labels[code];
}

/* -- all of them ------------------------------------------------------------------------------ */

GPtrArray *
tg_review_why_finding (const TgReview *review, const TgFinding *finding)
{
  GPtrArray *why;

  g_return_val_if_fail (review != NULL && finding != NULL, NULL);

  if (finding->check >= 0)
    return tg_review_why_check (review, (guint) finding->check);
  why = tg_terms_new ();
  switch (finding->code)
    {
    case TG_FINDING_TURN:
      why_turn (review, why, finding);
      break;
    case TG_FINDING_CLOSURE:
      why_closure (review, why, finding);
      break;
    case TG_FINDING_OUTLIER:
      why_outlier (review, why, finding);
      break;
    case TG_FINDING_KEPT:
      why_kept (review, why, finding);
      break;
    case TG_FINDING_LEVER:
      why_lever (review, why, finding);
      break;
    case TG_FINDING_ZERO:
    case TG_FINDING_CHECK_WEIGHT:
    case TG_FINDING_TOO_LIGHT:
    case TG_FINDING_OUT_OF_REACH:
    case TG_FINDING_FINE:
    case TG_FINDING_TOLERANCE:
    case TG_FINDING_OVER_CAPACITY:
    case TG_FINDING_ZONE_NEVER:
    case TG_FINDING_ZONE_EXCEEDED:
    default:
      tg_reason_of_plan (review, why, finding);
      break;
    }
  return why;
}
