/* test-lesson-question.c: what lessons ask, against sums done by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings are invented.  Effects are moments about the bores of a beam on two supports, as in any
 * textbook of statics, written out here with the drawing's dimensions.
 */
#include "lesson-question.h"
#include "reason.h"

#include <math.h>
#include <string.h>

#include "lesson-text.h"

typedef struct
{
  TgLesson *lesson;
  TgJob *job;
  TgReview *review;
  TgLessonAnswer *answer;
} Asked;

/* Two rods and two pistons with pins:
 * rod 1 small up 250.4, down 250.1; big up 600.2, down 600.4; whole 850.5
 * rod 2 small 251.6, big 600.9; pistons 400.0 and 402.0, pins 100.4 and 99.1 */
static void
weigh_all (TgJob *job)
{
  lesson_text_weigh (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 250.4);
  lesson_text_weigh (job, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 250.1);
  lesson_text_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 600.2);
  lesson_text_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN, 600.4);
  lesson_text_weigh (job, "rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 850.5);
  lesson_text_weigh_rod (job, "rod-2", 251.6, 600.9);
  lesson_text_weigh (job, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 400.0);
  lesson_text_weigh (job, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 402.0);
  lesson_text_weigh (job, "pin-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 100.4);
  lesson_text_weigh (job, "pin-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 99.1);
}

static Asked
ask (const char *question, gboolean weighed)
{
  Asked asked = { .lesson = lesson_text_ask (question) };

  asked.job = tg_lesson_new_job (asked.lesson, (TgStamp){ 1780000000, 60 }, "");
  if (weighed)
    weigh_all (asked.job);
  asked.review = tg_review_new (asked.job);
  asked.answer = tg_lesson_answer_new (tg_lesson_step (asked.lesson, 0)->question, asked.review);
  return asked;
}

static void
done (Asked *asked)
{
  tg_lesson_answer_free (asked->answer);
  tg_review_free (asked->review);
  tg_job_free (asked->job);
  tg_lesson_free (asked->lesson);
}

/* Of 1.5 g off a place d mm from the big end's centre, L = 150 mm: the moment about the big end's bore says
 * small end −1.5 d/150; what is left of −1.5 is the big end's. */
static void
test_effect (void)
{
  static const struct
  {
    const char *zone;
    gboolean small_up, big_up;
  } rows[] = { { "small-pad", FALSE, TRUE },
               { "small-sides", FALSE, FALSE },
               { "beam-edges", FALSE, FALSE },
               { "big-shoulders", FALSE, FALSE },
               { "cap-pad", TRUE, FALSE } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    for (guint end = 0; end < 3; end++)
      {
        static const char *const figures[] = { "small-end", "big-end", "whole" };
        g_autofree char *question = g_strdup_printf (
            "<effect part=\"rod-1\" zone=\"%s\" figure=\"%s\" grams=\"1.5\"/>", rows[i].zone,
            figures[end]);
        Asked asked = ask (question, FALSE);
        const TgDesign *design = tg_review_part (asked.review, 0)->design;
        double d = tg_design_zone_position (design,
                                            tg_design_find_zone (design, rows[i].zone, NULL));
        double small = -1.5 * d / 150, big = -1.5 - small;

        g_assert_cmpfloat_with_epsilon (asked.answer->value,
                                        end == 0   ? small
                                        : end == 1 ? big
                                                   : -1.5,
                                        1e-9);
        g_assert_true (asked.answer->moves);
        g_assert_cmpfloat_with_epsilon (asked.answer->effect.small, small, 1e-9);
        g_assert_cmpfloat_with_epsilon (asked.answer->effect.big, big, 1e-9);
        g_assert_cmpint (small > 1e-6, ==, rows[i].small_up);
        g_assert_cmpint (big > 1e-6, ==, rows[i].big_up);
        g_assert_cmpuint (asked.answer->sum->len, >=, 4);
        done (&asked);
      }
}

/* The pad above the small end: an eye of 36 mm and a pad 5 mm high beyond it, so that its middle is
 * 150 + 18 + 2.5 = 170.5 mm from the big end; 1 g off it: small −1.137, big +0.137. */
static void
test_small_pad_by_hand (void)
{
  Asked asked = ask ("<effect part=\"rod-1\" zone=\"small-pad\" figure=\"big-end\" grams=\"1\"/>",
                     FALSE);

  g_assert_cmpfloat_with_epsilon (asked.answer->value, 0.137, 0.02);
  g_assert_true (tg_lesson_answer_judge (asked.answer, "+0.14"));
  g_assert_true (tg_lesson_answer_judge (asked.answer, "0,14 g"));
  g_assert_false (tg_lesson_answer_judge (asked.answer, "−0.14"));
  g_assert_false (tg_lesson_answer_judge (asked.answer, "0"));
  g_assert_false (tg_lesson_answer_judge (asked.answer, "0.3"));
  done (&asked);
}

/* Something to see, then the rule and its source. */
static void
check_closed (const GPtrArray *sum)
{
  g_assert_cmpuint (sum->len, >, 2);
  for (guint i = 0; i < sum->len; i++)
    g_assert_true (tg_reason_is_closing (g_ptr_array_index (sum, i)) == (i + 2 >= sum->len));
  g_assert_cmpstr (((TgTerm *) g_ptr_array_index (sum, sum->len - 1))->label, ==, TG_REASON_SOURCE);
}

static void
test_numbers (void)
{
  static const struct
  {
    const char *question;
    double value;
    const char *unit;
  } rows[] = {
    { "<mean part=\"rod-1\" figure=\"small-end\"/>", (250.4 + 250.1) / 2, "g" },
    { "<turn part=\"rod-1\" figure=\"small-end\"/>", 250.4 - 250.1, "g" },
    { "<turn part=\"rod-1\" figure=\"big-end\"/>", 600.2 - 600.4, "g" },
    { "<closure part=\"rod-1\"/>", 250.25 + 600.3 - 850.5, "g" },
    { "<spread band=\"rod-small\"/>", 251.6 - 250.25, "g" },
    /* with their pins: 500.4 and 501.1 */
    { "<spread band=\"piston\"/>", 501.1 - 500.4, "g" },
    { "<target band=\"piston\"/>", 500.4, "g" },
    { "<sum bore=\"2\"/>", 402.0 + 99.1, "g" },
    /* 501.1 down to 500.4 + 0.5 */
    { "<come-off part=\"piston-2\"/>", 501.1 - 500.9, "g" },
    { "<come-off part=\"piston-1\"/>", 0, "g" },
    /* not below 500.4 */
    { "<at-most part=\"piston-2\" zone=\"boss-feet\"/>", 501.1 - 500.4, "g" },
    /* one pad of 330 mm², 7.84 mg/mm³ */
    { "<depth part=\"rod-1\" zone=\"cap-pad\" grams=\"1.2\"/>", 1200 / (330 * 7.84), "mm" },
    /* two feet of 150 mm² each, 2.7 mg/mm³ */
    { "<depth part=\"piston-1\" zone=\"boss-feet\" grams=\"0.5\"/>", 500 / (2 * 150 * 2.7), "mm" },
  };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Asked asked = ask (rows[i].question, TRUE);
      g_autofree char *right = tg_lesson_answer_right (asked.answer);

      g_test_message ("%s: %s %s", rows[i].question, right, asked.answer->missing);
      g_assert_cmpstr (asked.answer->missing, ==, "");
      g_assert_cmpfloat_with_epsilon (asked.answer->value, rows[i].value, 1e-6);
      g_assert_cmpstr (asked.answer->unit, ==, rows[i].unit);
      g_assert_true (tg_lesson_answer_judge (asked.answer, right));
      check_closed (asked.answer->sum);
      done (&asked);
    }
}

/* How many of the options have that value and are right or wrong. */
static guint
n_options (const Asked *asked, const char *value, gboolean right)
{
  guint n = 0;

  for (guint i = 0; i < asked->answer->options->len; i++)
    {
      const TgLessonOption *option = g_ptr_array_index (asked->answer->options, i);

      n += strcmp (option->value, value) == 0 && option->right == right;
    }
  return n;
}

/* Piston 1 with pin 1 is 500.4, piston 2 with pin 2 501.1; the other way round 499.1 and 502.4, which is
 * worse: each keeps its own. */
static void
test_parts (void)
{
  static const struct
  {
    const char *question, *right, *wrong;
  } rows[] = { { "<lightest band=\"rod-small\"/>", "rod-1", "rod-2" },
               { "<heaviest band=\"rod-big\"/>", "rod-2", "rod-1" },
               { "<lightest band=\"piston\"/>", "piston-1", "piston-2" },
               { "<heaviest band=\"piston\"/>", "piston-2", "piston-1" },
               { "<partner part=\"piston-1\" kind=\"pin\"/>", "pin-1", "pin-2" } };

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      Asked asked = ask (rows[i].question, TRUE);

      g_test_message ("%s", rows[i].question);
      g_assert_cmpuint (asked.answer->options->len, ==, 2);
      g_assert_cmpuint (n_options (&asked, rows[i].right, TRUE), ==, 1);
      g_assert_cmpuint (n_options (&asked, rows[i].wrong, FALSE), ==, 1);
      g_assert_true (tg_lesson_answer_judge (asked.answer, rows[i].right));
      g_assert_false (tg_lesson_answer_judge (asked.answer, rows[i].wrong));
      g_assert_false (tg_lesson_answer_can_be (asked.answer, "clip-1"));
      done (&asked);
    }
}

/* How many readings a scale needs is what the program's own proof says, which has tests of its own. */
static void
test_proof (void)
{
  Asked asked = ask ("<proof band=\"rod-small\"/>", TRUE);
  g_autoptr (TgProof) proof = tg_review_proof (asked.review, TG_BAND_ROD_SMALL);
  g_autofree char *one_more = g_strdup_printf ("%u", proof->needed + 1);

  g_assert_cmpuint (proof->needed, >, 0);
  g_assert_cmpfloat (asked.answer->value, ==, proof->needed);
  g_assert_false (tg_lesson_answer_judge (asked.answer, one_more));
  g_assert_cmpstr (asked.answer->unit, ==, "readings");
  done (&asked);
}

static void
test_choice (void)
{
  Asked asked = ask ("<choice>No.</choice><choice right=\"yes\">Yes.</choice>", FALSE);

  g_assert_false (tg_lesson_answer_judge (asked.answer, "1"));
  g_assert_true (tg_lesson_answer_judge (asked.answer, "2"));
  g_assert_false (tg_lesson_answer_judge (asked.answer, "3"));
  g_assert_cmpuint (n_options (&asked, "2", TRUE), ==, 1);
  done (&asked);
}

/* Before anything is read, no answer is right, and it is said what is missing. */
static void
test_not_yet (void)
{
  static const char *const questions[] = {
    "<mean part=\"rod-1\" figure=\"small-end\"/>",
    "<turn part=\"rod-1\" figure=\"big-end\"/>",
    "<closure part=\"rod-1\"/>",
    "<spread band=\"piston\"/>",
    "<target band=\"piston\"/>",
    "<come-off part=\"rod-1\"/>",
    "<at-most part=\"rod-1\" zone=\"cap-pad\"/>",
    "<sum bore=\"1\"/>",
    "<lightest band=\"rod-small\"/>",
    "<partner part=\"piston-1\" kind=\"pin\"/>",
  };

  for (guint i = 0; i < G_N_ELEMENTS (questions); i++)
    {
      Asked asked = ask (questions[i], FALSE);

      g_test_message ("%s: %s", questions[i], asked.answer->missing);
      g_assert_cmpuint (strlen (asked.answer->missing), >, 10);
      g_assert_false (tg_lesson_answer_judge (asked.answer, "0"));
      done (&asked);
    }
}

static void
test_how_numbers_are_typed (void)
{
  static const struct
  {
    const char *text;
    gboolean can, right;
  } rows[] = {
    { "-0.2", TRUE, TRUE },    { "−0,2", TRUE, TRUE },     { " -0.20 g ", TRUE, TRUE },
    { "- 0.2", TRUE, TRUE },   { "-0.15", TRUE, TRUE },    { "-0.25", TRUE, TRUE },
    { "-0.26", TRUE, FALSE },  { "0.2", TRUE, FALSE },     { "+0.2", TRUE, FALSE },
    { "", FALSE, FALSE },      { "g", FALSE, FALSE },      { "-0.2 kg", FALSE, FALSE },
    { "-0..2", FALSE, FALSE }, { "-0.2.1", FALSE, FALSE }, { "-1e-1", FALSE, FALSE },
    { "nan", FALSE, FALSE },   { "--0.2", FALSE, FALSE },  { "-0.2-", FALSE, FALSE },
  };
  Asked asked = ask ("<turn part=\"rod-1\" figure=\"big-end\"/>", TRUE);

  for (guint i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      g_test_message ("“%s”", rows[i].text);
      g_assert_cmpint (tg_lesson_answer_can_be (asked.answer, rows[i].text), ==, rows[i].can);
      g_assert_cmpint (tg_lesson_answer_judge (asked.answer, rows[i].text), ==, rows[i].right);
    }
  done (&asked);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/lesson-question/effect", test_effect);
  g_test_add_func ("/lesson-question/small-pad", test_small_pad_by_hand);
  g_test_add_func ("/lesson-question/numbers", test_numbers);
  g_test_add_func ("/lesson-question/parts", test_parts);
  g_test_add_func ("/lesson-question/proof", test_proof);
  g_test_add_func ("/lesson-question/choice", test_choice);
  g_test_add_func ("/lesson-question/not-yet", test_not_yet);
  g_test_add_func ("/lesson-question/typed", test_how_numbers_are_typed);
  return g_test_run ();
}
