/* import-columns.c: the heads of a previewed table, each with what stands in the column
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "import-columns.h"

#include "import-row.h"
#include "storable.h"
#include "words.h"

struct _TgImportColumns
{
  GtkBox parent_instance;
  GtkWidget *cells;
  GtkStringList *labels;
  guint n_cells;
  gboolean filling; /* the preview writes, not the person */
};

enum
{
  CHOSEN,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgImportColumns, tg_import_columns, GTK_TYPE_BOX)

static void
on_selected (GtkDropDown *choice, G_GNUC_UNUSED GParamSpec *pspec, TgImportColumns *self)
{
  guint column = GPOINTER_TO_UINT (g_object_get_data (G_OBJECT (choice), "column"));

  if (!self->filling)
    g_signal_emit (self, signals[CHOSEN], 0, column, gtk_drop_down_get_selected (choice));
}

/* The words on the button may need two lines. */
static void
on_setup (G_GNUC_UNUSED GtkSignalListItemFactory *factory, GtkListItem *item)
{
  gtk_list_item_set_child (item, g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, "wrap", TRUE,
                                               "width-chars", 10, "max-width-chars", 10, NULL));
}

static void
on_setup_popup (G_GNUC_UNUSED GtkSignalListItemFactory *factory, GtkListItem *item)
{
  gtk_list_item_set_child (item, g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, NULL));
}

static void
on_bind (G_GNUC_UNUSED GtkSignalListItemFactory *factory, GtkListItem *item)
{
  GtkStringObject *text = gtk_list_item_get_item (item);

  gtk_label_set_text (GTK_LABEL (gtk_list_item_get_child (item)),
                      gtk_string_object_get_string (text));
}

static GtkListItemFactory *
make_factory (GCallback setup)
{
  GtkListItemFactory *factory = gtk_signal_list_item_factory_new ();

  g_signal_connect (factory, "setup", setup, NULL);
  g_signal_connect (factory, "bind", G_CALLBACK (on_bind), NULL);
  return factory;
}

static GtkWidget *
make_label (const char *text, int chars, double xalign)
{
  GtkWidget *label = g_object_new (GTK_TYPE_LABEL, "label", text, "xalign", xalign, "ellipsize",
                                   PANGO_ELLIPSIZE_END, "width-chars", chars, "max-width-chars",
                                   chars, "valign", GTK_ALIGN_START, NULL);

  gtk_widget_add_css_class (label, "quiet");
  return label;
}

static GtkWidget *
make_cell (TgImportColumns *self, guint column)
{
  GtkWidget *cell = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  GtkWidget *choice = gtk_drop_down_new (G_LIST_MODEL (g_object_ref (self->labels)), NULL);
  g_autoptr (GtkListItemFactory) button = make_factory (G_CALLBACK (on_setup));
  g_autoptr (GtkListItemFactory) popup = make_factory (G_CALLBACK (on_setup_popup));

  gtk_drop_down_set_factory (GTK_DROP_DOWN (choice), button);
  gtk_drop_down_set_list_factory (GTK_DROP_DOWN (choice), popup);
  gtk_widget_set_vexpand (choice, TRUE);
  g_object_set_data (G_OBJECT (choice), "column", GUINT_TO_POINTER (column));
  g_signal_connect (choice, "notify::selected", G_CALLBACK (on_selected), self);
  gtk_box_append (GTK_BOX (cell), make_label ("", TG_IMPORT_CELL_CHARS, 0));
  gtk_box_append (GTK_BOX (cell), choice);
  return cell;
}

static void
show_cell (GtkWidget *cell, const TgTableImport *import, guint column)
{
  GtkWidget *label = gtk_widget_get_first_child (cell);
  GtkDropDown *choice = GTK_DROP_DOWN (gtk_widget_get_last_child (cell));
  g_autofree char *title = tg_storable_shorten (g_ptr_array_index (import->titles, column));
  g_autofree char *name = NULL;

  if (title[0] == '\0')
    {
      g_free (title);
      title = g_strdup_printf ("Column %u", column + 1);
    }
  name = g_strdup_printf ("What stands in %s", title);
  gtk_label_set_text (GTK_LABEL (label), title);
  tg_words_name_choice (choice, name);
  gtk_drop_down_set_selected (choice, import->options.columns[column]);
}

void
tg_import_columns_show (TgImportColumns *self, const TgTableImport *import)
{
  GtkWidget *cell;

  g_return_if_fail (TG_IS_IMPORT_COLUMNS (self));

  self->filling = TRUE;
  for (; self->n_cells > import->n_columns; self->n_cells--)
    gtk_box_remove (GTK_BOX (self->cells), gtk_widget_get_last_child (self->cells));
  for (; self->n_cells < import->n_columns; self->n_cells++)
    gtk_box_append (GTK_BOX (self->cells), make_cell (self, self->n_cells));
  cell = gtk_widget_get_first_child (self->cells);
  for (guint c = 0; cell; c++, cell = gtk_widget_get_next_sibling (cell))
    show_cell (cell, import, c);
  self->filling = FALSE;
}

static void
tg_import_columns_finalize (GObject *object)
{
  g_object_unref (TG_IMPORT_COLUMNS (object)->labels);
  G_OBJECT_CLASS (tg_import_columns_parent_class)->finalize (object);
}

static void
tg_import_columns_class_init (TgImportColumnsClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tg_import_columns_finalize;
  signals[CHOSEN] = g_signal_new ("chosen", TG_TYPE_IMPORT_COLUMNS, G_SIGNAL_RUN_LAST, 0, NULL,
                                  NULL, NULL, G_TYPE_NONE, 2, G_TYPE_UINT, G_TYPE_UINT);
}

static void
tg_import_columns_init (TgImportColumns *self)
{
  self->labels = gtk_string_list_new (NULL);
  for (guint c = 0; c < TG_N_COLUMNS; c++)
    gtk_string_list_append (self->labels, tg_column_label ((TgColumn) c));
  self->cells = g_object_new (GTK_TYPE_BOX, "homogeneous", TRUE, "hexpand", TRUE, "spacing", 8,
                              NULL);
  gtk_box_set_spacing (GTK_BOX (self), 12);
  gtk_widget_add_css_class (GTK_WIDGET (self), "import-row");
  gtk_widget_add_css_class (GTK_WIDGET (self), "import-head");
  gtk_box_append (GTK_BOX (self), make_label ("Line", TG_IMPORT_LINE_CHARS, 1));
  gtk_box_append (GTK_BOX (self), make_label ("What it gives", TG_IMPORT_GIVES_CHARS, 0));
  gtk_box_append (GTK_BOX (self), self->cells);
}
