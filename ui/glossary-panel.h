/* glossary-panel.h: the terms of the page, all terms, and one of them explained
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "glossary.h"

G_BEGIN_DECLS

#define TG_TYPE_GLOSSARY_PANEL (tg_glossary_panel_get_type ())
G_DECLARE_FINAL_TYPE (TgGlossaryPanel, tg_glossary_panel, TG, GLOSSARY_PANEL, GtkBox)

GtkWidget *tg_glossary_panel_new (void);

/* (lends): what the panel shows terms of */
const TgGlossary *tg_glossary_panel_glossary (TgGlossaryPanel *panel);

/* The list of all terms, below those that stand in @page. */
void tg_glossary_panel_show_page (TgGlossaryPanel *panel, GtkWidget *page);

/* Of one term what it means; of several the list, with them above all others.
 * @terms: (element-type TgGlossaryTerm), at least one */
void tg_glossary_panel_show_terms (TgGlossaryPanel *panel, const GPtrArray *terms);

void tg_glossary_panel_show_term (TgGlossaryPanel *panel, const TgGlossaryTerm *term);

/* (nullable) (lends): the one that is explained; NULL while the list is shown */
const TgGlossaryTerm *tg_glossary_panel_term (TgGlossaryPanel *panel);

/* Puts the keyboard into what is shown. */
void tg_glossary_panel_focus (TgGlossaryPanel *panel);

G_END_DECLS
