/* welcome-page.h: the quiet first page: new job, open, recent jobs, the demo
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

G_BEGIN_DECLS

#define TG_TYPE_WELCOME_PAGE (tg_welcome_page_get_type ())
G_DECLARE_FINAL_TYPE (TgWelcomePage, tg_welcome_page, TG, WELCOME_PAGE, GtkWidget)

/* Acts by "win.new-job", "win.open", "win.open-path" (s) and "win.open-demo". */
GtkWidget *tg_welcome_page_new (void);

/* One line on why a file was refused; NULL for none. */
void tg_welcome_page_set_message (TgWelcomePage *page, const char *message);

/* Whether there is a demo job to open. */
void tg_welcome_page_set_has_demo (TgWelcomePage *page, gboolean has_demo);

G_END_DECLS
