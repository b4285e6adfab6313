/* test-cautions-panel.c: which cautions are shown, and what always is
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <string.h>

#include "cautions-panel.h"
#include "page-fixture.h"

typedef struct
{
  char *folder;
  TgSession *session;
  GtkWidget *panel;
  GtkWindow *window;
} Fixture;

static void
set_up (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  fixture->folder = page_folder_new ();
  fixture->session = page_session_new (fixture->folder, 2);
  fixture->panel = g_object_new (TG_TYPE_CAUTIONS_PANEL, "session", fixture->session, NULL);
  fixture->window = page_show (fixture->panel, 300, 700);
}

static void
tear_down (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  gtk_window_destroy (fixture->window);
  g_clear_object (&fixture->session);
  page_folder_free (fixture->folder);
}

static gboolean
shows (GtkWidget *root, const char *text)
{
  if (GTK_IS_LABEL (root) && strstr (gtk_label_get_text (GTK_LABEL (root)), text))
    return gtk_widget_get_visible (root);
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    if (shows (child, text))
      return TRUE;
  return FALSE;
}

/* Whether a caution may be shown at all, judged by its own marks; metals of the fixture's designs. */
static gboolean
may_fit (const TgCaution *caution, TgStage stage, guint tools)
{
  const guint metals = 1u << TG_METAL_STEEL | 1u << TG_METAL_ALUMINIUM;

  return (!caution->stages || caution->stages & 1u << stage) &&
         (!caution->metals || caution->metals & metals) &&
         (!caution->tools || !tools || caution->tools & tools) && !caution->fracture_split;
}

static void
test_fits (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const GPtrArray *all = tg_session_library (fixture->session)->cautions;

  for (int stage = 0; stage < TG_N_STAGES; stage++)
    for (int tool = -1; tool < TG_N_TOOLS; tool++)
      {
        guint n = 0;

        g_object_set (fixture->panel, "stage", stage, "tool", tool, NULL);
        for (guint i = 0; i < all->len; i++)
          {
            const TgCaution *caution = g_ptr_array_index (all, i);
            gboolean fits = may_fit (caution, stage, tool < 0 ? 0 : 1u << tool);

            g_assert_true (shows (fixture->panel, caution->text) == fits);
            g_assert_true (!fits || shows (fixture->panel, caution->ground));
            n += fits;
          }
        g_assert_cmpuint (tg_cautions_panel_get_n_shown (TG_CAUTIONS_PANEL (fixture->panel)), ==,
                          n);
        g_assert_true (shows (fixture->panel, "licensed practice"));
      }
}

static void
test_short (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  const GPtrArray *all = tg_session_library (fixture->session)->cautions;
  guint n;

  g_object_set (fixture->panel, "stage", TG_STAGE_GRIND, "short", TRUE, NULL);
  n = tg_cautions_panel_get_n_shown (TG_CAUTIONS_PANEL (fixture->panel));
  g_assert_cmpuint (n, >, 0);
  g_assert_true (shows (fixture->panel, "Before the first stroke"));
  for (guint i = 0; i < all->len; i++)
    {
      const TgCaution *caution = g_ptr_array_index (all, i);

      if (!caution->first)
        g_assert_false (shows (fixture->panel, caution->text));
    }
  g_object_set (fixture->panel, "short", FALSE, NULL);
  g_assert_cmpuint (tg_cautions_panel_get_n_shown (TG_CAUTIONS_PANEL (fixture->panel)), >, n);
}

/* A pass brings its tool's cautions, a change of material its metal's; struck out they go. */
static void
test_follows_the_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  TgEvent pass = tg_event_blank (TG_EVENT_PASS);
  TgEvent metal = tg_event_blank (TG_EVENT_SET);
  g_autoptr (GError) error = NULL;
  const GPtrArray *all = tg_session_library (fixture->session)->cautions;
  const TgCaution *of_metal = NULL;
  const TgCaution *of_tool = NULL;

  for (guint i = 0; i < all->len; i++)
    {
      const TgCaution *caution = g_ptr_array_index (all, i);

      if (caution->metals == 1u << TG_METAL_TITANIUM && !caution->tools)
        of_metal = caution;
      if (caution->tools && !(caution->tools & 1u << TG_TOOL_FILE) && !caution->metals &&
          (!caution->stages || caution->stages & 1u << TG_STAGE_GRIND))
        of_tool = caution;
    }
  g_assert_true (of_metal && of_tool);
  g_object_set (fixture->panel, "stage", TG_STAGE_GRIND, "tool", TG_TOOL_FILE, NULL);
  g_assert_false (shows (fixture->panel, of_metal->text));
  g_assert_false (shows (fixture->panel, of_tool->text));

  metal.path = "rod.metal";
  metal.value = "titanium";
  page_append (fixture->session, metal);
  g_assert_true (shows (fixture->panel, of_metal->text));

  pass.part = "rod-1";
  pass.zone = "cap-pad";
  pass.mass = 200;
  for (pass.tool = 0; !(of_tool->tools & 1u << pass.tool);)
    pass.tool++;
  page_append (fixture->session, pass);
  g_assert_true (shows (fixture->panel, of_tool->text));
  tg_session_toggle_strike (fixture->session, 1, &error);
  g_assert_no_error (error);
  g_assert_false (shows (fixture->panel, of_tool->text));
}

static void
test_no_job (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  g_object_set (fixture->panel, "session", NULL, NULL);
  g_assert_cmpuint (tg_cautions_panel_get_n_shown (TG_CAUTIONS_PANEL (fixture->panel)), ==, 0);
  g_assert_true (shows (fixture->panel, "maker’s manual, local rules and licensed practice"));
}

static void
test_wraps (Fixture *fixture, gconstpointer data G_GNUC_UNUSED)
{
  int least;

  gtk_widget_measure (fixture->panel, GTK_ORIENTATION_HORIZONTAL, -1, &least, NULL, NULL, NULL);
  g_assert_cmpint (least, <=, 300);
}

#define ADD(path, function) g_test_add (path, Fixture, NULL, set_up, function, tear_down)

int
main (int argc, char **argv)
{
  gtk_test_init (&argc, &argv, NULL);
  ADD ("/cautions-panel/fits", test_fits);
  ADD ("/cautions-panel/short", test_short);
  ADD ("/cautions-panel/follows-the-job", test_follows_the_job);
  ADD ("/cautions-panel/no-job", test_no_job);
  ADD ("/cautions-panel/wraps", test_wraps);
  return g_test_run ();
}
