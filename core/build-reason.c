/* build-reason.c: why a bore is not ready, and why a tick no longer holds, see build.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include <math.h>

#include "build-private.h"
#include "reason.h"
#include "review-private.h"

static const char *
standing_of (const TgBuildPart *part)
{
  if (part->remark[0])
    return part->remark;
  return part->proven ? "as it was proven" : "not proven yet";
}

static void
add_part (const TgReview *review, GPtrArray *why, const TgBuildPart *part)
{
  const char *name = part->part < 0 ? part->label
                                    : tg_setup_part (review->setup, (guint) part->part)->name;
  g_autofree char *grams = isnan (part->weight_g) ? g_strdup ("not weighed")
                                                  : tg_review_grams (review, part->weight_g);

  tg_terms_add (why, name,
                part->part < 0           ? g_strdup ("missing")
                : isnan (part->weight_g) ? g_strdup (grams)
                                         : g_strdup_printf ("%s g", grams),
                standing_of (part));
}

GPtrArray *
tg_build_why_card (const TgReview *review, const TgBuildCard *card)
{
  GPtrArray *why = tg_terms_new ();

  g_return_val_if_fail (review != NULL && card != NULL, why);

  for (guint i = 0; i < card->parts->len; i++)
    add_part (review, why, &g_array_index (card->parts, TgBuildPart, i));
  for (guint b = 0; b < TG_N_BANDS; b++)
    if (review->bands[b].present && review->bands[b].known)
      {
        g_autofree char *label = g_strdup_printf ("band of the %s",
                                                  tg_setup_band_label (review->setup, b));
        g_autofree char *lo = tg_review_grams (review, review->bands[b].target_g);
        g_autofree char *hi = tg_review_grams (review, review->bands[b].target_g +
                                                           review->bands[b].tolerance_g);

        tg_terms_add (why, label, g_strdup_printf ("%s to %s g", lo, hi), "");
      }
  tg_terms_add (why, "ticked off", g_strdup_printf ("%u of %u", card->n_ticked, card->ticks->len),
                card->n_wrong ? "some of them no longer hold" : "");
  tg_reason_close (why, TG_REASON_READY);
  return why;
}

GPtrArray *
tg_build_why_tick (const TgJob *job, const TgReview *review, const TgBuildCard *card, guint index)
{
  GPtrArray *why = tg_terms_new ();
  const TgBuildTick *tick;
  TgPartKind kind;

  g_return_val_if_fail (job && review && card && index < card->ticks->len, why);

  tick = &g_array_index (card->ticks, TgBuildTick, index);
  if (tick->event >= 0)
    {
      const TgEvent *event = tg_job_event (job, (guint) tick->event);
      g_autofree char *day = tg_stamp_format_day (event->stamp);
      g_autofree char *time = tg_stamp_format_time (event->stamp);

      tg_terms_add (why, "ticked off", g_strdup_printf ("%s, %s", day, time), "");
    }
  else
    tg_terms_add (why, "ticked off", g_strdup ("not yet"), "");
  if (tick->remark[0])
    tg_terms_add (why, tick->wrong ? "wrong part" : "since then", g_strdup (""), tick->remark);
  for (guint i = 0; i < card->parts->len; i++)
    {
      const TgBuildPart *part = &g_array_index (card->parts, TgBuildPart, i);

      if (tg_build_hangs_on (tick->check, part->kind))
        add_part (review, why, part);
    }
  tg_terms_add (why, "check", g_strdup (""), tg_build_check_source (tick->check));
  tg_reason_close (why,
                   tg_build_check_kind (tick->check, &kind) ? TG_REASON_TICK_PART : TG_REASON_TICK);
  return why;
}
