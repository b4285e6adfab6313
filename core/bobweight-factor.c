/* bobweight-factor.c: which share of the reciprocating mass is hung on the crankpins, see bobweight.h
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The first order of what goes up and down is half a mass that turns with the crank, at its crankpin
 * whatever the angle of the bank, and half one that turns against it.  A counterweight of the share f
 * leaves ½ − f of the first half and all of the other: of forces and of couples the half major axis is
 * |½ − f| |S| + |B|, S the sum over the crankpins and B the part that turns against the crank.  So one
 * half leaves the least, always; but where S is 0 for forces and couples f does nothing at all, and
 * where B is not, something stays, and at f = ½ − |B|/|S| it stays in one plane.  Crankshaft makers
 * then choose differently: common practice, no published standard.
 */
#include "bobweight.h"

#include <math.h>

#include "dynamics.h"
#include "number.h"

/* Sums of unit masses; positions count in the layout's own length. */
#define NOTHING 1e-9

/* The lengths of S and B of a force or couple. */
typedef struct
{
  double with;
  double against;
} Turning;

static Turning
turning_of (const TgDynamicsPair *rotating, const TgDynamicsPair *reciprocating, double unit)
{
  Turning turning = { hypot (rotating->forward.x, rotating->forward.y) / unit,
                      hypot (reciprocating->backward.x, reciprocating->backward.y) / unit };

  if (turning.with < NOTHING)
    turning.with = 0;
  if (turning.against < NOTHING)
    turning.against = 0;
  return turning;
}

static double
length_mm (const TgEngineLayout *layout)
{
  double most = 0;

  for (guint i = 0; i < layout->n; i++)
    most = MAX (most, fabs (layout->cylinders[i].position_mm));
  return most > 0 ? most : 1;
}

static void
turning_all (const TgEngineLayout *layout, Turning *force, Turning *couple)
{
  static const TgDynamicsCrank crank = { 1000, 4000, 30 / G_PI }; /* r ω² is 1 */
  TgDynamicsMasses up_and_down = { .rotating_kg = { 0 } }, round = { .rotating_kg = { 0 } };
  TgDynamicsSums a, b;

  for (guint i = 0; i < layout->n; i++)
    up_and_down.reciprocating_kg[i] = round.rotating_kg[i] = 1.0 / layout->n;
  tg_dynamics_sums (layout, &crank, &up_and_down, &a);
  tg_dynamics_sums (layout, &crank, &round, &b);
  *force = turning_of (&b.force[TG_DYNAMICS_FIRST], &a.force[TG_DYNAMICS_FIRST], 1);
  *couple = turning_of (&b.couple[TG_DYNAMICS_FIRST], &a.couple[TG_DYNAMICS_FIRST],
                        length_mm (layout) / 1000);
}

static char *
maker_words (const Turning *turning, gboolean couple)
{
  double stays = turning->against / (turning->with / 2 + turning->against);
  double plane = turning->with > 0 ? 0.5 - turning->against / turning->with : 0;
  const char *what = couple ? "couple" : "force";
  g_autofree char *percent = tg_number_format (100 * stays, 0);
  g_autofree char *factor = tg_number_format (100 * plane, 1);
  g_autofree char *in_plane = plane > 0.02 && plane < 0.48
                                  ? g_strdup_printf (" With %s %% it would stay in one plane.",
                                                     factor)
                                  : g_strdup ("");

  return g_strdup_printf (
      "Half of the reciprocating mass leaves the least first-order %s, but %s "
      "%% of it stays and turns against the crank.%s Other shares are in use for "
      "this layout: ask the maker of the crankshaft.",
      what, percent, in_plane);
}

double
tg_bobweight_factor (const TgEngineLayout *layout, TgBobweightUse *use, char **ground)
{
  Turning force, couple;

  g_return_val_if_fail (layout && layout->n >= 1 && use && ground, 0);

  turning_all (layout, &force, &couple);
  if (force.with <= 0 && couple.with <= 0)
    {
      *use = TG_BOBWEIGHT_ALONE;
      *ground = g_strdup (
          "With even parts all that turns with the crankpins of this layout cancels "
          "by itself, and so does the first order of the pistons as far as weights on "
          "the crankpins can reach it. Such crankshafts are usually balanced alone, "
          "without bobweights.");
      return 0;
    }
  *use = force.against > 0 || couple.against > 0 ? TG_BOBWEIGHT_MAKER : TG_BOBWEIGHT_HUNG;
  *ground = *use == TG_BOBWEIGHT_HUNG
                ? g_strdup (
                      "With half of the reciprocating mass on the crankpins nothing is left of "
                      "the first-order forces and couples of this layout.")
                : maker_words (force.against > 0 ? &force : &couple, force.against <= 0);
  return 0.5;
}
