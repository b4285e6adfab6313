/* import-form.c: how a table is written: what was found out, and what the person says instead
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Only the choice that the person touches is said; the others go on showing what is found.
 */
#include "import-form.h"

#include <string.h>

#include "table-preview.h"
#include "words.h"

struct _TgImportForm
{
  GtkBox parent_instance;
  GtkMenuButton *button;
  GtkLabel *words;
  GtkDropDown *separator, *mark, *header, *way;
  GtkEntry *name;
  TgTableOptions said;
  gboolean filling; /* the preview writes, not the person */
};

enum
{
  CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

/* By position in the drop-downs; 0 is “found by itself”. */
static const char separators[] = { 0, ',', ';', '\t' };
static const char marks[] = { 0, '.', ',' };

G_DEFINE_FINAL_TYPE (TgImportForm, tg_import_form, GTK_TYPE_BOX)

const char *
tg_import_form_get_name (TgImportForm *self)
{
  g_return_val_if_fail (TG_IS_IMPORT_FORM (self), NULL);

  return gtk_editable_get_text (GTK_EDITABLE (self->name));
}

static guint
find (const char *among, guint n, char wanted)
{
  for (guint i = 0; i < n; i++)
    if (among[i] == wanted)
      return i;
  return 0;
}

void
tg_import_form_show (TgImportForm *self, const TgTableImport *import)
{
  const TgTableOptions *options;
  g_autofree char *form = NULL;
  g_autofree char *words = NULL;
  char mark;

  g_return_if_fail (TG_IS_IMPORT_FORM (self));

  options = import ? &import->options : &self->said;
  mark = import ? tg_table_import_mark (import) : self->said.marks[0];
  form = import ? tg_table_preview_form (import) : g_strdup ("how it is written");
  words = g_strdup_printf ("%s: %s", tg_import_form_get_name (self), form);
  self->filling = TRUE;
  gtk_drop_down_set_selected (self->separator,
                              find (separators, G_N_ELEMENTS (separators), options->separator));
  gtk_drop_down_set_selected (self->mark, find (marks, G_N_ELEMENTS (marks), mark));
  gtk_drop_down_set_selected (self->header, options->header);
  gtk_drop_down_set_selected (self->way, options->way);
  gtk_label_set_text (self->words, words);
  self->filling = FALSE;
}

void
tg_import_form_reset (TgImportForm *self, const char *name)
{
  g_return_if_fail (TG_IS_IMPORT_FORM (self));

  memset (&self->said, 0, sizeof self->said);
  self->filling = TRUE;
  gtk_editable_set_text (GTK_EDITABLE (self->name), name);
  self->filling = FALSE;
}

void
tg_import_form_apply (TgImportForm *self, TgTableOptions *options)
{
  g_return_if_fail (TG_IS_IMPORT_FORM (self));

  if (options->separator != self->said.separator)
    memset (options->columns, 0, sizeof options->columns);
  options->separator = self->said.separator;
  memcpy (options->marks, self->said.marks, sizeof options->marks);
  options->header = self->said.header;
  options->way = self->said.way;
}

static void
on_changed (TgImportForm *self, G_GNUC_UNUSED GParamSpec *pspec, GtkDropDown *choice)
{
  guint at = gtk_drop_down_get_selected (choice);

  if (self->filling || at == GTK_INVALID_LIST_POSITION)
    return;
  if (choice == self->separator)
    self->said.separator = separators[at];
  else if (choice == self->mark)
    memset (self->said.marks, marks[at], sizeof self->said.marks);
  else if (choice == self->header)
    self->said.header = (TgTableHeader) at;
  else
    self->said.way = (TgWay) at;
  g_signal_emit (self, signals[CHANGED], 0);
}

static void
on_name (TgImportForm *self)
{
  if (!self->filling)
    g_signal_emit (self, signals[CHANGED], 0);
}

static void
tg_import_form_dispose (GObject *object)
{
  gtk_widget_dispose_template (GTK_WIDGET (object), TG_TYPE_IMPORT_FORM);
  G_OBJECT_CLASS (tg_import_form_parent_class)->dispose (object);
}

static void
tg_import_form_class_init (TgImportFormClass *klass)
{
  GtkWidgetClass *widget_class = GTK_WIDGET_CLASS (klass);

  G_OBJECT_CLASS (klass)->dispose = tg_import_form_dispose;
  signals[CHANGED] = g_signal_new ("changed", TG_TYPE_IMPORT_FORM, G_SIGNAL_RUN_LAST, 0, NULL, NULL,
                                   NULL, G_TYPE_NONE, 0);
  gtk_widget_class_set_template_from_resource (widget_class,
                                               "/io/github/tenthgram/Tenthgram/ui/import-form.ui");
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, button);
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, words);
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, separator);
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, mark);
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, header);
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, way);
  gtk_widget_class_bind_template_child (widget_class, TgImportForm, name);
  gtk_widget_class_bind_template_callback (widget_class, on_name);
}

static void
tg_import_form_init (TgImportForm *self)
{
  GtkDropDown *choices[4];
  static const char *const names[] = { "What parts the columns", "Decimal mark", "Headings",
                                       "Ends without a way up" };

  gtk_widget_init_template (GTK_WIDGET (self));
  choices[0] = self->separator;
  choices[1] = self->mark;
  choices[2] = self->header;
  choices[3] = self->way;
  for (guint i = 0; i < G_N_ELEMENTS (choices); i++)
    {
      tg_words_name_choice (choices[i], names[i]);
      g_signal_connect_object (choices[i], "notify::selected", G_CALLBACK (on_changed), self,
                               G_CONNECT_SWAPPED);
    }
  tg_words_name_menu (self->button, "How the table is written");
}
