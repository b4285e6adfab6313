/* reading-check-private.h: what a reading was held against, for its words and its reason
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "reading-check.h"
#include "reason.h"

G_BEGIN_DECLS

/* What a reading was held against: the nearest kin that there is. */
typedef enum
{
  TG_READING_KIN_REPEAT,
  TG_READING_KIN_OTHER_WAY,
  TG_READING_KIN_PASS,
  TG_READING_KIN_OTHERS,
  TG_READING_KIN_REST, /* the other figures of the same rod */
} TgReadingKin;

/**
 * TgReadingExpectation:
 * @low_g, @high_g: what a good reading stays within
 * @n: readings or parts that it rests on
 * @before_g: after a pass: what it was before; @pass_g: the most that the pass may have taken
 * @held: of the reading that is judged: against what is expected; after a pass against @before_g
 */
typedef struct
{
  TgReadingKin kin;
  double expected_g;
  double low_g, high_g;
  guint n;
  double before_g;
  double pass_g;
  TgHeld held;
} TgReadingExpectation;

/* What @mass is, less what the last zero check left of the zero error. */
double tg_reading_value_g (const TgReview *review, TgMass mass);

/* The expectation that @mass does not meet; FALSE if it meets all of them. */
gboolean tg_reading_unexpected (const TgReview *review,
                                TgSlot slot,
                                TgMass mass,
                                TgReadingExpectation *expectation);

/* The most that an empty scale shows without being asked about. */
TgMass tg_reading_much_zero (const TgReview *review);

/* A scale that is off by a larger share has another weight on it: common practice, no published source. */
#define TG_READING_FAR 0.05

/* How far a reading of the check weight may be away from what is stamped on it. */
double tg_reading_far_from_g (const TgReview *review);

G_END_DECLS
