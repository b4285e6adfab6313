/* document-file.c: a document as a PDF, SVG or PNG file, see document.h
 *
 * The document is drawn to memory first and then put in place in one step, so that no half file is ever
 * seen.  A PDF is dated by the last entry of the journal (1970 for a job without entries), never by
 * the clock.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "document-private.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <math.h>

#include "error.h"
#include "whole-file.h"

static cairo_status_t
collect (void *data, const unsigned char *bytes, unsigned int n)
{
  g_byte_array_append (data, bytes, n);
  return CAIRO_STATUS_SUCCESS;
}

static void
date_pdf (cairo_surface_t *pdf, const TgJob *job)
{
  guint n = tg_job_n_events (job);
  TgStamp stamp = { 0, 0 };
  char date[TG_STAMP_SIZE];

  if (n > 0)
    stamp = tg_job_event (job, n - 1)->stamp;
  tg_stamp_format (stamp, date);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_CREATE_DATE, date);
  cairo_pdf_surface_set_metadata (pdf, CAIRO_PDF_METADATA_TITLE, tg_job_setup (job)->name);
}

/* Pages below one another on one surface. */
static void
draw_strip (cairo_t *cr, const TgDocument *document, guint n_pages)
{
  for (guint i = 0; i < n_pages; i++)
    {
      cairo_save (cr);
      cairo_translate (cr, 0, i * document->paper.height_pt);
      tg_document_draw_page (cr, document, i);
      cairo_restore (cr);
    }
}

static cairo_status_t
write_pdf (const TgDocument *document, guint n, GByteArray *bytes)
{
  cairo_surface_t *pdf = cairo_pdf_surface_create_for_stream (
      collect, bytes, document->paper.width_pt, document->paper.height_pt);
  cairo_t *cr = cairo_create (pdf);
  cairo_status_t status;

  date_pdf (pdf, document->job);
  for (guint i = 0; i < n; i++)
    {
      tg_document_draw_page (cr, document, i);
      cairo_show_page (cr);
    }
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (pdf);
  status = status ? status : cairo_surface_status (pdf);
  cairo_surface_destroy (pdf);
  return status;
}

static cairo_status_t
write_svg (const TgDocument *document, guint n, GByteArray *bytes)
{
  cairo_surface_t *svg = cairo_svg_surface_create_for_stream (
      collect, bytes, document->paper.width_pt, n * document->paper.height_pt);
  cairo_t *cr = cairo_create (svg);
  cairo_status_t status;

  draw_strip (cr, document, n);
  status = cairo_status (cr);
  cairo_destroy (cr);
  cairo_surface_finish (svg);
  status = status ? status : cairo_surface_status (svg);
  cairo_surface_destroy (svg);
  return status;
}

static cairo_status_t
write_png (const TgDocument *document, guint n, GByteArray *bytes)
{
  /* twice 72 to the inch, less where cairo's largest image (32767 px) would not hold the strip */
  double scale = MIN (2, 32000 / (n * document->paper.height_pt));
  cairo_surface_t *png = cairo_image_surface_create (
      CAIRO_FORMAT_RGB24, (int) ceil (scale * document->paper.width_pt),
      (int) ceil (scale * n * document->paper.height_pt));
  cairo_t *cr = cairo_create (png);
  cairo_status_t status;

  cairo_set_source_rgb (cr, 1, 1, 1);
  cairo_paint (cr);
  cairo_scale (cr, scale, scale);
  draw_strip (cr, document, n);
  status = cairo_status (cr);
  cairo_destroy (cr);
  status = status ? status : cairo_surface_write_to_png_stream (png, collect, bytes);
  cairo_surface_destroy (png);
  return status;
}

gboolean
tg_document_write (const TgDocument *document, const char *path, GError **error)
{
  static const struct
  {
    const char *ending;
    cairo_status_t (*write) (const TgDocument *, guint, GByteArray *);
  } formats[] = { { ".pdf", write_pdf }, { ".svg", write_svg }, { ".png", write_png } };
  g_autoptr (GByteArray) bytes = g_byte_array_new ();
  guint n = tg_document_n_pages (document), i = 0;
  cairo_status_t status;

  while (i < G_N_ELEMENTS (formats) && !g_str_has_suffix (path, formats[i].ending))
    i++;
  if (i == G_N_ELEMENTS (formats))
    {
      g_set_error (error, TG_ERROR, TG_ERROR_SYNTAX,
                   "“%s”: a sheet is written as .pdf, .svg or .png", path);
      return FALSE;
    }
  status = formats[i].write (document, n, bytes);
  if (status != CAIRO_STATUS_SUCCESS)
    {
      g_set_error (error, TG_ERROR, TG_ERROR_IO, "“%s” could not be drawn: %s", path,
                   cairo_status_to_string (status));
      return FALSE;
    }
  return tg_whole_file_save (path, (const char *) bytes->data, bytes->len, error);
}
