/* scale-fixture.h: checks of the scale put together by hand, for the tests of their drawing
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#pragma once

#include "review.h"

G_BEGIN_DECLS

typedef enum
{
  SCALE_UNCHECKED,
  SCALE_ONE,      /* one zero check */
  SCALE_EVENINGS, /* three evenings, zero and check weight, one zero set back, one doubtful, one off */
  SCALE_WEIGHTS, /* two check weights with limits of their own, no zero */
  SCALE_SIXTY,   /* sixty checks */
  SCALE_DAYS,    /* twelve days */
  N_SCALES
} ScaleCase;

/* (transfer full): free with fixture_review_free() together with @job */
TgReview *scale_review (ScaleCase which, TgJob **job);

G_END_DECLS
