/* setup-page.h: everything of a job that can be refined later
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "session.h"

G_BEGIN_DECLS

#define TG_TYPE_SETUP_PAGE (tg_setup_page_get_type ())
G_DECLARE_FINAL_TYPE (TgSetupPage, tg_setup_page, TG, SETUP_PAGE, GtkBox)

GtkWidget *tg_setup_page_new (void);

/* TgSetupPage:session: (nullable) the job that is shown and refined */

G_END_DECLS
