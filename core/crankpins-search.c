/* crankpins-search.c: is there a placing with all sums in a window and so many sets kept?
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Depth first.  A level fills the pin, or places the set, that has the fewest choices.  What is left
 * is given up when pairing the lightest with the heaviest, and so on inwards, leaves the window: no
 * pairing has a heavier lightest or a lighter heaviest pin.  (Let the lightest set a sit with c and
 * the heaviest d with b.  Exchanged, a + d ≥ a + c and b + c ≥ a + c, and a + d ≤ b + d and
 * b + c ≤ b + d: the lighter sum does not fall, the heavier does not rise, and a sits with d.
 * Repeat with the rest.)  So without bound sets what is not given up can be paired.
 *
 * Where sets are to keep their bore, first the pins are chosen that keep both.  A pin that does not
 * keeps one at most; without bound sets each can: two sets of one pin that are paired with others
 * lead from pin to pin in closed rings, along which each pair goes to one of its two pins.
 *
 * What was left with no placing is stored, so that it is not searched again.  Of pins and of sets
 * that nothing tells apart only the first is tried.
 */
#include "crankpins-private.h"

#define TABLE_BITS 16
#define ASK_EVERY 1024

/* What is left to place; @need: how many must keep their bore. */
typedef struct
{
  guint32 left;
  guint32 pins;
  int need;
} State;

typedef struct
{
  State state;
  guint32 age;
} Entry;

struct _TgCrankpinsTable
{
  guint32 age;
  Entry entries[1 << TABLE_BITS];
};

static gboolean
sums_hold (const TgCrankpinsSearch *s, guint32 left)
{
  TgMass lightest, heaviest;

  tg_crankpins_set_opposite (s, left, &lightest, &heaviest);
  return lightest >= s->lo && heaviest <= s->hi;
}

/* Counts one node; FALSE: stop. */
static gboolean
count (TgCrankpinsSearch *s)
{
  const TgCrankpinsLimits *limits = s->limits;

  if (s->stopped)
    return FALSE;
  if (limits->nodes > 0 && s->nodes >= limits->nodes)
    s->stopped = TRUE;
  else if (limits->should_stop != NULL && s->nodes % ASK_EVERY == 0 &&
           limits->should_stop (limits->data))
    s->stopped = TRUE;
  else
    s->nodes++;
  return !s->stopped;
}

static Entry *
entry_of (const TgCrankpinsSearch *s, const State *state)
{
  guint64 key = (guint64) state->left << M | state->pins;

  return &s->failed->entries[key * G_GUINT64_CONSTANT (0x9e3779b97f4a7c15) >> (64 - TABLE_BITS)];
}

static gboolean
has_failed (const TgCrankpinsSearch *s, const State *state)
{
  const Entry *entry = entry_of (s, state);

  return entry->age == s->failed->age && entry->state.left == state->left &&
         entry->state.pins == state->pins && entry->state.need <= state->need;
}

static guint32
kept_at (const TgCrankpinsSearch *s, guint pin)
{
  const guint *bore = s->problem->bore[pin];

  return s->keep[bore[0]] | s->keep[bore[1]];
}

/* How many sets can keep their bore if no more pin keeps both. */
static int
most_kept (const TgCrankpinsSearch *s, const State *state)
{
  int most = 0;

  FOR_EACH_BIT (p, state->pins)
  most += (kept_at (s, p) & state->left) != 0;
  return most;
}

/* The sets that may sit at @pin with @i; @keeper: one of the two has to keep its bore. */
static guint32
choices (const TgCrankpinsSearch *s, guint32 left, guint pin, guint i, gboolean keeper)
{
  guint32 all = 0;

  for (guint side = 0; side < 2; side++)
    {
      guint mine = s->problem->bore[pin][side], other = s->problem->bore[pin][1 - side];

      if (s->fit[mine] & BIT (i))
        all |= keeper && !(s->keep[mine] & BIT (i)) ? s->keep[other] : s->fit[other];
    }
  return all & s->partners[i] & left;
}

static gboolean expand (TgCrankpinsSearch *s, const State *state);

/* Puts @i and @j on a pin, the way round that keeps more. */
static gboolean
try_pair (TgCrankpinsSearch *s, const State *state, guint pin, guint i, guint j)
{
  const guint *bore = s->problem->bore[pin];
  State rest = { state->left & ~(BIT (i) | BIT (j)), state->pins & ~BIT (pin), state->need };
  int best = -1;

  for (guint way = 0; way < 2; way++)
    {
      guint first = way == 0 ? i : j, second = way == 0 ? j : i;
      int kept;

      if (!(s->fit[bore[0]] & BIT (first)) || !(s->fit[bore[1]] & BIT (second)))
        continue;
      kept = ((s->keep[bore[0]] & BIT (first)) != 0) + ((s->keep[bore[1]] & BIT (second)) != 0);
      if (kept <= best)
        continue;
      best = kept;
      s->at[bore[0]] = (guint8) first;
      s->at[bore[1]] = (guint8) second;
    }
  /* pins that keep both were chosen before */
  if (best < 0 || best == 2)
    return FALSE;
  rest.need -= best;
  return expand (s, &rest);
}

/* A set that has a twin of lower place left, other than @mate, is not tried. */
static gboolean
is_repeated (const TgCrankpinsSearch *s, guint32 left, guint i, guint mate)
{
  return (s->twins[i] & left & ~BIT (mate)) != 0;
}

/* The pins left without those that are like one before. */
static guint32
different_pins (const TgCrankpinsSearch *s, const State *state)
{
  guint32 different = 0, plain = 0;

  FOR_EACH_BIT (p, state->pins)
  {
    gboolean keeps = (kept_at (s, p) & state->left) != 0;

    if (!keeps && (s->alike[p] & plain) != 0)
      continue;
    different |= BIT (p);
    if (!keeps)
      plain |= BIT (p);
  }
  return different;
}

/* The pin or the set with the fewest choices; FALSE: one has none. */
static gboolean
fewest_choices (
    const TgCrankpinsSearch *s, const State *state, guint32 pins, int slack, int *pin, int *set)
{
  guint least = G_MAXUINT, of_set[N] = { 0 };

  *pin = *set = -1;
  FOR_EACH_BIT (p, pins)
  {
    gboolean keeper = slack == 0 && (kept_at (s, p) & state->left) != 0;
    guint of_pin = 0;

    FOR_EACH_BIT (i, state->left)
    {
      guint n = (guint) __builtin_popcount (choices (s, state->left, p, i, keeper));

      of_set[i] += n;
      of_pin += n;
    }
    if (of_pin / 2 < least)
      {
        least = of_pin / 2;
        *pin = (int) p;
      }
  }
  FOR_EACH_BIT (i, state->left)
  if (of_set[i] < least)
    {
      least = of_set[i];
      *set = (int) i;
    }
  return least > 0;
}

static gboolean
fill_pin (TgCrankpinsSearch *s, const State *state, guint pin, int slack)
{
  gboolean keeper = slack == 0 && (kept_at (s, pin) & state->left) != 0;

  FOR_EACH_BIT (i, state->left)
  FOR_EACH_BIT (j, choices (s, state->left, pin, i, keeper) & ~(BIT (i) - 1))
  if (!is_repeated (s, state->left, i, j) && !is_repeated (s, state->left, j, i) &&
      try_pair (s, state, pin, i, j))
    return TRUE;
  return FALSE;
}

static gboolean
place_set (TgCrankpinsSearch *s, const State *state, guint32 pins, guint i, int slack)
{
  FOR_EACH_BIT (p, pins)
  {
    gboolean keeper = slack == 0 && (kept_at (s, p) & state->left) != 0;

    FOR_EACH_BIT (j, choices (s, state->left, p, i, keeper))
    if (!is_repeated (s, state->left, j, i) && try_pair (s, state, p, i, j))
      return TRUE;
  }
  return FALSE;
}

static gboolean
expand (TgCrankpinsSearch *s, const State *state)
{
  int slack = most_kept (s, state) - state->need, pin, set;
  guint32 pins = different_pins (s, state);
  gboolean found;

  if (slack < 0 || !sums_hold (s, state->left))
    return FALSE;
  if (state->pins == 0)
    return TRUE;
  if (!count (s) || has_failed (s, state) || !fewest_choices (s, state, pins, slack, &pin, &set))
    return FALSE;
  found = set >= 0 ? place_set (s, state, pins, (guint) set, slack)
                   : fill_pin (s, state, (guint) pin, slack);
  if (!found && !s->stopped)
    *entry_of (s, state) = (Entry){ *state, s->failed->age };
  return found;
}

static gboolean
keeps_both (const TgCrankpinsSearch *s, guint pin)
{
  const guint *bore = s->problem->bore[pin];
  guint32 first = s->keep[bore[0]], second = s->keep[bore[1]];

  return first != 0 && second != 0 && (s->partners[__builtin_ctz (first)] & second) != 0;
}

/* Chooses which of the pins from @pin on keep both, most first. */
static gboolean
keep_pins (TgCrankpinsSearch *s, const State *state, guint pin)
{
  int both = 0;

  if (!count (s) || !sums_hold (s, state->left))
    return FALSE;
  for (guint p = pin; p < s->m; p++)
    both += keeps_both (s, p);
  for (; pin < s->m; pin++)
    {
      const guint *bore = s->problem->bore[pin];
      State rest = { state->left & ~kept_at (s, pin), state->pins & ~BIT (pin), state->need - 2 };

      if (most_kept (s, state) + both < state->need)
        return FALSE;
      if (!keeps_both (s, pin))
        continue;
      s->at[bore[0]] = (guint8) __builtin_ctz (s->keep[bore[0]]);
      s->at[bore[1]] = (guint8) __builtin_ctz (s->keep[bore[1]]);
      if (keep_pins (s, &rest, pin + 1))
        return TRUE;
      both--;
    }
  return expand (s, state);
}

gboolean
tg_crankpins_search_decide (TgCrankpinsSearch *s, TgMass lo, TgMass hi, guint kept)
{
  State all = { BIT (s->n) - 1, BIT (s->m) - 1, (int) kept };

  s->lo = lo;
  s->hi = hi;
  s->keeping = kept > 0;
  for (guint b = 0; b < s->n; b++)
    s->keep[b] = s->keeping ? s->today[b] & s->fit[b] : 0;
  tg_crankpins_set_compare (s);
  if (s->failed == NULL)
    s->failed = g_new0 (TgCrankpinsTable, 1);
  s->failed->age++;
  return keep_pins (s, &all, 0);
}
