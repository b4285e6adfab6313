/* debrief-metal.c: what came off, truly, against what had to
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "debrief-private.h"
#include "number.h"

static double
taken_g (const TgDebriefWalk *walk)
{
  return tg_practice_bench_taken (walk->bench_after, (guint) walk->part, (guint) walk->zone) -
         tg_practice_bench_taken (walk->bench, (guint) walk->part, (guint) walk->zone);
}

/* Metal is off though its entry be struck out, and gone with the piece that it was on. */
void
tg_debrief_watch_metal (TgDebriefWalk *walk)
{
  TgDebriefMetal *metal = &walk->debrief->metal;

  if (walk->event->kind == TG_EVENT_PASS)
    {
      const TgPartReview *part = tg_review_part (walk->before, (guint) walk->part);
      double grams = taken_g (walk);

      metal->removed_g += grams;
      if (tg_debrief_is_forbidden (tg_part_review_zone (part, (guint) walk->zone)->zone))
        metal->forbidden_g += grams;
    }
  if (walk->event->kind == TG_EVENT_REPLACE && !walk->struck[walk->index])
    for (guint z = 0; z < tg_review_part (walk->before, (guint) walk->part)->zones->len; z++)
      metal->discarded_g += tg_practice_bench_taken (walk->bench, (guint) walk->part, z);
}

/* A plan ends at the upper edge; proof takes a part to the middle of each of its bands, and half as much again
 * is for a hand that scatters: careful workers keep to it (tests/core/test-debrief.c). */
#define ALLOWED_SHARE 0.75

static double
allowance_g (const TgDebriefWalk *walk)
{
  double sum = 0;

  for (guint i = 0; i < walk->end->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (walk->end, i);

      if (part->passes == 0)
        continue;
      for (TgBand band = 0; band < TG_N_BANDS; band++)
        if (walk->debrief->bands[band].present && tg_band_kind (band) == part->design->kind)
          sum += walk->debrief->bands[band].tolerance_g * ALLOWED_SHARE;
    }
  return sum;
}

/* Of @rest, at most as much as @share; what is left goes on. */
static double
share_of (double *rest, double share)
{
  double part = CLAMP (share, 0, MAX (0, *rest));

  *rest -= part;
  return part;
}

/* Where the excess went, each share counted once. */
static void
add_shares (const TgDebriefWalk *walk, GPtrArray *why)
{
  const TgDebriefMetal *metal = &walk->debrief->metal;
  double rest = metal->removed_g - metal->best_g;
  double pairing, discarded, forbidden;

  if (rest <= 0)
    {
      tg_debrief_term (why, walk->setup, "less than that", -rest,
                       "some of it is still on the parts");
      return;
    }
  tg_debrief_term (why, walk->setup, "beyond the least", rest, "removed less least");
  pairing = share_of (&rest, metal->paired_g - metal->best_g);
  discarded = share_of (&rest, metal->discarded_g);
  forbidden = share_of (&rest, metal->forbidden_g);
  if (pairing > 0)
    tg_debrief_term (why, walk->setup, "forced by the pairing", pairing,
                     "what the pairing of the end takes more than the best one");
  if (discarded > 0)
    tg_debrief_term (why, walk->setup, "off pieces that were replaced", discarded, "");
  if (forbidden > 0)
    tg_debrief_term (why, walk->setup, "off places not to be ground", forbidden, "");
  if (rest > 0)
    tg_debrief_term (why, walk->setup, "overshoots, and wider than needed", rest, "the rest");
}

static GPtrArray *
why_metal (const TgDebriefWalk *walk)
{
  const TgDebriefMetal *metal = &walk->debrief->metal;
  GPtrArray *why = tg_terms_new ();

  tg_debrief_term (why, walk->setup, "removed", metal->removed_g, "truly, off all pieces");
  if (!metal->known)
    {
      tg_terms_add (why, "the least possible", g_strdup ("–"),
                    "the true parts cannot be made even within the tolerances");
      return why;
    }
  tg_debrief_term (why, walk->setup, "the least possible", metal->best_g,
                   !metal->open    ? "the plan for the true parts as they came, to 0.001 g"
                   : metal->proven ? "the same plan with the best pairing, which is proven"
                                   : "the same plan with the best pairing that was found");
  add_shares (walk, why);
  tg_debrief_term (
      why, walk->setup, "for proof", metal->allowance_g,
      "to the middle of its bands for each part that was ground, and half as much again for "
      "the hand");
  return why;
}

static TgDebriefVerdict
verdict_of (const TgDebrief *debrief)
{
  const TgDebriefMetal *metal = &debrief->metal;
  double excess = metal->removed_g - metal->best_g;

  if (metal->forbidden_g > 0 || !metal->known)
    return TG_DEBRIEF_POOR;
  if (excess <= metal->allowance_g + TG_REVIEW_TINY_G)
    return debrief->even ? TG_DEBRIEF_GOOD : TG_DEBRIEF_FAIR;
  return excess <= 2 * metal->allowance_g ? TG_DEBRIEF_FAIR : TG_DEBRIEF_POOR;
}

void
tg_debrief_judge_metal (TgDebriefWalk *walk)
{
  TgDebriefMetal *metal = &walk->debrief->metal;
  g_autofree char *removed = tg_debrief_grams (walk->setup, metal->removed_g);
  g_autofree char *best = tg_debrief_grams (walk->setup, metal->best_g);
  TgDebriefVerdict verdict;

  metal->allowance_g = allowance_g (walk);
  verdict = verdict_of (walk->debrief);
  if (!metal->known)
    tg_debrief_add (
        walk->debrief, TG_DEBRIEF_METAL, verdict, -1,
        g_strdup_printf ("%s g came off; grinding alone cannot make these parts even.", removed),
        "Decides about a replacement or another tolerance before the first pass.",
        why_metal (walk));
  else
    tg_debrief_add (walk->debrief, TG_DEBRIEF_METAL, verdict, -1,
                    g_strdup_printf ("%s g came off; the least possible was %s g.", removed, best),
                    verdict == TG_DEBRIEF_GOOD
                        ? ""
                        : "Takes what the plan says, stops where readings prove it, and looks for "
                          "the best pairing before the first pass.",
                    why_metal (walk));
}
