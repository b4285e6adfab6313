/* balance-masses.c: what goes up and down and what turns at each bore, see balance.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reciprocating are piston, pin, rings, clips and the small end of the rod; rotating are the big end
 * and its bearings: the two-support weighing has split the rod at its two centres.  Every part that
 * the job weighs counts, whether it is in a sum that has to become even or not.  Oil turns with the
 * crankpins alike and is left out.
 *
 * Before: the first readings of the first piece, at the bore of the setup that the job began with.
 * Then: as now, less what the plan takes off.  How well that will be known hangs on readings to come;
 * the present ones stand for them.
 */
#include <math.h>

#include "balance-private.h"
#include "review-private.h"

/* What counts at a bore. */
static const struct
{
  TgPartKind kind;
  TgFigure figure;
  gboolean reciprocating;
} figures[] = {
  { TG_PART_PISTON, TG_FIGURE_WHOLE, TRUE },    { TG_PART_PIN, TG_FIGURE_WHOLE, TRUE },
  { TG_PART_RINGS, TG_FIGURE_WHOLE, TRUE },     { TG_PART_CLIPS, TG_FIGURE_WHOLE, TRUE },
  { TG_PART_ROD, TG_FIGURE_SMALL_END, TRUE },   { TG_PART_ROD, TG_FIGURE_BIG_END, FALSE },
  { TG_PART_BEARINGS, TG_FIGURE_WHOLE, FALSE },
};

typedef struct
{
  double grams;
  double u_g;
  double freedom;
} Weighed;

/* What is still to be weighed. */
typedef struct
{
  guint n;
  char *first;
} Missing;

static gboolean
first_weighed (const TgPartReview *part, TgFigure figure, Weighed *weighed)
{
  for (guint i = 0; i < part->history->len; i++)
    {
      const TgHistoryPoint *point = &g_array_index (part->history, TgHistoryPoint, i);

      if (point->figure != figure || point->piece != 0)
        continue;
      *weighed = (Weighed){ point->mean_g, point->u_g, part->weight[figure].freedom };
      return TRUE;
    }
  return FALSE;
}

static double
planned_off_g (const TgPartReview *part, TgFigure figure)
{
  double off_g = 0;

  if (!part->in_work)
    return 0;
  for (guint z = 0; z < part->zones->len; z++)
    off_g += tg_review_effect (part, figure, z) * tg_part_review_zone (part, z)->amount_g;
  return off_g;
}

static gboolean
weighed_at (const TgPartReview *part, TgFigure figure, TgBalanceStage stage, Weighed *weighed)
{
  const TgWeight *weight = &part->weight[figure];

  if (stage == TG_BALANCE_BEFORE)
    return first_weighed (part, figure, weighed);
  if (weight->basis == TG_WEIGHT_NONE)
    return FALSE;
  *weighed = (Weighed){ weight->mean_g, weight->u_g, weight->freedom };
  if (stage == TG_BALANCE_THEN)
    weighed->grams -= planned_off_g (part, figure);
  return TRUE;
}

static void
miss (Missing *missing, char *what)
{
  if (missing->n++ == 0)
    missing->first = what;
  else
    g_free (what);
}

static void
miss_part (Missing *missing, TgPartKind kind, guint bore, TgBalanceStage stage)
{
  const char *label = tg_part_kind_label (kind);

  miss (missing, stage == TG_BALANCE_BEFORE
                     ? g_strdup_printf ("Bore %u had no %s when the job began", bore, label)
                     : g_strdup_printf ("Bore %u has no %s", bore, label));
}

static void
miss_figure (Missing *missing, const TgPartReview *part, TgFigure figure, TgBalanceStage stage)
{
  gboolean replaced = stage == TG_BALANCE_BEFORE && part->pieces > 1;
  const char *when = replaced ? "Not weighed before it was replaced" : "Not weighed yet";

  miss (missing, part->design->kind == TG_PART_ROD
                     ? g_strdup_printf ("%s: %s, %s", when, part->part->name,
                                        tg_figure_label (TG_PART_ROD, figure))
                     : g_strdup_printf ("%s: %s", when, part->part->name));
}

static char *
missing_words (Missing *missing)
{
  g_autofree char *first = g_steal_pointer (&missing->first);

  if (missing->n == 0)
    return g_strdup ("");
  if (missing->n == 1)
    return g_strconcat (first, ".", NULL);
  return g_strdup_printf ("%s, and %u more.", first, missing->n - 1);
}

/* One figure at one bore is added to what is there. */
static void
add_figure (TgBalanceMasses *masses, guint bore, gboolean reciprocating, const Weighed *weighed)
{
  double *kg = reciprocating ? masses->masses.reciprocating_kg : masses->masses.rotating_kg;
  double *u = reciprocating ? masses->u.reciprocating_kg : masses->u.rotating_kg;

  kg[bore - 1] += weighed->grams / 1000;
  u[bore - 1] = hypot (u[bore - 1], weighed->u_g / 1000);
  if (weighed->u_g > 0 && weighed->freedom > 0)
    masses->freedom = MIN (masses->freedom, weighed->freedom);
}

static void
weigh_bore (TgBalanceMasses *masses,
            Missing *missing,
            const TgReview *review,
            const TgSetup *setup,
            TgBalanceStage stage,
            guint bore)
{
  masses->masses.reciprocating_kg[bore - 1] = review->setup->engine.other_reciprocating_g / 1000;
  masses->masses.rotating_kg[bore - 1] = review->setup->engine.other_rotating_g / 1000;
  for (guint f = 0; f < G_N_ELEMENTS (figures); f++)
    {
      const TgPart *part = tg_setup_at_bore (setup, figures[f].kind, bore);
      const TgPartReview *weighs;
      Weighed weighed;
      guint index;

      if (!tg_setup_has_kind (setup, figures[f].kind))
        continue;
      if (!part || !tg_setup_find_part (review->setup, part->id, &index))
        {
          /* once for a rod */
          if (figures[f].figure != TG_FIGURE_BIG_END)
            miss_part (missing, figures[f].kind, bore, stage);
          continue;
        }
      weighs = tg_review_part (review, index);
      if (weighed_at (weighs, figures[f].figure, stage, &weighed))
        add_figure (masses, bore, figures[f].reciprocating, &weighed);
      else
        miss_figure (missing, weighs, figures[f].figure, stage);
    }
}

void
tg_balance_weigh (TgBalanceMasses *masses,
                  const TgReview *review,
                  const TgSetup *setup,
                  TgBalanceStage stage)
{
  Missing missing = { 0 };

  masses->freedom = (double) INFINITY;
  for (guint bore = 1; bore <= setup->cylinders; bore++)
    weigh_bore (masses, &missing, review, setup, stage, bore);
  if (!tg_setup_has_kind (setup, TG_PART_ROD) && !tg_setup_has_kind (setup, TG_PART_PISTON))
    {
      missing.n = 0;
      g_clear_pointer (&missing.first, g_free);
      miss (&missing, g_strdup ("The job has neither rods nor pistons"));
    }
  masses->known = missing.n == 0;
  masses->missing = missing_words (&missing);
}

/* From the first one, so that the mean of equal masses is that mass to the last digit. */
static double
mean (const double *values, guint n)
{
  double sum = 0;

  for (guint i = 0; i < n; i++)
    sum += values[i] - values[0];
  return values[0] + sum / n;
}

void
tg_balance_share (const TgBalance *balance,
                  const TgDynamicsMasses *masses,
                  TgBalanceShare share,
                  TgDynamicsMasses *part)
{
  guint n = balance->layout.n;
  double reciprocating = mean (masses->reciprocating_kg, n);
  double rotating = mean (masses->rotating_kg, n);
  double less = share == TG_BALANCE_SPREAD ? 1 : 0;

  *part = (TgDynamicsMasses){ .counterweight_kg = { 0 } };
  for (guint i = 0; i < n; i++)
    {
      part->reciprocating_kg[i] = share == TG_BALANCE_OWN
                                      ? reciprocating
                                      : masses->reciprocating_kg[i] - less * reciprocating;
      part->rotating_kg[i] = share == TG_BALANCE_OWN ? rotating
                                                     : masses->rotating_kg[i] - less * rotating;
      if (share != TG_BALANCE_SPREAD)
        part->counterweight_kg[i] = rotating + balance->factor * reciprocating;
    }
}

void
tg_balance_share_of_stage (const TgBalance *balance,
                           TgBalanceStage stage,
                           TgBalanceShare share,
                           TgDynamicsMasses *part)
{
  tg_balance_share (balance, &balance->stages[stage].masses, share, part);
  if (share != TG_BALANCE_SPREAD)
    return;
  for (guint i = 0; i < balance->layout.n; i++)
    {
      if (fabs (part->reciprocating_kg[i]) < TG_BALANCE_TINY_KG)
        part->reciprocating_kg[i] = 0;
      if (fabs (part->rotating_kg[i]) < TG_BALANCE_TINY_KG)
        part->rotating_kg[i] = 0;
    }
}
