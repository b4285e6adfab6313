/* review-reason-part.c: why a part is in its state, term by term
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Words only: the state is that of review-plan.c.
 */
#include <math.h>

#include "number.h"
#include "reason.h"
#include "review-private.h"
#include "review-reason.h"

static void
add_rows (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    tg_review_why_row (review, why, part, row);
}

/* Every figure that the part is matched by: what was read of it. */
static void
add_readings (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  gboolean rod = part->design->kind == TG_PART_ROD;

  for (TgFigure f = rod ? TG_FIGURE_SMALL_END : TG_FIGURE_WHOLE;
       f <= (rod ? TG_FIGURE_BIG_END : TG_FIGURE_WHOLE); f++)
    {
      const TgWeight *weight = &part->weight[f];
      guint n = weight->n[TG_WAY_ANY] + weight->n[TG_WAY_MARK_UP] + weight->n[TG_WAY_MARK_DOWN];

      if (weight->basis == TG_WEIGHT_NONE)
        tg_terms_add (why, tg_figure_label (part->design->kind, f), g_strdup ("0 readings"),
                      "never read");
      else
        {
          g_autofree char *grams = tg_review_grams (review, weight->mean_g);

          tg_terms_add (why, tg_figure_label (part->design->kind, f),
                        g_strdup_printf ("%s g", grams),
                        n == 0 ? "reckoned: metal came off since it was read" : "read");
        }
    }
}

/* What the target, or the part's own turn, waits for. */
static void
add_waiting (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  for (guint b = 0; b < TG_N_BANDS; b++)
    {
      const TgBandReview *band = &review->bands[b];
      g_autofree char *label = g_strdup_printf ("%s weighed",
                                                tg_setup_band_label (review->setup, b));

      if (band->present && tg_band_kind (b) == part->design->kind)
        tg_terms_add (why, label, g_strdup_printf ("%u of %u", band->n_weighed, band->n_parts),
                      band->n_weighed < band->n_parts
                          ? "the target follows when all are, with what goes with them"
                          : "what goes with it has to come down first");
    }
}

static void
add_last_pass (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  const TgHistoryPass *pass;
  g_autofree char *label = NULL;

  if (part->pass_history->len == 0)
    return;
  pass = &g_array_index (part->pass_history, TgHistoryPass, part->pass_history->len - 1);
  label = g_strdup_printf ("last pass, %s", tg_part_review_zone (part, pass->zone)->zone->name);
  tg_reason_add_grams (review, why, label, pass->taken_g,
                       pass->shown ? "as a reading has shown"
                                   : "as wanted; no reading has shown it yet");
}

/* How far from an edge of its band a figure has to stay for its place to be proven by itself. */
static void
add_guard (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    {
      TgWeight sum = tg_review_row_sum (review, part, row);
      double guard = tg_uncertainty_guard_band ((TgUncertainty){ sum.u_g, sum.freedom },
                                                TG_REVIEW_LEVEL);
      const TgBandReview *band =
          &review->bands[tg_review_row_band (review, part->design->kind, row)];
      double inside = MIN (sum.mean_g - band->target_g,
                           band->target_g + band->tolerance_g - sum.mean_g);
      g_autofree char *label = g_strdup_printf (
          "guard band, %s", tg_review_row_label (review, part->design->kind, row));
      g_autofree char *grams = tg_reason_figure (guard);
      g_autofree char *from = tg_reason_figure (MAX (0, inside));
      g_autofree char *remark = g_strdup_printf (
          "so far inside an edge proves it by itself at 95 %%; it is %s g inside", from);

      if (band->known && sum.basis == TG_WEIGHT_READ && sum.u_g > 0)
        tg_terms_add (why, label, g_strdup_printf ("%s g", grams), remark);
    }
}

static void
why_grind (const TgReview *review, GPtrArray *why, const TgPartReview *part)
{
  add_rows (review, why, part);
  for (guint z = 0; z < part->zones->len; z++)
    {
      const TgZoneReview *zone = tg_part_review_zone (part, z);
      g_autofree char *label = g_strdup_printf ("off the %s", zone->zone->name);

      if (zone->amount_g > 0)
        tg_reason_add_grams (review, why, label, zone->amount_g, "");
    }
  tg_reason_add_grams (review, why, "still to come off", part->to_come_off_g, "all zones together");
}

static void
why_missed (const TgReview *review, GPtrArray *why, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);

  for (guint row = 0; row < tg_review_n_rows (review, part->design->kind); row++)
    if (fabs (part->plan.violation_g[row]) > TG_REVIEW_TINY_G)
      tg_reason_add_missed (review, why, index, row);
}

GPtrArray *
tg_review_why_part (const TgReview *review, guint index)
{
  static const TgReason reasons[TG_N_STATES] = {
    [TG_STATE_UNWEIGHED] = TG_REASON_UNWEIGHED,
    [TG_STATE_WAITING] = TG_REASON_WAITING,
    [TG_STATE_TO_GRIND] = TG_REASON_TO_GRIND,
    [TG_STATE_WEIGH_AGAIN] = TG_REASON_WEIGH_AGAIN,
    [TG_STATE_EVEN] = TG_REASON_EVEN,
    [TG_STATE_TOO_LIGHT] = TG_REASON_TOO_LIGHT,
    [TG_STATE_OUT_OF_REACH] = TG_REASON_OUT_OF_REACH,
  };
  GPtrArray *why = tg_terms_new ();
  const TgPartReview *part;

  g_return_val_if_fail (review != NULL && index < review->parts->len, why);

  part = tg_review_part (review, index);
  switch (part->state)
    {
    case TG_STATE_TO_GRIND:
      why_grind (review, why, part);
      break;
    case TG_STATE_WEIGH_AGAIN:
      add_last_pass (review, why, part);
      add_readings (review, why, part);
      break;
    case TG_STATE_EVEN:
      add_rows (review, why, part);
      add_guard (review, why, part);
      break;
    case TG_STATE_TOO_LIGHT:
    case TG_STATE_OUT_OF_REACH:
      why_missed (review, why, index);
      break;
    case TG_STATE_WAITING:
      add_readings (review, why, part);
      add_waiting (review, why, part);
      break;
    case TG_STATE_UNWEIGHED:
    default:
      add_readings (review, why, part);
      break;
    }
  tg_reason_close (why, part->in_work || part->state == TG_STATE_UNWEIGHED
                            ? reasons[part->state]
                            : TG_REASON_ONLY_WEIGHED);
  return why;
}
