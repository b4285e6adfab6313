/* test-cable-panel.c: a scale on a cable is connected, learned and watched
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines and readings are invented.
 */
#include <glib/gstdio.h>
#include <string.h>
#include <unistd.h>

#include "cable-panel.h"
#include "page-fixture.h"
#include "pty-scale.h"

#define QUIET_US 120000 /* more than the port needs to know that no line is under way */

typedef struct
{
  PtyScale *scale;
  char *file, *dev;
  TgScaleLink *link;
  GtkWidget *panel;
  GtkWindow *window;
} Rig;

/* The ports of this machine are those in the scale's own folder "dev". */
static Rig *
rig_new (int width)
{
  Rig *rig = g_new0 (Rig, 1);

  rig->scale = pty_scale_new ();
  rig->file = g_build_filename (rig->scale->folder, "scale.ini", NULL);
  rig->dev = g_build_filename (rig->scale->folder, "dev", NULL);
  g_assert_cmpint (g_mkdir (rig->dev, 0700), ==, 0);
  rig->link = tg_scale_link_new (rig->file, rig->dev, rig->dev);
  rig->panel = tg_cable_panel_new ();
  tg_cable_panel_set_link (TG_CABLE_PANEL (rig->panel), rig->link);
  rig->window = page_show (rig->panel, width, 700);
  return rig;
}

static void
rig_free (Rig *rig)
{
  g_autofree char *port = g_build_filename (rig->dev, "ttyUSB0", NULL);

  gtk_window_destroy (rig->window);
  tg_scale_link_disconnect (rig->link);
  g_object_unref (rig->link);
  g_unlink (port);
  g_rmdir (rig->dev);
  g_unlink (rig->file);
  pty_scale_free (rig->scale);
  g_free (rig->file);
  g_free (rig->dev);
  g_free (rig);
}

G_DEFINE_AUTOPTR_CLEANUP_FUNC (Rig, rig_free)

/* An adapter appears among the ports. */
static char *
plug_in (Rig *rig)
{
  char *port = g_build_filename (rig->dev, "ttyUSB0", NULL);

  g_assert_cmpint (symlink (rig->scale->link, port), ==, 0);
  return port;
}

static GtkWidget *
button (Rig *rig, const char *text)
{
  g_autoptr (GQueue) todo = g_queue_new ();
  GtkWidget *widget;

  g_queue_push_tail (todo, rig->panel);
  while ((widget = g_queue_pop_head (todo)))
    {
      const char *label = GTK_IS_BUTTON (widget) ? gtk_button_get_label (GTK_BUTTON (widget))
                                                 : NULL;

      if (label && strcmp (label, text) == 0)
        return widget;
      for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
           child = gtk_widget_get_next_sibling (child))
        g_queue_push_tail (todo, child);
    }
  g_error ("no button “%s”", text);
}

static void
press (Rig *rig, const char *text)
{
  GtkWidget *widget = button (rig, text);

  g_assert_true (gtk_widget_get_mapped (widget));
  g_assert_true (gtk_widget_is_sensitive (widget));
  g_signal_emit_by_name (widget, "clicked");
}

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

static void
connect_to (Rig *rig, const char *path)
{
  GtkWidget *entry = page_find_named (rig->panel, GTK_TYPE_ENTRY, "Path of the port");

  g_assert_true (gtk_widget_get_mapped (entry));
  gtk_editable_set_text (GTK_EDITABLE (entry), path);
  g_signal_emit_by_name (entry, "activate");
}

/* Sends a line and waits until it stands in the list. */
static void
show (Rig *rig, double grams, gboolean moving)
{
  guint before = tg_scale_link_n_lines (rig->link) > 0 ? tg_scale_link_line (rig->link, 0)->count
                                                       : 0;
  g_autofree char *was = tg_scale_link_n_lines (rig->link) > 0
                             ? g_strndup (tg_scale_link_line (rig->link, 0)->text,
                                          tg_scale_link_line (rig->link, 0)->length)
                             : g_strdup ("");

  pty_scale_show (rig->scale, grams, moving);
  page_wait_for (tg_scale_link_n_lines (rig->link) > 0 &&
                 (tg_scale_link_line (rig->link, 0)->count > before ||
                  strncmp (tg_scale_link_line (rig->link, 0)->text, was, strlen (was)) != 0));
  page_settle ();
}

static void
type_shown (Rig *rig, const char *field, const char *text)
{
  gtk_editable_set_text (GTK_EDITABLE (page_find_named (rig->panel, GTK_TYPE_ENTRY, field)), text);
}

static void
test_learn (void)
{
  g_autoptr (Rig) rig = rig_new (700);

  g_assert_nonnull (text_with (rig->panel, "No scale is connected."));
  connect_to (rig, rig->scale->link);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_LEARNING);
  g_usleep (QUIET_US);
  page_settle ();
  g_assert_false (gtk_widget_is_sensitive (button (rig, "Line at _rest"))); /* nothing came yet */
  show (rig, 171.6, FALSE);
  g_assert_nonnull (text_with (rig->panel, "not learned yet"));
  press (rig, "Line at _rest");
  /* nothing typed: it says what to do */
  press (rig, "_Learn from the samples");
  page_settle ();
  g_assert_nonnull (text_with (rig->panel, "type what the display showed"));
  g_assert_null (tg_scale_link_pattern (rig->link));
  type_shown (rig, "What the display showed for sample 1", "171,6");
  press (rig, "_Learn from the samples");
  page_settle ();
  g_assert_nonnull (tg_scale_link_pattern (rig->link));
  g_assert_null (text_with (rig->panel, "type what the display showed"));
  g_assert_nonnull (text_with (rig->panel, "What the samples leave open"));
  g_assert_nonnull (text_with (rig->panel, "whether the scale tells when it has settled"));
  g_assert_nonnull (text_with (rig->panel, "a reading: 171.6"));
  /* another one answers the question */
  show (rig, 82.0, TRUE);
  press (rig, "Line while _moving");
  press (rig, "_Learn from the samples");
  page_settle ();
  g_assert_null (text_with (rig->panel, "whether the scale tells when it has settled"));
  g_assert_true (tg_scale_link_pattern (rig->link)->marked);
  show (rig, 85.0, TRUE);
  g_assert_nonnull (text_with (rig->panel, "85.0\302\240g, moving"));
  g_assert_nonnull (text_with (rig->panel, "Its lines say when the load is at rest"));
  pty_scale_send (rig->scale, "- - - - -\r\n", -1);
  page_wait_for (text_with (rig->panel, "no reading: no number in it"));
}

/* A sample that was a slip is left out again. */
static void
test_drop (void)
{
  g_autoptr (Rig) rig = rig_new (700);

  connect_to (rig, rig->scale->link);
  g_usleep (QUIET_US);
  show (rig, 12.3, FALSE);
  press (rig, "Line at _rest");
  show (rig, 171.6, FALSE);
  press (rig, "Line at _rest");
  type_shown (rig, "What the display showed for sample 1", "999");
  type_shown (rig, "What the display showed for sample 2", "171.6");
  press (rig, "_Learn from the samples");
  page_settle ();
  g_assert_null (tg_scale_link_pattern (rig->link));
  g_signal_emit_by_name (page_find_named (rig->panel, GTK_TYPE_BUTTON, "Leave this sample out"),
                         "clicked");
  page_settle ();
  g_assert_null (text_with (rig->panel, "Sample 2"));
  press (rig, "_Learn from the samples");
  g_assert_nonnull (tg_scale_link_pattern (rig->link));
}

/* What cannot be connected stays typed, with the reason below it. */
static void
test_refused (void)
{
  g_autoptr (Rig) rig = rig_new (700);
  GtkWidget *entry = page_find_named (rig->panel, GTK_TYPE_ENTRY, "Path of the port");

  connect_to (rig, "");
  page_settle ();
  g_assert_nonnull (text_with (rig->panel, "Type the path of the port first"));
  connect_to (rig, "/nowhere/scale");
  page_settle ();
  g_assert_nonnull (text_with (rig->panel, "plug the scale in"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (entry)), ==, "/nowhere/scale");
  g_assert_true (gtk_widget_get_mapped (entry));
  connect_to (rig, rig->scale->link);
  page_settle ();
  g_assert_null (text_with (rig->panel, "plug the scale in"));
}

/* An adapter that is plugged in shows up by itself, and is chosen while nothing else is. */
static void
test_ports (void)
{
  g_autoptr (Rig) rig = rig_new (700);
  g_autofree char *port = NULL;

  g_assert_nonnull (text_with (rig->panel, "No port is plugged in now"));
  port = plug_in (rig);
  page_wait_for (text_with (rig->panel, "ttyUSB0"));
  g_assert_null (text_with (rig->panel, "No port is plugged in now"));
  press (rig, "_Connect");
  g_assert_cmpstr (tg_scale_link_setup (rig->link).port, ==, port);
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_LEARNING);
  /* and it stays in sight when it goes */
  g_assert_cmpint (g_unlink (port), ==, 0);
  pty_scale_unplug (rig->scale);
  page_wait_for (text_with (rig->panel, "The scale has gone"));
  page_wait_for (text_with (rig->panel, "No port is plugged in now"));
  g_assert_cmpstr (gtk_editable_get_text (GTK_EDITABLE (
                       page_find_named (rig->panel, GTK_TYPE_ENTRY, "Path of the port"))),
                   ==, port);
  pty_scale_plug (rig->scale);
  g_free (port);
  port = plug_in (rig);
  page_wait_for (tg_scale_link_state (rig->link) == TG_SCALE_LINK_LEARNING);
  press (rig, "_Disconnect");
  page_settle ();
  g_assert_cmpint (tg_scale_link_state (rig->link), ==, TG_SCALE_LINK_OFF);
  g_assert_nonnull (text_with (rig->panel, "No scale is connected."));
}

static void
choose (Rig *rig, const char *name, guint index)
{
  gtk_drop_down_set_selected (
      GTK_DROP_DOWN (page_find_named (rig->panel, GTK_TYPE_DROP_DOWN, name)), index);
}

/* The settings of the manual are under a line of their own and go along with Connect. */
static void
test_manual (void)
{
  g_autoptr (Rig) rig = rig_new (700);
  TgScaleLinkSetup setup;
  GtkWidget *speed = page_find_named (rig->panel, GTK_TYPE_DROP_DOWN, "Speed in bit/s");
  g_autofree char *asked = NULL;

  g_assert_false (gtk_widget_get_mapped (speed));
  gtk_expander_set_expanded (GTK_EXPANDER (page_find (rig->panel, GTK_TYPE_EXPANDER, "section")),
                             TRUE);
  page_settle ();
  g_assert_true (gtk_widget_get_mapped (speed));
  choose (rig, "Speed in bit/s", 3);
  choose (rig, "Data bits", 0);
  choose (rig, "Parity", 1);
  choose (rig, "Stop bits", 1);
  choose (rig, "Handshake", 2);
  type_shown (rig, "Sent to ask for a reading", "?\\r");
  connect_to (rig, rig->scale->link);
  setup = tg_scale_link_setup (rig->link);
  g_assert_cmpuint (setup.settings.speed, ==, 2400);
  g_assert_cmpuint (setup.settings.bits, ==, 7);
  g_assert_cmpint (setup.settings.parity, ==, TG_SCALE_PARITY_EVEN);
  g_assert_cmpuint (setup.settings.stop_bits, ==, 2);
  g_assert_cmpint (setup.settings.handshake, ==, TG_SCALE_HANDSHAKE_CHARS);
  asked = pty_scale_asked (rig->scale);
  g_assert_true (g_str_has_prefix (asked, "?\r"));
  page_settle ();
  choose (rig, "A reading is taken", 6);
  g_assert_cmpuint (tg_scale_link_in_a_row (rig->link), ==, 0);
  choose (rig, "A reading is taken", 0);
  g_assert_cmpuint (tg_scale_link_in_a_row (rig->link), ==, 2);
}

/* What was set is shown again in a new panel. */
static void
test_again (void)
{
  g_autoptr (Rig) rig = rig_new (700);
  g_autofree char *text = pty_scale_pattern ();
  TgScalePattern pattern;
  GtkWidget *other;

  connect_to (rig, rig->scale->link);
  g_assert_true (tg_scale_pattern_from_text (text, &pattern));
  tg_scale_link_set_pattern (rig->link, &pattern);
  other = g_object_ref_sink (tg_cable_panel_new ());
  tg_cable_panel_set_link (TG_CABLE_PANEL (other), rig->link);
  gtk_window_set_child (rig->window, other);
  rig->panel = other;
  g_object_unref (other);
  page_wait_for (gtk_widget_get_mapped (other));
  page_settle ();
  g_assert_cmpstr (gtk_editable_get_text (
                       GTK_EDITABLE (page_find_named (other, GTK_TYPE_ENTRY, "Path of the port"))),
                   ==, rig->scale->link);
  g_assert_false (gtk_widget_get_mapped (button (rig, "Line at _rest"))); /* learned: folded up */
  g_assert_true (gtk_widget_get_mapped (button (rig, "_Disconnect")));
}

static void
test_narrow (void)
{
  g_autoptr (Rig) rig = rig_new (360);
  int least;

  connect_to (rig, rig->scale->link);
  g_usleep (QUIET_US);
  show (rig, 171.6, FALSE);
  pty_scale_send (rig->scale,
                  "a line of eighty characters and more, with 123.4 in it, as a scale would hardly "
                  "send it\n",
                  -1);
  page_wait_for (text_with (rig->panel, "a line of eighty"));
  press (rig, "Line at _rest");
  gtk_expander_set_expanded (GTK_EXPANDER (page_find (rig->panel, GTK_TYPE_EXPANDER, "section")),
                             TRUE);
  page_settle ();
  gtk_widget_measure (rig->panel, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 328);
  g_assert_cmpuint (page_check_names (rig->panel), >, 10);
}

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  g_test_add_func ("/cable-panel/learn", test_learn);
  g_test_add_func ("/cable-panel/drop", test_drop);
  g_test_add_func ("/cable-panel/refused", test_refused);
  g_test_add_func ("/cable-panel/ports", test_ports);
  g_test_add_func ("/cable-panel/manual", test_manual);
  g_test_add_func ("/cable-panel/again", test_again);
  g_test_add_func ("/cable-panel/narrow", test_narrow);
  return g_test_run ();
}
