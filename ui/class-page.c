/* class-page.c: the practice jobs of a folder side by side
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The columns are a table of their own below; each says its words and what it is sorted by.
 */
#include "class-page.h"

#include <math.h>
#include <string.h>

#include "fold.h"
#include "session.h"
#include "whole-file.h"
#include "words.h"

struct _TgClassPage
{
  GtkBox parent_instance;
  GtkWidget *head;
  GtkWidget *about;
  GtkWidget *choose;
  GtkWidget *open;
  GtkWidget *save;
  GtkWidget *leave;
  GtkWidget *comparable;
  GtkWidget *problem;
  GtkWidget *scroller;
  GtkWidget *view;
  GtkFileChooserNative *chooser;
  GtkSingleSelection *selection;
  TgSession *session;
  TgClassTable *table;
  char *folder;
};

enum
{
  PROP_0,
  PROP_SESSION,
  N_PROPS
};

enum
{
  SIGNAL_LEFT,
  N_SIGNALS
};

static GParamSpec *props[N_PROPS];
static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgClassPage, tg_class_page, GTK_TYPE_BOX)

GtkWidget *
tg_class_page_new (void)
{
  return g_object_new (TG_TYPE_CLASS_PAGE, NULL);
}

const TgClassTable *
tg_class_page_table (TgClassPage *page)
{
  g_return_val_if_fail (TG_IS_CLASS_PAGE (page), NULL);

  return page->table;
}

/* -- columns ------------------------------------------------------------------------------------------- */

typedef enum
{
  COLUMN_FILE,
  COLUMN_WHO,
  COLUMN_REMARK,
  COLUMN_LESSON,
  COLUMN_BEGUN,
  COLUMN_FINISHED,
  COLUMN_SPREADS, /* one for each band */
  COLUMN_METAL = COLUMN_SPREADS + TG_N_BANDS,
  COLUMN_LEAST,
  COLUMN_PASSES,
  COLUMN_FORBIDDEN,
  COLUMN_READINGS,
  COLUMN_WRONG,
  COLUMN_IGNORED,
  COLUMN_MINUTES,
  N_COLUMNS
} Column;

static const char *const titles[N_COLUMNS] = {
  [COLUMN_FILE] = "File",
  [COLUMN_WHO] = "Person",
  [COLUMN_REMARK] = "Remark",
  [COLUMN_LESSON] = "Lesson or bench",
  [COLUMN_BEGUN] = "Begun",
  [COLUMN_FINISHED] = "Last entry",
  [COLUMN_SPREADS + TG_BAND_ROD_SMALL] = "Small ends, true / permitted",
  [COLUMN_SPREADS + TG_BAND_ROD_BIG] = "Big ends, true / permitted",
  [COLUMN_SPREADS + TG_BAND_PISTON] = "Pistons or sets, true / permitted",
  [COLUMN_SPREADS + TG_BAND_PISTON_ALONE] = "Pistons alone, true / permitted",
  [COLUMN_METAL] = "Metal, g",
  [COLUMN_LEAST] = "Least, g",
  [COLUMN_PASSES] = "Passes",
  [COLUMN_FORBIDDEN] = "Forbidden passes",
  [COLUMN_READINGS] = "Readings",
  [COLUMN_WRONG] = "Wrong readings",
  [COLUMN_IGNORED] = "Warnings ignored",
  [COLUMN_MINUTES] = "Minutes",
};

static gboolean
is_text (Column column)
{
  return column <= COLUMN_LESSON;
}

/* What a column is sorted by where it is a number; nothing sorts first. */
static double
number_of (const TgClassRow *row, Column column)
{
  const TgDebrief *debrief = row->debrief;

  if (!debrief)
    return -1;
  if (column >= COLUMN_SPREADS && column < COLUMN_METAL)
    return debrief->bands[column - COLUMN_SPREADS].present
               ? debrief->bands[column - COLUMN_SPREADS].true_g
               : -1;
  switch (column)
    {
    case COLUMN_BEGUN:
      return debrief->begun ? (double) debrief->first.seconds : -1;
    case COLUMN_FINISHED:
      return debrief->begun ? (double) debrief->last.seconds : -1;
    case COLUMN_METAL:
      return debrief->metal.removed_g;
    case COLUMN_LEAST:
      return debrief->metal.known ? debrief->metal.best_g : -1;
    case COLUMN_PASSES:
      return debrief->passes;
    case COLUMN_FORBIDDEN:
      return debrief->forbidden;
    case COLUMN_READINGS:
      return debrief->readings;
    case COLUMN_WRONG:
      return debrief->wrong;
    case COLUMN_IGNORED:
      return debrief->ignored;
    case COLUMN_MINUTES:
    default:
      return tg_class_row_minutes (row);
    }
}

/* (transfer full) */
static char *
moment_words (const TgDebrief *debrief, TgStamp stamp)
{
  g_autofree char *day = tg_stamp_format_day (stamp);
  g_autofree char *time = tg_stamp_format_time (stamp);

  return debrief->begun ? g_strdup_printf ("%s, %s", day, time) : g_strdup ("–");
}

/* (transfer full) */
static char *
remark_words (const TgClassRow *row)
{
  if (row->reason)
    return g_strdup (row->reason);
  return g_strdup_printf ("bench %u%s%s", row->bench, row->shared > 1 ? ", comparable" : "",
                          row->debrief->done ? "" : ", not done");
}

/* (transfer full) */
static char *
text_of (const TgClassRow *row, Column column)
{
  switch (column)
    {
    case COLUMN_FILE:
      return g_strdup (row->file);
    case COLUMN_WHO:
      return g_strdup (row->who);
    case COLUMN_REMARK:
      return remark_words (row);
    case COLUMN_LESSON:
    default:
      return g_strdup (row->lesson[0] ? row->lesson : row->seed);
    }
}

/* (transfer full) */
static char *
words_of (const TgClassRow *row, Column column)
{
  double number = number_of (row, column);

  if (is_text (column))
    return text_of (row, column);
  if (!row->debrief || number < 0)
    return g_strdup ("");
  if (column >= COLUMN_SPREADS && column < COLUMN_METAL)
    return tg_class_row_spread (row, column - COLUMN_SPREADS);
  if (column == COLUMN_BEGUN || column == COLUMN_FINISHED)
    return moment_words (row->debrief,
                         column == COLUMN_BEGUN ? row->debrief->first : row->debrief->last);
  if (column == COLUMN_METAL || column == COLUMN_LEAST)
    return tg_debrief_grams (row->setup, number);
  return g_strdup_printf ("%u", (guint) number);
}

static const TgClassRow *
row_of (gpointer item)
{
  return g_object_get_data (item, "row");
}

static int
compare (gconstpointer a, gconstpointer b, gpointer data)
{
  Column column = (Column) GPOINTER_TO_UINT (data);
  const TgClassRow *one = row_of ((gpointer) a), *two = row_of ((gpointer) b);
  double first = number_of (one, column), second = number_of (two, column);

  if (is_text (column))
    {
      g_autofree char *left = text_of (one, column);
      g_autofree char *right = text_of (two, column);

      return g_utf8_collate (left, right);
    }
  return (first > second) - (first < second);
}

static void
on_setup_cell (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  GtkWidget *label = gtk_label_new (NULL);

  (void) factory;
  gtk_label_set_xalign (GTK_LABEL (label), is_text ((Column) GPOINTER_TO_UINT (data)) ? 0 : 1);
  gtk_widget_add_css_class (label, "figures");
  gtk_list_item_set_child (item, label);
}

static void
on_bind_cell (GtkSignalListItemFactory *factory, GtkListItem *item, gpointer data)
{
  g_autofree char *words = words_of (row_of (gtk_list_item_get_item (item)),
                                     (Column) GPOINTER_TO_UINT (data));

  (void) factory;
  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)), words);
}

/* A band that no job has gets no column. */
static gboolean
is_wanted (TgClassPage *self, Column column)
{
  if (column < COLUMN_SPREADS || column >= COLUMN_METAL)
    return TRUE;
  for (guint i = 0; i < self->table->rows->len; i++)
    if (number_of (g_ptr_array_index (self->table->rows, i), column) >= 0)
      return TRUE;
  return FALSE;
}

static void
add_column (TgClassPage *self, Column column)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();
  g_autoptr (GtkColumnViewColumn) made = NULL;
  g_autoptr (GtkSorter)
      sorter = GTK_SORTER (gtk_custom_sorter_new (compare, GUINT_TO_POINTER (column), NULL));

  g_signal_connect (factory, "setup", G_CALLBACK (on_setup_cell), GUINT_TO_POINTER (column));
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind_cell), GUINT_TO_POINTER (column));
  made = gtk_column_view_column_new (titles[column], factory);
  gtk_column_view_column_set_sorter (made, sorter);
  gtk_column_view_column_set_resizable (made, TRUE);
  gtk_column_view_append_column (GTK_COLUMN_VIEW (self->view), made);
}

/* -- what is shown ---------------------------------------------------------------------------------------- */

static void
clear_columns (TgClassPage *self)
{
  GListModel *columns = gtk_column_view_get_columns (GTK_COLUMN_VIEW (self->view));

  while (g_list_model_get_n_items (columns) > 0)
    {
      g_autoptr (GtkColumnViewColumn) column = g_list_model_get_item (columns, 0);

      gtk_column_view_remove_column (GTK_COLUMN_VIEW (self->view), column);
    }
}

static void
show_problem (TgClassPage *self, const char *text)
{
  gtk_label_set_text (GTK_LABEL (self->problem), text ? text : "");
  gtk_widget_set_visible (self->problem, text != NULL);
}

static void
on_selected (TgClassPage *self)
{
  gpointer item = gtk_single_selection_get_selected_item (self->selection);

  gtk_widget_set_sensitive (self->open, item && !row_of (item)->reason);
}

static void
fill (TgClassPage *self)
{
  g_autoptr (GListStore) store = g_list_store_new (G_TYPE_OBJECT);
  GtkSorter *sorter = gtk_column_view_get_sorter (GTK_COLUMN_VIEW (self->view));
  GtkSortListModel *sorted;

  for (guint i = 0; i < self->table->rows->len; i++)
    {
      g_autoptr (GObject) item = g_object_new (G_TYPE_OBJECT, NULL);

      g_object_set_data (item, "row", g_ptr_array_index (self->table->rows, i));
      g_list_store_append (store, item);
    }
  for (Column column = 0; column < N_COLUMNS; column++)
    if (is_wanted (self, column))
      add_column (self, column);
  sorted = gtk_sort_list_model_new (G_LIST_MODEL (g_steal_pointer (&store)), g_object_ref (sorter));
  self->selection = gtk_single_selection_new (G_LIST_MODEL (sorted));
  g_signal_connect_object (self->selection, "notify::selected-item", G_CALLBACK (on_selected), self,
                           G_CONNECT_SWAPPED);
  gtk_column_view_set_model (GTK_COLUMN_VIEW (self->view), GTK_SELECTION_MODEL (self->selection));
  on_selected (self);
}

static void
forget (TgClassPage *self)
{
  if (self->view)
    {
      gtk_column_view_set_model (GTK_COLUMN_VIEW (self->view), NULL);
      clear_columns (self);
    }
  g_clear_object (&self->selection);
  g_clear_pointer (&self->table, tg_class_table_free);
  g_clear_pointer (&self->folder, g_free);
}

void
tg_class_page_set_folder (TgClassPage *page, const char *folder)
{
  g_autoptr (GError) error = NULL;
  g_autofree char *comparable = NULL;
  TgClassTable *table;

  g_return_if_fail (TG_IS_CLASS_PAGE (page) && folder);

  table = tg_class_table_new (folder, &error);
  show_problem (page, error                   ? error->message
                      : table->rows->len == 0 ? "There are no job files in this folder."
                                              : NULL);
  if (!table)
    return;
  forget (page);
  page->table = table;
  page->folder = g_strdup (folder);
  fill (page);
  comparable = tg_class_table_comparable (table);
  gtk_label_set_text (GTK_LABEL (page->about), table->folder);
  gtk_label_set_text (GTK_LABEL (page->comparable), comparable);
  gtk_widget_set_visible (page->comparable, table->rows->len > 0);
  gtk_widget_set_visible (page->scroller, table->rows->len > 0);
  gtk_widget_set_sensitive (page->save, table->rows->len > 0);
}

/* -- what the person does ----------------------------------------------------------------------------------- */

static void
on_folder (GtkNativeDialog *dialog, int response, TgClassPage *self)
{
  if (response == GTK_RESPONSE_ACCEPT)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;

      if (path)
        tg_class_page_set_folder (self, path);
    }
  g_clear_object (&self->chooser);
}

static void
on_file (GtkNativeDialog *dialog, int response, TgClassPage *self)
{
  if (response == GTK_RESPONSE_ACCEPT && self->table)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;
      g_autofree char *text = tg_class_table_csv (self->table);
      g_autoptr (GError) error = NULL;

      if (path)
        tg_whole_file_save (path, text, strlen (text), &error);
      show_problem (self, error ? error->message : NULL);
    }
  g_clear_object (&self->chooser);
}

static void
ask (TgClassPage *self, const char *title, GtkFileChooserAction action, const char *accept)
{
  GtkWindow *window = GTK_WINDOW (gtk_widget_get_root (GTK_WIDGET (self)));
  gboolean folder = action == GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER;

  g_clear_object (&self->chooser);
  self->chooser = gtk_file_chooser_native_new (title, window, action, accept, "_Cancel");
  if (!folder)
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (self->chooser), "class.csv");
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (self->chooser), TRUE);
  g_signal_connect_object (self->chooser, "response",
                           folder ? G_CALLBACK (on_folder) : G_CALLBACK (on_file), self, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (self->chooser));
}

static void
on_choose (TgClassPage *self)
{
  ask (self, "Choose a folder with practice jobs", GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER,
       "_Choose");
}

static void
on_save (TgClassPage *self)
{
  ask (self, "Export the class table", GTK_FILE_CHOOSER_ACTION_SAVE, "_Save");
}

static void
on_open (TgClassPage *self)
{
  gpointer item = self->selection ? gtk_single_selection_get_selected_item (self->selection) : NULL;
  g_autofree char *path = NULL;

  if (!item || row_of (item)->reason)
    return;
  path = g_build_filename (self->folder, row_of (item)->file, NULL);
  gtk_widget_activate_action (GTK_WIDGET (self), "win.open-debrief", "s", path);
}

static void
on_leave (TgClassPage *self)
{
  g_signal_emit (self, signals[SIGNAL_LEFT], 0);
}

/* -- the object ----------------------------------------------------------------------------------------------- */

static void
tg_class_page_get_property (GObject *object, guint id, GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_value_set_object (value, TG_CLASS_PAGE (object)->session);
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_class_page_set_property (GObject *object, guint id, const GValue *value, GParamSpec *pspec)
{
  if (id == PROP_SESSION)
    g_set_object (&TG_CLASS_PAGE (object)->session, g_value_get_object (value));
  else
    G_OBJECT_WARN_INVALID_PROPERTY_ID (object, id, pspec);
}

static void
tg_class_page_dispose (GObject *object)
{
  TgClassPage *self = TG_CLASS_PAGE (object);

  forget (self);
  g_clear_object (&self->chooser);
  gtk_widget_dispose_template (GTK_WIDGET (self), TG_TYPE_CLASS_PAGE);
  g_clear_object (&self->session);
  G_OBJECT_CLASS (tg_class_page_parent_class)->dispose (object);
}

static void
bind_children (GtkWidgetClass *widget_class)
{
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, head);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, about);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, choose);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, open);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, save);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, leave);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, comparable);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, problem);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, scroller);
  gtk_widget_class_bind_template_child (widget_class, TgClassPage, view);
  gtk_widget_class_bind_template_callback (widget_class, on_choose);
  gtk_widget_class_bind_template_callback (widget_class, on_open);
  gtk_widget_class_bind_template_callback (widget_class, on_save);
  gtk_widget_class_bind_template_callback (widget_class, on_leave);
}

static void
tg_class_page_class_init (TgClassPageClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_FOLD);
  object_class->get_property = tg_class_page_get_property;
  object_class->set_property = tg_class_page_set_property;
  object_class->dispose = tg_class_page_dispose;
  props[PROP_SESSION] = g_param_spec_object ("session", NULL, NULL, TG_TYPE_SESSION,
                                             G_PARAM_READWRITE | G_PARAM_STATIC_STRINGS);
  g_object_class_install_properties (object_class, N_PROPS, props);
  signals[SIGNAL_LEFT] = g_signal_new ("left", TG_TYPE_CLASS_PAGE, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                       NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/class-page.ui");
  bind_children (widget_class);
}

static void
tg_class_page_init (TgClassPage *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  /* the list of rows inside the table is what a screen reader meets */
  tg_words_name (gtk_widget_get_last_child (self->view), "Practice jobs");
}
