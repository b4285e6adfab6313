/* balance-private.h: the steps of balance.h, for its own files only
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "balance.h"

G_BEGIN_DECLS

/* Differences of masses below this are rounding: a microgram is 1e-9 kg. */
#define TG_BALANCE_TINY_KG 1e-12

/* balance-masses.c.  @setup: in which the bores are read; the parts are those of @review. */
void tg_balance_weigh (TgBalanceMasses *masses,
                       const TgReview *review,
                       const TgSetup *setup,
                       TgBalanceStage stage);

/**
 * tg_balance_share:
 * @masses: of all bores
 * @part: (out): the masses whose loads are those of @share, counterweights included
 *
 * Linear in @masses.
 */
void tg_balance_share (const TgBalance *balance,
                       const TgDynamicsMasses *masses,
                       TgBalanceShare share,
                       TgDynamicsMasses *part);

/* The same of a stage; differences that are rounding are 0. */
void tg_balance_share_of_stage (const TgBalance *balance,
                                TgBalanceStage stage,
                                TgBalanceShare share,
                                TgDynamicsMasses *part);

/* The crank of @balance at a speed. */
TgDynamicsCrank tg_balance_crank (const TgBalance *balance, double speed_rpm);

/* What moving each uncertain mass by its standard uncertainty does to the masses of a share. */
typedef struct
{
  guint n;
  TgDynamicsMasses moved[2 * TG_ENGINE_LAYOUT_MAX];
} TgBalanceDoubt;

void tg_balance_doubt (const TgBalance *balance,
                       TgBalanceStage stage,
                       TgBalanceShare share,
                       TgBalanceDoubt *doubt);

/* balance-doubt.c: half widths around the half major axis of one order, which @pair has; around the
 * largest of all orders together, which is @at_peak at @angle_deg; around the length of @vector, when
 * each of @n independent errors moves it by @moved. */
double tg_balance_doubt_of_axis (const TgBalance *balance,
                                 TgBalanceStage stage,
                                 TgBalanceShare share,
                                 const TgDynamicsCrank *crank,
                                 TgBalanceLoad load,
                                 TgDynamicsOrder order,
                                 const TgDynamicsPair *pair);

double tg_balance_doubt_of_peak (const TgBalance *balance,
                                 TgBalanceStage stage,
                                 TgBalanceShare share,
                                 const TgDynamicsCrank *crank,
                                 TgBalanceLoad load,
                                 TgDynamicsVector at_peak,
                                 double angle_deg);

double tg_balance_doubt_of_vector (const TgBalance *balance,
                                   TgBalanceStage stage,
                                   TgDynamicsVector vector,
                                   const TgDynamicsVector *moved,
                                   guint n);

/* balance-loads.c: the largest of all orders together, and where in the turn. */
TgDynamicsVector tg_balance_find_peak (const TgBalance *balance,
                                       const TgDynamicsMasses *part,
                                       const TgDynamicsCrank *crank,
                                       TgBalanceLoad load,
                                       double *angle_deg);

/* balance-unbalance.c: where both planes lie; FALSE if that cannot be told.  Which share of what turns
 * at a place falls to a plane. */
gboolean tg_balance_planes (const TgBalance *balance, const TgSetup *setup, double planes_mm[2]);
double tg_balance_plane_share (const double planes_mm[2], guint plane, double position_mm);

static inline TgDynamicsPair
tg_balance_pair_of (const TgDynamicsSums *sums, TgBalanceLoad load, TgDynamicsOrder order)
{
  return load == TG_BALANCE_FORCE ? sums->force[order] : sums->couple[order];
}

static inline TgDynamicsVector
tg_balance_vector_of (TgDynamicsLoad of, TgBalanceLoad load)
{
  return load == TG_BALANCE_FORCE ? of.force : of.couple;
}

/**
 * tg_balance_worst_load:
 * @reciprocating: of what goes up and down, else of what turns
 *
 * Returns: the largest force or couple that all orders make together anywhere in a turn, if masses lie
 * in whatever way in a band one gram wide: N/g or N·m/g
 */
double tg_balance_worst_load (const TgBalance *balance,
                              gboolean reciprocating,
                              TgBalanceLoad load,
                              double speed_rpm);

/* balance-enough-words.c */
char *tg_balance_enough_words (const TgBalance *balance,
                               const TgReview *review,
                               const TgBalanceEnough *enough,
                               double speed_rpm);

/* The shaking force of one mean piston with all that goes with it, at top dead centre; N */
double tg_balance_force_of_one (const TgBalance *balance, double speed_rpm);

/* What the parts' differences leave on all crankpins together; g·mm.  @stage must be known. */
typedef struct
{
  double g_mm;
  double expanded;
} TgBalanceResultant;

TgBalanceResultant tg_balance_resultant (const TgBalance *balance, TgBalanceStage stage);

G_END_DECLS
