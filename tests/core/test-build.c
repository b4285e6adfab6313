/* test-build.c: the build cards, from journals written by hand
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a tick hangs on is common practice, no published source: a piston comes out only when its big
 * end is opened, a bearing pair comes out without the piston.  All weights are invented.
 */
#include <math.h>
#include <string.h>

#include "build.h"
#include "fixture.h"

/* Two bores with rods, pistons and pins; a spare pin.  All of it even and proven. */
static TgJob *
even_job (void)
{
  TgSetup *setup = fixture_setup (2, TRUE, TRUE);
  TgJob *job;

  fixture_add_family (setup, TG_PART_PIN, 1);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 2; i++)
    {
      g_autofree char *pin = g_strdup_printf ("pin-%u", i);

      fixture_weigh_rod (job, i, 171.6, 412.1);
      fixture_weigh_piston (job, i, 520.2);
      fixture_weigh (job, pin, TG_FIGURE_WHOLE, TG_WAY_ANY, 120.3);
    }
  fixture_weigh (job, "pin-3", TG_FIGURE_WHOLE, TG_WAY_ANY, 124.3);
  return job;
}

static void
tick (TgJob *job, guint bore, TgBuildCheck check, const char *part)
{
  TgEvent event = tg_event_blank (TG_EVENT_TICK);

  event.bore = bore;
  event.check = check;
  event.part = part;
  fixture_append (job, event);
}

/* Everything at @bore, with the parts that belong there. */
static void
tick_all (TgJob *job, guint bore)
{
  for (TgBuildCheck check = 0; check < TG_N_BUILD_CHECKS; check++)
    {
      TgPartKind kind;
      g_autofree char *part = NULL;

      if (!tg_build_check_applies (tg_job_setup (job), check))
        continue;
      if (tg_build_check_kind (check, &kind))
        part = g_strdup_printf ("%s-%u", tg_part_kind_to_word (kind), bore);
      tick (job, bore, check, part ? part : "");
    }
}

static TgBuild *
build_of (TgJob *job)
{
  g_autoptr (TgReview) review = tg_review_new (job);

  return tg_build_new (job, review);
}

static const TgBuildTick *
find_tick (const TgBuild *build, guint bore, TgBuildCheck check)
{
  const GArray *ticks = tg_build_card (build, bore)->ticks;

  for (guint i = 0; i < ticks->len; i++)
    if (g_array_index (ticks, TgBuildTick, i).check == check)
      return &g_array_index (ticks, TgBuildTick, i);
  g_assert_not_reached ();
}

static const TgBuildPart *
find_part (const TgBuild *build, guint bore, TgPartKind kind)
{
  const GArray *parts = tg_build_card (build, bore)->parts;

  for (guint i = 0; i < parts->len; i++)
    if (g_array_index (parts, TgBuildPart, i).kind == kind)
      return &g_array_index (parts, TgBuildPart, i);
  g_assert_not_reached ();
}

/* Two parts of one kind change places. */
static void
swap_parts (TgJob *job, const char *one, const char *other, TgPartKind kind)
{
  g_autoptr (TgReview) review = tg_review_new (job);
  g_autoptr (TgSetup) setup = tg_setup_copy (review->setup);
  TgPart *a = tg_setup_find_part (setup, one, NULL), *b = tg_setup_find_part (setup, other, NULL);
  guint bore = a->bore;
  TgEvent event = tg_event_blank (TG_EVENT_PAIR);
  g_autofree char *places = NULL;

  a->bore = b->bore;
  b->bore = bore;
  places = tg_setup_places (setup, 1u << kind);
  event.places = places;
  fixture_append (job, event);
}

static void
test_fresh (void)
{
  g_autoptr (TgJob) job = tg_job_new (fixture_setup (2, TRUE, TRUE));
  g_autoptr (TgBuild) build = build_of (job);
  const TgBuildCard *card = tg_build_card (build, 2);

  g_assert_cmpuint (build->cards->len, ==, 2);
  g_assert_cmpuint (card->parts->len, ==, 2);
  /* rod and piston in hand, but nothing else is weighed; the ten that every bore has */
  g_assert_cmpuint (card->ticks->len, ==, 12);
  g_assert_true (isnan (find_part (build, 2, TG_PART_ROD)->weight_g));
  g_assert_false (card->ready || card->done);
  g_assert_true (isnan (card->sum_g));
  g_assert_cmpstr (build->facing[TG_FACING_ROD], ==, "as the maker’s manual says");
}

static void
test_done (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;
  const TgBuildCard *card;

  tick_all (job, 1);
  build = build_of (job);
  card = tg_build_card (build, 1);
  g_assert_true (card->ready && card->done);
  g_assert_cmpuint (card->n_ticked, ==, card->ticks->len);
  g_assert_cmpuint (card->n_wrong, ==, 0);
  g_assert_cmpuint (build->n_done, ==, 1);
  g_assert_true (tg_build_card (build, 2)->ready);
  g_assert_false (tg_build_card (build, 2)->done);
  g_assert_cmpfloat_with_epsilon (find_part (build, 1, TG_PART_ROD)->weight_g, 583.7, 1e-9);
  g_assert_cmpfloat_with_epsilon (card->sum_g, 640.5, 1e-9);
}

static void
test_wrong_in_hand (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;
  const TgBuildTick *piston;

  tick (job, 1, TG_CHECK_PISTON, "piston-2");
  build = build_of (job);
  piston = find_tick (build, 1, TG_CHECK_PISTON);
  g_assert_true (piston->wrong && !piston->ticked && !piston->stale);
  g_assert_cmpstr (piston->remark, ==, "Piston 2 is in hand; Piston 1 belongs here");
  g_assert_cmpuint (tg_build_card (build, 1)->n_wrong, ==, 1);

  /* the right one after it counts */
  g_clear_pointer (&build, tg_build_free);
  tick (job, 1, TG_CHECK_PISTON, "piston-1");
  build = build_of (job);
  g_assert_true (find_tick (build, 1, TG_CHECK_PISTON)->ticked);
}

static void
test_strikes (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgReview) review = NULL;
  g_autoptr (GArray) strikes = NULL;
  g_autoptr (TgBuild) build = NULL;

  tick (job, 1, TG_CHECK_PISTON, "piston-2");
  tick (job, 1, TG_CHECK_PISTON, "piston-1");
  tick (job, 2, TG_CHECK_PISTON, "piston-2");
  review = tg_review_new (job);
  strikes = tg_build_strikes (job, review, 1, TG_CHECK_PISTON);
  g_assert_cmpuint (strikes->len, ==, 2);
  for (guint i = 0; i < strikes->len; i++)
    fixture_append (job, g_array_index (strikes, TgEvent, i));
  build = build_of (job);
  g_assert_cmpint (find_tick (build, 1, TG_CHECK_PISTON)->event, ==, -1);
  g_assert_true (find_tick (build, 2, TG_CHECK_PISTON)->ticked);
}

/* Pin 1 and the heavier spare, pin 3, change places after all was ticked. */
static void
test_swapped (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;

  tick_all (job, 1);
  swap_parts (job, "pin-1", "pin-3", TG_PART_PIN);
  build = build_of (job);
  g_assert_true (find_tick (build, 1, TG_CHECK_PIN)->stale);
  g_assert_cmpstr (find_tick (build, 1, TG_CHECK_PIN)->remark, ==,
                   "Pin 1 was here then; Pin 3 belongs here now");
  g_assert_true (find_tick (build, 1, TG_CHECK_ROD)->ticked);
  g_assert_cmpstr (find_tick (build, 1, TG_CHECK_CLIPS_NEW)->remark, ==, "Pin 1 was here then");
  g_assert_true (find_tick (build, 1, TG_CHECK_BOLTS)->stale);
  g_assert_cmpstr (find_part (build, 1, TG_PART_PIN)->remark, ==,
                   "is not the pin that was proven here: Pin 1 was");
  g_assert_false (tg_build_card (build, 1)->ready);
  g_assert_true (tg_build_card (build, 2)->ready || !find_part (build, 2, TG_PART_PIN)->proven);
}

/* Who holds the part that a later pairing puts here holds the right one. */
static void
test_paired_to_what_is_in_hand (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;

  tick (job, 1, TG_CHECK_PISTON, "piston-2");
  swap_parts (job, "piston-1", "piston-2", TG_PART_PISTON);
  build = build_of (job);
  g_assert_true (find_tick (build, 1, TG_CHECK_PISTON)->ticked);
}

static void
test_ground (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;

  tick_all (job, 1);
  tick_all (job, 2);
  fixture_pass (job, "piston-1", "feet", 0.3);
  build = build_of (job);
  g_assert_cmpstr (find_part (build, 1, TG_PART_PISTON)->remark, ==,
                   "was ground after it was proven");
  g_assert_cmpstr (find_tick (build, 1, TG_CHECK_PISTON)->remark, ==,
                   "Piston 1 was ground since then");
  g_assert_true (find_tick (build, 1, TG_CHECK_CAP)->stale);
  g_assert_true (find_tick (build, 1, TG_CHECK_ROD)->ticked);
  g_assert_true (find_tick (build, 2, TG_CHECK_CAP)->ticked);
}

static void
test_replaced (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_REPLACE);

  tick_all (job, 2);
  event.part = "rod-2";
  fixture_append (job, event);
  build = build_of (job);
  g_assert_cmpstr (find_tick (build, 2, TG_CHECK_ROD)->remark, ==,
                   "another piece is Rod 2 since then");
  g_assert_cmpstr (find_part (build, 2, TG_PART_ROD)->remark, ==,
                   "is not the rod that was proven here: another piece took its place");
  g_assert_true (find_tick (build, 2, TG_CHECK_PISTON)->ticked);
  g_assert_true (find_tick (build, 2, TG_CHECK_TURNS)->stale);
}

static void
test_out (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;

  tick_all (job, 1);
  for (guint i = 0; i < 9; i++)
    {
      fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 413.1);
      fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN, 413.1);
    }
  build = build_of (job);
  g_assert_true (find_tick (build, 1, TG_CHECK_ROD)->stale);
  g_assert_cmpstr (find_part (build, 1, TG_PART_ROD)->remark, ==,
                   "big end weighs 0.4 g over its band");
}

/* Even all the same: a target that a proven set lies under spoils no tick. */
static void
test_even_below_target (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;

  tick_all (job, 1);
  fixture_target (job, TG_BAND_ROD_BIG, 413.0);
  fixture_weigh (job, "rod-1", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 412.1);
  build = build_of (job);
  g_assert_true (tg_build_card (build, 1)->done);
}

static void
test_facing (void)
{
  g_autoptr (TgJob) job = even_job ();
  g_autoptr (TgBuild) build = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  tick_all (job, 1);
  event.path = "engine.piston-facing";
  event.value = "front";
  fixture_append (job, event);
  build = build_of (job);
  g_assert_cmpstr (build->facing[TG_FACING_PISTON], ==, "front");
  g_assert_true (find_tick (build, 1, TG_CHECK_PISTON_FACING)->stale);
  g_assert_true (find_tick (build, 1, TG_CHECK_ROD_FACING)->ticked);
}

static void
test_families (void)
{
  g_autoptr (TgSetup) rods = fixture_setup (2, TRUE, FALSE);
  g_autoptr (TgSetup) pistons = fixture_setup (2, FALSE, TRUE);

  g_assert_true (tg_build_check_applies (rods, TG_CHECK_CAP));
  g_assert_false (tg_build_check_applies (rods, TG_CHECK_CLIPS_NEW));
  g_assert_false (tg_build_check_applies (rods, TG_CHECK_PIN));
  g_assert_true (tg_build_check_applies (pistons, TG_CHECK_CLIPS_NEW));
  g_assert_false (tg_build_check_applies (pistons, TG_CHECK_CAP));
}

/* Two benches tick each its own bore; which of the files comes first makes no difference. */
static void
test_merged (void)
{
  g_autoptr (TgJob) one = even_job (), other = tg_job_copy (one);
  g_autoptr (TgJob) there = NULL, back = NULL;
  g_autoptr (TgBuild) a = NULL, b = NULL;
  TgEvent event = tg_event_blank (TG_EVENT_TICK);

  event.stamp = (TgStamp){ 1772990000, 60 };
  event.id = "one";
  event.bore = 1;
  event.check = TG_CHECK_CAP;
  g_assert_true (tg_job_append (one, &event, NULL));
  event.stamp.seconds--;
  event.id = "other";
  event.bore = 2;
  g_assert_true (tg_job_append (other, &event, NULL));
  there = tg_job_merge (one, other, NULL);
  back = tg_job_merge (other, one, NULL);
  a = build_of (there);
  b = build_of (back);
  for (guint bore = 1; bore <= 2; bore++)
    {
      g_assert_true (find_tick (a, bore, TG_CHECK_CAP)->ticked);
      g_assert_cmpint (find_tick (a, bore, TG_CHECK_CAP)->event, ==,
                       find_tick (b, bore, TG_CHECK_CAP)->event);
    }
}

int
main (int argc, char **argv)
{
  g_test_init (&argc, &argv, NULL);
  g_test_add_func ("/build/fresh", test_fresh);
  g_test_add_func ("/build/done", test_done);
  g_test_add_func ("/build/wrong-in-hand", test_wrong_in_hand);
  g_test_add_func ("/build/strikes", test_strikes);
  g_test_add_func ("/build/swapped", test_swapped);
  g_test_add_func ("/build/paired-to-what-is-in-hand", test_paired_to_what_is_in_hand);
  g_test_add_func ("/build/ground", test_ground);
  g_test_add_func ("/build/replaced", test_replaced);
  g_test_add_func ("/build/out", test_out);
  g_test_add_func ("/build/even-below-target", test_even_below_target);
  g_test_add_func ("/build/facing", test_facing);
  g_test_add_func ("/build/families", test_families);
  g_test_add_func ("/build/merged", test_merged);
  return g_test_run ();
}
