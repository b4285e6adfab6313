/* review-sums.c: what sits at which bore, and what is weighed together there
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A band may be that of a sum: the piston with pin, ring pack, clips and small end of its bore, the
 * big end with its bearing pair.  What goes with a figure is carried with it, as one weight with one
 * uncertainty.  Readings of different parts err apart; what errs alike for all is in none of them.
 */
#include <math.h>
#include <string.h>

#include "review-private.h"

/* Families that are carried with pistons, in the order in which they are named. */
static const TgPartKind with_pistons[] = { TG_PART_PIN, TG_PART_RINGS, TG_PART_CLIPS };

static TgSetReview *
set_of (const TgReview *review, guint bore)
{
  return bore >= 1 && bore <= review->sets->len
             ? &g_array_index (review->sets, TgSetReview, bore - 1)
             : NULL;
}

static void
place_parts (TgReview *review)
{
  g_array_set_size (review->sets, review->setup->cylinders);
  for (guint b = 0; b < review->sets->len; b++)
    {
      TgSetReview *set = &g_array_index (review->sets, TgSetReview, b);

      set->bore = b + 1;
      for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
        set->part[kind] = -1;
    }
  for (guint i = 0; i < review->parts->len; i++)
    {
      const TgPartReview *part = tg_review_part (review, i);
      TgSetReview *set = set_of (review, part->part->bore);

      if (set && set->part[part->design->kind] < 0)
        set->part[part->design->kind] = (int) i;
    }
}

/* What was never read has no freedom; it errs by nothing that is known. */
static TgUncertaintyComponent
component (double u_g, double freedom)
{
  return (TgUncertaintyComponent){ u_g, freedom > 0 ? freedom : (double) INFINITY, 1 };
}

static void
carry (TgCarried *carried, const TgWeight *weight)
{
  const TgUncertaintyComponent both[] = { component (weight->u_g, weight->freedom),
                                          component (carried->u_g, carried->freedom) };
  TgUncertainty together = tg_uncertainty_combine (both, carried->any ? 2 : 1);

  carried->known &= weight->basis != TG_WEIGHT_NONE;
  carried->read &= weight->basis == TG_WEIGHT_READ;
  carried->grams += weight->mean_g;
  carried->then_g += weight->mean_g;
  carried->u_g = together.u;
  carried->freedom = together.freedom;
  carried->any = TRUE;
}

/* The figure of @kind at the bore of @set; what is not there is not known. */
static void
carry_kind (
    const TgReview *review, TgCarried *carried, const TgSetReview *set, TgPartKind kind, TgFigure f)
{
  static const TgWeight nothing = { 0 };

  carry (carried, set->part[kind] < 0
                      ? &nothing
                      : &tg_review_part (review, (guint) set->part[kind])->weight[f]);
}

static void
carry_all (TgReview *review, TgSetReview *set)
{
  const TgSetup *setup = review->setup;
  int piston = set->part[TG_PART_PISTON], rod = set->part[TG_PART_ROD];
  TgCarried carried = { .known = TRUE, .read = TRUE };

  for (guint i = 0; i < G_N_ELEMENTS (with_pistons); i++)
    if (tg_setup_in_sum (setup, with_pistons[i]))
      carry_kind (review, &carried, set, with_pistons[i], TG_FIGURE_WHOLE);
  if (tg_setup_in_sum (setup, TG_PART_ROD))
    carry_kind (review, &carried, set, TG_PART_ROD, TG_FIGURE_SMALL_END);
  if (piston >= 0)
    ((TgPartReview *) g_ptr_array_index (review->parts, (guint) piston))->carried[0] = carried;
  if (rod >= 0 && tg_setup_in_sum (setup, TG_PART_BEARINGS))
    {
      TgCarried *with_rod =
          &((TgPartReview *) g_ptr_array_index (review->parts, (guint) rod))->carried[1];

      with_rod->known = with_rod->read = TRUE;
      carry_kind (review, with_rod, set, TG_PART_BEARINGS, TG_FIGURE_WHOLE);
    }
}

static void
sum_up (TgReview *review, TgSetReview *set)
{
  const TgPartReview *piston;
  TgUncertainty u;
  TgWeight sum;

  if (set->part[TG_PART_PISTON] < 0)
    return;
  piston = tg_review_part (review, (guint) set->part[TG_PART_PISTON]);
  set->complete = TRUE;
  for (guint i = 0; i < G_N_ELEMENTS (with_pistons); i++)
    set->complete &= set->part[with_pistons[i]] >= 0 ||
                     !tg_setup_in_sum (review->setup, with_pistons[i]);
  set->complete &= set->part[TG_PART_ROD] >= 0 || !tg_setup_in_sum (review->setup, TG_PART_ROD);
  set->known = set->complete && piston->weight[TG_FIGURE_WHOLE].basis != TG_WEIGHT_NONE &&
               (!piston->carried[0].any || piston->carried[0].known);
  sum = tg_review_row_sum (review, piston, 0);
  u = (TgUncertainty){ sum.u_g, sum.freedom };
  set->sum_g = sum.mean_g;
  set->u_g = sum.u_g;
  set->freedom = sum.freedom;
  set->expanded_g = set->known ? tg_uncertainty_expanded (u, TG_REVIEW_LEVEL) : 0;
}

TgWeight
tg_review_row_sum (const TgReview *review, const TgPartReview *part, guint row)
{
  const TgPartReview *of = part;
  TgCarried carried;
  TgWeight sum;

  if (row == 0 && part->design->kind == TG_PART_ROD && tg_review_joint (review))
    of = tg_review_piston_of (review, part);
  if (!of)
    return (TgWeight){ 0 };
  sum = of->weight[tg_review_row_figure (of->design->kind, row)];
  carried = of->carried[row];
  if (!carried.any)
    return sum;
  if (!carried.known)
    sum.basis = TG_WEIGHT_NONE;
  else if (!carried.read && sum.basis == TG_WEIGHT_READ)
    sum.basis = TG_WEIGHT_ESTIMATED;
  carry (&carried, &sum);
  sum.mean_g = carried.grams;
  sum.u_g = carried.u_g;
  sum.freedom = carried.freedom;
  return sum;
}

const TgPartReview *
tg_review_piston_of (const TgReview *review, const TgPartReview *rod)
{
  const TgSetReview *set = set_of (review, rod->part->bore);

  return set && set->part[TG_PART_PISTON] >= 0
             ? tg_review_part (review, (guint) set->part[TG_PART_PISTON])
             : NULL;
}

gboolean
tg_review_joint (const TgReview *review)
{
  return review->setup->small_ends == TG_SMALL_ENDS_SUM &&
         tg_setup_has_kind (review->setup, TG_PART_ROD) &&
         tg_setup_has_kind (review->setup, TG_PART_PISTON);
}

TgBand
tg_review_row_band (const TgReview *review, TgPartKind kind, guint row)
{
  if (kind == TG_PART_PISTON)
    return row == 0 ? TG_BAND_PISTON : TG_BAND_PISTON_ALONE;
  if (row == 1)
    return TG_BAND_ROD_BIG;
  return tg_review_joint (review) ? TG_BAND_PISTON : TG_BAND_ROD_SMALL;
}

const char *
tg_review_row_label (const TgReview *review, TgPartKind kind, guint row)
{
  TgBand band = tg_review_row_band (review, kind, row);

  if (band == TG_BAND_PISTON && tg_setup_in_sum (review->setup, TG_PART_PISTON))
    return "set";
  if (band == TG_BAND_ROD_BIG && tg_setup_in_sum (review->setup, TG_PART_BEARINGS))
    return "big end with bearings";
  return tg_figure_label (kind, tg_review_row_figure (kind, row));
}

/* What has become of the small ends by the plan is what the pistons have to go with. */
void
tg_review_carry_planned (TgReview *review)
{
  if (!tg_setup_in_sum (review->setup, TG_PART_ROD))
    return;
  for (guint b = 0; b < review->sets->len; b++)
    {
      const TgSetReview *set = &g_array_index (review->sets, TgSetReview, b);
      int piston = set->part[TG_PART_PISTON], rod = set->part[TG_PART_ROD];
      const TgPartReview *with;
      TgCarried *carried;

      if (piston < 0 || rod < 0)
        continue;
      with = tg_review_part (review, (guint) rod);
      carried = &((TgPartReview *) g_ptr_array_index (review->parts, (guint) piston))->carried[0];
      carried->then_g = carried->grams;
      for (guint z = 0; z < with->zones->len; z++)
        carried->then_g -= tg_review_effect (with, TG_FIGURE_SMALL_END, z) *
                           tg_part_review_zone (with, z)->amount_g;
    }
}

void
tg_review_find_sums (TgReview *review)
{
  place_parts (review);
  for (guint b = 0; b < review->sets->len; b++)
    {
      TgSetReview *set = &g_array_index (review->sets, TgSetReview, b);

      carry_all (review, set);
      sum_up (review, set);
    }
}

double
tg_review_own_target_g (const TgReview *review, guint index, TgFigure figure)
{
  const TgPartReview *part = tg_review_part (review, index);
  int row = tg_part_review_row (part, figure);
  TgBand band;

  if (row < 0 || !part->in_work || !tg_band_of (part->design->kind, figure, &band) ||
      !review->bands[band].known || (part->carried[row].any && !part->carried[row].known))
    return NAN;
  return review->bands[band].target_g - part->carried[row].then_g;
}

char *
tg_review_row_words (const TgReview *review, const TgPartReview *part, guint row)
{
  const TgPartReview *piston = part->design->kind == TG_PART_ROD && row == 0 &&
                                       tg_review_joint (review)
                                   ? tg_review_piston_of (review, part)
                                   : NULL;
  const TgSetReview *set = set_of (review, part->part->bore);
  GString *words = g_string_new (piston ? piston->part->name : NULL);

  if (!set || (!piston && !part->carried[row].any))
    return g_string_free (words, FALSE);
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      gboolean bearings = kind == TG_PART_BEARINGS;

      if (kind == part->design->kind || kind == TG_PART_PISTON || set->part[kind] < 0 ||
          bearings != (part->design->kind == TG_PART_ROD && row == 1) ||
          !tg_setup_in_sum (review->setup, kind))
        continue;
      g_string_append_printf (words, "%s%s%s", words->len ? ", " : "",
                              tg_review_part (review, (guint) set->part[kind])->part->name,
                              kind == TG_PART_ROD ? " (small end)" : "");
    }
  return g_string_free (words, FALSE);
}

char *
tg_review_carried_words (const TgReview *review, guint index, TgFigure figure)
{
  const TgPartReview *part = tg_review_part (review, index);
  int row = tg_part_review_row (part, figure);

  return row < 0 || !part->carried[row].any ? g_strdup ("")
                                            : tg_review_row_words (review, part, (guint) row);
}
