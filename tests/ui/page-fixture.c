/* page-fixture.c: see page-fixture.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "page-fixture.h"

#include <glib/gstdio.h>
#include <string.h>

#include "fixture.h"
#include "theme.h"

char *
page_folder_new (void)
{
  g_autoptr (GError) error = NULL;
  char *folder = g_dir_make_tmp ("tenthgram-pages-XXXXXX", &error);

  g_assert_no_error (error);
  return folder;
}

void
page_folder_free (char *folder)
{
  g_autoptr (GDir) dir = g_dir_open (folder, 0, NULL);
  const char *name;

  while (dir && (name = g_dir_read_name (dir)))
    {
      g_autofree char *path = g_build_filename (folder, name, NULL);

      g_remove (path);
    }
  g_rmdir (folder);
  g_free (folder);
}

TgSession *
page_session_new (const char *folder, guint cylinders)
{
  static guint n = 0;
  g_autofree char *name = g_strdup_printf ("job-%u.tenthgram", n++);
  g_autofree char *path = g_build_filename (folder, name, NULL);
  g_autoptr (GError) error = NULL;
  TgSession *session = tg_session_create (fixture_setup (cylinders, TRUE, TRUE), path, &error);

  g_assert_no_error (error);
  return session;
}

void
page_append (TgSession *session, TgEvent event)
{
  g_autoptr (GError) error = NULL;

  tg_session_append (session, &event, 1, &error);
  g_assert_no_error (error);
}

void
page_weigh (TgSession *session, const char *part, TgFigure figure, TgWay way, double grams)
{
  page_append (session, fixture_reading (part, figure, way, grams));
}

void
page_set (TgSession *session, const char *path, const char *value)
{
  TgEvent event = tg_event_blank (TG_EVENT_SET);

  event.path = path;
  event.value = value;
  page_append (session, event);
}

void
page_weigh_all (TgSession *session, guint cylinders)
{
  for (guint i = 1; i <= cylinders; i++)
    {
      g_autofree char *rod = g_strdup_printf ("rod-%u", i);
      g_autofree char *piston = g_strdup_printf ("piston-%u", i);

      for (TgWay way = TG_WAY_MARK_UP; way <= TG_WAY_MARK_DOWN; way++)
        {
          page_weigh (session, rod, TG_FIGURE_SMALL_END, way, 171.2 + 0.1 * i);
          page_weigh (session, rod, TG_FIGURE_BIG_END, way, 412.1 + 0.3 * i);
        }
      page_weigh (session, piston, TG_FIGURE_WHOLE, TG_WAY_ANY, 410.4 + 0.2 * i);
    }
}

GtkWindow *
page_show (GtkWidget *page, int width, int height)
{
  GtkWidget *window = gtk_window_new ();

  tg_theme_install (gdk_display_get_default ());
  gtk_widget_add_css_class (window, "tenthgram");
  gtk_window_set_default_size (GTK_WINDOW (window), width, height);
  gtk_window_set_child (GTK_WINDOW (window), page);
  gtk_window_present (GTK_WINDOW (window));
  page_wait_for (gtk_widget_get_mapped (page));
  page_settle ();
  return GTK_WINDOW (window);
}

PageRig *
page_rig_new (GtkWidget *page, guint cylinders, int width, int height)
{
  PageRig *rig = g_new0 (PageRig, 1);

  rig->folder = page_folder_new ();
  rig->session = page_session_new (rig->folder, cylinders);
  rig->page = page;
  g_object_set (page, "session", rig->session, NULL);
  rig->window = page_show (page, width, height);
  return rig;
}

void
page_rig_free (PageRig *rig)
{
  gtk_window_destroy (rig->window);
  g_object_unref (rig->session);
  page_folder_free (rig->folder);
  g_free (rig);
}

void
page_settle (void)
{
  gint64 end = g_get_monotonic_time () + G_USEC_PER_SEC / 8;

  while (g_get_monotonic_time () < end)
    if (!g_main_context_iteration (NULL, FALSE))
      g_usleep (1000);
}

GtkWidget *
page_find (GtkWidget *root, GType type, const char *css_class)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *inside;

      if (g_type_is_a (G_OBJECT_TYPE (child), type) &&
          (!css_class || gtk_widget_has_css_class (child, css_class)))
        return child;
      inside = page_find (child, type, css_class);
      if (inside)
        return inside;
    }
  return NULL;
}

static GtkWidget *
find_named (GtkWidget *root, GType type, const char *name)
{
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      GtkWidget *inside;

      if (g_type_is_a (G_OBJECT_TYPE (child), type) &&
          gtk_test_accessible_has_property (GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL))
        {
          g_autofree char *other = gtk_test_accessible_check_property (
              GTK_ACCESSIBLE (child), GTK_ACCESSIBLE_PROPERTY_LABEL, name);

          if (!other)
            return child;
        }
      inside = find_named (child, type, name);
      if (inside)
        return inside;
    }
  return NULL;
}

GtkWidget *
page_find_named (GtkWidget *root, GType type, const char *name)
{
  GtkWidget *widget = find_named (root, type, name);

  if (!widget)
    g_error ("no %s is named “%s”", g_type_name (type), name);
  return widget;
}

gboolean
page_shows (GtkWidget *root, const char *text)
{
  if (GTK_IS_LABEL (root) && gtk_widget_get_mapped (root) &&
      strstr (gtk_label_get_text (GTK_LABEL (root)), text))
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    if (page_shows (child, text))
      return TRUE;
  return FALSE;
}

gboolean
page_press (GtkWidget *widget, guint key, GdkModifierType state)
{
  g_autoptr (GListModel) controllers = gtk_widget_observe_controllers (widget);

  for (guint i = 0; i < g_list_model_get_n_items (controllers); i++)
    {
      g_autoptr (GtkEventController) controller = g_list_model_get_item (controllers, i);
      gboolean taken = FALSE;

      if (!GTK_IS_EVENT_CONTROLLER_KEY (controller))
        continue;
      g_signal_emit_by_name (controller, "key-pressed", key, 0, state, &taken);
      if (taken)
        return TRUE;
    }
  return FALSE;
}

static gboolean
has_text (GtkWidget *widget)
{
  if (GTK_IS_LABEL (widget) && gtk_label_get_text (GTK_LABEL (widget))[0] != '\0')
    return TRUE;
  for (GtkWidget *child = gtk_widget_get_first_child (widget); child;
       child = gtk_widget_get_next_sibling (child))
    if (has_text (child))
      return TRUE;
  return FALSE;
}

static gboolean
is_named (GtkWidget *widget)
{
  GtkAccessible *accessible = GTK_ACCESSIBLE (widget);

  if (gtk_test_accessible_has_property (accessible, GTK_ACCESSIBLE_PROPERTY_LABEL))
    {
      /* an empty name is none: then nothing comes back as the difference to "" */
      g_autofree char *other = gtk_test_accessible_check_property (
          accessible, GTK_ACCESSIBLE_PROPERTY_LABEL, "");

      return other != NULL;
    }
  /* the words on a button or beside a check mark are its name */
  return (GTK_IS_BUTTON (widget) || GTK_IS_CHECK_BUTTON (widget) || GTK_IS_EXPANDER (widget)) &&
         has_text (widget);
}

guint
page_check_names (GtkWidget *root)
{
  const GType controls[] = { GTK_TYPE_BUTTON,      GTK_TYPE_CHECK_BUTTON, GTK_TYPE_ENTRY,
                             GTK_TYPE_SPIN_BUTTON, GTK_TYPE_SWITCH,       GTK_TYPE_DROP_DOWN,
                             GTK_TYPE_EXPANDER,    GTK_TYPE_LIST_VIEW,    GTK_TYPE_DRAWING_AREA };
  guint n = 0;

  for (GtkWidget *child = gtk_widget_get_first_child (root); child;
       child = gtk_widget_get_next_sibling (child))
    {
      gboolean control = FALSE;

      for (guint i = 0; i < G_N_ELEMENTS (controls); i++)
        control = control || g_type_is_a (G_OBJECT_TYPE (child), controls[i]);
      if (control && !is_named (child))
        g_error ("a %s has no name", G_OBJECT_TYPE_NAME (child));
      n += control;
      /* what is inside these is the toolkit's own */
      if (!GTK_IS_SPIN_BUTTON (child) && !GTK_IS_DROP_DOWN (child) && !GTK_IS_ENTRY (child))
        n += page_check_names (child);
    }
  return n;
}

guint
page_count (TgSession *session, TgEventKind kind)
{
  const TgJob *job = tg_session_job (session);
  guint n = 0;

  for (guint i = 0; i < tg_job_n_events (job); i++)
    n += tg_job_event (job, i)->kind == kind;
  return n;
}

const TgEvent *
page_last (TgSession *session)
{
  const TgJob *job = tg_session_job (session);

  g_assert_cmpuint (tg_job_n_events (job), >, 0);
  return tg_job_event (job, tg_job_n_events (job) - 1);
}
