/* document-private.h: what the files of document share
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "balance.h"
#include "bobweight.h"
#include "build.h"
#include "document.h"
#include "page.h"

G_BEGIN_DECLS

/**
 * TgDocument:
 * @rows: what the blocks are about, as the kind has it
 * @balance, @bobweight, @build: (nullable): where the kind shows them
 */
struct _TgDocument
{
  const TgJob *job;
  const TgReview *review;
  TgDocumentKind kind;
  TgPaper paper;
  TgPageContent content;
  GArray *rows;
  TgBalance *balance;
  TgBobweight *bobweight;
  TgBuild *build;
};

/* Each fills in content and what it reads. */
void tg_document_fill_weigh (TgDocument *document);
void tg_document_fill_proof (TgDocument *document);
void tg_document_fill_bobweight (TgDocument *document);
void tg_document_fill_build (TgDocument *document);

G_END_DECLS
