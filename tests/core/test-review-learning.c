/* test-review-learning.c: what the journal teaches of levers and passes, worked out by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All data are invented; figures beside each case are reckoned on paper.
 */
#include <math.h>

#include "fixture.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

#define SHOULDERS 1

static void
pass (TgJob *job, const char *part, const char *zone, TgTool tool, double wanted_g, guint strokes)
{
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = part;
  event.zone = zone;
  event.tool = tool;
  event.mass = tg_mass_from_g (wanted_g);
  event.effort = strokes > 0 ? TG_EFFORT_STROKES : TG_EFFORT_NONE;
  event.count = strokes;
  fixture_append (job, event);
}

/* Every slot once 0.1 below and once 0.1 above: squares of 0.02 in each. */
static void
weigh_rod_twice (TgJob *job, guint number, double small_g, double big_g)
{
  fixture_weigh_rod (job, number, small_g - 0.1, big_g - 0.1);
  fixture_weigh_rod (job, number, small_g + 0.1, big_g + 0.1);
}

/* s² = 0.02; a mean of four has u² = 0.005, the fall of an end u² = 0.01, so u = 0.1 g.
 *
 * The shoulders of the fixture are drawn 9 mm of 150 mm up, λ = 0.06, and are 18 mm long: u² = 18²/12 +
 * 0.5² mm², u = 5.220 mm or 0.034801.  One pass takes 0.42 g of the small end and 2.58 g of the big end:
 * λ = 0.42/3 = 0.14, with v = (0.86² + 0.14²) 0.01 and u = √v/3 = 0.02904.  Their weighted mean is
 * (0.06/0.034801² + 0.14/0.02904²)/(1/0.034801² + 1/0.02904²) = 0.1072.  With v and m taken there,
 * v = 0.008086 and m = (0.1072 × 0.42 + 0.8928 × 2.58) 0.01/v = 2.904, the information of the pass is
 * (m² − 0.0001/v)/v = 1041.5, that of the drawing 825.7: u = 0.02314. */
static void
test_lever (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, TRUE, FALSE));
  g_autoptr (TgReview) before = NULL;
  g_autoptr (TgReview) review = NULL;
  const TgLeverLearning *lever;

  weigh_rod_twice (job, 1, 172.0, 413.0);
  weigh_rod_twice (job, 2, 172.0, 413.0);
  before = tg_review_new (job);
  lever = &tg_part_review_zone (tg_review_part (before, 1), SHOULDERS)->lever;
  NEAR (lever->lever, 0.06, 1e-9);
  NEAR (lever->u, 0.034801, 1e-6);
  g_assert_cmpuint (lever->freedom, ==, 0);

  pass (job, "rod-1", "shoulders", TG_TOOL_BELT, 3, 0);
  weigh_rod_twice (job, 1, 171.58, 410.42);
  review = tg_review_new (job);
  lever = &tg_part_review_zone (tg_review_part (review, 1), SHOULDERS)->lever;
  g_assert_cmpuint (lever->freedom, ==, 1);
  g_assert_true (lever->consistent);
  /* the best λ makes 0.06 and the pass pull alike: (λ − 0.06)/0.034801² = ρ m/√v */
  {
    double l = lever->lever, v = 0.01 * ((1 - l) * (1 - l) + l * l);
    double residual = 0.42 * (1 - l) - 2.58 * l, metal = 0.01 * (0.42 * l + 2.58 * (1 - l)) / v;

    NEAR ((l - 0.06) / (0.034801 * 0.034801), residual * metal / v, 0.05);
  }
  NEAR (lever->lever, 0.1072, 3e-3);
  NEAR (lever->u, 0.02314, 2e-4);
  /* of every rod of the design, and of no other zone */
  g_assert_cmpfloat (tg_part_review_zone (tg_review_part (review, 0), SHOULDERS)->lever.lever, ==,
                     lever->lever);
  g_assert_cmpuint (tg_part_review_zone (tg_review_part (review, 0), 2)->lever.freedom, ==, 0);
}

/* With n 0 if there is none. */
static TgMethodReview
method_of (const TgReview *review, TgTool tool, TgMetal metal, TgEffort effort)
{
  for (guint i = 0; i < review->methods->len; i++)
    {
      const TgMethodReview *method = &g_array_index (review->methods, TgMethodReview, i);

      if (method->tool == tool && method->metal == metal && method->effort == effort)
        return *method;
    }
  return (TgMethodReview){ 0 };
}

/* Asked 1 g, 0.8 g came off, ln 0.8 = −0.22314, known with 0.05 √2 = 0.0707 g.  Grams start from one
 * pass as asked and 20 % with four degrees of freedom; of the pass 0.2²/(0.2² + 0.0707²) = 0.8889 counts:
 * ratio −0.8889 × 0.22314/1.8889 = −0.10501, squares 4 × 0.04 + 0.8889 (0.22314²/1.8889 − 0.005) =
 * 0.17899 over 4.8889.  Strokes know no ratio before: ln (0.8/20), and the 20 % stand. */
static void
test_methods (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, TRUE, TRUE));
  g_autoptr (TgReview) review = NULL;
  TgMethodReview method;

  fixture_weigh_rod (job, 1, 172.0, 413.0);
  fixture_weigh_piston (job, 1, 522.0);
  pass (job, "piston-1", "feet", TG_TOOL_FILE, 1, 20);
  fixture_weigh_piston (job, 1, 521.2);
  pass (job, "rod-1", "cap-pad", TG_TOOL_BELT, 1, 0);
  fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 412.0);
  review = tg_review_new (job);
  g_assert_cmpuint (review->methods->len, ==, 3);

  method = method_of (review, TG_TOOL_FILE, TG_METAL_ALUMINIUM, TG_EFFORT_NONE);
  g_assert_cmpuint (method.n, ==, 1);
  NEAR (method.method.log_ratio, -0.10501, 1e-5);
  NEAR (method.method.scatter, sqrt (0.17899 / 4.8889), 1e-5);
  NEAR (method.method.weight, 1.8889, 1e-4);
  NEAR (method.method.freedom, 4.8889, 1e-4);

  method = method_of (review, TG_TOOL_FILE, TG_METAL_ALUMINIUM, TG_EFFORT_STROKES);
  g_assert_cmpuint (method.n, ==, 1);
  NEAR (method.method.log_ratio, log (0.8 / 20), 1e-6);
  NEAR (method.method.scatter, 0.20, 1e-9);
  g_assert_cmpfloat (method.method.freedom, ==, 4);

  g_assert_cmpuint (method_of (review, TG_TOOL_BELT, TG_METAL_STEEL, TG_EFFORT_NONE).n, ==, 1);
  g_assert_cmpuint (method_of (review, TG_TOOL_BELT, TG_METAL_ALUMINIUM, TG_EFFORT_NONE).n, ==, 0);
  g_assert_cmpint (review->tool[TG_METAL_ALUMINIUM], ==, TG_TOOL_FILE);
  g_assert_cmpint (review->tool[TG_METAL_STEEL], ==, TG_TOOL_BELT);
}

/* A pass of one step tells more of the scale than of the hand. */
static void
test_small_pass (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, FALSE, TRUE));
  g_autoptr (TgReview) review = NULL;

  fixture_weigh_piston (job, 1, 522.0);
  pass (job, "piston-1", "feet", TG_TOOL_FILE, 0.1, 0);
  fixture_weigh_piston (job, 1, 521.9);
  review = tg_review_new (job);
  g_assert_cmpuint (review->methods->len, ==, 1);
  g_assert_cmpuint (g_array_index (review->methods, TgMethodReview, 0).n, ==, 0);
}

/* Three pistons whose feet may give 20 g. */
static TgSetup *
generous_pistons (void)
{
  TgSetup *setup = fixture_setup (3, FALSE, TRUE);

  tg_design_zone (g_ptr_array_index (setup->designs, 0), 0)->capacity = 20 * TG_MASS_G;
  return setup;
}

/* Piston 1 is 4 g above the others.  @strokes: each pass before took 1 g with so many. */
static TgJob *
heavy_piston (guint strokes)
{
  TgJob *job = tg_job_new (generous_pistons ());

  fixture_weigh_piston (job, 2, 518.0);
  fixture_weigh_piston (job, 3, 518.0);
  fixture_target (job, TG_BAND_PISTON, 517.6);
  fixture_weigh_piston (job, 1, 524.0);
  for (guint i = 1; strokes > 0 && i <= 2; i++)
    {
      pass (job, "piston-1", "feet", TG_TOOL_FILE, 1, strokes);
      fixture_weigh_piston (job, 1, 524.0 - i);
    }
  if (strokes == 0)
    {
      pass (job, "piston-1", "feet", TG_TOOL_FILE, 2, 0);
      fixture_weigh_piston (job, 1, 522.0);
    }
  return job;
}

/* Two passes of 20 strokes took 1 g each: 0.05 g a stroke.  From 522.0 to 518.1 g it is 78 strokes; to
 * the lower edge, 517.6 g, 88; the chance of 2 % leaves less. */
static void
test_pass_effort (void)
{
  g_autoptr (TgJob) job = heavy_piston (20);
  g_autoptr (TgJob) untold = heavy_piston (0);
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (TgReview) without = tg_review_new (untold);
  const TgNext *next = review->next;
  TgEffort effort;
  guint count;

  g_assert_cmpint (next->kind, ==, TG_NEXT_GRIND);
  g_assert_cmpint (next->effort, ==, TG_EFFORT_STROKES);
  NEAR (next->amount_g, 3.9, 1e-6);
  g_assert_cmpuint (next->count, >, 30);
  g_assert_cmpuint (next->count, <, 78);
  count = tg_review_pass_effort (review, 0, next, TG_TOOL_FILE, &effort);
  g_assert_cmpuint (count, ==, next->count);
  /* another tool was never counted */
  g_assert_cmpuint (tg_review_pass_effort (review, 0, next, TG_TOOL_BURR, &effort), ==, 0);
  g_assert_cmpint (effort, ==, TG_EFFORT_NONE);
  g_assert_cmpint (without->next->effort, ==, TG_EFFORT_NONE);
  g_assert_cmpuint (without->next->count, ==, 0);
}

/* The more the owner risks, the more a pass may take; never more than may come off. */
static void
test_setting (void)
{
  static const char *const settings[] = { "0.1", "1", "5", "20" };
  double before_g = 0;
  guint before = 0;

  for (guint i = 0; i < G_N_ELEMENTS (settings); i++)
    {
      g_autoptr (TgJob) job = heavy_piston (20);
      g_autoptr (TgReview) review = NULL;
      TgEvent set = tg_event_blank (TG_EVENT_SET);

      set.path = "overshoot";
      set.value = settings[i];
      fixture_append (job, set);
      review = tg_review_new (job);
      g_assert_cmpint (review->next->kind, ==, TG_NEXT_GRIND);
      g_assert_cmpfloat (review->next->pass_g, >, before_g);
      g_assert_cmpfloat (review->next->pass_g, <=, review->next->at_most_g);
      g_assert_cmpuint (review->next->count, >, before);
      before_g = review->next->pass_g;
      before = review->next->count;
    }
}

/* A hand that takes 0.8 of what it is asked is asked for more than one that takes all of it. */
static void
test_sparing_hand (void)
{
  double pass_g[2];

  for (guint sparing = 0; sparing < 2; sparing++)
    {
      g_autoptr (TgJob) job = tg_job_new (generous_pistons ());
      g_autoptr (TgReview) review = NULL;
      double weight_g = 530;

      fixture_weigh_piston (job, 2, 518.0);
      fixture_weigh_piston (job, 3, 518.0);
      fixture_target (job, TG_BAND_PISTON, 517.6);
      fixture_weigh_piston (job, 1, weight_g);
      for (guint i = 0; i < 8; i++)
        {
          pass (job, "piston-1", "feet", TG_TOOL_FILE, sparing ? 1.25 : 1, 0);
          fixture_weigh_piston (job, 1, weight_g -= 1);
        }
      review = tg_review_new (job);
      pass_g[sparing] = review->next->pass_g;
      NEAR (review->next->amount_g, 3.9, 1e-6);
      g_assert_cmpfloat (pass_g[sparing], <=, review->next->at_most_g);
    }
  g_assert_cmpfloat (pass_g[1], >, pass_g[0]);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-learning/lever", test_lever);
  g_test_add_func ("/review-learning/methods", test_methods);
  g_test_add_func ("/review-learning/small-pass", test_small_pass);
  g_test_add_func ("/review-learning/pass-effort", test_pass_effort);
  g_test_add_func ("/review-learning/setting", test_setting);
  g_test_add_func ("/review-learning/sparing-hand", test_sparing_hand);
  return g_test_run ();
}
