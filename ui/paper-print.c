/* paper-print.c: a document to the printer, to a file
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pages have their margins in themselves, so the printer is asked for the full page.  Where the
 * person picks another paper in the dialogue, each page is fitted to it as a whole.
 */
#include "paper-print.h"

typedef struct
{
  TgJob *job;
  TgReview *review;
  TgDocument *document;
} Printing;

static void
printing_free (Printing *printing)
{
  tg_document_free (printing->document);
  tg_review_free (printing->review);
  tg_job_free (printing->job);
  g_free (printing);
}

static void
on_draw_page (G_GNUC_UNUSED GtkPrintOperation *operation,
              GtkPrintContext *context,
              int page,
              Printing *printing)
{
  TgPaper paper = tg_document_paper (printing->document);
  cairo_t *cr = gtk_print_context_get_cairo_context (context);
  double width = gtk_print_context_get_width (context);
  double height = gtk_print_context_get_height (context);
  double scale = MIN (width / paper.width_pt, height / paper.height_pt);

  cairo_save (cr);
  cairo_translate (cr, (width - scale * paper.width_pt) / 2, 0);
  cairo_scale (cr, scale, scale);
  tg_document_draw_page (cr, printing->document, (guint) page);
  cairo_restore (cr);
}

/* No printer margins: the pages have their own. */
static GtkPageSetup *
page_setup (TgPaper paper)
{
  GtkPageSetup *setup = gtk_page_setup_new ();
  gboolean letter = paper.width_pt > TG_PAPER_A4.width_pt;
  GtkPaperSize *size = gtk_paper_size_new (letter ? GTK_PAPER_NAME_LETTER : GTK_PAPER_NAME_A4);

  gtk_page_setup_set_paper_size (setup, size);
  gtk_page_setup_set_top_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_page_setup_set_bottom_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_page_setup_set_left_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_page_setup_set_right_margin (setup, 0, GTK_UNIT_POINTS);
  gtk_paper_size_free (size);
  return setup;
}

gboolean
tg_paper_print (const TgJob *job,
                TgDocumentKind kind,
                TgPaper paper,
                GtkWindow *parent,
                const char *path,
                GError **error)
{
  g_autoptr (GtkPrintOperation) operation = gtk_print_operation_new ();
  g_autoptr (GtkPageSetup) setup = page_setup (paper);
  Printing *printing = g_new0 (Printing, 1);
  g_autofree char *name = NULL;
  GtkPrintOperationResult result;

  printing->job = tg_job_copy (job);
  printing->review = tg_review_new (printing->job);
  printing->document = tg_document_new (printing->job, printing->review, kind, paper);
  name = g_strdup_printf ("%s – %s", printing->review->setup->name, tg_document_kind_label (kind));
  g_object_set_data_full (G_OBJECT (operation), "printing", printing,
                          (GDestroyNotify) printing_free);
  gtk_print_operation_set_n_pages (operation, (int) tg_document_n_pages (printing->document));
  gtk_print_operation_set_job_name (operation, name);
  gtk_print_operation_set_unit (operation, GTK_UNIT_POINTS);
  gtk_print_operation_set_use_full_page (operation, TRUE);
  gtk_print_operation_set_embed_page_setup (operation, TRUE);
  gtk_print_operation_set_default_page_setup (operation, setup);
  if (path)
    gtk_print_operation_set_export_filename (operation, path);
  g_signal_connect (operation, "draw-page", G_CALLBACK (on_draw_page), printing);
  result = gtk_print_operation_run (
      operation, path ? GTK_PRINT_OPERATION_ACTION_EXPORT : GTK_PRINT_OPERATION_ACTION_PRINT_DIALOG,
      parent, error);
  return result == GTK_PRINT_OPERATION_RESULT_APPLY;
}

gboolean
tg_paper_save (const TgJob *job,
               const TgReview *review,
               TgDocumentKind kind,
               TgPaper paper,
               const char *path,
               GError **error)
{
  g_autoptr (TgDocument) document = tg_document_new (job, review, kind, paper);

  return tg_document_write (document, path, error);
}

TgPaper
tg_paper_usual (void)
{
  return g_str_equal (gtk_paper_size_get_default (), GTK_PAPER_NAME_LETTER) ? TG_PAPER_LETTER
                                                                            : TG_PAPER_A4;
}
