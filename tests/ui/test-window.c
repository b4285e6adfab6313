/* test-window.c: the main job in the window: weigh, doubt, strike out, grind, come back
 *
 * The window is driven in this process; keys and pointer are for the tests from outside.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib/gstdio.h>
#include <string.h>

#include "bench.h"
#include "build-page.h"
#include "fixture.h"
#include "grind-page.h"
#include "job-xml.h"
#include "journal-page.h"
#include "match-page.h"
#include "next-panel.h"
#include "prove-page.h"
#include "reading-entry.h"
#include "scale-page.h"
#include "set-list.h"
#include "setup-page.h"
#include "weigh-page.h"
#include "welcome-page.h"

#define LEAST_WIDTH 360

static const char *const readings[16] = {
  /* small ends, mark up and mark down, then big ends */
  "171.6", "171.8", "171,2", "171.2", "172.0", "172.2", "171.5", "171.5",
  "412.1", "412.3", "412.9", "412.9", "412.4", "412.2", "413,0", "413.0",
};

static Bench *
four_rods (void)
{
  return bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));
}

static void
type_all (const Bench *bench)
{
  for (guint i = 0; i < G_N_ELEMENTS (readings); i++)
    bench_type (bench, readings[i]);
}

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

static GtkWidget *
field_of (const Bench *bench)
{
  return bench_child (bench_find (bench->window, TG_TYPE_READING_ENTRY), "field");
}

static TgSlot
slot_of (const Bench *bench)
{
  return tg_reading_entry_slot (
      TG_READING_ENTRY (bench_find (bench->window, TG_TYPE_READING_ENTRY)));
}

/* Four rods: sixteen numbers, sixteen times Enter, nothing else. */
static void
test_sixteen_readings (void)
{
  g_autoptr (Bench) bench = four_rods ();
  g_autoptr (TgJob) on_disk = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "weigh");
  type_all (bench);
  g_assert_cmpuint (n_events (bench), ==, 16);
  for (guint i = 0; i < 16; i++)
    {
      const TgEvent *event = tg_job_event (tg_session_job (bench_session (bench)), i);
      TgMass mass;

      g_assert_cmpint (event->kind, ==, TG_EVENT_WEIGHING);
      g_assert_cmpint (event->figure, ==, i < 8 ? TG_FIGURE_SMALL_END : TG_FIGURE_BIG_END);
      g_assert_cmpint (event->way, ==, i % 2 == 0 ? TG_WAY_MARK_UP : TG_WAY_MARK_DOWN);
      g_assert_cmpint (event->part[4], ==, '1' + (char) (i % 8 / 2));
      g_assert_true (tg_mass_parse (readings[i], &mass, NULL));
      g_assert_cmpint (event->mass, ==, mass);
      g_assert_false (event->kept);
    }
  g_assert_true (review_of (bench)->bands[TG_BAND_ROD_SMALL].known);
  g_assert_true (review_of (bench)->bands[TG_BAND_ROD_BIG].known);
  g_assert_cmpint (review_of (bench)->next->kind, ==, TG_NEXT_GRIND);
  on_disk = tg_job_xml_load (bench->path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (tg_job_n_events (on_disk), ==, 16);
}

/* Every reading is on disk before the field is empty again. */
static void
test_on_disk_at_once (void)
{
  g_autoptr (Bench) bench = four_rods ();

  for (guint i = 0; i < 3; i++)
    {
      g_autoptr (TgJob) on_disk = NULL;

      bench_type (bench, readings[i]);
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_of (bench))), ==, "");
      on_disk = tg_job_xml_load (bench->path, NULL);
      g_assert_nonnull (on_disk);
      g_assert_cmpuint (tg_job_n_events (on_disk), ==, i + 1);
    }
}

static void
test_doubt (void)
{
  g_autoptr (Bench) bench = four_rods ();
  GtkWidget *message;

  bench_type (bench, "171.6");
  bench_type (bench, "171.8");
  /* a decimal point left out */
  bench_type (bench, "1714");
  message = bench_child (bench_find (bench->window, TG_TYPE_READING_ENTRY), "message");
  g_assert_cmpuint (n_events (bench), ==, 2);
  g_assert_true (gtk_widget_get_visible (message));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_of (bench))), ==, "1714");
  bench_type (bench, "1714");
  g_assert_cmpuint (n_events (bench), ==, 3);
  g_assert_cmpint (last_event (bench)->mass, ==, 1714 * TG_MASS_G);
  g_assert_true (last_event (bench)->kept);
  g_assert_false (gtk_widget_get_visible (message));
}

/* A question is about the text it was asked for, and about that one only. */
static void
test_doubt_anew (void)
{
  g_autoptr (Bench) bench = four_rods ();

  bench_type (bench, "171.6");
  bench_type (bench, "171.8");
  bench_type (bench, "1714");
  bench_type (bench, "1715");
  g_assert_cmpuint (n_events (bench), ==, 2);
  bench_type (bench, "171.4");
  g_assert_cmpuint (n_events (bench), ==, 3);
  g_assert_false (last_event (bench)->kept);
}

static void
test_refuse (void)
{
  static const char *const bad[] = { "12..4",        "abc",    "-3",      "0", "1e3", "99999999",
                                     "171.6\n171.8", "17 1.6", "1,234.5", "-", ".",   "g",
                                     "171.6 kg",     "١٧١",    "171.6666" };
  g_autoptr (Bench) bench = four_rods ();

  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      bench_type (bench, bad[i]);
      bench_type (bench, bad[i]);
      g_assert_cmpuint (n_events (bench), ==, 0);
      g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_of (bench))), ==, bad[i]);
      g_assert_true (gtk_widget_get_visible (
          bench_child (bench_find (bench->window, TG_TYPE_READING_ENTRY), "message")));
    }
}

/* What comes along with a number from elsewhere does no harm. */
static void
test_pasted (void)
{
  static const char *const good[] = { "171.6\n", "  171,8 g ", "\t171.2g", "171,2 g\r\n" };
  g_autoptr (Bench) bench = four_rods ();
  g_autofree char *endless = g_strnfill (100000, '1');

  for (guint i = 0; i < G_N_ELEMENTS (good); i++)
    {
      bench_type (bench, good[i]);
      g_assert_cmpuint (n_events (bench), ==, i + 1);
      g_assert_false (last_event (bench)->kept);
    }
  g_assert_cmpint (last_event (bench)->mass, ==, 171200);
  bench_type (bench, endless);
  g_assert_cmpuint (n_events (bench), ==, 4);
  g_assert_cmpint (gtk_editable_get_text (GTK_EDITABLE (field_of (bench)))[0], ==, '1');
}

/* The big end's figure at the small end: asked once, kept with the second Enter, and the file says
 * so. */
static void
test_other_end (void)
{
  g_autoptr (Bench) bench = four_rods ();
  g_autoptr (TgJob) on_disk = NULL;
  g_autoptr (GError) error = NULL;

  type_all (bench);
  tg_weigh_page_set_slot (TG_WEIGH_PAGE (bench_find (bench->window, TG_TYPE_WEIGH_PAGE)),
                          (TgSlot){ 1, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP });
  bench_spin (0);
  bench_type (bench, "412.9");
  g_assert_cmpuint (n_events (bench), ==, G_N_ELEMENTS (readings));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_of (bench))), ==, "412.9");
  bench_type (bench, "412.9");
  g_assert_cmpuint (n_events (bench), ==, G_N_ELEMENTS (readings) + 1);
  on_disk = tg_job_xml_load (bench->path, &error);
  g_assert_no_error (error);
  g_assert_true (tg_job_event (on_disk, tg_job_n_events (on_disk) - 1)->kept);
}

static void
test_undo (void)
{
  g_autoptr (Bench) bench = four_rods ();

  bench_type (bench, "171.6");
  bench_type (bench, "171.8");
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_cmpuint (n_events (bench), ==, 3);
  g_assert_false (review_of (bench)->struck[0]);
  g_assert_true (review_of (bench)->struck[1]);
  /* and it can be typed anew at once */
  g_assert_cmpint (slot_of (bench).way, ==, TG_WAY_MARK_DOWN);
  g_assert_cmpuint (slot_of (bench).part, ==, 0);
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_true (review_of (bench)->struck[0]);
  g_assert_cmpint (slot_of (bench).way, ==, TG_WAY_MARK_UP);
  /* what the last stroke took is put back, not what one before it took */
  g_signal_emit_by_name (bench_child (bench->window, "toast_back"), "clicked");
  g_assert_false (review_of (bench)->struck[0]);
  g_assert_true (review_of (bench)->struck[1]);
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_cmpuint (n_events (bench), ==, 6);
}

/* Stepping goes through the order of the bench, and a reading that is there can be repeated. */
static void
test_step (void)
{
  g_autoptr (Bench) bench = four_rods ();
  GtkWidget *page = bench_find (bench->window, TG_TYPE_WEIGH_PAGE);

  bench_type (bench, "171.6");
  bench_type (bench, "171.8");
  g_signal_emit_by_name (bench_child (page, "last"), "clicked");
  g_signal_emit_by_name (bench_child (page, "last"), "clicked");
  g_assert_cmpuint (slot_of (bench).part, ==, 0);
  g_assert_cmpint (slot_of (bench).way, ==, TG_WAY_MARK_UP);
  bench_type (bench, "171.7");
  g_assert_cmpuint (
      tg_review_part (review_of (bench), 0)->weight[TG_FIGURE_SMALL_END].n[TG_WAY_MARK_UP], ==, 2);
  /* on to what is missing */
  g_assert_cmpuint (slot_of (bench).part, ==, 1);
  g_signal_emit_by_name (bench_child (page, "next"), "clicked");
  g_assert_cmpuint (slot_of (bench).part, ==, 1);
  g_assert_cmpint (slot_of (bench).way, ==, TG_WAY_MARK_DOWN);
}

/* Once everything is read, whole rods are offered; the rods stay the order of the bench. */
static void
test_whole_rods (void)
{
  g_autoptr (Bench) bench = four_rods ();
  GtkWidget *page = bench_find (bench->window, TG_TYPE_WEIGH_PAGE);

  type_all (bench);
  g_assert_true (gtk_widget_get_visible (bench_child (page, "finished")));
  g_assert_cmpint (slot_of (bench).figure, ==, TG_FIGURE_WHOLE);
  g_assert_cmpuint (slot_of (bench).part, ==, 0);
  bench_type (bench, "583.9");
  g_assert_cmpuint (slot_of (bench).part, ==, 1);
  g_assert_true (tg_review_part (review_of (bench), 0)->has_closure);
}

static void
test_pass (void)
{
  g_autoptr (Bench) bench = four_rods ();
  GtkWidget *panel;
  guint part, before, zone;
  double amount;

  type_all (bench);
  g_assert_true (gtk_widget_activate_action (bench->window, "win.stage", "s", "grind"));
  bench_spin (50);
  panel = bench_find (bench->window, TG_TYPE_NEXT_PANEL);
  g_assert_nonnull (panel);
  part = review_of (bench)->next->slot.part;
  zone = review_of (bench)->next->zone;
  amount = review_of (bench)->next->amount_g;
  tg_session_set_part (bench_session (bench), part);
  before = n_events (bench);
  /* the cautions of the day have opened by themselves */
  g_assert_true (gtk_widget_get_mapped (bench_child (panel, "panel")));
  g_signal_emit_by_name (bench_child (panel, "pass"), "clicked");
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_PASS);
  g_assert_cmpuint (n_events (bench), ==, before + 3);
  g_assert_true (review_of (bench)->bands[TG_BAND_ROD_SMALL].decided);
  g_assert_true (review_of (bench)->bands[TG_BAND_ROD_BIG].decided);
  g_assert_false (gtk_widget_get_visible (bench_child (panel, "cautions")));
  g_assert_cmpint (tg_review_part (review_of (bench), part)->state, ==, TG_STATE_WEIGH_AGAIN);
  {
    TgSlot slot = slot_of (bench);
    g_autofree char *text = NULL;

    g_assert_cmpuint (slot.part, ==, part);
    text = tg_mass_format (
        tg_mass_from_g (tg_review_part (review_of (bench), part)->weight[slot.figure].mean_g), 1);
    bench_type (bench, text);
  }
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_WEIGHING);
  g_assert_cmpfloat (tg_part_review_zone (tg_review_part (review_of (bench), part), zone)->amount_g,
                     <, amount);
  /* one step back takes the reading, one more the pass with the targets taken over with it */
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_false (review_of (bench)->bands[TG_BAND_ROD_SMALL].decided);
  g_assert_cmpuint (tg_review_part (review_of (bench), part)->passes, ==, 0);
}

/* While something is to be decided the field does not draw the eye; after it, it is ready again. */
static void
test_decide (void)
{
  TgJob *job = tg_job_new (fixture_setup (4, TRUE, FALSE));
  g_autoptr (Bench) bench = NULL;
  GtkWidget *panel;

  for (guint i = 1; i <= 4; i++)
    fixture_weigh_rod (job, i, 171.6, 412.1);
  fixture_target (job, TG_BAND_ROD_SMALL, 175);
  bench = bench_new (job);
  bench_spin (50);
  panel = bench_find (bench->window, TG_TYPE_NEXT_PANEL);
  g_assert_nonnull (panel);
  g_assert_true (gtk_widget_get_mapped (bench_child (panel, "decision")));
  g_assert_false (gtk_widget_get_mapped (bench_child (panel, "instruction")));
  g_assert_null (gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (bench->window)),
                                          TG_TYPE_READING_ENTRY));
  /* the target that cannot be met is struck out */
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  bench_spin (50);
  g_assert_false (gtk_widget_get_mapped (bench_child (panel, "decision")));
  g_assert_nonnull (gtk_widget_get_ancestor (gtk_window_get_focus (GTK_WINDOW (bench->window)),
                                             TG_TYPE_READING_ENTRY));
}

/* Somebody else wrote to the file: nothing is written over it, nothing typed is lost. */
static void
test_changed_on_disk (void)
{
  g_autoptr (Bench) bench = four_rods ();
  g_autoptr (TgSession) other = NULL;
  g_autoptr (GError) error = NULL;
  TgEvent note = tg_event_blank (TG_EVENT_NOTE);

  bench_type (bench, "171.6");
  other = tg_session_open (bench->path, &error);
  g_assert_no_error (error);
  note.text = "written at the other bench";
  g_assert_true (tg_session_append (other, &note, 1, &error));
  bench_type (bench, "171.8");
  g_assert_cmpuint (n_events (bench), ==, 1);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_of (bench))), ==, "171.8");
  g_assert_true (gtk_info_bar_get_revealed (GTK_INFO_BAR (bench_child (bench->window, "failure"))));
  gtk_info_bar_response (GTK_INFO_BAR (bench_child (bench->window, "failure")), 1);
  g_assert_cmpuint (n_events (bench), ==, 2);
  bench_type (bench, "171.8");
  g_assert_cmpuint (n_events (bench), ==, 3);
  g_assert_false (
      gtk_info_bar_get_revealed (GTK_INFO_BAR (bench_child (bench->window, "failure"))));
}

static void
test_cannot_save (void)
{
  g_autoptr (Bench) bench = four_rods ();
  g_autofree char *moved = g_strconcat (bench->folder, "-away", NULL);

  bench_type (bench, "171.6");
  g_assert_cmpint (g_rename (bench->folder, moved), ==, 0);
  bench_type (bench, "171.8");
  g_assert_cmpuint (n_events (bench), ==, 1);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (field_of (bench))), ==, "171.8");
  g_assert_true (gtk_info_bar_get_revealed (GTK_INFO_BAR (bench_child (bench->window, "failure"))));
  g_assert_cmpint (g_rename (moved, bench->folder), ==, 0);
  bench_type (bench, "171.8");
  g_assert_cmpuint (n_events (bench), ==, 2);
}

static void
test_refused_file (void)
{
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;
  GtkWidget *window = g_object_ref_sink (tg_window_new (NULL));
  int fd = g_file_open_tmp ("tenthgram-XXXXXX.tenthgram", &path, &error);

  g_assert_no_error (error);
  g_close (fd, NULL);
  g_assert_true (g_file_set_contents (path, "<job>this is none", -1, NULL));
  gtk_window_present (GTK_WINDOW (window));
  bench_spin (100);
  g_assert_false (tg_window_open (TG_WINDOW (window), path));
  g_assert_cmpstr (tg_window_page (TG_WINDOW (window)), ==, "welcome");
  g_assert_null (tg_window_session (TG_WINDOW (window)));
  g_assert_true (
      gtk_widget_get_visible (bench_child (bench_find (window, TG_TYPE_WELCOME_PAGE), "message")));
  g_remove (path);
  gtk_window_destroy (GTK_WINDOW (window));
  g_object_unref (window);
}

/* Every file that is no job, and what is no file: each time the page of the beginning says why on one
 * line, and the window that has a job goes on with it. */
static void
test_invalid_files (void)
{
  g_autofree char *folder = g_test_build_filename (G_TEST_DIST, "data", "invalid", NULL);
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  g_autoptr (Bench) bench = four_rods ();
  TgWindow *empty = g_object_ref_sink (TG_WINDOW (tg_window_new (NULL)));
  TgSession *session = bench_session (bench);
  static const char *const no_files[] = { "/dev/zero", "/dev/null", "/", "/nowhere/at/all", "" };
  g_autoptr (GPtrArray) paths = g_ptr_array_new_with_free_func (g_free);

  g_assert_nonnull (dir);
  for (const char *name; (name = g_dir_read_name (dir));)
    if (g_str_has_suffix (name, ".tenthgram"))
      g_ptr_array_add (paths, g_build_filename (folder, name, NULL));
  g_assert_cmpuint (paths->len, >, 100);
  for (guint i = 0; i < G_N_ELEMENTS (no_files); i++)
    g_ptr_array_add (paths, g_strdup (no_files[i]));
  gtk_window_present (GTK_WINDOW (empty));
  bench_spin (100);
  for (guint i = 0; i < paths->len; i++)
    {
      GtkWidget *welcome = bench_find (GTK_WIDGET (empty), TG_TYPE_WELCOME_PAGE);
      const char *message;

      g_assert_false (tg_window_open (empty, g_ptr_array_index (paths, i)));
      g_assert_null (tg_window_session (empty));
      message = gtk_label_get_text (GTK_LABEL (bench_child (welcome, "message")));
      g_assert_cmpint (message[0], !=, '\0');
      g_assert_null (strchr (message, '\n'));
      g_assert_false (tg_window_open (TG_WINDOW (bench->window), g_ptr_array_index (paths, i)));
      g_assert_true (bench_session (bench) == session);
      g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (bench->window, "failure_text"))),
                       ==, message);
    }
  bench_type (bench, "171.6");
  g_assert_cmpuint (n_events (bench), ==, 1);
  gtk_window_destroy (GTK_WINDOW (empty));
  g_object_unref (empty);
}

/* The fixture's entries lie in the past. */
static void
test_coming_back (void)
{
  TgJob *job = tg_job_new (fixture_setup (4, TRUE, FALSE));
  g_autoptr (Bench) bench = NULL;

  fixture_weigh_rod (job, 1, 171.6, 412.1);
  bench = bench_new (job);
  g_assert_true (gtk_widget_get_visible (bench_child (bench->window, "strip")));
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "weigh");
  /* the field is ready for rod 2 */
  g_assert_cmpuint (slot_of (bench).part, ==, 1);
}

/* --- names and widths ------------------------------------------------------------------------ */

static gboolean
shows_text (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget) && gtk_label_get_text (GTK_LABEL (widget))[0] != '\0')
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    if (shows_text (child))
      return TRUE;
  return FALSE;
}

static gboolean
has_name (GtkWidget *widget)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);

  return gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL) ||
         gtk_test_accessible_has_relation (accessible, GTK_ACCESSIBLE_RELATION_LABELLED_BY) ||
         (!GTK_IS_EDITABLE (widget) && shows_text (widget));
}

static gboolean
is_interactive (GtkWidget *widget)
{
  return GTK_IS_BUTTON (widget) || GTK_IS_MENU_BUTTON (widget) || GTK_IS_ENTRY (widget) ||
         GTK_IS_SWITCH (widget) || GTK_IS_CHECK_BUTTON (widget) || GTK_IS_DROP_DOWN (widget) ||
         GTK_IS_SPIN_BUTTON (widget) || GTK_IS_DRAWING_AREA (widget);
}

/* Counts the widgets without a name below @widget; the parts of compound ones are theirs. */
static guint
count_nameless (GtkWidget *widget, guint *n)
{
  guint nameless = 0;

  /* Pages without a title have a button that is never shown. */
  if (GTK_IS_STACK_SWITCHER (gtk_widget_get_parent (widget)) && !gtk_widget_get_visible (widget))
    return 0;
  if (is_interactive (widget))
    {
      /* What a screen reader meets of a menu button is the button inside. */
      if (GTK_IS_MENU_BUTTON (widget))
        nameless += count_nameless (gtk_widget_get_first_child (widget), n);
      *n += 1;
      if (has_name (widget))
        return nameless;
      g_test_message ("no name: %s “%s” in %s", G_OBJECT_TYPE_NAME (widget),
                      gtk_widget_get_name (widget),
                      G_OBJECT_TYPE_NAME (gtk_widget_get_parent (widget)));
      return nameless + 1;
    }
  /* The window's own buttons are named by GTK. */
  if (GTK_IS_WINDOW_CONTROLS (widget))
    return 0;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    nameless += count_nameless (child, n);
  return nameless;
}

static const char *const stages[] = { "setup", "scale", "weigh", "match",
                                      "grind", "prove", "build", "journal" };

static void
test_names (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, TRUE)));
  guint n = 0;

  for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
    {
      gtk_widget_activate_action (bench->window, "win.stage", "s", stages[i]);
      bench_spin (50);
      g_assert_cmpuint (count_nameless (bench->window, &n), ==, 0);
    }
  g_assert_cmpuint (n, >, 60);
}

/* Who makes it so wide? */
static void
tell_widest (GtkWidget *widget, int limit, int depth)
{
  int least;

  gtk_widget_measure (widget, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  if (!gtk_widget_get_visible (widget) || least <= limit)
    return;
  g_test_message ("%*s%s: %d px", depth * 2, "", G_OBJECT_TYPE_NAME (widget), least);
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    tell_widest (child, limit, depth + 1);
}

/* Takes @job. */
static void
check_job_width (TgJob *job, int limit)
{
  g_autoptr (Bench) bench = bench_new (job);

  for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
    {
      int least;

      gtk_widget_activate_action (bench->window, "win.stage", "s", stages[i]);
      bench_spin (50);
      gtk_widget_measure (bench->window, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
      if (least > limit)
        tell_widest (bench->window, limit, 0);
      g_assert_cmpint (least, <=, limit);
    }
}

/* Pistons and pins for three bores, of which one piston cannot come down to the others; all weighed. */
static TgJob *
unpaired_job (void)
{
  TgSetup *setup = fixture_setup (3, FALSE, TRUE);
  TgJob *job;

  fixture_add_family (setup, TG_PART_PIN, 1);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 3; i++)
    fixture_weigh_piston (job, i, i == 2 ? 470 : 410.3 + i);
  for (guint i = 1; i <= 4; i++)
    {
      g_autofree char *pin = g_strdup_printf ("pin-%u", i);

      fixture_weigh (job, pin, TG_FIGURE_WHOLE, TG_WAY_ANY, 117 + 0.3 * i);
    }
  return job;
}

static void
go_to_stage (const Bench *bench, const char *page)
{
  g_assert_true (gtk_widget_activate_action (bench->window, "win.stage", "s", page));
  bench_spin (100);
}

/* The one that is shown, with all of its name. */
static gboolean
stage_in_sight (GtkWidget *row, GtkWidget *switcher)
{
  for (GtkWidget *stage = gtk_widget_get_first_child (switcher); stage;
       stage = gtk_widget_get_next_sibling (stage))
    {
      graphene_rect_t bounds;

      if (gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (stage)) &&
          gtk_widget_compute_bounds (stage, row, &bounds))
        return bounds.origin.x >= 0 &&
               (int) (bounds.origin.x + bounds.size.width) <= gtk_widget_get_width (row);
    }
  return FALSE;
}

/* The stages are longer than a narrow bar; the one that is shown is always in sight. */
static void
test_stage_in_sight (void)
{
  g_autoptr (Bench) bench = bench_new (tg_job_new (fixture_setup (4, TRUE, TRUE)));
  GtkWidget *row = bench_child (bench->window, "stages_row");
  GtkWidget *switcher = bench_child (bench->window, "stages");

  gtk_window_set_default_size (GTK_WINDOW (bench->window), LEAST_WIDTH, 640);
  bench_spin (300);
  g_assert_cmpint (gtk_widget_get_width (switcher), >, gtk_widget_get_width (row));
  for (guint i = 0; i < 2 * G_N_ELEMENTS (stages); i++)
    {
      guint k = i < G_N_ELEMENTS (stages) ? i : 2 * G_N_ELEMENTS (stages) - 1 - i;

      go_to_stage (bench, stages[k]);
      for (guint tries = 0; tries < 20 && !stage_in_sight (row, switcher); tries++)
        bench_spin (100);
      g_assert_true (stage_in_sight (row, switcher));
    }
}

/* As long as it is open which part goes with which, all ways lead to Match; then to Grind. */
static void
test_pair_first (void)
{
  g_autoptr (Bench) bench = bench_new (unpaired_job ());
  TgEvent pairing = tg_event_blank (TG_EVENT_PAIR);
  GtkWidget *weigh, *panel, *button;

  bench_spin (100);
  g_assert_cmpint (review_of (bench)->next->kind, ==, TG_NEXT_PAIR);
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "match");
  go_to_stage (bench, "weigh");
  weigh = bench_find (bench->window, TG_TYPE_WEIGH_PAGE);
  g_assert_true (gtk_widget_get_mapped (bench_child (weigh, "match")));
  g_assert_false (gtk_widget_get_visible (bench_child (weigh, "grind")));
  g_signal_emit_by_name (bench_child (weigh, "match"), "clicked");
  bench_spin (100);
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "match");

  go_to_stage (bench, "grind");
  tg_session_set_part (bench_session (bench), 1);
  panel = bench_find (bench->window, TG_TYPE_NEXT_PANEL);
  button = bench_child (panel, "match");
  g_assert_true (gtk_widget_get_mapped (button));
  g_assert_false (gtk_widget_get_mapped (bench_child (panel, "pass")));
  /* and the reading can be taken again all the same */
  g_assert_cmpuint (slot_of (bench).part, ==, 1);
  bench_type (bench, "469.9");
  g_assert_cmpint (last_event (bench)->kind, ==, TG_EVENT_WEIGHING);
  g_assert_true (gtk_widget_get_mapped (button));
  g_signal_emit_by_name (button, "clicked");
  bench_spin (100);
  g_assert_cmpstr (tg_window_page (TG_WINDOW (bench->window)), ==, "match");

  pairing.places = "pin-1:2 pin-2:1 pin-3:3 pin-4:0";
  g_assert_true (tg_session_append (bench_session (bench), &pairing, 1, NULL));
  go_to_stage (bench, "grind");
  g_assert_false (gtk_widget_get_visible (button));
  go_to_stage (bench, "weigh");
  g_assert_false (gtk_widget_get_visible (bench_child (weigh, "match")));
  g_assert_true (gtk_widget_get_mapped (bench_child (weigh, "grind")));
}

/* One key takes a pairing back with the targets it freed, and says so; one press puts both back. */
static void
test_undo_pairing (void)
{
  TgJob *job = unpaired_job ();
  g_autoptr (Bench) bench = NULL;
  TgEvent pairing[2] = { tg_event_blank (TG_EVENT_PAIR), tg_event_blank (TG_EVENT_TARGET) };
  GtkLabel *toast;

  fixture_target (job, TG_BAND_PISTON, 528.2);
  bench = bench_new (job);
  pairing[0].places = "pin-1:2 pin-2:1 pin-3:3 pin-4:0";
  pairing[1].band = TG_BAND_PISTON;
  pairing[1].automatic = TRUE;
  g_assert_true (tg_session_append (bench_session (bench), pairing, 2, NULL));
  g_assert_cmpint (review_of (bench)->paired, >=, 0);
  g_assert_false (review_of (bench)->bands[TG_BAND_PISTON].decided);
  g_assert_true (gtk_widget_activate_action (bench->window, "win.undo", NULL));
  g_assert_cmpint (review_of (bench)->paired, ==, -1);
  g_assert_true (review_of (bench)->bands[TG_BAND_PISTON].decided);
  toast = GTK_LABEL (bench_child (bench->window, "toast_text"));
  g_assert_cmpstr (gtk_label_get_text (toast), ==,
                   "Struck out: New pairing of the pins, and 1 more that came with it");
  g_signal_emit_by_name (bench_child (bench->window, "toast_back"), "clicked");
  g_assert_cmpint (review_of (bench)->paired, >=, 0);
  g_assert_false (review_of (bench)->bands[TG_BAND_PISTON].decided);
}

/* From part to part: of all that is weighed, but where parts are ground only of those. */
static void
test_step_over (void)
{
  g_autoptr (Bench) bench = bench_new (unpaired_job ());
  TgSession *session = bench_session (bench);

  go_to_stage (bench, "weigh");
  tg_session_set_part (session, 2);
  gtk_widget_activate_action (bench->window, "win.next-part", NULL);
  g_assert_cmpuint (tg_session_part (session), ==, 3);
  gtk_widget_activate_action (bench->window, "win.last-part", NULL);
  g_assert_cmpuint (tg_session_part (session), ==, 2);
  go_to_stage (bench, "grind");
  gtk_widget_activate_action (bench->window, "win.next-part", NULL);
  g_assert_cmpuint (tg_session_part (session), ==, 0);
  gtk_widget_activate_action (bench->window, "win.last-part", NULL);
  g_assert_cmpuint (tg_session_part (session), ==, 2);
  gtk_widget_activate_action (bench->window, "win.last-part", NULL);
  g_assert_cmpuint (tg_session_part (session), ==, 1);
}

/* A set of twelve with every figure read and targets of their own, on every stage, and one with a
 * decision to make. */
static void
check_width (int limit)
{
  TgSetup *setup = fixture_setup (12, TRUE, TRUE);
  TgJob *job;

  fixture_add_family (setup, TG_PART_BEARINGS, 0);
  job = tg_job_new (setup);
  for (guint i = 1; i <= 12; i++)
    {
      g_autofree char *bearings = g_strdup_printf ("bearings-%u", i);

      fixture_weigh (job, bearings, TG_FIGURE_WHOLE, TG_WAY_ANY, 164.5);
      fixture_weigh_rod (job, i, 1171.6 + i, 2412.1 - i);
      fixture_weigh_piston (job, i, 1500 + i);
      fixture_weigh (job, tg_setup_part (tg_job_setup (job), i - 1)->id, TG_FIGURE_WHOLE,
                     TG_WAY_ANY, 3583.7);
    }
  check_job_width (job, limit);
  job = tg_job_new (fixture_setup (4, TRUE, FALSE));
  for (guint i = 1; i <= 4; i++)
    fixture_weigh_rod (job, i, 171.6 + (i == 3) * 4, 412.1);
  fixture_target (job, TG_BAND_ROD_SMALL, 175);
  check_job_width (job, limit);
}

static void
test_narrow (void)
{
  check_width (LEAST_WIDTH);
}

/* Type half as large again may take more, but not more than a small tablet has. */
static void
test_large_type (void)
{
  GtkSettings *settings = gtk_settings_get_default ();
  g_autofree char *before = NULL;

  g_object_get (settings, "gtk-font-name", &before, NULL);
  g_object_set (settings, "gtk-font-name", "Sans 15", NULL);
  check_width (480);
  g_object_set (settings, "gtk-font-name", before, NULL);
}

/* The focus goes to each page with the person, so that the next key is for what is seen. */
static void
test_focus_on_page (void)
{
  const GType pages[] = { TG_TYPE_SETUP_PAGE, TG_TYPE_SCALE_PAGE,  TG_TYPE_WEIGH_PAGE,
                          TG_TYPE_MATCH_PAGE, TG_TYPE_GRIND_PAGE,  TG_TYPE_PROVE_PAGE,
                          TG_TYPE_BUILD_PAGE, TG_TYPE_JOURNAL_PAGE };
  g_autoptr (Bench) bench = four_rods ();

  for (guint round = 0; round < 2; round++)
    for (guint i = 0; i < G_N_ELEMENTS (stages); i++)
      {
        GtkWidget *focus;

        gtk_widget_activate_action (bench->window, "win.stage", "s", stages[i]);
        bench_spin (50);
        focus = gtk_window_get_focus (GTK_WINDOW (bench->window));
        g_assert_nonnull (focus);
        g_assert_nonnull (gtk_widget_get_ancestor (focus, pages[i]));
      }
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/window/sixteen-readings", test_sixteen_readings);
  g_test_add_func ("/window/on-disk-at-once", test_on_disk_at_once);
  g_test_add_func ("/window/doubt", test_doubt);
  g_test_add_func ("/window/doubt-anew", test_doubt_anew);
  g_test_add_func ("/window/refuse", test_refuse);
  g_test_add_func ("/window/pasted", test_pasted);
  g_test_add_func ("/window/other-end", test_other_end);
  g_test_add_func ("/window/undo", test_undo);
  g_test_add_func ("/window/step", test_step);
  g_test_add_func ("/window/whole-rods", test_whole_rods);
  g_test_add_func ("/window/pass", test_pass);
  g_test_add_func ("/window/decide", test_decide);
  g_test_add_func ("/window/changed-on-disk", test_changed_on_disk);
  g_test_add_func ("/window/cannot-save", test_cannot_save);
  g_test_add_func ("/window/refused-file", test_refused_file);
  g_test_add_func ("/window/invalid-files", test_invalid_files);
  g_test_add_func ("/window/coming-back", test_coming_back);
  g_test_add_func ("/window/pair-first", test_pair_first);
  g_test_add_func ("/window/undo-pairing", test_undo_pairing);
  g_test_add_func ("/window/step-over", test_step_over);
  g_test_add_func ("/window/names", test_names);
  g_test_add_func ("/window/stage-in-sight", test_stage_in_sight);
  g_test_add_func ("/window/focus-on-page", test_focus_on_page);
  g_test_add_func ("/window/narrow", test_narrow);
  g_test_add_func ("/window/large-type", test_large_type);
  return g_test_run ();
}
