/* window-tables.c: tables into the window and out of it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A table comes by the menu, pasted or dropped; each way leads to the import page, where it is shown
 * before anything is taken over.
 */
#include "window-private.h"

#include <string.h>

#include "import-page.h"
#include "reading-entry.h"
#include "table-export.h"
#include "whole-file.h"

/* -- in --------------------------------------------------------------------------------------- */

static void
on_left (TgWindow *self)
{
  tg_window_show_page (self, self->before_import ? self->before_import : "weigh");
}

/* Shows the import page. */
static TgImportPage *
go_to_import (TgWindow *self)
{
  GtkWidget *page = tg_later_peek (TG_LATER (self->import));

  if (!page)
    {
      page = tg_later_get (TG_LATER (self->import));
      g_signal_connect_object (page, "left", G_CALLBACK (on_left), self, G_CONNECT_SWAPPED);
    }
  if (g_strcmp0 (tg_window_page (self), "import") != 0)
    self->before_import = g_intern_string (tg_window_page (self));
  tg_window_show_page (self, "import");
  return TG_IMPORT_PAGE (page);
}

void
tg_window_act_import (GtkWidget *widget,
                      G_GNUC_UNUSED const char *name,
                      G_GNUC_UNUSED GVariant *parameter)
{
  if (TG_WINDOW (widget)->session)
    go_to_import (TG_WINDOW (widget));
}

static void
import_text (TgWindow *self, const char *text)
{
  tg_import_page_set_text (go_to_import (self), text, strlen (text), TG_IMPORT_PASTED);
}

/* More than one line or more than one column. */
static gboolean
is_table (const char *text)
{
  g_autofree char *bare = g_strstrip (g_strdup (text));

  return strpbrk (bare, "\r\n\t") != NULL;
}

static void
on_clipboard (GObject *clipboard, GAsyncResult *result, gpointer data)
{
  g_autoptr (TgWindow) self = data; /* a window that was closed meanwhile has no session */
  g_autofree char *text = gdk_clipboard_read_text_finish (GDK_CLIPBOARD (clipboard), result, NULL);
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));

  if (!self->session || !text)
    return;
  if (is_table (text))
    import_text (self, text);
  else if (focus && GTK_IS_TEXT (focus))
    gtk_widget_activate_action (focus, "clipboard.paste", NULL);
}

/* Fields for words keep what is pasted; the field for a reading has no use for a table. */
static gboolean
on_paste_key (G_GNUC_UNUSED GtkEventControllerKey *keys,
              guint key,
              G_GNUC_UNUSED guint code,
              GdkModifierType state,
              TgWindow *self)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (self));
  gboolean words = focus && (GTK_IS_TEXT (focus) || GTK_IS_TEXT_VIEW (focus)) &&
                   !gtk_widget_get_ancestor (focus, TG_TYPE_READING_ENTRY);

  if (!self->session || words || gdk_keyval_to_lower (key) != GDK_KEY_v ||
      (state & gtk_accelerator_get_default_mod_mask ()) != GDK_CONTROL_MASK)
    return GDK_EVENT_PROPAGATE;
  if (g_strcmp0 (tg_window_page (self), "import") == 0)
    tg_import_page_paste (go_to_import (self));
  else
    gdk_clipboard_read_text_async (gtk_widget_get_clipboard (GTK_WIDGET (self)), NULL, on_clipboard,
                                   g_object_ref (self));
  return GDK_EVENT_STOP;
}

static gboolean
drop_file (TgWindow *self, GFile *file)
{
  g_autofree char *path = g_file_get_path (file);

  if (!path)
    tg_window_report_failure (self, "Only files on this computer can be dropped here.");
  else if (g_str_has_suffix (path, ".tenthgram"))
    gtk_widget_activate_action (GTK_WIDGET (self), "win.open-path", "s", path);
  else if (!self->session)
    tg_window_report_failure (self, "A table needs a job that its readings belong to: open the job "
                                    "first, then drop the table.");
  else
    tg_import_page_load (go_to_import (self), path);
  return path != NULL;
}

static gboolean
on_drop (G_GNUC_UNUSED GtkDropTarget *target,
         const GValue *value,
         G_GNUC_UNUSED double x,
         G_GNUC_UNUSED double y,
         TgWindow *self)
{
  if (G_VALUE_HOLDS (value, GDK_TYPE_FILE_LIST))
    {
      GSList *files = g_value_get_boxed (value);

      return files && drop_file (self, files->data);
    }
  if (!self->session || !G_VALUE_HOLDS_STRING (value) || !g_value_get_string (value))
    return FALSE;
  import_text (self, g_value_get_string (value));
  return TRUE;
}

void
tg_window_take_tables (TgWindow *window)
{
  GType types[] = { GDK_TYPE_FILE_LIST, G_TYPE_STRING };
  GtkDropTarget *target = gtk_drop_target_new (G_TYPE_INVALID, GDK_ACTION_COPY);
  GtkEventController *keys = gtk_event_controller_key_new ();

  gtk_drop_target_set_gtypes (target, types, G_N_ELEMENTS (types));
  g_signal_connect (target, "drop", G_CALLBACK (on_drop), window);
  gtk_widget_add_controller (GTK_WIDGET (window), GTK_EVENT_CONTROLLER (target));
  gtk_event_controller_set_propagation_phase (keys, GTK_PHASE_CAPTURE);
  g_signal_connect (keys, "key-pressed", G_CALLBACK (on_paste_key), window);
  gtk_widget_add_controller (GTK_WIDGET (window), keys);
}

/* -- out -------------------------------------------------------------------------------------- */

static void
export_to (TgWindow *self, TgTableKind kind, const char *path)
{
  g_autofree char *table = tg_table_export (tg_session_job (self->session),
                                            tg_session_review (self->session), kind);
  g_autofree char *name = g_filename_display_basename (path);
  g_autofree char *text = g_strdup_printf ("Saved as %s", name);
  g_autoptr (GError) error = NULL;

  if (tg_whole_file_save (path, table, strlen (table), &error))
    tg_window_show_toast (self, text, FALSE);
  else
    tg_window_report_failure (self, error->message);
}

static void
on_export_response (GtkNativeDialog *dialog, int response, TgWindow *self)
{
  if (response == GTK_RESPONSE_ACCEPT && self->session)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;
      gpointer kind = g_object_get_data (G_OBJECT (dialog), "kind");

      if (path)
        export_to (self, (TgTableKind) GPOINTER_TO_INT (kind), path);
    }
  g_object_unref (dialog);
}

void
tg_window_act_export (GtkWidget *widget, G_GNUC_UNUSED const char *name, GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);
  const char *word = g_variant_get_string (parameter, NULL);
  GtkFileChooserNative *dialog;
  g_autofree char *base = NULL;
  TgTableKind kind;

  if (!self->session || !tg_table_kind_from_word (word, &kind))
    return;
  base = g_strdup_printf ("%s, %s.csv", tg_session_review (self->session)->setup->name, word);
  g_strdelimit (base, "/\\:", '-');
  dialog = gtk_file_chooser_native_new ("Export as a table", GTK_WINDOW (widget),
                                        GTK_FILE_CHOOSER_ACTION_SAVE, "_Save", "_Cancel");
  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), base);
  g_object_set_data (G_OBJECT (dialog), "kind", GINT_TO_POINTER (kind));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_export_response), widget, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}
