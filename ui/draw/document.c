/* document.c: everything that is printed, see document.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "document.h"

#include "word.h"

TG_DEFINE_WORDS (TgDocumentKind, document_kind, "weigh", "grind", "proof", "bobweight", "build")

struct _TgDocument
{
  const TgJob *job;
  const TgReview *review;
  TgDocumentKind kind;
  TgPaper paper;
};

const char *
tg_document_kind_label (TgDocumentKind kind)
{
  static const char *const labels[TG_N_DOCUMENT_KINDS] = { "Weigh sheet", "Grind sheet",
                                                           "Proof card", "Bobweight card",
                                                           "Build cards" };

  g_return_val_if_fail ((guint) kind < TG_N_DOCUMENT_KINDS, NULL);

  return labels[kind];
}

TgDocument *
tg_document_new (const TgJob *job, const TgReview *review, TgDocumentKind kind, TgPaper paper)
{
  TgDocument *document = g_new0 (TgDocument, 1);

  document->job = job;
  document->review = review;
  document->kind = kind;
  document->paper = paper;
  return document;
}

void
tg_document_free (TgDocument *document)
{
  g_free (document);
}

guint
tg_document_n_pages (const TgDocument *document)
{
  return tg_sheet_n_pages (document->job, document->review, document->paper);
}

TgPaper
tg_document_paper (const TgDocument *document)
{
  return document->paper;
}

void
tg_document_draw_page (cairo_t *cr, const TgDocument *document, guint page)
{
  tg_sheet_draw_page (cr, document->job, document->review, document->paper, page);
}

gboolean
tg_document_write (const TgDocument *document, const char *path, GError **error)
{
  return tg_sheet_write (document->job, document->review, document->paper, path, error);
}
