/* test-families.c: parts that are only weighed, spares and sums on the pages
 *
 * Two bores with pins, clips and bearing pairs and one spare piston; all figures are invented.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "figures-row.h"
#include "fixture.h"
#include "grind-page.h"
#include "history-view.h"
#include "page-fixture.h"
#include "part-view.h"
#include "readings-table.h"
#include "set-list.h"
#include "weigh-page.h"
#include "words.h"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWindow *window;
} Fixture;

static const TgPartKind plain[] = { TG_PART_PIN, TG_PART_CLIPS, TG_PART_BEARINGS };

static TgSetup *
new_setup (void)
{
  TgSetup *setup = fixture_setup (2, TRUE, TRUE);

  tg_setup_add_part (setup, "piston-3", "Piston 3", tg_setup_find_design (setup, "piston"), 0);
  for (guint i = 0; i < G_N_ELEMENTS (plain); i++)
    {
      TgDesign *design = tg_design_new (plain[i]);

      g_free (design->id);
      g_free (design->name);
      design->id = g_strdup (tg_part_kind_to_word (plain[i]));
      design->name = g_strdup (design->id);
      tg_setup_add_design (setup, design);
      tg_setup_add_set (setup, design, 0);
    }
  return setup;
}

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *path = NULL;
  g_autoptr (GError) error = NULL;

  fixture->folder = page_folder_new ();
  path = g_build_filename (fixture->folder, "job.tenthgram", NULL);
  fixture->session = tg_session_create (new_setup (), path, &error);
  g_assert_no_error (error);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  if (fixture->window)
    gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static void
show (Fixture *fixture, GtkWidget *page, int width)
{
  fixture->window = page_show (page, width, 700);
}

static const TgReview *
review_of (Fixture *fixture)
{
  return tg_session_review (fixture->session);
}

static guint
index_of (Fixture *fixture, const char *id)
{
  guint index;

  g_assert_nonnull (tg_setup_find_part (review_of (fixture)->setup, id, &index));
  return index;
}

static void
weigh_whole (Fixture *fixture, const char *id, double grams)
{
  page_weigh (fixture->session, id, TG_FIGURE_WHOLE, TG_WAY_ANY, grams);
}

static void
weigh_all (Fixture *fixture)
{
  static const double small[] = { 171.6, 172.0 }, big[] = { 412.1, 412.4 };

  for (guint i = 0; i < 2; i++)
    for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
      {
        const char *rod = i == 0 ? "rod-1" : "rod-2";

        page_weigh (fixture->session, rod, TG_FIGURE_SMALL_END, way, small[i]);
        page_weigh (fixture->session, rod, TG_FIGURE_BIG_END, way, big[i]);
      }
  weigh_whole (fixture, "piston-1", 318.4);
  weigh_whole (fixture, "piston-2", 319.0);
  weigh_whole (fixture, "piston-3", 318.6);
  weigh_whole (fixture, "pin-1", 90.2);
  weigh_whole (fixture, "pin-2", 90.5);
  weigh_whole (fixture, "clips-1", 1.3);
  weigh_whole (fixture, "clips-2", 1.4);
  weigh_whole (fixture, "bearings-1", 40.1);
  weigh_whole (fixture, "bearings-2", 40.6);
}

static void
set_value (Fixture *fixture, const char *path, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = path;
  event.value = value;
  page_append (fixture->session, event);
}

/* The spare comes in at bore 1, the piston from there goes to bore 2. */
static void
pair (Fixture *fixture)
{
  TgEvent event = tg_event_blank (TG_EVENT_PAIR);

  event.places = "piston-1:2 piston-2:0 piston-3:1";
  page_append (fixture->session, event);
}

static void
strike_last (Fixture *fixture)
{
  TgEvent event = tg_event_blank (TG_EVENT_STRIKE);

  event.refers = page_last (fixture->session)->id;
  page_append (fixture->session, event);
}

/* How many labels that can be seen have exactly this text. */
static guint
count_labels (GtkWidget *root, const char *text)
{
  g_autofree char *kept = tg_words_keep_units (text);
  guint n = GTK_IS_LABEL (root) && gtk_widget_get_visible (root) &&
            g_strcmp0 (gtk_label_get_text (GTK_LABEL (root)), kept) == 0;

  if (!gtk_widget_get_visible (root))
    return 0;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    n += count_labels (child, text);
  return n;
}

static guint
count_type (GtkWidget *root, GType type)
{
  guint n = G_TYPE_CHECK_INSTANCE_TYPE (root, type);

  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    n += count_type (child, type);
  return n;
}

static int
top_of (GtkWidget *root, const char *name)
{
  graphene_rect_t where;

  g_assert_true (
      gtk_widget_compute_bounds (page_find_named (root, GTK_TYPE_BUTTON, name), root, &where));
  return (int) where.origin.y;
}

static GtkWidget *
child (GtkWidget *page, const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (page, G_OBJECT_TYPE (page), name));
}

static const char *
text_of (GtkWidget *page, const char *name)
{
  return gtk_label_get_text (GTK_LABEL (child (page, name)));
}

/* --- the table ------------------------------------------------------------------------------- */

static void
test_rows (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *table = tg_readings_table_new ();

  tg_readings_table_set_session (TG_READINGS_TABLE (table), fixture->session);
  show (fixture, table, 500);
  /* three of each rod, one of every other part */
  g_assert_cmpuint (count_type (table, GTK_TYPE_BUTTON), ==, 2 * 3 + 3 + 3 * 2);
  g_assert_cmpint (top_of (table, "Piston 2, weight: not read, with Pin 2, Clips 2"), <,
                   top_of (table, "Piston 3, spare, weight: not read"));
  g_assert_cmpint (top_of (table, "Piston 3, spare, weight: not read"), <,
                   top_of (table, "Pin 1, weight: not read"));
  g_assert_cmpint (top_of (table, "Clips 2, weight: not read"), <,
                   top_of (table, "Bearings 1, weight: not read"));
  g_assert_cmpuint (count_labels (table, "spare"), ==, 1);
  g_assert_cmpuint (count_labels (table, "Bearing pair"), ==, 1);
  /* one band is the part's own, two are sums */
  g_assert_cmpuint (count_labels (table, "target"), ==, 1);
  g_assert_cmpuint (count_labels (table, "piston sets"), ==, 1);
  g_assert_cmpuint (count_labels (table, "big ends with bearings"), ==, 1);
}

/* A part's own target is the set's less what is carried with it. */
static void
test_own_targets (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *table = tg_readings_table_new ();
  const TgReview *review;
  const TgBandReview *band;
  g_autofree char *low = NULL, *high = NULL, *own = NULL, *sum = NULL, *target = NULL;

  weigh_all (fixture);
  tg_readings_table_set_session (TG_READINGS_TABLE (table), fixture->session);
  show (fixture, table, 500);
  review = review_of (fixture);
  band = &review->bands[TG_BAND_PISTON];
  g_assert_true (band->known);
  low = tg_review_grams (review, band->target_g);
  high = tg_review_grams (review, band->target_g + band->tolerance_g);
  sum = g_strdup_printf ("%s to %s g together", low, high);
  own = tg_review_grams (review, band->target_g - 90.5 - 1.4);
  target = g_strconcat ("target\302\240", own, NULL);
  g_assert_cmpuint (count_labels (table, sum), ==, 1);
  g_assert_cmpuint (count_labels (table, target), ==, 1);
  g_assert_cmpuint (count_labels (table, "with Pin 2, Clips 2"), ==, 1);
  /* a spare has neither */
  g_assert_cmpuint (count_labels (table, "with Pin 3, Clips 3"), ==, 0);

  /* left out of the sum, pins are still weighed but count no more */
  set_value (fixture, "sum.pin", "no");
  g_assert_cmpuint (count_labels (table, "with Clips 2"), ==, 1);
  set_value (fixture, "sum.clips", "no");
  g_assert_cmpuint (count_labels (table, "piston sets"), ==, 0);
  g_assert_cmpuint (count_labels (table, "target"), ==, 2);
  g_assert_cmpuint (count_labels (table, "Pin"), ==, 1);
}

/* Rows stand in the order of the bores, as parts sit now. */
static void
test_pairing_moves_rows (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *table = tg_readings_table_new ();

  tg_readings_table_set_session (TG_READINGS_TABLE (table), fixture->session);
  show (fixture, table, 500);
  g_assert_cmpuint (count_labels (table, "bore 1"), ==, 0);
  pair (fixture);
  page_settle ();
  g_assert_cmpint (top_of (table, "Piston 3, bore 1, weight: not read, with Pin 1, Clips 1"), <,
                   top_of (table, "Piston 1, bore 2, weight: not read, with Pin 2, Clips 2"));
  g_assert_cmpint (top_of (table, "Piston 1, bore 2, weight: not read, with Pin 2, Clips 2"), <,
                   top_of (table, "Piston 2, spare, weight: not read"));
  /* a name that tells its bore is enough */
  g_assert_nonnull (page_find_named (table, GTK_TYPE_BUTTON, "Pin 1, weight: not read"));
  strike_last (fixture);
  page_settle ();
  g_assert_nonnull (page_find_named (table, GTK_TYPE_BUTTON, "Piston 3, spare, weight: not read"));
}

/* --- figures and history --------------------------------------------------------------------- */

static void
test_figures (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *row = tg_figures_row_new ();

  weigh_all (fixture);
  show (fixture, row, 500);
  tg_figures_row_show (TG_FIGURES_ROW (row), review_of (fixture), index_of (fixture, "pin-1"));
  g_assert_cmpuint (count_labels (row, "90.2 g"), ==, 1);
  g_assert_cmpuint (count_labels (row, "small end"), ==, 0);
  g_assert_cmpuint (count_labels (row, "no target yet"), ==, 0);
  g_assert_cmpuint (count_labels (row, "cross-check"), ==, 0);
  tg_figures_row_show (TG_FIGURES_ROW (row), review_of (fixture), index_of (fixture, "piston-3"));
  g_assert_cmpuint (count_labels (row, "318.6 g"), ==, 1);
  g_assert_cmpuint (count_labels (row, "spare"), ==, 1);
  tg_figures_row_show (TG_FIGURES_ROW (row), review_of (fixture), index_of (fixture, "piston-1"));
  g_assert_cmpuint (count_labels (row, "with Pin 1, Clips 1"), ==, 1);
  tg_figures_row_show (TG_FIGURES_ROW (row), review_of (fixture), index_of (fixture, "rod-2"));
  g_assert_cmpuint (count_labels (row, "with Bearings 2"), ==, 1);
  set_value (fixture, "sum.rod", "only");
  tg_figures_row_show (TG_FIGURES_ROW (row), review_of (fixture), index_of (fixture, "rod-2"));
  g_assert_cmpuint (count_labels (row, "counts with the piston"), ==, 1);
}

static void
test_history (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_autofree char *pin = NULL;
  g_autofree char *piston = NULL;
  g_autofree char *low = NULL;

  weigh_all (fixture);
  pin = tg_history_view_words (review_of (fixture), index_of (fixture, "pin-1"));
  g_assert_nonnull (strstr (pin, "Pin 1, weight: 1 group of readings, 90.2"));
  g_assert_null (strstr (pin, "target"));
  piston = tg_history_view_words (review_of (fixture), index_of (fixture, "piston-1"));
  low = tg_review_grams (review_of (fixture),
                         review_of (fixture)->bands[TG_BAND_PISTON].target_g - 90.2 - 1.3);
  g_assert_nonnull (strstr (piston, low));
}

/* --- weighing -------------------------------------------------------------------------------- */

/* Every kind of part can be laid on the scale, drawn and told apart. */
static void
test_weigh_page (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *page = tg_weigh_page_new ();
  static const struct
  {
    const char *id, *how;
  } cases[] = { { "pin-1", "Pin on the scale" },
                { "clips-1", "Both clips" },
                { "bearings-1", "Both shells" } };

  g_object_set (page, "session", fixture->session, NULL);
  show (fixture, page, 360);
  /* two rods four times, three pistons, two of each of the others */
  g_assert_cmpstr (text_of (page, "progress"), ==, "Reading 1 of 17");
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      tg_session_set_part (fixture->session, index_of (fixture, cases[i].id));
      page_settle ();
      g_assert_cmpstr (text_of (page, "figure"), ==, "weight");
      g_assert_nonnull (strstr (text_of (page, "how"), cases[i].how));
    }
  tg_session_set_part (fixture->session, index_of (fixture, "piston-3"));
  g_assert_cmpstr (text_of (page, "figure"), ==, "weight, spare");
  /* what is in no sum need not be weighed */
  set_value (fixture, "sum.pin", "no");
  g_assert_cmpstr (text_of (page, "progress"), ==, "Reading 1 of 15");
  weigh_all (fixture);
  g_assert_cmpstr (text_of (page, "progress"), ==, "All 15 readings are in");
  /* nor a spare that did not come in */
  pair (fixture);
  g_assert_cmpstr (text_of (page, "progress"), ==, "All 14 readings are in");
}

/* --- grinding -------------------------------------------------------------------------------- */

static void
test_set_list (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *list = tg_set_list_new ();

  g_object_set (list, "session", fixture->session, NULL);
  show (fixture, list, 360);
  g_assert_cmpuint (count_type (list, TG_TYPE_PART_VIEW), ==, 4);
  page_find_named (list, GTK_TYPE_TOGGLE_BUTTON, "Piston 2, not weighed");
  pair (fixture);
  page_settle ();
  g_assert_cmpuint (count_type (list, TG_TYPE_PART_VIEW), ==, 4);
  page_find_named (list, GTK_TYPE_TOGGLE_BUTTON, "Piston 3, not weighed");
  /* choosing one chooses that part, whatever its place in the list */
  gtk_toggle_button_set_active (
      GTK_TOGGLE_BUTTON (page_find_named (list, GTK_TYPE_TOGGLE_BUTTON, "Piston 3, not weighed")),
      TRUE);
  g_assert_cmpuint (tg_session_part (fixture->session), ==, index_of (fixture, "piston-3"));
}

/* What is only weighed is not in work: the page goes on with what is. */
static void
test_grind_page (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *page = tg_grind_page_new ();

  weigh_all (fixture);
  tg_session_set_part (fixture->session, index_of (fixture, "pin-1"));
  g_object_set (page, "session", fixture->session, NULL);
  show (fixture, page, 1000);
  g_assert_true (tg_review_part (review_of (fixture), tg_session_part (fixture->session))->in_work);
  tg_session_set_part (fixture->session, index_of (fixture, "bearings-2"));
  g_assert_true (tg_review_part (review_of (fixture), tg_session_part (fixture->session))->in_work);
  tg_session_set_part (fixture->session, index_of (fixture, "piston-1"));
  g_assert_cmpstr (text_of (page, "title"), ==, "Piston 1");
  pair (fixture);
  g_assert_nonnull (strstr (text_of (page, "state"), "bore 2"));
  tg_session_set_part (fixture->session, index_of (fixture, "piston-3"));
  g_assert_nonnull (strstr (text_of (page, "state"), "bore 1"));
  /* back among the spares it is not in work */
  strike_last (fixture);
  g_assert_cmpuint (tg_session_part (fixture->session), !=, index_of (fixture, "piston-3"));
}

/* "Another part" is one to grind, also while pins are still to be weighed. */
static void
test_another_part (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  GtkWidget *page = tg_grind_page_new ();
  GtkWidget *next, *another;

  g_object_set (page, "session", fixture->session, NULL);
  show (fixture, page, 1000);
  next = child (page, "next");
  another = child (next, "another");
  for (guint i = 0; i < 6; i++)
    {
      g_signal_emit_by_name (another, "clicked");
      g_assert_true (
          tg_review_part (review_of (fixture), tg_session_part (fixture->session))->in_work);
    }
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/families/rows", test_rows);
  ADD ("/families/own-targets", test_own_targets);
  ADD ("/families/pairing-moves-rows", test_pairing_moves_rows);
  ADD ("/families/figures", test_figures);
  ADD ("/families/history", test_history);
  ADD ("/families/weigh-page", test_weigh_page);
  ADD ("/families/set-list", test_set_list);
  ADD ("/families/grind-page", test_grind_page);
  ADD ("/families/another-part", test_another_part);
  return g_test_run ();
}
