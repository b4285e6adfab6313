/* import-row.c: one row of a previewed table: what it gives, and its cells
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What becomes of a row is said in words and by a sign; colour only helps.
 */
#include "import-row.h"

#include "clamp.h"
#include "storable.h"
#include "table-preview.h"
#include "words.h"

struct _TgImportRow
{
  GtkBox parent_instance;
  GtkLabel *line;
  GtkImage *sign;
  GtkLabel *status;
  GtkLabel *gives;
  GtkBox *cells;
  guint n_cells;
};

G_DEFINE_FINAL_TYPE (TgImportRow, tg_import_row, GTK_TYPE_BOX)

GtkWidget *
tg_import_row_new (void)
{
  return g_object_new (TG_TYPE_IMPORT_ROW, NULL);
}

static void
set_class (gpointer widget, const char *name, gboolean on)
{
  if (on)
    gtk_widget_add_css_class (widget, name);
  else
    gtk_widget_remove_css_class (widget, name);
}

static void
show_status (TgImportRow *self, const TgTableRow *row)
{
  g_autofree char *status = tg_table_preview_status (row);
  gboolean new = FALSE;

  for (guint e = 0; e < row->events->len; e++)
    new = new || !g_array_index (row->events, TgTableEvent, e).known;
  gtk_label_set_text (self->status, status);
  gtk_image_set_from_icon_name (self->sign, row->problem ? "dialog-warning-symbolic"
                                            : new        ? "list-add-symbolic"
                                                         : "object-select-symbolic");
  set_class (self->sign, "alert", row->problem != NULL);
  set_class (self->status, "alert", row->problem != NULL);
  set_class (self->sign, "good", new);
  set_class (self->status, "good", new);
  set_class (self->status, "strong", row->problem || new);
  set_class (self->gives, "quiet", !row->problem);
}

static void
set_n_cells (TgImportRow *self, guint n)
{
  for (; self->n_cells > n; self->n_cells--)
    gtk_box_remove (self->cells, gtk_widget_get_last_child (GTK_WIDGET (self->cells)));
  for (; self->n_cells < n; self->n_cells++)
    gtk_box_append (self->cells,
                    g_object_new (GTK_TYPE_LABEL, "xalign", 0.0, "yalign", 0.0, "ellipsize",
                                  PANGO_ELLIPSIZE_END, "width-chars", TG_IMPORT_CELL_CHARS,
                                  "max-width-chars", TG_IMPORT_CELL_CHARS, NULL));
}

void
tg_import_row_show (TgImportRow *self,
                    const TgTableRow *row,
                    const TgReview *review,
                    guint n_columns)
{
  g_autofree char *line = g_strdup_printf ("%u", row->line);
  g_autofree char *gives = tg_table_preview_row_short (row, review);
  GtkWidget *cell;

  g_return_if_fail (TG_IS_IMPORT_ROW (self));

  gtk_label_set_text (self->line, line);
  tg_words_show (self->gives, gives);
  show_status (self, row);
  set_n_cells (self, n_columns);
  cell = gtk_widget_get_first_child (GTK_WIDGET (self->cells));
  for (guint c = 0; cell; c++, cell = gtk_widget_get_next_sibling (cell))
    {
      const char *text = c < row->cells->len ? g_ptr_array_index (row->cells, c) : "";
      g_autofree char *shown = tg_storable_shorten (text);

      gtk_label_set_text (GTK_LABEL (cell), shown);
    }
}

static void
tg_import_row_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_IMPORT_ROW);
  G_OBJECT_CLASS (tg_import_row_parent_class)->dispose (object);
}

static void
tg_import_row_class_init (TgImportRowClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  g_type_ensure (TG_TYPE_CLAMP);
  G_OBJECT_CLASS (klass)->dispose = tg_import_row_dispose;
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/import-row.ui");
  gtk_widget_class_bind_template_child (widget_class, TgImportRow, line);
  gtk_widget_class_bind_template_child (widget_class, TgImportRow, sign);
  gtk_widget_class_bind_template_child (widget_class, TgImportRow, status);
  gtk_widget_class_bind_template_child (widget_class, TgImportRow, gives);
  gtk_widget_class_bind_template_child (widget_class, TgImportRow, cells);
}

static void
tg_import_row_init (TgImportRow *self)
{
  gtk_widget_init_template (GTK_WIDGET (self));
  gtk_label_set_width_chars (self->line, TG_IMPORT_LINE_CHARS);
  gtk_label_set_width_chars (self->gives, TG_IMPORT_GIVES_CHARS);
  gtk_label_set_max_width_chars (self->gives, TG_IMPORT_GIVES_CHARS);
}
