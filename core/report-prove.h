/* report-prove.h: what the weights do to the engine, in words and as a table, for "prove"
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "balance.h"
#include "bobweight.h"

G_BEGIN_DECLS

/* What a report is about; all lent. @speed_rpm above 0; 0: no speed is known, and no forces are told. */
typedef struct
{
  const TgReview *review;
  const TgBalance *balance;
  const TgBobweight *bobweight;
  double speed_rpm;
} TgReportProve;

/* (transfer full): engine, masses by bore, forces and couples by order with what holds them in 95 of 100
 * cases, worst pairs, unbalance of the crankpins, how even is enough, the bobweights. */
char *tg_report_prove (const TgReportProve *report);

/**
 * tg_report_prove_csv:
 *
 * RFC 4180, decimal points; a column "row": "mass" (of a bore: reciprocating, rotating), "load" (force
 * or couple by share and order, "all" for the peak), "pair" (worst pair), "unbalance" (crankpin,
 * resultant, plane, permissible), "enough" (tolerance of a band), "bobweight" (term, sum) — each with
 * the stage, the figure, its half width and its unit.
 * Returns: (transfer full)
 */
char *tg_report_prove_csv (const TgReportProve *report);

G_END_DECLS
