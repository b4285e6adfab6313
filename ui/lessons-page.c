/* lessons-page.c: the lessons that there are, see lessons-page.h
 *
 * Everything is read again whenever the page is shown, so that it says how far each lesson has come.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "lessons-page.h"

#include "clamp.h"
#include "lesson-row.h"
#include "lesson-shelf.h"
#include "words.h"

struct _TgLessonsPage
{
  GtkWidget parent_instance;
  TgSession *session;
  TgLessonShelf *shelf;
  char *own_folder;
  char *practice_folder;
  GtkWidget *scroller;
  GtkWidget *message;
  GtkWidget *list;
  GtkWidget *faults;
  GtkWidget *add;
};

enum
{
  PROP_SESSION = 1,
  PROP_OWN_FOLDER,
  PROP_PRACTICE_FOLDER,
  N_PROPS
};

enum
{
  OPEN,
  N_SIGNALS
};

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgLessonsPage, tg_lessons_page, GTK_TYPE_WIDGET)

static void
show_message (TgLessonsPage *self, const char *message)
{
  gtk_label_set_text (GTK_LABEL (self->message), message ? message : "");
  gtk_widget_set_visible (self->message, message != NULL);
}

/* Takes @session, and @error where it is NULL. */
static void
open_session (TgLessonsPage *self, TgSession *session, GError *error)
{
  show_message (self, error ? error->message : NULL);
  if (session)
    g_signal_emit (self, signals[OPEN], 0, session);
  g_clear_object (&session);
  g_clear_error (&error);
}

static void
on_start (TgLessonRow *row, TgLessonsPage *self)
{
  g_autoptr (GError) error = NULL;

  open_session (
      self,
      tg_lesson_shelf_begin (tg_lesson_row_place (row)->lesson, self->practice_folder, &error),
      error);
}

static void
on_go_on (TgLessonRow *row, TgLessonsPage *self)
{
  GError *error = NULL;
  TgSession *session = tg_session_open (tg_lesson_row_place (row)->path, &error);

  open_session (self, session, error);
}

static void
empty (GtkWidget *box, GtkWidget *but)
{
  GtkWidget *child = gtk_widget_get_first_child (box);

  while (child)
    {
      GtkWidget *next = gtk_widget_get_next_sibling (child);

      if (child != but)
        gtk_box_remove (GTK_BOX (box), child);
      child = next;
    }
}

static void
show_faults (TgLessonsPage *self)
{
  empty (self->faults, gtk_widget_get_first_child (self->faults));
  for (guint i = 0; i < self->shelf->faults->len; i++)
    {
      GtkWidget *line = gtk_label_new (g_ptr_array_index (self->shelf->faults, i));

      gtk_label_set_xalign (GTK_LABEL (line), 0);
      gtk_label_set_wrap (GTK_LABEL (line), TRUE);
      gtk_label_set_wrap_mode (GTK_LABEL (line), PANGO_WRAP_WORD_CHAR);
      gtk_label_set_selectable (GTK_LABEL (line), TRUE);
      gtk_box_append (GTK_BOX (self->faults), line);
    }
  gtk_widget_set_visible (self->faults, self->shelf->faults->len > 0);
}

static void
refresh (TgLessonsPage *self)
{
  empty (self->list, NULL);
  g_clear_pointer (&self->shelf, tg_lesson_shelf_free);
  self->shelf = tg_lesson_shelf_new (self->own_folder, self->practice_folder);
  for (guint i = 0; i < self->shelf->places->len; i++)
    {
      GtkWidget *row = tg_lesson_row_new (g_ptr_array_index (self->shelf->places, i), i + 1);

      g_signal_connect_object (row, "start", G_CALLBACK (on_start), self, 0);
      g_signal_connect_object (row, "go-on", G_CALLBACK (on_go_on), self, 0);
      gtk_box_append (GTK_BOX (self->list), row);
    }
  show_faults (self);
}

void
tg_lessons_page_add (TgLessonsPage *page, const char *path)
{
  g_autoptr (GError) error = NULL;

  g_return_if_fail (TG_IS_LESSONS_PAGE (page));

  if (tg_lesson_shelf_add (page->shelf, path, page->own_folder, &error))
    {
      show_message (page, NULL);
      refresh (page);
      return;
    }
  show_message (page, error->message);
  gtk_adjustment_set_value (
      gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (page->scroller)), 0);
}

static void
on_add_response (GtkNativeDialog *dialog, int response, TgLessonsPage *self)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;

      if (path)
        tg_lessons_page_add (self, path);
    }
  g_object_unref (dialog);
}

static void
on_add (TgLessonsPage *self)
{
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      "Add a lesson", GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
      GTK_FILE_CHOOSER_ACTION_OPEN, "_Add", "_Cancel");
  g_autoptr (GtkFileFilter) lessons = gtk_file_filter_new ();

  gtk_file_filter_set_name (lessons, "Lesson files");
  gtk_file_filter_add_pattern (lessons, "*.xml");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (dialog), lessons);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_add_response), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
tg_lessons_page_focus (TgLessonsPage *page)
{
  g_return_if_fail (TG_IS_LESSONS_PAGE (page));

  /* asked for again, the focus would go on to the next one */
  if (!gtk_widget_get_focus_child (page->list))
    gtk_widget_child_focus (page->list, GTK_DIR_TAB_FORWARD);
}

static void
tg_lessons_page_map (GtkWidget *widget)
{
  refresh (TG_LESSONS_PAGE (widget));
  GTK_WIDGET_CLASS (tg_lessons_page_parent_class)->map (widget);
}

static void
tg_lessons_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  TgLessonsPage *self = TG_LESSONS_PAGE (object);

  if (id == PROP_SESSION)
    g_value_set_object (value, self->session);
  else if (id == PROP_OWN_FOLDER)
    g_value_set_string (value, self->own_folder);
  else if (id == PROP_PRACTICE_FOLDER)
    g_value_set_string (value, self->practice_folder);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_lessons_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  TgLessonsPage *self = TG_LESSONS_PAGE (object);

  if (id == PROP_SESSION)
    g_set_object (&self->session, g_value_get_object (value));
  else if (id == PROP_OWN_FOLDER || id == PROP_PRACTICE_FOLDER)
    {
      char **folder = id == PROP_OWN_FOLDER ? &self->own_folder : &self->practice_folder;

      g_free (*folder);
      *folder = g_value_dup_string (value);
    }
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_lessons_page_dispose (GObject *object)
{
  g_clear_object (&TG_LESSONS_PAGE (object)->session);
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_LESSONS_PAGE);
  G_OBJECT_CLASS (tg_lessons_page_parent_class)->dispose (object);
}

static void
tg_lessons_page_finalize (GObject *object)
{
  TgLessonsPage *self = TG_LESSONS_PAGE (object);

  g_clear_pointer (&self->shelf, tg_lesson_shelf_free);
  g_free (self->own_folder);
  g_free (self->practice_folder);
  G_OBJECT_CLASS (tg_lessons_page_parent_class)->finalize (object);
}

static void
install_properties (GObjectClass *object_class)
{
  const GParamFlags flags = G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS;

  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION, flags);
  props[PROP_OWN_FOLDER] = g_param_spec_string ("own-folder", NULL, NULL, NULL, flags);
  props[PROP_PRACTICE_FOLDER] = g_param_spec_string ("practice-folder", NULL, NULL, NULL, flags);
  g_object_class_install_properties (object_class, N_PROPS, props);
}

static void
tg_lessons_page_class_init (TgLessonsPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  object_class->get_property = tg_lessons_page_get_property;
  object_class->set_property = tg_lessons_page_set_property;
  object_class->dispose = tg_lessons_page_dispose;
  object_class->finalize = tg_lessons_page_finalize;
  widget_class->map = tg_lessons_page_map;
  install_properties (object_class);
  signals[OPEN] = g_signal_new ("open", TG_TYPE_LESSONS_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                NULL, G_TYPE_NONE, 1, TG_TYPE_SESSION);
  g_type_ensure (TG_TYPE_CLAMP);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/lessons-page.ui");
  gtk_widget_class_bind_template_child (widget_class, TgLessonsPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgLessonsPage, message);
  gtk_widget_class_bind_template_child (widget_class, TgLessonsPage, list);
  gtk_widget_class_bind_template_child (widget_class, TgLessonsPage, faults);
  gtk_widget_class_bind_template_child (widget_class, TgLessonsPage, add);
  gtk_widget_class_bind_template_callback (widget_class, on_add);
}

static void
tg_lessons_page_init (TgLessonsPage *self)
{
  self->own_folder = tg_lesson_shelf_own_folder ();
  self->practice_folder = tg_lesson_shelf_practice_folder ();
  gtk_widget_init_template (GTK_WIDGET (self));
}
