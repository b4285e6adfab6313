/* test-new-job.c: the page that makes a new job, and what its answers become
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <glib/gstdio.h>
#include <string.h>

#include "job-draft.h"
#include "job-xml.h"
#include "new-job.h"
#include "page-fixture.h"

typedef struct
{
  char *folder;
  TgNewJob *page;
  GtkWindow *window;
  TgSession *session;
  guint cancelled;
} Fixture;

static void
on_created (TgNewJob *page G_GNUC_UNUSED, TgSession *session, Fixture *fixture)
{
  g_set_object (&fixture->session, session);
}

static void
on_cancelled (TgNewJob *page G_GNUC_UNUSED, Fixture *fixture)
{
  fixture->cancelled++;
}

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  fixture->page = TG_NEW_JOB (tg_new_job_new ());
  tg_new_job_set_folder (fixture->page, fixture->folder);
  g_signal_connect (fixture->page, "created", G_CALLBACK (on_created), fixture);
  g_signal_connect (fixture->page, "cancelled", G_CALLBACK (on_cancelled), fixture);
  fixture->window = page_show (GTK_WIDGET (fixture->page), 360, 720);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static GtkEditable *
entry (Fixture *fixture, const char *name)
{
  return GTK_EDITABLE (page_find_named (GTK_WIDGET (fixture->page), GTK_TYPE_ENTRY, name));
}

static void
option (Fixture *fixture, const char *label)
{
  GtkWidget *stack[256];
  guint n = 0;

  stack[n++] = GTK_WIDGET (fixture->page);
  while (n > 0)
    {
      GtkWidget *widget = stack[--n];

      if (GTK_IS_CHECK_BUTTON (widget) &&
          g_strcmp0 (gtk_check_button_get_label (GTK_CHECK_BUTTON (widget)), label) == 0)
        {
          gtk_check_button_set_active (GTK_CHECK_BUTTON (widget), TRUE);
          return;
        }
      for (GtkWidget *child = gtk_widget_get_first_child (widget); child && n < 256;
           child = gtk_widget_get_next_sibling (child))
        stack[n++] = child;
    }
  g_error ("no option “%s”", label);
}

static guint
files_in (const char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  guint n = 0;

  while (g_dir_read_name (dir))
    n++;
  return n;
}

/* Enter three times, nothing else: a job file that loads. */
static void
test_enter_makes_a_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *path = g_build_filename (fixture->folder, "Four in line.tenthgram", NULL);
  g_autoptr (GError) error = NULL;
  g_autoptr (TgJob) job = NULL;
  const TgSetup *setup;

  for (guint i = 0; i < 2; i++)
    {
      g_assert_true (page_press (GTK_WIDGET (fixture->page), GDK_KEY_Return, 0));
      g_assert_null (fixture->session);
    }
  g_assert_true (page_press (GTK_WIDGET (fixture->page), GDK_KEY_Return, 0));
  g_assert_nonnull (fixture->session);
  g_assert_cmpstr (tg_session_path (fixture->session), ==, path);

  job = tg_job_xml_load (path, &error);
  g_assert_no_error (error);
  setup = tg_job_setup (job);
  g_assert_cmpstr (setup->name, ==, "Four in line");
  g_assert_cmpuint (setup->cylinders, ==, 4);
  g_assert_cmpuint (setup->parts->len, ==, 8);
  g_assert_true (tg_setup_has_kind (setup, TG_PART_ROD));
  g_assert_true (tg_setup_has_kind (setup, TG_PART_PISTON));
  g_assert_cmpint (setup->resolution, ==, 100);
  for (guint band = 0; band <= TG_BAND_PISTON; band++)
    g_assert_cmpint (setup->tolerance[band], ==, 1000);
  g_assert_false (tg_setup_has_band (setup, TG_BAND_PISTON_ALONE)); /* not asked for here */
  g_assert_cmpuint (tg_job_n_events (job), ==, 0);
}

static void
test_answers_reach_the_setup (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const TgSetup *setup;
  const TgDesign *rod;

  option (fixture, "V");
  option (fixture, "Rods only");
  option (fixture, "another");
  gtk_spin_button_set_value (GTK_SPIN_BUTTON (page_find_named (GTK_WIDGET (fixture->page),
                                                               GTK_TYPE_SPIN_BUTTON, "Cylinders")),
                             8);
  g_assert_cmpstr (gtk_editable_get_text (entry (fixture, "Name of the job")), ==, "V eight");
  gtk_editable_set_text (entry (fixture, "Step of the scale in g"), "0,2");
  gtk_editable_set_text (entry (fixture, "Centre distance in mm"), "152,5 mm");
  gtk_editable_set_text (entry (fixture, "Tolerance in g"), "2");
  gtk_editable_set_text (entry (fixture, "Tolerance of the big ends in g"), "1.5");
  gtk_editable_set_text (entry (fixture, "Name of the job"), "Slipway winch / spare");
  g_assert_true (tg_new_job_start (fixture->page));

  setup = tg_job_setup (tg_session_job (fixture->session));
  g_assert_cmpint (setup->layout, ==, TG_LAYOUT_VEE);
  g_assert_cmpuint (setup->parts->len, ==, 8);
  g_assert_false (tg_setup_has_kind (setup, TG_PART_PISTON));
  g_assert_cmpint (setup->resolution, ==, 200);
  g_assert_cmpint (setup->tolerance[TG_BAND_ROD_SMALL], ==, 2000);
  g_assert_cmpint (setup->tolerance[TG_BAND_ROD_BIG], ==, 1500);
  rod = g_ptr_array_index (setup->designs, 0);
  g_assert_cmpfloat (rod->rod.centres, ==, 152.5);
  g_assert_cmpstr (setup->name, ==, "Slipway winch / spare");
  g_assert_true (
      g_str_has_suffix (tg_session_path (fixture->session), "/Slipway winch - spare.tenthgram"));
}

/* Each refusal leaves what was typed and writes no file. */
static void
test_refusals_keep_the_text (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  static const struct
  {
    const char *name, *bad, *good;
  } cases[] = { { "Tolerance in g", "one", "1" },
                { "Tolerance in g", "", "1" },
                { "Tolerance of the small ends in g", "0.5.5", "" },
                { "Centre distance in mm", "15x", "150" },
                { "Centre distance in mm", "1e2", "150" },
                { "Centre distance in mm", "5000", "150" },
                /* within the limits, but the eyes of the rod would overlap */
                { "Centre distance in mm", "40", "150" },
                { "Step of the scale in g", "0", "0.1" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      option (fixture, strstr (cases[i].name, "Step") ? "another" : "0.1 g");
      gtk_editable_set_text (entry (fixture, cases[i].name), cases[i].bad);
      g_assert_false (tg_new_job_start (fixture->page));
      g_assert_null (fixture->session);
      g_assert_cmpuint (files_in (fixture->folder), ==, 0);
      g_assert_cmpstr (gtk_editable_get_text (entry (fixture, cases[i].name)), ==, cases[i].bad);
      gtk_editable_set_text (entry (fixture, cases[i].name), cases[i].good);
    }
  g_assert_true (tg_new_job_start (fixture->page));
}

static void
test_never_overwrites (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *path = g_build_filename (fixture->folder, "mine.tenthgram", NULL);
  g_autofree char *typed = g_build_filename (fixture->folder, "mine", NULL);
  g_autofree char *after = NULL;
  g_autoptr (GError) error = NULL;

  g_file_set_contents (path, "precious", -1, &error);
  g_assert_no_error (error);
  gtk_editable_set_text (entry (fixture, "Job file"), typed);
  g_assert_false (tg_new_job_start (fixture->page));
  g_assert_cmpstr (gtk_editable_get_text (entry (fixture, "Job file")), ==, typed);
  g_file_get_contents (path, &after, NULL, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (after, ==, "precious");

  /* the name that the page makes itself steps aside */
  gtk_editable_set_text (entry (fixture, "Job file"), "");
  gtk_editable_set_text (entry (fixture, "Name of the job"), "mine");
  g_assert_true (tg_new_job_start (fixture->page));
  g_assert_true (g_str_has_suffix (tg_session_path (fixture->session), "/mine 2.tenthgram"));
}

/* A folder that is not there is a fault of the moment: said, and everything stays. */
static void
test_no_such_folder (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *typed = g_build_filename (fixture->folder, "no", "job.tenthgram", NULL);

  gtk_editable_set_text (entry (fixture, "Job file"), typed);
  g_assert_false (tg_new_job_start (fixture->page));
  g_assert_cmpstr (gtk_editable_get_text (entry (fixture, "Job file")), ==, typed);
  g_assert_null (fixture->session);
}

static const char *
shown_text (Fixture *fixture, const char *name)
{
  GtkWidget *label = GTK_WIDGET (
      gtk_widget_get_template_child (GTK_WIDGET (fixture->page), TG_TYPE_NEW_JOB, name));

  return gtk_widget_get_visible (label) ? gtk_label_get_text (GTK_LABEL (label)) : "";
}

static void
expect_words (const char *text, const char *words)
{
  if (!strstr (text, words))
    g_error ("“%s” does not say “%s”", text, words);
}

/* What the scale can prove is said while it can still be chosen, as tg_proof_of_setup() has it. */
static void
test_proof (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_assert_cmpstr (shown_text (fixture, "warning"), ==, "");
  expect_words (shown_text (fixture, "proof"), "can prove that the small ends");
  expect_words (shown_text (fixture, "proof"), "can prove that the pistons");
  /* no number of readings shows so little */
  gtk_editable_set_text (entry (fixture, "Tolerance in g"), "0.05");
  expect_words (shown_text (fixture, "warning"), "cannot prove that the small ends");
  expect_words (shown_text (fixture, "warning"), "0.05\302\240g");
  g_assert_cmpstr (shown_text (fixture, "proof"), ==, "");
  /* some do */
  gtk_editable_set_text (entry (fixture, "Tolerance in g"), "0.2");
  g_assert_cmpstr (shown_text (fixture, "warning"), ==, "");
  expect_words (shown_text (fixture, "proof"), "To prove that the pistons");
  /* a coarser scale, and a tolerance of its own */
  option (fixture, "1 g");
  gtk_editable_set_text (entry (fixture, "Tolerance in g"), "5");
  gtk_editable_set_text (entry (fixture, "Tolerance of the big ends in g"), "0.5");
  expect_words (shown_text (fixture, "warning"), "cannot prove that the big ends");
  expect_words (shown_text (fixture, "proof"), "small ends");
  g_assert_null (strstr (shown_text (fixture, "warning"), "small ends"));
  /* what is not matched is not spoken of */
  option (fixture, "Pistons only");
  g_assert_cmpstr (shown_text (fixture, "warning"), ==, "");
  g_assert_null (strstr (shown_text (fixture, "proof"), "ends"));
}

/* What stands there is what the core says of the job that comes out. */
static void
test_proof_of_the_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *shown = NULL;
  g_autoptr (GString) expected = g_string_new (NULL);
  g_auto (GStrv) words = NULL;

  gtk_editable_set_text (entry (fixture, "Tolerance in g"), "0.3");
  shown = g_strdup (shown_text (fixture, "proof"));
  g_assert_true (tg_new_job_start (fixture->page));
  for (guint band = 0; band <= TG_BAND_PISTON; band++)
    {
      g_autoptr (TgProof)
          proof = tg_proof_of_setup (tg_job_setup (tg_session_job (fixture->session)), band);

      g_string_append_printf (expected, "%s%s", band > 0 ? "\n" : "", proof->text);
    }
  words = g_strsplit (shown, "\302\240", -1);
  g_free (shown);
  shown = g_strjoinv (" ", words);
  g_assert_cmpstr (shown, ==, expected->str);
}

static GtkWidget *
part_of (Fixture *fixture, const char *name)
{
  return GTK_WIDGET (
      gtk_widget_get_template_child (GTK_WIDGET (fixture->page), TG_TYPE_NEW_JOB, name));
}

static void
set_spares (Fixture *fixture, const char *name, double n)
{
  gtk_spin_button_set_value (
      GTK_SPIN_BUTTON (page_find_named (GTK_WIDGET (fixture->page), GTK_TYPE_SPIN_BUTTON, name)),
      n);
}

static guint
count_parts (const TgSetup *setup, TgPartKind kind, gboolean spares)
{
  guint n = 0;

  for (guint i = 0; i < setup->parts->len; i++)
    n += tg_setup_part (setup, i)->design->kind == kind &&
         (tg_setup_part (setup, i)->bore == 0) == spares;
  return n;
}

/* Nothing but rods and pistons unless it is said; then one for each cylinder, and the spares. */
static void
test_families (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const TgSetup *setup;

  option (fixture, "Pins");
  option (fixture, "Ring packs");
  option (fixture, "Bearing pairs");
  set_spares (fixture, "Spare pins", 3);
  set_spares (fixture, "Spare pistons", 1);
  /* clips take no part: what stands in their field does not count */
  set_spares (fixture, "Spare clip pairs", 7);
  g_assert_true (tg_new_job_start (fixture->page));

  setup = tg_job_setup (tg_session_job (fixture->session));
  g_assert_cmpuint (count_parts (setup, TG_PART_PIN, FALSE), ==, 4);
  g_assert_cmpuint (count_parts (setup, TG_PART_PIN, TRUE), ==, 3);
  g_assert_cmpuint (count_parts (setup, TG_PART_RINGS, FALSE), ==, 4);
  g_assert_cmpuint (count_parts (setup, TG_PART_BEARINGS, FALSE), ==, 4);
  g_assert_cmpuint (count_parts (setup, TG_PART_PISTON, TRUE), ==, 1);
  g_assert_false (tg_setup_has_kind (setup, TG_PART_CLIPS));
  g_assert_cmpuint (setup->parts->len, ==, 21 + 3);
  g_assert_cmpstr (tg_setup_find_design (setup, "pin")->name, ==, "Pins");
  g_assert_cmpint (setup->small_ends, ==, TG_SMALL_ENDS_APART);
}

/* What goes with a piston is not offered without pistons, and the same for rods. */
static void
test_families_offered (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const TgSetup *setup;

  option (fixture, "Pins");
  option (fixture, "Bearing pairs");
  option (fixture, "Rods only");
  g_assert_true (tg_new_job_start (fixture->page));
  setup = tg_job_setup (tg_session_job (fixture->session));
  g_assert_cmpuint (setup->parts->len, ==, 8);
  g_assert_false (tg_setup_has_kind (setup, TG_PART_PIN));
  g_assert_true (tg_setup_has_kind (setup, TG_PART_BEARINGS));
}

/* A tolerance is named after what it is of, and not asked where there is no band. */
static void
test_tolerances_of_sums (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *choice = page_find (part_of (fixture, "families"), GTK_TYPE_DROP_DOWN, NULL);

  g_assert_cmpstr (shown_text (fixture, "tolerance_label_2"), ==, "Pistons");
  option (fixture, "Clip pairs");
  option (fixture, "Bearing pairs");
  g_assert_cmpstr (shown_text (fixture, "tolerance_label_2"), ==, "Piston sets");
  g_assert_cmpstr (shown_text (fixture, "tolerance_label_1"), ==, "Big ends with bearings");
  gtk_editable_set_text (entry (fixture, "Tolerance of the piston sets in g"), "3");
  gtk_editable_set_text (entry (fixture, "Tolerance of the small ends in g"), "not a number");
  g_assert_false (tg_new_job_start (fixture->page));

  /* a question that is not asked cannot be answered wrongly */
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), TG_SMALL_ENDS_SUM);
  g_assert_false (gtk_widget_get_visible (part_of (fixture, "tolerance_box_0")));
  g_assert_null (strstr (shown_text (fixture, "proof"), "small ends"));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), TG_SMALL_ENDS_BOTH);
  g_assert_true (gtk_widget_get_visible (part_of (fixture, "tolerance_box_0")));
  gtk_drop_down_set_selected (GTK_DROP_DOWN (choice), TG_SMALL_ENDS_SUM);
  g_assert_true (tg_new_job_start (fixture->page));
  g_assert_cmpint (tg_job_setup (tg_session_job (fixture->session))->small_ends, ==,
                   TG_SMALL_ENDS_SUM);
  g_assert_cmpint (tg_job_setup (tg_session_job (fixture->session))->tolerance[TG_BAND_PISTON], ==,
                   3000);
}

static const char *
answer (GtkDropDown *choice, guint index)
{
  GtkStringList *answers = GTK_STRING_LIST (gtk_drop_down_get_model (choice));

  return gtk_string_list_get_string (answers, index);
}

/* Asked where rods can share pins two by two, in the bores of the engine; an answer outlives a question
 * that is not asked, but does not count then. */
static void
test_crankpins (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *box = part_of (fixture, "crankpins");
  GtkDropDown *choice = GTK_DROP_DOWN (
      page_find_named (box, GTK_TYPE_DROP_DOWN, "Rods on a crankpin"));
  GtkSpinButton *cylinders = GTK_SPIN_BUTTON (part_of (fixture, "cylinders"));

  g_assert_false (gtk_widget_get_visible (box)); /* in line each rod has its own */
  option (fixture, "Boxer");
  g_assert_true (gtk_widget_get_visible (box));
  g_assert_cmpuint (gtk_drop_down_get_selected (choice), ==, TG_SHARING_OWN);
  g_assert_cmpstr (answer (choice, 0), ==, "one each");
  g_assert_cmpstr (answer (choice, 1), ==, "two: bores 1 + 2, 3 + 4");
  g_assert_cmpstr (answer (choice, 2), ==, "two: bores 1 + 3, 2 + 4");
  gtk_spin_button_set_value (cylinders, 8);
  g_assert_cmpstr (answer (choice, 1), ==, "two: bores 1 + 2, 3 + 4 …");
  g_assert_cmpstr (answer (choice, 2), ==, "two: bores 1 + 5, 2 + 6 …");
  gtk_drop_down_set_selected (choice, TG_SHARING_BANKS);
  gtk_spin_button_set_value (cylinders, 2);
  g_assert_false (gtk_widget_get_visible (box));
  option (fixture, "V");
  g_assert_true (gtk_widget_get_visible (box));
  g_assert_cmpstr (answer (choice, 1), ==, "two: bores 1 + 2");
  g_assert_null (answer (choice, 2));
  g_assert_cmpuint (gtk_drop_down_get_selected (choice), ==, 1);
  gtk_spin_button_set_value (cylinders, 6);
  g_assert_cmpuint (gtk_drop_down_get_selected (choice), ==, TG_SHARING_BANKS);
  option (fixture, "Pistons only");
  g_assert_false (gtk_widget_get_visible (box));
  option (fixture, "Rods only");
  g_assert_true (gtk_widget_get_visible (box));
  g_assert_true (tg_new_job_start (fixture->page));
  g_assert_cmpint (tg_job_setup (tg_session_job (fixture->session))->sharing, ==, TG_SHARING_BANKS);
  gtk_spin_button_set_value (cylinders, 5);
  g_assert_false (gtk_widget_get_visible (box));
  g_assert_true (tg_new_job_start (fixture->page));
  g_assert_cmpint (tg_job_setup (tg_session_job (fixture->session))->sharing, ==, TG_SHARING_OWN);
}

/* More parts than a job can hold are refused in words. */
static void
test_too_many_spares (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  option (fixture, "Pins");
  set_spares (fixture, "Spare pins", 500);
  set_spares (fixture, "Spare pistons", 100);
  g_assert_false (tg_new_job_start (fixture->page));
  g_assert_cmpuint (files_in (fixture->folder), ==, 0);
  expect_words (shown_text (fixture, "problem"), "600");
}

static void
test_names_and_width (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  int least;

  g_assert_cmpuint (page_check_names (GTK_WIDGET (fixture->page)), >, 25);
  gtk_widget_measure (GTK_WIDGET (fixture->page), GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL,
                      NULL, NULL);
  g_assert_cmpint (least, <=, 360);
}

static void
test_cancel (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *bar = page_find (GTK_WIDGET (fixture->page), GTK_TYPE_WIDGET, "bottom-bar");
  GtkWidget *button = page_find (bar, GTK_TYPE_BUTTON, NULL);

  g_assert_cmpstr (gtk_button_get_label (GTK_BUTTON (button)), ==, "Cancel");
  g_signal_emit_by_name (button, "clicked");
  g_assert_cmpuint (fixture->cancelled, ==, 1);
  g_assert_cmpuint (files_in (fixture->folder), ==, 0);
}

static void
test_draft_names (void)
{
  static const struct
  {
    TgLayout layout;
    guint cylinders;
    const char *name;
  } cases[] = { { TG_LAYOUT_INLINE, 6, "Six in line" },
                { TG_LAYOUT_VEE, 8, "V eight" },
                { TG_LAYOUT_BOXER, 4, "Boxer four" },
                { TG_LAYOUT_OTHER, 3, "Engine of three" },
                { TG_LAYOUT_VEE, 16, "V 16" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *name = tg_job_draft_name (cases[i].layout, cases[i].cylinders);

      g_assert_cmpstr (name, ==, cases[i].name);
    }
}

static void
test_draft_paths (void)
{
  char *folder = page_folder_new ();
  static const char *const cases[][2] = { { "a/b", "a-b.tenthgram" },
                                          { "..", "-..tenthgram" },
                                          { "  ", "Job.tenthgram" },
                                          { "x\ny", "x-y.tenthgram" },
                                          { "Größe 2", "Größe 2.tenthgram" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_autofree char *path = tg_job_draft_path (folder, cases[i][0]);
      g_autofree char *base = g_path_get_basename (path);
      g_autofree char *parent = g_path_get_dirname (path);

      g_assert_cmpstr (base, ==, cases[i][1]);
      g_assert_cmpstr (parent, ==, folder);
    }
  page_folder_free (folder);
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

/* A practice job is a job with a bench, and its name says so. */
static void
test_practice (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const TgSetup *setup;

  tg_new_job_set_practice (fixture->page);
  gtk_editable_set_text (entry (fixture, "Class word"), "");
  g_assert_false (tg_new_job_start (fixture->page));
  gtk_editable_set_text (entry (fixture, "Class word"), "autumn class");
  gtk_editable_set_text (entry (fixture, "The parts scatter by, in g"), "21");
  g_assert_false (tg_new_job_start (fixture->page));
  gtk_editable_set_text (entry (fixture, "The parts scatter by, in g"), "0,8");
  option (fixture, "stubborn");
  gtk_editable_set_text (entry (fixture, "Name of the job"), "My first four");
  g_assert_true (tg_new_job_start (fixture->page));
  g_assert_nonnull (tg_session_desk (fixture->session));
  setup = tg_job_setup (tg_session_job (fixture->session));
  g_assert_cmpstr (setup->name, ==, "Practice, My first four");
  g_assert_cmpstr (setup->practice.seed, ==, "autumn class");
  g_assert_cmpfloat (setup->practice.spread_g, ==, 0.8);
  g_assert_cmpfloat (setup->practice.faults.catch_share, ==,
                     tg_practice_level_faults (TG_PRACTICE_STUBBORN, 0.1).catch_share);
  g_assert_cmpint (setup->check_weight, >, 0);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/new-job/enter-makes-a-job", test_enter_makes_a_job);
  ADD ("/new-job/answers-reach-the-setup", test_answers_reach_the_setup);
  ADD ("/new-job/refusals-keep-the-text", test_refusals_keep_the_text);
  ADD ("/new-job/never-overwrites", test_never_overwrites);
  ADD ("/new-job/no-such-folder", test_no_such_folder);
  ADD ("/new-job/proof", test_proof);
  ADD ("/new-job/proof-of-the-job", test_proof_of_the_job);
  ADD ("/new-job/families", test_families);
  ADD ("/new-job/families-offered", test_families_offered);
  ADD ("/new-job/tolerances-of-sums", test_tolerances_of_sums);
  ADD ("/new-job/crankpins", test_crankpins);
  ADD ("/new-job/too-many-spares", test_too_many_spares);
  ADD ("/new-job/names-and-width", test_names_and_width);
  ADD ("/new-job/practice", test_practice);
  ADD ("/new-job/cancel", test_cancel);
  g_test_add_func ("/new-job/draft-names", test_draft_names);
  g_test_add_func ("/new-job/draft-paths", test_draft_paths);
  return g_test_run ();
}
