/* match-rules.c: the rules that a person makes and lifts on the Match page
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Each is an event.  What is as wanted already makes none.
 */
#include "match-rules.h"

#include "pairing-rules.h"

static gboolean
append_rule (TgMatchDesk *self, const TgRuleReview *rule, gboolean on, GError **error)
{
  TgEvent event = tg_pairing_rules_event (tg_match_desk_review (self), rule, on);

  return tg_session_append (tg_match_desk_session (self), &event, 1, error);
}

gboolean
tg_match_rules_keep (
    TgMatchDesk *desk, TgRule rule, guint part, guint other, gboolean on, GError **error)
{
  const TgReview *review = tg_match_desk_review (desk);
  const TgRuleReview *found = tg_pairing_rules_find (review, rule, part, other);
  const TgRuleReview wanted = { .rule = rule, .part = part, .other = other };

  if ((found != NULL) == on)
    return TRUE;
  return append_rule (desk, found ? found : &wanted, on, error);
}

gboolean
tg_match_rules_keep_bore (TgMatchDesk *desk, guint part, guint bore, gboolean on, GError **error)
{
  const TgRuleReview *found = tg_pairing_rules_find_bore (tg_match_desk_review (desk), part);
  const TgRuleReview wanted = { .rule = TG_RULE_BORE, .part = part, .bore = bore };
  TgEvent events[2];
  guint n = 0;

  if (on ? found && found->bore == bore : !found)
    return TRUE;
  if (found)
    events[n++] = tg_pairing_rules_event (tg_match_desk_review (desk), found, FALSE);
  if (on)
    events[n++] = tg_pairing_rules_event (tg_match_desk_review (desk), &wanted, TRUE);
  return tg_session_append (tg_match_desk_session (desk), events, n, error);
}

gboolean
tg_match_rules_lift (TgMatchDesk *desk, guint index, GError **error)
{
  const TgReview *review = tg_match_desk_review (desk);

  return append_rule (desk, &g_array_index (review->rules, TgRuleReview, index), FALSE, error);
}

gboolean
tg_match_rules_keeps_all (TgMatchDesk *desk, guint bore)
{
  guint anchor = tg_match_desk_anchor (desk);
  guint with = tg_match_desk_part (desk, anchor, bore);

  for (guint f = 0; f < tg_match_desk_pairing (desk)->problem.n_families; f++)
    if (f != anchor && !tg_pairing_rules_find (tg_match_desk_review (desk), TG_RULE_TOGETHER,
                                               tg_match_desk_part (desk, f, bore), with))
      return FALSE;
  return TRUE;
}

gboolean
tg_match_rules_keep_all (TgMatchDesk *desk, guint bore, gboolean on, GError **error)
{
  const TgReview *review = tg_match_desk_review (desk);
  g_autoptr (GArray) events = g_array_new (FALSE, FALSE, sizeof (TgEvent));
  guint anchor = tg_match_desk_anchor (desk);
  guint with = tg_match_desk_part (desk, anchor, bore);

  for (guint f = 0; f < tg_match_desk_pairing (desk)->problem.n_families; f++)
    {
      guint part = tg_match_desk_part (desk, f, bore);
      const TgRuleReview wanted = { .rule = TG_RULE_TOGETHER, .part = part, .other = with };
      const TgRuleReview *found = tg_pairing_rules_find (review, TG_RULE_TOGETHER, part, with);
      TgEvent event;

      if (f == anchor || (found != NULL) == on)
        continue;
      event = tg_pairing_rules_event (review, found ? found : &wanted, on);
      g_array_append_val (events, event);
    }
  return events->len == 0 || tg_session_append (tg_match_desk_session (desk),
                                                (const TgEvent *) events->data, events->len, error);
}
