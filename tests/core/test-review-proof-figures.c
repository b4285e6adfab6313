/* test-review-proof-figures.c: what a scale can prove, and what readings have proven
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sets of equal readings are held against the studentised range, whose probabilities are in
 * published/studentised-range.txt.  All data are invented.
 */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "fixture.h"

#define NEAR(a, b, tolerance) g_assert_cmpfloat_with_epsilon (a, b, tolerance)

/* The published probability that the range of @n values over their deviation with @freedom is at most
 * @q. */
static double
published (guint n, guint freedom, guint q)
{
  g_autofree char *path = g_test_build_filename (G_TEST_DIST, "published", "studentised-range.txt",
                                                 NULL);
  g_autofree char *text = NULL;
  g_auto (GStrv) lines = NULL;

  g_assert_true (g_file_get_contents (path, &text, NULL, NULL));
  lines = g_strsplit (text, "\n", -1);
  for (guint i = 0; lines[i]; i++)
    {
      double values[4];

      if (sscanf (lines[i], "%lf %lf %lf %lf", &values[0], &values[1], &values[2], &values[3]) ==
              4 &&
          values[0] == n && values[1] == freedom && values[2] == q)
        return values[3];
    }
  g_error ("no line for %u %u %u", n, freedom, q);
}

/* @n pistons, each read as 520.1 − 0.1 and 520.1 + 0.1: squares of 0.02 each, so s² = 0.02 with n
 * degrees of freedom, and every mean has u = s/√2 = 0.1 g.  The step does not count: s is 1.4 of it. */
static TgJob *
equal_pistons (guint n, TgMass tolerance)
{
  TgSetup *setup = fixture_setup (n, FALSE, TRUE);
  TgJob *job;

  setup->tolerance[TG_BAND_PISTON] = tolerance;
  setup->repeats = 2;
  job = tg_job_new (setup);
  for (guint i = 1; i <= n; i++)
    {
      fixture_weigh_piston (job, i, 520.0);
      fixture_weigh_piston (job, i, 520.2);
    }
  return job;
}

/* A tolerance of q × 0.1 g is proven with the probability of the table. */
static void
test_studentised_range (void)
{
  static const guint ns[] = { 5, 8 };

  for (guint i = 0; i < G_N_ELEMENTS (ns); i++)
    for (guint q = 2; q <= 6; q++)
      {
        g_autoptr (TgJob) job = equal_pistons (ns[i], q * 100);
        g_autoptr (TgReview) review = tg_review_new (job);
        g_autoptr (TgProof) proof = tg_review_proof (review, TG_BAND_PISTON);
        double probability = published (ns[i], ns[i], q);

        g_assert_true (proof->judged);
        NEAR (proof->spread.spread, 0, 1e-9);
        NEAR (proof->spread.probability, probability, 1e-5);
        g_assert_cmpint (proof->spread.verdict, ==,
                         probability >= 0.95 ? TG_UNCERTAINTY_IN : TG_UNCERTAINTY_UNPROVEN);
      }
}

/* The narrowest spread with two readings is q × 0.1 g with q at 0.95: between the whole numbers that the
 * table has around it, and 5.67 for 5 values with 5 degrees of freedom (Pearson and Hartley; from
 * memory).  With n readings it is q √(0.02/n). */
static void
test_before (void)
{
  static const struct
  {
    TgMass tolerance;
    guint needed;
  } cases[] = {
    { 200, 17 }, /* (5.67 × 0.14142 / 0.2)² = 16.1 */
    { 400, 5 },  /* 4.02 */
    { 500, 3 },  /* 2.57 */
    { 600, 2 },  /* 1.79 */
    { 900, 1 },  /* 0.79 */
    { 100, 0 },  /* 64: more than anybody reads */
  };

  g_assert_cmpfloat (published (5, 5, 5), <, 0.95);
  g_assert_cmpfloat (published (5, 5, 6), >, 0.95);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autoptr (TgJob) job = equal_pistons (5, cases[i].tolerance);
      g_autoptr (TgReview) review = tg_review_new (job);
      g_autoptr (TgProof) proof = tg_review_proof (review, TG_BAND_PISTON);

      g_assert_cmpuint (proof->n_parts, ==, 5);
      g_assert_cmpuint (proof->readings, ==, 2);
      g_assert_cmpuint (proof->needed, ==, cases[i].needed);
      NEAR (proof->can[0].spread_g, 0.567, 1e-3);
      for (guint k = 1; k < TG_PROOF_STEPS; k++)
        {
          g_assert_cmpuint (proof->can[k].readings, >, proof->can[k - 1].readings);
          NEAR (proof->can[k].spread_g, 0.567 * sqrt (2.0 / proof->can[k].readings), 1e-3);
        }
    }
}

/* Before there is a job half a step is taken with 4 degrees of freedom: q = 5.76 for 4 values (Pearson
 * and Hartley; from memory), and both ways up share what the step does. */
static void
test_setup (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (4, TRUE, FALSE);
  g_autoptr (TgProof) once = tg_proof_of_setup (setup, TG_BAND_ROD_BIG);
  g_autoptr (TgProof) more = NULL;

  g_assert_cmpuint (once->readings, ==, 2);
  g_assert_false (once->judged);
  NEAR (once->can[0].spread_g, 5.76 * 0.05 / G_SQRT2, 2e-3);
  setup->repeats = 3;
  more = tg_proof_of_setup (setup, TG_BAND_ROD_BIG);
  g_assert_cmpuint (more->readings, ==, 6);
  NEAR (more->can[0].spread_g, 5.76 * 0.05 / sqrt (6), 2e-3);
}

static char *
text_of (double third_g, TgMass tolerance)
{
  TgSetup *setup = fixture_setup (3, FALSE, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgProof) proof = NULL;

  setup->tolerance[TG_BAND_PISTON] = tolerance;
  job = tg_job_new (setup);
  fixture_weigh_piston (job, 1, 520.0);
  fixture_weigh_piston (job, 2, 520.0);
  fixture_weigh_piston (job, 3, third_g);
  review = tg_review_new (job);
  proof = tg_review_proof (review, TG_BAND_PISTON);
  return g_strdup (proof->text);
}

static void
assert_says (const char *text, const char *words)
{
  if (!strstr (text, words))
    g_error ("“%s” does not say “%s”", text, words);
}

static void
test_texts (void)
{
  g_autofree char *in = text_of (520.1, 1000);
  g_autofree char *unproven = text_of (520.4, 500);
  g_autofree char *out = text_of (520.6, 500);
  g_autofree char *none = text_of (520.0, 0);

  assert_says (in, "differ by 0.1 g as read. That they differ by no more than 1 g is proven (");
  assert_says (unproven, "0.4 g as read, within 0.5 g, but this scale has not proven it");
  assert_says (unproven, "95 % is proof");
  assert_says (
      out,
      "can prove that the pistons differ by no more than 0.3 g; 0.5 g is allowed"); /* not there yet */
  assert_says (none, "cannot prove");
}

/* Nothing can be proven of a tolerance of nothing, nor is there anything to prove of one part. */
static void
test_nothing (void)
{
  g_autoptr (TgJob) none = equal_pistons (4, 0);
  g_autoptr (TgJob) one = equal_pistons (1, 500);
  g_autoptr (TgReview) review = tg_review_new (none);
  g_autoptr (TgReview) alone = tg_review_new (one);
  g_autoptr (TgProof) proof = tg_review_proof (review, TG_BAND_PISTON);
  g_autoptr (TgProof) lonely = tg_review_proof (alone, TG_BAND_PISTON);
  g_autoptr (TgProof) absent = tg_review_proof (review, TG_BAND_ROD_BIG);

  g_assert_cmpuint (proof->needed, ==, 0);
  g_assert_false (proof->judged);
  g_assert_cmpuint (lonely->n_parts, ==, 1);
  g_assert_cmpstr (lonely->text, ==, "");
  g_assert_cmpuint (lonely->needed, ==, 0);
  g_assert_cmpuint (absent->n_parts, ==, 0);
  g_assert_cmpstr (absent->text, ==, "");
}

/* A part that was ground since it was read leaves the set unjudged. */
static void
test_unread (void)
{
  g_autoptr (TgJob) job = equal_pistons (5, 600);
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgProof) proof = NULL;

  fixture_pass (job, "piston-2", "feet", 0.1);
  review = tg_review_new (job);
  proof = tg_review_proof (review, TG_BAND_PISTON);
  g_assert_false (proof->judged);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-proof-figures/studentised-range", test_studentised_range);
  g_test_add_func ("/review-proof-figures/before", test_before);
  g_test_add_func ("/review-proof-figures/setup", test_setup);
  g_test_add_func ("/review-proof-figures/texts", test_texts);
  g_test_add_func ("/review-proof-figures/nothing", test_nothing);
  g_test_add_func ("/review-proof-figures/unread", test_unread);
  return g_test_run ();
}
