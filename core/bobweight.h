/* bobweight.h: what the crankshaft shop hangs on each crankpin, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * bobweight = rods × (big end + bearings) + oil + factor × rods × (piston + pin + clips + rings + small
 * end): common practice, no published standard.  With the weights of each pin's own parts.
 */
#pragma once

#include "engine-layout.h"
#include "review.h"

G_BEGIN_DECLS

/* How crankshafts of a layout are usually balanced. */
typedef enum
{
  TG_BOBWEIGHT_HUNG, /* with bobweights */
  TG_BOBWEIGHT_ALONE, /* by itself: the reciprocating forces of the whole cancel or are left as they are */
  TG_BOBWEIGHT_MAKER, /* as its maker says: several ways are in use */
} TgBobweightUse;

/**
 * tg_bobweight_factor:
 * @layout: checked
 * @use: (out)
 * @ground: (out) (transfer full): why, one or two sentences
 *
 * The share, 0 to 1, of the reciprocating mass that leaves the least first-order force and couple of the
 * whole engine, found from the layout itself; 0 with TG_BOBWEIGHT_ALONE.
 */
double tg_bobweight_factor (const TgEngineLayout *layout, TgBobweightUse *use, char **ground);

/* A term of the sum; the parts of which the job has no family are 0. */
typedef enum
{
  TG_TERM_BIG_ENDS,
  TG_TERM_BEARINGS,
  TG_TERM_OTHER_ROTATING,
  TG_TERM_OIL,
  TG_TERM_PISTONS,
  TG_TERM_PINS,
  TG_TERM_RINGS,
  TG_TERM_CLIPS,
  TG_TERM_SMALL_ENDS,
  TG_TERM_OTHER_RECIPROCATING,
} TgBobweightTerm;
#define TG_N_BOBWEIGHT_TERMS 10
/* The first of those of which only the factor's share counts. */
#define TG_TERM_FIRST_RECIPROCATING TG_TERM_PISTONS

/* "big ends", "bearings", … "other parts with each piston" */
const char *tg_bobweight_term_label (TgBobweightTerm term);

/**
 * TgBobweightPin:
 * @bores: of its @n_rods rods, in rising order
 * @terms_g: sums over its rods
 * @rotating_g, @reciprocating_g: sums of the terms
 * @bobweight_g: rotating + factor × reciprocating
 * @u_g: its standard uncertainty; @expanded_g: for TG_REVIEW_LEVEL
 */
typedef struct
{
  guint n_rods;
  guint bores[TG_ENGINE_LAYOUT_MAX];
  double terms_g[TG_N_BOBWEIGHT_TERMS];
  double rotating_g;
  double reciprocating_g;
  double bobweight_g;
  double u_g;
  double expanded_g;
} TgBobweightPin;

/**
 * TgBobweight:
 * @known: layout and all weights are known
 * @missing: what is not, one sentence; "" if @known
 * @weighed: by term: the job has such parts, or the setup an allowance: worth a line on the card
 * @factor: 0 to 1, in force; @by_layout: as tg_bobweight_factor() has it, which is @suggested
 * @pins: (array length=n_pins): in order along the crank
 * @mean_g: what one bobweight for all would be; @spread_g: heaviest minus lightest pin
 * @unbalance_g_mm: that the pins leave together against the mean; 0 if the stroke is not known
 */
typedef struct
{
  gboolean known;
  char *missing;
  gboolean weighed[TG_N_BOBWEIGHT_TERMS];
  TgBobweightUse use;
  char *ground;
  double factor;
  double suggested;
  gboolean by_layout;
  guint n_pins;
  TgBobweightPin pins[TG_ENGINE_LAYOUT_MAX];
  double mean_g;
  double spread_g;
  guint lightest, heaviest;
  double unbalance_g_mm;
} TgBobweight;

/* Decimals of its grams: one more than the scale's, or half of what goes up and down would seem to give
 * other differences than the sums show. */
guint tg_bobweight_decimals (const TgReview *review);

/* Of the parts as they are now, each at its bore. */
TgBobweight *tg_bobweight_new (const TgReview *review);
void tg_bobweight_free (TgBobweight *bobweight);

/**
 * tg_bobweight_words:
 * @bobweight: known
 *
 * Returns: (transfer full): "One bobweight for all crankpins: 1803.36 g. They differ by 2.05 g. One for all
 *   leaves 76 g·mm."
 */
char *tg_bobweight_words (const TgBobweight *bobweight, const TgReview *review);

/* Reasons: (transfer full) (element-type TgTerm), closed by a rule and its source (reason.h). */

/* Why this share of what goes up and down is hung on the crankpins; its layout must be known. */
GPtrArray *tg_bobweight_why_factor (const TgBobweight *bobweight);

/* How the bobweights come about; @bobweight: known */
GPtrArray *tg_bobweight_why (const TgBobweight *bobweight, const TgReview *review);

G_DEFINE_AUTOPTR_CLEANUP_FUNC (TgBobweight, tg_bobweight_free)

G_END_DECLS
