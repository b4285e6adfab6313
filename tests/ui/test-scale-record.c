/* test-scale-record.c: what is known of the scale, and how it is refined
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings are invented.  Maximum permissible errors: OIML R 111-1:2004, table 1.
 */
#include <string.h>

#include "check-class-field.h"
#include "page-fixture.h"
#include "scale-history.h"
#include "scale-record.h"
#include "setup-field.h"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *record;
  GtkWindow *window;
} Rig;

static Rig *
rig_new (int width)
{
  Rig *rig = g_new0 (Rig, 1);

  rig->folder = page_folder_new ();
  rig->session = page_session_new (rig->folder, 3);
  rig->record = tg_scale_record_new ();
  tg_scale_record_set_session (TG_SCALE_RECORD (rig->record), rig->session);
  rig->window = page_show (rig->record, width, 600);
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

/* The first visible text below @root that has @part in it, or NULL. */
static const char *
text_with (GtkWidget *root, const char *part)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      const char *inside;

      if (!gtk_widget_get_mapped (child))
        continue;
      if (GTK_IS_LABEL (child) && strstr (gtk_label_get_text (GTK_LABEL (child)), part))
        return gtk_label_get_text (GTK_LABEL (child));
      inside = text_with (child, part);
      if (inside)
        return inside;
    }
  return NULL;
}

static const TgSetup *
setup_of (Rig *rig)
{
  return tg_session_review (rig->session)->setup;
}

/* Types into the field of that name, and Enter. */
static void
refine (Rig *rig, const char *name, const char *text)
{
  GtkWidget *entry = page_find_named (rig->record, GTK_TYPE_ENTRY, name);

  gtk_editable_set_text (GTK_EDITABLE (entry), text);
  g_signal_emit_by_name (entry, "activate");
  page_settle ();
}

static void
zero (Rig *rig, TgMass mass, gboolean set_back)
{
  TgEvent event = tg_event_blank (TG_EVENT_ZERO);

  event.mass = mass;
  event.set_back = set_back;
  page_append (rig->session, event);
}

static void
check_weight (Rig *rig, TgMass mass)
{
  TgEvent event = tg_event_blank (TG_EVENT_CHECK_WEIGHT);

  event.nominal = 500 * TG_MASS_G;
  event.mass = mass;
  page_append (rig->session, event);
}

static void
test_refine (void)
{
  g_autoptr (Rig) rig = rig_new (600);
  GtkDropDown *choice = tg_check_class_field_get_choice (
      TG_CHECK_CLASS_FIELD (page_find (rig->record, TG_TYPE_CHECK_CLASS_FIELD, NULL)));

  g_assert_false (gtk_widget_is_sensitive (GTK_WIDGET (choice))); /* a class of no weight */
  refine (rig, "Name of the scale", "Bench scale, with 0,1 g");
  g_assert_cmpstr (setup_of (rig)->scale, ==, "Bench scale, with 0,1 g");
  refine (rig, "Name of the scale", "");
  g_assert_cmpstr (setup_of (rig)->scale, ==, "");
  refine (rig, "Check weight, g", "500");
  g_assert_cmpint (setup_of (rig)->check_weight, ==, 500 * TG_MASS_G);
  g_assert_true (gtk_widget_is_sensitive (GTK_WIDGET (choice)));
  gtk_drop_down_set_selected (choice, TG_CHECK_WEIGHT_F2);
  page_settle ();
  g_assert_cmpint (setup_of (rig)->check_class, ==, TG_CHECK_WEIGHT_F2);
  g_assert_nonnull (text_with (rig->record, "500\302\240g ± 0.008\302\240g (OIML R 111)"));
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 4);
  refine (rig, "Check weight, g", "510");
  g_assert_nonnull (text_with (rig->record, "has no line for 510"));
}

/* How often each is read, and what chance of too much is taken; what cannot be is refused and stays. */
static void
test_how_often (void)
{
  g_autoptr (Rig) rig = rig_new (600);
  static const char *const bad[][2] = { { "Readings of each", "0" },
                                        { "Readings of each", "21" },
                                        { "Readings of each", "2.5" },
                                        { "Chance of an overshoot, %", "50" } };

  refine (rig, "Readings of each", "3");
  g_assert_cmpuint (setup_of (rig)->repeats, ==, 3);
  refine (rig, "Chance of an overshoot, %", "1,5 %");
  g_assert_cmpfloat (setup_of (rig)->overshoot_percent, ==, 1.5);
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 2);
  for (guint i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      refine (rig, bad[i][0], bad[i][1]);
      g_assert_cmpstr (gtk_editable_get_text (
                           GTK_EDITABLE (page_find_named (rig->record, GTK_TYPE_ENTRY, bad[i][0]))),
                       ==, bad[i][1]);
    }
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_SET), ==, 2);
}

static void
test_checks (void)
{
  g_autoptr (Rig) rig = rig_new (600);

  g_assert_nonnull (text_with (rig->record, "was not looked at yet"));
  g_assert_false (gtk_widget_get_mapped (page_find (rig->record, TG_TYPE_SCALE_HISTORY, NULL)));
  g_assert_nonnull (text_with (rig->record, "enter what is stamped on it"));
  refine (rig, "Check weight, g", "500");
  g_assert_nonnull (text_with (rig->record, "was not put on yet"));
  zero (rig, 100, TRUE);
  page_weigh (rig->session, "rod-1", TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
  page_settle ();
  g_assert_nonnull (text_with (rig->record, "Empty scale: +0.1\302\240g, which fits, then set to"));
  g_assert_nonnull (text_with (rig->record, "1 reading since."));
  g_assert_true (gtk_widget_get_mapped (page_find (rig->record, TG_TYPE_SCALE_HISTORY, NULL)));
  check_weight (rig, 500 * TG_MASS_G);
  page_settle ();
  g_assert_nonnull (
      text_with (rig->record, "Check weight of 500\302\240g: 0.0\302\240g, which fit"));
  g_assert_null (text_with (rig->record, "Do not weigh on"));
  check_weight (rig, 498 * TG_MASS_G);
  page_settle ();
  g_assert_nonnull (text_with (rig->record, "−2.0\302\240g, which is off"));
  g_assert_nonnull (text_with (rig->record, "Do not weigh on"));
}

/* What it can prove is said of every band, before and after the readings. */
static void
test_proof (void)
{
  g_autoptr (Rig) rig = rig_new (600);
  g_autoptr (TgProof) small = tg_review_proof (tg_session_review (rig->session), TG_BAND_ROD_SMALL);
  g_autoptr (TgProof) piston = tg_review_proof (tg_session_review (rig->session), TG_BAND_PISTON);

  g_assert_nonnull (text_with (rig->record, "can prove that the small ends"));
  g_assert_nonnull (text_with (rig->record, "can prove that the big ends"));
  g_assert_nonnull (text_with (rig->record, "can prove that the pistons"));
  g_assert_cmpuint (small->n_parts, ==, 3);
  g_assert_cmpuint (piston->n_parts, ==, 3);
  refine (rig, "Step of the scale, g", "1");
  g_assert_nonnull (text_with (rig->record, "This scale cannot prove"));
}

static void
test_narrow (void)
{
  g_autoptr (Rig) rig = rig_new (328);
  int least;

  refine (rig, "Check weight, g", "500");
  zero (rig, -300, FALSE);
  check_weight (rig, 498 * TG_MASS_G);
  page_settle ();
  gtk_widget_measure (rig->record, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 328);
  g_assert_cmpuint (page_check_names (rig->record), >=, 5);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/scale-record/refine", test_refine);
  g_test_add_func ("/scale-record/how-often", test_how_often);
  g_test_add_func ("/scale-record/checks", test_checks);
  g_test_add_func ("/scale-record/proof", test_proof);
  g_test_add_func ("/scale-record/narrow", test_narrow);
  return g_test_run ();
}
