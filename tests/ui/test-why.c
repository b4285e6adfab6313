/* test-why.c: the reason beside each verdict is opened by the keyboard, and no verdict lacks one
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A reason shows a figure, its rule and its source.  All weights are invented.
 */
#include <string.h>

#include "bench.h"
#include "fixture.h"
#include "why-button.h"
#include "words.h"

static const char *const stages[] = { "setup", "scale", "weigh", "match",
                                      "grind", "prove", "build", "journal" };

/* -- jobs ------------------------------------------------------------------------------------- */

static void
look (TgJob *job, TgEventKind kind, double grams)
{
  TgEvent event = tg_event_blank (kind);

  event.mass = tg_mass_from_g (grams);
  event.nominal = kind == TG_EVENT_CHECK_WEIGHT ? 200 * TG_MASS_G : 0;
  fixture_append (job, event);
}

/* Two rods, one of which has two ways up that differ and does not close, two pistons, one of them far too
 * light for its held target, a zero and a check weight that are off; in an engine that is described. */
static TgJob *
doubtful_job (void)
{
  static const char *const engine[][2] = {
    { "engine.kind", "twin-360" }, { "engine.stroke", "80" },  { "engine.rod-length", "160" },
    { "engine.spacing", "100" },   { "engine.speed", "6000" }, { "engine.crank-mass", "14" },
    { "check-weight", "200" },
  };
  TgSetup *setup = fixture_setup (2, TRUE, TRUE);
  TgJob *job;

  for (guint i = 0; i < G_N_ELEMENTS (engine); i++)
    g_assert_true (tg_setup_set (setup, engine[i][0], engine[i][1], NULL));
  job = tg_job_new (setup);
  look (job, TG_EVENT_ZERO, 0);
  fixture_weigh_rod (job, 1, 171.6, 412.1);
  fixture_weigh (job, "rod-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 590);
  fixture_weigh (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
  fixture_weigh (job, "rod-2", TG_FIGURE_SMALL_END, TG_WAY_MARK_DOWN, 173.0);
  fixture_weigh (job, "rod-2", TG_FIGURE_BIG_END, TG_WAY_MARK_UP, 412.0);
  fixture_weigh (job, "rod-2", TG_FIGURE_BIG_END, TG_WAY_MARK_DOWN, 412.0);
  fixture_weigh_piston (job, 1, 519.0);
  fixture_weigh_piston (job, 2, 520.9);
  fixture_target (job, TG_BAND_PISTON, 520.0);
  look (job, TG_EVENT_CHECK_WEIGHT, 207);
  look (job, TG_EVENT_ZERO, 3);
  return job;
}

/* -- reasons on the screen ---------------------------------------------------------------------- */

static gboolean
has_digit (const char *text)
{
  return strpbrk (text, "0123456789") != NULL;
}

typedef struct
{
  gboolean figure;
  gboolean rule;
  gboolean source;
} Seen;

static void
look_through (GtkWidget *widget, Seen *seen)
{
  if (GTK_IS_LABEL (widget))
    {
      const char *text = gtk_label_get_text (GTK_LABEL (widget));

      seen->figure |= gtk_widget_has_css_class (widget, "figures") && has_digit (text);
      seen->rule |= g_str_has_prefix (text, "Rule: ") && strlen (text) > 20;
      seen->source |= g_str_has_prefix (text, "Source: ") && strlen (text) > 12;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    look_through (child, seen);
}

/* The keyboard gets to the button, and activating it opens its reason. */
static void
press (GtkWidget *button)
{
  GtkMenuButton *menu = GTK_MENU_BUTTON (gtk_widget_get_first_child (button));
  Seen seen = { FALSE, FALSE, FALSE };

  g_assert_true (gtk_widget_get_focus_child (button) ||
                 gtk_widget_child_focus (button, GTK_DIR_TAB_FORWARD));
  g_assert_true (gtk_widget_activate (gtk_widget_get_first_child (GTK_WIDGET (menu))));
  /* a button that a key has activated stays down for a quarter of a second */
  bench_wait_for (gtk_menu_button_get_popover (menu) &&
                  gtk_widget_get_mapped (GTK_WIDGET (gtk_menu_button_get_popover (menu))));
  bench_spin (50);
  look_through (GTK_WIDGET (gtk_menu_button_get_popover (menu)), &seen);
  g_assert_true (seen.figure);
  g_assert_true (seen.rule);
  g_assert_true (seen.source);
  gtk_menu_button_popdown (menu);
  bench_spin (20);
}

/* Every Why button that is shown below @widget, or below a widget of @type. */
static void
collect (GtkWidget *widget, GPtrArray *found)
{
  if (!gtk_widget_get_mapped (widget))
    return;
  if (TG_IS_WHY_BUTTON (widget))
    g_ptr_array_add (found, widget);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    collect (child, found);
}

static guint
press_all (GtkWidget *root)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new ();

  collect (root, found);
  for (guint i = 0; i < found->len; i++)
    press (g_ptr_array_index (found, i));
  return found->len;
}

/* The widget of @type_name that is shown below @root, or NULL. */
static GtkWidget *
shown (GtkWidget *root, const char *type_name)
{
  return bench_find (root, g_type_from_name (type_name));
}

static guint
press_in (Bench *bench, const char *stage, const char *type_name)
{
  GtkWidget *widget;

  gtk_widget_activate_action (bench->window, "win.stage", "s", stage);
  bench_spin (100);
  widget = shown (bench->window, type_name);
  g_assert_nonnull (widget);
  return press_all (widget);
}

static void
test_doubtful (void)
{
  g_autoptr (Bench) bench = bench_new (doubtful_job ());

  g_assert_cmpuint (press_in (bench, "scale", "TgScaleRecord"), >=, 5);
  g_assert_cmpuint (press_in (bench, "weigh", "TgWeighPage"), >=, 4);
  g_assert_cmpuint (press_in (bench, "weigh", "TgScaleChecks"), ==, 1);
  tg_session_set_part (bench_session (bench), 2);
  g_assert_cmpuint (press_in (bench, "grind", "TgGrindPage"), >=, 4);
  g_assert_cmpuint (press_in (bench, "grind", "TgDecisionView"), >=, 3);
  g_assert_cmpuint (press_in (bench, "build", "TgBuildBore"), >=, 10);
}

/* A reading that is asked about, and one that is refused. */
static void
test_question (void)
{
  g_autoptr (Bench) bench = bench_new (doubtful_job ());
  GtkWidget *entry;

  gtk_widget_activate_action (bench->window, "win.stage", "s", "weigh");
  bench_spin (100);
  entry = shown (bench->window, "TgReadingEntry");
  g_assert_cmpuint (press_all (entry), ==, 0);
  bench_type (bench, "999");
  bench_spin (20);
  g_assert_cmpuint (press_all (entry), ==, 1);
  bench_type (bench, "6000");
  bench_spin (20);
  g_assert_cmpuint (press_all (entry), ==, 1);
}

static void
test_prove (void)
{
  g_autoptr (Bench) bench = bench_new (doubtful_job ());

  gtk_widget_activate_action (bench->window, "win.stage", "s", "prove");
  bench_spin (50);
  gtk_widget_activate_action (bench->window, "win.prove", "s", "forces");
  bench_spin (200);
  g_assert_cmpuint (press_all (shown (bench->window, "TgForcesView")), ==, 3);
  gtk_widget_activate_action (bench->window, "win.prove", "s", "bobweight");
  bench_spin (200);
  g_assert_cmpuint (press_all (shown (bench->window, "TgBobweightView")), ==, 2);
}

static void
test_even (void)
{
  TgJob *job = tg_job_new (fixture_setup (2, FALSE, TRUE));
  g_autoptr (Bench) bench = NULL;

  fixture_weigh_piston (job, 1, 520.0);
  fixture_weigh_piston (job, 2, 520.1);
  bench = bench_new (job);
  g_assert_cmpuint (press_in (bench, "grind", "TgEvenCard"), ==, 1);
  g_assert_cmpuint (press_in (bench, "weigh", "TgWeighPage"), >=, 1);
}

static void
unfold (GtkWidget *widget)
{
  if (GTK_IS_EXPANDER (widget))
    gtk_expander_set_expanded (GTK_EXPANDER (widget), TRUE);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    unfold (child);
}

/* Of small ends, big ends and pistons, two of them chosen and one decided. */
static void
test_targets (void)
{
  g_autoptr (Bench) bench = bench_new (doubtful_job ());
  GtkWidget *page;

  gtk_widget_activate_action (bench->window, "win.stage", "s", "setup");
  bench_spin (100);
  page = shown (bench->window, "TgSetupPage");
  unfold (page);
  bench_spin (400);
  g_assert_cmpuint (press_all (page), ==, 3);
}

/* -- no card without one -------------------------------------------------------------------------- */

static gboolean
has_why (GtkWidget *widget)
{
  g_autoptr (GPtrArray) found = g_ptr_array_new ();

  collect (widget, found);
  return found->len > 0;
}

/* A card of a finding or of a decision, shown. */
static gboolean
is_verdict (GtkWidget *widget)
{
  return gtk_widget_has_css_class (widget, "finding") ||
         gtk_widget_has_css_class (widget, "decision") ||
         (gtk_widget_has_css_class (widget, "question") && !GTK_IS_LABEL (widget)) ||
         g_str_equal (G_OBJECT_TYPE_NAME (widget), "TgEvenCard") ||
         g_str_equal (G_OBJECT_TYPE_NAME (widget), "TgProofLine") ||
         g_str_equal (G_OBJECT_TYPE_NAME (widget), "TgBuildBore");
}

static guint
check_cards (GtkWidget *widget)
{
  guint n = 0;

  if (!gtk_widget_get_mapped (widget))
    return 0;
  if (is_verdict (widget))
    {
      if (!has_why (widget))
        g_error ("a %s says what is, but not why", G_OBJECT_TYPE_NAME (widget));
      n++;
    }
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    n += check_cards (child);
  return n;
}

static void
test_every_page (void)
{
  g_autoptr (Bench) bench = bench_new (doubtful_job ());
  guint n_parts = tg_session_review (bench_session (bench))->parts->len, n = 0;

  for (guint part = 0; part < n_parts; part++)
    {
      tg_session_set_part (bench_session (bench), part);
      for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
        {
          gtk_widget_activate_action (bench->window, "win.stage", "s", stages[i]);
          bench_spin (50);
          n += check_cards (bench->window);
        }
    }
  g_assert_cmpuint (n, >, 12);
}

/* A Why button makes its row no higher than the text beside it. */
static void
test_no_higher (void)
{
  g_autoptr (Bench) bench = bench_new (doubtful_job ());
  g_autoptr (GPtrArray) found = g_ptr_array_new ();

  gtk_widget_activate_action (bench->window, "win.stage", "s", "weigh");
  bench_spin (100);
  collect (bench->window, found);
  g_assert_cmpuint (found->len, >, 0);
  for (guint i = 0; i < found->len; i++)
    {
      GtkWidget *button = g_ptr_array_index (found, i);
      GtkWidget *label = gtk_widget_get_prev_sibling (button);
      int why, text;

      if (!label || !GTK_IS_LABEL (label))
        continue;
      gtk_widget_measure (button, GTK_ORIENTATION_VERTICAL, -1, NULL, &why, NULL, NULL);
      gtk_widget_measure (label, GTK_ORIENTATION_VERTICAL, -1, NULL, &text, NULL, NULL);
      g_assert_cmpint (why, <=, text + 1);
    }
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/why/doubtful", test_doubtful);
  g_test_add_func ("/why/question", test_question);
  g_test_add_func ("/why/prove", test_prove);
  g_test_add_func ("/why/even", test_even);
  g_test_add_func ("/why/targets", test_targets);
  g_test_add_func ("/why/every-page", test_every_page);
  g_test_add_func ("/why/no-higher", test_no_higher);
  return g_test_run ();
}
