/* paper-view.h: sheets and cards: preview, print, save
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "document.h"
#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_PAPER_VIEW (tg_paper_view_get_type ())
G_DECLARE_FINAL_TYPE (TgPaperView, tg_paper_view, TG, PAPER_VIEW, GtkWidget)

/* Property "session": TgSession, nullable */
GtkWidget *tg_paper_view_new (void);

/* Puts the keyboard where work begins. */
void tg_paper_view_focus (TgPaperView *view);

/* What is shown, and on which paper. */
TgDocumentKind tg_paper_view_kind (TgPaperView *view);
TgPaper tg_paper_view_paper (TgPaperView *view);
void tg_paper_view_show (TgPaperView *view, TgDocumentKind kind);

G_END_DECLS
