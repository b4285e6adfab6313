/* import-model.c: the rows of a previewed table as a list
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "import-model.h"

struct _TgImportLine
{
  GObject parent_instance;
  const TgTableRow *row;
};

G_DEFINE_FINAL_TYPE (TgImportLine, tg_import_line, G_TYPE_OBJECT)

static void
tg_import_line_class_init (TgImportLineClass *klass G_GNUC_UNUSED)
{
}

static void
tg_import_line_init (TgImportLine *self G_GNUC_UNUSED)
{
}

const TgTableRow *
tg_import_line_get_row (TgImportLine *self)
{
  g_return_val_if_fail (TG_IS_IMPORT_LINE (self), NULL);

  return self->row;
}

struct _TgImportModel
{
  GObject parent_instance;
  GPtrArray *rows; /* const TgTableRow */
};

static void tg_import_model_list_init (GListModelInterface *iface);

G_DEFINE_FINAL_TYPE_WITH_CODE (TgImportModel,
                               tg_import_model,
                               G_TYPE_OBJECT,
                               G_IMPLEMENT_INTERFACE (G_TYPE_LIST_MODEL, tg_import_model_list_init))

TgImportModel *
tg_import_model_new (void)
{
  return g_object_new (TG_TYPE_IMPORT_MODEL, NULL);
}

static GType
get_item_type (GListModel *model G_GNUC_UNUSED)
{
  return TG_TYPE_IMPORT_LINE;
}

static guint
get_n_items (GListModel *model)
{
  return TG_IMPORT_MODEL (model)->rows->len;
}

static gpointer
get_item (GListModel *model, guint position)
{
  TgImportModel *self = TG_IMPORT_MODEL (model);
  TgImportLine *line;

  if (position >= self->rows->len)
    return NULL;
  line = g_object_new (TG_TYPE_IMPORT_LINE, NULL);
  line->row = g_ptr_array_index (self->rows, position);
  return line;
}

static void
tg_import_model_list_init (GListModelInterface *iface)
{
  iface->get_item_type = get_item_type;
  iface->get_n_items = get_n_items;
  iface->get_item = get_item;
}

void
tg_import_model_set (TgImportModel *self, const TgTableImport *import, gboolean only_problems)
{
  guint before;

  g_return_if_fail (TG_IS_IMPORT_MODEL (self));

  before = self->rows->len;
  g_ptr_array_set_size (self->rows, 0);
  for (guint r = 0; import && r < import->rows->len; r++)
    {
      TgTableRow *row = g_ptr_array_index (import->rows, r);

      if (!only_problems || row->problem)
        g_ptr_array_add (self->rows, row);
    }
  g_list_model_items_changed (G_LIST_MODEL (self), 0, before, self->rows->len);
}

static void
tg_import_model_finalize (GObject *object)
{
  g_ptr_array_unref (TG_IMPORT_MODEL (object)->rows);
  G_OBJECT_CLASS (tg_import_model_parent_class)->finalize (object);
}

static void
tg_import_model_class_init (TgImportModelClass *klass)
{
  G_OBJECT_CLASS (klass)->finalize = tg_import_model_finalize;
}

static void
tg_import_model_init (TgImportModel *self)
{
  self->rows = g_ptr_array_new ();
}
