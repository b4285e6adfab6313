/* document.c: everything that is printed, see document.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which content belongs to which kind; the contents are in document-*.c and sheet.c, the frame is in
 * page.c, the files in document-file.c.
 */
#include "document-private.h"

#include "sheet.h"
#include "word.h"

TG_DEFINE_WORDS (TgDocumentKind, document_kind, "weigh", "grind", "proof", "bobweight", "build")

const char *
tg_document_kind_label (TgDocumentKind kind)
{
  static const char *const labels[TG_N_DOCUMENT_KINDS] = { "Weigh sheet", "Grind sheet",
                                                           "Proof card", "Bobweight card",
                                                           "Build cards" };

  g_return_val_if_fail ((guint) kind < TG_N_DOCUMENT_KINDS, NULL);

  return labels[kind];
}

static double
grind_intro (const TgPage *page, G_GNUC_UNUSED gconstpointer data, double y)
{
  return tg_sheet_summary (page, y);
}

static double
grind_block (const TgPage *page, gconstpointer data, guint index, double y)
{
  const TgDocument *document = data;

  return tg_sheet_part (page, g_array_index (document->rows, guint, index), y);
}

static void
fill_grind (TgDocument *document)
{
  document->rows = tg_sheet_parts (document->review);
  document->content.caution = tg_sheet_caution;
  document->content.n = document->rows->len;
  document->content.intro = grind_intro;
  document->content.block = grind_block;
}

TgDocument *
tg_document_new (const TgJob *job, const TgReview *review, TgDocumentKind kind, TgPaper paper)
{
  static void (*const fill[TG_N_DOCUMENT_KINDS]) (TgDocument *) = {
    [TG_DOCUMENT_WEIGH] = tg_document_fill_weigh,
    [TG_DOCUMENT_GRIND] = fill_grind,
    [TG_DOCUMENT_PROOF] = tg_document_fill_proof,
    [TG_DOCUMENT_BOBWEIGHT] = tg_document_fill_bobweight,
    [TG_DOCUMENT_BUILD] = tg_document_fill_build,
  };
  TgDocument *document = g_new0 (TgDocument, 1);

  g_return_val_if_fail (job && review && (guint) kind < TG_N_DOCUMENT_KINDS, document);

  document->job = job;
  document->review = review;
  document->kind = kind;
  document->paper = paper;
  document->content.title = tg_document_kind_label (kind);
  document->content.data = document;
  fill[kind](document);
  return document;
}

void
tg_document_free (TgDocument *document)
{
  g_clear_pointer (&document->rows, g_array_unref);
  g_clear_pointer (&document->balance, tg_balance_free);
  g_clear_pointer (&document->bobweight, tg_bobweight_free);
  g_clear_pointer (&document->build, tg_build_free);
  g_free (document);
}

guint
tg_document_n_pages (const TgDocument *document)
{
  return tg_page_count (document->job, document->review, document->paper, &document->content);
}

TgPaper
tg_document_paper (const TgDocument *document)
{
  return document->paper;
}

void
tg_document_draw_page (cairo_t *cr, const TgDocument *document, guint page)
{
  tg_page_draw (cr, document->job, document->review, document->paper, &document->content, page);
}
