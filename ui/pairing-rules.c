/* pairing-rules.c: what the person wants a pairing to keep
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The rules in force are the review's; here they are found, put into words and turned into events.
 */
#include "pairing-rules.h"

static const TgRuleReview *
rule_at (const TgReview *review, guint i)
{
  return &g_array_index (review->rules, TgRuleReview, i);
}

const TgRuleReview *
tg_pairing_rules_find (const TgReview *review, TgRule rule, guint part, guint other)
{
  for (guint i = 0; i < review->rules->len; i++)
    {
      const TgRuleReview *found = rule_at (review, i);

      if (found->rule == rule && rule != TG_RULE_BORE &&
          ((found->part == part && found->other == other) ||
           (found->part == other && found->other == part)))
        return found;
    }
  return NULL;
}

const TgRuleReview *
tg_pairing_rules_find_bore (const TgReview *review, guint part)
{
  for (guint i = 0; i < review->rules->len; i++)
    if (rule_at (review, i)->rule == TG_RULE_BORE && rule_at (review, i)->part == part)
      return rule_at (review, i);
  return NULL;
}

TgEvent
tg_pairing_rules_event (const TgReview *review, const TgRuleReview *rule, gboolean on)
{
  TgEvent event = tg_event_blank (TG_EVENT_RULE);

  event.rule = rule->rule;
  event.on = on;
  event.part = tg_review_part (review, rule->part)->part->id;
  if (rule->rule == TG_RULE_BORE)
    event.bore = rule->bore;
  else
    event.other = tg_review_part (review, rule->other)->part->id;
  return event;
}

char *
tg_pairing_rules_words (const TgReview *review, const TgRuleReview *rule)
{
  const char *part = tg_review_part (review, rule->part)->part->name;

  if (rule->rule == TG_RULE_BORE)
    return g_strdup_printf ("%s stays at bore %u", part, rule->bore);
  return g_strdup_printf ("%s %s %s", part,
                          rule->rule == TG_RULE_TOGETHER ? "stays with" : "never with",
                          tg_review_part (review, rule->other)->part->name);
}

gboolean
tg_pairing_rules_kept (const TgPairing *pairing, TgMatchingPlan *plan)
{
  gboolean kept = tg_matching_evaluate (&pairing->problem, plan);
  TgMatchingProblem rules = pairing->problem;
  TgMatchingPart parts[TG_MATCHING_MAX_FAMILIES][TG_MATCHING_MAX_PARTS];
  TgMatchingPlan copy = *plan;

  if (kept || !pairing->joint)
    return kept;
  for (guint f = 0; f < rules.n_families; f++)
    {
      for (guint i = 0; i < rules.families[f].n_parts; i++)
        {
          parts[f][i] = rules.families[f].parts[i];
          parts[f][i].capacity = TG_MATCHING_NO_LIMIT;
        }
      rules.families[f].parts = parts[f];
    }
  return tg_matching_evaluate (&rules, &copy);
}
