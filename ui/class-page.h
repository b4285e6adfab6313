/* class-page.h: the practice jobs of a folder side by side, for who teaches
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "class-table.h"

G_BEGIN_DECLS

#define TG_TYPE_CLASS_PAGE (tg_class_page_get_type ())
G_DECLARE_FINAL_TYPE (TgClassPage, tg_class_page, TG, CLASS_PAGE, GtkBox)

/* Property "session": (nullable): of the window; the page has no use for it. */
GtkWidget *tg_class_page_new (void);

/* Reads the jobs of @folder and shows them. */
void tg_class_page_set_folder (TgClassPage *page, const char *folder);

/* (lends) (nullable): what is shown */
const TgClassTable *tg_class_page_table (TgClassPage *page);

/**
 * TgClassPage::left:
 * The page wants to be closed.
 */

G_END_DECLS
