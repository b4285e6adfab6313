/* test-practice-worker.c: a careful worker gets a set even at the practice bench, a careless one does not
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The worker sees the display and the review only; whether the set is even is judged by the hidden truth.
 */
#include "fixture.h"
#include "practice-worker.h"

#define STEP_G 0.1

static TgJob *
practice_job (guint cylinders, gboolean pistons, const char *seed, TgPracticeLevel level)
{
  TgSetup *setup = fixture_setup (cylinders, TRUE, pistons);

  g_free (setup->name);
  setup->name = g_strdup ("Practice set");
  tg_practice_set (&setup->practice, seed);
  setup->practice.spread_g = 1;
  setup->practice.faults = tg_practice_level_faults (level, STEP_G);
  setup->check_weight = 500 * TG_MASS_G;
  return tg_job_new (setup);
}

/* The sanitizers take several times as long: with them a twentieth of the benches. */
#ifdef __SANITIZE_ADDRESS__
#define SHARE 20
#else
#define SHARE 1
#endif

/* Whether what @worker has done is even, truly, within the tolerances that the job began with. */
static gboolean
is_even (const PracticeWorker *worker)
{
  for (TgBand band = 0; band <= TG_BAND_PISTON; band++)
    if (practice_worker_spread (worker, band) >
        tg_mass_to_g (tg_job_setup (worker->job)->tolerance[band]))
      return FALSE;
  return TRUE;
}

/* Most benches have two rods, every eighth three with their pistons. */
static PracticeWorker *
new_worker (guint bench, TgPracticeLevel level, guint habits)
{
  g_autofree char *seed = g_strdup_printf ("bench %u", bench);
  gboolean pistons = bench % 8 == 0;

  return practice_worker_new (practice_job (pistons ? 3 : 2, pistons, seed, level), habits);
}

static void
test_careful (void)
{
  static const guint benches[TG_N_PRACTICE_LEVELS] = { 200 / SHARE, 500 / SHARE, 300 / SHARE };
  guint n = 0, even = 0;

  for (TgPracticeLevel level = 0; level < TG_N_PRACTICE_LEVELS; level++)
    {
      guint here = 0;

      for (guint i = 0; i < benches[level]; i++)
        {
          g_autoptr (PracticeWorker) worker = new_worker (i, level, 0);

          g_assert_true (practice_worker_run (worker, 2000));
          here += is_even (worker);
        }
      g_test_message ("%s: %u of %u even", tg_practice_level_label (level), here, benches[level]);
      n += benches[level];
      even += here;
    }
  g_assert_cmpuint (100 * even, >=, 99 * n);
}

/* Without its care, what the stubborn bench says is believed, and fewer sets are even.  Some grind and
 * replace rods to the end of the steps. */
static void
test_careless (void)
{
  const guint n = 100 / SHARE;
  const guint habits = PRACTICE_HABIT_NO_LOOK | PRACTICE_HABIT_NO_ROCK | PRACTICE_HABIT_NO_ZERO |
                       PRACTICE_HABIT_KEEPS | PRACTICE_HABIT_NO_TURN;
  guint even = 0;

  for (guint i = 0; i < n; i++)
    {
      g_autoptr (PracticeWorker) worker = new_worker (i, TG_PRACTICE_STUBBORN, habits);

      practice_worker_run (worker, 2000);
      even += is_even (worker);
    }
  g_test_message ("careless: %u of %u even", even, n);
  g_assert_cmpuint (2 * even, <, n);
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/practice-worker/careful", test_careful);
  g_test_add_func ("/practice-worker/careless", test_careless);
  return g_test_run ();
}
