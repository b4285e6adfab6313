/* test-review-scale.c: what the journal says of the scale, worked out by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All data are invented.  Figures beside each case are reckoned on paper; quantiles of Student's t are
 * those of JCGM 100, table G.2.
 */
#include <math.h>

#include "fixture.h"

#define NEAR(a, b) g_assert_cmpfloat_with_epsilon (a, b, 1e-6)
#define ABOUT(a, b) g_assert_cmpfloat_with_epsilon (a, b, 2e-4)
#define STEP_G 0.1

/* 2026-03-07, midnight UTC; the clock of the bench has no offset. */
#define DAY0 G_GINT64_CONSTANT (1772841600)

/* @day and @minute of the day. */
static TgStamp
at (guint day, guint minute)
{
  return (TgStamp){ DAY0 + day * 86400 + minute * 60, 0 };
}

static TgJob *
new_job (void)
{
  return tg_job_new (fixture_setup (8, FALSE, TRUE));
}

static void
weigh (TgJob *job, TgStamp stamp, guint piston, double grams)
{
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);
  g_autofree char *part = g_strdup_printf ("piston-%u", piston);

  event.stamp = stamp;
  event.part = part;
  event.figure = TG_FIGURE_WHOLE;
  event.mass = tg_mass_from_g (grams);
  fixture_append (job, event);
}

static void
zero (TgJob *job, TgStamp stamp, double grams, gboolean set_back)
{
  TgEvent event = tg_event_blank (TG_EVENT_ZERO);

  event.stamp = stamp;
  event.mass = tg_mass_from_g (grams);
  event.set_back = set_back;
  fixture_append (job, event);
}

static void
check_weight (TgJob *job, TgStamp stamp, double grams)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.stamp = stamp;
  event.nominal = 200 * TG_MASS_G;
  event.mass = tg_mass_from_g (grams);
  fixture_append (job, event);
}

static const TgWeight *
piston (const TgReview *review, guint number)
{
  return &tg_review_part (review, number - 1)->weight[TG_FIGURE_WHOLE];
}

/* Zero 0.0 at 600 min and +0.4 at 640, then set back; +0.2 at 660, left so. */
static void
test_zero_correction (void)
{
  g_autoptr (TgJob) job = new_job ();
  g_autoptr (TgReview) review = NULL;

  zero (job, at (0, 600), 0, FALSE);
  weigh (job, at (0, 610), 1, 520.0);
  weigh (job, at (0, 630), 2, 521.0);
  zero (job, at (0, 640), 0.4, TRUE);
  weigh (job, at (0, 650), 3, 522.3);
  zero (job, at (0, 660), 0.2, FALSE);
  weigh (job, at (0, 670), 4, 520.5);
  /* the next day, before and after its only check, and the day after without one */
  weigh (job, at (1, 540), 5, 520.6);
  weigh (job, at (1, 550), 6, 520.6);
  zero (job, at (1, 560), 0.4, FALSE);
  weigh (job, at (1, 570), 7, 520.6);
  weigh (job, at (2, 540), 8, 520.6);
  review = tg_review_new (job);
  NEAR (piston (review, 1)->mean_g, 519.9); /* a quarter of the way: 0.1 */
  NEAR (piston (review, 2)->mean_g, 520.7); /* three quarters: 0.3 */
  NEAR (piston (review, 3)->mean_g, 522.2); /* half-way from 0 to 0.2 */
  NEAR (piston (review, 4)->mean_g, 520.3); /* as the last check left it */
  NEAR (piston (review, 5)->mean_g, 520.6); /* at zero at the first reading of the day */
  NEAR (piston (review, 6)->mean_g, 520.4); /* half-way from there to 0.4 */
  NEAR (piston (review, 7)->mean_g, 520.2);
  NEAR (piston (review, 8)->mean_g, 520.6);
  /* where the zero may have gone farther the reading is known less well */
  g_assert_cmpfloat (piston (review, 6)->u_g, >, piston (review, 8)->u_g + 0.01);
  g_assert_cmpfloat (piston (review, 4)->u_g, >, piston (review, 8)->u_g + 0.01);
}

static void
test_struck_zero (void)
{
  g_autoptr (TgJob) job = new_job ();
  g_autoptr (TgReview) review = NULL;
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

  zero (job, at (0, 600), 0, FALSE);
  weigh (job, at (0, 610), 1, 520.0);
  zero (job, at (0, 620), 0.4, FALSE);
  weigh (job, at (0, 630), 2, 520.0);
  zero (job, at (0, 640), 0.4, FALSE);
  strike.refers = "e2";
  strike.stamp = at (0, 650);
  fixture_append (job, strike);
  review = tg_review_new (job);
  /* from 0 to 0.4 over 40 minutes, as if nobody had looked half-way */
  NEAR (piston (review, 1)->mean_g, 519.9);
  NEAR (piston (review, 2)->mean_g, 519.7);
  g_assert_cmpuint (review->scale.checks->len, ==, 2);
  g_assert_cmpint (review->scale.last_zero, ==, 1);
  g_assert_cmpuint (review->scale.readings_since_zero, ==, 0);
}

/* Squares about the means: 0.02 (2 repeats), 0.06 (2), 0.02 (1): s² = 0.10 / 5, s = 0.14142. */
static void
weigh_three (TgJob *job, TgStamp stamp)
{
  weigh (job, stamp, 1, 520.0);
  weigh (job, stamp, 1, 520.1);
  weigh (job, stamp, 1, 520.2);
  weigh (job, stamp, 2, 521.0);
  weigh (job, stamp, 2, 521.0);
  weigh (job, stamp, 2, 521.3);
  weigh (job, stamp, 3, 522.0);
  weigh (job, stamp, 3, 522.2);
}

static void
test_repeatability (void)
{
  g_autoptr (TgJob) job = new_job ();
  g_autoptr (TgReview) few = NULL;
  g_autoptr (TgReview) review = NULL;
  const TgRepeatability *repeat;

  weigh (job, at (0, 600), 1, 520.0);
  weigh (job, at (0, 600), 1, 520.3);
  few = tg_review_new (job);
  repeat = &few->scale.repeatability[TG_SUPPORT_SCALE];
  g_assert_true (repeat->assumed);
  NEAR (repeat->deviation_g, STEP_G / 2);
  NEAR (repeat->freedom, 4);

  g_clear_pointer (&job, tg_job_free);
  job = new_job ();
  weigh_three (job, at (0, 600));
  review = tg_review_new (job);
  repeat = &review->scale.repeatability[TG_SUPPORT_SCALE];
  g_assert_false (repeat->assumed);
  NEAR (repeat->deviation_g, sqrt (0.02));
  NEAR (repeat->freedom, 5);
  g_assert_cmpfloat (repeat->rounding_u_g, <, 1e-6);
  /* t (0.95, 5) = 2.571 */
  NEAR (piston (review, 3)->u_g, 0.1);
  ABOUT (piston (review, 3)->expanded_g, 0.2571);
  ABOUT (piston (review, 1)->expanded_g, 2.5706 * sqrt (0.02 / 3));
}

/* Ends on the stand and whole rods on the pan, each with repeats of its own. */
static void
test_supports (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, TRUE, FALSE));
  g_autoptr (TgReview) review = NULL;

  for (guint i = 0; i < 3; i++)
    {
      fixture_weigh_rod (job, 1, 171.0 + (i == 2 ? 0.3 : 0), 411.0);
      fixture_weigh_rod (job, 2, 172.0, 412.0);
      fixture_weigh (job, "rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 582.0 + 0.1 * i);
      fixture_weigh (job, "rod-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 584.0 + 0.1 * i);
    }
  review = tg_review_new (job);
  /* two slots of eight with squares of 0.06; two of two with 0.02 */
  NEAR (review->scale.repeatability[TG_SUPPORT_STAND].deviation_g, sqrt (0.12 / 16));
  NEAR (review->scale.repeatability[TG_SUPPORT_STAND].freedom, 16);
  NEAR (review->scale.repeatability[TG_SUPPORT_SCALE].deviation_g, sqrt (0.04 / 4));
  NEAR (review->scale.repeatability[TG_SUPPORT_SCALE].freedom, 4);
}

/* Every end once each way up.  The two ways differ by 0.1, 0.2, 0.4, 0.4, 0.4 and 3.0 g: two lie below
 * 0.35 g and three between that and 0.45 g, so the median is 0.35 + 0.1/3 g, and s = 1.4826 × 0.38333/√2 =
 * 0.40187 with three degrees of freedom at least; the 3.0 g of one bearing do not move it.  Where the ways
 * agree half a step stands. */
static void
test_read_once (void)
{
  static const double turns[] = { 0.1, 0.4, 0.2, 0.4, 0.4, 3.0 };

  for (guint worse = 0; worse < 2; worse++)
    {
      g_autoptr (TgJob) job = tg_job_new (fixture_setup (3, TRUE, FALSE));
      g_autoptr (TgReview) review = NULL;
      const TgRepeatability *repeat;

      for (guint i = 0; i < 6; i++)
        {
          g_autofree char *part = g_strdup_printf ("rod-%u", i / 2 + 1);
          TgFigure figure = i % 2;

          fixture_weigh (job, part, figure, TG_WAY_MARK_UP, figure ? 412 : 172);
          fixture_weigh (job, part, figure, TG_WAY_MARK_DOWN,
                         (figure ? 412 : 172) - (worse ? turns[i] : 0));
        }
      review = tg_review_new (job);
      repeat = &review->scale.repeatability[TG_SUPPORT_STAND];
      g_assert_true (repeat->assumed == !worse);
      ABOUT (repeat->deviation_g, worse ? 0.40187 : 0.05);
      ABOUT (repeat->freedom, worse ? 3 : 4);
    }
}

/* Piston 4 is read twice, half-way between three looks at a zero that stays.  A look errs as a reading
 * does, z = s.  Where the looks count for the spans on both their sides, the shares of the three are
 * 1/4, 1/2, 1/4 and their squares add up to 3/8; where the scale is set back between, to four quarters
 * squared, 1/4.  What the repeats differ by for the looks' sake, 2 × (1/2 − 3/8) z² or 2 × (1/2 − 1/4)
 * z², is no scatter of their own: s² = 0.10 / (6 + 1/4) or 0.10 / (6 + 1/2). */
static void
test_shared_looks (void)
{
  for (guint set_back = 0; set_back < 2; set_back++)
    {
      g_autoptr (TgJob) job = new_job ();
      g_autoptr (TgReview) review = NULL;
      double s2 = set_back ? 0.10 / 6.5 : 0.10 / 6.25, looks = set_back ? 0.25 : 0.375;

      weigh_three (job, at (0, 600));
      zero (job, at (1, 600), 0, set_back);
      weigh (job, at (1, 610), 4, 520.0);
      zero (job, at (1, 620), 0, set_back);
      weigh (job, at (1, 630), 4, 520.0);
      zero (job, at (1, 640), 0, set_back);
      review = tg_review_new (job);
      ABOUT (review->scale.repeatability[TG_SUPPORT_SCALE].deviation_g, sqrt (s2));
      ABOUT (piston (review, 4)->u_g, sqrt (s2 / 2 + looks * s2));
    }
}

/* Check weight of 200 g, class M1 (δm 10 mg): errors +0.6, 0, −0.6 g.  Between looks
 * 0.72 / 2 = 0.36 g², within 0.02 g²: √0.34 g for 200 g. */
static void
test_wander (void)
{
  g_autoptr (TgJob) job = new_job ();
  g_autoptr (TgReview) calm = NULL;
  g_autoptr (TgReview) review = NULL;

  weigh_three (job, at (0, 600));
  check_weight (job, at (1, 600), 200.1);
  check_weight (job, at (1, 610), 200.0);
  check_weight (job, at (1, 620), 199.9);
  calm = tg_review_new (job);
  NEAR (calm->scale.wander_g, 0);

  g_clear_pointer (&job, tg_job_free);
  job = new_job ();
  weigh_three (job, at (0, 600));
  check_weight (job, at (1, 600), 200.6);
  check_weight (job, at (1, 610), 200.0);
  check_weight (job, at (1, 620), 199.4);
  review = tg_review_new (job);
  NEAR (review->scale.wander_g, sqrt (0.34) / 200);
  /* u of piston 3: 0.1 g and what 522 g of load add */
  ABOUT (piston (review, 3)->u_g, hypot (0.1, 522.1 * sqrt (0.34) / 200));
}

/* s = 0.14142 with 5 degrees of freedom.  Check weight: t (0.95) = 2.571, t (0.99) = 4.032; u is made
 * 4.032 / 3 as large, 0.1901 (0.1902 with δm / √3), so that 3 u is passed in 1 of 100: limits 0.380 and 0.570, up to the next
 * step.  Zero: σ = √(0.02 − 0.01 / 12) = 0.13844; 2.571 σ = 0.356, and 0.025 / √3 × 1.960 = 0.028 for
 * setting to zero: 0.357; with half a step for rounding 0.4 may be shown.  4.032 σ = 0.558, 0.037:
 * 0.559, so 0.6. */
static void
test_judged_checks (void)
{
  static const struct
  {
    double error;
    TgCheckWeightVerdict verdict;
  } cases[] = {
    { 0.4, TG_CHECK_WEIGHT_FITS },     { -0.4, TG_CHECK_WEIGHT_FITS },
    { 0.5, TG_CHECK_WEIGHT_DOUBTFUL }, { -0.6, TG_CHECK_WEIGHT_DOUBTFUL },
    { 0.7, TG_CHECK_WEIGHT_OFF },      { -0.9, TG_CHECK_WEIGHT_OFF },
  };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgJob) job = new_job ();
      g_autoptr (TgReview) review = NULL;
      const TgScaleCheck *weight, *empty;

      weigh_three (job, at (0, 600));
      check_weight (job, at (1, 600), 200 + cases[i].error);
      zero (job, at (2, 600), cases[i].error, TRUE);
      review = tg_review_new (job);
      weight = &g_array_index (review->scale.checks, TgScaleCheck, review->scale.last_weight);
      empty = &g_array_index (review->scale.checks, TgScaleCheck, review->scale.last_zero);
      NEAR (weight->error_g, cases[i].error);
      NEAR (weight->doubtful_g, 0.4);
      NEAR (weight->off_g, 0.6);
      g_assert_true (weight->mpe_known);
      g_assert_cmpint (weight->verdict, ==, cases[i].verdict);
      NEAR (empty->error_g, cases[i].error);
      NEAR (empty->doubtful_g, 0.4);
      NEAR (empty->off_g, 0.6);
      g_assert_true (empty->set_back);
      g_assert_cmpint (empty->verdict, ==, cases[i].verdict);
    }
}

/* Two stretches of readings with a pass between, then another piece. */
static void
test_history (void)
{
  g_autoptr (TgJob) job = new_job ();
  g_autoptr (TgReview) review = NULL;
  const TgPartReview *part;
  const TgHistoryPoint *points;
  const TgHistoryPass *pass;
  TgEvent replace = tg_event_blank (TG_EVENT_REPLACE);

  weigh (job, at (0, 600), 1, 521.0);
  weigh (job, at (0, 601), 1, 521.2);
  fixture_pass (job, "piston-1", "feet", 1.0);
  weigh (job, at (0, 620), 1, 520.3);
  replace.part = "piston-1";
  replace.stamp = at (0, 630);
  fixture_append (job, replace);
  weigh (job, at (0, 640), 1, 522.0);
  review = tg_review_new (job);
  part = tg_review_part (review, 0);
  g_assert_cmpuint (part->history->len, ==, 3);
  points = &g_array_index (part->history, TgHistoryPoint, 0);
  NEAR (points[0].mean_g, 521.1);
  g_assert_cmpuint (points[0].n, ==, 2);
  g_assert_cmpuint (points[0].piece, ==, 0);
  g_assert_cmpint (points[0].stamp.seconds, ==, at (0, 601).seconds);
  NEAR (points[1].mean_g, 520.3);
  g_assert_cmpuint (points[1].n, ==, 1);
  NEAR (points[2].mean_g, 522.0);
  g_assert_cmpuint (points[2].piece, ==, 1);
  /* half a step assumed: s/√2, s, s */
  ABOUT (points[0].u_g, 0.05 / G_SQRT2);
  ABOUT (points[1].u_g, 0.05);
  g_assert_cmpuint (part->pass_history->len, ==, 1);
  pass = &g_array_index (part->pass_history, TgHistoryPass, 0);
  NEAR (pass->taken_g, 0.8);
  g_assert_true (pass->shown);
  g_assert_cmpuint (pass->event, ==, 2);
  g_assert_cmpuint (pass->piece, ==, 0);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-scale/zero-correction", test_zero_correction);
  g_test_add_func ("/review-scale/struck-zero", test_struck_zero);
  g_test_add_func ("/review-scale/repeatability", test_repeatability);
  g_test_add_func ("/review-scale/supports", test_supports);
  g_test_add_func ("/review-scale/read-once", test_read_once);
  g_test_add_func ("/review-scale/shared-looks", test_shared_looks);
  g_test_add_func ("/review-scale/wander", test_wander);
  g_test_add_func ("/review-scale/judged-checks", test_judged_checks);
  g_test_add_func ("/review-scale/history", test_history);
  return g_test_run ();
}
