/* pairing-bars.c: a pairing as the bars that ui/draw draws
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The drawing's zero is the lightest part of each family together, spares included, so that a bar does
 * not jump when another pairing is shown.
 */
#include "pairing-bars.h"

#include <string.h>

#include "pairing-rules.h"

static double
lightest_g (const TgPairing *pairing, guint family)
{
  double least_g = tg_pairing_part_g (pairing, family, 0);

  for (guint i = 1; i < pairing->families[family].n; i++)
    least_g = MIN (least_g, tg_pairing_part_g (pairing, family, i));
  return least_g;
}

/* "3" of "Pin 3"; all of a name that has no number. */
static const char *
number_of (const char *name)
{
  const char *blank = strrchr (name, ' ');

  return blank && g_ascii_isdigit (blank[1]) ? blank + 1 : name;
}

/* At its bore, or beside a part that is in this bore too, as a pairing that keeps the rules has it. */
static gboolean
is_locked (const TgReview *review, guint part, guint bore)
{
  for (guint i = 0; i < review->rules->len; i++)
    {
      const TgRuleReview *rule = &g_array_index (review->rules, TgRuleReview, i);

      if (rule->rule == TG_RULE_BORE && rule->part == part && rule->bore == bore)
        return TRUE;
      if (rule->rule == TG_RULE_TOGETHER && (rule->part == part || rule->other == part))
        return TRUE;
    }
  return FALSE;
}

static TgPairingSegment
segment (TgPairingBars *self,
         const TgReview *review,
         const TgPairing *pairing,
         const TgMatchingPlan *plan,
         guint f,
         guint c)
{
  const TgMatchingFamily *family = &pairing->problem.families[f];
  guint i = plan->part[f][c];

  return (TgPairingSegment){
    .number = g_string_chunk_insert (self->texts, number_of (pairing->families[f].name[i])),
    .over_g = tg_pairing_part_g (pairing, f, i) - lightest_g (pairing, f),
    .moved = family->parts[i].today != (int) c,
    .locked = is_locked (review, pairing->families[f].part[i], c + 1),
  };
}

TgPairingBars *
tg_pairing_bars_new (const TgReview *review,
                     const TgPairing *pairing,
                     const TgMatchingPlan *plan,
                     const TgMatchingPlan *today)
{
  const TgMatchingProblem *problem = &pairing->problem;
  TgPairingBars *self = g_new0 (TgPairingBars, 1);
  TgPairingSet after[TG_MATCHING_MAX_CYLINDERS], before[TG_MATCHING_MAX_CYLINDERS] = { { 0 } };
  double base_g = 0, target_g = tg_pairing_sets (pairing, plan, after);

  if (today)
    tg_pairing_sets (pairing, today, before);
  self->texts = g_string_chunk_new (256);
  for (guint f = 0; f < problem->n_families; f++)
    {
      base_g += lightest_g (pairing, f);
      self->picture.family_label[f] = tg_part_kind_label (pairing->families[f].kind);
    }
  for (guint c = 0; c < problem->n_cylinders; c++)
    {
      TgPairingBar *bar = &self->bars[c];
      g_autofree char *label = g_strdup_printf ("%u", c + 1);

      bar->label = g_string_chunk_insert (self->texts, label);
      for (guint f = 0; f < problem->n_families; f++)
        bar->parts[f] = segment (self, review, pairing, plan, f, c);
      bar->after_g = after[c].weight_g - base_g;
      bar->removal_g = after[c].off_g;
      bar->touched = after[c].off_g >= pairing->step_g / 2;
      bar->before_g = today ? before[c].weight_g - base_g : 0;
      bar->before_removal_g = before[c].off_g;
    }
  self->picture.n_families = problem->n_families;
  self->picture.n_bars = problem->n_cylinders;
  self->picture.bars = self->bars;
  self->picture.base_g = base_g;
  self->picture.band_lower_g = target_g - base_g;
  self->picture.band_upper_g = target_g - base_g + tg_pairing_g (pairing, problem->tolerance);
  self->picture.has_before = today != NULL;
  self->picture.decimals = pairing->decimals;
  return self;
}

void
tg_pairing_bars_free (TgPairingBars *bars)
{
  g_string_chunk_free (bars->texts);
  g_free (bars);
}
