/* report-match.h: a pairing in words and as a table, for "match"
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "pairing.h"

G_BEGIN_DECLS

/**
 * TgReportMatch: one sum and what was found for it
 * @pairing: (nullable) lent; NULL: @why_not says what is missing
 * @result: where there is a pairing
 */
typedef struct
{
  TgPairingSum sum;
  const TgPairing *pairing;
  const char *why_not;
  TgPairingResult result;
} TgReportMatch;

/* (transfer full): today against what was found, how sure it is and why, and what sits where; then the
 * odd ones out, what the shelf offers and how crankpins of two rods are loaded. */
char *tg_report_match (const TgReview *review, const TgReportMatch *matches, guint n);

/**
 * tg_report_match_csv:
 *
 * RFC 4180, decimal points; a column "row": "pairing" (status, objectives proved, grams of today and
 * found, bound), "set" (weight and grams by bore), "part" (what sits at a bore, whether it changes).
 * Returns: (transfer full)
 */
char *tg_report_match_csv (const TgReportMatch *matches, guint n);

G_END_DECLS
