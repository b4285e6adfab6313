/* test-pairing.c: from a job to a pairing and back
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The solver has its own tests.  Here its problem has to be that of the job: what it says has to come
 * off is held against the plan of the review, which comes from a linear programme over zones and knows
 * nothing of the matching.  All figures are invented.
 */
#include "pairing.h"

#include <math.h>
#include <string.h>

#include "fixture.h"
#include "reason.h"

/* The figure of the term that is called @label. */
static const char *
figure_in (const GPtrArray *why, const char *label)
{
  for (guint i = 0; i < why->len; i++)
    {
      const TgTerm *term = g_ptr_array_index (why, i);

      if (strcmp (term->label, label) == 0)
        return term->figure;
    }
  g_error ("no term “%s”", label);
  return NULL;
}

static double
grams_in (const GPtrArray *why, const char *label)
{
  return g_ascii_strtod (figure_in (why, label), NULL);
}

/* Closed by a rule and its source. */
static void
check_closed (const GPtrArray *why)
{
  g_assert_cmpuint (why->len, >, 2);
  g_assert_true (tg_reason_is_closing (g_ptr_array_index (why, why->len - 2)));
  g_assert_true (tg_reason_is_closing (g_ptr_array_index (why, why->len - 1)));
}

static const TgPartKind families[] = { TG_PART_PIN, TG_PART_RINGS, TG_PART_CLIPS };

static void
weigh (TgJob *job, const char *kind, guint number, double grams)
{
  g_autofree char *part = g_strdup_printf ("%s-%u", kind, number);

  fixture_weigh (job, part, TG_FIGURE_WHOLE, TG_WAY_ANY, grams);
}

static double
around (GRand *rand, double middle, double spread)
{
  return round ((middle + g_rand_double_range (rand, -spread, spread)) * 10) / 10;
}

/* Pistons with @n_families of pins, rings and clips; @spare_pins pins more. */
static TgJob *
piston_job (guint cylinders, guint n_families, guint spare_pins, guint32 seed)
{
  g_autoptr (GRand) rand = g_rand_new_with_seed (seed);
  TgSetup *setup = fixture_setup (cylinders, FALSE, TRUE);
  TgJob *job;

  for (guint f = 0; f < n_families; f++)
    fixture_add_family (setup, families[f], f == 0 ? spare_pins : 0);
  job = tg_job_new (setup);
  for (guint i = 1; i <= cylinders; i++)
    fixture_weigh_piston (job, i, around (rand, 402, 1.5));
  for (guint f = 0; f < n_families; f++)
    for (guint i = 1; i <= cylinders + (f == 0 ? spare_pins : 0); i++)
      weigh (job, tg_part_kind_to_word (families[f]), i, around (rand, f ? 30 : 110, 1));
  return job;
}

static TgPairing *
pairing_of (const TgReview *review)
{
  g_autofree char *why_not = NULL;
  TgPairing *pairing = tg_pairing_new (review, TG_PAIRING_PISTONS, &why_not);

  g_assert_cmpstr (why_not, ==, NULL);
  g_assert_nonnull (pairing);
  return pairing;
}

static void
solve (const TgPairing *pairing, TgMatchingResult *result)
{
  const TgMatchingLimits limits = { .nodes = 2000000 };

  tg_matching_solve (&pairing->problem, &limits, result);
  g_assert_cmpint (result->status, ==, TG_MATCHING_OPTIMAL);
}

static void
append_all (TgJob *job, const GArray *events)
{
  for (guint i = 0; i < events->len; i++)
    fixture_append (job, g_array_index (events, TgEvent, i));
}

static void
rule (TgJob *job, TgRule kind, const char *part, const char *other, guint bore, gboolean on)
{
  TgEvent event = tg_event_blank (TG_EVENT_RULE);

  event.rule = kind;
  event.part = part;
  event.other = other;
  event.bore = bore;
  event.on = on;
  fixture_append (job, event);
}

static void
test_equals_plan (void)
{
  for (guint32 seed = 1; seed <= 40; seed++)
    {
      g_autoptr (TgJob) job = piston_job (4 + seed % 3, 1 + seed % 3, seed % 2, seed);
      g_autoptr (TgReview) before = tg_review_new (job);
      g_autoptr (TgPairing) pairing = pairing_of (before);
      g_autoptr (TgReview) after = NULL;
      TgMatchingPlan today;
      TgMatchingResult result;
      TgChoice *choice;
      gboolean kept;

      g_assert_true (tg_pairing_today (pairing, &today, &kept));
      if (kept)
        g_assert_cmpfloat_with_epsilon (before->least_metal_g[TG_PART_PISTON],
                                        tg_pairing_g (pairing, today.total), 1e-6);
      solve (pairing, &result);
      g_assert_cmpint (result.plan.total, <=, today.total);
      choice = tg_pairing_accept (before, pairing, &result.plan);
      append_all (job, choice->events);
      tg_choice_free (choice);
      after = tg_review_new (job);
      g_assert_cmpfloat_with_epsilon (after->least_metal_g[TG_PART_PISTON],
                                      tg_pairing_g (pairing, result.plan.total), 1e-6);
      g_assert_cmpfloat_with_epsilon (after->bands[TG_BAND_PISTON].target_g,
                                      tg_pairing_g (pairing, result.plan.floor), 1e-6);
      g_assert_cmpint (after->paired, >=, 0);
    }
}

static void
test_accepted_is_today (void)
{
  g_autoptr (TgJob) job = piston_job (5, 3, 1, 77);
  g_autoptr (TgReview) before = tg_review_new (job);
  g_autoptr (TgPairing) pairing = pairing_of (before), again = NULL;
  g_autoptr (TgReview) after = NULL;
  TgMatchingResult result;
  TgMatchingPlan today;
  TgChoice *choice;
  guint n_sets = 0;

  solve (pairing, &result);
  choice = tg_pairing_accept (before, pairing, &result.plan);
  append_all (job, choice->events);
  tg_choice_free (choice);
  after = tg_review_new (job);
  again = pairing_of (after);
  g_assert_true (tg_pairing_today (again, &today, NULL));
  for (guint f = 0; f < pairing->problem.n_families; f++)
    for (guint c = 0; c < 5; c++)
      g_assert_cmpuint (today.part[f][c], ==, result.plan.part[f][c]);
  g_assert_cmpuint (today.changes, ==, 0);
  g_assert_false (tg_pairing_equal (pairing, again) && result.plan.changes > 0);
  g_assert_true (tg_pairing_equal (again, again));
  for (guint b = 0; b < after->sets->len; b++)
    {
      const TgSetReview *set = &g_array_index (after->sets, TgSetReview, b);

      g_assert_true (set->known);
      g_assert_cmpfloat_with_epsilon (set->sum_g, tg_pairing_g (again, today.weight[b]), 1e-6);
      g_assert_cmpfloat (set->expanded_g, >, 0);
      n_sets++;
    }
  g_assert_cmpuint (n_sets, ==, 5);
  /* the spare pin is the one that is left over */
  for (guint i = 0; i < after->parts->len; i++)
    if (tg_review_part (after, i)->part->bore == 0)
      n_sets++;
  g_assert_cmpuint (n_sets, ==, 6);
}

static void
test_rules (void)
{
  g_autoptr (TgJob) job = piston_job (4, 2, 0, 5);
  g_autoptr (TgReview) review = NULL, lifted = NULL;
  g_autoptr (TgPairing) pairing = NULL, free_again = NULL;
  TgMatchingResult result;
  guint piston, pin, f, number;

  rule (job, TG_RULE_TOGETHER, "piston-2", "pin-3", 0, TRUE);
  rule (job, TG_RULE_APART, "pin-1", "rings-1", 0, TRUE);
  rule (job, TG_RULE_BORE, "piston-4", "", 1, TRUE);
  review = tg_review_new (job);
  g_assert_cmpuint (review->rules->len, ==, 3);
  pairing = pairing_of (review);
  solve (pairing, &result);
  tg_setup_find_part (review->setup, "piston-4", &piston);
  tg_setup_find_part (review->setup, "pin-3", &pin);
  for (f = 0; f < pairing->problem.n_families; f++)
    for (number = 0; number < pairing->families[f].n; number++)
      if (pairing->families[f].part[number] == piston)
        g_assert_cmpuint (result.plan.part[f][0], ==, number);
  for (guint c = 0; c < 4; c++)
    {
      g_assert_true ((result.plan.part[0][c] == 1) == (result.plan.part[1][c] == 2));
      g_assert_false (result.plan.part[1][c] == 0 && result.plan.part[2][c] == 0);
    }
  /* lifted from either side */
  rule (job, TG_RULE_TOGETHER, "pin-3", "piston-2", 0, FALSE);
  lifted = tg_review_new (job);
  g_assert_cmpuint (lifted->rules->len, ==, 2);
  free_again = pairing_of (lifted);
  g_assert_cmpuint (free_again->problem.n_locked, ==, 0);
  g_assert_false (tg_pairing_equal (pairing, free_again));
}

static void
test_swap (void)
{
  g_autoptr (TgJob) job = piston_job (4, 2, 1, 9);
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgPairing) pairing = NULL;
  TgMatchingResult result;
  TgMatchingPlan swapped;

  rule (job, TG_RULE_BORE, "piston-1", "", 1, TRUE);
  review = tg_review_new (job);
  pairing = pairing_of (review);
  solve (pairing, &result);
  /* no swap is better than what is proven */
  for (guint f = 0; f < pairing->problem.n_families; f++)
    for (guint i = 0; i < pairing->families[f].n; i++)
      for (guint c = 0; c < 4; c++)
        {
          g_autofree char *words = tg_pairing_swap_words (pairing, &result.plan, f, i, c);
          gboolean kept = tg_pairing_swap (pairing, &result.plan, f, i, c, &swapped);

          if (kept)
            g_assert_cmpint (swapped.total, >=, result.plan.total);
          if (kept && swapped.total > result.plan.total)
            g_assert_nonnull (strstr (words, " g more would have to come off"));
          if (f == 0 && result.plan.part[0][c] != i && (i == 0 || result.plan.part[0][c] == 0))
            g_assert_nonnull (strstr (words, "not possible. Piston 1 stays at bore 1."));
        }
}

static void
test_why_not (void)
{
  g_autoptr (TgJob) alone = tg_job_new (fixture_setup (4, TRUE, TRUE));
  g_autoptr (TgReview) review = tg_review_new (alone), half = NULL;
  g_autoptr (TgJob) job = NULL;
  g_autofree char *nothing = NULL, *unweighed = NULL, *bearings = NULL;
  TgSetup *setup = fixture_setup (4, FALSE, TRUE);

  g_assert_null (tg_pairing_new (review, TG_PAIRING_PISTONS, &nothing));
  g_assert_nonnull (strstr (nothing, "nothing to pair"));
  g_assert_null (tg_pairing_new (review, TG_PAIRING_BEARINGS, &bearings));
  g_assert_nonnull (strstr (bearings, "bearing pairs"));
  fixture_add_family (setup, TG_PART_PIN, 1);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 4; i++)
    fixture_weigh_piston (job, i, 400);
  weigh (job, "pin", 1, 100);
  weigh (job, "pin", 3, 100);
  half = tg_review_new (job);
  g_assert_null (tg_pairing_new (half, TG_PAIRING_PISTONS, &unweighed));
  g_assert_cmpstr (unweighed, ==,
                   "First weigh Pin 2, Pin 4: what goes with what is decided by weight.");
}

/* Big ends and bearing pairs: the rods stay, opposite sorting is the best (rearrangement inequality,
 * Hardy, Littlewood and Pólya, Inequalities, section 10.2, from memory). */
static void
test_bearings (void)
{
  static const double big[] = { 500.0, 500.4, 500.9, 501.3 };
  static const double pair[] = { 40.0, 40.3, 40.8, 41.2 };
  TgSetup *setup = fixture_setup (4, TRUE, FALSE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL, after = NULL;
  g_autoptr (TgPairing) pairing = NULL;
  g_autofree char *why_not = NULL;
  TgMatchingResult result;
  TgChoice *choice;

  fixture_add_family (setup, TG_PART_BEARINGS, 0);
  job = tg_job_new (setup);
  for (guint i = 0; i < 4; i++)
    {
      fixture_weigh_rod (job, i + 1, 170, big[i]);
      weigh (job, "bearings", i + 1, pair[i]);
    }
  review = tg_review_new (job);
  g_assert_cmpfloat_with_epsilon (review->bands[TG_BAND_ROD_BIG].spread_g, 2.5, 1e-9);
  pairing = tg_pairing_new (review, TG_PAIRING_BEARINGS, &why_not);
  g_assert_nonnull (pairing);
  solve (pairing, &result);
  choice = tg_pairing_accept (review, pairing, &result.plan);
  append_all (job, choice->events);
  tg_choice_free (choice);
  after = tg_review_new (job);
  /* 500.0 + 41.2, 500.4 + 40.8, 500.9 + 40.3, 501.3 + 40.0 */
  for (guint i = 0; i < 4; i++)
    g_assert_cmpuint (tg_setup_at_bore (after->setup, TG_PART_ROD, i + 1)->bore, ==, i + 1);
  g_assert_cmpfloat_with_epsilon (after->bands[TG_BAND_ROD_BIG].spread_g, 0.1, 1e-9);
  g_assert_true (after->bands[TG_BAND_ROD_BIG].even);
}

static void
test_odd_one_out (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (4, TRUE, FALSE));
  g_autoptr (TgReview) review = NULL;
  g_autoptr (GPtrArray) odds = NULL;
  const TgPairingOdd *odd;

  fixture_weigh_rod (job, 1, 171.0, 501.0);
  fixture_weigh_rod (job, 2, 171.2, 501.1);
  fixture_weigh_rod (job, 3, 169.9, 501.0);
  fixture_weigh_rod (job, 4, 171.1, 501.2);
  review = tg_review_new (job);
  odds = tg_pairing_odd_one_out (review, TG_PART_ROD);
  g_assert_cmpuint (odds->len, ==, 1);
  odd = g_ptr_array_index (odds, 0);
  g_assert_true (g_str_has_prefix (odd->words, "Replacing Rod 3 saves "));
  /* without it the others are even as they are: a piece between 171.2 - 0.5 and 171.0 + 0.5 fits,
   * the highest target of those is 171.0 */
  g_assert_nonnull (strstr (odd->words, "small end of 171.0 to 171.5 g"));
  check_closed (odd->why);
  g_assert_cmpfloat (grams_in (odd->why, "without it"), ==, 0);
  g_assert_cmpfloat (grams_in (odd->why, "saved"), >, 0);
  g_assert_cmpfloat_with_epsilon (grams_in (odd->why, "by today’s plan") -
                                      grams_in (odd->why, "Rod 3"),
                                  grams_in (odd->why, "saved"), 0.02);
}

/* Eight rods on a shelf, four bores: those four that are even already are taken, and the two of them
 * that sit at bores stay there. */
static void
test_shelf (void)
{
  static const double small[] = { 170.0, 172.0, 170.3, 174.0, 170.2, 176.0, 170.1, 178.0 };
  TgSetup *setup = fixture_setup (4, FALSE, FALSE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL, after = NULL;
  g_autoptr (GPtrArray) why = NULL;
  g_autofree char *why_not = NULL;
  TgChoice *choice;

  tg_setup_add_design (setup, fixture_rod_design ());
  tg_setup_add_set (setup, tg_setup_find_design (setup, "rod"), 4);
  job = tg_job_new (setup);
  for (guint i = 0; i < 8; i++)
    fixture_weigh_rod (job, i + 1, small[i], 500 + small[i] - 170);
  review = tg_review_new (job);
  choice = tg_pairing_choose (review, TG_PART_ROD, &why_not);
  g_assert_nonnull (choice);
  g_assert_cmpstr (choice->title, ==, "Take Rod 1, Rod 3, Rod 5, Rod 7");
  g_assert_cmpfloat (choice->cost_g, <=, 1e-9);
  why = tg_review_why_choice (review, choice);
  check_closed (why);
  g_assert_cmpstr (figure_in (why, "to choose from"), ==, "8 for 4 bores");
  g_assert_cmpfloat (grams_in (why, "these lose"), ==, 0);
  g_assert_cmpfloat (grams_in (why, "Rod 3"), ==, 170.3);
  append_all (job, choice->events);
  tg_choice_free (choice);
  after = tg_review_new (job);
  g_assert_cmpuint (tg_setup_find_part (after->setup, "rod-1", NULL)->bore, ==, 1);
  g_assert_cmpuint (tg_setup_find_part (after->setup, "rod-3", NULL)->bore, ==, 3);
  g_assert_cmpuint (tg_setup_find_part (after->setup, "rod-5", NULL)->bore, ==, 2);
  g_assert_cmpuint (tg_setup_find_part (after->setup, "rod-7", NULL)->bore, ==, 4);
  g_assert_cmpuint (tg_setup_find_part (after->setup, "rod-2", NULL)->bore, ==, 0);
  g_assert_true (after->bands[TG_BAND_ROD_SMALL].even);
  g_assert_cmpuint (after->bands[TG_BAND_ROD_SMALL].n_parts, ==, 4);
  g_assert_null (tg_pairing_choose (after, TG_PART_PISTON, &why_not));
  g_assert_nonnull (strstr (why_not, "nothing to choose from"));
}

/* More pins than can be searched at once: those at bores are paired, the shelf is chosen from. */
static void
test_long_shelf (void)
{
  g_autoptr (TgJob) job = piston_job (4, 1, 60, 3);
  g_autoptr (TgReview) review = tg_review_new (job), after = NULL;
  g_autoptr (TgPairing) pairing = pairing_of (review);
  g_autofree char *why_not = NULL;
  double least = INFINITY, most = 0;
  TgChoice *choice;

  g_assert_cmpuint (pairing->families[1].n, ==, 4);
  choice = tg_pairing_choose (review, TG_PART_PIN, &why_not);
  g_assert_nonnull (choice);
  append_all (job, choice->events);
  tg_choice_free (choice);
  after = tg_review_new (job);
  for (guint bore = 1; bore <= 4; bore++)
    {
      const TgPart *pin = tg_setup_at_bore (after->setup, TG_PART_PIN, bore);
      double grams;
      guint index;

      g_assert_nonnull (pin);
      tg_setup_find_part (after->setup, pin->id, &index);
      grams = tg_review_part (after, index)->weight[TG_FIGURE_WHOLE].mean_g;
      least = MIN (least, grams);
      most = MAX (most, grams);
    }
  /* of 64 pins on 21 steps of the scale some four weigh the same */
  g_assert_cmpfloat (most - least, <=, 0.1 + 1e-9);
}

/* Four rods on two crankpins: the lightest shares with the heaviest (opposite pairing). */
static void
test_crankpins (void)
{
  static const double big[] = { 500.0, 500.1, 500.3, 500.4 };
  TgSetup *setup = fixture_setup (4, TRUE, FALSE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL, after = NULL;
  g_autoptr (TgPairingCrankpins) pins = NULL, then = NULL;

  setup->sharing = TG_SHARING_NEIGHBOURS;
  job = tg_job_new (setup);
  for (guint i = 0; i < 4; i++)
    fixture_weigh_rod (job, i + 1, 170, big[i]);
  review = tg_review_new (job);
  pins = tg_pairing_crankpins (review);
  g_assert_nonnull (pins);
  g_assert_cmpuint (pins->n_pins, ==, 2);
  g_assert_cmpuint (pins->bore[1][0], ==, 3);
  g_assert_cmpuint (pins->bore[1][1], ==, 4);
  g_assert_cmpfloat_with_epsilon (pins->sum_g[0], 340 + 1000.1, 1e-9);
  g_assert_cmpfloat_with_epsilon (pins->spread_g, 0.6, 1e-9);
  g_assert_nonnull (pins->choice);
  check_closed (pins->choice->why);
  g_assert_cmpstr (figure_in (pins->choice->why, "bores 1 and 2"), ==, "1340.1 g, then 1340.4 g");
  g_assert_cmpstr (figure_in (pins->choice->why, "they differ by"), ==, "0.6 g, then 0.0 g");
  append_all (job, pins->choice->events);
  after = tg_review_new (job);
  then = tg_pairing_crankpins (after);
  g_assert_cmpfloat_with_epsilon (then->spread_g, 0, 1e-9);
  g_assert_null (then->choice);
  g_assert_true (tg_setup_set (setup = tg_setup_copy (after->setup), "crankpins", "banks", NULL));
  {
    guint bores[2];

    tg_setup_crankpin (setup, 1, bores);
    g_assert_cmpuint (bores[0], ==, 2);
    g_assert_cmpuint (bores[1], ==, 4);
  }
  tg_setup_free (setup);
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/pairing/equals-plan", test_equals_plan);
  g_test_add_func ("/pairing/accepted-is-today", test_accepted_is_today);
  g_test_add_func ("/pairing/rules", test_rules);
  g_test_add_func ("/pairing/swap", test_swap);
  g_test_add_func ("/pairing/why-not", test_why_not);
  g_test_add_func ("/pairing/bearings", test_bearings);
  g_test_add_func ("/pairing/odd-one-out", test_odd_one_out);
  g_test_add_func ("/pairing/shelf", test_shelf);
  g_test_add_func ("/pairing/long-shelf", test_long_shelf);
  g_test_add_func ("/pairing/crankpins", test_crankpins);
  return g_test_run ();
}
