/* debrief-cause.c: what explains that a reading was off
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A cause is named only where the bench's own figures bear it out: what is left of the error once the
 * cause is taken out is no more than a good reading may be off.  The first that fits is named: a fault of
 * the bench of just that size, then a slip, then a display that had not settled.
 */
#include <math.h>
#include <string.h>

#include "debrief-private.h"

typedef struct
{
  const TgDebriefWalk *walk;
  TgSlot slot;
  double off_g;
  double explained_g;
} Case;

static gboolean
fits (const Case *this, double cause_g)
{
  return fabs (this->off_g - cause_g) <= this->explained_g;
}

static char *
by_bearing (const Case *this, GPtrArray *why)
{
  const TgDebriefWalk *walk = this->walk;
  TgSlot other = this->slot;
  double own_g = tg_practice_bench_catches_g (walk->bench, &this->slot), other_g;

  if (own_g != 0 && fits (this, own_g))
    {
      tg_debrief_term (why, walk->setup, "the bearing", own_g,
                       "what it does to a rod that lies so, until it is rocked free");
      return g_strdup ("the bearing caught, and it was not rocked free");
    }
  if (this->slot.way == TG_WAY_ANY || own_g != 0)
    return NULL;
  other.way = this->slot.way == TG_WAY_MARK_UP ? TG_WAY_MARK_DOWN : TG_WAY_MARK_UP;
  other_g = tg_practice_bench_catches_g (walk->bench, &other);
  if (other_g == 0 || !fits (this, other_g))
    return NULL;
  tg_debrief_term (why, walk->setup, "the bearing", other_g, "what it does the other way up");
  return g_strdup_printf ("so the rod reads with the %s, where the bearing catches: it was not "
                          "turned over",
                          tg_way_label (other.way));
}

/* Alone, or with a bearing that catches as well. */
static char *
by_touch (const Case *this, GPtrArray *why)
{
  const TgPracticeFaults *faults = &this->walk->setup->practice.faults;
  double catch_g = tg_practice_bench_catches_g (this->walk->bench, &this->slot);
  gboolean alone = fits (this, -faults->touch_g);

  if (this->slot.figure == TG_FIGURE_WHOLE || faults->touch_share <= 0 || faults->touch_g <= 0 ||
      (!alone && (catch_g == 0 || !fits (this, catch_g - faults->touch_g))))
    return NULL;
  tg_debrief_term (why, this->walk->setup, "a touch", -faults->touch_g,
                   "what a rod that touches something puts down elsewhere");
  if (alone)
    return g_strdup ("the rod touched something");
  tg_debrief_term (why, this->walk->setup, "the bearing", catch_g, "caught as well");
  return g_strdup ("the rod touched something, and the bearing caught as well");
}

/* The zero was not looked at for long: so far it may have gone in so many loads. */
static char *
by_zero (const Case *this, GPtrArray *why)
{
  const TgDebriefZero *zero = &this->walk->zeros[this->walk->index];
  double drift_g = this->walk->setup->practice.faults.drift_g;
  double reach_g = TG_DEBRIEF_SURE * drift_g * sqrt (zero->lays);

  if (zero->closed || drift_g <= 0 || fabs (this->off_g) > this->explained_g + reach_g)
    return NULL;
  if (zero->since < 20 && zero->looked)
    return NULL;
  tg_debrief_term (why, this->walk->setup, "the zero", reach_g,
                   "so far it may go in so many loads on and off, 3.29 u");
  return g_strdup_printf ("the zero ran away; nobody looked at it for %u readings", zero->since);
}

/* -- slips ---------------------------------------------------------------------------------------- */

/* More than that no fault of the bench makes. */
static double
faults_g (const Case *this)
{
  const TgPracticeFaults *faults = &this->walk->setup->practice.faults;

  return faults->catch_g + faults->touch_g + 2 * this->explained_g;
}

static gboolean
is_swapped (const char *shown, const char *read)
{
  gsize n = strlen (shown), first = 0, last = n;

  if (strlen (read) != n || strcmp (shown, read) == 0)
    return FALSE;
  while (shown[first] == read[first])
    first++;
  while (shown[last - 1] == read[last - 1])
    last--;
  /* neighbours, also across the decimal point */
  return (last - first == 2 || (last - first == 3 && shown[first + 1] == '.')) &&
         shown[first] == read[last - 1] && shown[last - 1] == read[first];
}

/* A display that would have been right, and what slip makes the reading of it. */
static const char *
slip_of (const Case *this, TgMass shown)
{
  TgMass read = this->walk->event->mass;
  guint decimals = tg_mass_decimals (this->walk->setup->resolution);
  g_autofree char *one = tg_mass_format (shown, decimals);
  g_autofree char *two = tg_mass_format (read, decimals);

  if (read == 10 * shown || shown == 10 * read)
    return "the decimal point slipped";
  return is_swapped (one, two) ? "two digits were swapped" : NULL;
}

static char *
by_slip (const Case *this, GPtrArray *why)
{
  TgMass step = this->walk->setup->resolution;
  double right_g = tg_mass_to_g (this->walk->event->mass) - this->off_g;
  TgMass from = (TgMass) ceil ((right_g - this->explained_g) * TG_MASS_G / (double) step) * step;

  /* a smaller slip looks like many another thing */
  if (fabs (this->off_g) <= faults_g (this))
    return NULL;
  for (TgMass shown = from; tg_mass_to_g (shown) <= right_g + this->explained_g; shown += step)
    {
      const char *slip = slip_of (this, shown);

      if (!slip)
        continue;
      tg_debrief_term (why, this->walk->setup, "the display", tg_mass_to_g (shown),
                       "what it may well have shown");
      return g_strdup (slip);
    }
  return NULL;
}

/* The figure of another end, or the whole of the rod, was written down here. */
static char *
by_other_figure (const Case *this, GPtrArray *why)
{
  const TgDebriefWalk *walk = this->walk;
  const TgPart *part = tg_setup_part (walk->setup, this->slot.part);
  double own_g = tg_practice_bench_truth (walk->bench, this->slot.part, this->slot.figure);

  if (part->design->kind != TG_PART_ROD)
    return NULL;
  for (TgFigure figure = 0; figure < TG_N_FIGURES; figure++)
    {
      double other_g = tg_practice_bench_truth (walk->bench, this->slot.part, figure);

      if (figure == this->slot.figure ||
          !fits (this, tg_debrief_shown_g (walk->setup, other_g - own_g)))
        continue;
      tg_debrief_term (why, walk->setup, tg_figure_label (TG_PART_ROD, figure), other_g,
                       "true, at that moment");
      return g_strdup_printf ("that is what its %s weighs", tg_figure_label (TG_PART_ROD, figure));
    }
  return NULL;
}

/* Far beyond what any fault of the bench does, and within what a display shows on its way. */
static char *
by_haste (const Case *this, GPtrArray *why)
{
  double load_g = tg_mass_to_g (this->walk->event->mass) - this->off_g;

  if (fabs (this->off_g) <= faults_g (this) || this->off_g > TG_DEBRIEF_OVERSWING * load_g)
    return NULL;
  tg_debrief_term (why, this->walk->setup, "the faults of this bench", faults_g (this),
                   "all of them together");
  tg_debrief_term (why, this->walk->setup, "a display that swings", TG_DEBRIEF_OVERSWING * load_g,
                   "so far it goes past the load before it settles");
  return g_strdup ("it fits a display that was read before it had settled, and no other fault of "
                   "this bench");
}

TgDebriefCause
tg_debrief_cause (const TgDebriefWalk *walk, double off_g, double explained_g, GPtrArray *why)
{
  static const struct
  {
    char *(*find) (const Case *, GPtrArray *);
    const char *careful;
  } causes[] = {
    { by_bearing, "Turns the rod over where that is asked for, and rocks its bearing free before "
                  "each reading." },
    { by_touch, "Looks that the rod touches nothing but its two supports." },
    { by_zero, "Looks at the empty scale every twenty readings, and sets it to zero." },
    { by_slip, "Looks once more at the display and at what was typed." },
    { by_other_figure, "Looks which figure is asked for before typing." },
    { by_haste, "Lets the display come to rest before reading it." },
  };
  const TgSlot slot = { (guint) walk->part, walk->event->figure, walk->event->way };
  const Case this = { walk, slot, off_g, explained_g };

  for (guint i = 0; i < G_N_ELEMENTS (causes); i++)
    {
      char *words = causes[i].find (&this, why);

      if (words)
        return (TgDebriefCause){ words, causes[i].careful };
    }
  return (TgDebriefCause){ NULL, "Seats the part anew, and reads again what differs." };
}
