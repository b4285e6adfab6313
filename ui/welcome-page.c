/* welcome-page.c: the quiet first page: new job, open, recent jobs, the demo
 *
 * The recent jobs are those of the desktop's list that end in .tenthgram and still exist.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "welcome-page.h"

#include "words.h"

#define N_RECENT 5

struct _TgWelcomePage
{
  GtkWidget parent_instance;
  GtkWidget *scroller;
  GtkWidget *message;
  GtkWidget *new_job;
  GtkWidget *recent;
  GtkWidget *demo;
};

G_DEFINE_FINAL_TYPE (TgWelcomePage, tg_welcome_page, GTK_TYPE_WIDGET)

static void
add_recent (TgWelcomePage *self, const char *path)
{
  g_autofree char *base = g_path_get_basename (path);
  GtkWidget *button = gtk_button_new_with_label (base);
  GtkWidget *label = gtk_button_get_child (GTK_BUTTON (button));

  gtk_label_set_ellipsize (GTK_LABEL (label), PANGO_ELLIPSIZE_MIDDLE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_add_css_class (button, "flat");
  gtk_widget_set_tooltip_text (button, path);
  gtk_actionable_set_action_name (GTK_ACTIONABLE (button), "win.open-path");
  gtk_actionable_set_action_target (GTK_ACTIONABLE (button), "s", path);
  gtk_box_append (GTK_BOX (self->recent), button);
}

static int
newest_first (gconstpointer a, gconstpointer b)
{
  return g_date_time_compare (gtk_recent_info_get_modified ((GtkRecentInfo *) b),
                              gtk_recent_info_get_modified ((GtkRecentInfo *) a));
}

static void
refresh_recent (TgWelcomePage *self)
{
  GList *items = gtk_recent_manager_get_items (gtk_recent_manager_get_default ());
  GtkWidget *heading = gtk_widget_get_first_child (self->recent);
  GtkWidget *child;
  guint n = 0;

  while ((child = gtk_widget_get_next_sibling (heading)))
    gtk_box_remove (GTK_BOX (self->recent), child);
  items = g_list_sort (items, newest_first);
  for (GList *l = items; l && n < N_RECENT; l = l->next)
    {
      g_autofree char *path = g_filename_from_uri (gtk_recent_info_get_uri (l->data), NULL, NULL);

      if (path && g_str_has_suffix (path, ".tenthgram") && g_file_test (path, G_FILE_TEST_EXISTS))
        {
          add_recent (self, path);
          n++;
        }
    }
  gtk_widget_set_visible (self->recent, n > 0);
  g_list_free_full (items, (GDestroyNotify) gtk_recent_info_unref);
}

static void
tg_welcome_page_map (GtkWidget *widget)
{
  refresh_recent (TG_WELCOME_PAGE (widget));
  GTK_WIDGET_CLASS (tg_welcome_page_parent_class)->map (widget);
  gtk_widget_grab_focus (TG_WELCOME_PAGE (widget)->new_job);
}

static void
tg_welcome_page_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_WELCOME_PAGE);
  G_OBJECT_CLASS (tg_welcome_page_parent_class)->dispose (object);
}

static void
tg_welcome_page_class_init (TgWelcomePageClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_welcome_page_dispose;
  widget_class->map = tg_welcome_page_map;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/welcome-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgWelcomePage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgWelcomePage, message);
  gtk_widget_class_bind_template_child (widget_class, TgWelcomePage, new_job);
  gtk_widget_class_bind_template_child (widget_class, TgWelcomePage, recent);
  gtk_widget_class_bind_template_child (widget_class, TgWelcomePage, demo);
}

static void
tg_welcome_page_init (TgWelcomePage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
}

GtkWidget *
tg_welcome_page_new (void)
{
  return g_object_new (TG_TYPE_WELCOME_PAGE, NULL);
}

void
tg_welcome_page_set_message (TgWelcomePage *page, const char *message)
{
  g_return_if_fail (TG_IS_WELCOME_PAGE (page));

  gtk_label_set_text (GTK_LABEL (page->message), message ? message : "");
  gtk_widget_set_visible (page->message, message != NULL);
}

void
tg_welcome_page_set_has_demo (TgWelcomePage *page, gboolean has_demo)
{
  g_return_if_fail (TG_IS_WELCOME_PAGE (page));

  gtk_widget_set_visible (page->demo, has_demo);
}
