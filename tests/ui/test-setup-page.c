/* test-setup-page.c: refining a job: one event per change, none for a refusal
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "crankpins-choice.h"
#include "design-picture.h"
#include "fixture.h"
#include "material-field.h"
#include "page-fixture.h"
#include "setup-field.h"
#include "setup-page.h"
#include "target-field.h"
#include "zone-card.h"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *page;
  GtkWindow *window;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  fixture->session = page_session_new (fixture->folder, 2);
  fixture->page = g_object_new (TG_TYPE_SETUP_PAGE, "session", fixture->session, NULL);
  fixture->window = page_show (fixture->page, 360, 720);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static GtkWidget *
entry (Fixture *fixture, const char *path)
{
  g_autofree char *name = tg_setup_describe (tg_session_review (fixture->session)->setup, path);

  return page_find_named (fixture->page, GTK_TYPE_ENTRY, name);
}

static TgSetupField *
field (Fixture *fixture, const char *path)
{
  return TG_SETUP_FIELD (gtk_widget_get_ancestor (entry (fixture, path), TG_TYPE_SETUP_FIELD));
}

/* Types @text and presses Enter. */
static void
type (Fixture *fixture, const char *path, const char *text)
{
  GtkWidget *widget = entry (fixture, path);

  gtk_editable_set_text (GTK_EDITABLE (widget), text);
  g_signal_emit_by_name (widget, "activate");
}

static const char *
shown (Fixture *fixture, const char *path)
{
  return gtk_editable_get_text (GTK_EDITABLE (entry (fixture, path)));
}

static TgZoneCard *
card (Fixture *fixture, const char *zone_name)
{
  g_autofree char *name = g_strdup_printf ("%s may be ground", zone_name);
  GtkWidget *may = page_find_named (fixture->page, GTK_TYPE_SWITCH, name);

  return TG_ZONE_CARD (gtk_widget_get_ancestor (may, TG_TYPE_ZONE_CARD));
}

static TgUse
use_of (Fixture *fixture, const char *zone)
{
  const TgDesign *design = tg_setup_find_design (tg_session_review (fixture->session)->setup,
                                                 "rod");

  return tg_design_find_zone (design, zone, NULL)->use;
}

static void
test_change_is_one_event (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  type (fixture, "rod.centres", "152,5");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 1);
  g_assert_cmpstr (page_last (fixture->session)->path, ==, "rod.centres");
  g_assert_cmpstr (page_last (fixture->session)->value, ==, "152.5");
  g_assert_cmpstr (shown (fixture, "rod.centres"), ==, "152.5");

  /* the same again, and the same in other words, is no change */
  type (fixture, "rod.centres", "152.5");
  type (fixture, "rod.centres", " 152,50 mm ");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 1);
  g_assert_cmpstr (shown (fixture, "rod.centres"), ==, "152.5");

  type (fixture, "tolerance.piston", "0.8 g");
  type (fixture, "rod.density", "7.8");
  type (fixture, "rod.cap-pad.depth", "1.5");
  type (fixture, "rod.cap-pad.capacity", "3");
  type (fixture, "name", "Other name, 2");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 6);
  g_assert_cmpstr (tg_session_review (fixture->session)->setup->name, ==, "Other name, 2");
  g_assert_cmpint (tg_session_review (fixture->session)->setup->tolerance[TG_BAND_PISTON], ==, 800);
}

static void
test_refusal_is_no_event (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  static const struct
  {
    const char *path, *text;
  } cases[] = { { "rod.centres", "abc" },      { "rod.centres", "" },
                { "rod.centres", "5" },        { "rod.centres", "40" },
                { "rod.big-bore", "80" },      { "tolerance.rod-small", "-1" },
                { "rod.density", "0" },        { "rod.density", "heavy" },
                { "rod.cap-pad.depth", "51" }, { "name", "  " },
                { "piston.crown", "30" },      { "tolerance.piston", "0.0001" } };

  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      guint before = page_count (fixture->session, TG_EVENT_SET);

      type (fixture, cases[i].path, cases[i].text);
      if (page_count (fixture->session, TG_EVENT_SET) != before)
        g_error ("%s took “%s”", cases[i].path, cases[i].text);
      g_assert_cmpstr (shown (fixture, cases[i].path), ==, cases[i].text);
      g_assert_nonnull (tg_setup_field_get_problem (field (fixture, cases[i].path)));
    }
  /* what stands refused stays while something else changes */
  type (fixture, "tolerance.rod-big", "0.7");
  g_assert_cmpstr (shown (fixture, "rod.big-bore"), ==, "80");
  g_assert_nonnull (tg_setup_field_get_problem (field (fixture, "rod.big-bore")));
  /* Escape brings the value in force back */
  g_assert_true (page_press (entry (fixture, "rod.big-bore"), GDK_KEY_Escape, 0));
  g_assert_cmpstr (shown (fixture, "rod.big-bore"), ==, "56");
  g_assert_null (tg_setup_field_get_problem (field (fixture, "rod.big-bore")));
}

/* A refined value shows what it was; struck out, it is the old one again. */
static void
test_was (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autoptr (GError) error = NULL;
  GtkWidget *was = page_find (GTK_WIDGET (field (fixture, "rod.centres")), GTK_TYPE_LABEL, "small");

  g_assert_false (gtk_widget_get_visible (was));
  type (fixture, "rod.centres", "151");
  g_assert_true (gtk_widget_get_visible (was));
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (was)), ==, "was 150");
  tg_session_toggle_strike (fixture->session, 0, &error);
  g_assert_no_error (error);
  g_assert_cmpstr (shown (fixture, "rod.centres"), ==, "150");
  g_assert_false (gtk_widget_get_visible (was));
}

static void
test_free_zone (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkSwitch *may = tg_zone_card_get_switch (card (fixture, "cap pad"));

  g_assert_true (gtk_switch_get_active (may));
  gtk_switch_set_active (may, FALSE);
  g_assert_cmpint (use_of (fixture, "cap-pad"), ==, TG_USE_NO);
  g_assert_false (gtk_switch_get_active (may));
  g_assert_cmpstr (page_last (fixture->session)->path, ==, "rod.cap-pad.use");
  gtk_switch_set_active (may, TRUE);
  g_assert_cmpint (use_of (fixture, "cap-pad"), ==, TG_USE_DEFAULT);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 2);
  g_assert_true (gtk_switch_get_state (may));
}

static void
test_zone_with_care (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  TgZoneCard *sides = card (fixture, "sides");
  GtkSwitch *may = tg_zone_card_get_switch (sides);
  GtkWidget *confirm = page_find (GTK_WIDGET (sides), GTK_TYPE_BOX, "amber");

  g_assert_false (gtk_switch_get_active (may));
  g_assert_false (gtk_widget_get_visible (confirm));
  gtk_switch_set_active (may, TRUE);
  /* the switch alone does nothing but ask */
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 0);
  g_assert_false (gtk_switch_get_active (may));
  g_assert_true (gtk_widget_get_visible (confirm));
  g_signal_emit_by_name (tg_zone_card_get_opt_in (sides), "clicked");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 1);
  g_assert_cmpint (use_of (fixture, "sides"), ==, TG_USE_YES);
  g_assert_true (gtk_switch_get_active (may));
  g_assert_false (gtk_widget_get_visible (confirm));
  gtk_switch_set_active (may, FALSE);
  g_assert_cmpint (use_of (fixture, "sides"), ==, TG_USE_DEFAULT);
}

static void
test_never_zone (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkSwitch *may = tg_zone_card_get_switch (card (fixture, "beam"));

  g_assert_false (gtk_widget_get_sensitive (GTK_WIDGET (may)));
  gtk_switch_set_active (may, TRUE);
  g_signal_emit_by_name (tg_zone_card_get_opt_in (card (fixture, "beam")), "clicked");
  page_settle ();
  g_assert_false (gtk_switch_get_active (may));
  g_assert_false (gtk_switch_get_state (may));
  g_assert_cmpint (use_of (fixture, "beam"), ==, TG_USE_DEFAULT);
  g_assert_cmpuint (tg_job_n_events (tg_session_job (fixture->session)), ==, 0);
}

/* Name, metal and density go together. */
static void
test_material (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const GPtrArray *materials = tg_session_library (fixture->session)->materials;
  TgMaterialField *material = TG_MATERIAL_FIELD (
      page_find (fixture->page, TG_TYPE_MATERIAL_FIELD, NULL));
  const TgDesign *rod;
  guint at = 0;

  while (((TgMaterial *) g_ptr_array_index (materials, at))->metal != TG_METAL_TITANIUM)
    at++;
  gtk_drop_down_set_selected (tg_material_field_get_choice (material), at);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 3);
  rod = tg_setup_find_design (tg_session_review (fixture->session)->setup, "rod");
  g_assert_cmpint (rod->metal, ==, TG_METAL_TITANIUM);
  g_assert_cmpstr (rod->material, ==, ((TgMaterial *) g_ptr_array_index (materials, at))->name);
  g_assert_cmpfloat (rod->density, ==, ((TgMaterial *) g_ptr_array_index (materials, at))->density);
  g_assert_cmpuint (gtk_drop_down_get_selected (tg_material_field_get_choice (material)), ==, at);

  /* what the job began with is not of the library and stays in reach, as the last of the list */
  gtk_drop_down_set_selected (tg_material_field_get_choice (material), materials->len);
  rod = tg_setup_find_design (tg_session_review (fixture->session)->setup, "rod");
  g_assert_cmpstr (rod->material, ==, "steel");
  g_assert_cmpint (rod->metal, ==, TG_METAL_STEEL);
  g_assert_cmpfloat (rod->density, ==, 7.85);
}

static void
test_target (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *target = page_find_named (fixture->page, GTK_TYPE_ENTRY,
                                       "Target of the small ends, g");
  GtkWidget *back = page_find_named (fixture->page, GTK_TYPE_BUTTON,
                                     "Target of the small ends: automatic");

  gtk_editable_set_text (GTK_EDITABLE (target), "heavy");
  g_signal_emit_by_name (target, "activate");
  gtk_editable_set_text (GTK_EDITABLE (target), "0");
  g_signal_emit_by_name (target, "activate");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_TARGET), ==, 0);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (target)), ==, "0");
  gtk_editable_set_text (GTK_EDITABLE (target), "171,2");
  g_signal_emit_by_name (target, "activate");
  g_signal_emit_by_name (target, "activate");
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_TARGET), ==, 1);
  g_assert_cmpint (page_last (fixture->session)->mass, ==, 171200);
  g_assert_true (tg_session_review (fixture->session)->bands[TG_BAND_ROD_SMALL].decided);
  g_assert_true (gtk_widget_get_visible (back));
  g_signal_emit_by_name (back, "clicked");
  g_assert_false (tg_session_review (fixture->session)->bands[TG_BAND_ROD_SMALL].decided);
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (target)), ==, "");
}

/* The drawing singles out the zone whose card has the focus. */
static void
test_drawing_follows (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  TgDesignPicture *picture = TG_DESIGN_PICTURE (
      page_find (fixture->page, TG_TYPE_DESIGN_PICTURE, NULL));
  TgZoneCard *cap_pad = card (fixture, "cap pad");
  GtkWidget *section = gtk_widget_get_prev_sibling (gtk_widget_get_parent (GTK_WIDGET (cap_pad)));

  g_assert_cmpint (tg_design_picture_get_selected (picture), ==, -1);
  gtk_expander_set_expanded (GTK_EXPANDER (section), TRUE);
  page_wait_for (gtk_widget_get_mapped (GTK_WIDGET (cap_pad)));
  g_assert_true (gtk_widget_grab_focus (GTK_WIDGET (tg_zone_card_get_switch (cap_pad))));
  page_wait_for (tg_design_picture_get_selected (picture) == (int) tg_zone_card_get_zone (cap_pad));
}

static void
test_names_and_width (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  int least;

  g_assert_cmpuint (page_check_names (fixture->page), >, 60);
  for (GtkWidget *section = page_find (fixture->page, GTK_TYPE_EXPANDER, NULL); section;
       section = gtk_widget_get_next_sibling (section))
    if (GTK_IS_EXPANDER (section))
      gtk_expander_set_expanded (GTK_EXPANDER (section), TRUE);
  page_settle ();
  gtk_widget_measure (fixture->page, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 360);
}

static void
test_no_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_object_set (fixture->page, "session", NULL, NULL);
  page_settle ();
  g_assert_null (page_find (fixture->page, TG_TYPE_SETUP_FIELD, NULL));
  g_object_set (fixture->page, "session", fixture->session, NULL);
  g_assert_nonnull (page_find (fixture->page, TG_TYPE_SETUP_FIELD, NULL));
}

static gboolean
is_asked (Fixture *fixture, const char *path)
{
  return gtk_widget_get_visible (GTK_WIDGET (field (fixture, path)));
}

static GtkDropDown *
small_ends (Fixture *fixture)
{
  return GTK_DROP_DOWN (
      page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, "Small ends are matched"));
}

/* What counts with the pistons decides which bands there are; each change is one event. */
static void
test_small_ends (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *alone = page_find (fixture->page, GTK_TYPE_CHECK_BUTTON, NULL);

  /* only pistons that are in a sum can be even by themselves, too */
  g_assert_false (gtk_widget_get_visible (alone));
  g_assert_true (is_asked (fixture, "tolerance.rod-small"));
  page_find_named (fixture->page, GTK_TYPE_ENTRY, "Tolerance of the pistons, g");
  gtk_drop_down_set_selected (small_ends (fixture), TG_SMALL_ENDS_SUM);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 1);
  g_assert_cmpstr (page_last (fixture->session)->path, ==, "sum.rod");
  g_assert_cmpstr (page_last (fixture->session)->value, ==, "only");
  g_assert_false (is_asked (fixture, "tolerance.rod-small"));
  page_find_named (fixture->page, GTK_TYPE_ENTRY, "Tolerance of the piston sets, g");
  page_find_named (fixture->page, GTK_TYPE_ENTRY, "Target of the piston sets, g");
  gtk_drop_down_set_selected (small_ends (fixture), TG_SMALL_ENDS_BOTH);
  g_assert_true (is_asked (fixture, "tolerance.rod-small"));
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 2);
  g_assert_true (gtk_widget_get_visible (alone));

  /* struck out in the journal, the choice goes back by itself and is no change */
  {
    TgEvent event = tg_event_blank (TG_EVENT_STRIKE);

    event.refers = page_last (fixture->session)->id;
    page_append (fixture->session, event);
  }
  g_assert_cmpuint (gtk_drop_down_get_selected (small_ends (fixture)), ==, TG_SMALL_ENDS_SUM);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 2);
}

/* Pistons by themselves as well: a band of their own, which begins with the tolerance of the sets. */
static void
test_pistons_alone (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkCheckButton *alone = GTK_CHECK_BUTTON (page_find (fixture->page, GTK_TYPE_CHECK_BUTTON, NULL));
  const TgSetup *setup;

  gtk_drop_down_set_selected (small_ends (fixture), TG_SMALL_ENDS_BOTH);
  g_assert_false (is_asked (fixture, "tolerance.piston-alone"));
  gtk_check_button_set_active (alone, TRUE);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 3);
  setup = tg_session_review (fixture->session)->setup;
  g_assert_true (setup->pistons_alone);
  g_assert_cmpint (setup->tolerance[TG_BAND_PISTON_ALONE], ==, setup->tolerance[TG_BAND_PISTON]);
  g_assert_true (is_asked (fixture, "tolerance.piston-alone"));
  page_find_named (fixture->page, GTK_TYPE_ENTRY, "Tolerance of the pistons by themselves, g");
  /* what does not go together is refused, and nothing changes */
  gtk_drop_down_set_selected (small_ends (fixture), TG_SMALL_ENDS_SUM);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 3);
  g_assert_cmpuint (gtk_drop_down_get_selected (small_ends (fixture)), ==, TG_SMALL_ENDS_BOTH);
  gtk_check_button_set_active (alone, FALSE);
  g_assert_false (is_asked (fixture, "tolerance.piston-alone"));
}

/* Only families that the job has are asked about; of their design there is nothing to refine. */
static void
test_families (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *path = g_build_filename (fixture->folder, "pins.tenthgram", NULL);
  g_autoptr (GError) error = NULL;
  TgSetup *setup = tg_setup_copy (tg_session_review (fixture->session)->setup);
  TgDesign *design = tg_design_new (TG_PART_PIN);
  g_autoptr (TgSession) session = NULL;
  GtkWidget *check;

  g_free (design->id);
  design->id = g_strdup ("pin");
  tg_setup_add_design (setup, design);
  tg_setup_add_set (setup, design, 1);
  session = tg_session_create (setup, path, &error);
  g_assert_no_error (error);
  g_object_set (fixture->page, "session", session, NULL);

  check = page_find (fixture->page, GTK_TYPE_CHECK_BUTTON, NULL);
  g_assert_cmpstr (gtk_check_button_get_label (GTK_CHECK_BUTTON (check)), ==,
                   "Pins count with their pistons");
  g_assert_true (gtk_check_button_get_active (GTK_CHECK_BUTTON (check)));
  page_find_named (fixture->page, GTK_TYPE_ENTRY, "Tolerance of the piston sets, g");
  gtk_check_button_set_active (GTK_CHECK_BUTTON (check), FALSE);
  g_assert_cmpstr (page_last (session)->path, ==, "sum.pin");
  g_assert_cmpstr (page_last (session)->value, ==, "no");
  page_find_named (fixture->page, GTK_TYPE_ENTRY, "Tolerance of the pistons, g");
  g_assert_cmpuint (page_check_names (fixture->page), >, 25);
}

/* Takes @setup. */
static void
show_other (Fixture *fixture, TgSetup *setup, const char *name)
{
  g_autofree char *path = g_build_filename (fixture->folder, name, NULL);
  g_autoptr (GError) error = NULL;
  TgSession *session = tg_session_create (setup, path, &error);

  g_assert_no_error (error);
  g_object_set (fixture->page, "session", session, NULL);
  g_set_object (&fixture->session, session);
  g_object_unref (session);
}

static GtkDropDown *
crankpins (Fixture *fixture)
{
  return GTK_DROP_DOWN (page_find_named (fixture->page, GTK_TYPE_DROP_DOWN, "Rods on a crankpin"));
}

/* Not asked of two in line, but of what a file says of them; each answer is one event. */
static void
test_crankpins (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  TgSetup *two = tg_setup_copy (tg_session_review (fixture->session)->setup);
  TgSetup *four = fixture_setup (4, TRUE, FALSE);
  TgEvent strike = tg_event_blank (TG_EVENT_STRIKE);

  g_assert_null (page_find (fixture->page, TG_TYPE_CRANKPINS_CHOICE, NULL));
  two->sharing = TG_SHARING_BANKS;
  show_other (fixture, two, "two.tenthgram");
  g_assert_cmpuint (gtk_drop_down_get_selected (crankpins (fixture)), ==, 1);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 0);

  four->layout = TG_LAYOUT_VEE;
  show_other (fixture, four, "four.tenthgram");
  g_assert_cmpuint (gtk_drop_down_get_selected (crankpins (fixture)), ==, TG_SHARING_OWN);
  gtk_drop_down_set_selected (crankpins (fixture), TG_SHARING_BANKS);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 1);
  g_assert_cmpstr (page_last (fixture->session)->path, ==, "crankpins");
  g_assert_cmpstr (page_last (fixture->session)->value, ==, "banks");
  g_assert_cmpint (tg_session_review (fixture->session)->setup->sharing, ==, TG_SHARING_BANKS);
  strike.refers = page_last (fixture->session)->id;
  page_append (fixture->session, strike);
  g_assert_cmpuint (gtk_drop_down_get_selected (crankpins (fixture)), ==, TG_SHARING_OWN);
  g_assert_cmpuint (page_count (fixture->session, TG_EVENT_SET), ==, 1);

  show_other (fixture, fixture_setup (4, FALSE, TRUE), "pistons.tenthgram");
  g_assert_null (page_find (fixture->page, TG_TYPE_CRANKPINS_CHOICE, NULL));
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/setup-page/change-is-one-event", test_change_is_one_event);
  ADD ("/setup-page/refusal-is-no-event", test_refusal_is_no_event);
  ADD ("/setup-page/was", test_was);
  ADD ("/setup-page/free-zone", test_free_zone);
  ADD ("/setup-page/zone-with-care", test_zone_with_care);
  ADD ("/setup-page/never-zone", test_never_zone);
  ADD ("/setup-page/material", test_material);
  ADD ("/setup-page/target", test_target);
  ADD ("/setup-page/drawing-follows", test_drawing_follows);
  ADD ("/setup-page/names-and-width", test_names_and_width);
  ADD ("/setup-page/no-job", test_no_job);
  ADD ("/setup-page/small-ends", test_small_ends);
  ADD ("/setup-page/pistons-alone", test_pistons_alone);
  ADD ("/setup-page/families", test_families);
  ADD ("/setup-page/crankpins", test_crankpins);
  return g_test_run ();
}
