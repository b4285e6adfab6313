/* build-history.c: how the parts came to where they are, and what was proven of them, see build.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A part that is not proven now may have been: the review of the journal as it stood before the event
 * that spoilt it tells.  Only what is in force counts; what was struck out never happened.
 */
#include <math.h>

#include "build-private.h"
#include "review-private.h"

/* Index of what sits at each bore: by bore from 0, then by kind; -1: nothing. */
static void
who_is_where (const TgSetup *setup, int *places)
{
  for (guint i = 0; i < setup->cylinders * TG_N_PART_KINDS; i++)
    places[i] = -1;
  for (guint i = 0; i < setup->parts->len; i++)
    {
      const TgPart *part = tg_setup_part (setup, i);

      if (part->bore > 0)
        places[(part->bore - 1) * TG_N_PART_KINDS + part->design->kind] = (int) i;
    }
}

static void
find_moves (TgBuildHistory *history)
{
  g_autoptr (TgSetup) setup = tg_setup_copy (tg_job_setup (history->job));
  int before[TG_MAX_CYLINDERS * TG_N_PART_KINDS], now[TG_MAX_CYLINDERS * TG_N_PART_KINDS];

  who_is_where (setup, before);
  for (guint i = 0; i < history->review->n_events; i++)
    {
      const TgEvent *event = tg_job_event (history->job, i);

      if (event->kind != TG_EVENT_PAIR || history->review->struck[i] ||
          !tg_setup_place (setup, event->places, NULL))
        continue;
      who_is_where (setup, now);
      for (guint p = 0; p < setup->cylinders * TG_N_PART_KINDS; p++)
        {
          TgBuildMove move = { (int) i, p % TG_N_PART_KINDS, 1 + p / TG_N_PART_KINDS, before[p] };

          if (now[p] != before[p])
            g_array_append_val (history->moves, move);
          before[p] = now[p];
        }
    }
}

TgBuildHistory
tg_build_history (const TgJob *job, const TgReview *review)
{
  TgBuildHistory history = { job, review, g_array_new (FALSE, FALSE, sizeof (TgBuildMove)),
                             g_hash_table_new_full (NULL, NULL, NULL,
                                                    (GDestroyNotify) tg_review_free) };

  find_moves (&history);
  return history;
}

void
tg_build_history_clear (TgBuildHistory *history)
{
  g_clear_pointer (&history->moves, g_array_unref);
  g_clear_pointer (&history->past, g_hash_table_unref);
}

/* The review as it was before event @index. */
static const TgReview *
review_before (TgBuildHistory *history, int index)
{
  const TgReview *known = g_hash_table_lookup (history->past, GINT_TO_POINTER (index));
  g_autoptr (TgJob) job = NULL;
  TgReview *review;

  if (known)
    return known;
  job = tg_job_new (tg_setup_copy (tg_job_setup (history->job)));
  for (guint i = 0; i < (guint) index; i++)
    if (!history->review->struck[i] && tg_job_event (history->job, i)->kind != TG_EVENT_STRIKE)
      tg_job_append (job, tg_job_event (history->job, i), NULL);
  review = tg_review_new (job);
  g_hash_table_insert (history->past, GINT_TO_POINTER (index), review);
  return review;
}

int
tg_build_last_of (const TgBuildHistory *history, TgEventKind kind, guint part)
{
  const char *id = tg_setup_part (history->review->setup, part)->id;

  for (guint i = history->review->n_events; i-- > 0;)
    {
      const TgEvent *event = tg_job_event (history->job, i);

      if (event->kind == kind && !history->review->struck[i] && g_str_equal (event->part, id))
        return (int) i;
    }
  return -1;
}

int
tg_build_moved (const TgBuildHistory *history, TgPartKind kind, guint bore, int after, int *before)
{
  for (guint i = history->moves->len; i-- > 0;)
    {
      const TgBuildMove *move = &g_array_index (history->moves, TgBuildMove, i);

      if (move->event <= after)
        return -1;
      if (move->kind != kind || move->bore != bore)
        continue;
      if (before)
        *before = move->before;
      return move->event;
    }
  return -1;
}

/* -- what is proven ----------------------------------------------------------------------------- */

/* The part of @kind at the bore of @part has proven @band in its sum. */
static gboolean
sum_is_proven (const TgReview *review, const TgPartReview *part, TgPartKind kind, TgFigure figure)
{
  guint bore = part->part->bore;
  int other = bore > 0 ? g_array_index (review->sets, TgSetReview, bore - 1).part[kind] : -1;

  return other >= 0 && tg_review_part (review, (guint) other)->weight[figure].proven;
}

static gboolean
rod_is_proven (const TgReview *review, const TgPartReview *rod)
{
  const TgSetup *setup = review->setup;

  return (!tg_setup_has_band (setup, TG_BAND_ROD_SMALL) ||
          rod->weight[TG_FIGURE_SMALL_END].proven) &&
         (!tg_setup_has_band (setup, TG_BAND_ROD_BIG) || rod->weight[TG_FIGURE_BIG_END].proven) &&
         (!tg_setup_in_sum (setup, TG_PART_ROD) ||
          sum_is_proven (review, rod, TG_PART_PISTON, TG_FIGURE_WHOLE));
}

gboolean
tg_build_proven (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  TgPartKind kind = part->design->kind;

  if (kind == TG_PART_ROD)
    return rod_is_proven (review, part);
  if (kind == TG_PART_PISTON)
    return part->weight[TG_FIGURE_WHOLE].proven &&
           (!tg_setup_has_band (review->setup, TG_BAND_PISTON_ALONE) ||
            review->bands[TG_BAND_PISTON_ALONE].proven);
  if (!tg_setup_in_sum (review->setup, kind))
    return TRUE;
  return kind == TG_PART_BEARINGS ? sum_is_proven (review, part, TG_PART_ROD, TG_FIGURE_BIG_END)
                                  : sum_is_proven (review, part, TG_PART_PISTON, TG_FIGURE_WHOLE);
}

/* -- what is wrong ------------------------------------------------------------------------------ */

/* How far a figure lies above (or, negative, below) its band; 0 inside, or where that is not known. */
static double
beyond_g (const TgReview *review, const TgPartReview *part, TgBand band)
{
  const TgBandReview *limits = &review->bands[band];
  guint row = band == TG_BAND_ROD_BIG || band == TG_BAND_PISTON_ALONE ? 1 : 0;
  TgWeight sum;

  if (!tg_setup_has_band (review->setup, band) || !limits->known || !part->in_work ||
      part->design->kind != tg_band_kind (band))
    return 0;
  sum = tg_review_row_sum (review, part, row);
  if (sum.basis != TG_WEIGHT_READ)
    return 0;
  if (sum.mean_g < limits->target_g - TG_REVIEW_TINY_G)
    return sum.mean_g - limits->target_g;
  return MAX (0, sum.mean_g - limits->target_g - limits->tolerance_g - TG_REVIEW_TINY_G);
}

char *
tg_build_out_words (const TgReview *review, guint index)
{
  const TgPartReview *part = tg_review_part (review, index);
  static const char *const whose[TG_N_BANDS] = { "small end ", "big end ", "", "by itself " };
  static const char *const summed[TG_N_BANDS] = {
    [TG_BAND_ROD_BIG] = "big end with its bearings ", [TG_BAND_PISTON] = "its set "
  };

  for (TgBand band = 0; band < TG_N_BANDS; band++)
    {
      double grams = beyond_g (review, part, band);
      gboolean sum = (band == TG_BAND_PISTON && part->carried[0].any) ||
                     (band == TG_BAND_ROD_BIG && part->carried[1].any);
      g_autofree char *shown = tg_review_grams (review, fabs (grams));

      if (grams != 0)
        return g_strdup_printf ("%sweighs %s g %s its band", sum ? summed[band] : whose[band],
                                shown, grams < 0 ? "under" : "over");
    }
  return NULL;
}

/* Metal came off and nobody has weighed it since, but before that it was proven. */
static char *
ground_words (TgBuildHistory *history, guint index)
{
  const TgPartReview *part = tg_review_part (history->review, index);
  int pass;

  if (!part->pass_open)
    return NULL;
  pass = tg_build_last_of (history, TG_EVENT_PASS, index);
  if (pass < 0 || !tg_build_proven (review_before (history, pass), index))
    return g_strdup ("was ground and not weighed since");
  return g_strdup ("was ground after it was proven");
}

/* Another piece, or another part, is where one was proven. */
static char *
exchanged_words (TgBuildHistory *history, guint index, guint bore)
{
  const TgSetup *setup = history->review->setup;
  TgPartKind kind = tg_setup_part (setup, index)->design->kind;
  const char *label = tg_part_kind_label (kind);
  int before = -1, moved = tg_build_moved (history, kind, bore, -1, &before);
  int piece = tg_build_last_of (history, TG_EVENT_REPLACE, index);

  if (piece > moved && tg_build_proven (review_before (history, piece), index))
    return g_strdup_printf ("is not the %s that was proven here: another piece took its place",
                            label);
  if (moved >= 0 && before >= 0 && tg_build_proven (review_before (history, moved), (guint) before))
    return g_strdup_printf ("is not the %s that was proven here: %s was", label,
                            tg_setup_part (setup, (guint) before)->name);
  return NULL;
}

char *
tg_build_remark (TgBuildHistory *history, guint part, guint bore)
{
  char *words;

  if (tg_build_proven (history->review, part))
    return g_strdup ("");
  words = ground_words (history, part);
  if (!words)
    words = exchanged_words (history, part, bore);
  if (!words)
    words = tg_build_out_words (history->review, part);
  return words ? words : g_strdup ("");
}
