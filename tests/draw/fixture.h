/* fixture.h: designs and a review put together by hand, for the drawing tests
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "review.h"

G_BEGIN_DECLS

/* All dimensions and grams are invented. */
typedef enum
{
  FIXTURE_I_ROD,    /* pads on both ends */
  FIXTURE_H_ROD,    /* no pads */
  FIXTURE_LONG_ROD, /* slender, no zones but two */
  FIXTURE_FULL_PISTON,
  FIXTURE_SLIPPER_PISTON,
  FIXTURE_N_DESIGNS
} FixtureDesign;

typedef enum
{
  FIXTURE_FRESH,    /* nothing to come off, no passes */
  FIXTURE_GRINDING, /* work on two zones, one finished */
  FIXTURE_BUSY,     /* work on every usable zone */
  FIXTURE_DONE,     /* passes made, all even */
  FIXTURE_N_STATES
} FixtureState;

TgDesign *fixture_design (FixtureDesign which);

/* (transfer full): free with fixture_part_free() */
TgPartReview *fixture_part (const TgPart *part, const TgDesign *design, FixtureState state);
void fixture_part_free (TgPartReview *part);

/**
 * fixture_job:
 * @long_names: job, parts and zones with very long names
 * @review: (out): free with fixture_review_free()
 *
 * A set of @cylinders I-beam rods and slipper pistons in mixed states, with @events dated entries.
 */
TgJob *fixture_job (guint cylinders, gboolean long_names, guint events, TgReview **review);
void fixture_review_free (TgReview *review);

G_END_DECLS
