/* window-paper.c: sheets and cards out of the window: to a file, to a printer
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where paper is shown, what is shown; on every other page the grind sheet.
 */
#include "window-private.h"

#include <string.h>

#include "document.h"
#include "later.h"
#include "paper-print.h"

/* (nullable): the view of the paper, if it is the one that the person looks at. */
static TgPaperView *
shown_paper (TgWindow *self)
{
  GtkWidget *prove = tg_later_peek (TG_LATER (self->prove));

  if (!prove || g_strcmp0 (tg_window_page (self), "prove") != 0)
    return NULL;
  return strcmp (tg_prove_page_view (TG_PROVE_PAGE (prove)), "paper") == 0
             ? tg_prove_page_paper (TG_PROVE_PAGE (prove))
             : NULL;
}

static TgDocumentKind
wanted_kind (TgWindow *self)
{
  TgPaperView *view = shown_paper (self);

  return view ? tg_paper_view_kind (view) : TG_DOCUMENT_GRIND;
}

static TgPaper
wanted_paper (TgWindow *self)
{
  TgPaperView *view = shown_paper (self);

  return view ? tg_paper_view_paper (view) : tg_paper_usual ();
}

static void
save_to (TgWindow *self, TgDocumentKind kind, const char *path)
{
  g_autoptr (GError) error = NULL;

  if (!tg_paper_save (tg_session_job (self->session), tg_session_review (self->session), kind,
                      wanted_paper (self), path, &error))
    tg_window_report_failure (self, error->message);
}

static void
on_sheet_response (GtkNativeDialog *dialog, int response, TgWindow *self)
{
  if (response == GTK_RESPONSE_ACCEPT && self->session)
    {
      g_autoptr (GFile) file = gtk_file_chooser_get_file (GTK_FILE_CHOOSER (dialog));
      g_autofree char *path = file ? g_file_get_path (file) : NULL;
      gpointer kind = g_object_get_data (G_OBJECT (dialog), "kind");

      if (path)
        save_to (self, (TgDocumentKind) GPOINTER_TO_UINT (kind), path);
    }
  g_object_unref (dialog);
}

void
tg_window_act_save_sheet (GtkWidget *widget,
                          G_GNUC_UNUSED const char *name,
                          G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);
  TgDocumentKind kind = wanted_kind (self);
  g_autofree char *label = g_ascii_strdown (tg_document_kind_label (kind), -1);
  g_autofree char *title = g_strdup_printf ("Save the %s", label);
  GtkFileChooserNative *dialog = gtk_file_chooser_native_new (
      title, GTK_WINDOW (widget), GTK_FILE_CHOOSER_ACTION_SAVE, "_Save", "_Cancel");
  g_autofree char *base = g_strdelimit (
      g_strdup_printf ("%s, %s.pdf", tg_session_review (self->session)->setup->name, label),
      "/\\:", '-');

  gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (dialog), base);
  g_object_set_data (G_OBJECT (dialog), "kind", GUINT_TO_POINTER (kind));
  gtk_native_dialog_set_modal (GTK_NATIVE_DIALOG (dialog), TRUE);
  g_signal_connect_object (dialog, "response", G_CALLBACK (on_sheet_response), widget, 0);
  gtk_native_dialog_show (GTK_NATIVE_DIALOG (dialog));
}

void
tg_window_act_print (GtkWidget *widget,
                     G_GNUC_UNUSED const char *name,
                     G_GNUC_UNUSED GVariant *parameter)
{
  TgWindow *self = TG_WINDOW (widget);
  g_autoptr (GError) error = NULL;

  if (!tg_paper_print (tg_session_job (self->session), wanted_kind (self), wanted_paper (self),
                       GTK_WINDOW (widget), NULL, &error) &&
      error)
    tg_window_report_failure (self, error->message);
}
