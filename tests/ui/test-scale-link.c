/* test-scale-link.c: a scale on a pseudo-terminal, and its readings in the window
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines and readings are invented.
 */
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "bench.h"
#include "error.h"
#include "fixture.h"
#include "grind-page.h"
#include "job-xml.h"
#include "pty-scale.h"
#include "reading-entry.h"
#include "scale-words.h"

#define QUIET_US 120000 /* more than the port needs to know that no line is under way */

/* A link of its own, and what it handed on. */
typedef struct
{
  PtyScale *scale;
  char *file;
  TgScaleLink *link;
  guint n; /* readings */
  TgMass last;
  gboolean take; /* somebody wants them */
} Rig;

static gboolean
on_reading (Rig *rig, gint64 mass)
{
  rig->n++;
  rig->last = mass;
  return rig->take;
}

static void
rig_start (Rig *rig)
{
  rig->link = tg_scale_link_new (rig->file, rig->scale->folder, rig->scale->folder);
  g_signal_connect_swapped (rig->link, "reading", G_CALLBACK (on_reading), rig);
}

static Rig *
rig_new (void)
{
  Rig *rig = g_new0 (Rig, 1);

  rig->scale = pty_scale_new ();
  rig->file = g_build_filename (rig->scale->folder, "scale.ini", NULL);
  rig->take = TRUE;
  rig_start (rig);
  return rig;
}

static void
rig_free (Rig *rig)
{
  g_object_unref (rig->link);
  g_unlink (rig->file);
  pty_scale_free (rig->scale);
  g_free (rig->file);
  g_free (rig);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rig, rig_free)

static TgScaleLinkSetup
setup_of (const PtyScale *scale)
{
  return (TgScaleLinkSetup){ scale->link, tg_scale_settings_default (), "" };
}

static void
learn (TgScaleLink *link)
{
  g_autofree char *text = pty_scale_pattern ();
  TgScalePattern pattern;

  g_assert_true (tg_scale_pattern_from_text (text, &pattern));
  tg_scale_link_set_pattern (link, &pattern);
}

static void
connect_to (TgScaleLink *link, const PtyScale *scale)
{
  TgScaleLinkSetup setup = setup_of (scale);
  g_autoptr (GError) error = NULL;

  tg_scale_link_connect (link, &setup, &error);
  g_assert_no_error (error);
  g_usleep (QUIET_US);
}

#define wait_for(condition)                                                                        \
  G_STMT_START                                                                                     \
  {                                                                                                \
    gint64 end = g_get_monotonic_time () + 10 * G_USEC_PER_SEC;                                    \
    while (!(condition) && g_get_monotonic_time () < end)                                          \
      if (!g_main_context_iteration (NULL, FALSE))                                                 \
        g_usleep (1000);                                                                           \
    g_assert_true (condition);                                                                     \
  }                                                                                                \
  G_STMT_END

/* The last line; an empty one before the first. */
static const TgScaleLinkLine *
newest (TgScaleLink *link)
{
  static const TgScaleLinkLine none;

  return tg_scale_link_n_lines (link) > 0 ? tg_scale_link_line (link, 0) : &none;
}

/* Shows @grams once and waits until the line is there. */
static void
show (TgScaleLink *link, PtyScale *scale, double grams, gboolean moving)
{
  TgMass mass = tg_mass_from_g (ABS (grams)) * (grams < 0 ? -1 : 1);
  TgScaleRest rest = moving ? TG_SCALE_REST_MOVING : TG_SCALE_REST_STANDING;
  const TgScaleLinkLine *before = newest (link);
  guint count = before->count;

  pty_scale_show (scale, grams, moving);
  wait_for (newest (link)->length > 0 && newest (link)->reading.mass == mass &&
            newest (link)->reading.rest == rest &&
            (newest (link) != before || before->count > count));
}

static TgScaleLoad
load_of (TgScaleLink *link)
{
  TgMass mass;

  return tg_scale_link_load (link, &mass);
}

/* --- the link alone -------------------------------------------------------------------------- */

static void
test_at_rest_only (void)
{
  g_autoptr (Rig) rig = rig_new ();

  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_OFF);
  learn (rig->link);
  connect_to (rig->link, rig->scale);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_LISTENING);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_UNKNOWN);
  show (rig->link, rig->scale, 0, FALSE);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_EMPTY);
  show (rig->link, rig->scale, 82, TRUE);
  show (rig->link, rig->scale, 170.9, TRUE);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_MOVING);
  g_assert_cmpuint (rig->n, ==, 0);
  for (guint i = 0; i < 10; i++)
    show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 1);
  g_assert_cmpint (rig->last, ==, 171600);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_READ);
  show (rig->link, rig->scale, -0.1, FALSE);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 2);
}

/* What the scale says of itself, what was cut and what is no text is never a reading. */
static void
test_garbage (void)
{
  static const char junk[] = "S +  17\x00\xff\x80\n---------\r\n1.6 g\r\nS +  171.6 gS +  171.6 g\n"
                             "S +  171,6 g\nS +  171.6 kg\nX +  171.6 g\nREADY\n";
  g_autoptr (Rig) rig = rig_new ();

  learn (rig->link);
  connect_to (rig->link, rig->scale);
  show (rig->link, rig->scale, 0, FALSE);
  for (guint i = 0; i < 20; i++)
    pty_scale_send (rig->scale, junk, sizeof junk - 1);
  wait_for (newest (rig->link)->length == 5);
  show (rig->link, rig->scale, 0, FALSE);
  g_assert_cmpuint (rig->n, ==, 0);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 1);
}

/* The reading of a load is for who wants it at that moment. */
static void
test_nobody_took_it (void)
{
  g_autoptr (Rig) rig = rig_new ();

  rig->take = FALSE;
  learn (rig->link);
  connect_to (rig->link, rig->scale);
  show (rig->link, rig->scale, 0, FALSE);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_OLD);
  rig->take = TRUE;
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 1);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_OLD);
  show (rig->link, rig->scale, 0, FALSE);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 2);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_READ);
}

static void
test_unplug (void)
{
  g_autoptr (Rig) rig = rig_new ();
  g_autofree char *words = NULL;

  learn (rig->link);
  connect_to (rig->link, rig->scale);
  show (rig->link, rig->scale, 0, FALSE);
  show (rig->link, rig->scale, 171.6, FALSE);
  pty_scale_unplug (rig->scale);
  wait_for (tg_scale_link_state (rig->link) == TG_SCALE_LINK_GONE);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_UNKNOWN);
  words = tg_scale_words_standing (rig->link);
  g_assert_nonnull (strstr (words, "plug it in"));
  pty_scale_plug (rig->scale);
  wait_for (tg_scale_link_state (rig->link) == TG_SCALE_LINK_LISTENING);
  g_usleep (QUIET_US);
  /* the rod still lies there: it was read before */
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 1);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_OLD);
  show (rig->link, rig->scale, 0, FALSE);
  show (rig->link, rig->scale, 172.0, FALSE);
  g_assert_cmpuint (rig->n, ==, 2);
}

/* Everything is as it was at the next start; also if the scale is plugged in later. */
static void
test_restart (void)
{
  g_autoptr (Rig) rig = rig_new ();
  TgScaleLinkSetup setup = { rig->scale->link,
                             { 2400, 7, TG_SCALE_PARITY_EVEN, 2, TG_SCALE_HANDSHAKE_NONE },
                             "W\\r" };
  g_autoptr (GError) error = NULL;
  g_autofree char *before = NULL;
  g_autofree char *after = NULL;
  g_autofree char *words = NULL;

  learn (rig->link);
  tg_scale_link_set_in_a_row (rig->link, 6);
  tg_scale_link_connect (rig->link, &setup, &error);
  g_assert_no_error (error);
  before = tg_scale_pattern_to_text (tg_scale_link_pattern (rig->link));
  g_object_unref (rig->link);
  pty_scale_unplug (rig->scale);
  rig_start (rig);
  setup = tg_scale_link_setup (rig->link);
  g_assert_cmpstr (setup.port, ==, rig->scale->link);
  g_assert_cmpuint (setup.settings.speed, ==, 2400);
  g_assert_cmpuint (setup.settings.bits, ==, 7);
  g_assert_cmpint (setup.settings.parity, ==, TG_SCALE_PARITY_EVEN);
  g_assert_cmpuint (setup.settings.stop_bits, ==, 2);
  g_assert_cmpstr (setup.request, ==, "W\\r");
  g_assert_cmpuint (tg_scale_link_in_a_row (rig->link), ==, 6);
  after = tg_scale_pattern_to_text (tg_scale_link_pattern (rig->link));
  g_assert_cmpstr (after, ==, before);
  tg_scale_link_resume (rig->link);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_GONE);
  g_assert_nonnull (strstr (tg_scale_link_problem (rig->link), "plug the scale in"));
  words = tg_scale_words_standing (rig->link);
  g_assert_true (g_str_has_prefix (words, "No scale yet: "));
  pty_scale_plug (rig->scale);
  wait_for (tg_scale_link_state (rig->link) == TG_SCALE_LINK_LISTENING);
  g_assert_null (tg_scale_link_problem (rig->link));
  /* after a disconnect it stays away */
  tg_scale_link_disconnect (rig->link);
  g_object_unref (rig->link);
  rig_start (rig);
  tg_scale_link_resume (rig->link);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_OFF);
  g_assert_nonnull (tg_scale_link_pattern (rig->link));
}

static void
test_broken_settings (void)
{
  static const char *const texts[] = {
    "",
    "nonsense",
    "[scale]\nport=\nconnected=true\n",
    "[scale]\nport=/nowhere\nsettings=9601 8N1 none\npattern=1 2 3\nrequest=\\q\nin-a-row=-4\n",
    "[scale]\nin-a-row=999999999999\nconnected=maybe\n",
  };
  g_autoptr (Rig) rig = rig_new ();

  for (guint i = 0; i < G_N_ELEMENTS (texts); i++)
    {
      TgScaleLinkSetup setup;

      g_object_unref (rig->link);
      g_assert_true (g_file_set_contents (rig->file, texts[i], -1, NULL));
      rig_start (rig);
      tg_scale_link_resume (rig->link);
      setup = tg_scale_link_setup (rig->link);
      g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_OFF);
      g_assert_cmpuint (setup.settings.speed, ==, 9600);
      g_assert_cmpstr (setup.request, ==, "");
      g_assert_null (tg_scale_link_pattern (rig->link));
      g_assert_cmpuint (tg_scale_link_in_a_row (rig->link), ==, TG_SCALE_SETTLE_IN_A_ROW);
    }
}

/* Each failure says what to do, and nothing is connected then. */
static void
test_no_port (void)
{
  g_autoptr (Rig) rig = rig_new ();
  g_autoptr (Rig) other = rig_new ();
  struct
  {
    const char *port, *request, *says;
  } const cases[] = {
    { "/nowhere/at/all", "", "plug the scale in" },
    { rig->scale->folder, "", "" },
    { "/dev/null", "", "is not a serial port" },
    { other->scale->link, "", "in use by another program" },
    { rig->scale->link, "\\q", "behind" },
  };

  connect_to (other->link, other->scale);
  for (guint i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      TgScaleLinkSetup setup = { cases[i].port, tg_scale_settings_default (), cases[i].request };
      g_autoptr (GError) error = NULL;

      g_assert_false (tg_scale_link_connect (rig->link, &setup, &error));
      g_assert_nonnull (error);
      g_assert_nonnull (strstr (error->message, cases[i].says));
      g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_OFF);
    }
  connect_to (rig->link, rig->scale);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_LEARNING);
}

/* What cannot be kept for the next time works all the same, and it is said. */
static void
test_unsaved (void)
{
  g_autoptr (Rig) rig = rig_new ();

  g_free (rig->file);
  rig->file = g_strdup ("/dev/null/scale.ini");
  g_object_unref (rig->link);
  rig_start (rig);
  learn (rig->link);
  connect_to (rig->link, rig->scale);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_LISTENING);
  g_assert_nonnull (strstr (tg_scale_link_unsaved (rig->link), "/dev/null/scale.ini"));
  show (rig->link, rig->scale, 0, FALSE);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 1);
}

/* A scale that sends by its key: every line counts, but not what comes faster than a hand. */
static void
test_key (void)
{
  g_autoptr (Rig) rig = rig_new ();

  learn (rig->link);
  tg_scale_link_set_in_a_row (rig->link, 0);
  connect_to (rig->link, rig->scale);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 1);
  g_usleep (900000);
  show (rig->link, rig->scale, 171.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 2);
  for (guint i = 0; i < 20; i++)
    show (rig->link, rig->scale, 172.6, FALSE);
  g_assert_cmpuint (rig->n, ==, 2);
  g_assert_cmpint (load_of (rig->link), ==, TG_SCALE_LOAD_HASTY);
}

static void
test_request (void)
{
  g_autoptr (Rig) rig = rig_new ();
  TgScaleLinkSetup setup = { rig->scale->link, tg_scale_settings_default (), "give\\x21\\r" };
  g_autoptr (GError) error = NULL;
  g_autofree char *asked = NULL;

  tg_scale_link_connect (rig->link, &setup, &error);
  g_assert_no_error (error);
  asked = pty_scale_asked (rig->scale);
  g_assert_cmpstr (asked, ==, "give!\r");
}

/* A scale that was switched off behind its adapter: nobody knows what lies on it. */
static void
test_silence (void)
{
  g_autoptr (Rig) rig = rig_new ();

  learn (rig->link);
  connect_to (rig->link, rig->scale);
  show (rig->link, rig->scale, 0, FALSE);
  wait_for (load_of (rig->link) == TG_SCALE_LOAD_UNKNOWN);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_LISTENING);
}

static void
test_words (void)
{
  g_autofree char *line = tg_scale_words_line ("A \x02\xff~", 5);
  g_autofree char *tenth = tg_scale_words_figure (171000, 100);
  g_autofree char *finer = tg_scale_words_figure (171050, 100);
  g_autofree char *whole = tg_scale_words_figure (171000, 1000);

  g_assert_cmpstr (line, ==, "A \\x02\\xFF~");
  g_assert_cmpstr (tenth, ==, "171.0");
  g_assert_cmpstr (finer, ==, "171.05");
  g_assert_cmpstr (whole, ==, "171");
}

/* --- readings in the window ------------------------------------------------------------------ */

/* A window on four rods, connected. */
typedef struct
{
  PtyScale *scale;
  Bench *bench;
  TgScaleLink *link;
} Shop;

static Shop *
shop_new (void)
{
  Shop *shop = g_new0 (Shop, 1);

  shop->scale = pty_scale_new ();
  shop->bench = bench_new (tg_job_new (fixture_setup (4, TRUE, FALSE)));
  wait_for (tg_window_link (TG_WINDOW (shop->bench->window)) != NULL);
  shop->link = tg_window_link (TG_WINDOW (shop->bench->window));
  learn (shop->link);
  connect_to (shop->link, shop->scale);
  show (shop->link, shop->scale, 0, FALSE);
  return shop;
}

static void
shop_free (Shop *shop)
{
  tg_scale_link_disconnect (shop->link);
  bench_free (shop->bench);
  pty_scale_free (shop->scale);
  g_free (shop);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Shop, shop_free)

/* On the scale, moving first, then off again. */
static void
lay (Shop *shop, double grams)
{
  show (shop->link, shop->scale, grams - 3, TRUE);
  show (shop->link, shop->scale, grams, FALSE);
  show (shop->link, shop->scale, 0, FALSE);
}

static guint
n_events (Shop *shop)
{
  return tg_job_n_events (tg_session_job (bench_session (shop->bench)));
}

static const TgEvent *
last_event (Shop *shop)
{
  g_assert_cmpuint (n_events (shop), >, 0);
  return tg_job_event (tg_session_job (bench_session (shop->bench)), n_events (shop) - 1);
}

static GtkWidget *
entry_of (Shop *shop)
{
  return bench_find (shop->bench->window, TG_TYPE_READING_ENTRY);
}

static const char *
field_text (Shop *shop)
{
  return gtk_editable_get_text (GTK_EDITABLE (bench_child (entry_of (shop), "field")));
}

static void
go_to (Shop *shop, const char *page)
{
  gtk_widget_activate_action (shop->bench->window, "win.stage", "s", page);
  bench_spin (100);
}

static void
test_weigh (void)
{
  g_autoptr (Shop) shop = shop_new ();
  g_autoptr (TgJob) on_disk = NULL;
  g_autoptr (GError) error = NULL;

  g_assert_cmpstr (tg_window_page (TG_WINDOW (shop->bench->window)), ==, "weigh");
  lay (shop, 171.6);
  g_assert_cmpuint (n_events (shop), ==, 1);
  g_assert_true (last_event (shop)->sent);
  g_assert_cmpint (last_event (shop)->mass, ==, 171600);
  g_assert_cmpstr (field_text (shop), ==, "");
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (entry_of (shop), "taken"))), ==,
                   "✓ Rod 1, small end, mark up: 171.6\302\240g");
  /* one is typed between */
  bench_type (shop->bench, "171.8");
  g_assert_cmpuint (n_events (shop), ==, 2);
  g_assert_false (last_event (shop)->sent);
  g_assert_false (gtk_widget_get_visible (bench_child (entry_of (shop), "taken")));
  lay (shop, 171.2);
  g_assert_cmpuint (n_events (shop), ==, 3);
  g_assert_cmpstr (last_event (shop)->part, ==, "rod-2");
  g_assert_cmpint (last_event (shop)->way, ==, TG_WAY_MARK_UP);
  on_disk = tg_job_xml_load (shop->bench->path, &error);
  g_assert_no_error (error);
  g_assert_cmpuint (tg_job_n_events (on_disk), ==, 3);
  g_assert_true (tg_job_event (on_disk, 0)->sent);
  g_assert_false (tg_job_event (on_disk, 1)->sent);
  g_assert_true (tg_job_event (on_disk, 2)->sent);
}

/* The scale never answers a question: the person does, or the next load. */
static void
test_doubt (void)
{
  g_autoptr (Shop) shop = shop_new ();
  GtkWidget *message;

  lay (shop, 171.6);
  lay (shop, 171.8);
  lay (shop, 1714);
  message = bench_child (entry_of (shop), "message");
  g_assert_cmpuint (n_events (shop), ==, 2);
  g_assert_true (gtk_widget_get_visible (message));
  g_assert_cmpstr (field_text (shop), ==, "1714.0");
  lay (shop, 1714);
  g_assert_cmpuint (n_events (shop), ==, 2);
  g_assert_true (gtk_widget_get_visible (message));
  lay (shop, 171.4);
  g_assert_cmpuint (n_events (shop), ==, 3);
  g_assert_false (last_event (shop)->kept);
  g_assert_false (gtk_widget_get_visible (message));
  lay (shop, 1714);
  g_assert_cmpuint (n_events (shop), ==, 3);
  bench_type (shop->bench, "1714.0"); /* what stands there already: only Enter */
  g_assert_cmpuint (n_events (shop), ==, 4);
  g_assert_true (last_event (shop)->kept);
  g_assert_true (last_event (shop)->sent);
}

/* What the empty scale shows is there to be taken over; the check weight is laid on like a part. */
static void
test_checks (void)
{
  g_autoptr (Shop) shop = shop_new ();
  TgEvent set = tg_event_blank (TG_EVENT_SET);
  g_autoptr (GError) error = NULL;

  set.path = "check-weight";
  set.value = "200";
  g_assert_true (tg_session_append (bench_session (shop->bench), &set, 1, &error));
  show (shop->link, shop->scale, -0.2, FALSE);
  gtk_widget_activate_action (shop->bench->window, "win.check-zero", NULL);
  bench_spin (50);
  g_assert_cmpstr (field_text (shop), ==, "−0.2");
  bench_type (shop->bench, "−0.2"); /* only Enter */
  g_assert_cmpint (last_event (shop)->kind, ==, TG_EVENT_ZERO);
  g_assert_cmpint (last_event (shop)->mass, ==, -200);
  g_assert_true (last_event (shop)->sent);
  g_assert_true (last_event (shop)->set_back);
  gtk_widget_activate_action (shop->bench->window, "win.check-weight", NULL);
  bench_spin (50);
  g_assert_cmpstr (field_text (shop), ==, "");
  lay (shop, 200);
  g_assert_cmpint (last_event (shop)->kind, ==, TG_EVENT_CHECK_WEIGHT);
  g_assert_cmpint (last_event (shop)->mass, ==, 200000);
  g_assert_true (last_event (shop)->sent);
  g_assert_cmpstr (gtk_label_get_text (GTK_LABEL (bench_child (entry_of (shop), "taken"))), ==,
                   "✓ Check weight: 200.0\302\240g");
  /* then the part that was due */
  lay (shop, 171.6);
  g_assert_cmpint (last_event (shop)->kind, ==, TG_EVENT_WEIGHING);
  g_assert_cmpuint (n_events (shop), ==, 4);
}

/* What is being typed is not written over, and the load has to be lifted then. */
static void
test_typing (void)
{
  g_autoptr (Shop) shop = shop_new ();
  GtkWidget *field = bench_child (entry_of (shop), "field");

  gtk_editable_set_text (GTK_EDITABLE (field), "17");
  lay (shop, 171.6);
  g_assert_cmpuint (n_events (shop), ==, 0);
  g_assert_cmpstr (field_text (shop), ==, "17");
  gtk_editable_set_text (GTK_EDITABLE (field), "");
  lay (shop, 171.6);
  g_assert_cmpuint (n_events (shop), ==, 1);
}

static void
test_other_pages (void)
{
  static const char *const pages[] = { "setup", "scale", "journal" };
  g_autoptr (Shop) shop = shop_new ();

  for (guint i = 0; i < G_N_ELEMENTS (pages); i++)
    {
      go_to (shop, pages[i]);
      lay (shop, 171.6);
      g_assert_cmpuint (n_events (shop), ==, 0);
    }
  /* nor afterwards: what lies there when the page is opened may be anything */
  show (shop->link, shop->scale, 171.6, FALSE);
  go_to (shop, "weigh");
  show (shop->link, shop->scale, 171.6, FALSE);
  g_assert_cmpuint (n_events (shop), ==, 0);
  show (shop->link, shop->scale, 0, FALSE);
  lay (shop, 171.6);
  g_assert_cmpuint (n_events (shop), ==, 1);
}

static void
test_grind (void)
{
  g_autoptr (Shop) shop = shop_new ();

  for (guint i = 0; i < 8; i++)
    lay (shop, 171.6 + i / 2);
  for (guint i = 0; i < 8; i++)
    lay (shop, 412.6 + i / 2);
  g_assert_cmpuint (n_events (shop), ==, 16);
  go_to (shop, "grind");
  g_assert_nonnull (bench_find (shop->bench->window, TG_TYPE_GRIND_PAGE));
  tg_session_set_part (bench_session (shop->bench), 0);
  bench_spin (50);
  lay (shop, 171.6);
  g_assert_cmpuint (n_events (shop), ==, 17);
  g_assert_true (last_event (shop)->sent);
  g_assert_cmpstr (last_event (shop)->part, ==, "rod-1");
}

/* The line below the field tells where the scale is. */
static void
test_told (void)
{
  g_autoptr (Shop) shop = shop_new ();
  GtkLabel *told = GTK_LABEL (bench_child (entry_of (shop), "scale"));

  show (shop->link, shop->scale, 170.0, TRUE);
  wait_for (strcmp (gtk_label_get_text (told), "Scale: 170.0\302\240g, moving") == 0);
  pty_scale_unplug (shop->scale);
  wait_for (strstr (gtk_label_get_text (told), "has gone"));
  bench_type (shop->bench, "171.6");
  g_assert_cmpuint (n_events (shop), ==, 1);
  tg_scale_link_disconnect (shop->link);
  g_assert_false (gtk_widget_get_visible (GTK_WIDGET (told)));
}

static guint
n_events_in (GtkWidget *window)
{
  return tg_job_n_events (tg_session_job (tg_window_session (TG_WINDOW (window))));
}

/* Two windows of one program have one scale; it reads for the one in front. */
static void
test_two_windows (void)
{
  g_autoptr (GtkApplication) application = gtk_application_new (NULL, G_APPLICATION_NON_UNIQUE);
  g_autoptr (PtyScale) scale = pty_scale_new ();
  GtkWidget *windows[2];
  char *paths[2];
  TgScaleLink *link;

  g_assert_true (g_application_register (G_APPLICATION (application), NULL, NULL));
  for (guint i = 0; i < 2; i++)
    {
      g_autoptr (TgJob) job = tg_job_new (fixture_setup (4, TRUE, FALSE));

      paths[i] = g_strdup_printf ("%s/job-%u.tenthgram", scale->folder, i);
      g_assert_true (tg_job_xml_save (job, paths[i], NULL));
      windows[i] = tg_window_new (application);
      g_assert_true (tg_window_open (TG_WINDOW (windows[i]), paths[i]));
      gtk_window_present (GTK_WINDOW (windows[i]));
      wait_for (gtk_window_is_active (GTK_WINDOW (windows[i])));
      wait_for (tg_window_link (TG_WINDOW (windows[i])) != NULL);
    }
  link = tg_window_link (TG_WINDOW (windows[0]));
  g_assert_true (link == tg_window_link (TG_WINDOW (windows[1])));
  learn (link);
  connect_to (link, scale);
  show (link, scale, 0, FALSE);
  show (link, scale, 171.6, FALSE);
  g_assert_cmpuint (n_events_in (windows[0]), ==, 0);
  g_assert_cmpuint (n_events_in (windows[1]), ==, 1);
  gtk_window_present (GTK_WINDOW (windows[0]));
  wait_for (gtk_window_is_active (GTK_WINDOW (windows[0])));
  show (link, scale, 0, FALSE);
  show (link, scale, 172.6, FALSE);
  g_assert_cmpuint (n_events_in (windows[0]), ==, 1);
  g_assert_cmpuint (n_events_in (windows[1]), ==, 1);
  tg_scale_link_disconnect (link);
  for (guint i = 0; i < 2; i++)
    {
      gtk_window_destroy (GTK_WINDOW (windows[i]));
      bench_spin (0);
      g_unlink (paths[i]);
      g_free (paths[i]);
    }
}

int
main (int argc, char **argv)
{
  bench_init (&argc, &argv);
  g_test_add_func ("/scale-link/at-rest-only", test_at_rest_only);
  g_test_add_func ("/scale-link/garbage", test_garbage);
  g_test_add_func ("/scale-link/nobody-took-it", test_nobody_took_it);
  g_test_add_func ("/scale-link/unplug", test_unplug);
  g_test_add_func ("/scale-link/restart", test_restart);
  g_test_add_func ("/scale-link/broken-settings", test_broken_settings);
  g_test_add_func ("/scale-link/no-port", test_no_port);
  g_test_add_func ("/scale-link/unsaved", test_unsaved);
  g_test_add_func ("/scale-link/key", test_key);
  g_test_add_func ("/scale-link/request", test_request);
  g_test_add_func ("/scale-link/silence", test_silence);
  g_test_add_func ("/scale-link/words", test_words);
  g_test_add_func ("/scale-link/weigh", test_weigh);
  g_test_add_func ("/scale-link/doubt", test_doubt);
  g_test_add_func ("/scale-link/checks", test_checks);
  g_test_add_func ("/scale-link/typing", test_typing);
  g_test_add_func ("/scale-link/other-pages", test_other_pages);
  g_test_add_func ("/scale-link/grind", test_grind);
  g_test_add_func ("/scale-link/told", test_told);
  g_test_add_func ("/scale-link/two-windows", test_two_windows);
  return g_test_run ();
}
