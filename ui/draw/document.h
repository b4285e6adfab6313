/* document.h: everything that is printed: sheets and cards, page by page
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same pages go to the preview, the printer and the file.  Black on white, readable without colour;
 * job, date and page number on each page; the same job gives the same bytes, since the date is that of
 * the last event.
 */
#pragma once

#include "job.h"
#include "review.h"
#include "page.h"

G_BEGIN_DECLS

typedef enum
{
  TG_DOCUMENT_WEIGH,     /* empty: readings to write down by hand */
  TG_DOCUMENT_GRIND,     /* the grind sheet */
  TG_DOCUMENT_PROOF,     /* final weights, uncertainty, verdicts, who */
  TG_DOCUMENT_BOBWEIGHT, /* for the crankshaft shop */
  TG_DOCUMENT_BUILD,     /* a card for each bore */
} TgDocumentKind;
#define TG_N_DOCUMENT_KINDS 5

/* Words of the command line: "weigh", "grind", "proof", "bobweight", "build" */
const char *tg_document_kind_to_word (TgDocumentKind kind);
gboolean tg_document_kind_from_word (const char *word, TgDocumentKind *kind);

/* "Weigh sheet", "Grind sheet", "Proof card", "Bobweight card", "Build cards" */
const char *tg_document_kind_label (TgDocumentKind kind);

typedef struct _TgDocument TgDocument;

/* @job and @review have to live as long as the document. */
TgDocument *
tg_document_new (const TgJob *job, const TgReview *review, TgDocumentKind kind, TgPaper paper);
void tg_document_free (TgDocument *document);

guint tg_document_n_pages (const TgDocument *document);
TgPaper tg_document_paper (const TgDocument *document);

/* Page @page, from 0, on a context in points whose origin is the paper's corner. */
void tg_document_draw_page (cairo_t *cr, const TgDocument *document, guint page);

/**
 * tg_document_write:
 * @path: ends in .pdf (all pages), .svg or .png (pages below one another)
 * @error: TG_ERROR_SYNTAX for another ending, TG_ERROR_IO if it cannot be written
 *
 * A file that could not be written whole is not left behind.
 */
gboolean tg_document_write (const TgDocument *document, const char *path, GError **error);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgDocument, tg_document_free)

G_END_DECLS
