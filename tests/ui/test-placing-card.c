/* test-placing-card.c: what a shelf offers and how crankpins of two rods are loaded, beside the pairing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * All figures are invented.
 */
#include <string.h>

#include "fixture.h"
#include "page-fixture.h"
#include "pairing-job.h"
#include "placing-card.h"
#include "why-button.h"

#define NARROW 328 /* what a card has of a window 360 wide */

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *card;
  GtkWindow *window;
} Rig;

static void
show_again (Rig *rig)
{
  tg_placing_card_show (TG_PLACING_CARD (rig->card), rig->session);
}

/* Takes @job. */
static Rig *
rig_new (TgJob *job)
{
  Rig *rig = g_new0 (Rig, 1);
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);

  rig->folder = page_folder_new ();
  rig->session = pairing_session_new (rig->folder, job);
  rig->card = g_object_new (TG_TYPE_PLACING_CARD, NULL);
  gtk_box_append (GTK_BOX (box), rig->card);
  rig->window = page_show (box, NARROW, 700);
  g_signal_connect_swapped (rig->session, "changed", G_CALLBACK (show_again), rig);
  show_again (rig);
  page_settle ();
  return rig;
}

static void
rig_free (Rig *rig)
{
  g_signal_handlers_disconnect_by_data (rig->session, rig);
  gtk_window_destroy (rig->window);
  g_object_unref (rig->session);
  page_folder_free (rig->folder);
  g_free (rig);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rig, rig_free)

static GtkWidget *
part (Rig *rig, const char *name)
{
  return GTK_WIDGET (gtk_widget_get_template_child (rig->card, TG_TYPE_PLACING_CARD, name));
}

/* The only choice in that box, with its reason beside it, or NULL. */
static GtkWidget *
choice (Rig *rig, const char *box)
{
  GtkWidget *overlay = gtk_widget_get_first_child (part (rig, box));
  GtkWidget *reason = overlay ? gtk_widget_get_last_child (overlay) : NULL;

  g_assert_true (!overlay || !gtk_widget_get_next_sibling (overlay));
  g_assert_true (!overlay || (TG_IS_WHY_BUTTON (reason) && gtk_widget_get_visible (reason)));
  return overlay ? gtk_overlay_get_child (GTK_OVERLAY (overlay)) : NULL;
}

static void
press (Rig *rig, const char *box)
{
  GtkWidget *button = choice (rig, box);

  g_assert_true (gtk_widget_get_mapped (button) && gtk_widget_is_sensitive (button));
  g_signal_emit_by_name (button, "clicked");
  page_settle ();
}

/* (transfer full): the texts in sight below @root, one per line, figures and units with plain blanks */
static char *
texts (GtkWidget *root)
{
  GString *all = g_string_new (NULL);

  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      g_autofree char *inside = texts (child);

      if (!gtk_widget_get_mapped (child))
        continue;
      if (GTK_IS_LABEL (child))
        g_string_append_printf (all, "%s\n", gtk_label_get_text (GTK_LABEL (child)));
      g_string_append (all, inside);
    }
  g_string_replace (all, "\302\240", " ", 0);
  return g_string_free (all, FALSE);
}

static gboolean
says (Rig *rig, const char *box, const char *text)
{
  g_autofree char *all = texts (part (rig, box));

  return strstr (all, text) != NULL;
}

/* Whole words, over lines if need be, each in the width there is. */
static void
check_readable (Rig *rig, GtkWidget *root)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      if (GTK_IS_LABEL (child) && gtk_widget_get_mapped (child))
        {
          PangoLayout *layout = gtk_label_get_layout (GTK_LABEL (child));
          int width;

          pango_layout_get_pixel_size (layout, &width, NULL);
          g_assert_false (pango_layout_is_ellipsized (layout));
          g_assert_cmpint (width, >, 0);
          g_assert_cmpint (width, <=, gtk_widget_get_width (child));
        }
      check_readable (rig, child);
    }
}

static void
check_card (Rig *rig)
{
  int least;

  gtk_widget_measure (rig->card, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, NARROW);
  g_assert_cmpuint (page_check_names (rig->card), >, 0);
  check_readable (rig, rig->card);
}

/* --- the shelf ------------------------------------------------------------------------------- */

static guint
n_at_bores (Rig *rig, TgPartKind kind)
{
  const TgReview *review = tg_session_review (rig->session);
  guint n = 0;

  for (guint i = 0; i < review->parts->len; i++)
    n += tg_review_part (review, i)->design->kind == kind &&
         tg_review_part (review, i)->part->bore > 0;
  return n;
}

/* (transfer full): which parts sit where */
static char *
places (Rig *rig)
{
  return tg_setup_places (tg_session_review (rig->session)->setup, G_MAXUINT);
}

/* More pins than a pairing tries: the best are offered, taken by a press, and offered again when that is
 * undone. */
static void
test_shelf (void)
{
  g_autoptr (Rig) rig = rig_new (pairing_job (4, 60));
  g_autofree char *before = places (rig);
  g_autofree char *taken = NULL;
  g_autofree char *after = NULL;

  g_assert_true (gtk_widget_get_mapped (rig->card));
  g_assert_true (says (rig, "shelf", "From the shelf\nTake Pin "));
  g_assert_false (gtk_widget_get_visible (part (rig, "pins")));
  check_card (rig);
  press (rig, "shelf_choices");
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_PAIR), ==, 1);
  g_assert_cmpint (page_last (rig->session)->kind, ==, TG_EVENT_PAIR);
  g_assert_cmpuint (n_at_bores (rig, TG_PART_PIN), ==, 4);
  taken = places (rig);
  g_assert_cmpstr (taken, !=, before);
  g_assert_null (choice (rig, "shelf_choices"));
  g_assert_false (gtk_widget_get_visible (rig->card));

  g_assert_true (tg_session_undo (rig->session, NULL));
  page_settle ();
  after = places (rig);
  g_assert_cmpstr (after, ==, before);
  g_assert_true (says (rig, "shelf", "Take Pin "));
  press (rig, "shelf_choices");
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_PAIR), ==, 2);
}

/* --- crankpins ------------------------------------------------------------------------------- */

/* Rods of a vee engine, two on each pin, as heavy at the big end as @big_g says. */
static TgJob *
rods_job (guint cylinders, TgSharing sharing, const double *big_g)
{
  TgSetup *setup = fixture_setup (cylinders, TRUE, FALSE);
  TgJob *job;

  setup->layout = TG_LAYOUT_VEE;
  setup->sharing = sharing;
  job = tg_job_new (setup);
  for (guint i = 1; i <= cylinders && big_g; i++)
    fixture_weigh_rod (job, i, 171.6, big_g[i - 1]);
  return job;
}

/* Nothing comes off, since all are within 0.5 g.  Pins 1 + 2 and 3 + 4: 1168.0 and 1167.2 g; a heavy and
 * a light rod on each weigh the same. */
static void
test_crankpins (void)
{
  static const double big_g[] = { 412.4, 412.4, 412.0, 412.0 };
  g_autoptr (Rig) rig = rig_new (rods_job (4, TG_SHARING_NEIGHBOURS, big_g));

  g_assert_false (gtk_widget_get_visible (part (rig, "shelf")));
  g_assert_true (says (rig, "pins", "Crankpins with two rods\n"));
  g_assert_true (says (rig, "pins", "ground as planned, they differ by 0.8 g.\n"));
  g_assert_true (says (rig, "pins", "Bores 1 and 2: 1168.0 g\nBores 3 and 4: 1167.2 g\n"));
  g_assert_true (says (rig, "pins", "Move 2 sets: crankpins differ by 0.0 g instead of 0.8 g"));
  check_card (rig);
  press (rig, "pins_choices");
  g_assert_cmpuint (page_count (rig->session, TG_EVENT_PAIR), ==, 1);
  g_assert_true (says (rig, "pins", "differ by 0.0 g. Moving whole sets would not make them more"));
  g_assert_true (says (rig, "pins", "Bores 1 and 2: 1167.6 g\nBores 3 and 4: 1167.6 g\n"));
  g_assert_null (choice (rig, "pins_choices"));
  g_assert_true (tg_session_undo (rig->session, NULL));
  page_settle ();
  g_assert_true (says (rig, "pins", "Move 2 sets"));
}

/* Which bores load a pin follows from what is set of the engine. */
static void
test_sharing (void)
{
  static const double big_g[] = { 412.4, 412.4, 412.0, 412.0 };
  g_autoptr (Rig) rig = rig_new (rods_job (4, TG_SHARING_BANKS, big_g));
  TgEvent set = tg_event_blank (TG_EVENT_SET);

  g_assert_true (says (rig, "pins", "Bores 1 and 3: 1167.6 g\nBores 2 and 4: 1167.6 g\n"));
  set.path = "crankpins";
  set.value = "own";
  page_append (rig->session, set);
  g_assert_false (gtk_widget_get_visible (rig->card));
  set.value = "neighbours";
  page_append (rig->session, set);
  page_settle ();
  g_assert_true (says (rig, "pins", "Bores 1 and 2: 1168.0 g\nBores 3 and 4: 1167.2 g\n"));
}

/* There is nothing for one pin to differ from. */
static void
test_one_pin (void)
{
  static const double big_g[] = { 412.4, 412.0 };
  g_autoptr (Rig) rig = rig_new (rods_job (2, TG_SHARING_BANKS, big_g));

  g_assert_true (says (rig, "pins",
                       "With all that sits on it, ground as planned.\n"
                       "Bores 1 and 2: 1167.6 g\n"));
  g_assert_false (says (rig, "pins", "differ"));
  g_assert_null (choice (rig, "pins_choices"));
}

/* --- nothing to say -------------------------------------------------------------------------- */

static void
test_nothing (void)
{
  static const double big_g[] = { 412.4, 412.4, 412.0, 412.0 };
  g_autoptr (Rig) no_shelf = rig_new (pairing_job (4, 2));
  g_autoptr (Rig) own = rig_new (rods_job (4, TG_SHARING_OWN, big_g));
  g_autoptr (Rig) unweighed = rig_new (rods_job (4, TG_SHARING_BANKS, NULL));

  g_assert_false (gtk_widget_get_visible (no_shelf->card));
  g_assert_false (gtk_widget_get_visible (own->card));
  g_assert_false (gtk_widget_get_visible (unweighed->card));
  for (guint i = 1; i <= 4; i++)
    {
      g_autofree char *rod = g_strdup_printf ("rod-%u", i);

      page_weigh (unweighed->session, rod, TG_FIGURE_SMALL_END, TG_WAY_MARK_UP, 171.6);
      g_assert_false (gtk_widget_get_visible (unweighed->card));
      page_weigh (unweighed->session, rod, TG_FIGURE_BIG_END, TG_WAY_MARK_UP, big_g[i - 1]);
    }
  g_assert_true (gtk_widget_get_visible (unweighed->card));
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/placing-card/shelf", test_shelf);
  g_test_add_func ("/placing-card/crankpins", test_crankpins);
  g_test_add_func ("/placing-card/sharing", test_sharing);
  g_test_add_func ("/placing-card/one-pin", test_one_pin);
  g_test_add_func ("/placing-card/nothing", test_nothing);
  return g_test_run ();
}
