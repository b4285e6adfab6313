/* match-desk.c: what the Match page works on
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * After an event the question is asked anew.  If it is the same question the answer stays.  If it is
 * another one about the same parts, what is on show stays until there is an answer, with its figures
 * reckoned anew; a pairing made by hand stays until the person wants the best one again.
 */
#include "match-desk.h"

#include <string.h>

#include "pairing-rules.h"

struct _TgMatchDesk
{
  GObject parent_instance;
  TgSession *session;
  gulong changed;
  gboolean awake;
  TgPairingSum sum;
  TgPairingSearch *search;
  TgPairing *pairing;
  char *why_not;
  gboolean has_result, has_today, has_plan;
  TgPairingResult result;
  TgMatchingPlan today, plan;
  gboolean kept; /* the plan keeps the rules */
  gboolean by_hand;
  gboolean accepted;
};

enum
{
  SIGNAL_CHANGED,
  N_SIGNALS
};

static guint signals[N_SIGNALS];

G_DEFINE_FINAL_TYPE (TgMatchDesk, tg_match_desk, G_TYPE_OBJECT)

static void
say_changed (TgMatchDesk *self)
{
  g_signal_emit (self, signals[SIGNAL_CHANGED], 0);
}

/* --- the question ---------------------------------------------------------------------------- */

static gboolean
same_parts (const TgPairing *a, const TgPairing *b)
{
  if (a->problem.n_families != b->problem.n_families ||
      a->problem.n_cylinders != b->problem.n_cylinders)
    return FALSE;
  for (guint f = 0; f < a->problem.n_families; f++)
    {
      const TgPairingFamily *one = &a->families[f], *other = &b->families[f];

      if (one->kind != other->kind || one->n != other->n ||
          memcmp (one->part, other->part, one->n * sizeof one->part[0]) != 0)
        return FALSE;
    }
  return TRUE;
}

static void
show_plan (TgMatchDesk *self, const TgMatchingPlan *plan)
{
  self->plan = *plan;
  self->has_plan = TRUE;
  self->kept = tg_pairing_rules_kept (self->pairing, &self->plan);
}

static void
forget (TgMatchDesk *self)
{
  tg_pairing_search_cancel (self->search);
  g_clear_pointer (&self->pairing, tg_pairing_unref);
  g_clear_pointer (&self->why_not, g_free);
  self->has_result = self->has_today = self->has_plan = FALSE;
  self->by_hand = self->accepted = FALSE;
}

/* @pairing: (transfer full): another question than before */
static void
take_question (TgMatchDesk *self, TgPairing *pairing)
{
  gboolean carried = self->has_plan && same_parts (pairing, self->pairing);
  gboolean by_hand = carried && self->by_hand;
  const TgMatchingPlan before = self->plan;

  forget (self);
  self->pairing = pairing;
  self->by_hand = by_hand;
  self->has_today = tg_pairing_today (pairing, &self->today, NULL);
  if (carried)
    show_plan (self, &before);
  else if (self->has_today)
    show_plan (self, &self->today);
}

static void
ask (TgMatchDesk *self)
{
  g_autofree char *why_not = NULL;
  g_autoptr (TgPairing) pairing = NULL;

  if (!tg_match_desk_has_sum (self, self->sum) &&
      tg_match_desk_has_sum (self, TG_PAIRING_BEARINGS - self->sum))
    self->sum = TG_PAIRING_BEARINGS - self->sum;
  pairing = tg_pairing_new (tg_session_review (self->session), self->sum, &why_not);
  if (!pairing)
    {
      forget (self);
      self->why_not = g_steal_pointer (&why_not);
    }
  else if (!self->pairing || !tg_pairing_equal (pairing, self->pairing))
    take_question (self, g_steal_pointer (&pairing));
  if (self->pairing && !self->has_result && !tg_pairing_search_is_running (self->search))
    tg_pairing_search_start (self->search, self->pairing, TG_MATCH_DESK_MS);
}

static void
on_changed (TgMatchDesk *self)
{
  self->accepted = FALSE;
  if (!self->awake)
    return;
  ask (self);
  say_changed (self);
}

static void
on_finished (TgMatchDesk *self, TgPairing *pairing, const TgPairingResult *result)
{
  g_return_if_fail (pairing == self->pairing);

  self->result = *result;
  self->has_result = TRUE;
  if (tg_pairing_search_found (result) && !self->by_hand)
    show_plan (self, &result->sums.plan);
  say_changed (self);
}

/* --- the person ------------------------------------------------------------------------------ */

void
tg_match_desk_set_awake (TgMatchDesk *desk, gboolean awake)
{
  g_return_if_fail (TG_IS_MATCH_DESK (desk));

  desk->awake = awake;
  if (!awake || !desk->session)
    return;
  ask (desk);
  say_changed (desk);
}

void
tg_match_desk_set_sum (TgMatchDesk *desk, TgPairingSum sum)
{
  g_return_if_fail (TG_IS_MATCH_DESK (desk));

  if (desk->sum == sum || !tg_match_desk_has_sum (desk, sum))
    return;
  forget (desk);
  desk->sum = sum;
  ask (desk);
  say_changed (desk);
}

void
tg_match_desk_search_on (TgMatchDesk *desk, guint allowed_ms)
{
  g_return_if_fail (TG_IS_MATCH_DESK (desk) && desk->pairing);

  tg_pairing_search_start (desk->search, desk->pairing, allowed_ms);
  say_changed (desk);
}

void
tg_match_desk_cancel (TgMatchDesk *desk)
{
  g_return_if_fail (TG_IS_MATCH_DESK (desk));

  tg_pairing_search_cancel (desk->search);
  say_changed (desk);
}

gboolean
tg_match_desk_put (TgMatchDesk *desk, guint family, guint part, guint bore)
{
  TgMatchingPlan swapped;

  g_return_val_if_fail (TG_IS_MATCH_DESK (desk) && desk->has_plan, FALSE);

  tg_pairing_swap (desk->pairing, &desk->plan, family, part, bore - 1, &swapped);
  if (!tg_pairing_rules_kept (desk->pairing, &swapped))
    return FALSE;
  show_plan (desk, &swapped);
  desk->by_hand = TRUE;
  desk->accepted = FALSE;
  say_changed (desk);
  return TRUE;
}

void
tg_match_desk_best_again (TgMatchDesk *desk)
{
  g_return_if_fail (TG_IS_MATCH_DESK (desk) && desk->pairing);

  desk->by_hand = FALSE;
  desk->accepted = FALSE;
  if (desk->has_result && tg_pairing_search_found (&desk->result))
    show_plan (desk, &desk->result.sums.plan);
  else if (!tg_pairing_search_is_running (desk->search))
    tg_pairing_search_start (desk->search, desk->pairing, TG_MATCH_DESK_MS);
  say_changed (desk);
}

typedef struct
{
  guint part;
  gboolean kept;
  double cost_g;
  guint changes;
} Other;

/* Swaps that break a rule come last. */
static int
compare_others (gconstpointer a, gconstpointer b)
{
  const Other *one = a, *other = b;

  if (one->kept != other->kept)
    return one->kept ? -1 : 1;
  if (one->cost_g < other->cost_g || one->cost_g > other->cost_g)
    return one->cost_g < other->cost_g ? -1 : 1;
  if (one->changes != other->changes)
    return one->changes < other->changes ? -1 : 1;
  return one->part < other->part ? -1 : one->part > other->part;
}

GArray *
tg_match_desk_others (TgMatchDesk *desk, guint family, guint bore)
{
  g_autoptr (GArray) others = g_array_new (FALSE, FALSE, sizeof (Other));
  GArray *numbers = g_array_new (FALSE, FALSE, sizeof (guint));

  for (guint i = 0; i < desk->pairing->families[family].n; i++)
    {
      TgMatchingPlan swapped;
      Other other = { .part = i };

      if (desk->plan.part[family][bore - 1] == i)
        continue;
      tg_pairing_swap (desk->pairing, &desk->plan, family, i, bore - 1, &swapped);
      other.kept = tg_pairing_rules_kept (desk->pairing, &swapped);
      other.cost_g = tg_pairing_cost_g (desk->pairing, &swapped);
      other.changes = swapped.changes;
      g_array_append_val (others, other);
    }
  g_array_sort (others, compare_others);
  for (guint i = 0; i < others->len; i++)
    g_array_append_val (numbers, g_array_index (others, Other, i).part);
  return numbers;
}

gboolean
tg_match_desk_accept (TgMatchDesk *desk, GError **error)
{
  TgChoice *choice;
  gboolean done;

  g_return_val_if_fail (TG_IS_MATCH_DESK (desk) && desk->has_plan && desk->kept, FALSE);

  choice = tg_pairing_accept (tg_session_review (desk->session), desk->pairing, &desk->plan);
  done = tg_session_append (desk->session, (const TgEvent *) (gpointer) choice->events->data,
                            choice->events->len, error);
  tg_choice_free (choice);
  if (!done)
    return FALSE;
  desk->accepted = TRUE;
  say_changed (desk);
  return TRUE;
}

/* --- what is asked for ----------------------------------------------------------------------- */

gboolean
tg_match_desk_has_sum (TgMatchDesk *desk, TgPairingSum sum)
{
  g_return_val_if_fail (TG_IS_MATCH_DESK (desk), FALSE);

  return desk->session &&
         tg_setup_in_sum (tg_session_review (desk->session)->setup,
                          sum == TG_PAIRING_PISTONS ? TG_PART_PISTON : TG_PART_BEARINGS);
}

TgPairingSum
tg_match_desk_sum (TgMatchDesk *desk)
{
  return desk->sum;
}

TgSession *
tg_match_desk_session (TgMatchDesk *desk)
{
  return desk->session;
}

const TgReview *
tg_match_desk_review (TgMatchDesk *desk)
{
  return desk->session ? tg_session_review (desk->session) : NULL;
}

const TgPairing *
tg_match_desk_pairing (TgMatchDesk *desk)
{
  return desk->pairing;
}

const char *
tg_match_desk_why_not (TgMatchDesk *desk)
{
  return desk->why_not;
}

const TgPairingResult *
tg_match_desk_result (TgMatchDesk *desk)
{
  return desk->has_result ? &desk->result : NULL;
}

const TgMatchingPlan *
tg_match_desk_today (TgMatchDesk *desk)
{
  return desk->has_today ? &desk->today : NULL;
}

const TgMatchingPlan *
tg_match_desk_plan (TgMatchDesk *desk)
{
  return desk->has_plan ? &desk->plan : NULL;
}

gboolean
tg_match_desk_plan_keeps_rules (TgMatchDesk *desk)
{
  return desk->has_plan && desk->kept;
}

gboolean
tg_match_desk_plan_is_today (TgMatchDesk *desk)
{
  if (!desk->has_plan || !desk->has_today)
    return FALSE;
  for (guint f = 0; f < desk->pairing->problem.n_families; f++)
    for (guint c = 0; c < desk->pairing->problem.n_cylinders; c++)
      if (desk->plan.part[f][c] != desk->today.part[f][c])
        return FALSE;
  return TRUE;
}

gboolean
tg_match_desk_by_hand (TgMatchDesk *desk)
{
  return desk->by_hand;
}

gboolean
tg_match_desk_accepted (TgMatchDesk *desk)
{
  return desk->accepted;
}

guint
tg_match_desk_anchor (TgMatchDesk *desk)
{
  /* rods are the last family */
  return desk->sum == TG_PAIRING_PISTONS ? 0 : desk->pairing->problem.n_families - 1;
}

guint
tg_match_desk_part (TgMatchDesk *desk, guint family, guint bore)
{
  return desk->pairing->families[family].part[desk->plan.part[family][bore - 1]];
}

TgPairingSearch *
tg_match_desk_search (TgMatchDesk *desk)
{
  return desk->search;
}

/* --- the type -------------------------------------------------------------------------------- */

TgMatchDesk *
tg_match_desk_new (void)
{
  return g_object_new (TG_TYPE_MATCH_DESK, NULL);
}

void
tg_match_desk_set_session (TgMatchDesk *desk, TgSession *session)
{
  g_return_if_fail (TG_IS_MATCH_DESK (desk));

  if (desk->session == session)
    return;
  if (desk->session)
    g_clear_signal_handler (&desk->changed, desk->session);
  g_set_object (&desk->session, session);
  forget (desk);
  desk->sum = TG_PAIRING_PISTONS;
  if (session)
    desk->changed = g_signal_connect_swapped (session, "changed", G_CALLBACK (on_changed), desk);
  tg_match_desk_set_awake (desk, desk->awake);
}

static void
tg_match_desk_dispose (GObject *object)
{
  TgMatchDesk *self = TG_MATCH_DESK (object);

  if (self->session)
    g_clear_signal_handler (&self->changed, self->session);
  g_clear_object (&self->session);
  forget (self);
  G_OBJECT_CLASS (tg_match_desk_parent_class)->dispose (object);
}

static void
tg_match_desk_finalize (GObject *object)
{
  g_object_unref (TG_MATCH_DESK (object)->search);
  G_OBJECT_CLASS (tg_match_desk_parent_class)->finalize (object);
}

static void
tg_match_desk_class_init (TgMatchDeskClass *klass)
{
  GObjectClass *object_class = G_OBJECT_CLASS (klass);

  object_class->dispose = tg_match_desk_dispose;
  object_class->finalize = tg_match_desk_finalize;
  signals[SIGNAL_CHANGED] = g_signal_new ("changed", TG_TYPE_MATCH_DESK, G_SIGNAL_RUN_LAST, 0, NULL,
                                          NULL, NULL, G_TYPE_NONE, 0);
}

static void
tg_match_desk_init (TgMatchDesk *self)
{
  self->search = tg_pairing_search_new ();
  g_signal_connect_object (self->search, "finished", G_CALLBACK (on_finished), self,
                           G_CONNECT_SWAPPED);
}
