/* import-page.c: readings from a table: shown first, then taken over
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table stays as text; whatever the person says about it, it is read anew and shown anew.  What
 * nobody said is found out by the core, and the choices show what was found.  Rows are taken over
 * together as one append, rows that cannot be read stay in sight.
 */
#include "import-page.h"

#include <string.h>

#include "clamp.h"
#include "columns.h"
#include "fold.h"
#include "import-columns.h"
#include "import-form.h"
#include "import-model.h"
#include "import-row.h"
#include "table-preview.h"
#include "whole-file.h"
#include "words.h"

struct _TgImportPage
{
  GtkBox parent_instance;
  GtkLabel *problem;
  GtkStack *stack;
  GtkWidget *paste;
  GtkLabel *counts, *done, *notes;
  GtkCheckButton *only_problems;
  TgImportForm *form;
  TgImportColumns *columns;
  GtkWidget *table;
  GtkListView *list;
  GtkWidget *leave, *take;
  TgImportModel *model;
  TgSession *session;
  GCancellable *reading; /* the clipboard */
  GtkFileChooserNative *chooser;
  char *text;
  gsize size;
  TgTableOptions chosen;
  TgTableImport *import;
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

enum
{
  LEFT,
  N_SIGNALS
};

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgImportPage, tg_import_page, GTK_TYPE_BOX)

GtkWidget *
tg_import_page_new (void)
{
  return g_object_new (TG_TYPE_IMPORT_PAGE, NULL);
}

const TgTableImport *
tg_import_page_get_import (TgImportPage *self)
{
  g_return_val_if_fail (TG_IS_IMPORT_PAGE (self), NULL);

  return self->import;
}

/* -- showing ---------------------------------------------------------------------------------- */

static void
show_notes (TgImportPage *self)
{
  g_autoptr (GString) text = g_string_new (NULL);

  for (guint i = 0; self->import && i < self->import->notes->len; i++)
    g_string_append_printf (text, "%s%s", i > 0 ? "\n" : "",
                            (char *) g_ptr_array_index (self->import->notes, i));
  tg_words_show (self->notes, text->str);
  gtk_widget_set_visible (GTK_WIDGET (self->notes), text->len > 0);
}

static void
show_take (TgImportPage *self)
{
  guint n = self->import ? self->import->n_new : 0;
  g_autofree char *readings = tg_table_preview_readings (n);
  g_autofree char *label = g_strdup_printf ("Take over %s", readings);

  gtk_button_set_label (GTK_BUTTON (self->take), n > 0          ? label
                                                 : self->import ? "Nothing new to take over"
                                                                : "Take over");
  gtk_widget_set_sensitive (self->take, n > 0);
}

static void
show_rows (TgImportPage *self)
{
  const TgTableImport *import = self->import;
  guint problems = import ? import->n_problems : 0;
  gboolean some = problems > 0 && problems < import->rows->len;

  gtk_widget_set_visible (GTK_WIDGET (self->only_problems), some);
  tg_import_model_set (self->model, import,
                       some && gtk_check_button_get_active (self->only_problems));
}

static void
show_import (TgImportPage *self)
{
  g_autofree char *counts = self->import ? tg_table_preview_counts (self->import) : NULL;

  gtk_stack_set_visible_child_name (self->stack, self->text ? "table" : "empty");
  gtk_widget_set_visible (GTK_WIDGET (self->counts), self->import != NULL);
  gtk_widget_set_visible (self->table, self->import != NULL);
  gtk_widget_set_visible (GTK_WIDGET (self->done), FALSE);
  gtk_button_set_label (GTK_BUTTON (self->leave), "Cancel");
  if (counts)
    counts[0] = g_ascii_toupper (counts[0]);
  tg_words_show (self->counts, counts);
  if (self->import)
    tg_import_columns_show (self->columns, self->import);
  tg_import_form_show (self->form, self->import);
  show_notes (self);
  show_rows (self);
  show_take (self);
}

static void
show_problem (TgImportPage *self, const char *text)
{
  tg_words_show_problem (NULL, self->problem, text);
}

/* Reads the table anew, as it was said that it is written. */
static void
refresh (TgImportPage *self)
{
  g_autoptr (GError) error = NULL;
  tg_import_model_set (self->model, NULL, FALSE);
  g_clear_pointer (&self->import, tg_table_import_free);
  if (self->session && self->text)
    self->import = tg_table_import_new (tg_session_job (self->session), self->text, self->size,
                                        tg_import_form_get_name (self->form), &self->chosen,
                                        &error);
  show_import (self);
  if (error || (self->import && self->import->problem))
    {
      g_autofree char *text = g_strdup_printf ("This table cannot be read: %s.",
                                               error ? error->message : self->import->problem);

      show_problem (self, text);
    }
  else
    show_problem (self, NULL);
}

/* -- the table -------------------------------------------------------------------------------- */

void
tg_import_page_set_text (TgImportPage *self, const char *text, gsize size, const char *source)
{
  g_return_if_fail (TG_IS_IMPORT_PAGE (self));
  g_return_if_fail (text != NULL && source != NULL);

  g_free (self->text);
  self->text = g_memdup2 (text, size + 1);
  self->size = size;
  memset (&self->chosen, 0, sizeof self->chosen);
  tg_import_form_reset (self->form, source);
  gtk_check_button_set_active (self->only_problems, FALSE);
  refresh (self);
  gtk_widget_grab_focus (GTK_WIDGET (self));
}

gboolean
tg_import_page_load (TgImportPage *self, const char *path)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (GString) text = NULL;
  g_autofree char *name = NULL;

  g_return_val_if_fail (TG_IS_IMPORT_PAGE (self), FALSE);

  text = tg_whole_file_load (path, TG_CSV_MAX_SIZE, &error);
  if (!text)
    {
      show_problem (self, error->message);
      return FALSE;
    }
  name = g_filename_display_basename (path);
  tg_import_page_set_text (self, text->str, text->len, name);
  return TRUE;
}

void
tg_import_page_clear (TgImportPage *self)
{
  g_return_if_fail (TG_IS_IMPORT_PAGE (self));

  g_clear_pointer (&self->text, g_free);
  refresh (self);
}

static void
on_clipboard (GObject *clipboard, GAsyncResult *result, gpointer data)
{
  g_autofree char *text = NULL;
  g_autoptr (GError) error = NULL;
  TgImportPage *self = data;

  text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, &error);
  if (g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CANCELLED))
    return; /* the page may be gone */
  if (text && text[0])
    tg_import_page_set_text (self, text, strlen (text), TG_IMPORT_PASTED);
  else
    show_problem (self, "There is no text to paste. Copy the table in the spreadsheet first.");
}

void
tg_import_page_paste (TgImportPage *self)
{
  g_return_if_fail (TG_IS_IMPORT_PAGE (self));

  g_cancellable_cancel (self->reading);
  g_set_object (&self->reading, NULL);
  self->reading = g_cancellable_new ();
  gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), self->reading,
                                 on_clipboard, self);
}

static void
on_chosen_file (GtkNativeDialog *dialog, int response, TgImportPage *self)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;

      if (path)
        tg_import_page_load (self, path);
    }
  g_clear_object (&self->chooser);
}

static void
on_choose (TgImportPage *self)
{
  g_autoptr (GtkFileFilter) tables = gtk_file_filter_new ();
  g_autoptr (GtkFileFilter) all = gtk_file_filter_new ();

  g_clear_object (&self->chooser);
  self->chooser = gtk_file_chooser_native_new ("Import readings",
                                               GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self))),
                                               GTK_FILE_CHOOSER_ACTION_OPEN, "_Show it", "_Cancel");
  gtk_file_filter_set_name (tables, "Tables (CSV, text)");
  gtk_file_filter_add_suffix (tables, "csv");
  gtk_file_filter_add_suffix (tables, "tsv");
  gtk_file_filter_add_suffix (tables, "tab");
  gtk_file_filter_add_suffix (tables, "txt");
  gtk_file_filter_set_name (all, "All files");
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), tables);
  gtk_file_chooser_add_filter (GTK_FILE_CHOOSER (self->chooser), all);
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  g_signal_connect_object (self->chooser, "response", G_CALLBACK (on_chosen_file), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

/* -- what the person says about it ------------------------------------------------------------ */

/* Of what a row has once there can be one column only. */
static void
on_column (TgImportPage *self, guint column, guint kind)
{
  gboolean once = kind != TG_COLUMN_GUESS && kind != TG_COLUMN_IGNORE &&
                  !tg_table_column_has_readings ((TgColumn) kind);

  for (guint c = 0; once && c < TG_CSV_MAX_FIELDS; c++)
    if (self->chosen.columns[c] == (TgColumn) kind)
      self->chosen.columns[c] = TG_COLUMN_GUESS;
  self->chosen.columns[column] = (TgColumn) kind;
  refresh (self);
}

static void
on_form (TgImportPage *self)
{
  tg_import_form_apply (self->form, &self->chosen);
  refresh (self);
}

static void
on_only_problems (TgImportPage *self)
{
  show_rows (self);
}

/* -- taking over ------------------------------------------------------------------------------ */

gboolean
tg_import_page_take_over (TgImportPage *self)
{
  g_autoptr (GArray) events = NULL;
  g_autoptr (GError) error = NULL;
  g_autofree char *readings = NULL;
  g_autofree char *text = NULL;

  g_return_val_if_fail (TG_IS_IMPORT_PAGE (self), FALSE);

  if (!self->session || !self->import || self->import->n_new == 0)
    return FALSE;
  readings = tg_table_preview_readings (self->import->n_new);
  events = tg_table_import_new_events (self->import);
  if (!tg_session_append (self->session, (const TgEvent *) events->data, events->len, &error))
    {
      show_problem (self, error->message);
      return FALSE;
    }
  text = g_strdup_printf (
      "%s taken over. Ctrl+Z strikes them all out again, the journal strikes out "
      "single ones.",
      readings);
  tg_words_show (self->done, text);
  gtk_widget_set_visible (GTK_WIDGET (self->done), TRUE);
  gtk_button_set_label (GTK_BUTTON (self->leave), "Done");
  gtk_widget_grab_focus (self->leave);
  return TRUE;
}

static void
on_take (TgImportPage *self)
{
  tg_import_page_take_over (self);
}

static void
on_leave (TgImportPage *self)
{
  tg_import_page_clear (self);
  g_signal_emit (self, signals[LEFT], 0);
}

static gboolean
on_key (GtkEventControllerKey *keys,
        guint key,
        guint code G_GNUC_UNUSED,
        GdkModifierType state G_GNUC_UNUSED,
        gpointer data G_GNUC_UNUSED)
{
  TgImportPage *self = TG_IMPORT_PAGE (
      gtk_event_controller_get_widget (GTK_EVENT_CONTROLLER (keys)));

  if (key != GDK_KEY_Escape)
    return GDK_EVENT_PROPAGATE;
  on_leave (self);
  return GDK_EVENT_STOP;
}

/* -- the list --------------------------------------------------------------------------------- */

static void
on_setup (G_GNUC_UNUSED GtkSignalListItemFactory *factory, GtkListItem *item)
{
  gtk_list_item_set_child (item, tg_import_row_new ());
  gtk_list_item_set_activatable (item, FALSE);
}

static void
on_bind (G_GNUC_UNUSED GtkSignalListItemFactory *factory, GtkListItem *item, TgImportPage *self)
{
  TgImportLine *line = gtk_list_item_get_item (item);

  tg_import_row_show (TG_IMPORT_ROW (gtk_list_item_get_child (item)), tg_import_line_get_row (line),
                      tg_session_review (self->session), self->import->n_columns);
}

static void
make_list (TgImportPage *self)
{
  g_autoptr (GtkListItemFactory) factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkNoSelection) lines = NULL;

  self->model = tg_import_model_new ();
  lines = gtk_no_selection_new (G_LIST_MODEL (g_object_ref (self->model)));
  g_signal_connect (factory, "setup", G_CALLBACK (on_setup), NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), self);
  gtk_list_view_set_factory (self->list, factory);
  gtk_list_view_set_model (self->list, GTK_SELECTION_MODEL (lines));
}

/* -- the object ------------------------------------------------------------------------------- */

static void
set_session (TgImportPage *self, TgSession *session)
{
  if (self->session)
    g_signal_handlers_disconnect_by_data (self->session, self);
  g_set_object (&self->session, session);
  if (session)
    g_signal_connect_object (session, "changed", G_CALLBACK (refresh), self, G_CONNECT_SWAPPED);
  tg_import_page_clear (self);
}

static void
tg_import_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_IMPORT_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_import_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    set_session (TG_IMPORT_PAGE (object), g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

/* Where the next key goes: what is there is taken over, or there is nothing yet. */
static gboolean
tg_import_page_grab_focus (GtkWidget *widget)
{
  TgImportPage *self = TG_IMPORT_PAGE (widget);

  if (gtk_widget_get_sensitive (self->take))
    return gtk_widget_grab_focus (self->take);
  return gtk_widget_grab_focus (self->text ? self->leave : self->paste);
}

static void
tg_import_page_dispose (GObject *object)
{
  TgImportPage *self = TG_IMPORT_PAGE (object);

  g_cancellable_cancel (self->reading);
  g_clear_object (&self->reading);
  g_clear_object (&self->chooser);
  if (self->model)
    tg_import_model_set (self->model, NULL, FALSE);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_IMPORT_PAGE);
  g_clear_object (&self->model);
  g_clear_pointer (&self->import, tg_table_import_free);
  g_clear_pointer (&self->text, g_free);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_import_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, problem);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, stack);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, paste);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, counts);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, done);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, notes);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, only_problems);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, form);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, columns);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, table);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, list);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, leave);
  gtk_widget_class_bind_template_child (widget_class, TgImportPage, take);
}

static void
tg_import_page_class_init (TgImportPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  g_type_ensure (TG_TYPE_COLUMNS);
  g_type_ensure (TG_TYPE_FOLD);
  g_type_ensure (TG_TYPE_IMPORT_COLUMNS);
  g_type_ensure (TG_TYPE_IMPORT_FORM);
  object_class->get_property = tg_import_page_get_property;
  object_class->set_property = tg_import_page_set_property;
  object_class->dispose = tg_import_page_dispose;
  widget_class->grab_focus = tg_import_page_grab_focus;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[LEFT] = g_signal_new ("left", TG_TYPE_IMPORT_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL, NULL,
                                G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/import-page.ui");
  bind_children (widget_class);
  gtk_widget_class_bind_template_callback (widget_class, on_choose);
  gtk_widget_class_bind_template_callback (widget_class, on_column);
  gtk_widget_class_bind_template_callback (widget_class, on_form);
  gtk_widget_class_bind_template_callback (widget_class, on_key);
  gtk_widget_class_bind_template_callback (widget_class, on_leave);
  gtk_widget_class_bind_template_callback (widget_class, on_only_problems);
  gtk_widget_class_bind_template_callback (widget_class, on_take);
  gtk_widget_class_bind_template_callback (widget_class, tg_import_page_paste);
}

static void
tg_import_page_init (TgImportPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  make_list (self);
  show_import (self);
}
