/* test-match-page.c: which part goes with which, as a person decides it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "bench.h"
#include "bore-card.h"
#include "bore-part.h"
#include "cautions-panel.h"
#include "fixture.h"
#include "match-page.h"
#include "odd-card.h"
#include "padlock.h"
#include "page-fixture.h"
#include "pairing-job.h"
#include "pairing-view.h"
#include "weigh-page.h"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *page;
  TgMatchDesk *desk;
  GtkWindow *window;
} Rig;

static gboolean
is_searching (Rig *rig)
{
  return tg_pairing_search_is_running (tg_match_desk_search (rig->desk));
}

/* Takes @job. */
static Rig *
rig_open (TgJob *job, int width)
{
  Rig *rig = g_new0 (Rig, 1);

  rig->folder = page_folder_new ();
  rig->session = pairing_session_new (rig->folder, job);
  rig->page = tg_match_page_new ();
  rig->desk = tg_match_page_desk (TG_MATCH_PAGE (rig->page));
  g_object_set (rig->page, "session", rig->session, NULL);
  g_assert_false (is_searching (rig)); /* nobody looks yet */
  rig->window = page_show (rig->page, width, 700);
  return rig;
}

/* The same, and the best pairing has been found. */
static Rig *
rig_new (guint cylinders, guint spares)
{
  Rig *rig = rig_open (pairing_job (cylinders, spares), 1100);

  page_wait_for (!is_searching (rig));
  page_settle ();
  return rig;
}

static void
rig_free (Rig *rig)
{
  gtk_window_destroy (rig->window);
  g_object_unref (rig->session);
  page_folder_free (rig->folder);
  g_free (rig);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rig, rig_free)

/* The first text in sight below @root that has @part in it, or NULL. */
static GtkWidget *
label_with (GtkWidget *root, const char *part)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *inside;

      if (!gtk_widget_get_mapped (child))
        continue;
      if (GTK_IS_LABEL (child))
        {
          g_autofree char *text = g_strdup (gtk_label_get_text (GTK_LABEL (child)));
          char *c;

          while ((c = strstr (text, "\302\240"))) /* figures are kept with their units */
            {
              c[0] = ' ';
              memmove (c + 1, c + 2, strlen (c + 2) + 1);
            }
          if (strstr (text, part))
            return child;
        }
      inside = label_with (child, part);
      if (inside)
        return inside;
    }
  return NULL;
}

static gboolean
says (Rig *rig, const char *part)
{
  return label_with (rig->page, part) != NULL;
}

/* The button that has @text on it. */
static GtkWidget *
button_with (Rig *rig, const char *text)
{
  GtkWidget *label = label_with (rig->page, text);

  if (!label)
    g_error ("nothing says “%s”", text);
  return gtk_widget_get_ancestor (label, GTK_TYPE_BUTTON);
}

static void
press (Rig *rig, const char *text)
{
  GtkWidget *button = button_with (rig, text);

  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  page_wait_for (!is_searching (rig));
  page_settle ();
}

static void
press_named (Rig *rig, const char *name)
{
  GtkWidget *button = page_find_named (rig->page, GTK_TYPE_BUTTON, name);

  g_assert_true (gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  page_wait_for (!is_searching (rig));
  page_settle ();
}

static guint
n_events (Rig *rig)
{
  return tg_job_n_events (tg_session_job (rig->session));
}

static gint64
total (Rig *rig)
{
  return tg_match_desk_plan (rig->desk)->total;
}

static void
pick (Rig *rig, guint bore)
{
  tg_pairing_view_set_row (TG_PAIRING_VIEW (page_find (rig->page, TG_TYPE_PAIRING_VIEW, NULL)),
                           bore - 1);
  page_settle ();
}

/* The row of a family in the card of the bore that is picked. */
static GtkWidget *
part_row (Rig *rig, guint family)
{
  GtkWidget *row = page_find (rig->page, TG_TYPE_BORE_PART, NULL);

  while (family-- > 0)
    row = gtk_widget_get_next_sibling (row);
  return row;
}

static void
open_others (Rig *rig, guint family)
{
  gtk_expander_set_expanded (
      GTK_EXPANDER (page_find (part_row (rig, family), GTK_TYPE_EXPANDER, NULL)), TRUE);
  page_settle ();
}

/* --- the best pairing ------------------------------------------------------------------------ */

static void
test_accept (void)
{
  g_autoptr (Rig) rig = rig_new (8, 0);
  guint before = n_events (rig);
  g_autofree char *today = tg_pairing_plan_words (tg_match_desk_pairing (rig->desk),
                                                  tg_match_desk_today (rig->desk));
  g_autofree char *line = g_strdup_printf ("Today: %s.", today);

  g_assert_cmpint (total (rig), <, tg_match_desk_today (rig->desk)->total);
  g_assert_true (says (rig, line));
  g_assert_true (says (rig, "Proven: no pairing takes less"));
  g_assert_true (says (rig, "Search on") ==
                 (tg_match_desk_result (rig->desk)->sums.proved < TG_MATCHING_STAGES));
  g_assert_false (says (rig, "Accepted"));
  press (rig, "Accept this pairing");
  g_assert_cmpuint (n_events (rig), ==, before + 1);
  g_assert_cmpint (page_last (rig->session)->kind, ==, TG_EVENT_PAIR);
  g_assert_true (says (rig, "Accepted; the plan follows."));
  g_assert_true (says (rig, "As the parts sit today."));
  g_assert_true (tg_match_desk_plan_is_today (rig->desk));
  g_assert_false (gtk_widget_is_sensitive (button_with (rig, "Paired like this already")));
  for (guint b = 1; b <= 8; b++)
    for (guint f = 0; f < 4; f++)
      g_assert_cmpuint (
          tg_review_part (tg_session_review (rig->session), tg_match_desk_part (rig->desk, f, b))
              ->part->bore,
          ==, b);
  g_assert_true (tg_session_undo (rig->session, NULL));
  page_wait_for (!is_searching (rig));
  page_settle ();
  g_assert_false (tg_match_desk_plan_is_today (rig->desk));
  g_assert_false (says (rig, "Accepted"));
  g_assert_true (gtk_widget_is_sensitive (button_with (rig, "Accept this pairing")));
}

/* Parts that sit well already: that they stay so is a decision, made once. */
static void
test_keep (void)
{
  TgJob *job = tg_job_new (pairing_setup (3, 0));
  g_autoptr (Rig) rig = NULL;
  guint before;

  for (guint i = 0; i < tg_job_setup (job)->parts->len; i++)
    fixture_weigh (job, tg_setup_part (tg_job_setup (job), i)->id, TG_FIGURE_WHOLE, TG_WAY_ANY,
                   410);
  rig = rig_open (job, 1100);
  page_wait_for (!is_searching (rig));
  page_settle ();
  before = n_events (rig);
  g_assert_true (says (rig, "As the parts sit today."));
  g_assert_cmpint (tg_session_review (rig->session)->next->kind, ==, TG_NEXT_PAIR);
  press (rig, "Keep it like this");
  g_assert_cmpuint (n_events (rig), ==, before + 1);
  g_assert_cmpint (page_last (rig->session)->kind, ==, TG_EVENT_PAIR);
  g_assert_cmpint (tg_session_review (rig->session)->next->kind, !=, TG_NEXT_PAIR);
  g_assert_false (gtk_widget_is_sensitive (button_with (rig, "Paired like this already")));
  g_assert_true (tg_session_undo (rig->session, NULL));
  page_settle ();
  g_assert_true (gtk_widget_is_sensitive (button_with (rig, "Keep it like this")));
}

/* With spares more is possible, and who becomes a spare goes to none. */
static void
test_spares (void)
{
  g_autoptr (Rig) without = rig_new (3, 0), with = rig_new (3, 5);
  guint spares = 0;

  g_assert_cmpint (total (with), <=, total (without));
  press (with, "Accept this pairing");
  for (guint i = 0; i < tg_session_review (with->session)->parts->len; i++)
    spares += tg_review_part (tg_session_review (with->session), i)->part->bore == 0;
  g_assert_cmpuint (spares, ==, 5);
}

/* What cannot be saved leaves everything as it was, and the pairing on show. */
static void
test_not_saved (void)
{
  g_autoptr (Rig) rig = rig_new (4, 0);
  gint64 before = total (rig);
  guint n = n_events (rig);

  page_folder_free (g_strdup (rig->folder));
  g_signal_emit_by_name (button_with (rig, "Accept this pairing"), "clicked");
  page_settle ();
  g_assert_cmpuint (n_events (rig), ==, n);
  g_assert_cmpint (total (rig), ==, before);
  g_assert_false (says (rig, "Accepted"));
  g_assert_true (gtk_widget_is_sensitive (button_with (rig, "Accept this pairing")));
}

/* --- by hand --------------------------------------------------------------------------------- */

static void
test_by_hand (void)
{
  g_autoptr (Rig) rig = rig_new (8, 0);
  gint64 best = total (rig);
  guint before = n_events (rig), part, here;

  pick (rig, 2);
  open_others (rig, 1);
  part = tg_match_desk_part (rig->desk, 1, 2);
  /* the list begins with the cheapest */
  press (rig, "Put it here");
  here = tg_match_desk_part (rig->desk, 1, 2);
  g_assert_cmpuint (here, !=, part);
  g_assert_cmpuint (n_events (rig), ==, before); /* not yet */
  g_assert_true (says (rig, "Changed by hand. The best found:"));
  g_assert_cmpint (total (rig), >=, best);
  press (rig, "Best pairing again");
  g_assert_cmpuint (tg_match_desk_part (rig->desk, 1, 2), ==, part);
  g_assert_cmpint (total (rig), ==, best);
  g_assert_false (says (rig, "Changed by hand"));
  press (rig, "Put it here");
  press (rig, "Accept this pairing");
  g_assert_cmpuint (n_events (rig), ==, before + 1);
  g_assert_true (tg_match_desk_plan_is_today (rig->desk));
  g_assert_cmpuint (tg_match_desk_part (rig->desk, 1, 2), ==, here);
}

/* All others are listed, with what each would cost; the longer list only when it is wanted. */
static void
test_others (void)
{
  g_autoptr (Rig) rig = rig_new (4, 8);
  g_autoptr (GArray) others = tg_match_desk_others (rig->desk, 1, 1);
  gint64 last = G_MININT64;

  g_assert_cmpuint (others->len, ==, 11);
  for (guint i = 0; i < others->len; i++)
    {
      TgMatchingPlan swapped;

      g_assert_true (tg_pairing_swap (tg_match_desk_pairing (rig->desk),
                                      tg_match_desk_plan (rig->desk), 1,
                                      g_array_index (others, guint, i), 0, &swapped));
      g_assert_cmpint (swapped.total, >=, last);
      last = swapped.total;
    }
  open_others (rig, 1);
  g_assert_true (says (rig, "to spare"));
  press (rig, "Show the other 6");
  g_assert_false (says (rig, "Show the other"));
}

/* --- rules ----------------------------------------------------------------------------------- */

static void
test_padlocks (void)
{
  g_autoptr (Rig) rig = rig_new (6, 0);
  const TgReview *review;

  g_assert_true (says (rig, "None yet."));
  pick (rig, 3);
  press (rig, "all together");
  review = tg_session_review (rig->session);
  g_assert_cmpuint (review->rules->len, ==, 3);
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_RULE), ==, 3);
  g_assert_true (says (rig, "stays with Piston 3"));
  press (rig, "all together");
  g_assert_cmpuint (tg_session_review (rig->session)->rules->len, ==, 0);
  press_named (rig, "Piston 3 stays at bore 3");
  review = tg_session_review (rig->session);
  g_assert_cmpuint (review->rules->len, ==, 1);
  g_assert_cmpint (g_array_index (review->rules, TgRuleReview, 0).rule, ==, TG_RULE_BORE);
  g_assert_cmpuint (g_array_index (review->rules, TgRuleReview, 0).bore, ==, 3);
  press_named (rig, "Lift: Piston 3 stays at bore 3");
  g_assert_cmpuint (tg_session_review (rig->session)->rules->len, ==, 0);
  g_assert_true (says (rig, "None yet."));
}

/* A rule changes what is best; lifting it brings the old best back. */
static void
test_rule_counts (void)
{
  g_autoptr (Rig) rig = rig_new (4, 0);
  gint64 free = total (rig);

  for (guint number = 1; number <= 4; number++)
    {
      g_autofree char *pin = g_strdup_printf ("pin-%u", number);
      g_autofree char *rings = g_strdup_printf ("rings-%u", number);
      g_autofree char *piston = g_strdup_printf ("piston-%u", number);

      pairing_rule (rig->session, TG_RULE_TOGETHER, pin, piston, 0);
      pairing_rule (rig->session, TG_RULE_TOGETHER, rings, piston, 0);
    }
  page_wait_for (!is_searching (rig));
  g_assert_cmpint (total (rig), >, free);
  for (guint b = 1; b <= 4; b++)
    g_assert_cmpuint (tg_match_desk_part (rig->desk, 1, b), ==,
                      tg_match_desk_part (rig->desk, 0, b) + 4);
  for (guint i = 0; i < 8; i++)
    press (rig, "Lift");
  g_assert_cmpint (total (rig), ==, free);
}

static void
test_never_together (void)
{
  g_autoptr (Rig) rig = rig_new (5, 0);
  const TgRuleReview *rule;

  open_others (rig, 2);
  press (rig, "Never together");
  g_assert_cmpuint (tg_session_review (rig->session)->rules->len, ==, 1);
  rule = &g_array_index (tg_session_review (rig->session)->rules, TgRuleReview, 0);
  g_assert_cmpint (rule->rule, ==, TG_RULE_APART);
  g_assert_true (says (rig, "never with Piston"));
  for (guint b = 1; b <= 5; b++)
    g_assert_false (tg_match_desk_part (rig->desk, 2, b) == rule->part &&
                    tg_match_desk_part (rig->desk, 0, b) == rule->other);
}

static void
test_impossible (void)
{
  g_autoptr (Rig) rig = rig_new (4, 0);

  pairing_rule (rig->session, TG_RULE_TOGETHER, "pin-1", "piston-1", 0);
  pairing_rule (rig->session, TG_RULE_BORE, "pin-1", NULL, 1);
  pairing_rule (rig->session, TG_RULE_BORE, "piston-1", NULL, 2);
  page_wait_for (!is_searching (rig));
  page_settle ();
  g_assert_true (says (rig, "None is possible"));
  g_assert_true (says (rig, "Lift one of the rules."));
  g_assert_true (says (rig, "Piston 1 stays at bore 2"));
  g_assert_false (says (rig, "Search on"));
  press_named (rig, "Lift: Piston 1 stays at bore 2");
  g_assert_false (says (rig, "None is possible"));
  g_assert_true (says (rig, "Proven: no pairing takes less"));
  g_assert_cmpuint (tg_match_desk_part (rig->desk, 1, 1) - tg_match_desk_part (rig->desk, 0, 1), ==,
                    4);
}

/* --- the search ------------------------------------------------------------------------------ */

/* A cancel leaves the job and what is on show; nothing is called impossible. */
static void
test_cancel (void)
{
  g_autoptr (Rig) rig = rig_open (pairing_hard_job (), 1100);
  guint before = n_events (rig);

  page_wait_for (says (rig, "Cancel")); /* once it is long enough to be noticed */
  g_assert_true (is_searching (rig));
  g_assert_true (says (rig, "Looking for the best pairing…"));
  g_assert_true (tg_match_desk_plan_is_today (rig->desk));
  press (rig, "Cancel");
  g_assert_cmpuint (n_events (rig), ==, before);
  g_assert_true (tg_match_desk_plan_is_today (rig->desk));
  g_assert_null (tg_match_desk_result (rig->desk));
  g_assert_true (says (rig, "there may be a better pairing"));
  g_assert_false (says (rig, "possible"));
  g_assert_true (says (rig, "Search on for 20 s"));
  for (guint i = 0; i < 4; i++)
    page_settle ();
  g_assert_true (tg_match_desk_plan_is_today (rig->desk)); /* and it stays so */
}

/* Without a proof the bound is said, and more time is offered; a cancel of that keeps what was found. */
static void
test_search_on (void)
{
  g_autoptr (Rig) rig = rig_open (pairing_hard_job (), 1100);
  gint64 found;

  page_wait_for (tg_match_desk_result (rig->desk) != NULL);
  page_settle ();
  found = total (rig);
  g_assert_cmpint (found, <, tg_match_desk_today (rig->desk)->total);
  g_assert_true (says (rig, "Best found; no pairing takes less than"));
  g_signal_emit_by_name (button_with (rig, "Search on for 20 s"), "clicked");
  page_wait_for (says (rig, "Cancel"));
  g_assert_false (says (rig, "Search on"));
  press (rig, "Cancel");
  g_assert_cmpint (total (rig), ==, found);
  g_assert_true (says (rig, "Best found; no pairing takes less than"));
}

/* A reading while the search runs asks anew; the answer to the old question is not shown. */
static void
test_stale (void)
{
  g_autoptr (Rig) rig = rig_open (pairing_hard_job (), 1100);
  const TgPairing *old;

  page_wait_for (is_searching (rig));
  old = tg_match_desk_pairing (rig->desk);
  page_weigh (rig->session, "piston-1", TG_FIGURE_WHOLE, TG_WAY_ANY, 104.5);
  g_assert_true (tg_match_desk_pairing (rig->desk) != old);
  g_assert_true (is_searching (rig));
  page_wait_for (!is_searching (rig));
  g_assert_nonnull (tg_match_desk_result (rig->desk));
  g_assert_true (tg_match_desk_plan_keeps_rules (rig->desk));
}

/* Nothing is asked while nobody looks. */
static void
test_asleep (void)
{
  g_autoptr (Rig) rig = rig_new (4, 0);
  const TgPairing *before = tg_match_desk_pairing (rig->desk);

  gtk_widget_set_visible (GTK_WIDGET (rig->page), FALSE);
  page_weigh (rig->session, "pin-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 119.9);
  page_settle ();
  g_assert_true (tg_match_desk_pairing (rig->desk) == before);
  gtk_widget_set_visible (GTK_WIDGET (rig->page), TRUE);
  page_wait_for (tg_match_desk_pairing (rig->desk) != before);
  page_wait_for (!is_searching (rig));
  g_assert_nonnull (tg_match_desk_result (rig->desk));
  /* an event that changes nothing of the question leaves the answer */
  before = tg_match_desk_pairing (rig->desk);
  page_append (rig->session, tg_event_blank (TG_EVENT_ZERO));
  g_assert_true (tg_match_desk_pairing (rig->desk) == before);
  g_assert_false (is_searching (rig));
}

/* --- other states ---------------------------------------------------------------------------- */

static void
test_nothing (void)
{
  g_autoptr (Rig) rods = rig_open (tg_job_new (fixture_setup (4, TRUE, FALSE)), 700);
  g_autoptr (Rig) unweighed = rig_open (tg_job_new (pairing_setup (3, 1)), 700);

  g_assert_true (says (rods, "There is nothing to pair"));
  g_assert_true (says (rods, "It needs a job with such parts"));
  g_assert_true (says (rods, "Go to Grind"));
  g_assert_false (says (rods, "Go to Weigh"));
  g_assert_true (says (unweighed, "First weigh Piston 1"));
  g_assert_true (says (unweighed, "Go to Weigh"));
  g_assert_false (says (unweighed, "Go to Grind"));
}

/* The stage in its window: to what is not weighed yet, cautions, accepting and striking it out. */
static void
test_in_the_window (void)
{
  g_autoptr (Bench) unweighed = bench_new (tg_job_new (pairing_setup (3, 0)));
  g_autoptr (Bench) bench = bench_new (pairing_job (4, 0));
  TgMatchDesk *desk;
  GtkWidget *focus, *weigh;

  gtk_widget_activate_action (unweighed->window, "win.stage", "s", "match");
  bench_spin (100);
  focus = gtk_window_get_focus (GTK_WINDOW (unweighed->window));
  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (focus)), ==, "Go to _Weigh");
  g_signal_emit_by_name (focus, "clicked");
  bench_spin (100);
  g_assert_cmpstr (tg_window_page (TG_WINDOW (unweighed->window)), ==, "weigh");

  gtk_widget_activate_action (bench->window, "win.stage", "s", "weigh");
  bench_spin (100);
  weigh = bench_find (bench->window, TG_TYPE_WEIGH_PAGE);
  g_signal_emit_by_name (bench_child (weigh, "match"), "clicked");
  bench_spin (100);
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "match");
  desk = tg_match_page_desk (TG_MATCH_PAGE (bench_find (bench->window, TG_TYPE_MATCH_PAGE)));
  page_wait_for (tg_match_desk_result (desk) != NULL);
  gtk_widget_activate_action (bench->window, "win.cautions", NULL);
  bench_spin (50);
  g_assert_cmpuint (tg_cautions_panel_get_n_shown (
                        TG_CAUTIONS_PANEL (bench_find (bench->window, TG_TYPE_CAUTIONS_PANEL))),
                    >, 0);
  g_assert_true (tg_match_desk_accept (desk, NULL));
  g_assert_true (tg_match_desk_plan_is_today (desk));
  g_assert_false (gtk_widget_get_visible (bench_child (weigh, "match")));
  bench_spin (50);
  gtk_widget_activate_action (bench->window, "win.undo", NULL);
  bench_spin (50);
  page_wait_for (tg_match_desk_result (desk) != NULL);
  g_assert_false (tg_match_desk_plan_is_today (desk));
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "match");
}

/* More parts than can be paired at once: the shelf is offered, and once only. */
static void
test_shelf (void)
{
  g_autoptr (Rig) rig = rig_open (pairing_job (4, 60), 700);
  guint before = n_events (rig);

  g_assert_true (says (rig, "There are 64 pins"));
  g_assert_true (says (rig, "From the shelf"));
  g_assert_false (says (rig, "Crankpins"));
  press (rig, "Take Pin");
  g_assert_cmpuint (n_events (rig), ==, before + 1);
  g_assert_cmpint (page_last (rig->session)->kind, ==, TG_EVENT_PAIR);
  g_assert_false (says (rig, "From the shelf"));
}

/* Two rods on each pin: what each carries, and whole sets moved for more even ones.  The button goes,
 * the keyboard stays on the page. */
static void
test_crankpins (void)
{
  TgSetup *setup = pairing_setup (4, 0);
  g_autoptr (Rig) rig = NULL;
  GtkWidget *focus;
  TgJob *job;

  tg_setup_add_design (setup, fixture_rod_design ());
  tg_setup_add_set (setup, tg_setup_find_design (setup, "rod"), 0);
  setup->layout = TG_LAYOUT_VEE;
  setup->sharing = TG_SHARING_NEIGHBOURS;
  job = tg_job_new (setup);
  pairing_weigh (job);
  /* the heavy two on one pin, as far as a tolerance of 0.5 g lets them differ */
  for (guint i = 1; i <= 4; i++)
    fixture_weigh_rod (job, i, 171.6, i <= 2 ? 412.4 : 412.0);
  rig = rig_open (job, 1100);
  page_wait_for (!is_searching (rig));
  page_settle ();
  g_assert_true (says (rig, "Crankpins with two rods"));
  g_assert_true (says (rig, "Bores 3 and 4:"));
  gtk_widget_grab_focus (button_with (rig, "Move"));
  press (rig, "Move");
  g_assert_cmpint (page_last (rig->session)->kind, ==, TG_EVENT_PAIR);
  g_assert_false (says (rig, "Move "));
  g_assert_true (says (rig, "would not make them more even"));
  focus = gtk_window_get_focus (rig->window);
  g_assert_nonnull (focus);
  g_assert_nonnull (gtk_widget_get_ancestor (focus, TG_TYPE_MATCH_PAGE));
}

/* Bearings are a sum of their own; the rods stay where they are. */
static void
test_both_sums (void)
{
  g_autoptr (Rig) rig = rig_open (pairing_both_job (4), 1100);

  page_wait_for (!is_searching (rig));
  page_settle ();
  g_assert_cmpint (tg_match_desk_sum (rig->desk), ==, TG_PAIRING_PISTONS);
  gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (button_with (rig, "Bearings")), TRUE);
  press (rig, "Bearings");
  g_assert_cmpint (tg_match_desk_sum (rig->desk), ==, TG_PAIRING_BEARINGS);
  g_assert_true (says (rig, "stays where it is"));
  g_assert_true (says (rig, "with the rod"));
  g_assert_false (says (rig, "with the piston"));
  g_assert_cmpint (total (rig), <, tg_match_desk_today (rig->desk)->total);
  press (rig, "Accept this pairing");
  for (guint b = 1; b <= 4; b++)
    g_assert_cmpuint (tg_match_desk_part (rig->desk, 1, b), ==, b - 1);
}

/* What a screen reader says of a bore. (transfer full) */
static char *
words_of_bore (Rig *rig, guint bore)
{
  g_autoptr (TgPairingBars) bars = tg_pairing_bars_new (
      tg_session_review (rig->session), tg_match_desk_pairing (rig->desk),
      tg_match_desk_plan (rig->desk), tg_match_desk_today (rig->desk));

  return tg_pairing_drawing_describe_bar (&bars->picture, bore - 1);
}

/* Up and Down go from bore to bore, Enter to its parts. */
static void
test_keys (void)
{
  g_autoptr (Rig) rig = rig_new (8, 0);
  GtkWidget *view = page_find (rig->page, TG_TYPE_PAIRING_VIEW, NULL);
  GtkWidget *focus;
  g_autofree char *words = words_of_bore (rig, 2);

  tg_match_page_focus (TG_MATCH_PAGE (rig->page));
  g_assert_true (gtk_window_get_focus (rig->window) == view);
  g_assert_true (says (rig, "Bore 1"));
  g_assert_false (page_press (view, GDK_KEY_Up, 0) && tg_pairing_view_row (TG_PAIRING_VIEW (view)));
  g_assert_true (page_press (view, GDK_KEY_Down, 0));
  page_settle ();
  g_assert_true (says (rig, "Bore 2"));
  g_assert_null (gtk_test_accessible_check_property (GTK_ACCESSIBLE (view),
                                                     GTK_ACCESSIBLE_PROPERTY_LABEL, words));
  g_assert_true (page_press (view, GDK_KEY_End, 0));
  page_settle ();
  g_assert_true (says (rig, "Bore 8"));
  g_assert_true (page_press (view, GDK_KEY_Return, 0));
  focus = gtk_window_get_focus (rig->window);
  g_assert_nonnull (gtk_widget_get_ancestor (focus, TG_TYPE_BORE_CARD));
}

/* Type half as large again may take more, but not more than a small tablet has. */
static void
test_narrow (void)
{
  g_autoptr (Rig) rig = rig_open (pairing_job (8, 4), 328);
  GtkSettings *settings = gtk_settings_get_default ();
  g_autofree char *font = NULL;
  int least;

  page_wait_for (!is_searching (rig));
  page_settle ();
  for (guint f = 0; f < 4; f++)
    open_others (rig, f);
  press_named (rig, "Piston 1 stays at bore 1");
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 340);
  g_assert_cmpuint (page_check_names (rig->page), >=, 40);
  g_object_get (settings, "gtk-font-name", &font, NULL);
  g_object_set (settings, "gtk-font-name", "Sans 15", NULL);
  page_settle ();
  gtk_widget_measure (rig->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_object_set (settings, "gtk-font-name", font, NULL);
  g_assert_cmpint (least, <=, 460);
}

/* How many scrolled windows below @root would take the wheel. */
static guint
n_take_wheel (GtkWidget *root)
{
  guint n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (child);
      gboolean takes = FALSE;

      if (!gtk_widget_get_mapped (child))
        continue;
      for (guint i = 0;
           GTK_IS_SCROLLED_WINDOW (child) && i < g_list_model_get_n_items (controllers); i++)
        {
          g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

          takes = takes ||
                  (GTK_IS_EVENT_CONTROLLER_SCROLL (controller) &&
                   gtk_event_controller_get_propagation_phase (controller) != GTK_PHASE_NONE);
        }
      n += takes + n_take_wheel (child);
    }
  return n;
}

/* Side by side each column scrolls, below one another only the page, with both in it. */
static void
test_wheel (void)
{
  g_autoptr (Rig) wide = rig_new (4, 0);
  g_autoptr (Rig) narrow = rig_open (pairing_job (4, 0), 328);

  page_settle ();
  g_assert_cmpuint (n_take_wheel (wide->page), ==, 3);
  g_assert_cmpuint (n_take_wheel (narrow->page), ==, 1);
  gtk_window_set_default_size (narrow->window, 1100, 700);
  page_wait_for (n_take_wheel (narrow->page) == 3);
}

/* One piston far off the others: said, and only while it holds. */
static void
test_odd_one_out (void)
{
  g_autoptr (Rig) even = rig_new (4, 0);
  g_autoptr (Rig) odd = NULL;
  TgJob *job = pairing_job (6, 0);

  fixture_weigh (job, "piston-2", TG_FIGURE_WHOLE, TG_WAY_ANY, 409);
  odd = rig_open (job, 1100);
  page_wait_for (!is_searching (odd));
  page_settle ();
  g_assert_true (says (odd, "Odd one out"));
  g_assert_true (says (odd, "Replacing Piston"));
  press (even, "Accept this pairing");
  gtk_widget_set_visible (even->page, FALSE);
  gtk_widget_set_visible (even->page, TRUE);
  page_settle ();
  g_assert_false (says (even, "Odd one out") &&
                  tg_session_review (even->session)->least_metal_g[TG_PART_PISTON] <= 0);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/match-page/accept", test_accept);
  g_test_add_func ("/match-page/keep", test_keep);
  g_test_add_func ("/match-page/spares", test_spares);
  g_test_add_func ("/match-page/not-saved", test_not_saved);
  g_test_add_func ("/match-page/by-hand", test_by_hand);
  g_test_add_func ("/match-page/others", test_others);
  g_test_add_func ("/match-page/padlocks", test_padlocks);
  g_test_add_func ("/match-page/rule-counts", test_rule_counts);
  g_test_add_func ("/match-page/never-together", test_never_together);
  g_test_add_func ("/match-page/impossible", test_impossible);
  g_test_add_func ("/match-page/cancel", test_cancel);
  g_test_add_func ("/match-page/search-on", test_search_on);
  g_test_add_func ("/match-page/stale", test_stale);
  g_test_add_func ("/match-page/asleep", test_asleep);
  g_test_add_func ("/match-page/nothing", test_nothing);
  g_test_add_func ("/match-page/in-the-window", test_in_the_window);
  g_test_add_func ("/match-page/shelf", test_shelf);
  g_test_add_func ("/match-page/crankpins", test_crankpins);
  g_test_add_func ("/match-page/both-sums", test_both_sums);
  g_test_add_func ("/match-page/keys", test_keys);
  g_test_add_func ("/match-page/narrow", test_narrow);
  g_test_add_func ("/match-page/wheel", test_wheel);
  g_test_add_func ("/match-page/odd-one-out", test_odd_one_out);
  return g_test_run ();
}
