/* rules-list.h: the rules that a pairing has to keep, each with a way to lift it
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include <gtk/gtk.h>

#include "match-desk.h"

G_BEGIN_DECLS

#define TG_TYPE_RULES_LIST (tg_rules_list_get_type ())
G_DECLARE_FINAL_TYPE (TgRulesList, tg_rules_list, TG, RULES_LIST, GtkBox)

void tg_rules_list_show (TgRulesList *list, TgMatchDesk *desk);

G_END_DECLS
