/* paper-print.h: a document to the printer, to a file
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "document.h"

G_BEGIN_DECLS

/**
 * tg_paper_print:
 * @job: copied; printing may go on while the job changes
 * @parent: (nullable)
 * @path: (nullable): a PDF to write instead of asking with the print dialogue
 * @error: what the printing system says
 *
 * Returns: FALSE with @error if it failed, also FALSE without where the person cancelled
 */
gboolean tg_paper_print (const TgJob *job,
                         TgDocumentKind kind,
                         TgPaper paper,
                         GtkWindow *parent,
                         const char *path,
                         GError **error);

/**
 * tg_paper_save:
 * @review: of @job
 * @path: as in tg_document_write(), with the same errors
 */
gboolean tg_paper_save (const TgJob *job,
                        const TgReview *review,
                        TgDocumentKind kind,
                        TgPaper paper,
                        const char *path,
                        GError **error);

/* The paper that is usual where the person is: what the desktop's locale says. */
TgPaper tg_paper_usual (void);

G_END_DECLS
