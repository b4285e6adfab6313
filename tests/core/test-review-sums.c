/* test-review-sums.c: what is weighed together at a bore
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures are invented.
 */
#include <math.h>
#include <string.h>

#include "fixture.h"
#include "pairing.h"

static void
weigh (TgJob *job, const char *kind, guint number, double grams)
{
  g_autofree char *part = g_strdup_printf ("%s-%u", kind, number);

  fixture_weigh (job, part, TG_FIGURE_WHOLE, TG_WAY_ANY, grams);
}

static const TgPartReview *
part_of (const TgReview *review, const char *id)
{
  guint index;

  g_assert_nonnull (tg_setup_find_part (review->setup, id, &index));
  return tg_review_part (review, index);
}

static guint
index_of (const TgReview *review, const char *id)
{
  guint index;

  g_assert_nonnull (tg_setup_find_part (review->setup, id, &index));
  return index;
}

/* Two pistons with pins and clips; the clips may be left out. */
static TgJob *
twin (gboolean without_clips)
{
  TgSetup *setup = fixture_setup (2, FALSE, TRUE);
  TgJob *job;

  fixture_add_family (setup, TG_PART_PIN, 0);
  fixture_add_family (setup, TG_PART_CLIPS, 0);
  setup->left_out[TG_PART_CLIPS] = without_clips;
  job = tg_job_new (setup);
  fixture_weigh_piston (job, 1, 400.0);
  fixture_weigh_piston (job, 2, 401.0);
  weigh (job, "pin", 1, 110.5);
  weigh (job, "pin", 2, 110.0);
  weigh (job, "clips", 1, 4.0);
  weigh (job, "clips", 2, 4.3);
  return job;
}

static void
test_carried (void)
{
  g_autoptr (TgJob) job = twin (FALSE);
  g_autoptr (TgReview) review = tg_review_new (job);
  const TgPartReview *piston = part_of (review, "piston-2");
  const TgWeight *pin = &part_of (review, "pin-2")->weight[TG_FIGURE_WHOLE];
  const TgWeight *clips = &part_of (review, "clips-2")->weight[TG_FIGURE_WHOLE];
  const TgBandReview *band = &review->bands[TG_BAND_PISTON];
  const TgSetReview *set = &g_array_index (review->sets, TgSetReview, 1);
  guint index = index_of (review, "piston-2");
  g_autofree char *words = tg_review_carried_words (review, index, TG_FIGURE_WHOLE);

  g_assert_true (piston->carried[0].any && piston->carried[0].known && piston->carried[0].read);
  g_assert_cmpfloat_with_epsilon (piston->carried[0].grams, 114.3, 1e-9);
  /* independent readings: variances add up (JCGM 100, 5.1.2) */
  g_assert_cmpfloat_with_epsilon (piston->carried[0].u_g, hypot (pin->u_g, clips->u_g), 1e-12);
  g_assert_cmpfloat_with_epsilon (set->u_g, sqrt (3) * pin->u_g, 1e-9);
  g_assert_cmpfloat_with_epsilon (set->sum_g, 515.3, 1e-9);
  g_assert_cmpstr (words, ==, "Pin 2, Clips 2");
  /* 514.5 and 515.3 with 0.5 g: 0.3 g off the second */
  g_assert_cmpfloat_with_epsilon (band->spread_g, 0.8, 1e-9);
  g_assert_cmpfloat_with_epsilon (band->target_g, 514.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (piston->to_come_off_g, 0.3, 1e-9);
  g_assert_cmpfloat_with_epsilon (tg_review_own_target_g (review, index, TG_FIGURE_WHOLE),
                                  514.5 - 114.3, 1e-9);
  g_assert_cmpint (part_of (review, "pin-1")->state, ==, TG_STATE_WAITING);
  g_assert_false (part_of (review, "pin-1")->in_work);
}

static void
test_left_out (void)
{
  g_autoptr (TgJob) job = twin (TRUE);
  g_autoptr (TgReview) review = tg_review_new (job), with = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  g_assert_cmpfloat_with_epsilon (review->bands[TG_BAND_PISTON].spread_g, 0.5, 1e-9);
  event.path = "sum.clips";
  event.value = "yes";
  fixture_append (job, event);
  with = tg_review_new (job);
  g_assert_cmpfloat_with_epsilon (with->bands[TG_BAND_PISTON].spread_g, 0.8, 1e-9);
}

/* Weighed in the order of the bench, then paired; what is not in the sum is not asked for, and spares
 * no more once a pairing was accepted. */
static void
test_next (void)
{
  TgSetup *setup = fixture_setup (2, FALSE, TRUE);
  g_autoptr (TgJob) job = NULL;
  TgEvent pair = tg_event_blank (TG_EVENT_PAIR);
  g_autoptr (TgReview) spare = NULL, unpaired = NULL, paired = NULL;

  fixture_add_family (setup, TG_PART_PIN, 1);
  fixture_add_family (setup, TG_PART_CLIPS, 0);
  setup->left_out[TG_PART_CLIPS] = TRUE;
  job = tg_job_new (setup);
  fixture_weigh_piston (job, 1, 400.0);
  fixture_weigh_piston (job, 2, 403.0);
  weigh (job, "pin", 1, 110.5);
  weigh (job, "pin", 2, 110.0);
  spare = tg_review_new (job);
  g_assert_cmpint (spare->next->kind, ==, TG_NEXT_WEIGH);
  g_assert_cmpuint (spare->next->slot.part, ==, index_of (spare, "pin-3"));
  pair.places = "pin-1:2 pin-2:1 pin-3:0";
  fixture_append (job, pair);
  paired = tg_review_new (job);
  g_assert_cmpint (paired->next->kind, ==, TG_NEXT_GRIND);
  g_assert_cmpuint (part_of (paired, "pin-1")->part->bore, ==, 2);
  weigh (job, "pin", 3, 110.2);
  {
    TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

    strike.refers = tg_job_event (job, (guint) paired->paired)->id;
    fixture_append (job, strike);
  }
  unpaired = tg_review_new (job);
  g_assert_cmpint (unpaired->paired, ==, -1);
  g_assert_cmpint (unpaired->next->kind, ==, TG_NEXT_PAIR);
  g_assert_cmpuint (part_of (unpaired, "pin-1")->part->bore, ==, 1);
}

/* Small ends even by themselves and counted in the sum: pistons go with what the small ends will be. */
static void
test_both (void)
{
  TgSetup *setup = fixture_setup (2, TRUE, TRUE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) review = NULL, before = NULL;
  const TgPartReview *piston;

  setup->small_ends = TG_SMALL_ENDS_BOTH;
  job = tg_job_new (setup);
  fixture_weigh_rod (job, 1, 170.0, 500.0);
  fixture_weigh_rod (job, 2, 172.0, 500.0);
  fixture_weigh_piston (job, 1, 400.0);
  before = tg_review_new (job);
  g_assert_false (before->bands[TG_BAND_PISTON].known);
  fixture_weigh_piston (job, 2, 400.3);
  review = tg_review_new (job);
  piston = part_of (review, "piston-2");
  g_assert_true (review->bands[TG_BAND_ROD_SMALL].present);
  g_assert_cmpfloat (part_of (review, "rod-2")->to_come_off_g, >, 1);
  g_assert_cmpfloat_with_epsilon (piston->carried[0].grams, 172.0, 1e-9);
  /* by its plan the small end comes down to the band of the first */
  g_assert_cmpfloat (piston->carried[0].then_g, <=, 170.5 + 1e-9);
  /* 570.0 against 400.3 + at most 170.5: no more than 0.3 g off the piston, not 2.3 */
  g_assert_cmpfloat (piston->to_come_off_g, <=, 0.3 + 1e-9);
  /* while the rod is too heavy its set is too, though nothing comes off this piston */
  g_assert_false (review->bands[TG_BAND_PISTON].even);
}

/* Bearings go with the big ends, and a missing one leaves the band open. */
static void
test_bearings (void)
{
  TgSetup *setup = fixture_setup (2, TRUE, FALSE);
  g_autoptr (TgJob) job = NULL;
  g_autoptr (TgReview) open = NULL, review = NULL;

  fixture_add_family (setup, TG_PART_BEARINGS, 0);
  job = tg_job_new (setup);
  fixture_weigh_rod (job, 1, 170.0, 500.0);
  fixture_weigh_rod (job, 2, 170.0, 501.0);
  weigh (job, "bearings", 1, 60.0);
  open = tg_review_new (job);
  g_assert_false (open->bands[TG_BAND_ROD_BIG].known);
  weigh (job, "bearings", 2, 59.2);
  review = tg_review_new (job);
  g_assert_true (review->bands[TG_BAND_ROD_BIG].known);
  g_assert_cmpfloat_with_epsilon (review->bands[TG_BAND_ROD_BIG].spread_g, 0.2, 1e-9);
  g_assert_true (review->bands[TG_BAND_ROD_BIG].even);
  g_assert_cmpstr (tg_setup_band_label (review->setup, TG_BAND_ROD_BIG), ==,
                   "big ends with bearings");
}

/* Pistons even by themselves and in the sum: the two rows of the plan are both kept, so that a spare can
 * take the place of any. */
static void
test_pistons_alone (void)
{
  g_autoptr (TgJob) job = twin (FALSE);
  TgEvent event = tg_event_blank (TG_EVENT_SET);
  g_autoptr (TgReview) review = NULL;
  g_autoptr (TgSetup) setup = NULL;
  const TgPartReview *piston;

  event.path = "sum.piston";
  event.value = "both";
  fixture_append (job, event);
  review = tg_review_new (job);
  g_assert_true (review->bands[TG_BAND_PISTON_ALONE].present);
  g_assert_true (review->bands[TG_BAND_PISTON_ALONE].known);
  /* no tolerance of their own was given: that of the sets */
  g_assert_cmpfloat_with_epsilon (review->bands[TG_BAND_PISTON_ALONE].tolerance_g, 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (review->bands[TG_BAND_PISTON_ALONE].spread_g, 1.0, 1e-9);
  /* 401.0 comes down to 400.5: the half gram is more than the sum asks for */
  piston = part_of (review, "piston-2");
  g_assert_cmpfloat_with_epsilon (piston->to_come_off_g, 0.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (piston->plan.after_g[1], 400.5, 1e-9);
  g_assert_cmpfloat_with_epsilon (piston->plan.after_g[0], 514.8, 1e-9);
  /* not together with small ends that have no band of their own */
  setup = tg_setup_copy (review->setup);
  g_assert_true (tg_setup_set (setup, "sum.rod", "both", NULL));
  g_assert_false (tg_setup_set (setup, "sum.rod", "only", NULL));
  {
    g_autofree char *value = tg_setup_get (setup, "sum.piston");

    g_assert_cmpstr (value, ==, "both");
  }
}

/* -- whole jobs --------------------------------------------------------------------------------- */

static void
append_all (TgJob *job, const GArray *events)
{
  for (guint i = 0; i < events->len; i++)
    fixture_append (job, g_array_index (events, TgEvent, i));
}

static void
pair_up (TgJob *job, const TgReview *review)
{
  g_autofree char *why_not = NULL;
  g_autoptr (TgPairing) pairing = tg_pairing_new (review, TG_PAIRING_PISTONS, &why_not);
  const TgMatchingLimits limits = { .nodes = 20000 };
  TgPairingResult result;
  TgMatchingPlan today;
  TgChoice *choice;

  g_assert_nonnull (pairing);
  g_assert_true (tg_pairing_today (pairing, &today, NULL));
  tg_pairing_solve (pairing, &limits, &result);
  choice = tg_pairing_accept (review, pairing,
                              result.sums.status == TG_MATCHING_OPTIMAL ||
                                      result.sums.status == TG_MATCHING_FEASIBLE
                                  ? &result.sums.plan
                                  : &today);
  append_all (job, choice->events);
  tg_choice_free (choice);
}

static void
grind (TgJob *job, FixtureBench *bench, const TgReview *review)
{
  const TgNext *next = review->next;
  const TgPartReview *part = tg_review_part (review, next->slot.part);
  g_autoptr (GArray) targets = tg_review_take_targets (review, next->slot.part);

  append_all (job, targets);
  g_assert_true (tg_zone_usable (tg_part_review_zone (part, next->zone)->zone));
  g_assert_cmpfloat (next->pass_g, >, 0);
  fixture_bench_grind (bench, next->slot.part, next->zone, next->pass_g);
  fixture_pass (job, part->part->id, tg_part_review_zone (part, next->zone)->zone->id,
                next->pass_g);
}

static void
decide (TgJob *job, const TgReview *review)
{
  const TgDecision *decision = g_ptr_array_index (review->decisions, review->next->decision);

  g_assert_cmpuint (decision->choices->len, >, 0);
  append_all (job, ((const TgChoice *) g_ptr_array_index (decision->choices, 0))->events);
}

/* Follows the instructions to the end; how many there were. */
static guint
follow (TgJob *job, FixtureBench *bench)
{
  for (guint steps = 0; steps < 2000; steps++)
    {
      g_autoptr (TgReview) review = tg_review_new (job);
      const TgNext *next = review->next;

      if (next->kind == TG_NEXT_DONE)
        {
          g_assert_true (review->done);
          return steps;
        }
      if (next->kind == TG_NEXT_WEIGH)
        fixture_weigh (job, tg_review_part (review, next->slot.part)->part->id, next->slot.figure,
                       next->slot.way, fixture_bench_read (bench, next->slot));
      else if (next->kind == TG_NEXT_GRIND)
        grind (job, bench, review);
      else if (next->kind == TG_NEXT_PAIR)
        pair_up (job, review);
      else
        decide (job, review);
    }
  g_error ("the job never ends");
}

/* Heaviest minus lightest of the true sums of the bores, from the bench alone. */
static double
true_spread (const TgJob *job, const FixtureBench *bench, gboolean pistons)
{
  g_autoptr (TgReview) review = tg_review_new (job);
  gboolean with_rods = review->setup->small_ends != TG_SMALL_ENDS_APART;
  double least = INFINITY, most = -INFINITY;

  for (guint bore = 1; bore <= review->setup->cylinders; bore++)
    {
      double sum = 0;

      for (guint i = 0; i < bench->parts->len; i++)
        {
          const FixturePart *part = &g_array_index (bench->parts, FixturePart, i);
          TgPartKind kind = part->design->kind;

          if (tg_review_part (review, i)->part->bore != bore)
            continue;
          if (kind == TG_PART_ROD)
            sum += !pistons ? part->big_g : with_rods ? part->small_g : 0;
          else if ((kind == TG_PART_BEARINGS) != pistons)
            sum += part->big_g;
        }
      least = MIN (least, sum);
      most = MAX (most, sum);
    }
  return most - least;
}

static void
test_whole_jobs (void)
{
  for (guint32 seed = 1; seed <= 24; seed++)
    {
      TgSmallEnds small_ends = (TgSmallEnds) (seed % TG_N_SMALL_ENDS);
      TgSetup *setup = fixture_setup (2 + seed % 3, TRUE, TRUE);
      g_autoptr (FixtureBench) bench = NULL;
      g_autoptr (TgJob) job = NULL;
      double tolerance_g, step_g;

      setup->small_ends = small_ends;
      setup->pistons_alone = small_ends != TG_SMALL_ENDS_SUM && seed % 5 == 0;
      fixture_add_family (setup, TG_PART_PIN, seed % 2);
      if (seed % 4 == 0)
        fixture_add_family (setup, TG_PART_BEARINGS, 0);
      bench = fixture_bench_new (setup, seed);
      bench->scatter = 0.02;
      job = tg_job_new (setup);
      g_assert_cmpuint (follow (job, bench), >, 10);
      {
        g_autoptr (TgReview) review = tg_review_new (job);

        tolerance_g = review->bands[TG_BAND_PISTON].tolerance_g;
        step_g = tg_mass_to_g (review->setup->resolution);
        g_assert_cmpint (review->paired, >=, 0);
        if (setup->pistons_alone)
          g_assert_true (review->bands[TG_BAND_PISTON_ALONE].even);
        /* each reading is right to half a step; the sum has two or three of them */
        g_assert_cmpfloat (true_spread (job, bench, TRUE), <=, tolerance_g + 3 * step_g + 1e-9);
        g_assert_cmpfloat (true_spread (job, bench, FALSE), <=,
                           review->bands[TG_BAND_ROD_BIG].tolerance_g + 2 * step_g + 1e-9);
      }
    }
}

int
main (int argc, char *argv[])
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/review-sums/carried", test_carried);
  g_test_add_func ("/review-sums/left-out", test_left_out);
  g_test_add_func ("/review-sums/next", test_next);
  g_test_add_func ("/review-sums/both", test_both);
  g_test_add_func ("/review-sums/bearings", test_bearings);
  g_test_add_func ("/review-sums/pistons-alone", test_pistons_alone);
  g_test_add_func ("/review-sums/whole-jobs", test_whole_jobs);
  return g_test_run ();
}
