/* page-preview.h: a page of a document as it will be on paper
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * As wide as there is room; its height follows from the paper.
 */
#pragma once

#include <gtk/gtk.h>

#include "document.h"

G_BEGIN_DECLS

#define TG_TYPE_PAGE_PREVIEW (tg_page_preview_get_type ())
G_DECLARE_FINAL_TYPE (TgPagePreview, tg_page_preview, TG, PAGE_PREVIEW, GtkWidget)

GtkWidget *tg_page_preview_new (void);

/* @document: (nullable) (lends): until the next call; @page: from 0 */
void tg_page_preview_show (TgPagePreview *preview, const TgDocument *document, guint page);

/* Large enough to be read, however narrow the window is; what holds it has to scroll then. */
void tg_page_preview_set_large (TgPagePreview *preview, gboolean large);

G_END_DECLS
