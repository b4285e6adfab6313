/* build.c: the build cards, see build.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Puts together what sits at each bore, what is wrong with it (build-history.c) and what was ticked off
 * (build-ticks.c).  Whether a part is proven is the review's word.
 */
#include <math.h>

#include "build-private.h"

static const char *
part_label (TgPartKind kind)
{
  return kind == TG_PART_ROD ? "rod and cap" : tg_part_kind_label (kind);
}

/* Of a rod both ends together, which are what the work is about; else the whole. */
static double
weight_of (const TgPartReview *part)
{
  const TgWeight *small = &part->weight[TG_FIGURE_SMALL_END];
  const TgWeight *big = &part->weight[TG_FIGURE_BIG_END];
  const TgWeight *whole = &part->weight[TG_FIGURE_WHOLE];

  if (small->basis != TG_WEIGHT_NONE && big->basis != TG_WEIGHT_NONE)
    return small->mean_g + big->mean_g;
  return whole->basis != TG_WEIGHT_NONE ? whole->mean_g : (double) NAN;
}

static void
add_part (TgBuildHistory *history, TgBuildCard *card, TgPartKind kind, int index)
{
  const TgReview *review = history->review;
  TgBuildPart part = { kind, index, part_label (kind), NAN, FALSE, NULL };

  if (index >= 0)
    {
      part.weight_g = weight_of (tg_review_part (review, (guint) index));
      part.proven = tg_build_proven (review, (guint) index);
      part.remark = tg_build_remark (history, (guint) index, card->bore);
    }
  else
    part.remark = g_strdup_printf ("no %s sits at this bore", tg_part_kind_label (kind));
  card->ready = card->ready && part.proven && part.remark[0] == '\0';
  g_array_append_val (card->parts, part);
}

static void
clear_part (gpointer part)
{
  g_free (((TgBuildPart *) part)->remark);
}

static void
clear_tick (gpointer tick)
{
  g_free (((TgBuildTick *) tick)->remark);
}

static TgBuildCard *
card_new (TgBuildHistory *history, guint bore)
{
  const TgReview *review = history->review;
  const TgSetReview *set = &g_array_index (review->sets, TgSetReview, bore - 1);
  TgBuildCard *card = g_new0 (TgBuildCard, 1);

  card->bore = bore;
  card->ready = TRUE;
  card->sum_g = set->known && tg_setup_in_sum (review->setup, TG_PART_PISTON) ? set->sum_g
                                                                              : (double) NAN;
  card->parts = g_array_new (FALSE, TRUE, sizeof (TgBuildPart));
  card->ticks = g_array_new (FALSE, TRUE, sizeof (TgBuildTick));
  g_array_set_clear_func (card->parts, clear_part);
  g_array_set_clear_func (card->ticks, clear_tick);
  for (TgPartKind kind = 0; kind < TG_N_PART_KINDS; kind++)
    if (tg_setup_has_kind (review->setup, kind))
      add_part (history, card, kind, set->part[kind]);
  for (TgBuildCheck check = 0; check < TG_N_BUILD_CHECKS; check++)
    {
      TgBuildTick tick = { .check = check };

      if (!tg_build_check_applies (review->setup, check))
        continue;
      tg_build_tick (history, card, &tick);
      card->n_ticked += tick.ticked;
      card->n_wrong += tick.wrong || tick.stale;
      g_array_append_val (card->ticks, tick);
    }
  card->done = card->ready && card->n_ticked == card->ticks->len;
  return card;
}

static void
card_free (TgBuildCard *card)
{
  g_array_unref (card->parts);
  g_array_unref (card->ticks);
  g_free (card);
}

TgBuild *
tg_build_new (const TgJob *job, const TgReview *review)
{
  TgBuild *build;
  TgBuildHistory history;

  g_return_val_if_fail (job != NULL && review != NULL, NULL);

  build = g_new0 (TgBuild, 1);
  build->cards = g_ptr_array_new_with_free_func ((GDestroyNotify) card_free);
  for (guint i = 0; i < TG_N_FACINGS; i++)
    {
      const char *said = review->setup->engine.facing[i];

      build->facing[i] = g_strdup (said[0] ? said : "as the maker’s manual says");
    }
  history = tg_build_history (job, review);
  for (guint bore = 1; bore <= review->sets->len; bore++)
    {
      g_ptr_array_add (build->cards, card_new (&history, bore));
      build->n_done += tg_build_card (build, bore)->done;
    }
  tg_build_history_clear (&history);
  return build;
}

void
tg_build_free (TgBuild *build)
{
  g_ptr_array_unref (build->cards);
  for (guint i = 0; i < TG_N_FACINGS; i++)
    g_free (build->facing[i]);
  g_free (build);
}

gboolean
tg_build_check_applies (const TgSetup *setup, TgBuildCheck check)
{
  TgPartKind kind;

  switch (check)
    {
    case TG_CHECK_PISTON_FACING:
    case TG_CHECK_PIN_OILED:
    case TG_CHECK_CLIPS_NEW:
    case TG_CHECK_CLIPS_GAP:
    case TG_CHECK_RINGS_PLACED:
      return tg_setup_has_kind (setup, TG_PART_PISTON);
    case TG_CHECK_ROD_FACING:
    case TG_CHECK_SHELLS:
    case TG_CHECK_CAP:
    case TG_CHECK_BOLTS:
    case TG_CHECK_TURNS:
      return tg_setup_has_kind (setup, TG_PART_ROD);
    case TG_CHECK_ROD:
    case TG_CHECK_PISTON:
    case TG_CHECK_PIN:
    case TG_CHECK_RINGS:
    case TG_CHECK_CLIPS:
    case TG_CHECK_BEARINGS:
    default:
      return tg_build_check_kind (check, &kind) && tg_setup_has_kind (setup, kind);
    }
}
