/* test-proof.c: how well it is known, on screen: checks of the scale, proof of the set, more readings
 *
 * The window is driven in this process.  The fixture's entries lie in the past, what is typed here is
 * of today.  All figures are invented.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "bench.h"
#include "even-card.h"
#include "figures-row.h"
#include "fixture.h"
#include "job-xml.h"
#include "proof-line.h"
#include "reading-entry.h"
#include "scale-checks.h"
#include "setup-field.h"
#include "weigh-page.h"

static guint
n_events (const Bench *bench)
{
  return tg_job_n_events (tg_session_job (bench_session (bench)));
}

static const TgEvent *
last_event (const Bench *bench)
{
  return tg_job_event (tg_session_job (bench_session (bench)), n_events (bench) - 1);
}

static const TgReview *
review_of (const Bench *bench)
{
  return tg_session_review (bench_session (bench));
}

static TgReadingEntry *
entry_of (const Bench *bench)
{
  return TG_READING_ENTRY (bench_find (bench->window, TG_TYPE_READING_ENTRY));
}

static GtkWidget *
part_of_entry (const Bench *bench, const char *name)
{
  return bench_child (GTK_WIDGET (entry_of (bench)), name);
}

static const char *
text_of (GtkWidget *owner, const char *label)
{
  return gtk_label_get_text (GTK_LABEL (bench_child (owner, label)));
}

static void
expect_words (const char *text, const char *words)
{
  if (!strstr (text, words))
    g_error ("“%s” does not say “%s”", text, words);
}

static void
act (const Bench *bench, const char *action)
{
  g_assert_true (gtk_widget_activate_action (bench->window, action, NULL));
  bench_spin (50);
}

static void
go_to (const Bench *bench, const char *stage)
{
  g_assert_true (gtk_widget_activate_action (bench->window, "win.stage", "s", stage));
  bench_spin (50);
}

/* Label of @text anywhere below @root that is shown; NULL if there is none. */
static GtkWidget *
find_text (GtkWidget *root, const char *text)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root) &&
      strstr (gtk_label_get_text (GTK_LABEL (root)), text))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = find_text (child, text);

      if (found)
        return found;
    }
  return NULL;
}

static gboolean
press (GtkWidget *widget, guint keyval)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);
  gboolean taken = FALSE;

  for (guint i = 0; !taken && i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);

      if (GTK_IS_EVENT_CONTROLLER_KEY (controller))
        g_signal_emit_by_name (controller, "key-pressed", keyval, 0, 0, &taken);
    }
  return taken;
}

/* --- checks of the scale --------------------------------------------------------------------- */

/* What was typed for the part waits; the zero is one event; then it goes on where it was. */
static void
test_zero (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));
  g_autoptr (TgJob) on_disk = NULL;
  GtkWidget *field, *set_back;

  bench_type (bench, "171.6");
  field = part_of_entry (bench, "field");
  set_back = part_of_entry (bench, "set_back");
  g_assert_false (gtk_widget_get_visible (set_back));
  gtk_editable_set_text (GTK_EDITABLE (field), "171.8");
  act (bench, "win.check-zero");
  g_assert_cmpint (tg_reading_entry_asks (entry_of (bench)), ==, TG_READING_OF_NOTHING);
  expect_words (text_of (GTK_WIDGET (entry_of (bench)), "label"), "empty scale");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field)), ==, "");
  g_assert_true (gtk_widget_get_visible (set_back));
  bench_type (bench, "−0,3");
  g_assert_cmpuint (n_events (bench), ==, 2);
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_ZERO);
  g_assert_cmpint (last_event (bench)->mass, ==, -300);
  g_assert_true (last_event (bench)->set_back);
  g_assert_cmpint (tg_reading_entry_asks (entry_of (bench)), ==, TG_READING_OF_PART);
  expect_words (text_of (GTK_WIDGET (entry_of (bench)), "label"), "Rod 1");
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field)), ==, "171.8");
  g_assert_false (gtk_widget_get_visible (set_back));
  on_disk = tg_job_xml_load (bench->path, NULL);
  g_assert_nonnull (on_disk);
  g_assert_cmpint (tg_job_event (on_disk, 1)->mass, ==, -300);
  bench_type (bench, "171.8");
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_WEIGHING);
  g_assert_cmpint (last_event (bench)->way, ==, TG_WAY_MARK_DOWN);
}

static void
test_not_set_back (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));

  act (bench, "win.check-zero");
  /* a scale that shows 0 is at zero already */
  gtk_editable_set_text (GTK_EDITABLE (part_of_entry (bench, "field")), "0");
  g_assert_false (gtk_widget_get_sensitive (part_of_entry (bench, "set_back")));
  bench_type (bench, "0");
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_ZERO);
  g_assert_false (last_event (bench)->set_back);
  act (bench, "win.check-zero");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (part_of_entry (bench, "set_back")), FALSE);
  bench_type (bench, "0.2");
  g_assert_cmpint (last_event (bench)->mass, ==, 200);
  g_assert_false (last_event (bench)->set_back);
  /* the next time it is on again */
  act (bench, "win.check-zero");
  bench_type (bench, "0.2");
  g_assert_true (last_event (bench)->set_back);
}

/* Something lies on the scale: asked, and kept with the second Enter. */
static void
test_zero_doubt (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));

  act (bench, "win.check-zero");
  bench_type (bench, "171.6");
  g_assert_cmpuint (n_events (bench), ==, 0);
  g_assert_true (gtk_widget_get_visible (part_of_entry (bench, "message")));
  bench_type (bench, "1500");
  bench_type (bench, "1500");
  g_assert_cmpuint (n_events (bench), ==, 0);
  bench_type (bench, "6");
  bench_type (bench, "6");
  g_assert_cmpuint (n_events (bench), ==, 1);
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_ZERO);
}

static void
test_escape (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));
  GtkWidget *field = part_of_entry (bench, "field");

  g_assert_false (press (field, GDK_KEY_Escape));
  act (bench, "win.check-zero");
  gtk_editable_set_text (GTK_EDITABLE (field), "0.4");
  g_assert_true (press (field, GDK_KEY_Escape));
  g_assert_cmpint (tg_reading_entry_asks (entry_of (bench)), ==, TG_READING_OF_PART);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field)), ==, "");
  /* so does going to another reading */
  act (bench, "win.check-zero");
  g_signal_emit_by_name (bench_child (bench_find (bench->window, TG_TYPE_WEIGH_PAGE), "next"),
                         "clicked");
  g_assert_cmpint (tg_reading_entry_asks (entry_of (bench)), ==, TG_READING_OF_PART);
  g_assert_cmpuint (n_events (bench), ==, 0);
}

static void
test_check_weight (void)
{
  TgSetup *setup = fixture_setup (4, TRUE, FALSE);
  g_autoptr (Bench) bench = NULL;

  setup->check_weight = 200 * TG_MASS_G;
  bench = bench_new (tg_job_new (setup));
  act (bench, "win.check-weight");
  expect_words (text_of (GTK_WIDGET (entry_of (bench)), "label"), "200");
  /* no sign here, and no box to tick */
  g_assert_false (gtk_widget_get_visible (part_of_entry (bench, "set_back")));
  bench_type (bench, "-200");
  g_assert_cmpuint (n_events (bench), ==, 0);
  bench_type (bench, "200.1");
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_CHECK_WEIGHT);
  g_assert_cmpint (last_event (bench)->nominal, ==, 200 * TG_MASS_G);
  g_assert_cmpint (last_event (bench)->mass, ==, 200100);
  expect_words (text_of (bench_find (bench->window, TG_TYPE_SCALE_CHECKS), "line"),
                "check weight fits");
  /* struck out, it is untried again */
  act (bench, "win.undo");
  expect_words (text_of (bench_find (bench->window, TG_TYPE_SCALE_CHECKS), "line"),
                "not tried yet");
}

/* Without a check weight the button goes to where one is entered, from whatever page. */
static void
test_no_check_weight (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));

  for (guint round = 0; round < 2; round++)
    {
      GtkWidget *focus, *field;

      act (bench, "win.check-weight");
      bench_spin (100);
      g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "scale");
      focus = gtk_window_get_focus (GTK_WINDOW (bench->window));
      g_assert_nonnull (focus);
      field = gtk_widget_get_ancestor (focus, TG_TYPE_SETUP_FIELD);
      g_assert_nonnull (field);
      g_assert_cmpstr (tg_setup_field_get_path (TG_SETUP_FIELD (field)), ==, "check-weight");
      go_to (bench, "weigh");
    }
}

/* The line asks at the first reading of a day and after twenty readings; nothing is held up. */
static void
test_line_asks (void)
{
  TgJob *job = tg_job_new (fixture_setup (12, TRUE, FALSE));
  g_autoptr (Bench) bench = NULL;
  GtkWidget *line;

  fixture_weigh_rod (job, 1, 171.6, 412.1);
  bench = bench_new (job);
  line = bench_child (bench_find (bench->window, TG_TYPE_SCALE_CHECKS), "line");
  expect_words (gtk_label_get_text (GTK_LABEL (line)), "first reading of the day");
  g_assert_false (gtk_widget_has_css_class (line, "quiet"));
  bench_type (bench, "171.6");
  expect_words (gtk_label_get_text (GTK_LABEL (line)), "Zero not checked yet");
  g_assert_true (gtk_widget_has_css_class (line, "quiet"));
  act (bench, "win.check-zero");
  bench_type (bench, "0");
  expect_words (gtk_label_get_text (GTK_LABEL (line)), "no reading since");
  bench_type (bench, "171.6");
  expect_words (gtk_label_get_text (GTK_LABEL (line)), "1 reading ago");
  for (guint i = 0; i < 18; i++)
    bench_type (bench, "171.6");
  expect_words (gtk_label_get_text (GTK_LABEL (line)), "19 readings ago");
  bench_type (bench, "171.6");
  expect_words (gtk_label_get_text (GTK_LABEL (line)), "20 readings since the last look");
  g_assert_false (gtk_widget_has_css_class (line, "quiet"));
}

/* What the scale is suspected of is said beside the field, whichever part is on it. */
static void
test_findings (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));
  GtkWidget *page = bench_find (bench->window, TG_TYPE_WEIGH_PAGE);

  g_assert_null (find_text (bench_child (page, "findings"), "empty scale showed"));
  act (bench, "win.check-zero");
  bench_type (bench, "3");
  bench_spin (50);
  g_assert_nonnull (find_text (bench_child (page, "findings"), "The empty scale showed +3.0"));
  expect_words (text_of (bench_find (bench->window, TG_TYPE_SCALE_CHECKS), "line"),
                "Zero was +3.0");
  g_signal_emit_by_name (bench_child (page, "next"), "clicked");
  bench_spin (50);
  g_assert_nonnull (find_text (bench_child (page, "findings"), "The empty scale showed"));
}

/* --- the proof ------------------------------------------------------------------------------- */

/* Four rods that differ by 0.4 g; 0.5 g is allowed, read once each way up on a scale of 0.1 g. */
static Bench *
even_rods (double spread_g)
{
  TgJob *job = tg_job_new (fixture_setup (4, TRUE, FALSE));

  for (guint i = 1; i <= 4; i++)
    fixture_weigh_rod (job, i, 171.6 + (i == 2) * spread_g, 412.1 + (i == 3) * spread_g);
  return bench_new (job);
}

static GtkWidget *
card_of (const Bench *bench)
{
  return bench_find (bench->window, TG_TYPE_EVEN_CARD);
}

static void
test_proven (void)
{
  g_autoptr (Bench) bench = even_rods (0.1);
  GtkWidget *figures;

  go_to (bench, "grind");
  g_assert_true (review_of (bench)->done);
  g_assert_cmpstr (review_of (bench)->next->large, ==, "even, proven");
  g_assert_nonnull (card_of (bench));
  expect_words (text_of (card_of (bench), "title"), "✓ The set is even, proven");
  g_assert_false (gtk_widget_get_mapped (bench_child (card_of (bench), "offer")));
  g_assert_nonnull (find_text (card_of (bench), "is proven"));
  /* the lightest, too, which alone could not show that it is not below its own weight */
  figures = bench_find (bench->window, TG_TYPE_FIGURES_ROW);
  g_assert_nonnull (find_text (figures, "✓ even, proven"));
  g_assert_nonnull (find_text (figures, "± "));
  g_assert_null (find_text (bench->window, "not proven"));
}

/* More readings are offered, asked for with one event, led through, and then the set is proven. */
static void
test_more_readings (void)
{
  g_autoptr (Bench) bench = even_rods (0.4);
  guint before, repeats, n = 0;
  TgSlot slot;

  go_to (bench, "grind");
  g_assert_true (review_of (bench)->done);
  g_assert_cmpstr (review_of (bench)->next->large, ==, "even, not proven yet");
  expect_words (text_of (card_of (bench), "title"), "The set is even, not proven yet");
  g_assert_nonnull (find_text (bench->window, "even, not proven"));
  g_assert_true (gtk_widget_get_mapped (bench_child (card_of (bench), "offer")));
  before = n_events (bench);
  g_signal_emit_by_name (bench_child (card_of (bench), "more"), "clicked");
  bench_spin (100);
  g_assert_cmpuint (n_events (bench), ==, before + 1);
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_SET);
  g_assert_cmpstr (last_event (bench)->path, ==, "repeats");
  repeats = review_of (bench)->setup->repeats;
  g_assert_cmpuint (repeats, >, 1);
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "weigh");
  g_assert_cmpint (review_of (bench)->next->kind, ==, TG_NEXT_WEIGH);
  while (tg_review_next_slot (review_of (bench), NULL, FALSE, &slot))
    {
      TgSlot asked = tg_reading_entry_slot (entry_of (bench));
      const TgWeight *weight =
          &tg_review_part (review_of (bench), asked.part)->weight[asked.figure];
      g_autofree char *text = tg_mass_format (tg_mass_from_g (weight->way_g[asked.way]), 1);

      g_assert_cmpuint (weight->n[asked.way], <, repeats);
      bench_type (bench, text);
      n++;
      g_assert_cmpuint (n, <=, 16 * repeats);
    }
  g_assert_cmpuint (n, ==, 16 * (repeats - 1));
  go_to (bench, "grind");
  g_assert_true (review_of (bench)->done);
  expect_words (text_of (card_of (bench), "title"), "✓ The set is even, proven");
}

static void
test_decline (void)
{
  g_autoptr (Bench) bench = even_rods (0.4);
  GtkWidget *offer;
  guint before = n_events (bench);

  go_to (bench, "grind");
  offer = bench_child (card_of (bench), "offer");
  g_signal_emit_by_name (gtk_widget_get_last_child (offer), "clicked");
  g_assert_false (gtk_widget_get_visible (offer));
  g_assert_cmpuint (n_events (bench), ==, before);
  /* it is not offered anew with each reading; what is so is still said */
  bench_type (bench, "171.6");
  bench_spin (50);
  g_assert_false (gtk_widget_get_visible (offer));
  g_assert_nonnull (find_text (card_of (bench), "not proven yet"));
}

/* Before the work, of the band on the scale: a coarse scale is told so while there is time. */
static void
test_proof_line (void)
{
  TgSetup *setup = fixture_setup (4, TRUE, FALSE);
  g_autoptr (Bench) bench = NULL;
  GtkWidget *line, *more;

  setup->tolerance[TG_BAND_ROD_SMALL] = 200;
  bench = bench_new (tg_job_new (setup));
  line = bench_find (bench->window, TG_TYPE_PROOF_LINE);
  g_assert_nonnull (line);
  more = bench_child (line, "more");
  expect_words (text_of (line, "text"), "small ends");
  g_assert_true (gtk_widget_get_mapped (more));
  tg_weigh_page_set_slot (TG_WEIGH_PAGE (bench_find (bench->window, TG_TYPE_WEIGH_PAGE)),
                          (TgSlot){ 0, TG_FIGURE_BIG_END, TG_WAY_MARK_UP });
  bench_spin (50);
  expect_words (text_of (line, "text"), "big ends");
  g_assert_false (gtk_widget_get_mapped (more));
  tg_weigh_page_set_slot (TG_WEIGH_PAGE (bench_find (bench->window, TG_TYPE_WEIGH_PAGE)),
                          (TgSlot){ 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP });
  bench_spin (50);
  g_signal_emit_by_name (more, "clicked");
  bench_spin (50);
  g_assert_cmpstr (last_event (bench)->path, ==, "repeats");
  g_assert_cmpuint (review_of (bench)->setup->repeats, >, 1);
  g_assert_false (gtk_widget_get_mapped (more));
  g_assert_cmpuint (tg_reading_entry_slot (entry_of (bench)).part, ==, 0);
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/proof/zero", test_zero);
  g_test_add_func ("/proof/not-set-back", test_not_set_back);
  g_test_add_func ("/proof/zero-doubt", test_zero_doubt);
  g_test_add_func ("/proof/escape", test_escape);
  g_test_add_func ("/proof/check-weight", test_check_weight);
  g_test_add_func ("/proof/no-check-weight", test_no_check_weight);
  g_test_add_func ("/proof/line-asks", test_line_asks);
  g_test_add_func ("/proof/findings", test_findings);
  g_test_add_func ("/proof/proven", test_proven);
  g_test_add_func ("/proof/more-readings", test_more_readings);
  g_test_add_func ("/proof/decline", test_decline);
  g_test_add_func ("/proof/proof-line", test_proof_line);
  return g_test_run ();
}
