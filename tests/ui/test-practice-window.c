/* test-practice-window.c: a practice job in the window: laying on, looking, reading, grinding
 *
 * The window is driven in this process.  What a person would see is compared with the hidden truth.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>
#include <string.h>

#include "bench-panel.h"
#include "bench.h"
#include "effort-field.h"
#include "fixture.h"
#include "next-panel.h"
#include "reading-entry.h"

static TgJob *
practice_job (const TgPracticeFaults *faults)
{
  TgSetup *setup = fixture_setup (3, TRUE, FALSE);

  g_free (setup->name);
  setup->name = g_strdup ("Practice set");
  setup->check_weight = 500 * TG_MASS_G;
  tg_practice_set (&setup->practice, "window");
  setup->practice.spread_g = 2;
  setup->practice.faults = *faults;
  return tg_job_new (setup);
}

static TgPracticeDesk *
desk_of (const Bench *bench)
{
  return tg_session_desk (bench_session (bench));
}

static double
truth_g (const Bench *bench, guint part, TgFigure figure)
{
  return tg_practice_bench_truth (tg_practice_desk_bench (desk_of (bench)), part, figure);
}

static GtkWidget *
panel_of (const Bench *bench)
{
  return bench_find (bench->window, TG_TYPE_BENCH_PANEL);
}

static void
do_it (const Bench *bench, const char *action)
{
  g_assert_true (gtk_widget_activate_action (panel_of (bench), action, NULL));
  bench_spin (20);
}

static const char *
shown (const Bench *bench, const char *name)
{
  return gtk_label_get_text (GTK_LABEL (bench_child (panel_of (bench), name)));
}

/* What the display comes to rest at, in g; the text is compared with the figure. */
static double
settled_g (const Bench *bench)
{
  g_autoptr (GString) text = NULL;
  double grams;

  tg_practice_desk_pass_time (desk_of (bench), 5000);
  bench_spin (250);
  grams = tg_mass_to_g (tg_practice_desk_display (desk_of (bench)));
  text = g_string_new (shown (bench, "display"));
  g_string_replace (text, "−", "-", 0);
  g_assert_cmpfloat (fabs (g_ascii_strtod (text->str, NULL) - grams), <, 1e-9);
  return grams;
}

static void
type_display (const Bench *bench)
{
  g_autofree char *text = g_strdup (shown (bench, "display"));

  *strstr (text, " g") = '\0';
  bench_type (bench, text);
  bench_spin (50);
}

/* Put on, read, turn over, read: what lies there is said, and what is read is the truth. */
static void
test_weigh (void)
{
  const TgPracticeFaults none = { 0 };
  g_autoptr (Bench) bench = bench_new (practice_job (&none));
  const TgJob *job = tg_session_job (bench_session (bench));
  const TgEvent *event;

  g_assert_true (gtk_widget_get_visible (bench_child (bench->window, "practice")));
  g_assert_cmpstr (shown (bench, "state"), ==, "Nothing on the scale.");
  do_it (bench, "bench.lay");
  g_assert_nonnull (strstr (shown (bench, "state"), "Rod 1, small end, mark up"));
  g_assert_true (tg_practice_desk_is_settling (desk_of (bench)));
  g_assert_cmpfloat (fabs (settled_g (bench) - truth_g (bench, 0, TG_FIGURE_SMALL_END)), <=, 0.051);
  type_display (bench);
  do_it (bench, "bench.turn");
  g_assert_nonnull (strstr (shown (bench, "state"), "mark down"));
  settled_g (bench);
  type_display (bench);
  g_assert_cmpuint (tg_job_n_events (job), ==, 2);
  event = tg_job_event (job, 1);
  g_assert_true (event->practice);
  g_assert_cmpint (event->way, ==, TG_WAY_MARK_DOWN);
  g_assert_cmpfloat (fabs (tg_mass_to_g (event->mass) - truth_g (bench, 0, TG_FIGURE_SMALL_END)),
                     <=, 0.051);
  /* the rod stays where it is although another one is asked for */
  g_assert_nonnull (strstr (shown (bench, "state"), "Rod 1"));
  do_it (bench, "bench.lay");
  g_assert_nonnull (strstr (shown (bench, "state"), "Rod 2, small end, mark up"));
  do_it (bench, "bench.off");
  g_assert_cmpstr (shown (bench, "state"), ==, "Nothing on the scale.");
}

/* A touch is seen when one looks, a bearing that catches is rocked free, a zero that crept is set back. */
static void
test_faults (void)
{
  const TgPracticeFaults faults = {
    .catch_g = 2, .catch_share = 1, .touch_g = 3, .touch_share = 1
  };
  const TgPracticeFaults drifting = { .drift_g = 1 };
  g_autoptr (Bench) bench = bench_new (practice_job (&faults));
  g_autoptr (Bench) drifts = bench_new (practice_job (&drifting));
  double truth = truth_g (bench, 0, TG_FIGURE_SMALL_END), before;

  do_it (bench, "bench.lay");
  g_assert_null (strstr (shown (bench, "state"), "touches"));
  do_it (bench, "bench.look");
  g_assert_nonnull (strstr (shown (bench, "state"), "touches the post"));
  before = settled_g (bench);
  do_it (bench, "bench.rock");
  g_assert_cmpfloat (fabs (fabs (settled_g (bench) - before) - 2), <=, 0.11);
  g_assert_cmpfloat (fabs (settled_g (bench) - (truth - 3)), <=, 0.051);

  do_it (drifts, "bench.lay");
  do_it (drifts, "bench.off");
  g_assert_cmpfloat (settled_g (drifts), !=, 0);
  do_it (drifts, "bench.zero");
  g_assert_cmpfloat (settled_g (drifts), ==, 0);
}

/* The check weight lies there when it is asked for. */
static void
test_check_weight (void)
{
  const TgPracticeFaults off = { .gain = 0.001 };
  g_autoptr (Bench) bench = bench_new (practice_job (&off));
  const TgJob *job = tg_session_job (bench_session (bench));

  g_assert_true (gtk_widget_activate_action (bench->window, "win.check-weight", NULL));
  bench_spin (50);
  do_it (bench, "bench.lay");
  g_assert_cmpstr (shown (bench, "state"), ==, "The check weight is on the scale.");
  g_assert_cmpfloat (settled_g (bench), ==, 500.5);
  type_display (bench);
  g_assert_cmpuint (tg_job_n_events (job), >=, 1);
  g_assert_cmpint (tg_job_event (job, tg_job_n_events (job) - 1)->kind, ==, TG_EVENT_CHECK_WEIGHT);
}

/* -- grinding ---------------------------------------------------------------------------------- */

static void
weigh_all (TgJob *job)
{
  TgEvent reading = tg_event_blank (TG_EVENT_WEIGHING);
  static const char *const parts[] = { "rod-1", "rod-2", "rod-3" };

  reading.practice = TRUE;
  for (guint i = 0; i < 3; i++)
    for (reading.figure = TG_FIGURE_SMALL_END; reading.figure <= TG_FIGURE_BIG_END;
         reading.figure++)
      for (reading.way = TG_WAY_MARK_UP; reading.way <= TG_WAY_MARK_DOWN; reading.way++)
        {
          reading.part = parts[i];
          reading.mass = (reading.figure == TG_FIGURE_SMALL_END ? 245000 : 560000) +
                         1500 * (i == 1);
          fixture_append (job, reading);
        }
}

static GtkWidget *
next_child (const Bench *bench, const char *name)
{
  return bench_child (bench_find (bench->window, TG_TYPE_NEXT_PANEL), name);
}

/* Any zone, for as long as is said; metal that is off stays off. */
static void
test_grind (void)
{
  const TgPracticeFaults none = { 0 };
  TgJob *begun = practice_job (&none);
  g_autoptr (Bench) bench = NULL;
  const TgJob *job;
  const TgEvent *pass;
  double before;
  guint n;

  weigh_all (begun);
  bench = bench_new (begun);
  job = tg_session_job (bench_session (bench));
  g_assert_true (gtk_widget_activate_action (bench->window, "win.stage", "s", "grind"));
  bench_spin (100);
  tg_session_set_part (bench_session (bench), 1);
  bench_spin (50);
  before = truth_g (bench, 1, TG_FIGURE_WHOLE);
  n = tg_job_n_events (job);

  /* the cautions first, then a time is wanted */
  g_signal_emit_by_name (next_child (bench, "pass"), "clicked");
  g_signal_emit_by_name (next_child (bench, "pass"), "clicked");
  bench_spin (50);
  g_assert_cmpuint (tg_job_n_events (job), ==, n);
  g_assert_true (gtk_widget_get_visible (bench_child (next_child (bench, "effort"), "problem")));

  gtk_drop_down_set_selected (GTK_DROP_DOWN (next_child (bench, "zone")), 4);
  gtk_editable_set_text (GTK_EDITABLE (bench_child (next_child (bench, "effort"), "field")), "12");
  g_signal_emit_by_name (next_child (bench, "pass"), "clicked");
  bench_spin (50);
  pass = tg_job_event (job, tg_job_n_events (job) - 1);
  g_assert_cmpint (pass->kind, ==, TG_EVENT_PASS);
  g_assert_true (pass->practice);
  g_assert_cmpstr (pass->zone, ==,
                   tg_design_zone (tg_setup_part (tg_job_setup (job), 1)->design, 4)->id);
  g_assert_cmpuint (pass->count, ==, 12);
  g_assert_cmpfloat_with_epsilon (
      before - truth_g (bench, 1, TG_FIGURE_WHOLE),
      12 * tg_practice_bench_rate (tg_practice_desk_bench (desk_of (bench)), 1, pass->tool), 1e-9);

  before = truth_g (bench, 1, TG_FIGURE_WHOLE);
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  bench_spin (50);
  g_assert_cmpfloat (truth_g (bench, 1, TG_FIGURE_WHOLE), ==, before);
  g_assert_nonnull (
      strstr (gtk_label_get_text (GTK_LABEL (bench_child (bench->window, "toast_text"))),
              "The metal stays off"));
}

/* A real job has no such bench. */
static void
test_real (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (2, TRUE, FALSE)));

  g_assert_null (bench_find (bench->window, TG_TYPE_BENCH_PANEL));
  g_assert_null (desk_of (bench));
  g_assert_false (gtk_widget_get_visible (bench_child (bench->window, "practice")));
}

/* What a scale on a cable sends is of parts that are not here. */
static void
test_cable (void)
{
  const TgPracticeFaults none = { 0 };
  g_autoptr (Bench) bench = bench_new (practice_job (&none));
  GtkWidget *entry = bench_find (bench->window, TG_TYPE_READING_ENTRY);

  g_assert_false (tg_reading_entry_offer (TG_READING_ENTRY (entry), 245000, TRUE));
  g_assert_cmpuint (tg_job_n_events (tg_session_job (bench_session (bench))), ==, 0);
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/practice-window/weigh", test_weigh);
  g_test_add_func ("/practice-window/faults", test_faults);
  g_test_add_func ("/practice-window/check-weight", test_check_weight);
  g_test_add_func ("/practice-window/grind", test_grind);
  g_test_add_func ("/practice-window/real", test_real);
  g_test_add_func ("/practice-window/cable", test_cable);
  return g_test_run ();
}
