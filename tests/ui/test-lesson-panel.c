/* test-lesson-panel.c: lessons gone through with the panel's own buttons, the list, and what is added to it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib/gstdio.h>
#include <math.h>
#include <string.h>

#include "build.h"
#include "effect-view.h"
#include "job-xml.h"
#include "lesson-panel.h"
#include "lesson-row.h"
#include "lesson-shelf.h"
#include "lessons-page.h"
#include "page-fixture.h"
#include "pairing.h"
#include "practice-bench.h"

typedef struct
{
  char *folder;
  TgLessonShelf *shelf;
  const TgLesson *lesson;
  TgSession *session;
  GtkWidget *panel;
  GtkWindow *window;
} Rig;

static Rig *
rig_new (const char *id, int width)
{
  Rig *rig = g_new0 (Rig, 1);
  g_autoptr (GError) error = NULL;

  rig->folder = page_folder_new ();
  rig->shelf = tg_lesson_shelf_new (rig->folder, rig->folder);
  rig->lesson = tg_lessons_find (rig->shelf->lessons, id);
  rig->session = tg_lesson_shelf_begin (rig->lesson, rig->folder, &error);
  g_assert_no_error (error);
  rig->panel = tg_lesson_panel_new ();
  g_object_set (rig->panel, "session", rig->session, NULL);
  rig->window = page_show (rig->panel, width, 500);
  return rig;
}

static void
rig_free (Rig *rig)
{
  gtk_window_destroy (rig->window);
  g_object_unref (rig->session);
  tg_lesson_shelf_free (rig->shelf);
  page_folder_free (rig->folder);
  g_free (rig);
}

/* -- finding and pressing -------------------------------------------------------------------------- */

static gboolean
says (const char *label, const char *text)
{
  g_auto (GStrv) pieces = g_strsplit (label ? label : "", "_", -1);
  g_autofree char *plain = g_strjoinv ("", pieces);

  return strcmp (plain, text) == 0;
}

static GtkWidget *
button (GtkWidget *root, const char *text)
{
  if (GTK_IS_BUTTON (root) && gtk_widget_get_mapped (root) &&
      says (gtk_button_get_label (GTK_BUTTON (root)), text))
    return root;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *found = button (child, text);

      if (found)
        return found;
    }
  return NULL;
}

static void
press (Rig *rig, const char *text)
{
  page_wait_for (button (rig->panel, text));
  g_signal_emit_by_name (button (rig->panel, text), "clicked");
  page_settle ();
}

static TgLessonProgress *
look (Rig *rig)
{
  return tg_lesson_progress_new (rig->lesson, tg_session_job (rig->session),
                                 tg_session_review (rig->session));
}

/* -- work at the bench ----------------------------------------------------------------------------- */

static void
weigh (Rig *rig, TgSlot slot)
{
  TgPracticeBench *bench = tg_practice_desk_bench (tg_session_desk (rig->session));
  TgEvent event = tg_event_blank (TG_EVENT_WEIGHING);

  tg_practice_bench_lay (bench, &slot);
  if (slot.figure != TG_FIGURE_WHOLE)
    tg_practice_bench_rock (bench);
  event.part = tg_setup_part (tg_job_setup (tg_session_job (rig->session)), slot.part)->id;
  event.figure = slot.figure;
  event.way = slot.way;
  event.mass = tg_practice_bench_display (bench, TG_PRACTICE_SETTLED_MS);
  page_append (rig->session, event);
}

static void
append_all (Rig *rig, const GArray *events)
{
  g_autoptr (GError) error = NULL;

  if (events->len > 0)
    tg_session_append (rig->session, (const TgEvent *) events->data, events->len, &error);
  g_assert_no_error (error);
}

static void
grind (Rig *rig)
{
  const TgReview *review = tg_session_review (rig->session);
  const TgNext *next = review->next;
  g_autoptr (GArray) events = tg_review_take_targets (review, next->slot.part);
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);

  pass.part = tg_review_part (review, next->slot.part)->part->id;
  pass.zone = tg_part_review_zone (tg_review_part (review, next->slot.part), next->zone)->zone->id;
  pass.tool = TG_TOOL_FILE;
  pass.mass = tg_mass_from_g (next->pass_g);
  pass.effort = TG_EFFORT_SECONDS;
  pass.count = next->effort == TG_EFFORT_SECONDS
                   ? next->count
                   : (guint) MAX (
                         1, round (0.5 * next->pass_g / tg_practice_tool_rate (TG_TOOL_FILE)));
  g_array_append_val (events, pass);
  append_all (rig, events);
}

static void
decide (Rig *rig)
{
  const TgReview *review = tg_session_review (rig->session);
  const TgDecision *decision = g_ptr_array_index (review->decisions, review->next->decision);
  const TgChoice *choice = g_ptr_array_index (decision->choices, 0);

  append_all (rig, choice->events);
}

static void
pair (Rig *rig)
{
  const TgMatchingLimits limits = { .nodes = 200000 };
  const TgReview *review = tg_session_review (rig->session);
  g_autofree char *why_not = NULL;
  g_autoptr (TgPairing) pairing = tg_pairing_new (review, TG_PAIRING_PISTONS, &why_not);
  TgPairingResult result;
  TgChoice *choice;

  g_assert_nonnull (pairing);
  tg_pairing_solve (pairing, &limits, &result);
  choice = tg_pairing_accept (review, pairing, &result.sums.plan);
  append_all (rig, choice->events);
  tg_choice_free (choice);
}

static void
tick (Rig *rig)
{
  const TgReview *review = tg_session_review (rig->session);
  g_autoptr (TgBuild) build = tg_build_new (tg_session_job (rig->session), review);

  for (guint bore = 1; bore <= build->cards->len; bore++)
    for (guint i = 0; i < tg_build_card (build, bore)->ticks->len; i++)
      {
        const TgBuildTick *one = &g_array_index (tg_build_card (build, bore)->ticks, TgBuildTick,
                                                 i);
        TgEvent event = tg_event_blank (TG_EVENT_TICK);
        TgPartKind kind;

        if (one->ticked)
          continue;
        event.check = one->check;
        event.bore = bore;
        if (tg_build_check_kind (one->check, &kind))
          event.part = tg_setup_at_bore (review->setup, kind, bore)->id;
        page_append (rig->session, event);
        return;
      }
}

static void
work (Rig *rig)
{
  const TgNext *next = tg_session_review (rig->session)->next;

  if (next->kind == TG_NEXT_WEIGH)
    weigh (rig, next->slot);
  else if (next->kind == TG_NEXT_GRIND)
    grind (rig);
  else if (next->kind == TG_NEXT_DECIDE)
    decide (rig);
  else if (next->kind == TG_NEXT_PAIR)
    pair (rig);
  else
    tick (rig);
}

/* -- going through --------------------------------------------------------------------------------- */

/* What a step shows has the room that it needs, up to what the panel may take of the window. */
static void
check_room (Rig *rig)
{
  GtkWidget *body = page_find (rig->panel, GTK_TYPE_SCROLLED_WINDOW, NULL);
  GtkAdjustment *down = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (body));
  int most = gtk_scrolled_window_get_max_content_height (GTK_SCROLLED_WINDOW (body));

  page_settle ();
  g_assert_cmpfloat (gtk_adjustment_get_page_size (down) + 1, >=,
                     MIN (gtk_adjustment_get_upper (down), most));
}

/* Types or picks a wrong answer first where a number is wanted, then the right one. */
static void
answer (Rig *rig, const TgLessonAnswer *right)
{
  g_autofree char *text = tg_lesson_answer_right (right);
  GtkWidget *entry = page_find_named (rig->panel, GTK_TYPE_ENTRY, "Your answer");

  if (right->options->len == 0)
    {
      gtk_editable_set_text (GTK_EDITABLE (entry), "99999");
      g_signal_emit_by_name (entry, "activate");
      page_wait_for (page_shows (rig->panel, "Not right"));
      gtk_editable_set_text (GTK_EDITABLE (entry), text);
      g_signal_emit_by_name (entry, "activate");
    }
  for (guint i = 0; i < right->options->len; i++)
    {
      const TgLessonOption *option = g_ptr_array_index (right->options, i);

      if (option->right)
        {
          press (rig, option->text);
          break;
        }
    }
  page_wait_for (page_shows (rig->panel, "✓ Right"));
  press (rig, "Go on");
}

static void
go_through (Rig *rig)
{
  for (guint i = 0; i < 300; i++)
    {
      g_autoptr (TgLessonProgress) progress = look (rig);
      const TgLessonStep *step;
      g_autofree char *count = NULL;

      if (progress->finished)
        return;
      step = tg_lesson_step (rig->lesson, progress->current);
      count = g_strdup_printf ("Step %u of %u", progress->current + 1, rig->lesson->steps->len);
      page_wait_for (page_shows (rig->panel, count) && page_shows (rig->panel, step->title));
      check_room (rig);
      if (step->kind == TG_LESSON_STEP_SHOW)
        press (rig, "Go on");
      else if (step->kind == TG_LESSON_STEP_ASK)
        answer (rig, progress->answer);
      else
        {
          g_assert_null (button (rig->panel, "Go on"));
          work (rig);
          page_settle ();
        }
    }
  g_assert_not_reached ();
}

static void
test_through (gconstpointer id)
{
  Rig *rig = rig_new (id, 900);

  g_assert_true (tg_lesson_panel_has_lesson (TG_LESSON_PANEL (rig->panel)));
  page_check_names (rig->panel);
  go_through (rig);
  page_wait_for (page_shows (rig->panel, "What you have learned"));
  g_assert_null (button (rig->panel, "Go on"));
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_STEP), >=, rig->lesson->steps->len);
  page_check_names (rig->panel);
  rig_free (rig);
}

/* What is no number is asked for again and not written down; after a wrong number the arrows stand at both
 * ends with what the statics say: 1 g off the middle of the shoulders, 11 mm from the big end of 150 mm. */
static void
test_effect (void)
{
  Rig *rig = rig_new ("coupled-ends", 900);
  GtkWidget *entry, *view = page_find (rig->panel, TG_TYPE_EFFECT_VIEW, NULL);
  GtkWidget *sum;

  press (rig, "Go on");
  entry = page_find_named (rig->panel, GTK_TYPE_ENTRY, "Your answer");
  gtk_editable_set_text (GTK_EDITABLE (entry), "little");
  g_signal_emit_by_name (entry, "activate");
  g_assert_true (page_shows (rig->panel, "A number is wanted"));
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_STEP), ==, 1);
  g_assert_false (tg_effect_view_how (TG_EFFECT_VIEW (view))->moves);
  gtk_editable_set_text (GTK_EDITABLE (entry), "+0,07");
  g_signal_emit_by_name (entry, "activate");
  g_assert_true (page_shows (rig->panel, "Not right: +0,07"));
  g_assert_true (tg_effect_view_how (TG_EFFECT_VIEW (view))->moves);
  g_assert_cmpfloat_with_epsilon (tg_effect_view_how (TG_EFFECT_VIEW (view))->effect.small,
                                  -11.0 / 150, 1e-9);
  g_assert_cmpfloat_with_epsilon (tg_effect_view_how (TG_EFFECT_VIEW (view))->effect.big,
                                  -139.0 / 150, 1e-9);
  sum = page_find (rig->panel, GTK_TYPE_MENU_BUTTON, NULL);
  gtk_menu_button_popup (GTK_MENU_BUTTON (sum));
  page_wait_for (gtk_menu_button_get_popover (GTK_MENU_BUTTON (sum)) &&
                 page_shows (GTK_WIDGET (gtk_menu_button_get_popover (GTK_MENU_BUTTON (sum))),
                             "Moments about the bores"));
  gtk_menu_button_popdown (GTK_MENU_BUTTON (sum));
  page_settle ();
  gtk_editable_set_text (GTK_EDITABLE (entry), "−0.07");
  g_signal_emit_by_name (entry, "activate");
  g_assert_true (page_shows (rig->panel, "✓ Right: −0.07"));
  g_assert_true (gtk_widget_has_focus (button (rig->panel, "Go on")));
  rig_free (rig);
}

/* In a narrow window it begins as one line with the title, and unfolds. */
static void
test_narrow (void)
{
  Rig *rig = rig_new ("never", 360);
  GtkRequisition natural;

  page_wait_for (!page_shows (rig->panel, "The hatched places"));
  g_assert_true (page_shows (rig->panel, "Hatched means never"));
  g_assert_cmpint (gtk_widget_get_width (rig->panel), <=, 360);
  gtk_widget_get_preferred_size (rig->panel, NULL, &natural);
  g_assert_cmpint (natural.height, <, 60);
  tg_lesson_panel_focus (TG_LESSON_PANEL (rig->panel));
  page_wait_for (page_shows (rig->panel, "The hatched places"));
  g_assert_true (gtk_widget_has_focus (button (rig->panel, "Go on")));
  g_assert_cmpint (gtk_widget_get_width (rig->panel), <=, 360);
  rig_free (rig);
}

/* A job that is for no lesson has no panel, nor does the last deed of a lesson count as one to take back. */
static void
test_without (void)
{
  Rig *rig = rig_new ("turn-over", 900);
  g_autofree char *folder = page_folder_new ();
  TgSession *plain = page_session_new (folder, 2);
  g_autoptr (GError) error = NULL;
  int last;

  weigh (rig, (TgSlot){ 0, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP });
  press (rig, "Go on");
  last = tg_session_last_done (rig->session);
  g_assert_cmpint (tg_job_event (tg_session_job (rig->session), (guint) last)->kind, ==,
                   TG_EVENT_WEIGHING);
  g_object_set (rig->panel, "session", plain, NULL);
  g_assert_false (gtk_widget_get_visible (rig->panel));
  g_assert_false (tg_lesson_panel_has_lesson (TG_LESSON_PANEL (rig->panel)));
  g_object_set (rig->panel, "session", rig->session, NULL);
  g_assert_true (gtk_widget_get_visible (rig->panel));
  g_object_set (rig->panel, "session", NULL, NULL);
  g_object_unref (plain);
  page_folder_free (g_steal_pointer (&folder));
  rig_free (rig);
}

/* -- the list -------------------------------------------------------------------------------------- */

static void
on_open (GtkWidget *page G_GNUC_UNUSED, TgSession *session, TgSession **opened)
{
  g_set_object (opened, session);
}

static void
test_list (void)
{
  g_autofree char *own = page_folder_new ();
  g_autofree char *practice = page_folder_new ();
  GtkWidget *page = g_object_new (TG_TYPE_LESSONS_PAGE, "own-folder", own, "practice-folder",
                                  practice, NULL);
  GtkWindow *window = page_show (page, 360, 700);
  g_autoptr (TgSession) opened = NULL;
  TgEvent step = tg_event_blank (TG_EVENT_STEP);

  g_signal_connect (page, "open", G_CALLBACK (on_open), &opened);
  page_check_names (page);
  g_assert_true (page_shows (page, "1  Read and turn over"));
  g_assert_true (page_shows (page, "not begun"));
  g_signal_emit_by_name (button (page, "Start"), "clicked");
  g_assert_nonnull (opened);
  g_assert_cmpstr (tg_job_setup (tg_session_job (opened))->practice.lesson, ==, "turn-over");
  step.path = "idea";
  page_append (opened, step);
  gtk_widget_set_visible (page, FALSE);
  gtk_widget_set_visible (page, TRUE);
  page_wait_for (page_shows (page, "begun, step 2 of 7"));
  g_clear_object (&opened);
  g_signal_emit_by_name (button (page, "Go on"), "clicked");
  g_assert_nonnull (opened);
  g_assert_cmpuint (page_count (opened, TG_EVENT_STEP), ==, 1);
  gtk_window_destroy (window);
  page_folder_free (g_steal_pointer (&own));
  page_folder_free (g_steal_pointer (&practice));
}

#define FAULTY                                                                                     \
  "<lesson xmlns=\"urn:tenthgram:lesson\" version=\"1\" id=\"mine\" title=\"Mine\" "               \
  "minutes=\"5\">\n<goal>G.</goal>\n<job cylinders=\"2\" step=\"0.1\">"                            \
  "<family kind=\"rod\" design=\"rod-i\"/><bench seed=\"s\" spread=\"1\"/></job>\n"                \
  "<show id=\"a\" title=\"A\" part=\"rod-9\"><text>T.</text></show>\n"                             \
  "<learned>L.</learned></lesson>\n"

/* A faulty file is not taken, and says where; a good one is there at once; the same again is refused. */
static void
test_add (void)
{
  g_autofree char *own = page_folder_new ();
  g_autofree char *elsewhere = page_folder_new ();
  GtkWidget *page = g_object_new (TG_TYPE_LESSONS_PAGE, "own-folder", own, "practice-folder",
                                  elsewhere, NULL);
  GtkWindow *window = page_show (page, 700, 700);
  g_autofree char *path = g_build_filename (elsewhere, "mine.xml", NULL);
  g_autofree char *copy = g_build_filename (own, "mine.xml", NULL);
  g_auto (GStrv) pieces = g_strsplit (FAULTY, "rod-9", -1);
  g_autofree char *good = g_strjoinv ("rod-2", pieces);

  g_assert_true (g_file_set_contents (path, FAULTY, -1, NULL));
  tg_lessons_page_add (TG_LESSONS_PAGE (page), path);
  g_assert_true (page_shows (page, "mine.xml:4: the job of the lesson has no part “rod-9”"));
  g_assert_false (g_file_test (copy, G_FILE_TEST_EXISTS));
  g_assert_true (g_file_set_contents (path, good, -1, NULL));
  tg_lessons_page_add (TG_LESSONS_PAGE (page), path);
  page_wait_for (page_shows (page, "10  Mine"));
  g_assert_false (page_shows (page, "mine.xml:4"));
  g_assert_true (g_file_test (copy, G_FILE_TEST_EXISTS));
  tg_lessons_page_add (TG_LESSONS_PAGE (page), path);
  g_assert_true (page_shows (page, "mine.xml: there is a lesson “mine” already"));
  gtk_window_destroy (window);
  page_folder_free (g_steal_pointer (&own));
  page_folder_free (g_steal_pointer (&elsewhere));
}

/* A job from another computer, whose teacher wrote the lesson: it can be worked on, and says what is missing. */
static void
test_absent (void)
{
  Rig *rig = rig_new ("turn-over", 360);
  g_autofree char *path = g_build_filename (rig->folder, "absent.tenthgram", NULL);
  TgSetup *setup = tg_setup_copy (tg_job_setup (tg_session_job (rig->session)));
  g_autoptr (TgJob) job = NULL;
  g_autoptr (GError) error = NULL;
  TgSession *absent;

  g_free (setup->practice.lesson);
  setup->practice.lesson = g_strdup ("of-a-colleague");
  job = tg_job_new (setup);
  tg_job_xml_save (job, path, &error);
  g_assert_no_error (error);
  absent = tg_session_open (path, &error);
  g_assert_no_error (error);
  g_object_set (rig->panel, "session", absent, NULL);
  page_settle ();
  g_assert_true (page_shows (rig->panel, "of-a-colleague"));
  g_assert_false (page_shows (rig->panel, "Step"));
  g_assert_cmpint (gtk_widget_get_width (rig->panel), <=, 360);
  g_object_set (rig->panel, "page", "lessons", NULL);
  g_assert_false (gtk_widget_get_visible (rig->panel));
  g_object_set (rig->panel, "session", rig->session, "page", "weigh", NULL);
  page_settle ();
  g_assert_false (page_shows (rig->panel, "of-a-colleague"));
  g_assert_true (page_shows (rig->panel, "Step"));
  g_object_unref (absent);
  rig_free (rig);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_data_func ("/lesson-panel/turn-over", "turn-over", test_through);
  g_test_add_data_func ("/lesson-panel/target", "target", test_through);
  g_test_add_data_func ("/lesson-panel/pairing", "pairing", test_through);
  g_test_add_data_func ("/lesson-panel/overshoot", "overshoot", test_through);
  g_test_add_data_func ("/lesson-panel/build", "build", test_through);
  g_test_add_func ("/lesson-panel/effect", test_effect);
  g_test_add_func ("/lesson-panel/narrow", test_narrow);
  g_test_add_func ("/lesson-panel/without", test_without);
  g_test_add_func ("/lesson-panel/absent", test_absent);
  g_test_add_func ("/lesson-panel/list", test_list);
  g_test_add_func ("/lesson-panel/add", test_add);
  return g_test_run ();
}
