/* test-passes.c: how long a pass was, and what that teaches
 *
 * The window is driven in this process.  All figures are invented.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "bench.h"
#include "effort-field.h"
#include "fixture.h"
#include "next-panel.h"

static const TgReview *
review_of (const Bench *bench)
{
  return tg_session_review (bench_session (bench));
}

static guint
n_passes (const Bench *bench, TgEvent *last)
{
  const TgJob *job = tg_session_job (bench_session (bench));
  guint n = 0;

  for (guint i = 0; i < tg_job_n_events (job); i++)
    if (tg_job_event (job, i)->kind == TG_EVENT_PASS)
      {
        *last = *tg_job_event (job, i);
        n++;
      }
  return n;
}

/* Rod 2 is three grams heavy at its small end; no pass yet. */
static TgJob *
heavy_rod (void)
{
  TgJob *job = tg_job_new (fixture_setup (4, TRUE, FALSE));

  for (guint i = 1; i <= 4; i++)
    fixture_weigh_rod (job, i, 171.6 + (i == 2) * 3, 412.1);
  return job;
}

static Bench *
at_grinding (TgJob *job)
{
  Bench *bench = bench_new (job);

  g_assert_true (gtk_widget_activate_action (bench->window, "win.stage", "s", "grind"));
  bench_spin (100);
  tg_session_set_part (bench_session (bench), 1);
  bench_spin (50);
  g_assert_cmpint (review_of (bench)->next->kind, ==, TG_NEXT_GRIND);
  return bench;
}

static GtkWidget *
child_of (const Bench *bench, const char *name)
{
  return bench_child (bench_find (bench->window, TG_TYPE_NEXT_PANEL), name);
}

static GtkWidget *
effort_child (const Bench *bench, const char *name)
{
  return bench_child (child_of (bench, "effort"), name);
}

static void
type_effort (const Bench *bench, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (effort_child (bench, "field")), text);
}

static void
pass (const Bench *bench)
{
  g_signal_emit_by_name (child_of (bench, "pass"), "clicked");
  bench_spin (50);
}

static void
count_in (const Bench *bench, TgEffort effort)
{
  gtk_drop_down_set_selected (GTK_DROP_DOWN (effort_child (bench, "unit")),
                              effort - TG_EFFORT_STROKES);
}

static void
test_strokes (void)
{
  g_autoptr (Bench) bench = at_grinding (heavy_rod ());
  double wanted = review_of (bench)->next->pass_g;
  TgEvent last;

  type_effort (bench, " 12 ");
  pass (bench);
  g_assert_cmpuint (n_passes (bench, &last), ==, 1);
  g_assert_cmpint (last.effort, ==, TG_EFFORT_STROKES);
  g_assert_cmpuint (last.count, ==, 12);
  g_assert_cmpint (last.mass, ==, tg_mass_from_g (wanted));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (effort_child (bench, "field"))), ==, "");
}

/* Minutes become seconds, and the next window counts in minutes again. */
static void
test_minutes (void)
{
  g_autoptr (Bench) bench = at_grinding (heavy_rod ());
  TgEvent last;

  count_in (bench, TG_EFFORT_SECONDS);
  type_effort (bench, "1:30");
  /* Enter in the field is the button */
  g_signal_emit_by_name (effort_child (bench, "field"), "activate");
  bench_spin (50);
  g_assert_cmpuint (n_passes (bench, &last), ==, 1);
  g_assert_cmpint (last.effort, ==, TG_EFFORT_SECONDS);
  g_assert_cmpuint (last.count, ==, 90);
  count_in (bench, TG_EFFORT_STROKES);
  g_assert_true (tg_window_open (TG_WINDOW (bench->window), bench->path));
  bench_spin (100);
  g_assert_cmpuint (gtk_drop_down_get_selected (GTK_DROP_DOWN (effort_child (bench, "unit"))), ==,
                    TG_EFFORT_SECONDS - TG_EFFORT_STROKES);
}

static void
test_not_counted (void)
{
  g_autoptr (Bench) bench = at_grinding (heavy_rod ());
  TgEvent last;

  pass (bench);
  g_assert_cmpuint (n_passes (bench, &last), ==, 1);
  g_assert_cmpint (last.effort, ==, TG_EFFORT_NONE);
  g_assert_cmpuint (last.count, ==, 0);
}

/* What cannot be stays, is told, and logs nothing; other text takes the word away. */
static void
test_refused (void)
{
  static const char *const bad[] = { "many", "0", "-2", "1:30", "100001" };
  g_autoptr (Bench) bench = at_grinding (heavy_rod ());
  TgEvent last;

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      type_effort (bench, bad[i]);
      g_assert_false (gtk_widget_get_visible (effort_child (bench, "problem")));
      pass (bench);
      g_assert_cmpuint (n_passes (bench, &last), ==, 0);
      g_assert_true (gtk_widget_get_visible (effort_child (bench, "problem")));
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (effort_child (bench, "field"))), ==,
                       bad[i]);
    }
  type_effort (bench, "9");
  pass (bench);
  g_assert_cmpuint (n_passes (bench, &last), ==, 1);
  g_assert_cmpuint (last.count, ==, 9);
}

/* One pass of @strokes with @tool on rod 2 that takes @grams. */
static void
teach (TgJob *job, TgTool tool, guint strokes, double wanted_g, double left_g)
{
  TgEvent event = tg_event_blank (TG_EVENT_PASS);

  event.part = "rod-2";
  event.zone = "small-pad";
  event.tool = tool;
  event.mass = tg_mass_from_g (wanted_g);
  event.effort = TG_EFFORT_STROKES;
  event.count = strokes;
  fixture_append (job, event);
  fixture_weigh (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, left_g);
  fixture_weigh (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, left_g);
}

/* What a tool has taught is said with it: in the instruction, or, of another one, below. */
static void
test_taught (void)
{
  TgJob *job = heavy_rod ();
  g_autoptr (Bench) bench = NULL;
  g_autofree char *words = NULL;
  g_autofree char *other = NULL;
  const char *detail, *advice;
  TgEffort effort;
  guint count;

  teach (job, TG_TOOL_FILE, 40, 0.5, 174.2);
  teach (job, TG_TOOL_BELT, 4, 0.5, 173.6);
  bench = at_grinding (job);
  g_assert_cmpint (review_of (bench)->next->effort, ==, TG_EFFORT_STROKES);
  words = tg_effort_words (TG_EFFORT_STROKES, review_of (bench)->next->count);
  detail = gtk_label_get_text (GTK_LABEL (child_of (bench, "detail")));
  g_assert_nonnull (strstr (detail, words));
  g_assert_nonnull (strstr (detail, "with the belt grinder"));
  g_assert_false (gtk_widget_get_visible (child_of (bench, "advice")));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (child_of (bench, "tool")), TG_TOOL_FILE);
  count = tg_review_pass_effort (review_of (bench), 1, review_of (bench)->next, TG_TOOL_FILE,
                                 &effort);
  other = tg_effort_words (effort, count);
  advice = gtk_label_get_text (GTK_LABEL (child_of (bench, "advice")));
  g_assert_true (gtk_widget_get_visible (child_of (bench, "advice")));
  g_assert_nonnull (strstr (advice, other));
  g_assert_cmpuint (count, >, review_of (bench)->next->count); /* ten times the strokes */
  /* of a tool that was never used nothing is known */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (child_of (bench, "tool")), TG_TOOL_MILL);
  g_assert_false (gtk_widget_get_visible (child_of (bench, "advice")));
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/passes/strokes", test_strokes);
  g_test_add_func ("/passes/minutes", test_minutes);
  g_test_add_func ("/passes/not-counted", test_not_counted);
  g_test_add_func ("/passes/refused", test_refused);
  g_test_add_func ("/passes/taught", test_taught);
  return g_test_run ();
}
