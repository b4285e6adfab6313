/* review-checks.c: every look at the empty scale and at the check weight, against what the scale explains
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A zero is held against where the scale was set to zero, a check weight against what is stamped on
 * it; what the weight shows to come and go from look to look beyond repeats is wander, in proportion
 * to the load.
 *
 * Not here: a scale that reads wrong by a factor.  It does so for all parts alike.
 */
#include <math.h>

#include "review-private.h"
#include "rounding.h"
#include "statistics.h"

#define WANDER_DOUBT 0.05

/* The limits of the check weight are 2 u and 3 u.  Where u is known from few repeats it is made so much
 * larger that they are passed by chance as seldom as check-weight.h and review.h say. */
static double
widened_u_g (TgUncertainty known)
{
  double doubtful = tg_uncertainty_coverage (known.freedom, TG_REVIEW_LEVEL) / 2;
  double off = tg_uncertainty_coverage (known.freedom, 1 - TG_REVIEW_FALSE_ALARM) / 3;

  return MAX (1, MAX (doubtful, off)) * known.u;
}

static void
judge_check_weight (const TgReview *review,
                    const TgReviewBench *bench,
                    const TgEvent *event,
                    TgScaleCheck *check)
{
  const TgReviewUse use = { check->event, 1 };
  TgUncertainty random = tg_review_use_u (review, bench, &use, 1, 0, TG_REVIEW_JUMP_FREEDOM);
  double rounding_u_g = review->scale.repeatability[TG_SUPPORT_SCALE].rounding_u_g;
  TgCheckWeight judged;

  check->nominal = event->nominal;
  check->scale_u_g = hypot (widened_u_g (random), rounding_u_g);
  check->mpe_known = tg_check_weight_mpe_mg (event->nominal, review->setup->check_class,
                                             &check->mpe_mg);
  check->weight_u_g = tg_check_weight_uncertainty_g (check->mpe_mg);
  judged = tg_check_weight_judge (tg_mass_from_g (bench->readings[check->event].value_g),
                                  event->nominal, check->mpe_mg, review->setup->resolution,
                                  check->scale_u_g);
  check->u_g = judged.u_g;
  check->error_g = judged.error_g;
  check->doubtful_g = judged.doubtful_g;
  check->off_g = judged.off_g;
  check->verdict = judged.verdict;
}

/* What the empty scale may show by chance: where it was set to zero, to a quarter of a step (OIML
 * R 76-1, 4.5.2, from memory), then the scatter of one look, then rounding, which takes it no farther
 * than half a step: the last step that is shown within that.  A look scatters no more than readings do,
 * on the scale or on the stand, so the narrower limit counts. */
static double
zero_limit_g (const TgReview *review, double level, TgScaleCheck *check)
{
  double step_g = tg_mass_to_g (review->setup->resolution), scatter_g = INFINITY;
  double set_u_g = tg_uncertainty_of_interval (step_g / 4);

  for (guint i = 0; i < TG_N_SUPPORTS; i++)
    {
      const TgRepeatability *repeat = &review->scale.repeatability[i];
      double sigma_g = tg_rounding_sigma (repeat->deviation_g, step_g);

      scatter_g = MIN (scatter_g, sigma_g * tg_uncertainty_coverage (repeat->freedom, level));
    }
  check->scatter_g = scatter_g;
  check->setting_g = set_u_g * tg_uncertainty_coverage (INFINITY, level);
  check->reach_g = hypot (check->scatter_g, check->setting_g);
  return floor (check->reach_g / step_g + 0.5) * step_g;
}

static void
judge_zero (const TgReview *review, const TgReviewBench *bench, TgScaleCheck *check)
{
  double size_g = fabs (bench->readings[check->event].value_g) - TG_REVIEW_TINY_G;

  check->error_g = bench->readings[check->event].value_g;
  check->off_g = zero_limit_g (review, 1 - TG_REVIEW_FALSE_ALARM, check);
  /* last, since its terms are those that are told */
  check->doubtful_g = zero_limit_g (review, TG_REVIEW_LEVEL, check);
  check->verdict = size_g <= check->doubtful_g ? TG_CHECK_WEIGHT_FITS
                   : size_g <= check->off_g    ? TG_CHECK_WEIGHT_DOUBTFUL
                                               : TG_CHECK_WEIGHT_OFF;
}

static TgScaleCheck
judge_check (const TgReview *review, const TgReviewBench *bench, const TgEvent *event, guint index)
{
  TgScaleCheck check = { .stamp = event->stamp, .event = index };

  check.zero = event->kind == TG_EVENT_ZERO;
  check.set_back = event->set_back;
  if (check.zero)
    judge_zero (review, bench, &check);
  else
    judge_check_weight (review, bench, event, &check);
  return check;
}

static void
judge_checks (TgReview *review, const TgJob *job, const TgReviewBench *bench)
{
  TgScaleReview *scale = &review->scale;

  scale->last_zero = scale->last_weight = -1;
  for (guint i = 0; i < review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (job, i);
      TgScaleCheck check;

      if (review->struck[i])
        continue;
      scale->readings_since_zero += event->kind == TG_EVENT_WEIGHING;
      if (event->kind != TG_EVENT_ZERO && event->kind != TG_EVENT_CHECK_WEIGHT)
        continue;
      check = judge_check (review, bench, event, i);
      if (check.zero)
        {
          scale->last_zero = (int) scale->checks->len;
          scale->readings_since_zero = 0;
        }
      else
        scale->last_weight = (int) scale->checks->len;
      g_array_append_val (scale->checks, check);
    }
}

/* What the check weight shows to come and go beyond repeats: the variance between looks less that
 * within, if a test of the variance says that there is any (analysis of variance, JCGM 100, H.5), for
 * one gram of load. */
static void
find_wander (TgReview *review, TgReviewBench *bench)
{
  const GArray *checks = review->scale.checks;
  g_autofree double *errors = g_new (double, checks->len + 1);
  double within = 0, freedom, squares;
  TgStatistics looks;
  gsize n = 0;

  for (guint i = 0; i < checks->len; i++)
    {
      const TgScaleCheck *check = &g_array_index (checks, TgScaleCheck, i);
      const TgReviewUse use = { check->event, 1 };
      double load_g = tg_mass_to_g (check->nominal), u_g;

      if (check->zero)
        continue;
      u_g = hypot (bench->zero_u_g, tg_review_zero_u (review, bench, &use, 1, INFINITY).u) / load_g;
      within += u_g * u_g;
      errors[n++] = check->error_g / load_g;
    }
  if (n < 3)
    return;
  looks = tg_statistics_of (errors, n);
  freedom = (double) (n - 1);
  within /= (double) n;
  squares = looks.deviation * looks.deviation * freedom;
  if (tg_statistics_chi2_upper (squares / within, freedom) >= WANDER_DOUBT)
    return;
  bench->wander_freedom = freedom;
  review->scale.wander_g = sqrt (squares / freedom - within);
}

void
tg_review_judge_checks (TgReview *review, const TgJob *job, TgReviewBench *bench)
{
  judge_checks (review, job, bench);
  find_wander (review, bench);
}
