/* bobweight.c: what is hung on each crankpin, see bobweight.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bobweight.h"

double
tg_bobweight_factor (const TgEngineLayout *layout, TgBobweightUse *use, char **ground)
{
  (void) layout;
  *use = TG_BOBWEIGHT_HUNG;
  *ground = g_strdup ("");
  return 0.5;
}

const char *
tg_bobweight_term_label (TgBobweightTerm term)
{
  static const char *const labels[TG_N_BOBWEIGHT_TERMS] = {
    "big ends", "bearings",   "other parts with each big end", "oil", "pistons", "pins", "rings",
    "clips",    "small ends", "other parts with each piston",
  };

  g_return_val_if_fail ((guint) term < TG_N_BOBWEIGHT_TERMS, NULL);

  return labels[term];
}

TgBobweight *
tg_bobweight_new (const TgReview *review)
{
  TgBobweight *bobweight = g_new0 (TgBobweight, 1);

  (void) review;
  bobweight->missing = g_strdup ("Not weighed yet.");
  bobweight->ground = g_strdup ("");
  return bobweight;
}

void
tg_bobweight_free (TgBobweight *bobweight)
{
  g_free (bobweight->missing);
  g_free (bobweight->ground);
  g_free (bobweight);
}
