/* test-review-proof.c: what readings prove of a set, and how many more would
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The chance of conformance at a limit is one half: JCGM 106:2012, 7.4 and figure 5.  All data are
 * invented.
 */
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "review-private.h"

static TgJob *
rods (guint n, double small_spread_g, double big_spread_g)
{
  TgJob *job = tg_job_new (fixture_setup (n, TRUE, FALSE));

  for (guint i = 1; i <= n; i++)
    fixture_weigh_rod (job, i, 171.6 + (i == 2) * small_spread_g, 412.1 + (i == 1) * big_spread_g);
  return job;
}

/* The lightest part lies on the edge of its band, since it is what makes the edge: by itself it has
 * one chance in two.  That its band is proven says that it is even all the same. */
static void
test_lightest (void)
{
  g_autoptr (TgJob) job = rods (4, 0.1, 0.1);
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgWeight *lightest = &tg_review_part (review, 2)->weight[TG_FIGURE_SMALL_END];

  g_assert_true (review->bands[TG_BAND_ROD_SMALL].even);
  g_assert_true (review->bands[TG_BAND_ROD_SMALL].proven);
  g_assert_cmpint (lightest->verdict, ==, TG_UNCERTAINTY_UNPROVEN);
  g_assert_cmpfloat_with_epsilon (lightest->probability, 0.5, 1e-3);
  g_assert_true (lightest->proven);
  g_assert_cmpstr (tg_weight_verdict_label (lightest), ==, "proven");
  g_assert_cmpstr (tg_part_review_label (tg_review_part (review, 2)), ==, "even, proven");
  g_assert_cmpstr (review->next->large, ==, "even, proven");
}

/* Even as read and even for sure are two things; both are said. */
static void
test_not_proven (void)
{
  g_autoptr (TgJob) job = rods (4, 0.45, 0.1);
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgBandReview *small = &review->bands[TG_BAND_ROD_SMALL];

  g_assert_true (review->done);
  g_assert_true (small->even && !small->proven);
  g_assert_cmpfloat (small->probability, <, TG_REVIEW_LEVEL);
  g_assert_true (review->bands[TG_BAND_ROD_BIG].proven);
  g_assert_cmpstr (review->next->large, ==, "even, not proven yet");
  g_assert_true (g_str_has_suffix (review->standing, "the set is even, not proven yet"));
  /* the lightest small end, but not its big end */
  g_assert_cmpstr (tg_part_review_label (tg_review_part (review, 2)), ==, "even, not proven");
  g_assert_false (tg_review_part (review, 2)->weight[TG_FIGURE_SMALL_END].proven);
  g_assert_true (tg_review_part (review, 2)->weight[TG_FIGURE_BIG_END].proven);
}

/* Nothing to be even with. */
static void
test_single (void)
{
  g_autoptr (TgJob) job = rods (1, 0, 0);
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (TgProof) proof = tg_review_proof (review, TG_BAND_ROD_SMALL);

  g_assert_cmpstr (review->next->large, ==, "even, proven");
  g_assert_cmpstr (proof->text, ==, "");
}

/* The chance that a spread of @values is within @tolerance_g, with @readings of each. */
static double
chance_with (const TgReview *review, const double *values, gsize n, guint readings)
{
  const TgRepeatability *repeat = &review->scale.repeatability[TG_SUPPORT_STAND];
  double random = repeat->deviation_g / sqrt (readings), u[2 * TG_MAX_CYLINDERS];
  double both = hypot (random, repeat->rounding_u_g / sqrt (2));
  const TgUncertaintySet set = { values, u, n, repeat->freedom * pow (both / random, 4) };

  for (gsize i = 0; i < n; i++)
    u[i] = both;
  return tg_uncertainty_spread_probability (
      &set, tg_mass_to_g (review->setup->tolerance[TG_BAND_ROD_SMALL]) + TG_REVIEW_TINY_G);
}

/* As many readings as are enough prove it, the next fewer do not; found one by one. */
static void
test_enough (void)
{
  static const double spreads_g[] = { 0.3, 0.35, 0.4, 0.45, 0.5 };
  guint met = 0;

  for (guint i = 0; i < G_N_ELEMENTS (spreads_g); i++)
    {
      g_autoptr (TgJob) job = rods (4, spreads_g[i], 0);
      g_autoptr (TgReview) review = tg_review_new (job);
      g_autoptr (TgProof) proof = tg_review_proof (review, TG_BAND_ROD_SMALL);
      const double values[] = { 171.6, 171.6 + spreads_g[i], 171.6, 171.6 };
      const double same[4] = { 0 };
      guint expected = 0, needed = 0;

      for (guint n = 2 * TG_SETUP_MAX_REPEATS; n > 2; n -= 2)
        expected = chance_with (review, values, 4, n) >= TG_REVIEW_LEVEL ? n : expected;
      for (guint n = TG_UNCERTAINTY_MAX_REPEATS; n >= 2; n -= 2)
        needed = chance_with (review, same, 4, n) >= TG_REVIEW_LEVEL ? n : needed;
      g_test_message ("%g g: enough %u, needed %u", spreads_g[i], proof->enough, proof->needed);
      g_assert_cmpuint (proof->needed, ==, needed);
      g_assert_cmpuint (proof->enough, ==,
                        proof->spread.verdict == TG_UNCERTAINTY_UNPROVEN ? expected : 0);
      met += proof->enough > 0;
      if (proof->spread.verdict == TG_UNCERTAINTY_UNPROVEN)
        g_assert_nonnull (strstr (proof->text, proof->enough > 0 ? "would prove it" : "will not"));
    }
  g_assert_cmpuint (met, >, 1);
}

/* A chance is never rounded up to what it does not reach. */
static void
test_percent (void)
{
  static const struct
  {
    double probability;
    const char *text;
  } cases[] = { { 0, "0" },
                { 0.5, "50" },
                { 0.9499999, "94" },
                { 0.95, "95" },
                { 0.9899, "98" },
                { 0.9949, "99.4" },
                { 0.99899, "99.8" },
                { 0.9991, "more than 99.9" },
                { 1, "more than 99.9" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = tg_review_percent (cases[i].probability);

      g_assert_cmpstr (text, ==, cases[i].text);
    }
}

/* A scale that shows anything proves nothing, and says so in a number that can be read. */
static void
test_wild_scale (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (4, FALSE, TRUE));
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgProof) proof = NULL;

  for (guint i = 1; i <= 4; i++)
    for (guint n = 0; n < 3; n++)
      fixture_weigh_piston (job, i, n == 1 ? 90000 : 100);
  review = tg_review_new (job);
  proof = tg_review_proof (review, TG_BAND_PISTON);
  g_assert_cmpuint (proof->needed, ==, 0);
  g_assert_nonnull (proof->text);
  g_assert_null (strstr (proof->text, "inf"));
}

static const TgTerm *
find_term (GPtrArray *why, const char *label)
{
  for (guint i = 0; i < why->len; i++)
    if (strcmp (((const TgTerm *) g_ptr_array_index (why, i))->label, label) == 0)
      return g_ptr_array_index (why, i);
  g_error ("no term “%s”", label);
  return NULL;
}

/* The reason of an amount says how well its weights are known, and from what. */
static void
test_why (void)
{
  g_autoptr (TgJob) job = rods (4, 2, 0);
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (GPtrArray) why = tg_review_why_zone (review, 1, 0);
  const TgWeight *weight = &tg_review_part (review, 1)->weight[TG_FIGURE_SMALL_END];
  g_autofree char *around = tg_review_plus_minus (review, weight->expanded_g);
  const TgTerm *term = find_term (why, "small end known to");
  TgEvent zero = tg_event_blank (TG_EVENT_ZERO);
  g_autoptr (TgReview) after = NULL;
  g_autoptr (GPtrArray) why_after = NULL;

  g_assert_true (g_str_has_prefix (term->figure, around));
  g_assert_nonnull (strstr (term->remark, "at 95 %: 2 readings"));
  g_assert_nonnull (strstr (term->remark, "half a step"));
  g_assert_nonnull (strstr (term->remark, "the zero was never checked"));
  g_assert_nonnull (strstr (find_term (why, "inside its band")->remark, "the chance of it"));
  fixture_append (job, zero);
  after = tg_review_new (job);
  why_after = tg_review_why_zone (after, 1, 0);
  g_assert_nonnull (strstr (find_term (why_after, "small end known to")->remark,
                            "the zero between its checks is in it"));
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-proof/lightest", test_lightest);
  g_test_add_func ("/review-proof/not-proven", test_not_proven);
  g_test_add_func ("/review-proof/single", test_single);
  g_test_add_func ("/review-proof/enough", test_enough);
  g_test_add_func ("/review-proof/percent", test_percent);
  g_test_add_func ("/review-proof/wild-scale", test_wild_scale);
  g_test_add_func ("/review-proof/why", test_why);
  return g_test_run ();
}
