/* scale-fixture.c: checks of the scale put together by hand, see scale-fixture.h
 *
 * All figures are invented; the drawings must show whatever they are given.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "scale-fixture.h"

#include <math.h>

#include "fixture.h"

/* 2026-03-03T19:00:00+01:00 */
#define START G_GINT64_CONSTANT (1772560800)

/* With limits of ±0.2 and ±0.3 g, of twice as much for weights over 500 g. */
static void
add (TgReview *review, guint day, guint minute, TgMass nominal, double error_g, gboolean set_back)
{
  double limit = nominal > 500 * TG_MASS_G ? 2 : 1, size = fabs (error_g);
  TgScaleCheck check = { .stamp = { START + 86400 * (gint64) day + 60 * (gint64) minute, 60 },
                         .zero = nominal == 0,
                         .set_back = set_back,
                         .nominal = nominal,
                         .mpe_known = TRUE,
                         .error_g = error_g,
                         .doubtful_g = 0.2 * limit,
                         .off_g = 0.3 * limit };

  check.verdict = size <= check.doubtful_g + 1e-9 ? TG_CHECK_WEIGHT_FITS
                  : size <= check.off_g + 1e-9    ? TG_CHECK_WEIGHT_DOUBTFUL
                                                  : TG_CHECK_WEIGHT_OFF;
  g_array_append_val (review->scale.checks, check);
}

static void
add_evenings (TgReview *review)
{
  const TgMass weight = 500 * TG_MASS_G;

  add (review, 0, 0, 0, 0, FALSE);
  add (review, 0, 1, weight, 0.1, FALSE);
  add (review, 0, 40, 0, 0.1, FALSE);
  add (review, 9, 0, 0, 0.2, TRUE);
  add (review, 9, 1, weight, 0.1, FALSE);
  add (review, 9, 50, weight, 0.3, FALSE);
  add (review, 13, 0, 0, -0.1, FALSE);
  add (review, 13, 1, weight, 0.5, FALSE);
  add (review, 13, 3, weight, 0.1, FALSE);
  add (review, 13, 60, 0, -0.3, TRUE);
}

TgReview *
scale_review (ScaleCase which, TgJob **job)
{
  TgReview *review;

  *job = fixture_job (2, FALSE, 0, &review);
  switch (which)
    {
    case SCALE_ONE:
      add (review, 0, 0, 0, 0, FALSE);
      break;
    case SCALE_EVENINGS:
      add_evenings (review);
      break;
    case SCALE_WEIGHTS:
      for (guint i = 0; i < 6; i++)
        add (review, 3 * i, 0, (i < 3 ? 200 : 1000) * TG_MASS_G, 0.1 * (i % 3) - 0.1, FALSE);
      break;
    case SCALE_SIXTY:
      for (guint i = 0; i < 60; i++)
        add (review, i / 20, i, i % 2 ? 500 * TG_MASS_G : 0, 0.05 * (i % 7) - 0.1, i % 8 == 6);
      break;
    case SCALE_DAYS:
      for (guint i = 0; i < 12; i++)
        {
          add (review, 2 * i, 0, 0, 0.1 * (i % 3) - 0.1, i % 4 == 3);
          add (review, 2 * i, 1, 500 * TG_MASS_G, 0.02 * i, FALSE);
        }
      break;
    case SCALE_UNCHECKED:
    case N_SCALES:
    default:
      break;
    }
  return review;
}
