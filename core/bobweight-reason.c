/* bobweight-reason.c: why this factor, and how the bobweights come about, see bobweight.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "bobweight.h"
#include "number.h"
#include "reason.h"
#include "review-private.h"

GPtrArray *
tg_bobweight_why_factor (const TgBobweight *bobweight)
{
  GPtrArray *why = tg_terms_new ();
  g_autofree char *factor = tg_number_format_short (100 * bobweight->factor);
  g_autofree char *suggested = tg_number_format_short (100 * bobweight->suggested);

  tg_terms_add (why, "factor", g_strdup_printf ("%s %%", factor),
                bobweight->by_layout ? "as the layout suggests" : "as it was entered");
  tg_terms_add (why, "by the layout", g_strdup_printf ("%s %%", suggested), bobweight->ground);
  tg_reason_close (why, TG_REASON_FACTOR);
  return why;
}

GPtrArray *
tg_bobweight_why (const TgBobweight *bobweight, const TgReview *review)
{
  GPtrArray *why = tg_terms_new ();
  guint decimals = tg_bobweight_decimals (review);
  g_autofree char *factor = tg_number_format (bobweight->factor, 3);
  g_autofree char *mean = tg_number_format (bobweight->mean_g, decimals);
  g_autofree char *heaviest = NULL;
  g_autofree char *lightest = NULL;

  for (guint p = 0; p < bobweight->n_pins; p++)
    {
      const TgBobweightPin *pin = &bobweight->pins[p];
      g_autofree char *label = g_strdup_printf ("crankpin %u", p + 1);
      g_autofree char *turns = tg_number_format (pin->rotating_g, decimals);
      g_autofree char *moves = tg_number_format (pin->reciprocating_g, decimals);
      g_autofree char *sum = tg_number_format (pin->bobweight_g, decimals);
      g_autofree char *known = tg_review_plus_minus (review, pin->expanded_g);
      g_autofree char *remark = g_strdup_printf ("known to %s g at 95 %%", known);

      tg_terms_add (why, label, g_strdup_printf ("%s + %s × %s = %s g", turns, factor, moves, sum),
                    remark);
    }
  tg_terms_add (why, "one for all", g_strdup_printf ("%s g", mean), "the mean of all crankpins");
  if (bobweight->n_pins > 1)
    tg_terms_add (why, "they differ by",
                  tg_reason_difference (bobweight->pins[bobweight->heaviest].bobweight_g,
                                        bobweight->pins[bobweight->lightest].bobweight_g, "g",
                                        decimals),
                  "heaviest less lightest");
  tg_reason_close (why, TG_REASON_BOBWEIGHT);
  return why;
}
