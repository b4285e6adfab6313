/* test-reading-check.c: slips of the fingers that the rest of the rod gives away
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The questions about a part's own weight and about the others of the set are tried in
 * test-review.c.  All data are invented; the whole of a rod is the sum of its ends (moments about
 * either support).
 */
#include "reading-check.h"

#include <string.h>

#include "fixture.h"

static const TgSlot small = { 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP };
static const TgSlot big = { 0, TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN };
static const TgSlot whole = { 0, TG_FIGURE_WHOLE, TG_WAY_ANY };

static void
expect (const TgJob *job, TgSlot slot, double grams, const char *words)
{
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autofree char *text = NULL;
  TgReadingVerdict verdict = tg_reading_check (review, slot, tg_mass_from_g (grams), &text);

  if (!words)
    g_assert_cmpstr (text, ==, NULL);
  else if (!text || !strstr (text, words))
    g_error ("“%s” does not say “%s”", text ? text : "", words);
  g_assert_cmpint (verdict, ==, words ? TG_READING_ASK : TG_READING_FINE);
}

static void
test_whole (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (1, TRUE, FALSE));

  expect (job, whole, 700, NULL); /* nothing to hold it against */
  fixture_weigh_rod (job, 1, 171.6, 411.2);
  expect (job, whole, 582.8, NULL);
  expect (job, whole, 583.0, NULL); /* 0.22 g is what the scale explains, see test-review.c */
  expect (job, whole, 583.1, "583.1 g is 0.3 g more than the 582.8 g that both ends make together");
  expect (job, whole, 592.8, "10.0 g more than the 582.8 g");
  expect (job, whole, 58.3, "A decimal place?");
  expect (job, whole, 528.8, "Two digits swapped, 582.8 g?");
}

static void
test_end (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (1, TRUE, FALSE));

  fixture_weigh (job, "rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 582.8);
  expect (job, small, 300, NULL); /* two unknowns */
  fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 411.2);
  expect (job, small, 171.6, NULL);
  expect (job, small, 177.6,
          "6.0 g more than the 171.6 g that the whole leaves beside the other end");
  expect (job, small, 411.3, "looks like the other end");
  fixture_weigh (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
  expect (job, big, 411.4, NULL);
  expect (job, big, 411.6, "The two ways up differ by 0.4 g; this scale explains 0.33 g");
  expect (job, big, 412.1, "Two digits swapped, 411.2 g?");
}

/* After a pass the rest is reckoned only; it is no measure until it has been read again. */
static void
test_after_a_pass (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (1, TRUE, FALSE));

  fixture_weigh_rod (job, 1, 171.6, 411.2);
  fixture_weigh (job, "rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 582.8);
  fixture_pass (job, "rod-1", "shoulders", 1);
  expect (job, big, 410.2, NULL);
  expect (job, big, 411.4, NULL); /* nothing came off, within what the scale explains */
  expect (job, big, 412.3, "more than before the pass");
  /* as wanted, give or take 20 %: more than 3.7 times as much comes once in a hundred passes */
  expect (job, big, 409.0, NULL);
  expect (job, big, 406.6, "far less than the 410");
}

/* Five readings of one weight, scattered as 0.1 g: the sixth may be off by 4.604 × 0.1 × sqrt (1 +
 * 1/5) = 0.50 g (JCGM 100, table G.2: t of 99 % at 4). */
static void
test_repeats (void)
{
  static const double readings[] = { 520.0, 520.1, 519.9, 520.1, 519.9 };
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (1, FALSE, TRUE));

  for (guint i = 0; i < G_N_ELEMENTS (readings); i++)
    fixture_weigh_piston (job, 1, readings[i]);
  expect (job, whole, 520.5, NULL);
  expect (job, whole, 520.6,
          "520.6 g is 0.6 g away from what was read before; this scale explains "
          "0.50 g");
  expect (job, whole, 502.0, "Two digits swapped, 520.0 g?");
  expect (job, whole, 52.0, "A decimal place?");
}

/* A zero that was read and left as it was stands under every reading that follows that day. */
static void
test_zero_left (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (1, FALSE, TRUE));
  TgEvent zero = tg_event_blank (TG_EVENT_ZERO);

  fixture_weigh_piston (job, 1, 520.0);
  zero.mass = 400;
  fixture_append (job, zero);
  expect (job, whole, 520.4, NULL);
  expect (job, whole, 520.0, "0.4 g away from what was read before");
  zero.set_back = TRUE;
  fixture_append (job, zero);
  expect (job, whole, 520.0, NULL);
}

static void
test_pistons_have_no_ends (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, FALSE, TRUE));

  fixture_weigh_piston (job, 2, 520);
  expect (job, whole, 530, NULL);
  expect (job, whole, 52, "A decimal place?");
}

/* What is no reading never becomes one, and the message says what was typed. */
static void
test_what_cannot_be_typed (void)
{
  static const char *const texts[] = {
    "12..4",   "-3",  "",    " ",    "1e3",     "12,4,1",  "1.2345",
    "12 4",    "nan", "inf", "0x10", "+5",      "12.4 kg", "١٢",
    "1,234.5", "g",   ".",   ",",    "12.4g g", "12\n4",   "99999999999999999999"
  };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      TgMass mass = -7;

      g_assert_false (tg_mass_parse (texts[i], &mass, &error));
      g_assert_cmpint (mass, ==, -7);
      g_assert_nonnull (error);
      g_assert_null (strchr (error->message, '\n'));
      g_assert_cmpuint (strlen (error->message), <, 200);
    }
}

static void
test_very_long_text (void)
{
  g_autofree char *digits = g_strnfill (100000, '7');
  g_autofree char *words = g_strnfill (100000, 'x');
  const char *const texts[] = { digits, words };

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      g_autoptr (GError) error = NULL;
      TgMass mass;

      g_assert_false (tg_mass_parse (texts[i], &mass, &error));
      g_assert_cmpuint (strlen (error->message), <, 200);
    }
}

/* What the empty scale shows may be below nothing; what lies on it is asked about. */
static void
test_zero (void)
{
  static const struct
  {
    double grams;
    TgReadingVerdict verdict;
    const char *words;
  } cases[] = { { 0, TG_READING_FINE, NULL },
                { 0.1, TG_READING_FINE, NULL },
                { -0.3, TG_READING_FINE, NULL },
                { -5, TG_READING_FINE, NULL },
                { 0.15, TG_READING_ASK, "step" },
                { 5.1, TG_READING_ASK, "Is it empty?" },
                { -171.6, TG_READING_ASK, "−171.6 g is much" },
                { 1000, TG_READING_ASK, "much" },
                { 1000.1, TG_READING_REFUSE, "not what" },
                { -1000.1, TG_READING_REFUSE, "−1000.1 g is not what" } };
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (1, TRUE, FALSE));
  g_autoptr (TgReview) review = tg_review_new (job);

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = NULL;
      TgReadingVerdict verdict = tg_reading_check_zero (review, tg_mass_from_g (cases[i].grams),
                                                        &text);

      g_assert_cmpint (verdict, ==, cases[i].verdict);
      g_assert_cmpint (text == NULL, ==, cases[i].words == NULL);
      if (text && !strstr (text, cases[i].words))
        g_error ("“%s” does not say “%s”", text, cases[i].words);
    }
}

static void
test_check_weight (void)
{
  static const struct
  {
    double grams;
    TgReadingVerdict verdict;
    const char *words;
  } cases[] = { { 200, TG_READING_FINE, NULL },      { 199.4, TG_READING_FINE, NULL },
                { 210, TG_READING_FINE, NULL },      { 210.1, TG_READING_ASK, "the right one?" },
                { 100, TG_READING_ASK, "200 g of" }, { 200.05, TG_READING_ASK, "step" },
                { 0, TG_READING_REFUSE, "nothing" }, { 5000.1, TG_READING_REFUSE, "5000 g" } };
  TgSetup *setup = fixture_setup (1, TRUE, FALSE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL;

  setup->check_weight = 200 * TG_MASS_G;
  job = tg_job_new (setup);
  review = tg_review_new (job);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *text = NULL;
      TgReadingVerdict verdict = tg_reading_check_weight (review, tg_mass_from_g (cases[i].grams),
                                                          &text);

      g_assert_cmpint (verdict, ==, cases[i].verdict);
      g_assert_cmpint (text == NULL, ==, cases[i].words == NULL);
      if (text && !strstr (text, cases[i].words))
        g_error ("“%s” does not say “%s”", text, cases[i].words);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/reading-check/whole", test_whole);
  g_test_add_func ("/reading-check/end", test_end);
  g_test_add_func ("/reading-check/after-a-pass", test_after_a_pass);
  g_test_add_func ("/reading-check/repeats", test_repeats);
  g_test_add_func ("/reading-check/zero-left", test_zero_left);
  g_test_add_func ("/reading-check/pistons-have-no-ends", test_pistons_have_no_ends);
  g_test_add_func ("/reading-check/what-cannot-be-typed", test_what_cannot_be_typed);
  g_test_add_func ("/reading-check/very-long-text", test_very_long_text);
  g_test_add_func ("/reading-check/zero", test_zero);
  g_test_add_func ("/reading-check/check-weight", test_check_weight);
  return g_test_run ();
}
