/* sheet.h: the grind sheet: every part in work with its outline, zones, grams and depths
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What document.h prints as TG_DOCUMENT_GRIND.
 */
#pragma once

#include "page.h"

G_BEGIN_DECLS

extern const char *const tg_sheet_caution;

/* Bands and legend. */
double tg_sheet_summary (const TgPage *page, double y);

/* The part of that index. */
double tg_sheet_part (const TgPage *page, guint index, double y);

/* (transfer full) (element-type guint): the parts in work: rods, then pistons, by bore. */
GArray *tg_sheet_parts (const TgReview *review);

G_END_DECLS
