/* pairing-crankpins.c: whole sets to bores, so that crankpins that carry two rods are loaded alike
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What sits at one bore moves as one: rod with bearings, piston, pin, rings, clips.  It counts with what
 * it will weigh when the plan has been carried out, so sets that are even already differ by less than
 * their tolerances, and only placing them well is left.  The search is in crankpins.h.
 */
#include <math.h>
#include <string.h>

#include "crankpins.h"
#include "pairing-private.h"
#include "reason.h"
#include "review-private.h"

/* Sub-problems: some tenths of a second at the most. */
#define NODES 300000

static void
load_pins (const TgReview *review, TgCrankpinsProblem *problem)
{
  problem->n_pins = review->setup->cylinders / 2;
  for (guint pin = 0; pin < problem->n_pins; pin++)
    {
      guint bores[2];

      tg_setup_crankpin (review->setup, pin, bores);
      problem->bore[pin][0] = bores[0] - 1;
      problem->bore[pin][1] = bores[1] - 1;
    }
}

/* What a part will weigh; FALSE if it was never weighed. */
static gboolean
planned_g (const TgPartReview *part, double *grams)
{
  const TgWeight *weight = part->weight;

  if (part->design->kind != TG_PART_ROD)
    {
      *grams = weight[TG_FIGURE_WHOLE].mean_g - part->to_come_off_g;
      return weight[TG_FIGURE_WHOLE].basis != TG_WEIGHT_NONE;
    }
  *grams = weight[TG_FIGURE_SMALL_END].mean_g + weight[TG_FIGURE_BIG_END].mean_g -
           part->to_come_off_g;
  return weight[TG_FIGURE_SMALL_END].basis != TG_WEIGHT_NONE &&
         weight[TG_FIGURE_BIG_END].basis != TG_WEIGHT_NONE;
}

static gboolean
load_set (const TgReview *review, guint b, TgCrankpinsSet *set)
{
  const TgSetReview *at = &g_array_index (review->sets, TgSetReview, b);
  double sum_g = 0;

  *set = (TgCrankpinsSet){ .bores = TG_CRANKPINS_ANY_BORE, .today = (int) b };
  for (guint kind = 0; kind < TG_N_PART_KINDS; kind++)
    {
      double grams;

      if (!tg_setup_has_kind (review->setup, kind))
        continue;
      if (at->part[kind] < 0 ||
          !planned_g (tg_review_part (review, (guint) at->part[kind]), &grams))
        return FALSE;
      sum_g += grams;
    }
  for (guint r = 0; r < review->rules->len; r++)
    {
      const TgRuleReview *rule = &g_array_index (review->rules, TgRuleReview, r);
      TgPartKind kind = tg_review_part (review, rule->part)->design->kind;

      if (rule->rule == TG_RULE_BORE && at->part[kind] == (int) rule->part)
        set->bores &= 1u << (rule->bore - 1);
    }
  set->weight = tg_mass_from_g (sum_g);
  return TRUE;
}

/* All that sits at a bore moves with it. */
static TgEvent
move_sets (const TgReview *review, const TgCrankpinsPlacing *placing)
{
  g_autofree guint *bore_of = g_new0 (guint, review->parts->len);
  guint to[TG_CRANKPINS_MAX_SETS + 1] = { 0 };

  for (guint b = 0; b < review->sets->len; b++)
    to[placing->set[b] + 1] = b + 1;
  for (guint i = 0; i < review->parts->len; i++)
    bore_of[i] = to[tg_review_part (review, i)->part->bore];
  return tg_pairing_event (review, G_MAXUINT, bore_of, "for even crankpins");
}

/* What each crankpin carries now, and what it would. */
static GPtrArray *
why_of (const TgReview *review, const TgPairingCrankpins *pins, const TgCrankpinsPlacing *then)
{
  g_autofree char *spread_now = tg_review_grams (review, pins->spread_g);
  g_autofree char *spread_then = tg_review_grams (review, tg_mass_to_g (then->spread));
  GPtrArray *why = tg_terms_new ();

  for (guint pin = 0; pin < pins->n_pins; pin++)
    {
      g_autofree char *bores = g_strdup_printf ("bores %u and %u", pins->bore[pin][0],
                                                pins->bore[pin][1]);
      g_autofree char *now = tg_review_grams (review, pins->sum_g[pin]);
      g_autofree char *moved = tg_review_grams (review, tg_mass_to_g (then->sum[pin]));

      tg_terms_add (why, bores, g_strdup_printf ("%s g, then %s g", now, moved), "");
    }
  tg_terms_add (why, "they differ by", g_strdup_printf ("%s g, then %s g", spread_now, spread_then),
                "");
  tg_reason_close (why, TG_REASON_CRANKPINS);
  return why;
}

static TgChoice *
choice_of (const TgReview *review, const TgCrankpinsResult *result, const TgPairingCrankpins *pins)
{
  TgChoice *choice = g_new0 (TgChoice, 1);
  TgEvent event = move_sets (review, &result->placing);
  g_autofree char *now = tg_review_grams (review, pins->spread_g);
  g_autofree char *then = tg_review_grams (review, tg_mass_to_g (result->placing.spread));
  g_autofree char *bound = tg_review_grams (review, tg_mass_to_g (result->lower_bound));
  GString *moves = g_string_new (NULL);

  for (guint b = 0; b < review->sets->len; b++)
    if (result->placing.set[b] != b)
      g_string_append_printf (moves, "%s%u to bore %u", moves->len ? ", " : "",
                              result->placing.set[b] + 1, b + 1);
  choice->title = g_strdup_printf ("Move %u sets: crankpins differ by %s g instead of %s g",
                                   result->placing.changes, then, now);
  choice->detail = g_strdup_printf (
      "Set %s, rod and all. %s%s%s See that the maker’s manual lets a rod change its bore, that it "
      "faces the right way there, and that its piston fits.",
      moves->str,
      result->status == TG_CRANKPINS_OPTIMAL ? "Proven: no placing is more even."
                                             : "No placing differs by less than ",
      result->status == TG_CRANKPINS_OPTIMAL ? "" : bound,
      result->status == TG_CRANKPINS_OPTIMAL ? "" : " g.");
  choice->why = why_of (review, pins, &result->placing);
  choice->events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  g_array_append_val (choice->events, event);
  g_string_free (moves, TRUE);
  return choice;
}

TgPairingCrankpins *
tg_pairing_crankpins (const TgReview *review)
{
  TgPairingCrankpins *pins;
  g_autofree TgCrankpinsProblem *problem = g_new0 (TgCrankpinsProblem, 1);
  g_autofree TgCrankpinsResult *result = g_new0 (TgCrankpinsResult, 1);
  const TgCrankpinsLimits limits = { .nodes = NODES };
  TgCrankpinsPlacing today = { .changes = 0 };

  if (review->setup->sharing == TG_SHARING_OWN)
    return NULL;
  load_pins (review, problem);
  for (guint b = 0; b < review->sets->len; b++)
    {
      if (!load_set (review, b, &problem->set[b]))
        return NULL;
      today.set[b] = b;
    }
  tg_crankpins_evaluate (problem, &today);
  tg_crankpins_solve (problem, &limits, result);
  pins = g_new0 (TgPairingCrankpins, 1);
  pins->n_pins = problem->n_pins;
  pins->spread_g = tg_mass_to_g (today.spread);
  for (guint pin = 0; pin < problem->n_pins; pin++)
    {
      pins->sum_g[pin] = tg_mass_to_g (today.sum[pin]);
      tg_setup_crankpin (review->setup, pin, pins->bore[pin]);
    }
  if (result->status != TG_CRANKPINS_NONE_EXISTS && result->placing.spread < today.spread &&
      tg_crankpins_evaluate (problem, &result->placing))
    pins->choice = choice_of (review, result, pins);
  return pins;
}

void
tg_pairing_crankpins_free (TgPairingCrankpins *pins)
{
  if (pins->choice)
    tg_choice_free (pins->choice);
  g_free (pins);
}
