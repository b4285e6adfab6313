/* test-practice.c: what is said of a practice job, and what cannot be
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "practice.h"

#include "error.h"
#include "fixture.h"

static void
assert_refused (const TgPractice *practice, int code)
{
  g_autoptr (GError) error = NULL;

  g_assert_false (tg_practice_check (practice, &error));
  g_assert_error (error, TG_ERROR, code);
}

static void
test_check (void)
{
  TgPractice practice;
  guint n;
  const TgField *fields = tg_practice_fields (&n);

  tg_practice_init (&practice);
  practice.faults.hand = 7; /* no matter, as it is not practice */
  g_assert_true (tg_practice_check (&practice, NULL));
  practice.faults.hand = 0;
  tg_practice_set (&practice, "");
  assert_refused (&practice, TG_ERROR_SYNTAX);
  tg_practice_set (&practice, "a word");
  g_assert_true (tg_practice_check (&practice, NULL));
  for (guint i = 0; i < n; i++)
    {
      double *value = tg_practice_number (&practice, fields[i].name);

      g_assert_true (value == tg_field_ptr (&fields[i], &practice));
      *value = fields[i].max * 1.01;
      assert_refused (&practice, TG_ERROR_RANGE);
      *value = fields[i].min - 0.001;
      assert_refused (&practice, TG_ERROR_RANGE);
      *value = fields[i].max;
      g_assert_true (tg_practice_check (&practice, NULL));
      *value = 0;
    }
  g_assert_null (tg_practice_number (&practice, "wind"));
  tg_practice_clear (&practice);
}

static void
test_equal (void)
{
  TgPractice a, b;
  guint n;
  const TgField *fields = tg_practice_fields (&n);

  tg_practice_init (&a);
  tg_practice_init (&b);
  g_assert_true (tg_practice_equal (&a, &b));
  tg_practice_set (&a, "a word");
  g_assert_false (tg_practice_equal (&a, &b));
  tg_practice_copy (&a, &b);
  g_assert_true (tg_practice_equal (&a, &b));
  for (guint i = 0; i < n; i++)
    {
      *tg_field_ptr (&fields[i], &b) += 0.001;
      g_assert_false (tg_practice_equal (&a, &b));
      tg_practice_copy (&a, &b);
    }
  tg_practice_set (&b, "another word");
  g_assert_false (tg_practice_equal (&a, &b));
  tg_practice_clear (&a);
  tg_practice_clear (&b);
}

/* Each level lies more than the one before it, and all of them are possible. */
static void
test_levels (void)
{
  double before = -1;

  for (TgPracticeLevel level = 0; level < TG_N_PRACTICE_LEVELS; level++)
    for (double step = 0.01; step < 0.6; step *= 7)
      {
        TgPractice practice;

        tg_practice_init (&practice);
        tg_practice_set (&practice, "a word");
        practice.faults = tg_practice_level_faults (level, step);
        g_assert_true (tg_practice_check (&practice, NULL));
        if (step < 0.02)
          {
            g_assert_cmpfloat (practice.faults.catch_share, >, before);
            before = practice.faults.catch_share;
          }
        g_assert_cmpstr (tg_practice_level_label (level), !=, "");
        g_assert_cmpstr (tg_practice_level_words (level), !=, "");
        tg_practice_clear (&practice);
      }
}

/* Wherever its name stands, a practice job is known as one. */
static void
test_name (void)
{
  g_autoptr (TgSetup) setup = fixture_setup (2, TRUE, FALSE);
  g_autoptr (GError) error = NULL;

  tg_practice_set (&setup->practice, "a word");
  g_assert_false (tg_setup_check (setup, &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
  g_free (setup->name);
  setup->name = g_strdup (TG_PRACTICE_NAME " twin");
  g_assert_true (tg_setup_check (setup, NULL));
  g_clear_error (&error);
  g_assert_false (tg_setup_set (setup, "name", "Twin", &error));
  g_assert_error (error, TG_ERROR, TG_ERROR_RANGE);
  g_assert_cmpstr (setup->name, ==, TG_PRACTICE_NAME " twin");
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/practice/check", test_check);
  g_test_add_func ("/practice/equal", test_equal);
  g_test_add_func ("/practice/levels", test_levels);
  g_test_add_func ("/practice/name", test_name);
  return g_test_run ();
}
